//! What stands outside the notes of a row: words, who plays, and how notes are made. Signs at notes, tuplets, loudness and
//! octaves have files of their own.

use super::chord::Chord;
use super::loudness;
use super::numbers::number;
use super::row::{DrawnChord, PlacedBar};
use super::skyline::Skyline;
use crate::drawing::{Drawing, Ink, Shape, TextAlign, TextFace};
use crate::glyph::Outline;
use crate::units::{Point, StaffSpace};
use crookwise_score::printed::{Made, PrintedBar, PrintedSign};
use crookwise_score::score::Direction;

/// How wide a letter is, in its size.
const LETTER: f64 = 0.6;

/// A row while things are put round it.
pub(super) struct Outside<'d> {
    pub drawing: &'d mut Drawing,
    pub skyline: &'d mut Skyline,
    pub ink: Ink,
    /// The least size of letters.
    pub letters: f64,
    /// Where the system ends: no text reaches beyond.
    pub right: f64,
}

/// The size of partials, where letters may be so small.
const PARTIAL: f64 = 1.4;
/// The size of cents, likewise.
const CENTS: f64 = 1.05;

/// So many cents or more are told beneath a partial.
const TOLD: f64 = 10.0;

/// The cents that are told of a note, in whole ones.
fn told(made: Made) -> Option<f64> {
    made.drift.map(|cents| (cents + 0.5).floor()).filter(|cents| cents.abs() >= TOLD)
}

/// Half of what the widest of partials and cents beneath a chord takes.
pub(super) fn half_width(chord: &Chord<'_>, letters: f64) -> f64 {
    let made = chord.heads.iter().filter(|head| !head.note.tied).filter_map(|head| head.note.made);
    let half = made.map(|made| {
        // A fraction and a word are wider than a digit.
        let digits = if made.partial.is_none_or(|partial| partial > 9) { 2.0 } else { 1.0 };
        // A sign is wider than a digit.
        let cents = if told(made).is_some() { 3.4 } else { 0.0 };
        (digits * PARTIAL.max(letters)).max(cents * CENTS.max(letters)) * 0.3
    });
    half.fold(0.0, f64::max)
}

impl Outside<'_> {
    pub fn push(&mut self, shape: Shape, ink: Ink) {
        self.skyline.take_shape(&shape);
        self.drawing.push(shape, ink, None);
    }

    pub fn sign(&mut self, sign: &'static Outline, x: f64, y: f64) {
        let ink = self.ink;
        self.push(Shape::Sign { sign, at: Point::new(x, y), scale: 1.0 }, ink);
    }

    /// Where a text begins so that it ends within the system.
    fn within(&self, x: f64, wide: f64) -> f64 {
        x.min((self.right - wide).max(0.0))
    }

    /// A text over all that stands there.
    fn text_above(&mut self, text: &str, x: f64, size: f64, face: TextFace, ink: Ink) {
        let size = size.max(self.letters);
        let wide = size * LETTER * text.chars().count() as f64;
        let x = self.within(x, wide);
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

    /// Words, who plays, another crook.
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
                PrintedSign::Direction(Direction::Dynamic(name)) if loudness::is_words(name) => {
                    self.text_below(name, x, ink);
                }
                PrintedSign::Direction(Direction::Words(words)) => {
                    self.text_above(words, x, 1.6, TextFace::Italic, ink);
                }
                PrintedSign::Crook(label) => self.text_above(label, x, 1.6, TextFace::Upright, Ink::Warning),
                PrintedSign::Direction(_) => {}
            }
        }
    }

    fn text_below(&mut self, text: &str, x: f64, ink: Ink) {
        let size = self.letters.max(1.5);
        let wide = size * LETTER * text.chars().count() as f64;
        let x = self.within(x, wide);
        let y = self.skyline.bottom(x, x + wide) + 0.4 + 0.8 * size;
        let shape = Shape::Text {
            text: text.to_owned(),
            at: Point::new(x, y),
            size: StaffSpace(size),
            align: TextAlign::Start,
            face: TextFace::Italic,
        };
        self.push(shape, ink);
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
                let sign = || made.production.sign().to_owned();
                let partial = made.partial.map_or_else(sign, |number| number.to_string());
                let least = self.letters;
                let mut beneath = |text: &str, size: f64| {
                    y += 1.15 * size;
                    let shapes = number(text, Point::new(middle, y), size);
                    shapes.into_iter().for_each(|shape| self.push(shape, Ink::Muted));
                };
                beneath(&partial, PARTIAL.max(least));
                if let Some(cents) = told(made) {
                    let sign = if cents < 0.0 { "−" } else { "+" };
                    beneath(&format!("{sign}{}", cents.abs() as i64), CENTS.max(least));
                }
            }
        }
    }
}
