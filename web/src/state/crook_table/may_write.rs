//! The notes that the crooks at hand have, by how they are made, engraved as they sound.

use super::{GivenKind, had};
use crate::words::Names;
use crate::words::crook_table as words;
use crookwise_engraving::{
    ColumnSpec, Ink, Metrics, NoteSpec, StaffSpace, StaffSpec, TechniqueSign, lay_out, svg,
};
use crookwise_planner::may_write::{Had, had as had_on};
use crookwise_share::crooks::CrooksLink;
use crookwise_theory::{Clef, Crook, Pitch, Production, Signature, Sounding};

/// Notes that are made in one way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayOfMaking {
    /// How well they are had.
    pub kind: GivenKind,
    /// Its name and the notes, in words.
    pub said: String,
    /// What sounds, from low to high.
    pub heard: Vec<Pitch>,
}

/// What may be written.
#[derive(Clone, Debug, PartialEq)]
pub struct MayWrite {
    /// The staff, line by line, as pictures.
    pub lines: Vec<String>,
    /// The ways, the best first.
    pub ways: Vec<WayOfMaking>,
}

/// Pixels of a staff space, of a column and of the head of a staff.
const SPACE: f64 = 7.5;
const COLUMN: f64 = 36.0;
const HEAD: f64 = 62.0;
/// Below this note the bass clef stands.
const BASS_BELOW: i32 = 60;

impl MayWrite {
    /// For the crooks at hand, on so many pixels.
    #[must_use]
    pub fn of(setting: &CrooksLink, names: Names, width: f64) -> Self {
        let notes = best(&setting.mine, setting);
        let line = fitting(width);
        let notes_of = |way: Production| notes.iter().filter(move |one| one.making.production == way);
        let ways = Production::ALL.into_iter().filter_map(|way| {
            let heard: Vec<Pitch> = notes_of(way).map(|one| one.sounding.0).collect();
            let told: Vec<String> = heard.iter().map(|pitch| names.note(*pitch)).collect();
            let said = words::notes_of_a_way(words::way(way), &told);
            (!heard.is_empty()).then_some(WayOfMaking { kind: had(way), said, heard })
        });
        let columns: Vec<(Pitch, Production)> =
            notes.iter().map(|one| (one.sounding.0, one.making.production)).collect();
        // From the lower clef to the upper a new line begins.
        let upper = columns.partition_point(|(pitch, _)| pitch.midi() < BASS_BELOW);
        let (low, high) = columns.split_at(upper);
        let lines = low.chunks(line).map(|line| engraved(line, Clef::BASS));
        let lines = lines.chain(high.chunks(line).map(|line| engraved(line, Clef::TREBLE)));
        Self { lines: lines.collect(), ways: ways.collect() }
    }
}

/// So many columns fit on a line.
#[must_use]
pub fn fitting(width: f64) -> usize {
    (((width - HEAD) / COLUMN).floor() as usize).max(4)
}

/// Every note that one of the crooks has, as it is had best, from low to high.
fn best(crooks: &[&'static Crook], setting: &CrooksLink) -> Vec<Had> {
    let mut all: Vec<Had> = crooks.iter().flat_map(|crook| had_on(crook, &setting.weights)).collect();
    crookwise_theory::order::put_in_order(&mut all, |one| {
        (one.sounding.0.midi(), core::cmp::Reverse(hundredths(one.making.worth)))
    });
    all.dedup_by_key(|one| one.sounding.0.midi());
    all
}

fn hundredths(worth: f64) -> i64 {
    (worth * 100.0).round() as i64
}

/// The clef in which a line stands with least beyond the staff.
pub(super) fn line_clef(line: &[(Pitch, Production)]) -> Clef {
    let middle = line.get(line.len() / 2).map_or(BASS_BELOW, |(pitch, _)| pitch.midi());
    if middle < BASS_BELOW { Clef::BASS } else { Clef::TREBLE }
}

/// A line as a picture: open notes in the ink of what sounds, corrected ones standing back with their sign, and those that
/// nobody has with a warning.
pub(super) fn engraved(line: &[(Pitch, Production)], clef: Clef) -> String {
    let mut staff = StaffSpec::new(clef, Signature::NONE);
    staff.ink = Ink::Sounding;
    staff.columns = line.iter().map(|(pitch, way)| column(*pitch, *way)).collect();
    let metrics = Metrics::fit(&[&staff], staff.all(), StaffSpace(COLUMN / SPACE));
    let options = svg::SvgOptions { scale: Some(SPACE), ..Default::default() };
    svg::write(&lay_out(&staff, staff.all(), &metrics).drawing, &options)
}

fn column(pitch: Pitch, way: Production) -> ColumnSpec {
    let (ink, sign) = match had(way) {
        GivenKind::Open => (None, None),
        GivenKind::Missing => (Some(Ink::Warning), None),
        GivenKind::Lip => (Some(Ink::Muted), None),
        GivenKind::Hand => (Some(Ink::Muted), Some(technique(way))),
    };
    let above = match had(way) {
        GivenKind::Lip => vec![words::way(way).to_owned()],
        GivenKind::Missing => vec!["✕".to_owned()],
        _ => Vec::new(),
    };
    let note = NoteSpec { ink, sign, ..NoteSpec::new(pitch) };
    ColumnSpec { notes: vec![note], above, ..ColumnSpec::default() }
}

const fn technique(way: Production) -> TechniqueSign {
    match way {
        Production::HandOut => TechniqueSign::Open,
        Production::Full | Production::ThreeQuarter => TechniqueSign::Stopped,
        _ => TechniqueSign::HalfStopped,
    }
}

/// A note beside how the crooks at hand make it; not at all where none has it.
pub(super) fn made(found: Option<Had>, sounding: Sounding) -> (Pitch, Production) {
    (sounding.0, found.map_or(Production::Unavailable, |had| had.making.production))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn horns_and_trumpets_in_d_have_a_staff_of_notes() {
        let setting = CrooksLink::default();
        let all = MayWrite::of(&setting, Names::default(), 900.0);
        assert!(all.lines.len() > 1 && all.lines.iter().all(|line| line.starts_with("<svg")));
        assert!(
            all.ways[0].said.starts_with("open: ") && all.ways[0].said.contains("F♯4"),
            "{}",
            all.ways[0].said
        );
        assert!(all.ways.iter().any(|way| way.kind == GivenKind::Hand));
        // Every note once, however many have it.
        let mut heard: Vec<i32> =
            all.ways.iter().flat_map(|way| &way.heard).map(|pitch| pitch.midi()).collect();
        let many = heard.len();
        heard.sort_unstable();
        heard.dedup();
        assert_eq!(heard.len(), many);
        let nobody = CrooksLink { mine: Vec::new(), ..CrooksLink::default() };
        let none = MayWrite::of(&nobody, Names::default(), 300.0);
        assert!(none.lines.is_empty() && none.ways.is_empty());
    }
}
