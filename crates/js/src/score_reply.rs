//! What a caller gets back of a score: plain values, as `types.d.ts` has them.

use crate::reply::{Decoded, Transposition};
use crookwise_score::score::Quarters;
use serde::Serialize;

/// A fraction of quarter notes: numerator and denominator.
pub type Fraction = (i64, i64);

/// What a file holds.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct ScoreSummary {
    /// Its title; empty where it has none.
    pub title: String,
    /// Bars.
    pub measures: usize,
    /// Its parts in the order of the file.
    pub parts: Vec<PartSummary>,
    /// What is odd in the whole of it, as sentences.
    pub remarks: Vec<String>,
}

/// A part.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct PartSummary {
    /// As the file names it.
    pub name: String,
    /// What the name says as a label.
    pub label: Decoded,
    /// Notes with a pitch, grace and cue notes and all notes of a stem among them.
    pub notes: u32,
    /// Rests.
    pub rests: u32,
    /// Every transposition that the file tells, in its order.
    pub transpositions: Vec<ToldTransposition>,
    /// What is odd in it, as sentences.
    pub remarks: Vec<String>,
}

/// A transposition that a file tells.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct ToldTransposition {
    /// The number of the bar in which it begins to hold.
    pub measure: String,
    /// The staff of the part, from 1.
    pub staff: usize,
    /// The three numbers of the file.
    #[serde(flatten)]
    pub numbers: Transposition,
}

/// A note of a part.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct SoundingNote {
    /// The number of its bar.
    pub measure: String,
    /// Its bar, from 0.
    pub measure_index: u32,
    /// Its staff of the part, from 1.
    pub staff: usize,
    /// Its voice, as the file numbers it.
    pub voice: u8,
    /// Quarter notes from the beginning of its bar.
    pub onset: Fraction,
    /// How long it lasts; nothing for grace notes.
    pub duration: Fraction,
    /// Whether it goes on from the same note before.
    pub tied: bool,
    /// What the player reads.
    pub written: String,
    /// What is heard.
    pub sounding: String,
    /// Its partial on natural brass.
    pub partial: Option<u8>,
    /// How it is made.
    pub production: &'static str,
}

/// The audit of a staff of brass.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct PartAudit {
    /// The part, from 0 in the order of the file.
    pub part: usize,
    /// As the file names it.
    pub name: String,
    /// The staff of the part, from 1.
    pub staff: usize,
    /// "horn" or "trumpet".
    pub family: &'static str,
    /// Notes that are struck.
    pub attacks: usize,
    /// Of these, those on the series.
    pub on_series: usize,
    /// Crook by crook.
    pub crooks: Vec<CrookAudit>,
    /// Changes of crook.
    pub changes: Vec<ChangeAudit>,
}

/// One crook of a staff.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct CrookAudit {
    /// In words: "Horn in E-flat".
    pub crook: String,
    /// The numbers of the first and the last bar it plays in.
    pub measures: (String, String),
    /// Notes that are struck.
    pub attacks: usize,
    /// Open notes by partial: `[partial, notes]`.
    pub open: Vec<(u8, usize)>,
    /// Notes on the series that are corrected by hand or lip, by partial.
    pub corrected: Vec<(u8, usize)>,
    /// Notes off the series that hand or lip make.
    pub made: Vec<MadeAudit>,
    /// Notes out of reach.
    pub out_of_reach: usize,
    /// The lowest note written.
    pub lowest: Option<String>,
    /// The highest note written.
    pub highest: Option<String>,
    /// The longest stretch above partial 12.
    pub longest_high: Option<HighAudit>,
}

/// A note off the series.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct MadeAudit {
    /// Its letter as written: "F#".
    pub note: String,
    /// How it is made.
    pub production: &'static str,
    /// How many.
    pub notes: usize,
}

/// A stretch above partial 12.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct HighAudit {
    /// The number of the bar in which it begins.
    pub measure: String,
    /// How long it is in quarter notes.
    pub duration: Fraction,
    /// Notes struck in it.
    pub attacks: usize,
}

/// A change of crook.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct ChangeAudit {
    /// The crook before.
    pub from: String,
    /// The crook after.
    pub to: String,
    /// The number of the bar in which it first plays.
    pub measure: String,
    /// The rest before that, in quarter notes.
    pub rest: Fraction,
}

/// A time as a fraction.
#[must_use]
pub fn fraction(time: Quarters) -> Fraction {
    time.fraction()
}
