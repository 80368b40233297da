//! The signs of music: outlines and measures, named as SMuFL names them.

pub mod measured;
mod table;

pub use table::Glyph;

use crate::units::{Bounds, Point, StaffSpace};

/// Font units in one staff space. SMuFL lays a font out at four spaces to the em of 1000 units.
pub(crate) const UNITS: f64 = 250.0;

/// A sign of the font: its outline and its measures. Lengths in font units, y downwards.
#[derive(Debug, PartialEq)]
pub struct Outline {
    name: &'static str,
    code: u32,
    advance: i16,
    /// Left, top, right, bottom.
    bounds: [i16; 4],
    anchors: &'static [(Anchor, i16, i16)],
    path: &'static str,
}

/// A named place of a glyph, as SMuFL defines it for its metadata.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The corner of the empty part at the upper right.
    CutOutNe,
    /// The corner of the empty part at the upper left.
    CutOutNw,
    /// The corner of the empty part at the lower right.
    CutOutSe,
    /// The corner of the empty part at the lower left.
    CutOutSw,
    /// Where the lower right corner of a stem upwards stands.
    StemUpSe,
    /// Where the upper left corner of a stem downwards hangs.
    StemDownNw,
}

impl Outline {
    /// The canonical SMuFL name, such as "noteheadBlack".
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// The SMuFL code point, such as 0xE0A4.
    #[must_use]
    pub const fn code_point(&self) -> u32 {
        self.code
    }

    /// How far the next sign stands to the right.
    #[must_use]
    pub fn advance(&self) -> StaffSpace {
        StaffSpace(f64::from(self.advance) / UNITS)
    }

    /// The rectangle of its ink round the glyph's origin.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        let [left, top, right, bottom] = self.bounds.map(|edge| f64::from(edge) / UNITS);
        Bounds::new(left, top, right, bottom)
    }

    /// A named place of the glyph from its origin, if it has that one.
    #[must_use]
    pub fn anchor(&self, anchor: Anchor) -> Option<Point> {
        let &(_, x, y) = self.anchors.iter().find(|(name, _, _)| *name == anchor)?;
        Some(Point::new(f64::from(x) / UNITS, f64::from(y) / UNITS))
    }

    /// SVG path data in font units, 250 to a staff space, y downwards.
    #[must_use]
    pub const fn path(&self) -> &'static str {
        self.path
    }

    /// The glyph as at most three rectangles, its empty corners left out where SMuFL names them.
    #[must_use]
    pub fn bands(&self) -> Vec<Bounds> {
        let whole = self.bounds();
        let (ne, nw) = (self.anchor(Anchor::CutOutNe), self.anchor(Anchor::CutOutNw));
        let (se, sw) = (self.anchor(Anchor::CutOutSe), self.anchor(Anchor::CutOutSw));
        let height = |a: Option<Point>, b: Option<Point>, edge: StaffSpace, down: bool| match (a, b) {
            (None, None) => edge,
            (Some(one), None) | (None, Some(one)) => one.y,
            (Some(one), Some(two)) if down => one.y.max(two.y),
            (Some(one), Some(two)) => one.y.min(two.y),
        };
        // The middle band reaches as far as both corners of an end are cut, or the one that is.
        let upper = height(ne, nw, whole.top, false);
        let lower = height(se, sw, whole.bottom, true);
        let mut bands = vec![Bounds { top: upper, bottom: lower, ..whole }];
        if upper > whole.top {
            bands.push(Bounds {
                left: nw.map_or(whole.left, |corner| corner.x),
                right: ne.map_or(whole.right, |corner| corner.x),
                top: whole.top,
                bottom: upper,
            });
        }
        if lower < whole.bottom {
            bands.push(Bounds {
                left: sw.map_or(whole.left, |corner| corner.x),
                right: se.map_or(whole.right, |corner| corner.x),
                top: lower,
                bottom: whole.bottom,
            });
        }
        bands
    }
}

impl Glyph {
    /// Its outline.
    #[must_use]
    pub fn outline(self) -> &'static Outline {
        // The table has one row for each variant, in the order of the variants: a test holds it so.
        table::TABLE.get(self as usize).unwrap_or(&table::TABLE[0])
    }

    /// The canonical SMuFL name, such as "noteheadBlack".
    #[must_use]
    pub fn name(self) -> &'static str {
        self.outline().name
    }

    /// The SMuFL code point, such as 0xE0A4.
    #[must_use]
    pub fn code_point(self) -> u32 {
        self.outline().code
    }

    /// How far the next sign stands to the right.
    #[must_use]
    pub fn advance(self) -> StaffSpace {
        self.outline().advance()
    }

    /// The rectangle of its ink round the glyph's origin.
    #[must_use]
    pub fn bounds(self) -> Bounds {
        self.outline().bounds()
    }

    /// A named place of the glyph from its origin, if it has that one.
    #[must_use]
    pub fn anchor(self, anchor: Anchor) -> Option<Point> {
        self.outline().anchor(anchor)
    }

    /// SVG path data in font units, 250 to a staff space, y downwards.
    #[must_use]
    pub fn path(self) -> &'static str {
        self.outline().path
    }

    /// The glyph as at most three rectangles, its empty corners left out where SMuFL names them.
    pub(crate) fn bands(self) -> Vec<Bounds> {
        self.outline().bands()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_follows_the_variants() {
        for (at, glyph) in Glyph::ALL.into_iter().enumerate() {
            assert_eq!(glyph as usize, at);
            let name = format!("{glyph:?}");
            assert_eq!(glyph.name()[..1].to_uppercase() + &glyph.name()[1..], name);
        }
        assert_eq!(Glyph::NoteheadBlack.code_point(), 0xE0A4);
        assert!(Glyph::ALL.windows(2).all(|pair| pair[0].code_point() < pair[1].code_point()));
    }

    /// Follows a path's end points; the control points of a curve may lie outside the ink.
    #[test]
    fn outlines_stay_in_their_bounds() {
        for glyph in Glyph::ALL {
            let (mut x, mut y, mut start, mut numbers, mut command) = (0.0, 0.0, (0.0, 0.0), Vec::new(), 'm');
            let bounds = glyph.bounds().grown(StaffSpace(1.0 / UNITS));
            let mut tokens = Vec::new();
            let mut token = String::new();
            for sign in glyph.path().chars().chain(['z']) {
                if sign.is_ascii_alphabetic() || sign == ' ' || sign == '-' {
                    if !token.is_empty() {
                        tokens.push(core::mem::take(&mut token));
                    }
                    if sign.is_ascii_alphabetic() {
                        tokens.push(sign.to_string());
                    }
                }
                if sign.is_ascii_digit() || sign == '-' {
                    token.push(sign);
                }
            }
            for token in tokens {
                if let Ok(number) = token.parse::<f64>() {
                    numbers.push(number);
                } else {
                    command = token.chars().next().unwrap();
                    assert!(numbers.is_empty(), "{glyph:?} has a command with too few numbers");
                    if command == 'z' {
                        (x, y) = start;
                    }
                    continue;
                }
                let needed = match command {
                    'm' | 'l' => 2,
                    'h' | 'v' => 1,
                    'c' => 6,
                    other => panic!("{glyph:?} has the command {other}"),
                };
                if numbers.len() < needed {
                    continue;
                }
                match command {
                    'h' => x += numbers[0],
                    'v' => y += numbers[0],
                    _ => {
                        x += numbers[needed - 2];
                        y += numbers[needed - 1];
                    }
                }
                if command == 'm' {
                    start = (x, y);
                }
                numbers.clear();
                let at = Point::new(x / UNITS, y / UNITS);
                assert!(
                    at.x >= bounds.left
                        && at.x <= bounds.right
                        && at.y >= bounds.top
                        && at.y <= bounds.bottom,
                    "{glyph:?} {at:?}"
                );
            }
        }
    }

    #[test]
    fn bands_lie_in_the_bounds() {
        for glyph in Glyph::ALL {
            let whole = glyph.bounds();
            for band in glyph.bands() {
                assert_eq!(whole.union(band), whole, "{glyph:?}");
                assert!(band.left < band.right && band.top < band.bottom, "{glyph:?} {band:?}");
            }
        }
        assert_eq!(Glyph::AccidentalFlat.bands().len(), 3);
    }
}
