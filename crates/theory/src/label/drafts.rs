//! Drafts: what a label says of each staff, before tables and habits are asked what it means.

use super::keys::KeyName;
use super::staff::Mechanism;
use super::words::Lemma;
use crate::crook::OctaveWord;

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
    /// A word stands where the key should and is none.
    pub key_unread: bool,
    /// All keys named, for drums.
    pub drums: Vec<KeyName>,
    /// Of a change: the drums that are tuned anew, as "A" is in "muta A in G".
    pub retuned: Vec<KeyName>,
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

    /// No instrument has been named for it.
    pub(super) fn is_empty(&self) -> bool {
        self.nouns.is_empty() && self.duals.is_empty()
    }

    /// Takes a drum of a change: those that stand before the first "in" are tuned anew, those behind it are what they
    /// become.
    pub(super) fn tune(&mut self, key: KeyName, after_in: bool) {
        let drums = if after_in || !self.drums.is_empty() { &mut self.drums } else { &mut self.retuned };
        drums.push(key);
    }

    /// Which drums there are after the change, where those were there `before`.
    pub(super) fn settle_drums(&mut self, before: &[KeyName]) {
        let retuned = core::mem::take(&mut self.retuned);
        if self.drums.is_empty() {
            self.drums = retuned;
            return;
        }
        let place = |old: &KeyName| before.iter().position(|drum| drum.tonic == old.tonic);
        let places: Option<Vec<usize>> = retuned.iter().map(place).collect();
        let Some(places) = places.filter(|places| !places.is_empty() && places.len() == self.drums.len())
        else {
            return;
        };
        let new = core::mem::replace(&mut self.drums, before.to_vec());
        for (place, drum) in places.into_iter().zip(new) {
            if let Some(old) = self.drums.get_mut(place) {
                *old = drum;
            }
        }
    }

    /// The same instrument for another key.
    pub(super) fn heir(&self) -> Self {
        Self {
            key: None,
            drums: Vec::new(),
            retuned: Vec::new(),
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
    /// The token that stands where a key should and is none.
    pub unread_key: Option<usize>,
    /// How many words are understood that say something of a staff.
    pub known: usize,
}
