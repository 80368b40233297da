//! What the reader has made: the page of Read with its history. Plain data, changed by named actions only.

use crookwise_score::{Choice, Event, PassageError, ResolvedStaff, SignatureSource};
use crookwise_share::ReadPage;
use crookwise_theory::label::{DecodeOptions, Mechanism};
use crookwise_theory::{
    BassNotation, Clef, Interval, Key, Pitch, Printed, Scheme, StaffPosition, Step, Temperament, Tonic,
    TunedOn,
};
use std::sync::Arc;

/// Steps that can be undone.
const MEMORY: usize = 200;
/// The staff this page shows; it has one.
const STAFF: usize = 0;
/// Its player.
const PLAYER: usize = 0;
/// Alterations that can be entered, in semitones either way.
const FARTHEST_ALTERATION: i32 = 3;
/// Octaves in which notes can be entered: beyond them no instrument reaches.
const OCTAVES: core::ops::RangeInclusive<i32> = 0..=8;

/// The page and how it came about.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    page: Arc<ReadPage>,
    past: Vec<Arc<ReadPage>>,
    future: Vec<Arc<ReadPage>>,
    /// Whether the last step was typing in the label: more typing belongs to the same step.
    typing: bool,
    /// Counts the changes the reader made, so that only those are saved.
    changes: u64,
}

impl Document {
    /// A document that begins with a page.
    #[must_use]
    pub fn new(page: ReadPage) -> Self {
        Self { page: Arc::new(page), past: Vec::new(), future: Vec::new(), typing: false, changes: 0 }
    }

    /// The page as it stands.
    #[must_use]
    pub fn page(&self) -> &Arc<ReadPage> {
        &self.page
    }

    /// How many changes the reader has made since the document was opened.
    #[must_use]
    pub const fn changes(&self) -> u64 {
        self.changes
    }

    /// Whether there is something to undo.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is something to redo.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Takes back the last step.
    pub fn undo(&mut self) {
        if let Some(before) = self.past.pop() {
            self.future.push(core::mem::replace(&mut self.page, before));
            self.after_step();
        }
    }

    /// Does the step again that was taken back last.
    pub fn redo(&mut self) {
        if let Some(after) = self.future.pop() {
            self.past.push(core::mem::replace(&mut self.page, after));
            self.after_step();
        }
    }

    fn after_step(&mut self) {
        self.typing = false;
        self.changes += 1;
    }

    /// Puts another page in place of this one; it can be undone.
    pub fn open(&mut self, page: ReadPage) {
        self.step(|here| {
            *here = page;
            Ok(())
        })
        .unwrap_or_default();
    }

    /// One step that can be undone; nothing happens where it fails or changes nothing.
    fn step(
        &mut self,
        change: impl FnOnce(&mut ReadPage) -> Result<(), PassageError>,
    ) -> Result<(), PassageError> {
        let mut page = ReadPage::clone(&self.page);
        change(&mut page)?;
        if page != *self.page {
            if self.past.len() >= MEMORY {
                self.past.remove(0);
            }
            self.past.push(core::mem::replace(&mut self.page, Arc::new(page)));
            self.future.clear();
            self.after_step();
        }
        Ok(())
    }

    /// A step that cannot fail.
    fn set(&mut self, change: impl FnOnce(&mut ReadPage)) {
        self.step(|page| {
            change(page);
            Ok(())
        })
        .unwrap_or_default();
    }

    fn set_staff(&mut self, change: impl FnOnce(&mut crookwise_score::Staff)) {
        self.set(|page| {
            if let Some(staff) = page.passage.staff_mut(STAFF) {
                change(staff);
            }
        });
    }

    /// Types in the label. Typing on belongs to the same step.
    pub fn type_label(&mut self, label: &str) {
        if self.typing {
            let mut page = ReadPage::clone(&self.page);
            relabel(&mut page, label);
            self.page = Arc::new(page);
            self.changes += 1;
        } else {
            self.set(|page| relabel(page, label));
            self.typing = true;
        }
    }

    /// The label is finished: the next typing is a step of its own.
    pub fn finish_typing(&mut self) {
        self.typing = false;
    }

    /// Puts a whole label in place, as one step.
    pub fn set_label(&mut self, label: &str) {
        self.typing = false;
        self.set(|page| relabel(page, label));
    }

    /// Picks another reading of the label; `None` goes back to the usual one.
    pub fn choose_reading(&mut self, choice: Option<Choice>) {
        self.set_staff(|staff| staff.choice = choice);
    }

    /// Natural or with valves.
    pub fn set_mechanism(&mut self, mechanism: Mechanism) {
        self.set_staff(|staff| staff.settings.mechanism = Some(mechanism));
    }

    /// The clef. Notes keep their pitch, as far as they are printed.
    pub fn set_clef(&mut self, clef: Clef) {
        self.set_staff(|staff| staff.settings.clef = Some(clef));
    }

    /// The octave mark at the clef: 1 for an 8 above, -1 for one below, 0 for none.
    pub fn set_clef_octave(&mut self, octave: i8) {
        let (clef, _) = self.staff_clef_and_signature();
        if let Ok(clef) = Clef::new(clef.sign, clef.line(), octave) {
            self.set_clef(clef);
        }
    }

    /// Old or new bass-clef notation.
    pub fn set_bass(&mut self, bass: BassNotation) {
        self.set_staff(|staff| staff.settings.bass = Some(bass));
    }

    /// The system of bass clarinet or Wagner tuba.
    pub fn set_scheme(&mut self, scheme: Scheme) {
        self.set_staff(|staff| staff.settings.scheme = Some(scheme));
    }

    /// Where the signature of the staff comes from.
    pub fn set_signature(&mut self, source: SignatureSource) {
        self.set_staff(|staff| staff.settings.signature = Some(source));
    }

    /// Whether the page is printed at sounding pitch.
    pub fn set_at_pitch(&mut self, at_pitch: bool) {
        self.set_staff(|staff| staff.settings.at_pitch = at_pitch);
    }

    /// The key of the movement.
    pub fn set_movement(&mut self, key: Option<Key>) {
        self.set(|page| page.passage.movement = key);
    }

    /// Frequency of A4 in Hz, brought into the range in use and to hundredths, as links keep it.
    pub fn set_a4(&mut self, a4: f64) {
        let (low, high) = crookwise_theory::Tuning::A4_RANGE;
        if a4.is_finite() {
            self.set(|page| page.intonation.tuning.a4 = (a4.clamp(low, high) * 100.0).round() / 100.0);
        }
    }

    /// The temperament.
    pub fn set_temperament(&mut self, temperament: &'static Temperament) {
        self.set(|page| page.intonation.tuning.temperament = temperament);
    }

    /// The key from which the temperament is laid.
    pub fn set_root(&mut self, root: Tonic) {
        self.set(|page| page.intonation.tuning.root = root);
    }

    /// On which of its notes the brass tunes.
    pub fn set_tuned_on(&mut self, tuned_on: TunedOn) {
        self.set(|page| page.intonation.tuned_on = tuned_on);
    }

    /// The year of the music.
    pub fn set_year(&mut self, year: Option<i32>) {
        self.set(|page| page.year = year);
    }

    /// The instrument in the reader's hands, as a label.
    pub fn set_in_hand(&mut self, label: &str) {
        let label = label.trim();
        self.set(|page| page.in_hand = (!label.is_empty()).then(|| label.to_owned()));
    }

    /// Selects a column, or nothing. No step: there is nothing to undo.
    pub fn select(&mut self, column: Option<usize>) {
        let column = column.filter(|&at| at < self.page.passage.columns().len());
        if self.page.selected != column {
            Arc::make_mut(&mut self.page).selected = column;
            self.typing = false;
        }
    }

    /// Selects the column so many places on, kept within the passage.
    pub fn select_by(&mut self, places: isize) {
        let last = self.page.passage.columns().len().checked_sub(1);
        let here = self.page.selected.or(last);
        if let (Some(here), Some(last)) = (here, last) {
            self.select(Some(here.saturating_add_signed(places).min(last)));
        }
    }

    /// Puts a note into a column, or behind the last one, and selects it.
    ///
    /// # Errors
    /// Where there is no such place or there are too many columns.
    pub fn place(&mut self, column: usize, note: Printed) -> Result<(), PassageError> {
        self.step(|page| {
            page.passage.set(STAFF, column, PLAYER, Event::Note(within_reach(note)))?;
            page.selected = Some(column);
            Ok(())
        })
    }

    /// Enters an event behind the selected column, or at the end, and selects it.
    fn enter(&mut self, event: Event) -> Result<(), PassageError> {
        self.step(|page| {
            let end = page.passage.columns().len();
            let at = page.selected.map_or(end, |selected| (selected + 1).min(end));
            page.passage.insert_column(at)?;
            page.passage.set(STAFF, at, PLAYER, event)?;
            page.selected = Some(at);
            Ok(())
        })
    }

    /// Enters a note behind the selected one.
    ///
    /// # Errors
    /// Where there are too many columns.
    pub fn enter_note(&mut self, note: Printed) -> Result<(), PassageError> {
        self.enter(Event::Note(within_reach(note)))
    }

    /// Enters the letter nearest to the note before, altered as the signature has it.
    ///
    /// # Errors
    /// Where there are too many columns.
    pub fn enter_letter(&mut self, step: Step) -> Result<(), PassageError> {
        let (clef, signature) = self.staff_clef_and_signature();
        let near = self
            .page
            .selected
            .and_then(|at| self.page.passage.sounding_note(STAFF, at, PLAYER))
            .map_or_else(|| clef.pitch_at(StaffPosition(4)), |(_, printed)| printed.0);
        let up = (step.index() - near.step.index()).rem_euclid(7);
        let letters = if up > 3 { up - 7 } else { up };
        let natural = Pitch::from_diatonic(near.diatonic() + letters, 0);
        self.enter_note(Printed(Pitch { alter: signature.alteration(step), ..natural }))
    }

    /// Holds the selected note for one column more.
    ///
    /// # Errors
    /// Where nothing sounds or there are too many columns.
    pub fn hold(&mut self) -> Result<(), PassageError> {
        self.enter(Event::Held)
    }

    /// Enters a rest behind the selected column.
    ///
    /// # Errors
    /// Where there are too many columns.
    pub fn rest(&mut self) -> Result<(), PassageError> {
        self.enter(Event::Rest)
    }

    /// Takes the selected column out and selects the one before.
    pub fn remove(&mut self) {
        self.step(|page| {
            let selected = page.selected.ok_or(PassageError::Nowhere)?;
            page.passage.remove_column(selected)?;
            let left = page.passage.columns().len();
            page.selected = (left > 0).then(|| selected.saturating_sub(1).min(left.saturating_sub(1)));
            Ok(())
        })
        .unwrap_or_default();
    }

    /// Takes all columns out.
    pub fn clear(&mut self) {
        self.step(|page| {
            while !page.passage.columns().is_empty() {
                page.passage.remove_column(0)?;
            }
            page.selected = None;
            Ok(())
        })
        .unwrap_or_default();
    }

    /// Changes the note of the selected column, or the one that is held there.
    fn change_note(&mut self, change: impl FnOnce(Pitch) -> Pitch) {
        self.step(|page| {
            let selected = page.selected.ok_or(PassageError::Nowhere)?;
            let (onset, printed) =
                page.passage.sounding_note(STAFF, selected, PLAYER).ok_or(PassageError::Nowhere)?;
            page.passage.set(STAFF, onset, PLAYER, Event::Note(within_reach(Printed(change(printed.0)))))
        })
        .unwrap_or_default();
    }

    /// Moves the selected note by letters, altered as the signature has it there.
    pub fn move_by(&mut self, letters: i32) {
        let (_, signature) = self.staff_clef_and_signature();
        self.change_note(|pitch| {
            let natural = Pitch::from_diatonic(pitch.diatonic() + letters, 0);
            Pitch { alter: signature.alteration(natural.step), ..natural }
        });
    }

    /// Moves the selected note by octaves, its alteration kept.
    pub fn move_octaves(&mut self, octaves: i32) {
        self.change_note(|pitch| pitch + Interval::octaves(octaves));
    }

    /// Gives the selected note an accidental: semitones from the natural letter.
    pub fn set_alteration(&mut self, alter: i32) {
        self.change_note(|pitch| Pitch { alter, ..pitch });
    }

    /// Raises or lowers the selected note by semitones on its letter.
    pub fn alter_by(&mut self, semitones: i32) {
        self.change_note(|pitch| Pitch { alter: pitch.alter + semitones, ..pitch });
    }

    /// Clef and signature of the staff, the treble clef and none where its label is not understood.
    fn staff_clef_and_signature(&self) -> (Clef, crookwise_theory::Signature) {
        let options = DecodeOptions { year: self.page.year };
        self.page
            .passage
            .staves()
            .first()
            .and_then(|staff| ResolvedStaff::of(staff, options).place(&self.page.passage, 0, PLAYER))
            .map_or((Clef::TREBLE, crookwise_theory::Signature::NONE), |place| {
                (place.habits.clef, place.signature)
            })
    }
}

/// A new label forgets what was chosen for the old one, but not the notes.
fn relabel(page: &mut ReadPage, label: &str) {
    if let Some(staff) = page.passage.staff_mut(STAFF)
        && staff.label != label
    {
        label.clone_into(&mut staff.label);
        staff.choice = None;
        staff.settings.mechanism = None;
        staff.settings.scheme = None;
    }
}

/// The note, brought back into the octaves and alterations that can be entered.
fn within_reach(note: Printed) -> Printed {
    let pitch = note.0;
    Printed(Pitch {
        alter: pitch.alter.clamp(-FARTHEST_ALTERATION, FARTHEST_ALTERATION),
        octave: pitch.octave.clamp(*OCTAVES.start(), *OCTAVES.end()),
        ..pitch
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn document(label: &str, notes: &str) -> Document {
        let mut document = Document::new(ReadPage::of_label(label));
        for name in notes.split_whitespace() {
            document.enter_note(Printed(name.parse().unwrap())).unwrap();
        }
        document
    }

    fn notes(document: &Document) -> String {
        let passage = &document.page().passage;
        let word = |column| match passage.event(0, column, 0) {
            Some(Event::Note(printed)) => printed.to_string(),
            Some(Event::Held) => "_".into(),
            _ => "-".into(),
        };
        (0..passage.columns().len()).map(word).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn notes_are_entered_behind_the_selected_one() {
        let mut document = document("Corni in Es", "C4 G4");
        document.select(Some(0));
        document.enter_note(Printed("E4".parse().unwrap())).unwrap();
        document.hold().unwrap();
        document.rest().unwrap();
        assert_eq!(notes(&document), "C4 E4 _ - G4");
        assert_eq!(document.page().selected, Some(3));
    }

    #[test]
    fn letters_take_the_nearest_octave_and_the_signature() {
        let mut document = document("Clarinetto in B", "G4");
        document.set_movement(Some("F major".parse().unwrap()));
        for letter in ['C', 'F', 'A', 'D'] {
            document.enter_letter(Step::from_letter(letter).unwrap()).unwrap();
        }
        // F major on a clarinet in B-flat is written with one sharp.
        assert_eq!(notes(&document), "G4 C5 F#5 A5 D6");
    }

    #[test]
    fn undo_and_redo_go_through_every_step() {
        let mut document = document("Corni in Es", "C4");
        document.alter_by(1);
        document.move_by(2);
        document.move_octaves(1);
        assert_eq!(notes(&document), "E5");
        document.undo();
        document.undo();
        assert_eq!(notes(&document), "C#4");
        document.redo();
        assert_eq!(notes(&document), "E4");
        while document.can_undo() {
            document.undo();
        }
        assert_eq!(notes(&document), "");
        while document.can_redo() {
            document.redo();
        }
        assert_eq!(notes(&document), "E5");
    }

    #[test]
    fn typing_is_one_step() {
        let mut document = document("Corni in Es", "");
        for end in 1..=5 {
            document.type_label(&"Trompete in H"[..end]);
        }
        document.finish_typing();
        document.type_label("Tromp.");
        document.undo();
        assert_eq!(document.page().passage.staves()[0].label, "Tromp");
        document.undo();
        assert_eq!(document.page().passage.staves()[0].label, "Corni in Es");
    }

    #[test]
    fn removing_selects_the_one_before() {
        let mut document = document("Corni in Es", "C4 E4 G4");
        document.remove();
        assert_eq!((notes(&document).as_str(), document.page().selected), ("C4 E4", Some(1)));
        document.remove();
        document.remove();
        document.remove();
        assert_eq!((notes(&document).as_str(), document.page().selected), ("", None));
    }

    #[test]
    fn a_step_that_fails_changes_nothing() {
        let mut document = document("Corni in Es", "");
        assert_eq!(document.hold(), Err(PassageError::NothingToHold));
        assert!(!document.can_undo());
        assert_eq!(document.place(3, Printed("C4".parse().unwrap())), Err(PassageError::Nowhere));
    }

    #[test]
    fn entered_notes_stay_within_reach() {
        let mut document = document("Corni in Es", "C8");
        document.move_octaves(40);
        for _ in 0..9 {
            document.alter_by(1);
        }
        assert_eq!(notes(&document), "C###8");
    }

    #[test]
    fn selection_is_no_step_and_stays_inside() {
        let mut document = document("Corni in Es", "C4 E4");
        let steps = document.changes();
        document.select_by(-5);
        assert_eq!(document.page().selected, Some(0));
        document.select_by(9);
        assert_eq!(document.page().selected, Some(1));
        document.select(Some(7));
        assert_eq!(document.page().selected, None);
        assert_eq!(document.changes(), steps);
    }
}
