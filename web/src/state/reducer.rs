//! What writes together what several play, when its code is here.
//!
//! A page for one player does without, so the code comes with the part for a page of several: eight kilobytes that a first
//! visit need not download. Until then the page of several shows its written staves.

use crate::state::view::PageView;
use core::fmt;
use crookwise_engraving::StaffSpec;
use crookwise_share::ReadPage;

/// Gives the staves on which all that several play stands together.
#[derive(Clone, Copy)]
pub struct Reducer(pub fn(&PageView, &ReadPage) -> Vec<StaffSpec>);

impl Reducer {
    /// In its place until it is here: no staves.
    pub const AWAITED: Self = Self(|_, _| Vec::new());
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
