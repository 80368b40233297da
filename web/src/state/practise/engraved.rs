//! Questions as print sets them: short items stand several to a line, those of the same staff on one staff with bar lines
//! between them, under each the empty staff or the line for its answer. Everything is laid out here, so that pages can be
//! made of it.

use crate::state::practise::engraved_draft::Draft;
use crate::state::practise::engraved_line::set;
use crate::state::practise::paper::{PaperItem, PaperWishes};
use crate::state::practise::paper_choices::ChoiceList;
use crate::words::Names;

/// How much a bar may be stretched to fill its line.
const STRETCH: f64 = 1.4;
/// Between what stands beside each other on a line, in pixels.
const GAP: f64 = 26.0;
/// Pixels of the first page over its first line: its head, with a title of two lines, and an instruction.
const FIRST_HEAD: f64 = 200.0;

/// A line of questions.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperLine {
    /// What stands on it from left to right.
    pub pieces: Vec<Piece>,
    /// Its height in pixels.
    pub height: f64,
}

/// One staff, or several under each other, with the questions on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The numbers of its questions.
    pub numbers: Vec<usize>,
    /// What stands over it, where its labels do not stand in a margin: the label, and what is said beside it.
    pub label: Option<(String, String)>,
    /// The picture; empty where nothing is engraved.
    pub svg: String,
    /// For who cannot see it.
    pub name: String,
    /// What to choose from.
    pub choices: Vec<ChoiceList>,
    /// Its width in pixels.
    pub width: f64,
}

/// A section in lines that are as full as each other.
#[must_use]
pub fn lines(items: &[PaperItem], wishes: PaperWishes, names: Names) -> Vec<PaperLine> {
    let single = items.iter().map(|item| Draft::of(item, wishes, names)).collect();
    arranged(single, wishes)
}

/// Drafts in lines as wide as the paper.
pub(super) fn arranged(mut single: Vec<Draft>, wishes: PaperWishes) -> Vec<PaperLine> {
    let room = wishes.size.width();
    let count = single.len();
    if single.windows(2).all(|two| matches!(two, [one, next] if !one.joins(next))) {
        // Each stands for itself: all in columns of one width.
        let edge = single.iter().map(Draft::margin).fold(0.0, f64::max);
        for one in &mut single {
            one.edge = edge;
        }
        let widest = single.iter().map(|one| one.width(1.0)).fold(1.0, f64::max);
        let columns = ((room + GAP) / (widest + GAP)).floor().clamp(1.0, count.max(1) as f64);
        for one in &mut single {
            one.least = widest.max((room - GAP * (columns - 1.0)) / columns);
        }
    }
    // Several on each line, but each line has room under the head of a page.
    let tallest = wishes.size.height() - FIRST_HEAD;
    let lines = (1..=count.max(1)).rev().map(|most| as_full(&single, room, most));
    let mut lines = lines.filter(|lines| lines.iter().all(|line| line.height <= tallest));
    lines.next().unwrap_or_else(|| as_full(&single, room, 1))
}

/// Lines of at most so many questions, as full as each other, so that none stands alone on the last.
fn as_full(single: &[Draft], room: f64, at_most: usize) -> Vec<PaperLine> {
    let fewest = filled(single, room, at_most).len();
    let least = single.len().div_ceil(fewest.max(1));
    let lines = (least..=at_most.max(least))
        .map(|most| filled(single, room, most))
        .find(|lines| lines.len() <= fewest)
        .unwrap_or_default();
    // Bars of a section are equally wide.
    let stretch = lines.iter().map(|line| stretch(line, room)).fold(STRETCH, f64::min).max(1.0);
    lines.into_iter().map(|line| set(line, stretch)).collect()
}

/// Lines filled from the left, at most so many questions on each.
fn filled(single: &[Draft], room: f64, most: usize) -> Vec<Vec<Draft>> {
    let mut lines: Vec<Vec<Draft>> = Vec::new();
    for one in single {
        let Some(line) = lines.last_mut() else {
            lines.push(vec![one.clone()]);
            continue;
        };
        let count: usize = line.iter().map(|draft| draft.items.len()).sum();
        let mut longer = line.clone();
        match longer.last_mut().filter(|last| last.joins(one)) {
            Some(last) => last.join(one),
            None => longer.push(one.clone()),
        }
        if count < most && width(&longer, 1.0) <= room {
            *line = longer;
        } else {
            lines.push(vec![one.clone()]);
        }
    }
    lines
}

fn width(line: &[Draft], stretch: f64) -> f64 {
    let between = GAP * line.len().saturating_sub(1) as f64;
    line.iter().map(|draft| draft.width(stretch)).sum::<f64>() + between
}

/// How much the bars of a line may be stretched.
fn stretch(line: &[Draft], room: f64) -> f64 {
    // What is wider by its words than by its bars has room already.
    let bars: f64 = line.iter().map(Draft::bars).sum();
    if bars > 0.0 { 1.0 + (room - width(line, 1.0)) / bars } else { STRETCH }
}
