//! A button that copies a text, and what became of it.

use crate::browser::clipboard;
use crate::components::live::{live, press};
use crate::state::kept::Watched;
use crate::words;
use leptos::prelude::*;
use leptos::task::spawn_local_scoped;

/// A button of this class and name for the text as it then is, and the sentence that says whether it was copied.
pub fn copy_button(
    class: &'static str,
    name: &'static str,
    text: impl Fn() -> String + 'static,
) -> (AnyView, AnyView) {
    let copied = Watched::new(None::<bool>);
    let copy = press(move || {
        let text = untrack(&text);
        spawn_local_scoped(async move { copied.set(Some(clipboard::copy(&text).await)) });
    });
    let button = view! { <button class=class on:click=copy>{name}</button> }.into_any();
    let said = view! { <span role="status">{live(move || words::copied(copied.get()))}</span> }.into_any();
    (button, said)
}
