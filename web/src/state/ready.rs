//! Ready margins of typical pages, in our own names. The scenario is invented: the Quarry Hill Harmony and its guests.

use crate::words;
use crookwise_share::{Link, ReadPage};

/// A ready margin.
#[derive(Clone, Copy, Debug)]
pub struct Ready {
    /// What it is called in the list.
    pub name: &'static str,
    /// The link that makes it.
    link: &'static str,
}

/// The ready margins. Which staves such pages have is common practice.
pub const READY: [Ready; 5] = [
    Ready {
        name: words::pages::TWO_HORNS_WITH_STRINGS,
        link: "/read?staff=2+Corni+in+Es&players=2&notes=C5.D5.E5&notes2=E4.G4.C5&staff=Violino+I&notes=G4.F4.Eb4&staff=Violino+II&notes=Eb4.D4.Eb4&staff=Viola&notes=Bb3.Bb3.G3&staff=Violoncello+e+Basso&notes=Eb3.Bb2.Eb3&key=Eb+major&at=1",
    },
    Ready {
        name: words::pages::FOUR_HORNS_IN_TWO_CROOKS,
        link: "/read?staff=Corni+I,+II+in+G&players=2&notes=C5.E5.G5&notes2=E4.C5.E5&staff=Corni+III,+IV+in+B+alto&players=2&notes=C5.E5.G4&notes2=E4.G4.C4&staff=Bassi&notes=G2.Bb2.D3&key=G+minor&at=1",
    },
    Ready {
        name: words::pages::CLASSICAL_BRASS_WITH_DRUMS,
        link: "/read?staff=2+Corni+in+D&players=2&notes=C5.D5.C5&notes2=C4.G4.E4&staff=2+Clarini+in+D&players=2&notes=C5.D5.E5&notes2=E4.G4.C5&staff=Timpani+in+D,+A&notes=C3.G2.C3&key=D+major&at=1",
    },
    Ready {
        name: words::pages::WINDS_OF_A_SYMPHONY,
        link: "/read?staff=2+Flauti&notes=Bb5.Ab5.G5&staff=2+Oboi&notes=G5.F5.Eb5&staff=2+Clarinetti+in+B&notes=F5.E5.F5&staff=2+Fagotti&notes=Eb3.Bb2.Eb3&staff=2+Corni+in+Es&players=2&notes=E5.D5.C5&notes2=C5.G4.C4&staff=2+Trombe+in+Es&notes=G4.G4.C5&staff=Timpani+in+Es,+B&notes=C3.G2.C3&key=Eb+major&at=1",
    },
    Ready { name: words::pages::ONE_STAFF_EMPTY, link: "/read?staff=Corni+in+F" },
];

impl Ready {
    /// The page.
    #[must_use]
    pub fn page(&self) -> Option<ReadPage> {
        match Link::decode(self.link) {
            Ok(Some(Link::Read(page))) => Some(*page),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::view::PageView;
    use crate::words::Names;

    #[test]
    fn every_ready_margin_opens_and_every_label_is_understood() {
        for ready in READY {
            let page = ready.page().unwrap_or_else(|| panic!("{}", ready.name));
            for staff in PageView::of(&page, Names::default()).staves {
                for view in staff.players {
                    assert!(view.place.is_some(), "{}: {}", ready.name, staff.label);
                    assert!(view.staff.decoded.problem.is_none(), "{}: {}", ready.name, staff.label);
                }
            }
        }
    }
}
