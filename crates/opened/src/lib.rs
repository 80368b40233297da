//! An opened score: the page asks, the score answers.
//!
//! A whole movement is held once, by a worker beside the page. The page sends an [`Ask`] and gets an [`Answer`]; both are
//! plain data and travel as bytes ([`wire`]). What the reader corrects is a list of [`Correction`]s that is kept with the
//! score and laid over it: it governs what sounds, the audit, what goes to Read and what goes out.

mod audited;
mod corrected;
mod crooks;
mod followed;
mod following;
mod groups;
mod holder;
mod listed;
mod page;
mod part;
mod protocol;
mod sheet;
mod summary;
mod together;
pub mod wire;

pub use corrected::{CorrectedChange, Correction, Reads};
pub use following::{
    BarSpot, CrookRow, HarmonyRow, HeardRow, LegRow, MovementRows, NaturalRow, PitchRow, PlaceRow, PlaceSort,
    PlayedRow, PlayedRows, RoadSpot, SoundRow, StaffMapRow, StretchRow, TempoFrom, TempoRow, TurnRow,
};
pub use holder::ScoreHolder;
pub use protocol::{
    Answer, Ask, AuditLineRow, AuditStaff, ChangeRow, DrawnRow, HighRow, MadeHow, NotesRow, OutPitch,
    PartRows, PartSystemRow, Progress, RowWanted, SystemRow, TogetherShown,
};
pub use summary::{OldBassRow, PartRow, StaffChangeRow, StaffRow, Summary, UnheededRow};
