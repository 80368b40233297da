//! Which rows of the table of instruments a draft's words mean.

use super::drafts::{Draft, Dual};
use super::lexicon::{Candidate, Lexicon};
use super::words::{Lemma, lemma};
use crate::crook::OctaveWord;
use crate::instrument::{Family, Instrument};
use crate::pitch::Tonic;

/// The rows that fit, best first, and the octave word that belongs to the key.
#[derive(Debug, Default)]
pub(super) struct Rows {
    /// Rows with what the table says of them, best first.
    pub fitting: Vec<Candidate>,
    /// Rows named by the words but in another key.
    pub other_keys: Vec<&'static Instrument>,
    /// Alto or basso of the key.
    pub octave: Option<OctaveWord>,
    /// Kinds that fit no such instrument.
    pub unused: Vec<Lemma>,
}

/// Looks the draft's words up. The family of the staff before helps where a word names a voice and a string.
pub(super) fn rows(draft: &Draft, key: Option<Tonic>, before: Option<Family>) -> Rows {
    let mut out = Rows { octave: draft.octave, ..Rows::default() };
    let mut nouns = draft.nouns.clone();
    for dual in &draft.duals {
        if belongs_to_key(draft, dual, key) {
            out.octave = Some(if dual.lemma == lemma::ALTO { OctaveWord::Alto } else { OctaveWord::Basso });
        } else {
            nouns.push(dual.lemma);
        }
    }
    let book = Lexicon::get();
    let mut seen = Vec::new();
    for (set, unused) in attempts(&nouns) {
        let list = book.candidates(&set);
        // A kind is left out only where the whole names nothing: there is no bass clarinet in D, so none is shown.
        if list.is_empty() || (!unused.is_empty() && !seen.is_empty()) {
            continue;
        }
        // Best first; of equals the first in the table.
        let mut fitting: Vec<(i32, &Candidate)> = Vec::new();
        for candidate in list.iter().filter(|candidate| fits(candidate, key)) {
            let points = score(candidate, draft, key, before);
            let place = fitting.iter().take_while(|(known, _)| *known >= points).count();
            fitting.insert(place, (points, candidate));
        }
        if fitting.is_empty() {
            seen.extend(list.iter().filter(|candidate| candidate.langs != 0).map(|candidate| candidate.row));
            continue;
        }
        out.fitting = fitting.into_iter().map(|(_, candidate)| candidate.clone()).collect();
        out.unused = unused;
        break;
    }
    out.other_keys = seen;
    out
}

/// Alto and basso belong to the key of a horn or trumpet, and to the instrument everywhere else.
fn belongs_to_key(draft: &Draft, dual: &Dual, key: Option<Tonic>) -> bool {
    let has = |noun| draft.nouns.contains(&noun);
    if has(lemma::POST) || has(lemma::ENGLISH) || has(lemma::BASSET) {
        return false;
    }
    // A kind that is not built in the key is a word of the key after all: "Alto Corno in Do".
    let built = |of: Lemma| {
        let kinds = Lexicon::get().candidates(&[dual.lemma, of]);
        key.is_none_or(|key| kinds.iter().any(|kind| super::habits::in_key(kind.row, key).is_some()))
    };
    if has(lemma::HORN) {
        return !(dual.lemma == lemma::ALTO && dual.before_head && built(lemma::HORN));
    }
    if has(lemma::TRUMPET) {
        let native = matches!(dual.word.as_str(), "bass" | "alt");
        return !(dual.beside_head && (!dual.after_key || native) && built(lemma::TRUMPET));
    }
    if has(lemma::TUBA) {
        let has_kind = has(lemma::TENOR) || has(lemma::WAGNER) || draft.duals.len() > 1;
        return dual.after_key && !dual.before_head && has_kind;
    }
    false
}

/// Kinds that change nothing where the table does not know them with the instrument.
pub(super) const BLAND: &[Lemma] = &[
    lemma::SOLO,
    lemma::PRINCIPAL,
    lemma::SLIDE,
    lemma::CHOIR,
    lemma::GREAT,
    lemma::PISTONS,
    lemma::HUNT,
    lemma::FRENCH,
    lemma::GERMAN,
    lemma::VOICE,
    lemma::OLD_TREBLE,
    lemma::CROSS,
];

/// The words as they stand, then with the freedoms that labels take.
fn attempts(nouns: &[Lemma]) -> Vec<(Vec<Lemma>, Vec<Lemma>)> {
    let mut sets: Vec<(Vec<Lemma>, Vec<Lemma>)> = vec![(nouns.to_vec(), Vec::new())];
    let without = |set: &[Lemma], dropped: &[Lemma]| -> Vec<Lemma> {
        set.iter().copied().filter(|noun| !dropped.contains(noun)).collect()
    };
    if nouns.contains(&lemma::CONTRALTO) {
        let mut set = without(nouns, &[lemma::CONTRALTO]);
        set.push(lemma::ALTO);
        sets.push((set, Vec::new()));
    }
    if nouns.contains(&lemma::CONTRA) && nouns.contains(&lemma::BASS) {
        let mut set = without(nouns, &[lemma::CONTRA, lemma::BASS]);
        set.push(lemma::CONTRABASS);
        sets.push((set, Vec::new()));
    }
    let played = without(nouns, &[lemma::SOLO, lemma::PRINCIPAL, lemma::CHOIR]);
    if played.len() < nouns.len() && !played.is_empty() {
        sets.push((played, Vec::new()));
    }
    let plain = without(nouns, BLAND);
    if plain.len() < nouns.len() && !plain.is_empty() {
        sets.push((plain.clone(), Vec::new()));
    }
    if nouns.contains(&lemma::CLARINET) || nouns.contains(&lemma::FLUTE) {
        // "Kleine Klarinette in D" is the clarinet in D.
        sets.push((without(&plain, &[lemma::SMALL]), Vec::new()));
    }
    for (place, noun) in plain.iter().enumerate() {
        let fewer: Vec<Lemma> =
            plain.iter().enumerate().filter(|(at, _)| *at != place).map(|(_, noun)| *noun).collect();
        if !noun.is_head() && !fewer.is_empty() {
            sets.push((fewer, vec![*noun]));
        }
    }
    let heads: Vec<Lemma> = plain.iter().copied().filter(|noun| noun.is_head()).collect();
    let kinds: Vec<Lemma> = plain.iter().copied().filter(|noun| !noun.is_head()).collect();
    if heads.len() == 1 && kinds.len() > 1 {
        sets.push((heads, kinds));
    }
    sets
}

/// Whether a row can be meant with that key, or without one.
fn fits(candidate: &Candidate, key: Option<Tonic>) -> bool {
    match key {
        _ if candidate.row.is_crooked() || candidate.row.has_named_drums() => true,
        None => true,
        Some(key) => {
            candidate.required == Some(key)
                || (candidate.langs != 0 && super::habits::in_key(candidate.row, key).is_some())
        }
    }
}

fn score(candidate: &Candidate, draft: &Draft, key: Option<Tonic>, before: Option<Family>) -> i32 {
    let mut points = 0;
    // A word shared by two rows in the column of abbreviations: the first has it.
    if candidate.langs == 0 {
        points -= 40;
    }
    match (candidate.required, key) {
        (Some(required), Some(key)) if required == key => points += 24,
        (Some(_), None) => points -= 12,
        _ => {}
    }
    if candidate.surface == draft.surface {
        points += 8;
    }
    if candidate.langs & draft.langs != 0 && draft.langs != super::lexicon::lang::ALL {
        points += 4;
    }
    if key.is_some() && candidate.row.key() == key {
        points += 2;
    }
    if before.is_some_and(|family| family == Family::Voices && candidate.row.family == family) {
        points += 20;
    }
    points * 100 - i32::from(candidate.row.rank)
}
