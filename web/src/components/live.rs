//! The few shapes in which the page follows the state.
//!
//! Every closure in a view is a type of its own, and the framework makes its machinery anew for each. Boxed into the
//! few shapes here they share it, which keeps the app small over the wire.

use crate::state::kept::Derived;
use core::ops::Range;
use leptos::ev::MouseEvent;
use leptos::prelude::*;
use std::sync::Arc;

/// A value that follows the state.
pub type Live<T> = Box<dyn FnMut() -> T + Send>;

/// A text, attribute or class that follows the state.
pub fn live<T>(make: impl FnMut() -> T + Send + 'static) -> Live<T> {
    Box::new(make)
}

/// What happens when the reader does something.
pub fn hear<E: 'static>(act: impl FnMut(E) + 'static) -> Box<dyn FnMut(E)> {
    Box::new(act)
}

/// What a button does when pressed.
pub fn press(mut act: impl FnMut() + 'static) -> Box<dyn FnMut(MouseEvent)> {
    Box::new(move |_| act())
}

/// A part of the page that is there while a condition holds.
pub fn when(
    condition: impl Fn() -> bool + Send + Sync + 'static,
    part: impl Fn() -> AnyView + Send + 'static,
) -> Live<Option<AnyView>> {
    let condition = Derived::new(condition);
    live(move || condition.read().then(&part))
}

/// One of two parts of the page.
pub fn either(
    condition: impl Fn() -> bool + Send + Sync + 'static,
    part: impl Fn() -> AnyView + Send + 'static,
    other: impl Fn() -> AnyView + Send + 'static,
) -> Live<Option<AnyView>> {
    let condition = Derived::new(condition);
    live(move || Some(if condition.get() { part() } else { other() }))
}

/// Parts of the page by number; those that stay are kept as they are.
pub fn each(
    numbers: Derived<Range<usize>>,
    part: impl Fn(usize) -> AnyView + Send + Sync + 'static,
) -> AnyView {
    numbered(Box::new(move || numbers.get()), Arc::new(part))
}

fn numbered(
    numbers: Box<dyn Fn() -> Range<usize> + Send + Sync>,
    part: Arc<dyn Fn(usize) -> AnyView + Send + Sync>,
) -> AnyView {
    view! { <For each=move || numbers() key=|at: &usize| *at children=move |at| part(at) /> }.into_any()
}
