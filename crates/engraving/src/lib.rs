//! Notation as data: a staff in plain values is laid out to a display list in staff spaces, and that written as SVG.
//!
//! Nothing here knows a browser, a file or an app, and the same input gives the same bytes on every machine. The signs
//! are those of Crookwise Notation, a subset of a SMuFL font under the SIL Open Font License (`data/OFL.txt`).
//!
//! ```
//! use crookwise_engraving::{ColumnSpec, Metrics, NoteSpec, StaffSpace, StaffSpec, lay_out, svg};
//! use crookwise_theory::{Clef, Signature};
//!
//! let mut staff = StaffSpec::new(Clef::TREBLE, Signature(-3));
//! for name in ["C4", "E4", "Bb4"] {
//!     let notes = vec![NoteSpec::new(name.parse().unwrap())];
//!     staff.columns.push(ColumnSpec { notes, ..ColumnSpec::default() });
//! }
//! let metrics = Metrics::fit(&[&staff], staff.all(), StaffSpace(6.0));
//! let layout = lay_out(&staff, staff.all(), &metrics);
//! assert_eq!(layout.column_at(layout.width - StaffSpace(1.0)), Some(2));
//!
//! // The outlines of the signs once in the page, then any number of staves.
//! let page = svg::glyph_defs() + &svg::write(&layout.drawing, &svg::SvgOptions::default());
//! assert!(page.contains("#g-gClef"));
//! ```

mod accidental;
mod column;
mod direction;
mod drawing;
pub mod glyph;
mod head;
mod layout;
pub mod measured;
mod metrics;
mod signature;
mod spec;
mod stack;
pub mod svg;
mod system;
mod tie;
mod units;
mod voice;

pub use accidental::{Accidental, accidental_needed};
pub use drawing::{Drawing, ElementId, Ink, Item, Shape, TextAlign, TextFace, tie_height};
pub use glyph::{Anchor, Glyph, Outline};
pub use head::head_width;
pub use layout::{StaffLayout, extent, lay_out, place_at};
pub use metrics::{Before, Metrics, break_columns, narrowest_column};
pub use signature::{SignatureSign, cancelling_signs, signature_signs};
pub use spec::{
    AccidentalRule, ColumnSpec, FARTHEST, Head, NoteSpec, Parts, RestPlace, RestSpec, RestValue, StaffSpec,
    StemRule, TechniqueSign,
};
pub use system::{Join, System, stack_staves};
pub use units::{Bounds, Point, StaffSpace};
