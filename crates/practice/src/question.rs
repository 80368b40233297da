//! A question: the page it shows, the place it asks about, what is right.

use crate::answer::{Answer, Which};
use crate::ask::{ask, resolved};
use crate::kind::Kind;
use crate::labels;
use crate::mistake::Mistake;
use crate::page::around;
use crookwise_score::{ChangeTo, Passage};
use crookwise_theory::{Pitch, Sounding};

/// A question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// What is asked.
    pub kind: Kind,
    /// The page to draw. Where something must be written the place asked about is a rest.
    pub passage: Passage,
    /// The place asked about. For a chord its column counts, for a copy or a heard page nothing.
    pub at: Spot,
    /// What shall sound, where it is asked what must be written.
    pub given: Option<Sounding>,
    /// The label of the instrument in hand, where it matters.
    pub in_hand: Option<String>,
    /// The right answer.
    pub right: Answer,
    /// What is right as well: another way to make the note, the strict spelling of a note the trade prints otherwise.
    pub also: Vec<Answer>,
    /// What to choose from, the right one among them; empty for a free answer.
    pub choices: Vec<Answer>,
    /// What is to be heard.
    pub heard: Option<QuestionSound>,
    /// The mistake that was planted in a copy or in what is heard.
    pub planted: Option<Mistake>,
}

impl Question {
    /// A question with nothing but its page, its place and its answer.
    pub(crate) const fn plain(kind: Kind, passage: Passage, at: Spot, right: Answer) -> Self {
        Self {
            kind,
            passage,
            at,
            given: None,
            in_hand: None,
            right,
            also: Vec::new(),
            choices: Vec::new(),
            heard: None,
            planted: None,
        }
    }

    /// A question about the note that begins at a place of a passage, with the columns around it on its staff; `None` where
    /// that kind cannot be asked of it.
    ///
    /// ```
    /// use crookwise_practice::{Answer, Kind, Question, Spot};
    /// use crookwise_score::Passage;
    ///
    /// let empty = Passage::of_staff("Corno in D");
    /// assert_eq!(Question::of_place(Kind::Sounds, &empty, Spot::default()), None);
    /// ```
    #[must_use]
    pub fn of_place(kind: Kind, passage: &Passage, at: Spot) -> Option<Self> {
        let (page, at) = around(passage, at)?;
        ask(kind, page, at, None)
    }

    /// The place on the one staff that is asked about; `None` where all staves of the page are.
    pub(crate) fn spot_of_staff(&self) -> Option<Spot> {
        // A copy stands under the part it was made from: the part is what is read.
        let at = if self.kind == Kind::WrongNote { Spot::default() } else { self.at };
        self.kind.is_of_one_staff().then_some(at)
    }

    /// The change of crook that holds at the place asked about, as it was typed.
    pub(crate) fn change_that_holds(&self) -> Option<&str> {
        let at = self.spot_of_staff()?;
        let changes = self.passage.staves().get(at.staff)?.changes();
        changes.iter().rev().find_map(|change| match &change.to {
            ChangeTo::Label(text)
                if change.column <= at.column && change.player.is_none_or(|player| player == at.player) =>
            {
                Some(text.as_str())
            }
            _ => None,
        })
    }

    /// The label of the staff that is asked about, as it was printed. After a change of crook, and where two players stand in
    /// two crooks, as the same hand would have labelled the one that was read; `None` for all staves of a page.
    #[must_use]
    pub fn staff_as_met(&self) -> Option<String> {
        let at = self.spot_of_staff()?;
        let staff = self.passage.staves().get(at.staff)?;
        let resolved = resolved(&self.passage, at.staff)?;
        let crook = |player| resolved.place_at(at.column, player).map(|place| place.staff.transposition);
        let one = (0..staff.players()).all(|player| crook(player) == crook(0));
        if one && self.change_that_holds().is_none() {
            return Some(staff.label.clone());
        }
        let first = &resolved.place_at(0, at.player)?.staff;
        Some(labels::like(&staff.label, first, &resolved.place_at(at.column, at.player)?.staff))
    }
}

/// A place in a passage, counted from 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Spot {
    /// The staff, from the top.
    pub staff: usize,
    /// The column.
    pub column: usize,
    /// The player of the staff.
    pub player: usize,
}

/// What is to be heard.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum QuestionSound {
    /// The whole page as it was played, one staff wrong.
    Page(Vec<Played>),
    /// The note asked about twice: as the tube gives it, and corrected to the tuning.
    Two {
        /// Which of them is the natural one.
        natural: Which,
    },
}

/// A note as it was played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Played {
    /// Where it stands on the page.
    pub at: Spot,
    /// What was heard there.
    pub sounding: Sounding<Pitch>,
}

#[cfg(test)]
mod tests {
    use crate::exercise::{AskedStaff, Exercise};
    use crate::kind::Kind;

    #[test]
    fn a_staff_is_named_as_it_was_met_after_a_change_and_for_each_of_a_pair() {
        let met = |kind: Kind, staff: AskedStaff| {
            let exercise = Exercise { kinds: vec![kind], staves: vec![staff], ..Exercise::default() };
            let mut met: Vec<String> =
                exercise.questions().unwrap().iter().filter_map(super::Question::staff_as_met).collect();
            met.sort_unstable();
            met.dedup();
            met
        };
        assert_eq!(met(Kind::Sounds, AskedStaff::of("2 Corni in Es")), ["2 Corni in Es"]);
        let changing = AskedStaff { muta: Some("Es".into()), ..AskedStaff::of("Corni in C basso") };
        assert!(met(Kind::Sounds, changing).contains(&"Corni in Es".to_owned()));
        let pair = AskedStaff { pair: true, ..AskedStaff::of("Corno I in B alto, Corno II in G") };
        assert_eq!(met(Kind::Sounds, pair), ["Corni in B alto", "Corni in G"]);
    }
}
