//! Starts the app: what to do when it breaks, then the page; or, beside a page, what holds an opened score for it.

use crookwise_web::app::{app, arrival};
use crookwise_web::browser::{before, score_holder};
use crookwise_web::store::begin;
use crookwise_web::words;

fn main() {
    if score_holder::is_beside() {
        return wasm_bindgen_futures::spawn_local(score_holder::serve());
    }
    crookwise_web::browser::panic::install(words::BROKEN);
    // Which desk is this window's own takes the browser a moment to say.
    wasm_bindgen_futures::spawn_local(async {
        let begun = begin().await;
        let (hash, brought) = arrival().await;
        before::remove();
        leptos::mount::mount_to_body(move || app(begun, &hash, &brought));
        before::over();
    });
}
