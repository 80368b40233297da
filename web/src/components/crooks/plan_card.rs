//! The plan that is looked at: how good it is, what it holds, and what the next one would cost or gain.

use crate::components::icon::icon;
use crate::components::live::{live, press};
use crate::components::tones;
use crate::state::crooks::Crooks;
use crate::state::crooks::heard;
use crate::state::crooks::summary::PlanSummary;
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::words::crooks as words;
use leptos::prelude::*;

/// The element of the card.
pub(super) const PLAN_CARD: &str = "plan-card";

/// The card.
pub fn plan_card() -> AnyView {
    let crooks = Crooks::get();
    let Session { desk, speaker, notices, .. } = Session::get();
    let told = Derived::new(move || PlanSummary::of(crooks).unwrap_or_default());
    let text = move |part: fn(&PlanSummary) -> &String| live(move || told.with(|told| part(told).clone()));
    let step = move |name: &'static str,
                     sign: &'static str,
                     places: isize,
                     is_there: fn(&PlanSummary) -> bool| {
        let act = press(move || crooks.turn(places));
        let none = live(move || (!told.with(is_there)).then_some("true"));
        view! {
            <button class="small" title=name aria-label=name aria-disabled=none on:click=act>{icon(sign)}</button>
        }
        .into_any()
    };
    let hear = press(move || {
        let (asked, plans, shown) =
            (crooks.setting.read_untracked(), crooks.plans.read_untracked(), crooks.shown.read_untracked());
        if let (Ok(plans), Some(shown)) = (plans.as_ref(), shown.as_ref()) {
            let tuning = desk.page.read_untracked().intonation.tuning;
            tones::play(speaker, notices, heard::tones(&asked, plans, shown, &tuning));
        }
    });
    view! {
        <section class="card plan-card" id=PLAN_CARD tabindex="-1" aria-label=words::THIS_PLAN>
            <div class="row plan-head">
                <h3>
                    {text(|told| &told.which)}
                    " "
                    <small>{text(|told| &told.proof)}</small>
                </h3>
                <button class="small sea" title=words::HEAR_THE_PLAN aria-label=words::HEAR_THE_PLAN on:click=hear>{icon("hear")}</button>
                {step(words::PLAN_BEFORE, "up", -1, |told| told.has_before)}
                {step(words::NEXT_PLAN, "down", 1, |told| told.has_next)}
            </div>
            <p>{text(|told| &told.made)} " " {text(|told| &told.changes)}</p>
            <p class="quiet">{text(|told| &told.left)}</p>
            <p class="quiet">{text(|told| &told.next)}</p>
            <p class="quiet">{words::A_GUIDE}</p>
        </section>
    }
    .into_any()
}
