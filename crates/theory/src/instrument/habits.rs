//! What the tables know of an instrument beside its row: forms in other keys, other habits of writing, other readings of
//! its name.

use crate::crook::OctaveWord;
use crate::pitch::Tonic;
use crate::transposition::Transposition;

/// A form of an instrument in another key than its row's own, or in its own key an octave lower.
#[derive(Debug)]
pub(crate) struct Form {
    /// The row.
    pub id: &'static str,
    /// Its key.
    pub key: Tonic,
    /// The word that tells it from the usual form in that key.
    pub octave: Option<OctaveWord>,
    /// From written to sounding.
    pub transposition: Transposition,
}

/// Another habit of writing for the same instrument.
#[derive(Debug)]
pub(crate) struct Habit {
    /// The row.
    pub id: &'static str,
    /// From written to sounding.
    pub transposition: Transposition,
    /// When the trade has it.
    pub reason: &'static str,
}

/// The key a label must have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum KeyAsked {
    /// Any or none.
    Any,
    /// None.
    None,
    /// This one.
    This(Tonic),
}

/// Another instrument that a label may mean, under the conditions that stand first.
#[derive(Debug)]
pub(crate) struct OtherReading {
    /// The row that is taken.
    pub id: &'static str,
    /// One of these words stands in the label, folded, parted by spaces; empty for any.
    pub words: &'static str,
    /// None of these words stands there.
    pub unless: &'static str,
    /// The key that must be printed.
    pub key: KeyAsked,
    /// The music is older than this year, which is known.
    pub before: Option<i32>,
    /// The label has no word that says which kind of the instrument it is.
    pub bare: bool,
    /// The row that may be meant.
    pub other: &'static str,
    /// How it transposes, where not by itself.
    pub transposition: Option<Transposition>,
    /// When the trade means it.
    pub reason: &'static str,
    /// What was taken for granted, as a sentence; empty for nothing.
    pub assumed: &'static str,
}
