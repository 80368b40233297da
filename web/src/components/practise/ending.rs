//! How an exercise went.

use crate::browser::{address, clock, field, focus, measure};
use crate::components::copy_button::copy_button;
use crate::components::live::{hear, live, press, when};
use crate::components::practise::course_view::go_to;
use crate::components::practise::feedback::compared;
use crate::components::practise::question_page::asked_page;
use crate::state::kept::Watched;
use crate::state::practise::of_step::OfStep;
use crate::state::practise::picture;
use crate::state::practise::run::{Answered, Run, Verdict};
use crate::state::practise::sharing;
use crate::state::practise::weeks;
use crate::state::practise::{Practise, Screen};
use crate::state::score_sheet::Room;
use crate::state::session::Session;
use crate::words::{self, Names};
use crookwise_practice::Question;
use crookwise_share::Link;
use crookwise_share::practise::PractiseLink;
use leptos::ev::Event;
use leptos::prelude::*;

/// The head of it, to which the keyboard goes.
pub const WENT: &str = "how-it-went";

/// The head of the code for a teacher.
const CODE: &str = "for-a-teacher";

/// From this width of the window on they stand in two columns, as the style sheet has it.
const TWO_COLUMNS: f64 = 860.0;

/// Pixels of the widest staff of a question that was missed.
const WIDEST: f64 = 560.0;

/// Pixels of the staff with the right note.
const RIGHT_NOTE: f64 = 84.0;

/// How it went, what was missed, and a code for the teacher.
pub fn ending() -> AnyView {
    let practise = Practise::get();
    let Session { names, .. } = Session::get();
    let run = move || practise.answering.run.get();
    let head =
        live(move || practise.answering.run.map(|run| words::practise::score(run.score(), run.usual_ms())));
    // Where nothing was answered there is nothing to send.
    let is_for_a_teacher = move || {
        let answered = practise.answering.run.map(|run| run.is_answered() || run.stopped.is_none());
        answered == Some(true) && !practise.repeating.get()
    };
    let to_code = move || {
        let missed = practise.answering.run.map(|run| run.done.len() - run.right().min(run.done.len()));
        let act = press(|| focus::to(CODE.to_owned()));
        let many = missed > Some(1) && is_for_a_teacher();
        many.then(|| view! { <button on:click=act>{words::doing::TO_THE_CODE}</button> }.into_any())
    };
    let missed = live(move || {
        let names = names.get();
        run().map(|run| missed(&run, names)).unwrap_or_default()
    });
    let go_on = move || -> Vec<AnyView> {
        let stopped = practise.may_go_on(clock::now());
        let class = if stopped { "" } else { "strong" };
        let resume = stopped.then(|| {
            let act = press(move || practise.resume_stopped(clock::now()));
            view! { <button class="strong" on:click=act>{words::doing::GO_ON_WITH_IT}</button> }.into_any()
        });
        if practise.repeating.get() {
            let back = press(move || practise.go(Screen::Record));
            let back = view! { <button class=class on:click=back>{words::doing::BACK_TO_MY_RECORD}</button> };
            return resume.into_iter().chain([back.into_any()]).collect();
        }
        let again = press(move || practise.begin(clock::now()));
        let others = press(move || {
            let mut set = practise.exercise.get_untracked();
            set.seed = clock::chance();
            practise.set(&set);
            practise.begin(clock::now());
        });
        let others = view! { <button class=class on:click=others>{words::doing::OTHER_QUESTIONS_OF_THIS_KIND}</button> };
        let again = view! { <button on:click=again>{words::doing::THE_SAME_ONCE_MORE}</button> };
        let step = practise.of_step.get().map(|of| back_to_step(practise, of)).unwrap_or_default();
        let of_weeks = practise.lists.map(|lists| weeks::has(lists, &practise.exercise.read())) == Some(true);
        let weeks = of_weeks.then(|| {
            let act = press(move || go_to(practise, Screen::Weeks));
            view! { <button on:click=act>{words::weeks::BACK_TO_THE_WEEKS}</button> }.into_any()
        });
        let back = weeks.into_iter().chain(step);
        resume.into_iter().chain([others.into_any(), again.into_any()]).chain(back).collect()
    };
    view! {
        <section class="card exercise" aria-label=words::doing::HOW_IT_WENT>
            <h2 class="prompt" id=WENT tabindex="-1">{head}</h2>
            <div class="row">{live(to_code)}</div>
            <ol class="plain missed">{missed}</ol>
            <div class="row">{live(go_on)}</div>
            {when(is_for_a_teacher, move || for_a_teacher(practise))}
        </section>
    }
    .into_any()
}

/// The way back to the step that an exercise came from, and on to the next of it.
fn back_to_step(practise: Practise, of: OfStep) -> Vec<AnyView> {
    let OfStep { step, next } = of;
    let back = press(move || go_to(practise, Screen::Step(step)));
    let next = next.map(|next| {
        let act = press(move || practise.begin_of_course(next.clone(), clock::chance(), clock::now()));
        view! { <button on:click=act>{words::doing::NEXT_EXERCISE}</button> }.into_any()
    });
    let back = view! { <button on:click=back>{words::course::back_to_step(step + 1)}</button> }.into_any();
    next.into_iter().chain([back]).collect()
}

/// The code, with the name if the student wishes, and a link that brings it.
fn for_a_teacher(practise: Practise) -> AnyView {
    let name = Watched::new(String::new());
    let code = move || practise.answering.run.map(|run| sharing::code(run, &name.read())).unwrap_or_default();
    let (copy, said) = copy_button("", words::doing::COPY_CODE_AND_LINK, move || {
        format!("{}\n{}", code(), address::with_hash(&Link::Practise(PractiseLink::Class(code())).encode()))
    });
    view! {
            <h3 id=CODE tabindex="-1">{words::doing::FOR_A_TEACHER}</h3>
            <p class="quiet">{words::practise::CODE}</p>
            <div class="settings">
                <label class="field">
                    <span>{words::doing::YOUR_NAME_IF_YOU_WISH}</span>
                    <input
                        aria-label=words::doing::YOUR_NAME_IF_YOU_WISH
                        type="text"
                        maxlength="40"
                        autocomplete="off"
                        on:input=hear(move |event: Event| name.set(field::text(&event)))
                    />
                </label>
                {copy}
                {said}
            </div>
            <p class="code">{live(code)}</p>
    }
    .into_any()
}

/// What was not right, question by question: what stood there, and the right note.
fn missed(run: &Run, names: Names) -> Vec<AnyView> {
    let wrong = run.questions.iter().zip(&run.done).enumerate();
    wrong.filter_map(|(at, (question, done))| Some(one(at, question, &why(done)?, done, names))).collect()
}

/// Why it was not right; `None` where it was.
fn why(done: &Answered) -> Option<String> {
    match &done.outcome {
        Verdict::Right => None,
        Verdict::Wrong(missed) => Some(words::results::missed(missed)),
        Verdict::LeftOut => Some(words::doing::LEFT_OUT.to_owned()),
    }
}

fn one(at: usize, question: &Question, why: &str, done: &Answered, names: Names) -> AnyView {
    let head = words::doing::missed_head(at + 1, words::practise::kind(question.kind), why);
    let window = measure::window_width();
    let column = if window < TWO_COLUMNS { window - 66.0 } else { (window - 120.0) / 2.0 };
    let page = asked_page(question, names, Room::wide(column.min(WIDEST)));
    let right = words::practise::answer(&question.right, question, names);
    let given = match &done.outcome {
        Verdict::Wrong(missed) => missed.given_beside(question),
        _ => None,
    };
    let beside = match given {
        Some(pair) => Some(compared(question, pair, names)),
        None => picture::right_alone(question, RIGHT_NOTE).map(|svg| {
            view! { <div class="picture right-note" aria-hidden="true" inner_html=svg></div> }.into_any()
        }),
    };
    view! {
        <li>
            <p class="asked">{head}</p>
            {page}
            <p><span class="quiet">{words::practise::prompt(question, names)}</span> " " <b>{right}</b></p>
            {beside}
        </li>
    }
    .into_any()
}
