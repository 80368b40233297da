//! Crooks: keys that are wanted, players at hand, and the best crooks and changes for them.

use crate::browser::style;
use crate::components::crooks::asked::asked;
use crate::components::crooks::following::{first, follow_crooks};
use crate::components::crooks::gap_card::gap_card;
use crate::components::crooks::keys_field::keys_field;
use crate::components::crooks::may_write::may_write;
use crate::components::crooks::plan_card::plan_card;
use crate::components::crooks::plan_rows::plan_rows;
use crate::components::crooks::seeking::{follow_seeking, seeking};
use crate::components::crooks::table::crook_table;
use crate::components::crooks::take_card::take_card;
use crate::components::crooks::views::views;
use crate::components::crooks::wanted_notes::wanted_notes;
use crate::components::crooks::way_back::way_back;
use crate::components::lasting::once;
use crate::components::later::{Fetched, later};
use crate::components::live::{live, when};
use crate::components::sound_panel::caution;
use crate::state::crooks::{Crooks, setting};
use crate::state::kept::Watched;
use crate::state::session::Session;
use crate::state::speaker::Caution;
use crate::words::crooks as words;
use crookwise_share::crooks::{CrooksLink, CrooksView};
use crookwise_theory::CrookFamily;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The page.
pub fn crooks() -> AnyView {
    for sheet in [&style::PANELS, &style::CROOKS] {
        sheet.wear();
    }
    let crooks = once(|| {
        let crooks = Crooks::new(untrack(first)).named(Session::get().names);
        follow_crooks(crooks);
        follow_seeking(crooks);
        crooks
    });
    let speaker = Session::get().speaker;
    let is = move |view: CrooksView| move || crooks.setting.with(|setting| setting.view == view);
    view! {
        <div class="crooks">
            {views()}
            {when(move || speaker.caution.get() == Caution::Said, || caution("gap-card"))}
            {when(is(CrooksView::Plans), plans)}
            {when(is(CrooksView::Table), move || later(move || Box::pin(fetched_table(crooks.setting))))}
            {when(is(CrooksView::MayWrite), move || later(move || Box::pin(fetched_may_write(crooks.setting))))}
        </div>
    }
    .into_any()
}

// Who plans does without the two other views until he looks at one.
#[wasm_split(crook_table, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_table(setting: Watched<CrooksLink>) -> Fetched {
    style::CROOK_TABLE.wear();
    Ok(crook_table(setting))
}

#[wasm_split(crook_table, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_may_write(setting: Watched<CrooksLink>) -> Fetched {
    style::CROOK_TABLE.wear();
    Ok(may_write(setting))
}

/// The plans for what is wanted.
fn plans() -> AnyView {
    let crooks = Crooks::get();
    let names = Session::get().names;
    let title = live(move || {
        let setting = crooks.setting.read();
        let many = |family| setting::many(&setting, family);
        let what = setting::movement(&setting, names.get());
        words::about(many(CrookFamily::Horn), many(CrookFamily::Trumpet), what.as_deref())
    });
    let problem = live(move || crooks.plans.with(|plans| plans.as_ref().err().cloned()));
    view! {
        <div class="row crooks-head">
            <h2 class="crooks-title">{title}</h2>
            {way_back()}
        </div>
        {when(move || crooks.wants_keys(), keys_field)}
        {when(move || !crooks.wants_keys(), wanted_notes)}
        {asked()}
        <p class="problem" role="alert">{problem}</p>
        {when(move || crooks.is_seeking(), seeking)}
        {when(move || crooks.is_of_before(), || view! { <p class="of-before">{words::OF_BEFORE}</p> }.into_any())}
        <div class=live(move || if crooks.is_of_before() { "crooks-answer before" } else { "crooks-answer" })>
            {when(move || crooks.shown.is_some(), plan_rows)}
            {when(move || crooks.gap.is_some() && crooks.shown.is_some(), gap_card)}
            {when(move || crooks.shown.is_some(), plan_card)}
            {when(move || crooks.shown.is_some(), take_card)}
        </div>
    }
    .into_any()
}
