//! The whole staff: systems of written and sounding notes, and the keys that work on them.

use crate::browser::{field, focus, measure, sight};
use crate::components::key_action::key_action;
use crate::components::live::{each, hear, live, when};
use crate::components::margin_label;
use crate::components::system_view::{pixels, system_view};
use crate::state::kept::{Derived, follow};
use crate::state::keys::{self, KeyAction};
use crate::state::score_sheet::Sheet;
use crate::state::session::Session;
use crate::words;
use leptos::ev::{Event, KeyboardEvent};
use leptos::html::Div;
use leptos::prelude::*;

/// The element that holds all systems.
pub(super) const SHEET: &str = "sheet";

/// All systems under each other.
pub fn staff_sheet() -> AnyView {
    let Session { desk, stand, wall, names, .. } = Session::get();
    let sheet = NodeRef::<Div>::new();
    measure::follow_room(sheet, move |width, height| stand.set_room(width, height));
    // What is revealed on the wall takes room over the staves.
    follow(move || {
        let _ = wall.class();
        sight::before_next_picture(move || {
            measure::tell_room(sheet, |width, height| stand.set_room(width, height));
        });
    });
    follow(move || {
        if let Some(left) = stand.run_to() {
            measure::run_to(sheet, left);
        }
    });
    let mut before = None;
    follow(move || {
        let added = desk.added.get();
        if before.replace(added).is_some_and(|before| before != added) {
            focus::to(if desk.beside.get_untracked() { margin_label::LABEL } else { "label" }.to_owned());
        }
    });
    let class = live(move || {
        let (runs, heads) = stand.sheet.with(|sheet| (sheet.runs, sheet.heads_stay));
        match (runs, heads, stand.fingers.get()) {
            (false, _, false) => "sheet",
            (false, _, true) => "sheet fingers",
            (true, false, false) => "sheet runs",
            (true, false, true) => "sheet runs fingers",
            (true, true, false) => "sheet runs heads-stay",
            (true, true, true) => "sheet runs heads-stay fingers",
        }
    });
    let still = live(move || pixels(stand.sheet.with(Sheet::still)));
    let beyond = Derived::new(move || stand.beyond());
    let is_longer = move || {
        let sheet = stand.sheet.read();
        sheet.runs && sheet.systems.first().is_some_and(|system| system.width() > sheet.room + 1.0)
    };
    let more = move || {
        let words = live(move || match beyond.get() {
            0 => String::new(),
            columns => words::staves::more(columns),
        });
        view! { <p class="quiet beyond" aria-hidden="true">{words}</p> }.into_any()
    };
    let systems = Derived::new(move || 0..stand.sheet.read().systems.len());
    let on_key = hear(move |event: KeyboardEvent| {
        let meant = |action: KeyAction| {
            if wall.is_on_untracked() { action.on_the_wall() } else { Some(action) }
        };
        let letters = names.read_untracked().letters;
        let cell = keys::cell(&field::id(&event));
        if let Some(below) = desk.below(cell).filter(|_| event.key() == "Enter") {
            event.prevent_default();
            focus::to(below);
            return;
        }
        if let Some(action) = key_action(&event, letters).and_then(meant) {
            event.prevent_default();
            desk.key(action, cell);
            // The keyboard stays with the note that is selected now.
            focus::to_inside(SHEET, desk.selected_element());
        }
    });
    let said = live(move || {
        let view = desk.view.read();
        view.selected_column().map(|column| column.name.clone()).unwrap_or_default()
    });
    view! {
        <div
            class=class
            style=("--still", still)
            id=SHEET
            tabindex="-1"
            role="application"
            aria-label=words::staves::NOTES_ON_THE_STAFF
            aria-describedby="key-help"
            node_ref=sheet
            on:keydown=on_key
            on:scroll=hear(move |_: Event| stand.run.set(measure::run(sheet)))
        >
            {each(systems, system_view)}
        </div>
        {when(is_longer, more)}
        <p class="unseen" role="status">{said}</p>
    }
    .into_any()
}
