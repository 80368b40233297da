//! What the music of a movement asks of the worker: to be laid out for a width, its systems drawn, a note told.

use crate::browser::clock;
use crate::browser::sight;
use crate::components::movement::deeds::Deeds;
use crate::components::movement::map::MAP;
use crate::components::movement::music::{BETWEEN, SYSTEMS};
use crate::state::glance::Glance;
use crate::state::kept::{Derived, Watched, follow};
use crate::state::movement::Movement;
use crate::state::movement::map::MapState;
use crate::state::movement::music::{LaidOut, Music, TappedNote, rows, scale};
use crate::state::store::desk;
use crate::state::view::View;
use crookwise_opened::{Answer, Ask, DrawnRow};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;

/// Letters are never smaller than so many pixels.
const LETTERS: f64 = 14.2;

/// Keeps the music laid out as the reader wants it: anew when staves are chosen, shown otherwise or corrected, or the room changes.
pub fn follow_music() {
    let (movement, music, deeds) = (Movement::get(), Music::get(), Deeds::get());
    let wanted = Derived::new(move || {
        let pairs = movement.open.map(|open| open.summary.pairs.clone()).unwrap_or_default();
        // What is corrected must be laid first: it is, once this says so.
        let laid = movement.laid.get();
        (rows(&movement.chosen.get(), &pairs, music.shown.get()), music.width.get(), laid)
    });
    follow(move || {
        let (rows, width, _) = wanted.get();
        if width == 0 {
            return;
        }
        untrack(|| lay_out(deeds, music, rows, width));
    });
}

fn lay_out(deeds: Deeds, music: Music, rows: Vec<crookwise_opened::RowWanted>, width: u32) {
    let number = music.laid_out.read_untracked().number.wrapping_add(1);
    music.laid_out.update(|laid| laid.number = number);
    let scale = scale(width);
    // Some thousands of pixels at most.
    let in_hundredths = |pixels: f64| (pixels / scale * 100.0) as u32;
    let (hundredths, letters) = (in_hundredths(f64::from(width)), in_hundredths(LETTERS));
    spawn_local(async move {
        if music.signs.with_untracked(String::is_empty)
            && let Some(Answer::Signs(signs)) = deeds.ask(&Ask::Signs).await
        {
            music.signs.set(signs);
        }
        if let Some(Answer::Sheet(systems)) =
            deeds.ask(&Ask::Sheet { rows, width: hundredths, letters }).await
            && music.laid_out.read_untracked().number == number
        {
            music.laid_out.set(LaidOut { number, systems, scale });
        }
    });
}

/// Has the movement seen from afar for the map, once its music stands there, and anew when it is corrected.
pub fn follow_map() {
    let (movement, music, map, deeds) = (Movement::get(), Music::get(), MapState::get(), Deeds::get());
    let stands = Derived::new(move || !music.laid_out.with(|laid| laid.systems.is_empty()));
    follow(move || {
        let now = (movement.openings.get(), movement.laid.get());
        if !stands.get() || map.of.with_untracked(|of| of.as_ref() == Some(&now)) {
            return;
        }
        if map.of.with_untracked(|of| of.as_ref().is_none_or(|of| of.0 != now.0)) {
            map.empty();
        }
        map.of.set(Some(now.clone()));
        spawn_local(async move {
            let holds = || map.of.with_untracked(|of| of.as_ref() == Some(&now));
            if let Some(Answer::Map(rows)) = deeds.ask(&Ask::Map).await
                && holds()
            {
                map.rows.set(Some(Arc::new(*rows)));
            }
            // They take longer: the systems in the window are drawn, and the audit is made, before.
            while movement.audit.with_untracked(Option::is_none) && holds() {
                clock::a_moment().await;
            }
            if let Some(Answer::Places(places)) = deeds.ask(&Ask::Places).await
                && holds()
            {
                map.places.set(places);
            }
        });
    });
}

/// Brings the system of a bar into sight, its top under what stays at the head of the window, and marks the bar.
pub fn go_to_bar(music: Music, bar: u32) {
    music.gone_to.set(Some(bar));
    let down = music.laid_out.with_untracked(|laid| {
        let system = laid.system_of(bar)?;
        laid.spans(BETWEEN).get(system).map(|(top, _)| *top)
    });
    if let Some(down) = down {
        sight::show_under(SYSTEMS, down, sight::cover(MAP) + BETWEEN);
    }
}

/// Has a system drawn, if it is still of the layout on the screen.
pub fn draw(deeds: Deeds, music: Music, layout: u32, system: u32, drawn: Watched<Option<DrawnRow>>) {
    spawn_local(async move {
        let answer = deeds.ask(&Ask::System(system)).await;
        if let Some(Answer::System(row)) = answer
            && music.laid_out.read_untracked().number == layout
        {
            drawn.set(Some(*row));
        }
    });
}

/// Tells of a note.
pub fn tell(deeds: Deeds, music: Music, (staff, note, bar): (u32, u32, u32)) {
    music.tapped.set(Some(TappedNote { staff, note, bar, glance: None }));
    spawn_local(async move {
        let Some(Answer::Page(text)) = deeds.ask(&Ask::Note { staff, note }).await else { return };
        let glance = desk::opened(&text).ok().and_then(|page| Glance::of(&View::of(&page)));
        music.tapped.update(|tapped| {
            if let Some(tapped) = tapped.as_mut().filter(|tapped| tapped.note == note) {
                tapped.glance = glance;
            }
        });
    });
}
