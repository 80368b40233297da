//! Labels to decode: the same staff as scores print it in five languages.

use crate::answer::Answer;
use crate::ask::resolved;
use crate::kind::Kind;
use crate::question::{Question, Spot};
use crookwise_score::{Choice, Passage};
use crookwise_theory::label::{DecodeOptions, Decoded, StaffLabel, decode};
use crookwise_theory::tables::KEY_NAMES;
use crookwise_theory::{CrookFamily, InstrumentKind, Interval, OctaveWord, Step, Tonic, Transposition};

/// Languages of labels.
pub(crate) const LANGUAGES: usize = 5;

/// One language: how a noun and a key are joined, and the words for the high and the low octave.
struct Language {
    join: &'static str,
    alto: &'static str,
    basso: &'static str,
}

/// Italian, German, French, Spanish, English. Common practice.
const WORDS: [Language; LANGUAGES] = [
    Language { join: " in ", alto: " alto", basso: " basso" },
    Language { join: " in ", alto: " hoch", basso: " tief" },
    Language { join: " en ", alto: " aigu", basso: " grave" },
    Language { join: " en ", alto: " agudo", basso: " grave" },
    Language { join: " in ", alto: " alto", basso: " basso" },
];

/// Plural nouns of the crooked instruments and the clarinet in those languages. Common practice.
const NOUNS: [(InstrumentKind, [&str; LANGUAGES]); 3] = [
    (InstrumentKind::Horn, ["Corni", "Hörner", "Cors", "Trompas", "Horns"]),
    (InstrumentKind::Trumpet, ["Trombe", "Trompeten", "Trompettes", "Trompetas", "Trumpets"]),
    (InstrumentKind::Clarinet, ["Clarinetti", "Klarinetten", "Clarinettes", "Clarinetes", "Clarinets"]),
];

/// A label for a staff in one of the languages, where it has one reading only and that is this staff.
pub(crate) fn form(staff: &StaffLabel, language: usize) -> Option<String> {
    let label = if staff.drums.is_empty() {
        keyed(staff, language).or_else(|| plain(staff, language))?
    } else {
        return None;
    };
    let decoded = decode(&label, DecodeOptions::default());
    let read = only(&decoded, &label)?;
    (Choice::of(read) == Choice::of(staff)).then_some(label)
}

/// The staff of a label that names one staff and leaves nothing open. That English print would mean B natural by B is
/// no question where the label is not English.
pub(crate) fn only<'a>(decoded: &'a Decoded, label: &str) -> Option<&'a StaffLabel> {
    let first = decoded.staves.first()?;
    let open =
        decoded.alternatives.iter().any(|other| is_english(label) || !is_b_natural(first, &other.staff));
    (!open && decoded.problem.is_none() && decoded.staves.len() == 1).then_some(first)
}

/// Nouns that are English, or may be.
const ENGLISH: [&str; 6] = ["Horn", "Horns", "Trumpet", "Trumpets", "Clarinet", "Clarinets"];

/// Whether a label says high or low, in any of the languages.
pub(crate) fn says_octave(label: &str) -> bool {
    label
        .split(' ')
        .any(|word| WORDS.iter().any(|own| [own.alto, own.basso].iter().any(|known| known.trim() == word)))
}

/// Whether a label is English.
pub(crate) fn is_english(label: &str) -> bool {
    label.split(' ').any(|word| ENGLISH.contains(&word))
}

/// Whether a staff is another read with B natural for its B.
pub(crate) fn is_b_natural(staff: &StaffLabel, other: &StaffLabel) -> bool {
    let sharper = Transposition(staff.transposition.0 + Interval::new(0, 1));
    staff.key == Some(Tonic::new(Step::B, -1))
        && Choice::of(other) == Choice { transposition: sharper, ..Choice::of(staff) }
}

/// Another staff as the hand that wrote a label would have labelled it: beside "2 Corni in Es" the horns in E are "2 Corni in
/// E". By its own name where that cannot be told.
pub(crate) fn like(label: &str, staff: &StaffLabel, other: &StaffLabel) -> String {
    // Labels often go without the word for the octave.
    let bare = StaffLabel { octave: None, ..staff.clone() };
    // Nouns stand in the plural, and in labels of two crooks in the singular.
    let own_noun = |of: usize| {
        let noun = noun(staff, of).unwrap_or_default();
        let stem = noun.get(..4).unwrap_or(noun);
        label.split(' ').any(|word| word == noun || (word.len() > stem.len() && word.starts_with(stem)))
    };
    let one_crook = !label.contains([',', '/', '\n']);
    let (own, others): (Vec<usize>, Vec<usize>) = (0..LANGUAGES).partition(|of| own_noun(*of));
    let same = staff.instrument.kind == other.instrument.kind;
    let written = |language: usize, of_key: usize| {
        let tails = [staff, &bare].map(|staff| tail(staff, language, of_key));
        let mut tails = tails.iter().flatten();
        let noun = if same && one_crook {
            tails.find_map(|tail| label.strip_suffix(tail.as_str()))?
        } else {
            tails.find(|tail| label.contains(tail.as_str()))?;
            noun(other, language)?
        };
        Some(format!("{noun}{}", tail(other, language, of_key)?))
    };
    let languages = || own.iter().chain(&others).copied();
    let found = languages().find_map(|language| (0..LANGUAGES).find_map(|key| written(language, key)));
    let plain = || own.first().and_then(|language| keyed(other, *language));
    found.or_else(plain).unwrap_or_else(|| other.name())
}

fn keyed(staff: &StaffLabel, language: usize) -> Option<String> {
    Some(format!("{}{}", noun(staff, language)?, tail(staff, language, language)?))
}

fn noun(staff: &StaffLabel, language: usize) -> Option<&'static str> {
    let kind = staff.instrument.kind?;
    NOUNS.iter().find(|(known, _)| *known == kind)?.1.get(language).copied()
}

/// What follows the noun: " in Es basso". Italian scores print German keys, so the key may be of another language.
fn tail(staff: &StaffLabel, language: usize, of_key: usize) -> Option<String> {
    let names = KEY_NAMES.iter().find(|names| Some(names.tonic) == staff.key)?;
    let key =
        [names.italian, names.german, names.french, names.spanish, names.english].get(of_key).copied()?;
    // A cell holds several forms: the last of those parted by semicolons, without what stands in brackets.
    let key = key.split('(').next()?.rsplit(';').next()?.trim();
    let words = WORDS.get(language)?;
    let mut capital = key.chars();
    let key: String =
        capital.next().map(|first| first.to_ascii_uppercase()).into_iter().chain(capital).collect();
    let octave = match staff.octave {
        Some(OctaveWord::Alto) if staff.crook_family().is_some() => words.alto,
        Some(OctaveWord::Basso) if staff.crook_family() == Some(CrookFamily::Horn) => words.basso,
        _ => "",
    };
    Some(format!("{}{key}{octave}", words.join))
}

/// The name of an instrument that stands in no crook: the first form of its cell.
fn plain(staff: &StaffLabel, language: usize) -> Option<String> {
    let row = staff.instrument;
    let names = [row.italian, row.german, row.french, row.spanish, row.english];
    let name = names.get(language)?.split([';', ',', '(']).next()?.trim();
    (name.chars().count() > 2).then(|| name.to_owned())
}

/// A question about a label; `None` where it can be read in several ways.
pub(crate) fn question(page: Passage) -> Option<Question> {
    let staff = resolved(&page, 0)?;
    let read = only(&staff.decoded, &page.staves().first()?.label)?;
    let right = Answer::Label(Choice::of(read));
    Some(Question::plain(Kind::Label, page, Spot::default(), right))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_staff_is_labelled_as_the_same_hand_would() {
        let staff = |label: &str| decode(label, DecodeOptions::default()).staves.remove(0);
        for (label, other, expected) in [
            ("Corni in Es", "Horns in E", "Corni in E"),
            ("Corni in Mi bemolle", "Horns in E", "Corni in Mi"),
            ("2 Corni in Es", "Horns in E", "2 Corni in E"),
            ("Corno I in Es", "Horns in E", "Corno I in E"),
            ("Hörner in B", "Horn in B-flat alto", "Hörner in B hoch"),
            ("Hörner in Es", "Horns in E", "Hörner in E"),
            ("Cors en Mi bémol", "Horns in D", "Cors en Ré"),
            ("Corni in B", "Horn in B-flat alto", "Corni in B alto"),
            ("Corni in B basso", "Horn in B-flat alto", "Corni in B alto"),
            ("Clarinetti in A", "Clarinet in B-flat", "Clarinetti in B"),
            ("Trombe in D", "Horn in D", "Corni in D"),
            ("Corno inglese", "Horn in F", "Corni in Fa"),
        ] {
            assert_eq!(like(label, &staff(label), &staff(other)), expected, "{label}");
        }
    }
}
