//! The pictures of a system: all at once where it stands in the window already, else one after the other while it comes near,
//! so that scrolling stays smooth.

use crate::browser::in_turn::{self, take_turns};
use crate::components::live::each;
use crate::state::kept::{Derived, Watched, follow};
use crate::state::movement::music::Music;
use crookwise_opened::DrawnRow;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;

/// The pictures of a system that stands so many pixels down, while it is near the window.
pub fn pictures(
    drawn: Watched<Option<DrawnRow>>,
    is_near: Watched<bool>,
    (top, bottom): (f64, f64),
) -> AnyView {
    let music = Music::get();
    let shown = Watched::new(0);
    let wanted = Rc::new(Cell::new(0));
    follow(move || {
        let here = if is_near.get() { drawn.map(|row| row.pictures.len()).unwrap_or_default() } else { 0 };
        wanted.set(here);
        let (from, to) = music.seen.get_untracked();
        let is_seen = top < f64::from(to) && bottom > f64::from(from);
        if here == 0 || is_seen {
            shown.set(here);
        } else {
            add_in_turn(shown, wanted.clone());
        }
        // Taking pictures away, or what was answered, is work enough for one picture of the window.
        in_turn::rest();
    });
    let numbers = Derived::new(move || 0..shown.get());
    let one = move |at: usize| {
        let picture = drawn.and_then(|row| row.pictures.get(at).cloned()).unwrap_or_default();
        view! { <div class="picture-of" inner_html=picture></div> }.into_any()
    };
    view! { <div class="drawn">{each(numbers, one)}</div> }.into_any()
}

/// Shows one more before each picture of the window, until all that are wanted stand there.
fn add_in_turn(shown: Watched<usize>, wanted: Rc<Cell<usize>>) {
    let mut count = 0;
    take_turns(move || {
        let is_left = count < wanted.get();
        if is_left {
            count += 1;
            shown.set(count);
        }
        is_left
    });
}
