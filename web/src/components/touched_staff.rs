//! A staff under a finger, pen or mouse.

use crate::browser::pointer;
use crate::components::live::{Live, hear, live, when};
use crate::components::system_view::pixels;
use crate::state::gesture::{Gesture, Pointer, Target};
use crate::state::kept::Derived;
use crate::state::score_sheet::SheetSystem;
use crate::state::session::Session;
use crate::state::stand::Stand;
use crate::state::tried::Tried;
use crate::words;
use crookwise_theory::{Clef, StaffPosition};
use leptos::ev::{PointerEvent, TouchEvent};
use leptos::prelude::*;

/// Pixels of one staff space where a note stands enlarged beside a finger.
const ENLARGED: f64 = 15.0;

/// A staff of a system: a written one, or one that sounds.
pub fn touched_staff(system: Derived<Option<SheetSystem>>, on: Target) -> AnyView {
    let Session { desk, stand, .. } = Session::get();
    let picture =
        live(move || system.and_then(|system| Some(system.picture(on)?.svg.to_string())).unwrap_or_default());
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
            <div class="picture" inner_html=picture></div>
            <div class="picture ghost" inner_html=ghost></div>
            {when(move || tried.is_some(), move || beside(tried, system, on))}
        </div>
    }
    .into_any()
}

/// Where a pointer is on the staff: the column, the place, the clef and the height in pixels.
fn under(
    stand: Stand,
    system: Derived<Option<SheetSystem>>,
    on: Target,
    event: &PointerEvent,
) -> Option<(usize, StaffPosition, Clef, f64)> {
    let at = pointer::place(event)?;
    untrack(|| {
        system.and_then(|system| {
            let column = system.column_at(at.x, stand.columns())?;
            Some((column, system.place_at(on, at.y), system.picture(on)?.head_at(column).0, at.y))
        })
    })
}

/// What kind of pointer it is.
fn kind(event: &PointerEvent) -> Pointer {
    if pointer::is_finger(event) { Pointer::Finger } else { Pointer::Exact }
}

fn down(stand: Stand, system: Derived<Option<SheetSystem>>, on: Target, event: &PointerEvent) {
    if !pointer::is_main(event) {
        return;
    }
    if let Some((column, place, clef, y)) = under(stand, system, on, event) {
        pointer::capture(event);
        stand.touch(kind(event), (on, column), place, clef, y);
    }
}

fn moved(stand: Stand, system: Derived<Option<SheetSystem>>, on: Target, event: &PointerEvent) {
    match (stand.gesture(), under(stand, system, on, event)) {
        (Some(gesture), Some((_, place, _, y))) => stand.drag(Gesture::drag(gesture, place, y)),
        (None, Some((column, place, ..))) if kind(event) == Pointer::Exact => {
            stand.hover(Some((on, column, place)));
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
    let magnified: Live<String> = live(move || {
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
