//! What of the place is looked at: the plans, the table of a key, what may be written.

use crate::components::live::{live, press};
use crate::state::crooks::Crooks;
use crate::words::crook_table as words;
use crookwise_share::crooks::CrooksView;
use leptos::prelude::*;

/// All of them with their names.
const VIEWS: [(CrooksView, &str); 3] = [
    (CrooksView::Plans, words::PLANS),
    (CrooksView::Table, words::TABLE),
    (CrooksView::MayWrite, words::MAY_WRITE),
];

/// The bar that leads from one to the other.
pub fn views() -> AnyView {
    let crooks = Crooks::get();
    let tab = move |(view, name): (CrooksView, &'static str)| {
        let current = live(move || crooks.setting.with(|setting| (setting.view == view).then_some("page")));
        let go = press(move || crooks.look(|setting| setting.view = view));
        view! { <button aria-current=current on:click=go>{name}</button> }.into_any()
    };
    view! {
        <nav class="tools places crooks-views" aria-label=words::VIEWS>
            {VIEWS.map(tab).into_iter().collect::<Vec<_>>()}
        </nav>
    }
    .into_any()
}
