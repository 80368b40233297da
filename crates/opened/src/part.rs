//! A part for paper: some of its bars, broken into systems for the width of a page, all of them drawn.

use crate::holder::Opened;
use crate::protocol::{PartRows, PartSystemRow, RowWanted};
use crate::sheet::{self, HUNDREDTHS, hundredths, sheet_rows, short};
use core::ops::Range;
use crookwise_engraving::StaffSpace;
use crookwise_engraving::measured::{LabelsStand, MusicSheet, SheetBar, SheetRow, SystemSpan};
use crookwise_engraving::svg::{self, SvgOptions};
use crookwise_score::printed::{PrintedBar, PrintedSign, PrintedStaff, rests_together};
use crookwise_score::score::{Direction, Score};
use std::sync::Arc;

/// Its systems, as wide as told and with letters of at least so many hundredths of a staff space.
pub(crate) fn rows(
    opened: &Opened,
    row: &RowWanted,
    (first, last): (u32, u32),
    (width, letters): (u32, u32),
) -> Result<PartRows, String> {
    let score = &opened.import.score;
    let (mut rows, staves) = sheet_rows(opened, core::slice::from_ref(row));
    let wide = |bar: u32| usize::try_from(bar).unwrap_or(usize::MAX);
    let bars = wide(first)..wide(last).saturating_add(1).min(score.bars().len());
    if bars.is_empty() || rows.is_empty() || staves.iter().any(Vec::is_empty) {
        return Err("These bars of this part are not in the score any more".to_owned());
    }
    let crook = rows.first().and_then(|row| crook_before(&row.staff, bars.start));
    rows.iter_mut().for_each(|row| tell_crooks_once(Arc::make_mut(&mut row.staff), &bars));
    let printed: Vec<Arc<PrintedStaff>> = rows.iter().map(|row| Arc::clone(&row.staff)).collect();
    let together = long_rests_within(&rests_together(score, &printed), &bars);
    for own in &mut rows {
        cut(own, &bars);
        // The part has its name at the head of the page: only which of two rows is which need be said.
        own.label.0.clear();
        if !(row.written && row.sounding) {
            own.label.1.clear();
        }
    }
    let in_spaces = |length: u32| f64::from(length) / HUNDREDTHS;
    let letters = StaffSpace(in_spaces(letters));
    let sheet = MusicSheet::of(rows, bars_within(score, &bars), together, letters)
        .labelled(LabelsStand::OverTheFirst);
    let width = in_spaces(width);
    let systems = sheet.break_into(width);
    let systems = systems.into_iter().map(|span| system(&sheet, span, width, bars.start)).collect();
    Ok(PartRows { crook, systems })
}

fn system(sheet: &MusicSheet, span: SystemSpan, width: f64, from: usize) -> PartSystemRow {
    let drawn = sheet.draw(span, width);
    let options = SvgOptions { frame: Some(drawn.frame), ..SvgOptions::default() };
    let last = span.end.saturating_sub(1);
    let rests = |row: &SheetRow| row.staff.bars.get(last).is_some_and(PrintedBar::is_silent);
    PartSystemRow {
        bars: (short(from + span.first), short(from + last)),
        size: (hundredths(drawn.frame.width().0), hundredths(drawn.frame.height().0)),
        rests: sheet.rows().iter().all(rests),
        svg: svg::write(&drawn.drawing, &options),
    }
}

/// Only these bars of a row; who plays is told anew in the first.
fn cut(row: &mut SheetRow, bars: &Range<usize>) {
    let staff = Arc::make_mut(&mut row.staff);
    let all = core::mem::take(&mut staff.bars);
    let players = all.iter().take(bars.end).take(bars.start + 1).rev().find_map(|bar| bar.players);
    staff.bars = all.into_iter().take(bars.end).skip(bars.start).collect();
    if let Some(first) = staff.bars.first_mut().filter(|first| !first.is_silent()) {
        first.players = first.players.or(players);
    }
}

/// The last crook that is told before a bar.
fn crook_before(staff: &PrintedStaff, bar: usize) -> Option<String> {
    let signs = staff.bars.iter().take(bar).rev().flat_map(|bar| bar.signs.iter().rev());
    signs.into_iter().find_map(|(_, sign)| match sign {
        PrintedSign::Crook(label) => Some(label.to_string()),
        PrintedSign::Direction(_) => None,
    })
}

/// Where the words of a score tell a change of crook in the rest before it, as parts do, they are enough.
fn tell_crooks_once(staff: &mut PrintedStaff, bars: &Range<usize>) {
    let mut told: Option<String> = None;
    for bar in staff.bars.iter_mut().take(bars.end).skip(bars.start) {
        let before = told.clone();
        bar.signs.retain(|(_, sign)| match sign {
            PrintedSign::Crook(label) => {
                !told.as_deref().is_some_and(|told| told.eq_ignore_ascii_case(label.trim()))
            }
            PrintedSign::Direction(Direction::Words(words)) => {
                told = Some(words.trim().to_owned());
                true
            }
            PrintedSign::Direction(_) => true,
        });
        if before.is_some() && !bar.is_silent() {
            told = None;
        }
    }
}

/// How many bars of rest print as one from each of some bars on: a long rest that goes on outside ends at their edges.
fn long_rests_within(together: &[usize], bars: &Range<usize>) -> Vec<usize> {
    let mut within = Vec::with_capacity(bars.len());
    let mut bar = 0;
    while let Some(run) = together.get(bar) {
        let end = bar + run.max(&1);
        let count = end.min(bars.end).saturating_sub(bar.max(bars.start));
        if count > 0 {
            within.push(count);
            within.resize(within.len() + count - 1, 0);
        }
        bar = end;
    }
    within
}

/// What is known of these bars; the first has the time signature that holds there.
fn bars_within(score: &Score, bars: &Range<usize>) -> Vec<SheetBar> {
    let all = sheet::bars(score);
    let time = all.iter().take(bars.start + 1).rev().find_map(|bar| bar.time);
    let mut within: Vec<SheetBar> = all.into_iter().take(bars.end).skip(bars.start).collect();
    if let Some(first) = within.first_mut() {
        first.time = time;
    }
    within
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_rest_ends_at_the_edges() {
        let together = [1, 4, 0, 0, 0, 1, 3, 0, 0];
        assert_eq!(long_rests_within(&together, &(0..9)), together);
        assert_eq!(long_rests_within(&together, &(2..8)), [3, 0, 0, 1, 2, 0]);
        assert_eq!(long_rests_within(&together, &(3..4)), [1]);
        assert_eq!(long_rests_within(&together, &(7..20)), [2, 0]);
        assert_eq!(long_rests_within(&together, &(20..30)), Vec::<usize>::new());
    }
}
