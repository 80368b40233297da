//! A class by what stood on the page, question by question, and over a term.

use crate::browser::measure;
use crate::components::practise::class::percent;
use crate::components::practise::question_page::system;
use crate::state::practise::picture::QuestionPicture;
use crate::state::practise::sharing::Read;
use crate::state::score_sheet::Room;
use crate::state::session::Session;
use crate::words::{self, Names};
use crookwise_practice::Question;
use crookwise_practice::results::{ByPage, Tally, Term, TermLine};
use leptos::prelude::*;

/// By staff as it was printed, by clef, and what was read as what; nothing where the exercise is not known.
pub(super) fn by_page(page: &ByPage) -> Option<AnyView> {
    let staves: Vec<AnyView> =
        page.staves.iter().map(|(staff, tally)| share(words::results::asked_on(staff), tally)).collect();
    let clefs: Vec<AnyView> = page.clefs.iter().map(|(clef, tally)| share(clef.name(), tally)).collect();
    let by_page = view! {
        <h2>{words::course::BY_STAFF}</h2>
        <dl class="bars">{staves}</dl>
        <h2>{words::course::BY_CLEF}</h2>
        <dl class="bars">{clefs}</dl>
        {confusions(page)}
    };
    (!page.staves.is_empty()).then(|| by_page.into_any())
}

fn confusions(page: &ByPage) -> Option<AnyView> {
    let row =
        |(staff, missed): (&crookwise_practice::results::AskedOn, &crookwise_practice::results::Missed)| {
            view! {
                <tr>
                    <th scope="row">{words::results::asked_on(staff)}</th>
                    <td>{words::results::missed(missed)}</td>
                    <td>{missed.count.to_string()}</td>
                </tr>
            }
            .into_any()
        };
    let rows: Vec<AnyView> = page.confusions().into_iter().map(row).collect();
    let table = |rows| {
        view! {
            <h2>{words::course::READ_AS}</h2>
            <table class="results" aria-label=words::course::READ_AS>
                <thead>
                    <tr>
                        <th scope="col">{words::course::LABEL}</th>
                        <th scope="col">{words::course::READ_WITH}</th>
                        <th scope="col">{words::course::HOW_OFTEN}</th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        }
        .into_any()
    };
    (!rows.is_empty()).then(|| table(rows))
}

/// Each question with its staff where it is known.
pub(super) fn by_question(read: &Read) -> Vec<AnyView> {
    let names = Session::get().names.get();
    let one = |(at, tally): (usize, &Tally)| {
        let asked = read.questions.get(at).map(|question| asked(question, names));
        view! {
            <li>
                <p><b>{format!("{}. {}", at + 1, words::results::tally(tally))}</b></p>
                {asked}
                <p>{words::results::all_missed(tally)}</p>
            </li>
        }
        .into_any()
    };
    read.class.questions.iter().enumerate().map(one).collect()
}

/// A question as it was asked, and what is right.
fn asked(question: &Question, names: Names) -> AnyView {
    let room = Room::wide((measure::window_width() - 90.0).min(760.0));
    let picture = QuestionPicture::of(question, names, room);
    let systems: Vec<AnyView> = picture.sheet.systems.iter().map(|one| system(&picture, one)).collect();
    let right = words::practise::answer(&question.right, question, names);
    view! {
        <p>{format!("{} {right}", words::practise::prompt(question, names))}</p>
        <div role="img" aria-label=words::practise::page(question, names)>{systems}</div>
    }
    .into_any()
}

/// A line for each student over several exercises; nothing where there is only one.
pub(super) fn over_the_term(term: &Term) -> Option<AnyView> {
    let lines: Vec<AnyView> = term.lines.iter().map(line).collect();
    let several = term.exercises.len() > 1 && !lines.is_empty();
    let table = |lines| {
        view! {
            <h2>{words::course::OVER_THE_TERM}</h2>
            <p class="quiet">{words::course::EXERCISES_AS_THEY_CAME}</p>
            <dl class="bars">{lines}</dl>
        }
        .into_any()
    };
    several.then(|| table(lines))
}

fn line(line: &TermLine) -> AnyView {
    let runs = line.runs.iter().enumerate().flat_map(|(at, runs)| runs.iter().map(move |run| (at, run)));
    let run = |(at, run): (usize, &Tally)| {
        let said = format!("{}. {}", at + 1, words::results::tally(run));
        view! { <dd>{filled(run)} {said}</dd> }.into_any()
    };
    let runs: Vec<AnyView> = runs.map(run).collect();
    view! { <div class="count"><dt>{line.name.clone()}</dt>{runs}</div> }.into_any()
}

fn share(name: String, tally: &Tally) -> AnyView {
    let said = words::results::tally(tally);
    view! { <div class="count"><dt>{name}</dt><dd>{filled(tally)} {said}</dd></div> }.into_any()
}

/// How much was right, as a bar.
fn filled(tally: &Tally) -> AnyView {
    let width = percent(tally.right, tally.asked());
    view! { <span class="so-much" aria-hidden="true"><span style:width=width></span></span> }.into_any()
}
