//! Results of a class: a teacher pastes whatever came, and every code in it is found.

use crate::browser::{field, files};
use crate::components::live::{hear, live, press, when};
use crate::components::practise::bars::bar;
use crate::components::practise::doing::mended_note;
use crate::components::teach::class_tables;
use crate::state::kept::Derived;
use crate::state::practise::Practise;
use crate::state::practise::sharing::{self, Read};
use crate::words;
use crookwise_practice::results::{Cause, Given, Student};
use leptos::ev::Event;
use leptos::prelude::*;

/// The screen.
pub fn class() -> AnyView {
    let practise = Practise::get();
    let read = Derived::new(move || sharing::read(&practise.pasted.read(), &practise.exercise.read()));
    let typed = hear(move |event: Event| practise.pasted.set(field::text(&event)));
    let said = live(move || read.with(Read::sentence));
    let trouble = live(move || {
        let item = |line: String| view! { <li>{line}</li> }.into_any();
        let read = read.read();
        words::results::troubles(&read.found, &read.class).into_iter().map(item).collect::<Vec<_>>()
    });
    let some = move || !read.read().class.students.is_empty();
    view! {
        <section class="card exercise" aria-label=words::course::RESULTS_OF_A_CLASS>
            <h2>{words::course::RESULTS_OF_A_CLASS}</h2>
            <label class="field wide">
                <span>{words::course::PASTE_ANYTHING}</span>
                <textarea aria-label=words::course::PASTE_ANYTHING rows="6" prop:value=live(move || practise.pasted.read().to_string()) on:input=typed></textarea>
            </label>
            <p role="status">{said}</p>
            <ul class="plain problem">{trouble}</ul>
            <p class="quiet">{words::results::NO_PROOF}</p>
        </section>
        {when(some, move || tables(read))}
    }
    .into_any()
}

/// The class: its mistakes, by student, by what stood on the page, over the term.
fn tables(read: Derived<Read>) -> AnyView {
    let practise = Practise::get();
    let save = press(move || {
        let csv = read.read_untracked().class.csv(&words::results::csv());
        if !files::save("results.csv", &csv) {
            practise.say(words::NO_FILES);
        }
    });
    let mistakes = live(move || {
        let read = read.read();
        let missed = &read.class.all.missed;
        let most = missed.first().map_or(1, |missed| missed.count).max(1);
        let one = |cause: &Cause| bar(words::results::missed(&cause.missed), cause.count, most);
        missed.iter().map(one).collect::<Vec<_>>()
    });
    let students =
        live(move || read.read().class.students.iter().enumerate().map(student).collect::<Vec<_>>());
    view! {
        <section class="card exercise" aria-label=words::course::THE_CLASS>
            {when(move || read.read().same_exercise, move || mended_note(practise, words::mended::ANSWERED_BEFORE))}
            <h2>{words::course::MISTAKES_OF_THE_CLASS}</h2>
            <dl class="bars">{mistakes}</dl>
            <h2>{words::course::BY_STUDENT}</h2>
            <table class="results" aria-label=words::course::TABLE_OF_RESULTS>
                <thead>
                    <tr>
                        <th scope="col">{words::course::NAME}</th>
                        <th scope="col">{words::course::RIGHT}</th>
                        <th scope="col">{words::course::TIME}</th>
                        <th scope="col">{words::course::ANSWERS}</th>
                    </tr>
                </thead>
                <tbody>{students}</tbody>
            </table>
            <p class="quiet">{words::course::SIGNS_OF_THE_TABLE}</p>
            <div class="row"><button on:click=save>{words::course::SAVE_AS_A_TABLE_CSV}</button></div>
            {live(move || class_tables::confusions(&read.read()))}
            {live(move || class_tables::by_page(&read.read().page))}
            <h2>{words::course::BY_QUESTION}</h2>
            <ol class="plain asked-questions">{live(move || class_tables::by_question(&read.read()))}</ol>
            {live(move || class_tables::over_the_term(&read.read().term))}
        </section>
    }
    .into_any()
}

fn student((at, student): (usize, &Student)) -> AnyView {
    let name = student.name.clone().unwrap_or_else(|| words::results::nameless(at + 1));
    let again = student.again.then_some(" (again)");
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
    view! {
        <tr>
            <th scope="row">{name}{again}</th>
            <td>{student.tally.right.to_string()}</td>
            <td>{pace}</td>
            <td class="named">
                <ol class="plain signs">{signs}</ol>
                <small>{words::results::all_missed(&student.tally)}</small>
            </td>
        </tr>
    }
    .into_any()
}
