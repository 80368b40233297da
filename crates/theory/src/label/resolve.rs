//! From what a label says to the staff it means: tables, habits, what is assumed, and the other readings.

use super::choose::{Rows, rows};
use super::crooked::{self, Choice};
use super::drafts::Draft;
use super::habits::{in_key, octave_lower};
use super::keys::{KeyName, Wording};
use super::lexicon::lang;
use super::naming::key_words;
use super::readings::{lower_first, other_readings, push_alternative, push_row, shared_words};
use super::special;
use super::staff::{LabelProblem, Mechanism, StaffLabel};
use super::words::lemma;
use super::{Alternative, DecodeOptions};
use crate::crook::{Crook, CrookFamily, OctaveWord};
use crate::instrument::{Build, Family, Instrument, KeyMeans};
use crate::notation::Scheme;
use crate::pitch::{Step, Tonic};
use crate::tables::INSTRUMENTS;
use crate::transposition::Transposition;

/// A staff with what was taken for granted.
#[derive(Debug, Default)]
pub(super) struct Resolved {
    /// The staff, unless there is none.
    pub staff: Option<StaffLabel>,
    /// Sentences on what was assumed.
    pub assumed: Vec<String>,
    /// Why it is natural or has valves, where that was assumed.
    pub about_valves: Option<String>,
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
            taken.alternatives.push(Alternative { staff, of: 0, reason: reason.to_owned() });
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
    let plain_tuba = special::is_plain_tuba(first.row) && draft.nouns.contains(&lemma::TUBA);
    match first.row.crooks {
        Some(family) => crook_staff(draft, family, first.row, key, &found, options, &mut out),
        None if plain_tuba || special::is_wagner_tuba(first.row) => {
            special::tuba(draft, first.row, key, found.octave, &mut out);
        }
        None => plain_staff(draft, key, &found, options, &mut out),
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
        octave: row.octave,
        count: draft.count,
        players: draft.players.clone(),
        mechanism: match row.build {
            Build::Natural => Some(Mechanism::Natural),
            Build::Valves => Some(Mechanism::Valves),
            Build::NotBrass | Build::Slide | Build::ByLabel => None,
        },
        doubled_below: row.doubled_below,
        drums: Vec::new(),
        transposition,
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
    let (mechanism, about) =
        crooked::mechanism(word, options.year, key.is_some() || draft.key_unread, family);
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
                of: 0,
                reason: "the crook that sounds the same".to_owned(),
            })
            .collect();
        return;
    };
    out.assumed.extend(reason);
    out.assumed.extend(about.clone());
    out.about_valves = about;
    out.staff = Some(make(crook));
    out.alternatives.extend(others.into_iter().map(|(crook, reason)| Alternative {
        staff: make(crook),
        of: 0,
        reason,
    }));
    shared_words(draft, key, found, out);
}

/// Hunting horns, Waldhörner and clarini are natural by name.
fn natural_by_name(draft: &Draft) -> Option<Mechanism> {
    let principal = draft.nouns == [lemma::PRINCIPAL];
    let named = principal || draft.nouns.contains(&lemma::HUNT) || draft.surface.starts_with("clarin");
    named.then_some(Mechanism::Natural)
}

/// Any instrument but horn, trumpet, tuba and timpani.
fn plain_staff(draft: &Draft, key: Option<Tonic>, found: &Rows, options: DecodeOptions, out: &mut Resolved) {
    let Some(first) = found.fitting.first() else { return };
    let mut row = first.row;
    // The cello's clef and the solo viola's tuning are habits, not what the word says by itself.
    if !draft.nouns.iter().any(|noun| matches!(*noun, lemma::OLD_TREBLE | lemma::RETUNED)) {
        row = row.plain();
    }
    let system = row.systems.filter(|_| !draft.nouns.contains(&lemma::FRENCH));
    let twin = |scheme| {
        let same = |other: &&Instrument| other.systems == system && other.key() == row.key();
        INSTRUMENTS.iter().filter(same).find(|other| other.scheme == Some(scheme))
    };
    if system.is_some() {
        let german =
            draft.langs == lang::GERMAN || draft.surface == "bkl" || draft.nouns.contains(&lemma::GERMAN);
        row = twin(if german { Scheme::German } else { Scheme::French }).unwrap_or(row);
    }
    let named = key.or(row.key());
    let low = found.octave == Some(OctaveWord::Basso);
    let transposition = match named {
        Some(_) if low && octave_lower(row).is_some() => octave_lower(row),
        Some(key) => in_key(row, key),
        None => row.transposition,
    };
    let transposition = transposition.or(row.transposition).unwrap_or_default();
    out.staff = Some(staff(draft, row, transposition, named));
    if found.octave.is_none()
        && let Some(lower) = octave_lower(row)
    {
        out.assumed.push("No octave word is printed: taken as the higher form in this key.".to_owned());
        let lower = StaffLabel { octave: Some(OctaveWord::Basso), ..staff(draft, row, lower, named) };
        push_alternative(lower, "the lower form in this key, rare", out);
    }
    let several = found.fitting.iter().any(|other| other.row != row && other.row.key() != row.key());
    let by_key = first.required.is_some() || draft.nouns.contains(&lemma::CLARINET);
    if key.is_none() && by_key && several && out.assumed.is_empty() {
        out.assumed.push(format!("No key is printed: taken as {}, the usual one.", key_words_of(row)));
    }
    let other = match row.scheme {
        Some(Scheme::German) => twin(Scheme::French),
        Some(Scheme::French) => twin(Scheme::German),
        _ => None,
    };
    if other.is_some() {
        bass_clarinet(draft, row, other, out);
    }
    other_readings(draft, row, key, options, out);
    shared_words(draft, key, found, out);
    if row.key_means == KeyMeans::AsTrumpet && key.is_none() {
        let name = lower_first(row.english);
        let taken = row.key().map_or_else(|| "sounding as written".to_owned(), key_words);
        out.assumed.push(format!("No key is printed: taken as {taken}; the {name}'s key varies by work."));
    }
}

fn key_words_of(row: &Instrument) -> String {
    row.key().map_or_else(|| "sounding as written".to_owned(), |key| format!("in {}", key_words(key)))
}

fn bass_clarinet(
    draft: &Draft,
    row: &'static Instrument,
    other: Option<&'static Instrument>,
    out: &mut Resolved,
) {
    let (why, reason) = match row.scheme {
        Some(Scheme::German) => (
            "German wording: taken in German notation, a major second higher than it sounds. It is mostly in the bass clef.",
            "French notation, in the treble clef: sounds a major ninth lower",
        ),
        _ => (
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
