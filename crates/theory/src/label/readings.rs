//! What a label may mean as well: other rows of the same words, other habits, other readings that the tables know.

use super::choose::Rows;
use super::drafts::Draft;
use super::habits::in_key;
use super::resolve::{Resolved, staff};
use super::staff::StaffLabel;
use super::words::{Lemma, lemma, lemma_of};
use super::{Alternative, DecodeOptions};
use crate::instrument::{Instrument, KeyAsked, KeyMeans};
use crate::pitch::Tonic;
use crate::tables::{HABITS, READINGS};

/// Adds the reading as another row, in that row's own key.
pub(super) fn push_row(draft: &Draft, row: Option<&'static Instrument>, reason: &str, out: &mut Resolved) {
    if let Some(row) = row {
        let transposition = row.transposition.unwrap_or_default();
        push_alternative(staff(draft, row, transposition, row.key()), reason, out);
    }
}

pub(super) fn push_alternative(staff: StaffLabel, reason: &str, out: &mut Resolved) {
    let known = out.staff.iter().chain(out.alternatives.iter().map(|other| &other.staff)).any(|known| {
        known.instrument == staff.instrument
            && known.transposition == staff.transposition
            && known.key == staff.key
    });
    if !known {
        out.alternatives.push(Alternative { staff, of: 0, reason: reason.to_owned() });
    }
}

/// What the tables leave open.
pub(super) fn other_readings(
    draft: &Draft,
    row: &'static Instrument,
    key: Option<Tonic>,
    options: DecodeOptions,
    out: &mut Resolved,
) {
    if row.key_means == KeyMeans::AsTrumpet && key.is_some() {
        let name = lower_first(row.english);
        out.assumed
            .push(format!("A {name}'s key varies by work: taken as a trumpet of that key transposes."));
    }
    table_readings(draft, row, key, options.year, out);
    for habit in HABITS.iter().filter(|habit| habit.id == row.id) {
        push_alternative(staff(draft, row, habit.transposition, key.or(row.key())), habit.reason, out);
    }
}

/// Other instruments that the label may mean, by the table of readings.
pub(super) fn table_readings(
    draft: &Draft,
    row: &'static Instrument,
    key: Option<Tonic>,
    year: Option<i32>,
    out: &mut Resolved,
) {
    let has = |words: &str| words.split(' ').any(|word| draft.surface.split(' ').any(|own| own == word));
    let own = row.kind.and_then(lemma_of);
    let kindless =
        |noun: &Lemma| *noun == lemma::SWEET || (noun.is_head() && own.is_none_or(|own| own == *noun));
    let bare = draft.duals.is_empty() && draft.nouns.iter().all(kindless);
    for other in READINGS.iter().filter(|other| other.id == row.id) {
        let by_key = match other.key {
            KeyAsked::Any => true,
            KeyAsked::None => key.is_none(),
            KeyAsked::This(asked) => key == Some(asked),
        };
        let by_words = (other.words.is_empty() || has(other.words)) && !has(other.unless);
        let by_year = other.before.is_none_or(|limit| year.is_some_and(|year| year < limit));
        if !(by_key && by_words && by_year && (bare || !other.bare)) {
            continue;
        }
        if !other.assumed.is_empty() {
            out.assumed.push(other.assumed.to_owned());
        }
        let Some(meant) = Instrument::by_id(other.other) else { continue };
        let named = if meant == row { key } else { meant.key() };
        let transposition = other.transposition.or(meant.transposition).unwrap_or_default();
        push_alternative(staff(draft, meant, transposition, named), other.reason, out);
    }
}

/// Other rows that the same words name.
pub(super) fn shared_words(draft: &Draft, key: Option<Tonic>, found: &Rows, out: &mut Resolved) {
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
        let reason = match other.row.variant_of {
            Some(_) => other.row.variant_reason,
            _ if other.required.is_some() => "another key of the same instrument",
            _ => {
                shared = true;
                "the same word names this too"
            }
        };
        let named = key.or(other.row.key());
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
pub(super) fn lower_first(name: &str) -> String {
    let mut chars = name.chars();
    match chars.next() {
        // "E-flat bass" keeps its letter.
        Some(first) if !name.contains("-flat bass") => {
            core::iter::once(first.to_ascii_lowercase()).chain(chars).collect()
        }
        _ => name.to_owned(),
    }
}
