//! Starts the app: what to do when it breaks, then the page.

use crookwise_web::app::app;
use crookwise_web::words;

/// What hands out memory.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

fn main() {
    crookwise_web::browser::panic::install(words::BROKEN);
    leptos::mount::mount_to_body(app);
}
