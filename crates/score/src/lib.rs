//! Passages of music as data: staves, players, columns, and what they mean.

pub mod cell;
pub mod chord;
pub mod passage;
pub mod reduction;
pub mod resolve;
pub mod sounding;
pub mod staff;

pub use cell::{Cell, Event};
pub use chord::{Chord, Harmony, HarmonyKind, Heard, Member, Quality, Role, Spelled};
pub use passage::{Column, Length, MOST_COLUMNS, MOST_STAVES, Passage, PassageError};
pub use reduction::{Hand, ReducedColumn, ReducedNote, reduce};
pub use resolve::{Place, ResolvedStaff};
pub use sounding::{Voice, voices};
pub use staff::{Change, ChangeTo, Choice, MOST_PLAYERS, Settings, SignatureSource, Staff};
