//! What is to be seen is scrolled into the window. How is `web_sys`: gloo has nothing for it.

use core::cell::RefCell;
use gloo_render::{AnimationFrame, request_animation_frame};
use gloo_utils::document;
use web_sys::{ScrollBehavior, ScrollIntoViewOptions, ScrollLogicalPosition};

thread_local! {
    /// The picture that is waited for. The last wish counts.
    static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
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
