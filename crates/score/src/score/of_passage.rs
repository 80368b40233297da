//! A passage as a small score: one part a staff, in one bar that prints none. Looking at all of it gives the passage
//! again.

use super::{Look, Moment, PlayedBy, Quarters, Score, ScoreError, ScoreNote, StaffId, TimedChange};
use crate::cell::Event;
use crate::passage::Passage;
use crate::staff::Staff;
use crookwise_theory::Printed;

impl Score {
    /// The score of a passage.
    ///
    /// # Errors
    /// Where its lengths are too fine to be added up exactly.
    pub fn of_passage(passage: &Passage) -> Result<Self, ScoreError> {
        let (columns, end) = moments(passage)?;
        let laid = columns.iter().copied().zip(passage.columns().iter().map(|column| column.bar)).collect();
        let mut score = Self { movement: passage.movement, laid: Some(laid), ..Self::default() };
        for (column, &at) in passage.columns().iter().zip(&columns) {
            if let Some(key) = column.movement {
                score.change_key(at, key);
            }
        }
        // Notes laid without lengths take no time, but they stand somewhere.
        let length = if end.time > Quarters::ZERO { end.time } else { Quarters::whole(1) };
        score.add_bar("1", length, None)?;
        let mut bounds = columns;
        bounds.push(end);
        for staff in passage.staves() {
            let part = score.add_part(&staff.label);
            let id = score.add_staff(part, &staff.label, staff.players())?;
            if let Some(own) = score.staff_mut(id) {
                own.choice = staff.choice;
                own.settings = staff.settings;
                own.crooks = staff.crooks().to_vec();
            }
            for change in staff.changes() {
                let Some(&at) = bounds.get(change.column) else { continue };
                score.change(id, TimedChange { at, player: change.player, to: change.to.clone() })?;
            }
            add_notes(&mut score, id, staff, &bounds)?;
        }
        Ok(score)
    }
}

/// When each column begins, and when the last one ends.
fn moments(passage: &Passage) -> Result<(Vec<Moment>, Moment), ScoreError> {
    let mut columns = Vec::new();
    let (mut time, mut order) = (Quarters::ZERO, 0);
    for column in passage.columns() {
        if let Some(length) = column.length {
            columns.push(Moment::measured(time));
            (time, order) = (time.plus(length.into()).ok_or(ScoreError::TooFine)?, 0);
        } else {
            columns.push(Moment::without_length(time, order));
            order += 1;
        }
    }
    Ok((columns, Moment::without_length(time, order)))
}

fn add_notes(score: &mut Score, id: StaffId, staff: &Staff, bounds: &[Moment]) -> Result<(), ScoreError> {
    let players = staff.players();
    let mut add = |printed: Printed, by: PlayedBy, (from, to): (usize, usize), tied: bool| {
        let (Some(&start), Some(&end)) = (bounds.get(from), bounds.get(to)) else { return Ok(()) };
        let (printed, look) = (Some(printed), Look::default());
        let note =
            ScoreNote { printed, voice: 1, by, start, end, tied, grace: false, tuplet: None, bar: 0, look };
        score.add_note(id, note)?;
        Ok(())
    };
    for (column, cell) in staff.cells().iter().enumerate() {
        let held = |player: usize| {
            let later = staff.cells().iter().skip(column + 1);
            column + 1 + later.take_while(|cell| cell.of(player) == Event::Held).count()
        };
        if let (true, Event::Note(printed)) = (cell.is_together() && players > 1, cell.of(0)) {
            // All together as long as all hold; who holds on alone is tied to it.
            let all = (0..players).map(held).min().unwrap_or(column + 1);
            add(printed, PlayedBy::All, (column, all), false)?;
            for player in (0..players).filter(|&player| held(player) > all) {
                add(printed, PlayedBy::One(player), (all, held(player)), true)?;
            }
            continue;
        }
        for player in 0..players {
            if let Event::Note(printed) = cell.of(player) {
                add(printed, PlayedBy::One(player), (column, held(player)), false)?;
            }
        }
    }
    Ok(())
}
