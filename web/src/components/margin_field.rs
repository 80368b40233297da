//! The label of the selected staff, edited where it stands in the margin of the page.

use crate::browser::{focus, pointer};
use crate::components::label_field::typed;
use crate::components::live::{hear, live};
use crate::components::margin_label::{Columns, LABEL, label, meaning};
use crate::components::staff_sheet::SHEET;
use crate::components::system_view::pixels;
use crate::state::document::Document;
use crate::state::kept::{Derived, Watched};
use crate::state::session::Session;
use crate::words;
use leptos::ev::{Event, KeyboardEvent, PointerEvent};
use leptos::prelude::*;

/// The field of the selected staff. Enter goes on to the next one; a list that is pasted makes several staves.
pub fn label_field(staff: usize, columns: Columns) -> AnyView {
    let session = Session::get();
    let Session { desk, .. } = session;
    focus::come(LABEL);
    let shown = Derived::new(label(staff));
    let dragged = Watched::new(None::<f64>);
    let offset = live(move || format!("0 {}", pixels(dragged.get().unwrap_or_default())));
    let finished = hear(move |_: Event| desk.act(Document::finish_typing));
    let key = hear(move |event: KeyboardEvent| {
        // The keys of the notes are letters here.
        event.stop_propagation();
        if event.key() == "Enter" && !event.is_composing() {
            event.prevent_default();
            desk.next_label();
            focus::to_inside(SHEET, LABEL.to_owned());
        }
    });
    view! {
        <div class="staff-label here" data-text=live(move || shown.get()) style:translate=offset>
            <textarea
                id=LABEL
                rows="1"
                aria-label=words::staves::WHAT_THE_SCORE_PRINTS
                autocomplete="off"
                spellcheck="false"
                enterkeyhint="next"
                prop:value=live(move || shown.get())
                on:input=hear(move |event: Event| typed(session, &event))
                on:change=finished
                on:keydown=key
            ></textarea>
            {meaning(staff, columns)}
            {grip(staff, dragged)}
        </div>
    }
    .into_any()
}

/// What the staff is dragged by to another place on the page. It goes there when it is let go.
fn grip(staff: usize, dragged: Watched<Option<f64>>) -> AnyView {
    let Session { desk, stand, .. } = Session::get();
    let start = Watched::new(0.0);
    let down = hear(move |event: PointerEvent| {
        if pointer::is_main(&event) {
            pointer::capture(&event);
            start.set(pointer::height(&event));
            dragged.set(Some(0.0));
        }
    });
    let moved = hear(move |event: PointerEvent| {
        if dragged.get_untracked().is_some() {
            dragged.set(Some(pointer::height(&event) - start.get_untracked()));
        }
    });
    let let_go = hear(move |_: PointerEvent| {
        let places = stand.places_off(staff, dragged.get_untracked().unwrap_or_default());
        dragged.set(None);
        if places != 0 {
            desk.attempt(|document| document.move_staff(places));
            focus::to_inside(SHEET, desk.selected_element());
        }
    });
    view! {
        <span
            class="grip"
            aria-hidden="true"
            on:pointerdown=down
            on:pointermove=moved
            on:pointerup=let_go
            on:pointercancel=hear(move |_: PointerEvent| dragged.set(None))
        ></span>
    }
    .into_any()
}
