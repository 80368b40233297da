//! A page of a worksheet, and one of its key.

use crate::components::system_view::pixels;
use crate::state::practise::engraved::{PaperLine, Piece};
use crate::state::practise::paper_choices::ChoiceList;
use crate::state::practise::paper_pages::{Block, KeyAnswer, KeyPage, PaperPage};
use crate::words;
use leptos::prelude::*;

/// A page with what stands over it on the first, and which page it is of how many.
pub fn page(
    page: &PaperPage,
    head: Option<(&str, Option<&(String, String)>)>,
    points: u32,
    (number, all): (usize, usize),
) -> AnyView {
    let head = head.map(|(title, under)| {
        let under = under.map(|(time, points)| {
            view! { <p class="under-title"><span>{time.clone()}</span><span>{points.clone()}</span></p> }.into_any()
        });
        view! {
            <header class="paper-head">
                <h1>{title.to_owned()}</h1>
                <p class="name-line"><span>{words::exercise::NAME}</span><span>{words::exercise::DATE}</span></p>
                {under}
            </header>
        }
        .into_any()
    });
    let blocks: Vec<AnyView> = page
        .blocks
        .iter()
        .map(|block| match block {
            Block::Instruction { text, .. } => instruction(text, points),
            Block::Questions(line) => questions(line),
        })
        .collect();
    view! {
        <section class="sheet-of-paper" aria-label=words::paper::page_of(number, all)>
            {head}
            {blocks}
            <p class="page-number">{words::paper::page_of(number, all)}</p>
        </section>
    }
    .into_any()
}

fn instruction(text: &str, points: u32) -> AnyView {
    let worth = (points > 0)
        .then(|| view! { <span class="worth">{words::exercise::points_each(points)}</span> }.into_any());
    view! { <h2 class="paper-prompt"><span>{text.to_owned()}</span>{worth}</h2> }.into_any()
}

fn questions(line: &PaperLine) -> AnyView {
    let pieces: Vec<AnyView> = line.pieces.iter().map(piece).collect();
    view! { <ul class="paper-line">{pieces}</ul> }.into_any()
}

fn piece(piece: &Piece) -> AnyView {
    let label = piece.label.as_ref().map(|(label, beside)| {
        // Where nothing is engraved, its number stands before the label.
        let number = piece.svg.is_empty().then(|| {
            let number = piece.numbers.first().map(ToString::to_string);
            view! { <b class="own-number">{number}</b> }.into_any()
        });
        view! {
            <p class="asked-label">
                {number} <span>{label.clone()}</span> " " <span class="beside-label">{beside.clone()}</span>
            </p>
        }
        .into_any()
    });
    let choices = (!piece.choices.is_empty()).then(|| choices(&piece.choices));
    view! {
        <li class="piece" style:width=pixels(piece.width)>
            {label}
            <div class="engraved" role="img" aria-label=piece.name.clone() inner_html=piece.svg.clone()></div>
            {choices}
        </li>
    }
    .into_any()
}

/// What to choose from: of one question, or of several each by its number.
fn choices(lists: &[ChoiceList]) -> AnyView {
    let list = |list: &ChoiceList| {
        let choice = |text: &String| view! { <li>{text.clone()}</li> }.into_any();
        let choices: Vec<AnyView> = list.choices.iter().map(choice).collect();
        let choices = view! { <ol class="paper-choices" type="a">{choices}</ol> }.into_any();
        let Some(number) = list.number else { return choices };
        view! { <li><b class="own-number">{number.to_string()}</b> {choices}</li> }.into_any()
    };
    let all: Vec<AnyView> = lists.iter().map(list).collect();
    if lists.iter().any(|list| list.number.is_some()) {
        view! { <ul class="numbered-choices">{all}</ul> }.into_any()
    } else {
        all.into_any()
    }
}

/// A page of the key.
pub fn key_page(page: &KeyPage, title: &str, (number, all): (usize, usize)) -> AnyView {
    let answer = |answer: &KeyAnswer| {
        view! {
            <li>
                <b class="own-number">{answer.number.to_string()}</b>
                <p>
                    <span class="key-label">{answer.label.clone()}</span> " " <b>{answer.right.clone()}</b>
                    <br/> <span>{answer.way.clone()}</span>
                </p>
            </li>
        }
        .into_any()
    };
    let column = |column: &Vec<KeyAnswer>| {
        let answers: Vec<AnyView> = column.iter().map(answer).collect();
        view! { <ul class="paper-key">{answers}</ul> }.into_any()
    };
    let lines: Vec<AnyView> = page.lines.iter().map(questions).collect();
    let columns: Vec<AnyView> = page.columns.iter().map(column).collect();
    let head = (number == 1).then(|| view! { <h1>{words::exercise::key_of(title)}</h1> }.into_any());
    let guide = (number == all).then(|| view! { <p class="guide">{words::GUIDE}</p> }.into_any());
    view! {
        <section class="sheet-of-paper key" aria-label=words::paper::key_page_of(number, all)>
            {head}
            <div class="key-lines">{lines}</div>
            <div class="key-columns">{columns}</div>
            {guide}
            <p class="page-number">{words::paper::key_page_of(number, all)}</p>
        </section>
    }
    .into_any()
}
