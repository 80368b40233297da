//! What a plan leaves out, gathered by where it is and why.

use super::picture::{BarSpan, KeyCell, PlanPicture, PlanRow, span};
use super::wishes::Wish;
use crate::words::{Names, crook_gaps as words};
use crookwise_planner::written::Grid;
use crookwise_planner::{LeftOut, Request};
use crookwise_theory::{Pitch, Tonic};

/// Notes that are left out for the same reason.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// Why.
    pub why: LeftOut,
    /// The row of whom they are wanted; `None` where anybody might have played them.
    pub row: Option<usize>,
    /// The stretch of the plan of keys; `None` where notes are wanted.
    pub stretch: Option<usize>,
    /// From the first bar to the last.
    pub bars: (u32, u32),
    /// What is missing, whatever its octave, and how often.
    pub missing: Vec<(Tonic, usize)>,
    /// The same in its octaves; none in a plan of keys, where any octave would do.
    pub pitches: Vec<Pitch>,
    /// The notes of the request that are missing.
    pub notes: Vec<usize>,
    /// Its place.
    pub span: BarSpan,
}

/// What is left out, one gap for each key and reason.
pub(super) fn of_keys(keys: &[KeyCell], wishes: &[Wish], (bars, grid): (u32, &Grid)) -> Vec<Gap> {
    let mut gaps: Vec<Gap> = Vec::new();
    for (wish, why) in wishes.iter().filter_map(Wish::left_out) {
        let (bar, _) = grid.bars_of(wish.time);
        let Some(stretch) = keys.iter().position(|key| (key.bars.0..=key.bars.1).contains(&bar)) else {
            continue;
        };
        let is_it = |gap: &Gap| (gap.stretch, gap.why) == (Some(stretch), why);
        change_or_begin(&mut gaps, is_it, Gap::at(why, None, Some(stretch), (bar, bar)), |gap| {
            gap.add(wish, bar, bars);
        });
    }
    gaps
}

/// What is left out of notes: of each row and reason what lies in bars that follow each other.
pub(super) fn of_notes(
    rows: &[PlanRow],
    request: &Request,
    wishes: &[Wish],
    (bars, grid): (u32, &Grid),
) -> Vec<Gap> {
    let mut gaps: Vec<Gap> = Vec::new();
    for (wish, why) in wishes.iter().filter_map(Wish::left_out) {
        let note = wish.notes.first().and_then(|at| request.notes.get(*at));
        let player = note.and_then(|note| note.player);
        let row = player.and_then(|player| rows.iter().position(|row| row.players.contains(&player)));
        let (first, last) = grid.bars_of(wish.time);
        let is_it = |gap: &Gap| (gap.row, gap.why) == (row, why) && gap.bars.1 + 1 >= first;
        change_or_begin(&mut gaps, is_it, Gap::at(why, row, None, (first, last)), |gap| {
            gap.add(wish, last, bars);
            let pitch = note.map(|note| note.sounding.0);
            gap.pitches.extend(pitch.filter(|pitch| !gap.pitches.contains(pitch)));
        });
    }
    gaps
}

/// Changes the gap that it is, or a new one where there is none yet.
fn change_or_begin(
    gaps: &mut Vec<Gap>,
    is_it: impl Fn(&Gap) -> bool,
    mut new: Gap,
    change: impl FnOnce(&mut Gap),
) {
    if let Some(gap) = gaps.iter_mut().find(|gap| is_it(gap)) {
        change(gap);
    } else {
        change(&mut new);
        gaps.push(new);
    }
}

impl Gap {
    /// In words: where, what, and why.
    #[must_use]
    pub fn said(&self, picture: &PlanPicture, names: Names) -> String {
        let key = self.stretch.and_then(|at| picture.keys.get(at)).map(|cell| names.key(cell.key));
        let notes: Vec<String> = if self.pitches.is_empty() {
            self.missing.iter().map(|(tonic, _)| names.tonic(*tonic)).collect()
        } else {
            self.pitches.iter().map(|pitch| names.note(*pitch)).collect()
        };
        words::gap(self.why, key.as_deref(), picture.printed(self.bars), &notes)
    }

    const fn at(why: LeftOut, row: Option<usize>, stretch: Option<usize>, bars: (u32, u32)) -> Self {
        Self {
            why,
            row,
            stretch,
            bars,
            missing: Vec::new(),
            pitches: Vec::new(),
            notes: Vec::new(),
            span: BarSpan { left: 0, width: 0 },
        }
    }

    /// One more that is missing, up to a bar of so many.
    fn add(&mut self, wish: &Wish, last: u32, bars: u32) {
        self.bars.1 = self.bars.1.max(last);
        self.span = span(self.bars, bars);
        self.notes.extend(&wish.notes);
        match self.missing.iter_mut().find(|(tonic, _)| *tonic == wish.tonic) {
            Some((_, count)) => *count += 1,
            None => self.missing.push((wish.tonic, 1)),
        }
    }
}
