//! The students of a class, a line each.

use crate::components::live::{live, press};
use crate::state::kept::{Derived, Watched};
use crate::state::practise::pasted::Read;
use crate::words;
use crookwise_practice::results::{Given, Student};
use leptos::prelude::*;

/// The table, with the mistakes of each where they are wanted; `save` is the button that saves it.
pub fn table(read: Derived<Read>, save: AnyView) -> AnyView {
    let why = Watched::new(false);
    let rows = live(move || {
        let (read, why) = (read.read(), why.get());
        read.class.students.iter().enumerate().map(|(at, student)| row(at, student, why)).collect::<Vec<_>>()
    });
    let pressed = live(move || if why.get() { "true" } else { "false" });
    let turn = press(move || why.set(!why.get_untracked()));
    view! {
        <table class="results students" aria-label=words::course::TABLE_OF_RESULTS>
            <thead>
                <tr>
                    <th scope="col">{words::course::NAME}</th>
                    <th scope="col">{words::course::RIGHT}</th>
                    <th scope="col">{words::course::ANSWERS}</th>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
        <p class="quiet">{words::course::SIGNS_OF_THE_TABLE}</p>
        <div class="row"><button aria-pressed=pressed on:click=turn>{words::class::MISTAKES_OF_EACH}</button> {save}</div>
    }
    .into_any()
}

fn row(at: usize, student: &Student, why: bool) -> AnyView {
    let name = student.name.clone().unwrap_or_else(|| words::results::nameless(at + 1));
    let again = student.again.then_some(words::class::AGAIN);
    let one = |(number, given): (usize, &Given)| {
        let (class, sign, said) = words::results::given(given);
        let said = format!("{}. {said}", number + 1);
        let title = said.clone();
        view! {
            <li class=class title=title>
                <span aria-hidden="true">{sign}</span>
                <span class="unseen">{said}</span>
            </li>
        }
        .into_any()
    };
    let signs: Vec<AnyView> = student.given.iter().enumerate().map(one).collect();
    let pace = student.tally.pace.map(words::results::pace);
    let why = why.then(|| view! { <small>{words::results::all_missed(&student.tally)}</small> }.into_any());
    view! {
        <tr>
            <th scope="row">{name} " " {again}</th>
            <td>{words::results::of_all(&student.tally)} " " <small class="quiet">{pace}</small></td>
            <td class="named"><ol class="plain signs">{signs}</ol> {why}</td>
        </tr>
    }
    .into_any()
}
