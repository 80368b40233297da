//! The page of Read as plain data: everything a link to it must carry.

use crookwise_score::Passage;
use crookwise_theory::Intonation;

/// Everything that stands on the page of Read.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadPage {
    /// The staves and what is on them.
    pub passage: Passage,
    /// The tuning of the room and of the brass.
    pub intonation: Intonation,
    /// The year of the music, where given.
    pub year: Option<i32>,
    /// The label of the instrument in the reader's hands, where given.
    pub in_hand: Option<String>,
    /// The selected column, from 0.
    pub selected: Option<usize>,
    /// The selected staff, from 0.
    pub staff: usize,
    /// The selected player of that staff, from 0.
    pub player: usize,
}

impl ReadPage {
    /// A page of one empty staff.
    #[must_use]
    pub fn of_label(label: &str) -> Self {
        Self {
            passage: Passage::of_staff(label),
            intonation: Intonation::default(),
            year: None,
            in_hand: None,
            selected: None,
            staff: 0,
            player: 0,
        }
    }
}
