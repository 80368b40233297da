//! Answers: kept at once, then added to the record. Closing the window right after one loses nothing.

use super::drawers::zone;
use super::{Store, drawers, set_aside};
use crate::browser::clock;
use crate::browser::store::local;
use crate::state::store::entry::What;
use crate::state::store::record;
use crate::words;
use crookwise_practice::record::Attempt;
use leptos::task::spawn_local;

/// Remembers an answer, and the label of its staff.
pub fn remember(store: Store, (answer, label): (Attempt, String)) {
    let name = store.name.with_untracked(|name| format!("{}{name}", record::ANSWERS));
    let (mut waiting, why) = local::read(&name).map(|text| record::waited(&text, zone())).unwrap_or_default();
    if why.is_some() {
        set_aside(What::Answers, &name);
    }
    waiting.add(0, answer);
    waiting.meet(answer.item.staff, answer.at, &label);
    let text = record::waiting(&waiting, zone());
    let at_once = local::write(&name, &text);
    spawn_local(async move {
        let chance = clock::chance();
        let added = drawers::add_answers(store, &waiting, chance).await;
        match added {
            // An answer that came in the meantime goes with the next.
            Ok(()) if local::read(&name).as_ref() == Some(&text) => local::remove(&name),
            Ok(()) => {}
            Err(_) if at_once => {}
            Err(_) => store.notices.say(words::NOT_KEPT),
        }
    });
}
