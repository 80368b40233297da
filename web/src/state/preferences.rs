//! What the reader prefers on every page: kept on the device, never in a link.

use crate::words::{Letters, Names, Octaves};

/// The preferences as text: "german helmholtz". What is not understood is the usual.
#[must_use]
pub fn read(text: &str) -> Names {
    let mut names = Names::default();
    for word in text.split_whitespace() {
        if let Some(letters) = Letters::ALL.into_iter().find(|letters| letters.id() == word) {
            names.letters = letters;
        }
        if let Some(octaves) = Octaves::ALL.into_iter().find(|octaves| octaves.id() == word) {
            names.octaves = octaves;
        }
    }
    names
}

/// Writes the preferences as text.
#[must_use]
pub fn write(names: Names) -> String {
    format!("{} {}", names.letters.id(), names.octaves.id())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn preferences_go_back_and_forth_and_rubbish_is_the_usual() {
        for letters in Letters::ALL {
            for octaves in Octaves::ALL {
                let names = Names { letters, octaves };
                assert_eq!(read(&write(names)), names);
            }
        }
        assert_eq!(read("rubbish \u{202e} 7"), Names::default());
    }
}
