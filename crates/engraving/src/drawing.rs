//! The display list: what is drawn where, in which ink, and which element it shows. No layout, no SVG.

use crate::glyph::{Glyph, Outline};
use crate::units::{Bounds, Point, StaffSpace};

/// The number by which the caller knows a note or rest again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ElementId(pub u32);

/// What something is drawn as; a style sheet gives each its colour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ink {
    /// The five lines and bar lines.
    Staff,
    /// Ledger lines.
    Ledger,
    /// Clefs, signatures and braces.
    Sign,
    /// What is written.
    #[default]
    Written,
    /// What sounds.
    Sounding,
    /// What is only tried, such as a note under the finger.
    Ghost,
    /// What stands back.
    Muted,
    /// What needs attention.
    Warning,
}

impl Ink {
    /// Every ink.
    pub const ALL: [Self; 8] = [
        Self::Staff,
        Self::Ledger,
        Self::Sign,
        Self::Written,
        Self::Sounding,
        Self::Ghost,
        Self::Muted,
        Self::Warning,
    ];

    /// The class name in SVG: "ink-written".
    #[must_use]
    pub const fn class(self) -> &'static str {
        match self {
            Self::Staff => "ink-staff",
            Self::Ledger => "ink-ledger",
            Self::Sign => "ink-sign",
            Self::Written => "ink-written",
            Self::Sounding => "ink-sounding",
            Self::Ghost => "ink-ghost",
            Self::Muted => "ink-muted",
            Self::Warning => "ink-warning",
        }
    }
}

/// Which end of a text stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextAlign {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// How the letters of a text stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TextFace {
    /// Upright.
    #[default]
    Upright,
    /// Slanted, as scores print directions to the players.
    Italic,
}

/// One thing to draw.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A glyph with its origin at a place.
    Glyph {
        /// Which.
        glyph: Glyph,
        /// Its origin.
        at: Point,
    },
    /// A sign with its origin at a place, smaller or larger than it is.
    Sign {
        /// Which.
        sign: &'static Outline,
        /// Its origin.
        at: Point,
        /// Its size; 1 is that of the staff.
        scale: f64,
    },
    /// A beam: its ends are upright however it slants.
    Beam {
        /// The middle of its left end.
        from: Point,
        /// The middle of its right end.
        to: Point,
        /// From its upper to its lower edge.
        thickness: StaffSpace,
    },
    /// A straight line with square ends.
    Line {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
        /// Across the line.
        thickness: StaffSpace,
    },
    /// A filled curve, thicker in the middle, as a tie is.
    Tie {
        /// The left tip.
        from: Point,
        /// The right tip.
        to: Point,
        /// How far the outer edge of its middle rises above the tips; negative hangs below.
        rise: StaffSpace,
    },
    /// A brace stretched from top to bottom.
    Brace {
        /// Its upper tip.
        top: Point,
        /// Its length downwards.
        height: StaffSpace,
    },
    /// A text. Its ink is only estimated, at six tenths of its size a letter.
    Text {
        /// What it says; the writer escapes it.
        text: String,
        /// On its base line.
        at: Point,
        /// The size of the type.
        size: StaffSpace,
        /// Which end stands at the place.
        align: TextAlign,
        /// How the letters stand.
        face: TextFace,
    },
}

/// How much a brace of some height is wider and taller than its glyph: it grows in both, but in width not for ever.
pub(crate) fn brace_scale(height: StaffSpace) -> (f64, f64) {
    let tall = height.0 / Glyph::Brace.bounds().height().0;
    (tall.clamp(0.0, 3.5), tall)
}

/// Thickness of a tie in its middle (engraving default of the font).
pub(crate) const TIE_MIDDLE: f64 = 0.22;
/// Thickness of a tie at its tips (engraving default of the font).
pub(crate) const TIE_TIP: f64 = 0.1;

impl Shape {
    /// The rectangle round its ink.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        match self {
            Self::Glyph { glyph, at } => glyph.bounds().shifted(at.x, at.y),
            Self::Sign { sign, at, scale } => {
                let own = sign.bounds();
                Bounds {
                    left: at.x + own.left * *scale,
                    top: at.y + own.top * *scale,
                    right: at.x + own.right * *scale,
                    bottom: at.y + own.bottom * *scale,
                }
            }
            Self::Beam { from, to, thickness } => {
                let (tight, half) = (span(*from, *to), *thickness / 2.0);
                Bounds { top: tight.top - half, bottom: tight.bottom + half, ..tight }
            }
            Self::Line { from, to, thickness } => {
                let half = *thickness / 2.0;
                let (across, along) = (
                    if from.y == to.y { StaffSpace::ZERO } else { half },
                    if from.x == to.x { StaffSpace::ZERO } else { half },
                );
                let tight = span(*from, *to);
                Bounds {
                    left: tight.left - across,
                    top: tight.top - along,
                    right: tight.right + across,
                    bottom: tight.bottom + along,
                }
            }
            Self::Tie { from, to, rise } => {
                let mut bounds = span(*from, *to);
                let tip = StaffSpace(TIE_TIP / 2.0);
                bounds.top = bounds.top - tip.max(*rise);
                bounds.bottom += tip.max(-*rise);
                bounds
            }
            Self::Brace { top, height } => {
                let (across, (wide, _)) = (Glyph::Brace.bounds(), brace_scale(*height));
                Bounds {
                    left: top.x + across.left * wide,
                    right: top.x + across.right * wide,
                    top: top.y,
                    bottom: top.y + *height,
                }
            }
            Self::Text { text, at, size, align, .. } => {
                let width = *size * (0.6 * text.chars().count() as f64);
                let left = match align {
                    TextAlign::Start => at.x,
                    TextAlign::Middle => at.x - width / 2.0,
                    TextAlign::End => at.x - width,
                };
                Bounds { left, right: left + width, top: at.y - *size * 0.8, bottom: at.y + *size * 0.25 }
            }
        }
    }

    /// Moves it right and down.
    fn shift(&mut self, right: StaffSpace, down: StaffSpace) {
        let shift = |point: &mut Point| {
            point.x += right;
            point.y += down;
        };
        match self {
            Self::Glyph { at, .. } | Self::Sign { at, .. } | Self::Text { at, .. } => shift(at),
            Self::Line { from, to, .. } | Self::Beam { from, to, .. } | Self::Tie { from, to, .. } => {
                shift(from);
                shift(to);
            }
            Self::Brace { top, .. } => shift(top),
        }
    }
}

/// How far a tie has come along its line, from 0 to 1, at a part of its curve: the inner points of the curve stand at a fifth
/// of its length from its tips.
fn along(part: f64) -> f64 {
    let rest = 1.0 - part;
    part * (0.6 * rest * rest + part * (2.4 * rest + part))
}

/// How high a tie stands at a part of its length from 0 to 1, its middle being 1.
#[must_use]
pub fn tie_height(part: f64) -> f64 {
    let part = part.clamp(0.0, 1.0);
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..16 {
        let middle = f64::midpoint(low, high);
        if along(middle) < part { low = middle } else { high = middle }
    }
    4.0 * low * (1.0 - low)
}

fn span(one: Point, two: Point) -> Bounds {
    Bounds {
        left: one.x.min(two.x),
        top: one.y.min(two.y),
        right: one.x.max(two.x),
        bottom: one.y.max(two.y),
    }
}

/// A shape with its ink and the element it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What is drawn.
    pub shape: Shape,
    /// In which ink.
    pub ink: Ink,
    /// Which element it shows, if it shows one alone.
    pub id: Option<ElementId>,
}

/// A display list, drawn from first to last.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    /// What is drawn.
    pub items: Vec<Item>,
}

impl Drawing {
    /// The tightest rectangle round all ink; `None` where nothing is drawn.
    #[must_use]
    pub fn bounds(&self) -> Option<Bounds> {
        self.items.iter().map(|item| item.shape.bounds()).reduce(Bounds::union)
    }

    /// Adds a shape.
    pub fn push(&mut self, shape: Shape, ink: Ink, id: Option<ElementId>) {
        self.items.push(Item { shape, ink, id });
    }

    /// Adds another drawing, moved right and down.
    pub fn place(&mut self, other: Self, right: StaffSpace, down: StaffSpace) {
        self.items.extend(other.items.into_iter().map(|mut item| {
            item.shape.shift(right, down);
            item
        }));
    }
}
