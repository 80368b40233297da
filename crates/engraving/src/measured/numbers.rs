//! Small numbers as outlines: of texts, as many as there are notes, a browser would have more work than of all else.

use crate::drawing::{Shape, TextAlign, TextFace};
use crate::glyph::{Outline, measured};
use crate::units::{Point, StaffSpace};

/// How high a digit stands, in its size.
const HIGH: f64 = 0.68;
/// How wide a sign before a number is, in its size, with the gap behind it.
const SIGN: (f64, f64) = (0.5, 0.1);
/// How high over the foot of a number its sign stands, and how thick it is, in its size.
const DASH: (f64, f64) = (0.28, 0.07);

/// How large the digits of a fraction are, how high over its foot the upper one stands and the stroke ends, in its size.
const FRACTION: (f64, f64, f64) = (0.48, 0.46, 0.92);
/// How far the stroke of a fraction reaches under either digit, and the gap between them, in its size.
const STROKE: (f64, f64) = (0.14, 0.1);

/// The shapes of a number with its sign, of a fraction or a dash alone, whose foot has its middle there. Words, which are rare
/// here, stay texts.
pub(super) fn number(text: &str, middle: Point, size: f64) -> Vec<Shape> {
    if text.chars().any(char::is_alphabetic) {
        let (text, size) = (text.to_owned(), StaffSpace(size));
        return vec![Shape::Text {
            text,
            at: middle,
            size,
            align: TextAlign::Middle,
            face: TextFace::Upright,
        }];
    }
    let wide: f64 = text.chars().map(|letter| advance(letter) * size).sum();
    let mut x = middle.x.0 - wide / 2.0;
    let mut shapes = Vec::new();
    for letter in text.chars() {
        match (digit(letter), fraction(letter)) {
            (Some(sign), _) => {
                shapes.push(Shape::Sign { sign, at: Point::new(x, middle.y.0), scale: HIGH * size });
            }
            (None, Some(both)) => shapes.extend(over(both, Point::new(x, middle.y.0), size)),
            (None, None) => shapes.extend(signs(letter, x, middle.y.0, size)),
        }
        x += advance(letter) * size;
    }
    shapes
}

/// A dash, crossed where it adds.
fn signs(letter: char, x: f64, foot: f64, size: f64) -> Vec<Shape> {
    let (half, y) = (SIGN.0 / 2.0 * size, foot - DASH.0 * size);
    let line = |from, to| Shape::Line { from, to, thickness: StaffSpace(DASH.1 * size) };
    let across = line(Point::new(x, y), Point::new(x + 2.0 * half, y));
    let upright = line(Point::new(x + half, y - half), Point::new(x + half, y + half));
    if letter == '+' { vec![across, upright] } else { vec![across] }
}

/// One digit over another, a stroke between them, from the left end of its foot.
fn over((upper, lower): (&'static Outline, &'static Outline), foot: Point, size: f64) -> [Shape; 3] {
    let (small, raised, top) = FRACTION;
    let scale = small * size;
    let ends = foot.x.0 + upper.advance().0 * scale;
    let begins = ends + STROKE.1 * size;
    let reach = STROKE.0 * size;
    [
        Shape::Sign { sign: upper, at: Point::new(foot.x.0, foot.y.0 - raised * size), scale },
        Shape::Line {
            from: Point::new(ends - reach, foot.y.0),
            to: Point::new(begins + reach, foot.y.0 - top * size),
            thickness: StaffSpace(DASH.1 * size),
        },
        Shape::Sign { sign: lower, at: Point::new(begins, foot.y.0), scale },
    ]
}

/// How far the next letter stands, in the size of both.
fn advance(letter: char) -> f64 {
    let of_fraction = |(upper, lower): (&Outline, &Outline)| {
        (upper.advance().0 + lower.advance().0) * FRACTION.0 + STROKE.1
    };
    match digit(letter) {
        Some(sign) => sign.advance().0 * HIGH,
        None => fraction(letter).map_or(SIGN.0 + SIGN.1, of_fraction),
    }
}

/// The digits of a fraction of the bell.
fn fraction(letter: char) -> Option<(&'static Outline, &'static Outline)> {
    match letter {
        '¼' => Some((&measured::FINGERING1, &measured::FINGERING4)),
        '½' => Some((&measured::FINGERING1, &measured::FINGERING2)),
        '¾' => Some((&measured::FINGERING3, &measured::FINGERING4)),
        _ => None,
    }
}

fn digit(letter: char) -> Option<&'static Outline> {
    let digits: [&Outline; 10] = [
        &measured::FINGERING0,
        &measured::FINGERING1,
        &measured::FINGERING2,
        &measured::FINGERING3,
        &measured::FINGERING4,
        &measured::FINGERING5,
        &measured::FINGERING6,
        &measured::FINGERING7,
        &measured::FINGERING8,
        &measured::FINGERING9,
    ];
    letter.to_digit(10).and_then(|digit| digits.get(usize::try_from(digit).ok()?).copied())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Drawing;
    use crate::drawing::Ink;

    /// The names of the signs and how many lines there are, with the left and right edge of all.
    fn of(text: &str) -> (Vec<&'static str>, usize, f64, f64) {
        let mut drawing = Drawing::default();
        let shapes = number(text, Point::new(10.0, 5.0), 2.0);
        let names = shapes.iter().filter_map(|shape| match shape {
            Shape::Sign { sign, .. } => Some(sign.name()),
            _ => None,
        });
        let names: Vec<_> = names.collect();
        let lines = shapes.len() - names.len();
        shapes.into_iter().for_each(|shape| drawing.push(shape, Ink::Muted, None));
        let bounds = drawing.bounds().expect("something is drawn");
        let high = if text.chars().any(|letter| fraction(letter).is_some()) { 2.0 } else { 1.5 };
        assert!(bounds.bottom.0 < 5.1 && bounds.top.0 > 5.0 - high, "{bounds:?}");
        (names, lines, bounds.left.0, bounds.right.0)
    }

    #[test]
    fn every_digit_and_sign_is_drawn_about_the_middle() {
        assert_eq!(of("16").0, ["fingering1", "fingering6"]);
        assert_eq!(of("−14").1, 1);
        assert_eq!(of("+51").1, 2);
        assert_eq!(of("–").1, 1);
        assert_eq!(of("½").0, ["fingering1", "fingering2"]);
        assert_eq!(of("¾").0, ["fingering3", "fingering4"]);
        for text in ["7", "16", "908", "−14", "+51", "–", "2345"] {
            let (.., left, right) = of(text);
            assert!(((left + right) / 2.0 - 10.0).abs() < 0.15, "{text}: {left} to {right}");
            // As wide as its letters were reckoned at most.
            assert!(right - left < 0.64 * 2.0 * text.chars().count() as f64, "{text}: {left} to {right}");
        }
    }
}
