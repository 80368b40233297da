//! Questions with a mistake planted in them: a transposed copy with one wrong note, a page of which one staff is played
//! wrong; and the pair of sounds of which one is the natural partial.

use crate::answer::{Answer, Which};
use crate::ask::{OFF_KEYS, note, place, resolved, write_at};
use crate::chance::Chance;
use crate::chords::sounding;
use crate::kind::Kind;
use crate::mistake::Mistake;
use crate::question::{Heard, Played, Question, Spot};
use crate::slip::{Change, Slip, Steps};
use crate::slips::{Around, of_printed, of_staff, steps};
use crookwise_score::{Event, Passage, Place};
use crookwise_theory::{Interval, Intonation, Partial, Pitch, Printed, Sounding};

/// Places on a staff where a copyist still writes: four ledger lines either way.
const PLACES: core::ops::RangeInclusive<i32> = -7..=15;

/// The first player's phrase on the only staff of a page copied for the instrument in hand, wrong in one column.
pub(crate) fn copy(mut page: Passage, hand: &str, wrong: usize, chance: &mut Chance) -> Option<Question> {
    page.set_players(0, 1).ok()?;
    let lower = page.add_staff(hand).ok()?;
    let source = resolved(&page, 0)?;
    let copied = resolved(&page, lower)?;
    let mut planted = None;
    let mut notes = 0;
    for column in 0..page.columns().len() {
        let Some(printed) = note(&page, Spot { staff: 0, column, player: 0 }) else { continue };
        let sounding = source.place(&page, column, 0)?.read(printed, Intonation::default(), None).sounding;
        let there = copied.place(&page, column, 0)?;
        let writing = write_at(&there, sounding);
        let mut stands = writing.also_printed.unwrap_or(writing.strict.printed);
        if !can_stand(&there, stands.0) {
            return None;
        }
        if column == wrong {
            let (spoiled, mistake) = spoil(&there, sounding, stands, chance)?;
            stands = spoiled;
            planted = mistake;
        }
        notes += 1;
        page.set(lower, column, 0, Event::Note(stands)).ok()?;
    }
    let at = Spot { staff: lower, column: wrong, player: 0 };
    note(&page, at)?;
    let right = Answer::Column(u8::try_from(wrong).ok()?);
    let question = Question::plain(Kind::WrongNote, page, at, right);
    (notes > 2).then(|| Question { in_hand: Some(hand.to_owned()), planted, ..question })
}

fn can_stand(place: &Place, printed: Pitch) -> bool {
    (-1..=1).contains(&printed.alter) && PLACES.contains(&place.habits.clef.position(printed).0)
}

/// A note that a copyist's mistake puts there, and the mistake; one line or space off where no other is likely.
fn spoil(
    place: &Place,
    sounding: Sounding,
    right: Printed,
    chance: &mut Chance,
) -> Option<(Printed, Option<Mistake>)> {
    let notation = place.notation();
    let mut steps = Steps::new(sounding.0, notation.printed_to_written, notation.transposition.0);
    steps.backwards = true;
    let around = Around { place, other_crooks: Vec::new(), partner: None, hand: None };
    let mut able: Vec<(Pitch, Option<Mistake>)> = Vec::new();
    for Slip { mistake, change } in of_staff(&around, steps) {
        let near =
            matches!(mistake, Mistake::Quality | Mistake::EForEs | Mistake::BForH | Mistake::OtherClarinet);
        if near || matches!(change, Change::Reverse) {
            able.push((steps.with(change).lead(), Some(mistake)));
        }
    }
    let own = place.signature.alteration(right.0.step);
    if right.0.alter != own {
        able.push((Pitch { alter: own, ..right.0 }, None));
    } else if own != 0 {
        able.push((Pitch { alter: 0, ..right.0 }, Some(Mistake::SignatureOverlooked)));
    }
    for letters in [1, -1] {
        let natural = Pitch::from_diatonic(right.0.diatonic() + letters, 0);
        able.push((Pitch { alter: place.signature.alteration(natural.step), ..natural }, None));
    }
    able.retain(|(note, _)| can_stand(place, *note) && !note.same_key(right.0));
    let (note, mistake) = chance.one(&able)?;
    Some((Printed(*note), *mistake))
}

/// A page of one column, heard with one staff misread.
pub(crate) fn played(page: Passage, chance: &mut Chance) -> Option<Question> {
    let voices = sounding(&page);
    let first = voices.first()?.staff;
    if voices.iter().all(|voice| voice.staff == first) {
        return None;
    }
    let mut able: Vec<(usize, Mistake, Interval)> = Vec::new();
    for voice in voices.iter().filter(|voice| !voice.doubled_below && voice.player == 0) {
        let at = Spot { staff: voice.staff, column: 0, player: 0 };
        let Some(place) = place(&page, at) else { continue };
        let around = Around { place: &place, other_crooks: Vec::new(), partner: None, hand: None };
        let right = steps(&around, voice.printed);
        for slip in of_printed(&around, voice.printed) {
            let by = Interval::between(right.lead(), right.with(slip.change).lead());
            // The ear must be able to tell: another key of the keyboard, not just another octave.
            if by.semitones % 12 != 0 && by.semitones.abs() <= 12 {
                able.push((voice.staff, slip.mistake, by));
            }
        }
    }
    let mut staves: Vec<usize> = able.iter().map(|(staff, ..)| *staff).collect();
    staves.dedup();
    let wrong = *chance.one(&staves)?;
    able.retain(|(staff, ..)| *staff == wrong);
    let (_, mistake, by) = *chance.one(&able)?;
    let heard = voices
        .iter()
        .map(|voice| Played {
            at: Spot { staff: voice.staff, column: 0, player: voice.player },
            sounding: Sounding(if voice.staff == wrong { voice.sounding.0 + by } else { voice.sounding.0 }),
        })
        .collect();
    let right = Answer::Staff(u8::try_from(wrong).ok()?);
    let question = Question::plain(Kind::WrongStaff, page, Spot::default(), right);
    Some(Question { heard: Some(Heard::Page(heard)), planted: Some(mistake), ..question })
}

/// A note of natural brass that stands clearly off the keyboard, heard as it is and corrected.
pub(crate) fn natural(page: Passage, at: Spot, chance: &mut Chance) -> Option<Question> {
    let reading = place(&page, at)?.read(note(&page, at)?, Intonation::default(), None);
    let partial = reading.making?.partial.map(Partial::number)?;
    if !OFF_KEYS.contains(&partial) {
        return None;
    }
    let natural = if chance.below(2) == 0 { Which::First } else { Which::Second };
    let question = Question::plain(Kind::Natural, page, at, Answer::Which(natural));
    Some(Question { heard: Some(Heard::Two { natural }), ..question })
}
