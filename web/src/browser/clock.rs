//! The clocks of the browser. Time and chance are read by `js_sys`: gloo has only what calls back.

use crate::browser::owned;
use core::cell::RefCell;
use gloo_render::request_animation_frame;
use gloo_timers::callback::{Interval, Timeout};
use gloo_utils::window;
use std::rc::Rc;

/// Milliseconds between two ticks.
const TICK: u32 = 250;
/// Milliseconds within which a second tap of a finger belongs to the first.
const SECOND_TAP: u32 = 400;
/// Milliseconds after which what moved is at rest.
const AT_REST: u32 = 120;

/// Milliseconds since 1970, running evenly while the page is open.
#[must_use]
pub fn now() -> f64 {
    window().performance().map_or_else(js_sys::Date::now, |clock| clock.time_origin() + clock.now())
}

/// Seconds since 1970.
#[must_use]
pub fn seconds() -> u64 {
    (js_sys::Date::now() / 1000.0) as u64
}

/// Milliseconds since 1970.
#[must_use]
pub fn stamp() -> u64 {
    js_sys::Date::now() as u64
}

/// Minutes that the reader's clock is ahead of UTC today.
#[must_use]
pub fn minutes_ahead() -> i32 {
    -(js_sys::Date::new_0().get_timezone_offset() as i32)
}

/// A number by chance.
#[must_use]
pub fn chance() -> u32 {
    (js_sys::Math::random() * f64::from(u32::MAX)) as u32
}

/// Calls back every quarter of a second, until what called for it is gone.
pub fn tick(act: impl Fn() + 'static) {
    owned::keep(Interval::new(TICK, act));
}

/// Calls back when a second tap would be one by itself, unless what called for it is gone. It is counted from the next picture,
/// in which the reader sees what the first tap brought: on a busy telephone that may take longer than the second tap.
pub fn after_a_second_tap(act: impl FnOnce() + 'static) {
    let timer = Rc::new(RefCell::new(None));
    let picture = request_animation_frame({
        let timer = Rc::clone(&timer);
        move |_| {
            timer.replace(Some(Timeout::new(SECOND_TAP, act)));
        }
    });
    owned::keep((picture, timer));
}

/// Calls back when nobody has called for it anew for so long that what moved is at rest, unless what called for it is gone.
pub fn at_rest(act: impl FnOnce() + 'static) {
    owned::keep(Timeout::new(AT_REST, act));
}

/// Waits for about one picture: from one place of something that moves to the next.
pub async fn a_picture() {
    gloo_timers::future::TimeoutFuture::new(30).await;
}

/// Waits as long as somebody who types thinks of the next word.
pub async fn a_thought() {
    gloo_timers::future::TimeoutFuture::new(1_000).await;
}

/// Waits a moment: from one look at something to the next.
pub async fn a_moment() {
    gloo_timers::future::TimeoutFuture::new(200).await;
}
