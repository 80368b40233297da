//! The theory of transposing instruments, pure: no file, clock, chance or browser.
//!
//! ```
//! use crookwise_theory::{Transposition, Written};
//!
//! let horn_in_e_flat = Transposition::new(-5, -9);
//! assert_eq!(horn_in_e_flat.to_sounding(Written("E5".parse().unwrap())).to_string(), "G4");
//! ```

mod attacks;
pub mod clef;
pub mod clef_reading;
pub mod crook;
pub mod crook_range;
pub mod degree;
pub mod instrument;
pub mod interval;
pub mod intonation;
pub mod key;
pub mod key_names;
pub mod label;
pub mod notation;
pub mod order;
pub mod ordered;
pub mod pitch;
pub mod reach;
pub mod reading;
pub mod series;
pub mod spelling;
pub mod tables;
pub mod temperament;
pub mod transposition;

pub use clef::{Clef, ClefSign, StaffPosition};
pub use clef_reading::{ClefReading, ReadSign};
pub use crook::{Crook, CrookFamily, OctaveWord};
pub use degree::Degree;
pub use instrument::{
    Blown, Build, Family, Instrument, InstrumentKind, InstrumentNotes, LikeHorn, PitchKind,
};
pub use interval::{Direction, Interval};
pub use intonation::{Intonation, TunedOn, Warmth};
pub use key::{Key, Mode, Signature};
pub use notation::{BassNotation, Habits, Notation, Scheme, Systems};
pub use pitch::{Pitch, Step, Tonic};
pub use reach::{Grade, Production, Reach};
pub use reading::{InHand, Making, Reading, Situation, Writing, read, read_among, write, write_among};
pub use series::Partial;
pub use temperament::{Temperament, Tuning};
pub use transposition::{MusicXmlTranspose, Printed, Sounding, Transposition, Written};
