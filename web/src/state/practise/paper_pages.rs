//! A worksheet broken into pages: no instruction at the foot of one, no question alone on one, the key on pages of its own.

use crate::state::practise::engraved::{PaperLine, lines};
use crate::state::practise::engraved_key::{is_engraved, key_lines};
use crate::state::practise::paper::{PaperWishes, Section};
use crate::words::{self, Names};

/// Pixels of an instruction's line, and over and under it; between lines of questions.
const INSTRUCTION: f64 = 22.0;
const AROUND_INSTRUCTION: f64 = 30.0;
const BETWEEN_LINES: f64 = 16.0;
/// The head of the first page: the line for the name, the line for time and points, what is around them; of the title.
const NAME: f64 = 58.0;
const TIME_AND_POINTS: f64 = 26.0;
const TITLE: f64 = 32.0;
/// Letters of an instruction and of a title on a line, and of an answer in one of the two columns of the key.
const INSTRUCTION_LETTERS: usize = 62;
const LETTERS_OF_POINTS: usize = 10;
const TITLE_LETTERS: usize = 44;
const KEY_LETTERS: usize = 36;
/// Pixels of a line of the key, and between its answers.
const KEY_LINE: f64 = 18.0;
const BETWEEN_ANSWERS: f64 = 5.0;
const KEY_COLUMNS: usize = 2;
/// Pixels that a column of the key needs under its lines, or it begins on the next page.
const LEAST_OF_COLUMN: f64 = 90.0;

/// What stands on a page from top to bottom.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// An instruction, and how many rows it takes.
    Instruction {
        /// What it says.
        text: String,
        /// How many rows it takes.
        rows: f64,
    },
    /// A line of questions.
    Questions(PaperLine),
}

/// A page of the worksheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PaperPage {
    /// What stands on it.
    pub blocks: Vec<Block>,
}

/// An answer of the key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyAnswer {
    /// The number of its question.
    pub number: usize,
    /// The staff as it is labelled; empty where there are several.
    pub label: String,
    /// What is right.
    pub right: String,
    /// What leads there, in short.
    pub way: String,
}

/// A worksheet laid out, before its title says where its pages end.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct UnbrokenSheet {
    blocks: Vec<Block>,
    engraved: Vec<PaperLine>,
    answers: Vec<KeyAnswer>,
    /// The height of a page.
    height: f64,
}

/// The whole worksheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Worksheet {
    /// Its pages.
    pub pages: Vec<PaperPage>,
    /// The pages of its key.
    pub key: Vec<KeyPage>,
}

/// A page of the key.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct KeyPage {
    /// Answers that are notes, on staves.
    pub lines: Vec<PaperLine>,
    /// The others, in columns.
    pub columns: Vec<Vec<KeyAnswer>>,
}

impl UnbrokenSheet {
    /// The lines of these sections, and their answers.
    #[must_use]
    pub fn of(sections: &[Section], wishes: PaperWishes, names: Names) -> Self {
        let mut blocks = Vec::new();
        for section in sections {
            let letters = INSTRUCTION_LETTERS - if wishes.points > 0 { LETTERS_OF_POINTS } else { 0 };
            let lines_of = rows(&section.instruction, letters);
            blocks.push(Block::Instruction { text: section.instruction.clone(), rows: lines_of });
            blocks.extend(lines(&section.items, wishes, names).into_iter().map(Block::Questions));
        }
        let engraved = sections.iter().flat_map(|section| key_lines(&section.items, wishes, names)).collect();
        let said =
            sections.iter().flat_map(|section| &section.items).filter(|item| !is_engraved(&item.question));
        let answers = said.map(|item| {
            let question = &item.question;
            let staves = question.passage.staves();
            let label = if staves.len() == 1 { staves[0].label.clone() } else { String::new() };
            KeyAnswer {
                number: item.number,
                label,
                right: words::practise::answer(&question.right, question, names),
                way: words::right_way::short_way(question, names).unwrap_or_default(),
            }
        });
        Self { blocks, engraved, answers: answers.collect(), height: wishes.size.height() }
    }

    /// Its pages under a title; `notes` is whether time or points are told under it.
    #[must_use]
    pub fn under(&self, title: &str, notes: bool) -> Worksheet {
        let head = NAME + TITLE * rows(title, TITLE_LETTERS) + if notes { TIME_AND_POINTS } else { 0.0 };
        let key_head = TITLE * rows(&words::exercise::key_of(title), TITLE_LETTERS) + 90.0;
        Worksheet {
            pages: broken(self.blocks.clone(), self.height, head),
            key: key_pages(self.engraved.clone(), self.answers.clone(), self.height - key_head),
        }
    }
}

impl Block {
    fn height(&self) -> f64 {
        match self {
            Self::Instruction { rows, .. } => INSTRUCTION * rows + AROUND_INSTRUCTION,
            Self::Questions(line) => line.height + BETWEEN_LINES,
        }
    }

    fn questions(&self) -> usize {
        match self {
            Self::Instruction { .. } => 0,
            Self::Questions(line) => line.pieces.iter().map(|piece| piece.numbers.len()).sum(),
        }
    }
}

fn rows(text: &str, letters: usize) -> f64 {
    text.chars().count().div_ceil(letters).max(1) as f64
}

/// Blocks on pages of this height, the first of which has so much less.
fn broken(blocks: Vec<Block>, height: f64, head: f64) -> Vec<PaperPage> {
    let mut pages: Vec<PaperPage> = vec![PaperPage::default()];
    let mut left = height - head;
    for block in blocks {
        let needs = block.height();
        // An instruction goes with its first line.
        if needs > left && pages.last().is_some_and(|page| !page.blocks.is_empty()) {
            let mut next = PaperPage::default();
            if let Some(page) = pages.last_mut()
                && matches!(page.blocks.last(), Some(Block::Instruction { .. }))
            {
                next.blocks.extend(page.blocks.pop());
            }
            left = height - next.blocks.iter().map(Block::height).sum::<f64>();
            pages.push(next);
        }
        left -= needs;
        if let Some(page) = pages.last_mut() {
            page.blocks.push(block);
        }
    }
    keep_company(&mut pages, height);
    pages
}

/// Brings the last line of the page before to a question that would stand alone on its page.
fn keep_company(pages: &mut [PaperPage], height: f64) {
    for at in (1..pages.len()).rev() {
        let Some((before, page)) = pages.get_mut(..=at).and_then(|both| {
            let (before, page) = both.split_at_mut(at);
            Some((before.last_mut()?, page.first_mut()?))
        }) else {
            continue;
        };
        let alone = page.blocks.iter().map(Block::questions).sum::<usize>() < 2;
        let lines = before.blocks.iter().filter(|block| block.questions() > 0).count();
        let takes: f64 = page.blocks.iter().map(Block::height).sum();
        let Some(last) = before.blocks.last().filter(|_| alone && lines > 1) else { continue };
        if takes + last.height() > height {
            continue;
        }
        // What is left must not be alone either, nor end with an instruction.
        let mut moved: Vec<Block> = before.blocks.pop().into_iter().collect();
        if matches!(before.blocks.last(), Some(Block::Instruction { .. })) {
            moved.splice(0..0, before.blocks.pop());
        }
        page.blocks.splice(0..0, moved);
    }
}

/// The key on pages of this height: lines first, then columns in what room they leave.
fn key_pages(lines: Vec<PaperLine>, answers: Vec<KeyAnswer>, height: f64) -> Vec<KeyPage> {
    let mut pages = vec![KeyPage::default()];
    let mut left = height;
    for line in lines {
        let takes = line.height + BETWEEN_LINES;
        if takes > left && pages.last().is_some_and(|page| !page.lines.is_empty()) {
            pages.push(KeyPage::default());
            left = height;
        }
        left -= takes;
        if let Some(page) = pages.last_mut() {
            page.lines.push(line);
        }
    }
    let mut rest = answers;
    while !rest.is_empty() {
        let has_lines = pages.last().is_some_and(|page| !page.lines.is_empty());
        if left < LEAST_OF_COLUMN && has_lines {
            pages.push(KeyPage::default());
            left = height;
        }
        let (columns, after) = in_columns(rest, left);
        if let Some(page) = pages.last_mut() {
            page.columns = columns;
        }
        rest = after;
        if !rest.is_empty() {
            pages.push(KeyPage::default());
            left = height;
        }
    }
    pages
}

/// What stands in columns of at most this height, as high as each other, and what finds no room.
fn in_columns(answers: Vec<KeyAnswer>, height: f64) -> (Vec<Vec<KeyAnswer>>, Vec<KeyAnswer>) {
    let needs = |answer: &KeyAnswer| {
        let first = format!("{} {}", answer.label, answer.right);
        let way = if answer.way.is_empty() { 0.0 } else { rows(&answer.way, KEY_LETTERS) };
        (rows(&first, KEY_LETTERS) + way) * KEY_LINE + BETWEEN_ANSWERS
    };
    let all: f64 = answers.iter().map(needs).sum();
    let pages = (all / (KEY_COLUMNS as f64 * height)).ceil().max(1.0);
    // As high as each other, with what one answer may be too high.
    let column = (all / (KEY_COLUMNS as f64 * pages) + 3.0 * KEY_LINE).min(height);
    let mut columns: Vec<Vec<KeyAnswer>> = vec![Vec::new()];
    let mut left = column;
    let mut answers = answers.into_iter();
    while let Some(answer) = answers.next() {
        let takes = needs(&answer);
        if takes > left && columns.last().is_some_and(|column| !column.is_empty()) {
            if columns.len() == KEY_COLUMNS {
                return (columns, core::iter::once(answer).chain(answers).collect());
            }
            columns.push(Vec::new());
            left = column;
        }
        left -= takes;
        if let Some(column) = columns.last_mut() {
            column.push(answer);
        }
    }
    (columns, Vec::new())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::practise::paper::{PaperSize, Space, sections};
    use crookwise_practice::{AskedStaff, Exercise, Kind, Material};

    fn exercises() -> Vec<Exercise> {
        let staves = |labels: &[&str]| labels.iter().map(|label| AskedStaff::of(label)).collect::<Vec<_>>();
        let horns = ["Corni in Es", "Corni in D", "Clarinetti in A"];
        let page = ["Clarinetti in B", "Corni in Es", "Trombe in Es", "Viola", "Violoncello"];
        let in_hand = Some("Horn in F".to_owned());
        let mut all: Vec<Exercise> = Kind::ALL
            .iter()
            .map(|&kind| {
                let mut staves = if kind.is_of_one_staff() { staves(&horns[..2]) } else { staves(&page) };
                for staff in &mut staves {
                    staff.pair = kind == Kind::Players;
                }
                Exercise {
                    kinds: vec![kind],
                    staves,
                    in_hand: in_hand.clone(),
                    questions: 17,
                    ..Exercise::default()
                }
            })
            .collect();
        let kinds = vec![Kind::Sounds, Kind::Writes, Kind::Label, Kind::Partial];
        all.push(Exercise { kinds, staves: staves(&horns), questions: 40, ..Exercise::default() });
        let material = Material::Phrases(Vec::new());
        all.push(Exercise { material, staves: staves(&horns), questions: 21, ..Exercise::default() });
        all
    }

    #[test]
    fn pages_hold_every_question_once_in_order_and_none_stands_alone() {
        for exercise in exercises() {
            let questions = exercise.questions().unwrap();
            for size in PaperSize::ALL {
                for space in Space::ALL {
                    let wishes = PaperWishes { size, space, ..PaperWishes::default() };
                    let sections = sections(&questions, Names::default());
                    let sheet = UnbrokenSheet::of(&sections, wishes, Names::default()).under("A title", true);
                    let what = format!("{:?} on {size:?} with {space:?}", exercise.kinds);
                    let lines = |page: &PaperPage| -> Vec<PaperLine> {
                        let all = page.blocks.iter();
                        all.filter_map(|block| match block {
                            Block::Questions(line) => Some(line.clone()),
                            Block::Instruction { .. } => None,
                        })
                        .collect()
                    };
                    let mut numbers = Vec::new();
                    for (at, page) in sheet.pages.iter().enumerate() {
                        let here: Vec<usize> = lines(page)
                            .iter()
                            .flat_map(|line| line.pieces.iter().flat_map(|piece| piece.numbers.clone()))
                            .collect();
                        assert!(here.len() > 1, "{what}: page {} holds {here:?}", at + 1);
                        assert!(!matches!(page.blocks.last(), Some(Block::Instruction { .. })), "{what}");
                        let takes: f64 = page.blocks.iter().map(Block::height).sum();
                        assert!(takes <= size.height(), "{what}: {takes}");
                        for line in lines(page) {
                            let between = 26.0 * (line.pieces.len() - 1) as f64;
                            let wide: f64 = line.pieces.iter().map(|piece| piece.width).sum();
                            assert!(wide + between <= size.width() + 1.0, "{what}: {wide}");
                        }
                        numbers.extend(here);
                    }
                    assert_eq!(numbers, (1..=questions.len()).collect::<Vec<_>>(), "{what}");
                    let mut key: Vec<usize> = Vec::new();
                    for page in &sheet.key {
                        let pieces = page.lines.iter().flat_map(|line| &line.pieces);
                        let engraved: Vec<usize> = pieces.flat_map(|piece| piece.numbers.clone()).collect();
                        let said = page.columns.iter().flatten().map(|one| one.number);
                        let here: Vec<usize> = engraved.into_iter().chain(said).collect();
                        assert!(here.len() > 1, "{what}: a page of the key holds {here:?}");
                        let takes: f64 = page.lines.iter().map(|line| line.height + BETWEEN_LINES).sum();
                        assert!(takes <= size.height(), "{what}: {takes}");
                        key.extend(here);
                    }
                    key.sort_unstable();
                    assert_eq!(key, numbers, "{what}");
                }
            }
        }
    }

    #[test]
    fn short_questions_of_a_staff_share_it() {
        let staves = vec![AskedStaff::of("Corni in Es")];
        let exercise = Exercise { staves, questions: 12, ..Exercise::default() };
        let sections = sections(&exercise.questions().unwrap(), Names::default());
        let lines = lines(&sections[0].items, PaperWishes::default(), Names::default());
        let shape: Vec<Vec<usize>> =
            lines.iter().map(|line| line.pieces.iter().map(|piece| piece.numbers.len()).collect()).collect();
        assert_eq!(shape, [[6], [6]]);
        for piece in lines.iter().flat_map(|line| &line.pieces) {
            assert_eq!(piece.label.as_ref().unwrap().0, "Corni in Es");
            // Two staves of five lines, and a bar line behind each question on both.
            assert!((piece.width - 680.0).abs() < 20.0, "{}", piece.width);
        }
    }

    /// How many pages so many questions about a chord of these staves take.
    fn pages_of_chords(labels: &[&str], questions: u8, size: PaperSize) -> usize {
        let staves = labels.iter().map(|label| AskedStaff::of(label)).collect();
        let exercise = Exercise { kinds: vec![Kind::Chord], staves, questions, ..Exercise::default() };
        let sections = sections(&exercise.questions().unwrap(), Names::default());
        let wishes = PaperWishes { size, ..PaperWishes::default() };
        let sheet = UnbrokenSheet::of(&sections, wishes, Names::default()).under("A title", true);
        assert!(sheet.pages[0].blocks.iter().any(|block| block.questions() > 0), "nothing under the title");
        sheet.pages.len()
    }

    #[test]
    fn chords_of_the_same_staves_stand_in_bars_of_one_system() {
        let few = ["Clarinetti in B", "Corni in Es", "Trombe in Es", "Viola", "Violoncello"];
        let winds = ["Flauti", "Oboi", "Clarinetti in B", "Fagotti", "Corni in Es", "Corni in C"];
        let many = [&winds[..], &["Trombe in Es", "Timpani in Es-B", "Violini", "Viola", "Bassi"]].concat();
        let most = [&many[..], &["Corni in F", "Oboi", "Flauti", "Violini", "Violoncello"]].concat();
        for size in PaperSize::ALL {
            let pages = [(&few[..], 17), (&many, 10), (&most, 6)]
                .map(|(labels, questions)| pages_of_chords(labels, questions, size));
            assert!(pages.iter().zip([2, 2, 3]).all(|(pages, most)| *pages <= most), "{pages:?} on {size:?}");
        }
    }
}
