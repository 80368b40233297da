//! Drafts: what a label says of each staff, before tables and habits are asked what it means.

use super::items::{Item, Numbers, What};
use super::keys::KeyName;
use super::lexicon::{Lexicon, lang};
use super::staff::Mechanism;
use super::words::{Lemma, Role, lemma};
use crate::crook::OctaveWord;
use crate::pitch::Step;

/// Alto or basso as a word that may belong to the instrument or to the key.
#[derive(Clone, Debug)]
pub(super) struct Dual {
    /// ALTO or BASS.
    pub lemma: Lemma,
    /// It stands right after a key.
    pub after_key: bool,
    /// It stands right before the instrument.
    pub before_head: bool,
    /// It stands beside the instrument, before or after.
    pub beside_head: bool,
    /// As it is spelled.
    pub word: String,
}

/// One staff as the label words it.
#[derive(Clone, Debug, Default)]
pub(super) struct Draft {
    /// The instrument's words but for alto and basso, in order.
    pub nouns: Vec<Lemma>,
    /// Alto and basso words.
    pub duals: Vec<Dual>,
    /// The words as spelled, parted by spaces.
    pub surface: String,
    /// Languages that have all of them.
    pub langs: u8,
    /// The instrument's word is a plural.
    pub plural: bool,
    /// The key named.
    pub key: Option<KeyName>,
    /// All keys named, for drums.
    pub drums: Vec<KeyName>,
    /// The octave word that is nothing else.
    pub octave: Option<OctaveWord>,
    /// How many players.
    pub count: Option<u32>,
    /// Which players.
    pub players: Vec<u32>,
    /// Natural or valves, by a word.
    pub mechanism: Option<Mechanism>,
    /// The key stands before the instrument without a hyphen, as in English part names.
    pub key_first: bool,
    /// Its instrument comes from the staff before.
    pub inherited: bool,
}

impl Draft {
    /// Its noun that names an instrument by itself.
    pub(super) fn head(&self) -> Option<Lemma> {
        self.nouns.iter().copied().find(|lemma| lemma.is_head())
    }

    fn is_empty(&self) -> bool {
        self.nouns.is_empty() && self.duals.is_empty()
    }

    fn heir(&self) -> Self {
        Self {
            key: None,
            drums: Vec::new(),
            octave: None,
            count: None,
            players: Vec::new(),
            duals: self.duals.iter().filter(|dual| !dual.after_key && dual.beside_head).cloned().collect(),
            inherited: true,
            ..self.clone()
        }
    }
}

/// Everything the items say.
#[derive(Debug, Default)]
pub(super) struct Drafts {
    /// Staves in order.
    pub staves: Vec<Draft>,
    /// What the players are to change to.
    pub changes: Vec<Draft>,
    /// Tokens not understood.
    pub unknown: Vec<usize>,
    /// How many words are understood that say something of a staff.
    pub known: usize,
}

#[derive(Default)]
struct Walk<'a> {
    items: &'a [Item],
    out: Drafts,
    current: Option<Draft>,
    /// The current draft is a change, not a staff.
    changing: bool,
    /// A verb of change has been read and its key or instrument not yet.
    awaiting: bool,
    keys: Vec<KeyName>,
    numbers: Option<Numbers>,
    octave: Option<OctaveWord>,
    mechanism: Option<Mechanism>,
    /// A comma, a slash or "and" since the last thing that said something.
    broken: bool,
    /// It was a comma.
    comma: bool,
    depth: u32,
    negated: bool,
    hyphen: bool,
    /// The last key stood after "in".
    key_after_in: bool,
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
    fn what(&self, at: usize) -> Option<&What> {
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
    fn head_follows(&self, at: usize) -> bool {
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

    fn change_to(&mut self, key: KeyName) {
        let Some(draft) = self.current.as_ref() else { return };
        let mut heir = draft.heir();
        if heir.nouns.contains(&lemma::TIMPANI) {
            if self.changing && !self.awaiting {
                if let Some(draft) = self.current.as_mut() {
                    draft.drums.push(key);
                }
                return;
            }
            heir.drums.push(key);
        } else {
            heir.key = Some(key);
        }
        heir.octave = self.octave.take();
        heir.players.clone_from(&draft.players);
        heir.count = draft.count;
        self.close();
        self.changing = true;
        self.awaiting = false;
        self.broken = false;
        self.current = Some(heir);
    }

    /// "in F umstimmen": the key just read is what they change to.
    fn change_after(&mut self) {
        let Some(draft) = self.current.as_mut().filter(|_| !self.changing) else { return };
        let Some(key) = draft.key else { return };
        if draft.inherited {
            let mut draft = draft.clone();
            self.current = None;
            if let Some(first) = self.out.staves.last() {
                draft.players.clone_from(&first.players);
                draft.count = first.count;
            }
            self.out.changes.push(draft);
        } else {
            let heir = Draft {
                key: Some(key),
                octave: draft.octave.take(),
                players: draft.players.clone(),
                count: draft.count,
                ..draft.heir()
            };
            draft.key = None;
            self.out.changes.push(heir);
        }
    }

    fn numbers(&mut self, numbers: &Numbers, at: usize) {
        let key_next = matches!(self.what(at + 1), Some(What::Key(_)))
            || (self.what(at + 1) == Some(&What::Role(Role::In))
                && matches!(self.what(at + 2), Some(What::Key(_))));
        let taken =
            self.current.as_ref().is_some_and(|draft| !draft.players.is_empty() || draft.count.is_some());
        let keyed = self.current.as_ref().is_some_and(|draft| draft.key.is_some());
        let wait = self.current.is_none()
            || self.head_follows(at)
            || (keyed && (taken || (key_next && self.broken)));
        if wait {
            self.numbers = Some(numbers.clone());
        } else {
            self.give_numbers(numbers, false);
            self.broken = false;
        }
    }

    fn take_numbers(&mut self) {
        if let Some(numbers) = self.numbers.take() {
            self.give_numbers(&numbers, true);
        }
    }

    /// Numbers count players or name them: a count stands before the noun, without a dot.
    fn give_numbers(&mut self, numbers: &Numbers, before: bool) {
        let counted = self.out.staves.last().is_some_and(|last| last.count.is_some());
        let Some(draft) = self.current.as_mut() else { return };
        let plain = !numbers.ordinal && !numbers.dotted;
        let strings =
            draft.head().is_some_and(|head| matches!(head, lemma::VIOLIN | lemma::VIOLA | lemma::CELLO));
        match numbers.values[..] {
            [one] if before && plain && (!draft.inherited || counted) => draft.count = Some(one),
            // "2. Corni", "Oboi 2": old ways to print a count.
            [many] if many > 1 && draft.plural && !numbers.ordinal && !strings && draft.count.is_none() => {
                draft.count = Some(many);
            }
            _ => draft.players.extend(&numbers.values),
        }
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
    fn close(&mut self) {
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

/// "2 Corni in E e A" are one each; "Corno 1, 2 in E, A" are the first and the second.
fn share_players(staves: &mut [Draft]) {
    let total = staves.len();
    let Some((first, rest)) = staves.split_first_mut() else { return };
    if rest.is_empty()
        || !rest.iter().all(|draft| draft.inherited && draft.players.is_empty() && draft.count.is_none())
    {
        return;
    }
    if first.count.and_then(|count| usize::try_from(count).ok()) == Some(total) {
        first.count = Some(1);
        for draft in rest.iter_mut() {
            draft.count = Some(1);
        }
    }
    if first.players.len() == total {
        let players = core::mem::take(&mut first.players);
        for (draft, player) in core::iter::once(first).chain(rest).zip(players) {
            draft.players = vec![player];
        }
    }
}
