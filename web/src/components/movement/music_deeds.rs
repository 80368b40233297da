//! What the music of a movement asks of the worker: to be laid out for a width, its systems drawn, a note told.

use crate::browser::in_turn::take_turns;
use crate::browser::{measure, score_worker, sight};
use crate::components::movement::deeds::Deeds;
use crate::components::movement::map::MAP;
use crate::components::movement::map_deeds::{show_bar_soon, show_note};
use crate::components::movement::music::SYSTEMS;
use crate::state::glance::Glance;
use crate::state::kept::{Derived, Watched, follow};
use crate::state::movement::along::{Along, rows_of};
use crate::state::movement::laid_out::LaidOut;
use crate::state::movement::music::{Music, SheetAsked, TappedNote, between, rows, scale, scale_for_height};
use crate::state::movement::{Movement, first_choice};
use crate::state::store::desk;
use crate::state::store::left::LeftScore;
use crate::state::view::View;
use crate::store::scores;
use crookwise_opened::{Answer, Ask, DrawnRow, Summary, TogetherShown, wire};
use leptos::prelude::*;
use leptos::task::spawn_local;

/// What stands under the music: who does something there keeps it before him.
pub(super) const UNDER_THE_MUSIC: &str = ".movement";
/// Letters are never smaller than so many pixels.
const LETTERS: f64 = 14.2;
/// So many windows of music are laid out before the rest.
const BEGUN: f64 = 2.0;
/// So often music is laid out smaller for the wall at once.
const MOST_TIMES_SMALLER: usize = 6;

/// Keeps the music laid out as the reader wants it: anew when staves are chosen, shown otherwise or corrected, or the room changes.
pub fn follow_music() {
    let (movement, music, deeds) = (Movement::get(), Music::get(), Deeds::get());
    let along = Along::get();
    let wanted = Derived::new(move || {
        let pairs = movement.open.map(|open| open.summary.pairs.clone()).unwrap_or_default();
        let asked = SheetAsked {
            opening: movement.openings.get(),
            // What is corrected must be laid first: it is, once this says so.
            laid: movement.laid.get(),
            rows: match along.staff.get() {
                Some(staff) => rows_of(staff),
                None => rows(&movement.chosen.get(), &pairs, music.shown.get()),
            },
            unseen: Vec::new(),
            // What the page makes together would tell what the part sounds.
            together: if music.together.get() && !along.is_on() {
                TogetherShown::Shown
            } else {
                TogetherShown::No
            },
            on_wall: false,
            width: music.width.get(),
        };
        match music.wall.get() {
            Some(_) if along.is_on() => SheetAsked { on_wall: true, ..asked },
            Some(wall) => asked.for_the_wall(wall),
            None => asked,
        }
    });
    follow(move || {
        let wanted = wanted.get();
        if wanted.width > 0 {
            untrack(|| lay_out(deeds, music, wanted));
        }
    });
}

/// Has the rows that will be chosen made ready while the page is made: how wide it is is known when that is done.
pub(super) fn print_ahead(music: Music, summary: &Summary, left: Option<&LeftScore>) {
    let rows = rows(&first_choice(summary, left), &summary.pairs, music.shown.get_untracked());
    spawn_local(async move {
        // Whoever asks for the sheet is told where this fails.
        let _ = score_worker::ask(&wire::write(&Ask::Print(rows)), None).await;
    });
}

fn lay_out(deeds: Deeds, music: Music, wanted: SheetAsked) {
    let Some(number) = music.wants(&wanted) else { return };
    let SheetAsked { rows, unseen, width, together, on_wall, .. } = wanted;
    // Who sees the beginning need not wait for the rest.
    let is_begun = !on_wall && music.arrives_at.get_untracked().is_none() && sight::above(SYSTEMS) <= 0.0;
    let begin = is_begun.then(|| measure::window_height() * BEGUN);
    let ask = move |scale: f64| {
        // Some thousands of pixels at most.
        let in_hundredths = |pixels: f64| (pixels / scale * 100.0) as u32;
        let (width, letters) = (in_hundredths(f64::from(width)), in_hundredths(LETTERS));
        let (rows, unseen) = (rows.clone(), unseen.clone());
        let high = begin.map(in_hundredths);
        Ask::Sheet { rows, unseen, together, width, letters, gathered: true, high }
    };
    spawn_local(async move {
        // What was made smaller for the class stays so while it looks.
        let smallest = music.wall_scale.get_untracked().filter(|(own, _)| on_wall && *own == width);
        let mut scale = smallest.map_or_else(|| scale(width, on_wall), |(_, scale)| scale);
        let mut answer = deeds.ask(&ask(scale)).await;
        // The class sees whole systems. Made smaller they hold other bars and may be higher than before: only where they are not
        // does the scale stay when something is revealed.
        for _ in 0..MOST_TIMES_SMALLER {
            let Some(Answer::Sheet(systems)) = answer.as_ref().filter(|_| on_wall) else { break };
            let Some(smaller) = scale_for_height(systems, scale, measure::window_height()) else { break };
            scale = smaller;
            answer = deeds.ask(&ask(scale)).await;
        }
        music.wall_scale.set(on_wall.then_some((width, scale)));
        if music.laid_out.read_untracked().number != number {
            return;
        }
        match answer {
            Some(Answer::Sheet(systems)) => {
                // What is revealed stays where the class looks, and what is looked at before the reader.
                let stays = music.gone_to.get_untracked().filter(|_| on_wall);
                let bar = music.arrives_at.get_untracked().or(stays).or_else(|| looked_at(music));
                let is_led = music.arrives_at.with_untracked(Option::is_some);
                let is_held = !is_led && sight::hold_focused(UNDER_THE_MUSIC);
                let begun = systems.len();
                music.laid_out.set(LaidOut { number, systems, begun, scale, between: between(together) });
                if is_begun {
                    spawn_local(async move { take_turns(move || ask_rest(deeds, music, number)) });
                } else {
                    music.is_moving.set(false);
                }
                arrive(music, bar.filter(|_| !is_held));
            }
            // It may be asked for again.
            _ => {
                music.asked.set(None);
                music.is_moving.set(false);
            }
        }
    });
}

/// Asks for the systems that the reader does not see yet. What stands in the window is drawn before.
fn ask_rest(deeds: Deeds, music: Music, number: u32) -> bool {
    spawn_local(async move {
        let is_ours = move || music.laid_out.read_untracked().number == number;
        // Systems are far fewer than a 32-bit number counts.
        let begun = music.laid_out.with_untracked(|laid| laid.begun as u32);
        if !is_ours() {
            return;
        }
        let answer = deeds.ask(&Ask::Rest(begun)).await;
        if !is_ours() {
            return;
        }
        match answer {
            Some(Answer::Sheet(rest)) => music.laid_out.update(|laid| laid.systems.extend(rest)),
            _ => music.asked.set(None),
        }
        music.is_moving.set(false);
        arrive(music, music.arrives_at.get_untracked());
    });
    false
}

/// Shows a bar once it is laid out.
fn arrive(music: Music, bar: Option<u32>) {
    if let Some(bar) = bar {
        show_bar_soon(music, bar);
    }
}

/// Keeps which bar is looked at, or led to just now, so that who opens the score again stands there.
pub fn keep_place(deeds: Deeds) {
    let Deeds { movement, music, .. } = deeds;
    let stands = music.laid_out.with_untracked(|laid| !laid.systems.is_empty()) && sight::is_there(SYSTEMS);
    let is_led = music.arrives_at.get_untracked().is_some();
    if !(stands || is_led) {
        return;
    }
    movement.at.set(stands_at(music));
    if let Some((id, left)) = untrack(|| movement.left()) {
        scores::leave(|all| all.leave(&id, left));
    }
}

/// The bar that the reader is just led to, or that is looked at.
pub fn stands_at(music: Music) -> Option<u32> {
    music.arrives_at.get_untracked().or_else(|| looked_at(music))
}

/// The bar that is looked at.
fn looked_at(music: Music) -> Option<u32> {
    let window = (sight::cover(MAP), measure::window_height());
    let (laid, gone_to) = (music.laid_out.read_untracked(), music.gone_to.get_untracked());
    laid.looked_at(sight::above(SYSTEMS), window, gone_to)
}

/// Has the harmonies found, where they stand under the rows or a moment of them was tapped.
pub fn follow_harmonies() {
    let (movement, music, deeds) = (Movement::get(), Music::get(), Deeds::get());
    let wanted = Derived::new(move || {
        let are_wanted = music.together.get() || music.spot.is_some() || music.wall.is_some();
        are_wanted.then(|| movement.now())
    });
    follow(move || {
        let Some(now) = wanted.get() else { return };
        deeds.ask_once(music.harmonies_of, now, Ask::Harmonies, move |answer| {
            if let Answer::Harmonies(rows) = answer {
                music.harmonies.set(rows);
            }
        });
    });
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

/// Tells of a note, which was tapped so far down in its system.
pub fn tell(deeds: Deeds, music: Music, (staff, note, bar): (u32, u32, u32), down: i32) {
    music.tapped.set(Some(TappedNote { staff, note, bar, down, glance: None }));
    ask_of_note(deeds, music, (staff, note));
}

/// Keeps the note that was tapped in sight when what is said of it comes over the music, and grows with what is known.
pub fn keep_in_sight() {
    let music = Music::get();
    let said = Derived::new(move || {
        let own = |tapped: &TappedNote| {
            (tapped.staff, tapped.note, tapped.bar, tapped.down, tapped.glance.is_some())
        };
        let tapped = music.tapped.with(|tapped| tapped.as_ref().map(own))?;
        Some((tapped, music.harmonies.with(Vec::is_empty)))
    });
    follow(move || {
        if let Some(((staff, _, bar, down, _), _)) = said.get() {
            sight::before_next_picture(move || show_note(music, (bar, staff, down)));
        }
    });
}

/// Tells of the note that was tapped anew when something is corrected.
pub fn follow_tapped() {
    let (movement, music, deeds) = (Movement::get(), Music::get(), Deeds::get());
    // What is corrected is laid first, as for the music.
    let laid = Derived::new(move || movement.laid.get());
    follow(move || {
        let _ = laid.read();
        let tapped = music.tapped.with_untracked(|tapped| tapped.as_ref().map(|own| (own.staff, own.note)));
        if let Some(note) = tapped {
            ask_of_note(deeds, music, note);
        }
    });
}

fn ask_of_note(deeds: Deeds, music: Music, (staff, note): (u32, u32)) {
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
