//! What is asked at an entry of a movement: what its first note sounds, or each note of its first bar.

use crate::state::movement::along::EntryNotes;
use crate::state::store::desk;
use crookwise_practice::{Kind, Question, Spot};
use crookwise_score::Event;
use crookwise_share::ReadPage;

/// The questions about the note that is selected on a page, which is given as the device keeps one, and about those behind it
/// in its bar where they are wanted; what repeats the note before it is not asked again. None where nothing has a pitch.
#[must_use]
pub fn questions_of(text: &str, wanted: EntryNotes) -> Vec<Question> {
    let Ok(page) = desk::opened(text) else { return Vec::new() };
    let columns = match wanted {
        EntryNotes::First => page.selected.into_iter().collect(),
        EntryNotes::FirstBar => struck_in_bar(&page),
    };
    let spot = |column| Spot { staff: page.staff, column, player: page.player };
    let ask = |column| Question::of_place(Kind::Sounds, &page.passage, spot(column));
    columns.into_iter().filter_map(ask).collect()
}

/// The columns from the selected one to the end of its bar in which the player strikes another note than before.
fn struck_in_bar(page: &ReadPage) -> Vec<usize> {
    let ReadPage { passage, staff, player, .. } = page;
    let Some(first) = page.selected else { return Vec::new() };
    let bar = passage.bar_at(first);
    let own = (first..passage.columns().len()).take_while(|column| passage.bar_at(*column) == bar);
    let mut before = None;
    let is_other = |column: &usize| match passage.event(*staff, *column, *player) {
        Some(Event::Note(note)) => before.replace(note) != Some(note),
        _ => false,
    };
    own.filter(is_other).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::movement::along::entries;
    use crookwise_opened::{Answer, Ask, ScoreHolder};
    use crookwise_share::Link;

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
                let question = questions_of(&text, EntryNotes::First).pop();
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

    #[test]
    fn each_other_note_of_the_first_bar_is_asked() {
        let right = |link: &str, wanted: EntryNotes| -> Vec<String> {
            let Ok(Some(Link::Read(mut page))) = Link::decode(link) else { panic!() };
            page.selected = Some(1);
            let questions = questions_of(&Link::Read(page).encode(), wanted);
            let right = |question: &Question| match &question.right {
                crookwise_practice::Answer::Note(note) => note.to_string(),
                other => panic!("{other:?}"),
            };
            questions.iter().map(right).collect()
        };
        // A rest, a held note and a note repeated are not asked, nor is what stands in the bar behind.
        let link = "/read?staff=Corno+I+in+D&notes=-.G4._.G4.-.C5.E5.D5&bars=1_27.2.8";
        assert_eq!(right(link, EntryNotes::First), ["A3"]);
        assert_eq!(right(link, EntryNotes::FirstBar), ["A3", "D4", "F#4"]);
    }
}
