//! What stands over the uppermost row for all: numbers of bars, letters, endings, signs of jumps, tempo.

use super::row::PlacedBar;
use super::skyline::Skyline;
use super::{AboveAll, MusicSheet};
use crate::drawing::{Drawing, Ink, Shape, TextAlign, TextFace};
use crate::glyph::measured;
use crate::units::{Point, StaffSpace};
use crookwise_score::score::Jump;

/// Thickness of frames and of the lines of endings (engraving default of the font).
const LINE: f64 = 0.16;
/// How wide a letter is, in its size.
const LETTER: f64 = 0.6;
/// Sizes of numbers, letters, tempo and endings, where letters may be so small.
const NUMBER: f64 = 1.3;
const REHEARSAL: f64 = 2.0;
const TEMPO: f64 = 1.7;
const ENDING: f64 = 1.4;

impl MusicSheet {
    /// Draws it over a system that ends at `right`.
    pub(super) fn above(&self, drawing: &mut Drawing, placed: &[PlacedBar], right: f64) {
        let top = drawing.bounds().map_or(0.0, |ink| ink.top.0).min(-1.2);
        let mut over = Over { drawing, skyline: Skyline::default(), top, right, letters: self.letters };
        for bar in placed {
            let Some(own) = self.bars.get(bar.bar) else { continue };
            let mut x = over.number(&own.number, bar.left + 0.2);
            for (_, above) in &own.above {
                if let AboveAll::Letter(letter) = above {
                    x = over.letter(letter, x);
                }
            }
        }
        self.endings(&mut over, placed);
        for bar in placed {
            let Some(own) = self.bars.get(bar.bar) else { continue };
            for jump in &own.signs.jumps {
                over.jump(*jump, bar.left);
            }
            for (at, above) in &own.above {
                if let AboveAll::Tempo(words) = above {
                    over.tempo(words, bar.x_of(*at) - 0.3);
                }
            }
        }
    }

    /// Endings go on until they end, over the ends of systems too.
    fn endings(&self, over: &mut Over<'_>, placed: &[PlacedBar]) {
        let Some(first) = placed.first() else { return };
        let mut open: Option<(String, f64, bool)> = None;
        for own in self.bars.get(..first.bar).unwrap_or_default() {
            if own.signs.ending.is_some() {
                open = Some((String::new(), first.begins, false));
            }
            if own.signs.ending_ends {
                open = None;
            }
        }
        for bar in placed {
            let Some(own) = self.bars.get(bar.bar) else { continue };
            if let Some(ending) = &own.signs.ending {
                open = Some((format!("{}.", ending.trim_end_matches('.')), bar.begins, true));
            }
            if own.signs.ending_ends
                && let Some((text, from, begins)) = open.take()
            {
                over.ending(&text, (from, bar.right - 0.3), (begins, own.signs.repeat_to.is_some()));
            }
        }
        if let (Some((text, from, begins)), Some(last)) = (open, placed.last()) {
            over.ending(&text, (from, last.right), (begins, false));
        }
    }
}

/// A system while things are put over it.
struct Over<'d> {
    drawing: &'d mut Drawing,
    skyline: Skyline,
    /// The upper edge of all else.
    top: f64,
    right: f64,
    letters: f64,
}

impl Over<'_> {
    fn push(&mut self, shape: Shape, ink: Ink) {
        self.skyline.take_shape(&shape);
        self.drawing.push(shape, ink, None);
    }

    fn text(&mut self, text: &str, (x, y): (f64, f64), size: f64, ink: Ink) {
        let (text, at) = (text.to_owned(), Point::new(x, y));
        let (align, face) = (TextAlign::Start, TextFace::Upright);
        self.push(Shape::Text { text, at, size: StaffSpace(size), align, face }, ink);
    }

    fn line(&mut self, from: (f64, f64), to: (f64, f64)) {
        let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
        self.push(Shape::Line { from, to, thickness: StaffSpace(LINE) }, Ink::Written);
    }

    /// The upper edge of all that stands between two places.
    fn free(&self, left: f64, right: f64) -> f64 {
        self.skyline.top(left, right).min(self.top)
    }

    /// A number of a bar; gives back where what follows it may stand.
    fn number(&mut self, number: &str, x: f64) -> f64 {
        let size = NUMBER.max(self.letters);
        self.text(number, (x, self.top - 0.4), size, Ink::Muted);
        x + 0.8 + LETTER * size * number.chars().count() as f64
    }

    /// A rehearsal letter in its frame.
    fn letter(&mut self, letter: &str, x: f64) -> f64 {
        let wide = 1.25 * letter.chars().count() as f64;
        let y = self.top - 0.8;
        self.text(letter, (x, y), REHEARSAL.max(self.letters), Ink::Written);
        let (left, right, up, down) = (x - 0.4, x + wide + 0.3, y - 1.9, y + 0.4);
        self.line((left, up), (right, up));
        self.line((left, down), (right, down));
        self.line((left, up), (left, down));
        self.line((right, up), (right, down));
        x + wide + 1.2
    }

    fn ending(&mut self, text: &str, (left, right): (f64, f64), (begins, ends): (bool, bool)) {
        let size = ENDING.max(self.letters);
        let base = self.free(left, right) - 0.4;
        let y = base - 0.8 * size - 0.4;
        if !text.is_empty() {
            self.text(text, (left + 0.5, base), size, Ink::Written);
        }
        self.line((left, y), (right, y));
        if begins {
            self.line((left, y), (left, base + 0.1));
        }
        if ends {
            self.line((right, y), (right, base + 0.1));
        }
    }

    /// The segno or the coda; other jumps are words of the score.
    fn jump(&mut self, jump: Jump, left: f64) {
        let sign = match jump {
            Jump::Segno => &measured::SEGNO,
            Jump::Coda => &measured::CODA,
            _ => return,
        };
        let bounds = sign.bounds();
        let y = self.free(left, left + bounds.width().0) - 0.4 - bounds.bottom.0;
        self.push(Shape::Sign { sign, at: Point::new(left - bounds.left.0, y), scale: 1.0 }, Ink::Written);
    }

    fn tempo(&mut self, words: &str, x: f64) {
        let size = TEMPO.max(self.letters);
        let wide = LETTER * size * words.chars().count() as f64;
        let x = x.min(self.right - wide).max(0.0);
        let y = self.free(x, x + wide) - 0.5;
        self.text(words, (x, y), size, Ink::Written);
    }
}
