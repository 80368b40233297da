//! When a note needs an accidental, and what that looks like.

use crate::glyph::Glyph;
use crate::units::{Bounds, StaffSpace};
use crookwise_theory::{Pitch, Signature};

/// An accidental, by the semitones it says: 0 is a natural, −1 a flat, +2 a double sharp.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Accidental(pub i32);

/// The accidental a note must carry because the signature says something else of its letter; each note counts alone.
///
/// ```
/// # use crookwise_engraving::{Accidental, accidental_needed};
/// # use crookwise_theory::Signature;
/// assert_eq!(accidental_needed("Eb4".parse().unwrap(), Signature(-3)), None);
/// assert_eq!(accidental_needed("E4".parse().unwrap(), Signature(-3)), Some(Accidental(0)));
/// assert_eq!(accidental_needed("F##4".parse().unwrap(), Signature(1)), Some(Accidental(2)));
/// ```
#[must_use]
pub fn accidental_needed(pitch: Pitch, signature: Signature) -> Option<Accidental> {
    (pitch.alter != signature.alteration(pitch.step)).then_some(Accidental(pitch.alter))
}

/// So many semitones are drawn at most, as many as a pitch can be given by name.
const MOST: i32 = 99;
/// Between the signs of one accidental.
const INNER_GAP: f64 = 0.06;

impl Accidental {
    /// Its signs from left to right. A triple sharp is a sharp and a double sharp, a triple flat a double flat and a
    /// flat, and so on (common practice).
    #[must_use]
    pub fn glyphs(self) -> Vec<Glyph> {
        let size = self.0.clamp(-MOST, MOST).unsigned_abs() as usize;
        let (single, double) = match self.0 {
            0 => return vec![Glyph::AccidentalNatural],
            1.. => (Glyph::AccidentalSharp, Glyph::AccidentalDoubleSharp),
            _ => (Glyph::AccidentalFlat, Glyph::AccidentalDoubleFlat),
        };
        let mut signs = vec![double; size / 2];
        if size % 2 == 1 {
            // The single sharp stands outside, the single flat next to the note.
            let at = if self.0 > 0 { 0 } else { signs.len() };
            signs.insert(at, single);
        }
        signs
    }

    /// Its signs with the distance of each from the left end.
    pub(crate) fn placed(self) -> Vec<(Glyph, StaffSpace)> {
        let mut x = StaffSpace::ZERO;
        let mut signs = Vec::new();
        for glyph in self.glyphs() {
            let bounds = glyph.bounds();
            signs.push((glyph, x - bounds.left));
            x = x + bounds.width() + StaffSpace(INNER_GAP);
        }
        signs
    }

    /// From the left to the right end.
    pub(crate) fn width(self) -> StaffSpace {
        self.placed().last().map_or(StaffSpace::ZERO, |&(glyph, x)| x + glyph.bounds().right)
    }

    /// The rectangles it fills, from its left end and its line.
    pub(crate) fn bands(self) -> Vec<Bounds> {
        let shift = |(glyph, x): (Glyph, StaffSpace)| {
            glyph.bands().into_iter().map(move |band| band.shifted(x, StaffSpace::ZERO))
        };
        self.placed().into_iter().flat_map(shift).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_theory::Step;

    /// Over all signatures: no note of the scale needs a sign, every other note does, and it says its own alteration.
    #[test]
    fn the_signature_decides() {
        for fifths in -14..=14 {
            let signature = Signature(fifths);
            for step in Step::ALL {
                let scale = signature.alteration(step);
                for alter in -4..=4 {
                    let needed = accidental_needed(Pitch::new(step, alter, 4), signature);
                    assert_eq!(needed, if alter == scale { None } else { Some(Accidental(alter)) });
                }
            }
        }
        // Eb major, by hand.
        let shown = |name: &str| accidental_needed(name.parse().unwrap(), Signature(-3)).map(|sign| sign.0);
        assert_eq!(["Eb4", "Bb3", "Ab5", "C4"].map(shown), [None; 4]);
        assert_eq!(
            ["E4", "B3", "F#5", "Db4", "Ebb4"].map(shown),
            [Some(0), Some(0), Some(1), Some(-1), Some(-2)]
        );
    }

    #[test]
    fn signs_add_up() {
        use Glyph::{AccidentalDoubleFlat, AccidentalDoubleSharp, AccidentalFlat, AccidentalSharp};
        assert_eq!(Accidental(3).glyphs(), [AccidentalSharp, AccidentalDoubleSharp]);
        assert_eq!(Accidental(-3).glyphs(), [AccidentalDoubleFlat, AccidentalFlat]);
        assert_eq!(Accidental(-4).glyphs(), [AccidentalDoubleFlat; 2]);
        for alter in (-120..=120_i32).filter(|&alter| alter != 0) {
            let sum: i32 = Accidental(alter)
                .glyphs()
                .into_iter()
                .map(|glyph| match glyph {
                    AccidentalFlat => -1,
                    AccidentalDoubleFlat => -2,
                    AccidentalSharp => 1,
                    AccidentalDoubleSharp => 2,
                    other => panic!("{other:?}"),
                })
                .sum();
            assert_eq!(sum, alter.clamp(-MOST, MOST));
        }
        assert!(Accidental(i32::MIN).width() < StaffSpace(120.0));
        assert!(Accidental(i32::MAX).width() < StaffSpace(120.0));
    }
}
