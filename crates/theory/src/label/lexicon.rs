//! The words a label may have: made once from the tables of instruments and keys and the small words beside them.

use super::cells::{expand, plural_forms};
use super::keys::KeyBook;
use super::near::{distance_at_most, is_one_slip};
use super::tokens::{Kind, Token, tokenise};
use super::words::{Lemma, MORE_ABBREVIATIONS, MORE_NAMES, Role, WORDS, lemma};
use crate::instrument::Instrument;
use crate::pitch::Tonic;
use crate::tables::INSTRUMENTS;
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

impl Entry {
    /// The table has it with a dot.
    fn is_abbreviation(&self) -> bool {
        self.shown.ends_with('.')
    }
}

/// Where a word comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Form {
    /// The tables have it as a singular, or as neither.
    Plain,
    /// The tables have it as a plural.
    Plural,
    /// A plural made by rule.
    Made,
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

/// An abbreviation of several parts ("Kl.Fl.").
#[derive(Clone, Debug)]
struct Phrase {
    parts: Vec<String>,
    joined: String,
    lemma: Lemma,
    langs: u8,
    dotted: bool,
}

/// Everything a label may say.
#[derive(Debug, Default)]
pub(super) struct Lexicon {
    /// Sorted by word.
    words: Vec<(String, Entry)>,
    /// The letters of each word, in the same order: for slips.
    letters: Vec<Vec<char>>,
    phrases: Vec<Phrase>,
    /// Sorted by lemmas.
    index: Vec<(Vec<Lemma>, Vec<Candidate>)>,
    /// The names of keys.
    pub keys: KeyBook,
    /// Abbreviations of one letter, which count only where a label has no other noun.
    single: Vec<(String, Lemma)>,
    /// The lemma of the words that name a row by themselves.
    own: Vec<(&'static str, Lemma)>,
    next: u16,
}

/// Rows whose own words are the base of other names, in the order in which their words are learnt.
const BASES: &[(&str, Lemma)] = &[
    ("flute", lemma::FLUTE),
    ("oboe", lemma::OBOE),
    ("cl_bb", lemma::CLARINET),
    ("cl_c", lemma::CLARINET),
    ("cl_a", lemma::CLARINET),
    ("bassoon", lemma::BASSOON),
    ("horn", lemma::HORN),
    ("trumpet", lemma::TRUMPET),
    ("cornet_bb", lemma::CORNET),
    ("tromb_t", lemma::TROMBONE),
    ("tuba", lemma::TUBA),
    ("timp_old", lemma::TIMPANI),
    ("violin", lemma::VIOLIN),
    ("viola", lemma::VIOLA),
    ("cello", lemma::CELLO),
    ("cb", lemma::CONTRABASS),
];

impl Lexicon {
    /// The one lexicon, made at the first call.
    pub(super) fn get() -> &'static Self {
        static LEXICON: OnceLock<Lexicon> = OnceLock::new();
        LEXICON.get_or_init(Self::from_tables)
    }

    fn from_tables() -> Self {
        let mut book = Self { next: lemma::FIRST_FREE, keys: KeyBook::from_tables(), ..Self::default() };
        for (role, forms) in WORDS {
            for form in forms.split_whitespace() {
                book.learn(form, vec![*role], lang::ALL, Form::Plain, form);
            }
        }
        for &(id, base) in BASES {
            if let Some(row) = Instrument::by_id(id) {
                book.learn_base(row, base);
            }
        }
        for row in &INSTRUMENTS {
            for (cell, bits) in cells(row) {
                for name in expand(cell, bits == lang::ENGLISH) {
                    book.learn_name(row, &name.text, bits, name.plural);
                }
            }
        }
        for (id, name) in MORE_NAMES {
            if let Some(row) = Instrument::by_id(id) {
                book.learn_name(row, name, lang::ALL, false);
            }
        }
        let more = MORE_ABBREVIATIONS.iter().filter_map(|(id, text)| Some((Instrument::by_id(id)?, *text)));
        let table = INSTRUMENTS
            .iter()
            .flat_map(|row| row.abbreviations.split(';').map(move |text| (row, text.trim())));
        // One word first: "Trb." is the trombone, though "Tr.b." is the bass trumpet.
        let (several, one): (Vec<_>, Vec<_>) =
            more.chain(table).partition(|(_, text)| text.trim_end_matches('.').contains(['.', ' ', '-']));
        for (row, text) in one.into_iter().chain(several) {
            book.learn_abbreviation(row, text);
        }
        book.letters = book.words.iter().map(|(word, _)| word.chars().collect()).collect();
        book
    }

    fn learn_base(&mut self, row: &'static Instrument, base: Lemma) {
        for (cell, bits) in cells(row) {
            for name in expand(cell, bits == lang::ENGLISH) {
                let tokens = self.without_key(&tokenise(&name.text)).0;
                if let [word] = &tokens[..] {
                    let roles = self.split(&word.text).unwrap_or_else(|| vec![Role::Noun(base)]);
                    self.learn_with_plurals(&word.text, &roles, bits, name.plural);
                }
            }
        }
    }

    fn learn_with_plurals(&mut self, word: &str, roles: &[Role], bits: u8, plural: bool) {
        self.learn(word, roles.to_vec(), bits, if plural { Form::Plural } else { Form::Plain }, word);
        if !plural {
            for form in plural_forms(word, bits) {
                self.learn(&form, roles.to_vec(), bits, Form::Made, &form);
            }
        }
    }

    /// Adds a word; a known one keeps its roles and gains the language.
    fn learn(&mut self, word: &str, roles: Vec<Role>, langs: u8, form: Form, shown: &str) {
        match self.words.binary_search_by(|(known, _)| known.as_str().cmp(word)) {
            Ok(place) => {
                if let Some((_, entry)) = self.words.get_mut(place)
                    && entry.roles == roles
                {
                    // A name added for all languages says nothing of the words it shares.
                    if langs != lang::ALL {
                        entry.langs |= langs;
                    }
                    entry.plural &= form != Form::Plain;
                    entry.made &= form == Form::Made;
                }
            }
            Err(place) => {
                let (plural, made) = (form != Form::Plain, form == Form::Made);
                let entry = Entry { roles, langs, plural, made, shown: shown.to_owned() };
                self.words.insert(place, (word.to_owned(), entry));
            }
        }
    }

    /// Adds a name of a row: its words, and what they mean together.
    fn learn_name(&mut self, row: &'static Instrument, name: &str, bits: u8, plural: bool) {
        let (tokens, required) = self.without_key(&tokenise(name));
        if tokens.is_empty() {
            return;
        }
        let mut roles = Vec::new();
        for token in &tokens {
            let known = self.find(&token.text).map(|entry| entry.roles.clone());
            match known.or_else(|| self.split(&token.text)) {
                Some(known) => {
                    self.learn_with_plurals(&token.text, &known, bits, plural);
                    roles.extend(known);
                }
                None => {
                    let fresh = if tokens.len() == 1 { self.lemma_of_row(row.id) } else { self.fresh() };
                    self.learn_with_plurals(&token.text, &[Role::Noun(fresh)], bits, plural);
                    roles.push(Role::Noun(fresh));
                }
            }
        }
        let surface = tokens.iter().map(|token| token.text.as_str()).collect::<Vec<_>>().join(" ");
        let nouns = lemmas(&roles);
        // A name with an octave word in it ("haute-contre") is read as a whole.
        let whole = roles.iter().any(|role| matches!(role, Role::Octave(_))) && required.is_none();
        if whole {
            let parts = tokens.iter().map(|token| token.text.clone()).collect();
            self.learn_phrase(row, parts, required, bits, false);
        }
        if !nouns.is_empty() {
            self.point(nouns, Candidate { row, required, langs: bits, surface });
        }
    }

    fn learn_phrase(
        &mut self,
        row: &'static Instrument,
        parts: Vec<String>,
        required: Option<Tonic>,
        langs: u8,
        dotted: bool,
    ) {
        let surface = parts.join("");
        let known = self.phrases.iter().find(|phrase| phrase.joined == surface).map(|phrase| phrase.lemma);
        let lemma = known.unwrap_or_else(|| {
            let fresh = self.fresh();
            self.phrases.push(Phrase { parts, joined: surface.clone(), lemma: fresh, langs, dotted });
            fresh
        });
        // Written as one word it must not look like any other: "BCl", but not "CA" or "Bob".
        let last_is_word =
            self.phrases.last().and_then(|phrase| phrase.parts.last()).is_some_and(|part| part.len() > 1);
        if last_is_word
            && (surface.len() > 3 || (surface.len() == 3 && !surface.contains(['a', 'e', 'i', 'o', 'u'])))
        {
            self.learn(&surface, vec![Role::Noun(lemma)], langs, Form::Plain, &surface);
        }
        self.point(vec![lemma], Candidate { row, required, langs, surface });
    }

    fn learn_abbreviation(&mut self, row: &'static Instrument, abbreviation: &str) {
        let (tokens, required) = self.without_key(&tokenise(abbreviation));
        let words: Vec<&str> = tokens.iter().map(|token| token.text.as_str()).collect();
        match &words[..] {
            [] | ["–"] => {}
            [letter] if letter.chars().count() == 1 => {
                let (letter, known) =
                    ((*letter).to_owned(), self.single.iter().find(|(known, _)| known == letter));
                let known = known.map(|(_, lemma)| *lemma);
                let lemma = known.unwrap_or_else(|| self.fresh());
                if known.is_none() {
                    self.single.push((letter.clone(), lemma));
                }
                self.point(vec![lemma], Candidate { row, required, langs: lang::ALL, surface: letter });
            }
            [word] => {
                let base = BASES.iter().find(|(id, _)| *id == row.id).map(|(_, base)| *base);
                let base = if row.id == "vc_treble_old" { Some(lemma::CELLO) } else { base };
                let base = if row.id.starts_with("cl_") && required.is_some() {
                    Some(lemma::CLARINET)
                } else {
                    base
                };
                let base = base.or_else(|| if row.id.starts_with("sax_a") { Some(lemma::SAX) } else { None });
                if self
                    .find(word)
                    .is_some_and(|entry| lemmas(&entry.roles).iter().any(|lemma| lemma.is_head()))
                {
                    // Two rows share it: the first has it, the other is a further reading.
                    let nouns = self.find(word).map(|entry| lemmas(&entry.roles)).unwrap_or_default();
                    let surface = (*word).to_owned();
                    let langs = if base.is_some_and(|base| nouns == [base]) { lang::ALL } else { 0 };
                    self.point(nouns, Candidate { row, required, langs, surface });
                    return;
                }
                let roles = match base.map(|base| vec![Role::Noun(base)]).or_else(|| self.split(word)) {
                    Some(roles) => roles,
                    None => vec![Role::Noun(self.fresh())],
                };
                let surface = (*word).to_owned();
                self.point(lemmas(&roles), Candidate { row, required, langs: lang::ALL, surface });
                self.learn(word, roles, lang::ALL, Form::Plain, abbreviation);
            }
            // "Vc. e B." is two names.
            [_, rest @ ..] if rest.iter().any(|part| matches!(*part, "e" | "en")) => {}
            parts => {
                let parts: Vec<String> = parts.iter().map(|part| (*part).to_owned()).collect();
                self.learn_phrase(row, parts, required, lang::ALL, true);
            }
        }
    }

    /// A number for a word that the tables have and no rule names.
    fn fresh(&mut self) -> Lemma {
        let fresh = Lemma(self.next);
        self.next = self.next.saturating_add(1);
        fresh
    }

    /// The lemma of all words that name a row by themselves.
    fn lemma_of_row(&mut self, id: &'static str) -> Lemma {
        let base = BASES.iter().find(|(base, _)| *base == id).map(|(_, lemma)| *lemma);
        let known = base.or_else(|| self.own.iter().find(|(known, _)| *known == id).map(|(_, lemma)| *lemma));
        known.unwrap_or_else(|| {
            let fresh = self.fresh();
            self.own.push((id, fresh));
            fresh
        })
    }

    /// Adds a meaning to a set of lemmas.
    fn point(&mut self, nouns: Vec<Lemma>, candidate: Candidate) {
        match self.index.binary_search_by(|(known, _)| known.cmp(&nouns)) {
            Ok(place) => {
                if let Some((_, list)) = self.index.get_mut(place) {
                    let twin = list.iter_mut().find(|known| {
                        known.row == candidate.row
                            && known.required == candidate.required
                            && known.surface == candidate.surface
                    });
                    match twin {
                        Some(known) => known.langs |= candidate.langs,
                        None => list.push(candidate),
                    }
                }
            }
            Err(place) => self.index.insert(place, (nouns, vec![candidate])),
        }
    }

    /// The words of a name without the key it names, and that key.
    fn without_key(&self, tokens: &[Token]) -> (Vec<Token>, Option<Tonic>) {
        let (mut words, mut key, mut at) = (Vec::new(), None, 0);
        while let Some(token) = tokens.get(at) {
            let after_in = at
                .checked_sub(1)
                .and_then(|before| tokens.get(before))
                .is_some_and(|before| is_in(&before.text) || before.kind == Kind::Open);
            let may_be_key = after_in || at == 0 || token.text.chars().count() > 1;
            if tokens.len() > 1
                && may_be_key
                && let Some((named, used)) = self.keys.read(tokens, at)
                && !(at == 0 && token.dot)
                && token.text != "des"
            {
                key = key.or(Some(named.tonic));
                at += used;
                continue;
            }
            let joins = tokens.get(at + 1).is_some() && is_in(&token.text);
            if token.kind == Kind::Word && !joins {
                words.push(token.clone());
            }
            at += 1;
        }
        (words, key)
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
        self.split_entry(word).or_else(|| self.split_entry(&plain))
    }

    fn split(&self, word: &str) -> Option<Vec<Role>> {
        self.split_entry(word).map(|entry| entry.roles)
    }

    /// Two or three known words written as one ("Kontrabassklarinette"), the longest first part first.
    fn split_entry(&self, word: &str) -> Option<Entry> {
        let places: Vec<usize> = word.char_indices().map(|(place, _)| place).collect();
        for place in places.into_iter().rev().filter(|place| (3..word.len()).contains(place)) {
            let (Some(first), Some(rest)) = (word.get(..place), word.get(place..)) else { continue };
            let Some(head) = self.find(first).filter(|entry| is_part(&entry.roles)) else { continue };
            let rest = match self
                .find(rest)
                .filter(|entry| rest.len() > 2 && is_part(&entry.roles) && !entry.is_abbreviation())
            {
                Some(rest) => Some(rest.clone()),
                None => self.split_entry(rest),
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
    /// before octave words before the rest, and words of the tables before plurals made by rule.
    pub(super) fn find_with_slip(&self, word: &str) -> Vec<&(String, Entry)> {
        let typed: Vec<char> = word.chars().collect();
        let near = self.letters.iter().zip(&self.words).filter(|(letters, (_, entry))| {
            // An abbreviation is no long word.
            is_one_slip(&typed, letters) && !entry.is_abbreviation()
        });
        let mut near: Vec<&(String, Entry)> = near.map(|(_, known)| known).collect();
        let sort = |entry: &Entry| match entry.roles.first() {
            Some(Role::Noun(_)) => 0,
            Some(Role::Octave(_)) => 1,
            Some(Role::Mechanism(_)) => 2,
            _ => 3,
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

    /// The nearest known word, for a message: at most a third of its letters may differ.
    pub(super) fn nearest(&self, word: &str) -> Option<String> {
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
        let mut sorted = nouns.to_vec();
        sorted.sort_unstable();
        sorted.dedup();
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
    let mut nouns: Vec<Lemma> = roles
        .iter()
        .filter_map(|role| if let Role::Noun(lemma) = role { Some(*lemma) } else { None })
        .collect();
    nouns.sort_unstable();
    nouns.dedup();
    nouns
}

/// Whether a word may be part of a longer one.
fn is_part(roles: &[Role]) -> bool {
    roles.iter().all(|role| matches!(role, Role::Noun(_) | Role::Mechanism(_)))
}

fn is_in(word: &str) -> bool {
    matches!(word, "in" | "en")
}
