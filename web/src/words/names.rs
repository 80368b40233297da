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
    match cents.round() as i64 {
        0 => "0".into(),
        sharp @ 1.. => format!("+{sharp}"),
        flat => format!("−{}", flat.unsigned_abs()),
    }
}

/// A positive number with one decimal: 380.1.
#[must_use]
pub fn tenths(number: f64) -> String {
    let tenths = (number * 10.0).round() as u64;
    format!("{}.{}", tenths / 10, tenths % 10)
}

/// A positive number with at most two decimals: 430, 421.6.
#[must_use]
pub fn decimal(number: f64) -> String {
    let hundredths = (number * 100.0).round() as u64;
    let (whole, rest) = (hundredths / 100, hundredths % 100);
    match (rest, rest % 10) {
        (0, _) => whole.to_string(),
        (_, 0) => format!("{whole}.{}", rest / 10),
        _ => format!("{whole}.{rest:02}"),
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
        assert_eq!((tenths(380.06), tenths(99.96)), ("380.1".into(), "100.0".into()));
        assert_eq!(
            (decimal(430.0), decimal(421.6), decimal(422.05)),
            ("430".into(), "421.6".into(), "422.05".into())
        );
    }
}
