//! Parts of the page whose code is fetched when they are first wanted.
//!
//! A function is kept out of what a first visit downloads by two lines over it, and called through `later`:
//!
//! ```ignore
//! #[wasm_split(panels, fallible)]
//! fn fetched_panel(open: Watched<bool>) -> Fetched { Ok(panel(open)) }
//!
//! later(move || Box::pin(fetched_panel(open)))
//! ```
//!
//! Functions that name the same part (here `panels`) come in one file. What only they reach goes with them; what the page
//! reaches otherwise as well stays where it is.

use crate::browser::clock;
use crate::components::lasting;
use crate::components::live::{live, press};
use crate::state::kept::Watched;
use crate::state::notices::Notices;
use crate::words;
use core::future::poll_fn;
use core::pin::Pin;
use core::sync::atomic::{AtomicBool, Ordering};
use leptos::prelude::*;
use leptos::task::spawn_local_scoped;
use leptos::wasm_split::SplitLoaderError;
use std::sync::{Arc, Mutex, PoisonError};

/// A part of the page, if its code could be fetched.
pub type Fetched = Result<AnyView, SplitLoaderError>;
/// A part of the page on its way.
pub type Fetching = Pin<Box<dyn Future<Output = Fetched>>>;
/// Something done, if its code could be fetched.
pub type Deed = Result<(), SplitLoaderError>;
/// Something to do on its way.
pub type Doing = Pin<Box<dyn Future<Output = Deed>>>;

/// Whether the part is here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Arrival {
    Awaited,
    Here,
    Missing,
}

/// A part of the page; while its code is fetched, nothing stands in its place. Where it cannot be fetched, the page says
/// so and lets the reader try again.
pub fn later(part: impl Fn() -> Fetching + Send + Sync + 'static) -> AnyView {
    fetched(Arc::new(part))
}

/// Does something whose code is fetched first. Where it cannot be fetched, it is asked for once more as a part is, then the
/// notice says so.
pub fn act(notices: Notices, deed: Box<dyn Fn() -> Doing>) {
    spawn_local_scoped(async move {
        if deed().await.is_ok() {
            return;
        }
        clock::a_moment().await;
        if deed().await.is_err() {
            notices.say(words::PART_MISSING);
        }
    });
}

fn fetched(part: Arc<dyn Fn() -> Fetching + Send + Sync>) -> AnyView {
    let arrival = Watched::new(Arrival::Awaited);
    let kept = Arc::new(Mutex::new(None));
    // What the part makes belongs where it will stand, also when it is asked for again by a button that goes.
    let owner = Owner::current().unwrap_or_default();
    let gone = Arc::new(AtomicBool::new(false));
    on_cleanup({
        let gone = Arc::clone(&gone);
        move || gone.store(true, Ordering::Relaxed)
    });
    let passing = lasting::owner();
    let fetch = {
        let kept = Arc::clone(&kept);
        move || {
            let (part, kept) = (Arc::clone(&part), Arc::clone(&kept));
            let (gone, passing) = (Arc::clone(&gone), passing.clone());
            arrival.set(Arrival::Awaited);
            let fetched = async move {
                let mut fetched = arriving(part(), &gone, passing.as_ref()).await;
                if fetched.is_err() && !gone.load(Ordering::Relaxed) {
                    // What was on its way while the page was left for a moment has failed when it is come back to, though
                    // nothing is amiss: it is asked for once more before that is said.
                    clock::a_moment().await;
                    fetched = arriving(part(), &gone, passing.as_ref()).await;
                }
                let now = if fetched.is_ok() { Arrival::Here } else { Arrival::Missing };
                *kept.lock().unwrap_or_else(PoisonError::into_inner) = fetched.ok();
                arrival.set(now);
            };
            owner.with(|| spawn_local_scoped(fetched));
        }
    };
    fetch();
    let shown = live(move || match arrival.get() {
        Arrival::Awaited => None,
        Arrival::Here => kept.lock().unwrap_or_else(PoisonError::into_inner).take(),
        Arrival::Missing => {
            let again = press(fetch.clone());
            Some(
                view! {
                    <section class="card row" role="alert">
                        <p>{words::PART_MISSING}</p>
                        <button on:click=again>{words::frame::TRY_AGAIN}</button>
                    </section>
                }
                .into_any(),
            )
        }
    });
    view! { {shown} }.into_any()
}

/// What comes when its place is gone already is made for nobody and dropped: its own owners know nothing of the app any more,
/// and a code that is on its way must arrive.
async fn arriving(mut fetching: Fetching, gone: &AtomicBool, passing: Option<&Owner>) -> Fetched {
    poll_fn(|context| match passing {
        Some(app) if gone.load(Ordering::Relaxed) => app.child().with(|| fetching.as_mut().poll(context)),
        _ => fetching.as_mut().poll(context),
    })
    .await
}
