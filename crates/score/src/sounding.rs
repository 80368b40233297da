//! What sounds: reckoned here and nowhere else, for a whole passage as a table ([`Sounds`]) or for one column
//! ([`voices`]). A note is read by what holds where it began.

use crate::passage::Passage;
use crate::resolve::ResolvedStaff;
use crookwise_theory::label::StaffLabel;
use crookwise_theory::{Interval, Intonation, Printed, Reading, Sounding, Written};

/// A note of one player, from where it begins to where it ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SoundingNote {
    /// The column in which it begins.
    pub onset: usize,
    /// What stands on the paper.
    pub printed: Printed,
    /// All about it; `None` where the label names no staff, or one whose notes have no pitch.
    pub reading: Option<Reading>,
    /// Whether the label adds the octave below.
    pub doubled_below: bool,
}

/// All that a passage sounds: for each player of each staff and each column the note that sounds there.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sounds {
    staves: Vec<Vec<Line>>,
}

/// What one player sounds.
#[derive(Clone, Debug, PartialEq)]
struct Line {
    number: u32,
    notes: Vec<SoundingNote>,
    /// The note of each column, as its place in `notes`.
    columns: Vec<Option<usize>>,
}

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

impl Sounds {
    /// Reckons all that a passage sounds. `staves` are those of the passage, resolved in its order; `in_hand` is the
    /// instrument in the reader's hands.
    #[must_use]
    pub fn of(
        passage: &Passage,
        staves: &[&ResolvedStaff],
        intonation: Intonation,
        in_hand: Option<&StaffLabel>,
    ) -> Self {
        let lines = |(staff, resolved): (usize, &&ResolvedStaff)| {
            let players = passage.staves().get(staff).map_or(0, crate::staff::Staff::players);
            (0..players)
                .map(|player| Line::of(passage, (staff, player), resolved, intonation, in_hand))
                .collect()
        };
        Self { staves: staves.iter().enumerate().map(lines).collect() }
    }

    /// The note a player of a staff sounds in a column; `None` for a rest.
    #[must_use]
    pub fn note(&self, staff: usize, column: usize, player: usize) -> Option<&SoundingNote> {
        self.staves.get(staff)?.get(player)?.note(column)
    }

    /// What sounds in a column, staff by staff from the top and player by player; rests are left out, and so are
    /// staves whose label names nothing or what has no pitch.
    #[must_use]
    pub fn voices(&self, column: usize) -> Vec<Voice> {
        let mut voices = Vec::new();
        for (staff, lines) in self.staves.iter().enumerate() {
            for (player, line) in lines.iter().enumerate() {
                if let Some(note) = line.note(column) {
                    voices.extend(Voice::of((staff, player, line.number), note, column));
                }
            }
        }
        voices
    }
}

impl Line {
    fn of(
        passage: &Passage,
        (staff, player): (usize, usize),
        resolved: &ResolvedStaff,
        intonation: Intonation,
        in_hand: Option<&StaffLabel>,
    ) -> Self {
        let mut notes: Vec<SoundingNote> = Vec::new();
        let mut columns = Vec::with_capacity(passage.columns().len());
        for column in 0..passage.columns().len() {
            let sounding = passage.sounding_note(staff, column, player);
            let known = notes.last().map(|note| note.onset);
            if let Some((onset, printed)) = sounding.filter(|(onset, _)| known != Some(*onset)) {
                notes.push(SoundingNote::of((onset, printed), resolved, player, intonation, in_hand));
            }
            columns.push(sounding.and(notes.len().checked_sub(1)));
        }
        Self { number: resolved.number(player), notes, columns }
    }

    fn note(&self, column: usize) -> Option<&SoundingNote> {
        self.notes.get(self.columns.get(column).copied().flatten()?)
    }
}

impl SoundingNote {
    fn of(
        (onset, printed): (usize, Printed),
        resolved: &ResolvedStaff,
        player: usize,
        intonation: Intonation,
        in_hand: Option<&StaffLabel>,
    ) -> Self {
        let place = resolved.place_at(onset, player);
        let pitched = place.filter(|place| place.staff.is_pitched());
        Self {
            onset,
            printed,
            reading: pitched.map(|place| place.read(printed, intonation, in_hand)),
            doubled_below: place.is_some_and(|place| place.staff.doubled_below),
        }
    }
}

/// What sounds in one column, as [`Sounds::voices`] has it.
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
            if let Some(begun) = passage.sounding_note(staff, column, player) {
                let note = SoundingNote::of(begun, resolved, player, intonation, None);
                voices.extend(Voice::of((staff, player, resolved.number(player)), &note, column));
            }
        }
    }
    voices
}

impl Voice {
    /// The voices a note makes: itself, and the octave below where it is doubled.
    fn of(
        (staff, player, number): (usize, usize, u32),
        note: &SoundingNote,
        column: usize,
    ) -> impl Iterator<Item = Self> {
        let voice = note.reading.map(|reading| Self {
            staff,
            player,
            number,
            printed: note.printed,
            written: reading.written,
            sounding: reading.sounding,
            held: note.onset < column,
            onset: note.onset,
            reading,
            doubled_below: false,
        });
        let below = voice.filter(|_| note.doubled_below).map(Self::octave_below);
        voice.into_iter().chain(below)
    }

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
