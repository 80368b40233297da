//! A choice among named values: a label over a list.

use crate::state::item::Item;
use leptos::prelude::*;

/// A labelled list of values.
#[component]
pub fn Choice(
    /// The name over the list.
    label: &'static str,
    /// What can be chosen.
    #[prop(into)]
    items: Signal<Vec<Item>>,
    /// The value chosen now.
    #[prop(into)]
    value: Signal<String>,
    /// Called with the value the reader chose.
    on_choose: impl Fn(String) + 'static,
) -> impl IntoView {
    let options = move || {
        let chosen = value.get();
        items
            .get()
            .into_iter()
            .map(|item| {
                let selected = item.value == chosen;
                view! { <option value=item.value selected=selected>{item.text}</option> }
            })
            .collect_view()
    };
    view! {
        <label class="field">
            <span>{label}</span>
            <select prop:value=move || value.get() on:change:target=move |event| on_choose(event.target().value())>
                {options}
            </select>
        </label>
    }
}
