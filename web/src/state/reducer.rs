//! What writes together what several play, when its code is here.
//!
//! A page for one player does without, so the code comes with the part for a page of several: eight kilobytes that a first
//! visit need not download. Until then the staves stand there without their notes, so that nothing moves when those come.

use crate::state::view::PageView;
use core::fmt;
use crookwise_engraving::{ColumnSpec, Ink, StaffSpec};
use crookwise_share::ReadPage;
use crookwise_theory::{Clef, Key, Signature};

/// Gives the staves on which all that several play stands together.
#[derive(Clone, Copy)]
pub struct Reducer(pub fn(&PageView, &ReadPage) -> Vec<StaffSpec>);

impl Reducer {
    /// In its place until it is here: nothing on the staves.
    pub const AWAITED: Self = Self(|_, page| empty_grand_staff(page).into());
}

/// The staves on which all that several play stands together, the upper one first, still without it: columns in which nothing
/// stands, for bar lines.
#[must_use]
pub fn empty_grand_staff(page: &ReadPage) -> [StaffSpec; 2] {
    let signature = page.passage.movement_at(0).map_or(Signature::NONE, Key::signature);
    [Clef::TREBLE, Clef::BASS].map(|clef| {
        let mut staff = StaffSpec::new(clef, signature);
        staff.ink = Ink::Sounding;
        staff.columns = vec![ColumnSpec::default(); page.passage.columns().len()];
        staff
    })
}

impl PartialEq for Reducer {
    fn eq(&self, other: &Self) -> bool {
        core::ptr::fn_addr_eq(self.0, other.0)
    }
}

impl fmt::Debug for Reducer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(if *self == Self::AWAITED { "awaited" } else { "here" })
    }
}
