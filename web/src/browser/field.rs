//! The text in a field or list of the page. Elements are `web_sys`: gloo has nothing of its own for them.

use crate::browser::owned;
use gloo_utils::document;
use leptos::ev::Event;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, HtmlElement, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement};

/// What texts are typed in.
const TYPED_IN: [&str; 2] = ["INPUT", "TEXTAREA"];

/// The text in the field or the value of the list that an event comes from.
#[must_use]
pub fn text(event: &Event) -> String {
    let Some(target) = event.target() else { return String::new() };
    match target.dyn_into::<HtmlInputElement>() {
        Ok(input) => input.value(),
        Err(target) => match target.dyn_into::<HtmlTextAreaElement>() {
            Ok(area) => area.value(),
            Err(target) => JsValue::from(target)
                .dyn_into()
                .map(|list: HtmlSelectElement| list.value())
                .unwrap_or_default(),
        },
    }
}

/// The id of the element that an event comes from; empty where it has none.
#[must_use]
pub fn id(event: &Event) -> String {
    let element = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    element.map(|element| element.id()).unwrap_or_default()
}

/// The number in the field; `None` where there is none.
#[must_use]
pub fn number(event: &Event) -> Option<f64> {
    let input = event.target()?.dyn_into::<HtmlInputElement>().ok()?;
    Some(input.value_as_number()).filter(|number| number.is_finite())
}

/// Has the field that has the focus left before a button that is pressed does anything. Some browsers, those of Apple among them,
/// leave the focus where it is when a button is pressed: what was typed would go with the form that the button shuts.
pub fn leave_when_pressed() {
    owned::on_capture("click", |event| {
        let pressed = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let on_button = pressed.is_some_and(|one| one.closest("button").ok().flatten().is_some());
        let is_field = |one: &Element| TYPED_IN.contains(&one.tag_name().as_str());
        let field = document().active_element().filter(|one| on_button && is_field(one));
        if let Some(field) = field.and_then(|one| one.dyn_into::<HtmlElement>().ok()) {
            let _ = field.blur();
        }
    });
}

/// Puts a text into the field or chooses a value of the list.
pub fn set(event: &Event, text: &str) {
    let Some(target) = event.target() else { return };
    match target.dyn_into::<HtmlInputElement>() {
        Ok(input) => input.set_value(text),
        Err(target) => {
            if let Ok(list) = JsValue::from(target).dyn_into::<HtmlSelectElement>() {
                list.set_value(text);
            }
        }
    }
}

/// Selects all text of the field.
pub fn select_all(event: &Event) {
    if let Some(input) = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok()) {
        input.select();
    }
}

/// Selects all text of the field that may have several lines.
pub fn select_area(event: &Event) {
    if let Some(area) = event.target().and_then(|target| target.dyn_into::<HtmlTextAreaElement>().ok()) {
        area.select();
    }
}

/// The id of the element that a key goes to; empty where it has none.
#[must_use]
pub fn id_of_key(event: &leptos::ev::KeyboardEvent) -> String {
    id(event.as_ref())
}

/// Whether a key goes to a button, which it presses.
#[must_use]
pub fn is_button(event: &leptos::ev::KeyboardEvent) -> bool {
    event.target().is_some_and(|target| target.dyn_ref::<web_sys::HtmlButtonElement>().is_some())
}

/// Whether a key goes to a field with text.
#[must_use]
pub fn is_text(event: &leptos::ev::KeyboardEvent) -> bool {
    event.target().is_some_and(|target| {
        target.dyn_ref::<HtmlInputElement>().is_some() || target.dyn_ref::<HtmlTextAreaElement>().is_some()
    })
}
