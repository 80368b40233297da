//! One system: the written staff over the sounding one, and between them how each note is made.

use crate::browser::pointer;
use crate::components::column_cell::ColumnCell;
use crate::state::gesture::Gesture;
use crate::state::score_sheet::{System, enlarged};
use crate::state::session::Session;
use crate::words;
use crookwise_theory::StaffPosition;
use leptos::ev::PointerEvent;
use leptos::prelude::*;

/// Pixels of one staff space where a note stands enlarged beside a finger.
const ENLARGED: f64 = 15.0;

/// A system by its number from the top.
#[component]
pub fn SystemView(
    /// Its number from the top, from 0.
    at: usize,
) -> impl IntoView {
    let session = Session::get();
    let system = Memo::new(move |_| session.sheet.read().systems.get(at).cloned());
    let columns =
        Memo::new(move |_| system.read().as_ref().map(|system| system.columns.clone()).unwrap_or_default());
    let written = move || system.read().as_ref().map(|system| system.written.svg.clone());
    let sounding =
        move || system.read().as_ref().and_then(|system| Some(system.sounding.as_ref()?.svg.clone()));
    let head = move || format!("{}px", system.read().as_ref().map_or(0.0, |system| system.head));
    view! {
        <section class="system">
            <SelectedBand system />
            <h2 class="staff-name">"Written"</h2>
            <WrittenStaff system>
                <div class="picture" inner_html=written></div>
            </WrittenStaff>
            <div class="strip">
                <div class="strip-names" style:width=head aria-hidden="true">
                    <StripNames />
                </div>
                <For each=move || columns.get() key=|column| *column let:column>
                    <ColumnCell column system />
                </For>
            </div>
            <h2 class="staff-name sea">"Sounding"</h2>
            <div class="picture sounding" role="img" aria-label="Sounding staff" inner_html=sounding></div>
        </section>
    }
}

/// What the rows of the strip are called.
#[component]
fn StripNames() -> impl IntoView {
    let session = Session::get();
    let natural = Memo::new(move |_| session.view.read().natural_family().is_some());
    view! {
        <Show when=move || natural.get() fallback=|| view! { <span class="row-name">"Sounds"</span> }>
            <span class="row-name partial-name">"Partial"</span>
            <span class="row-name">"Drift"<br/>"(cents)"</span>
        </Show>
    }
}

/// The band behind the selected column.
#[component]
fn SelectedBand(
    /// The system it lies in.
    system: Memo<Option<System>>,
) -> impl IntoView {
    let session = Session::get();
    let place = Memo::new(move |_| {
        let selected = session.view.read().selected?;
        let system = system.read();
        let system = system.as_ref()?;
        Some((system.left(selected)?, system.column))
    });
    view! {
        <Show when=move || place.read().is_some()>
            <div
                class="band"
                style:left=move || format!("{}px", place.get().map_or(0.0, |(left, _)| left))
                style:width=move || format!("{}px", place.get().map_or(0.0, |(_, width)| width))
            ></div>
        </Show>
    }
}

/// The written staff under a finger, pen or mouse.
#[component]
fn WrittenStaff(
    /// Its system.
    system: Memo<Option<System>>,
    /// The staff itself.
    children: Children,
) -> impl IntoView {
    let session = Session::get();
    let hover = RwSignal::new(None::<(usize, StaffPosition)>);
    // Where a pointer is on the staff: the column, the place and the height in pixels.
    let under = move |event: &PointerEvent| {
        let at = pointer::place(event)?;
        let system = system.read_untracked();
        let system = system.as_ref()?;
        let columns = session.view.read_untracked().columns.len();
        Some((system.column_at(at.x, columns)?, system.place_at(at.y), at.y))
    };
    let down = move |event: PointerEvent| {
        if !pointer::is_main(&event) {
            return;
        }
        let Some((column, place, y)) = under(&event) else { return };
        pointer::capture(&event);
        hover.set(None);
        let (existing, reach) = session.view.with_untracked(|view| {
            let clef = view.place.as_ref().map_or(crookwise_theory::Clef::TREBLE, |place| place.habits.clef);
            let printed = view.columns.get(column).and_then(|column| column.printed);
            (printed.map(|printed| clef.position(printed.0)), view.reach())
        });
        session.gesture.set(Some(Gesture::begin(pointer::kind(&event), column, place, existing, y, reach)));
    };
    let moved = move |event: PointerEvent| {
        let held = session.gesture.get_untracked();
        match (held, under(&event)) {
            (Some(gesture), Some((_, place, y))) => {
                let next = gesture.drag(place, y);
                if next != gesture {
                    session.gesture.set(Some(next));
                }
            }
            (None, Some((column, place, _)))
                if pointer::kind(&event) == crate::state::gesture::Pointer::Exact =>
            {
                let (low, high) = session.view.with_untracked(|view| view.reach());
                let place = StaffPosition(place.0.clamp(low.0, high.0));
                if hover.get_untracked() != Some((column, place)) {
                    hover.set(Some((column, place)));
                }
            }
            (None, _) => {
                if hover.get_untracked().is_some() {
                    hover.set(None);
                }
            }
            (Some(_), None) => {}
        }
    };
    // What is tried: under the finger, or where the mouse would place a note.
    let tried = Memo::new(move |_| {
        let shown = system.read();
        let shown = shown.as_ref()?;
        let view = session.view.read();
        match (session.gesture.get(), hover.get()) {
            (Some(gesture), _) => {
                shown.left(gesture.column)?;
                let (printed, reading) = session.tried(gesture);
                Some((
                    gesture.column,
                    printed,
                    reading.map(|reading| reading.sounding),
                    Some(gesture.pointer),
                ))
            }
            (None, Some((column, place))) => {
                shown.left(column)?;
                let (printed, reading) = view.try_place(&session.page.read(), place);
                Some((column, printed, reading.map(|reading| reading.sounding), None))
            }
            (None, None) => None,
        }
    });
    let ghost = move || {
        let (column, printed, ..) = tried.get()?;
        Some(system.read().as_ref()?.tried(&session.view.read(), column, printed))
    };
    let words = move || {
        tried.get().map(|(_, printed, sounding, _)| match sounding {
            Some(sounding) => format!("{} → {}", words::note(printed.0), words::note(sounding.0)),
            None => words::note(printed.0),
        })
    };
    let by_finger = move || {
        tried.get().is_some_and(|(.., pointer)| pointer == Some(crate::state::gesture::Pointer::Finger))
    };
    let magnified = move || {
        tried
            .get()
            .filter(|_| by_finger())
            .map(|(_, printed, ..)| enlarged(&session.view.read(), printed, ENLARGED))
    };
    let left = move || {
        let system = system.read();
        let at = tried.get().and_then(|(column, ..)| {
            let system = system.as_ref()?;
            Some(system.left(column)? + system.column / 2.0)
        });
        format!("{}px", at.unwrap_or(0.0))
    };
    // Beside the finger: on the side where there is room.
    let on_the_left = move || {
        let system = system.read();
        let column = tried.get().map(|(column, ..)| column);
        column.zip(system.as_ref()).is_some_and(|(column, system)| {
            column.saturating_sub(system.columns.start) * 2 >= system.columns.len()
        })
    };
    view! {
        <div
            class="written"
            role="img"
            aria-label="Written staff"
            on:pointerdown=down
            on:pointermove=moved
            on:pointerup=move |_| session.let_go()
            on:pointercancel=move |_| session.gesture.set(None)
            on:pointerleave=move |_| hover.set(None)
        >
            {children()}
            <div class="picture ghost" inner_html=ghost></div>
            <Show when=move || tried.read().is_some()>
                <div class="tried" class:finger=by_finger class:before=on_the_left style:left=left>
                    <div class="magnified" inner_html=magnified></div>
                    <output>{words}</output>
                </div>
            </Show>
        </div>
    }
}
