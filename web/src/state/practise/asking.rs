//! How a question is answered, and the answer while it is being made.

use crate::words;
use crookwise_practice::{Answer, Kind, Question, Which};
use crookwise_score::ResolvedStaff;
use crookwise_share::ReadPage;
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Clef, Degree, Pitch, StaffPosition, Step};

/// How a question is answered.
#[derive(Clone, Debug, PartialEq)]
pub enum AnswerWay {
    /// One of a few.
    Choices(Vec<Answer>),
    /// A note on a staff with this clef and no signature; or so many of them, one for each player.
    Notes {
        /// The clef of the staff for the answer.
        clef: Clef,
        /// How many notes there may be.
        most: usize,
    },
    /// A partial by its number.
    Partials,
    /// A degree by its number and sign.
    Degrees,
    /// A column of the page.
    Columns(usize),
    /// A staff of the page by its label.
    Staves(Vec<String>),
    /// The first or the second that is heard.
    FirstOrSecond,
}

/// Partials that can be answered.
pub const PARTIALS: core::ops::RangeInclusive<u8> = 2..=16;

impl AnswerWay {
    /// How this question is answered.
    #[must_use]
    pub fn of(question: &Question) -> Self {
        if !question.choices.is_empty() {
            return Self::Choices(question.choices.clone());
        }
        match question.kind {
            Kind::Partial => Self::Partials,
            Kind::Degree => Self::Degrees,
            Kind::WrongNote => Self::Columns(question.passage.columns().len()),
            Kind::WrongStaff => {
                Self::Staves(question.passage.staves().iter().map(|staff| staff.label.clone()).collect())
            }
            Kind::Natural => Self::FirstOrSecond,
            _ => Self::notes(question),
        }
    }

    /// The clef is the one of the page, or of the instrument in hand: never one chosen by the right answer, which would
    /// tell how high that lies. The reader takes another one at will.
    fn notes(question: &Question) -> Self {
        let most = if question.kind == Kind::Players { 2 } else { 1 };
        let clef = in_hand_clef(question).or_else(|| printed_clef(question)).unwrap_or(Clef::TREBLE);
        Self::Notes { clef, most }
    }
}

/// The bass clef for what lies low on average.
#[must_use]
pub fn low_or_high(notes: &[Pitch]) -> Clef {
    let middle = Pitch::natural(Step::C, 4).diatonic();
    let sum: i32 = notes.iter().map(|note| note.diatonic() - middle).sum();
    if sum < 0 { Clef::BASS } else { Clef::TREBLE }
}

/// The clef of the staff on which the right notes are shown: that of the part where something was to be written, whose other
/// clef may have another notation.
#[must_use]
pub fn answer_clef(question: &Question, right: &[Pitch]) -> Clef {
    match question.kind {
        Kind::Writes => printed_clef(question).unwrap_or(Clef::TREBLE),
        Kind::InHand => in_hand_clef(question).unwrap_or(Clef::TREBLE),
        _ => low_or_high(right),
    }
}

/// The clef of the instrument in hand, where it is asked about.
fn in_hand_clef(question: &Question) -> Option<Clef> {
    question.in_hand.as_deref().filter(|_| question.kind == Kind::InHand).and_then(usual_clef)
}

/// The clef of the place that is asked about.
fn printed_clef(question: &Question) -> Option<Clef> {
    let at = question.at;
    let staff = ResolvedStaff::of(&question.passage, at.staff, DecodeOptions::default());
    Some(staff.place_at(at.column, at.player)?.habits.clef)
}

/// The clef in which an instrument usually reads.
fn usual_clef(label: &str) -> Option<Clef> {
    let page = ReadPage::of_label(label);
    let staff = ResolvedStaff::of(&page.passage, 0, DecodeOptions::default());
    Some(staff.place_at(0, 0)?.habits.clef)
}

/// The other clef that the reader may answer in.
#[must_use]
pub fn other_clef(clef: Clef) -> Clef {
    if clef == Clef::BASS { Clef::TREBLE } else { Clef::BASS }
}

/// An answer that is being made, for those that are made in steps.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Draft {
    /// The notes so far.
    pub notes: Vec<Pitch>,
    /// Which of them is being changed.
    pub at: usize,
    /// The number of a degree.
    pub number: Option<u8>,
    /// Its sign.
    pub alter: i32,
    /// What was chosen of what is offered.
    pub chosen: Option<Answer>,
    /// Whether it was to be given before it was an answer: what is missing is said.
    pub lacking: bool,
}

impl Draft {
    /// The note being changed.
    #[must_use]
    pub fn note(&self) -> Option<Pitch> {
        self.notes.get(self.at).copied()
    }

    /// Puts a letter, unaltered, in the octave nearest to the note before, or to the middle of the staff.
    pub fn letter(&mut self, step: Step, clef: Clef) {
        let near = self.note().unwrap_or_else(|| clef.pitch_at(StaffPosition(4)));
        let here = Pitch::natural(step, near.octave);
        let nearest = [-1, 0, 1].map(|octaves| Pitch { octave: here.octave + octaves, ..here });
        let far = |pitch: &Pitch| (pitch.diatonic() - near.diatonic()).abs();
        if let Some(pitch) = nearest.into_iter().min_by_key(far) {
            self.put(pitch);
        }
    }

    /// Puts a note on a place of the staff, unaltered.
    pub fn place(&mut self, at: StaffPosition, clef: Clef) {
        self.put(clef.pitch_at(at));
    }

    /// Goes to the note of a player among so many; nobody's note is made before that of the player over him.
    pub fn choose(&mut self, player: usize, most: usize) {
        self.at = player.min(self.notes.len()).min(most.saturating_sub(1));
    }

    /// Puts a note.
    pub fn put(&mut self, pitch: Pitch) {
        match self.notes.get_mut(self.at) {
            Some(note) => *note = pitch,
            None => self.notes.push(pitch),
        }
    }

    /// Gives the note this sign; once more takes it away.
    pub fn sign(&mut self, alter: i32) {
        if let Some(note) = self.notes.get_mut(self.at) {
            note.alter = turned(note.alter, alter);
        }
    }

    /// Takes a degree, unaltered as a letter is.
    pub fn degree(&mut self, number: u8) {
        (self.number, self.alter) = (Some(number), 0);
    }

    /// Gives the degree this sign; once more takes it away. Where there is none yet, it is lacking.
    pub fn sign_of_degree(&mut self, alter: i32) {
        match self.number {
            Some(_) => self.alter = turned(self.alter, alter),
            None => self.lacking = true,
        }
    }

    /// Moves the note by letters.
    pub fn step(&mut self, letters: i32) {
        if let Some(note) = self.note() {
            self.put(Pitch::from_diatonic(note.diatonic() + letters, 0));
        }
    }

    /// Moves the note by octaves.
    pub fn octave(&mut self, octaves: i32) {
        if let Some(note) = self.note() {
            self.put(Pitch { octave: note.octave + octaves, ..note });
        }
    }

    /// Raises or lowers the note on its letter, by at most two signs.
    pub fn alter(&mut self, semitones: i32) {
        if let Some(note) = self.note() {
            self.put(Pitch { alter: (note.alter + semitones).clamp(-2, 2), ..note });
        }
    }

    /// The answer, where it is complete.
    #[must_use]
    pub fn answer(&self, way: &AnswerWay) -> Option<Answer> {
        match way {
            AnswerWay::Notes { most: 1, .. } => self.notes.first().copied().map(Answer::Note),
            AnswerWay::Notes { most, .. } => {
                (self.notes.len() == *most).then(|| Answer::Notes(self.notes.clone()))
            }
            AnswerWay::Degrees => {
                self.number.map(|number| Answer::Degree(Degree { number, alter: self.alter }))
            }
            _ => self.chosen.clone(),
        }
    }
}

impl Draft {
    /// Says what is missing, and goes to the player whose note it is.
    pub fn lack(&mut self, way: &AnswerWay) {
        self.lacking = true;
        if let AnswerWay::Notes { most, .. } = way {
            self.choose(self.notes.len(), *most);
        }
    }

    /// What is missing before it is an answer.
    #[must_use]
    pub fn what_is_lacking(&self, way: &AnswerWay) -> &'static str {
        match (way, self.notes.as_slice()) {
            (AnswerWay::Notes { .. }, [_, ..]) => words::doing::SECOND_NOTE_FIRST,
            (AnswerWay::Notes { .. }, _) => words::doing::NOTE_FIRST,
            (AnswerWay::Degrees, _) => words::doing::NUMBER_FIRST,
            _ => words::doing::CHOOSE_FIRST,
        }
    }
}

/// A sign on a note or a degree that has one already; the same once more takes it away.
const fn turned(now: i32, alter: i32) -> i32 {
    if now == alter { 0 } else { alter }
}

/// Both answers to what is heard twice.
pub const FIRST_OR_SECOND: [Which; 2] = [Which::First, Which::Second];

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::{AskedStaff, Exercise};

    #[test]
    fn the_clef_for_the_answer_does_not_tell_how_high_it_lies() {
        let labels = ["Corni in C basso", "Corni in B alto", "Clarinetti in A", "Violoncello", "Viola"];
        for label in labels {
            for kind in [Kind::Sounds, Kind::Writes, Kind::InHand] {
                let staves = vec![AskedStaff::of(label)];
                let in_hand = Some("Horn in F".to_owned());
                let exercise =
                    Exercise { kinds: vec![kind], staves, in_hand, questions: 30, ..Exercise::default() };
                let ways: Vec<(Clef, AnswerWay)> = exercise
                    .questions()
                    .unwrap()
                    .iter()
                    .map(|question| (printed_clef(question).unwrap(), AnswerWay::of(question)))
                    .collect();
                for (printed, way) in &ways {
                    let clef = if kind == Kind::InHand { Clef::TREBLE } else { *printed };
                    assert_eq!(*way, AnswerWay::Notes { clef, most: 1 }, "{label}");
                }
            }
        }
        assert_eq!(other_clef(Clef::TREBLE), Clef::BASS);
        assert_eq!(other_clef(Clef::ALTO), Clef::BASS);
        assert_eq!(other_clef(Clef::BASS), Clef::TREBLE);
    }

    #[test]
    fn a_note_is_made_by_letters_signs_and_octaves() {
        let mut draft = Draft::default();
        let way = AnswerWay::Notes { clef: Clef::TREBLE, most: 1 };
        assert_eq!(draft.answer(&way), None);
        draft.letter(Step::G, Clef::TREBLE);
        assert_eq!(draft.note().unwrap().to_string(), "G4");
        draft.sign(-1);
        draft.octave(1);
        assert_eq!(draft.note().unwrap().to_string(), "Gb5");
        draft.sign(-1);
        draft.step(1);
        assert_eq!(draft.note().unwrap().to_string(), "A5");
        draft.letter(Step::C, Clef::TREBLE);
        assert_eq!(draft.answer(&way), Some(Answer::Note("C6".parse().unwrap())));
        draft.place(StaffPosition(0), Clef::BASS);
        assert_eq!(draft.note().unwrap().to_string(), "G2");
    }

    #[test]
    fn two_players_have_a_note_each() {
        let mut draft = Draft::default();
        let way = AnswerWay::Notes { clef: Clef::TREBLE, most: 2 };
        draft.choose(1, 2);
        assert_eq!(draft.at, 0);
        draft.letter(Step::E, Clef::TREBLE);
        // Half an answer is none: the other player's note is asked for.
        assert_eq!(draft.answer(&way), None);
        draft.lack(&way);
        assert!(draft.lacking && draft.at == 1);
        draft.choose(5, 2);
        assert_eq!(draft.at, 1);
        draft.letter(Step::C, Clef::TREBLE);
        assert_eq!(
            draft.answer(&way),
            Some(Answer::Notes(vec!["E5".parse().unwrap(), "C5".parse().unwrap()]))
        );
    }

    #[test]
    fn a_choice_is_an_answer_once_it_is_chosen_and_of_no_other_kind() {
        let mut draft = Draft::default();
        assert_eq!(draft.answer(&AnswerWay::Partials), None);
        for partial in [3, 5] {
            draft.chosen = Some(Answer::Partial(Some(partial)));
            assert_eq!(draft.answer(&AnswerWay::Partials), Some(Answer::Partial(Some(partial))));
        }
        assert_eq!(draft.answer(&AnswerWay::Degrees), None);
    }

    #[test]
    fn a_degree_has_a_number_and_a_sign() {
        let mut draft = Draft::default();
        // A sign alone is no answer, and does not wait for a number that comes later.
        draft.sign_of_degree(1);
        assert_eq!((draft.answer(&AnswerWay::Degrees), draft.lacking), (None, true));
        let said = |draft: &Draft| draft.answer(&AnswerWay::Degrees);
        draft.degree(4);
        assert_eq!(said(&draft), Some(Answer::Degree(Degree { number: 4, alter: 0 })));
        draft.sign_of_degree(1);
        assert_eq!(said(&draft), Some(Answer::Degree(Degree { number: 4, alter: 1 })));
        draft.degree(7);
        assert_eq!(said(&draft), Some(Answer::Degree(Degree { number: 7, alter: 0 })));
    }
}
