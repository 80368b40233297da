//! A moment of the movement: the note that was tapped, the chord that the page makes there, who holds what of it.

use crate::browser::measure;
use crate::components::live::{live, press, when};
use crate::components::movement::deeds::Deeds;
use crate::components::movement::map_deeds::go_to_bar;
use crate::components::movement::music::pixel_text;
use crate::components::movement::turns::other_crook;
use crate::components::together_panel::member;
use crate::state::glance::Glance;
use crate::state::kept::{Derived, Watched};
use crate::state::movement::Movement;
use crate::state::movement::moment::{MomentTold, begins, harmony_at, name_of, stretch};
use crate::state::movement::music::Music;
use crate::state::session::Session;
use crate::words;
use crookwise_opened::DrawnRow;
use leptos::prelude::*;

/// What is told of a moment, at the foot of the window.
pub(super) const MOMENT: &str = "moment";
/// A letter of the name of a chord takes so many pixels at most; a name that has less room is left to the tap.
const LETTER: f64 = 9.5;
/// The same on the wall.
const LETTER_ON_THE_WALL: f64 = 20.0;

/// The panel, while a moment is looked at; it stays at the foot of the window under the music.
pub fn moment() -> AnyView {
    let music = Music::get();
    when(move || music.spot.is_some(), panel).into_any()
}

fn panel() -> AnyView {
    let (music, movement) = (Music::get(), Movement::get());
    let names = Session::get().names;
    let told = Derived::new(move || {
        let rows = music.harmonies.read();
        let row = rows.get(harmony_at(&rows, music.spot.get()?)?)?;
        let (label, printed) = (|staff| movement.name_of(staff), |bar| movement.printed(bar));
        Some(MomentTold::of(row, names.get(), &movement.chosen.read(), &label, &printed))
    });
    let part = move |of: fn(&MomentTold) -> &String| {
        live(move || told.map(|told| of(told).clone()).unwrap_or_default())
    };
    let name = live(move || {
        let found = told.map(|told| told.name.clone());
        Some(found.unwrap_or_else(|| words::movement::CHORDS_ARE_FOUND.to_owned()))
    });
    let members = live(move || {
        told.map(|told| told.members.iter().map(member).collect::<Vec<_>>()).unwrap_or_default()
    });
    // On a telephone the music keeps its room until they are asked for.
    let wide = !measure::is_narrow();
    let leave = press(move || {
        music.spot.set(None);
        music.tapped.set(None);
    });
    view! {
        <section class="moment" id=MOMENT aria-label=words::movement::THIS_MOMENT>
            <div class="moment-steps">
                {step(words::movement::CHORD_BEFORE, "←", false)}
                {step(words::movement::CHORD_AFTER, "→", true)}
                <button class="step" aria-label=words::movement::LEAVE_THIS_MOMENT on:click=leave>
                    <span aria-hidden="true">"×"</span>
                </button>
            </div>
            {when(move || music.tapped.is_some(), note)}
            <div class="moment-chord" role="status">
                <span class="quiet">{part(|told| &told.place)}</span>
                <b class="harmony">{name}</b>
                <span>{part(|told| &told.remarks)}</span>
                <span class="quiet">{part(|told| &told.drums)}</span>
            </div>
            <details class="holders" open=wide>
                <summary>{words::movement::WHO_HOLDS_WHAT}</summary>
                <dl class="members">{members}</dl>
            </details>
        </section>
    }
    .into_any()
}

/// Leads to the chord before or after.
fn step(name: &'static str, arrow: &'static str, after: bool) -> AnyView {
    let music = Music::get();
    let go = press(move || {
        let rows = music.harmonies.read_untracked();
        let here = music.spot.get_untracked().and_then(|spot| harmony_at(&rows, spot));
        let to = here.and_then(|here| if after { here.checked_add(1) } else { here.checked_sub(1) });
        if let Some(row) = to.and_then(|to| rows.get(to)) {
            let bar_before = music.spot.get_untracked().map(|(bar, _)| bar);
            let spot = begins(row);
            music.tapped.set(None);
            music.spot.set(Some(spot));
            // The page moves only with the bar.
            if bar_before != Some(spot.0) {
                go_to_bar(music, spot.0, &[]);
            }
        }
    });
    view! {
        <button class="step" aria-label=name on:click=go>
            <span aria-hidden="true">{arrow}</span>
        </button>
    }
    .into_any()
}

/// What is said of the note that was tapped.
fn note() -> AnyView {
    let (music, movement, deeds) = (Music::get(), Movement::get(), Deeds::get());
    let place = live(move || {
        let tapped = music.tapped.get()?;
        Some(words::movement::in_bar(&movement.name_of(tapped.staff), &movement.printed(tapped.bar)))
    });
    let part = move |of: fn(&Glance) -> &String| {
        live(move || music.tapped.get().and_then(|tapped| tapped.glance).map(|glance| of(&glance).clone()))
    };
    let go = press(move || {
        if let Some(tapped) = music.tapped.get_untracked() {
            deeds.show_note(tapped.staff, tapped.note);
        }
    });
    view! {
        <div class="tapped" role="status">
            <span class="quiet">{place}</span>
            <b>{part(|glance| &glance.written)}</b>
            <span class="arrow">"→"</span>
            <b class="sea">{part(|glance| &glance.sounding)}</b>
            <span>{part(|glance| &glance.headline)}</span>
            <button on:click=go>{words::movement::OPEN_IN_READ}</button>
            {other_crook()}
        </div>
    }
    .into_any()
}

/// The names of the chords under a system, where they have room; `scale` is the pixels of a staff space.
pub fn names_beneath(drawn: Watched<Option<DrawnRow>>, scale: f64) -> AnyView {
    let music = Music::get();
    let names = Session::get().names;
    let pixels = move |length: i32| f64::from(length) / 100.0 * scale;
    let all = live(move || {
        let on_wall = music.wall.is_some();
        let stand = music.wall.get().map_or_else(|| music.together.get(), |wall| wall.chords);
        if !stand {
            return Vec::new();
        }
        let letter = if on_wall { LETTER_ON_THE_WALL } else { LETTER };
        let rows = music.harmonies.read();
        let beneath = |drawn: &DrawnRow| -> Vec<AnyView> {
            let placed = rows.iter().filter_map(|row| Some((stretch(drawn, row)?, row)));
            placed
                .map(|((left, right), row)| (pixels(left), pixels(right - left), name_of(row, names.get())))
                .filter(|(_, wide, name)| *wide >= name.chars().count() as f64 * letter)
                .map(|(left, _, name)| view! { <span style:left=pixel_text(left)>{name}</span> }.into_any())
                .collect()
        };
        drawn.map(beneath).unwrap_or_default()
    });
    view! { <div class="chord-names" aria-hidden="true">{all}</div> }.into_any()
}
