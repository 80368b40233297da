//! Labels: beside the staves where there is room, else over them.

use super::system::MARGIN;
use super::{MusicSheet, SheetRow};
use crate::drawing::{Drawing, Ink, Shape, TextAlign, TextFace};
use crate::units::{Point, StaffSpace};
use crookwise_score::printed::{PrintedSign, change_in_short};

impl MusicSheet {
    /// Draws the labels of rows with these tops; `over` is where those stand that have no room beside, and nothing for those
    /// that do not stand at this system.
    pub(super) fn labels(
        &self,
        drawing: &mut Drawing,
        (tops, over): (&[f64], &[Option<f64>]),
        (first, beside, width): (usize, bool, f64),
    ) {
        for ((row, top), over) in self.rows.iter().zip(tops).zip(over) {
            let label = &row.label.0;
            // Beside its label a written row need not say at every system that it is one; what sounds has another ink and says so.
            let says = !beside || first == 0 || row.ink == Ink::Sounding;
            let beneath = &beneath(row, first, says);
            let mut text = |text: &str, at: Point, size: f64, ink: Ink| {
                let size = StaffSpace(size.max(self.letters));
                let (text, align) = (text.to_owned(), TextAlign::Start);
                drawing.push(Shape::Text { text, at, size, align, face: TextFace::Upright }, ink, None);
            };
            if beside {
                let lines =
                    if label.is_empty() { Vec::new() } else { wrapped(label, MARGIN, self.letters.max(1.5)) };
                let high = self.letters.max(1.5) * 1.2;
                let mut y = top + 2.4 - high / 2.0 * (lines.len() as f64);
                for line in &lines {
                    text(line, Point::new(0.0, y), 1.5, Ink::Written);
                    y += high;
                }
                let small = self.letters.max(1.3);
                for line in wrapped(beneath, MARGIN, small) {
                    text(&line, Point::new(0.0, y), 1.3, Ink::Muted);
                    y += small * 1.2;
                }
            } else if let Some(over) = over {
                let parts = [label.as_str(), beneath.as_str()];
                let line = parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ");
                let line = fitting(&line, width, self.letters.max(1.5));
                text(&line, Point::new(0.2, top + over), 1.5, Ink::Muted);
            }
        }
    }
}

/// What stands beneath the label of a row at the system that begins with a bar: a crook that was changed before is told, since the
/// label has the first; and where that is said how it is to be taken.
fn beneath(row: &SheetRow, first: usize, says: bool) -> String {
    let signs = row.staff.bars.iter().take(first).rev().flat_map(|bar| bar.signs.iter().rev());
    let mut changed = signs.filter_map(|(_, sign)| match sign {
        PrintedSign::Crook(label) => Some(label),
        PrintedSign::Direction(_) => None,
    });
    // "muta in G" was said where it was changed.
    let now = changed.next().map(|label| format!("now {}", change_in_short(label)));
    let own = Some(row.label.1.clone()).filter(|own| says && !own.is_empty());
    now.into_iter().chain(own).collect::<Vec<_>>().join(", ")
}

/// A text in at most two lines that fit into a margin.
fn wrapped(text: &str, margin: f64, size: f64) -> Vec<String> {
    let most = (margin / (size * 0.55)) as usize;
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let is_last = lines.len() == 2;
        match lines.last_mut() {
            Some(line) if is_last || line.chars().count() + word.chars().count() < most => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines.iter().map(|line| fitting(line, margin, size)).collect()
}

/// A text that is no wider than told, cut where it must be.
fn fitting(text: &str, width: f64, size: f64) -> String {
    let most = (width / (size * 0.55)) as usize;
    if text.chars().count() <= most {
        return text.to_owned();
    }
    text.chars().take(most.saturating_sub(1)).chain(['…']).collect()
}
