//! Lines over and under a row that say it is read octaves higher or lower.

use super::SheetRow;
use super::outside::Outside;
use super::row::PlacedBar;
use crate::drawing::{Shape, TextAlign, TextFace};
use crate::units::{Point, StaffSpace};
use crookwise_score::printed::PrintedSign;
use crookwise_score::score::Direction;

/// A dash and the gap behind it.
const DASH: (f64, f64) = (0.8, 0.6);
/// Thickness of the line (engraving default of the font).
const LINE: f64 = 0.16;
/// How far its end reaches towards the notes.
const HOOK: f64 = 0.9;

/// A line that has begun: so many octaves, from where, and whether on an earlier system.
#[derive(Clone, Copy)]
struct OpenLine {
    octaves: i8,
    from: f64,
    goes_on: bool,
}

impl Outside<'_> {
    /// The lines of a row, also those that come from the system before or go on to the next.
    pub fn ottavas(&mut self, row: &SheetRow, placed: &[PlacedBar], right: f64) {
        let Some(first) = placed.first() else { return };
        let mut open: Option<OpenLine> = None;
        let before = row.staff.bars.get(..first.bar).unwrap_or_default();
        if let Some(octaves) = before.iter().flat_map(|bar| &bar.signs).filter_map(octaves_of).next_back() {
            open = (octaves != 0).then_some(OpenLine { octaves, from: first.begins, goes_on: true });
        }
        let mut last_end = first.begins;
        for bar in placed {
            let own = row.staff.bars.get(bar.bar..bar.bar + bar.rests.max(1)).unwrap_or_default();
            for (at, sign) in own.iter().flat_map(|bar| bar.signs.iter()).map(|sign| (sign.0, sign)) {
                let Some(octaves) = octaves_of(sign) else { continue };
                let x = bar.x_of(at);
                if let Some(line) = open.take() {
                    // It ends with the notes before: in the bar before, where a bar begins without it.
                    let end = if at <= crookwise_score::score::Quarters::ZERO { last_end } else { x - 0.8 };
                    self.ottava(line, end, true);
                }
                open = (octaves != 0).then_some(OpenLine { octaves, from: x, goes_on: false });
            }
            last_end = bar.ends - 0.5;
        }
        if let Some(line) = open {
            self.ottava(line, right - 0.4, false);
        }
    }

    fn ottava(&mut self, line: OpenLine, end: f64, is_end: bool) {
        let size = self.letters.max(1.6);
        let number = match line.octaves.unsigned_abs() {
            1 => "8",
            2 => "15",
            _ => "22",
        };
        let text = if line.goes_on { format!("({number})") } else { number.to_owned() };
        let wide = 0.6 * size * text.chars().count() as f64;
        let end = end.max(line.from + wide + 0.5);
        let (left, above) = (line.from - 0.2, line.octaves > 0);
        let middle = if above {
            self.skyline.top(left, end) - 0.5 - 0.35 * size
        } else {
            self.skyline.bottom(left, end) + 0.5 + 0.35 * size
        };
        let ink = self.ink;
        let shape = Shape::Text {
            text,
            at: Point::new(left, middle + 0.35 * size),
            size: StaffSpace(size),
            align: TextAlign::Start,
            face: TextFace::Italic,
        };
        self.push(shape, ink);
        let mut push = |from: (f64, f64), to: (f64, f64)| {
            let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
            self.push(Shape::Line { from, to, thickness: StaffSpace(LINE) }, ink);
        };
        // Over the notes the line runs along the top of the number, under them along its foot.
        let y = if above { middle - 0.3 * size } else { middle + 0.3 * size };
        let mut x = left + wide + 0.2;
        while x < end {
            push((x, y), ((x + DASH.0).min(end), y));
            x += DASH.0 + DASH.1;
        }
        if is_end {
            push((end, y), (end, y + if above { HOOK } else { -HOOK }));
        }
    }
}

fn octaves_of((_, sign): &(crookwise_score::score::Quarters, PrintedSign)) -> Option<i8> {
    match sign {
        PrintedSign::Direction(Direction::Ottava(octaves)) => Some(*octaves),
        _ => None,
    }
}
