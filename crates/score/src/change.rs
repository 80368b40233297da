//! What changes in the course of a staff: clef, signature, crook. A staff keeps its changes in order, one of a kind for
//! each player before a column.

use crate::staff::SignatureSource;
use crookwise_theory::Clef;

/// Something that changes before a column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The first column it holds for.
    pub column: usize,
    /// The player it is for, counted from 0; `None` for all players of the staff. Clef and signature are always for all.
    pub player: Option<usize>,
    /// What changes.
    pub to: ChangeTo,
}

/// What can change in the course of a passage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ChangeTo {
    /// The clef.
    Clef(Clef),
    /// The key signature.
    Signature(SignatureSource),
    /// The label: another crook or instrument.
    Label(String),
}

/// The kinds of change, without what they change to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ChangeKind {
    /// The label: another crook or instrument.
    Label,
    /// The clef.
    Clef,
    /// The key signature.
    Signature,
}

impl ChangeTo {
    /// Its kind.
    #[must_use]
    pub const fn kind(&self) -> ChangeKind {
        match self {
            Self::Label(_) => ChangeKind::Label,
            Self::Clef(_) => ChangeKind::Clef,
            Self::Signature(_) => ChangeKind::Signature,
        }
    }
}

impl Change {
    /// Where it stands among the others: by column, what is for all before what is for one player.
    const fn order(&self) -> (usize, ChangeKind, Option<usize>) {
        (self.column, self.to.kind(), self.player)
    }

    /// Whether another one before the same column leaves nothing of this.
    fn gives_way_to(&self, other: &Self) -> bool {
        self.to.kind() == other.to.kind() && (other.player.is_none() || other.player == self.player)
    }
}

/// Puts a change in its place. One of the same kind for the same player before the same column goes; what is for all
/// takes the place of what was for one.
pub(crate) fn put(changes: &mut Vec<Change>, change: Change) {
    changes.retain(|old| old.column != change.column || !old.gives_way_to(&change));
    let at = changes.partition_point(|old| old.order() < change.order());
    changes.insert(at, change);
}

/// Opens a column: a change stays with the column it stood before.
pub(crate) fn open_column(changes: &mut [Change], column: usize) {
    for change in changes.iter_mut().filter(|change| change.column >= column) {
        change.column += 1;
    }
}

/// Closes a column. What changed before it holds for what follows, unless that changes anyway; `columns` are left.
pub(crate) fn close_column(changes: &mut Vec<Change>, column: usize, columns: usize) {
    let (earlier, mut later): (Vec<Change>, Vec<Change>) =
        core::mem::take(changes).into_iter().partition(|change| change.column <= column);
    for change in &mut later {
        change.column -= 1;
    }
    for change in earlier {
        let replaced = change.column == column
            && (column >= columns
                || later.iter().any(|next| next.column == column && change.gives_way_to(next)));
        if !replaced {
            put(changes, change);
        }
    }
    for change in later {
        put(changes, change);
    }
}

/// Leaves only the changes that mean something with so many players. Where one player is left, his own changes are
/// those of the staff.
pub(crate) fn for_players(changes: &mut Vec<Change>, players: usize) {
    for mut change in core::mem::take(changes) {
        if change.player.is_none_or(|player| player < players) {
            change.player = change.player.filter(|_| players > 1);
            put(changes, change);
        }
    }
}
