//! The keys that are wanted, as they are typed.

use crate::browser::{clock, field};
use crate::components::crooks::key_rows::key_rows;
use crate::components::live::{hear, live};
use crate::state::crooks::Crooks;
use crate::state::session::Session;
use crate::words::{crook_gaps, crooks as words};
use leptos::ev::{Event, FocusEvent};
use leptos::prelude::*;
use leptos::task::spawn_local;

/// The field, and what of it is not understood.
pub fn keys_field() -> AnyView {
    let crooks = Crooks::get();
    let names = Session::get().names;
    let write = hear(move |event: Event| {
        let text = field::text(&event);
        crooks.type_keys(&text);
        spawn_local(async move {
            clock::a_thought().await;
            crooks.typed_so_far(&text);
        });
    });
    let filled = live(move || crook_gaps::bars_filled(&crooks.filled(), names.get()));
    let bare = live(move || crooks.bare_b());
    let left = hear(move |_: FocusEvent| crooks.typed_all());
    let problem = live(move || crooks.typed_problem.get());
    let is_wrong = live(move || crooks.typed_problem.is_some().then_some("true"));
    view! {
        <div class="keys-wanted">
            <label class="field">
                <span>{words::KEYS_AND_BARS}</span>
                <textarea
                    id="crooks-keys"
                    rows="2"
                    aria-label=words::KEYS_AND_BARS
                    aria-invalid=is_wrong
                    aria-describedby="crooks-keys-help"
                    placeholder=words::SUCH_AS
                    prop:value=live(move || crooks.standing())
                    on:input=write
                    on:blur=left
                    maxlength="4000"
                    autocomplete="off"
                    spellcheck="false"
                ></textarea>
            </label>
            <p class="quiet" id="crooks-keys-help">{words::HOW_KEYS_ARE_TYPED}</p>
            <p class="quiet bare-b" role="status">{bare}</p>
            <p class="quiet" role="status">{filled}</p>
            <p class="problem" role="status">{problem}</p>
            {key_rows()}
        </div>
    }
    .into_any()
}
