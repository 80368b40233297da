//! The opened score beside the page, from inside: in a worker the app starts without a page, fetches the part that reads
//! scores, and gives the worker's module what answers. What a score and a page have both need of is then loaded but once.
//! gloo's workers would start the whole app, or bring a runtime and a form of messages of their own.

use crookwise_opened::{Progress, ScoreHolder, wire};
use js_sys::Uint8Array;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use std::cell::RefCell;
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    /// Gives the worker's module what answers a question, or nothing where it could not be fetched.
    #[wasm_bindgen(js_name = holdScore)]
    fn hold(answer: &JsValue);

    /// Tells the page how far the opening of a file is, in hundredths.
    #[wasm_bindgen(js_name = tellProgress)]
    fn tell(hundredths: u32);
}

/// Answers a question with a file that may come along; all are bytes. Nothing where it is to be asked again.
type Answering = Closure<dyn FnMut(Uint8Array, Uint8Array) -> Option<Uint8Array>>;

thread_local! {
    // As long as the worker.
    static ANSWERING: RefCell<Option<Answering>> = const { RefCell::new(None) };
}

/// Whether the app was started beside a page, not in one.
#[must_use]
pub fn is_beside() -> bool {
    web_sys::window().is_none()
}

/// Fetches what reads scores, and answers from then on.
pub async fn serve() {
    if fetched_holder().await.is_err() {
        hold(&JsValue::NULL);
    }
}

#[wasm_split(holder, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_holder() -> Result<(), SplitLoaderError> {
    let mut holder = ScoreHolder::default();
    let answering = Answering::new(move |ask: Uint8Array, file: Uint8Array| {
        let answer = wire::answer(&mut holder, &ask.to_vec(), file.to_vec(), &mut told)?;
        Some(Uint8Array::from(answer.as_slice()))
    });
    hold(answering.as_ref());
    ANSWERING.set(Some(answering));
    Ok(())
}

fn told(progress: Progress) {
    tell(match progress {
        Progress::Unpacking => 5,
        Progress::Reading => 25,
        Progress::Listing => 90,
    });
}
