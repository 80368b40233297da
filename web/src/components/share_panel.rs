//! The link to exactly what stands on the screen, and the code of it for a camera.

use crate::browser::{address, clipboard, field, focus};
use crate::components::live::{hear, live, press};
use crate::state::kept::Cell;
use crate::state::session::Session;
use crookwise_share::CameraCode;
use leptos::ev::FocusEvent;
use leptos::prelude::*;
use leptos::task::spawn_local_scoped;

/// The link, and a button that copies it; `open` is whether the panel is there.
pub fn share_panel(open: Cell<bool>) -> AnyView {
    let session = Session::get();
    let copied = Cell::new(None::<bool>);
    let link = move || address::with_hash(&session.link());
    let copy = press(move || {
        let link = untrack(link);
        spawn_local_scoped(async move { copied.set(Some(clipboard::copy(&link).await)) });
    });
    let sheet = clipboard::has_sheet().then(|| {
        let hand_on = press(move || {
            let link = untrack(link);
            spawn_local_scoped(async move { clipboard::hand_on(&link).await });
        });
        view! { <button on:click=hand_on>"Hand it on"</button> }.into_any()
    });
    let done = move || {
        open.set(false);
        // The panel goes with its button; the keyboard is back where it was opened.
        focus::to("share".to_owned());
    };
    let outcome = live(move || match *copied.get() {
        None => "",
        Some(true) => "Copied.",
        Some(false) => "This browser does not let the page copy: select the link and copy it yourself.",
    });
    view! {
        <section class="card share" aria-label="Share">
            <label class="field wide">
                <span>"A link to exactly this page"</span>
                <input
                    type="text"
                    readonly
                    prop:value=live(link)
                    on:focus=hear(|event: FocusEvent| field::select_all(&event))
                />
            </label>
            <div class="row">
                <button class="strong" on:click=copy>"Copy the link"</button>
                {sheet}
                <button on:click=press(done)>"Done"</button>
                <span role="status">{outcome}</span>
            </div>
            {camera(link)}
            <p class="quiet">"Everything is in the link itself; nothing is sent anywhere until you send it."</p>
        </section>
    }
    .into_any()
}

/// The link as a code for the camera of a telephone, or why there is none.
fn camera(link: impl Fn() -> String + Copy + Send + Sync + 'static) -> AnyView {
    let code = live(move || match CameraCode::of(&link()) {
        Ok(code) => {
            // Four squares of quiet round it, as the standard asks.
            let frame = format!("-4 -4 {0} {0}", code.size + 8);
            view! {
                <svg class="camera" viewBox=frame role="img" aria-label="The link as a code for a camera">
                    <path d=code.path></path>
                </svg>
            }
            .into_any()
        }
        Err(problem) => view! { <p>{problem.to_string()}</p> }.into_any(),
    });
    view! { {code} }.into_any()
}
