//! Passages of music as data: staves, players, columns, and what they mean.

pub mod cell;
pub mod passage;
pub mod resolve;
pub mod staff;

pub use cell::{Cell, Event};
pub use passage::{Column, Length, MOST_COLUMNS, MOST_STAVES, Passage, PassageError};
pub use resolve::{Place, ResolvedStaff};
pub use staff::{Change, ChangeTo, Choice, MOST_PLAYERS, Settings, SignatureSource, Staff};
