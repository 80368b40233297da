//! Rows by which a page follows a movement: its map, its road, and what is played. Times of the score are bars, counted from 0, with
//! quarter notes from their beginning as (above, below); seconds come in millionths, so that they are the same each time.

use crookwise_score::performance::{Natural, PlayedSound};
use crookwise_score::places::PlaceKind;
use crookwise_theory::{CrookFamily, Partial, Pitch, Production};
use serde::{Deserialize, Serialize};

/// A time in a bar.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BarSpot {
    /// The bar.
    pub bar: u32,
    /// Quarter notes from its beginning.
    pub quarters: (i64, i64),
}

/// A time of the road.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RoadSpot {
    /// After how many bars of the road; as many as it has for its end.
    pub place: u32,
    /// Quarter notes from the beginning of that bar.
    pub quarters: (i64, i64),
}

impl RoadSpot {
    /// The beginning of the bar that is played after so many others.
    #[must_use]
    pub const fn bar(place: u32) -> Self {
        Self { place, quarters: (0, 1) }
    }
}

/// A movement seen from afar, and the road through it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct MovementRows {
    /// Its staves in score order.
    pub staves: Vec<StaffMapRow>,
    /// How loud each bar is, 0 where nobody plays to 100.
    pub loudness: Vec<u8>,
    /// How long each bar is, in quarter notes.
    pub lengths: Vec<(i64, i64)>,
    /// The road, leg by leg.
    pub legs: Vec<LegRow>,
    /// When each bar of the road begins, and at last when the road ends, in millionths of a second.
    pub begins: Vec<u64>,
    /// Where within a bar of the road quarter notes begin to take another time.
    pub turns: Vec<TurnRow>,
    /// Tempi, by when they begin.
    pub tempi: Vec<TempoRow>,
    /// What is odd in repeats and jumps, with the bar it stands in.
    pub faults: Vec<(u32, String)>,
}

/// A time of the road from which quarter notes take another time: a tempo, or the beginning or the end of a fermata.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TurnRow {
    /// When, in millionths of a second.
    pub at: u64,
    /// The same as a place of the road.
    pub spot: RoadSpot,
}

/// A staff on the map.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct StaffMapRow {
    /// Its number among the staves of the score.
    pub staff: u32,
    /// Its instrument at the beginning, by its id; `None` where its label names none.
    pub instrument: Option<String>,
    /// Whether it is one of the brass, or a drum beside it.
    pub stands_out: bool,
    /// Where it plays.
    pub stretches: Vec<StretchRow>,
    /// Where its label changes.
    pub crooks: Vec<CrookRow>,
}

/// A harmony in the course of a score.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct HarmonyRow {
    /// When it begins.
    pub from: BarSpot,
    /// When the next one begins.
    pub to: BarSpot,
    /// The movement's key there, as text.
    pub key: Option<String>,
    /// Who sounds what of it: each staff with each of its pitches once.
    pub heard: Vec<HeardRow>,
    /// What drums add beside it: their staves and pitches.
    pub drums: Vec<String>,
}

/// A pitch of a harmony on a staff.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct HeardRow {
    /// The staff.
    pub staff: u32,
    /// The first note of it.
    pub note: u32,
    /// What sounds, in the strict spelling.
    pub pitch: String,
    /// Whether its letter has a say: on natural brass it has none.
    pub spells: bool,
    /// On natural brass the partial it is, and how far it stands from the tuning in cents.
    pub made: Option<(Option<u8>, Option<i32>)>,
}

/// A stretch of playing; rests within it are shorter than a bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StretchRow {
    /// When it begins.
    pub from: BarSpot,
    /// When it ends; the end of a bar stands in that bar.
    pub to: BarSpot,
    /// Its first note.
    pub first: u32,
    /// Whole bars of rest before it.
    pub rest: u32,
}

/// A change of label.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CrookRow {
    /// Its bar.
    pub bar: u32,
    /// For which player, from 0; `None` for all.
    pub player: Option<u8>,
    /// As printed.
    pub label: String,
    /// What it means, where it names a staff.
    pub name: Option<String>,
}

/// A place worth hearing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlaceRow {
    /// What it is.
    pub kind: PlaceSort,
    /// The staves that make it.
    pub staves: Vec<u32>,
    /// Its first and its last bar.
    pub bars: (u32, u32),
    /// Its first note.
    pub first: u32,
}

/// What a place is: [`PlaceKind`] as it travels.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "each is the kind of the same name")]
pub enum PlaceSort {
    Entry,
    Exposed,
    Solo,
    Leads,
    HornFifths,
    Fanfare,
    Pedal,
    OctaveDoubling,
}

impl From<PlaceKind> for PlaceSort {
    fn from(kind: PlaceKind) -> Self {
        match kind {
            PlaceKind::Entry => Self::Entry,
            PlaceKind::Exposed => Self::Exposed,
            PlaceKind::Solo => Self::Solo,
            PlaceKind::Leads => Self::Leads,
            PlaceKind::HornFifths => Self::HornFifths,
            PlaceKind::Fanfare => Self::Fanfare,
            PlaceKind::Pedal => Self::Pedal,
            PlaceKind::OctaveDoubling => Self::OctaveDoubling,
        }
    }
}

/// Bars played one after the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LegRow {
    /// Its first and its last bar.
    pub bars: (u32, u32),
    /// How often its first bar has then been played, itself counted.
    pub pass: u16,
}

/// A tempo.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TempoRow {
    /// From when.
    pub from: BarSpot,
    /// Thousandths of quarter notes a minute.
    pub tempo: u32,
    /// Where it is from.
    pub source: TempoFrom,
}

/// Where a tempo is from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum TempoFrom {
    /// The score says it.
    Told,
    /// Assumed: it is usual for these words.
    Words(String),
    /// Assumed: nothing says it.
    Usual,
}

/// What is played in a stretch of the road.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlayedRows {
    /// How long the stretch is, in millionths of a second: a loop begins anew after it.
    pub length: u64,
    /// The notes by when they begin.
    pub notes: Vec<PlayedRow>,
}

/// A note that is played.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlayedRow {
    /// Its staff.
    pub staff: u32,
    /// The note, by its number.
    pub note: u32,
    /// When it begins, in millionths of a second from the beginning of the stretch.
    pub onset: u64,
    /// How long it sounds, likewise; it may sound on behind the end of the stretch.
    pub length: u64,
    /// What sounds.
    pub sound: SoundRow,
    /// How strong it begins, 1 to 127, and how strong it ends.
    pub strength: (u8, u8),
    /// Whether it began before the stretch: who plays on from before leaves it out.
    pub held: bool,
    /// Whether it is a stroke of a tremolo or a trill behind the first.
    pub stroke: bool,
}

/// What sounds: [`PlayedSound`] as it travels.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SoundRow {
    /// A pitch, how natural brass has it, and whether the octave below sounds too.
    Pitched(PitchRow, Option<NaturalRow>, bool),
    /// A drum with a pitch.
    Drum(PitchRow),
    /// Something without a pitch; where it is printed.
    Unpitched(PitchRow),
}

/// A pitch by its place among the letters and its alteration.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PitchRow(pub i32, pub i32);

/// A note of natural brass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NaturalRow {
    /// Whether it is a horn; else it is a trumpet.
    pub is_horn: bool,
    /// The partial it is; `None` off the series.
    pub partial: Option<u8>,
    /// How it is made: its place in [`Production::ALL`].
    pub production: u8,
    /// What the crook's own written C4 sounds.
    pub crook: PitchRow,
}

impl From<Pitch> for PitchRow {
    fn from(pitch: Pitch) -> Self {
        Self(pitch.diatonic(), pitch.alter)
    }
}

impl From<PitchRow> for Pitch {
    fn from(row: PitchRow) -> Self {
        Self::from_diatonic(row.0, row.1)
    }
}

impl From<PlayedSound> for SoundRow {
    fn from(sound: PlayedSound) -> Self {
        match sound {
            PlayedSound::Pitched { pitch, natural, below } => {
                let natural = natural.map(|natural| NaturalRow {
                    is_horn: natural.family == CrookFamily::Horn,
                    partial: natural.partial.map(Partial::number),
                    production: Production::ALL
                        .iter()
                        .position(|other| *other == natural.production)
                        .and_then(|place| u8::try_from(place).ok())
                        .unwrap_or(0),
                    crook: natural.crook.into(),
                });
                Self::Pitched(pitch.into(), natural, below)
            }
            PlayedSound::Drum(pitch) => Self::Drum(pitch.into()),
            PlayedSound::Unpitched(place) => Self::Unpitched(place.into()),
        }
    }
}

impl From<SoundRow> for PlayedSound {
    fn from(row: SoundRow) -> Self {
        match row {
            SoundRow::Pitched(pitch, natural, below) => {
                let natural = natural.map(|row| Natural {
                    family: if row.is_horn { CrookFamily::Horn } else { CrookFamily::Trumpet },
                    partial: row.partial.and_then(Partial::new),
                    production: Production::ALL
                        .get(usize::from(row.production))
                        .copied()
                        .unwrap_or(Production::Open),
                    crook: row.crook.into(),
                });
                Self::Pitched { pitch: pitch.into(), natural, below }
            }
            SoundRow::Drum(pitch) => Self::Drum(pitch.into()),
            SoundRow::Unpitched(place) => Self::Unpitched(place.into()),
        }
    }
}
