//! A drawing as SVG text: the same bytes on every machine, everything from outside escaped.

mod corners;
mod gathered;

use crate::drawing::{Drawing, Item, Shape, TextAlign, TextFace, brace_scale};
use crate::glyph::{Glyph, Outline, UNITS};
use crate::units::{Bounds, Point, StaffSpace};
use core::fmt::Write as _;
use corners::{beam, slanted, tie};

/// Where the outlines of the glyphs stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Glyphs {
    /// Once in the page, by [`glyph_defs`].
    #[default]
    Shared,
    /// In the SVG itself, so that it can stand alone in a file.
    Own,
}

/// How a drawing becomes SVG.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SvgOptions<'a> {
    /// What the picture shows; the tight bounds of the ink if not given.
    pub frame: Option<Bounds>,
    /// Pixels of one staff space for the attributes `width` and `height`; none are written if not given. With a
    /// whole number the five lines look alike.
    pub scale: Option<f64>,
    /// Class of the `svg` element.
    pub class: Option<&'a str>,
    /// What the picture is called by a screen reader; without it the picture is hidden from one.
    pub label: Option<&'a str>,
    /// Where the outlines stand.
    pub glyphs: Glyphs,
}

/// The outlines of all glyphs as one SVG element without size, to stand once in a page before every drawing.
/// Its class is "glyphs"; give it `position: absolute`, never `display: none`.
#[must_use]
pub fn glyph_defs() -> String {
    let mut out = String::from(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="glyphs" width="0" height="0" aria-hidden="true" focusable="false">"#,
    );
    write_defs(&mut out, Glyph::ALL.into_iter().map(Glyph::outline));
    out.push_str("</svg>");
    out
}

/// The same for other signs of the font: those of measured music, where it is drawn.
#[must_use]
pub fn sign_defs(signs: &[&Outline]) -> String {
    let mut out = String::from(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="glyphs" width="0" height="0" aria-hidden="true" focusable="false">"#,
    );
    write_defs(&mut out, signs.iter().copied());
    out.push_str("</svg>");
    out
}

/// Writes a drawing as an `svg` element whose unit is the staff space.
///
/// Items that follow each other in the same ink and with the same element share a `g` with the class of the ink and
/// the element's number as `data-id`. Everything is filled with the current colour, nothing is stroked.
#[must_use]
pub fn write(drawing: &Drawing, options: &SvgOptions<'_>) -> String {
    let mut body = String::new();
    write_groups(&mut body, drawing);
    framed(drawing, options, &body)
}

/// The same with the shapes of one ink in few paths, which a browser shows far sooner; elements then have no numbers. In
/// pictures of the same frame, one at least, that lie over each other: each is soon shown. Their unit is that of the font, so
/// that no outline needs to be made smaller by itself.
#[must_use]
pub fn write_gathered(drawing: &Drawing, options: &SvgOptions<'_>) -> Vec<String> {
    let frame = options.frame.or_else(|| drawing.bounds()).unwrap_or_default();
    let edge = |edge: StaffSpace| edge.0 * UNITS;
    let frame = Bounds::new(edge(frame.left), edge(frame.top), edge(frame.right), edge(frame.bottom));
    let options =
        SvgOptions { frame: Some(frame), scale: options.scale.map(|scale| scale / UNITS), ..*options };
    gathered::pictures(drawing).iter().map(|body| framed(drawing, &options, body)).collect()
}

fn framed(drawing: &Drawing, options: &SvgOptions<'_>, body: &str) -> String {
    let frame = options.frame.or_else(|| drawing.bounds()).unwrap_or_default();
    let mut out = String::from(r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox=""#);
    for (at, edge) in [frame.left, frame.top, frame.width(), frame.height()].into_iter().enumerate() {
        if at > 0 {
            out.push(' ');
        }
        number(&mut out, edge.0);
    }
    out.push('"');
    if let Some(scale) = options.scale {
        attribute_number(&mut out, "width", frame.width().0 * scale);
        attribute_number(&mut out, "height", frame.height().0 * scale);
    }
    if let Some(class) = options.class {
        attribute(&mut out, "class", class);
    }
    match options.label {
        Some(label) => {
            out.push_str(r#" role="img""#);
            attribute(&mut out, "aria-label", label);
        }
        None => out.push_str(r#" aria-hidden="true" focusable="false""#),
    }
    out.push_str(r#" fill="currentColor">"#);
    if options.glyphs == Glyphs::Own {
        let used = Glyph::ALL.into_iter().filter(|&glyph| drawing.items.iter().any(|item| uses(item, glyph)));
        write_defs(&mut out, used.map(Glyph::outline));
    }
    out.push_str(body);
    out.push_str("</svg>");
    out
}

fn write_groups(out: &mut String, drawing: &Drawing) {
    for group in drawing.items.chunk_by(|one, two| one.ink == two.ink && one.id == two.id) {
        let Some(first) = group.first() else { continue };
        out.push_str("<g");
        attribute(out, "class", first.ink.class());
        if let Some(id) = first.id {
            attribute(out, "data-id", &id.0.to_string());
        }
        out.push('>');
        for item in group {
            write_shape(out, &item.shape);
        }
        out.push_str("</g>");
    }
}

fn uses(item: &Item, wanted: Glyph) -> bool {
    match item.shape {
        Shape::Glyph { glyph, .. } => glyph == wanted,
        Shape::Brace { .. } => wanted == Glyph::Brace,
        _ => false,
    }
}

fn write_defs<'a>(out: &mut String, glyphs: impl Iterator<Item = &'a Outline>) {
    out.push_str("<defs>");
    for glyph in glyphs {
        let (name, path) = (glyph.name(), glyph.path());
        // Writing to a string cannot fail.
        let _ = write!(out, r#"<path id="g-{name}" transform="scale("#);
        number(out, 1.0 / UNITS);
        let _ = write!(out, r#")" d="{path}"/>"#);
    }
    out.push_str("</defs>");
}

fn write_shape(out: &mut String, shape: &Shape) {
    match shape {
        Shape::Glyph { glyph, at } => {
            let _ = write!(out, r##"<use href="#g-{}""##, glyph.name());
            attribute_number(out, "x", at.x.0);
            attribute_number(out, "y", at.y.0);
            out.push_str("/>");
        }
        Shape::Sign { sign, at, scale } => {
            let _ = write!(out, r##"<use href="#g-{}""##, sign.name());
            if (*scale - 1.0).abs() < 0.001 {
                attribute_number(out, "x", at.x.0);
                attribute_number(out, "y", at.y.0);
            } else {
                out.push_str(r#" transform="translate("#);
                coordinates(out, &[(at.x.0, at.y.0)]);
                out.push_str(") scale(");
                number(out, *scale);
                out.push_str(r#")""#);
            }
            out.push_str("/>");
        }
        Shape::Beam { from, to, thickness } => {
            out.push_str(r#"<path d="M"#);
            coordinates(out, &beam(*from, *to, *thickness));
            out.push_str(r#"z"/>"#);
        }
        Shape::Line { from, to, thickness } => write_line(out, *from, *to, *thickness),
        Shape::Tie { from, to, rise } => write_tie(out, *from, *to, *rise),
        Shape::Brace { top, height } => {
            let _ = write!(out, r##"<use href="#g-{}" transform="translate("##, Glyph::Brace.name());
            number(out, top.x.0);
            out.push(' ');
            number(out, (top.y + *height).0);
            out.push_str(") scale(");
            // The glyph stands on its origin.
            let (wide, tall) = brace_scale(*height);
            number(out, wide);
            out.push(' ');
            number(out, tall);
            out.push_str(r#")"/>"#);
        }
        Shape::Text { text, at, size, align, face } => {
            out.push_str("<text");
            attribute_number(out, "x", at.x.0);
            attribute_number(out, "y", at.y.0);
            attribute_number(out, "font-size", size.0);
            let anchor = match align {
                TextAlign::Start => "start",
                TextAlign::Middle => "middle",
                TextAlign::End => "end",
            };
            attribute(out, "text-anchor", anchor);
            if *face == TextFace::Italic {
                attribute(out, "font-style", "italic");
            }
            out.push('>');
            escape(out, text);
            out.push_str("</text>");
        }
    }
}

/// Upright and level lines as rectangles, which a browser sets on its pixels alike; others as their four corners.
fn write_line(out: &mut String, from: Point, to: Point, thickness: StaffSpace) {
    let bounds = Shape::Line { from, to, thickness }.bounds();
    if from.x == to.x || from.y == to.y {
        out.push_str("<rect");
        attribute_number(out, "x", bounds.left.0);
        attribute_number(out, "y", bounds.top.0);
        attribute_number(out, "width", bounds.width().0);
        attribute_number(out, "height", bounds.height().0);
        out.push_str("/>");
        return;
    }
    out.push_str(r#"<path d="M"#);
    coordinates(out, &slanted(from, to, thickness));
    out.push_str(r#"z"/>"#);
}

fn write_tie(out: &mut String, from: Point, to: Point, rise: StaffSpace) {
    let (upper, lower) = tie(from, to, rise);
    out.push_str(r#"<path d="M"#);
    coordinates(out, &upper[..1]);
    out.push('C');
    coordinates(out, &upper[1..]);
    out.push('L');
    coordinates(out, &lower[..1]);
    out.push('C');
    coordinates(out, &lower[1..]);
    out.push_str(r#"z"/>"#);
}

fn coordinates(out: &mut String, points: &[(f64, f64)]) {
    for (at, (x, y)) in points.iter().enumerate() {
        if at > 0 {
            out.push(' ');
        }
        number(out, *x);
        out.push(' ');
        number(out, *y);
    }
}

fn attribute(out: &mut String, name: &str, value: &str) {
    let _ = write!(out, r#" {name}=""#);
    escape(out, value);
    out.push('"');
}

fn attribute_number(out: &mut String, name: &str, value: f64) {
    let _ = write!(out, r#" {name}=""#);
    number(out, value);
    out.push('"');
}

/// A number to three decimals, without trailing zeros; what is no number is written as 0.
fn number(out: &mut String, value: f64) {
    let thousandths = if value.is_finite() { (value * 1000.0).round() as i64 } else { 0 };
    if thousandths < 0 {
        out.push('-');
    }
    let (whole, part) = (thousandths.unsigned_abs() / 1000, thousandths.unsigned_abs() % 1000);
    let _ = write!(out, "{whole}");
    if part > 0 {
        let digits = format!("{part:03}");
        let _ = write!(out, ".{}", digits.trim_end_matches('0'));
    }
}

/// Writes text so that it stays text in an element as in an attribute. What XML cannot hold becomes U+FFFD.
fn escape(out: &mut String, text: &str) {
    for sign in text.chars() {
        match sign {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => {
                let _ = write!(out, "&#{};", sign as u32);
            }
            '\u{0}'..='\u{1f}' | '\u{7f}' | '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            _ => out.push(sign),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{ElementId, Ink};

    fn numbered(value: f64) -> String {
        let mut out = String::new();
        number(&mut out, value);
        out
    }

    #[test]
    fn numbers_are_short() {
        for (value, text) in [
            (0.0, "0"),
            (-0.0004, "0"),
            (1.0, "1"),
            (-1.5, "-1.5"),
            (0.05, "0.05"),
            (-0.0666, "-0.067"),
            (12.3456, "12.346"),
            (f64::NAN, "0"),
            (f64::INFINITY, "0"),
            (1e300, "9223372036854775.807"),
        ] {
            assert_eq!(numbered(value), text);
        }
    }

    /// Whatever a file or link puts into a text or a label, only the elements of this writer come out.
    #[test]
    fn hostile_texts_stay_texts() {
        let hostile = [
            "</text><script>alert(1)</script>",
            "\" onload=\"alert(1)",
            "' onload='alert(1)",
            "]]><img src=x onerror=alert(1)>",
            "&lt;script&gt;",
            "<!--",
            "\u{0}\u{1}\u{b}\u{7f}\u{ffff}",
            "\u{202e}Corni \u{1f3ba}",
        ];
        for text in hostile {
            let mut drawing = Drawing::default();
            let shape = Shape::Text {
                text: text.into(),
                at: Point::new(0.0, 0.0),
                size: StaffSpace(1.0),
                align: TextAlign::Start,
                face: TextFace::Upright,
            };
            drawing.push(shape, Ink::Written, Some(ElementId(1)));
            let options = SvgOptions { label: Some(text), class: Some(text), ..SvgOptions::default() };
            let svg = write(&drawing, &options);
            let tags: Vec<&str> = svg.split('<').skip(1).collect();
            assert_eq!(tags.len(), 6, "svg, g, text and their ends: {svg}");
            for (tag, name) in tags.iter().zip(["svg ", "g ", "text ", "/text>", "/g>", "/svg>"]) {
                assert!(tag.starts_with(name), "{svg}");
                assert_eq!(tag.matches('>').count(), 1, "{svg}");
            }
            assert_eq!(tags[0].matches('"').count(), 2 * 6, "{svg}");
            assert!(!svg.contains('\''), "{svg}");
            assert!(!svg.chars().any(|sign| sign.is_control() || sign == '\u{ffff}'), "{svg}");
            assert!(!svg.replace("&amp;", "").replace("&lt;", "").contains("&lt;script"), "{svg}");
        }
    }

    #[test]
    fn neighbours_share_a_group() {
        let mut drawing = Drawing::default();
        for (ink, id) in
            [(Ink::Written, Some(1)), (Ink::Written, Some(1)), (Ink::Written, Some(2)), (Ink::Sign, None)]
        {
            let at = Point::new(1.0, 2.0);
            drawing.push(Shape::Glyph { glyph: Glyph::NoteheadBlack, at }, ink, id.map(ElementId));
        }
        let svg = write(&drawing, &SvgOptions::default());
        assert_eq!(svg.matches("<g ").count(), 3);
        assert_eq!(svg.matches(r#"data-id="1""#).count(), 1);
        assert!(svg.contains(r##"<use href="#g-noteheadBlack" x="1" y="2"/>"##), "{svg}");
        assert!(!svg.contains("<path"));
        let alone = write(&drawing, &SvgOptions { glyphs: Glyphs::Own, ..SvgOptions::default() });
        assert_eq!(alone.matches("<path").count(), 1);
    }

    #[test]
    fn the_shared_outlines_are_all_there() {
        let defs = glyph_defs();
        for glyph in Glyph::ALL {
            assert_eq!(defs.matches(&format!("id=\"g-{}\"", glyph.name())).count(), 1);
        }
        assert!(defs.contains("scale(0.004)"));
    }
}
