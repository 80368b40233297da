//! What is heard: as whom, how loud, and whether something sounds now.

use crate::state::hearing::HeardAs;
use crate::state::kept::Watched;

/// Handles on what is heard; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Speaker {
    /// As whom notes are heard.
    pub way: Watched<HeardAs>,
    /// How loud, in hundredths.
    pub volume: Watched<u8>,
    /// Whether something is being heard.
    pub playing: Watched<bool>,
}

impl Speaker {
    /// Silence, with the reader's wishes.
    #[must_use]
    pub fn new(way: HeardAs, volume: u8) -> Self {
        Self { way: Watched::new(way), volume: Watched::new(volume), playing: Watched::new(false) }
    }
}
