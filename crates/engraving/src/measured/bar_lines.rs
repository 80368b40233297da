//! Bar lines, repeats and time signatures.

use crate::drawing::{Drawing, Ink, Shape};
use crate::glyph::{Outline, measured};
use crate::units::{Point, StaffSpace};
use crookwise_score::score::{BarLine, TimeSignature};

/// Thickness of a thin and of a thick bar line, and between two lines (engraving defaults of the font).
const THIN: f64 = 0.16;
const THICK: f64 = 0.5;
const BETWEEN: f64 = 0.4;

/// The signs of a number.
fn digits(number: u16) -> Vec<&'static Outline> {
    let digit = |letter: u8| match letter {
        b'0' => &measured::TIME_SIG0,
        b'1' => &measured::TIME_SIG1,
        b'2' => &measured::TIME_SIG2,
        b'3' => &measured::TIME_SIG3,
        b'4' => &measured::TIME_SIG4,
        b'5' => &measured::TIME_SIG5,
        b'6' => &measured::TIME_SIG6,
        b'7' => &measured::TIME_SIG7,
        b'8' => &measured::TIME_SIG8,
        _ => &measured::TIME_SIG9,
    };
    number.to_string().bytes().map(digit).collect()
}

fn width(signs: &[&Outline]) -> f64 {
    signs.iter().map(|sign| sign.advance().0).sum()
}

/// How wide a time signature is. Common time and cut time stand as print of the time has them.
pub(super) fn time_width(time: TimeSignature) -> f64 {
    match (time.beats, time.value) {
        (4, 4) => measured::TIME_SIG_COMMON.advance().0,
        (2, 2) => measured::TIME_SIG_CUT_COMMON.advance().0,
        (beats, value) => width(&digits(beats)).max(width(&digits(value))),
    }
}

/// Draws a time signature with its left edge at a place.
pub(super) fn time(drawing: &mut Drawing, time: TimeSignature, left: f64) {
    let mut sign = |sign: &'static Outline, x: f64, y: f64| {
        drawing.push(Shape::Sign { sign, at: Point::new(x, y), scale: 1.0 }, Ink::Sign, None);
    };
    match (time.beats, time.value) {
        (4, 4) => sign(&measured::TIME_SIG_COMMON, left, 2.0),
        (2, 2) => sign(&measured::TIME_SIG_CUT_COMMON, left, 2.0),
        (beats, value) => {
            let wide = time_width(time);
            for (number, y) in [(beats, 1.0), (value, 3.0)] {
                let signs = digits(number);
                let mut x = left + (wide - width(&signs)) / 2.0;
                for one in signs {
                    sign(one, x, y);
                    x += one.advance().0;
                }
            }
        }
    }
}

/// What stands at the end of a bar.
#[derive(Clone, Copy, Debug)]
pub(super) struct LineAt {
    pub line: BarLine,
    pub repeat_to: bool,
    pub repeat_from: bool,
}

/// Draws a bar line that ends at `x`, from one height to another; the dots of a repeat at each of these tops of staves.
pub(super) fn bar_line(drawing: &mut Drawing, at: LineAt, x: f64, (top, bottom): (f64, f64), staves: &[f64]) {
    let mut line = |middle: f64, thickness: f64| {
        let (from, to) = (Point::new(middle, top), Point::new(middle, bottom));
        drawing.push(Shape::Line { from, to, thickness: StaffSpace(thickness) }, Ink::Staff, None);
    };
    let mut dots: Vec<f64> = Vec::new();
    if at.repeat_to || at.line == BarLine::Final {
        line(x - THICK / 2.0, THICK);
        line(x - THICK - BETWEEN - THIN / 2.0, THIN);
        if at.repeat_to {
            dots.push(x - THICK - BETWEEN - THIN - 0.16 - 0.4);
        }
        if at.repeat_from {
            line(x + BETWEEN + THIN / 2.0, THIN);
            dots.push(x + BETWEEN + THIN + 0.16);
        }
    } else if at.repeat_from {
        line(x - THIN / 2.0, THICK);
        line(x + THICK / 2.0 + BETWEEN, THIN);
        dots.push(x + THICK / 2.0 + BETWEEN + THIN + 0.16);
    } else {
        match at.line {
            BarLine::None => {}
            BarLine::Double => {
                line(x - THIN / 2.0, THIN);
                line(x - THIN * 1.5 - BETWEEN, THIN);
            }
            BarLine::Dashed => {
                for step in 0..8 {
                    let y = top + f64::from(step) * (bottom - top) / 8.0;
                    let (from, to) = (
                        Point::new(x - THIN / 2.0, y),
                        Point::new(x - THIN / 2.0, y + (bottom - top) / 16.0),
                    );
                    drawing.push(Shape::Line { from, to, thickness: StaffSpace(THIN) }, Ink::Staff, None);
                }
            }
            BarLine::Thin | BarLine::Final => line(x - THIN / 2.0, THIN),
        }
    }
    for left in dots {
        for staff in staves {
            for y in [1.5, 2.5] {
                let at = Point::new(left, staff + y);
                drawing.push(
                    Shape::Sign { sign: &measured::AUGMENTATION_DOT, at, scale: 1.0 },
                    Ink::Staff,
                    None,
                );
            }
        }
    }
}

/// Draws a rest of several bars between two places, with their number over it.
pub(super) fn long_rest(drawing: &mut Drawing, bars: usize, left: f64, right: f64) {
    let (left, right) = (left + 0.6, (right - 1.9).max(left + 2.0));
    let mut line = |x: f64, y: f64, to: (f64, f64), thickness: f64| {
        let (from, to) = (Point::new(x, y), Point::new(to.0, to.1));
        drawing.push(Shape::Line { from, to, thickness: StaffSpace(thickness) }, Ink::Written, None);
    };
    line(left, 2.0, (right, 2.0), 0.8);
    line(left, 1.0, (left, 3.0), THIN);
    line(right, 1.0, (right, 3.0), THIN);
    let signs = digits(u16::try_from(bars).unwrap_or(u16::MAX));
    let mut x = (left + right) / 2.0 - width(&signs) / 2.0;
    for sign in signs {
        drawing.push(Shape::Sign { sign, at: Point::new(x, -1.6), scale: 1.0 }, Ink::Written, None);
        x += sign.advance().0;
    }
}
