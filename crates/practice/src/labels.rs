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

fn keyed(staff: &StaffLabel, language: usize) -> Option<String> {
    let kind = staff.instrument.kind?;
    let noun = NOUNS.iter().find(|(known, _)| *known == kind)?.1.get(language)?;
    let names = KEY_NAMES.iter().find(|names| Some(names.tonic) == staff.key)?;
    let key =
        [names.italian, names.german, names.french, names.spanish, names.english].get(language).copied()?;
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
    Some(format!("{noun}{}{key}{octave}", words.join))
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
