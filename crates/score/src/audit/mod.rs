//! The audit: every note of the brass held against the crook it is written for.
//!
//! An attack is a note that is struck: grace notes and notes tied to one before are none. A note with a partial is on the
//! series, and apart from it is told what of it is corrected by hand or lip. How a note is made is a guide: players,
//! instruments and sources differ.

mod line;

pub use line::{AuditLine, CrookChange, Stretch};

use crate::place::Place;
use crate::resolve::Decoder;
use crate::score::{PartId, Score, ScoreNote, StaffCourse, StaffId};
use crookwise_theory::label::Mechanism;
use crookwise_theory::{CrookFamily, Intonation, Reading};
use line::Gathering;

/// The partial above which a stretch is counted as high: the twelfth, written G5 on the horn. Most scores of the classical
/// period keep below it (trade's reach tables, a guide).
pub const HIGH: u8 = 12;

/// What the audit takes for granted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct AuditOptions {
    /// Brass that is taken to have valves is held against the series as well.
    pub valves_too: bool,
}

/// A staff of brass, crook by crook.
#[derive(Clone, Debug, PartialEq)]
pub struct StaffAudit {
    /// Its part.
    pub part: PartId,
    /// Itself.
    pub staff: StaffId,
    /// Horn or trumpet.
    pub family: CrookFamily,
    /// Each crook in its course, in the order in which they come.
    pub lines: Vec<AuditLine>,
    /// Each change of crook, with the time it has.
    pub changes: Vec<CrookChange>,
}

/// Holds the brass of a score against its crooks. Staves whose brass has valves are left out, unless they are asked for.
pub fn audit(score: &Score, options: AuditOptions, decoder: &mut Decoder<'_>) -> Vec<StaffAudit> {
    let mut audits = Vec::new();
    for part in score.parts() {
        for staff in &part.staves {
            let course = StaffCourse::of(score, staff, decoder);
            let mut gathering = Gathering::new(score);
            let mut family = None;
            for (id, note) in staff.notes() {
                let Some((place, reading)) = read(&course, note, options) else { continue };
                let Some(making) = reading.making else { continue };
                family = Some(making.family);
                gathering.note((*id, note), &place, &reading, &making);
            }
            let Some(family) = family else { continue };
            let (lines, changes) = gathering.done();
            audits.push(StaffAudit { part: part.id, staff: staff.id, family, lines, changes });
        }
    }
    audits
}

/// A note read where it stands.
fn read(course: &StaffCourse, note: &ScoreNote, options: AuditOptions) -> Option<(Place, Reading)> {
    let printed = note.printed.filter(|_| note.is_played())?;
    let place = course.place_of(note)?;
    place.staff.crook_family()?;
    let mut place = place.clone();
    if options.valves_too {
        place.staff.mechanism = Some(Mechanism::Natural);
    }
    let reading = place.read(printed, Intonation::default(), None);
    Some((place, reading))
}

impl StaffAudit {
    /// Notes that are struck.
    #[must_use]
    pub fn attacks(&self) -> usize {
        self.lines.iter().map(AuditLine::attacks).sum()
    }

    /// Of these, those on the series.
    #[must_use]
    pub fn on_series(&self) -> usize {
        self.lines.iter().map(AuditLine::on_series).sum()
    }
}
