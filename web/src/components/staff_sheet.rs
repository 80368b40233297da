//! The whole staff: systems of written and sounding notes, and the keys that work on them.

use crate::browser::{focus, measure};
use crate::components::system_view::SystemView;
use crate::state::keys::{Held, KeyAction};
use crate::state::score_sheet::Room;
use crate::state::session::Session;
use leptos::html::Div;
use leptos::prelude::*;

/// All systems under each other.
#[component]
pub fn StaffSheet() -> impl IntoView {
    let session = Session::get();
    let sheet = NodeRef::<Div>::new();
    measure::follow_width(sheet, move |width| session.set_room(Room { width }));
    let systems = Memo::new(move |_| session.sheet.read().systems.len());
    let on_key = move |event: leptos::ev::KeyboardEvent| {
        let held = Held {
            command: event.ctrl_key() || event.meta_key(),
            shift: event.shift_key(),
            alt: event.alt_key(),
        };
        if let Some(action) = KeyAction::of(&event.key(), held) {
            event.prevent_default();
            session.key(action);
            // The keyboard stays with the note that is selected now.
            let selected = untrack(|| session.view.read().selected);
            focus::to(selected.map_or_else(|| "next-note".to_owned(), |column| format!("note-{column}")));
        }
    };
    let said = move || {
        let view = session.view.read();
        view.selected_column().map(|column| column.name.clone()).unwrap_or_default()
    };
    view! {
        <div
            class="sheet"
            role="application"
            aria-label="Notes on the staff"
            aria-describedby="key-help"
            node_ref=sheet
            on:keydown=on_key
        >
            <For each=move || 0..systems.get() key=|at| *at let:at>
                <SystemView at />
            </For>
        </div>
        <p class="unseen" role="status">{said}</p>
    }
}
