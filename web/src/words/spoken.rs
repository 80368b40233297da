//! What stands on a page of Practise, for who cannot see it: label, clef, signature, notes and changes of every staff, never
//! what sounds.

use super::names::Names;
use super::practise::{beside_label, said_beside};
use crookwise_practice::{Kind, Question, shown_of};
use crookwise_score::{Cell, Change, Event, Passage, ResolvedStaff, Staff};
use crookwise_theory::Signature;
use crookwise_theory::label::DecodeOptions;

/// The page of a question, with the place that is asked about.
#[must_use]
pub fn page(question: &Question, names: Names) -> String {
    let staff = |(number, staff): (usize, &Staff)| {
        let beside = beside_label(question, number, names);
        one(&question.passage, (number, staff), &beside, Some(question), names)
    };
    question.passage.staves().iter().enumerate().map(staff).collect::<Vec<_>>().join("; ")
}

/// A page where nothing is asked.
#[must_use]
pub fn passage(passage: &Passage, names: Names) -> String {
    let staff = |(number, staff): (usize, &Staff)| {
        let beside = said_beside(&shown_of(passage, number), names);
        one(passage, (number, staff), &beside, None, names)
    };
    passage.staves().iter().enumerate().map(staff).collect::<Vec<_>>().join("; ")
}

fn one(
    passage: &Passage,
    (number, staff): (usize, &Staff),
    beside: &str,
    question: Option<&Question>,
    names: Names,
) -> String {
    let resolved = ResolvedStaff::of(passage, number, DecodeOptions::default());
    let first = resolved.place_at(0, 0);
    let clef = first.map(|place| format!("{} clef", place.habits.clef.name()));
    let signs =
        first.map(|place| place.signature).filter(|own| *own != Signature::NONE).map(Signature::words);
    let label = if staff.label.is_empty() { "A staff" } else { staff.label.as_str() };
    let beside = Some(beside.to_owned()).filter(|beside| !beside.is_empty());
    let head: Vec<String> = [Some(label.to_owned()), beside, clef, signs].into_iter().flatten().collect();
    let notes = notes(passage, (number, staff), question, names);
    let notes = if notes.is_empty() { String::new() } else { format!(": {}", notes.join(", ")) };
    format!("{}{notes}", head.join(", "))
}

/// Notes and changes in their order.
fn notes(
    passage: &Passage,
    (number, staff): (usize, &Staff),
    question: Option<&Question>,
    names: Names,
) -> Vec<String> {
    let mut notes = Vec::new();
    for (column, own) in passage.columns().iter().enumerate() {
        let here: Vec<&Change> = staff.changes().iter().filter(|change| change.column == column).collect();
        if !here.is_empty() || own.movement.is_some() || own.bar.is_some() {
            notes.push(format!("({})", crate::words::changes::said(&here, own, names)));
        }
        let together = staff.cells().get(column).is_some_and(Cell::is_together);
        for player in 0..if together { 1 } else { staff.players() } {
            let asked = question.filter(|question| {
                let at = question.at;
                number == at.staff
                    && column == at.column
                    && (together || player == at.player)
                    && !matches!(question.kind, Kind::WrongNote | Kind::WrongStaff | Kind::Chord)
            });
            let whose = asked.and_then(Question::player);
            match passage.event(number, column, player) {
                Some(Event::Note(printed)) => {
                    let mark = match whose {
                        Some(number) => format!(" (player {number}, asked)"),
                        None if asked.is_some() && passage.columns().len() > 1 => " (asked)".to_owned(),
                        None => String::new(),
                    };
                    let both = if together && staff.players() > 1 { " a 2" } else { "" };
                    notes.push(format!("{}{both}{mark}", names.note_spoken(printed.0)));
                }
                _ if asked.is_some_and(|question| question.kind != Kind::Label) => {
                    let whose = whose.map(|number| format!(" for player {number}"));
                    notes.push(format!("a gap{}", whose.unwrap_or_default()));
                }
                _ => {}
            }
        }
    }
    notes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::{AskedStaff, Exercise};
    use crookwise_share::Link;

    #[test]
    fn a_question_says_clef_signature_and_the_note_that_is_asked() {
        let staves = vec![AskedStaff::of("Clarinetti in A")];
        let keys = vec![crookwise_theory::Key::new(
            crookwise_theory::Tonic::from_fifths(3),
            crookwise_theory::Mode::Major,
        )];
        let exercise = Exercise { staves, keys, questions: 4, ..Exercise::default() };
        for question in exercise.questions().unwrap() {
            let said = page(&question, Names::default());
            // A clarinet in A has no sign in A major.
            assert!(said.starts_with("Clarinetti in A, treble clef: "), "{said}");
        }
        let keys = vec![crookwise_theory::Key::new(
            crookwise_theory::Tonic::from_fifths(1),
            crookwise_theory::Mode::Major,
        )];
        for question in (Exercise { keys, ..exercise }).questions().unwrap() {
            let said = page(&question, Names::default());
            assert!(said.starts_with("Clarinetti in A, treble clef, 2 flats: "), "{said}");
        }
    }

    #[test]
    fn an_example_says_its_notes_and_changes() {
        let link = "/read?staff=Corni+in+Es&notes=C5.-.E5&muta=3_in+D";
        let Ok(Some(Link::Read(page))) = Link::decode(link) else { panic!("{link}") };
        let said = passage(&page.passage, Names::default());
        assert!(said.starts_with("Corni in Es, treble clef: C5, ("), "{said}");
        assert!(said.ends_with("), E5") && said.contains("in D"), "{said}");
    }
}
