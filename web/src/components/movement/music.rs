//! The movement as music: systems that reflow to the width, drawn when they come into the window.

use crate::browser::{measure, pointer, popover, sight};
use crate::components::live::{Follows, Live, each, hear, live, press, when};
use crate::components::movement::along::{read_along, reading_along};
use crate::components::movement::deeds::Deeds;
use crate::components::movement::map::MAP;
use crate::components::movement::moment::{moment, names_beneath};
use crate::components::movement::music_deeds;
use crate::components::movement::pictures::pictures;
use crate::components::movement::taking::picked;
use crate::components::movement::walk::note_walk;
use crate::components::movement::ways::ways;
use crate::state::kept::{Derived, Watched, follow};
use crate::state::movement::Movement;
use crate::state::movement::along::Along;
use crate::state::movement::drawn::{
    bar_at, cover_from, head_at, heads_of, is_on_harmonies, spot_at, stretch_of, x_of,
};
use crate::state::movement::laid_out::{LaidOut, near, stand};
use crate::state::movement::moment::{harmony_at, stretch};
use crate::state::movement::music::{Music, RowsShown};
use crate::state::movement::playback::Playback;
use crate::words;
use crookwise_opened::{DrawnRow, TogetherShown};
use leptos::ev::{MouseEvent, PointerEvent};
use leptos::html::Div;
use leptos::prelude::*;
use std::sync::Arc;

/// What holds the systems.
pub(super) const SYSTEMS: &str = "systems";
/// What is nearer to the window than so many pixels is drawn.
const NEAR: f64 = 900.0;

/// The music, with how it is shown over it and what was tapped under it.
pub fn music() -> AnyView {
    let music = Music::get();
    let movement = Movement::get();
    let along = Along::get();
    music_deeds::follow_music();
    music_deeds::follow_harmonies();
    music_deeds::follow_tapped();
    music_deeds::keep_in_sight();
    let room = NodeRef::<Div>::new();
    measure::follow_room(room, move |width, _| music.width.set(width.max(0.0) as u32));
    sight::hold_below(room);
    sight::follow_window(room, move |top, bottom| {
        music.covered.set(sight::cover(MAP));
        music.seen.set((top, bottom));
    });
    let none = move || movement.chosen.with(Vec::is_empty);
    // What is to be read is not told beforehand, and the class looks on.
    let has_notes = move || {
        !(along.is_on() || music.wall.is_some()) && music.laid_out.with(|laid| !laid.systems.is_empty())
    };
    // A press beside an open list shuts it and does nothing else.
    let down = hear(move |_: PointerEvent| music.shuts.set(popover::shut_open()));
    let busy = live(move || music.is_moving.get().then_some("true"));
    view! {
        <section class="card music" role="region" aria-label=words::movement::MUSIC>
            {when(move || !along.is_on(), head)}
            <p class="quiet" hidden=live(move || !none())>{words::movement::NO_STAFF}</p>
            <div class="systems" id=SYSTEMS node_ref=room aria-busy=busy on:pointerdown=down>
                {when(has_notes, note_walk)}
                {systems()}
            </div>
            {moment()}
            {when(move || music.picked.get(), picked)}
            {when(move || along.is_on(), reading_along)}
        </section>
    }
    .into_any()
}

/// How the music is shown, and the way to read a part of it along.
fn head() -> AnyView {
    view! {
        <div class="row music-head">
            {rows_shown()}
            {together()}
            {read_along()}
        </div>
    }
    .into_any()
}

/// How rows are shown: one of three.
fn rows_shown() -> AnyView {
    let all = RowsShown::ALL.map(|way| (way, way.name()));
    ways(words::movement::HOW_ROWS_ARE_SHOWN, all, Music::get().shown)
}

/// Whether the harmonies stand under the rows.
fn together() -> AnyView {
    let music = Music::get();
    let is = live(move || Some(music.together.get().to_string()));
    let turn = press(move || music.together.set(!music.together.get_untracked()));
    view! { <button class="kind together" aria-pressed=is on:click=turn>{words::movement::TOGETHER}</button> }
        .into_any()
}

/// The systems of the layout that holds, made anew with it; the rest of them comes beneath those that were known first.
fn systems() -> AnyView {
    let music = Music::get();
    let begin = Derived::new(move || music.laid_out.with(LaidOut::begin));
    let whole = Derived::new(move || music.laid_out.with(LaidOut::whole));
    view! { {systems_from(begin, |_| 0)} {systems_from(whole, |laid| laid.begun)} }.into_any()
}

fn systems_from(laid: Derived<LaidOut>, first: fn(&LaidOut) -> usize) -> Live<AnyView> {
    live(move || {
        let laid = laid.get();
        let first = first(&laid);
        let places = places(laid.spans().into_iter().skip(first).collect());
        let count = places.len();
        let numbers = Derived::new(move || 0..count);
        each(numbers, move |at| places.get(at).map(|place| system(&laid, first + at, *place)).shape())
    })
}

/// Where a system stands, from its top to its foot, and whether that is near the window.
type Place = ((f64, f64), Watched<bool>);

/// The places of systems; of scrolling those alone are told that come near or go.
fn places(spans: Vec<(f64, f64)>) -> Arc<Vec<Place>> {
    let music = Music::get();
    let all: Arc<Vec<Place>> = Arc::new(spans.iter().map(|span| (*span, Watched::new(false))).collect());
    let near = Derived::new(move || near(&spans, music.seen.get(), NEAR));
    let (told, mut before) = (all.clone(), 0..0);
    follow(move || {
        let now = near.get();
        let changed = before.clone().chain(now.clone()).filter(|at| before.contains(at) != now.contains(at));
        changed
            .filter_map(|at| Some((at, told.get(at)?)))
            .for_each(|(at, (_, is))| is.set(now.contains(&at)));
        before = now;
    });
    all
}

/// A system: its room at once, its picture when it comes near the window.
fn system(laid: &LaidOut, at: usize, ((top, bottom), is_near): Place) -> AnyView {
    let (music, movement, deeds) = (Music::get(), Movement::get(), Deeds::get());
    let drawn: Watched<Option<DrawnRow>> = Watched::new(None);
    let (layout, scale) = (laid.number, laid.scale);
    let own = laid.systems.get(at).cloned().unwrap_or_default();
    let bars = own.bars;
    follow(move || {
        if is_near.get() && drawn.with_untracked(Option::is_none) {
            // Systems are far fewer than a 32-bit number counts.
            untrack(|| music_deeds::draw(deeds, music, layout, at as u32, drawn));
        }
    });
    let marked = move |class: &'static str, of: &dyn Fn(&DrawnRow) -> Option<(i32, i32)>| {
        let (left, right) = drawn.map(of).flatten()?;
        let pixels = |length: i32| f64::from(length) / 100.0 * scale;
        let (left, width) = (pixels(left), pixels(right - left));
        Some(
            view! { <span class=class style:left=pixel_text(left) style:width=pixel_text(width)></span> }
                .into_any(),
        )
    };
    let of_bars = move |class, bars: Option<(u32, u32)>| marked(class, &|row| stretch_of(row, bars?));
    let (along, playback) = (Along::get(), Playback::get());
    let chosen = live(move || {
        let loops = playback.loops.get();
        let is_marked = music.marks(&movement.typed_bars(), loops);
        let bars = if loops { movement.bars().ok() } else { movement.own_bars() };
        of_bars("chosen-bars", bars.filter(|_| is_marked))
    });
    let gone_to = live(move || {
        let asked = along.asked.map(|asked| asked.entry.bar);
        of_bars("gone-to", asked.or_else(|| music.gone_to.get()).map(|bar| (bar, bar)))
    });
    let entering = live(move || {
        let bar = music.gone_to.get()?;
        let (left, right) = drawn.map(|row| stretch_of(row, (bar, bar))).flatten()?;
        let pixels = |length: i32| pixel_text(f64::from(length) / 100.0 * scale);
        let mark = |(top, foot): (i32, i32)| {
            let (left, width, top, height) =
                (pixels(left), pixels(right - left), pixels(top), pixels(foot - top));
            view! {
                <span
                    class="entering"
                    style:left=left
                    style:width=width
                    style:top=top
                    style:height=height
                ></span>
            }
            .into_any()
        };
        let all: Vec<AnyView> = stand(&own, &music.whose(bar)).into_iter().map(mark).collect();
        Some(view! { {all} }.into_any())
    });
    let at_moment = live(move || {
        let rows = music.harmonies.read();
        let row = rows.get(harmony_at(&rows, music.spot.get()?)?)?;
        marked("at-moment", &|drawn| stretch(drawn, row))
    });
    let tapped = hear(move |event: MouseEvent| {
        if music.shuts.get_untracked() {
            return;
        }
        let Some(place) = pointer::place(&event) else { return };
        let hundredths = |pixels: f64| (pixels / scale * 100.0) as i32;
        let (x, y) = (hundredths(place.x), hundredths(place.y));
        let row = drawn.read_untracked();
        let Some(row) = row.as_ref() else { return };
        let Some(bar) = bar_at(row, x) else { return };
        let has_harmonies = music.asked.with_untracked(|asked| asked.as_ref().map(|asked| asked.together));
        let on_harmonies = has_harmonies == Some(TogetherShown::Shown) && is_on_harmonies(row, y);
        // What a note sounds that was not read yet is not told; a tap goes on reading from there.
        if along.is_on() && bar >= along.hidden_from.get_untracked() {
            return music.go_to(bar, &[]);
        }
        match head_at(row, x, y) {
            Some((staff, note)) => music_deeds::tell(deeds, music, (staff, note, bar), y),
            None if on_harmonies => music.tapped.set(None),
            None => {
                music.gone_to.set(None);
                movement.choose_bar(bar, music.anchor);
                return music.pick();
            }
        }
        music.look_at(spot_at(row, x));
    });
    let name = words::movement::bars_of_system(&movement.printed(bars.0), &movement.printed(bars.1));
    view! {
        <div
            class="music-system"
            role="img"
            aria-label=name
            style:height=pixel_text(bottom - top)
            style:margin-bottom=pixel_text(laid.between)
            on:click=tapped
        >
            {chosen}
            {gone_to}
            {entering}
            {at_moment}
            {sounding(bars, drawn, scale)}
            {pictures(drawn, is_near, (top, bottom))}
            {tapped_note(drawn, scale)}
            {covered(drawn, scale)}
            {names_beneath(drawn, scale)}
        </div>
    }
    .into_any()
}

/// A ring round the note that was tapped, where it is written and where it sounds.
fn tapped_note(drawn: Watched<Option<DrawnRow>>, scale: f64) -> AnyView {
    let music = Music::get();
    let rings = live(move || {
        let tapped = music.tapped.with(|tapped| tapped.as_ref().map(|own| (own.staff, own.note)))?;
        let pixels = |length: i32| pixel_text(f64::from(length) / 100.0 * scale);
        let ring = |at: (i32, i32)| {
            view! { <span class="tapped-note" style:left=pixels(at.0) style:top=pixels(at.1)></span> }
                .into_any()
        };
        let all: Vec<AnyView> = drawn.map(|row| heads_of(row, tapped).map(ring).collect())?;
        Some(view! { {all} }.into_any())
    });
    view! { {rings} }.into_any()
}

/// The cover of what is not to be seen yet by who reads along.
fn covered(drawn: Watched<Option<DrawnRow>>, scale: f64) -> AnyView {
    let along = Along::get();
    let cover = live(move || {
        let from = along.is_on().then(|| along.hidden_from.get())?;
        let (left, top) = drawn.and_then(|row| cover_from(row, from))?;
        let pixels = |length: i32| pixel_text(f64::from(length) / 100.0 * scale);
        Some(view! { <span class="covered" style:left=pixels(left) style:top=pixels(top)></span> }.into_any())
    });
    view! { {cover} }.into_any()
}

/// What is heard now, if it stands in a system of these bars.
fn sounding((first, last): (u32, u32), drawn: Watched<Option<DrawnRow>>, scale: f64) -> AnyView {
    let playback = Playback::get();
    let is_here = move || playback.bar.map(|bar| (first..=last).contains(bar)) == Some(true);
    let left = move || {
        let at = drawn.and_then(|row| {
            let spot = playback.spot.get()?;
            x_of(row, (spot.bar, spot.hundredths), Some(spot.of))
        });
        at.map(|at| pixel_text(f64::from(at) / 100.0 * scale))
    };
    let mark = move || {
        view! { <span class="heard-now" hidden=live(move || left().is_none()) style:left=live(left)></span> }
            .into_any()
    };
    when(is_here, mark).into_any()
}

/// A length in whole pixels, as a style has it.
pub(super) fn pixel_text(length: f64) -> String {
    format!("{}px", length.round() as i32)
}
