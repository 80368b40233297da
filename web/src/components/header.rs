//! The bar at the head of the page.

use crate::browser::theme;
use crate::components::share_panel::SharePanel;
use leptos::prelude::*;

/// Name, places and the two switches.
#[component]
pub fn Header(
    /// Whether dark colours are shown.
    dark: RwSignal<bool>,
) -> impl IntoView {
    let sharing = RwSignal::new(false);
    let turn = move |_| {
        dark.update(|dark| *dark = !*dark);
        theme::show(dark.get_untracked());
    };
    view! {
        <header class="bar">
            <h1>"Crookwise"</h1>
            <p class="what">"From the printed staff to what sounds"</p>
            <div class="switches">
                <button aria-expanded=move || sharing.get().to_string() on:click=move |_| sharing.update(|on| *on = !*on)>
                    "Share"
                </button>
                <button on:click=turn aria-pressed=move || dark.get().to_string()>"Dark"</button>
            </div>
        </header>
        <Show when=move || sharing.get()>
            <SharePanel on_close=move || sharing.set(false) />
        </Show>
    }
}
