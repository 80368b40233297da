//! What may be asked of whom: players, their crooks, the hand, the highest partial, the rest for a change, weights. Each stands
//! on a chip that opens its own small list.

use crate::browser::{field, popover};
use crate::components::live::{LiveText, hear, live, press, when};
use crate::components::options::options;
use crate::state::crooks::Crooks;
use crate::state::crooks::chips::{self, AskedChip, OwnedSet};
use crate::state::crooks::setting;
use crate::state::kept::Watched;
use crate::state::session::Session;
use crate::words::crooks as words;
use crookwise_planner::NamedCrook;
use crookwise_theory::CrookFamily;
use leptos::ev::Event;
use leptos::prelude::*;
use std::sync::Arc;

/// The line.
pub fn asked() -> AnyView {
    let all: Vec<_> = AskedChip::ALL.into_iter().map(chip).collect();
    view! { <div class="chips" role="group" aria-label=words::WHAT_HOLDS>{all}</div> }.into_any()
}

fn chip(chip: AskedChip) -> AnyView {
    let crooks = Crooks::get();
    let open = Watched::new(false);
    let toggled = hear(move |event: Event| open.set(popover::turned(&event)));
    let value: LiveText = live(move || crooks.setting.with(|setting| chip.value(setting)));
    view! {
        <button class="chip" popovertarget=chip.id() aria-expanded=live(move || Some(open.get().to_string()))>
            <small>{chip.word()}</small>
            " "
            <span>{value}</span>
        </button>
        <div popover="auto" id=chip.id() class="list" on:toggle=toggled>
            {when(move || open.get(), move || list(chip))}
        </div>
    }
    .into_any()
}

fn list(chip: AskedChip) -> AnyView {
    let crooks = Crooks::get();
    let lists: Vec<_> = chip
        .lists()
        .iter()
        .map(|list| {
            let list = *list;
            options(
                list.label(),
                chip.id(),
                Arc::new(move || list.items()),
                Arc::new(move || crooks.setting.with(|setting| list.value(setting))),
                Arc::new(move |value: String| crooks.change(|setting| list.choose(setting, &value))),
            )
        })
        .collect();
    let ticked: Vec<_> = chip.ticked().iter().map(|family| one_by_one(crooks, *family)).collect();
    let numbers: Vec<_> = chip.numbers().iter().map(|one| number(crooks, *one)).collect();
    let unit = chip.unit().map(|unit| view! { <p class="quiet">{unit}</p> });
    view! { {ticked} {lists} {unit} <div class="asked-numbers">{numbers}</div> }.into_any()
}

/// The crooks of a family, each to be ticked.
fn one_by_one(crooks: Crooks, family: CrookFamily) -> AnyView {
    let tick = |named: NamedCrook| {
        let named = Arc::new(named);
        let own = named.clone();
        let is = live(move || {
            Some(crooks.setting.with(|setting| setting::has_crook(setting, family, &own)).to_string())
        });
        let (crook, names) = (named.crook, Session::get().names);
        let name = live(move || words::crook(crook, names.get()));
        let turn = press(move || crooks.change(|setting| setting::turn_crook(setting, family, &named)));
        view! { <button class="own-crook" aria-pressed=is on:click=turn>{name}</button> }.into_any()
    };
    let all: Vec<_> = NamedCrook::all(family).into_iter().map(tick).collect();
    let sets: Vec<_> = OwnedSet::ALL.into_iter().map(|set| owned_set(crooks, family, set)).collect();
    view! {
        <div class="own-crooks" role="group" aria-label=words::one_by_one(family)>
            <small class="quiet">{words::one_by_one(family)}</small>
            <div class="row">{sets}</div>
            <div class="row">{all}</div>
        </div>
    }
    .into_any()
}

/// Crooks that are owned at one tap.
fn owned_set(crooks: Crooks, family: CrookFamily, set: OwnedSet) -> AnyView {
    let is = live(move || Some(crooks.setting.with(|setting| set.holds(setting, family)).to_string()));
    let give = press(move || crooks.change(|setting| set.give(setting, family)));
    view! { <button class="owned-set" aria-pressed=is on:click=give>{set.label()}</button> }.into_any()
}

/// A number in a field.
fn number(crooks: Crooks, one: chips::AskedNumber) -> AnyView {
    let set = hear(move |event: Event| {
        if let Some(number) = field::number(&event) {
            crooks.change(|setting| one.set(setting, number));
        }
    });
    let (least, most) = one.range();
    view! {
        <label class="field narrow">
            <span>{one.label()}</span>
            <input
                type="number"
                inputmode="numeric"
                aria-label=one.label()
                min=least.to_string()
                max=most.to_string()
                prop:value=live(move || Some(crooks.setting.with(|setting| one.value(setting).to_string())))
                on:change=set
            />
        </label>
    }
    .into_any()
}
