//! Clefs and key signatures: at the head of a staff and where they change.

use crate::drawing::{Drawing, Ink, Shape};
use crate::glyph::Glyph;
use crate::signature::{SignatureSign, cancelling_signs, signature_signs};
use crate::spec::ColumnSpec;
use crate::units::{Bounds, Point, StaffSpace};
use crate::voice::y_of;
use crookwise_theory::{Clef, ClefSign, Signature};

/// From the left end of the staff to the clef.
const INSET: StaffSpace = StaffSpace(0.7);
/// Between a clef and its octave mark.
const MARK_GAP: StaffSpace = StaffSpace(0.06);
/// From a clef to the signature.
const CLEF_GAP: StaffSpace = StaffSpace(0.8);
/// After the last sign of a head.
const HEAD_END: StaffSpace = StaffSpace(0.6);
/// Between two signs of a signature that say the same.
const SIGN_GAP: StaffSpace = StaffSpace(0.08);
/// Before and after a change in the middle of a staff.
const CHANGE_GAP: StaffSpace = StaffSpace(0.5);

/// How wide clef and signature are at the head of a staff, from its left end to where the first column begins.
#[must_use]
pub fn head_width(clef: Clef, signature: Signature) -> StaffSpace {
    head(clef, signature).1
}

/// Draws the head of a staff; gives back where the first column begins.
pub(crate) fn head(clef: Clef, signature: Signature) -> (Drawing, StaffSpace) {
    let mut drawing = Drawing::default();
    let right = draw_clef(&mut drawing, clef, false, INSET);
    let signs = signature_signs(clef, signature);
    let right = if signs.is_empty() { right } else { draw_signs(&mut drawing, &signs, right + CLEF_GAP) };
    (drawing, right + HEAD_END)
}

/// Draws the head of a staff of strokes without pitch.
pub(crate) fn neutral_head() -> Drawing {
    let mut drawing = Drawing::default();
    let glyph = Glyph::UnpitchedPercussionClef1;
    let at = Point { x: INSET - glyph.bounds().left, y: y_of(4) };
    drawing.push(Shape::Glyph { glyph, at }, Ink::Sign, None);
    drawing
}

/// What changes before a column: its signs with the room they need, before the bar line and behind it.
pub(crate) struct Change {
    /// Before the bar line, where one stands: the clef.
    pub(crate) line: (Drawing, StaffSpace),
    /// Before the column: the signature, and the clef where no bar begins.
    pub(crate) column: (Drawing, StaffSpace),
    /// What holds from there on.
    pub(crate) to: (Clef, Signature),
}

impl Change {
    /// What changes before a column where this was in force.
    pub(crate) fn at(old: (Clef, Signature), column: &ColumnSpec) -> Self {
        let to = (column.clef_change.unwrap_or(old.0), column.signature_change.unwrap_or(old.1));
        let line = column.clef_change.filter(|_| column.bar.is_some());
        let clef = if line.is_some() { None } else { column.clef_change };
        Self {
            line: change(old, line, None),
            column: change((line.unwrap_or(old.0), old.1), clef, column.signature_change),
            to,
        }
    }
}

/// Draws a change of clef, of signature or of both from x = 0 on; gives back the room it needs.
pub(crate) fn change(
    old: (Clef, Signature),
    clef: Option<Clef>,
    signature: Option<Signature>,
) -> (Drawing, StaffSpace) {
    let mut drawing = Drawing::default();
    let mut right = StaffSpace::ZERO;
    if let Some(clef) = clef.filter(|&clef| clef != old.0) {
        right = draw_clef(&mut drawing, clef, true, CHANGE_GAP);
    }
    if let Some(signature) = signature.filter(|&signature| signature != old.1) {
        let clef = clef.unwrap_or(old.0);
        for signs in [cancelling_signs(clef, old.1, signature), signature_signs(clef, signature)] {
            if !signs.is_empty() {
                right = draw_signs(&mut drawing, &signs, right + CHANGE_GAP);
            }
        }
    }
    let room = if drawing.items.is_empty() { StaffSpace::ZERO } else { right + CHANGE_GAP };
    (drawing, room)
}

/// Draws a clef with its left edge at `left`; gives back its right edge.
fn draw_clef(drawing: &mut Drawing, clef: Clef, small: bool, left: StaffSpace) -> StaffSpace {
    let glyph = match (clef.sign, small) {
        (ClefSign::G, false) => Glyph::GClef,
        (ClefSign::G, true) => Glyph::GClefChange,
        (ClefSign::F, false) => Glyph::FClef,
        (ClefSign::F, true) => Glyph::FClefChange,
        (ClefSign::C, false) => Glyph::CClef,
        (ClefSign::C, true) => Glyph::CClefChange,
    };
    let y = y_of(i32::from(clef.line() - 1) * 2);
    let ink = glyph.bounds();
    let at = Point { x: left - ink.left, y };
    drawing.push(Shape::Glyph { glyph, at }, Ink::Sign, None);
    let ink = ink.shifted(at.x, at.y);
    let mark = match clef.octave() {
        0 => return ink.right,
        -1 | 1 => Glyph::Clef8,
        _ => Glyph::Clef15,
    };
    let mark_ink = mark.bounds();
    let x = octave_mark_middle(clef, ink) - (mark_ink.left + mark_ink.right) / 2.0;
    let y = if clef.octave() > 0 {
        ink.top - MARK_GAP - mark_ink.bottom
    } else {
        ink.bottom + MARK_GAP - mark_ink.top
    };
    drawing.push(Shape::Glyph { glyph: mark, at: Point { x, y } }, Ink::Sign, None);
    ink.right
}

/// Where the octave mark of a clef has its middle: under the tail and over the head of the G, round the middle of F
/// and C.
fn octave_mark_middle(clef: Clef, ink: Bounds) -> StaffSpace {
    let share = match (clef.sign, clef.octave() > 0) {
        (ClefSign::G, true) => 0.62,
        (ClefSign::G, false) => 0.45,
        (ClefSign::F, true) => 0.4,
        (ClefSign::F, false) => 0.3,
        (ClefSign::C, _) => 0.5,
    };
    ink.left + ink.width() * share
}

/// Draws the signs of a signature from `left` on; gives back the right edge of the last.
fn draw_signs(drawing: &mut Drawing, signs: &[SignatureSign], left: StaffSpace) -> StaffSpace {
    let mut set: Vec<Bounds> = Vec::new();
    let mut right = left;
    for sign in signs {
        let y = y_of(sign.place.0);
        let bands: Vec<Bounds> = sign.accidental.bands();
        let x = next_left(&set, &bands, y).unwrap_or(left);
        for (glyph, inner) in sign.accidental.placed() {
            drawing.push(Shape::Glyph { glyph, at: Point { x: x + inner, y } }, Ink::Sign, None);
        }
        set = bands.into_iter().map(|band| band.shifted(x, y)).collect();
        right = x + sign.accidental.width();
    }
    right
}

/// As near to the sign before as both shapes allow, but never under half a sign's width from it.
fn next_left(before: &[Bounds], bands: &[Bounds], y: StaffSpace) -> Option<StaffSpace> {
    let whole = before.iter().copied().reduce(Bounds::union)?;
    let nearest = whole.left + whole.width() * 0.8;
    let clear = before.iter().flat_map(|old| {
        bands.iter().filter_map(move |band| {
            let band = band.shifted(StaffSpace::ZERO, y);
            (band.top < old.bottom && old.top < band.bottom).then(|| old.right + SIGN_GAP - band.left)
        })
    });
    Some(clear.fold(nearest, StaffSpace::max))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each sign of every signature under every clef, and the clef: none lies over another, and a full signature is
    /// not wider than its signs side by side.
    #[test]
    fn signs_of_a_head_keep_clear() {
        for clef in Clef::ALL {
            for fifths in -16..=16 {
                let (drawing, width) = head(clef, Signature(fifths));
                let shapes: Vec<Vec<Bounds>> = drawing
                    .items
                    .iter()
                    .filter_map(|item| match item.shape {
                        Shape::Glyph { glyph, at } => Some((glyph, at)),
                        _ => None,
                    })
                    .map(|(glyph, at)| {
                        glyph.bands().into_iter().map(|band| band.shifted(at.x, at.y)).collect()
                    })
                    .collect();
                for (at, one) in shapes.iter().enumerate() {
                    for two in shapes.iter().skip(at + 1) {
                        for (one, two) in one.iter().flat_map(|one| two.iter().map(move |two| (one, two))) {
                            assert!(!one.overlaps(*two), "{clef} {fifths}: {one:?} over {two:?}");
                            assert!(two.left > one.left, "{clef} {fifths}: from left to right");
                        }
                    }
                }
                let ink = drawing.bounds().unwrap();
                assert!(width > ink.right && ink.left > StaffSpace(0.5));
                if fifths.abs() == 7 {
                    assert!(width < StaffSpace(13.5), "{clef} {fifths}: {width:?}");
                }
            }
        }
    }
}
