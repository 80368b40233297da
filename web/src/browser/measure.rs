//! The room an element has, followed as it changes, and how far what is in it has run. The observer of sizes is `web_sys`: gloo has none.

use crate::browser::owned;
use core::cell::RefCell;
use gloo_render::{AnimationFrame, request_animation_frame};
use gloo_utils::{document, window};
use leptos::html::Div;
use leptos::prelude::{Effect, Get, GetUntracked, NodeRef, on_cleanup};
use std::rc::Rc;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{HtmlElement, ResizeObserver};

/// Pixels between the edge of the dock and what is scrolled into view.
const BESIDE: i32 = 16;

/// An element that is watched until this is dropped.
pub(super) struct Watch {
    observer: Option<ResizeObserver>,
    /// What the observer calls.
    _report: Closure<dyn FnMut()>,
}

impl Watch {
    /// Calls back before the next picture whenever the element has another size, and to begin with; never where the browser
    /// has no such observer.
    pub(super) fn of(element: &HtmlElement, report: impl FnMut() + 'static) -> Self {
        let report = Closure::<dyn FnMut()>::new(report);
        let observer = ResizeObserver::new(report.as_ref().unchecked_ref()).ok();
        if let Some(observer) = &observer {
            observer.observe(element);
        }
        Self { observer, _report: report }
    }

    /// Also when this element has another size.
    fn and(self, element: &HtmlElement) -> Self {
        if let Some(observer) = &self.observer {
            observer.observe(element);
        }
        self
    }
}

impl Drop for Watch {
    fn drop(&mut self) {
        if let Some(observer) = &self.observer {
            observer.disconnect();
        }
    }
}

/// The width of the window in pixels, to begin with.
#[must_use]
pub fn window_width() -> f64 {
    window().inner_width().ok().and_then(|width| width.as_f64()).unwrap_or(1000.0)
}

/// A window that is narrower is a telephone's, as style sheets have it too.
const NARROW: f64 = 621.0;

/// Whether the window is a telephone's.
pub fn is_narrow() -> bool {
    window_width() < NARROW
}

/// The height of the window in pixels; a thousand where it is not known.
pub fn window_height() -> f64 {
    window().inner_height().ok().and_then(|height| height.as_f64()).unwrap_or(1000.0)
}

/// The least part of the window's height that is given to what begins far down the page.
const LEAST: f64 = 0.55;

/// How much of the window's height there is from the upper edge of an element on, where the page is not scrolled.
fn height_from(element: &HtmlElement) -> f64 {
    let number = |value: Result<JsValue, JsValue>| value.ok().and_then(|value| value.as_f64());
    let top = element.get_bounding_client_rect().top() + window().scroll_y().unwrap_or(0.0);
    let whole = number(window().inner_height()).unwrap_or(800.0);
    (whole - top).max(whole * LEAST).round()
}

/// Calls back with the inner width of an element and the height from its upper edge to the lower edge of the window, in
/// pixels, now and whenever they change.
pub fn follow_room(element: NodeRef<Div>, changed: impl Fn(f64, f64) + Copy + 'static) {
    follow(element, Rc::new(move |div| changed(f64::from(div.client_width()), height_from(div))));
}

/// The same for once, where something comes or goes over it and the page is no higher for that; not where the element is gone.
pub fn tell_room(element: NodeRef<Div>, told: impl FnOnce(f64, f64)) {
    if let Some(Some(div)) = element.try_get_untracked() {
        told(f64::from(div.client_width()), height_from(&div));
    }
}

/// Calls back with the inner size of an element whose height does not follow from what stands in it, in pixels, now and
/// whenever it changes.
pub fn follow_size(element: NodeRef<Div>, changed: impl Fn(f64, f64) + Copy + 'static) {
    follow(
        element,
        Rc::new(move |div| changed(f64::from(div.client_width()), f64::from(div.client_height()))),
    );
}

/// Keeps what is scrolled into view clear of an element at the lower edge of the window, as long as that is there; style sheets
/// know its height as `--foot`.
pub fn keep_clear(element: NodeRef<Div>) {
    let set = |height: i32| {
        let root = document().document_element().and_then(|root| root.dyn_into::<HtmlElement>().ok());
        if let Some(root) = root {
            let _ = root.style().set_property("scroll-padding-bottom", &format!("{}px", height + BESIDE));
            let _ = root.style().set_property("--foot", &format!("{height}px"));
        }
    };
    follow(element, Rc::new(move |div| set(div.offset_height())));
    on_cleanup(move || set(0));
}

/// Calls back with an element, now and whenever its size, that of the window or that of the whole page changes.
pub(super) fn follow(element: NodeRef<Div>, changed: Rc<dyn Fn(&HtmlElement)>) {
    Effect::new(move |_| {
        let Some(div) = element.get() else { return };
        let inner = div.clone();
        // With the next picture: laying out anew while widths are being reported makes WebKit complain of a loop, where
        // a scroll bar comes or goes.
        let next = Rc::new(RefCell::new(None::<AnimationFrame>));
        let asked = {
            let changed = Rc::clone(&changed);
            move || {
                let (inner, changed) = (inner.clone(), Rc::clone(&changed));
                next.replace(Some(request_animation_frame(move |_| changed(&inner))));
            }
        };
        changed(&div);
        owned::on_window("resize", asked.clone());
        let watch = Watch::of(&div, asked);
        // What comes and goes above it makes the whole page higher.
        owned::keep(match document().body() {
            Some(body) => watch.and(&body),
            None => watch,
        });
    });
}

/// Does something to the page and keeps an element where it stands on the screen, whatever comes or goes above it.
pub fn stay(id: &str, act: impl FnOnce()) {
    thread_local! {
        static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
    }
    let top = |id: &str| Some(document().get_element_by_id(id)?.get_bounding_client_rect().top());
    let (id, before) = (id.to_owned(), top(id));
    act();
    NEXT.set(Some(request_animation_frame(move |_| {
        if let (Some(before), Some(now)) = (before, top(&id)) {
            window().scroll_by_with_x_and_y(0.0, now - before);
        }
    })));
}

/// How far what stands in an element has run to the left, in pixels.
#[must_use]
pub fn run(element: NodeRef<Div>) -> f64 {
    element.get_untracked().map_or(0.0, |div| f64::from(div.scroll_left()))
}

/// Lets it run so far, with the next picture: what is run to may not stand there yet.
pub fn run_to(element: NodeRef<Div>, left: f64) {
    thread_local! {
        static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
    }
    NEXT.set(Some(request_animation_frame(move |_| {
        if let Some(div) = element.get_untracked() {
            div.set_scroll_left(left.ceil() as i32);
        }
    })));
}
