//! A link to what is on the screen: to copy, to hand on, and as a code for a camera.

use crate::browser::{clipboard, field};
use crate::components::copy_button::copy_button;
use crate::components::live::{either, hear, live, press};
use crate::state::kept::Derived;
use crate::words;
use crookwise_share::CameraCode;
use leptos::ev::FocusEvent;
use leptos::prelude::*;
use leptos::task::spawn_local_scoped;
use std::sync::Arc;

/// Makes the link anew whenever it changes, or says why there is none.
pub type LinkMaker = Arc<dyn Fn() -> Result<String, String> + Send + Sync>;

/// Makes a part of the page.
type ViewMaker = Arc<dyn Fn() -> AnyView + Send + Sync>;

/// The link in a field of this name with its buttons, or why there is none; `more` are further buttons.
pub fn link_card(name: &'static str, link: LinkMaker, more: ViewMaker) -> AnyView {
    let made = Derived::new(move || link());
    let beside = Arc::clone(&more);
    let none = move || {
        let why = live(move || made.with(|made| made.clone().err()));
        view! { <p class="problem" role="status">{why}</p> <div class="row">{beside()}</div> }.into_any()
    };
    let shown = either(move || made.with(Result::is_ok), move || card(name, made, more()), none);
    view! { {shown} }.into_any()
}

fn card(name: &'static str, made: Derived<Result<String, String>>, more: AnyView) -> AnyView {
    let link = move || made.with(|made| made.clone().unwrap_or_default());
    let (copy, said) = copy_button("strong", words::pages::COPY_THE_LINK, link);
    let sheet = clipboard::has_sheet().then(|| {
        let hand_on = press(move || {
            let link = untrack(link);
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
                prop:value=live(link)
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
fn camera(link: impl Fn() -> String + Send + Sync + 'static) -> AnyView {
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
