//! Notes on one stem, before they have a place on the line: heads, stem, dots and accidentals round the left edge of the
//! usual heads.

use super::marks;
use crate::accidental::Accidental;
use crate::glyph::{Glyph, Outline, measured};
use crate::stack::{Obstacles, stack};
use crate::units::{Bounds, StaffSpace};
use crookwise_score::printed::{PrintedEvent, PrintedNote};
use crookwise_score::score::{NoteValue, Stem};
use crookwise_theory::Clef;

/// Thickness of a stem (engraving default of the font).
pub(super) const STEM: f64 = 0.12;
/// The size of grace notes and cues.
pub(super) const SMALL: f64 = 0.65;
/// From a head to its first dot.
const DOT_GAP: f64 = 0.35;
/// How far a ledger line reaches beyond a head (engraving default of the font).
pub(super) const LEDGER_REACH: f64 = 0.4;

/// A head.
#[derive(Clone, Debug)]
pub(super) struct HeadAt<'a> {
    pub note: &'a PrintedNote,
    /// 0 is the bottom line.
    pub place: i32,
    /// Its left edge, from that of the usual heads.
    pub x: f64,
    /// The accidental before it, with its left edge.
    pub accidental: Option<(Accidental, f64)>,
}

/// Notes on one stem.
#[derive(Clone, Debug)]
pub(super) struct Chord<'a> {
    pub event: &'a PrintedEvent,
    pub up: bool,
    pub heads: Vec<HeadAt<'a>>,
    pub sign: &'static Outline,
    pub scale: f64,
    /// How far the whole stands to the right of its column, beside another voice.
    pub shift: f64,
    /// Grace notes before it, each with its left edge.
    pub graces: Vec<(Chord<'a>, f64)>,
    /// The right edge of all heads of its column, from its own left edge, where another voice has wider ones.
    pub beside: f64,
    /// Whether it is the lower of two voices: its dots go down from the lines.
    pub lower: bool,
    /// Places of dots that another voice has there already.
    pub dotted: Vec<i32>,
    /// Where its stem ends, where a beam has settled it.
    pub tip: Option<f64>,
}

/// Where a place of the staff stands.
pub(super) fn y_of(place: i32) -> f64 {
    f64::from(8 - place) / 2.0
}

/// The head of a value.
fn head(value: Option<NoteValue>, unpitched: bool) -> &'static Outline {
    match value {
        _ if unpitched => Glyph::NoteheadXBlack.outline(),
        Some(value) if value > NoteValue::Whole => &measured::NOTEHEAD_DOUBLE_WHOLE,
        Some(NoteValue::Whole) => Glyph::NoteheadWhole.outline(),
        Some(NoteValue::Half) => Glyph::NoteheadHalf.outline(),
        _ => Glyph::NoteheadBlack.outline(),
    }
}

/// Which way the stem of some places goes by itself: away from the farther end, down where both are equally far.
pub(super) fn goes_up(places: impl Iterator<Item = i32> + Clone) -> bool {
    let (low, high) = (places.clone().min().unwrap_or(4), places.max().unwrap_or(4));
    low + high < 8
}

impl<'a> Chord<'a> {
    /// Notes under a clef; `up` where the direction is settled.
    pub fn of(event: &'a PrintedEvent, clef: Clef, up: Option<bool>, scale: f64) -> Self {
        let places: Vec<i32> =
            event.notes.iter().map(|note| clef.position(note.pitch).0.clamp(-40, 48)).collect();
        let by_score = event.stem.and_then(|stem| match stem {
            Stem::Up => Some(true),
            Stem::Down => Some(false),
            _ => None,
        });
        let up = up.or(by_score).unwrap_or_else(|| goes_up(places.iter().copied()));
        let unpitched = event.notes.first().is_some_and(|note| note.unpitched);
        let sign = head(event.value, unpitched);
        let small = if event.cue { SMALL } else { 1.0 } * scale;
        let width = sign.bounds().width().0 * small;
        let mut heads: Vec<HeadAt<'a>> = event
            .notes
            .iter()
            .zip(&places)
            .map(|(note, place)| HeadAt { note, place: *place, x: 0.0, accidental: None })
            .collect();
        // Of two neighbours the one farther along the stem goes to its other side.
        let mut displaced = false;
        let order: Vec<usize> =
            if up { (0..heads.len()).collect() } else { (0..heads.len()).rev().collect() };
        for pair in order.windows(2) {
            let &[before, at] = pair else { continue };
            let near =
                (places.get(at).copied().unwrap_or(0) - places.get(before).copied().unwrap_or(0)).abs() <= 1;
            displaced = near && !displaced;
            if let Some(head) = heads.get_mut(at).filter(|_| displaced) {
                head.x = if up { width - STEM } else { STEM - width };
            }
        }
        let mut chord = Self {
            event,
            up,
            heads,
            sign,
            scale: small,
            shift: 0.0,
            graces: Vec::new(),
            beside: 0.0,
            lower: false,
            dotted: Vec::new(),
            tip: None,
        };
        chord.set_accidentals();
        let mut left = chord.left() - 0.3;
        for grace in event.graces.iter().rev() {
            let small = Self::of(grace, clef, Some(true), scale * SMALL);
            left -= small.right();
            let at = left;
            left += small.left() - 0.15;
            chord.graces.insert(0, (small, at));
        }
        chord
    }

    fn set_accidentals(&mut self) {
        let bounds = self.sign.bounds();
        let scale = self.scale;
        let mut obstacles = Obstacles::default();
        for head in &self.heads {
            let y = y_of(head.place);
            obstacles.heads.push(Bounds::new(
                head.x / scale,
                y / scale + bounds.top.0,
                head.x / scale + bounds.width().0,
                y / scale + bounds.bottom.0,
            ));
        }
        let signs: Vec<(StaffSpace, Accidental)> = self
            .heads
            .iter()
            .filter_map(|head| {
                let sign = Accidental(i32::from(head.note.accidental?));
                Some((StaffSpace(y_of(head.place) / scale), sign))
            })
            .collect();
        let lefts = stack(&signs, &obstacles);
        let mut lefts = lefts.into_iter().zip(signs);
        for head in self.heads.iter_mut().filter(|head| head.note.accidental.is_some()) {
            head.accidental = lefts.next().map(|(left, (_, sign))| (sign, left.0 * scale));
        }
    }

    /// The rectangle of a head, from the column.
    pub fn head_bounds(&self, head: &HeadAt<'_>) -> Bounds {
        let (own, x, y) = (self.sign.bounds(), self.shift + head.x, y_of(head.place));
        Bounds::new(x, y + own.top.0 * self.scale, x + self.head_width(), y + own.bottom.0 * self.scale)
    }

    /// The right edge of its heads.
    pub fn heads_right(&self) -> f64 {
        self.heads.iter().map(|head| head.x).fold(0.0, f64::max) + self.head_width()
    }

    /// How far it must stand to the right of its column so that no head lies over one of another chord. Two that are alike
    /// share one place.
    pub fn clear_of(&self, other: &Self) -> f64 {
        let alike = std::ptr::eq(self.sign, other.sign) && self.event.dots == other.event.dots;
        let mut shift: f64 = 0.0;
        for head in &self.heads {
            for there in &other.heads {
                let apart = (head.place - there.place).abs();
                let shared =
                    apart == 0 && alike && head.x.abs() < 0.01 && (other.shift + there.x).abs() < 0.01;
                if apart > 1 || shared {
                    continue;
                }
                // Neighbours touch as on one stem; what crosses stands a little apart.
                let gap = if apart == 1 && head.place < there.place { -STEM } else { 0.25 };
                shift = shift.max(other.shift + there.x + other.head_width() + gap - head.x);
            }
        }
        shift
    }

    /// How wide a head is.
    pub fn head_width(&self) -> f64 {
        self.sign.bounds().width().0 * self.scale
    }

    /// Whether it has a stem.
    pub fn has_stem(&self) -> bool {
        self.event.value.is_some_and(|value| value < NoteValue::Whole) && self.event.stem != Some(Stem::None)
    }

    /// The middle of its stem from the left edge of the usual heads.
    pub fn stem_x(&self) -> f64 {
        if self.up { self.head_width() - STEM / 2.0 } else { STEM / 2.0 }
    }

    pub fn lowest(&self) -> i32 {
        self.heads.iter().map(|head| head.place).min().unwrap_or(4)
    }

    pub fn highest(&self) -> i32 {
        self.heads.iter().map(|head| head.place).max().unwrap_or(4)
    }

    /// Where its stem begins, and where it ends: at its beam; by itself it is an octave long, and reaches the middle line.
    pub fn stem(&self) -> (f64, f64) {
        let (root, tip) = self.own_stem();
        (root, self.tip.unwrap_or(tip))
    }

    fn own_stem(&self) -> (f64, f64) {
        let flags = f64::from(flags(self.event.value)).max(1.0);
        let length = (3.5 + 0.6 * (flags - 2.0).max(0.0)) * self.scale.max(0.75);
        let strokes = self.event.tremolo.map_or(0.0, |tremolo| f64::from(tremolo.strokes.min(5)));
        let length = length.max(if strokes > 1.0 { 2.4 + 0.8 * strokes } else { 0.0 });
        if self.up {
            let (root, near) = (y_of(self.lowest()) - 0.17 * self.scale, y_of(self.highest()));
            let tip = near - length;
            (root, if self.scale < 1.0 { tip } else { tip.min(2.0) })
        } else {
            let (root, near) = (y_of(self.highest()) + 0.17 * self.scale, y_of(self.lowest()));
            let tip = near + length;
            (root, if self.scale < 1.0 { tip } else { tip.max(2.0) })
        }
    }

    /// Whether it has a flag of its own.
    pub fn flag(&self) -> Option<&'static Outline> {
        if self.is_beamed() || !self.has_stem() {
            return None;
        }
        Some(match (flags(self.event.value), self.up) {
            (0, _) => return None,
            (1, true) => &measured::FLAG8TH_UP,
            (1, false) => &measured::FLAG8TH_DOWN,
            (2, true) => &measured::FLAG16TH_UP,
            (2, false) => &measured::FLAG16TH_DOWN,
            (_, true) => &measured::FLAG32ND_UP,
            (_, false) => &measured::FLAG32ND_DOWN,
        })
    }

    /// Whether it is joined to a neighbour by a beam.
    pub fn is_beamed(&self) -> bool {
        let beams = self.event.beams;
        (beams.begin | beams.through | beams.end) & 1 > 0
    }

    /// Where its dots stand: the left edge of the first, and the place of each line of them.
    pub fn dots(&self) -> (f64, Vec<i32>) {
        let own = self.heads.iter().map(|head| head.x).fold(0.0, f64::max) + self.head_width();
        let right = own.max(self.beside);
        let flag = if self.flag().is_some() && self.up { 0.6 } else { 0.0 };
        let mut places: Vec<i32> = Vec::new();
        for head in &self.heads {
            // A dot of a line stands in the space over it; of the lower of two voices, in the one under it.
            let on_line = i32::from(head.place % 2 == 0);
            let mut place = if self.lower { head.place - on_line } else { head.place + on_line };
            while places.contains(&place) {
                place -= 2;
            }
            places.push(place);
        }
        places.retain(|place| !self.dotted.contains(place));
        (right + DOT_GAP + flag, places)
    }

    /// Where its dots end; 0 where it has none.
    pub fn dots_right(&self) -> f64 {
        match self.event.dots {
            0 => 0.0,
            dots => self.dots().0 + 0.5 * f64::from(dots),
        }
    }

    /// The left edge of its heads and accidentals.
    pub fn notes_left(&self) -> f64 {
        let heads =
            self.heads.iter().map(|head| head.accidental.map_or(head.x, |(_, left)| left.min(head.x)));
        heads.fold(0.0, f64::min)
    }

    /// How far it reaches to the left of its column, grace notes, accidentals and an arpeggio counted; at most 0.
    pub fn left(&self) -> f64 {
        let ledger =
            if self.lowest() <= -2 || self.highest() >= 10 { -LEDGER_REACH * self.scale } else { 0.0 };
        let signs = self.notes_left() - marks::arpeggio_room(self);
        let graces = self.graces.iter().map(|(grace, at)| at + grace.left());
        self.shift + graces.chain([signs, ledger]).fold(0.0, f64::min)
    }

    /// How far it reaches to the right.
    pub fn right(&self) -> f64 {
        let heads = self.heads.iter().map(|head| head.x).fold(0.0, f64::max) + self.head_width();
        let flag = self.flag().map_or(0.0, |flag| {
            if self.up { self.stem_x() + flag.bounds().right.0 * self.scale } else { 0.0 }
        });
        let dots = self.dots_right();
        let ledger =
            if self.lowest() <= -2 || self.highest() >= 10 { LEDGER_REACH * self.scale } else { 0.0 };
        self.shift + (heads + ledger).max(flag).max(dots)
    }
}

/// How many flags a value has.
pub(super) fn flags(value: Option<NoteValue>) -> u8 {
    match value {
        Some(NoteValue::Eighth) => 1,
        Some(NoteValue::N16) => 2,
        Some(NoteValue::N32) => 3,
        Some(value) if value < NoteValue::N32 => 4,
        _ => 0,
    }
}
