//! Starts the app: what to do when it breaks, then the page.

use crookwise_web::app::app;

fn main() {
    crookwise_web::browser::panic::install();
    leptos::mount::mount_to_body(app);
}
