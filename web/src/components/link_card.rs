//! A link to what is on the screen: to copy, to hand on, and as a code for a camera.

use crate::browser::{address, clipboard, field};
use crate::components::copy_button::copy_button;
use crate::components::live::{either, hear, live, press, when};
use crate::state::kept::{Derived, Watched};
use crate::words;
use crookwise_share::{Link, Shared, TooLong};
use leptos::ev::FocusEvent;
use leptos::prelude::*;
use leptos::task::spawn_local_scoped;
use std::sync::Arc;

/// Makes the link anew whenever it changes.
pub type LinkMaker = Arc<dyn Fn() -> Link + Send + Sync>;

/// What became of it.
type Made = Derived<Result<Shared, TooLong>>;

/// Makes a part of the page.
type ViewMaker = Arc<dyn Fn() -> AnyView + Send + Sync>;

/// The link in a field of this name with its buttons, or why there is none; `more` are further buttons.
pub fn link_card(name: &'static str, link: LinkMaker, more: ViewMaker) -> AnyView {
    let first = Watched::new(None::<usize>);
    let made = Derived::new(move || {
        let whole = link();
        first
            .get()
            .map_or_else(|| whole.clone(), |count| whole.first_columns(count))
            .share(&address::with_hash(""))
    });
    let beside = Arc::clone(&more);
    let none = move || {
        let why = live(move || made.with(|made| made.as_ref().err().map(ToString::to_string)));
        view! { <p class="problem" role="status">{why}</p> <div class="row">{beside()}</div> }.into_any()
    };
    let shown = either(move || made.with(Result::is_ok), move || card(name, made, more()), none);
    view! { {shown} {columns(made, first)} }.into_any()
}

/// A choice of the first columns alone where not all fit, and of all again.
fn columns(made: Made, first: Watched<Option<usize>>) -> AnyView {
    let fewer = Derived::new(move || {
        let fit = made.with(|made| match made {
            Ok(shared) => shared.code.as_ref().err().map(|long| long.columns.0),
            Err(long) => Some(long.columns.0),
        });
        fit.filter(|fit| *fit > 0)
    });
    let name = move || {
        fewer.get().map_or_else(|| words::pages::SHARE_ALL_COLUMNS.to_owned(), words::pages::share_first)
    };
    let button = move || {
        let choose = press(move || first.set(fewer.get_untracked()));
        view! { <div class="row"><button on:click=choose>{live(name)}</button></div> }.into_any()
    };
    let choice = when(move || fewer.get().or(first.get()).is_some(), button);
    view! { {choice} }.into_any()
}

fn card(name: &'static str, made: Made, more: AnyView) -> AnyView {
    let link = move || made.with(|made| made.as_ref().map(|made| made.address.clone()).unwrap_or_default());
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
        {camera(made)}
    }
    .into_any()
}

/// The code alone, as large as its place.
pub fn code_alone(link: LinkMaker) -> AnyView {
    camera(Derived::new(move || link().share(&address::with_hash(""))))
}

/// The link as a code for the camera of a telephone, or why there is none.
fn camera(made: Made) -> AnyView {
    let code = live(move || match made.with(|made| made.as_ref().ok().map(|made| made.code.clone()))? {
        Ok(code) => Some({
            // Four squares of quiet round it, as the standard asks.
            let frame = format!("-4 -4 {0} {0}", code.size + 8);
            view! {
                <svg class="camera" viewBox=frame role="img" aria-label=words::pages::CODE_FOR_A_CAMERA>
                    <path d=code.path></path>
                </svg>
            }
            .into_any()
        }),
        Err(problem) => Some(view! { <p>{problem.to_string()}</p> }.into_any()),
    });
    view! { {code} }.into_any()
}
