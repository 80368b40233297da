//! Entries after long rests.

use super::staves::Staves;
use super::{PlaceKind, ScorePlace};

/// Whole bars of rest before an entry, at least.
pub const LONG_REST_BARS: usize = 8;
/// And as many quarter notes.
pub const LONG_REST_QUARTERS: f64 = 32.0;

/// Those who enter in one bar enter together.
pub(super) fn find(staves: &Staves<'_>) -> Vec<ScorePlace> {
    let mut found: Vec<ScorePlace> = Vec::new();
    for line in &staves.brass {
        // The first bar that may be silent since the line last sounded.
        let mut silent = 0;
        for tone in &line.notes {
            let bars = tone.bar.saturating_sub(silent);
            if bars >= LONG_REST_BARS && staves.length(silent, tone.bar) >= LONG_REST_QUARTERS {
                let bar = (tone.bar, tone.bar);
                match found.iter_mut().find(|place| place.bars == bar) {
                    Some(place) => place.staves.push(line.staff),
                    None => found.push(ScorePlace {
                        kind: PlaceKind::Entry,
                        staves: vec![line.staff],
                        bars: bar,
                        first: tone.id,
                    }),
                }
            }
            silent = silent.max(tone.last_bar + 1);
        }
    }
    found
}
