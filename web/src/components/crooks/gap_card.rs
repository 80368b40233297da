//! What is missing at the gap that is looked at, and what can be done about it.

use crate::browser::focus;
use crate::components::crooks::plan_card::PLAN_CARD;
use crate::components::crooks::plan_rows::gap_id;
use crate::components::crooks::table::play;
use crate::components::icon::icon;
use crate::components::live::{live, press};
use crate::state::crooks::Crooks;
use crate::state::crooks::mending::{MissingNote, OfferedRemedy, missing};
use crate::state::crooks::other_plan::whole_at;
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::words::crook_gaps as gap_words;
use crate::words::crooks as words;
use leptos::prelude::*;

/// The card.
pub(super) const GAP_CARD: &str = "gap-card";

/// The card.
pub fn gap_card() -> AnyView {
    let crooks = Crooks::get();
    let names = Session::get().names;
    let title = live(move || {
        let names = names.get();
        crooks.with_gap(|picture, gap| gap.said(picture, names))
    });
    let found = Derived::new(move || {
        let (setting, plans, shown) = (crooks.setting.read(), crooks.plans.read(), crooks.shown.read());
        let (Ok(plans), Some(shown)) = (plans.as_ref(), shown.as_ref()) else { return Vec::new() };
        crooks.with_gap(|_, gap| missing(&setting, plans, shown, gap, names.get())).unwrap_or_default()
    });
    let notes =
        live(move || found.get().into_iter().map(|one| missing_note(crooks, one)).collect::<Vec<_>>());
    let other = live(move || {
        let (plans, shown) = (crooks.plans.read(), crooks.shown.read());
        let (plans, shown) = (plans.as_ref().as_ref().ok()?, shown.as_ref().as_ref()?);
        let at = crooks.with_gap(|_, gap| whole_at(plans, shown, gap))??;
        Some(other_plan(crooks, at, shown.at))
    });
    let leave = press(move || {
        let at = crooks.gap.get_untracked().unwrap_or_default();
        crooks.gap.set(None);
        focus::to(gap_id(at));
    });
    view! {
        <section class="card gap-card" id=GAP_CARD tabindex="-1" aria-label=words::REMEDIES>
            <h3>{title}</h3>
            {other}
            {notes}
            <div class="row"><button on:click=leave>{words::LEAVE_THIS_GAP}</button></div>
        </section>
    }
    .into_any()
}

/// A button that leads to a plan without this gap.
fn other_plan(crooks: Crooks, to: usize, from: usize) -> AnyView {
    let look = press(move || {
        crooks.turn(to.cast_signed() - from.cast_signed());
        focus::to(PLAN_CARD.to_owned());
    });
    view! { <button class="remedy" on:click=look>{gap_words::another_plan_has_it(to)}</button> }.into_any()
}

fn missing_note(crooks: Crooks, missing: MissingNote) -> AnyView {
    let MissingNote { pitch, said, remedies } = missing;
    let hear = press(move || play(&[pitch]));
    let none = remedies.is_empty().then_some(words::NO_REMEDY);
    let all: Vec<_> = remedies.into_iter().map(|one| remedy(crooks, one)).collect();
    view! {
        <div class="row">
            <p>{said}</p>
            <button class="hear" aria-label=words::HEAR_IT on:click=hear>{icon("hear")}</button>
        </div>
        {all}
        <p class="quiet">{none}</p>
    }
    .into_any()
}

fn remedy(crooks: Crooks, remedy: OfferedRemedy) -> AnyView {
    let OfferedRemedy { said, gain, mend } = remedy;
    let Some(mend) = mend else { return view! { <p class="quiet">{said}</p> }.into_any() };
    let take = press(move || {
        crooks.mend(mend.clone());
        focus::to(PLAN_CARD.to_owned());
    });
    let gain = (!gain.is_empty()).then(|| view! { <small>{gain}</small> }.into_any());
    view! {
        <button class="remedy" on:click=take>
            <span>{said}</span>
            {gain}
        </button>
    }
    .into_any()
}
