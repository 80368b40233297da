//! A plan taken elsewhere: written as parts, for Read, Score or a file.

use super::{Crooks, setting};
use crate::state::decoding::decoded;
use crookwise_planner::written::{self, Seats};
use crookwise_score::score::StaffId;
use crookwise_score::{MOST_COLUMNS, Score};
use crookwise_share::ReadPage;

/// The plan that is looked at, written as parts.
fn taken(crooks: Crooks, seats: Seats) -> Result<Score, String> {
    let (plans, shown, asked) =
        (crooks.plans.read_untracked(), crooks.shown.read_untracked(), crooks.setting.read_untracked());
    let plans = plans.as_ref().as_ref().map_err(Clone::clone)?;
    let shown = shown.as_ref().as_ref().ok_or_else(String::new)?;
    written::score(&plans.request, &shown.plan, &setting::layout(&asked), seats)
        .map_err(|error| error.to_string())
}

/// The plan as MusicXML, each player a part: Score joins a pair on one staff as print does.
///
/// # Errors
/// Why it cannot be written, as a sentence.
pub fn music_xml(crooks: Crooks) -> Result<String, String> {
    let score = taken(crooks, Seats::Alone)?;
    let mut decoder = |label: &str| decoded(label, None);
    crookwise_musicxml::write::write(&score, &mut decoder).map_err(|error| error.to_string())
}

/// Bars of the plan from one on, counted from 1, as a page of Read.
///
/// # Errors
/// Why there is none, as a sentence.
pub fn page(crooks: Crooks, from: u32) -> Result<ReadPage, String> {
    let score = taken(crooks, Seats::Together)?;
    let (first, last) = bars(score.bars().len(), from);
    let staves: Vec<StaffId> = score.staves().map(|staff| staff.id).collect();
    // A pair that is written in halves takes more columns than bars.
    let mut end = last;
    loop {
        match score.window(&staves, first..end) {
            Ok(window) => {
                return Ok(ReadPage { passage: window.passage, selected: Some(0), ..ReadPage::of_label("") });
            }
            Err(_) if end > first + 1 => end -= (end - first).div_ceil(2).min(8),
            Err(error) => return Err(error.to_string()),
        }
    }
}

/// The bars that a page takes from one on, counted from 0: first and end.
fn bars(all: usize, from: u32) -> (usize, usize) {
    let first = usize::try_from(from).unwrap_or(usize::MAX).saturating_sub(1).min(all.saturating_sub(1));
    (first, (first + MOST_COLUMNS).min(all))
}

/// The same as they are told, from 1.
#[must_use]
pub fn told(all: u32, from: u32) -> (u32, u32) {
    let (first, end) = bars(usize::try_from(all).unwrap_or(usize::MAX), from);
    let number = |bar: usize| u32::try_from(bar).unwrap_or(u32::MAX);
    (number(first) + 1, number(end).max(1))
}

/// The bar of a printed number, counted from 1; `None` where there is none.
#[must_use]
pub fn bar_of(printed: &[String], number: &str) -> Option<u32> {
    let at = printed.iter().position(|own| own == number.trim())?;
    u32::try_from(at).ok()?.checked_add(1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::setting::first;
    use leptos::prelude::Owner;

    #[test]
    fn a_plan_is_taken_to_read_and_to_a_file() {
        let owner = Owner::new();
        owner.set();
        let crooks = Crooks::new(first());
        let page = page(crooks, 1).unwrap();
        let labels: Vec<_> = page.passage.staves().iter().map(|staff| staff.label.clone()).collect();
        assert_eq!(labels.len(), 3, "{labels:?}");
        assert!(labels[0].contains("Corn") && labels[2].contains("Tromb"), "{labels:?}");
        assert_eq!(page.passage.columns().len(), MOST_COLUMNS);
        let key = Some("G minor".parse().unwrap());
        assert_eq!(page.passage.movement, key);
        let text = music_xml(crooks).unwrap();
        let read = crookwise_musicxml::import_text(&text).unwrap().score;
        assert_eq!((read.bars().len(), read.staves().count(), read.movement), (120, 6, key));
        assert!(text.contains("muta in"));
    }

    #[test]
    fn bars_for_read_end_with_the_plan() {
        assert_eq!(told(120, 1), (1, 64));
        assert_eq!(told(120, 100), (100, 120));
        assert_eq!(told(120, 999), (120, 120));
        assert_eq!(told(8, 0), (1, 8));
    }

    #[test]
    fn a_bar_is_found_by_its_number_in_print() {
        let printed = ["0", "1", "2", "1"].map(str::to_owned);
        assert_eq!(
            ["0", " 1 ", "2", "3"].map(|number| bar_of(&printed, number)),
            [Some(1), Some(2), Some(3), None]
        );
    }
}
