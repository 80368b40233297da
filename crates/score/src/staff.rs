//! A staff of a passage: its label, how it is printed and what its players do.

use crate::cell::Cell;
use crate::change::Change;
use crookwise_theory::label::{Decoded, Mechanism, StaffLabel};
use crookwise_theory::{BassNotation, Clef, Instrument, Pitch, Scheme, Signature, Step, Transposition};

/// Players one staff may have.
pub const MOST_PLAYERS: usize = 4;

/// A staff. What its label means is derived from it, never stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Staff {
    /// As the score prints it.
    pub label: String,
    /// A reading of the label chosen against the usual one.
    pub choice: Option<Choice>,
    /// How it is printed, at its beginning.
    pub settings: Settings,
    pub(crate) crooks: Vec<Option<Choice>>,
    pub(crate) changes: Vec<Change>,
    pub(crate) players: usize,
    pub(crate) cells: Vec<Cell>,
}

/// A reading picked among those the trade knows for a label: it stays the same when the decoder learns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Choice {
    /// The instrument.
    pub instrument: &'static Instrument,
    /// Its transposition.
    pub transposition: Transposition,
}

/// Where the key signature of a staff comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SignatureSource {
    /// None is printed.
    None,
    /// The movement's, transposed.
    Movement,
    /// As typed.
    Typed(Signature),
}

/// How a staff is printed. `None` is the habit of the instrument.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Settings {
    /// Natural or valves.
    pub mechanism: Option<Mechanism>,
    /// The clef.
    pub clef: Option<Clef>,
    /// Old or new bass-clef notation.
    pub bass: Option<BassNotation>,
    /// System of notation of bass clarinet or Wagner tuba.
    pub scheme: Option<Scheme>,
    /// The key signature.
    pub signature: Option<SignatureSource>,
    /// The page is printed at sounding pitch.
    pub at_pitch: bool,
}

impl Choice {
    /// The choice a staff stands for.
    #[must_use]
    pub fn of(staff: &StaffLabel) -> Self {
        Self { instrument: staff.instrument, transposition: staff.transposition }
    }

    /// The staff of a decoded label that this choice means: one of its readings, else the first reading with
    /// instrument and transposition replaced.
    #[must_use]
    pub fn among(self, decoded: &Decoded) -> Option<StaffLabel> {
        let first = decoded.staves.first().or_else(|| Some(&decoded.alternatives.first()?.staff))?;
        let readings = decoded.staves.iter().chain(decoded.alternatives.iter().map(|other| &other.staff));
        Some(readings.into_iter().find(|staff| Self::of(staff) == self).cloned().unwrap_or_else(|| {
            StaffLabel {
                instrument: self.instrument,
                transposition: self.transposition,
                octave: None,
                // One that sounds as it does by itself has the key that it has by itself.
                key: if self.instrument.transposition == Some(self.transposition) {
                    self.instrument.key()
                } else {
                    Some((Pitch::natural(Step::C, 4) + self.transposition.0).tonic())
                },
                ..first.clone()
            }
        }))
    }
}

impl Staff {
    /// An empty staff with a label and one player.
    pub(crate) fn new(label: &str, columns: usize) -> Self {
        Self {
            label: label.to_owned(),
            choice: None,
            settings: Settings::default(),
            crooks: Vec::new(),
            changes: Vec::new(),
            players: 1,
            cells: vec![Cell::REST; columns],
        }
    }

    /// How many players it has, 1 to [`MOST_PLAYERS`].
    #[must_use]
    pub const fn players(&self) -> usize {
        self.players
    }

    /// Its cells, one a column.
    #[must_use]
    pub fn cells(&self) -> &[Cell] {
        &self.cells
    }

    /// Crooks of single players that differ from the label's, by player; `None` and those not listed follow the label.
    #[must_use]
    pub fn crooks(&self) -> &[Option<Choice>] {
        &self.crooks
    }

    /// The crook a player has against the label.
    #[must_use]
    pub fn crook(&self, player: usize) -> Option<Choice> {
        self.crooks.get(player).copied().flatten()
    }

    /// Changes in the course of the passage, by rising column; before one column what is for all stands before what is
    /// for one player. Given to [`crate::Passage::set_change`] in this order they make the same staff.
    #[must_use]
    pub fn changes(&self) -> &[Change] {
        &self.changes
    }
}
