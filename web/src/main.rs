//! The app: a panic hook, then the page is mounted.

use leptos::prelude::*;

/// A heading and a button, until the reading page takes their place.
#[component]
fn App() -> impl IntoView {
    let (count, set_count) = signal(0_u32);
    view! {
        <main>
            <h1>"Crookwise"</h1>
            <button on:click=move |_| set_count.update(|n| *n += 1)>"Counted: " {count}</button>
        </main>
    }
}

fn main() {
    console_error_panic_hook::set_once();
    mount_to_body(App);
}
