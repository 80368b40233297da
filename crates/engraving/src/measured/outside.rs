//! What stands outside the notes of a row: signs at notes, tuplets, loudness, words, who plays, and how notes are made.

use super::SheetRow;
use super::chord::{Chord, y_of};
use super::row::{DrawnChord, PlacedBar};
use super::skyline::Skyline;
use crate::drawing::{Drawing, Ink, Shape, TextAlign, TextFace};
use crate::glyph::{Glyph, Outline, measured};
use crate::units::{Point, StaffSpace};
use crookwise_score::printed::{PrintedBar, PrintedSign};
use crookwise_score::score::{Direction, Mark, Quarters};

/// Thickness of the lines of a hairpin (engraving default of the font).
const HAIRPIN: f64 = 0.16;
/// How wide a hairpin opens.
const OPEN: f64 = 1.1;

/// A row while things are put round it.
pub(super) struct Outside<'d> {
    pub drawing: &'d mut Drawing,
    pub skyline: &'d mut Skyline,
    pub ink: Ink,
    /// The least size of letters.
    pub letters: f64,
}

/// The size of partials, where letters may be so small.
const PARTIAL: f64 = 1.4;

/// Half of what the widest partial beneath a chord takes.
pub(super) fn half_width(chord: &Chord<'_>, letters: f64) -> f64 {
    let made = chord.heads.iter().filter(|head| !head.note.tied).filter_map(|head| head.note.made);
    let digits = made.map(|made| if made.partial.is_some_and(|partial| partial > 9) { 2.0 } else { 1.0 });
    digits.fold(0.0, f64::max) * 0.3 * PARTIAL.max(letters)
}

impl Outside<'_> {
    fn push(&mut self, shape: Shape, ink: Ink) {
        self.skyline.take_shape(&shape);
        self.drawing.push(shape, ink, None);
    }

    fn sign(&mut self, sign: &'static Outline, x: f64, y: f64) {
        let ink = self.ink;
        self.push(Shape::Sign { sign, at: Point::new(x, y), scale: 1.0 }, ink);
    }

    /// A text over all that stands there.
    fn text_above(&mut self, text: &str, x: f64, size: f64, face: TextFace, ink: Ink) {
        let size = size.max(self.letters);
        let wide = size * 0.6 * text.chars().count() as f64;
        let y = self.skyline.top(x, x + wide) - 0.5;
        let shape = Shape::Text {
            text: text.to_owned(),
            at: Point::new(x, y),
            size: StaffSpace(size),
            align: TextAlign::Start,
            face,
        };
        self.push(shape, ink);
    }

    /// Signs at notes: those of articulation at the heads, others over the staff.
    pub fn at_notes(&mut self, drawn: &[DrawnChord<'_, '_>]) {
        for own in drawn {
            let chord = own.chord;
            let marks = chord.event.marks;
            if marks.is_empty() {
                continue;
            }
            let above = match own.voice {
                Some(number) => number % 2 == 0,
                None => !chord.up,
            };
            let middle = own.x + chord.head_width() / 2.0;
            let side = if above { -1.0 } else { 1.0 };
            let stem_there = chord.has_stem() && chord.up == above;
            let edge = match (above, stem_there) {
                (_, true) => chord.stem().1,
                (true, false) => y_of(chord.highest()) - 0.5,
                (false, false) => y_of(chord.lowest()) + 0.5,
            };
            let mut y = edge + 0.5 * side;
            for (mark, sign) in [
                (Mark::Staccato, &measured::ARTIC_STACCATO_ABOVE),
                (Mark::DetachedLegato, &measured::ARTIC_STACCATO_ABOVE),
                (Mark::Tenuto, &measured::ARTIC_TENUTO_ABOVE),
                (Mark::DetachedLegato, &measured::ARTIC_TENUTO_ABOVE),
                (
                    Mark::Staccatissimo,
                    if above {
                        &measured::ARTIC_STACCATISSIMO_ABOVE
                    } else {
                        &measured::ARTIC_STACCATISSIMO_BELOW
                    },
                ),
                (Mark::Accent, &measured::ARTIC_ACCENT_ABOVE),
                (
                    Mark::StrongAccent,
                    if above { &measured::ARTIC_MARCATO_ABOVE } else { &measured::ARTIC_MARCATO_BELOW },
                ),
            ] {
                if !marks.has(mark) {
                    continue;
                }
                let bounds = sign.bounds();
                let high = bounds.height().0;
                // Small signs stand in the spaces of the staff, never on its lines; larger ones outside it.
                if (0.0..=4.0).contains(&y) {
                    let near_line = (y - (y + 0.5).floor()).abs() < 0.26;
                    if near_line {
                        y += 0.5 * side;
                    }
                    if high > 0.7 {
                        y = if above { -0.4_f64.min(-y) } else { 4.4_f64.max(y) };
                        y = if above { y.min(-0.4) } else { y };
                    }
                }
                let centre = (bounds.top.0 + bounds.bottom.0) / 2.0;
                let at = y + side * (high / 2.0 - 0.2).max(0.0);
                self.sign(sign, middle - (bounds.left.0 + bounds.right.0) / 2.0, at - centre);
                y = at + side * (high / 2.0 + 0.4);
            }
            self.over(own, middle);
        }
    }

    /// Signs that stand over the staff, under it for a lower voice.
    fn over(&mut self, own: &DrawnChord<'_, '_>, middle: f64) {
        let below = own.voice.is_some_and(|number| number % 2 == 1);
        let marks = own.chord.event.marks;
        for (mark, sign) in [
            (Mark::Stopped, Glyph::BrassMuteClosed.outline()),
            (Mark::HalfStopped, Glyph::BrassMuteHalfClosed.outline()),
            (Mark::Open, Glyph::BrassMuteOpen.outline()),
            (Mark::Turn, &measured::ORNAMENT_TURN),
            (Mark::Trill, &measured::ORNAMENT_TRILL),
            (Mark::Fermata, if below { &measured::FERMATA_BELOW } else { &measured::FERMATA_ABOVE }),
        ] {
            if !marks.has(mark) {
                continue;
            }
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
        if marks.has(Mark::Breath) {
            self.sign(&measured::BREATH_MARK_COMMA, own.x + own.chord.head_width() + 0.5, -0.6);
        }
    }

    /// The numbers of tuplets, with a bracket where no beam joins them.
    pub fn tuplets(&mut self, drawn: &[DrawnChord<'_, '_>], bar: &PrintedBar) {
        let mut from = 0;
        while let Some(first) = drawn.get(from) {
            let Some(tuplet) = first.chord.event.tuplet else {
                from += 1;
                continue;
            };
            let unit = first.chord.event.value.map_or((1, 1), crookwise_score::score::NoteValue::quarters);
            let whole =
                Quarters::new(unit.0 * i64::from(tuplet.in_time_of), unit.1).unwrap_or(Quarters::whole(1));
            let end = first.chord.event.at.plus(whole).unwrap_or(first.chord.event.at);
            let mut to = from;
            while drawn.get(to).is_some_and(|own| {
                own.voice == first.voice && own.chord.event.tuplet == Some(tuplet) && own.chord.event.at < end
            }) {
                to += 1;
            }
            let group = drawn.get(from..to).unwrap_or_default();
            if let Some(last) = group.last() {
                let up = first.voice.map_or(first.chord.up, |number| number % 2 == 0);
                let beamed = group.len() > 1 && group.iter().all(|own| own.chord.is_beamed());
                let (left, right) = (first.x, last.x + last.chord.head_width());
                let y = if up {
                    self.skyline.top(left, right) - 0.5
                } else {
                    self.skyline.bottom(left, right) + 1.6
                };
                let middle = (left + right) / 2.0;
                let text = tuplet.notes.to_string();
                let ink = self.ink;
                let shape = Shape::Text {
                    text,
                    at: Point::new(middle, y),
                    size: StaffSpace(self.letters.max(1.5)),
                    align: TextAlign::Middle,
                    face: TextFace::Italic,
                };
                self.push(shape, ink);
                if !beamed {
                    let (y, hook) = (y - 0.5, if up { 0.7 } else { -0.7 });
                    for (from, to) in [
                        ((left, y), (middle - 0.9, y)),
                        ((middle + 0.9, y), (right, y)),
                        ((left, y), (left, y + hook)),
                        ((right, y), (right, y + hook)),
                    ] {
                        if from.0 <= to.0 {
                            let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
                            self.push(Shape::Line { from, to, thickness: StaffSpace(0.16) }, ink);
                        }
                    }
                }
            }
            from = to.max(from + 1);
        }
        let _ = bar;
    }

    /// Words, loudness, who plays, another crook.
    pub fn signs(&mut self, placed: &PlacedBar, bar: &PrintedBar) {
        let ink = self.ink;
        if let Some(players) = bar.players.filter(|players| players.is_told()) {
            let first = bar.voices.iter().flatten().find(|event| !event.is_rest());
            let x = first.map_or(placed.begins, |event| placed.x_of(event.at));
            self.text_above(&players.to_string(), x, 1.6, TextFace::Upright, ink);
        }
        for (at, sign) in &bar.signs {
            let x = placed.x_of(*at);
            match sign {
                PrintedSign::Direction(Direction::Dynamic(name)) => self.dynamic(name, x),
                PrintedSign::Direction(Direction::Words(words)) => {
                    self.text_above(words, x, 1.6, TextFace::Italic, ink);
                }
                PrintedSign::Direction(Direction::Ottava(octaves)) => match octaves {
                    0 => self.text_above("loco", x, 1.5, TextFace::Italic, ink),
                    1.. => {
                        self.text_above(if *octaves > 1 { "15" } else { "8" }, x, 1.5, TextFace::Italic, ink);
                    }
                    _ => self.text_below(if *octaves < -1 { "15" } else { "8" }, x, ink),
                },
                PrintedSign::Crook(label) => self.text_above(label, x, 1.6, TextFace::Upright, Ink::Warning),
                PrintedSign::Direction(_) => {}
            }
        }
    }

    fn text_below(&mut self, text: &str, x: f64, ink: Ink) {
        let y = self.skyline.bottom(x, x + 2.0) + 1.5;
        let shape = Shape::Text {
            text: text.to_owned(),
            at: Point::new(x, y),
            size: StaffSpace(self.letters.max(1.5)),
            align: TextAlign::Start,
            face: TextFace::Italic,
        };
        self.push(shape, ink);
    }

    /// Loudness by its letters; words that are none of them stand as words.
    fn dynamic(&mut self, name: &str, x: f64) {
        let letters: Option<Vec<&'static Outline>> = name
            .chars()
            .map(|letter| match letter {
                'p' => Some(&measured::DYNAMIC_PIANO),
                'm' => Some(&measured::DYNAMIC_MEZZO),
                'f' => Some(&measured::DYNAMIC_FORTE),
                'r' => Some(&measured::DYNAMIC_RINFORZANDO),
                's' => Some(&measured::DYNAMIC_SFORZANDO),
                'z' => Some(&measured::DYNAMIC_Z),
                _ => None,
            })
            .collect();
        let Some(letters) = letters.filter(|letters| !letters.is_empty()) else {
            return self.text_below(name, x, self.ink);
        };
        let wide: f64 = letters.iter().map(|sign| sign.advance().0).sum();
        let mut left = x - 0.3;
        let y = self.skyline.bottom(left, left + wide).max(5.0) + 1.9;
        for sign in letters {
            self.sign(sign, left, y);
            left += sign.advance().0;
        }
    }

    /// Hairpins, also those that come from the system before or go on to the next.
    pub fn hairpins(&mut self, row: &SheetRow, placed: &[PlacedBar], right: f64) {
        let Some(first) = placed.first() else { return };
        let mut open: Option<(bool, f64)> = None;
        for bar in row.staff.bars.get(..first.bar).unwrap_or_default() {
            for (_, sign) in &bar.signs {
                match sign {
                    PrintedSign::Direction(Direction::Crescendo) => open = Some((true, first.begins)),
                    PrintedSign::Direction(Direction::Diminuendo) => open = Some((false, first.begins)),
                    PrintedSign::Direction(Direction::HairpinEnds) => open = None,
                    _ => {}
                }
            }
        }
        for bar in placed {
            let own = row.staff.bars.get(bar.bar..bar.bar + bar.rests.max(1)).unwrap_or_default();
            for (at, sign) in own.iter().flat_map(|bar| &bar.signs) {
                let x = bar.x_of(*at);
                match sign {
                    PrintedSign::Direction(Direction::Crescendo) => open = Some((true, x)),
                    PrintedSign::Direction(Direction::Diminuendo) => open = Some((false, x)),
                    PrintedSign::Direction(Direction::HairpinEnds) => {
                        if let Some((opens, from)) = open.take() {
                            self.hairpin(opens, from, x.max(from + 1.5));
                        }
                    }
                    _ => {}
                }
            }
        }
        if let Some((opens, from)) = open {
            self.hairpin(opens, from, right - 0.5);
        }
    }

    fn hairpin(&mut self, opens: bool, left: f64, right: f64) {
        let y = self.skyline.bottom(left + 0.5, right - 0.5).max(5.0) + 1.1;
        let (narrow, wide) = if opens { (left, right) } else { (right, left) };
        let ink = self.ink;
        for side in [-1.0, 1.0] {
            let (from, to) = (Point::new(narrow, y), Point::new(wide, y + side * OPEN / 2.0));
            let (from, to) = if from.x.0 <= to.x.0 { (from, to) } else { (to, from) };
            self.push(Shape::Line { from, to, thickness: StaffSpace(HAIRPIN) }, ink);
        }
    }

    /// The lower edge of all that stands at some chords, at least a little below the staff.
    pub fn beneath(&self, drawn: &[DrawnChord<'_, '_>]) -> f64 {
        let bottoms =
            drawn.iter().map(|own| self.skyline.bottom(own.x - 0.6, own.x + own.chord.head_width() + 0.6));
        bottoms.fold(4.6, f64::max)
    }

    /// The partials of notes in one line beneath the row, the upper note first, and how far they stand from the tuning.
    pub fn made(&mut self, drawn: &[DrawnChord<'_, '_>], line: f64) {
        for own in drawn {
            let middle = own.x + own.chord.head_width() / 2.0;
            // Notes of two voices at one time stand under each other.
            let mut y = self.skyline.bottom(middle - 0.6, middle + 0.6).max(line);
            for head in own.chord.heads.iter().rev() {
                let Some(made) = head.note.made.filter(|_| !head.note.tied) else { continue };
                let partial = made.partial.map_or_else(|| "–".to_owned(), |number| number.to_string());
                let drift = made.drift.map(|cents| (cents + 0.5).floor()).filter(|cents| cents.abs() >= 10.0);
                let least = self.letters;
                let mut text = |text: String, size: f64| {
                    y += size;
                    let at = Point::new(middle, y);
                    let (size, align, face) = (StaffSpace(size), TextAlign::Middle, TextFace::Upright);
                    self.push(Shape::Text { text, at, size, align, face }, Ink::Muted);
                };
                text(partial, PARTIAL.max(least));
                if let Some(cents) = drift {
                    let sign = if cents < 0.0 { "−" } else { "+" };
                    text(format!("{sign}{}", cents.abs() as i64), least.max(1.05));
                }
            }
        }
    }
}
