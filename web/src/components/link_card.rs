//! A link to what is on the screen: to copy, to hand on, and as a code for a camera.

use crate::browser::{clipboard, field};
use crate::components::copy_button::copy_button;
use crate::components::live::{hear, live, press};
use crate::words;
use crookwise_share::CameraCode;
use leptos::ev::FocusEvent;
use leptos::prelude::*;
use leptos::task::spawn_local_scoped;
use std::sync::Arc;

/// Makes the link anew whenever it changes.
pub type LinkMaker = Arc<dyn Fn() -> String + Send + Sync>;

/// The link in a field of this name, with its buttons; `more` are further buttons.
pub fn link_card(name: &'static str, link: LinkMaker, more: AnyView) -> AnyView {
    let (shown, copied, handed) = (Arc::clone(&link), Arc::clone(&link), Arc::clone(&link));
    let (copy, said) = copy_button("strong", words::pages::COPY_THE_LINK, move || copied());
    let sheet = clipboard::has_sheet().then(|| {
        let hand_on = press(move || {
            let link = untrack(|| handed());
            spawn_local_scoped(async move { clipboard::hand_on(words::frame::CROOKWISE, &link).await });
        });
        view! { <button on:click=hand_on>{words::pages::HAND_IT_ON}</button> }.into_any()
    });
    view! {
        <label class="field wide">
            <span>{name}</span>
            <input
                aria-label=name
                type="text"
                readonly
                prop:value=live(move || shown())
                on:focus=hear(|event: FocusEvent| field::select_all(&event))
            />
        </label>
        <div class="row">
            {copy}
            {sheet}
            {more}
            {said}
        </div>
        {camera(link)}
    }
    .into_any()
}

/// The link as a code for the camera of a telephone, or why there is none.
fn camera(link: LinkMaker) -> AnyView {
    let code = live(move || match CameraCode::of(&link()) {
        Ok(code) => {
            // Four squares of quiet round it, as the standard asks.
            let frame = format!("-4 -4 {0} {0}", code.size + 8);
            view! {
                <svg class="camera" viewBox=frame role="img" aria-label=words::pages::CODE_FOR_A_CAMERA>
                    <path d=code.path></path>
                </svg>
            }
            .into_any()
        }
        Err(problem) => view! { <p>{problem.to_string()}</p> }.into_any(),
    });
    view! { {code} }.into_any()
}
