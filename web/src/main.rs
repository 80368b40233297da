//! Starts the app: what to do when it breaks, then the page.

use crookwise_web::app::app;
use crookwise_web::browser::before;
use crookwise_web::store::begin;
use crookwise_web::words;

/// What hands out memory.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

fn main() {
    crookwise_web::browser::panic::install(words::BROKEN);
    // Which desk is this window's own takes the browser a moment to say.
    wasm_bindgen_futures::spawn_local(async {
        let begun = begin().await;
        before::remove();
        leptos::mount::mount_to_body(move || app(begun));
    });
}
