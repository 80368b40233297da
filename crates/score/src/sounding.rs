//! Everything that sounds in a column: a voice for each player, and one for each doubling an octave below.

use crate::passage::Passage;
use crate::resolve::ResolvedStaff;
use crookwise_theory::{Interval, Intonation, Printed, Reading, Sounding, Written};

/// One sounding note of one player.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Voice {
    /// The staff, counted from 0 at the top.
    pub staff: usize,
    /// The player of the staff, counted from 0.
    pub player: usize,
    /// The player's number: as the label numbers them ("Corno 3, 4"), else from 1.
    pub number: u32,
    /// What stands on the paper.
    pub printed: Printed,
    /// What the player reads.
    pub written: Written,
    /// What is heard, in the strict spelling; an octave lower for a doubling.
    pub sounding: Sounding,
    /// Whether the note began in an earlier column.
    pub held: bool,
    /// The column in which it began.
    pub onset: usize,
    /// All that is to say about the note, read as it was where it began. Sounding note, interval and frequency of a
    /// doubling are those of the doubling.
    pub reading: Reading,
    /// The octave below that the label adds, as for cellos and basses on one staff. It follows the voice it doubles.
    pub doubled_below: bool,
}

/// What sounds in a column, staff by staff from the top and player by player; rests are left out, and so are staves
/// whose label names nothing. `staves` are those of the passage, resolved in its order.
#[must_use]
pub fn voices(
    passage: &Passage,
    staves: &[&ResolvedStaff],
    column: usize,
    intonation: Intonation,
) -> Vec<Voice> {
    let mut voices = Vec::new();
    for (staff, (own, resolved)) in passage.staves().iter().zip(staves).enumerate() {
        for player in 0..own.players() {
            let Some((onset, printed)) = passage.sounding_note(staff, column, player) else { continue };
            let Some(place) = resolved.place(passage, onset, player) else { continue };
            let reading = place.read(printed, intonation, None);
            let voice = Voice {
                staff,
                player,
                number: number(resolved, player),
                printed,
                written: reading.written,
                sounding: reading.sounding,
                held: onset < column,
                onset,
                reading,
                doubled_below: false,
            };
            voices.push(voice);
            if place.staff.doubled_below {
                voices.push(voice.octave_below());
            }
        }
    }
    voices
}

impl Voice {
    fn octave_below(self) -> Self {
        let down = -Interval::OCTAVE;
        let sounding = Sounding(self.sounding.0 + down);
        let reading = Reading {
            sounding,
            interval: self.reading.interval + down,
            target_hz: self.reading.target_hz / 2.0,
            ..self.reading
        };
        Self { sounding, reading, doubled_below: true, ..self }
    }
}

/// The number a label gives a player. Players who share a label share its numbers in order; where they run out,
/// counting goes on.
fn number(resolved: &ResolvedStaff, player: usize) -> u32 {
    let count = |places: usize| u32::try_from(places).unwrap_or(u32::MAX);
    let Some(numbers) = resolved.staff(player).map(|label| &label.players).filter(|list| !list.is_empty())
    else {
        return count(player).saturating_add(1);
    };
    let shares = |other: &usize| resolved.staff(*other).is_some_and(|label| label.players == *numbers);
    let place = (0..player).filter(shares).count();
    let beyond = count(place.saturating_add(1).saturating_sub(numbers.len()));
    let last = numbers.last().copied().unwrap_or(0);
    numbers.get(place).copied().unwrap_or(last.saturating_add(beyond))
}
