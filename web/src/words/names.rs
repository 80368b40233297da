//! Names of notes, keys, signatures and numbers.

use crookwise_theory::{Key, Mode, Pitch, Signature, Tonic};

/// Flats or sharps as signs: ♭, ♯, 𝄪 is not in every font and is written ♯♯.
#[must_use]
pub fn alteration_sign(alter: i32) -> String {
    let sign = if alter < 0 { "♭" } else { "♯" };
    sign.repeat(alter.unsigned_abs().min(9) as usize)
}

/// A letter with its alteration: E♭.
#[must_use]
pub fn tonic(tonic: Tonic) -> String {
    format!("{}{}", tonic.step.letter(), alteration_sign(tonic.alter))
}

/// A note with its octave: E♭4.
#[must_use]
pub fn note(pitch: Pitch) -> String {
    format!("{}{}", tonic(pitch.tonic()), pitch.octave)
}

/// A note as it is read aloud: "E5", "E-flat 4", "F-double-sharp 5".
#[must_use]
pub fn note_spoken(pitch: Pitch) -> String {
    let letter = pitch.step.letter();
    let times = match pitch.alter.unsigned_abs() {
        0 => return format!("{letter}{}", pitch.octave),
        1 => "",
        2 => "double-",
        3 => "triple-",
        _ => "many-times-",
    };
    let sign = if pitch.alter < 0 { "flat" } else { "sharp" };
    format!("{letter}-{times}{sign} {}", pitch.octave)
}

/// A key: "E♭ major".
#[must_use]
pub fn key(key: Key) -> String {
    let mode = match key.mode {
        Mode::Major => "major",
        Mode::Minor => "minor",
    };
    format!("{} {mode}", tonic(key.tonic))
}

/// A signature: "3♭", "1♯", "none".
#[must_use]
pub fn signature(signature: Signature) -> String {
    match signature.0 {
        0 => "none".into(),
        sharps @ 1.. => format!("{sharps}♯"),
        flats => format!("{}♭", flats.unsigned_abs()),
    }
}

/// Cents in whole numbers with a sign: "−14", "+2", "0".
#[must_use]
pub fn signed_cents(cents: f64) -> String {
    let whole = cents.round();
    if whole < 0.0 {
        format!("−{}", whole.abs())
    } else if whole > 0.0 {
        format!("+{whole}")
    } else {
        "0".into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names() {
        let pitch = |name: &str| name.parse::<Pitch>().unwrap();
        assert_eq!(note(pitch("Eb4")), "E♭4");
        assert_eq!(note_spoken(pitch("E5")), "E5");
        assert_eq!(note_spoken(pitch("Eb4")), "E-flat 4");
        assert_eq!(note_spoken(pitch("F##5")), "F-double-sharp 5");
        assert_eq!(signed_cents(-13.7), "−14");
        assert_eq!(signed_cents(-0.2), "0");
        assert_eq!(signed_cents(1.955), "+2");
        assert_eq!(signature(Signature(-3)), "3♭");
    }
}
