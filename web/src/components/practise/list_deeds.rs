//! What is done to the lists of exercises and courses: kept, said, and taken back by one tap.

use crate::browser::focus;
use crate::browser::store::database::Refusal;
use crate::components::live::{live, press, when};
use crate::state::practise::Practise;
use crate::state::store::Drawers;
use crate::state::store::lists::changing::TakeBack;
use crate::store::{Store, drawers};
use crate::words;
use leptos::prelude::*;
use leptos::task::spawn_local;

/// The way back, by its id: the keyboard is there when something has gone.
pub const UNDO: &str = "undo-in-lists";

/// What was done, in a sentence, and what takes it back; nothing where there was nothing to do.
pub type Listed = Option<(String, Option<TakeBack>)>;

/// Does something to the lists.
pub fn act(practise: Practise, store: Store, deed: impl FnOnce(&mut Drawers) -> Listed + 'static) {
    boxed(practise, store, Box::new(deed));
}

fn boxed(practise: Practise, store: Store, deed: Box<dyn FnOnce(&mut Drawers) -> Listed>) {
    spawn_local(async move {
        match drawers::change_lists(store, deed).await {
            Ok(listed) => practise.listed.set(listed),
            Err(refusal) => {
                let said = words::kept::refusal(refusal == Refusal::Full);
                practise.listed.set(Some((said.to_owned(), None)));
            }
        }
    });
}

/// The sentence on what was done last, with the way back.
pub fn done_last() -> AnyView {
    let practise = Practise::get();
    let store = Store::get();
    let said = live(move || practise.listed.map(|(said, _)| said.clone()));
    let can = move || practise.listed.and_then(|(_, back)| back.clone()).is_some();
    let undo = move || {
        let back = press(move || {
            if let Some(back) = practise.listed.get_untracked().and_then(|(_, back)| back) {
                act(practise, store, move |kept| {
                    back.make(kept);
                    None
                });
            }
        });
        focus::come(UNDO);
        view! { <button id=UNDO on:click=back>{words::weeks::UNDO}</button> }.into_any()
    };
    let class =
        live(move || if practise.listed.is_some() { "row done-last" } else { "row done-last silent" });
    view! { <div class=class><span role="status">{said}</span>{when(can, undo)}</div> }.into_any()
}
