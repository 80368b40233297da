//! What the remarks of the table of instruments say of other keys and other habits of writing, as data.

use crate::instrument::Instrument;
use crate::interval::Interval;
use crate::pitch::{Pitch, Step, Tonic};
use crate::transposition::Transposition;

/// A form of an instrument in another key than its row's own.
struct Form {
    id: &'static str,
    key: Tonic,
    transposition: Transposition,
}

const fn form(id: &'static str, step: Step, alter: i32, steps: i32, semitones: i32) -> Form {
    Form { id, key: Tonic::new(step, alter), transposition: Transposition::new(steps, semitones) }
}

/// From the remarks of the rows; those of the tenoroon, of the cornet in D and of the contralto trumpet in G are
/// common practice.
const FORMS: &[Form] = &[
    form("piccolo", Step::D, -1, 8, 13),
    form("fl_terz", Step::F, 0, 3, 5),
    form("alto_cl", Step::F, 0, -4, -7),
    form("basset_hn", Step::G, 0, -3, -5),
    form("sax_sopranino", Step::F, 0, 3, 5),
    form("sax_s", Step::C, 0, 0, 0),
    form("sax_b", Step::F, 0, -11, -19),
    form("tenoroon", Step::B, -1, 6, 10),
    form("tenoroon", Step::E, -1, 2, 3),
    form("tenoroon", Step::C, 0, 7, 12),
    form("cornet_bb", Step::A, 0, -2, -3),
    form("cornet_bb", Step::A, -1, -2, -4),
    form("cornet_bb", Step::G, 0, -3, -5),
    form("cornet_bb", Step::F, 0, -4, -7),
    form("cornet_bb", Step::E, 0, -5, -8),
    form("cornet_bb", Step::E, -1, -5, -9),
    form("cornet_bb", Step::D, 0, -6, -10),
    form("cornet_bb", Step::C, 0, 0, 0),
    form("bass_tpt_c", Step::B, -1, -8, -14),
    form("bass_tpt_c", Step::D, 0, -6, -10),
    form("bass_tpt_c", Step::E, -1, -5, -9),
    form("tpt_f_contralto", Step::G, 0, -3, -5),
];

/// Another habit of writing for the same instrument.
pub(super) struct Habit {
    pub id: &'static str,
    pub transposition: Transposition,
    pub reason: &'static str,
}

const fn habit(id: &'static str, steps: i32, semitones: i32, reason: &'static str) -> Habit {
    Habit { id, transposition: Transposition::new(steps, semitones), reason }
}

/// From the remarks of the rows.
pub(super) const HABITS: &[Habit] = &[
    habit("bcl_a", -2, -3, "German notation, in the bass clef"),
    habit("contrabass_cl", -8, -14, "in the bass clef"),
    habit("ob_caccia", 0, 0, "in the alto clef at sounding pitch, as Bach mostly has it"),
    habit("cfg", 0, 0, "some scores write it at sounding pitch"),
    habit("xyl", 0, 0, "some composers write it at pitch"),
    habit("glock", 7, 12, "the older keyed glockenspiel often sounds only one octave higher"),
    habit("cb", -6, -10, "in solo tuning, a whole tone high"),
    habit("baritone", 0, 0, "in the bass clef it is written at concert pitch"),
    habit("euph_t", 0, 0, "in the bass clef it is written at concert pitch"),
];

/// The key a row stands in by itself; `None` for what stands in no key.
pub(super) fn own_key(row: &Instrument) -> Option<Tonic> {
    let transposition = row.transposition?;
    let tonic = (Pitch::natural(Step::C, 4) + transposition.0).tonic();
    let c = Tonic::new(Step::C, 0);
    let says_c = row.english.contains("in C") || row.id == "sax_cmel";
    match tonic {
        // Retuned strings are no key of the instrument.
        _ if row.id == "va_k364" => None,
        _ if tonic != c || says_c => Some(tonic),
        _ => None,
    }
}

/// How a row transposes in a key, where it is built or written so.
pub(super) fn in_key(row: &Instrument, key: Tonic) -> Option<Transposition> {
    if own_key(row) == Some(key) {
        return row.transposition;
    }
    if let Some(form) = FORMS.iter().find(|form| form.id == row.id && form.key == key) {
        return Some(form.transposition);
    }
    match row.id {
        // The key of a trombone or tuba tells how it is built; its notes are written as they sound.
        "tromb_a" | "tromb_t" | "tromb_b" | "tuba" => row.transposition,
        // Its key varies by work; taken as the trumpet of that key has it.
        "posthorn" => crate::crook::CrookFamily::Trumpet
            .in_key(key)
            .into_iter()
            .map(|crook| crook.transposition)
            .min_by_key(|transposition| transposition.0.semitones.abs()),
        _ if own_key(row).is_none() && key == Tonic::new(Step::C, 0) => row.transposition,
        _ => None,
    }
}

/// The low form of the clarinet in G, and the F basso of the Wagner tuba: the same key an octave lower.
pub(super) fn octave_lower(row: &Instrument) -> Option<Transposition> {
    match row.id {
        "cl_g" | "wt_b_f" => Some(Transposition(row.transposition?.0 - Interval::OCTAVE)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The three numbers as the remarks print them.
    fn printed(transposition: Transposition) -> String {
        let numbers = transposition.to_musicxml();
        match numbers.octave_change {
            0 => format!("{},{}", numbers.diatonic, numbers.chromatic),
            octave => format!("{},{},{octave}", numbers.diatonic, numbers.chromatic),
        }
    }

    #[test]
    fn forms_stand_in_the_remarks() {
        let unwritten = [("cornet_bb", "D"), ("cornet_bb", "C"), ("tpt_f_contralto", "G")];
        for form in FORMS.iter().filter(|form| form.id != "tenoroon") {
            if unwritten.contains(&(form.id, &*form.key.to_string())) {
                continue;
            }
            let row = Instrument::by_id(form.id).unwrap();
            assert!(
                row.notes().unwrap().remark.contains(&printed(form.transposition)),
                "{}: {}",
                form.id,
                form.key
            );
        }
        for form in FORMS {
            let sounding = Pitch::natural(Step::C, 4) + form.transposition.0;
            assert_eq!(sounding.tonic(), form.key, "{}", form.id);
        }
        for habit in HABITS {
            assert!(Instrument::by_id(habit.id).is_some(), "{}", habit.id);
        }
    }

    #[test]
    fn lower_forms_stand_in_the_remarks() {
        for (id, numbers) in [("cl_g", "-3,-5,0"), ("wt_b_f", "-4,-7,-1")] {
            let row = Instrument::by_id(id).unwrap();
            assert!(row.notes().unwrap().remark.contains(numbers));
            let lower = octave_lower(row).unwrap().to_musicxml();
            assert_eq!(format!("{},{},{}", lower.diatonic, lower.chromatic, lower.octave_change), numbers);
        }
    }
}
