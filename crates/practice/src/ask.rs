//! From a page with its notes to a question: what is right, and what is right as well.

use crate::answer::Answer;
use crate::kind::Kind;
use crate::question::{Question, Spot};
use crookwise_score::{Cell, Event, Passage, Place, ResolvedStaff, Staff};
use crookwise_theory::label::{DecodeOptions, StaffLabel};
use crookwise_theory::spelling::{as_brass_prints, as_part_prints, in_key};
use crookwise_theory::{
    Interval, Intonation, Partial, Pitch, Printed, Production, Reading, Sounding, Writing, Written,
};

/// Partials that stand clearly off the keys of a keyboard, so that the ear can tell them.
pub(crate) const OFF_KEYS: [u8; 7] = [5, 7, 10, 11, 13, 14, 15];

/// A question about the note that stands at a place; `None` where that kind cannot be asked of it.
pub(crate) fn ask(kind: Kind, mut passage: Passage, at: Spot, hand: Option<&StaffLabel>) -> Option<Question> {
    let place = place(&passage, at)?;
    let printed = note(&passage, at)?;
    let reading = place.read(printed, Intonation::default(), hand);
    let mut given = None;
    let mut also = Vec::new();
    let right = match kind {
        Kind::Sounds => {
            let sounding = reading.sounding.0;
            let key = place.movement.filter(|_| place.staff.natural_family().is_some());
            also.extend(key.map(|key| Answer::Note(in_key(sounding, key))));
            Answer::Note(sounding)
        }
        Kind::Writes => {
            let (right, others) = written_answers(&place, reading.sounding);
            given = Some(reading.sounding);
            also.extend(others);
            for same in printed_alike(&passage, at, printed) {
                passage.set(at.staff, at.column, same, Event::Rest).ok()?;
            }
            right
        }
        Kind::InHand => {
            let strict = reading.in_hand?.written;
            also.push(Answer::Note(as_hand_prints(&place, hand?, strict).0));
            Answer::Note(strict.0)
        }
        Kind::Partial => Answer::Partial(reading.making?.partial.map(Partial::number)),
        Kind::Made => {
            let making = reading.making.filter(|making| making.production != Production::Unavailable)?;
            also.extend(making.other.map(Answer::Made));
            Answer::Made(making.production)
        }
        Kind::Degree => Answer::Degree(reading.movement_degree?),
        Kind::Clef => {
            if reading.interval == Interval::UNISON {
                return None;
            }
            let by = reading.by_clef;
            Answer::Clef { clef: by.clef.without_octave(), octaves: by.octaves, fifths: by.fifths }
        }
        Kind::Players => Answer::Notes(players(&passage, at)?),
        _ => return None,
    };
    also.retain(|other| *other != right);
    Some(Question { given, also, ..Question::plain(kind, passage, at, right) })
}

/// How a place is read: the label that holds there, its habits, its signature; `None` where what is printed stands for a
/// stroke.
pub(crate) fn place(passage: &Passage, at: Spot) -> Option<Place> {
    let place = resolved(passage, at.staff)?.place_at(at.column, at.player).cloned();
    place.filter(|place| place.staff.is_pitched())
}

/// A staff of a passage decoded.
pub(crate) fn resolved(passage: &Passage, staff: usize) -> Option<ResolvedStaff> {
    passage.staves().get(staff)?;
    Some(ResolvedStaff::of(passage, staff, DecodeOptions::default()))
}

/// The note that begins at a place.
pub(crate) fn note(passage: &Passage, at: Spot) -> Option<Printed> {
    match passage.event(at.staff, at.column, at.player)? {
        Event::Note(printed) => Some(printed),
        _ => None,
    }
}

/// From sound to paper at a place.
pub(crate) fn write_at(place: &Place, sounding: Sounding) -> Writing {
    place.write(sounding, Intonation::default(), None)
}

/// What is right where a sound is to be written: as the trade prints it, and its strict spelling where that is another.
pub(crate) fn written_answers(place: &Place, sounding: Sounding) -> (Answer, Vec<Answer>) {
    let Writing { strict, also_printed } = write_at(place, sounding);
    let strictly = Answer::Note(strict.printed.0);
    match also_printed {
        Some(printed) => (Answer::Note(printed.0), vec![strictly]),
        None => (strictly, Vec::new()),
    }
}

/// What all players of a staff sound in a column: one note where one is printed for all and they sound it alike.
fn players(passage: &Passage, at: Spot) -> Option<Vec<Pitch>> {
    let staff = passage.staves().get(at.staff)?;
    let resolved = resolved(passage, at.staff)?;
    let sounding = |player: usize| {
        let at = Spot { player, ..at };
        let place = resolved.place_at(at.column, player).filter(|place| place.staff.is_pitched())?;
        Some(place.read(note(passage, at)?, Intonation::default(), None).sounding.0)
    };
    let notes: Vec<Pitch> = (0..staff.players()).map(sounding).collect::<Option<_>>()?;
    let together = staff.cells().get(at.column).is_some_and(Cell::is_together);
    let first = *notes.first()?;
    Some(if together && notes.iter().all(|other| *other == first) { vec![first] } else { notes })
}

/// The players of a staff who have the very note that one of them has: what he must write stands there as long as they do.
fn printed_alike(passage: &Passage, at: Spot, printed: Printed) -> Vec<usize> {
    let players = 0..passage.staves().get(at.staff).map_or(0, Staff::players);
    players.filter(|&player| note(passage, Spot { player, ..at }) == Some(printed)).collect()
}

/// A note of the instrument in hand as its own part would print it.
fn as_hand_prints(place: &Place, hand: &StaffLabel, strict: Written) -> Written {
    if hand.natural_family().is_some() {
        return as_brass_prints(strict);
    }
    let sounding = place.sounding_signature();
    as_part_prints(strict, sounding.transposed(-hand.transposition.0).practical())
}

impl Question {
    /// All there is to say about the note asked about: the right way by interval, by clef and by degree. For what must
    /// be written it is the note that is right in its strict spelling. `None` where no single note is asked about.
    #[must_use]
    pub fn reading(&self) -> Option<Reading> {
        if matches!(self.kind, Kind::Label | Kind::Chord | Kind::WrongStaff) {
            return None;
        }
        let place = place(&self.passage, self.at)?;
        if let Some(sounding) = self.given {
            return Some(write_at(&place, sounding).strict);
        }
        let hand = self.in_hand.as_deref().and_then(crate::setting::named);
        Some(place.read(note(&self.passage, self.at)?, Intonation::default(), hand.as_ref()))
    }
}
