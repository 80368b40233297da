//! The words a label may have: made once from the tables of instruments and keys and the small words beside them.

use super::keys::KeyBook;
use super::near::{distance_at_most, is_one_slip};
use super::tokens::{Kind, Token};
use super::words::{Lemma, Role};
use crate::instrument::Instrument;
use crate::pitch::Tonic;
use std::sync::OnceLock;

/// Languages as bits: a word may belong to several.
pub(super) mod lang {
    pub(crate) const ENGLISH: u8 = 1;
    pub(crate) const ITALIAN: u8 = 2;
    pub(crate) const GERMAN: u8 = 4;
    pub(crate) const FRENCH: u8 = 8;
    pub(crate) const SPANISH: u8 = 16;
    pub(crate) const ALL: u8 = 31;
}

/// What the lexicon knows of a word.
#[derive(Clone, Debug)]
pub(super) struct Entry {
    /// What it does; several where German writes two words as one.
    pub roles: Vec<Role>,
    /// The languages in which the table has it.
    pub langs: u8,
    /// It is a plural only.
    pub plural: bool,
    /// No table has it: it is a plural made by rule.
    pub made: bool,
    /// As the table prints it.
    pub shown: String,
}

/// Words that German writes as one at most.
const MOST_PARTS: u8 = 4;
/// Bytes of the longest compound that is taken apart.
const LONGEST_COMPOUND: usize = 40;

impl Entry {
    /// The table has it with a dot.
    fn is_abbreviation(&self) -> bool {
        self.shown.ends_with('.')
    }
}

/// A row that some words name.
#[derive(Clone, Debug)]
pub(super) struct Candidate {
    /// The row.
    pub row: &'static Instrument,
    /// The key that must be named for these words to mean it.
    pub required: Option<Tonic>,
    /// The languages in which they do.
    pub langs: u8,
    /// The words as the table has them, folded and run together.
    pub surface: String,
}

/// An abbreviation of several parts ("Kl.Fl."), or a name that is read as a whole.
#[derive(Clone, Debug)]
pub(super) struct Phrase {
    /// Its words, folded.
    pub parts: Vec<String>,
    /// The same run together.
    pub joined: String,
    /// What it stands for.
    pub lemma: Lemma,
    /// The languages that have it.
    pub langs: u8,
    /// A part of one letter must have its dot.
    pub dotted: bool,
}

/// Everything a label may say.
#[derive(Debug, Default)]
pub(super) struct Lexicon {
    /// Sorted by word.
    pub words: Vec<(String, Entry)>,
    /// The letters of each word, in the same order: for slips.
    pub letters: Vec<Vec<char>>,
    /// Abbreviations of several parts.
    pub phrases: Vec<Phrase>,
    /// What sets of lemmas name, sorted by lemmas.
    pub index: Vec<(Vec<Lemma>, Vec<Candidate>)>,
    /// The names of keys.
    pub keys: KeyBook,
    /// Abbreviations of one letter, which count only where a label has no other noun.
    pub single: Vec<(String, Lemma)>,
    /// The lemma of the words that name a row by themselves.
    pub own: Vec<(&'static str, Lemma)>,
    /// The next number for a lemma.
    pub next: u16,
}

impl Lexicon {
    /// The one lexicon, made at the first call.
    pub(super) fn get() -> &'static Self {
        static LEXICON: OnceLock<Lexicon> = OnceLock::new();
        LEXICON.get_or_init(Self::from_tables)
    }

    /// What the lexicon knows of a folded word.
    pub(super) fn find(&self, word: &str) -> Option<&Entry> {
        let place = self.words.binary_search_by(|(known, _)| known.as_str().cmp(word)).ok()?;
        self.words.get(place).map(|(_, entry)| entry)
    }

    /// The word with "ae" typed for "ä", or several words written as one.
    pub(super) fn find_spelled_otherwise(&self, word: &str) -> Option<Entry> {
        let plain = word.replace("ae", "a").replace("oe", "o").replace("ue", "u");
        if plain != word
            && let Some(entry) = self.find(&plain).filter(|entry| !entry.is_abbreviation())
        {
            return Some(entry.clone());
        }
        self.split_entry(word, MOST_PARTS).or_else(|| self.split_entry(&plain, MOST_PARTS))
    }

    /// Words written as one, by what they do.
    pub(super) fn split(&self, word: &str) -> Option<Vec<Role>> {
        self.split_entry(word, MOST_PARTS).map(|entry| entry.roles)
    }

    /// Two or three known words written as one ("Kontrabassklarinette"), the longest first part first.
    fn split_entry(&self, word: &str, parts: u8) -> Option<Entry> {
        if parts < 2 || word.len() > LONGEST_COMPOUND {
            return None;
        }
        let places: Vec<usize> = word.char_indices().map(|(place, _)| place).collect();
        for place in places.into_iter().rev().filter(|place| (3..word.len()).contains(place)) {
            let (Some(first), Some(rest)) = (word.get(..place), word.get(place..)) else { continue };
            let Some(head) = self.find(first).filter(|entry| is_part(&entry.roles)) else { continue };
            let rest = match self
                .find(rest)
                .filter(|entry| rest.len() > 2 && is_part(&entry.roles) && !entry.is_abbreviation())
            {
                Some(rest) => Some(rest.clone()),
                None => self.split_entry(rest, parts - 1),
            };
            let heads = |roles: &[Role]| lemmas(roles).iter().filter(|lemma| lemma.is_head()).count();
            if let Some(rest) = rest.filter(|rest| heads(&head.roles) == 0 && heads(&rest.roles) == 1) {
                let roles = head.roles.iter().chain(&rest.roles).copied().collect();
                // German alone writes it so, unless the table has the word for another language.
                return Some(Entry { roles, shown: word.to_owned(), ..rest });
            }
        }
        None
    }

    /// The words that another may stand for with one slip, one for each meaning: only the likeliest sort of them, nouns
    /// before octave words before the rest, after a key octave words first, and words of the tables before plurals made by
    /// rule.
    pub(super) fn find_with_slip(&self, word: &str, after_key: bool) -> Vec<&(String, Entry)> {
        let typed: Vec<char> = word.chars().collect();
        let near = self.letters.iter().zip(&self.words).filter(|(letters, (_, entry))| {
            // An abbreviation is no long word.
            is_one_slip(&typed, letters) && !entry.is_abbreviation()
        });
        let mut near: Vec<&(String, Entry)> = near.map(|(_, known)| known).collect();
        let sort = |entry: &Entry| match entry.roles.first() {
            Some(Role::Octave(_)) if after_key => 0,
            Some(Role::Noun(_)) => 1,
            Some(Role::Octave(_)) => 2,
            Some(Role::Mechanism(_)) => 3,
            _ => 4,
        };
        let best = near.iter().map(|(_, entry)| sort(entry)).min();
        near.retain(|(_, entry)| Some(sort(entry)) == best);
        if near.iter().any(|(_, entry)| !entry.made) {
            near.retain(|(_, entry)| !entry.made);
        }
        let mut meanings: Vec<&(String, Entry)> = Vec::new();
        for known in near {
            if !meanings.iter().any(|(_, other)| other.roles == known.1.roles) {
                meanings.push(known);
            }
        }
        meanings
    }

    /// The nearest known word, for a message: at most a third of its letters may differ. It must name an instrument, an
    /// octave or a mechanism, and nothing that is understood anyway.
    pub(super) fn nearest(&self, word: &str, understood: &[Lemma]) -> Option<String> {
        let typed: Vec<char> = word.chars().take(40).collect();
        let limit = (typed.len() / 3).clamp(1, 3);
        if typed.len() < 3 {
            return None;
        }
        let mut best: Option<(usize, &Entry)> = None;
        for (letters, (_, entry)) in self.letters.iter().zip(&self.words) {
            let within = best.map_or(limit, |(distance, _)| distance.saturating_sub(1));
            if best.is_none_or(|(distance, _)| distance > 1)
                && letters.len() >= 3
                && !entry.is_abbreviation()
                && (!entry.plural || entry.langs == lang::ALL)
                && says_something_new(entry, understood)
                && let Some(distance) = distance_at_most(&typed, letters, within)
                && distance > 0
            {
                best = Some((distance, entry));
            }
        }
        best.map(|(_, entry)| entry.shown.clone())
    }

    /// An abbreviation of several parts that begins at a token, and how many tokens it takes.
    pub(super) fn phrase(&self, tokens: &[Token], at: usize) -> Option<(Lemma, u8, usize)> {
        let mut best: Option<(Lemma, u8, usize)> = None;
        for phrase in &self.phrases {
            let mut place = at;
            let mut fits = true;
            for part in &phrase.parts {
                if place > at && tokens.get(place).is_some_and(|token| token.kind == Kind::Dash) {
                    place += 1;
                }
                let token = tokens.get(place);
                // A letter that might be a key must have its dot.
                let hyphen = tokens.get(place + 1).is_some_and(|next| next.kind == Kind::Dash);
                fits = token.is_some_and(|token| {
                    let marked = token.dot || token.apostrophe || token.accent || hyphen;
                    token.text == *part && (!phrase.dotted || part.chars().count() > 1 || marked)
                });
                if !fits {
                    break;
                }
                place += 1;
            }
            if fits && best.is_none_or(|(_, _, used)| place - at > used) {
                best = Some((phrase.lemma, phrase.langs, place - at));
            }
        }
        best
    }

    /// The noun that a lone letter abbreviates.
    pub(super) fn letter(&self, letter: &str) -> Option<Lemma> {
        self.single.iter().find(|(known, _)| known == letter).map(|(_, lemma)| *lemma)
    }

    /// The rows that a set of lemmas names.
    pub(super) fn candidates(&self, nouns: &[Lemma]) -> &[Candidate] {
        let sorted = in_order(nouns.iter().copied());
        match self.index.binary_search_by(|(known, _)| known.cmp(&sorted)) {
            Ok(place) => self.index.get(place).map_or(&[], |(_, list)| list.as_slice()),
            Err(_) => &[],
        }
    }
}

/// The names of a row with their language.
pub(super) fn cells(row: &'static Instrument) -> [(&'static str, u8); 5] {
    [
        (row.italian, lang::ITALIAN),
        (row.german, lang::GERMAN),
        (row.french, lang::FRENCH),
        (row.spanish, lang::SPANISH),
        (row.english, lang::ENGLISH),
    ]
}

/// The nouns among the roles, sorted.
pub(super) fn lemmas(roles: &[Role]) -> Vec<Lemma> {
    in_order(roles.iter().filter_map(|role| if let Role::Noun(lemma) = role { Some(*lemma) } else { None }))
}

/// Sorted, each once. There are never more than a few.
fn in_order(nouns: impl Iterator<Item = Lemma>) -> Vec<Lemma> {
    let mut sorted: Vec<Lemma> = Vec::new();
    for noun in nouns {
        let place = sorted.iter().take_while(|known| **known < noun).count();
        if sorted.get(place) != Some(&noun) {
            sorted.insert(place, noun);
        }
    }
    sorted
}

/// Whether a word names an instrument, an octave or a mechanism that is not understood anyway.
fn says_something_new(entry: &Entry, understood: &[Lemma]) -> bool {
    let nouns = lemmas(&entry.roles);
    let says = nouns.iter().any(|lemma| lemma.is_head())
        || entry.roles.iter().any(|role| matches!(role, Role::Octave(_) | Role::Mechanism(_)));
    says && (nouns.is_empty() || nouns.iter().any(|lemma| !understood.contains(lemma)))
}

/// Whether a word may be part of a longer one.
fn is_part(roles: &[Role]) -> bool {
    roles.iter().all(|role| matches!(role, Role::Noun(_) | Role::Mechanism(_)))
}
