//! A choice among values that are all seen: one is taken at a tap, or by the arrow keys.

use crate::browser::popover;
use crate::components::live::{Live, hear, live};
use crate::state::kept::Derived;
use crate::state::list_item::ListItem;
use leptos::ev::MouseEvent;
use leptos::prelude::*;
use std::sync::Arc;

/// The values under their name. A tap also shuts the panel `around`; the arrow keys go on from value to value.
pub fn options(
    label: &'static str,
    around: &'static str,
    items: Arc<dyn Fn() -> Vec<ListItem> + Send + Sync>,
    value: Arc<dyn Fn() -> String + Send + Sync>,
    on_choose: Arc<dyn Fn(String) + Send + Sync>,
) -> AnyView {
    let items = Derived::new(move || items());
    let option = move |item: ListItem| {
        let (value, own, choose) = (Arc::clone(&value), item.value.clone(), Arc::clone(&on_choose));
        let chosen: Live<bool> = Box::new(move || value() == own);
        let own = item.value;
        let click = hear(move |event: MouseEvent| {
            choose(own.clone());
            if popover::is_pointed(&event) {
                popover::shut(around);
            }
        });
        view! {
            <label class="option">
                <input type="radio" name=label prop:checked=chosen on:click=click />
                <span>{item.text}</span>
            </label>
        }
        .into_any()
    };
    let all = live(move || items.read().iter().cloned().map(option.clone()).collect::<Vec<_>>());
    view! {
        <div class="options" role="radiogroup" aria-label=label>
            <p class="quiet" aria-hidden="true">{label}</p>
            {all}
        </div>
    }
    .into_any()
}
