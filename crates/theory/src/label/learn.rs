//! How the lexicon is made from the tables: names of every row in every language, plurals, abbreviations.

use super::cells::{expand, plural_forms};
use super::keys::KeyBook;
use super::lexicon::{Candidate, Entry, Lexicon, Phrase, cells, lang, lemmas};
use super::tokens::{Kind, Token, tokenise};
use super::words::{Lemma, Role, WORDS, lemma, lemma_of};
use crate::instrument::Instrument;
use crate::order::in_order;
use crate::pitch::Tonic;
use crate::tables::INSTRUMENTS;

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

impl Lexicon {
    /// Learns all tables.
    pub(super) fn from_tables() -> Self {
        let mut book = Self { next: lemma::FIRST_FREE, keys: KeyBook::from_tables(), ..Self::default() };
        for (role, forms) in WORDS {
            for form in forms.split_whitespace() {
                book.learn(form, vec![*role], lang::ALL, Form::Plain, form);
            }
        }
        for row in &INSTRUMENTS {
            if let Some(base) = base_of(row) {
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
        // What two rows share belongs to the one that is meant most often.
        let rows = in_order(INSTRUMENTS.iter(), |row| row.rank);
        for row in &rows {
            for name in row.also.split(';').map(str::trim) {
                book.learn_name(row, name, lang::ALL, false);
            }
        }
        let abbreviations =
            rows.into_iter().flat_map(|row| row.abbreviations.split(';').map(move |text| (row, text.trim())));
        // One word first: "Trb." is the trombone, though "Tr.b." is the bass trumpet.
        let (several, one): (Vec<_>, Vec<_>) =
            abbreviations.partition(|(_, text)| text.trim_end_matches('.').contains(['.', ' ', '-']));
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
        let form = if plural { Form::Plural } else { Form::Plain };
        self.learn(word, roles.to_vec(), bits, form, word);
        if bits & lang::GERMAN != 0 {
            // The old spelling: Clarinette, Contrafagott, Cornett.
            let old = word.replace("klar", "clar").replace("kontra", "contra").replace("korn", "corn");
            if old != word {
                self.learn_with_plurals(&old, roles, bits, plural);
            }
        }
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
                    let fresh = if tokens.len() == 1 { self.lemma_of_row(row) } else { self.fresh() };
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
        let base = base_of(row).filter(|_| dotted);
        let lemma = known.unwrap_or_else(|| {
            let fresh = base.unwrap_or_else(|| self.fresh());
            self.phrases.push(Phrase { parts, joined: surface.clone(), lemma: fresh, langs, dotted });
            fresh
        });
        // Written as one word it must not look like any other: "BCl", but not "CA" or "Bob".
        let last_is_word =
            self.phrases.last().and_then(|phrase| phrase.parts.last()).is_some_and(|part| part.len() > 1);
        if last_is_word
            && (surface.len() > 3 || (surface.len() == 3 && !surface.contains(['a', 'e', 'i', 'o', 'u'])))
        {
            let shown = if dotted { format!("{surface}.") } else { surface.clone() };
            self.learn(&surface, vec![Role::Noun(lemma)], langs, Form::Plain, &shown);
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
                let known = self.find(word).map(|entry| lemmas(&entry.roles)).unwrap_or_default();
                if known.iter().any(|lemma| lemma.is_head()) {
                    // Two rows share it: the first has it, the other is a further reading, unless its key tells them
                    // apart or the word is one of its names.
                    let own = self.candidates(&known).iter().any(|candidate| candidate.row == row);
                    let langs = if own || required.is_some() { lang::ALL } else { 0 };
                    self.point(known, Candidate { row, required, langs, surface: (*word).to_owned() });
                    return;
                }
                let base = base_of(row).map(|base| vec![Role::Noun(base)]);
                let roles = match base.or_else(|| self.split(word)) {
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
    fn lemma_of_row(&mut self, row: &'static Instrument) -> Lemma {
        let known = base_of(row)
            .or_else(|| self.own.iter().find(|(known, _)| *known == row.id).map(|(_, lemma)| *lemma));
        known.unwrap_or_else(|| {
            let fresh = self.fresh();
            self.own.push((row.id, fresh));
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
}

/// The lemma that a row's own words have, where they are the base of other names.
fn base_of(row: &Instrument) -> Option<Lemma> {
    row.kind.filter(|_| row.teaches_kind).and_then(lemma_of)
}

fn is_in(word: &str) -> bool {
    matches!(word, "in" | "en")
}
