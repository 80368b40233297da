//! What is done to the lists of exercises and courses: kept, said, and taken back by one tap.

use crate::browser::focus;
use crate::browser::store::database::Refusal;
use crate::components::key_action::go_back_by_keys;
use crate::components::live::{live, press, when};
use crate::state::practise::Practise;
use crate::state::practise::way_back::{DoneLast, WayBack, put_staff};
use crate::state::store::Drawers;
use crate::state::store::lists::changing::TakeBack;
use crate::store::{Store, drawers};
use crate::words;
use leptos::prelude::*;
use leptos::task::spawn_local;

/// The way back, by its id: the keyboard is there when something has gone.
pub const UNDO: &str = "undo-in-lists";

/// What was done, in a sentence, and what takes it back; nothing where there was nothing to do.
pub type Listed = Option<(String, Option<TakeBack>)>;

/// Does something to the lists.
pub fn act(practise: Practise, store: Store, deed: impl FnOnce(&mut Drawers) -> Listed + 'static) {
    boxed(practise, store, Box::new(deed), String::new());
}

/// Takes back what was done last; the keyboard goes where it is back. False where there is nothing to take back.
fn undo(practise: Practise, store: Store) -> bool {
    let Some(back) = practise.done_last.get_untracked().and_then(|done| done.back) else { return false };
    let place = back.place();
    match back {
        WayBack::Staff(at, staff) => {
            let mut set = practise.exercise.get_untracked();
            put_staff(&mut set, at, *staff);
            practise.change_set(set);
            practise.tell(None);
            focus::to(place);
        }
        WayBack::Kept(back) => {
            let deed = Box::new(move |kept: &mut Drawers| {
                back.make(kept);
                None
            });
            boxed(practise, store, deed, place);
        }
    }
    true
}

/// `place` has the keyboard when it is done; empty where it stays where it is.
fn boxed(practise: Practise, store: Store, deed: Box<dyn FnOnce(&mut Drawers) -> Listed>, place: String) {
    spawn_local(async move {
        practise.back_at.set(place.clone());
        let outcome = drawers::change_lists(store, deed).await;
        practise.tell(match outcome {
            Ok(listed) => listed.map(|(said, back)| DoneLast { said, back: back.map(WayBack::Kept) }),
            Err(refusal) => Some(DoneLast::said(words::kept::refusal(refusal == Refusal::Full))),
        });
        if !place.is_empty() {
            focus::to(place);
        }
    });
}

/// The sentence on what was done last, with the way back, which the platform's key for undo takes too.
pub fn done_last() -> AnyView {
    let practise = Practise::get();
    let store = Store::get();
    let said = live(move || practise.done_last.map(|done| done.said.clone()));
    let can = move || practise.done_last.and_then(|done| done.back.clone()).is_some();
    let button = move || {
        let back = press(move || {
            undo(practise, store);
        });
        focus::come(UNDO);
        view! { <button id=UNDO on:click=back>{words::weeks::UNDO}</button> }.into_any()
    };
    go_back_by_keys(move || undo(practise, store), || false);
    let class =
        live(move || if practise.done_last.is_some() { "row done-last" } else { "row done-last silent" });
    view! { <div class=class><span role="status">{said}</span>{when(can, button)}</div> }.into_any()
}
