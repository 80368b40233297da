//! Notes as what is wanted instead of keys: those of the page in Read, or of a movement in Score.

use crate::components::live::{live, press, when};
use crate::state::crooks::{Crooks, setting};
use crate::state::decoding::decoded;
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::words::crooks as words;
use crookwise_share::crooks::CrooksWanted;
use leptos::prelude::*;

/// A button that takes those of Read, what was taken, and the way back to keys.
pub fn wanted_notes() -> AnyView {
    let crooks = Crooks::get();
    let Session { desk, notices, .. } = Session::get();
    let notes = Derived::new(move || {
        crooks.setting.with(|asked| match &asked.wanted {
            CrooksWanted::Notes(notes) => Some(words::wanted_notes(notes.len(), &asked.title)),
            CrooksWanted::Keys(_) => None,
        })
    });
    let take = press(move || {
        let page = desk.page.read_untracked();
        let mut has_any = false;
        crooks.change(|asked| {
            let mut decoder = |label: &str| decoded(label, page.year);
            has_any = setting::take_page(asked, &page.passage, &mut decoder);
        });
        notices.show((!has_any).then(|| words::NO_BRASS_IN_READ.to_owned()));
    });
    let back = move || {
        let want_keys = press(move || crooks.change(setting::want_keys));
        view! { <button on:click=want_keys>{words::PLAN_KEYS_AGAIN}</button> }.into_any()
    };
    let said = live(move || notes.get());
    view! {
        <div class="row from-read">
            <p class="quiet">{said}</p>
            <button on:click=take>{words::NOTES_OF_READ}</button>
            {when(move || notes.is_some(), back)}
        </div>
    }
    .into_any()
}
