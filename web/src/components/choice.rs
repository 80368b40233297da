//! A choice among named values: a label over a list.

use crate::browser::field;
use crate::components::live::{hear, live};
use crate::state::list_item::ListItem;
use leptos::ev::Event;
use leptos::prelude::*;
use std::sync::Arc;

/// A labelled list of values.
pub fn choice(
    label: &'static str,
    items: Arc<dyn Fn() -> Vec<ListItem> + Send + Sync>,
    value: Arc<dyn Fn() -> String + Send + Sync>,
    mut on_choose: Box<dyn FnMut(String)>,
) -> AnyView {
    let chosen = Arc::clone(&value);
    let options = live(move || {
        let chosen = chosen();
        let option = |item: ListItem| {
            let selected = item.value == chosen;
            view! { <option value=item.value selected=selected>{item.text}</option> }.into_any()
        };
        items().into_iter().map(option).collect::<Vec<_>>()
    });
    let change = hear(move |event: Event| on_choose(field::text(&event)));
    view! {
        <label class="field">
            <span>{label}</span>
            <select aria-label=label prop:value=live(move || value()) on:change=change>{options}</select>
        </label>
    }
    .into_any()
}
