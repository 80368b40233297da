//! A sheet over the page: from the side on a wide screen, from below on a telephone. Escape, a press beside it, its own
//! button, or what is chosen in it shut it; the page beneath stays as it was.

use crate::browser::{dialog, focus, style};
use crate::components::change_form::change_form;
use crate::components::live::{hear, press};
use crate::components::pages_panel::pages_panel;
use crate::components::settings_panel::settings_panel;
use crate::components::share_panel::share_panel;
use crate::components::sound_panel::sound_panel;
use crate::state::panels::{Panel, Panels};
use crate::state::session::Session;
use crate::words;
use leptos::ev::{Event, MouseEvent, PointerEvent};
use leptos::prelude::*;

/// The element of the sheet; there is one at most.
const OVER: &str = "over";

/// The sheet of a panel.
pub fn sheet(panel: Panel) -> AnyView {
    let Session { panels, .. } = Session::get();
    let (name, body): (_, fn() -> AnyView) = match panel {
        Panel::Pages => (words::pages::PAGES, pages_panel),
        Panel::Share => (words::pages::SHARE, share_panel),
        Panel::Settings => (words::settings::SETTINGS, settings_panel),
        Panel::Change => (words::changes::CHANGE_HERE, change_form),
        Panel::Sound => (words::dock::WAYS_OF_HEARING, sound_panel),
    };
    style::PANELS.wear();
    dialog::show(OVER);
    // A press that begins inside, as one that selects a text, is none beside it.
    let began = StoredValue::new(false);
    let down = hear(move |event: PointerEvent| began.set_value(dialog::is_beside(&event)));
    let beside = hear(move |event: MouseEvent| {
        if began.get_value() && dialog::is_beside(&event) {
            shut(panels);
        }
    });
    // A small list stands where it was asked for.
    let class = if panel == Panel::Sound { "over low" } else { "over" };
    view! {
        <dialog
            class=class
            id=OVER
            aria-label=name
            on:pointerdown=down
            on:click=beside
            on:close=hear(move |_: Event| shut(panels))
        >
            <div class="over-body">
                <div class="over-head">
                    <h2>{name}</h2>
                    <button on:click=press(move || shut(panels))>{words::pages::DONE}</button>
                </div>
                {body()}
            </div>
        </dialog>
    }
    .into_any()
}

/// Shuts the sheet that is open; the keyboard is back where it was opened.
pub fn shut(panels: Panels) {
    if let Some(panel) = panels.close() {
        focus::to(panel.opener().to_owned());
    }
}
