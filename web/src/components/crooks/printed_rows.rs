//! The crooks that are printed where the notes were taken from, as rows over the same bars, and how a plan compares.

use crate::components::crooks::plan_rows::{crook, place};
use crate::components::live::live;
use crate::state::crooks::Crooks;
use crate::state::crooks::gaps::Gap;
use crate::state::crooks::picture::{PlanPicture, PlanRow};
use crate::state::kept::Derived;
use crate::words::{crook_printed as words, crooks as crook_words};
use leptos::prelude::*;

/// The rows and the sentence.
pub fn printed_rows() -> AnyView {
    let crooks = Crooks::get();
    let picture = Derived::new(move || {
        crooks.printed.with(|printed| printed.as_ref().map(|own| own.picture.clone())).unwrap_or_default()
    });
    // The same rows once more would say nothing.
    let is_same = Derived::new(move || {
        let (printed, shown) = (crooks.printed.read(), crooks.shown.read());
        let both = printed.as_ref().as_ref().zip(shown.as_ref().as_ref());
        both.is_some_and(|(printed, shown)| printed.picture.rows == shown.picture.rows)
    });
    let rows = live(move || {
        if is_same.get() {
            return Vec::new();
        }
        let own = picture.read();
        own.rows.iter().enumerate().map(|(at, one)| row(picture, at, one)).collect::<Vec<_>>()
    });
    let said = live(move || {
        let (printed, shown) = (crooks.printed.read(), crooks.shown.read());
        let is_mended = crooks.setting.with(|setting| !setting.mended.is_empty());
        let both = printed.as_ref().as_ref().zip(shown.as_ref().as_ref());
        both.map(|(printed, shown)| printed.said(shown, is_mended)).unwrap_or_default()
    });
    view! {
        <div class="printed-rows">
            {rows}
            <p class="plan-note">{said}</p>
        </div>
    }
    .into_any()
}

fn row(picture: Derived<PlanPicture>, at: usize, row: &PlanRow) -> AnyView {
    let cells: Vec<_> = row.cells.iter().map(|cell| crook(picture, cell)).collect();
    let mark = |gap: &Gap| {
        let (left, width) = place(gap.span);
        view! { <span class="gap-mark" style:left=left style:width=width></span> }.into_any()
    };
    let marks: Vec<_> = picture.read().gaps.iter().filter(|gap| gap.row == Some(at)).map(mark).collect();
    view! {
        <div class="plan-row by-print">
            <span class="who">{crook_words::row(row.family, &row.numbers)} " " <small>{words::AS_PRINTED}</small></span>
            <div class="over-bars">
                <ol aria-label=words::row(row.family, &row.numbers)>{cells}</ol>
                <div aria-hidden="true">{marks}</div>
            </div>
        </div>
    }
    .into_any()
}
