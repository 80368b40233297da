//! An item: what is learnt as one thing, and comes back as one thing.

use crate::exercise::{AskedStaff, Exercise, NoteRange};
use crate::kind::Kind;
use crate::labels;
use crate::question::Question;
use crate::setting::{Workshop, stock};
use crookwise_score::{Choice, Event, ResolvedStaff, Settings};
use crookwise_theory::label::{DecodeOptions, StaffLabel, decode};
use crookwise_theory::{
    BassNotation, Clef, Habits, Instrument, Intonation, Notation, Scheme, Tonic, Transposition, Written,
};

/// What a staff means, whatever its label: an instrument, its transposition, how it is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StaffKey {
    /// The instrument's id in the table.
    pub instrument: &'static str,
    /// Letters from written to sounding by its label, octaves included.
    pub steps: i8,
    /// Semitones from written to sounding by its label.
    pub semitones: i8,
    /// The clef it is printed in.
    pub clef: Clef,
    /// Old or new bass-clef notation, where the staff has a choice.
    pub bass: Option<BassNotation>,
    /// The system of notation, where the instrument has a choice.
    pub scheme: Option<Scheme>,
}

/// A kind of question on a staff about a note by its name: a written C, in whichever octave.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Item {
    /// What is asked.
    pub kind: Kind,
    /// On which staff.
    pub staff: StaffKey,
    /// About which written note; `None` where the staff as a whole is asked about.
    pub note: Option<Tonic>,
    /// What the second player of a pair reads, where the players are asked about and it is another staff.
    pub second: Option<StaffKey>,
}

impl StaffKey {
    /// A decoded staff as it is printed; `None` for a transposition of more than ten octaves.
    #[must_use]
    pub fn of(staff: &StaffLabel, habits: Habits) -> Option<Self> {
        let interval = staff.transposition.0;
        let Notation { bass, scheme, .. } = Notation::of(staff, habits);
        Some(Self {
            instrument: staff.instrument.id,
            steps: i8::try_from(interval.steps).ok()?,
            semitones: i8::try_from(interval.semitones).ok()?,
            clef: habits.clef,
            bass,
            scheme,
        })
    }

    /// From written to sounding.
    #[must_use]
    pub fn transposition(self) -> Transposition {
        Transposition::new(self.steps.into(), self.semitones.into())
    }

    /// Its instrument and transposition.
    #[must_use]
    pub fn choice(self) -> Option<Choice> {
        Some(Choice { instrument: Instrument::by_id(self.instrument)?, transposition: self.transposition() })
    }

    /// A label that scores print for it: Italian where there is one, else English.
    #[must_use]
    pub fn label(self) -> Option<String> {
        let choice = self.choice()?;
        let family = choice.instrument.crooks;
        let crook = family.and_then(|family| family.by_transposition(choice.transposition));
        let mut staff = decode(choice.instrument.english, DecodeOptions::default()).staves.into_iter().next();
        if let (Some(staff), Some(crook)) = (&mut staff, crook) {
            staff.key = Some(crook.tonic);
            staff.octave = crook.octave;
        }
        let staff = staff.map(|staff| StaffLabel {
            instrument: choice.instrument,
            transposition: choice.transposition,
            ..staff
        });
        let printed = staff.and_then(|staff| labels::form(&staff, 0).or_else(|| labels::form(&staff, 4)));
        Some(printed.unwrap_or_else(|| choice.instrument.english.to_owned()))
    }

    fn asked(self) -> Option<AskedStaff> {
        let choice = self.choice()?;
        let clef = Some(self.clef).filter(|clef| *clef != choice.instrument.clef);
        Some(AskedStaff {
            choice: Some(choice),
            settings: Settings { clef, bass: self.bass, scheme: self.scheme, ..Settings::default() },
            ..AskedStaff::of(&self.label()?)
        })
    }
}

impl StaffKey {
    /// A staff of two players in two crooks: "Corni in Si bemolle alto, Corni in Sol". `None` where no label says so.
    fn asked_with(self, second: Self) -> Option<AskedStaff> {
        let asked = self.asked()?;
        let label = format!("{}, {}", asked.label, second.label()?);
        let decoded = decode(&label, DecodeOptions::default());
        let read: Vec<Option<Choice>> = decoded.staves.iter().map(|staff| Some(Choice::of(staff))).collect();
        (read == [self.choice(), second.choice()]).then_some(AskedStaff { label, choice: None, ..asked })
    }
}

impl Item {
    /// What a question asks as an item; `None` where its staff is not known.
    #[must_use]
    pub fn of(question: &Question) -> Option<Self> {
        let at = question.spot_of_staff().unwrap_or(question.at);
        let staff = ResolvedStaff::of(&question.passage, at.staff, DecodeOptions::default());
        let place = staff.place_at(at.column, at.player)?;
        let key = StaffKey::of(&place.staff, place.habits)?;
        let second = || {
            let place = staff.place_at(at.column, 1).filter(|_| question.kind == Kind::Players)?;
            StaffKey::of(&place.staff, place.habits).filter(|second| *second != key)
        };
        let second = second();
        let written = match (question.passage.event(at.staff, at.column, at.player), question.given) {
            (_, Some(sounding)) => {
                let writing = place.write(sounding, Intonation::default(), None);
                let printed = writing.also_printed.unwrap_or(writing.strict.printed);
                Some(place.notation().written(printed))
            }
            (Some(Event::Note(printed)), None) => Some(place.notation().written(printed)),
            _ => None,
        };
        Some(Self { second, ..Self::about(question.kind, key, written) })
    }

    /// A kind of question on a staff; the note counts only for kinds that ask about one.
    #[must_use]
    pub fn about(kind: Kind, staff: StaffKey, written: Option<Written>) -> Self {
        let note = written.filter(|_| asks_about_note(kind)).map(|written| written.0.tonic());
        Self { kind, staff, note, second: None }
    }

    /// An exercise of one question that asks it; `None` where that cannot be asked of the staff by itself.
    #[must_use]
    pub fn exercise(&self, seed: u32) -> Option<Exercise> {
        let asked = match self.second {
            Some(second) => self.staff.asked_with(second)?,
            None => self.staff.asked()?,
        };
        let mut exercise = Exercise { kinds: vec![self.kind], questions: 1, seed, ..Exercise::default() };
        exercise.staves.push(asked);
        match self.kind {
            Kind::InHand | Kind::WrongNote => exercise.in_hand = Some("Horn in F".to_owned()),
            Kind::Chord | Kind::WrongStaff => {
                exercise.staves.extend(["Violini", "Viole", "Bassi"].map(AskedStaff::of));
            }
            Kind::Players => exercise.staves.iter_mut().for_each(|staff| staff.pair = true),
            _ => {}
        }
        if let Some(note) = self.note {
            let midi = octave_of(&exercise, note, seed)?;
            exercise.range = NoteRange::Written(midi, midi);
        }
        exercise.questions().is_ok_and(|questions| !questions.is_empty()).then_some(exercise)
    }
}

/// Whether the note makes a difference to what is learnt.
pub(crate) const fn asks_about_note(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Sounds
            | Kind::Writes
            | Kind::InHand
            | Kind::Partial
            | Kind::Made
            | Kind::Degree
            | Kind::Natural
    )
}

/// One of the octaves in which the staff uses the note.
fn octave_of(exercise: &Exercise, note: Tonic, seed: u32) -> Option<u8> {
    let workshop = Workshop::of(exercise).ok()?;
    let setting = workshop.settings.first()?;
    let mut found = Vec::new();
    for key in &setting.keys {
        let place = setting.place(*key, 0)?;
        found.extend(
            stock(&place, NoteRange::Usual, exercise.edition)
                .into_iter()
                .filter(|(pitch, _)| pitch.tonic() == note),
        );
    }
    let weights: Vec<u32> = found.iter().map(|(_, weight)| *weight).collect();
    let (pitch, _) = found.get(crate::chance::Chance::new(seed).by_weight(&weights))?;
    u8::try_from(pitch.midi()).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(label: &str) -> StaffKey {
        let staff = decode(label, DecodeOptions::default()).staves.remove(0);
        StaffKey::of(&staff, Habits::of(staff.instrument.clef)).unwrap()
    }

    #[test]
    fn a_staff_gets_a_label_that_means_it() {
        for (label, printed) in [
            ("2 Corni in Es", "Corni in Mi bemolle"),
            ("Hörner in tief B", "Corni in Si bemolle basso"),
            ("Clarini in D", "Trombe in Re"),
            ("Klarinetten in A", "Clarinetti in La"),
            ("Cor anglais", "Corno inglese"),
        ] {
            let staff = key(label);
            assert_eq!(staff.label().as_deref(), Some(printed));
            let again = decode(&staff.label().unwrap(), DecodeOptions::default());
            let asked = staff.asked().unwrap();
            assert_eq!(
                asked.choice.unwrap().among(&again).map(|read| read.transposition),
                Some(staff.transposition())
            );
        }
    }

    #[test]
    fn what_is_read_another_way_is_another_item() {
        let read = |label: &str, clef, bass, scheme| {
            let staff = decode(label, DecodeOptions::default()).staves.remove(0);
            StaffKey::of(&staff, Habits { bass, scheme, ..Habits::of(clef) }).unwrap()
        };
        let low = |bass| read("Corni in F", Clef::BASS, bass, None);
        assert_eq!(low(None), low(Some(BassNotation::Old)));
        assert_ne!(low(None), low(Some(BassNotation::New)));
        let bass_clarinet = |scheme| read("Clarinetto basso in B", Clef::BASS, None, Some(scheme));
        assert_ne!(bass_clarinet(Scheme::German), bass_clarinet(Scheme::Italian));
        // Asked again, each is read as it was.
        for staff in [low(Some(BassNotation::New)), bass_clarinet(Scheme::Italian)] {
            let item = Item::about(Kind::Sounds, staff, Some(Written("G4".parse().unwrap())));
            let questions = item.exercise(1).and_then(|exercise| exercise.questions().ok()).unwrap();
            assert_eq!(Item::of(&questions[0]), Some(item));
        }
    }

    #[test]
    fn a_pair_in_two_crooks_comes_back_in_both() {
        let pair = AskedStaff { pair: true, ..AskedStaff::of("Corno I in B alto, Corno II in G") };
        let exercise = Exercise { kinds: vec![Kind::Players], staves: vec![pair], ..Exercise::default() };
        let question = exercise.questions().unwrap().remove(0);
        let item = Item::of(&question).unwrap();
        assert_eq!(item.second, Some(key("Corno in G")));
        let again = item.exercise(3).unwrap().questions().unwrap().remove(0);
        assert_eq!(Item::of(&again), Some(item));
        // A pair in one crook is one staff.
        let plain = Item::about(Kind::Players, key("Corni in G"), None);
        assert_eq!(Item::of(&plain.exercise(3).unwrap().questions().unwrap()[0]), Some(plain));
    }

    #[test]
    fn an_item_asks_itself() {
        let note = |name: &str| Some(Written(name.parse().unwrap()));
        for (kind, label, written) in [
            (Kind::Sounds, "Corni in A", note("E5")),
            (Kind::Writes, "Trombe in D", note("G4")),
            (Kind::Sounds, "Clarinetti in A", note("F#5")),
            (Kind::Made, "Corni in Es", note("Bb4")),
            (Kind::Partial, "Corni in F", note("F5")),
            (Kind::Label, "Corni in Es", None),
            (Kind::Clef, "Corni in Es", None),
            (Kind::InHand, "Corni in Es", note("C5")),
            (Kind::Degree, "Corni in D", note("G4")),
            (Kind::Chord, "Corni in D", None),
            (Kind::WrongNote, "Corni in D", None),
            (Kind::WrongStaff, "Corni in D", None),
            (Kind::Natural, "Corni in D", note("Bb4")),
            (Kind::Players, "Corni in D", None),
        ] {
            let item = Item::about(kind, key(label), written);
            let exercise = item.exercise(3).unwrap_or_else(|| panic!("{kind:?} {label}"));
            let questions = exercise.questions().unwrap();
            let asked = Item::of(&questions[0]).unwrap();
            assert_eq!((asked.kind, asked.note), (item.kind, item.note), "{label}");
            if !matches!(kind, Kind::Chord | Kind::WrongStaff) {
                assert_eq!(asked, item);
            }
        }
    }
}
