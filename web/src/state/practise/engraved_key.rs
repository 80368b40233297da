//! The key of a worksheet where answers are notes: the right ones on staves, each under its number and name, those of a staff
//! on one staff. How they follow stands once beside the label.

use crate::state::practise::asking::{AnswerWay, low_or_high};
use crate::state::practise::engraved::{PaperLine, arranged};
use crate::state::practise::engraved_draft::{Draft, DraftItem};
use crate::state::practise::paper::{PaperAnswer, PaperItem, PaperWishes};
use crate::state::practise::picture::UnlaidPage;
use crate::words::{self, Names};
use crookwise_engraving::{ColumnSpec, NoteSpec, StaffSpec};
use crookwise_practice::{Answer, Kind, Question};
use crookwise_theory::{Clef, Pitch, Signature};

/// Pixels of a staff space: it is read, and written on no more.
const SPACE: f64 = 6.0;
/// The least room for a note under its number and name, in staff spaces.
const BAR: f64 = 9.5;

/// The right notes, where the answer is notes that the reader writes himself.
fn right_notes(question: &Question) -> Option<Vec<Pitch>> {
    let is_written = matches!(AnswerWay::of(question), AnswerWay::Notes { .. });
    match &question.right {
        Answer::Note(note) if is_written => Some(vec![*note]),
        Answer::Notes(notes) if is_written => Some(notes.clone()),
        _ => None,
    }
}

/// Whether the answer stands on a staff in the key.
#[must_use]
pub fn is_engraved(question: &Question) -> bool {
    right_notes(question).is_some()
}

/// The answers that are notes, in lines.
#[must_use]
pub fn key_lines(items: &[PaperItem], wishes: PaperWishes, names: Names) -> Vec<PaperLine> {
    let noted: Vec<(&PaperItem, Vec<Pitch>)> =
        items.iter().filter_map(|item| Some((item, right_notes(&item.question)?))).collect();
    // All of a staff lie in one clef.
    let together = |label: &str| -> Vec<Pitch> {
        let same = noted.iter().filter(|(item, _)| self::label(&item.question) == label);
        same.flat_map(|(_, notes)| notes.iter().copied()).collect()
    };
    let one = |(item, notes): &(&PaperItem, Vec<Pitch>)| {
        let clef = low_or_high(&together(label(&item.question)));
        draft(item, notes.clone(), clef, names)
    };
    let drafts: Vec<Draft> = noted.iter().map(one).collect();
    if drafts.is_empty() { Vec::new() } else { arranged(drafts, wishes) }
}

fn label(question: &Question) -> &str {
    question.passage.staves().get(question.at.staff).map_or("", |staff| staff.label.as_str())
}

fn draft(item: &PaperItem, notes: Vec<Pitch>, clef: Clef, names: Names) -> Draft {
    let question = &item.question;
    let said = words::practise::answer(&question.right, question, names);
    let mut staff = head(question, clef, names);
    let notes = notes.into_iter().map(NoteSpec::new).collect();
    staff.columns = vec![ColumnSpec { notes, ..ColumnSpec::default() }];
    let own = DraftItem {
        number: item.number,
        name: words::paper::answer_said(item.number, &said),
        caption: said,
        choices: Vec::new(),
        columns: 1,
        meant: None,
        player: None,
    };
    let bar = BAR.max(own.width_over());
    Draft {
        items: vec![own],
        labels: vec![label(question).to_owned()],
        beside: words::right_way::shortest_way(question).into_iter().collect(),
        written: vec![staff],
        empty: Vec::new(),
        // Nothing is written on it.
        answer: PaperAnswer::Circle,
        bar,
        space: SPACE,
        least: 0.0,
        edge: 0.0,
    }
}

/// Clef and signature of the staff: of the part for what is written, else this clef.
fn head(question: &Question, clef: Clef, names: Names) -> StaffSpec {
    let of_part = || UnlaidPage::of(question, names).engraver_specs().into_iter().nth(question.at.staff);
    let part = (question.kind == Kind::Writes).then(of_part).flatten();
    part.map_or_else(
        || StaffSpec::new(clef, Signature::NONE),
        |part| {
            let (clef, signature) = part.in_force(question.at.column);
            StaffSpec::new(clef, signature)
        },
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::practise::paper::sections;
    use crookwise_practice::{AskedStaff, Exercise};

    #[test]
    fn the_right_notes_stand_on_a_staff_each_by_its_number_and_name() {
        let staves = ["Corni in Es", "Clarinetti in A"].map(AskedStaff::of).to_vec();
        for kind in [Kind::Sounds, Kind::Writes] {
            let exercise =
                Exercise { kinds: vec![kind], staves: staves.clone(), questions: 12, ..Exercise::default() };
            let sections = sections(&exercise.questions().unwrap(), Names::default());
            let lines = key_lines(&sections[0].items, PaperWishes::default(), Names::default());
            let mut numbers: Vec<usize> =
                lines.iter().flat_map(|line| &line.pieces).flat_map(|piece| piece.numbers.clone()).collect();
            numbers.sort_unstable();
            assert_eq!(numbers, (1..=12).collect::<Vec<_>>(), "{kind:?}");
            // It is compact: a dozen on two staves take a third of a page.
            let height: f64 = lines.iter().map(|line| line.height).sum();
            assert!(height < 340.0, "{kind:?}: {height} px");
            for piece in lines.iter().flat_map(|line| &line.pieces) {
                let items = sections[0].items.iter().filter(|item| piece.numbers.contains(&item.number));
                for item in items {
                    let right =
                        words::practise::answer(&item.question.right, &item.question, Names::default());
                    assert!(piece.name.contains(&format!("{}: {right}", item.number)), "{}", piece.name);
                    assert!(piece.svg.contains(&right), "{right}");
                }
                assert!(!piece.label.as_ref().unwrap().1.is_empty());
            }
        }
    }

    #[test]
    fn what_is_chosen_or_said_is_no_note() {
        let staves = vec![AskedStaff::of("Corni in Es")];
        for (kind, choices) in [(Kind::Partial, false), (Kind::Sounds, true), (Kind::Degree, false)] {
            let exercise =
                Exercise { kinds: vec![kind], staves: staves.clone(), choices, ..Exercise::default() };
            assert!(exercise.questions().unwrap().iter().all(|question| !is_engraved(question)), "{kind:?}");
        }
    }

    /// Where the texts of a picture at the height of its numbers begin, and how many letters they have.
    fn over_the_staff(svg: &str) -> Vec<(f64, usize)> {
        let mut texts: Vec<(f64, f64, usize)> = svg
            .split("<text ")
            .skip(1)
            .map(|text| {
                let (head, said) = text.split_once('>').unwrap();
                let number = |name: &str| -> f64 {
                    let after = head.split(&format!("{name}=\"")).nth(1).unwrap();
                    after.split('"').next().unwrap().parse().unwrap()
                };
                (number("y"), number("x"), said.split('<').next().unwrap().chars().count())
            })
            .collect();
        let first = texts[0].0;
        texts.retain(|(y, _, _)| (y - first).abs() < 0.01);
        texts.sort_by(|one, next| one.1.total_cmp(&next.1));
        texts.into_iter().map(|(_, x, letters)| (x, letters)).collect()
    }

    #[test]
    fn what_stands_over_one_note_does_not_reach_the_next() {
        let mut staves = ["2 Clarini in D", "2 Corni in Es"].map(AskedStaff::of).to_vec();
        staves.iter_mut().for_each(|staff| staff.pair = true);
        let exercise = Exercise { kinds: vec![Kind::Players], staves, questions: 24, ..Exercise::default() };
        let questions = exercise.questions().unwrap();
        for names in [Names::default(), Names { letters: words::Letters::German, ..Names::default() }] {
            let sections = sections(&questions, names);
            let lines = key_lines(&sections[0].items, PaperWishes::default(), names);
            for piece in lines.iter().flat_map(|line| &line.pieces) {
                for two in over_the_staff(&piece.svg).windows(2) {
                    let [(x, letters), (next, _)] = two else { unreachable!() };
                    assert!(x + 0.95 * *letters as f64 <= *next, "{two:?} in {}", piece.name);
                }
            }
        }
    }
}
