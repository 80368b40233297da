//! The margin of the page: in which order staves stand, with how many players.

use crate::components::choice::choice;
use crate::components::live::{live, press};
use crate::state::document::Document;
use crate::state::list_item::ListItem;
use crate::state::session::Session;
use crate::words;
use crookwise_score::{MOST_PLAYERS, MOST_STAVES};
use leptos::prelude::*;
use std::sync::Arc;

/// A tool: its name, what it does and when it can be used, given the selected staff and how many there are.
type Tool =
    (&'static str, fn(&mut Document) -> Result<(), crookwise_score::PassageError>, fn(usize, usize) -> bool);

const TOOLS: [Tool; 3] = [
    (words::staves::DUPLICATE_IT, Document::duplicate_staff, |_, staves| staves < MOST_STAVES),
    (words::staves::MOVE_IT_UP, |document| document.move_staff(-1), |staff, _| staff > 0),
    (words::staves::MOVE_IT_DOWN, |document| document.move_staff(1), |staff, staves| staff + 1 < staves),
];

/// Buttons for the selected staff, and its number of players.
pub fn margin_tools() -> AnyView {
    let Session { desk, .. } = Session::get();
    let button = |(name, act, usable): Tool| {
        let usable = move || {
            let whole = desk.whole.read();
            usable(whole.staff, whole.staves.len())
        };
        view! {
            <button
                aria-disabled=live(move || (!usable()).then_some("true"))
                on:click=press(move || {
                    if untrack(usable) {
                        desk.attempt(act);
                    }
                })
            >
                {name}
            </button>
        }
        .into_any()
    };
    let numbers =
        || (1..=MOST_PLAYERS).map(|number| ListItem::new(number.to_string(), number.to_string())).collect();
    let players = move || {
        let whole = desk.whole.read();
        whole.staves.get(whole.staff).map_or(1, |staff| staff.players.len()).to_string()
    };
    let set_players = move |value: String| {
        if let Ok(number) = value.parse() {
            desk.attempt(|document| document.set_players(number));
        }
    };
    view! {
        <div class="settings margin-tools" role="group" aria-label=words::staves::THIS_STAFF_ON_THE_PAGE>
            {choice(words::staves::PLAYERS, Arc::new(numbers), Arc::new(players), Box::new(set_players))}
            {TOOLS.map(button).into_iter().collect::<Vec<_>>()}
        </div>
    }
    .into_any()
}
