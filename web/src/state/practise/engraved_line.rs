//! A line of a worksheet drawn: staves, bar lines, numbers, what points at a note, and the room for the answers.

use super::engraved::{PaperLine, Piece};
use super::engraved_draft::{BOX, BRACE, Draft, INDENT, STAFF, TYPE};
use crate::state::practise::paper::PaperAnswer;
use crate::state::practise::paper_choices;
use crookwise_engraving::{
    Bounds, Drawing, Ink, Metrics, Point, Shape, StaffLayout, StaffSpace, StaffSpec, TextAlign, TextFace,
    lay_out, svg,
};

/// From the ink of a staff to its numbers, to the staves under it, and from there to the line for an answer.
const OVER: f64 = 0.8;
const BETWEEN: f64 = 1.6;
const LINE: f64 = 4.4;
/// Thickness of bar lines and of what points or is written on.
const THIN: StaffSpace = StaffSpace(0.14);
/// Pixels of a row of labels.
const ROW: f64 = 20.0;

/// A draft laid out, before it is known how high its neighbours are.
struct Laid {
    draft: Draft,
    metrics: Metrics,
    staves: Vec<StaffLayout>,
    empty: Vec<StaffLayout>,
    /// The lower edge of the upper staves' ink, from the first one's top line.
    tops: Vec<f64>,
    top: f64,
    bottom: f64,
}

fn laid(draft: Draft, stretch: f64) -> Laid {
    let columns = draft.columns();
    let all: Vec<&StaffSpec> = draft.written.iter().chain(&draft.empty).collect();
    let fitted = Metrics::fit(&all, 0..columns, StaffSpace(draft.bar * stretch));
    let metrics = Metrics { head: StaffSpace(draft.head() + 0.6), ..fitted };
    let lay = |staff: &StaffSpec| lay_out(staff, 0..columns, &metrics);
    let staves: Vec<StaffLayout> = draft.written.iter().map(lay).collect();
    let empty: Vec<StaffLayout> = draft.empty.iter().map(lay).collect();
    let mut tops = Vec::new();
    let mut bottom = 4.0;
    for (at, staff) in staves.iter().enumerate() {
        let top = if at == 0 { 0.0 } else { (bottom + 1.0 - staff.bounds.top.0).max(tops[at - 1] + STAFF) };
        bottom = top + staff.bounds.bottom.0;
        tops.push(top);
    }
    let players = draft.items.iter().any(|item| item.player.as_ref().is_some_and(|(_, up)| !up));
    if players {
        bottom += TYPE;
    }
    let mut top = staves.first().map_or(0.0, |staff| staff.bounds.top.0) - OVER;
    if draft.items.iter().any(|item| item.meant.is_some()) {
        top -= 1.2;
    }
    if draft.items.iter().any(|item| item.player.as_ref().is_some_and(|(_, up)| *up)) {
        top -= TYPE;
    }
    Laid { draft, metrics, staves, empty, tops, top, bottom }
}

/// Sets a line: staves, numbers and answers of all that stands on it at the same heights.
pub(super) fn set(line: Vec<Draft>, stretch: f64) -> PaperLine {
    let all: Vec<Laid> = line.into_iter().map(|draft| laid(draft, stretch)).collect();
    let top = all.iter().map(|one| one.top).fold(-OVER, f64::min);
    let bottom = all.iter().map(|one| one.bottom).fold(4.0, f64::max);
    let labelled = all.iter().any(|one| one.draft.label().is_some());
    let mut picture: f64 = 0.0;
    let pieces: Vec<Piece> = all
        .iter()
        .map(|one| {
            let (svg, height) = one.drawn(top, bottom);
            picture = picture.max(height);
            let label = one.draft.label();
            let name = one.draft.items.iter().map(|item| item.name.as_str()).collect::<Vec<_>>().join("; ");
            Piece {
                numbers: one.draft.items.iter().map(|item| item.number).collect(),
                label,
                svg,
                name,
                choices: one.draft.choices(),
                width: one.draft.width(stretch),
            }
        })
        .collect();
    let choices = |piece: &Piece| paper_choices::height(&piece.choices, piece.width);
    let choices = pieces.iter().map(choices).fold(0.0, f64::max);
    let height = picture + if labelled { ROW } else { 0.0 } + choices;
    PaperLine { pieces, height }
}

impl Laid {
    /// The picture, and its height in pixels.
    fn drawn(&self, top: f64, bottom: f64) -> (String, f64) {
        let space = self.draft.space;
        if self.draft.written.is_empty() {
            return (String::new(), 0.0);
        }
        let margin = self.draft.margin();
        let mut drawing = Drawing::default();
        for (staff, &down) in self.staves.iter().zip(&self.tops) {
            drawing.place(staff.drawing.clone(), StaffSpace::ZERO, StaffSpace(down));
        }
        self.draw_labels(&mut drawing);
        self.draw_bars(
            &mut drawing,
            0.0,
            self.tops.last().copied().unwrap_or_default() + 4.0,
            self.tops.len() > 1,
        );
        self.draw_numbers(&mut drawing, top);
        let mut lower = bottom;
        let mut first = None;
        for staff in &self.empty {
            let down = lower + BETWEEN - staff.bounds.top.0;
            lower = down + staff.bounds.bottom.0;
            first = first.or(Some(down));
            drawing.place(staff.drawing.clone(), StaffSpace::ZERO, StaffSpace(down));
        }
        if let (Some(first), Some(last)) = (first, self.empty.last()) {
            let end = lower - last.bounds.bottom.0 + 4.0;
            self.draw_bars(&mut drawing, first, end, self.empty.len() > 1);
            if self.empty.len() > 1 {
                let top = Point::new(-BRACE + 0.2, first);
                drawing.push(Shape::Brace { top, height: StaffSpace(end - first) }, Ink::Sign, None);
            }
        }
        if self.draft.answer == PaperAnswer::Line {
            lower += LINE;
            self.draw_lines(&mut drawing, lower);
            lower += 0.4;
        }
        let width = self.metrics.width(self.draft.columns()).0;
        if self.draft.answer == PaperAnswer::Boxes {
            for &top in &self.tops {
                square(&mut drawing, width + BOX - 2.2, top + 0.9, 2.2);
            }
        }
        let width = width + self.draft.boxes();
        let frame = Bounds::new(-margin - 0.1, top - TYPE * 0.9, width + 0.1, lower + 0.3);
        let options = svg::SvgOptions { frame: Some(frame), scale: Some(space), ..Default::default() };
        (svg::write(&drawing, &options), frame.height().0 * space)
    }

    /// The left and the right end of each question, in staff spaces.
    fn ends(&self) -> Vec<(f64, f64)> {
        let mut at = 0;
        let mut ends = Vec::new();
        for item in &self.draft.items {
            let left = if at == 0 { self.metrics.head } else { self.metrics.left(at) };
            at += item.columns;
            ends.push((left.0, self.metrics.width(at).0));
        }
        ends
    }

    /// A bar line behind each question; where several staves belong together, also one before the first.
    fn draw_bars(&self, drawing: &mut Drawing, from: f64, to: f64, together: bool) {
        let begins = together.then_some(THIN.0 / 2.0);
        for x in begins.into_iter().chain(self.ends().iter().map(|(_, right)| right - THIN.0 / 2.0)) {
            line(drawing, (x, from), (x, to), Ink::Staff);
        }
    }

    fn draw_labels(&self, drawing: &mut Drawing) {
        if self.draft.written.len() < 2 {
            return;
        }
        for (at, &top) in self.tops.iter().enumerate() {
            let label = self.draft.labels.get(at).cloned().unwrap_or_default();
            let beside = self.draft.beside.get(at).filter(|beside| !beside.is_empty());
            let middle = top + if beside.is_some() { 1.9 } else { 2.6 };
            text(drawing, label, (-1.0, middle), TextAlign::End, TextFace::Upright, Ink::Muted);
            if let Some(beside) = beside {
                text(
                    drawing,
                    beside.clone(),
                    (-1.0, top + 3.9),
                    TextAlign::End,
                    TextFace::Italic,
                    Ink::Muted,
                );
            }
        }
    }

    fn draw_numbers(&self, drawing: &mut Drawing, top: f64) {
        for (item, (left, right)) in self.draft.items.iter().zip(self.ends()) {
            let number = item.number.to_string();
            let begins = left - if left <= self.metrics.head.0 { 0.4 } else { 0.0 };
            let begins = begins + INDENT;
            let after = begins + item.after_number();
            text(drawing, number, (begins, top), TextAlign::Start, TextFace::Upright, Ink::Written);
            if !item.caption.is_empty() {
                let caption = item.caption.clone();
                text(drawing, caption, (after, top), TextAlign::Start, TextFace::Italic, Ink::Sign);
            }
            let middle = match item.meant {
                Some(column) => self.metrics.center(column).0,
                None => f64::midpoint(left, right),
            };
            let ink =
                self.staves.first().map_or((0.0, 4.0), |staff| (staff.bounds.top.0, staff.bounds.bottom.0));
            let mut over = ink.0.min(0.0) - OVER;
            if let Some((number, up)) = &item.player {
                let y = if *up { over } else { ink.1.max(4.0) + TYPE };
                text(drawing, number.clone(), (middle, y), TextAlign::Middle, TextFace::Italic, Ink::Sign);
                over -= if *up { TYPE } else { 0.0 };
            }
            if item.meant.is_some() {
                bracket(drawing, middle, self.metrics.column.0 / 2.0 - 0.5, over);
            }
        }
    }

    /// A line for each answer.
    fn draw_lines(&self, drawing: &mut Drawing, y: f64) {
        for (left, right) in self.ends() {
            line(drawing, (left + 0.8, y), (right.min(left + 34.0) - 0.8, y), Ink::Ledger);
        }
    }
}

fn bracket(drawing: &mut Drawing, middle: f64, half: f64, y: f64) {
    let half = half.min(2.6);
    line(drawing, (middle - half, y), (middle + half, y), Ink::Written);
    for x in [middle - half, middle + half] {
        line(drawing, (x, y - THIN.0 / 2.0), (x, y + 0.8), Ink::Written);
    }
}

fn square(drawing: &mut Drawing, left: f64, top: f64, side: f64) {
    let (right, bottom) = (left + side, top + side);
    let corners = [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)];
    for ends in corners.windows(2) {
        if let [from, to] = ends {
            line(drawing, *from, *to, Ink::Written);
        }
    }
}

fn line(drawing: &mut Drawing, from: (f64, f64), to: (f64, f64), ink: Ink) {
    let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
    drawing.push(Shape::Line { from, to, thickness: THIN }, ink, None);
}

fn text(drawing: &mut Drawing, text: String, at: (f64, f64), align: TextAlign, face: TextFace, ink: Ink) {
    let at = Point::new(at.0, at.1);
    drawing.push(Shape::Text { text, at, size: StaffSpace(TYPE), align, face }, ink, None);
}
