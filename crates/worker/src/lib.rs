//! The opened score beside the page: a worker that holds it and answers. What it answers stands in `crookwise-opened`;
//! here are only the two doors to JavaScript.

use crookwise_opened::{Answer, Progress, ScoreHolder, wire};
use std::cell::RefCell;
use wasm_bindgen::prelude::wasm_bindgen;

thread_local! {
    static HOLDER: RefCell<ScoreHolder> = RefCell::new(ScoreHolder::default());
}

#[wasm_bindgen]
extern "C" {
    /// Tells the page how far the opening of a file is, in hundredths.
    #[wasm_bindgen(js_name = tellProgress)]
    fn tell_progress(hundredths: u32);
}

/// Answers a question of the page; both are bytes. `file` is what is to be opened, or empty.
#[wasm_bindgen]
#[must_use]
pub fn answer(ask: &[u8], file: Vec<u8>) -> Vec<u8> {
    let answer = match wire::read(ask) {
        Some(ask) => HOLDER.with_borrow_mut(|holder| holder.answer(ask, file, &mut tell)),
        None => Answer::No("The page asks what this version does not know; load it again".to_owned()),
    };
    wire::write(&answer)
}

fn tell(progress: Progress) {
    tell_progress(match progress {
        Progress::Unpacking => 5,
        Progress::Reading => 25,
        Progress::Listing => 90,
    });
}
