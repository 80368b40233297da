//! A class by what stood on the page, question by question, and over a term.

use crate::browser::measure;
use crate::components::practise::bars::percent;
use crate::components::practise::question_page::asked_page;
use crate::components::teach::folded::folded;
use crate::state::practise::pasted::Read;
use crate::state::score_sheet::Room;
use crate::state::session::Session;
use crate::words::{self, Names};
use crookwise_practice::Question;
use crookwise_practice::results::{AskedOn, ByPage, Confusion, Sight, Taken, Tally, Term, TermLine};
use crookwise_theory::label::StaffLabel;
use crookwise_theory::order::in_order;
use leptos::prelude::*;

/// Lines of each table of what was taken for what.
const ROWS: usize = 8;

/// By staff as it was printed and by clef; nothing where the exercise is not known.
pub(super) fn by_page(page: &ByPage) -> Option<AnyView> {
    let names = Session::get().names.get();
    // The weakest first.
    let staves = in_order(&page.staves, |(_, tally): &&(AskedOn, Tally)| tally.per_mille());
    let staves: Vec<AnyView> = staves
        .into_iter()
        .map(|(staff, tally)| share(words::results::asked_on(staff, names), tally))
        .collect();
    // Said where it says more than the labels.
    let crooks = (page.crooks.len() != page.staves.len()).then(|| {
        let crooks = in_order(&page.crooks, |(_, tally): &&(StaffLabel, Tally)| tally.per_mille());
        let name = |staff: &StaffLabel| staff.name_by(&|key| names.key_word(key));
        let crooks: Vec<AnyView> =
            crooks.into_iter().map(|(staff, tally)| share(name(staff), tally)).collect();
        view! { <h2>{words::class::BY_CROOK}</h2> <dl class="bars">{crooks}</dl> }.into_any()
    });
    let clefs: Vec<AnyView> = page.clefs.iter().map(|(clef, tally)| share(clef.name(), tally)).collect();
    let by_page = view! {
        <h2>{words::course::BY_STAFF}</h2>
        <dl class="bars">{staves}</dl>
        {crooks}
        <h2>{words::course::BY_CLEF}</h2>
        <dl class="bars">{clefs}</dl>
    };
    (!page.staves.is_empty()).then(|| by_page.into_any())
}

/// What was taken for what: labels, clefs, and other answers, a small table each.
pub(super) fn confusions(read: &Read) -> AnyView {
    let of = |wanted: fn(&Confusion) -> bool| read.confusions.iter().filter(move |one| wanted(one));
    let labels = of(|one| matches!(one.taken, Taken::Label(_)));
    let mistakes = of(|one| matches!((&one.sight, &one.taken), (Sight::Staff(_), Taken::Missed(..))));
    let clefs = of(|one| matches!(one.sight, Sight::Clef(_)));
    let others = of(|one| matches!(one.sight, Sight::Answer(..) | Sight::Page(_)));
    let taken = words::course::TAKEN_FOR;
    let tables = [
        confused(words::course::READ_AS, [words::course::LABEL, taken], labels, read),
        confused(words::course::CLEFS_TAKEN, [words::course::CLEF, taken], clefs, read),
        confused(words::course::ANSWERS_TAKEN, [words::course::RIGHT_WAS, taken], others, read),
        confused(
            words::course::OTHERWISE_MISREAD,
            [words::course::LABEL, words::course::MISTAKE],
            mistakes,
            read,
        ),
    ];
    view! { <div class="confusions">{tables.into_iter().flatten().collect::<Vec<_>>()}</div> }.into_any()
}

/// One of the tables: what is rare stands folded below it.
fn confused<'a>(
    head: &'static str,
    columns: [&'static str; 2],
    rows: impl Iterator<Item = &'a Confusion>,
    read: &Read,
) -> Option<AnyView> {
    let names = Session::get().names.get();
    let line = |one: &Confusion| ConfusionLine {
        said: words::confusions::line(one, read.questions.get(one.question), names),
        unnamed: matches!(one.taken, Taken::Missed(..)),
        counts: [one.times, one.students],
    };
    let mut lines: Vec<ConfusionLine> = rows.map(line).collect();
    let rest = lines.split_off(lines.len().min(ROWS));
    let rest = (!rest.is_empty()).then(|| {
        let more = words::class::more(rest.len());
        folded(more, move || lines_table(head, columns, &rest))
    });
    let table =
        || view! { <div><h2>{head}</h2> {lines_table(head, columns, &lines)} {rest}</div> }.into_any();
    (!lines.is_empty()).then(table)
}

/// A line of such a table.
struct ConfusionLine {
    said: (String, String),
    unnamed: bool,
    counts: [u32; 2],
}

fn lines_table(head: &'static str, [sight, taken]: [&'static str; 2], lines: &[ConfusionLine]) -> AnyView {
    let row = |line: &ConfusionLine| {
        let class = if line.unnamed { "quiet" } else { "" };
        let [times, students] = line.counts.map(|count| count.to_string());
        let (sight, taken) = line.said.clone();
        view! {
            <tr>
                <th scope="row">{sight}</th>
                <td class=class>{taken}</td>
                <td class="figure">{times}</td>
                <td class="figure">{students}</td>
            </tr>
        }
        .into_any()
    };
    let rows: Vec<AnyView> = lines.iter().map(row).collect();
    view! {
        <table class="results confused" aria-label=head>
            <thead>
                <tr>
                    <th scope="col">{sight}</th>
                    <th scope="col">{taken}</th>
                    <th scope="col" class="figure">{words::course::TIMES}</th>
                    <th scope="col" class="figure">{words::course::STUDENTS}</th>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
    }
    .into_any()
}

/// Each question with its staff where it is known.
pub(super) fn by_question(read: &Read) -> Vec<AnyView> {
    let names = Session::get().names.get();
    let one = |(at, tally): (usize, &Tally)| {
        let (question, missed) = (read.questions.get(at).cloned(), words::results::all_missed(tally));
        let part = move || {
            let asked = question.as_ref().map(|question| asked(question, names));
            view! { {asked} <p>{missed.clone()}</p> }.into_any()
        };
        let what = read.questions.get(at).map(words::results::about);
        view! { <li>{folded(words::results::question(at, what, tally), part)}</li> }.into_any()
    };
    read.class.questions.iter().enumerate().map(one).collect()
}

/// A question as it was asked, and what is right.
fn asked(question: &Question, names: Names) -> AnyView {
    let room = Room::wide((measure::window_width() - 90.0).min(760.0));
    let right = words::practise::answer(&question.right, question, names);
    view! {
        <p>{format!("{} {right}", words::practise::prompt(question, names))}</p>
        {asked_page(question, names, room)}
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
            <ol class="plain term">{lines}</ol>
        }
        .into_any()
    };
    several.then(|| table(lines))
}

/// What a student did, a column for each run; an exercise that is missing leaves its place.
fn line(line: &TermLine) -> AnyView {
    let run = |at: usize, run: &Tally| {
        let (said, height) = (words::results::run(at, run), percent(run.right, run.asked()));
        let title = said.clone();
        view! {
            <li title=title>
                <span class="so-tall" aria-hidden="true"><span style:height=height></span></span>
                <small aria-hidden="true">{words::results::of_all(run)}</small>
                <span class="unseen">{said}</span>
            </li>
        }
        .into_any()
    };
    let runs = |(at, runs): (usize, &Vec<Tally>)| -> Vec<AnyView> {
        if runs.is_empty() {
            return vec![
                view! { <li><span class="unseen">{words::class::nothing(at + 1)}</span></li> }.into_any(),
            ];
        }
        runs.iter().map(|one| run(at, one)).collect()
    };
    let runs: Vec<AnyView> = line.runs.iter().enumerate().flat_map(runs).collect();
    view! { <li><span>{line.name.clone()}</span> <ol class="plain run-list">{runs}</ol></li> }.into_any()
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
