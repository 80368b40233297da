//! The label of a staff in the margin of the page: the selected one is edited where it stands.

use crate::browser::{field, focus};
use crate::components::live::{hear, live, press};
use crate::components::staff_sheet::SHEET;
use crate::state::document::Document;
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::words;
use leptos::ev::{Event, KeyboardEvent};
use leptos::prelude::*;

/// The field of the selected staff's label.
pub const LABEL: &str = "margin-label";

/// As the score prints it.
fn label(staff: usize) -> impl Fn() -> String + Copy {
    let Session { desk, .. } = Session::get();
    move || desk.whole.read().staves.get(staff).map(|staff| staff.label.clone()).unwrap_or_default()
}

/// What it means, in few words.
fn meaning(staff: usize) -> AnyView {
    let Session { desk, .. } = Session::get();
    let words = live(move || {
        let whole = desk.whole.read();
        let place = whole.voice(staff, 0).and_then(|view| view.start());
        place.map(|place| words::sounds_shortly(place.notation().printed_to_sounding()))
    });
    view! { <small>{words}</small> }.into_any()
}

/// A button that selects the staff; its notes get the keyboard.
pub fn label_button(staff: usize) -> AnyView {
    let Session { desk, .. } = Session::get();
    let chosen = live(move || (desk.whole.read().staff == staff).then(|| "true".to_owned()));
    let select = move || {
        desk.act(|document| document.select_on(staff, 0, None));
        focus::to_inside(SHEET, desk.selected_element());
    };
    view! {
        <button class="staff-label" aria-current=chosen on:click=press(select)>
            <span>{live(label(staff))}</span>
            {meaning(staff)}
        </button>
    }
    .into_any()
}

/// The field of the selected staff. Enter goes on to the next one; a list that is pasted makes several staves.
pub fn label_field(staff: usize) -> AnyView {
    let Session { desk, .. } = Session::get();
    let shown = Derived::new(label(staff));
    let typed = hear(move |event: Event| {
        let typed = field::text(&event);
        if typed.trim().contains('\n') {
            desk.attempt(move |document| document.list_labels(&typed));
            focus::to_inside(SHEET, LABEL.to_owned());
        } else {
            let typed = typed.replace('\n', "");
            desk.act(move |document| document.type_label(&typed));
        }
    });
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
        <div class="staff-label here">
            <textarea
                id=LABEL
                rows="1"
                aria-label=words::staves::WHAT_THE_SCORE_PRINTS
                autocomplete="off"
                spellcheck="false"
                enterkeyhint="next"
                prop:value=live(move || shown.get())
                on:input=typed
                on:change=finished
                on:keydown=key
            ></textarea>
            {meaning(staff)}
        </div>
    }
    .into_any()
}
