//! Signs on buttons: small pictures of our own and the signs of music, drawn once in the page and used by name.

use crate::components::live::live;
use leptos::prelude::*;

/// All of them, to stand once in the page before they are used.
pub const SIGNS: &str = include_str!("signs.svg");

/// The sign of a name, to be looked at only.
pub fn icon(name: &'static str) -> AnyView {
    changing_icon(move || name)
}

/// One that follows the state.
pub fn changing_icon(name: impl Fn() -> &'static str + Send + 'static) -> AnyView {
    let used = live(move || ["#i-", name()].concat());
    view! { <svg class="icon" aria-hidden="true"><use href=used></use></svg> }.into_any()
}
