//! A plan as rows over the bars: the keys wanted, the crooks of each pair, and what nobody has.

use crate::browser::{focus, measure};
use crate::components::crooks::gap_card::GAP_CARD;
use crate::components::crooks::printed_rows::printed_rows;
use crate::components::live::{live, press, when};
use crate::state::crooks::Crooks;
use crate::state::crooks::gaps::Gap;
use crate::state::crooks::picture::{BarSpan, CrookCell, KeyCell, PlanPicture, PlanRow, hue};
use crate::state::crooks::wishes::WishTally;
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::words::crooks as words;
use leptos::html::Div;
use leptos::prelude::*;

/// The card.
pub fn plan_rows() -> AnyView {
    let crooks = Crooks::get();
    let picture = Derived::new(move || {
        crooks.shown.with(|shown| shown.as_ref().map(|shown| shown.picture.clone())).unwrap_or_default()
    });
    let keys = live(move || picture.read().keys.iter().map(|cell| key(picture, *cell)).collect::<Vec<_>>());
    let numbers = live(move || picture.read().numbers.iter().map(number).collect::<Vec<_>>());
    let rows = live(move || {
        picture
            .read()
            .rows
            .iter()
            .enumerate()
            .map(|(at, one)| row(crooks, picture, at, one))
            .collect::<Vec<_>>()
    });
    let hundredths = live(move || tally(crooks, |tally| words::hundredths(tally.hundredths())));
    let held = live(move || {
        tally(crooks, |tally| words::of_what_is_wanted(tally.held(), tally.wanted, crooks.wants_keys()))
    });
    let room = NodeRef::<Div>::new();
    measure::follow_room(room, move |width, _| crooks.width.set(width.max(0.0) as u32));
    view! {
        <section class="card plan-rows" aria-label=words::THE_PLAN>
            <p class="plan-percent" role="status"><b>{hundredths}</b> " " <span class="quiet">{held}</span></p>
            <div class="plan-row keys" hidden=live(move || picture.read().keys.is_empty())>
                <span class="who">{words::KEYS_WANTED}</span>
                <ol class="over-bars" aria-label=words::KEYS_WANTED>{keys}</ol>
            </div>
            <div class="plan-row" aria-hidden="true"><span class="who"></span><div class="over-bars bar-numbers" node_ref=room>{numbers}</div></div>
            {rows}
            {nobody(crooks, picture)}
            {when(move || crooks.printed.read().is_some(), printed_rows)}
            {gaps(crooks, picture)}
            <p class="quiet plan-note" hidden=live(move || picture.read().gaps.is_empty())>{words::DASHED}</p>
        </section>
    }
    .into_any()
}

/// What is told of all that is wanted.
fn tally(crooks: Crooks, told: impl FnOnce(&WishTally) -> String) -> String {
    crooks.shown.with(|shown| shown.as_ref().map(|shown| told(&shown.tally))).unwrap_or_default()
}

fn key(picture: Derived<PlanPicture>, cell: KeyCell) -> AnyView {
    let (names, wide) = (Session::get().names, Crooks::get().width);
    let shown = live(move || cell.span.fitting(wide.get(), &words::shorter_key(cell.key, names.get())));
    let said = live(move || words::key_from_to(cell.key, picture.read().printed(cell.bars), names.get()));
    let (left, width) = place(cell.span);
    view! {
        <li class="over-cell key" style:left=left style:width=width>
            <span aria-hidden="true">{shown}</span>
            <span class="unseen">{said}</span>
        </li>
    }
    .into_any()
}

fn number((bar, left): &(String, u32)) -> AnyView {
    view! { <span class="bar-place" style:left=share(*left)>{bar.clone()}</span> }.into_any()
}

fn row(crooks: Crooks, picture: Derived<PlanPicture>, at: usize, row: &PlanRow) -> AnyView {
    let who = words::row(row.family, &row.numbers);
    let cells: Vec<_> = row.cells.iter().map(|cell| crook(picture, cell)).collect();
    view! {
        <div class="plan-row">
            <span class="who">{who.clone()}</span>
            <div class="over-bars">
                <ol aria-label=who>{cells}</ol>
                {marks(crooks, picture, Some(at))}
            </div>
        </div>
    }
    .into_any()
}

pub(super) fn crook(picture: Derived<PlanPicture>, cell: &CrookCell) -> AnyView {
    let (left, width) = place(cell.span);
    let CrookCell { crook, bars, span } = *cell;
    let hue = hue(crook.tonic).to_string();
    let (wide, names) = (Crooks::get().width, Session::get().names);
    let shown = live(move || span.fitting(wide.get(), &words::shorter_crook(crook, names.get())));
    let said = live(move || words::crook_from_to(crook, picture.read().printed(bars), names.get()));
    view! {
        <li class="over-cell crook" data-hue=hue style:left=left style:width=width>
            <b aria-hidden="true">{shown}</b>
            <span class="unseen">{said}</span>
        </li>
    }
    .into_any()
}

/// Looks at a gap; the focus goes to what is said of it.
fn look_at(crooks: Crooks, at: usize) {
    crooks.look_at_gap(at);
    if crooks.gap.with_untracked(Option::is_some) {
        focus::to(GAP_CARD.to_owned());
    }
}

/// The button of a gap.
pub(super) fn gap_id(at: usize) -> String {
    format!("gap-{at}")
}

/// What is missing in a row, or for nobody in particular, over its bars.
fn marks(crooks: Crooks, picture: Derived<PlanPicture>, row: Option<usize>) -> AnyView {
    let marks = live(move || {
        let mark = |(at, gap): (usize, &Gap)| {
            let (left, width) = place(gap.span);
            let act = press(move || look_at(crooks, at));
            let class =
                live(move || if crooks.gap.get() == Some(at) { "gap-mark chosen" } else { "gap-mark" });
            view! { <span class=class style:left=left style:width=width on:click=act></span> }.into_any()
        };
        let picture = picture.read();
        let own = picture.gaps.iter().enumerate().filter(|(_, gap)| gap.row == row);
        own.map(mark).collect::<Vec<_>>()
    });
    view! { <div class="marks" aria-hidden="true">{marks}</div> }.into_any()
}

/// What is left out and is for nobody in particular, over its bars.
fn nobody(crooks: Crooks, picture: Derived<PlanPicture>) -> AnyView {
    let none = live(move || picture.read().gaps.iter().all(|gap| gap.row.is_some()));
    view! {
        <div class="plan-row nobody" aria-hidden="true" hidden=none>
            <span class="who">{words::LEFT_OUT}</span>
            <div class="over-bars">{marks(crooks, picture, None)}</div>
        </div>
    }
    .into_any()
}

/// All that is left out as buttons, for fingers and keys.
fn gaps(crooks: Crooks, picture: Derived<PlanPicture>) -> AnyView {
    let names = Session::get().names;
    let buttons = live(move || {
        let names = names.get();
        let picture = picture.read();
        let button = |(at, gap): (usize, &Gap)| {
            let name = gap.said(&picture, names);
            let act = press(move || look_at(crooks, at));
            let pressed = live(move || Some((crooks.gap.get() == Some(at)).to_string()));
            view! { <button class="gap" id=gap_id(at) aria-pressed=pressed on:click=act>{name}</button> }
                .into_any()
        };
        picture.gaps.iter().enumerate().map(button).collect::<Vec<_>>()
    });
    let none = live(move || !picture.read().gaps.is_empty());
    view! {
        <div class="gap-list" role="group" aria-label=words::WHAT_IS_LEFT_OUT>{buttons}</div>
        <p class="quiet" hidden=none>{words::NOTHING_LEFT_OUT}</p>
    }
    .into_any()
}

/// Left edge and width, as a style has them.
pub(super) fn place(span: BarSpan) -> (String, String) {
    (share(span.left), share(span.width))
}

fn share(ten_thousandths: u32) -> String {
    format!("{}.{:02}%", ten_thousandths / 100, ten_thousandths % 100)
}
