//! A plan as written parts: staves with the labels that a score prints, clefs, *muta in* where crooks change, and rests. What
//! stands in some of its bars is a passage by [`Score::window`].

mod bars;
mod staves;

pub use bars::{BarLaid, Grid, Layout};
pub use staves::Seats;

use crate::plan::Plan;
use crate::request::Request;
use crate::ticks::Ticks;
use crookwise_score::score::{
    Direction, Look, Mark, Marks, Moment, PlayedBy, Quarters, Score, ScoreError, ScoreNote, StaffId,
    TimedChange, TimedDirection,
};
use crookwise_score::{ChangeTo, Settings};
use crookwise_theory::order::put_in_order;
use crookwise_theory::{BassNotation, Clef, Production};
use staves::{Seated, SeatedNote, Turn};

/// The parts of a plan, in the bars of a layout; where its notes go on beyond the last bar, like bars follow.
///
/// # Errors
/// Where times are beyond what a score reckons with.
pub fn score(request: &Request, plan: &Plan, layout: &Layout, seats: Seats) -> Result<Score, ScoreError> {
    let end = plan.notes.iter().zip(&request.notes).filter(|(played, _)| played.is_some());
    let layout = layout.reaching(end.map(|(_, note)| note.to).max().unwrap_or_default());
    let mut score = Score::default();
    for bar in &layout.bars {
        score.add_bar(&bar.number, quarters(bar.length)?, bar.time)?;
    }
    for (at, key) in &layout.keys {
        score.set_key(quarters(*at)?, *key);
    }
    let grid = Grid::of(&layout);
    for seated in staves::all(request, plan, seats) {
        add(&mut score, &seated, &grid)?;
    }
    Ok(score)
}

/// Adds a staff with all that stands on it.
fn add(score: &mut Score, seated: &Seated, grid: &Grid) -> Result<(), ScoreError> {
    let part = score.add_part(&seated.label);
    let staff = score.add_staff(part, &seated.label, seated.players.len())?;
    if let Some(own) = score.staff_mut(staff) {
        own.settings = settings(seated);
    }
    for turn in &seated.turns {
        change(score, staff, turn, grid)?;
    }
    for (player, notes) in seated.players.iter().enumerate() {
        let mut now = Ticks::default();
        let mut line = Vec::new();
        for note in notes {
            line.extend(grid.pieces(now, note.from).map(|piece| (piece, None)));
            line.extend(grid.pieces(note.from, note.to).map(|piece| (piece, Some(note))));
            now = note.to;
        }
        line.extend(grid.pieces(now, grid.end()).map(|piece| (piece, None)));
        let notes: Result<Vec<ScoreNote>, ScoreError> = line
            .into_iter()
            .map(|(piece, note)| {
                let tied = piece.goes_on && note.is_some();
                Ok(ScoreNote {
                    printed: note.map(|note| note.printed),
                    // At most eight players.
                    voice: player as u8 + 1,
                    by: PlayedBy::One(player),
                    start: moment(piece.from)?,
                    end: moment(piece.to)?,
                    tied,
                    grace: false,
                    tuplet: None,
                    bar: piece.bar,
                    // A sign stands where a note is struck.
                    look: Look {
                        marks: note.filter(|_| !tied).map_or(Marks::default(), signs),
                        ..Look::default()
                    },
                })
            })
            .collect();
        // Every piece is of a player who is there, and lasts.
        let _ = score.add_notes(notes?.into_iter().map(|note| (staff, note)));
    }
    Ok(())
}

/// The sign over a note: `+` where the hand shuts the bell by three quarters or wholly, as Widor marks such notes (*Initiation
/// musicale*, p. 34). The half-shut bell and the bent note are the player's own affair; nothing stands over them in a part.
fn signs(note: &SeatedNote) -> Marks {
    match note.production {
        Production::ThreeQuarter | Production::Full => Marks::default().with(Mark::Stopped),
        _ => Marks::default(),
    }
}

/// The words where the player is free to change, and the change where its bar begins, or later where he still plays in it.
fn change(score: &mut Score, staff: StaffId, turn: &Turn, grid: &Grid) -> Result<(), ScoreError> {
    let words = format!("muta in {}", turn.crook);
    let at = moment(grid.bar_from(turn.from).max(turn.rest))?;
    score.change(staff, TimedChange { at, player: None, to: ChangeTo::Label(words.clone()) })?;
    let at = moment(turn.rest)?;
    if let Some(own) = score.staff_mut(staff) {
        own.directions.push(TimedDirection { at, direction: Direction::Words(words.into()) });
    }
    Ok(())
}

/// Below this written note, on the whole, a staff is read in the bass clef.
const BASS_BELOW: i32 = 55;

fn settings(seated: &Seated) -> Settings {
    let mut all: Vec<i32> = seated.players.iter().flatten().map(|note| note.printed.0.midi()).collect();
    put_in_order(&mut all, |midi| *midi);
    let is_low = all.get(all.len() / 2).is_some_and(|middle| *middle < BASS_BELOW);
    if is_low {
        Settings { clef: Some(Clef::BASS), bass: Some(BassNotation::New), ..Settings::default() }
    } else {
        Settings { clef: Some(Clef::TREBLE), ..Settings::default() }
    }
}

fn quarters(time: Ticks) -> Result<Quarters, ScoreError> {
    let (above, below) = time.fraction();
    Quarters::new(above, below).ok_or(ScoreError::TooFine)
}

fn moment(time: Ticks) -> Result<Moment, ScoreError> {
    quarters(time).map(Moment::measured)
}
