//! Which slips can be made on a staff: the typical mistakes as changes of single steps.

use crate::mistake::Mistake;
use crate::slip::{Change, Slip, Steps};
use crookwise_score::Place;
use crookwise_theory::label::StaffLabel;
use crookwise_theory::{
    BassNotation, Clef, ClefReading, ClefSign, Direction, Instrument, Interval, Intonation, LikeHorn,
    Printed, Signature, Step, Tonic, Transposition,
};

/// All that can mislead the reader of one note.
#[derive(Debug)]
pub(crate) struct Around<'a> {
    /// The place of the note.
    pub(crate) place: &'a Place,
    /// Crooks that hold on the same staff before or after a change.
    pub(crate) other_crooks: Vec<Interval>,
    /// The crook of the other player.
    pub(crate) partner: Option<Interval>,
    /// The instrument in hand.
    pub(crate) hand: Option<&'a StaffLabel>,
}

/// The steps of a printed note.
pub(crate) fn steps(around: &Around<'_>, printed: Printed) -> Steps {
    // The notation that the drums of the staff have with this note counted.
    let notation = around.place.read(printed, Intonation::default(), None).notation;
    let mut steps = Steps::new(printed.0, notation.printed_to_written, notation.transposition.0);
    if let Some(hand) = around.hand {
        steps.hand = hand_interval(hand);
    }
    steps
}

/// From written to sounding on the instrument in hand, in its usual clef.
pub(crate) fn hand_interval(hand: &StaffLabel) -> Interval {
    let habits = crookwise_theory::Habits::of(hand.instrument.clef);
    crookwise_theory::Notation::of(hand, habits).transposition.0
}

/// Every slip of a printed note on its way to the sound, or on to the hand.
pub(crate) fn of_printed(around: &Around<'_>, printed: Printed) -> Vec<Slip> {
    let mut slips = of_staff(around, steps(around, printed));
    let place = around.place;
    let reading = place.read(printed, Intonation::default(), None);
    let mut put = |mistake, change| slips.push(Slip { mistake, change });
    signature(place, printed, &mut put);
    clef(place, printed, &mut put);
    if let Some(partial) = reading.making.and_then(|making| making.partial) {
        let own = reading.written.0.midi();
        for midi in partial.written_midi().into_iter().filter(|midi| *midi != own) {
            let moved = crookwise_theory::Pitch { alter: printed.0.alter + midi - own, ..printed.0 };
            put(Mistake::PartialLiterally, Change::From(moved));
        }
    }
    // The clef that leads from the paper to the sound, or on to the hand.
    let interval = reading.interval - around.hand.map_or(Interval::UNISON, hand_interval);
    let by_clef = ClefReading::of(place.habits.clef, place.signature, interval);
    let sign = by_clef.sign(printed.0, place.signature, interval);
    if let (Some(_), true) = (sign.alter, sign.changed) {
        put(Mistake::AccidentalNotShifted, Change::Alter(printed.0.alter));
    }
    if sign.alter.is_none() && by_clef.fifths != 0 {
        let letter = (printed.0 + interval).step;
        put(Mistake::ClefSignature, Change::Alter(place.signature.alteration(letter)));
    }
    slips
}

/// The slips that need no printed note: transposition, bass notation, octave, spelling.
pub(crate) fn of_staff(around: &Around<'_>, steps: Steps) -> Vec<Slip> {
    let mut slips = Vec::new();
    let mut put = |mistake, change| slips.push(Slip { mistake, change });
    let habits = around.place.habits;
    let own = steps.transposition;
    if !habits.at_pitch {
        let to = |slip: (Mistake, Interval)| Slip { mistake: slip.0, change: Change::Transposition(slip.1) };
        let staff = &around.place.staff;
        if own != Interval::UNISON {
            put(Mistake::Direction, Change::Reverse);
        }
        slips.extend(transpositions(staff, own).into_iter().map(to));
        slips.extend(around.other_crooks.iter().map(|&other| to((Mistake::CrookChange, other))));
        slips.extend(around.partner.map(|other| to((Mistake::OtherPlayersCrook, other))));
        let mut put = |mistake, change| slips.push(Slip { mistake, change });
        match around.place.notation().bass {
            Some(BassNotation::Old) => put(Mistake::OldBassNotation, Change::Bass(Interval::UNISON)),
            Some(BassNotation::New) => put(Mistake::OldBassNotation, Change::Bass(Interval::OCTAVE)),
            None => {}
        }
    }
    if let Some(hand) = around.hand {
        let own = hand_interval(hand);
        if own != Interval::UNISON {
            slips.push(Slip { mistake: Mistake::Direction, change: Change::ReverseHand });
        }
        slips.extend(
            transpositions(hand, own)
                .into_iter()
                .map(|(mistake, to)| Slip { mistake, change: Change::Hand(to) }),
        );
    }
    for octaves in [1, -1, 2, -2] {
        slips.push(Slip { mistake: Mistake::Octave, change: Change::Octaves(octaves) });
    }
    for letters in [1, -1] {
        slips.push(Slip { mistake: Mistake::Spelling, change: Change::Letters(letters) });
    }
    slips.retain(|slip| slip.change != Change::Transposition(own));
    slips
}

/// Other transpositions that a staff is mistaken for.
pub(crate) fn transpositions(staff: &StaffLabel, own: Interval) -> Vec<(Mistake, Interval)> {
    let mut found = Vec::new();
    let mut put = |mistake, to: Interval| {
        if to != own && !found.contains(&(mistake, to)) {
            found.push((mistake, to));
        }
    };
    let down = own.direction() == Direction::Down;
    let sign = if down { -1 } else { 1 };
    let (letters, semitones) = (own.steps.abs(), own.semitones * sign);
    let (octaves, within) = (letters / 7, letters % 7);
    let rest = semitones - octaves * 12;
    // The same letter by way of the other direction: a trumpet in D as a horn in D.
    if (1..7).contains(&letters) {
        put(Mistake::Direction, own - Interval::octaves(sign));
    }
    // As far from the other end of the octave.
    let inverted = match within {
        2 | 5 => Some(Mistake::ThirdForSixth),
        3 | 4 => Some(Mistake::FourthForFifth),
        _ => None,
    };
    if let Some(mistake) = inverted {
        let other = Interval::new(7 - within + octaves * 7, 12 - rest + octaves * 12);
        put(mistake, if down { -other } else { other });
    }
    let major = [0, 2, 4, 5, 7, 9, 11].get(within as usize).copied().unwrap_or(0);
    if matches!(within, 1 | 2 | 5 | 6) && (rest == major || rest == major - 1) {
        let other = Interval::new(letters, octaves * 12 + if rest == major { major - 1 } else { major });
        put(Mistake::Quality, if down { -other } else { other });
    }
    let sharper = |by: i32| Interval::new(own.steps, own.semitones + by);
    match staff.key.filter(|_| staff.drums.is_empty()) {
        Some(Tonic { step: Step::E, alter: -1 }) => put(Mistake::EForEs, sharper(1)),
        Some(Tonic { step: Step::E, alter: 0 }) => put(Mistake::EForEs, sharper(-1)),
        Some(Tonic { step: Step::B, alter: -1 }) => put(Mistake::BForH, sharper(1)),
        Some(Tonic { step: Step::B, alter: 0 }) => put(Mistake::BForH, sharper(-1)),
        _ => {}
    }
    if let Some(other) = staff.instrument.other_of_pair().and_then(|other| other.transposition) {
        put(Mistake::OtherClarinet, other.0);
    }
    if let (Some(family), Some(key)) = (staff.crook_family(), staff.key) {
        for crook in family.in_key(key) {
            put(Mistake::AltoForBasso, crook.transposition.0);
        }
    }
    if staff.drums.is_empty() {
        put(Mistake::NotTransposed, Interval::UNISON);
    } else if own != Interval::UNISON {
        put(Mistake::DrumsInCAndG, Interval::UNISON);
    } else if staff.transposition != Transposition::NONE {
        put(Mistake::DrumsInCAndG, staff.transposition.0);
    }
    found
}

/// Signatures read into the staff, or overlooked on it.
fn signature(place: &Place, printed: Printed, put: &mut impl FnMut(Mistake, Change)) {
    let note = printed.0;
    let own = place.signature.alteration(note.step);
    if place.signature == Signature::NONE {
        let Some(key) = place.movement.filter(|_| note.alter == 0) else { return };
        let sounding = key.signature();
        let transposed = sounding.transposed(-place.notation().printed_to_sounding()).practical();
        for imagined in [sounding, transposed] {
            let alter = imagined.alteration(note.step);
            if alter != 0 {
                let moved = crookwise_theory::Pitch { alter, ..note };
                put(Mistake::SignatureImagined, Change::From(moved));
            }
        }
    } else if own != 0 && note.alter == own {
        let plain = Change::From(crookwise_theory::Pitch { alter: 0, ..note });
        put(Mistake::SignatureOverlooked, plain);
        // A horn's staff has no signature; that of a cor anglais or basset horn has.
        if like_a_horn(place.staff.instrument) {
            put(Mistake::TakenForHorn, plain);
        }
    }
}

/// Instruments whose names make one think of a horn.
pub(crate) fn like_a_horn(instrument: &Instrument) -> bool {
    instrument.like_horn != LikeHorn::No
}

/// The note read in another clef: from a C clef in any usual one; from the bass clef in the treble, where that is the
/// usual one of the instrument.
fn clef(place: &Place, printed: Printed, put: &mut impl FnMut(Mistake, Change)) {
    let own = place.habits.clef;
    let others: &[Clef] = match own.sign {
        ClefSign::C => &[Clef::TREBLE, Clef::BASS, Clef::ALTO, Clef::TENOR],
        ClefSign::F if place.staff.instrument.clef == Clef::TREBLE => &[Clef::TREBLE],
        ClefSign::F | ClefSign::G => &[],
    };
    for other in others.iter().filter(|other| **other != own.without_octave()) {
        // Who overlooks the bass clef does not think of its old notation either.
        let there = other.pitch_at(own.position(printed.0)) + -place.notation().printed_to_written;
        let accidental = printed.0.alter - place.signature.alteration(printed.0.step);
        let alter = place.signature.alteration(there.step) + accidental;
        put(Mistake::ClefMisread, Change::From(crookwise_theory::Pitch { alter, ..there }));
    }
}
