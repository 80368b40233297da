//! How far a step is: what it teaches, item by item, and when it is mastered.

use super::CourseStep;
use crate::exercise::{Exercise, MOST_QUESTIONS};
use crate::kind::Kind;
use crate::record::{Item, Record};
use std::sync::OnceLock;

/// What each step teaches: all of its questions are made once to know it, and the course asks for it again and again.
static ITEMS: [OnceLock<Vec<Item>>; CourseStep::ALL.len()] =
    [const { OnceLock::new() }; CourseStep::ALL.len()];

/// Answers that decide whether a step is mastered: the latest ones.
pub const LATEST: usize = 20;
/// How many of them must be right.
const RIGHT: usize = 18;
/// How many of them must be right and quick.
const FLUENT: usize = 16;

/// How far a step is, by the latest answers on its staves.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// How many answers there are, up to [`LATEST`].
    pub asked: usize,
    /// How many of them are right.
    pub right: usize,
    /// How many of them are right and quick.
    pub fluent: usize,
    /// Whether the step is mastered: twenty answers, eighteen right, sixteen of them quick, and every staff of the step
    /// answered. A reader who misses one note in ten still follows a score; who stops at one in five does not. Our own
    /// estimate, from memory of teaching practice: no study is known.
    pub mastered: bool,
}

impl CourseStep {
    /// What it teaches, item by item: all that its exercises ask, the easy ones first.
    #[must_use]
    pub fn items(&self) -> &'static [Item] {
        let place = usize::from(self.number).checked_sub(1).and_then(|at| ITEMS.get(at));
        place.map_or(&[], |place| place.get_or_init(|| self.asked_items()))
    }

    /// The kinds of questions that its exercises ask, which is known without making any.
    #[must_use]
    pub fn kinds(&self) -> Vec<Kind> {
        self.exercises().into_iter().flat_map(|exercise| exercise.kinds).collect()
    }

    fn asked_items(&self) -> Vec<Item> {
        let mut items = Vec::new();
        for exercise in self.exercises() {
            let long = Exercise { questions: MOST_QUESTIONS, ..exercise };
            for item in long.questions().unwrap_or_default().iter().filter_map(Item::of) {
                if !items.contains(&item) {
                    items.push(item);
                }
            }
        }
        items
    }
}

impl Progress {
    /// How far a step is.
    #[must_use]
    pub fn of(step: &CourseStep, record: &Record) -> Self {
        let attempts = record.attempts();
        let kinds = step.kinds();
        if !attempts.iter().any(|attempt| kinds.contains(&attempt.item.kind)) {
            return Self::default();
        }
        let items = step.items();
        let belongs =
            |asked: &Item| items.iter().any(|item| (item.kind, item.staff) == (asked.kind, asked.staff));
        let own = || attempts.iter().rev().filter(|attempt| belongs(&attempt.item));
        let mut progress = Self::default();
        for attempt in own().take(LATEST) {
            progress.asked += 1;
            progress.right += usize::from(attempt.right);
            progress.fluent += usize::from(attempt.is_fluent());
        }
        let everywhere =
            items.iter().all(|item| own().any(|attempt| attempt.item.staff == item.staff && attempt.right));
        let enough = progress.asked == LATEST && progress.right >= RIGHT && progress.fluent >= FLUENT;
        progress.mastered = enough && everywhere;
        progress
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Attempt;

    #[test]
    fn every_item_of_every_step_can_be_asked_by_itself() {
        for step in CourseStep::ALL {
            let items = step.items();
            assert!(items.len() >= 8, "{}: {}", step.number, items.len());
            for item in items {
                assert!(step.kinds().contains(&item.kind), "{}: {item:?}", step.number);
                let asked = item.exercise(1).and_then(|exercise| exercise.questions().ok());
                let again = asked.as_ref().and_then(|questions| Item::of(questions.first()?));
                let again = again.unwrap_or_else(|| panic!("{}: {item:?}", step.number));
                assert_eq!((again.kind, again.note), (item.kind, item.note), "{}: {item:?}", step.number);
                if item.note.is_some() {
                    assert_eq!(again.staff, item.staff, "{}", step.number);
                }
            }
        }
    }

    #[test]
    fn a_step_is_mastered_when_it_is_read_fluently_on_all_its_staves() {
        let step = CourseStep::ALL[6];
        let items = step.items();
        let answer = |many: usize, right: usize, ms| {
            let mut record = Record::default();
            // Every staff in turn, whatever the order of the items.
            for number in 0..many {
                let item = items[number * 7 % items.len()];
                record.add(1, Attempt::new(number as u64, item, number >= many - right, &[], ms));
            }
            Progress::of(&step, &record)
        };
        assert!(answer(60, 60, 2000).mastered);
        assert!(answer(60, 18, 2000).right == 18);
        assert!(!answer(19, 19, 2000).mastered);
        assert!(!answer(60, 60, 9000).mastered);
        assert!(!answer(60, 17, 2000).mastered);
        let mut one_staff = Record::default();
        for number in 0..40 {
            one_staff.add(1, Attempt::new(number, items[0], true, &[], 2000));
        }
        let progress = Progress::of(&step, &one_staff);
        assert_eq!((progress.fluent, progress.mastered), (20, false));
        assert_eq!(Progress::of(&step, &Record::default()), Progress::default());
    }

    #[test]
    fn answers_of_another_step_do_not_count() {
        let mut record = Record::default();
        CourseStep::ALL[9]
            .items()
            .iter()
            .for_each(|item| record.add(1, Attempt::new(1, *item, true, &[], 100)));
        assert_eq!(Progress::of(&CourseStep::ALL[1], &record).asked, 0);
    }
}
