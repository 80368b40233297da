//! MusicXML: files of scores as the world writes them become a [`Score`](crookwise_score::Score), and go out again.
//!
//! A file is taken out of its archive ([`unpack`]), its letters are made out ([`encoding`]), and its events are read in
//! one pass ([`read`]). What is odd or not understood is counted in [`Remark`]s; nothing is dropped silently. The names
//! of elements are those of the MusicXML 4.0 standard (W3C Music Notation Community Group).

mod changes;
pub mod encoding;
mod error;
pub mod export;
mod import;
mod labels;
pub mod midi;
mod movement_keys;
mod read;
mod remark;
pub mod unpack;
mod who_plays;
pub mod write;

pub use changes::Unheeded;
pub use error::{Broken, FileError, How};
pub use import::{Import, import, import_text};
pub use read::RawCounts;
pub use remark::{LabelAgainstFile, Oddity, Remark};
