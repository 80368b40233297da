//! Which notes real parts use, and how often.

use crate::edition::Edition;
use crookwise_theory::label::StaffLabel;
use crookwise_theory::spelling::as_brass_prints;
use crookwise_theory::{
    CrookFamily, Interval, Key, Mode, Pitch, Production, Reach, Signature, Step, Tonic, Written,
};

/// How often a degree of the scale is met, from the first to the seventh. A musician's estimate: common practice.
const SCALE: [u32; 7] = [9, 6, 8, 5, 9, 5, 5];

/// A written note of natural brass as the trade prints it.
pub(crate) fn brass_note(midi: i32) -> Pitch {
    let above = midi.saturating_sub(12);
    let from_c = Pitch::natural(Step::C, above.div_euclid(12)) + Interval::usual(above.rem_euclid(12));
    as_brass_prints(Written(from_c)).0
}

/// Written notes that natural brass can play, with how often parts use them (0 for never).
pub(crate) fn brass_notes(family: CrookFamily) -> Vec<(Pitch, u32)> {
    let count =
        |midi: i32| family.attacks().iter().find(|(known, _)| *known == midi).map_or(0, |(_, count)| *count);
    Reach::all(family)
        .iter()
        .filter(|row| row.production != Production::Unavailable)
        .map(|row| (brass_note(row.written_midi), count(row.written_midi)))
        .collect()
}

/// Written notes of a part with all semitones, under a signature and in the mode of the movement: its scale, the
/// raised fourth, in minor the raised sixth and seventh, each with how often it is met.
pub(crate) fn scale_notes(
    staff: &StaffLabel,
    signature: Signature,
    mode: Mode,
    reach: (Pitch, Pitch),
) -> Vec<(Pitch, u32)> {
    let tonic = written_tonic(signature, mode);
    let (low, high) = written_range(staff).unwrap_or(reach);
    let mut notes = Vec::new();
    for diatonic in low.diatonic()..=high.diatonic().min(low.diatonic().saturating_add(60)) {
        let natural = Pitch::from_diatonic(diatonic, 0);
        let own = Pitch { alter: signature.alteration(natural.step), ..natural };
        let degree = (natural.step.index() - tonic.step.index()).rem_euclid(7);
        let weight = SCALE.get(degree as usize).copied().unwrap_or(0);
        let raised = match (degree, mode) {
            (3, _) | (5, Mode::Minor) => 2,
            (6, Mode::Minor) => weight,
            _ => 0,
        };
        notes.push((own, weight));
        if raised > 0 && own.alter < 1 {
            notes.push((Pitch { alter: own.alter + 1, ..own }, raised));
        }
    }
    notes.retain(|(note, _)| (low.midi()..=high.midi()).contains(&note.midi()));
    notes
}

/// The tonic of the part under its signature.
pub(crate) fn written_tonic(signature: Signature, mode: Mode) -> Tonic {
    Tonic::from_fifths(signature.0.saturating_add(if mode == Mode::Minor { 3 } else { 0 }))
}

/// The usual written range of an instrument, as the table has it: "E3–C7", "C3/E♭3–G6".
pub(crate) fn written_range(staff: &StaffLabel) -> Option<(Pitch, Pitch)> {
    let (low, high) = staff.instrument.range.split_once('–')?;
    let pitch = |text: &str| text.split(['/', ' ', ',']).next().and_then(|name| name.parse::<Pitch>().ok());
    let (low, high) = (pitch(low)?, pitch(high)?);
    (low.midi() < high.midi()).then_some((low, high))
}

/// Whether an instrument has a written note: horns from C3 and trumpets from G3 up to G5 with or without valves, others
/// by their usual range; where none is known, any.
pub(crate) fn is_in_range(staff: &StaffLabel, note: Pitch) -> bool {
    let range = written_range(staff).map(|(low, high)| (low.midi(), high.midi()));
    let brass = staff.crook_family().map(|family| match family {
        CrookFamily::Horn => (48, 79),
        CrookFamily::Trumpet => (55, 79),
    });
    brass.or(range).is_none_or(|(low, high)| (low..=high).contains(&note.midi()))
}

/// The keys in which a staff is usually met: that of the crook for natural brass, else those in which its part has
/// up to two signs; drums that are named are tuned for their own, which was not thought of at first. Common practice.
pub(crate) fn usual_keys(staff: &StaffLabel, edition: Edition) -> Vec<Key> {
    let home = staff.transposition.0.fifths();
    let tuned = !staff.drums.is_empty() && !edition.is_first();
    let signs: &[i32] = if staff.natural_family().is_some() || tuned { &[0] } else { &[0, -1, 1, -2, 2] };
    let keys = signs.iter().map(|sign| Signature(home.saturating_add(*sign)).practical());
    keys.map(|signature| Key::new(Tonic::from_fifths(signature.0), Mode::Major)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_theory::label::{DecodeOptions, decode};

    #[test]
    fn ranges_are_read_from_the_table() {
        let range = |label: &str| {
            let decoded = decode(label, DecodeOptions::default());
            written_range(&decoded.staves[0]).map(|(low, high)| format!("{low} {high}"))
        };
        assert_eq!(range("Clarinetti in A").as_deref(), Some("E3 C7"));
        assert_eq!(range("Fagotti").as_deref(), Some("Bb1 E5"));
        assert_eq!(range("Viole").as_deref(), Some("C3 E6"));
    }

    #[test]
    fn brass_prints_flats_and_sharps_as_the_trade_does() {
        let names: Vec<String> = [63, 66, 70, 73, 77, 78].map(|midi| brass_note(midi).to_string()).into();
        assert_eq!(names, ["Eb4", "F#4", "Bb4", "C#5", "F5", "F#5"]);
    }
}
