//! Notes as systems of staves: what sounds, and under it what stands in the part of each crook at hand.

use super::{GivenKind, had};
use crate::words::Names;
use crate::words::crook_table as words;
use crookwise_engraving::{
    ColumnSpec, Ink, Metrics, NoteSpec, StaffSpace, StaffSpec, TechniqueSign, lay_out, svg,
};
use crookwise_planner::may_write::{Had, best_of, on};
use crookwise_share::crooks::CrooksLink;
use crookwise_theory::{Clef, Pitch, Production, Signature, Sounding};

/// Pixels of a staff space, of a column and of the head of a staff.
const SPACE: f64 = 7.5;
const COLUMN: f64 = 36.0;
const HEAD: f64 = 62.0;
/// Below this note the bass clef stands.
pub(super) const BASS_BELOW: i32 = 60;

/// A staff of a system.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoteRow {
    /// What stands on it.
    pub label: String,
    /// The staff, as a picture.
    pub picture: String,
}

/// A note, and how each crook at hand has it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct NoteColumn {
    /// What sounds.
    pub sounding: Sounding,
    /// For each crook how it has the note; `None` where it has it not.
    pub on: Vec<Option<Had>>,
}

impl NoteColumn {
    /// A note on the crooks at hand.
    pub(super) fn of(setting: &CrooksLink, sounding: Sounding) -> Self {
        Self {
            sounding,
            on: setting.mine.iter().map(|crook| on(crook, sounding, &setting.weights)).collect(),
        }
    }

    /// How it is had best; of equals by the first.
    pub(super) fn best(&self) -> Option<Had> {
        best_of(self.on.iter().flatten().copied())
    }

    /// Whether it sounds below the treble clef.
    pub(super) fn is_low(&self) -> bool {
        self.sounding.0.midi() < BASS_BELOW
    }
}

/// So many columns fit on a line.
#[must_use]
pub fn fitting(width: f64) -> usize {
    (((width - HEAD) / COLUMN).floor() as usize).max(4)
}

/// A system: what sounds in this clef, and under it in the treble clef the parts that have something of it. What stands under
/// each other belongs together.
pub(super) fn system(setting: &CrooksLink, names: Names, line: &[NoteColumn], clef: Clef) -> Vec<NoteRow> {
    let mut labels = vec![words::WHAT_SOUNDS.to_owned()];
    let mut staves = vec![staff(clef, Ink::Sounding, line.iter().map(sounding))];
    for (at, crook) in setting.mine.iter().enumerate() {
        let had: Vec<Option<Had>> = line.iter().map(|column| column.on.get(at).copied().flatten()).collect();
        if had.iter().any(Option::is_some) {
            labels.push(words::written_part(&words::players(crook, names)));
            let written = |one: Option<Had>| one.map(written).unwrap_or_default();
            staves.push(staff(Clef::TREBLE, Ink::Written, had.into_iter().map(written)));
        }
    }
    let all: Vec<&StaffSpec> = staves.iter().collect();
    let metrics = Metrics::fit(&all, 0..line.len(), StaffSpace(COLUMN / SPACE));
    let options = svg::SvgOptions { scale: Some(SPACE), ..Default::default() };
    let picture = |staff: &StaffSpec| svg::write(&lay_out(staff, 0..line.len(), &metrics).drawing, &options);
    labels.into_iter().zip(&staves).map(|(label, staff)| NoteRow { label, picture: picture(staff) }).collect()
}

fn staff(clef: Clef, ink: Ink, columns: impl Iterator<Item = ColumnSpec>) -> StaffSpec {
    let mut staff = StaffSpec::new(clef, Signature::NONE);
    staff.ink = ink;
    staff.columns = columns.collect();
    staff
}

/// What sounds: standing back where nobody has it open, with a warning where nobody has it at all.
fn sounding(column: &NoteColumn) -> ColumnSpec {
    let way = column.best().map_or(Production::Unavailable, |had| had.making.production);
    let (ink, above) = match had(way) {
        GivenKind::Open => (None, Vec::new()),
        GivenKind::Missing => (Some(Ink::Warning), vec!["✕".to_owned()]),
        GivenKind::Hand | GivenKind::Lip => (Some(Ink::Muted), Vec::new()),
    };
    note(column.sounding.0, ink, None, above)
}

/// What stands in a part, with the sign of how it is made.
fn written(note_had: Had) -> ColumnSpec {
    let way = note_had.making.production;
    let (ink, sign, above) = match had(way) {
        GivenKind::Lip => (Some(Ink::Muted), None, vec![words::way(way).to_owned()]),
        GivenKind::Hand => (Some(Ink::Muted), Some(technique(way)), Vec::new()),
        GivenKind::Open | GivenKind::Missing => (None, None, Vec::new()),
    };
    note(note_had.printed().0, ink, sign, above)
}

fn note(pitch: Pitch, ink: Option<Ink>, sign: Option<TechniqueSign>, above: Vec<String>) -> ColumnSpec {
    ColumnSpec { notes: vec![NoteSpec { ink, sign, ..NoteSpec::new(pitch) }], above, ..ColumnSpec::default() }
}

const fn technique(way: Production) -> TechniqueSign {
    match way {
        Production::HandOut => TechniqueSign::Open,
        Production::Full | Production::ThreeQuarter => TechniqueSign::Stopped,
        _ => TechniqueSign::HalfStopped,
    }
}
