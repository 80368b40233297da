//! Actions on what changes before the selected column of the selected staff. What is written stays.

use super::Document;
use crookwise_score::{Change, ChangeKind, ChangeTo, PassageError};
use crookwise_theory::Key;

impl Document {
    /// Changes crook, clef or signature before the selected column; a crook for one player or for all.
    ///
    /// # Errors
    /// Where nothing is selected, and for a clef or a signature of a single player.
    pub fn change_here(&mut self, player: Option<usize>, to: ChangeTo) -> Result<(), PassageError> {
        self.step(|page| {
            let column = page.selected.ok_or(PassageError::Nowhere)?;
            page.passage.set_change(page.staff, Change { column, player, to })
        })
    }

    /// Takes a change before the selected column away; nothing happens where there is none.
    pub fn keep_here(&mut self, player: Option<usize>, kind: ChangeKind) {
        self.step(|page| {
            let column = page.selected.ok_or(PassageError::Nowhere)?;
            page.passage.remove_change(page.staff, column, player, kind)
        })
        .unwrap_or_default();
    }

    /// Changes the key of the movement from the selected column on; `None` takes such a change away.
    ///
    /// # Errors
    /// Where nothing is selected.
    pub fn change_movement_here(&mut self, key: Option<Key>) -> Result<(), PassageError> {
        self.step(|page| {
            let column = page.selected.ok_or(PassageError::Nowhere)?;
            page.passage.set_movement_at(column, key)
        })
    }

    /// Takes away all that changes before the selected column: on the selected staff, and the key of the movement.
    ///
    /// # Errors
    /// Where nothing is selected.
    pub fn keep_all_here(&mut self) -> Result<(), PassageError> {
        self.step(|page| {
            let column = page.selected.ok_or(PassageError::Nowhere)?;
            let staff = page.passage.staves().get(page.staff).ok_or(PassageError::Nowhere)?;
            let here: Vec<Change> =
                staff.changes().iter().filter(|change| change.column == column).cloned().collect();
            for change in here {
                page.passage.remove_change(page.staff, column, change.player, change.to.kind())?;
            }
            page.passage.set_movement_at(column, None)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::view::View;
    use crookwise_share::{Link, ReadPage};
    use crookwise_theory::Clef;

    fn document(link: &str) -> Document {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        Document::new(*page)
    }

    fn sounds(document: &Document) -> String {
        let view = View::of(document.page());
        let sounding = |column: &crate::state::view::ColumnView| {
            column.reading.map_or("-".into(), |reading| reading.sounding.to_string())
        };
        view.columns.iter().map(sounding).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn a_change_is_a_step_that_goes_round_in_the_link_and_is_undone() {
        let mut document = document("/read?staff=Corni+in+Es&notes=C5.C5.C5&at=2");
        document.change_here(None, ChangeTo::Label("muta in D".into())).unwrap();
        assert_eq!(sounds(&document), "Eb4 D4 D4");
        document.change_here(None, ChangeTo::Clef(Clef::BASS)).unwrap();
        document.change_movement_here(Some("F major".parse().unwrap())).unwrap();
        let link = Link::Read(Box::new(ReadPage::clone(document.page())));
        assert_eq!(Link::decode(&link.encode()), Ok(Some(link)));
        document.undo();
        document.undo();
        assert_eq!(sounds(&document), "Eb4 D4 D4");
        document.undo();
        assert_eq!(sounds(&document), "Eb4 Eb4 Eb4");
        document.redo();
        document.keep_all_here().unwrap();
        assert_eq!(sounds(&document), "Eb4 Eb4 Eb4");
        document.keep_here(None, ChangeKind::Clef);
        assert_eq!(document.page().passage.staves()[0].changes(), []);
        document.select(None);
        let to = ChangeTo::Clef(Clef::BASS);
        assert_eq!(document.change_here(None, to), Err(PassageError::Nowhere));
    }

    #[test]
    fn what_is_entered_before_a_change_is_read_by_what_holds_there() {
        let mut document = document("/read?staff=Clarinetto+in+B&notes=C5.C5&key=F+major&at=2");
        document.change_movement_here(Some("B major".parse().unwrap())).unwrap();
        document.select(Some(0));
        // F major has one sharp on this clarinet; the new column comes before the change.
        document.enter_letter(crookwise_theory::Step::F).unwrap();
        let keys: Vec<bool> =
            document.page().passage.columns().iter().map(|column| column.movement.is_some()).collect();
        assert_eq!(keys, [false, false, true]);
        assert_eq!(View::of(document.page()).columns[1].printed.unwrap().to_string(), "F#5");
    }
}
