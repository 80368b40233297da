//! What is asked at an entry of a movement: what its first note sounds.

use crate::state::store::desk;
use crookwise_practice::{Kind, Question, Spot};

/// The question about the note that is selected on a page, which is given as the device keeps one; `None` where it has no
/// pitch.
#[must_use]
pub fn question_of(text: &str) -> Option<Question> {
    let page = desk::opened(text).ok()?;
    let at = Spot { staff: page.staff, column: page.selected?, player: page.player };
    Question::of_place(Kind::Sounds, &page.passage, at)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::movement::along::entries;
    use crookwise_opened::{Answer, Ask, ScoreHolder};

    #[test]
    fn every_entry_of_the_demo_movement_can_be_asked() {
        let mut holder = ScoreHolder::default();
        let file = include_bytes!("../../../demo/movement.musicxml").to_vec();
        let mut ask = |ask: Ask, file: Vec<u8>| holder.answer(ask, file, &mut |_| {});
        ask(Ask::Open(String::new()), file);
        let Answer::Map(rows) = ask(Ask::Map, Vec::new()) else { panic!() };
        // By staff and bar.
        let mut asked = Vec::new();
        for staff in rows.staves.iter().map(|row| row.staff) {
            for entry in entries(&rows, staff) {
                let Answer::Page(text) = ask(Ask::Note { staff, note: entry.note }, Vec::new()) else {
                    panic!()
                };
                let question = question_of(&text);
                let right = question.map(|question| match question.right {
                    crookwise_practice::Answer::Note(note) => note.to_string(),
                    other => panic!("{other:?}"),
                });
                asked.push(format!("{staff}:{} {}", entry.bar, right.unwrap_or("-".into())));
            }
        }
        // Written G4 on a horn in D; the drums sound as they are printed.
        for known in ["4:28 A3", "4:54 A3", "6:9 F4", "10:9 D3", "1:30 A5"] {
            assert!(asked.contains(&known.to_owned()), "{known}: {asked:?}");
        }
        assert!(asked.len() > 40 && asked.iter().all(|one| !one.ends_with('-')), "{asked:?}");
    }
}
