//! What is chosen for a worksheet, and its questions in sections.

use crate::state::practise::asking::{AnswerWay, FIRST_OR_SECOND};
use crate::words::{self, Names};
use crookwise_practice::{Answer, Kind, Question};
use crookwise_theory::Clef;

/// What a teacher chooses for a worksheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PaperWishes {
    /// The paper.
    pub size: PaperSize,
    /// Room for answers that are notes.
    pub space: Space,
    /// The clefs of the empty staves for them.
    pub clef: AnswerClef,
    /// Points of each question; 0 for none.
    pub points: u32,
}

impl Default for PaperWishes {
    fn default() -> Self {
        Self { size: PaperSize::A4, space: Space::Staff, clef: AnswerClef::OfPart, points: 0 }
    }
}

/// A size of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaperSize {
    /// 210 by 297 millimetres.
    A4,
    /// 216 by 279 millimetres.
    Letter,
}

impl PaperSize {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Its name in the list's values and in the style sheet.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    /// Its name on the screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => words::exercise::LETTER,
        }
    }

    /// Pixels between the margins, 96 an inch.
    #[must_use]
    pub const fn width(self) -> f64 {
        match self {
            Self::A4 => 680.0,
            Self::Letter => 686.0,
        }
    }

    /// Pixels from the upper margin to the number of the page. The style sheet makes a page of this height and what the
    /// number takes.
    #[must_use]
    pub const fn height(self) -> f64 {
        match self {
            Self::A4 => 952.0,
            Self::Letter => 884.0,
        }
    }
}

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

/// The clefs of an empty staff for what sounds, or for what another instrument reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AnswerClef {
    /// The clef of the part that is read.
    OfPart,
    /// Treble clef.
    Treble,
    /// Bass clef.
    Bass,
    /// Two staves, as for a keyboard.
    Grand,
}

impl AnswerClef {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::OfPart, Self::Treble, Self::Bass, Self::Grand];

    /// Its name in the list's values.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::OfPart => "part",
            Self::Treble => "treble",
            Self::Bass => "bass",
            Self::Grand => "grand",
        }
    }

    /// Its name on the screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::OfPart => words::exercise::CLEF_OF_THE_PART,
            Self::Treble => words::exercise::TREBLE,
            Self::Bass => words::exercise::BASS,
            Self::Grand => words::exercise::TREBLE_AND_BASS,
        }
    }

    /// The staves, where the part's own clef is `part`.
    #[must_use]
    pub fn staves(self, part: Clef) -> Vec<Clef> {
        match self {
            Self::OfPart => vec![part],
            Self::Treble => vec![Clef::TREBLE],
            Self::Bass => vec![Clef::BASS],
            Self::Grand => vec![Clef::TREBLE, Clef::BASS],
        }
    }
}

/// The room for the answer of a question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PaperAnswer {
    /// Empty staves with these clefs under the question.
    Staves(Vec<Clef>),
    /// A line to write on.
    Line,
    /// Choices, lettered.
    Choices(Vec<String>),
    /// A box behind each staff, one of which is ticked.
    Boxes,
    /// Nothing: a note is circled where it stands.
    Circle,
}

impl PaperAnswer {
    /// The room for the answer of this question.
    #[must_use]
    pub fn of(question: &Question, wishes: PaperWishes, names: Names) -> Self {
        let said = |answer: &Answer| words::practise::answer(answer, question, names);
        match AnswerWay::of(question) {
            AnswerWay::Choices(choices) => Self::Choices(choices.iter().map(said).collect()),
            AnswerWay::Staves(_) => Self::Boxes,
            AnswerWay::Columns(_) => Self::Circle,
            AnswerWay::FirstOrSecond => {
                Self::Choices(FIRST_OR_SECOND.map(|which| said(&Answer::Which(which))).into())
            }
            AnswerWay::Notes { clef, .. } if wishes.space == Space::Staff => {
                // What is written for the part stands in the part's own clef.
                let chosen = if question.kind == Kind::Writes { AnswerClef::OfPart } else { wishes.clef };
                Self::Staves(chosen.staves(clef))
            }
            _ => Self::Line,
        }
    }
}

/// Questions of one kind under one instruction.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// What is asked of all of them.
    pub instruction: String,
    /// Each with its number on the worksheet, from 1, and what is said of it alone.
    pub items: Vec<PaperItem>,
}

/// A question on the worksheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PaperItem {
    /// Its number, from 1.
    pub number: usize,
    /// The question.
    pub question: Question,
    /// What differs from question to question of its section, in short; empty where nothing does.
    pub caption: String,
}

/// The questions in sections, kinds in the order in which they are first asked, and within a kind staves that look alike
/// after each other; numbers run on through all of them.
#[must_use]
pub fn sections(questions: &[Question], names: Names) -> Vec<Section> {
    let in_order: Vec<&Question> = order(questions).into_iter().filter_map(|at| questions.get(at)).collect();
    let mut number = 0;
    let section = |kind: Kind| {
        let all: Vec<&Question> = in_order.iter().copied().filter(|question| question.kind == kind).collect();
        let prompts: Vec<String> = all.iter().map(|one| words::practise::prompt(one, names)).collect();
        let shared = prompts.first().filter(|first| prompts.iter().all(|one| one == *first)).cloned();
        let item = |question: &&Question| {
            number += 1;
            let caption = match &shared {
                Some(_) => String::new(),
                None => words::paper::caption(question, names),
            };
            PaperItem { number, question: (*question).clone(), caption }
        };
        let items = all.iter().map(item).collect();
        // What all of them ask says it whole; only where they differ each has what is its own.
        let whole = shared.clone().filter(|_| matches!(kind, Kind::Writes | Kind::Degree));
        let own = words::paper::instruction(kind).map(str::to_owned);
        let instruction = whole.or(own).or(shared);
        let instruction = instruction.unwrap_or_else(|| words::practise::kind(kind).to_owned());
        let phrases = all.iter().any(|question| points_at_one_of_several(question));
        Section { instruction: words::paper::with_bracket(&instruction, phrases), items }
    };
    firsts(in_order.iter().map(|question| question.kind)).into_iter().map(section).collect()
}

/// The number that each question has on the worksheet, from 1, in the order in which they are asked: kinds and staves stand
/// together there.
#[must_use]
pub fn numbers(questions: &[Question]) -> Vec<usize> {
    let mut numbers = vec![0; questions.len()];
    for (at, number) in order(questions).into_iter().zip(1..) {
        if let Some(own) = numbers.get_mut(at) {
            *own = number;
        }
    }
    numbers
}

/// Which question comes first on the worksheet, then which, counted from 0.
fn order(questions: &[Question]) -> Vec<usize> {
    let kinds = questions.iter().map(|question| question.kind);
    let mut order = Vec::new();
    for kind in firsts(kinds) {
        let own: Vec<usize> = (0..questions.len())
            .filter(|&at| questions.get(at).is_some_and(|one| one.kind == kind))
            .collect();
        order.extend(alike_together(questions, &own));
    }
    order
}

/// What comes, each once, in the order in which it first comes.
fn firsts<T: PartialEq>(all: impl Iterator<Item = T>) -> Vec<T> {
    let mut met = Vec::new();
    for one in all {
        if !met.contains(&one) {
            met.push(one);
        }
    }
    met
}

/// Whether one note among several is meant, so that it is marked.
#[must_use]
pub fn points_at_one_of_several(question: &Question) -> bool {
    let several = question.passage.columns().len() > 1;
    several && !matches!(question.kind, Kind::WrongNote | Kind::WrongStaff | Kind::Label)
}

/// Questions of the same staff after each other, staves in the order in which they first come.
fn alike_together(questions: &[Question], own: &[usize]) -> Vec<usize> {
    let labels = |at: usize| -> Vec<String> {
        let staves = questions.get(at).map(|question| question.passage.staves()).unwrap_or_default();
        staves.iter().map(|staff| staff.label.clone()).collect()
    };
    let met = firsts(own.iter().map(|at| labels(*at)));
    met.iter().flat_map(|one| own.iter().copied().filter(move |at| labels(*at) == *one)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::{AskedStaff, Exercise};

    #[test]
    fn what_a_single_question_asks_for_stands_in_its_instruction() {
        for (kind, told) in [(Kind::Degree, "Which degree of "), (Kind::Writes, "What must be written")] {
            let staves = vec![AskedStaff::of("Corni in Es")];
            let exercise = Exercise { kinds: vec![kind], staves, questions: 1, ..Exercise::default() };
            let questions = exercise.questions().unwrap();
            let section = &sections(&questions, Names::default())[0];
            assert!(section.instruction.starts_with(told), "{}", section.instruction);
            let own = words::practise::prompt(&questions[0], Names::default());
            assert!(
                section.instruction.contains(own.trim_end_matches('.'))
                    || !section.items[0].caption.is_empty()
            );
        }
    }

    #[test]
    fn one_instruction_stands_over_all_questions_of_a_kind_and_numbers_run_on() {
        let kinds = vec![Kind::Sounds, Kind::Writes, Kind::Partial];
        let staves = ["Corni in Es", "Clarinetti in A"].map(AskedStaff::of).to_vec();
        let exercise = Exercise { kinds, staves, questions: 18, ..Exercise::default() };
        let questions = exercise.questions().unwrap();
        let on_paper = numbers(&questions);
        let sections = sections(&questions, Names::default());
        assert_eq!(sections.len(), 3);
        // The wall knows the number that each has on paper.
        for item in sections.iter().flat_map(|one| &one.items) {
            let at = on_paper.iter().position(|number| *number == item.number).unwrap();
            assert_eq!(questions[at], item.question);
        }
        assert_ne!(on_paper, (1..=18).collect::<Vec<_>>());
        let numbers: Vec<usize> =
            sections.iter().flat_map(|one| one.items.iter().map(|item| item.number)).collect();
        assert_eq!(numbers, (1..=18).collect::<Vec<_>>());
        for one in &sections {
            let kind = one.items[0].question.kind;
            assert!(one.items.iter().all(|item| item.question.kind == kind));
            // What differs from question to question stands at each.
            assert_eq!(
                one.items.iter().all(|item| !item.caption.is_empty()),
                kind == Kind::Writes,
                "{kind:?}"
            );
            // Each staff comes once: its questions stand after each other.
            let mut labels: Vec<&str> =
                one.items.iter().map(|item| item.question.passage.staves()[0].label.as_str()).collect();
            labels.dedup();
            assert!(labels.len() <= 2, "{labels:?}");
        }
    }

    #[test]
    fn the_clef_of_the_answers_is_as_asked_for() {
        let of = |kind: Kind, clef: AnswerClef| {
            let staves = vec![AskedStaff::of("Corni in Es")];
            let exercise = Exercise { kinds: vec![kind], staves, questions: 1, ..Exercise::default() };
            let wishes = PaperWishes { clef, ..PaperWishes::default() };
            PaperAnswer::of(&exercise.questions().unwrap()[0], wishes, Names::default())
        };
        let (treble, bass) = (Clef::TREBLE, Clef::BASS);
        assert_eq!(of(Kind::Sounds, AnswerClef::OfPart), PaperAnswer::Staves(vec![treble]));
        assert_eq!(of(Kind::Sounds, AnswerClef::Bass), PaperAnswer::Staves(vec![bass]));
        assert_eq!(of(Kind::Sounds, AnswerClef::Grand), PaperAnswer::Staves(vec![treble, bass]));
        // A part is written in its own clef.
        assert_eq!(of(Kind::Writes, AnswerClef::Bass), PaperAnswer::Staves(vec![treble]));
        assert_eq!(of(Kind::Partial, AnswerClef::Bass), PaperAnswer::Line);
    }
}
