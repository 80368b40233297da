//! The walk over the items of a label, from left to right, that sorts them into drafts of staves.
//!
//! Where the walk stands is a [`State`]; what stands before its instrument waits in [`Ahead`]; what stands between the
//! last word that said something and the next is a [`Gap`]. A new kind of word is one arm in [`Walk::step`].

use super::drafts::{Draft, Drafts};
use super::items::{Item, What};
use super::keys::KeyName;
use super::lexicon::lang;
use super::numbers::Numbers;
use super::players::share_players;
use super::staff::Mechanism;
use super::words::{Role, lemma};
use crate::crook::OctaveWord;

/// What is being read.
#[derive(Debug, Default)]
pub(super) enum State {
    /// No staff has begun.
    #[default]
    Start,
    /// A staff.
    Staff(Draft),
    /// What players change to.
    Change(Draft),
    /// A verb of change has been read; the key or the instrument it leads to must follow.
    Verb(Before),
}

/// What stood before a verb of change.
#[derive(Debug)]
pub(super) enum Before {
    /// Nothing that has begun.
    Nothing,
    /// A staff.
    Staff(Draft),
    /// Another change.
    Change(Draft),
    /// Players of a staff that has been read already: "Corni in Es, Corno II muta in C".
    Again(Draft),
}

/// What stands before the instrument or the key it belongs to.
#[derive(Debug, Default)]
pub(super) struct Ahead {
    /// Keys, and whether each stood after "in".
    pub(super) keys: Vec<(KeyName, bool)>,
    /// Numbers.
    pub(super) numbers: Option<Numbers>,
    /// An octave word.
    pub(super) octave: Option<OctaveWord>,
    /// Natural or valves.
    pub(super) mechanism: Option<Mechanism>,
}

/// What stands between the last word that said something and the next.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Gap {
    /// Nothing.
    #[default]
    None,
    /// A comma, or what parts like one.
    Comma,
    /// "and", a slash or a plus.
    And,
    /// A hyphen.
    Hyphen,
    /// "not".
    Not,
}

impl Gap {
    /// Two things are parted.
    pub(super) const fn parts(self) -> bool {
        matches!(self, Self::Comma | Self::And)
    }
}

/// Brackets that are open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Brackets {
    /// None.
    #[default]
    Outside,
    /// So many, at least one.
    Inside(u32),
    /// So many; what stands in the innermost tells how it once was.
    Aside(u32),
}

impl Brackets {
    const fn opened(self) -> Self {
        match self {
            Self::Outside => Self::Inside(1),
            Self::Inside(depth) | Self::Aside(depth) => Self::Inside(depth.saturating_add(1)),
        }
    }

    const fn closed(self) -> Self {
        match self {
            Self::Outside | Self::Inside(..=1) | Self::Aside(..=1) => Self::Outside,
            Self::Inside(depth) | Self::Aside(depth) => Self::Inside(depth - 1),
        }
    }

    const fn aside(self) -> Self {
        match self {
            Self::Outside => Self::Outside,
            Self::Inside(depth) | Self::Aside(depth) => Self::Aside(depth),
        }
    }
}

/// Where the walk stands.
pub(super) struct Walk<'a> {
    items: &'a [Item],
    /// What has been read.
    pub(super) out: Drafts,
    /// What is being read.
    pub(super) state: State,
    /// What waits for its instrument.
    pub(super) ahead: Ahead,
    /// What the next word stands after.
    pub(super) gap: Gap,
    brackets: Brackets,
}

/// Reads the items into drafts.
pub(super) fn draft(items: &[Item]) -> Drafts {
    let mut walk = Walk {
        items,
        out: Drafts::default(),
        state: State::default(),
        ahead: Ahead::default(),
        gap: Gap::default(),
        brackets: Brackets::default(),
    };
    for (at, item) in items.iter().enumerate() {
        walk.step(item, at);
    }
    walk.finish()
}

impl Walk<'_> {
    /// Reads one item. What says something of a staff counts as known.
    fn step(&mut self, item: &Item, at: usize) {
        if matches!(self.brackets, Brackets::Aside(_)) && item.what != What::Close {
            return;
        }
        let gap = core::mem::take(&mut self.gap);
        self.gap = match &item.what {
            What::Break { comma: true } => Gap::Comma,
            What::Break { comma: false } | What::Role(Role::And) => Gap::And,
            What::Role(Role::Not) => Gap::Not,
            What::Dash if gap == Gap::None => Gap::Hyphen,
            _ if gap == Gap::Hyphen && !self.says_something(&item.what) => Gap::None,
            _ => gap,
        };
        match &item.what {
            What::Open => self.brackets = self.brackets.opened(),
            What::Close => self.brackets = self.brackets.closed(),
            What::Unknown => self.unknown(item.token, at),
            What::Noun(lemma) => self.noun(*lemma, at),
            What::Key(key) => self.key(*key, at),
            What::Numbers(numbers) => self.numbers(numbers, at),
            What::Role(Role::Aside) => self.brackets = self.brackets.aside(),
            What::Role(Role::Octave(word)) => self.octave(*word, at),
            What::Role(Role::Mechanism(mechanism)) => self.mechanism(*mechanism),
            What::Role(Role::Change) => self.change(),
            What::Role(Role::ChangeAfter) => self.change_after(),
            What::Break { .. } | What::Dash | What::Role(_) => {}
        }
    }

    /// A hyphen joins to these words only.
    const fn says_something(&self, what: &What) -> bool {
        matches!(what, What::Noun(_) | What::Key(_) | What::Dash)
    }

    /// What the item is.
    pub(super) fn what(&self, at: usize) -> Option<&What> {
        self.items.get(at).map(|item| &item.what)
    }

    /// The item.
    pub(super) fn item(&self, at: usize) -> Option<&Item> {
        self.items.get(at)
    }

    /// The item after it, hyphens left out.
    pub(super) fn next(&self, at: usize) -> Option<&What> {
        let later = self.items.get(at + 1..)?;
        later.iter().map(|item| &item.what).find(|what| !matches!(what, What::Dash))
    }

    /// The item before, brackets left out.
    pub(super) fn before(&self, at: usize) -> Option<&What> {
        let earlier = self.items.get(..at)?;
        earlier.iter().rev().map(|item| &item.what).find(|what| !matches!(what, What::Open))
    }

    /// Whether brackets are open.
    pub(super) fn in_brackets(&self) -> bool {
        self.brackets != Brackets::Outside
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

    /// The staff or change that is being read, or that a verb of change was said of.
    pub(super) fn current(&self) -> Option<&Draft> {
        match &self.state {
            State::Start | State::Verb(Before::Nothing) => None,
            State::Staff(draft)
            | State::Change(draft)
            | State::Verb(Before::Staff(draft) | Before::Change(draft) | Before::Again(draft)) => Some(draft),
        }
    }

    /// The same, to be changed.
    pub(super) fn current_mut(&mut self) -> Option<&mut Draft> {
        match &mut self.state {
            State::Start | State::Verb(Before::Nothing) => None,
            State::Staff(draft)
            | State::Change(draft)
            | State::Verb(Before::Staff(draft) | Before::Change(draft) | Before::Again(draft)) => Some(draft),
        }
    }

    /// Whether a verb of change waits for what it leads to.
    pub(super) const fn awaits(&self) -> bool {
        matches!(self.state, State::Verb(_))
    }

    /// A word that is not understood; a short one after "in" stands where a key should.
    fn unknown(&mut self, token: usize, at: usize) {
        self.out.unknown.push(token);
        let short = self.item(at).is_some_and(|item| item.word.chars().count() <= LONGEST_KEY);
        if short
            && self.before(at) == Some(&What::Role(Role::In))
            && let State::Staff(draft) = &mut self.state
            && draft.key.is_none()
        {
            draft.key_unread = true;
            self.out.unread_key = self.out.unread_key.or(Some(token));
        }
    }

    fn octave(&mut self, word: OctaveWord, at: usize) {
        self.out.known += 1;
        // "in hoch B": the octave word belongs to the key that follows.
        let key_next = matches!(self.what(at + 1), Some(What::Key(_)));
        let waits = self.awaits() || (key_next && self.current().is_some_and(|draft| draft.key.is_some()));
        match self.current_mut().filter(|_| !waits) {
            Some(draft) => draft.octave = Some(word),
            None => self.ahead.octave = Some(word),
        }
    }

    fn mechanism(&mut self, mechanism: Mechanism) {
        self.out.known += 1;
        let parted = self.gap.parts();
        match self.current_mut().filter(|draft| draft.mechanism.is_none() && !parted) {
            Some(draft) => draft.mechanism = Some(mechanism),
            None => self.ahead.mechanism = Some(mechanism),
        }
    }

    /// Begins a staff with what stood before it.
    pub(super) fn open(&mut self, at: usize) {
        self.close();
        let keys = &self.ahead.keys;
        self.state = State::Staff(Draft {
            langs: lang::ALL,
            key: keys.last().map(|(key, _)| *key),
            drums: keys.iter().map(|(key, _)| *key).collect(),
            key_first: !keys.is_empty() && self.gap != Gap::Hyphen && at > 0,
            octave: self.ahead.octave.take(),
            mechanism: self.ahead.mechanism.take(),
            ..Draft::default()
        });
    }

    /// Puts what is being read where it belongs.
    pub(super) fn close(&mut self) {
        let state = core::mem::take(&mut self.state);
        let (mut draft, changes) = match state {
            State::Start | State::Verb(Before::Nothing | Before::Again(_)) => return,
            State::Staff(draft) | State::Verb(Before::Staff(draft)) => (draft, false),
            State::Change(draft) | State::Verb(Before::Change(draft)) => (draft, true),
        };
        let keys = core::mem::take(&mut self.ahead.keys);
        draft.mechanism = draft.mechanism.or(self.ahead.mechanism.take());
        if draft.is_empty() {
            return;
        }
        if changes {
            let mut earlier = self.out.changes.iter().rev().chain(self.out.staves.iter().rev());
            let before = earlier.find(|other| !other.drums.is_empty());
            draft.settle_drums(before.map_or(&[], |before| &before.drums));
            self.out.changes.push(draft);
            return;
        }
        // "C, F Horn": a staff for each key.
        if !draft.nouns.contains(&lemma::TIMPANI) {
            for (key, _) in keys.iter().take(keys.len().saturating_sub(1)) {
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

/// Letters of the longest word that may be meant for a key where it is not understood.
const LONGEST_KEY: usize = 3;
