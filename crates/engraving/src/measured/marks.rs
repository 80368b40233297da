//! Signs at notes: those of articulation at the heads, others over the staff, and the waves of an arpeggio.

use super::chord::{Chord, y_of};
use super::outside::Outside;
use super::row::DrawnChord;
use crate::drawing::{Drawing, Ink, Shape};
use crate::glyph::{Glyph, Outline, measured};
use crate::units::Point;
use crookwise_score::score::{Mark, Marks};

/// Between a mark and what it stands at.
const GAP: f64 = 0.4;
/// From the first sign of a chord to the waves before it.
const WAVE_GAP: f64 = 0.3;

/// The signs of articulation of a note, from its head outwards.
fn articulations(marks: Marks, above: bool) -> impl Iterator<Item = &'static Outline> {
    let (wedge, upright) = if above {
        (&measured::ARTIC_STACCATISSIMO_ABOVE, &measured::ARTIC_MARCATO_ABOVE)
    } else {
        (&measured::ARTIC_STACCATISSIMO_BELOW, &measured::ARTIC_MARCATO_BELOW)
    };
    let all = [
        (Mark::Staccato, &measured::ARTIC_STACCATO_ABOVE),
        (Mark::DetachedLegato, &measured::ARTIC_STACCATO_ABOVE),
        (Mark::Tenuto, &measured::ARTIC_TENUTO_ABOVE),
        (Mark::DetachedLegato, &measured::ARTIC_TENUTO_ABOVE),
        (Mark::Staccatissimo, wedge),
        (Mark::Accent, &measured::ARTIC_ACCENT_ABOVE),
        (Mark::StrongAccent, upright),
    ];
    all.into_iter().filter(move |(mark, _)| marks.has(*mark)).map(|(_, sign)| sign)
}

/// The signs that stand over the staff, from below upwards.
fn signs_over(marks: Marks, below: bool) -> impl Iterator<Item = &'static Outline> {
    let fermata = if below { &measured::FERMATA_BELOW } else { &measured::FERMATA_ABOVE };
    let all = [
        (Mark::Stopped, Glyph::BrassMuteClosed.outline()),
        (Mark::HalfStopped, Glyph::BrassMuteHalfClosed.outline()),
        (Mark::Open, Glyph::BrassMuteOpen.outline()),
        (Mark::Turn, &measured::ORNAMENT_TURN),
        (Mark::InvertedTurn, &measured::ORNAMENT_TURN_INVERTED),
        (Mark::Mordent, &measured::ORNAMENT_MORDENT),
        (Mark::ShortTrill, &measured::ORNAMENT_SHORT_TRILL),
        (Mark::Trill, &measured::ORNAMENT_TRILL),
        (Mark::DownBow, &measured::STRINGS_DOWN_BOW),
        (Mark::UpBow, &measured::STRINGS_UP_BOW),
        (Mark::Fermata, fermata),
    ];
    all.into_iter().filter(move |(mark, _)| marks.has(*mark)).map(|(_, sign)| sign)
}

impl Outside<'_> {
    /// The signs of articulation of a bar: slurs stand outside them.
    pub fn at_heads(&mut self, drawn: &[DrawnChord<'_, '_>]) {
        for own in drawn.iter().filter(|own| !own.chord.event.marks.is_empty()) {
            self.at_head(own, own.x + own.chord.head_width() / 2.0);
        }
    }

    /// The signs over the notes of a bar: they stand outside slurs.
    pub fn over_notes(&mut self, drawn: &[DrawnChord<'_, '_>]) {
        for own in drawn.iter().filter(|own| !own.chord.event.marks.is_empty()) {
            self.over(own, own.x + own.chord.head_width() / 2.0);
        }
    }

    fn at_head(&mut self, own: &DrawnChord<'_, '_>, middle: f64) {
        let chord = own.chord;
        let above = side_of(chord, own.voice);
        let side = if above { -1.0 } else { 1.0 };
        let stem_there = chord.has_stem() && chord.up == above;
        let edge = match (above, stem_there) {
            (_, true) => chord.stem().1,
            (true, false) => y_of(chord.highest()) - 0.5,
            (false, false) => y_of(chord.lowest()) + 0.5,
        };
        // A tie lies nearer to its head.
        let tied = !stem_there && chord.heads.iter().any(|head| head.note.tied || head.note.tied_on);
        let mut y = edge + if tied { 1.0 } else { 0.5 } * side;
        for sign in articulations(chord.event.marks, above) {
            let bounds = sign.bounds();
            let high = bounds.height().0;
            // Small signs stand in the spaces of the staff, never on its lines; larger ones outside it.
            if (-0.3..=4.3).contains(&y) {
                if high > 0.7 {
                    y = if above { -0.4 } else { 4.4 };
                } else if (y - (y + 0.5).floor()).abs() < 0.26 {
                    y += 0.5 * side;
                }
            }
            let centre = (bounds.top.0 + bounds.bottom.0) / 2.0;
            let at = y + side * (high / 2.0 - 0.2).max(0.0);
            self.sign(sign, middle - (bounds.left.0 + bounds.right.0) / 2.0, at - centre);
            y = at + side * (high / 2.0 + GAP);
        }
    }

    /// Signs that stand over the staff, under it for a lower voice.
    fn over(&mut self, own: &DrawnChord<'_, '_>, middle: f64) {
        let below = own.voice.is_some_and(|number| number % 2 == 1);
        let marks = own.chord.event.marks;
        for sign in signs_over(marks, below) {
            self.outside_at(sign, middle, below);
        }
        let behind = own.x + own.chord.head_width() + 0.5;
        if marks.has(Mark::Breath) {
            let sign = &measured::BREATH_MARK_COMMA;
            let y = self.skyline.top(behind, behind + sign.bounds().width().0).min(-0.2) - 0.4;
            self.sign(sign, behind, y);
        }
        if marks.has(Mark::Caesura) {
            self.sign(&measured::CAESURA, behind, 1.0);
        }
    }

    /// A sign with its middle at a place, over or under all that stands there.
    pub fn outside_at(&mut self, sign: &'static Outline, middle: f64, below: bool) {
        let bounds = sign.bounds();
        let half = bounds.width().0 / 2.0;
        let x = middle - (bounds.left.0 + bounds.right.0) / 2.0;
        let y = if below {
            self.skyline.bottom(middle - half, middle + half) + 0.5 - bounds.top.0
        } else {
            self.skyline.top(middle - half, middle + half) - 0.5 - bounds.bottom.0
        };
        self.sign(sign, x, y);
    }
}

/// Whether the articulation of a chord stands over it: away from its stem; of two voices each to its own side.
fn side_of(chord: &Chord<'_>, voice: Option<usize>) -> bool {
    voice.map_or(!chord.up, |number| number % 2 == 0)
}

/// Whether a chord has signs of articulation on a side, away from its stem.
pub(super) fn are_on_side(chord: &Chord<'_>, above: bool) -> bool {
    articulations(chord.event.marks, above).next().is_some() && (chord.up != above || chord.tip.is_none())
}

/// How much room the waves before a chord take.
pub(super) fn arpeggio_room(chord: &Chord<'_>) -> f64 {
    if chord.event.marks.has(Mark::Arpeggio) && chord.heads.len() > 1 {
        measured::WIGGLE_ARPEGGIATO_UP.bounds().width().0 + WAVE_GAP
    } else {
        0.0
    }
}

/// Draws the waves of an arpeggio over all heads, with the right edge of the chord's signs at `left`.
pub(super) fn arpeggio(chord: &Chord<'_>, left: f64, ink: Ink, drawing: &mut Drawing) {
    if arpeggio_room(chord) == 0.0 {
        return;
    }
    let sign = &measured::WIGGLE_ARPEGGIATO_UP;
    let (top, bottom) = (y_of(chord.highest()) - 0.5, y_of(chord.lowest()) + 0.5);
    let wave = sign.advance().0;
    let count = ((bottom - top) / wave).ceil().max(1.0);
    let x = left - WAVE_GAP - sign.bounds().right.0;
    let mut y = (top + bottom + count * wave) / 2.0;
    for _ in 0..count as usize {
        drawing.push(Shape::Sign { sign, at: Point::new(x, y), scale: 1.0 }, ink, None);
        y -= wave;
    }
}
