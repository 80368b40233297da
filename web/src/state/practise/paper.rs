//! How a question stands on paper.

use crate::state::score_sheet::Room;
use crate::words::{self, Names};
use crookwise_practice::{Kind, Question};

/// Pixels of a line of paper and of half of one: 180 millimetres at 96 pixels an inch, less the number.
const LINE: f64 = 640.0;
const HALF: f64 = 300.0;
/// Columns that still stand on half a line.
const FEW: usize = 3;

/// Room for an answer that is a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Space {
    /// An empty staff.
    Staff,
    /// A line for its name.
    Line,
}

impl Space {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Staff, Self::Line];

    /// Its name in the list's values.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Staff => "staff",
            Self::Line => "line",
        }
    }

    /// Its name on the screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Staff => words::exercise::EMPTY_STAVES,
            Self::Line => words::exercise::A_LINE_FOR_NAMES,
        }
    }
}

/// The room of a question.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PaperRoom {
    /// How wide its page is.
    pub room: Room,
    /// Whether it takes a whole line.
    pub whole_line: bool,
}

/// Questions of one kind under one instruction.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// What is asked of all of them.
    pub instruction: String,
    /// Each with its number on the worksheet, from 1, and what is asked of it alone.
    pub items: Vec<(usize, Question, Option<String>)>,
}

/// The questions in sections, kinds in the order in which they are first asked; numbers run on through all of them.
#[must_use]
pub fn sections(questions: &[Question], names: Names) -> Vec<Section> {
    let mut kinds: Vec<Kind> = Vec::new();
    for question in questions {
        if !kinds.contains(&question.kind) {
            kinds.push(question.kind);
        }
    }
    let mut number = 0;
    let section = |kind: Kind| {
        let all = || questions.iter().filter(|question| question.kind == kind);
        let first = all().next().map(|question| words::practise::prompt(question, names));
        let shared = first.filter(|first| all().all(|one| words::practise::prompt(one, names) == *first));
        let alone = shared.is_none();
        let items = all()
            .map(|question| {
                number += 1;
                (number, question.clone(), alone.then(|| words::practise::prompt(question, names)))
            })
            .collect();
        Section { instruction: shared.unwrap_or_else(|| words::practise::kind(kind).to_owned()), items }
    };
    kinds.into_iter().map(section).collect()
}

/// Short questions stand two to a line.
#[must_use]
pub fn room(question: &Question) -> PaperRoom {
    let (columns, staves) = (question.passage.columns().len(), question.passage.staves().len());
    let whole_line = columns > FEW || staves > 2 && columns > 1;
    PaperRoom { room: Room::wide(if whole_line { LINE } else { HALF }), whole_line }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::{AskedStaff, Exercise};

    #[test]
    fn chords_of_one_column_stand_two_to_a_line() {
        let labels = ["Clarinetti in B", "Corni in Es", "Viola", "Violoncello"];
        let staves = labels.map(AskedStaff::of).to_vec();
        let kinds = vec![Kind::Chord];
        let exercise = Exercise { kinds, staves, choices: true, questions: 4, ..Exercise::default() };
        for question in exercise.questions().unwrap() {
            assert_eq!(room(&question).whole_line, question.passage.columns().len() > 1);
        }
    }

    #[test]
    fn one_instruction_stands_over_all_questions_of_a_kind_and_numbers_run_on() {
        let kinds = vec![Kind::Sounds, Kind::Writes, Kind::Partial];
        let staves = vec![AskedStaff::of("Corni in Es")];
        let exercise = Exercise { kinds, staves, questions: 9, ..Exercise::default() };
        let questions = exercise.questions().unwrap();
        let sections = sections(&questions, Names::default());
        assert_eq!(sections.len(), 3);
        let numbers: Vec<usize> =
            sections.iter().flat_map(|one| one.items.iter().map(|item| item.0)).collect();
        assert_eq!(numbers, (1..=9).collect::<Vec<_>>());
        for one in &sections {
            let kind = one.items[0].1.kind;
            assert!(one.items.iter().all(|item| item.1.kind == kind));
            // What differs from question to question stands at each.
            assert_eq!(one.items.iter().all(|item| item.2.is_some()), kind == Kind::Writes, "{kind:?}");
            for (_, question, alone) in &one.items {
                let asked = alone.clone().unwrap_or_else(|| one.instruction.clone());
                assert_eq!(asked, words::practise::prompt(question, Names::default()));
            }
        }
    }
}
