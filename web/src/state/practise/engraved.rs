//! Questions as print sets them: short items stand several to a line, those of the same staff on one staff with bar lines
//! between them, under each the empty staff or the line for its answer. Everything is laid out here, so that pages can be
//! made of it.

use crate::state::practise::asking::low_or_high;
use crate::state::practise::engraved_line::set;
use crate::state::practise::paper::{PaperAnswer, PaperItem, PaperWishes, points_at_one_of_several};
use crate::state::practise::picture::{PageHeads, UnlaidPage};
use crate::words::{self, Names};
use crookwise_engraving::{ColumnSpec, NoteSpec, StaffSpec, head_width, narrowest_column};
use crookwise_practice::Kind;
use crookwise_theory::{Clef, Signature};

/// Pixels of one staff space: a staff of eight millimetres, on which a hand can write.
const SPACE: f64 = 7.6;
/// The same where many staves stand under each other.
const SMALL: f64 = 6.2;
/// From so many staves on they are small.
const MANY: usize = 4;

/// Room for a note and what a hand writes under it, in staff spaces; for a chord; for a note among others.
const BAR: f64 = 12.0;
const CHORD: f64 = 9.0;
const AMONG: f64 = 5.5;
/// Room for a brace, and for a box to tick, in staff spaces.
pub(super) const BRACE: f64 = 1.2;
pub(super) const BOX: f64 = 3.0;
/// How much a bar may be stretched to fill its line.
const STRETCH: f64 = 1.4;
/// Between what stands beside each other on a line, in pixels.
const GAP: f64 = 26.0;
/// The size of numbers and labels, in staff spaces, and how wide a letter is for its size.
pub(super) const TYPE: f64 = 1.9;
const LETTER: f64 = 0.56;
/// Pixels of a letter of a choice, of what stands before it, and from which width on a choice goes on in the next row.
const BEFORE_CHOICE: f64 = 30.0;
const WIDEST_CHOICE: f64 = 320.0;
const CHOICE_LETTER: f64 = 7.6;

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
    pub choices: Vec<String>,
    /// Its width in pixels.
    pub width: f64,
}

/// A section in lines that are as full as each other.
#[must_use]
pub fn lines(items: &[PaperItem], wishes: PaperWishes, names: Names) -> Vec<PaperLine> {
    let single = items.iter().map(|item| Draft::of(item, wishes, names)).collect();
    arranged(single, wishes.size.width())
}

/// Drafts in lines of so much room.
pub(super) fn arranged(mut single: Vec<Draft>, room: f64) -> Vec<PaperLine> {
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
    let fewest = filled(&single, room, usize::MAX).len();
    let most = count.div_ceil(fewest.max(1));
    // As many on each line, so that none stands alone on the last.
    let lines = (most..=count.max(most))
        .map(|most| filled(&single, room, most))
        .find(|lines| lines.len() <= fewest)
        .unwrap_or_default();
    // Bars of a section are equally wide.
    let stretch = lines.iter().map(|line| stretch(line, room)).fold(STRETCH, f64::min).max(1.0);
    lines.into_iter().map(|line| set(line, stretch)).collect()
}

/// What is set beside each other, before it has its place.
#[derive(Clone, Debug)]
pub(super) struct Draft {
    pub(super) items: Vec<DraftItem>,
    pub(super) labels: Vec<String>,
    pub(super) beside: Vec<String>,
    /// The staves of the question.
    pub(super) written: Vec<StaffSpec>,
    /// The empty staves for its answer.
    pub(super) empty: Vec<StaffSpec>,
    pub(super) answer: PaperAnswer,
    pub(super) bar: f64,
    pub(super) space: f64,
    /// Its least width in pixels.
    pub(super) least: f64,
    /// The least width of the margin with its labels, in staff spaces.
    pub(super) edge: f64,
}

/// One question of it.
#[derive(Clone, Debug)]
pub(super) struct DraftItem {
    pub(super) number: usize,
    pub(super) caption: String,
    pub(super) name: String,
    pub(super) columns: usize,
    /// The column that is meant, where there are several, counted in the item.
    pub(super) meant: Option<usize>,
    /// The player who is meant, and whether he stands over the others.
    pub(super) player: Option<(String, bool)>,
}

impl Draft {
    fn of(item: &PaperItem, wishes: PaperWishes, names: Names) -> Self {
        let question = &item.question;
        let answer = PaperAnswer::of(question, wishes, names);
        let page = UnlaidPage::of(question, names);
        let mut written = page.engraver_specs();
        let columns = question.passage.columns().len();
        let mut caption = item.caption.clone();
        let mut empty: Vec<StaffSpec> = match &answer {
            PaperAnswer::Staves(clefs) => {
                clefs.iter().map(|&clef| StaffSpec::new(clef, Signature::NONE)).collect()
            }
            _ => Vec::new(),
        };
        if question.kind == Kind::Label {
            written.clear();
        }
        if let Some(given) = question.given {
            // The gap is empty: a rest would be read as one.
            for staff in &mut written {
                for column in &mut staff.columns {
                    column.rests.clear();
                }
            }
            if columns == 1 {
                // What sounds stands over the part that is to be written.
                let mut sounding = StaffSpec::new(low_or_high(&[given.0]), Signature::NONE);
                let notes = vec![NoteSpec::new(given.0)];
                sounding.columns = vec![ColumnSpec { notes, ..ColumnSpec::default() }];
                let part = core::mem::replace(&mut written, vec![sounding]);
                if !empty.is_empty() {
                    empty = part;
                }
                caption.clear();
            }
        }
        for staff in &mut empty {
            staff.columns = vec![ColumnSpec::default(); columns];
        }
        let several = written.len() > 1;
        let bar = match (columns, several) {
            (0 | 1, false) => BAR,
            (0 | 1, true) => CHORD,
            _ => written.iter().map(|staff| narrowest_column(staff).0).fold(AMONG, f64::max),
        };
        let meant = points_at_one_of_several(question).then_some(question.at.column);
        let name = words::paper::said(item.number, &item.caption, &words::spoken::page(question, names));
        let PageHeads { labels, beside, player, .. } = page.heads;
        let own = DraftItem { number: item.number, caption, name, columns, meant, player };
        let space = if written.len() >= MANY { SMALL } else { SPACE };
        Self { items: vec![own], labels, beside, written, empty, answer, bar, space, least: 0.0, edge: 0.0 }
    }

    /// Whether both may stand on one staff.
    fn joins(&self, other: &Self) -> bool {
        let head = |staves: &[StaffSpec]| -> Vec<(Clef, Signature, bool)> {
            staves.iter().map(|staff| (staff.clef, staff.signature, staff.unpitched)).collect()
        };
        let short = |one: &Self| one.written.len() == 1 && one.items.iter().all(|item| item.columns == 1);
        short(self)
            && short(other)
            && !matches!(self.answer, PaperAnswer::Choices(_))
            && self.answer == other.answer
            && self.labels == other.labels
            && self.beside == other.beside
            && head(&self.written) == head(&other.written)
            && head(&self.empty) == head(&other.empty)
    }

    fn join(&mut self, other: &Self) {
        self.items.extend(other.items.iter().cloned());
        for (staves, others) in [(&mut self.written, &other.written), (&mut self.empty, &other.empty)] {
            for (staff, other) in staves.iter_mut().zip(others) {
                staff.columns.extend(other.columns.iter().cloned());
            }
        }
    }

    /// Labels stand in a margin where there are several staves.
    pub(super) fn margin(&self) -> f64 {
        if self.written.len() < 2 {
            return (if self.empty.len() > 1 { BRACE } else { 0.0 }).max(self.edge);
        }
        let letters = self
            .labels
            .iter()
            .zip(&self.beside)
            .map(|(label, beside)| label.chars().count().max(beside.chars().count()));
        (letters.max().unwrap_or_default() as f64 * TYPE * LETTER + 1.4).max(self.edge)
    }

    pub(super) fn boxes(&self) -> f64 {
        if self.answer == PaperAnswer::Boxes { BOX } else { 0.0 }
    }

    pub(super) fn head(&self) -> f64 {
        let staves = self.written.iter().chain(&self.empty);
        staves.map(|staff| head_width(staff.clef, staff.signature).0).fold(0.0, f64::max)
    }

    pub(super) fn columns(&self) -> usize {
        self.items.iter().map(|item| item.columns).sum()
    }

    /// The width of all bars, in pixels.
    fn bars(&self) -> f64 {
        if self.written.is_empty() { 0.0 } else { self.columns() as f64 * self.bar * self.space }
    }

    /// The width of what is not stretched, in pixels.
    fn fixed(&self) -> f64 {
        if self.written.is_empty() {
            0.0
        } else {
            (self.margin() + self.head() + 1.0 + self.boxes()) * self.space
        }
    }

    /// Its whole width: as wide as its label and its choices need it at least.
    pub(super) fn width(&self, stretch: f64) -> f64 {
        let letters = |text: &str| text.chars().count() as f64;
        let label = match (self.label(), self.written.is_empty()) {
            (Some((label, beside)), _) => letters(&label) * 8.2 + letters(&beside) * 7.4 + 16.0,
            _ => 0.0,
        };
        let longest = match &self.answer {
            PaperAnswer::Choices(choices) => {
                let longest = choices.iter().map(|one| letters(one)).fold(0.0, f64::max);
                (longest * CHOICE_LETTER + BEFORE_CHOICE).min(WIDEST_CHOICE)
            }
            _ => 0.0,
        };
        (self.fixed() + self.bars() * stretch).max(label).max(longest).max(self.least)
    }

    pub(super) fn label(&self) -> Option<(String, String)> {
        let alone = self.written.len() < 2;
        let beside = self.beside.first().cloned().unwrap_or_default();
        alone.then(|| (self.labels.first().cloned().unwrap_or_default(), beside))
    }

    /// The rows that the choices take on so much width, in pixels.
    pub(super) fn rows(&self, width: f64) -> usize {
        let letters = (((width - BEFORE_CHOICE) / CHOICE_LETTER).floor() as usize).max(1);
        self.choices().iter().map(|one| one.chars().count().div_ceil(letters).max(1)).sum()
    }

    pub(super) fn choices(&self) -> Vec<String> {
        match &self.answer {
            PaperAnswer::Choices(choices) => choices.clone(),
            _ => Vec::new(),
        }
    }
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
