//! From what a label says to the staff it means: tables, habits, what is assumed, and the other readings.

use super::choose::{Rows, rows};
use super::crooked::{self, Choice};
use super::drafts::Draft;
use super::habits::{HABITS, in_key, octave_lower, own_key};
use super::keys::{KeyName, Wording};
use super::lexicon::lang;
use super::naming::key_words;
use super::special;
use super::staff::{LabelProblem, Mechanism, StaffLabel};
use super::words::lemma;
use super::{Alternative, DecodeOptions};
use crate::crook::{Crook, CrookFamily, OctaveWord};
use crate::instrument::{Family, Instrument};
use crate::pitch::{Step, Tonic};
use crate::transposition::Transposition;

/// A staff with what was taken for granted.
#[derive(Debug, Default)]
pub(super) struct Resolved {
    /// The staff, unless there is none.
    pub staff: Option<StaffLabel>,
    /// Sentences on what was assumed.
    pub assumed: Vec<String>,
    /// Other readings.
    pub alternatives: Vec<Alternative>,
    /// Why there is no staff, or not the whole.
    pub problem: Option<LabelProblem>,
    /// A kind of instrument that does not fit.
    pub unused: bool,
}

const B_NATURAL: Tonic = Tonic::new(Step::B, 0);
const B_FLAT: Tonic = Tonic::new(Step::B, -1);

/// Finds the staff that a draft means.
pub(super) fn resolve(draft: &Draft, options: DecodeOptions, before: Option<Family>) -> Resolved {
    if draft.nouns.contains(&lemma::TIMPANI) {
        return special::timpani(draft);
    }
    let Some(key) = draft.key.filter(|key| key.bare_b) else {
        return with_key(draft, draft.key.map(|key| key.tonic), options, before);
    };
    let crooked = draft.nouns.contains(&lemma::HORN) || draft.nouns.contains(&lemma::TRUMPET);
    let english = is_english(draft);
    let (first, second) = if english && crooked { (B_NATURAL, B_FLAT) } else { (B_FLAT, B_NATURAL) };
    let mut taken = with_key(draft, Some(first), options, before);
    let other = with_key(draft, Some(second), options, before);
    if taken.staff.is_none() {
        return if other.staff.is_some() { other } else { taken };
    }
    let about = key_sentence(first, english);
    if crooked || english {
        taken.assumed.insert(0, about);
        if let Some(staff) = other.staff.filter(|_| !other.unused) {
            let reason = match second {
                B_NATURAL => "B is B natural in English print",
                _ => "B is B-flat in German and Italian print",
            };
            taken.alternatives.push(Alternative { staff, reason: reason.to_owned() });
            taken.alternatives.extend(
                other.alternatives.into_iter().filter(|other| other.staff.key == Some(second)).take(1),
            );
        }
    }
    debug_assert!(key.bare_b);
    taken
}

/// Whether a bare B is worded in the English way: the key first ("B Horn"), or a word that only English has.
pub(super) fn is_english(draft: &Draft) -> bool {
    draft.langs & lang::ENGLISH != 0 && (draft.key_first || draft.langs == lang::ENGLISH)
}

fn key_sentence(taken: Tonic, english: bool) -> String {
    match (taken, english) {
        (B_NATURAL, _) => {
            "B is taken as B natural, as English wording has it; German and Italian print would mean B-flat."
        }
        (_, true) => "B is taken as B-flat, the usual one; in English wording it may be B natural.",
        _ => "B is taken as B-flat, as in German and Italian print; English print would mean B natural.",
    }
    .to_owned()
}

fn with_key(draft: &Draft, key: Option<Tonic>, options: DecodeOptions, before: Option<Family>) -> Resolved {
    let found = rows(draft, key, before);
    let mut out = Resolved { unused: !found.unused.is_empty(), ..Resolved::default() };
    let Some(first) = found.fitting.first() else {
        if let (Some(row), Some(key)) = (found.other_keys.first(), key) {
            out.problem = Some(no_such(row, key));
        }
        return out;
    };
    if draft.key.is_some_and(|key| key.dis) {
        out.assumed.push("Dis is taken as E-flat, as in German wording of the 18th century.".to_owned());
    }
    match first.row.id {
        "horn" => crook_staff(draft, CrookFamily::Horn, first.row, key, &found, options, &mut out),
        "trumpet" => crook_staff(draft, CrookFamily::Trumpet, first.row, key, &found, options, &mut out),
        id if id.starts_with("wt_") || (id == "tuba" && draft.nouns.contains(&lemma::TUBA)) => {
            special::tuba(draft, first.row, key, found.octave, &mut out);
        }
        _ => plain_staff(draft, key, &found, options, &mut out),
    }
    out
}

pub(super) fn no_such(row: &'static Instrument, key: Tonic) -> LabelProblem {
    LabelProblem::NoSuchCrook { instrument: row.english, key: key_words(key) }
}

/// A staff of a row, with what the draft says of the players.
pub(super) fn staff(
    draft: &Draft,
    row: &'static Instrument,
    transposition: Transposition,
    key: Option<Tonic>,
) -> StaffLabel {
    StaffLabel {
        instrument: row,
        key,
        octave: matches!(row.id, "wt_t_bbb" | "wt_b_bb").then_some(OctaveWord::Basso),
        count: draft.count,
        players: draft.players.clone(),
        mechanism: mechanism_of(row),
        doubled_below: row.id == "bassi",
        drums: Vec::new(),
        transposition,
    }
}

/// Natural or valves of brass other than horn and trumpet: posthorns are natural, trombones neither, all others have
/// valves. Common practice.
fn mechanism_of(row: &Instrument) -> Option<Mechanism> {
    match row.id {
        "posthorn" => Some(Mechanism::Natural),
        id if id.starts_with("tromb_") => None,
        _ if row.family == Family::Brass => Some(Mechanism::Valves),
        _ => None,
    }
}

#[allow(clippy::too_many_arguments, reason = "all of it belongs to one staff")]
fn crook_staff(
    draft: &Draft,
    family: CrookFamily,
    row: &'static Instrument,
    key: Option<Tonic>,
    found: &Rows,
    options: DecodeOptions,
    out: &mut Resolved,
) {
    let old = draft.key.is_some_and(|key| key.wording == Wording::Old);
    let choice = match key {
        Some(key) => crooked::in_key(family, key, found.octave, options.year, old),
        None => crooked::without_key(family),
    };
    let word = draft.mechanism.or_else(|| natural_by_name(draft));
    let (mechanism, about) = crooked::mechanism(word, options.year, key.is_some(), family);
    let make = |crook: &'static Crook| StaffLabel {
        octave: crook.octave,
        mechanism: Some(mechanism),
        ..staff(draft, row, crook.transposition, Some(crook.tonic))
    };
    let Some(Choice { crook, reason, others }) = choice else {
        let Some(key) = key else { return };
        out.problem = Some(no_such(row, key));
        out.alternatives = crooked::same_sound(family, key)
            .into_iter()
            .map(|crook| Alternative {
                staff: make(crook),
                reason: "the crook that sounds the same".to_owned(),
            })
            .collect();
        return;
    };
    out.assumed.extend(reason);
    out.assumed.extend(about);
    out.staff = Some(make(crook));
    out.alternatives
        .extend(others.into_iter().map(|(crook, reason)| Alternative { staff: make(crook), reason }));
    shared_words(draft, key, found, out);
}

/// Hunting horns, Waldhörner and clarini are natural by name.
fn natural_by_name(draft: &Draft) -> Option<Mechanism> {
    let named = draft.nouns.contains(&lemma::HUNT) || draft.surface.starts_with("clarin");
    named.then_some(Mechanism::Natural)
}

/// Any instrument but horn, trumpet, tuba and timpani.
fn plain_staff(draft: &Draft, key: Option<Tonic>, found: &Rows, options: DecodeOptions, out: &mut Resolved) {
    let Some(first) = found.fitting.first() else { return };
    let mut row = first.row;
    // The cello's clef and the solo viola's tuning are habits, not what the word says by itself.
    if row.id == "vc_treble_old" && !draft.nouns.contains(&lemma::OLD_TREBLE) {
        row = Instrument::by_id("cello").unwrap_or(row);
    }
    if row.id == "va_k364" && !draft.nouns.contains(&lemma::RETUNED) {
        row = Instrument::by_id("viola").unwrap_or(row);
    }
    let german_bass = matches!(row.id, "bcl_de" | "bcl_fr") && !draft.nouns.contains(&lemma::FRENCH);
    if german_bass {
        let german =
            draft.langs == lang::GERMAN || draft.surface == "bkl" || draft.nouns.contains(&lemma::GERMAN);
        row = Instrument::by_id(if german { "bcl_de" } else { "bcl_fr" }).unwrap_or(row);
    }
    let named = key.or(own_key(row));
    let low = found.octave == Some(OctaveWord::Basso);
    let transposition = match named {
        Some(_) if low && octave_lower(row).is_some() => octave_lower(row),
        Some(key) => in_key(row, key),
        None => row.transposition,
    };
    let transposition = transposition.or(row.transposition).unwrap_or_default();
    out.staff = Some(staff(draft, row, transposition, named));
    let several = found.fitting.iter().any(|other| other.row != row && own_key(other.row) != own_key(row));
    let by_key = first.required.is_some() || draft.nouns.contains(&lemma::CLARINET);
    if key.is_none() && by_key && several && out.assumed.is_empty() {
        out.assumed.push(format!("No key is printed: taken as {}, the usual one.", key_words_of(row)));
    }
    if matches!(row.id, "bcl_de" | "bcl_fr") {
        bass_clarinet(draft, row, out);
    }
    other_readings(draft, row, key, options, out);
    shared_words(draft, key, found, out);
    if row.id == "posthorn" && key.is_none() {
        out.assumed.push("No key is printed: taken as B-flat; the posthorn's key varies by work.".to_owned());
    }
}

fn key_words_of(row: &Instrument) -> String {
    own_key(row).map_or_else(|| "sounding as written".to_owned(), |key| format!("in {}", key_words(key)))
}

fn bass_clarinet(draft: &Draft, row: &'static Instrument, out: &mut Resolved) {
    let (other, why, reason) = match row.id {
        "bcl_de" => (
            "bcl_fr",
            "German wording: taken in German notation, a major second higher than it sounds. It is mostly in the bass clef.",
            "French notation, in the treble clef: sounds a major ninth lower",
        ),
        _ => (
            "bcl_de",
            "Taken in French notation, in the treble clef, a major ninth higher than it sounds.",
            "German notation, mostly in the bass clef: sounds a major second lower",
        ),
    };
    if draft.nouns.iter().any(|noun| matches!(*noun, lemma::GERMAN | lemma::FRENCH)) {
        return;
    }
    out.assumed.push(why.to_owned());
    push_row(draft, other, reason, out);
}

/// Adds the reading as another row, in that row's own key.
pub(super) fn push_row(draft: &Draft, id: &str, reason: &str, out: &mut Resolved) {
    if let Some(row) = Instrument::by_id(id) {
        let transposition = row.transposition.unwrap_or_default();
        push_alternative(staff(draft, row, transposition, own_key(row)), reason, out);
    }
}

fn push_alternative(staff: StaffLabel, reason: &str, out: &mut Resolved) {
    let known = out.staff.iter().chain(out.alternatives.iter().map(|other| &other.staff)).any(|known| {
        known.instrument == staff.instrument
            && known.transposition == staff.transposition
            && known.key == staff.key
    });
    if !known {
        out.alternatives.push(Alternative { staff, reason: reason.to_owned() });
    }
}

/// What the remarks of the table leave open.
fn other_readings(
    draft: &Draft,
    row: &'static Instrument,
    key: Option<Tonic>,
    options: DecodeOptions,
    out: &mut Resolved,
) {
    let flauto = draft.surface.contains("flaut");
    match row.id {
        "piccolo" if flauto && draft.nouns.contains(&lemma::FLUTE) => {
            push_row(draft, "rec_sopranino", "in Bach and Handel it may be a small recorder", out);
        }
        "flute" if flauto && options.year.is_some_and(|year| year < 1760) => {
            push_row(draft, "rec_a", "“Flauto” is the recorder in Bach", out);
        }
        "cornet_bb" if key == Some(Tonic::new(Step::E, -1)) => {
            out.assumed.push(
                "Taken as the low cornet in E-flat; the soprano cornet of the brass band sounds higher."
                    .into(),
            );
            push_row(draft, "cornet_eb", "the soprano cornet of the brass band", out);
        }
        "tromb_t" if key == Some(B_FLAT) => {
            out.assumed.push(
                "The key of a trombone tells how it is built: its notes are taken as they sound.".into(),
            );
            let transposed = staff(draft, row, Transposition::new(-8, -14), Some(B_FLAT));
            push_alternative(transposed, "in the treble clef of the brass band", out);
        }
        "posthorn" if key.is_some() => {
            out.assumed
                .push("A posthorn's key varies by work: taken as a trumpet of that key transposes.".into());
        }
        "sax_a" if key.is_none() && draft.nouns == [lemma::SAX] => {
            out.assumed.push("Which saxophone is not printed: taken as the alto.".into());
            push_row(draft, "sax_t", "the tenor saxophone", out);
            push_row(draft, "sax_s", "the soprano saxophone", out);
        }
        "sax_t" if draft.nouns == [lemma::SAX] => {
            out.assumed.push("Which saxophone is not printed: taken as the tenor, by its key.".into());
            push_row(draft, "sax_s", "the soprano saxophone", out);
        }
        "rec_a" if draft.nouns.len() < 3 && !draft.duals.iter().any(|dual| dual.lemma == lemma::ALTO) => {
            push_row(draft, "rec_s", "the soprano recorder", out);
            push_row(draft, "rec_t", "the tenor recorder", out);
        }
        _ => {}
    }
    for habit in HABITS.iter().filter(|habit| habit.id == row.id) {
        push_alternative(staff(draft, row, habit.transposition, key.or(own_key(row))), habit.reason, out);
    }
}

/// Other rows that the same words name.
fn shared_words(draft: &Draft, key: Option<Tonic>, found: &Rows, out: &mut Resolved) {
    let Some(taken) = out.staff.as_ref().map(|staff| staff.instrument) else { return };
    let mut shared = false;
    let first_score = found.fitting.first().map(|first| first.required);
    for other in found.fitting.iter().filter(|other| other.row != taken) {
        let same_word = other.surface == draft.surface || other.langs != 0;
        let usable = match (other.required, key) {
            (Some(required), Some(key)) => required == key,
            (Some(_), None) => first_score.is_some_and(|first| first.is_some()),
            _ => true,
        };
        if !same_word || !usable || other.row.is_crooked() {
            continue;
        }
        let reason = match other.row.id {
            "vc_treble_old" => "older scores write the cello's treble clef an octave higher than it sounds",
            "va_k364" => "with strings tuned a semitone up, as in Mozart's K. 364",
            _ if other.required.is_some() => "another key of the same instrument",
            _ => {
                shared = true;
                "the same word names this too"
            }
        };
        let named = key.or(own_key(other.row));
        let transposition =
            named.and_then(|key| in_key(other.row, key)).or(other.row.transposition).unwrap_or_default();
        push_alternative(staff(draft, other.row, transposition, named), reason, out);
    }
    if let Some(staff) = out.staff.as_ref().filter(|_| shared) {
        out.assumed
            .push(format!("The word names more than one staff: taken as {}.", lower_first(&staff.name())));
    }
}

/// A name within a sentence.
fn lower_first(name: &str) -> String {
    let mut chars = name.chars();
    match chars.next() {
        // "E-flat bass" keeps its letter.
        Some(first) if !name.contains("-flat bass") => {
            core::iter::once(first.to_ascii_lowercase()).chain(chars).collect()
        }
        _ => name.to_owned(),
    }
}

/// What one key name means beside others that tell its style.
pub(super) fn drum_key(key: KeyName, all: &[KeyName], english: bool) -> Tonic {
    if !key.bare_b {
        return key.tonic;
    }
    let has = |step, alter| all.iter().any(|other| !other.bare_b && other.tonic == Tonic::new(step, alter));
    // The other drum is a fourth or fifth away: F goes with B-flat, F-sharp and E with B.
    match (has(Step::F, 0) || has(Step::E, -1), has(Step::F, 1)) {
        (true, false) => B_FLAT,
        (false, true) => B_NATURAL,
        _ if english => B_NATURAL,
        _ => B_FLAT,
    }
}
