//! Measured music: rows of printed bars laid out to systems that reflow to a width. Lengths are in staff spaces.
//!
//! What is printed is said by [`crookwise_score::printed`]; here it gets its places. Bars are measured once ([`MusicSheet::of`]),
//! broken into systems for a width ([`MusicSheet::break_into`]), and a system is drawn when it is wanted ([`MusicSheet::draw`]).

mod above;
mod bar_lines;
mod beams;
mod chord;
mod columns;
mod course;
mod curves;
mod groups;
mod labels;
mod loudness;
mod marks;
mod notes;
mod numbers;
mod ottava;
mod outside;
mod rests;
mod row;
mod skyline;
mod system;
mod tuplets;
mod voices;

pub use groups::SheetGroup;
pub use system::{DrawnSystem, SystemSpan};

use crate::drawing::Ink;
use crate::units::StaffSpace;
use columns::BarColumns;
use crookwise_score::printed::PrintedStaff;
use crookwise_score::score::{BarSigns, Quarters, TimeSignature};
use std::sync::Arc;

/// A row of a sheet: one printed staff.
#[derive(Clone, Debug)]
pub struct SheetRow {
    /// What is printed.
    pub staff: Arc<PrintedStaff>,
    /// In which ink.
    pub ink: Ink,
    /// What stands in front of it: its label, and small beneath how it is to be taken.
    pub label: (String, String),
    /// Whether its notes have their partials and drift beneath them.
    pub made: bool,
    /// Whether its bar lines go on to the next row.
    pub joined: bool,
}

/// What a sheet knows of a bar, whatever stands in it.
#[derive(Clone, Debug)]
pub struct SheetBar {
    /// As it is numbered in print.
    pub number: Arc<str>,
    /// How long it is.
    pub length: Quarters,
    /// The time signature that begins with it.
    pub time: Option<TimeSignature>,
    /// Repeats, endings and the line at its end.
    pub signs: BarSigns,
    /// A rehearsal letter or a tempo over it, in order.
    pub above: Vec<(Quarters, AboveAll)>,
}

/// What stands over the uppermost row only.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AboveAll {
    /// A rehearsal letter, in a frame.
    Letter(Arc<str>),
    /// Words of tempo.
    Tempo(Arc<str>),
}

/// Where the labels of rows stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LabelsStand {
    /// At every system: beside the staves where there is room, else over them.
    #[default]
    AtEverySystem,
    /// Over the staves of the first system alone: of a part, whose name stands at the head of its page.
    OverTheFirst,
}

/// Bars that have been measured.
#[derive(Debug)]
pub struct MusicSheet {
    rows: Vec<SheetRow>,
    /// Rows that are not drawn, and have their room all the same.
    unseen: Vec<SheetRow>,
    /// So many of the last rows keep their place beneath the others, and are not drawn.
    hidden: usize,
    bars: Vec<SheetBar>,
    groups: Vec<SheetGroup>,
    /// How many bars of rest print as one from each bar on; 0 for those within.
    together: Vec<usize>,
    columns: Vec<BarColumns>,
    /// The least size of letters.
    letters: f64,
    labels: LabelsStand,
}

impl MusicSheet {
    /// Measures rows of as many bars; `together` is what [`crookwise_score::printed::rests_together`] gives. No letters are
    /// smaller than `letters` staff spaces: what can still be read depends on how large the page is seen.
    #[must_use]
    pub fn of(rows: Vec<SheetRow>, bars: Vec<SheetBar>, together: Vec<usize>, letters: StaffSpace) -> Self {
        let letters = letters.0.clamp(0.0, 4.0);
        let columns =
            (0..bars.len()).map(|bar| BarColumns::of(&rows, &bars, &together, bar, letters)).collect();
        let (unseen, groups, labels) = (Vec::new(), Vec::new(), LabelsStand::default());
        Self { rows, unseen, hidden: 0, bars, groups, together, columns, letters, labels }
    }

    /// The same with room along its bars for rows that are not drawn: where they take the place of its own, every bar and every
    /// onset stays where it stood.
    #[must_use]
    pub fn with_room_for(mut self, unseen: Vec<SheetRow>) -> Self {
        let drawn = self.rows.len();
        self.rows.extend(unseen);
        let column = |bar| BarColumns::of(&self.rows, &self.bars, &self.together, bar, self.letters);
        self.columns = (0..self.bars.len()).map(column).collect();
        self.unseen = self.rows.split_off(drawn);
        self
    }

    /// The same with so many of its last rows hidden: their place beneath the others stays free, and when they are seen nothing
    /// has moved.
    #[must_use]
    pub fn hiding(self, hidden: usize) -> Self {
        Self { hidden, ..self }
    }

    /// The same with some of its rows joined at the left.
    #[must_use]
    pub fn joined(self, groups: Vec<SheetGroup>) -> Self {
        Self { groups, ..self }
    }

    /// The same with its labels elsewhere.
    #[must_use]
    pub fn labelled(self, labels: LabelsStand) -> Self {
        Self { labels, ..self }
    }

    /// Its rows.
    #[must_use]
    pub fn rows(&self) -> &[SheetRow] {
        &self.rows
    }
}
