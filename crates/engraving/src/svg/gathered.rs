//! Many shapes in few paths: music that is scrolled through costs a browser by its elements, not by its curves.
//!
//! Lengths are whole font units, 250 to a staff space, in which the outlines stand already. What lies over each other in one
//! path must turn the same way round, or there would be a hole: all that is written here goes clockwise, and the outlines
//! have paths of their own.

use super::corners::{beam, slanted, tie};
use super::{number, write_shape};
use crate::drawing::{Drawing, Ink, Shape};
use crate::glyph::{Outline, UNITS};
use crate::units::{Point, StaffSpace};
use core::fmt::Write as _;
use std::collections::BTreeMap;

/// What stands in one field so many staff spaces wide and high shares a path: a browser that paints a part of the music leaves
/// out the paths that lie elsewhere.
const FIELD: (f64, f64) = (96.0, 32.0);

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
const TOGETHER: usize = 30;

/// What a browser has to do with by itself.
struct Element {
    ink: Ink,
    /// How much larger than its picture's units it is written, in thousandths.
    scale: i64,
    svg: String,
}

/// A size of one unit for one.
const ONE: i64 = 1_000;

/// The shapes in pictures of few elements each, that lie over each other: those of an ink after each other, in the order of
/// the inks. One at least. Their unit is that of the font.
pub(super) fn pictures(drawing: &Drawing) -> Vec<String> {
    let elements: Vec<Element> = Ink::ALL.into_iter().flat_map(|ink| elements(drawing, ink)).collect();
    if elements.is_empty() {
        return vec![String::new()];
    }
    elements.chunks(TOGETHER).map(in_groups).collect()
}

/// A group for each ink and size: a browser keeps accounts of every place where a size changes.
fn in_groups(elements: &[Element]) -> String {
    let mut out = String::new();
    for group in elements.chunk_by(|one, two| (one.ink, one.scale) == (two.ink, two.scale)) {
        let Some(Element { ink, scale, .. }) = group.first() else { continue };
        let _ = write!(out, r#"<g class="{}""#, ink.class());
        if *scale != ONE {
            out.push_str(r#" transform="scale("#);
            number(&mut out, *scale as f64 / ONE as f64);
            out.push_str(r#")""#);
        }
        out.push('>');
        group.iter().for_each(|element| out.push_str(&element.svg));
        out.push_str("</g>");
    }
    out
}

/// The elements of an ink: what has none in common with others, then the paths.
fn elements(drawing: &Drawing, ink: Ink) -> Vec<Element> {
    let mut all = Vec::new();
    let mut paths = BTreeMap::<(i64, Kind, i64, i64), String>::new();
    for shape in drawing.items.iter().filter(|item| item.ink == ink).map(|item| &item.shape) {
        match outlined(shape) {
            Some((kind, at, scale)) => {
                let scale = thousandths(scale);
                let path =
                    paths.entry((scale, kind, field(at.x, FIELD.0), field(at.y, FIELD.1))).or_default();
                add(path, shape, scale as f64 / ONE as f64);
            }
            None => all.push(alone(shape, ink)),
        }
    }
    let path = |((scale, kind, ..), path): ((i64, Kind, i64, i64), String)| {
        let class = if kind == Kind::Heads { r#" class="heads""# } else { "" };
        Element { ink, scale, svg: format!(r#"<path{class} d="{path}"/>"#) }
    };
    all.extend(paths.into_iter().map(path));
    all
}

/// What is no path: a text in the font's units, all else in staff spaces.
fn alone(shape: &Shape, ink: Ink) -> Element {
    let mut svg = String::new();
    let scale = if let Shape::Text { text, at, size, align, face } = shape {
        let (text, align, face) = (text.clone(), *align, *face);
        let at = Point::new(at.x.0 * UNITS, at.y.0 * UNITS);
        write_shape(&mut svg, &Shape::Text { text, at, size: *size * UNITS, align, face });
        ONE
    } else {
        write_shape(&mut svg, shape);
        thousandths(UNITS)
    };
    Element { ink, scale, svg }
}

fn thousandths(scale: f64) -> i64 {
    (scale * ONE as f64).round() as i64
}

fn field(length: StaffSpace, wide: f64) -> i64 {
    (length.0 / wide).floor() as i64
}

/// What a shape shares a path with, where it stands and at which size; nothing for what is no path.
fn outlined(shape: &Shape) -> Option<(Kind, Point, f64)> {
    match *shape {
        Shape::Glyph { glyph, at } => Some((kind(glyph.outline()), at, 1.0)),
        Shape::Sign { sign, at, scale } => Some((kind(sign), at, scale)),
        Shape::Beam { from, .. } | Shape::Line { from, .. } | Shape::Tie { from, .. } => {
            Some((Kind::Lines, from, 1.0))
        }
        Shape::Brace { .. } | Shape::Text { .. } => None,
    }
}

fn kind(outline: &Outline) -> Kind {
    if outline.name().starts_with("notehead") { Kind::Heads } else { Kind::Signs }
}

/// Adds a shape to a path that is drawn at a size.
fn add(path: &mut String, shape: &Shape, scale: f64) {
    match shape {
        Shape::Glyph { glyph, at } => add_outline(path, glyph.outline(), (at.x.0, at.y.0)),
        Shape::Sign { sign, at, .. } => add_outline(path, sign, (at.x.0 / scale, at.y.0 / scale)),
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
fn add_outline(path: &mut String, outline: &Outline, at: (f64, f64)) {
    start(path, at);
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
            let x = f64::from(x) * 3.0;
            drawing.push(
                Shape::Glyph { glyph: Glyph::NoteheadBlack, at: at(x) },
                Ink::Written,
                Some(ElementId(1)),
            );
            let stem = Shape::Line { from: at(x), to: Point::new(x, -1.5), thickness: StaffSpace(0.12) };
            drawing.push(stem, Ink::Written, Some(ElementId(1)));
        }
        drawing.push(
            Shape::Line { from: at(0.0), to: at(120.0), thickness: StaffSpace(0.13) },
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
        for x in [0.0, 2.0, 99.0] {
            let sign = Glyph::NoteheadBlack.outline();
            drawing.push(Shape::Sign { sign, at: at(x), scale: 0.5 }, Ink::Muted, None);
        }
        drawing.push(Shape::Brace { top: at(0.0), height: StaffSpace(10.0) }, Ink::Sign, None);
        let [svg] = write_gathered(&drawing, &SvgOptions::default()).try_into().expect("one picture");
        // Two fields of heads and two of stems; the upper ends of the stems count as little as the ends of the heads. A line of
        // the staff, and two fields of small heads.
        assert_eq!(svg.matches("<path").count(), 7, "{svg}");
        assert_eq!(svg.matches(r#"class="heads""#).count(), 4);
        assert_eq!(svg.matches(Glyph::NoteheadBlack.outline().path()).count(), 43);
        assert_eq!(svg.matches("h30v875h-30z").count(), 40);
        assert_eq!(svg.matches("dolce</text>").count(), 1);
        assert!(svg.contains(r#"x="750" y="500" font-size="375""#), "{svg}");
        // Written at half the size, a place is twice as far.
        assert!(
            svg.contains(r#"<g class="ink-muted" transform="scale(0.5)"><path class="heads" d="M0 1000"#),
            "{svg}"
        );
        assert_eq!(svg.matches("M1000 1000").count(), 1);
        // One size for what has an outline at its own, one for the small heads, one for the brace.
        assert_eq!(svg.matches("transform=\"scale(").count(), 2, "{svg}");
        assert!(svg.contains(r#"<g class="ink-sign" transform="scale(250)"><use"#), "{svg}");
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
        assert_eq!(pictures.iter().map(of).collect::<Vec<_>>(), [30; 10]);
        let all = pictures.concat();
        assert!((0..300).all(|number| all.matches(&format!(">{number}.<")).count() == 1));
        assert_eq!(pictures[3].matches("<g ").count(), 2, "two inks");
        let frame = |picture: &String| picture.split('>').next().unwrap().to_owned();
        assert!(pictures.iter().all(|picture| frame(picture) == frame(&pictures[0])));
        assert_eq!(write_gathered(&Drawing::default(), &SvgOptions::default()).len(), 1);
    }
}
