//! Questions with a mistake planted in them: a transposed copy with one wrong note, a page of which one staff is played
//! wrong; and the pair of sounds of which one is the natural partial.

use crate::answer::{Answer, Which};
use crate::ask::{OFF_KEYS, note, place, resolved, write_at};
use crate::chance::Chance;
use crate::chords::{on_several_staves, sounding};
use crate::edition::Edition;
use crate::kind::Kind;
use crate::mistake::Mistake;
use crate::page::join_unisons;
use crate::printed::at_first;
use crate::question::{Played, Question, QuestionSound, Spot};
use crate::slip::{Change, Slip, Steps};
use crate::slips::{Around, of_printed, of_staff, steps};
use crate::usage::is_in_range;
use crookwise_score::{Event, Passage, Place, Voice};
use crookwise_theory::{Interval, Intonation, Partial, Pitch, Printed, Sounding};

/// Places on a staff where a copyist still writes: four ledger lines either way.
const PLACES: core::ops::RangeInclusive<i32> = -7..=15;

/// The only staff of a page copied for the instrument in hand, player by player and with what they hold, wrong in one
/// note of one column.
pub(crate) fn copy(
    mut page: Passage,
    hand: &str,
    wrong: usize,
    (edition, chance): (Edition, &mut Chance),
) -> Option<Question> {
    let players = page.staves().first()?.players();
    let lower = page.add_staff(hand).ok()?;
    page.set_players(lower, players).ok()?;
    let source = resolved(&page, 0)?;
    let copied = resolved(&page, lower)?;
    let able: Vec<usize> = (0..players)
        .filter(|&player| note(&page, Spot { staff: 0, column: wrong, player }).is_some())
        .collect();
    // Players take turns by the column. Chance is left as it was: the other questions of a link stay the same.
    let spoiled = *able.get(wrong.checked_rem(able.len())?)?;
    let mut planted = None;
    let mut longest = 0;
    for player in 0..players {
        let mut notes = 0;
        for column in 0..page.columns().len() {
            let event = page.event(0, column, player)?;
            let Event::Note(printed) = event else {
                page.set(lower, column, player, event).ok()?;
                continue;
            };
            let here = source.place_at(column, player).filter(|place| place.staff.is_pitched())?;
            let sounding = here.read(printed, Intonation::default(), None).sounding;
            let there = copied.place_at(column, player)?;
            let writing = write_at(there, sounding);
            let mut stands = match edition {
                Edition::First => at_first(there, sounding),
                _ => writing.also_printed.unwrap_or(writing.strict.printed),
            };
            if !can_stand(there, stands.0) {
                return None;
            }
            if column == wrong && player == spoiled {
                (stands, planted) = spoil(there, sounding, stands, (edition, chance))?;
            }
            notes += 1;
            page.set(lower, column, player, Event::Note(stands)).ok()?;
        }
        longest = notes.max(longest);
    }
    join_unisons(&mut page, lower);
    let at = Spot { staff: lower, column: wrong, player: spoiled };
    let right = Answer::Column(u8::try_from(wrong).ok()?);
    let question = Question::plain(Kind::WrongNote, page, at, right);
    (longest > 2).then(|| Question { in_hand: Some(hand.to_owned()), planted, ..question })
}

fn can_stand(place: &Place, printed: Pitch) -> bool {
    (-1..=1).contains(&printed.alter) && PLACES.contains(&place.habits.clef.position(printed).0)
}

/// A note that a copyist's mistake puts there, and the mistake: a sign left out or put in, a line or space off, or a
/// third, up or down; never far away, and never where the instrument has no note. At first by any mistake of a reader.
fn spoil(
    place: &Place,
    sounding: Sounding,
    right: Printed,
    (edition, chance): (Edition, &mut Chance),
) -> Option<(Printed, Option<Mistake>)> {
    let notation = place.notation();
    let mut steps = Steps::new(sounding.0, notation.printed_to_written, notation.transposition.0);
    steps.backwards = true;
    let around = Around { place, other_crooks: Vec::new(), partner: None, hand: None };
    let mut able: Vec<(Pitch, Option<Mistake>)> = Vec::new();
    // Who copies reads note by note: at first he mistook the instrument for one note.
    let slips = if edition.is_first() { of_staff(&around, steps) } else { Vec::new() };
    for Slip { mistake, change } in slips {
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
    // A forgotten sign is as likely as a wrong line.
    let signs = able.clone();
    able.extend(signs.into_iter().filter(|_| !edition.is_first()));
    let letters: &[i32] = if edition.is_first() { &[1, -1] } else { &[1, -1, 2, -2] };
    for letters in letters {
        let natural = Pitch::from_diatonic(right.0.diatonic() + *letters, 0);
        able.push((Pitch { alter: place.signature.alteration(natural.step), ..natural }, None));
    }
    let near = |note: Pitch| {
        let by = Interval::between(right.0, note);
        by.steps.abs() <= 2 && by.semitones.abs() <= 4
    };
    let plays = |note: Pitch| is_in_range(&place.staff, notation.written(Printed(note)).0);
    let reached = plays(right.0);
    let likely = |note: Pitch| edition.is_first() || (near(note) && (plays(note) || !reached));
    able.retain(|(note, _)| likely(*note) && can_stand(place, *note) && !note.same_key(right.0));
    let (note, mistake) = chance.one(&able)?;
    Some((Printed(*note), *mistake))
}

/// How a staff is misread in a phrase.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Misreading {
    /// By the same letters from beginning to end.
    Throughout,
    /// By the same kind of mistake, as it was at first: a clef for another one in every column.
    Anyhow,
}

/// A page, heard with one staff misread from beginning to end.
pub(crate) fn played(page: Passage, misreading: Misreading, chance: &mut Chance) -> Option<Question> {
    let columns: Vec<Vec<Voice>> = (0..page.columns().len()).map(|column| sounding(&page, column)).collect();
    let first = columns.first().filter(|voices| on_several_staves(voices))?;
    let mut able: Vec<(usize, Mistake, Vec<Interval>)> = Vec::new();
    for voice in first.iter().filter(|voice| voice.player == 0) {
        let Some((right, slips)) = ways(&page, 0, voice) else { continue };
        for slip in slips.into_iter().filter(|slip| slip.mistake.is_planted()) {
            let letters = Interval::between(right.lead(), right.with(slip.change).lead()).steps;
            if let Some(by) = misread(
                &page,
                &columns,
                voice.staff,
                (slip, Some(letters).filter(|_| misreading == Misreading::Throughout)),
            ) {
                able.push((voice.staff, slip.mistake, by));
            }
        }
    }
    let mut staves: Vec<usize> = able.iter().map(|(staff, ..)| *staff).collect();
    staves.dedup();
    let wrong = *chance.one(&staves)?;
    able.retain(|(staff, ..)| *staff == wrong);
    let (_, mistake, by) = chance.one(&able)?;
    let heard = columns.iter().zip(by).enumerate().flat_map(|(column, (voices, by))| {
        voices.iter().map(move |voice| Played {
            at: Spot { staff: voice.staff, column, player: voice.player },
            sounding: Sounding(if voice.staff == wrong { voice.sounding.0 + *by } else { voice.sounding.0 }),
        })
    });
    let heard = QuestionSound::Page(heard.collect());
    let right = Answer::Staff(u8::try_from(wrong).ok()?);
    let planted = Some(*mistake);
    Some(Question {
        heard: Some(heard),
        planted,
        ..Question::plain(Kind::WrongStaff, page, Spot::default(), right)
    })
}

/// The right way to read a note of a page, and every slip of it.
fn ways(page: &Passage, column: usize, voice: &Voice) -> Option<(Steps, Vec<Slip>)> {
    let place = place(page, Spot { staff: voice.staff, column, player: voice.player })?;
    let around = Around { place: &place, other_crooks: Vec::new(), partner: None, hand: None };
    Some((steps(&around, voice.printed), of_printed(&around, voice.printed)))
}

/// How far a staff is off in every column where its first player makes the same slip, by the same letters, throughout;
/// `None` where no ear could tell, or would think of another instrument.
fn misread(
    page: &Passage,
    columns: &[Vec<Voice>],
    staff: usize,
    (slip, letters): (Slip, Option<i32>),
) -> Option<Vec<Interval>> {
    let mut told = false;
    let mut off = Vec::new();
    for (column, voices) in columns.iter().enumerate() {
        let voice = voices.iter().find(|voice| voice.staff == staff && voice.player == 0);
        let by = voice.and_then(|voice| {
            let (right, able) = ways(page, column, voice)?;
            let off = |change| Interval::between(right.lead(), right.with(change).lead());
            // The same mistake by the same letters: a clef is taken for the same other clef throughout.
            let same = |other: &&Slip| {
                other.mistake == slip.mistake
                    && letters.is_none_or(|letters| off(other.change).steps == letters)
            };
            let exactly = able.iter().find(|other| **other == slip);
            Some(off(exactly.filter(same).or_else(|| able.iter().find(same))?.change))
        });
        let by = by.unwrap_or(Interval::UNISON);
        if by.semitones.abs() > 12 {
            return None;
        }
        // The ear must be able to tell: another key of the keyboard, not just another octave of what sounds anyway.
        told |= by.semitones % 12 != 0 && voice.is_some_and(|voice| !voice.doubled_below);
        off.push(by);
    }
    told.then_some(off)
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
    Some(Question { heard: Some(QuestionSound::Two { natural }), ..question })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_score::ChangeTo;

    /// What a player of a staff sounds, column by column; "_" for a held note.
    fn sounds(page: &Passage, staff: usize, player: usize) -> Vec<String> {
        let resolved = resolved(page, staff).unwrap();
        let column = |column| match page.event(staff, column, player) {
            Some(Event::Note(printed)) => {
                let place = resolved.place_at(column, player).unwrap();
                place.read(printed, Intonation::default(), None).sounding.0.midi().to_string()
            }
            Some(Event::Held) => "_".to_owned(),
            _ => "-".to_owned(),
        };
        (0..page.columns().len()).map(column).collect()
    }

    #[test]
    fn a_copy_has_every_player_what_they_hold_and_their_changes() {
        let mut page = Passage::of_staff("Corni in Es");
        page.set_players(0, 2).unwrap();
        for (player, notes) in ["C5 _ E5 G5", "G4 E5 E5 C5"].into_iter().enumerate() {
            for (column, name) in notes.split(' ').enumerate() {
                let event = name.parse().map_or(Event::Held, |pitch| Event::Note(Printed(pitch)));
                page.set(0, column, player, event).unwrap();
            }
        }
        let to = ChangeTo::Label("muta in D".into());
        page.set_change(0, crookwise_score::Change { column: 2, player: Some(1), to }).unwrap();
        for wrong in 0..4 {
            let question =
                copy(page.clone(), "Horn in F", wrong, (Edition::NOW, &mut Chance::new(3))).unwrap();
            assert_eq!(question.passage.staves()[1].players(), 2);
            let mut off = Vec::new();
            for player in 0..2 {
                let (own, copied) =
                    (sounds(&question.passage, 0, player), sounds(&question.passage, 1, player));
                off.extend(
                    (0..4).filter(|&column| own[column] != copied[column]).map(|column| (column, player)),
                );
            }
            assert_eq!(off, [(wrong, question.at.player)]);
        }
    }
}
