//! The map of the movement over its music: one picture, what leads from entry to entry, and what is worth hearing in sight.

use crate::browser::{clock, field, measure, pointer, popover, sight};
use crate::components::live::{hear, live, press, when};
use crate::components::movement::map_deeds::{follow_map, go_to_bar, show_bar_soon};
use crate::components::movement::map_entries::entries;
use crate::components::movement::music_deeds::stands_at;
use crate::components::movement::on_wall::wall_bar;
use crate::state::kept::{Derived, Watched, follow};
use crate::state::movement::along::Along;
use crate::state::movement::map::{self, BAR, MapEntry, MapKnown, MapLine, MapState, REST_BEFORE};
use crate::state::movement::map_picture::{MapFrame, MapPlan, picture};
use crate::state::movement::music::{Music, rows};
use crate::state::movement::playback::Playback;
use crate::state::movement::{Movement, bars};
use crate::words;
use leptos::ev::{Event, KeyboardEvent, PointerEvent, TouchEvent};
use leptos::html::Div;
use leptos::prelude::*;

/// The map, which stays at the head of the window.
pub(super) const MAP: &str = "map";
/// So far a pointer moves before it drags, in pixels.
const DRAGS: f64 = 6.0;

/// What the map shows, derived once for all its parts.
#[derive(Clone, Copy, Debug)]
pub struct MapShown {
    movement: Movement,
    music: Music,
    map: MapState,
    playback: Playback,
    /// Its lines.
    lines: Derived<Vec<MapLine>>,
    /// Who enters where.
    pub(super) entries: Derived<Vec<MapEntry>>,
    /// Who enters in the bar that was gone to and has no room in the window, by line.
    also: Derived<Vec<usize>>,
    /// The bars in sight.
    sight: Derived<Option<(u32, u32)>>,
    /// Whether it is folded.
    folded: Derived<bool>,
    /// How its picture is divided.
    plan: Derived<MapPlan>,
}

impl MapShown {
    fn new() -> Self {
        let (movement, music, map) = (Movement::get(), Music::get(), MapState::get());
        let lines = Derived::new(move || {
            let pairs = movement.open.map(|open| open.summary.pairs.clone()).unwrap_or_default();
            let wanted = rows(&movement.chosen.get(), &pairs, music.shown.get());
            let staves: Vec<Vec<u32>> = wanted.into_iter().map(|row| row.staves).collect();
            let (rows, places) = (map.rows.get().unwrap_or_default(), map.places.read());
            let known = MapKnown { rows: &rows, places: &places };
            map::lines(known, &staves, &|staff| movement.name_of(staff))
        });
        // On a telephone it is folded until it is opened.
        let narrow = measure::is_narrow();
        let folded = Derived::new(move || map.folded.get().unwrap_or(narrow));
        let plan = Derived::new(move || {
            let bars = movement.open.map(|open| open.summary.bars.len()).unwrap_or_default();
            let bars = u32::try_from(bars).unwrap_or(u32::MAX);
            MapPlan::of(map.width.get(), &lines.read(), bars, folded.get())
        });
        let window = Derived::new(move || {
            let (top, bottom) = music.seen.get();
            ((f64::from(top) + music.covered.get()).max(0.0), f64::from(bottom))
        });
        let sight = Derived::new(move || music.laid_out.with(|laid| map::in_sight(laid, window.get())));
        follow(move || {
            if let Some(bars) = music.laid_out.with(|laid| map::looked_at(laid, window.get())) {
                map.sight.set(Some(bars));
            }
        });
        let entries = Derived::new(move || map::entries(&lines.read()));
        let also = Derived::new(move || {
            let shown = music.gone_to.get().zip(music.shown_in.get());
            let Some((bar, (_, down, room))) = shown.filter(|(bar, (of, ..))| bar == of) else {
                return Vec::new();
            };
            let laid = music.laid_out.read();
            let is_out = |staves: &[u32]| laid.is_out_of_sight(bar, staves, (down, room));
            map::enter_out_of_sight((&lines.read(), &entries.read()), bar, &is_out)
        });
        let playback = Playback::get();
        Self { movement, music, map, playback, lines, entries, also, sight, folded, plan }
    }

    /// The bar from which the reader goes on.
    fn here(self) -> u32 {
        let heard = self.playback.bar.get_untracked();
        map::here(heard.or(self.music.gone_to.get_untracked()), self.map.sight.get_untracked())
    }

    /// Goes to a bar and says who enters there, if anybody does. Shown are these staves, or where there are none those that
    /// enter.
    pub(super) fn go(self, bar: u32, staves: &[u32]) {
        let entry = self.entry_in(bar);
        let entering = entry.as_ref().map(|entry| self.staves_of(&entry.lines)).unwrap_or_default();
        go_to_bar(self.music, bar, if staves.is_empty() { &entering } else { staves });
        let said = untrack(|| match entry {
            Some(entry) => self.said_of(&entry),
            None => words::map::at_bar(&self.movement.printed(bar)),
        });
        self.map.said.set(said);
    }

    fn entry_in(self, bar: u32) -> Option<MapEntry> {
        self.entries.read_untracked().iter().find(|entry| entry.bar == bar).cloned()
    }

    fn staves_of(self, lines: &[usize]) -> Vec<u32> {
        map::staves_of(&self.lines.read_untracked(), lines)
    }

    /// Shows who enters in the bar that a link has led to, which is known later than where that stands.
    fn show_who_enters(self) {
        let bar = self.music.gone_to.get_untracked().filter(|bar| stands_at(self.music) == Some(*bar));
        let is_anybody = self.music.of_staves.with_untracked(Vec::is_empty);
        if let Some(entry) = bar.filter(|_| is_anybody).and_then(|bar| self.entry_in(bar)) {
            self.go(entry.bar, &[]);
        }
    }

    /// Goes to the entry before or after where the reader is.
    pub fn step(self, before: bool) {
        let here = self.here();
        let to = {
            let all = self.entries.read_untracked();
            let entry = if before { map::before(&all, here) } else { map::next(&all, here) };
            entry.map(|entry| entry.bar)
        };
        match to {
            Some(bar) => self.go(bar, &[]),
            None if before => self.map.said.set(words::map::NO_ENTRY_BEFORE.to_owned()),
            None => self.map.said.set(words::map::NO_ENTRY_FOLLOWS.to_owned()),
        }
    }

    /// Goes to what was typed: where bars are counted anew, to the next of that number.
    fn go_to_typed(self) {
        let wanted = self.map.typed.get_untracked();
        let after = self.here().saturating_add(1);
        let found = self.movement.open.and_then(|open| bars::find(&open.summary, &wanted, after));
        match found {
            Some(bar) => self.go(bar, &[]),
            None => self.map.said.set(words::movement::no_such_bar(&wanted)),
        }
    }

    pub(super) fn said_of(self, entry: &MapEntry) -> String {
        words::map::enter(&self.movement.printed(entry.bar), &self.labels_of(&entry.lines), entry.rest)
    }

    fn labels_of(self, lines: &[usize]) -> Vec<String> {
        let all = self.lines.read();
        lines.iter().filter_map(|at| all.get(*at)).map(|line| line.label.clone()).collect()
    }
}

/// The region.
pub fn map() -> AnyView {
    follow_map();
    let shown = MapShown::new();
    let known = Derived::new(move || shown.map.rows.is_some());
    follow(move || {
        if known.get() {
            untrack(|| shown.show_who_enters());
        }
    });
    let class = live(move || match shown.plan.get() {
        _ if shown.folded.get() => "card map folded",
        plan if plan.is_high() => "card map high",
        _ => "card map",
    });
    let said = live(move || Some(shown.map.said.get()));
    let fold = press(move || shown.map.folded.set(Some(!shown.folded.get_untracked())));
    let is_open = live(move || Some((!shown.folded.get()).to_string()));
    let arrow = live(move || if shown.folded.get() { "▾" } else { "▴" });
    view! {
        <section class=class id=MAP role="region" aria-label=words::map::MAP>
            {step(shown, words::map::ENTRY_BEFORE, "←", true)}
            {step(shown, words::map::NEXT_ENTRY, "→", false)}
            {field(shown)}
            <button class="fold" aria-label=words::map::WHOLE_MAP aria-expanded=is_open on:click=fold>
                <span aria-hidden="true">{arrow}</span>
            </button>
            <div class="map-told">
                <p class="map-said quiet" role="status">{said}</p>
                {also(shown)}
                {places(shown)}
            </div>
            {drawn(shown)}
            {entries(shown)}
            {when(move || shown.music.wall.is_some(), move || wall_bar(shown))}
        </section>
    }
    .into_any()
}

/// Who enters too where not all that enter have room in the window; it leads to them.
fn also(shown: MapShown) -> AnyView {
    let some = Derived::new(move || !shown.also.read().is_empty());
    // The line takes room at the head of the window: what is shown gives way to it at once.
    follow(move || {
        let is_there = some.get();
        sight::tell_cover_anew(MAP);
        if let Some(bar) = shown.music.gone_to.get_untracked().filter(|_| is_there) {
            show_bar_soon(shown.music, bar);
        }
    });
    let button = move || {
        let said = live(move || words::map::also_enter(&shown.labels_of(&shown.also.read())));
        let go = press(move || {
            if let Some(bar) = shown.music.gone_to.get_untracked() {
                let staves = shown.staves_of(&shown.also.read_untracked());
                shown.go(bar, &staves);
            }
        });
        view! { <button class="map-also" on:click=go>{said}</button> }.into_any()
    };
    view! { {when(move || some.get(), button)} }.into_any()
}

fn step(shown: MapShown, name: &'static str, arrow: &'static str, before: bool) -> AnyView {
    let go = press(move || shown.step(before));
    view! {
        <button class="step" aria-label=name disabled=live(move || !shown.map.rows.is_some()) on:click=go>
            <span aria-hidden="true">{arrow}</span>
            <span class="step-name">{name}</span>
        </button>
    }
    .into_any()
}

/// Where a bar or a letter is typed.
fn field(shown: MapShown) -> AnyView {
    let typed = shown.map.typed;
    let write = hear(move |event: Event| typed.set(field::text(&event)));
    let key = hear(move |event: KeyboardEvent| {
        if event.key() == "Enter" {
            shown.go_to_typed();
        }
    });
    view! {
        <input
            class="go-to"
            aria-label=words::map::GO_TO_BAR
            placeholder=words::map::GO_TO_BAR
            prop:value=live(move || Some(typed.get()))
            on:input=write
            on:keydown=key
            autocomplete="off"
            enterkeyhint="go"
        />
    }
    .into_any()
}

/// The places of the bars in sight; each leads to its first bar. Nobody reads them while the music is scrolled past, and to make
/// them anew for every system of it costs as much as a piece of the music.
fn places(shown: MapShown) -> AnyView {
    let along = Along::get();
    let rests_at = Watched::new(None);
    follow(move || {
        let sight = shown.sight.get();
        clock::at_rest(move || rests_at.set(sight));
    });
    let found = Derived::new(move || {
        let staves = shown.movement.chosen.read();
        // Who reads along is to find for himself what is to be heard.
        if along.is_on() {
            return None;
        }
        Some(map::places(&shown.map.places.read(), &staves, rests_at.get()?))
    });
    let all = live(move || {
        let one = |place: crookwise_opened::PlaceRow| {
            let (first, last) = place.bars;
            let printed = |bar: u32| shown.movement.printed(bar);
            let said = words::map::place(place.kind, &printed(first), &printed(last));
            let staves = place.staves;
            let go = press(move || shown.go(first, &staves));
            view! { <button class="kind" on:click=go>{said}</button> }.into_any()
        };
        found.get().unwrap_or_default().into_iter().map(one).collect::<Vec<_>>()
    });
    // What is said, and what is here, need its room.
    let some = live(move || {
        let is_said = shown.map.said.with(|said| !said.is_empty());
        is_said || found.with(|found| found.as_ref().is_some_and(|found| !found.is_empty()))
    });
    let waits = live(move || (rests_at.get() != shown.sight.get()).then_some("true"));
    view! {
        <div class="map-places" role="group" aria-label=words::map::PLACES aria-busy=waits>{all}</div>
        <p class="map-help quiet" hidden=some>{words::map::HOW_TO_READ_IT}</p>
    }
    .into_any()
}

/// The picture, with a frame round what stands in the window; a tap or a finger drawn over it leads there.
fn drawn(shown: MapShown) -> AnyView {
    let room = NodeRef::<Div>::new();
    sight::tell_cover(MAP, room);
    measure::follow_room(room, move |width, _| shown.map.width.set(width.max(0.0) as u32));
    let svg = live(move || {
        let plan = shown.plan.get();
        let rows = shown.map.rows.get().unwrap_or_default();
        let drawn = shown.movement.open.map(|open| {
            let (numbers, letters) = (&open.summary.bars, &open.summary.letters);
            let frame = MapFrame { loudness: &rows.loudness, numbers, letters };
            picture(&plan, &shown.lines.read(), &frame)
        });
        drawn.filter(|_| plan.width > 0)
    });
    let high = live(move || Some(length(shown.plan.with(|plan| plan.height))));
    let name = live(move || {
        let changes = shown.lines.read().iter().map(|line| line.crooks.len()).sum();
        let entries = shown.entries.read().len();
        Some(words::map::seen(shown.plan.with(|plan| plan.bars), entries, REST_BEFORE, changes))
    });
    let frame = live(move || {
        let (left, wide) = shown.plan.get().stretch(shown.sight.get()?);
        let (left, wide) = (length(left), length(wide));
        Some(view! { <span class="map-frame" style:left=left style:width=wide></span> }.into_any())
    });
    let playback = Playback::get();
    let sounding = live(move || {
        let spot = playback.spot.get()?;
        let within = i64::from(spot.hundredths) * i64::from(BAR) / i64::from(spot.of.max(1));
        let time = spot.bar.saturating_mul(BAR).saturating_add(u32::try_from(within).unwrap_or(0));
        let left = length(shown.plan.with(|plan| plan.x(time)));
        Some(view! { <span class="map-sounding" style:left=left></span> }.into_any())
    });
    // Where the pointer went down, and whether it drags.
    let held: Watched<Option<(f64, bool)>> = Watched::new(None);
    let go = move |x: f64, staves: &[u32]| shown.go(shown.plan.get_untracked().bar_at(x as i32), staves);
    let down = hear(move |event: PointerEvent| {
        // A press beside an open list shuts it and does nothing else.
        if pointer::is_main(&event)
            && !popover::shut_open()
            && let Some(place) = pointer::place(&event)
        {
            pointer::capture(&event);
            held.set(Some((place.x, false)));
        }
    });
    let moved = hear(move |event: PointerEvent| {
        let Some((from, drags)) = held.get_untracked() else { return };
        if let Some(place) = pointer::place(&event)
            && (drags || (place.x - from).abs() > DRAGS)
        {
            held.set(Some((from, true)));
            go(place.x, &[]);
        }
    });
    let up = hear(move |event: PointerEvent| {
        let was_held = held.get_untracked();
        held.set(None);
        if let (Some((_, false)), Some(place)) = (was_held, pointer::place(&event)) {
            // Who taps a line wants to see it.
            let line = shown.plan.get_untracked().line_at(place.y as i32);
            go(place.x, &shown.staves_of(line.as_slice()));
        }
    });
    let lost = hear(move |_: PointerEvent| held.set(None));
    let no_click = hear(|event: TouchEvent| pointer::no_click(&event));
    view! {
        <div
            class="map-picture"
            role="img"
            aria-label=name
            style:height=high
            node_ref=room
            on:pointerdown=down
            on:pointermove=moved
            on:pointerup=up
            on:pointercancel=lost
            on:touchend=no_click
        >
            <div inner_html=svg></div>
            {frame}
            {sounding}
        </div>
    }
    .into_any()
}

/// A length in pixels, as a style has it.
fn length(pixels: i32) -> String {
    format!("{pixels}px")
}
