//! What the reader prefers on every page: kept on the device, never in a link.

use crate::state::hearing::HeardAs;
use crate::words::{Letters, Names, Octaves};

/// A volume that starts soft, in hundredths.
const SOFT: u8 = (crookwise_sound::DEFAULT_VOLUME * 100.0) as u8;

/// How the reader wants notes named and heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Preferences {
    /// How notes are named.
    pub names: Names,
    /// As whom notes are heard.
    pub way: HeardAs,
    /// How loud, 0 to 100.
    pub volume: u8,
}

impl Default for Preferences {
    fn default() -> Self {
        Self { names: Names::default(), way: HeardAs::default(), volume: SOFT }
    }
}

impl Preferences {
    /// The preferences as text: "german helmholtz turns 60". What is not understood is the usual.
    #[must_use]
    pub fn read(text: &str) -> Self {
        let mut read = Self::default();
        for word in text.split_whitespace() {
            if let Some(letters) = Letters::ALL.into_iter().find(|letters| letters.id() == word) {
                read.names.letters = letters;
            }
            if let Some(octaves) = Octaves::ALL.into_iter().find(|octaves| octaves.id() == word) {
                read.names.octaves = octaves;
            }
            if let Some(way) = HeardAs::ALL.into_iter().find(|way| way.id() == word) {
                read.way = way;
            }
            if let Some(volume) = word.parse().ok().filter(|volume| *volume <= 100) {
                read.volume = volume;
            }
        }
        read
    }

    /// Writes the preferences as text.
    #[must_use]
    pub fn write(self) -> String {
        format!("{} {} {} {}", self.names.letters.id(), self.names.octaves.id(), self.way.id(), self.volume)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn preferences_go_back_and_forth_and_rubbish_is_the_usual() {
        for letters in Letters::ALL {
            for octaves in Octaves::ALL {
                for (way, volume) in HeardAs::ALL.into_iter().zip([0, 35, 100]) {
                    let one = Preferences { names: Names { letters, octaves }, way, volume };
                    assert_eq!(Preferences::read(&one.write()), one);
                }
            }
        }
        assert_eq!(Preferences::read("rubbish \u{202e} 700 -3"), Preferences::default());
        assert_eq!(Preferences::default().volume, 60);
    }
}
