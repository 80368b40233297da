//! Reading along: the way into it over the music, and what stands at the foot of the window while somebody does.

use crate::browser::{focus, screen};
use crate::components::later::{Fetched, later};
use crate::components::live::{each, either, live, press, when};
use crate::components::movement::along_deeds::ReadAlong;
use crate::components::movement::ways::ways;
use crate::components::practise::entry_question::{entry_for_the_class, entry_question};
use crate::state::kept::{Derived, Watched, follow};
use crate::state::movement::along::{Along, EntryNotes};
use crate::words::along as words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// What stands at the foot of the window.
pub(super) const READING_ALONG: &str = "reading-along";
/// The way into it.
pub(super) const OPENER: &str = "read-along";

/// The way into it: the parts that are chosen, of which one is read.
pub fn read_along() -> AnyView {
    let open = Watched::new(false);
    let turn = press(move || open.set(!open.get_untracked()));
    let expanded = live(move || Some(open.get().to_string()));
    view! {
        <button class="kind" id=OPENER aria-expanded=expanded on:click=turn>{words::READ_ALONG}</button>
        {when(move || open.get(), parts)}
    }
    .into_any()
}

fn parts() -> AnyView {
    let reader = ReadAlong::get();
    let movement = reader.player.movement;
    let part = move |at: usize| {
        let staff = Derived::new(move || movement.chosen.read().get(at).copied());
        let name = live(move || staff.map(|staff| movement.name_of(*staff)).unwrap_or_default());
        let begin = press(move || {
            if let Some(staff) = staff.get_untracked() {
                reader.begin(staff);
                focus::to(READING_ALONG.to_owned());
            }
        });
        view! { <button on:click=begin>{name}</button> }.into_any()
    };
    let none = live(move || movement.chosen.with(Vec::is_empty).then_some(words::NO_PART));
    view! {
        <div class="along-parts" role="group" aria-label=words::WHICH_PART>
            <p class="quiet">{words::HOW_IT_GOES}</p>
            {asked_notes()}
            <p>{words::WHICH_PART}</p>
            <div class="kinds">{each(Derived::new(move || 0..movement.chosen.read().len()), part)}</div>
            <p class="quiet">{none}</p>
        </div>
    }
    .into_any()
}

/// What is asked of each entry.
fn asked_notes() -> AnyView {
    let all = [(EntryNotes::First, words::FIRST_NOTE), (EntryNotes::FirstBar, words::FIRST_BAR)];
    view! {
        <p>{words::WHAT_IS_ASKED}</p>
        {ways(words::WHAT_IS_ASKED, all, Along::get().notes)}
    }
    .into_any()
}

/// While somebody reads along: where he is, the way on, and what is asked.
pub fn reading_along() -> AnyView {
    let reader = ReadAlong::get();
    let along = reader.player.along;
    let wall = reader.player.music.wall;
    let is_asked = move || along.asked.is_some();
    // On the wall Escape leaves the wall.
    screen::on_escape(move || {
        let is_here = wall.with_untracked(Option::is_none);
        if is_here {
            reader.leave();
        }
        is_here
    });
    // Behind a question the keys are free for the music again.
    let mut asked_before = false;
    follow(move || {
        let asked = is_asked();
        if asked_before && !asked && along.is_on() {
            focus::to(READING_ALONG.to_owned());
        }
        asked_before = asked;
    });
    let place = live(move || Some(reader.place_said()));
    let steps = move || {
        let step = press(move || reader.step());
        let entry = press(move || reader.to_entry());
        view! {
            <div class="along-steps">
                <button class="strong" on:click=step>{words::NEXT_BAR}</button>
                <button on:click=entry>{words::NEXT_QUESTION}</button>
            </div>
        }
        .into_any()
    };
    let leave = press(move || reader.leave());
    view! {
        <section class="moment along" id=READING_ALONG tabindex="-1" aria-label=words::READING_ALONG>
            <p class="told-where" role="status">{place}</p>
            {when(move || !is_asked() && wall.with(Option::is_none), steps)}
            <button aria-label=words::STOP on:click=leave>{words::STOP_FACE}</button>
            {either(
                move || wall.is_some(),
                move || later(move || Box::pin(fetched_for_the_class(along))),
                move || later(move || Box::pin(fetched_question(along))),
            )}
        </section>
    }
    .into_any()
}

#[wasm_split(practise, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_question(along: Along) -> Fetched {
    Ok(entry_question(along))
}

#[wasm_split(practise, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_for_the_class(along: Along) -> Fetched {
    Ok(entry_for_the_class(along))
}
