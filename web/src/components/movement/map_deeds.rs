//! What the map of a movement asks of the worker, and how the reader is led to a bar.

use crate::browser::in_turn::take_turns;
use crate::browser::{measure, sight};
use crate::components::movement::along::READING_ALONG;
use crate::components::movement::deeds::Deeds;
use crate::components::movement::map::MAP;
use crate::components::movement::moment::MOMENT;
use crate::components::movement::music::SYSTEMS;
use crate::components::movement::on_wall::WALL_BAR;
use crate::components::movement::player::PLAYBACK;
use crate::components::movement::taking::PICKED;
use crate::state::kept::{Derived, follow};
use crate::state::movement::Movement;
use crate::state::movement::map::MapState;
use crate::state::movement::music::Music;
use crookwise_opened::{Answer, Ask};
use leptos::prelude::untrack;
use std::sync::Arc;

/// A system that is gone to stands so many pixels under the map.
pub(super) const UNDER_THE_MAP: f64 = 18.0;
/// A staff that is gone to ends so many pixels over what stays at the foot of the window, at least.
const OVER_THE_FOOT: f64 = 12.0;
/// What may stay there, over each other.
const AT_THE_FOOT: [&str; 5] = [PLAYBACK, READING_ALONG, MOMENT, PICKED, WALL_BAR];

/// Has the movement seen from afar for the map, once its music stands there, and anew when it is corrected.
pub fn follow_map() {
    let (movement, music, map, deeds) = (Movement::get(), Music::get(), MapState::get(), Deeds::get());
    let stands = Derived::new(move || !music.laid_out.with(|laid| laid.systems.is_empty()));
    follow(move || {
        let now = movement.now();
        if !stands.get() {
            return;
        }
        if map.of.with_untracked(|of| of.as_ref().is_none_or(|of| of.0 != now.0)) {
            map.empty();
        }
        // What stands in the window is asked for before.
        take_turns(move || {
            deeds.ask_once(map.of, now.clone(), Ask::Map, move |answer| {
                if let Answer::Map(rows) = answer {
                    map.rows.set(Some(Arc::new(*rows)));
                }
            });
            false
        });
    });
    follow_places();
}

/// Has the places found once map and audit are there: they take longer, and what is in the window is drawn before.
fn follow_places() {
    let (movement, map, deeds) = (Movement::get(), MapState::get(), Deeds::get());
    let wanted = Derived::new(move || {
        let ready = map.rows.is_some() && movement.audit.is_some();
        map.of.get().filter(|_| ready)
    });
    follow(move || {
        let Some(now) = wanted.get() else { return };
        deeds.ask_once(map.places_of, now, Ask::Places, move |answer| {
            if let Answer::Places(places) = answer {
                map.places.set(places);
            }
        });
    });
}

/// Brings a bar into sight, with the staves that enter in it, and marks both.
pub fn go_to_bar(music: Music, bar: u32, staves: &[u32]) {
    music.go_to(bar, staves);
    show_bar(music, bar);
}

/// Brings the system of a bar into sight, its top under what stays at the head of the window, or as little further down as shows
/// the staves that were gone to over what stays at the foot.
pub fn show_bar(music: Music, bar: u32) {
    let (cover, room) = uncovered();
    let staves = untrack(|| music.whose(bar));
    let down = music.laid_out.with_untracked(|laid| laid.shown_from(bar, &staves, room));
    music.shown_in.set(down.map(|down| (bar, down, room)));
    match down {
        Some(down) => sight::show_under(SYSTEMS, down, cover),
        // Its system is not laid out yet.
        None if music.is_moving.get_untracked() => music.arrives_at.set(Some(bar)),
        None => {}
    }
}

/// Shows it once the music is there that changes now, before it is seen; the reader is led there until then, or until its system
/// is laid out.
pub fn show_bar_soon(music: Music, bar: u32) {
    sight::before_next_picture(move || {
        if music.arrives_at.get_untracked() == Some(bar) {
            music.arrives_at.set(None);
        }
        show_bar(music, bar);
    });
}

/// Scrolls as little as brings a note that was tapped out from under what stands at the head and the foot of the window.
pub fn show_note(music: Music, (bar, staff, down): (u32, u32, i32)) {
    let (cover, room) = uncovered();
    let from = sight::above(SYSTEMS) + cover;
    let further =
        music.laid_out.with_untracked(|laid| laid.further_to(bar, staff, down, (from, from + room)));
    if further != 0.0 {
        sight::show_under(SYSTEMS, from + further, cover);
    }
}

/// How much of the window is covered at its head, and how much is free under it.
fn uncovered() -> (f64, f64) {
    let cover = sight::cover(MAP) + UNDER_THE_MAP;
    let foot: f64 = AT_THE_FOOT.iter().map(|id| sight::cover(id)).sum();
    (cover, measure::window_height() - cover - foot - OVER_THE_FOOT)
}
