//! The leaves of the panel beside the staves: one is seen at a time.

use crate::words;

/// A leaf.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leaf {
    /// What the column makes together.
    Chord,
    /// The natural series.
    Series,
    /// All about the selected note.
    Note,
    /// Three ways to read it.
    Ways,
}

impl Leaf {
    /// Those there are: the chord where several play, the series where there is one.
    #[must_use]
    pub fn all(several: bool, series: bool) -> Vec<Self> {
        let wanted = [(Self::Chord, several), (Self::Series, series), (Self::Note, true), (Self::Ways, true)];
        wanted.into_iter().filter(|(_, there)| *there).map(|(leaf, _)| leaf).collect()
    }

    /// The one that is seen: what the reader opened, as long as it is there, else the first.
    #[must_use]
    pub fn seen(opened: Option<Self>, all: &[Self]) -> Self {
        let first = all.first().copied().unwrap_or(Self::Note);
        opened.filter(|leaf| all.contains(leaf)).unwrap_or(first)
    }

    /// The one so many places on, round and round.
    #[must_use]
    pub fn beside(self, all: &[Self], places: isize) -> Self {
        let count = isize::try_from(all.len().max(1)).unwrap_or(1);
        let here = all.iter().position(|leaf| *leaf == self).unwrap_or(0);
        let there = isize::try_from(here).unwrap_or(0).saturating_add(places).rem_euclid(count);
        usize::try_from(there).ok().and_then(|there| all.get(there)).copied().unwrap_or(self)
    }

    /// What stands on its tab.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Chord => words::staves::CHORD,
            Self::Series => words::staves::SERIES,
            Self::Note => words::staves::THIS_NOTE,
            Self::Ways => words::staves::THREE_WAYS,
        }
    }

    /// The id of its tab.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Chord => "leaf-chord",
            Self::Series => "leaf-series",
            Self::Note => "leaf-note",
            Self::Ways => "leaf-ways",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_leaf_that_was_opened_stays_while_it_is_there() {
        let horn = Leaf::all(false, true);
        assert_eq!(horn, [Leaf::Series, Leaf::Note, Leaf::Ways]);
        assert_eq!(Leaf::seen(None, &horn), Leaf::Series);
        assert_eq!(Leaf::seen(Some(Leaf::Ways), &horn), Leaf::Ways);
        let flute = Leaf::all(false, false);
        assert_eq!(Leaf::seen(Some(Leaf::Series), &flute), Leaf::Note);
        assert_eq!(Leaf::seen(None, &Leaf::all(true, true)), Leaf::Chord);
    }

    #[test]
    fn arrows_go_round_the_leaves() {
        let all = Leaf::all(true, false);
        assert_eq!(Leaf::Chord.beside(&all, 1), Leaf::Note);
        assert_eq!(Leaf::Ways.beside(&all, 1), Leaf::Chord);
        assert_eq!(Leaf::Chord.beside(&all, -1), Leaf::Ways);
    }
}
