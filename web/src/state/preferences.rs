//! What the reader prefers on every page: kept on the device, never in a link.

use crate::state::hearing::HeardAs;
use crate::state::store::entry::{self, Unread, What};
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
    /// Reads preferences: "german helmholtz turns 60" behind a first line, which earlier versions did not write.
    ///
    /// # Errors
    /// Where a word of it is not understood, or a newer version wrote it.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let words = if text.starts_with("crookwise ") { entry::read(What::Preferences, text)? } else { text };
        let mut read = Self::default();
        for word in words.split_whitespace() {
            let letters = Letters::ALL.into_iter().find(|letters| letters.id() == word);
            let octaves = Octaves::ALL.into_iter().find(|octaves| octaves.id() == word);
            let way = HeardAs::ALL.into_iter().find(|way| way.id() == word);
            let volume = word.parse().ok().filter(|volume| *volume <= 100);
            if letters.is_none() && octaves.is_none() && way.is_none() && volume.is_none() {
                return Err(Unread::Damaged);
            }
            read.names.letters = letters.unwrap_or(read.names.letters);
            read.names.octaves = octaves.unwrap_or(read.names.octaves);
            read.way = way.unwrap_or(read.way);
            read.volume = volume.unwrap_or(read.volume);
        }
        Ok(read)
    }

    /// Writes the preferences as an entry.
    #[must_use]
    pub fn write(self) -> String {
        let Self { names: Names { letters, octaves }, way, volume } = self;
        entry::write(What::Preferences, &format!("{} {} {} {volume}", letters.id(), octaves.id(), way.id()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn preferences_go_back_and_forth_and_rubbish_is_told() {
        for letters in Letters::ALL {
            for octaves in Octaves::ALL {
                for (way, volume) in HeardAs::ALL.into_iter().zip([0, 35, 100]) {
                    let one = Preferences { names: Names { letters, octaves }, way, volume };
                    assert_eq!(Preferences::read(&one.write()), Ok(one));
                    let earlier = one.write().lines().last().unwrap().to_owned();
                    assert_eq!(Preferences::read(&earlier), Ok(one));
                }
            }
        }
        for damaged in ["rubbish \u{202e}", "700", "-3", "english numbers horn"] {
            assert_eq!(Preferences::read(damaged), Err(Unread::Damaged), "{damaged}");
        }
        let newer = Preferences::default().write().replace("preferences 1", "preferences 2");
        assert_eq!(Preferences::read(&newer), Err(Unread::Newer));
        assert_eq!(Preferences::default().volume, 60);
    }
}
