//! Systems: which bars stand on one, how their room is shared, and the whole drawn.

use super::bar_lines::{self, LineAt, bar_line};
use super::columns::changed;
use super::row::{PlacedBar, RowDrawing, SystemEnds, draw_row};
use super::{LabelsStand, MusicSheet, SheetRow};
use crate::drawing::{Drawing, Ink, Shape};
use crate::head::head_width;
use crate::units::{Bounds, Point, StaffSpace};
use crookwise_score::score::BarLine;

/// Between the ink of a row and that of the next.
const ROOM: f64 = 1.3;
/// The least from the lines of a row to those of the next.
const LEAST_ROOM: f64 = 3.2;
/// A last system is spread no farther than this.
const SPREAD: f64 = 1.25;
/// From this width on labels stand beside the staves.
const BESIDE: f64 = 85.0;
/// How much room labels have beside them.
pub(super) const MARGIN: f64 = 15.0;
/// How much room brackets and braces take.
const GROUPS: f64 = 1.6;

/// The bars of a system.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SystemSpan {
    /// The first.
    pub first: usize,
    /// The one behind the last.
    pub end: usize,
    /// How many times what they would take by themselves its times take.
    pub spread: f64,
}

/// A system that is drawn. y = 0 is the top line of its first row.
#[derive(Clone, Debug)]
pub struct DrawnSystem {
    /// What is drawn.
    pub drawing: Drawing,
    /// Round all of it, as wide as the system.
    pub frame: Bounds,
    /// The top line of each row.
    pub tops: Vec<f64>,
    /// The lower end of what is drawn of each row; the next begins under it.
    pub feet: Vec<f64>,
    /// Each of its bars with its left and right end; bars of one long rest share it.
    pub bars: Vec<(usize, f64, f64)>,
    /// Each onset: its bar, the quarters from its beginning, and its place.
    pub onsets: Vec<(usize, f64, f64)>,
    /// The middle of each head, by the number of its note and its row.
    pub heads: Vec<(u32, usize, Point)>,
}

impl MusicSheet {
    /// The systems of the whole for a width.
    #[must_use]
    pub fn break_into(&self, width: f64) -> Vec<SystemSpan> {
        let mut spans = Vec::new();
        let mut first = 0;
        while first < self.bars.len() {
            let room = (width - self.head(first, width)).max(6.0);
            let mut end = first;
            let mut taken = 0.0;
            while let Some(columns) = self.columns.get(end) {
                let own = columns.width(end == first, 1.0);
                let next = end + columns.rests.max(1);
                if end > first && taken + own + self.courtesy(next) > room {
                    break;
                }
                taken += own;
                end = next;
            }
            let end = end.clamp(first + 1, self.bars.len());
            let is_last = end == self.bars.len();
            let spread = self.spread(first, end, (room - self.courtesy(end)).max(6.0));
            spans.push(SystemSpan { first, end, spread: if is_last { spread.min(SPREAD) } else { spread } });
            first = end;
        }
        spans
    }

    /// The room of labels and of what joins the rows, before the staves.
    fn margin(&self, width: f64) -> f64 {
        let groups = if self.groups.is_empty() { 0.0 } else { GROUPS };
        groups + if self.has_labels_beside(width) { MARGIN } else { 0.0 }
    }

    /// Whether labels stand beside the staves, and not over them.
    fn has_labels_beside(&self, width: f64) -> bool {
        width >= BESIDE && self.labels == LabelsStand::AtEverySystem
    }

    /// Whether the label of a row stands over it in the system that begins with a bar.
    fn has_label_over(&self, row: usize, (first, width): (usize, f64)) -> bool {
        let is_here = first == 0 || self.labels == LabelsStand::AtEverySystem;
        let says = self.rows.get(row).is_some_and(|row| !(row.label.0.is_empty() && row.label.1.is_empty()));
        is_here && says && !self.has_labels_beside(width)
    }

    /// What stands behind the last bar line of a system that ends before a bar: its signature and its time.
    fn courtesy(&self, next: usize) -> f64 {
        let Some(own) = self.bars.get(next) else { return 0.0 };
        let signatures = self.all_rows().map(|row| changed(row, next).1.1.0).fold(0.0, f64::max);
        signatures + own.time.map_or(0.0, |time| bar_lines::time_width(time) + 0.9)
    }

    /// What stands before the first bar of a system.
    fn head(&self, first: usize, width: f64) -> f64 {
        let bars = self.all_rows().filter_map(|row| row.staff.bars.get(first));
        self.margin(width) + bars.map(|bar| head_width(bar.clef, bar.signature).0).fold(0.0, f64::max)
    }

    /// Those that are drawn, and those that only have their room.
    fn all_rows(&self) -> impl Iterator<Item = &SheetRow> {
        self.rows.iter().chain(&self.unseen)
    }

    fn bars_of(&self, first: usize, end: usize) -> impl Iterator<Item = usize> + '_ {
        (first..end).filter(|bar| self.together.get(*bar).copied().unwrap_or(1) > 0)
    }

    /// How far the times of some bars must be spread to fill a room.
    fn spread(&self, first: usize, end: usize, room: f64) -> f64 {
        let taken = |by: f64| -> f64 {
            let bars = self.bars_of(first, end).filter_map(|bar| Some((bar, self.columns.get(bar)?)));
            bars.map(|(bar, columns)| columns.width(bar == first, by)).sum()
        };
        let (mut low, mut high) = (0.05, 8.0);
        for _ in 0..40 {
            let middle = (low + high) / 2.0;
            if taken(middle) > room { high = middle } else { low = middle }
        }
        low
    }

    /// Draws a system, as wide as told.
    #[must_use]
    pub fn draw(&self, span: SystemSpan, width: f64) -> DrawnSystem {
        let margin = self.margin(width);
        let beside = self.has_labels_beside(width);
        let mut x = self.head(span.first, width);
        let head = x;
        let mut placed: Vec<PlacedBar> = Vec::new();
        for bar in self.bars_of(span.first, span.end) {
            let Some(columns) = self.columns.get(bar) else { continue };
            let at_head = bar == span.first;
            let wide = columns.width(at_head, span.spread);
            let places = columns.places(at_head, span.spread);
            placed.push(PlacedBar {
                bar,
                left: x,
                right: x + wide,
                begins: x + if at_head { columns.lead_at_head } else { columns.lead },
                ends: x + wide - columns.tail,
                columns: places.into_iter().map(|(at, place)| (at, x + place)).collect(),
                rests: columns.rests,
                at_head,
            });
            x += wide;
        }
        let right = x.max(head + 4.0);
        let ends = SystemEnds { left: margin, right, end: right + self.courtesy(span.end) };
        let rows: Vec<RowDrawing> =
            (0..self.rows.len()).map(|row| draw_row(self, row, &placed, ends)).collect();
        let shown = rows.len().saturating_sub(self.hidden);
        let (mut drawing, mut beneath) = (Drawing::default(), Drawing::default());
        let (mut tops, mut feet, mut heads) = (Vec::new(), Vec::new(), Vec::new());
        let mut bottom = 0.0;
        // Where labels have no room beside the staves, each stands over its own.
        let mut over = Vec::new();
        for (number, row) in rows.into_iter().enumerate() {
            let has_over = self.has_label_over(number, (span.first, width));
            let label = if has_over { row.top.min(-1.0) - 0.5 } else { row.top };
            over.push(has_over.then_some(label));
            let ink_top = if has_over { label - 0.8 * self.letters.max(1.5) } else { row.top };
            let top = if number == 0 { 0.0 } else { (bottom + ROOM - ink_top).max(self.least_top(&tops)) };
            bottom = top + row.bottom;
            tops.push(top);
            feet.push(bottom);
            if number >= shown {
                beneath.place(row.drawing, StaffSpace::ZERO, StaffSpace(top));
                continue;
            }
            heads.extend(row.drawing.items.iter().filter_map(|item| {
                let (id, own) = (item.id?, item.shape.bounds());
                let middle = Point {
                    x: (own.left + own.right) / 2.0,
                    y: (own.top + own.bottom) / 2.0 + StaffSpace(top),
                };
                Some((id.0, number, middle))
            }));
            drawing.place(row.drawing, StaffSpace::ZERO, StaffSpace(top));
        }
        let around = |drawing: &mut Drawing, rows: usize| {
            let (tops, over) = (tops.get(..rows).unwrap_or_default(), over.get(..rows).unwrap_or_default());
            self.lines(drawing, &placed, tops, margin);
            self.draw_groups(drawing, tops, margin);
            self.labels(drawing, (tops, over), (span.first, beside, width));
        };
        // What is hidden takes as much room as when it is seen: the frame is round all of it.
        if shown < tops.len() {
            around(&mut beneath, tops.len());
        }
        around(&mut drawing, shown);
        self.above(&mut drawing, &placed, ends.end);
        let (own, hidden) = (drawing.bounds().unwrap_or_default(), beneath.bounds().unwrap_or_default());
        let ink_bottom = own.bottom.0.max(hidden.bottom.0);
        let frame = Bounds::new(0.0, own.top.0 - 0.8, width, ink_bottom + 0.8);
        let bars = placed.iter().flat_map(|placed| {
            (placed.bar..placed.bar + placed.rests.max(1)).map(|bar| (bar, placed.left, placed.right))
        });
        let onsets = placed.iter().flat_map(|placed| {
            let start = placed.columns.is_empty().then_some((placed.bar, 0.0, placed.begins));
            let each = placed.columns.iter().map(|(at, x)| (placed.bar, at.decimal(), *x));
            start.into_iter().chain(each)
        });
        DrawnSystem { drawing, frame, tops, feet, bars: bars.collect(), onsets: onsets.collect(), heads }
    }

    fn least_top(&self, tops: &[f64]) -> f64 {
        tops.last().map_or(0.0, |top| top + 4.0 + LEAST_ROOM)
    }

    /// The bar lines, and what joins the rows at the left.
    fn lines(&self, drawing: &mut Drawing, placed: &[PlacedBar], tops: &[f64], margin: f64) {
        let Some(last) = tops.last() else { return };
        let (from, to) = (Point::new(margin + 0.08, 0.0), Point::new(margin + 0.08, last + 4.0));
        drawing.push(Shape::Line { from, to, thickness: StaffSpace(0.16) }, Ink::Staff, None);
        // Rows that belong together share their bar lines.
        let mut groups: Vec<(usize, usize)> = Vec::new();
        for row in 0..tops.len() {
            let goes_on = row > 0 && self.rows.get(row - 1).is_some_and(|before| before.joined);
            match groups.last_mut() {
                Some((_, end)) if goes_on => *end = row,
                _ => groups.push((row, row)),
            }
        }
        for bar in placed {
            let end = bar.bar + bar.rests.max(1) - 1;
            let Some(signs) = self.bars.get(end).map(|own| &own.signs) else { continue };
            let line = LineAt { line: signs.line, repeat_to: signs.repeat_to.is_some(), repeat_from: false };
            // What changes with a bar stands before the repeat that begins with it.
            let begins = self.bars.get(bar.bar).is_some_and(|own| own.signs.repeat_from);
            let begins_at =
                if bar.begins - bar.left < 1.4 && !bar.at_head { bar.left } else { bar.begins - 1.1 };
            for (first, last) in &groups {
                let (Some(top), Some(bottom)) = (tops.get(*first), tops.get(*last)) else { continue };
                let staves = tops.get(*first..=*last).unwrap_or_default();
                bar_line(drawing, line, bar.right, (*top, bottom + 4.0), staves);
                if begins {
                    let line = LineAt { line: BarLine::Thin, repeat_to: false, repeat_from: true };
                    bar_line(drawing, line, begins_at, (*top, bottom + 4.0), staves);
                }
            }
        }
    }
}
