//! Labels at the head of a staff, as scores print them in five languages, and what they mean.

mod staff;

pub use staff::{LabelProblem, Mechanism, StaffLabel};

/// Characters of the longest label that is read.
pub const LONGEST: usize = 200;

/// What is known beside the label.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct DecodeOptions {
    /// The year of the music, where known.
    pub year: Option<i32>,
}

/// Another reading of a label that the trade leaves open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alternative {
    /// The staff by this reading.
    pub staff: StaffLabel,
    /// When the trade means this one.
    pub reason: String,
}

/// Everything a label says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Decoded {
    /// The staves or crooks it names, in order; more than one for "Corno I in B alto, Corno II in G".
    pub staves: Vec<StaffLabel>,
    /// What the players are told to change to ("muta in …").
    pub changes: Vec<StaffLabel>,
    /// Other readings of the first staff.
    pub alternatives: Vec<Alternative>,
    /// What was taken for granted and why, as a sentence.
    pub assumed: Option<String>,
    /// What is not understood.
    pub problem: Option<LabelProblem>,
}
