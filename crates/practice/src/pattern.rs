//! The trade's patterns, as written on a part in C; other parts have them in their own key.
//!
//! Sources: horn fifths, fanfare triads, the dominant on partials 6 and 9 and pedals are common practice; pairs are those
//! that two horns of Beethoven strike together most often, counted in nine symphonies. The phrases themselves are ours.

use crate::exercise::Style;
use crookwise_theory::Pitch;

/// A phrase for one player or two.
#[derive(Debug)]
pub(crate) struct Pattern {
    pub(crate) style: Style,
    /// The first player.
    upper: &'static str,
    /// The second player; empty where there is none.
    lower: &'static str,
    /// For horns in the bass clef, and for them alone.
    pub(crate) low: bool,
}

const fn pattern(style: Style, upper: &'static str, lower: &'static str) -> Pattern {
    Pattern { style, upper, lower, low: false }
}

/// For horns in the bass clef, as written in the treble clef.
const fn low(upper: &'static str, lower: &'static str) -> Pattern {
    Pattern { style: Style::Pedal, upper, lower, low: true }
}

/// Every pattern. Links and results do not name them by number, but a seed draws among them: new ones change what old
/// seeds give, so they need a new edition.
pub(crate) const PATTERNS: [Pattern; 36] = [
    pattern(Style::Fanfare, "C4 E4 G4 C5", ""),
    pattern(Style::Fanfare, "C5 G4 E4 C4", ""),
    pattern(Style::Fanfare, "G4 C5 E5 G5", "E4 G4 C5 E5"),
    pattern(Style::Fanfare, "C5 C5 E5 C5 G5", "C4 C4 C5 C4 E5"),
    pattern(Style::Fanfare, "G4 G4 C5 G4 E5 C5", "G3 G3 C4 G3 C4 C4"),
    pattern(Style::Fanfare, "G5 E5 C5 G4 C5", ""),
    pattern(Style::HornFifths, "E5 D5 C5", "C5 G4 E4"),
    pattern(Style::HornFifths, "C5 D5 E5", "E4 G4 C5"),
    pattern(Style::HornFifths, "C5 D5 E5 D5 C5", "E4 G4 C5 G4 E4"),
    pattern(Style::HornFifths, "G5 F5 E5 D5 C5", "E5 D5 C5 G4 E4"),
    pattern(Style::HornFifths, "E5 F5 G5 E5", "C5 D5 E5 C5"),
    pattern(Style::Dominant, "G4 D5 G4", ""),
    pattern(Style::Dominant, "D5 D5 G5 D5", "G4 G4 G4 G4"),
    pattern(Style::Dominant, "C5 D5 D5 C5", "E4 G4 G4 C4"),
    pattern(Style::Dominant, "G4 C5 D5 G4", "G3 C4 G4 G3"),
    pattern(Style::Dominant, "E5 D5 F5 E5", "C5 G4 G4 C5"),
    pattern(Style::Pedal, "C4 C4 G3 C4", ""),
    pattern(Style::Pedal, "C5 C5 C5 G4", "C4 C4 C4 G3"),
    pattern(Style::Pedal, "G4 G4 G4 C5", "G3 G3 G3 C4"),
    pattern(Style::Octaves, "C5 G4 D5 G4", "C4 G3 D5 G3"),
    pattern(Style::Octaves, "G5 E5 C5 G4", "G4 E4 C4 G3"),
    pattern(Style::Octaves, "E5 D5 D5 C5", "E4 D5 D5 C4"),
    pattern(Style::Melody, "C5 D5 E5 F5 G5", ""),
    pattern(Style::Melody, "G5 F5 E5 D5 C5", ""),
    pattern(Style::Melody, "E5 F5 G5 E5 C5 D5", ""),
    pattern(Style::Melody, "C5 E5 D5 F5 E5", "C5 C5 G4 D5 C5"),
    pattern(Style::Hand, "D5 Eb5 D5", ""),
    pattern(Style::Hand, "C5 B4 C5 D5", ""),
    pattern(Style::Hand, "G4 F#4 G4 A4 B4 C5", ""),
    pattern(Style::Hand, "C5 Bb4 A4 G4", ""),
    low("C4 G3 C3", ""),
    low("G3 C4 E4 C4", ""),
    low("C4 C4 G3 C4", "C3 C3 G3 C3"),
    low("G3 G3 C4", "G3 G3 C3"),
    low("C4 E4 C4 G3", "C4 C4 C4 G3"),
    low("E4 C4 G3 C4", "C4 G3 G3 C3"),
];

/// How many of the pairs are met in the treble clef; the others are for horns in the bass clef.
pub(crate) const HIGH_DUOS: usize = 14;

/// The open notes that every horn and trumpet of a pair has.
pub(crate) const OPEN: [&str; 8] = ["G3", "C4", "E4", "G4", "C5", "D5", "E5", "G5"];

/// Two players at once, first and second, with how often they are met; equal notes are written once, "a 2".
pub(crate) const DUOS: [(&str, &str, u32); HIGH_DUOS + 6] = [
    ("C5", "C4", 20),
    ("G4", "G3", 14),
    ("G5", "G4", 12),
    ("D5", "G4", 10),
    ("E5", "E4", 8),
    ("D5", "D5", 7),
    ("C5", "C5", 7),
    ("G4", "G4", 5),
    ("E5", "C5", 7),
    ("C5", "E4", 5),
    ("F5", "F5", 3),
    ("F5", "D5", 4),
    ("G5", "E5", 4),
    ("G4", "E4", 4),
    ("C4", "C3", 12),
    ("G3", "G3", 8),
    ("C4", "G3", 6),
    ("C4", "C4", 4),
    ("E4", "C4", 3),
    ("G3", "C3", 3),
];

impl Pattern {
    /// What a player has: 0 for the first, 1 for the second; empty where he has nothing.
    pub(crate) fn line(&self, player: usize) -> Vec<Pitch> {
        let line = if player == 0 { self.upper } else { self.lower };
        line.split_whitespace().filter_map(|name| name.parse().ok()).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pattern_can_be_read_and_its_players_keep_together() {
        for pattern in &PATTERNS {
            let upper = pattern.line(0);
            assert_eq!(upper.len(), pattern.upper.split(' ').count(), "{pattern:?}");
            assert!((3..=8).contains(&upper.len()), "{pattern:?}");
            let lower = pattern.line(1);
            assert!(lower.is_empty() || lower.len() == upper.len(), "{pattern:?}");
            for (high, low) in upper.iter().zip(&lower) {
                assert!(high.midi() >= low.midi(), "{pattern:?}");
            }
        }
        assert!(Style::ALL.iter().all(|style| PATTERNS.iter().any(|pattern| pattern.style == *style)));
    }
}
