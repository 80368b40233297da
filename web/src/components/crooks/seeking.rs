//! Plans for notes are sought a little at a time, so that the page stays awake, and can be stopped.

use crate::browser::clock;
use crate::components::live::press;
use crate::state::crooks::{Crooks, SoughtPlans};
use crate::state::kept::follow;
use crate::words::crooks as words;
use crookwise_planner::{PlanSearch, Planned};
use crookwise_share::crooks::{CrooksLink, CrooksWanted};
use leptos::prelude::*;
use leptos::task::spawn_local;

/// Steps between two looks at what the reader does: some hundredths of a second.
const STEPS: usize = 2_000;

/// Seeks plans whenever other notes are wanted, for as long as the app lasts.
pub fn follow_seeking(crooks: Crooks) {
    follow(move || {
        let asked = crooks.asked.get();
        untrack(|| begin(crooks, asked));
    });
}

fn begin(crooks: Crooks, asked: CrooksLink) {
    let is_known = crooks.sought.with(|sought| sought.as_ref().is_some_and(|sought| sought.asked == asked));
    if is_known || !matches!(asked.wanted, CrooksWanted::Notes(_)) {
        return;
    }
    match PlanSearch::of(asked.request()) {
        Ok(search) => {
            crooks.sought.set(Some(SoughtPlans {
                asked: asked.clone(),
                found: Err(String::new()),
                goes_on: true,
            }));
            spawn_local(seek(crooks, asked, search));
        }
        Err(error) => {
            crooks.sought.set(Some(SoughtPlans { asked, found: Err(error.to_string()), goes_on: false }));
        }
    }
}

async fn seek(crooks: Crooks, asked: CrooksLink, mut search: PlanSearch) {
    loop {
        let is_over = search.go_on(STEPS);
        let now = crooks.sought.get_untracked().filter(|sought| sought.asked == asked);
        // Something else is wanted by now.
        let Some(now) = now else { return };
        if is_over || !now.goes_on {
            let found = Planned { request: search.request().clone(), outcome: search.outcome() };
            crooks.sought.set(Some(SoughtPlans { asked, found: Ok(found), goes_on: false }));
            return;
        }
        clock::a_picture().await;
    }
}

/// What is said while plans are sought; what was found when it is stopped is shown.
pub fn seeking() -> AnyView {
    let crooks = Crooks::get();
    let stop = press(move || {
        crooks.sought.update(|sought| {
            if let Some(sought) = sought {
                sought.goes_on = false;
            }
        });
    });
    view! {
        <div class="card row" role="status">
            <p>{words::PLANS_ARE_SOUGHT}</p>
            <button on:click=stop>{words::STOP}</button>
        </div>
    }
    .into_any()
}
