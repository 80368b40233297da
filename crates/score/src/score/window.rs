//! A window on a score: some staves, some bars, as a passage.

mod graces;
mod seating;

use super::parts::{Bar, PartStaff, ScoreNote, TimedChange};
use super::quarters::{Moment, Quarters};
use super::{Score, StaffId};
use crate::bar_number::BarNumber;
use crate::cell::Event;
use crate::change::Change;
use crate::passage::{MOST_COLUMNS, MOST_STAVES, Passage, PassageError};
use crate::staff::MOST_PLAYERS;
use core::fmt;
use core::ops::Range;
use graces::{belongs, lengths};
pub use seating::player_of_voice;
use seating::{Seated, seat};
use std::collections::BTreeSet;

/// What is seen through a window.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Window {
    /// The passage: a column at every onset, wherever something ends or changes, and where a bar begins. What sounded before goes on; what
    /// changed before holds from the first column on. Grace notes are played before the beat, out of the column before
    /// them; at the very beginning they are an upbeat.
    pub passage: Passage,
    /// When its columns begin.
    pub moments: Vec<Moment>,
    /// Notes for which a staff had no player: it has at most [`MOST_PLAYERS`].
    pub left_out: usize,
}

/// Why there is nothing to be seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WindowError {
    /// No staff was asked for, or one that is not there.
    NoStaff,
    /// No bar was asked for, or one that is not there.
    NoBar,
    /// More staves than a page has: how many.
    TooManyStaves(usize),
    /// More columns than a passage has: how many.
    TooManyColumns(usize),
    /// Lengths too fine to be shown.
    TooFine,
}

impl fmt::Display for WindowError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoStaff => f.write_str("Choose a staff of this score"),
            Self::NoBar => f.write_str("Choose bars that this score has"),
            Self::TooManyStaves(staves) => {
                write!(f, "These are {staves} staves, and a page has room for {MOST_STAVES}")
            }
            Self::TooManyColumns(columns) => write!(
                f,
                "These bars take {columns} columns, and a page has room for {MOST_COLUMNS}: choose fewer bars"
            ),
            Self::TooFine => f.write_str("The lengths in these bars are too fine to be shown"),
        }
    }
}

impl core::error::Error for WindowError {}

impl From<PassageError> for WindowError {
    fn from(error: PassageError) -> Self {
        match error {
            PassageError::TooManyStaves => Self::TooManyStaves(MOST_STAVES + 1),
            PassageError::TooManyColumns => Self::TooManyColumns(MOST_COLUMNS + 1),
            _ => Self::NoStaff,
        }
    }
}

impl Score {
    /// These staves in these bars, counted from 0, as a passage.
    ///
    /// # Errors
    /// Where there is no such staff or bar, or it is more than a page holds.
    pub fn window(&self, staves: &[StaffId], bars: Range<usize>) -> Result<Window, WindowError> {
        let span = self.span(bars)?;
        let staves: Option<Vec<&PartStaff>> = staves.iter().map(|id| self.staff(*id)).collect();
        let staves = staves.filter(|staves| !staves.is_empty()).ok_or(WindowError::NoStaff)?;
        if staves.len() > MOST_STAVES {
            return Err(WindowError::TooManyStaves(staves.len()));
        }
        let columns = self.columns(&staves, &span);
        if columns.len() > MOST_COLUMNS {
            return Err(WindowError::TooManyColumns(columns.len()));
        }
        let mut window = Window { passage: Passage::default(), moments: Vec::new(), left_out: 0 };
        for staff in &staves {
            window.left_out += add_staff(&mut window.passage, staff, &columns, &span.bars)?;
        }
        self.set_columns(&mut window.passage, &columns, span.to)?;
        self.set_bars(&mut window.passage, &staves, &columns, &span)?;
        window.moments = columns;
        Ok(window)
    }

    fn span(&self, bars: Range<usize>) -> Result<Span, WindowError> {
        let last = bars.end.checked_sub(1).filter(|last| *last >= bars.start).ok_or(WindowError::NoBar)?;
        let (first, last) = self.bars.get(bars.start).zip(self.bars.get(last)).ok_or(WindowError::NoBar)?;
        let to = last.start.plus(last.length).ok_or(WindowError::TooFine)?;
        Ok(Span { from: first.start, to, is_last: bars.end == self.bars.len(), bars })
    }

    fn bars_of(&self, span: &Span) -> impl Iterator<Item = &Bar> {
        self.bars.get(span.bars.clone()).unwrap_or_default().iter()
    }

    /// Begins the bars: each with the first of its grace notes, else on its time.
    fn set_bars(
        &self,
        passage: &mut Passage,
        staves: &[&PartStaff],
        columns: &[Moment],
        span: &Span,
    ) -> Result<(), WindowError> {
        if let Some(laid) = &self.laid {
            for (column, at) in columns.iter().enumerate() {
                let bar = laid.iter().find(|(laid, _)| laid == at).and_then(|(_, bar)| *bar);
                passage.set_bar(column, bar)?;
            }
            return Ok(());
        }
        for (number, bar) in span.bars.clone().zip(self.bars_of(span)) {
            let notes = staves.iter().flat_map(|staff| at_once(staff, bar.start));
            let own = notes.filter(|note| usize::try_from(note.bar) == Ok(number) && is_seen(note));
            let begins = own.map(|note| note.start).min().unwrap_or(Moment::measured(bar.start));
            let Some(column) = columns.iter().position(|at| *at == begins) else { continue };
            passage.set_bar(column, Some(BarNumber::new(&bar.number).unwrap_or(BarNumber::NONE)))?;
        }
        Ok(())
    }

    /// The moments at which columns begin.
    fn columns(&self, staves: &[&PartStaff], span: &Span) -> Vec<Moment> {
        let mut columns = BTreeSet::new();
        let mut graces = Vec::new();
        let mut begin = |at: Moment| {
            if span.holds(at) {
                columns.insert(at);
            }
        };
        match &self.laid {
            Some(laid) => laid.iter().for_each(|(at, _)| begin(*at)),
            None => self.bars_of(span).for_each(|bar| begin(Moment::measured(bar.start))),
        }
        self.keys.iter().for_each(|(at, _)| begin(*at));
        for staff in staves {
            staff.changes().iter().for_each(|change| begin(change.at));
            for (_, note) in staff.notes().iter().filter(|(_, note)| is_seen(note)) {
                if note.grace {
                    graces.extend(belongs(note, &span.bars).then_some(note.start));
                    continue;
                }
                begin(note.start);
                if note.end.time > note.start.time {
                    begin(Moment::measured(note.end.time));
                }
            }
        }
        for grace in graces {
            columns.insert(grace);
            if grace.time < span.to {
                columns.insert(Moment::measured(grace.time));
            }
        }
        columns.into_iter().collect()
    }

    fn set_columns(
        &self,
        passage: &mut Passage,
        columns: &[Moment],
        end: Quarters,
    ) -> Result<(), WindowError> {
        let first = columns.first().copied();
        let earlier = self.keys.iter().rev().find(|(at, _)| first.is_some_and(|first| *at < first));
        passage.movement = earlier.map(|(_, key)| *key).or(self.movement);
        for (column, at) in columns.iter().enumerate() {
            let key = self.keys.iter().find(|(from, _)| from == at).map(|(_, key)| *key);
            passage.set_movement_at(column, key)?;
        }
        // What a reader laid without a length keeps none.
        let lengths = lengths(columns, end, self.laid.is_none())?;
        for (column, length) in lengths.into_iter().enumerate() {
            passage.set_length(column, length)?;
        }
        Ok(())
    }
}

/// What begins on a staff at a time, its grace notes first.
fn at_once(staff: &PartStaff, time: Quarters) -> impl Iterator<Item = &ScoreNote> {
    let notes = staff.notes();
    let first = notes.partition_point(|(_, note)| note.start.time < time);
    let notes = notes.get(first..).unwrap_or_default().iter().map(|(_, note)| note);
    notes.take_while(move |note| note.start.time == time)
}

/// Whether a note is seen: rests are where nothing is, and cues are not what the part plays.
fn is_seen(note: &ScoreNote) -> bool {
    note.printed.is_some() && note.is_played()
}

/// The time that is seen.
struct Span {
    from: Quarters,
    to: Quarters,
    /// Whether the score ends with it: then what was laid without lengths at its very end belongs to it.
    is_last: bool,
    bars: Range<usize>,
}

impl Span {
    fn holds(&self, at: Moment) -> bool {
        let at_end = at.time == self.to && self.is_last && !at.is_measured();
        at.time >= self.from && (at.time < self.to || at_end)
    }
}

/// Adds a staff with its columns; gives the number of notes for which there was no player.
fn add_staff(
    passage: &mut Passage,
    staff: &PartStaff,
    columns: &[Moment],
    bars: &Range<usize>,
) -> Result<usize, WindowError> {
    let at = passage.add_staff(&staff.label)?;
    while passage.columns().len() < columns.len() {
        passage.insert_column(passage.columns().len())?;
    }
    let (seated, left_out) = seat(staff, columns, bars);
    let needed = seated.iter().filter_map(|seated| seated.player).max().map_or(1, |last| last + 1);
    passage.set_players(at, staff.players.max(needed).min(MOST_PLAYERS))?;
    if let Some(own) = passage.staff_mut(at) {
        own.choice = staff.choice;
        own.settings = staff.settings;
    }
    for (player, crook) in staff.crooks.iter().enumerate() {
        passage.set_crook(at, player, *crook)?;
    }
    for seated in &seated {
        lay(passage, at, seated, columns)?;
    }
    let first = columns.first().copied();
    for TimedChange { at: when, player, to } in staff.changes() {
        let earlier = first.filter(|first| when <= first).map(|_| 0);
        let column = earlier.or_else(|| columns.iter().position(|column| column == when));
        if let Some(column) = column {
            passage.set_change(at, Change { column, player: *player, to: to.clone() })?;
        }
    }
    Ok(left_out)
}

/// Lays a note over the columns in which it sounds.
fn lay(
    passage: &mut Passage,
    staff: usize,
    seated: &Seated<'_>,
    columns: &[Moment],
) -> Result<(), WindowError> {
    let Some(printed) = seated.note.printed else { return Ok(()) };
    let sounds = |at: &Moment| seated.note.start <= *at && *at < seated.end;
    let mut begun = false;
    for (column, _) in columns.iter().enumerate().filter(|(_, at)| sounds(at)) {
        let goes_on = begun || (seated.note.tied && column > 0);
        begun = true;
        let players = passage.staves().get(staff).map_or(1, crate::Staff::players);
        match (seated.player, goes_on) {
            (None, false) if players > 1 => passage.set_together(staff, column, printed)?,
            (who, goes_on) => {
                let who = who.map_or(0..players, |player| player..player + 1);
                for player in who {
                    let held = goes_on && passage.can_hold(staff, column, player);
                    let event = if held { Event::Held } else { Event::Note(printed) };
                    passage.set(staff, column, player, event)?;
                }
            }
        }
    }
    Ok(())
}
