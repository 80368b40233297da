//! Brass with hardly anybody beside it.

use super::staves::Staves;
use super::{PlaceKind, ScorePlace};

/// Other staves that sound in a bar, at most; timpani and every voice count.
pub const EXPOSED_OTHERS: usize = 3;
/// Bars running, at least.
pub const EXPOSED_BARS: usize = 2;

pub(super) fn find(staves: &Staves<'_>) -> Vec<ScorePlace> {
    let mut found = Vec::new();
    let mut from = None;
    for bar in 0..=staves.bars() {
        let plays = staves.brass.iter().any(|line| line.sounds.get(bar) == Some(&true));
        if plays && staves.others_in(bar) <= EXPOSED_OTHERS {
            from.get_or_insert(bar);
        } else if let Some(from) = from.take().filter(|from| bar - from >= EXPOSED_BARS) {
            let own: Vec<_> = staves
                .brass
                .iter()
                .filter(|line| line.sounds.get(from..bar).is_some_and(|bars| bars.contains(&true)))
                .collect();
            let first = own
                .iter()
                .filter_map(|line| line.notes.iter().find(|tone| tone.last_bar >= from))
                .min_by_key(|tone| tone.start);
            let Some(first) = first else { continue };
            found.push(ScorePlace {
                kind: PlaceKind::Exposed,
                staves: own.iter().map(|line| line.staff).collect(),
                bars: (from, bar - 1),
                first: first.id,
            });
        }
    }
    found
}
