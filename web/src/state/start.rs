//! The page that stands there before the reader has made one: from a scenario of our own.
//!
//! The Quarry Hill Harmony, a village wind band, plays "Call across the Quarry" (both invented): its second horn
//! answers the first from the far side, on open notes, one bent and one stopped.

use crate::words;
use crookwise_share::{Link, ReadPage};

/// What stands over the start page.
pub const CAPTION: &str = words::staves::START_CAPTION;

/// The start page as a link, so that it is made as any other.
const LINK: &str =
    "/read?staff=Corni+in+Es&notes=G4.C5.E5.G5.Fs5.E5.Bb4.A4.C5&key=Eb+major&a4=430&hand=Horn+in+F&at=3";

/// The start page.
#[must_use]
pub fn page() -> ReadPage {
    match Link::decode_readable(LINK) {
        Ok(Some(Link::Read(page))) => *page,
        _ => ReadPage::of_label("Corni in Es"),
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_start_page_is_whole() {
        let page = super::page();
        assert_eq!(page.passage.columns().len(), 9);
        assert!(page.passage.movement.is_some() && page.in_hand.is_some() && page.selected == Some(2));
    }
}
