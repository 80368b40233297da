//! What is set beside each other on a worksheet, before it has its place: the staves of a question or of several, how wide
//! they are, and the room for the answers.

use crate::state::practise::asking::low_or_high;
use crate::state::practise::paper::{PaperAnswer, PaperItem, PaperWishes, points_at_one_of_several};
use crate::state::practise::paper_choices::{ChoiceList, least_width};
use crate::state::practise::picture::{PageHeads, UnlaidPage};
use crate::words::{self, Names};
use crookwise_engraving::{ColumnSpec, NoteSpec, StaffSpec, head_width, narrowest_column};
use crookwise_practice::Kind;
use crookwise_theory::{Clef, Signature};

/// Pixels of one staff space: a staff of eight millimetres, on which a hand can write.
const SPACE: f64 = 7.6;
/// The same where many staves stand under each other, and from how many on; where they are so many that they would fill the
/// page, so that two systems have room.
const SMALL: f64 = 6.2;
const MANY: usize = 4;
const SMALLEST: f64 = 4.4;
const ALL_STAVES: f64 = 410.0;
/// Staff spaces from staff to staff.
pub(super) const STAFF: f64 = 7.5;

/// Room for a note and what a hand writes under it, in staff spaces; for a chord; for a note among others.
const BAR: f64 = 12.0;
const CHORD: f64 = 9.0;
const AMONG: f64 = 5.5;
/// Room for a brace, and for a box to tick, in staff spaces.
pub(super) const BRACE: f64 = 1.2;
pub(super) const BOX: f64 = 3.0;
/// The size of numbers and labels, in staff spaces, and how wide a letter and a figure of a number are for its size.
pub(super) const TYPE: f64 = 1.9;
const LETTER: f64 = 0.56;
const FIGURE: f64 = 0.7;
/// From the beginning of a bar to what stands over it, and between what stands there, in staff spaces.
pub(super) const INDENT: f64 = 0.3;
const APART: f64 = 0.5;

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
    /// What it is for who cannot see it.
    pub(super) name: String,
    pub(super) columns: usize,
    /// What to choose from, if anything.
    pub(super) choices: Vec<String>,
    /// The column that is meant, where there are several, counted in the item.
    pub(super) meant: Option<usize>,
    /// The player who is meant, and whether he stands over the others.
    pub(super) player: Option<(String, bool)>,
}

impl DraftItem {
    /// From the beginning of its number to what is said behind it, in staff spaces.
    pub(super) fn after_number(&self) -> f64 {
        self.number.to_string().len() as f64 * TYPE * FIGURE + APART
    }

    /// The width of what stands over it, in staff spaces.
    pub(super) fn width_over(&self) -> f64 {
        INDENT + self.after_number() + self.caption.chars().count() as f64 * TYPE * LETTER + APART
    }
}

impl Draft {
    pub(super) fn of(item: &PaperItem, wishes: PaperWishes, names: Names) -> Self {
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
        let choices = match &answer {
            PaperAnswer::Choices(choices) => choices.clone(),
            _ => Vec::new(),
        };
        let name = words::paper::said(item.number, &item.caption, &words::spoken::page(question, names));
        let PageHeads { labels, beside, player, .. } = page.heads;
        let own = DraftItem { number: item.number, caption, name, choices, columns, meant, player };
        let bar = if columns == 1 { bar.max(own.width_over()) } else { bar };
        let space = match written.len() {
            ..MANY => SPACE,
            staves => (ALL_STAVES / (STAFF * staves as f64)).clamp(SMALLEST, SMALL),
        };
        Self { items: vec![own], labels, beside, written, empty, answer, bar, space, least: 0.0, edge: 0.0 }
    }

    /// Whether both may stand on the same staves, as bars of one system.
    pub(super) fn joins(&self, other: &Self) -> bool {
        let head = |staves: &[StaffSpec]| -> Vec<(Clef, Signature, bool)> {
            staves.iter().map(|staff| (staff.clef, staff.signature, staff.unpitched)).collect()
        };
        let short = |one: &Self| one.items.iter().all(|item| item.columns == 1);
        let answered_alike = match (&self.answer, &other.answer) {
            (PaperAnswer::Choices(_), PaperAnswer::Choices(_)) => self.is_system() && other.is_system(),
            (one, next) => one == next && self.written.len() == 1 && other.written.len() == 1,
        };
        short(self)
            && short(other)
            && answered_alike
            && self.labels == other.labels
            && self.beside == other.beside
            && head(&self.written) == head(&other.written)
            && head(&self.empty) == head(&other.empty)
    }

    /// Whether it is a system of bars, each of one moment, whose choices stand under it by number.
    fn is_system(&self) -> bool {
        self.written.len() > 1
            && self.items.iter().all(|item| item.columns == 1)
            && matches!(self.answer, PaperAnswer::Choices(_))
    }

    pub(super) fn join(&mut self, other: &Self) {
        self.items.extend(other.items.iter().cloned());
        self.bar = self.bar.max(other.bar);
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
    pub(super) fn bars(&self) -> f64 {
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
        (self.fixed() + self.bars() * stretch).max(label).max(least_width(&self.choices())).max(self.least)
    }

    pub(super) fn label(&self) -> Option<(String, String)> {
        let alone = self.written.len() < 2;
        let beside = self.beside.first().cloned().unwrap_or_default();
        alone.then(|| (self.labels.first().cloned().unwrap_or_default(), beside))
    }

    /// What to choose from, under the number of its question where several may share the staves.
    pub(super) fn choices(&self) -> Vec<ChoiceList> {
        let number = |item: &DraftItem| self.is_system().then_some(item.number);
        let list = |item: &DraftItem| ChoiceList { number: number(item), choices: item.choices.clone() };
        self.items.iter().filter(|item| !item.choices.is_empty()).map(list).collect()
    }
}
