//! Many shapes in few paths: music that is scrolled through costs a browser by its elements, not by its curves.
//!
//! Lengths are whole font units, 250 to a staff space, in which the outlines stand already. What lies over each other in one
//! path must turn the same way round, or there would be a hole: all that is written here goes clockwise, and the outlines
//! have paths of their own.

use super::corners::{beam, slanted, tie};
use super::write_shape;
use crate::drawing::{Drawing, Ink, Shape};
use crate::glyph::{Outline, UNITS};
use crate::units::{Point, StaffSpace};
use core::fmt::Write as _;
use std::collections::BTreeMap;

/// What stands in one square of so many staff spaces shares a path: a browser that paints a part of the music leaves out the
/// paths that lie elsewhere.
const SQUARE: f64 = 32.0;

/// What shares a path.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    /// Beams, stems, ties and whatever else has no outline.
    Lines,
    /// Outlines of the font.
    Signs,
    /// Heads of notes, apart from other signs so that they can be found.
    Heads,
}

/// So many elements in one picture: what a browser shows of them in the time between two pictures of its own.
const TOGETHER: usize = 80;

/// The shapes in pictures of few elements each, that lie over each other: those of an ink after each other, in the order of
/// the inks. One at least.
pub(super) fn pictures(drawing: &Drawing) -> Vec<String> {
    let elements: Vec<(Ink, String)> = Ink::ALL.into_iter().flat_map(|ink| elements(drawing, ink)).collect();
    if elements.is_empty() {
        return vec![String::new()];
    }
    elements.chunks(TOGETHER).map(in_groups).collect()
}

/// A group for each ink.
fn in_groups(elements: &[(Ink, String)]) -> String {
    let mut out = String::new();
    for group in elements.chunk_by(|one, two| one.0 == two.0) {
        let Some((ink, _)) = group.first() else { continue };
        let _ = write!(out, r#"<g class="{}">"#, ink.class());
        group.iter().for_each(|(_, element)| out.push_str(element));
        out.push_str("</g>");
    }
    out
}

/// The elements of an ink: what has none in common with others, then the paths.
fn elements(drawing: &Drawing, ink: Ink) -> Vec<(Ink, String)> {
    let mut all = Vec::new();
    let mut paths = BTreeMap::<(Kind, i64, i64), String>::new();
    for shape in drawing.items.iter().filter(|item| item.ink == ink).map(|item| &item.shape) {
        // A browser sets the lines of a staff on its pixels alike where they are rectangles.
        match outlined(shape).filter(|_| ink != Ink::Staff) {
            Some((kind, at)) => add(paths.entry((kind, square(at.x), square(at.y))).or_default(), shape),
            None => {
                let mut alone = String::new();
                write_shape(&mut alone, shape);
                all.push((ink, alone));
            }
        }
    }
    for ((kind, ..), path) in paths {
        let class = if kind == Kind::Heads { r#" class="heads""# } else { "" };
        all.push((ink, format!(r#"<path{class} transform="scale({})" d="{path}"/>"#, 1.0 / UNITS)));
    }
    all
}

fn square(length: StaffSpace) -> i64 {
    (length.0 / SQUARE).floor() as i64
}

/// What a shape shares a path with, and where it stands; nothing for what is no path, or is drawn at another size.
fn outlined(shape: &Shape) -> Option<(Kind, Point)> {
    match *shape {
        Shape::Glyph { glyph, at } => Some((kind(glyph.outline()), at)),
        Shape::Sign { sign, at, scale } if (scale - 1.0).abs() < 0.001 => Some((kind(sign), at)),
        Shape::Beam { from, .. } | Shape::Line { from, .. } | Shape::Tie { from, .. } => {
            Some((Kind::Lines, from))
        }
        Shape::Sign { .. } | Shape::Brace { .. } | Shape::Text { .. } => None,
    }
}

fn kind(outline: &Outline) -> Kind {
    if outline.name().starts_with("notehead") { Kind::Heads } else { Kind::Signs }
}

/// Adds a shape to a path.
fn add(path: &mut String, shape: &Shape) {
    match shape {
        Shape::Glyph { glyph, at } => add_outline(path, glyph.outline(), *at),
        Shape::Sign { sign, at, .. } => add_outline(path, sign, *at),
        Shape::Beam { from, to, thickness } => add_corners(path, &beam(*from, *to, *thickness)),
        Shape::Line { from, to, thickness } if from.x != to.x && from.y != to.y => {
            add_corners(path, &slanted(*from, *to, *thickness));
        }
        Shape::Line { .. } => {
            let bounds = shape.bounds();
            let (wide, high) = (units(bounds.width().0), units(bounds.height().0));
            start(path, (bounds.left.0, bounds.top.0));
            let _ = write!(path, "h{wide}v{high}h{}z", -wide);
        }
        Shape::Tie { from, to, rise } => {
            let (upper, lower) = tie(*from, *to, *rise);
            start(path, upper[0]);
            go(path, 'C', &upper[1..]);
            go(path, 'L', &lower[..1]);
            go(path, 'C', &lower[1..]);
            path.push('z');
        }
        Shape::Brace { .. } | Shape::Text { .. } => {}
    }
}

/// An outline begins at its origin, from where the path has come.
fn add_outline(path: &mut String, outline: &Outline, at: Point) {
    start(path, (at.x.0, at.y.0));
    path.push_str(outline.path());
}

fn add_corners(path: &mut String, corners: &[(f64, f64); 4]) {
    start(path, corners[0]);
    go(path, 'L', &corners[1..]);
    path.push('z');
}

fn start(path: &mut String, at: (f64, f64)) {
    go(path, 'M', &[at]);
}

fn go(path: &mut String, command: char, points: &[(f64, f64)]) {
    path.push(command);
    for (at, (x, y)) in points.iter().enumerate() {
        let gap = if at == 0 { "" } else { " " };
        let _ = write!(path, "{gap}{} {}", units(*x), units(*y));
    }
}

/// A length in whole font units.
fn units(length: f64) -> i64 {
    (length * UNITS).round() as i64
}

#[cfg(test)]
mod tests {
    use super::super::{SvgOptions, write_gathered};
    use super::*;
    use crate::drawing::{ElementId, TextAlign, TextFace};
    use crate::glyph::Glyph;

    /// Twice the area that a path of whole corners encloses; positive is clockwise, since y goes down.
    fn turns(corners: &[(f64, f64)]) -> f64 {
        let next = corners.iter().cycle().skip(1);
        corners.iter().zip(next).map(|((x, y), (right, down))| x * down - right * y).sum()
    }

    /// Of shapes that lie over each other nothing is left out.
    #[test]
    fn all_goes_clockwise() {
        let (from, to) = (Point::new(1.0, 2.0), Point::new(5.0, 1.0));
        assert!(turns(&beam(from, to, StaffSpace(0.5))) > 0.0);
        for (one, other) in [(from, to), (to, from), (Point::new(1.0, 1.0), Point::new(5.0, 2.0))] {
            assert!(turns(&slanted(one, other, StaffSpace(0.2))) > 0.0);
        }
        for rise in [1.0, -1.0, 0.05, -0.05] {
            let (upper, lower) = tie(from, to, StaffSpace(rise));
            let all: Vec<(f64, f64)> = upper.into_iter().chain(lower).collect();
            assert!(turns(&all) > 0.0, "{rise}");
        }
    }

    #[test]
    fn an_ink_has_few_paths_and_what_is_no_path_stands_beside() {
        let mut drawing = Drawing::default();
        let at = |x: f64| Point::new(x, 2.0);
        for x in 0..40 {
            let x = f64::from(x);
            drawing.push(
                Shape::Glyph { glyph: Glyph::NoteheadBlack, at: at(x) },
                Ink::Written,
                Some(ElementId(1)),
            );
            let stem = Shape::Line { from: at(x), to: Point::new(x, -1.5), thickness: StaffSpace(0.12) };
            drawing.push(stem, Ink::Written, Some(ElementId(1)));
        }
        drawing.push(
            Shape::Line { from: at(0.0), to: at(40.0), thickness: StaffSpace(0.13) },
            Ink::Staff,
            None,
        );
        let word = Shape::Text {
            text: "dolce".into(),
            at: at(3.0),
            size: StaffSpace(1.5),
            align: TextAlign::Start,
            face: TextFace::Italic,
        };
        drawing.push(word, Ink::Written, None);
        let [svg] = write_gathered(&drawing, &SvgOptions::default()).try_into().expect("one picture");
        // Two squares of heads and two of stems; the upper ends of the stems count as little as the ends of the heads.
        assert_eq!(svg.matches("<path").count(), 4, "{svg}");
        assert_eq!(svg.matches(r#"class="heads""#).count(), 2);
        assert_eq!(svg.matches(Glyph::NoteheadBlack.outline().path()).count(), 40);
        assert_eq!(svg.matches("h30v875h-30z").count(), 40);
        assert_eq!(svg.matches("<rect").count(), 1);
        assert_eq!(svg.matches("dolce</text>").count(), 1);
        assert!(!svg.contains("<use"));
    }

    /// A browser has a little to do with each, and all of them show what there is, each thing once.
    #[test]
    fn much_is_shown_by_several_pictures_of_one_frame() {
        let mut drawing = Drawing::default();
        for number in 0..300 {
            let text = Shape::Text {
                text: format!("{number}."),
                at: Point::new(f64::from(number), 2.0),
                size: StaffSpace(1.5),
                align: TextAlign::Start,
                face: TextFace::Upright,
            };
            let ink = if number < 100 { Ink::Written } else { Ink::Muted };
            drawing.push(text, ink, None);
        }
        let pictures = write_gathered(&drawing, &SvgOptions::default());
        let of = |picture: &String| picture.matches("<text").count();
        assert_eq!(pictures.iter().map(of).collect::<Vec<_>>(), [80, 80, 80, 60]);
        let all = pictures.concat();
        assert!((0..300).all(|number| all.matches(&format!(">{number}.<")).count() == 1));
        assert_eq!(pictures[1].matches("<g ").count(), 2, "two inks");
        let frame = |picture: &String| picture.split('>').next().unwrap().to_owned();
        assert!(pictures.iter().all(|picture| frame(picture) == frame(&pictures[0])));
        assert_eq!(write_gathered(&Drawing::default(), &SvgOptions::default()).len(), 1);
    }
}
