//! The width of an element, followed as it changes. The observer of sizes is `web_sys`: gloo has none.

use crate::browser::owned;
use core::cell::RefCell;
use gloo_render::{AnimationFrame, request_animation_frame};
use gloo_utils::window;
use leptos::html::Div;
use leptos::prelude::{Effect, Get, NodeRef};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::ResizeObserver;

/// An element that is watched until this is dropped.
struct Watch {
    observer: ResizeObserver,
    /// What the observer calls.
    _report: Closure<dyn FnMut()>,
}

impl Drop for Watch {
    fn drop(&mut self) {
        self.observer.disconnect();
    }
}

/// The width of the window in pixels, to begin with.
#[must_use]
pub fn window_width() -> f64 {
    window().inner_width().ok().and_then(|width| width.as_f64()).unwrap_or(1000.0)
}

/// Calls back with the inner width of an element in pixels, now and whenever it changes.
pub fn follow_width(element: NodeRef<Div>, changed: impl Fn(f64) + Copy + 'static) {
    Effect::new(move |_| {
        let Some(div) = element.get() else { return };
        let inner = div.clone();
        // With the next picture: laying out anew while widths are being reported makes WebKit complain of a loop, where
        // a scroll bar comes or goes.
        let next = Rc::new(RefCell::new(None::<AnimationFrame>));
        let report = Closure::<dyn FnMut()>::new(move || {
            let inner = inner.clone();
            let frame = request_animation_frame(move |_| changed(f64::from(inner.client_width())));
            next.replace(Some(frame));
        });
        changed(f64::from(div.client_width()));
        if let Ok(observer) = ResizeObserver::new(report.as_ref().unchecked_ref()) {
            observer.observe(&div);
            owned::keep(Watch { observer, _report: report });
        }
    });
}
