//! One note on one staff, read both ways: what it is on paper and in sound, how it is made, how far it drifts,
//! and three ways of reading it.

use crate::clef_reading::{ClefReading, ReadSign};
use crate::crook::CrookFamily;
use crate::degree::Degree;
use crate::interval::Interval;
use crate::intonation::Intonation;
use crate::key::{Key, Signature};
use crate::label::StaffLabel;
use crate::notation::{Habits, Notation, drums_transpose};
use crate::pitch::{Pitch, Step, Tonic};
use crate::reach::{Grade, Production, Reach};
use crate::series::Partial;
use crate::spelling::{as_brass_prints, as_part_prints};
use crate::transposition::{Printed, Sounding, Transposition, Written};

/// Everything around a note that decides what it means.
#[derive(Clone, Copy, Debug)]
pub struct Situation<'a> {
    /// The staff, as its label names it.
    pub staff: &'a StaffLabel,
    /// How it is printed.
    pub habits: Habits,
    /// The signature printed on it.
    pub signature: Signature,
    /// The key of the movement, where known.
    pub movement: Option<Key>,
    /// The instrument in the reader's hands.
    pub in_hand: Option<&'a StaffLabel>,
    /// The tuning of the room and of the brass.
    pub intonation: Intonation,
}

/// A note on natural brass: how it is made and how far it stands from the tuning.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Making {
    /// Horn or trumpet.
    pub family: CrookFamily,
    /// The partial it is; `None` off the series.
    pub partial: Option<Partial>,
    /// Cents the partial stands from the note in the tuning, uncorrected; negative is flat.
    pub drift: Option<f64>,
    /// Frequency of the partial in Hz, uncorrected.
    pub natural_hz: Option<f64>,
    /// How it is made.
    pub production: Production,
    /// Another way, where sources differ.
    pub other: Option<Production>,
    /// The partial it is made from.
    pub from: Option<Partial>,
    /// Cents to bend from that partial, positive upwards; `None` where nothing sensible can be said.
    pub bend: Option<f64>,
    /// How good it is; `None` beyond the tables.
    pub grade: Option<Grade>,
    /// What else the table knows.
    pub note: &'static str,
    /// Below the series, by lip alone.
    pub factitious: bool,
}

/// The part read on the instrument in the reader's hands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InHand {
    /// The note to read there.
    pub written: Written,
    /// From the note of the part to that note.
    pub interval: Interval,
}

/// Everything there is to say about one note.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// What stands on the paper.
    pub printed: Printed,
    /// What the player reads.
    pub written: Written,
    /// What is heard, in the strict spelling.
    pub sounding: Sounding,
    /// How the staff was read.
    pub notation: Notation,
    /// How it is made; `None` for all but natural brass.
    pub making: Option<Making>,
    /// Frequency of the sounding note in the tuning, in Hz.
    pub target_hz: f64,
    /// Degree in the movement's key, where known.
    pub movement_degree: Option<Degree>,
    /// Degree above the written C.
    pub crook_degree: Degree,
    /// From what is printed to what sounds.
    pub interval: Interval,
    /// The clef to imagine.
    pub by_clef: ClefReading,
    /// How the printed accidental is read there.
    pub sign: ReadSign,
    /// On the instrument in hand.
    pub in_hand: Option<InHand>,
}

/// A reading from sound to paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Writing {
    /// The note in its strict spelling, and all that follows from it.
    pub strict: Reading,
    /// As the trade would print it, where that differs.
    pub also_printed: Option<Printed>,
}

/// From paper to sound.
///
/// ```
/// use crookwise_theory::label::{DecodeOptions, decode};
/// use crookwise_theory::{Clef, Habits, Printed, Situation, read};
///
/// let horns = decode("Corni in Es", DecodeOptions::default());
/// let situation = Situation::of(&horns.staves[0], Habits::of(Clef::TREBLE));
/// let reading = read(&situation, Printed("E5".parse().unwrap()));
/// assert_eq!(reading.sounding.to_string(), "G4");
/// assert_eq!(reading.making.and_then(|making| making.partial).unwrap().number(), 10);
/// ```
#[must_use]
pub fn read(situation: &Situation<'_>, printed: Printed) -> Reading {
    read_among(situation, printed, [printed.0.tonic()])
}

/// The same, where the letters printed on the whole staff are known: they decide how drums are read.
#[must_use]
pub fn read_among(
    situation: &Situation<'_>,
    printed: Printed,
    letters: impl IntoIterator<Item = Tonic>,
) -> Reading {
    let notation = Notation::of(situation.staff, situation.habits).for_letters(situation.staff, letters);
    complete(situation, notation, printed)
}

/// From sound to paper.
#[must_use]
pub fn write(situation: &Situation<'_>, sounding: Sounding) -> Writing {
    write_among(situation, sounding, [])
}

/// The same, where the letters printed on the whole staff are known: drums are written as the page writes them.
#[must_use]
pub fn write_among(
    situation: &Situation<'_>,
    sounding: Sounding,
    letters: impl IntoIterator<Item = Tonic>,
) -> Writing {
    let notation = Notation::of(situation.staff, situation.habits);
    let notation = drums_notation(situation.staff, notation, sounding, letters);
    let strict = notation.transposition.to_written(sounding);
    let trade = if situation.habits.at_pitch {
        // The page prints what sounds: it is spelled in the key of the movement.
        let printed = match situation.movement {
            Some(key) => as_part_prints(Written(sounding.0), key.signature()),
            None => Written(sounding.0),
        };
        notation.written(Printed(printed.0))
    } else if situation.staff.natural_family().is_some() && situation.signature == Signature::NONE {
        as_brass_prints(strict)
    } else {
        let signature = match situation.movement {
            Some(key) if situation.signature == Signature::NONE => {
                key.signature().transposed(-notation.transposition.0)
            }
            _ => situation.signature,
        };
        as_part_prints(strict, signature.practical())
    };
    let also_printed = (trade != strict).then(|| notation.printed(trade));
    Writing { strict: complete(situation, notation, notation.printed(strict)), also_printed }
}

/// How a sound is written for drums: at pitch where the letters of the page are. Where they are not, or nothing is
/// printed yet, a drum the label names is C or G on paper, and everything else is at pitch.
fn drums_notation(
    staff: &StaffLabel,
    notation: Notation,
    sounding: Sounding,
    letters: impl IntoIterator<Item = Tonic>,
) -> Notation {
    if staff.drums.is_empty() {
        return notation;
    }
    let mut letters = letters.into_iter().peekable();
    let at_pitch = Notation { transposition: Transposition::NONE, ..notation };
    let page_at_pitch = letters.peek().is_some() && !drums_transpose(&staff.drums, letters);
    let on_paper = notation.transposition.to_written(sounding).0;
    if page_at_pitch || !staff.drums.contains(&sounding.0.tonic()) || !is_drum_on_paper(on_paper) {
        return at_pitch;
    }
    notation.for_letters(staff, [on_paper.tonic()])
}

/// Whether a note is one of those that stand for the two drums on a page that transposes: C3, and the G a fourth below
/// or a fifth above. No drum sounds an octave away from them. Common practice.
fn is_drum_on_paper(note: Pitch) -> bool {
    let drums = [(Step::C, 3), (Step::G, 2), (Step::G, 3)];
    drums.iter().any(|(step, octave)| note == Pitch::natural(*step, *octave))
}

impl<'a> Situation<'a> {
    /// A staff with no signature, in no key, in equal temperament.
    #[must_use]
    pub fn of(staff: &'a StaffLabel, habits: Habits) -> Self {
        Self {
            staff,
            habits,
            signature: Signature::NONE,
            movement: None,
            in_hand: None,
            intonation: Intonation::default(),
        }
    }
}

fn complete(situation: &Situation<'_>, notation: Notation, printed: Printed) -> Reading {
    let written = notation.written(printed);
    let sounding = notation.sounding(written);
    let interval = notation.printed_to_sounding();
    let by_clef = ClefReading::of(situation.habits.clef, situation.signature, interval);
    Reading {
        printed,
        written,
        sounding,
        notation,
        making: situation
            .staff
            .natural_family()
            .map(|family| Making::of(family, written, notation.transposition, &situation.intonation)),
        target_hz: situation.intonation.tuning.frequency(sounding.0),
        movement_degree: situation.movement.map(|key| Degree::of(sounding.0, key)),
        crook_degree: Degree::above_crook(written.0),
        interval,
        by_clef,
        sign: by_clef.sign(printed.0, situation.signature, interval),
        in_hand: situation.in_hand.map(|other| InHand::of(other, written, sounding)),
    }
}

impl InHand {
    fn of(other: &StaffLabel, written: Written, sounding: Sounding) -> Self {
        let habits = Habits::of(other.instrument.clef);
        let there = Notation::of(other, habits).transposition.to_written(sounding);
        Self { written: there, interval: Interval::between(written.0, there.0) }
    }
}

impl Making {
    /// How a written note is made on a crook.
    #[must_use]
    pub fn of(
        family: CrookFamily,
        written: Written,
        transposition: Transposition,
        intonation: &Intonation,
    ) -> Self {
        let partial = Partial::of(family, written.0);
        let factitious = Partial::is_factitious(family, written.0);
        let row = Reach::of(family, written.0);
        let from = row.and_then(|row| row.from).and_then(Partial::new);
        let lipped_below = factitious && written.0.midi() < LOWEST_IN_TABLE;
        let unplayed = partial.filter(|partial| row.is_none() && partial.is_below_range(family));
        let from = from.or(unplayed);
        Self {
            family,
            partial,
            drift: partial.map(|partial| intonation.drift(partial, written, transposition)),
            natural_hz: partial.map(|partial| intonation.natural_hz(partial, transposition)),
            production: match row {
                Some(row) => row.production,
                None if lipped_below => Production::Lipped,
                None if unplayed.is_some() => Production::Open,
                None => Production::Unavailable,
            },
            other: row.and_then(|row| row.other),
            from,
            bend: from.map(|from| intonation.bend(from, written, transposition)),
            grade: row.map(|row| row.grade).or((lipped_below || unplayed.is_some()).then_some(Grade::E)),
            note: match row {
                Some(row) => row.note,
                None if unplayed.is_some() => "not played as a rule: the usual range begins with partial 3",
                None => "",
            },
            factitious,
        }
    }
}

/// MIDI number of written C3, where the horn's table begins.
const LOWEST_IN_TABLE: i32 = 48;

/// The note of a partial on paper, in its usual spelling: C3 for the second, B-flat 4 for the seventh.
#[must_use]
pub fn usual_note(partial: Partial) -> Written {
    let midi = partial.written_midi().first().copied().unwrap_or(0);
    let octave = (midi - 12).div_euclid(12);
    let from_c = Pitch::natural(Step::C, octave) + Interval::usual((midi - 12).rem_euclid(12));
    as_brass_prints(Written(from_c))
}
