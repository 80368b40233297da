//! One answer as it is remembered, and answers counted.

use super::item::{Item, StaffKey};
use crate::kind::Kind;
use crate::mistake::Mistake;
use crate::pace::Pace;
use crookwise_theory::Tonic;

/// Milliseconds of the longest time that is kept; who is away longer was away.
pub const LONGEST_MS: u32 = 600_000;

/// An answer to a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Attempt {
    /// When, in seconds since 1970 as the reader's clock shows them ([`Zone`](super::Zone)): days break at its midnight.
    pub at: u64,
    /// What was asked.
    pub item: Item,
    /// Whether the answer was right.
    pub right: bool,
    /// Mistakes that explain a wrong answer, the first set wherever the second is.
    pub mistakes: [Option<Mistake>; 2],
    /// Milliseconds from question to answer.
    pub ms: u32,
}

/// Answers counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Counts {
    /// All of them; for a mistake, how often it was made.
    pub asked: u32,
    /// The right ones.
    pub right: u32,
    /// The right and quick ones.
    pub fluent: u32,
}

/// What answers are counted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// All answers on a staff.
    Staff(StaffKey),
    /// All answers about a written note by its name.
    Note(Tonic),
    /// All answers to a kind of question.
    Kind(Kind),
    /// A mistake that was made.
    Mistake(Mistake),
}

impl Attempt {
    /// An answer; of the mistakes the first two count.
    #[must_use]
    pub fn new(at: u64, item: Item, right: bool, mistakes: &[Mistake], ms: u32) -> Self {
        let mut known = mistakes.iter().copied().filter(|_| !right);
        Self { at, item, right, mistakes: [known.next(), known.next()], ms: ms.min(LONGEST_MS) }
    }

    /// Right and quick.
    #[must_use]
    pub fn is_fluent(&self) -> bool {
        self.right && self.pace() == Pace::Fluent
    }

    /// How quickly it came.
    #[must_use]
    pub fn pace(&self) -> Pace {
        Pace::of(self.item.kind, self.ms)
    }

    /// Everything it counts for. What is asked about all staves of a page together counts for none of them.
    pub fn subjects(&self) -> impl Iterator<Item = Subject> + use<> {
        let Item { kind, staff, note, .. } = self.item;
        let mistakes = self.mistakes.into_iter().flatten().map(Subject::Mistake);
        let staff = kind.is_of_one_staff().then_some(Subject::Staff(staff));
        [staff, note.map(Subject::Note), Some(Subject::Kind(kind))].into_iter().flatten().chain(mistakes)
    }
}

impl Counts {
    /// Counts one answer more.
    pub fn add(&mut self, attempt: &Attempt) {
        self.asked = self.asked.saturating_add(1);
        self.right = self.right.saturating_add(attempt.right.into());
        self.fluent = self.fluent.saturating_add(attempt.is_fluent().into());
    }

    /// Both together.
    #[must_use]
    pub const fn plus(self, other: Self) -> Self {
        Self {
            asked: self.asked.saturating_add(other.asked),
            right: self.right.saturating_add(other.right),
            fluent: self.fluent.saturating_add(other.fluent),
        }
    }
}
