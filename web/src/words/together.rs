//! Sentences about what a column makes together, and who holds what of it.

use super::names::{Names, signed_cents, tenths};
use super::reading::{capital, degree_ordinal};
use crookwise_score::Harmony;
use crookwise_score::chord::Member;
use crookwise_sound::Beats;
use crookwise_theory::{Key, Pitch, Reading};

texts! {
    PARTIAL = " partial";
}

/// "Column 3 of 4, in E♭ major".
#[must_use]
pub fn column_place(column: usize, columns: usize, key: Option<Key>, names: Names) -> String {
    let key = key.map(|key| format!(", in {}", names.key(key))).unwrap_or_default();
    format!("Column {} of {columns}{key}", column + 1)
}

/// The name of what sounds and what is added to it: "E♭ major", "third in the bass".
#[must_use]
pub fn harmony(harmony: &Harmony, names: Names) -> (String, String) {
    let whole = harmony.name_by(&|note| names.tonic(note));
    let (name, rest) = whole.split_once(", ").unwrap_or((&whole, ""));
    (capital(name), rest.to_owned())
}

/// "on the third degree of the key".
#[must_use]
pub fn harmony_degree(harmony: &Harmony) -> Option<String> {
    harmony.degree.map(|degree| format!("on the {} degree of the key", degree_ordinal(degree)))
}

/// The other ways to hear the same keys of the keyboard.
#[must_use]
pub fn also(harmony: &Harmony, names: Names) -> Option<String> {
    let others: Vec<String> =
        harmony.also.iter().map(|chord| chord.name_by(&|note| names.tonic(note))).collect();
    (!others.is_empty()).then(|| format!("The same keys could be heard as {}.", others.join(" or ")))
}

/// In how many octaves a member sounds: "in three octaves"; nothing for one.
#[must_use]
pub fn in_octaves(member: &Member) -> String {
    const NUMBERS: [&str; 7] = ["two", "three", "four", "five", "six", "seven", "eight"];
    let further = member.octave_doublings();
    let number = further.checked_sub(1).and_then(|at| NUMBERS.get(at));
    number.map(|number| format!("in {number} octaves")).unwrap_or_default()
}

/// On natural brass which partial a note is and how far it drifts: "10, −14"; nothing for other instruments.
#[must_use]
pub fn made(reading: &Reading) -> String {
    let Some(made) = reading.making.as_ref() else { return String::new() };
    let partial = made.partial.map(|partial| partial.number().to_string());
    let drift = made.drift.filter(|cents| cents.abs() >= 0.5).map(signed_cents);
    [partial, drift].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// A note that is spelled otherwise in the chord than its staff has it.
#[must_use]
pub fn respelled(name: &str, strict: Pitch, here: Pitch, names: Names) -> String {
    format!("{name}: {} by its own staff, {} in the chord.", names.note(strict), names.note(here))
}

/// Two players against the pure interval between them.
#[must_use]
pub fn beating(one: &str, other: &str, beats: &Beats) -> String {
    let octaves = match beats.interval.octaves {
        0 => String::new(),
        1 if beats.interval.name == "unison" => "octave".to_owned(),
        more if beats.interval.name == "unison" => format!("{more} octaves"),
        1 => format!("{} and an octave", beats.interval.name),
        more => format!("{} and {more} octaves", beats.interval.name),
    };
    let interval = if octaves.is_empty() { beats.interval.name.to_owned() } else { octaves };
    let rate = if beats.hz < 0.05 { "no beats".to_owned() } else { format!("{} Hz", tenths(beats.hz)) };
    let off = if beats.cents.abs() < 0.5 {
        "pure".to_owned()
    } else {
        let side = if beats.cents < 0.0 { "narrow" } else { "wide" };
        format!("{} cents {side}", beats.cents.abs().round() as u64)
    };
    format!("{one} with {other}: {interval}, {off}, {rate}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn beats_in_words() {
        let say = |one: f64, other: f64| {
            beating("Corno 1", "Corno 2", &crookwise_sound::beats(one, other).unwrap())
        };
        assert_eq!(say(200.0, 300.0), "Corno 1 with Corno 2: fifth, pure, no beats");
        assert_eq!(say(261.626, 391.995), "Corno 1 with Corno 2: fifth, 2 cents narrow, 0.9 Hz");
        assert_eq!(say(200.0, 400.5), "Corno 1 with Corno 2: octave, 2 cents wide, 0.5 Hz");
        assert_eq!(say(200.0, 1000.0), "Corno 1 with Corno 2: major third and 2 octaves, pure, no beats");
    }
}
