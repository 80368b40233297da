//! A staff under a finger, pen or mouse.

use crate::browser::pointer::{self, PointerPlace};
use crate::browser::popover;
use crate::components::live::{LiveText, hear, live, when};
use crate::components::system_view::pixels;
use crate::state::gesture::{Pointer, StaffSpot, Target};
use crate::state::kept::Derived;
use crate::state::score_sheet::SheetSystem;
use crate::state::session::Session;
use crate::state::stand::Stand;
use crate::state::tried::Tried;
use crate::words;
use leptos::ev::{PointerEvent, TouchEvent};
use leptos::prelude::*;

/// Pixels of one staff space where a note stands enlarged beside a finger.
const ENLARGED: f64 = 15.0;

/// The class of the handle, by which a pointer on it is known.
const HANDLE: &str = "handle";

/// A staff of a system: a written one, or one that sounds.
pub fn touched_staff(system: Derived<Option<SheetSystem>>, on: Target) -> AnyView {
    let Session { desk, stand, .. } = Session::get();
    let picture =
        live(move || system.and_then(|system| Some(system.picture(on)?.svg.to_string())).unwrap_or_default());
    let head = live(move || {
        let head = system.and_then(|system| system.picture(on)?.head.as_deref().map(str::to_owned));
        head.unwrap_or_default()
    });
    let reader = Derived::new(move || stand.reader_of(on));
    let tried = Derived::new(move || {
        let pointed = stand.pointed.get();
        system.and_then(|system| Tried::on(system, on, &reader.read(), &desk.page.read(), pointed))
    });
    let ghost = live(move || {
        let ghost = tried.and_then(|tried| system.map(|system| system.tried(on, tried.column, tried.shown)));
        ghost.unwrap_or_default()
    });
    let name = live(move || {
        let whole = desk.whole.read();
        match on {
            Target::Written(staff) if whole.staves.len() > 1 => {
                let label = whole.staves.get(staff).map(|staff| staff.label.as_str());
                words::staves::written_staff(label.unwrap_or_default())
            }
            Target::Written(_) => words::staves::WRITTEN_STAFF.to_owned(),
            Target::Sounding(0) => words::staves::SOUNDING_STAFF.into(),
            Target::Sounding(_) => words::staves::SOUNDING_STAFF_LOWER.into(),
        }
    });
    let let_go = hear(move |_: PointerEvent| stand.let_go());
    let leave = move || hear(move |_: PointerEvent| stand.point_away());
    view! {
        <div
            class="touched"
            role="img"
            aria-label=name
            on:pointerdown=hear(move |event| down(stand, system, on, &event))
            on:pointermove=hear(move |event| moved(stand, system, on, &event))
            on:pointerup=let_go
            on:pointercancel=leave()
            on:pointerleave=hear(move |_: PointerEvent| stand.hover(None))
            on:touchend=hear(|event: TouchEvent| pointer::no_click(&event))
        >
            <div class="still" inner_html=head></div>
            <div class="picture" inner_html=picture></div>
            <div class="picture ghost" inner_html=ghost></div>
            {handle(stand, system, on)}
            {when(move || tried.is_some(), move || beside(tried, system, on))}
        </div>
    }
    .into_any()
}

/// What the selected note is moved by with a finger: as large as a finger, the note in its middle.
fn handle(stand: Stand, system: Derived<Option<SheetSystem>>, on: Target) -> AnyView {
    let place = Derived::new(move || {
        system.and_then(|system| {
            let (column, place) = stand.handle(on, system)?;
            Some((system.left(column)? + system.column / 2.0, system.height_of(on, place)))
        })
    });
    let part = move || {
        let left = live(move || pixels(place.map(|(left, _)| *left).unwrap_or_default()));
        let top = live(move || pixels(place.map(|(_, top)| *top).unwrap_or_default()));
        view! { <div class=HANDLE style:left=left style:top=top></div> }.into_any()
    };
    when(move || place.is_some(), part).into_any()
}

/// Where a pointer is on the staff.
fn under(
    stand: Stand,
    system: Derived<Option<SheetSystem>>,
    on: Target,
    event: &PointerEvent,
) -> Option<StaffSpot> {
    let PointerPlace { x, y } = pointer::place(event)?;
    untrack(|| {
        system.and_then(|system| {
            let column = stand.column_at(system, x)?;
            let clef = system.picture(on)?.head_at(column).0;
            Some(StaffSpot { on, column, place: system.place_at(on, y), clef, x, y })
        })
    })
}

/// What kind of pointer it is.
fn kind(event: &PointerEvent) -> Pointer {
    match (pointer::is_finger(event), pointer::is_on(event, HANDLE)) {
        (false, _) => Pointer::Exact,
        (true, false) => Pointer::Finger,
        (true, true) => Pointer::Handle,
    }
}

fn down(stand: Stand, system: Derived<Option<SheetSystem>>, on: Target, event: &PointerEvent) {
    if !pointer::is_main(event) || popover::shut_open() {
        return;
    }
    if let Some(spot) = under(stand, system, on, event) {
        if kind(event) != Pointer::Finger {
            pointer::capture(event);
        }
        stand.touch(kind(event), spot);
    }
}

fn moved(stand: Stand, system: Derived<Option<SheetSystem>>, on: Target, event: &PointerEvent) {
    match (stand.gesture(), under(stand, system, on, event)) {
        (Some(gesture), Some(spot)) => stand.drag(gesture, spot),
        (None, Some(spot)) if kind(event) == Pointer::Exact => {
            stand.hover(Some((on, spot.column, spot.place)));
        }
        (None, _) => stand.hover(None),
        (Some(_), None) => {}
    }
}

/// What would sound, beside the pointer; under a finger the note itself as well, enlarged.
fn beside(tried: Derived<Option<Tried>>, system: Derived<Option<SheetSystem>>, on: Target) -> AnyView {
    let class = live(move || match tried.map(|tried| (tried.by_finger, tried.room_on_the_left)) {
        Some((true, true)) => "tried finger before",
        Some((true, false)) => "tried finger",
        _ => "tried",
    });
    let words = live(move || tried.map(|tried| tried.words.clone()).unwrap_or_default());
    let left = live(move || pixels(tried.map(|tried| tried.middle).unwrap_or_default()));
    let magnified: LiveText = live(move || {
        let shown = tried.and_then(|tried| tried.by_finger.then_some((tried.column, tried.shown)));
        let picture = shown.and_then(|(column, shown)| {
            system.and_then(|system| Some(system.picture(on)?.enlarged(column, shown, ENLARGED)))
        });
        picture.unwrap_or_default()
    });
    view! {
        <div class=class style:left=left>
            <div class="magnified" inner_html=magnified></div>
            <output>{words}</output>
        </div>
    }
    .into_any()
}
