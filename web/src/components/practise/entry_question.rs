//! What will sound at an entry of a movement that is read along: asked, answered and explained as in Practise; on the wall asked of
//! the class.

use crate::browser::{clock, focus, style};
use crate::components::live::{either, live, when};
use crate::components::practise::answer_area::{ASKED, answer_area};
use crate::components::practise::feedback::{NEXT, button_on, feedback};
use crate::components::practise::note_pad::PAD;
use crate::components::practise::question_page::{Standing, question_page};
use crate::state::kept::{Derived, follow};
use crate::state::movement::along::Along;
use crate::state::practise::answering::Answering;
use crate::state::practise::entry::questions_of;
use crate::state::practise::remembered::last;
use crate::state::session::Session;
use crate::store::drawers::zone;
use crate::store::{Store, answers};
use crate::words;
use crookwise_practice::Question;
use leptos::prelude::*;

/// The question, while one is asked.
pub fn entry_question(along: Along) -> AnyView {
    for sheet in [&style::PANELS, &style::PRACTISE] {
        sheet.wear();
    }
    let questions = Derived::new(move || along.page.map(|text| questions_of(text, along.notes.get())));
    let card = live(move || {
        questions.get().map(|all| if all.is_empty() { unasked(along) } else { card(along, all) })
    });
    view! { {card} }.into_any()
}

/// Goes on in the movement.
fn read_on(along: Along) -> AnyView {
    button_on(|| words::along::READ_ON, move || along.read_on())
}

fn unasked(along: Along) -> AnyView {
    focus::to(NEXT.to_owned());
    view! { <div class="entry-question"><p>{words::along::NO_PITCH}</p> {read_on(along)}</div> }.into_any()
}

/// Goes on to the next note that is asked, and behind the last in the movement.
fn next_or_on(along: Along, answering: Answering) -> AnyView {
    let is_last = move || answering.number().is_none_or(|(number, count)| number == count);
    let next = move || button_on(|| words::along::NEXT_NOTE, move || answering.go_on(clock::now()));
    view! { {either(is_last, move || read_on(along), next)} }.into_any()
}

fn card(along: Along, questions: Vec<Question>) -> AnyView {
    let answering = Answering::alone(questions, clock::now());
    let store = Store::get();
    let shown = Derived::new(move || answering.is_shown());
    follow(move || {
        focus::to(if shown.get() { NEXT } else { PAD }.to_owned());
        if !shown.get() {
            return;
        }
        let now = zone().shown(clock::seconds());
        if let Some(answer) = untrack(|| answering.latest.and_then(|run| last(run, now))) {
            answers::remember(store, answer);
        }
    });
    // Who goes elsewhere behind his answer has answered: he is not asked again when he comes back.
    let asked = along.asked.get_untracked();
    on_cleanup(move || {
        if untrack(|| answering.is_shown()) && along.asked.get_untracked() == asked {
            along.pass();
        }
    });
    let told = move || feedback(answering, next_or_on(along, answering));
    let which = live(move || {
        let (number, count) = answering.number().filter(|(_, count)| *count > 1)?;
        Some(words::along::which_note(number, count))
    });
    view! {
        <div class="entry-question">
            <div id=ASKED>
                <h2 class="prompt">{words::along::WHAT_WILL_SOUND} " " <span class="quiet">{which}</span></h2>
                {question_page(answering.question, Standing::InList)}
            </div>
            <div class="answering">{either(move || shown.get(), told, move || answer_area(answering))}</div>
        </div>
    }
    .into_any()
}

/// The same for the class: what will sound, and once it is revealed what does.
pub fn entry_for_the_class(along: Along) -> AnyView {
    let questions = Derived::new(move || {
        along.page.map(|text| questions_of(text, along.notes.get())).unwrap_or_default()
    });
    let is_told = move || along.asked.map(|asked| asked.told) == Some(true);
    let told = move || {
        let names = Session::get().names;
        let right = live(move || {
            let all = questions.read();
            let right = |one: &Question| words::practise::answer_in_sentence(&one.right, one, names.get());
            words::along::sounding(&all.iter().map(right).collect::<Vec<_>>())
        });
        let ways = live(move || {
            // The way of the first is that of all.
            let first = questions.read().first().map(|one| words::right_way::right_way(one, names.get()));
            first
                .unwrap_or_default()
                .into_iter()
                .map(|line| view! { <li>{line}</li> }.into_any())
                .collect::<Vec<_>>()
        });
        view! { <p class="class-told"><b>{right}</b></p> <ul class="plain quiet">{ways}</ul> }.into_any()
    };
    let card = move || {
        let count = live(move || words::along::notes_asked(questions.with(Vec::len)));
        view! {
            <div class="entry-question" role="status">
                <h2 class="prompt">{words::along::WHAT_WILL_SOUND} " " <span class="quiet">{count}</span></h2>
                {when(is_told, told)}
            </div>
        }
        .into_any()
    };
    when(move || !questions.with(Vec::is_empty), card).into_any()
}
