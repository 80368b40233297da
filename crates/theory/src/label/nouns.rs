//! Names of instruments and of their kinds on a label.

use super::choose::BLAND;
use super::drafts::{Draft, Dual};
use super::items::{Item, What};
use super::lexicon::{Lexicon, lang};
use super::staff::Mechanism;
use super::walk::{Before, Gap, State, Walk};
use super::words::{Lemma, lemma};
use crate::crook::OctaveWord;

impl Walk<'_> {
    /// A word that names an instrument or its kind.
    pub(super) fn noun(&mut self, noun: Lemma, at: usize) {
        self.out.known += 1;
        let dual = matches!(noun, lemma::ALTO | lemma::BASS);
        let after_key = matches!(self.before(at), Some(What::Key(_)));
        let next_head = matches!(self.next(at), Some(What::Noun(next)) if next.is_head());
        if self.says_it_again(noun) {
            return;
        }
        if dual && after_key && !next_head && self.key_alone() {
            // "in B basso" alone: the octave of a key, and no instrument.
            self.ahead.octave = Some(octave_of(noun));
            return;
        }
        let contiguous = !self.gap.parts() && !self.awaits();
        match &self.state {
            State::Verb(_) if noun.is_head() || !dual => self.change_instrument(),
            State::Start => self.open(at),
            State::Staff(_) | State::Change(_) if noun.is_head() => self.head_arrives(noun, contiguous, at),
            State::Staff(_) | State::Change(_) if self.gap.parts() && !(dual && after_key) => {
                self.kind_after_break(noun, next_head, at);
            }
            State::Verb(_) | State::Staff(_) | State::Change(_) => {}
        }
        self.gap = Gap::None;
        self.add_noun(noun, dual, after_key, next_head, at);
        if noun.is_head() {
            self.take_numbers();
        }
    }

    /// "Corni (Hörner) in F", "Tam-tam": the same once more.
    fn says_it_again(&self, noun: Lemma) -> bool {
        let known = self.current().is_some_and(|draft| draft.nouns.contains(&noun));
        let joined = self.in_brackets() || self.gap == Gap::Hyphen;
        known && joined && noun.is_head() && !self.gap.parts() && !self.awaits()
    }

    /// A key after "in" has been read and nothing else.
    fn key_alone(&self) -> bool {
        matches!(self.state, State::Start) && self.ahead.keys.last().is_some_and(|(_, after_in)| *after_in)
    }

    /// "Flauto muta in Ottavino": what they change to is another instrument.
    fn change_instrument(&mut self) {
        let again = match &self.state {
            State::Verb(Before::Again(draft)) => Some(draft.players.clone()),
            _ => None,
        };
        self.close();
        let last = || self.out.staves.last().map(|draft| draft.players.clone());
        let players = again.or_else(last).unwrap_or_default();
        self.state = State::Change(Draft { langs: lang::ALL, players, ..Draft::default() });
    }

    fn add_noun(&mut self, noun: Lemma, dual: bool, after_key: bool, next_head: bool, at: usize) {
        let Some(Item { token, word, langs, plural, .. }) = self.item(at).cloned() else { return };
        let earlier = at.checked_sub(1).and_then(|before| self.item(before));
        let same_word = earlier.is_some_and(|before| before.token == token);
        let after_head =
            earlier.is_some_and(|before| matches!(before.what, What::Noun(before) if before.is_head()));
        let Some(draft) = self.current_mut() else { return };
        // The parts of a compound are one word.
        if !same_word {
            if !draft.surface.is_empty() {
                draft.surface.push(' ');
            }
            draft.surface.push_str(&word);
        }
        if dual {
            let beside_head = next_head || after_head;
            draft.duals.push(Dual { lemma: noun, after_key, before_head: next_head, beside_head, word });
        } else {
            draft.nouns.push(noun);
            draft.plural |= plural;
        }
        if noun.is_head() || draft.langs == lang::ALL {
            draft.langs &= langs;
        }
        if noun == lemma::PISTONS {
            draft.mechanism = Some(Mechanism::Valves);
        }
    }

    /// A new instrument while there is a draft.
    fn head_arrives(&mut self, noun: Lemma, contiguous: bool, at: usize) {
        let (gap, keys_wait) = (self.gap, !self.ahead.keys.is_empty());
        let Some(draft) = self.current_mut() else { return };
        if draft.inherited && !keys_wait && contiguous && draft.key.is_some() {
            // "F Horn 1, Bb Clarinet 2": the second key was the clarinet's.
            draft.nouns.clear();
            draft.duals.retain(|dual| dual.after_key);
            draft.surface.clear();
            draft.langs = lang::ALL;
            draft.plural = false;
            draft.inherited = false;
            draft.key_first = gap != Gap::Hyphen;
            return;
        }
        let joins = match draft.head() {
            None => contiguous,
            Some(head) => {
                let all = draft.nouns.iter().copied().chain(draft.duals.iter().map(|dual| dual.lemma));
                let all: Vec<Lemma> = all.chain([noun]).collect();
                let again = draft.nouns.contains(&noun);
                let plain: Vec<Lemma> = all.iter().copied().filter(|lemma| !BLAND.contains(lemma)).collect();
                let names = |nouns: &[Lemma]| !Lexicon::get().candidates(nouns).is_empty();
                let named = !again && (names(&all) || names(&plain));
                let cello_and_bass = head == lemma::CELLO && draft.key.is_none() && gap != Gap::Comma;
                named && (contiguous || cello_and_bass)
            }
        };
        if !joins {
            self.open(at);
        }
    }

    /// "Tromboni alto, tenore e basso", "Soprano, Alto", "Violoncello e Basso", "Flute, Bass Clarinet".
    fn kind_after_break(&mut self, noun: Lemma, next_head: bool, at: usize) {
        let comma = self.gap == Gap::Comma;
        let Some(draft) = self.current() else { return };
        let heads = draft.nouns.iter().copied().filter(|lemma| lemma.is_head());
        let with: Vec<Lemma> = heads.chain([noun]).collect();
        let cello = draft.head() == Some(lemma::CELLO);
        let named =
            draft.head().is_some() && !Lexicon::get().candidates(&with).is_empty() && !(comma && cello);
        let crooked = draft.nouns.contains(&lemma::HORN) || draft.nouns.contains(&lemma::TRUMPET);
        let octave_of_crook = crooked && matches!(noun, lemma::ALTO | lemma::BASS);
        // "Coro: Soprano": only a choir has been named, and this is its voice.
        let choir = draft.nouns == [lemma::CHOIR] && draft.duals.is_empty();
        if choir {
            return;
        }
        if next_head || !(named || octave_of_crook) {
            self.open(at);
        } else if named && !cello && !crooked {
            let mut heir = draft.heir();
            heir.nouns.retain(|lemma| lemma.is_head());
            heir.duals.clear();
            self.close();
            self.state = State::Staff(heir);
        }
    }
}

/// The octave that a dual word says of a key.
pub(super) const fn octave_of(noun: Lemma) -> OctaveWord {
    if noun.0 == lemma::ALTO.0 { OctaveWord::Alto } else { OctaveWord::Basso }
}
