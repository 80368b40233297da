//! Chords held against what sounds.

/// A chord by the keys above its root, as a set of bits, and what it must overcome to be heard rather than a plainer one.
#[derive(Clone, Copy, Debug)]
pub(super) struct Template {
    /// Bit 0 is the root.
    pub keys: u16,
    /// What speaks against it from the beginning, as a part of the time.
    pub rare: f64,
    /// The note without which it is a plainer chord, in semitones above the root, and the least part of the time it must weigh.
    pub needs: Option<(u8, f64)>,
}

const fn keys(semitones: &[u8]) -> u16 {
    let mut bits = 0;
    let mut at = 0;
    while at < semitones.len() {
        bits |= 1 << semitones[at];
        at += 1;
    }
    bits
}

/// The chords that are looked for, plain ones first. Augmented sixths sound as dominant and as other sevenths, and are told
/// apart when they are named.
pub(super) const TEMPLATES: [Template; 11] = [
    Template { keys: keys(&[0, 4, 7]), rare: 0.0, needs: None },
    Template { keys: keys(&[0, 3, 7]), rare: 0.01, needs: Some((3, 0.08)) },
    Template { keys: keys(&[0, 4, 7, 10]), rare: 0.03, needs: Some((10, 0.06)) },
    Template { keys: keys(&[0, 3, 6]), rare: 0.06, needs: Some((6, 0.08)) },
    Template { keys: keys(&[0, 3, 6, 9]), rare: 0.05, needs: Some((9, 0.1)) },
    Template { keys: keys(&[0, 3, 7, 10]), rare: 0.17, needs: Some((10, 0.15)) },
    Template { keys: keys(&[0, 3, 6, 10]), rare: 0.10, needs: Some((10, 0.14)) },
    Template { keys: keys(&[0, 4, 7, 11]), rare: 0.24, needs: Some((11, 0.18)) },
    Template { keys: keys(&[0, 4, 8]), rare: 0.14, needs: Some((8, 0.2)) },
    Template { keys: keys(&[0, 4, 6, 10]), rare: 0.12, needs: Some((6, 0.12)) },
    Template { keys: keys(&[0, 4, 7, 10, 2]), rare: 0.14, needs: Some((2, 0.12)) },
];

/// What does not belong speaks against a chord so much more than what belongs speaks for it.
const FOREIGN: f64 = 1.4;
/// What the root, the third and the fifth cost where they are missing, as parts of the time.
const MISSING: [f64; 3] = [0.16, 0.12, 0.03];

/// More than any rounding of sums of beats.
pub(super) const ROUNDING: f64 = 1e-6;

/// What [`fit`] cannot exceed for the keys of a chord, whatever its root: what belongs to it against all that sounds. Most
/// chords need not be looked at further.
pub(super) fn at_most(weights: &[f64; 12], (sum, time): (f64, f64), mut keys: u16, rare: f64) -> f64 {
    let mut inside = 0.0;
    while keys != 0 {
        inside += weights.get(keys.trailing_zeros() as usize).copied().unwrap_or(0.0);
        keys &= keys - 1;
    }
    inside - FOREIGN * (sum - inside) - rare * time + ROUNDING
}

/// How well a chord on a root fits what sounds: at most the time it takes.
pub(super) fn fit(weights: &[f64; 12], time: f64, root: usize, template: Template) -> Option<f64> {
    let (mut inside, mut outside) = (0.0, 0.0);
    let mut missing = 0.0;
    for (above, place) in (0..12).map(|above| (above, (root + above) % 12)) {
        let weight = weights.get(place).copied().unwrap_or(0.0);
        if template.keys >> above & 1 == 1 {
            inside += weight;
            if weight < 0.02 * time {
                missing += match above {
                    0 => MISSING[0],
                    3 | 4 => MISSING[1],
                    6..=8 => MISSING[2],
                    _ => 0.0,
                };
            }
        } else {
            outside += weight;
        }
    }
    if let Some((above, least)) = template.needs
        && weights.get((root + usize::from(above)) % 12).copied().unwrap_or(0.0) < least * time
    {
        return None;
    }
    Some(inside - FOREIGN * outside - (missing + template.rare) * time)
}
