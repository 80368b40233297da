//! What is to be seen is scrolled into the window. How is `web_sys`: gloo has nothing for it.

use crate::browser::focus;
use crate::browser::owned;
use core::cell::{Cell, RefCell};
use gloo_events::EventListener;
use gloo_render::{AnimationFrame, request_animation_frame};
use gloo_utils::{document, window};
use leptos::html::Div;
use leptos::prelude::{Effect, Get, NodeRef};
use std::rc::Rc;
use web_sys::{ScrollBehavior, ScrollIntoViewOptions, ScrollLogicalPosition};

thread_local! {
    /// The picture that is waited for. The last wish counts.
    static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
    /// How far down the page was scrolled from here, last.
    static OURS: Cell<f64> = const { Cell::new(0.0) };
    /// The link that is being followed.
    static FOLLOWED: RefCell<Option<EventListener>> = const { RefCell::new(None) };
}

/// Scrolls the first things of these kinds into the window once the page has been drawn anew, as far as they are out of it.
pub fn bring(kinds: &'static [&'static str]) {
    NEXT.set(Some(request_animation_frame(move |_| {
        let options = ScrollIntoViewOptions::new();
        options.set_block(ScrollLogicalPosition::Nearest);
        options.set_inline(ScrollLogicalPosition::Nearest);
        options.set_behavior(ScrollBehavior::Instant);
        for kind in kinds {
            if let Ok(Some(element)) = document().query_selector(kind) {
                element.scroll_into_view_with_scroll_into_view_options(&options);
            }
        }
    })));
}

/// Calls back with the pixels of an element that stand in the window, from its top, now and whenever the page is scrolled
/// or its window changes.
pub fn follow_window(element: NodeRef<Div>, seen: impl Fn(i32, i32) + Copy + 'static) {
    Effect::new(move |_| {
        let Some(div) = element.get() else { return };
        let next = Rc::new(RefCell::new(None::<AnimationFrame>));
        let look = move || {
            let div = div.clone();
            let asked = request_animation_frame(move |_| {
                let top = -div.get_bounding_client_rect().top();
                let high = window().inner_height().ok().and_then(|high| high.as_f64()).unwrap_or(800.0);
                seen(top as i32, (top + high) as i32);
            });
            next.replace(Some(asked));
        };
        look();
        owned::on_window("scroll", look.clone());
        owned::on_window("resize", look);
    });
}

/// How much of the window an element covers that stays at its upper edge while the page is scrolled, in pixels; none where
/// it scrolls with the page.
pub fn cover(id: &str) -> f64 {
    let Some(element) = document().get_element_by_id(id) else { return 0.0 };
    let style = window().get_computed_style(&element).ok().flatten();
    let position = style.and_then(|style| style.get_property_value("position").ok());
    if position.as_deref() == Some("sticky") { element.get_bounding_client_rect().height() } else { 0.0 }
}

/// Scrolls the page so that what stands so far down in an element comes to the upper edge of the window, under what covers it.
pub fn show_under(id: &str, down: f64, cover: f64) {
    if let Some(element) = document().get_element_by_id(id) {
        let top = element.get_bounding_client_rect().top();
        window().scroll_by_with_x_and_y(0.0, top + down - cover);
        OURS.set(depth());
    }
}

/// Calls back when the reader scrolls the page himself.
pub fn on_own_scroll(act: impl Fn() + 'static) {
    owned::on_window("scroll", move || {
        if (depth() - OURS.get()).abs() > 2.0 {
            OURS.set(depth());
            act();
        }
    });
}

/// How far down the page is scrolled, in pixels.
pub fn depth() -> f64 {
    window().scroll_y().unwrap_or(0.0)
}

/// Scrolls the page so far down, once it has been drawn anew.
pub fn go_down(depth: f64) {
    NEXT.set(Some(request_animation_frame(move |_| window().scroll_to_with_x_and_y(0.0, depth))));
}

/// Shows the page from its top once it has been drawn anew, with the focus on an element of it.
pub fn top_at(id: String) {
    NEXT.set(Some(request_animation_frame(move |_| {
        top();
        focus::to(id);
    })));
}

/// Shows the page from its top.
pub fn top() {
    window().scroll_to_with_x_and_y(0.0, 0.0);
}

/// Shows the page from its top as soon as a link of it that is just being followed has led elsewhere: not before, so that
/// the browser's step back leads to where the reader was.
pub fn top_after_link() {
    FOLLOWED.set(Some(EventListener::once(&window(), "hashchange", |_| top())));
}
