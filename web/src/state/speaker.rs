//! What is heard: as whom, how loud, and whether something sounds now.

use crate::state::hearing::HeardAs;
use crate::state::kept::Watched;

/// What the reader knows of how loud it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// Nothing was heard yet.
    Due,
    /// Said beside the first sound.
    Said,
    /// Understood.
    Heeded,
}

/// Handles on what is heard; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Speaker {
    /// As whom notes are heard.
    pub way: Watched<HeardAs>,
    /// How loud, in hundredths.
    pub volume: Watched<u8>,
    /// Whether something is being heard.
    pub playing: Watched<bool>,
    /// What was said of how loud it is.
    pub caution: Watched<Caution>,
}

impl Speaker {
    /// Silence, with the reader's wishes.
    #[must_use]
    pub fn new(way: HeardAs, volume: u8) -> Self {
        Self {
            way: Watched::new(way),
            volume: Watched::new(volume),
            playing: Watched::new(false),
            caution: Watched::new(Caution::Due),
        }
    }

    /// Something is heard: at the first time the reader is told how loud it is.
    pub fn begins(self) {
        self.playing.set(true);
        if self.caution.get_untracked() == Caution::Due {
            self.caution.set(Caution::Said);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use leptos::prelude::Owner;

    #[test]
    fn the_caution_is_said_at_the_first_sound_and_never_again() {
        let owner = Owner::new();
        owner.set();
        let speaker = Speaker::new(HeardAs::default(), 60);
        assert_eq!(speaker.caution.get(), Caution::Due);
        speaker.begins();
        assert_eq!((speaker.caution.get(), speaker.playing.get()), (Caution::Said, true));
        speaker.caution.set(Caution::Heeded);
        speaker.begins();
        assert_eq!(speaker.caution.get(), Caution::Heeded);
    }
}
