//! What a caller gets back: plain values, written out in camelCase. The types of `types.d.ts`, field by field.

use crookwise_theory::label::{Mechanism, StaffLabel};
use crookwise_theory::{Direction, OctaveWord, Partial, Reading as Read};
use serde::Serialize;

/// What a label says.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Decoded {
    /// The first or only staff.
    pub staff: Option<Staff>,
    /// All staves it names.
    pub staves: Vec<Staff>,
    /// What the players are told to change to.
    pub changes: Vec<Staff>,
    /// Other readings of the first staff.
    pub alternatives: Vec<Staff>,
    /// What was taken for granted, and why.
    pub assumed: Option<String>,
    /// What is not understood.
    pub problem: Option<String>,
}

/// A staff.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Staff {
    /// One of the closed list of instruments.
    pub instrument: &'static str,
    /// Its English name.
    pub name: &'static str,
    /// Its key: "Eb".
    pub key: Option<String>,
    /// "alto" or "basso".
    pub octave: Option<&'static str>,
    /// How many players.
    pub count: Option<u32>,
    /// Which players.
    pub players: Vec<u32>,
    /// "natural" or "valves".
    pub mechanism: Option<&'static str>,
    /// Sounds an octave below besides.
    pub doubled_below: bool,
    /// Drums by note.
    pub drums: Vec<String>,
    /// From written to sounding.
    pub transposition: Transposition,
}

/// The three numbers of the MusicXML element `transpose`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Transposition {
    /// Letters.
    pub diatonic: i32,
    /// Semitones.
    pub chromatic: i32,
    /// Octaves on top of both.
    pub octave_change: i32,
}

/// Everything about one note.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Reading {
    /// What stands on the paper.
    pub printed: String,
    /// What the player reads.
    pub written: String,
    /// What is heard.
    pub sounding: String,
    /// Partial of the natural series.
    pub partial: Option<u8>,
    /// Cents of the partial from the tuning.
    pub drift_cents: Option<f64>,
    /// Hz of the partial.
    pub natural_hz: Option<f64>,
    /// Hz of the note in the tuning.
    pub target_hz: f64,
    /// Cents to bend.
    pub bend_cents: Option<f64>,
    /// How it is made.
    pub production: &'static str,
    /// How good it is.
    pub grade: Option<&'static str>,
    /// Where it stands in the keys.
    pub degree: Degrees,
    /// Read by interval.
    pub by_interval: ByInterval,
    /// Read by imagined clef.
    pub by_clef: ByClef,
    /// Read on the instrument in hand.
    pub in_hand: Option<InHand>,
}

/// Degrees in two keys.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Degrees {
    /// In the movement's key.
    pub movement: Option<String>,
    /// Above the written C.
    pub crook: String,
}

/// From printed to sounding.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct ByInterval {
    /// "up", "down" or "none".
    pub direction: &'static str,
    /// "major sixth".
    pub name: String,
    /// Letters, signed.
    pub steps: i32,
    /// Semitones, signed.
    pub semitones: i32,
}

/// The clef to imagine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct ByClef {
    /// The plain clef.
    pub clef: String,
    /// Octaves to add.
    pub octaves: i32,
    /// Sharps or flats to add to the signature.
    pub fifths: i32,
    /// The accidental as read there.
    pub sign: String,
}

/// On the instrument in hand.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct InHand {
    /// The note to read there.
    pub written: String,
    /// Letters from the note of the part, signed.
    pub steps: i32,
    /// Semitones from the note of the part, signed.
    pub semitones: i32,
}

/// A reading from sound to paper.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Writing {
    /// The strict spelling.
    #[serde(flatten)]
    pub reading: Reading,
    /// As the trade prints it.
    pub also_printed: Option<String>,
}

impl Staff {
    /// A staff as a caller sees it.
    #[must_use]
    pub fn of(staff: &StaffLabel) -> Self {
        let numbers = staff.transposition.to_musicxml();
        Self {
            instrument: staff.instrument.id,
            name: staff.instrument.english,
            key: staff.key.map(|key| key.to_string()),
            octave: staff.octave.map(OctaveWord::word),
            count: staff.count,
            players: staff.players.clone(),
            mechanism: staff.mechanism.map(Mechanism::id),
            doubled_below: staff.doubled_below,
            drums: staff.drums.iter().map(ToString::to_string).collect(),
            transposition: Transposition {
                diatonic: numbers.diatonic,
                chromatic: numbers.chromatic,
                octave_change: numbers.octave_change,
            },
        }
    }
}

impl Reading {
    /// A reading as a caller sees it.
    #[must_use]
    pub fn of(reading: &Read) -> Self {
        let making = reading.making.as_ref();
        let clef = reading.by_clef.clef;
        Self {
            printed: reading.printed.to_string(),
            written: reading.written.to_string(),
            sounding: reading.sounding.to_string(),
            partial: making.and_then(|making| making.partial).map(Partial::number),
            drift_cents: making.and_then(|making| making.drift),
            natural_hz: making.and_then(|making| making.natural_hz),
            target_hz: reading.target_hz,
            bend_cents: making.and_then(|making| making.bend),
            production: making.map_or("chromatic", |making| making.production.id()),
            grade: making.and_then(|making| making.grade).map(grade),
            degree: Degrees {
                movement: reading.movement_degree.map(|degree| degree.to_string()),
                crook: reading.crook_degree.to_string(),
            },
            by_interval: ByInterval {
                direction: match reading.interval.direction() {
                    Direction::Up => "up",
                    Direction::Down => "down",
                    Direction::None => "none",
                },
                name: reading.interval.to_string(),
                steps: reading.interval.steps,
                semitones: reading.interval.semitones,
            },
            by_clef: ByClef {
                clef: clef.to_string(),
                // The clef is named without its octave mark, so the mark is counted here.
                octaves: reading.by_clef.octaves.saturating_add(i32::from(clef.octave())),
                fifths: reading.by_clef.fifths,
                sign: reading.sign.alter.map_or_else(String::new, sign),
            },
            in_hand: reading.in_hand.map(|there| InHand {
                written: there.written.to_string(),
                steps: there.interval.steps,
                semitones: there.interval.semitones,
            }),
        }
    }
}

const fn grade(grade: crookwise_theory::Grade) -> &'static str {
    use crookwise_theory::Grade;
    match grade {
        Grade::A => "A",
        Grade::B => "B",
        Grade::C => "C",
        Grade::D => "D",
        Grade::E => "E",
    }
}

/// A printed accidental: flats as `b`, sharps as `#`, a natural as `n`.
fn sign(alter: i32) -> String {
    let times = alter.unsigned_abs().min(99) as usize;
    match alter {
        0 => "n".to_owned(),
        1.. => "#".repeat(times),
        _ => "b".repeat(times),
    }
}
