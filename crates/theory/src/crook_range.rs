//! How far a crook goes. The sources disagree, so each is kept with its name.

use crate::crook::{Crook, CrookFamily, OctaveWord};
use crate::pitch::Step;
use crate::series::Partial;

/// A range by one source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CrookRange {
    /// The lowest partial; `None` where the source speaks of the top only.
    pub low: Option<u8>,
    /// The highest partial.
    pub high: u8,
    /// Whose range it is.
    pub source: &'static str,
}

impl Crook {
    /// What the sources say about this crook, the general range last.
    #[must_use]
    pub fn ranges(&self) -> Vec<CrookRange> {
        let printed = self.comfortable.map(|(low, high)| CrookRange {
            low: Some(low),
            high,
            source: match self.tonic {
                tonic if tonic.step == Step::C && self.octave == Some(OctaveWord::Alto) => {
                    "by analogy with the neighbouring crooks; no source names this one"
                }
                _ => "usable after Encyclopædia Britannica 1911, “Horn”",
            },
        });
        let written = beethoven_highest(self).map(|high| CrookRange {
            low: None,
            high,
            source: "the highest that Beethoven writes for it in the nine symphonies, counted in scores",
        });
        let (low, high) = Partial::range(self.family);
        let (classical_low, classical_high) = Partial::classical(self.family);
        let general = [
            CrookRange {
                low: Some(classical_low),
                high: classical_high,
                source: "the classical stock (Grove 1879, vol. 1, pp. 749–750)",
            },
            CrookRange {
                low: Some(low),
                high,
                source: match self.family {
                    CrookFamily::Horn => "the whole series of a high player (Grove 1879)",
                    CrookFamily::Trumpet => {
                        "with the clarino register (Bach, Mass in B minor, counted; Koechlin 1948)"
                    }
                },
            },
        ];
        printed.into_iter().chain(written).chain(general).collect()
    }
}

/// The highest partial Beethoven writes for a horn crook in his symphonies. Counted in an open corpus of scores.
fn beethoven_highest(crook: &Crook) -> Option<u8> {
    if crook.family != CrookFamily::Horn {
        return None;
    }
    match (crook.tonic.step, crook.tonic.alter, crook.octave) {
        (Step::D, 0, _) | (Step::E, -1, _) | (Step::C, 0, Some(OctaveWord::Basso)) => Some(16),
        (Step::F, 0, _) | (Step::B, -1, Some(OctaveWord::Basso)) => Some(13),
        (Step::A, 0, Some(OctaveWord::Alto)) | (Step::B, -1, Some(OctaveWord::Alto)) | (Step::E, 0, _) => {
            Some(12)
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pitch::Tonic;

    #[test]
    fn conflicting_sources_stand_side_by_side() {
        // Britannica stops at 10 on the short crooks; Beethoven writes 12 (G5) on B-flat alto and on A.
        for tonic in [Tonic::new(Step::B, -1), Tonic::new(Step::A, 0)] {
            let ranges = CrookFamily::Horn.in_key(tonic)[0].ranges();
            assert_eq!((ranges[0].high, ranges[1].high), (10, 12));
        }
        let trumpet = CrookFamily::Trumpet.in_key(Tonic::new(Step::D, 0))[0].ranges();
        assert_eq!(trumpet.iter().map(|range| range.high).collect::<Vec<_>>(), [12, 18]);
    }
}
