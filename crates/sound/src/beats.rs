//! How fast two sounds beat, and how far they are from the pure interval nearest to them.

use crookwise_theory::temperament::cents;

/// A pure interval: the ratio of two small whole numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PureInterval {
    /// Of the higher sound, without common divisor: 3 of a fifth, 5 of a tenth.
    pub upper: u32,
    /// Of the lower sound: 2 of a fifth, 2 of a tenth.
    pub lower: u32,
    /// The interval within an octave, in words: a tenth is a major third and one octave.
    pub name: &'static str,
    /// Octaves above that.
    pub octaves: u32,
}

/// Within an octave. What is left out (seconds, tritones, the major seventh) has partials in common only so high
/// up that no beating is heard.
const PURE: [(u32, u32, &str); 8] = [
    (1, 1, "unison"),
    (6, 5, "minor third"),
    (5, 4, "major third"),
    (4, 3, "fourth"),
    (3, 2, "fifth"),
    (8, 5, "minor sixth"),
    (5, 3, "major sixth"),
    (7, 4, "natural seventh"),
];
/// Octaves that are looked through: all between the lowest and the highest sound of an orchestra.
const OCTAVES: u32 = 8;
/// Cents beyond which two sounds are no longer that interval out of tune.
const FARTHEST: f64 = 50.0;

/// Two sounds against the pure interval nearest to them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beats {
    /// Beats a second, of the lowest pair of partials that nearly meet.
    pub hz: f64,
    /// Cents by which the two sounds are wider apart than the pure interval; negative is narrower.
    pub cents: f64,
    /// That interval.
    pub interval: PureInterval,
}

/// The beats of two sounds, in Hz, in either order: |lower · f_high − upper · f_low|. `None` if no pure interval
/// of the list lies within half a semitone, or if one of them is not a frequency.
/// Source: the partials of number `lower` and `upper` nearly coincide (common practice).
///
/// ```
/// let fifth = crookwise_sound::beats(261.625_565, 391.995_436).unwrap();
/// assert_eq!((fifth.interval.upper, fifth.interval.lower), (3, 2));
/// assert!((fifth.hz - 0.886).abs() < 5e-4 && (fifth.cents + 1.955).abs() < 1e-3);
/// ```
#[must_use]
pub fn beats(one_hz: f64, other_hz: f64) -> Option<Beats> {
    if ![one_hz, other_hz].into_iter().all(|hz| hz.is_normal() && hz > 0.0) {
        return None;
    }
    let (low, high) = (one_hz.min(other_hz), one_hz.max(other_hz));
    let apart = cents(high / low);
    let all = (0..=OCTAVES).flat_map(|octaves| PURE.iter().map(move |pure| (octaves, pure)));
    let each = all.map(|(octaves, &(upper, lower, name))| {
        let interval = PureInterval::new(upper << octaves, lower, name, octaves);
        Beats { hz: interval.beats(low, high), cents: apart - interval.cents(), interval }
    });
    each.filter(|beats| beats.cents.abs() <= FARTHEST).min_by(|a, b| a.cents.abs().total_cmp(&b.cents.abs()))
}

impl PureInterval {
    fn new(upper: u32, lower: u32, name: &'static str, octaves: u32) -> Self {
        // The lower numbers of the list have no divisor but 2 in common with what octaves add.
        let common = 1 << upper.trailing_zeros().min(lower.trailing_zeros());
        Self { upper: upper / common, lower: lower / common, name, octaves }
    }

    /// Cents from the lower to the higher sound.
    #[must_use]
    pub fn cents(self) -> f64 {
        cents(f64::from(self.upper) / f64::from(self.lower))
    }

    fn beats(self, low: f64, high: f64) -> f64 {
        (f64::from(self.lower) * high - f64::from(self.upper) * low).abs()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_theory::temperament::ratio;

    /// So many cents above C4 at A440 in equal temperament.
    fn above_c4(cents: f64) -> f64 {
        440.0 * ratio(cents - 900.0)
    }

    fn with_c4(above: f64) -> Option<Beats> {
        beats(above_c4(0.0), above_c4(above))
    }

    #[test]
    fn known_beats_of_equal_temperament() {
        // Cents above C4, beats a second, cents off, upper : lower, octaves. The first two are in every handbook
        // of tuning; the others follow from the definition, reckoned by hand.
        let cases = [
            (700.0, 0.886, -1.955, (3, 2), 0),
            (400.0, 10.382, 13.686, (5, 4), 0),
            (500.0, 1.181, 1.955, (4, 3), 0),
            (300.0, 14.119, -15.641, (6, 5), 0),
            (900.0, 11.872, 15.641, (5, 3), 0),
            (1200.0, 0.0, 0.0, (2, 1), 1),
            (1600.0, 10.382, 13.686, (5, 2), 1),
            (1900.0, 0.886, -1.955, (3, 1), 1),
            (2800.0, 10.382, 13.686, (5, 1), 2),
            (2400.0, 0.0, 0.0, (4, 1), 2),
        ];
        for (above, hz, off, (upper, lower), octaves) in cases {
            let found = with_c4(above).unwrap();
            assert!((found.hz - hz).abs() < 2e-3, "{above}: {found:?}");
            assert!((found.cents - off).abs() < 1e-3, "{above}: {found:?}");
            assert_eq!((found.interval.upper, found.interval.lower), (upper, lower), "{above}");
            assert_eq!(found.interval.octaves, octaves, "{above}");
        }
    }

    #[test]
    fn pure_intervals_do_not_beat_and_order_does_not_matter() {
        for (upper, lower, name) in PURE {
            let (low, high) = (200.0, 200.0 * f64::from(upper) / f64::from(lower));
            let found = beats(high, low).unwrap();
            assert_eq!(found.interval.name, name);
            assert!(found.hz < 1e-9 && found.cents.abs() < 1e-9);
            assert_eq!(beats(low, high), Some(found));
        }
    }

    #[test]
    fn what_is_no_pure_interval_has_no_beats() {
        for above in [100.0, 200.0, 600.0, 1100.0, 1300.0, 1800.0] {
            assert_eq!(with_c4(above), None, "{above}");
        }
        for (one, other) in [(0.0, 440.0), (-1.0, 440.0), (f64::NAN, 440.0), (440.0, f64::INFINITY)] {
            assert_eq!(beats(one, other), None);
        }
    }

    #[test]
    fn the_seventh_partial_is_a_pure_seventh() {
        let found = with_c4(1000.0).unwrap();
        assert_eq!((found.interval.upper, found.interval.lower), (7, 4));
        assert!((found.cents - 31.174).abs() < 1e-3);
    }
}
