//! The label of a part beside the transposition of its file.

use crate::remark::{LabelAgainstFile, Oddity, Remarks};
use crookwise_score::Choice;
use crookwise_score::score::{Moment, PartStaff};
use crookwise_theory::label::{DecodeOptions, Decoded, StaffLabel, decode, sounds};
use crookwise_theory::{Clef, Habits, Notation, Scheme, Transposition};
use std::sync::Arc;

/// A part's name, decoded.
#[derive(Debug)]
pub(crate) struct Named {
    decoded: Decoded,
}

impl Named {
    /// Decodes a name.
    pub fn of(name: &str) -> Self {
        Self { decoded: decode(name, DecodeOptions::default()) }
    }

    /// The first staff it names, or where it leaves that open the first that it may mean.
    pub fn staff(&self) -> Option<&StaffLabel> {
        let open = || self.decoded.alternatives.first().map(|other| &other.staff);
        self.decoded.staves.first().or_else(open)
    }

    /// All that it says.
    pub fn decoded(&self) -> &Decoded {
        &self.decoded
    }

    /// Its transposition, where it names a staff.
    pub fn transposition(&self) -> Option<Transposition> {
        self.staff().map(|staff| staff.transposition)
    }

    /// How many players its staff has, where they read one staff each: those it counts or numbers. Of strings and whatever
    /// counts none it is one.
    pub fn players(&self) -> usize {
        let Some(staff) = self.staff() else { return 1 };
        let numbered: usize = self.decoded.staves.iter().map(|staff| staff.players.len()).sum();
        let counted = staff.count.and_then(|count| usize::try_from(count).ok()).unwrap_or(1);
        if staff.instrument.is_pitched() && staff.drums.is_empty() { counted.max(numbered) } else { 1 }
    }
}

/// Lets a staff mean what its file makes sound: where label and file agree nothing needs to be said; where they do not, the
/// file holds, and a remark has both.
pub(crate) fn settle(
    staff: &mut PartStaff,
    named: &Named,
    at_pitch: bool,
    part: usize,
    remarks: &mut Remarks,
) {
    let told = staff.told_at(Moment::measured(crookwise_score::score::Quarters::ZERO)).copied();
    let file = told.map_or(Transposition::NONE, |told| told.transposition);
    staff.settings.at_pitch = at_pitch;
    let Some(label) = named.staff() else {
        remarks.add(Oddity::UnknownLabel, Some(part), &Arc::default());
        return;
    };
    if !label.is_pitched() || at_pitch {
        return;
    }
    let letters = staff.letters();
    let clef = staff.settings.clef.unwrap_or(Clef::TREBLE);
    let moves = |label: &StaffLabel, scheme: Option<Scheme>| {
        let habits = Habits { clef, bass: staff.settings.bass, scheme, at_pitch: false };
        let notation = Notation::of(label, habits).for_letters(label, letters.iter().copied());
        Transposition(notation.printed_to_sounding())
    };
    let usual = moves(label, None);
    if usual == file && !named.decoded.staves.is_empty() {
        return;
    }
    // Another system of notation, or another reading that the trade knows for this label.
    let scheme = Scheme::of(label.instrument).iter().find(|scheme| moves(label, Some(**scheme)) == file);
    if let Some(scheme) = scheme {
        staff.settings.scheme = Some(*scheme);
        return;
    }
    let other = named.decoded.alternatives.iter().find(|other| moves(&other.staff, None) == file);
    let chosen = other.map_or(Choice { instrument: label.instrument, transposition: file }, |other| {
        Choice::of(&other.staff)
    });
    // Natural or valves hangs on the key, which only the file says.
    let mechanism = chosen.among(&named.decoded).and_then(|staff| {
        let read = decode(&staff.name(), DecodeOptions::default());
        read.staves.first().and_then(|staff| staff.mechanism)
    });
    if mechanism != label.mechanism {
        staff.settings.mechanism = mechanism;
    }
    if let Some(other) = other {
        staff.choice = Some(Choice::of(&other.staff));
        // Another key is one that the label leaves out, and the file says it.
        let told = against(label, usual, file);
        if told.octaves_only {
            remarks.add(Oddity::UnusualReading(told), Some(part), &Arc::default());
        }
        return;
    }
    staff.choice = Some(Choice { instrument: label.instrument, transposition: file });
    // Horns and trumpets whose key the label leaves out: the file says it.
    if label.key.is_none() || named.decoded.staves.is_empty() {
        return;
    }
    let told = against(label, usual, file);
    let what = if looks_at_pitch(staff, label, file) {
        Oddity::PerhapsAtSoundingPitch(told)
    } else {
        Oddity::LabelDisagrees(told)
    };
    remarks.add(what, Some(part), &Arc::default());
}

/// Whether a staff may be printed as it sounds: its label transposes and its file does not. Octaves alone are another matter:
/// a bass of any kind is often noted at pitch by mistake.
fn looks_at_pitch(staff: &PartStaff, label: &StaffLabel, file: Transposition) -> bool {
    staff.told.is_empty() && file == Transposition::NONE && label.transposition.0.semitones % 12 != 0
}

fn against(label: &StaffLabel, usual: Transposition, file: Transposition) -> LabelAgainstFile {
    let apart = file.0 + -usual.0;
    LabelAgainstFile {
        label: label.name(),
        sounds: sounds(usual.0),
        file: sounds(file.0),
        apart: sounds(apart),
        octaves_only: apart.steps % 7 == 0 && apart.semitones % 12 == 0,
    }
}
