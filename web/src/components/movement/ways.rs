//! One of a few ways, side by side.

use crate::components::live::{live, press};
use crate::state::kept::Watched;
use leptos::prelude::*;

/// A button for each, of which the one that holds is pressed.
pub fn ways<T: Copy + PartialEq + Send + Sync + 'static>(
    label: &'static str,
    all: impl IntoIterator<Item = (T, &'static str)>,
    now: Watched<T>,
) -> AnyView {
    let one = |(way, name): (T, &'static str)| {
        let is = live(move || Some((now.get() == way).to_string()));
        let choose = press(move || now.set(way));
        view! { <button class="way" aria-pressed=is on:click=choose>{name}</button> }.into_any()
    };
    let all: Vec<AnyView> = all.into_iter().map(one).collect();
    view! { <div class="ways-shown" role="group" aria-label=label>{all}</div> }.into_any()
}
