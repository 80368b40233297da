//! Results of a class: a teacher pastes whatever came, and every code in it is found.

use crate::browser::{clock, field, files, focus};
use crate::components::live::{hear, live, press, when};
use crate::components::practise::bars::bar;
use crate::components::practise::doing::mended_note;
use crate::components::practise::list_deeds::{UNDO, act, done_last};
use crate::components::teach::folded::folded;
use crate::components::teach::{class_tables, students};
use crate::state::kept::{Derived, Watched, follow};
use crate::state::practise::Practise;
use crate::state::practise::pasted::{self, InCodes, Read};
use crate::state::practise::way_back::CODES_AWAY;
use crate::state::store::lists::changing::TakeBack;
use crate::state::store::lists::codes;
use crate::store::Store;
use crate::words;
use crookwise_practice::results::{Cause, Fingerprint};
use leptos::ev::Event;
use leptos::prelude::*;

/// The screen.
pub fn class() -> AnyView {
    let practise = Practise::get();
    let chosen = Watched::new(None::<Fingerprint>);
    let read = Derived::new(move || {
        let lists = practise.lists.get().unwrap_or_default();
        pasted::read(&practise.pasted.read(), &practise.exercise.read(), chosen.get(), &lists)
    });
    follow(move || keep(practise, &practise.pasted.read()));
    let typed = hear(move |event: Event| practise.pasted.set(field::text(&event)));
    let said = live(move || read.with(Read::sentence));
    let trouble = live(move || {
        let item = |line: String| view! { <li>{line}</li> }.into_any();
        words::results::troubles(&read.read().found).into_iter().map(item).collect::<Vec<_>>()
    });
    let some = Derived::new(move || !read.read().class.students.is_empty());
    // What was pasted needs little room once it is read.
    let rows = live(move || if some.get() { "2" } else { "6" });
    view! {
        <section class="card exercise" aria-label=words::course::RESULTS_OF_A_CLASS>
            <h2>{words::course::RESULTS_OF_A_CLASS}</h2>
            <label class="field wide">
                <span>{words::course::PASTE_ANYTHING}</span>
                <textarea aria-label=words::course::PASTE_ANYTHING rows=rows prop:value=live(move || practise.pasted.read().to_string()) on:input=typed></textarea>
            </label>
            <p role="status">{said}</p>
            {live(move || exercises(&read.read(), chosen))}
            <ul class="plain problem">{trouble}</ul>
            <div class="row">
                {when(move || !read.read().kept.is_empty(), move || take_away(practise, read))}
                {done_last()}
            </div>
            <p class="quiet">{words::class::KEPT_HERE} " " {words::results::NO_PROOF}</p>
        </section>
        {when(move || some.get(), move || tables(read))}
    }
    .into_any()
}

/// Keeps the codes of what was pasted.
fn keep(practise: Practise, text: &str) {
    let lists = practise.lists.get_untracked().unwrap_or_default();
    let all = pasted::to_keep(text, &practise.exercise.read_untracked(), &lists, clock::stamp());
    if all.is_empty() {
        return;
    }
    act(practise, Store::get(), move |kept| {
        let full = all.into_iter().any(|one| codes::join(kept, one).is_err());
        full.then(|| (words::weeks::NO_ROOM.to_owned(), None))
    });
}

/// A button that takes away the codes which are shown. What was pasted goes too: it would bring them back.
fn take_away(practise: Practise, read: Derived<Read>) -> AnyView {
    let store = Store::get();
    let away = press(move || {
        let shown = read.read_untracked().kept.clone();
        practise.pasted.set(String::new());
        focus::to(UNDO.to_owned());
        act(practise, store, move |kept| {
            let gone: Vec<_> = shown.into_iter().filter_map(|one| codes::remove(kept, one)).collect();
            let count = gone.iter().map(|one| one.codes.len()).sum();
            Some((words::class::taken_away(count), Some(TakeBack::Codes(gone))))
        });
    });
    view! { <button id=CODES_AWAY on:click=away>{words::class::TAKE_AWAY}</button> }.into_any()
}

/// Which exercise is shown, where there are codes of several.
fn exercises(read: &Read, chosen: Watched<Option<Fingerprint>>) -> Option<AnyView> {
    let one = |(number, one): (usize, &InCodes)| {
        let InCodes { exercise, ref title, codes, shown, set } = *one;
        let pressed = if shown { "true" } else { "false" };
        let choose = press(move || chosen.set(Some(exercise)));
        let name = words::results::in_codes(number + 1, title.as_deref(), codes, set);
        view! { <button aria-pressed=pressed on:click=choose>{name}</button> }.into_any()
    };
    let all: Vec<AnyView> = read.exercises.iter().enumerate().map(one).collect();
    (all.len() > 1).then(|| {
        view! { <div class="row" role="group" aria-label=words::class::EXERCISES_OF_THE_CODES>{all}</div> }.into_any()
    })
}

/// The class: what was taken for what, by student, by what stood on the page, over the term.
fn tables(read: Derived<Read>) -> AnyView {
    let practise = Practise::get();
    let save = press(move || {
        let csv = read.read_untracked().class.csv(&words::results::csv());
        if !files::save("results.csv", &csv) {
            practise.say(words::NO_FILES);
        }
    });
    let save = view! { <button on:click=save>{words::course::SAVE_AS_A_TABLE_CSV}</button> }.into_any();
    let all = live(move || words::results::counts(&read.read().class.all));
    let known = Derived::new(move || !read.read().questions.is_empty());
    view! {
        <section class="card exercise" aria-label=words::course::THE_CLASS>
            {when(move || read.read().same_exercise, move || mended_note(practise, words::mended::ANSWERED_BEFORE))}
            <h2 class="prompt">{all}</h2>
            {live(move || class_tables::confusions(&read.read()))}
            {when(move || !known.get(), move || view! { <h2>{words::course::MISTAKES_OF_THE_CLASS}</h2> {mistakes(read)} }.into_any())}
            <h2>{words::course::BY_STUDENT}</h2>
            {students::table(read, save)}
            {live(move || class_tables::over_the_term(&read.read().term))}
            {live(move || class_tables::by_page(&read.read().page))}
            {when(move || known.get(), move || folded(words::course::MISTAKES_OF_THE_CLASS, move || mistakes(read)))}
            <h2>{words::course::BY_QUESTION}</h2>
            <ol class="plain asked-questions">{live(move || class_tables::by_question(&read.read()))}</ol>
        </section>
    }
    .into_any()
}

/// The mistakes of all, the commonest first.
fn mistakes(read: Derived<Read>) -> AnyView {
    let bars = live(move || {
        let read = read.read();
        let all = &read.class.all;
        let one = |cause: &Cause| bar(words::results::missed(&cause.missed), cause.count, all.most_missed());
        all.missed.iter().map(one).collect::<Vec<_>>()
    });
    view! { <dl class="bars">{bars}</dl> }.into_any()
}
