//! Actions on the margin of the page: which staves there are, in which order, with how many players.

use super::Document;
use super::notes::turn_to;
use super::staff::{forget_the_example, relabel, seat_named};
use crookwise_score::PassageError;
use std::sync::Arc;

impl Document {
    /// Selects a staff and a column of it, or no column. No step: there is nothing to undo.
    pub fn select_on(&mut self, staff: usize, player: usize, column: Option<usize>) {
        let players = self.page.passage.staves().get(staff).map(crookwise_score::Staff::players);
        if let Some(players) = players {
            let page = Arc::make_mut(&mut self.page);
            turn_to(page, staff);
            page.player = player.min(players.saturating_sub(1));
            page.selected = column.filter(|&at| at < page.passage.columns().len());
            self.typing = false;
        }
    }

    /// Opens an empty staff under the selected one and selects it.
    ///
    /// # Errors
    /// Where there are as many as may be.
    pub fn add_staff(&mut self, label: &str) -> Result<(), PassageError> {
        self.step(|page| {
            let at = page.staff + 1;
            page.passage.insert_staff(at, label)?;
            turn_to(page, at);
            page.selected = None;
            Ok(())
        })
    }

    /// Takes a list of labels, a line each: the first for the selected staff, each other for a new one below. One step.
    ///
    /// # Errors
    /// Where there would be too many staves.
    pub fn list_labels(&mut self, labels: &str) -> Result<(), PassageError> {
        self.typing = false;
        self.step(|page| {
            forget_the_example(page);
            let labels = labels.lines().map(str::trim).filter(|label| !label.is_empty());
            for (at, label) in labels.enumerate() {
                if at > 0 {
                    page.passage.insert_staff(page.staff + 1, "")?;
                    turn_to(page, page.staff + 1);
                    page.selected = None;
                }
                relabel(page, label);
                seat_named(page);
            }
            Ok(())
        })
    }

    /// Puts the selected staff under itself once more and selects the copy.
    ///
    /// # Errors
    /// Where there are as many as may be.
    pub fn duplicate_staff(&mut self) -> Result<(), PassageError> {
        self.step(|page| {
            page.passage.duplicate_staff(page.staff)?;
            turn_to(page, page.staff + 1);
            Ok(())
        })
    }

    /// Takes the selected staff away; the one that takes its place is selected.
    ///
    /// # Errors
    /// Where it is the only one.
    pub fn remove_staff(&mut self) -> Result<(), PassageError> {
        self.step(|page| {
            page.passage.remove_staff(page.staff)?;
            page.player = 0;
            page.staff = page.staff.min(page.passage.staves().len().saturating_sub(1));
            Ok(())
        })
    }

    /// Moves the selected staff so many places down the page, negative is up.
    ///
    /// # Errors
    /// Where there is no such place.
    pub fn move_staff(&mut self, places: isize) -> Result<(), PassageError> {
        self.step(|page| {
            let to = page.staff.checked_add_signed(places).ok_or(PassageError::Nowhere)?;
            page.passage.move_staff(page.staff, to)?;
            page.staff = to;
            Ok(())
        })
    }

    /// Gives the selected staff 1 to 4 players.
    ///
    /// # Errors
    /// For any other number.
    pub fn set_players(&mut self, players: usize) -> Result<(), PassageError> {
        self.step(|page| {
            page.passage.set_players(page.staff, players)?;
            page.player = page.player.min(players.saturating_sub(1));
            Ok(())
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_share::ReadPage;
    use crookwise_theory::{Printed, Step};

    fn letters(document: &mut Document, letters: &str) {
        for letter in letters.chars() {
            document.enter_letter(Step::from_letter(letter).unwrap()).unwrap();
        }
    }

    fn notes(document: &Document, staff: usize, player: usize) -> String {
        let passage = &document.page().passage;
        let note =
            |column| passage.sounding_note(staff, column, player).map(|(_, printed)| printed.to_string());
        (0..passage.columns().len())
            .map(|column| note(column).unwrap_or("-".into()))
            .collect::<Vec<_>>()
            .join(" ")
    }

    #[test]
    fn a_second_staff_is_written_from_the_first_column_and_over_what_is_there() {
        let mut document = Document::new(ReadPage::of_label("Corni in Es"));
        letters(&mut document, "CDE");
        document.add_staff("Fagotti").unwrap();
        letters(&mut document, "CG");
        assert_eq!(
            (notes(&document, 0, 0).as_str(), notes(&document, 1, 0).as_str()),
            ("C5 D5 E5", "C3 G2 -")
        );
        document.select_on(1, 0, Some(0));
        letters(&mut document, "A");
        assert_eq!(notes(&document, 1, 0), "C3 A2 -");
        document.remove();
        assert_eq!(
            (notes(&document, 0, 0).as_str(), notes(&document, 1, 0).as_str()),
            ("C5 D5 E5", "C3 - -")
        );
        document.clear();
        assert_eq!(notes(&document, 1, 0), "- - -");
        document.select_on(0, 0, None);
        document.clear();
        assert_eq!(document.page().passage.columns().len(), 0);
    }

    #[test]
    fn a_list_of_labels_makes_as_many_staves_in_one_step() {
        let mut document = Document::new(ReadPage::of_label("Corni in Es"));
        document.add_staff("").unwrap();
        document.list_labels("Flauti\r\n  \n2 Trombe in D\nViole\n").unwrap();
        let labels = |document: &Document| -> Vec<String> {
            document.page().passage.staves().iter().map(|staff| staff.label.clone()).collect()
        };
        assert_eq!(labels(&document), ["Corni in Es", "Flauti", "2 Trombe in D", "Viole"]);
        assert_eq!((document.page().staff, document.page().passage.staves()[2].players()), (3, 2));
        document.undo();
        assert_eq!(labels(&document), ["Corni in Es", ""]);
        let many = "Flauti\n".repeat(99);
        assert!(document.list_labels(&many).is_err());
        assert_eq!(labels(&document), ["Corni in Es", ""]);
    }

    #[test]
    fn players_of_one_staff_have_their_own_notes_until_they_play_together() {
        let mut document = Document::new(ReadPage::of_label("2 Corni in Es"));
        document.set_players(2).unwrap();
        letters(&mut document, "CE");
        document.select_on(0, 1, None);
        letters(&mut document, "GG");
        assert_eq!((notes(&document, 0, 0).as_str(), notes(&document, 0, 1).as_str()), ("C5 E5", "G4 G4"));
        document.play_together().unwrap();
        assert_eq!((notes(&document, 0, 0).as_str(), notes(&document, 0, 1).as_str()), ("C5 G4", "G4 G4"));
        document.set_players(1).unwrap();
        assert_eq!((notes(&document, 0, 0).as_str(), document.page().player), ("C5 G4", 0));
    }

    #[test]
    fn staves_change_places_and_the_selection_goes_with_them() {
        let mut document = Document::new(ReadPage::of_label("Flauti"));
        document.add_staff("Oboi").unwrap();
        document.move_staff(-1).unwrap();
        let labels = |document: &Document| -> Vec<String> {
            document.page().passage.staves().iter().map(|staff| staff.label.clone()).collect()
        };
        assert_eq!((labels(&document), document.page().staff), (vec!["Oboi".to_owned(), "Flauti".into()], 0));
        assert_eq!(document.move_staff(-1), Err(PassageError::Nowhere));
        document.duplicate_staff().unwrap();
        document.remove_staff().unwrap();
        assert_eq!(labels(&document).len(), 2);
        document.place(1, 0, Printed("C5".parse().unwrap())).unwrap();
        assert_eq!(document.page().staff, 1);
    }
}
