//! The harmony in its course through a score: at every change the chord, its degree in the movement's key, who holds what.
//!
//! The music is cut where anything begins or ends ([`slices`]). Each row of slices that may be one harmony is held against every
//! chord ([`fit`]): what belongs to the chord speaks for it, by how long it sounds and in how many voices, the bass twice;
//! what does not speaks against it. A change costs something, least where a bar begins and most off the beat. The row of
//! harmonies with the best sum is taken ([`segments`]): so a passing or neighbour note, which is short and off the beat, makes
//! no chord, and a suspension is heard as what it resolves into. Of each harmony the notes that belong to it are then named
//! by [`Harmony::of`](crate::chord::Harmony), as a column of a page is.
//!
//! Our own rules, held against a musician's labels of real movements; what they say is a reading, and others are possible.

mod fit;
mod search;
mod segments;
mod slices;

pub use search::HarmonySearch;

use crate::chord::Harmony;
use crate::score::{NoteId, Quarters, Score, Sounded};
use crookwise_theory::{Key, Pitch};

/// A harmony of a score.
#[derive(Clone, Debug, PartialEq)]
pub struct ScoreHarmony {
    /// When it begins, in quarter notes from the beginning.
    pub from: Quarters,
    /// When the next one begins.
    pub to: Quarters,
    /// The bar in which it begins, counted from 0.
    pub bar: usize,
    /// The movement's key there.
    pub key: Option<Key>,
    /// What it is. Its voices are places in `notes`.
    pub harmony: Harmony,
    /// The notes that belong to it, in score order.
    pub notes: Vec<NoteId>,
    /// What the drums add beside it.
    pub drums: Vec<Pitch>,
}

/// The harmonies of a score, from its beginning to its end; a rest of all parts belongs to the harmony before it. `sounded` is
/// what it sounds ([`Score::sounded`]). Of a large score they take long: [`HarmonySearch`] finds the same in pieces.
#[must_use]
pub fn harmonies(score: &Score, sounded: &[Sounded<'_>]) -> Vec<ScoreHarmony> {
    let mut search = HarmonySearch::begin(score, sounded);
    while search.go_on(score) {}
    search.found()
}
