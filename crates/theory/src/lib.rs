//! The theory of transposing instruments, pure: no file, clock, chance or browser.
//!
//! ```
//! use crookwise_theory::{Transposition, Written};
//!
//! let horn_in_e_flat = Transposition::new(-5, -9);
//! assert_eq!(horn_in_e_flat.to_sounding(Written("E5".parse().unwrap())).to_string(), "G4");
//! ```

pub mod clef;
pub mod crook;
pub mod instrument;
pub mod interval;
pub mod key;
pub mod key_names;
pub mod label;
pub mod pitch;
pub mod reach;
pub mod tables;
pub mod temperament;
pub mod transposition;

pub use clef::{Clef, ClefSign, StaffPosition};
pub use crook::{Crook, CrookFamily, OctaveWord};
pub use instrument::{Family, Instrument};
pub use interval::{Direction, Interval};
pub use key::{Key, Mode, Signature};
pub use pitch::{Pitch, Step, Tonic};
pub use reach::{Grade, Production, Reach};
pub use temperament::{Temperament, Tuning};
pub use transposition::{MusicXmlTranspose, Printed, Sounding, Transposition, Written};
