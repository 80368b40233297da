//! What is to be seen is scrolled into the window. How is `web_sys`: gloo has nothing for it.

use crate::browser::measure::{Watch, follow, window_height};
use crate::browser::{focus, owned};
use core::cell::{Cell, RefCell};
use gloo_events::EventListener;
use gloo_render::{AnimationFrame, request_animation_frame};
use gloo_utils::{document, window};
use leptos::html::Div;
use leptos::prelude::{Effect, Get, NodeRef, on_cleanup};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, ScrollBehavior, ScrollIntoViewOptions, ScrollLogicalPosition};

thread_local! {
    /// The picture that is waited for. The last wish counts.
    static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
    /// Whether something was shown for this picture: it stays where it was put, whatever grows with it.
    static SHOWN: Cell<bool> = const { Cell::new(false) };
    static PICTURE_OF_SHOWN: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
    /// How far down the page was scrolled from here, last.
    static OURS: Cell<f64> = const { Cell::new(0.0) };
    /// Whether what has the focus is held where it is until the next picture.
    static HOLDS: Cell<bool> = const { Cell::new(false) };
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

/// Calls back with the pixels of an element that stand in the window, from its top, now and whenever the page is scrolled,
/// its window changes, or what stands above the element.
pub fn follow_window(element: NodeRef<Div>, seen: impl Fn(i32, i32) + Copy + 'static) {
    let look = move |div: &HtmlElement| {
        let top = -div.get_bounding_client_rect().top();
        seen(top as i32, (top + window_height()) as i32);
    };
    follow(element, Rc::new(look));
    Effect::new(move |_| {
        let Some(div) = element.get() else { return };
        // It is told once for a picture, before anything is changed for that: looking costs nothing then.
        owned::on_window("scroll", move || look(&div));
    });
}

/// Whoever looks at what stands under an element keeps it before him when the element grows or shrinks, in browsers that do
/// not see to that themselves.
pub fn hold_below(element: NodeRef<Div>) {
    Effect::new(move |_| {
        let Some(div) = element.get() else { return };
        let high = Cell::new(f64::from(div.offset_height()));
        let watched = div.clone();
        // Before the next picture: nothing moves away from under a finger.
        owned::keep(Watch::of(&div, move || {
            let now = f64::from(watched.offset_height());
            let grown = now - high.replace(now);
            let bottom = watched.get_bounding_client_rect().bottom() - grown;
            let is_below = bottom < window_height() / 2.0 && !SHOWN.get();
            if grown != 0.0 && is_below && !holds_itself(&watched) {
                window().scroll_by_with_x_and_y(0.0, grown);
                OURS.set(depth());
            }
        }));
    });
}

/// Whether the browser itself keeps before the reader what he looks at.
fn holds_itself(element: &HtmlElement) -> bool {
    style_of(element, "overflow-anchor").is_some_and(|value| !value.is_empty())
}

fn style_of(element: &Element, name: &str) -> Option<String> {
    window().get_computed_style(element).ok().flatten()?.get_property_value(name).ok()
}

/// How much of the window an element covers that stays at an edge of it while the page is scrolled, in pixels; none where
/// it scrolls with the page, or is not there.
pub fn cover(id: &str) -> f64 {
    let Some(element) = document().get_element_by_id(id) else { return 0.0 };
    if matches!(style_of(&element, "position").as_deref(), Some("sticky" | "fixed")) {
        element.get_bounding_client_rect().height()
    } else {
        0.0
    }
}

/// Has style sheets know as `--head` how much of the window an element covers at its upper edge, as long as a part of it is there.
pub fn tell_cover(id: &'static str, part: NodeRef<Div>) {
    follow(part, Rc::new(move |_| set_head(cover(id))));
    on_cleanup(move || set_head(0.0));
}

/// Has them know it anew, where another part of it has come or gone.
pub fn tell_cover_anew(id: &'static str) {
    thread_local! {
        static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
    }
    NEXT.set(Some(request_animation_frame(move |_| set_head(cover(id)))));
}

fn set_head(height: f64) {
    let root = document().document_element().and_then(|root| root.dyn_into::<HtmlElement>().ok());
    if let Some(root) = root {
        let _ = root.style().set_property("--head", &format!("{}px", height.round() as i32));
    }
}

/// How much of an element stands above the window, in pixels; negative where it begins in the window or under it.
pub fn above(id: &str) -> f64 {
    document().get_element_by_id(id).map_or(0.0, |element| -element.get_bounding_client_rect().top())
}

/// Whether an element is there.
#[must_use]
pub fn is_there(id: &str) -> bool {
    document().get_element_by_id(id).is_some()
}

/// Does it once what changes the page now is there, before it is seen.
pub fn before_next_picture(act: impl FnOnce() + 'static) {
    thread_local! {
        static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
    }
    NEXT.set(Some(request_animation_frame(move |_| act())));
}

/// Scrolls the page so that what stands so far down in an element comes to the upper edge of the window, under what covers it.
pub fn show_under(id: &str, down: f64, cover: f64) {
    if let Some(element) = document().get_element_by_id(id) {
        let top = element.get_bounding_client_rect().top();
        scroll_by(top + down - cover);
    }
}

/// Keeps what has the focus where it stands in the window when the page changes now, if it is seen and stands within something of
/// this kind; false where it does not.
pub fn hold_focused(within: &str) -> bool {
    thread_local! {
        static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
    }
    if HOLDS.get() {
        return true;
    }
    let is_within = |element: &Element| element.closest(within).is_ok_and(|found| found.is_some());
    let Some(element) = document().active_element().filter(is_within) else { return false };
    let place = element.get_bounding_client_rect();
    if place.bottom() <= 0.0 || place.top() >= window_height() {
        return false;
    }
    HOLDS.set(true);
    NEXT.set(Some(request_animation_frame(move |_| {
        HOLDS.set(false);
        scroll_by(element.get_bounding_client_rect().top() - place.top());
    })));
    true
}

/// Scrolls the page by so many pixels, where it then stays for this picture.
fn scroll_by(down: f64) {
    window().scroll_by_with_x_and_y(0.0, down);
    OURS.set(depth());
    SHOWN.set(true);
    PICTURE_OF_SHOWN.set(Some(request_animation_frame(|_| SHOWN.set(false))));
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
