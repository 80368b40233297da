//! Music as data: scores, passages as windows on them, and what they mean.

pub mod audit;
mod bar_number;
pub mod cell;
pub mod change;
pub mod chord;
pub mod harmony;
pub mod length;
pub mod map;
pub mod passage;
pub mod performance;
pub mod place;
pub mod places;
pub mod printed;
pub mod reduction;
pub mod resolve;
pub mod road;
pub mod score;
pub mod sounding;
pub mod staff;
pub mod strength;
pub mod table;
pub mod tempo;

pub use bar_number::BarNumber;
pub use cell::{Cell, Event};
pub use change::{Change, ChangeKind, ChangeTo};
pub use chord::{Chord, Harmony, HarmonyKind, Heard, Member, Quality, Role, Spelled};
pub use length::Length;
pub use passage::{Column, MOST_COLUMNS, MOST_STAVES, Passage, PassageError};
pub use place::Place;
pub use reduction::{Hand, ReducedColumn, ReducedNote, reduce};
pub use resolve::{Decoder, ResolvedStaff};
pub use score::Score;
pub use sounding::{SoundingNote, Sounds, Voice, voices};
pub use staff::{Choice, MOST_PLAYERS, Settings, SignatureSource, Staff};
