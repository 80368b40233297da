//! Choosing among spellings of one sound: as the trade prints it, and near a key.

use crate::key::{Key, Mode, Signature};
use crate::pitch::Pitch;
use crate::transposition::Written;

/// The spelling among neighbours whose place on the line of fifths lies nearest to `centre`.
fn nearest(pitch: Pitch, centre: f64) -> Pitch {
    let distance = |candidate: &Pitch| (f64::from(candidate.tonic().fifths()) - centre).abs();
    let mut best = pitch;
    for letters in -3..=3 {
        let candidate = pitch.respelled(letters);
        if distance(&candidate) < distance(&best) {
            best = candidate;
        }
    }
    best
}

/// The spelling nearest to a key: from its lowered second to its raised fourth.
#[must_use]
pub fn in_key(pitch: Pitch, key: Key) -> Pitch {
    let home = f64::from(key.tonic.fifths());
    // The twelve keys used in a key lie from -5 to +6 fifths around a major tonic, -5 to +6 around a minor one.
    let centre = home + if key.mode == Mode::Minor { 0.4 } else { 0.6 };
    nearest(pitch, centre)
}

/// As the trade prints a written note on natural brass, whose part is "in C": C♯, E♭, F♯, A♭ and B♭.
/// Counted in nine symphonies of Beethoven, whose horns have E♭, F♯, C♯, A♭ and B♭.
#[must_use]
pub fn as_brass_prints(strict: Written) -> Written {
    Written(nearest(strict.0, 1.1))
}

/// As a part with a signature prints a written note: strict, unless that needs a double sign or lies far from the keys of
/// the signature: below the lowered second of the major one, above the raised fourth of the minor one.
#[must_use]
pub fn as_part_prints(strict: Written, signature: Signature) -> Written {
    let far = strict.0.alter.saturating_sub(signature.alteration(strict.0.step));
    let plain = (-1..=1).contains(&strict.0.alter) && (-1..=1).contains(&far);
    let home = signature.0;
    let near = home.saturating_sub(5)..=home.saturating_add(9);
    let odd = far != 0 && !near.contains(&strict.0.tonic().fifths());
    if plain && !odd { strict } else { Written(nearest(strict.0, f64::from(signature.0) + 1.6)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn natural_brass_prints_five_chromatic_notes_one_way() {
        let cases = [
            ("D#5", "Eb5"),
            ("Gb4", "F#4"),
            ("Db5", "C#5"),
            ("G#4", "Ab4"),
            ("A#4", "Bb4"),
            ("E#5", "F5"),
            ("C##4", "D4"),
        ];
        for (strict, printed) in cases {
            assert_eq!(as_brass_prints(Written(strict.parse().unwrap())).to_string(), printed);
        }
        for plain in ["C4", "D4", "E4", "F4", "G4", "A4", "B4", "Eb5", "F#5", "Bb4", "C#5", "Ab5"] {
            assert_eq!(as_brass_prints(Written(plain.parse().unwrap())).to_string(), plain);
        }
    }

    #[test]
    fn parts_with_a_signature_keep_the_strict_spelling_where_it_is_plain() {
        let cases = [
            ("G##4", 2, "A4"),
            ("E#4", 6, "E#4"),
            ("E#4", 0, "F4"),
            ("D#5", 4, "D#5"),
            ("Ab4", -3, "Ab4"),
            ("Fbb4", -3, "Eb4"),
            // The leading notes of A minor, G minor and C minor, the raised fourth of C minor.
            ("G#4", 0, "G#4"),
            ("F#4", -2, "F#4"),
            ("B4", -3, "B4"),
            ("F#4", -3, "F#4"),
            ("C#4", -3, "Db4"),
            ("Gb4", 0, "F#4"),
        ];
        for (strict, signature, printed) in cases {
            let written = as_part_prints(Written(strict.parse().unwrap()), Signature(signature));
            assert_eq!(written.to_string(), printed, "{strict} under {signature}");
        }
    }

    #[test]
    fn near_a_key() {
        let cases = [
            ("D#4", "Eb major", "Eb4"),
            ("Ab4", "E major", "G#4"),
            ("F#4", "C minor", "F#4"),
            ("Db4", "C minor", "Db4"),
            ("F#4", "Gb major", "Gb4"),
        ];
        for (pitch, key, expected) in cases {
            assert_eq!(in_key(pitch.parse().unwrap(), key.parse().unwrap()).to_string(), expected);
        }
    }
}
