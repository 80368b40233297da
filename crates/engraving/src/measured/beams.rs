//! Beams and the stems that reach them.

use super::chord::{Chord, STEM, flags, y_of};
use super::row::PlacedBar;
use crate::drawing::{Drawing, Ink, Shape};
use crate::units::{Bounds, Point, StaffSpace};

/// Thickness of a beam (engraving default of the font).
const BEAM: f64 = 0.5;
/// From one beam to the next: its thickness and the space between (engraving defaults of the font).
const NEXT: f64 = 0.75;
/// The most that a beam rises or falls.
const SLANT: f64 = 1.0;
/// How far a beam of one note alone reaches.
const HOOK: f64 = 1.1;

/// A chord with the left edge of its usual heads.
pub(super) struct Placed<'c, 'a> {
    pub chord: &'c Chord<'a>,
    pub x: f64,
}

/// Where the beam of a group lies: at its first stem, how much it falls for each space, and to which side of the heads.
struct BeamLine {
    left: f64,
    start: f64,
    slope: f64,
    side: f64,
}

impl BeamLine {
    /// As near to the heads as the shortest stem allows, but never short of the middle line.
    fn of(group: &[Placed<'_, '_>]) -> Option<Self> {
        let (first, last) = (group.first()?, group.last()?);
        let (up, scale) = (first.chord.up, first.chord.scale);
        let stem_x = |placed: &Placed<'_, '_>| placed.x + placed.chord.stem_x();
        let near =
            |placed: &Placed<'_, '_>| y_of(if up { placed.chord.highest() } else { placed.chord.lowest() });
        let most = group.iter().map(|placed| flags(placed.chord.event.value)).max().unwrap_or(1);
        let least = (3.0 + 0.55 * f64::from(most.saturating_sub(2))) * scale.max(0.75);
        let (left, right) = (stem_x(first), stem_x(last));
        let slope = ((near(last) - near(first)) * 0.5).clamp(-SLANT, SLANT) / (right - left).max(0.1);
        let side = if up { 1.0 } else { -1.0 };
        let offsets = group.iter().map(|placed| {
            let tip = near(placed) - side * least;
            let tip = match up {
                _ if scale < 1.0 => tip,
                true => tip.min(2.0),
                false => tip.max(2.0),
            };
            (tip - slope * (stem_x(placed) - left)) * side
        });
        Some(Self { left, start: offsets.fold(f64::INFINITY, f64::min) * side, slope, side })
    }

    fn y_at(&self, x: f64) -> f64 {
        self.start + self.slope * (x - self.left)
    }
}

/// The chords of a voice that one beam joins each, with their numbers.
fn groups<'c, 'a>(
    placed: &PlacedBar,
    chords: &'c [Option<Chord<'a>>],
) -> Vec<(Vec<usize>, Vec<Placed<'c, 'a>>)> {
    let mut all = Vec::new();
    let mut open = (Vec::new(), Vec::new());
    for (number, chord) in chords.iter().enumerate() {
        let Some(chord) = chord.as_ref().filter(|chord| chord.is_beamed()) else { continue };
        open.0.push(number);
        open.1.push(Placed { chord, x: placed.x_of(chord.event.at) + chord.shift });
        if chord.event.beams.end & 1 > 0 {
            all.push(core::mem::take(&mut open));
        }
    }
    all.push(open);
    all
}

/// Has the stems of a voice end at their beams, wherever these lie.
pub(super) fn settle(placed: &PlacedBar, chords: &mut [Option<Chord<'_>>]) {
    let mut tips: Vec<(usize, f64)> = Vec::new();
    for (numbers, group) in groups(placed, chords) {
        let Some(line) = BeamLine::of(&group) else { continue };
        let of_group = group.iter().map(|placed| line.y_at(placed.x + placed.chord.stem_x()));
        tips.extend(numbers.into_iter().zip(of_group));
    }
    for (number, tip) in tips {
        if let Some(Some(chord)) = chords.get_mut(number) {
            chord.tip = Some(tip);
        }
    }
}

/// Where the beams of a voice lie, as upright rectangles from stem to stem; whether their stems go up.
pub(super) fn zones(placed: &PlacedBar, chords: &[Option<Chord<'_>>]) -> Vec<(Bounds, bool)> {
    let mut zones = Vec::new();
    for (_, group) in groups(placed, chords) {
        let Some(line) = BeamLine::of(&group) else { continue };
        let most = group.iter().map(|placed| flags(placed.chord.event.value)).max().unwrap_or(1);
        let thick = line.side * (BEAM + NEXT * f64::from(most.saturating_sub(1)));
        for pair in group.windows(2) {
            let [one, two] = pair else { continue };
            let (left, right) = (one.x + one.chord.stem_x(), two.x + two.chord.stem_x());
            let ends = [line.y_at(left), line.y_at(right), line.y_at(left) + thick, line.y_at(right) + thick];
            let (top, bottom) = (
                ends.iter().fold(f64::INFINITY, |a, b| a.min(*b)),
                ends.iter().fold(f64::NEG_INFINITY, |a, b| a.max(*b)),
            );
            zones.push((Bounds::new(left, top, right, bottom), line.side > 0.0));
        }
    }
    zones
}

/// Draws the stems and beams of chords that are joined by one beam.
pub(super) fn draw(group: &[Placed<'_, '_>], drawing: &mut Drawing, ink: Ink) {
    let (Some(line), Some(first)) = (BeamLine::of(group), group.first()) else { return };
    let (scale, side) = (first.chord.scale, line.side);
    let stem_x = |placed: &Placed<'_, '_>| placed.x + placed.chord.stem_x();
    let y_at = |x: f64| line.y_at(x);
    for placed in group {
        let x = stem_x(placed);
        let root = placed.chord.stem().0;
        let (from, to) = (Point::new(x, root), Point::new(x, y_at(x)));
        drawing.push(Shape::Line { from, to, thickness: StaffSpace(STEM) }, ink, None);
    }
    let mut push = |from: f64, to: f64, level: u8| {
        let down = side * (NEXT * scale.max(0.75) * f64::from(level) + BEAM / 2.0 * scale);
        let (from, to) = (Point::new(from, y_at(from) + down), Point::new(to, y_at(to) + down));
        drawing.push(Shape::Beam { from, to, thickness: StaffSpace(BEAM * scale) }, ink, None);
    };
    for level in 0..8_u8 {
        let bit = 1 << level;
        let mut open: Option<f64> = None;
        let mut dotted = false;
        for placed in group {
            let (x, beams) = (stem_x(placed), placed.chord.event.beams);
            // A lone beam points to the dotted note that it completes, whatever a file says.
            let hooks = (beams.hook_left | beams.hook_right) & bit > 0;
            let to_left = beams.hook_left & bit > 0 || dotted;
            dotted = placed.chord.event.dots > 0;
            if beams.begin & bit > 0 {
                open = Some(x);
            }
            if beams.end & bit > 0
                && let Some(from) = open.take()
            {
                push(from - STEM / 2.0, x + STEM / 2.0, level);
            }
            if hooks && to_left {
                push(x - HOOK * scale, x + STEM / 2.0, level);
            } else if hooks {
                push(x - STEM / 2.0, x + HOOK * scale, level);
            }
        }
    }
}
