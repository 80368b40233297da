//! Some bars of some staves as a page of Read.

use crate::holder::Opened;
use crookwise_score::score::{Moment, StaffId, Window};
use crookwise_score::{Event, Passage, Staff};
use crookwise_share::{Link, ReadPage};

/// How many columns it takes.
pub(crate) fn columns(opened: &Opened, staves: &[u32], bars: (u32, u32)) -> Result<u32, String> {
    let window = window(opened, staves, bars)?;
    Ok(u32::try_from(window.passage.columns().len()).unwrap_or(u32::MAX))
}

/// The page as text.
pub(crate) fn of_read(opened: &Opened, staves: &[u32], bars: (u32, u32)) -> Result<String, String> {
    Ok(written(window(opened, staves, bars)?, None))
}

/// A note of a staff, selected, with the bar before it and as many after it as fit.
pub(crate) fn of_note(opened: &Opened, staff: u32, note: u32) -> Result<String, String> {
    let found = opened.staff_id(staff).and_then(|id| opened.import.score.staff(id)).and_then(|staff| {
        staff.notes().iter().find(|(id, _)| id.number() == note).map(|(_, note)| (note.bar, note.start))
    });
    let Some((bar, start)) = found else { return Err("This note is not in the score any more".to_owned()) };
    let last = u32::try_from(opened.import.score.bars().len()).unwrap_or(u32::MAX).saturating_sub(1);
    let around = (0..=BARS_AFTER).rev().map(|after| (bar.saturating_sub(1), (bar + after).min(last)));
    let mut tried = Err(String::new());
    for bars in around.chain([(bar, bar)]) {
        tried = window(opened, &[staff], bars);
        if tried.is_ok() {
            break;
        }
    }
    Ok(written(tried?, Some(start)))
}

/// Bars that are shown after the one of a note.
const BARS_AFTER: u32 = 3;

fn written(Window { passage, moments, .. }: Window, begins: Option<Moment>) -> String {
    let mut page = ReadPage { passage, ..ReadPage::of_label("") };
    let note = begins.and_then(|begins| moments.iter().position(|at| *at == begins));
    page.selected = note.or_else(|| first_note(&page.passage)).or(Some(0));
    Link::Read(Box::new(page)).encode()
}

/// The first column in which something is struck.
fn first_note(passage: &Passage) -> Option<usize> {
    let is_struck = |staff: &Staff, column: usize| {
        let cell = staff.cells().get(column);
        cell.is_some_and(|cell| (0..staff.players()).any(|player| matches!(cell.of(player), Event::Note(_))))
    };
    (0..passage.columns().len()).find(|at| passage.staves().iter().any(|staff| is_struck(staff, *at)))
}

fn window(opened: &Opened, staves: &[u32], (first, last): (u32, u32)) -> Result<Window, String> {
    let ids: Option<Vec<StaffId>> = staves.iter().map(|staff| opened.staff_id(*staff)).collect();
    let wide = |bar: u32| usize::try_from(bar).unwrap_or(usize::MAX);
    let bars = wide(first)..wide(last).saturating_add(1);
    opened.import.score.window(&ids.unwrap_or_default(), bars).map_err(|error| error.to_string())
}
