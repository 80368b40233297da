//! Which questions a link asks for: those it asked for when it was sent, but for what was unjust in them.
//!
//! A later edition may draw otherwise; an exercise keeps its own, so what is drawn otherwise now stands beside what was
//! drawn at first. Only what was unjust is mended in every edition, and said.

use crate::exercise::{Exercise, Material};
use crate::kind::Kind;
use crate::planted::Misreading;
use crate::question::Question;
use crookwise_score::{ChangeTo, Event, Passage};
use crookwise_theory::{CrookFamily, Reading};

/// The rules by which an exercise draws its questions. Each has a number in links, which never changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Edition {
    /// Of the first links.
    First,
    /// Low horns have low notes, what the hand makes is asked for more than what is open, a pair of winds keeps
    /// together, a copyist slips as copyists do, a clef is asked once, the instrument in hand has the notes, a raised note is
    /// spelled as its key has it.
    Second,
    /// Two players with crooks of their own make consonances, notes stand where their clef and instrument usually have them,
    /// a triad lies on the member that it lies on in music, the degree of a horn is asked in other keys than its own, a label
    /// is asked where there is something to read.
    Third,
    /// Every staff is asked about before one comes again, and a note before a change of crook as well as after it.
    Fourth,
}

/// What was unjust in the questions of an exercise and is no longer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mended {
    /// Chords had their bass in any staff, and natural brass notes that it has not: they are voiced as scores have them.
    Chords,
    /// A staff was misread by another clef in every column: it is misread by one mistake throughout.
    Misread,
    /// A copy had neither the second player's notes nor what is held or changes: it has all of it.
    Copies,
    /// A change of crook counted and was not shown: it is printed, over a rest.
    Changes,
    /// Of two ways in which sources have a note made only one was right: both are.
    Making,
    /// Choices for the instrument in hand came of mistakes that lead elsewhere: they come of mistakes on the way to it.
    InHand,
}

impl Edition {
    /// Every edition, in the order of their numbers from 1.
    pub const ALL: [Self; 4] = [Self::First, Self::Second, Self::Third, Self::Fourth];
    /// What is made now.
    pub const NOW: Self = Self::Fourth;

    /// Its number in links, from 1. It never changes.
    #[must_use]
    pub const fn code(self) -> u8 {
        self as u8 + 1
    }

    /// The edition of that number.
    #[must_use]
    pub fn from_code(code: u8) -> Option<Self> {
        Self::ALL.get(usize::from(code.checked_sub(1)?)).copied()
    }

    /// Whether it draws as the third edition was the first to do.
    pub(crate) const fn has_third(self) -> bool {
        matches!(self, Self::Third | Self::Fourth)
    }

    /// Whether it draws as the fourth edition was the first to do.
    pub(crate) const fn has_fourth(self) -> bool {
        matches!(self, Self::Fourth)
    }

    /// Whether it draws as the first links did.
    pub(crate) const fn is_first(self) -> bool {
        matches!(self, Self::First)
    }
}

impl Mended {
    /// All of them.
    pub const ALL: [Self; 6] =
        [Self::Chords, Self::Misread, Self::Copies, Self::Changes, Self::Making, Self::InHand];

    /// Whether a question of the first edition was another one before.
    fn touches(self, question: &Question, exercise: &Exercise) -> bool {
        // On a page of the reader's own chords and changes are as they stand there.
        let readers = matches!(exercise.material, Material::Passage(_));
        let (kind, page) = (question.kind, &question.passage);
        match self {
            Self::Chords => !readers && matches!(kind, Kind::Chord | Kind::WrongStaff),
            Self::Misread => !readers && kind == Kind::WrongStaff,
            Self::Copies => kind == Kind::WrongNote && has_more_than_notes(page),
            Self::Changes => !readers && changes_crook(page),
            Self::Making => is_made_in_two_ways_since(question),
            Self::InHand => kind == Kind::InHand && exercise.choices,
        }
    }
}

/// Whether a copy of the first staff that has the first player's new notes only would leave something out.
fn has_more_than_notes(page: &Passage) -> bool {
    let held = |column| page.event(0, column, 0) == Some(Event::Held);
    let more = page.staves().first().is_some_and(|staff| staff.players() > 1 || !staff.changes().is_empty());
    more || (0..page.columns().len()).any(held)
}

fn changes_crook(page: &Passage) -> bool {
    let mut changes = page.staves().iter().flat_map(crookwise_score::Staff::changes);
    changes.any(|change| matches!(change.to, ChangeTo::Label(_)))
}

/// Written notes of the horn, by MIDI number, that have a second way since the sources were compared.
const TWO_WAYS: [i32; 4] = [56, 68, 70, 77];

fn is_made_in_two_ways_since(question: &Question) -> bool {
    let horn = |reading: &Reading| reading.making.is_some_and(|making| making.family == CrookFamily::Horn);
    let reading = question.reading().filter(|_| question.kind == Kind::Made).filter(horn);
    reading.is_some_and(|reading| TWO_WAYS.contains(&reading.written.0.midi()))
}

impl Exercise {
    /// What was mended in its questions since its link was sent; nothing where they are what they were.
    ///
    /// ```
    /// use crookwise_practice::{AskedStaff, Edition, Exercise, Kind, Mended};
    ///
    /// let staves = ["Corni in Es", "Violini", "Viole", "Violoncelli"].map(AskedStaff::of).into();
    /// let old = Exercise { edition: Edition::First, kinds: vec![Kind::Chord], staves, ..Exercise::default() };
    /// assert_eq!(old.mended(), [Mended::Chords]);
    /// assert_eq!(Exercise { kinds: vec![Kind::Sounds], ..old }.mended(), []);
    /// ```
    #[must_use]
    pub fn mended(&self) -> Vec<Mended> {
        if !self.edition.is_first() {
            return Vec::new();
        }
        let questions = self.questions().unwrap_or_default();
        let touched = |mended: &Mended| questions.iter().any(|question| mended.touches(question, self));
        let mut mended: Vec<Mended> = Mended::ALL.into_iter().filter(touched).collect();
        let heard = self.kinds.contains(&Kind::WrongStaff) && mended.is_empty();
        if heard && self.drawn(Misreading::Anyhow).as_ref() != Ok(&questions) {
            mended.push(Mended::Misread);
        }
        mended
    }
}
