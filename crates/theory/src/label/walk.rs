//! The walk over the items of a label, from left to right, that sorts them into drafts of staves.

use super::drafts::{Draft, Drafts, Dual};
use super::items::{Item, Numbers, What};
use super::keys::KeyName;
use super::lexicon::{Lexicon, lang};
use super::players::share_players;
use super::staff::Mechanism;
use super::words::{Lemma, Role, lemma};
use crate::crook::OctaveWord;
use crate::pitch::Step;

/// Where the walk stands.
#[derive(Default)]
pub(super) struct Walk<'a> {
    /// The items.
    pub(super) items: &'a [Item],
    /// What has been read.
    pub(super) out: Drafts,
    /// The staff being read.
    pub(super) current: Option<Draft>,
    /// The current draft is a change, not a staff.
    pub(super) changing: bool,
    /// A verb of change has been read and its key or instrument not yet.
    pub(super) awaiting: bool,
    /// Keys that stand before their instrument.
    pub(super) keys: Vec<KeyName>,
    /// Numbers that stand before their instrument or key.
    pub(super) numbers: Option<Numbers>,
    /// An octave word before its key or instrument.
    pub(super) octave: Option<OctaveWord>,
    /// Natural or valves before its instrument.
    pub(super) mechanism: Option<Mechanism>,
    /// A comma, a slash or "and" since the last thing that said something.
    pub(super) broken: bool,
    /// It was a comma.
    pub(super) comma: bool,
    /// Brackets open.
    pub(super) depth: u32,
    /// "not" has just been read.
    pub(super) negated: bool,
    /// A hyphen has just been read.
    pub(super) hyphen: bool,
    /// The last key stood after "in".
    pub(super) key_after_in: bool,
}

/// Reads the items into drafts.
pub(super) fn draft(items: &[Item]) -> Drafts {
    let mut walk = Walk { items, ..Walk::default() };
    let mut aside = false;
    for (at, item) in items.iter().enumerate() {
        match &item.what {
            What::Close => {
                walk.depth = walk.depth.saturating_sub(1);
                aside = false;
            }
            _ if aside => {}
            What::Open => walk.depth += 1,
            What::Break { comma } => {
                walk.broken = true;
                walk.comma = *comma;
            }
            What::Dash => walk.hyphen = true,
            What::Unknown => walk.out.unknown.push(item.token),
            What::Noun(lemma) => walk.noun(*lemma, at),
            What::Key(key) => walk.key(*key, at),
            What::Numbers(numbers) => walk.numbers(numbers, at),
            What::Role(role) => match role {
                Role::Aside => aside = walk.depth > 0,
                Role::And => {
                    walk.broken = true;
                    walk.comma = false;
                }
                Role::Not => walk.negated = true,
                Role::Octave(word) => {
                    walk.out.known += 1;
                    let waits = walk.awaiting || walk.before_next_key(at);
                    match walk.current.as_mut().filter(|_| !waits) {
                        Some(draft) => draft.octave = Some(*word),
                        None => walk.octave = Some(*word),
                    }
                }
                Role::Mechanism(mechanism) => {
                    walk.out.known += 1;
                    let broken = walk.broken;
                    match walk.current.as_mut().filter(|draft| draft.mechanism.is_none() && !broken) {
                        Some(draft) => draft.mechanism = Some(*mechanism),
                        None => walk.mechanism = Some(*mechanism),
                    }
                }
                Role::Change => {
                    walk.awaiting = true;
                    walk.broken = false;
                }
                Role::ChangeAfter => walk.change_after(),
                _ => {}
            },
        }
        if !matches!(item.what, What::Dash) {
            walk.hyphen = false;
        }
    }
    walk.finish()
}

impl Walk<'_> {
    /// What the item is.
    pub(super) fn what(&self, at: usize) -> Option<&What> {
        self.items.get(at).map(|item| &item.what)
    }

    /// The item before, brackets left out.
    fn before(&self, at: usize) -> Option<&What> {
        let earlier = self.items.get(..at)?;
        earlier.iter().rev().map(|item| &item.what).find(|what| !matches!(what, What::Open))
    }

    /// "in hoch B": the octave word belongs to the key that follows.
    fn before_next_key(&self, at: usize) -> bool {
        let next = self.what(at + 1).is_some_and(|what| matches!(what, What::Key(_)));
        next && self.current.as_ref().is_some_and(|draft| draft.key.is_some())
    }

    /// Whether an instrument's own noun follows, only its kinds between.
    pub(super) fn head_follows(&self, at: usize) -> bool {
        for item in self.items.get(at + 1..).unwrap_or(&[]) {
            match &item.what {
                What::Noun(lemma) if lemma.is_head() => return true,
                What::Noun(_)
                | What::Open
                | What::Close
                | What::Dash
                | What::Role(Role::Octave(_) | Role::Mechanism(_) | Role::Ignored) => {}
                _ => return false,
            }
        }
        false
    }

    fn noun(&mut self, noun: Lemma, at: usize) {
        self.out.known += 1;
        let item = self.items.get(at);
        let dual = matches!(noun, lemma::ALTO | lemma::BASS);
        let after_key = self.before(at).is_some_and(|what| matches!(what, What::Key(_)));
        let next_head =
            self.what(at + 1).is_some_and(|what| matches!(what, What::Noun(next) if next.is_head()));
        let contiguous = !self.broken && !self.awaiting;
        // "Corni (Hörner) in F": the same once more.
        let known = |draft: &Draft| draft.nouns.contains(&noun);
        if self.depth > 0 && noun.is_head() && contiguous && self.current.as_ref().is_some_and(known) {
            return;
        }
        if dual && after_key && !next_head && self.current.is_none() && self.key_after_in {
            // "in B basso" alone: the octave of a key, and no instrument.
            self.octave = Some(if noun == lemma::ALTO { OctaveWord::Alto } else { OctaveWord::Basso });
            return;
        }
        if self.awaiting {
            if noun.is_head() || !dual {
                self.close();
                self.changing = true;
                self.awaiting = false;
                let players = self.out.staves.last().map(|draft| draft.players.clone()).unwrap_or_default();
                self.current = Some(Draft { langs: lang::ALL, players, ..Draft::default() });
            }
        } else if self.current.is_none() {
            self.open(at);
        } else if noun.is_head() {
            self.head_arrives(noun, contiguous, at);
        } else if self.broken && !(dual && after_key) {
            self.kind_after_break(noun, next_head, at);
        }
        self.broken = false;
        let beside = at.checked_sub(1).and_then(|before| self.what(before));
        let beside_head =
            next_head || beside.is_some_and(|what| matches!(what, What::Noun(before) if before.is_head()));
        if let (Some(draft), Some(item)) = (self.current.as_mut(), item) {
            if dual {
                let before_head = next_head;
                draft.duals.push(Dual {
                    lemma: noun,
                    after_key,
                    before_head,
                    beside_head,
                    word: item.word.clone(),
                });
            } else {
                draft.nouns.push(noun);
            }
            // The parts of a compound are one word.
            if at
                .checked_sub(1)
                .and_then(|before| self.items.get(before))
                .is_none_or(|before| before.token != item.token)
            {
                if !draft.surface.is_empty() {
                    draft.surface.push(' ');
                }
                draft.surface.push_str(&item.word);
            }
            if noun.is_head() || draft.langs == lang::ALL {
                draft.langs &= item.langs;
            }
            draft.plural |= item.plural && !dual;
            if noun == lemma::PISTONS {
                draft.mechanism = Some(Mechanism::Valves);
            }
        }
        if noun.is_head() {
            self.take_numbers();
        }
    }

    /// A new instrument while there is a draft.
    fn head_arrives(&mut self, noun: Lemma, contiguous: bool, at: usize) {
        let Some(draft) = self.current.as_mut() else { return };
        if draft.inherited && self.keys.is_empty() && contiguous && draft.key.is_some() {
            // "F Horn 1, Bb Clarinet 2": the second key was the clarinet's.
            draft.nouns.clear();
            draft.duals.retain(|dual| dual.after_key);
            draft.surface.clear();
            draft.langs = lang::ALL;
            draft.plural = false;
            draft.inherited = false;
            draft.key_first = !self.hyphen;
            return;
        }
        let both = |draft: &Draft| {
            let mut nouns = draft.nouns.clone();
            nouns.extend(draft.duals.iter().map(|dual| dual.lemma));
            nouns.push(noun);
            nouns
        };
        match draft.head() {
            None if contiguous => {}
            Some(head) => {
                let again = draft.nouns.contains(&noun);
                let named = !again && !Lexicon::get().candidates(&both(draft)).is_empty();
                let cello_and_bass = head == lemma::CELLO && draft.key.is_none() && !self.comma;
                if !(named && (contiguous || cello_and_bass)) {
                    self.open(at);
                }
            }
            None => self.open(at),
        }
    }

    /// "Tromboni alto, tenore e basso", "Soprano, Alto", "Violoncello e Basso", "Flute, Bass Clarinet".
    fn kind_after_break(&mut self, noun: Lemma, next_head: bool, at: usize) {
        let Some(draft) = self.current.as_ref() else { return };
        let with = |draft: &Draft| {
            let mut nouns: Vec<Lemma> = draft.nouns.iter().copied().filter(|lemma| lemma.is_head()).collect();
            nouns.push(noun);
            nouns
        };
        let named = draft.head().is_some() && !Lexicon::get().candidates(&with(draft)).is_empty();
        let named = named && !(self.comma && draft.head() == Some(lemma::CELLO));
        let crooked = draft.nouns.contains(&lemma::HORN) || draft.nouns.contains(&lemma::TRUMPET);
        let octave_of_crook = crooked && matches!(noun, lemma::ALTO | lemma::BASS);
        if next_head || !(named || octave_of_crook) {
            self.open(at);
        } else if named && draft.head() == Some(lemma::CELLO) {
            // Cello and bass on one staff.
        } else if named && !crooked {
            let mut heir = draft.heir();
            heir.nouns.retain(|lemma| lemma.is_head());
            heir.duals.clear();
            self.close();
            self.current = Some(heir);
        }
    }

    fn key(&mut self, key: KeyName, at: usize) {
        if core::mem::take(&mut self.negated) {
            self.restate(key, true);
            return;
        }
        self.out.known += 1;
        let after_in = self.before(at).is_some_and(|what| *what == What::Role(Role::In));
        self.key_after_in = after_in;
        let head_follows = !after_in && self.head_follows(at);
        if self.awaiting && self.current.is_some() {
            self.change_to(key);
            return;
        }
        let full = self
            .current
            .as_ref()
            .is_some_and(|draft| draft.key.is_some() || (self.broken && draft.head().is_some()));
        if head_follows && (self.current.is_none() || full) {
            self.close();
            self.keys.push(key);
            self.broken = false;
            return;
        }
        let depth = self.depth;
        let joined = self.broken && !self.comma;
        let Some(draft) = self.current.as_mut() else {
            self.keys.push(key);
            self.broken = false;
            return;
        };
        if draft.nouns.contains(&lemma::TIMPANI) {
            draft.drums.push(key);
        } else if draft.head() == Some(lemma::CELLO) && key.bare_b && joined {
            // "Vc. e B.": the bass.
            draft.nouns.push(lemma::BASS);
        } else if draft.key.is_none() {
            draft.key = Some(key);
            draft.octave = self.octave.take().or(draft.octave);
        } else if depth > 0 && draft.key.is_some_and(|known| known.tonic.step == key.tonic.step) {
            self.restate(key, false);
            return;
        } else if self.changing {
            self.change_to(key);
            return;
        } else {
            let mut heir = draft.heir();
            heir.key = Some(key);
            heir.octave = self.octave.take();
            self.close();
            self.current = Some(heir);
            self.take_numbers();
        }
        self.broken = false;
    }

    /// "[NB: B natural]", "[sic, B not Bb]": the key once more, or what it is not.
    fn restate(&mut self, key: KeyName, not: bool) {
        if let Some(known) = self.current.as_mut().and_then(|draft| draft.key.as_mut())
            && known.bare_b
            && key.tonic.step == Step::B
            && !key.bare_b
        {
            known.bare_b = false;
            known.tonic.alter = match (not, key.tonic.alter) {
                (false, alter) => alter,
                (true, 0) => -1,
                (true, _) => 0,
            };
        }
        self.broken = false;
    }

    /// Begins a draft with what stood before it.
    fn open(&mut self, at: usize) {
        self.close();
        self.changing = false;
        let mut draft = Draft { langs: lang::ALL, ..Draft::default() };
        draft.octave = self.octave.take();
        draft.mechanism = self.mechanism.take();
        let keys = core::mem::take(&mut self.keys);
        draft.key = keys.last().copied();
        draft.drums.clone_from(&keys);
        draft.key_first = !keys.is_empty() && !self.hyphen && at > 0;
        // "C, F Horn": a staff for each key.
        self.keys = keys;
        self.current = Some(draft);
    }

    /// Puts the current draft where it belongs.
    pub(super) fn close(&mut self) {
        let keys = core::mem::take(&mut self.keys);
        let Some(mut draft) = self.current.take() else {
            self.keys = keys;
            return;
        };
        draft.mechanism = draft.mechanism.or(self.mechanism.take());
        if draft.is_empty() {
            return;
        }
        if self.changing {
            self.out.changes.push(draft);
            return;
        }
        if !draft.nouns.contains(&lemma::TIMPANI) && keys.len() > 1 {
            for key in keys.iter().rev().skip(1).rev() {
                self.out.staves.push(Draft { key: Some(*key), ..draft.clone() });
            }
        }
        self.out.staves.push(draft);
    }

    fn finish(mut self) -> Drafts {
        self.take_numbers();
        self.close();
        share_players(&mut self.out.staves);
        self.out
    }
}
