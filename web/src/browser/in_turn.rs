//! Work that is done a piece in each picture of the window, so that no picture waits long.

use gloo_render::{AnimationFrame, request_animation_frame};
use std::cell::{Cell, RefCell};
use std::collections::VecDeque;

/// Does a piece; false when there was none left to do.
type Work = Box<dyn FnMut() -> bool>;

thread_local! {
    static WAITING: RefCell<VecDeque<Work>> = const { RefCell::new(VecDeque::new()) };
    static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
    /// Whether the next picture has enough to do already.
    static RESTS: Cell<bool> = const { Cell::new(false) };
}

/// Calls back before each of the next pictures until there was nothing left to do, which it says by false. Who comes later
/// waits for those before.
pub fn take_turns(work: impl FnMut() -> bool + 'static) {
    let is_first = WAITING.with_borrow_mut(|all| {
        all.push_back(Box::new(work));
        all.len() == 1
    });
    if is_first {
        wait();
    }
}

/// Nobody has a turn before the next picture: it has enough to do already.
pub fn rest() {
    RESTS.set(true);
}

fn wait() {
    NEXT.set(Some(request_animation_frame(|_| do_piece())));
}

/// Does one piece of whoever has one. While it is done the list is free: it may be added to.
fn do_piece() {
    if RESTS.take() {
        return wait();
    }
    while let Some(mut work) = WAITING.with_borrow_mut(VecDeque::pop_front) {
        if work() {
            WAITING.with_borrow_mut(|all| all.push_front(work));
            return wait();
        }
    }
}
