//! The width of an element, followed as it changes.

use leptos::html::Div;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;

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
        let report = Closure::<dyn FnMut()>::new(move || {
            let inner = inner.clone();
            request_animation_frame(move || changed(f64::from(inner.client_width())));
        });
        changed(f64::from(div.client_width()));
        if let Ok(observer) = web_sys::ResizeObserver::new(report.as_ref().unchecked_ref()) {
            observer.observe(&div);
            let kept = send_wrapper::SendWrapper::new((observer, report));
            on_cleanup(move || kept.0.disconnect());
        }
    });
}
