//! The written staff under a finger, pen or mouse.

use crate::browser::pointer;
use crate::components::live::{Live, hear, live, when};
use crate::components::system_view::pixels;
use crate::state::gesture::{Gesture, Pointer};
use crate::state::kept::Derived;
use crate::state::score_sheet::{System, enlarged};
use crate::state::session::Session;
use crate::state::tried::Tried;
use crate::state::view::View;
use crookwise_theory::StaffPosition;
use leptos::ev::PointerEvent;
use leptos::prelude::*;

/// Pixels of one staff space where a note stands enlarged beside a finger.
const ENLARGED: f64 = 15.0;

/// A written staff of a system, by its number from the top.
pub fn written_staff(system: Derived<Option<System>>, staff: usize) -> AnyView {
    let session = Session::get();
    let picture = live(move || {
        let system = system.get();
        let picture = Option::as_ref(&system).and_then(|system| system.written.get(staff));
        picture.map(|picture| picture.svg.clone()).unwrap_or_default()
    });
    let reader = Derived::new(move || session.reader_of(staff));
    let tried = Derived::new(move || {
        let system = system.get();
        let pointed = *session.pointed.get();
        Tried::on(Option::as_ref(&system)?, staff, &reader.get(), &session.page.get(), pointed)
    });
    let ghost = live(move || {
        let (tried, system) = (tried.get(), system.get());
        let ghost = Option::as_ref(&tried).zip(Option::as_ref(&system));
        ghost
            .map(|(tried, system)| system.tried(staff, &reader.get(), tried.column, tried.printed))
            .unwrap_or_default()
    });
    let name = live(move || {
        let whole = session.whole.get();
        match whole.staves.get(staff).filter(|_| whole.staves.len() > 1) {
            Some(staff) => format!("Written staff, {}", staff.label),
            None => "Written staff".into(),
        }
    });
    let let_go = hear(move |_: PointerEvent| session.let_go());
    let leave = move || hear(move |_: PointerEvent| session.point_away());
    view! {
        <div
            class="written"
            role="img"
            aria-label=name
            on:pointerdown=hear(move |event| down(session, system, staff, &event))
            on:pointermove=hear(move |event| moved(session, system, staff, &event))
            on:pointerup=let_go
            on:pointercancel=leave()
            on:pointerleave=hear(move |_: PointerEvent| session.hover(None))
        >
            <div class="picture" inner_html=picture></div>
            <div class="picture ghost" inner_html=ghost></div>
            {when(move || tried.get().is_some(), move || beside(tried, reader))}
        </div>
    }
    .into_any()
}

/// Where a pointer is on the staff: the column, the place and the height in pixels.
fn under(
    session: Session,
    system: Derived<Option<System>>,
    staff: usize,
    event: &PointerEvent,
) -> Option<(usize, StaffPosition, f64)> {
    let at = pointer::place(event)?;
    let system = system.get_untracked();
    let system = Option::as_ref(&system)?;
    let columns = session.whole.get_untracked().columns();
    Some((system.column_at(at.x, columns)?, system.place_at(staff, at.y), at.y))
}

fn down(session: Session, system: Derived<Option<System>>, staff: usize, event: &PointerEvent) {
    if !pointer::is_main(event) {
        return;
    }
    if let Some((column, place, y)) = under(session, system, staff, event) {
        pointer::capture(event);
        session.touch(pointer::kind(event), (staff, column), place, y);
    }
}

fn moved(session: Session, system: Derived<Option<System>>, staff: usize, event: &PointerEvent) {
    match (session.gesture(), under(session, system, staff, event)) {
        (Some(gesture), Some((_, place, y))) => session.drag(Gesture::drag(gesture, place, y)),
        (None, Some((column, place, _))) if pointer::kind(event) == Pointer::Exact => {
            session.hover(Some((staff, column, place)));
        }
        (None, _) => session.hover(None),
        (Some(_), None) => {}
    }
}

/// What would sound, beside the pointer; under a finger the note itself as well, enlarged.
fn beside(tried: Derived<Option<Tried>>, reader: Derived<View>) -> AnyView {
    let by_finger = move || Option::as_ref(&tried.get()).is_some_and(|tried| tried.by_finger);
    let class = live(move || {
        let tried = tried.get();
        match Option::as_ref(&tried) {
            Some(Tried { by_finger: true, room_on_the_left: true, .. }) => "tried finger before",
            Some(Tried { by_finger: true, .. }) => "tried finger",
            _ => "tried",
        }
    });
    let words =
        live(move || Option::as_ref(&tried.get()).map(|tried| tried.words.clone()).unwrap_or_default());
    let left = live(move || pixels(Option::as_ref(&tried.get()).map_or(0.0, |tried| tried.middle)));
    let magnified: Live<String> = live(move || match Option::as_ref(&tried.get()).filter(|_| by_finger()) {
        Some(tried) => enlarged(&reader.get(), tried.printed, ENLARGED),
        None => String::new(),
    });
    view! {
        <div class=class style:left=left>
            <div class="magnified" inner_html=magnified></div>
            <output>{words}</output>
        </div>
    }
    .into_any()
}
