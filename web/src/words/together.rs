//! Sentences about what a column makes together, and who holds what of it.

use super::names::{Names, tenths};
use super::reading::{capital, degree_ordinal, drift};
use crookwise_score::Harmony;
use crookwise_score::chord::Member;
use crookwise_sound::Beats;
use crookwise_theory::{Key, Pitch, Reading};

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

/// How often a member is there: "3 times, once in unison, in 2 octaves"; nothing for a single voice.
#[must_use]
pub fn how_many(member: &Member) -> String {
    let mut parts = Vec::new();
    if member.count() > 1 {
        parts.push(format!("{} voices", member.count()));
    }
    match member.unisons() {
        0 => {}
        1 => parts.push("one a unison".to_owned()),
        more => parts.push(format!("{more} of them unisons")),
    }
    if member.octave_doublings() > 0 {
        parts.push(format!("in {} octaves", member.octave_doublings() + 1));
    }
    parts.join(", ")
}

/// Who holds a note, and on natural brass which partial it is: "Corni in Es 1 (partial 10, 14 cents flat)".
#[must_use]
pub fn holder(name: &str, reading: &Reading, octave_below: bool) -> String {
    let made = reading.making.as_ref();
    let partial = made.and_then(|made| made.partial).map(|partial| format!("partial {}", partial.number()));
    let drift = made.and_then(|made| made.drift).filter(|cents| cents.abs() >= 0.5).map(drift);
    let below = octave_below.then(|| "an octave below".to_owned());
    let remarks: Vec<String> = [partial, drift, below].into_iter().flatten().collect();
    if remarks.is_empty() { name.to_owned() } else { format!("{name} ({})", remarks.join(", ")) }
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
