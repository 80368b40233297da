//! Crooks: keys that are wanted, players at hand, and the best crooks and changes for them.

use crate::browser::style;
use crate::components::crooks::asked::asked;
use crate::components::crooks::following::follow_crooks;
use crate::components::crooks::gap_card::gap_card;
use crate::components::crooks::keys_field::keys_field;
use crate::components::crooks::plan_card::plan_card;
use crate::components::crooks::plan_rows::plan_rows;
use crate::components::crooks::take_card::take_card;
use crate::components::crooks::way_back::way_back;
use crate::components::lasting::once;
use crate::components::live::{live, when};
use crate::components::sound_panel::caution;
use crate::state::crooks::{Crooks, setting};
use crate::state::session::Session;
use crate::state::speaker::Caution;
use crate::words::crooks as words;
use crookwise_theory::CrookFamily;
use leptos::prelude::*;

/// The page.
pub fn crooks() -> AnyView {
    for sheet in [&style::PANELS, &style::CROOKS] {
        sheet.wear();
    }
    let crooks = once(|| {
        let crooks = Crooks::new(setting::first());
        follow_crooks(crooks);
        crooks
    });
    let Session { names, speaker, .. } = Session::get();
    let title = live(move || {
        let setting = crooks.setting.read();
        let many = |family| setting::many(&setting, family);
        let first = setting::keys(&setting).first().map(|one| one.key);
        words::about(many(CrookFamily::Horn), many(CrookFamily::Trumpet), first, names.get())
    });
    let problem = live(move || crooks.plans.with(|plans| plans.as_ref().err().cloned()));
    view! {
        <div class="crooks">
            <div class="row crooks-head">
                <h2 class="crooks-title">{title}</h2>
                {way_back()}
            </div>
            {keys_field()}
            {asked()}
            <p class="problem" role="alert">{problem}</p>
            <div class="crooks-answer">
                {when(move || speaker.caution.get() == Caution::Said, || caution("gap-card"))}
                {when(move || crooks.shown.is_some(), plan_rows)}
                {when(move || crooks.gap.is_some() && crooks.shown.is_some(), gap_card)}
                {when(move || crooks.shown.is_some(), plan_card)}
                {when(move || crooks.shown.is_some(), take_card)}
            </div>
        </div>
    }
    .into_any()
}
