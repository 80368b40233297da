//! A part on paper: what can be chosen of it, and its pages as they will be printed.

use crate::browser::{focus, screen, style};
use crate::components::choice::choice;
use crate::components::live::{live, press};
use crate::components::system_view::pixels;
use crate::state::kept::Derived;
use crate::state::list_item::ListItem;
use crate::state::movement::Movement;
use crate::state::movement::music::RowsShown;
use crate::state::movement::part_paper::{PartPage, PartPaper, PartWishes, offered, value_of};
use crate::state::practise::paper::PaperSize;
use crate::words;
use crate::words::part_paper as said;
use crookwise_opened::{PartRows, PartSystemRow};
use leptos::prelude::*;
use std::sync::Arc;

/// What leads back, which has the focus first.
pub(super) const BACK: &str = "part-paper-back";
/// The values of bars in their list.
const WHOLE: &str = "whole";
const CHOSEN: &str = "chosen";

/// The part as it will be printed, with what can be chosen over it.
pub fn part_paper() -> AnyView {
    style::PAPER.wear();
    focus::come(BACK);
    let paper = PartPaper::get();
    paper.was_shown.set(true);
    screen::on_escape(move || {
        paper.leave();
        true
    });
    let size = live(move || {
        let size = paper.wishes.map(|wishes| wishes.size.id()).unwrap_or_default();
        format!("paper part-paper {size}")
    });
    let signs = live(move || paper.signs.get());
    let head = Derived::new(move || head_of(paper));
    let pages = live(move || {
        let (wishes, rows) = (paper.wishes.get(), paper.rows.read());
        let (Some(wishes), Some(rows)) = (wishes, &*rows) else { return Vec::new() };
        let head = head.get();
        let pages = wishes.pages(rows);
        let all = pages.len();
        let one = |(at, own): (usize, &PartPage)| page(own, (&wishes, rows), &head, (at + 1, all));
        pages.iter().enumerate().map(one).collect()
    });
    view! {
        {wished(paper)}
        <div class="glyph-store" inner_html=signs></div>
        <article class=size aria-label=said::PART_AS_PRINTED>{pages}</article>
    }
    .into_any()
}

/// What stands over the first page: the title, who wrote it, the name of the part, its bars.
#[derive(Clone, Default, PartialEq)]
struct Head {
    title: String,
    composer: String,
    part: String,
    bars: String,
}

fn head_of(paper: PartPaper) -> Head {
    let movement = Movement::get();
    let Some(wishes) = paper.wishes.get() else { return Head::default() };
    let crook = paper.rows.and_then(|rows| rows.crook.clone());
    let head = movement.open.map(|open| {
        let label = offered(&open.summary).into_iter().find(|(staves, _)| *staves == wishes.staves);
        let label = label.map(|(_, name)| name).unwrap_or_default();
        Head {
            title: words::movement::title(&open.summary.title, &open.file).to_owned(),
            composer: open.summary.composer.clone(),
            part: said::headed(&label, crook.as_deref(), wishes.shown == RowsShown::Sounding),
            bars: String::new(),
        }
    });
    let bars = if wishes.only_chosen { chosen_bars(movement).unwrap_or_default() } else { String::new() };
    Head { bars, ..head.unwrap_or_default() }
}

/// The bars that are chosen, as they are printed.
fn chosen_bars(movement: Movement) -> Option<String> {
    let (first, last) = movement.bars().ok()?;
    let bars: Vec<u32> = (first..=last).collect();
    Some(words::movement::bar_list(&bars, &|bar| movement.printed(bar)))
}

/// What can be chosen.
fn wished(paper: PartPaper) -> AnyView {
    let movement = Movement::get();
    let now = move |look: fn(&PartWishes) -> String| -> Arc<dyn Fn() -> String + Send + Sync> {
        Arc::new(move || paper.wishes.map(look).unwrap_or_default())
    };
    let set = move |change: fn(&mut PartWishes, &str)| -> Box<dyn FnMut(String)> {
        Box::new(move |value: String| {
            paper.choose(untrack(|| movement.typed_bars()), |wishes| change(wishes, &value));
        })
    };
    let parts = move || {
        let offered = movement.open.map(|open| offered(&open.summary)).unwrap_or_default();
        offered.into_iter().map(|(staves, name)| ListItem::new(value_of(&staves), name)).collect()
    };
    let bars = move || {
        let chosen = chosen_bars(movement).map(|bars| ListItem::new(CHOSEN, bars));
        [ListItem::new(WHOLE, said::WHOLE_MOVEMENT)].into_iter().chain(chosen).collect()
    };
    let pitches = || PITCHES.map(|(shown, name)| ListItem::new(shown.name(), name)).into();
    let sizes = || PaperSize::ALL.map(|one| ListItem::new(one.id(), one.name())).into();
    let status = live(move || {
        let waits = paper.rows.with(Option::is_none) && paper.problem.with(Option::is_none);
        waits.then_some(said::IS_LAID_OUT)
    });
    let cannot = live(move || paper.rows.with(Option::is_none));
    view! {
        <section class="card settings not-printed" aria-label=said::PRINT_A_PART>
            {choice(said::PART, Arc::new(parts), now(|wishes| value_of(&wishes.staves)), set(|wishes, value| {
                wishes.staves = value.split('.').filter_map(|number| number.parse().ok()).collect();
            }))}
            {choice(said::PITCH, Arc::new(pitches), now(|wishes| wishes.shown.name().to_owned()), set(|wishes, value| {
                wishes.shown = RowsShown::ALL.into_iter().find(|one| one.name() == value).unwrap_or(wishes.shown);
            }))}
            {choice(
                said::WHICH_BARS,
                Arc::new(bars),
                now(|wishes| if wishes.only_chosen { CHOSEN } else { WHOLE }.to_owned()),
                set(|wishes, value| wishes.only_chosen = value == CHOSEN),
            )}
            {choice(said::PAPER, Arc::new(sizes), now(|wishes| wishes.size.id().to_owned()), set(|wishes, value| {
                wishes.size = PaperSize::ALL.into_iter().find(|one| one.id() == value).unwrap_or(wishes.size);
            }))}
            <button class="strong" disabled=cannot on:click=press(screen::print)>{said::PRINT}</button>
            <button id=BACK on:click=press(move || paper.leave())>{said::BACK_TO_SCORE}</button>
            <p class="quiet" role="status">{status}</p>
            <p class="problem" role="alert">{live(move || paper.problem.get())}</p>
        </section>
    }
    .into_any()
}

/// How a part can be printed, and the name of each way in the list.
const PITCHES: [(RowsShown, &str); 3] = [
    (RowsShown::Written, said::AS_WRITTEN),
    (RowsShown::Sounding, said::AS_IT_SOUNDS),
    (RowsShown::Both, said::BOTH),
];

fn page(
    page: &PartPage,
    (wishes, rows): (&PartWishes, &PartRows),
    head: &Head,
    (number, all): (usize, usize),
) -> AnyView {
    let Head { title, composer, part, bars } = head.clone();
    let head = if number == 1 {
        let large = size_of(&title);
        view! {
            <header class="part-head">
                <h1 class=large>{title}</h1>
                <p><b>{part}</b><span>{composer}</span></p>
                <p><span>{bars}</span></p>
            </header>
        }
        .into_any()
    } else {
        view! { <p class="part-again"><span>{part}</span><span>{title}</span></p> }.into_any()
    };
    let systems: Vec<AnyView> = rows
        .systems
        .get(page.systems.clone())
        .unwrap_or_default()
        .iter()
        .map(|own| system(own, wishes.height(own), page.between))
        .collect();
    view! {
        <section class="sheet-of-paper" aria-label=words::paper::page_of(number, all)>
            {head}
            {systems}
            <p class="page-number">{words::paper::page_of(number, all)}</p>
        </section>
    }
    .into_any()
}

/// How a title stands at the head: the longer, the smaller.
fn size_of(title: &str) -> &'static str {
    match title.chars().count() {
        0..=40 => "",
        41..=56 => "long",
        _ => "longest",
    }
}

fn system(own: &PartSystemRow, height: f64, between: f64) -> AnyView {
    let movement = Movement::get();
    let printed = |bar: u32| untrack(|| movement.printed(bar));
    let name = words::movement::bars_of_system(&printed(own.bars.0), &printed(own.bars.1));
    view! {
        <div
            class="engraved"
            role="img"
            aria-label=name
            style:height=pixels(height)
            style:margin-bottom=pixels(between)
            inner_html=own.svg.clone()
        ></div>
    }
    .into_any()
}
