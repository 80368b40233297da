//! The few shapes in which the page follows the state.
//!
//! Every closure in a view is a type of its own, and the framework makes its machinery anew for each. Boxed into the
//! few shapes here they share it, which keeps the app small over the wire.

use crate::state::kept::Derived;
use core::ops::Range;
use leptos::ev::MouseEvent;
use leptos::prelude::*;
use std::sync::Arc;

/// What follows the state, in one of the few shapes.
pub type Live<T> = Box<dyn FnMut() -> T + Send>;

/// A text or an attribute: none is an attribute that is not there, or no text.
pub type LiveText = Live<Option<String>>;

/// What a closure may give, and the shape that the page takes it in.
pub trait Follows {
    /// The shape.
    type Shape;

    /// The same in that shape.
    fn shape(self) -> Self::Shape;
}

/// Each kind of value beside its shape.
macro_rules! follows {
    ($($kind:ty => $shape:ty, $shaped:expr;)*) => {$(
        impl Follows for $kind {
            type Shape = $shape;

            fn shape(self) -> $shape {
                $shaped(self)
            }
        }
    )*};
}

follows! {
    String => Option<String>, Some;
    &'static str => Option<String>, |text: Self| Some(text.to_owned());
    Option<String> => Option<String>, |text| text;
    Option<&'static str> => Option<String>, |text: Self| text.map(str::to_owned);
    // An attribute that is there or not.
    bool => Option<String>, |is: Self| is.then(String::new);
    AnyView => AnyView, |view| view;
    Option<AnyView> => AnyView, |view: Self| view.unwrap_or_else(|| ().into_any());
    Vec<AnyView> => AnyView, |views: Self| views.into_any();
}

/// A text, an attribute, a class or a part of the page that follows the state.
pub fn live<T: Follows>(mut make: impl FnMut() -> T + Send + 'static) -> Live<T::Shape> {
    Box::new(move || make().shape())
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
) -> Live<AnyView> {
    let condition = Derived::new(condition);
    live(move || condition.read().then(&part))
}

/// One of two parts of the page.
pub fn either(
    condition: impl Fn() -> bool + Send + Sync + 'static,
    part: impl Fn() -> AnyView + Send + 'static,
    other: impl Fn() -> AnyView + Send + 'static,
) -> Live<AnyView> {
    let condition = Derived::new(condition);
    live(move || if condition.get() { part() } else { other() })
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
