//! The movement that is open in Score, and what the reader does with it: parts and bars chosen, labels corrected.

pub mod along;
pub mod audit_table;
pub mod audited;
pub mod bars;
pub mod correcting;
pub mod doubts;
pub mod drawn;
pub mod laid_out;
pub mod link;
pub mod map;
pub mod map_picture;
pub mod moment;
pub mod music;
pub mod on_wall;
pub mod part_paper;
pub mod playback;
pub mod readings;
pub mod walk;

use crate::state::kept::Watched;
use crate::state::steps::Steps;
use crate::state::store::left::{self, LeftScore};
use crate::state::store::scores::KeptScore;
use crookwise_opened::{AuditStaff, Correction, StaffRow, Summary};
use crookwise_theory::order::put_in_order;
use leptos::prelude::{untrack, use_context};

/// Which opening of a score, and the corrections that lie over it: what was told of another is not of this one.
pub type ScoreNow = (u32, String);

/// The way back through what was corrected.
type CorrectingSteps = Steps<Vec<Correction>, 100>;

/// Where the movement on the screen came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ComesFrom {
    /// The one that comes with the app.
    Demo,
    /// A file of this name among the kept ones.
    File(String),
}

/// A movement that is open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenMovement {
    /// Where it came from.
    pub source: ComesFrom,
    /// The name of its file.
    pub file: String,
    /// What is in it.
    pub summary: Summary,
}

/// A file on its way to the screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnItsWay {
    /// Its name.
    pub name: String,
    /// How far it is, in hundredths.
    pub hundredths: u32,
}

/// Handles on the state of Score; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Movement {
    /// The scores that are kept on the device, once they are known.
    pub shelf: Watched<Option<Vec<KeptScore>>>,
    /// The scores that were taken off the device and can be put back, by id and name, the last one last.
    pub removed: Watched<Vec<(String, String)>>,
    /// Counts what was opened: what comes late of one before is dropped.
    pub openings: Watched<u32>,
    /// How far down the page was scrolled when bars of it were taken elsewhere.
    pub depth: Watched<f64>,
    /// What is on its way.
    pub on_its_way: Watched<Option<OnItsWay>>,
    /// What is open.
    pub open: Watched<Option<OpenMovement>>,
    /// What could not be done.
    pub problem: Watched<Option<String>>,
    /// Why a file could not be written.
    pub file_problem: Watched<Option<String>>,
    /// What was done.
    pub said: Watched<Option<String>>,
    /// The staves that are listed first, by number, as they stood out when the score was opened.
    pub first: Watched<Vec<u32>>,
    /// The staves that are chosen, by number.
    pub chosen: Watched<Vec<u32>>,
    /// The first bar that is chosen, as typed.
    pub from: Watched<String>,
    /// The last bar, as typed.
    pub to: Watched<String>,
    /// The bars that were offered from where the reader was, as typed: nobody has chosen them.
    offered: Watched<(String, String)>,
    /// The bar that was looked at when it was left last, counted from 0.
    pub at: Watched<Option<u32>>,
    /// How many columns of a page the choice takes, or why it cannot be shown; nothing while it is reckoned.
    pub fits: Watched<Option<Result<u32, String>>>,
    /// What was corrected.
    pub corrections: Watched<Vec<Correction>>,
    /// The staff whose label is to be corrected in the list of parts.
    pub corrects: Watched<Option<u32>>,
    /// The way back through it.
    steps: Watched<CorrectingSteps>,
    /// The corrections that lie over the score, as text.
    pub laid: Watched<String>,
    /// The audit; nothing while it is made.
    pub audit: Watched<Option<Vec<AuditStaff>>>,
    /// Whether brass with valves is audited too.
    pub valves_too: Watched<bool>,
    /// The notes that were asked for in the audit: staff, crook and kind, each by number.
    pub shown: Watched<Option<audited::AskedNotes>>,
}

/// Bars that are chosen to begin with.
const FIRST_BARS: usize = 4;

impl Movement {
    /// Nothing is open.
    #[must_use]
    pub fn new() -> Self {
        Self {
            shelf: Watched::new(None),
            removed: Watched::new(Vec::new()),
            openings: Watched::new(0),
            depth: Watched::new(0.0),
            on_its_way: Watched::new(None),
            open: Watched::new(None),
            problem: Watched::new(None),
            file_problem: Watched::new(None),
            said: Watched::new(None),
            first: Watched::new(Vec::new()),
            chosen: Watched::new(Vec::new()),
            from: Watched::new(String::new()),
            to: Watched::new(String::new()),
            offered: Watched::new(Default::default()),
            at: Watched::new(None),
            fits: Watched::new(None),
            corrections: Watched::new(Vec::new()),
            corrects: Watched::new(None),
            steps: Watched::new(CorrectingSteps::default()),
            laid: Watched::new(String::new()),
            audit: Watched::new(None),
            valves_too: Watched::new(false),
            shown: Watched::new(None),
        }
    }

    /// The state of Score.
    ///
    /// # Panics
    /// Never in Score, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("Score provides its state")
    }

    /// Shows a movement as it was opened, with what lies corrected over it by now; chosen is what was when it was left, else
    /// what stands out in it and its first bars.
    pub fn show(self, open: OpenMovement, corrections: Vec<Correction>, left: Option<&LeftScore>) {
        self.laid.set(Correction::write(&corrections));
        self.audit.set(None);
        self.shown.set(None);
        self.problem.set(None);
        self.file_problem.set(None);
        self.corrections.set(corrections);
        self.steps.set(CorrectingSteps::default());
        self.first.set(standing_out(&open.summary));
        self.chosen.set(first_choice(&open.summary, left));
        let (from, to) = bars::first(&open.summary);
        self.from.set(from);
        self.to.set(to);
        self.offered.set(untrack(|| self.typed_bars()));
        self.at.set(left.and_then(|left| left.at));
        if let Some(LeftScore { from, to, .. }) = left {
            self.from.set(from.clone());
            self.to.set(to.clone());
        }
        self.open.set(Some(open));
    }

    /// Shows the same movement with other corrections.
    pub fn show_corrected(self, summary: Summary) {
        self.open.update(|open| {
            if let Some(open) = open {
                open.summary = summary;
            }
        });
    }

    /// The first and the last bar that are chosen, as they are typed.
    #[must_use]
    pub fn typed_bars(self) -> (String, String) {
        let typed = |bar: Watched<String>| bar.with(|bar| bar.trim().to_owned());
        (typed(self.from), typed(self.to))
    }

    /// Chooses what a link leads to, as far as the movement has it.
    pub fn lead_to(self, place: &link::LinkedPlace) {
        let is_here = |staff: &&u32| {
            let is = |open: &OpenMovement| {
                open.summary.parts.iter().flat_map(|part| &part.staves).any(|one| one.staff == **staff)
            };
            self.open.map(is).unwrap_or_default()
        };
        let staves: Vec<u32> = place.staves.iter().filter(is_here).copied().collect();
        if !staves.is_empty() {
            self.chosen.set(staves);
        }
        if let Some((first, last)) = &place.bars {
            self.from.set(first.clone());
            self.to.set(last.clone());
        }
    }

    /// How it would be left now: its name, and what is chosen; nothing where none is open.
    #[must_use]
    pub fn left(self) -> Option<(String, LeftScore)> {
        let source = self.open.map(|open| open.source.clone())?;
        let of_demo = || Correction::write(&self.corrections.read());
        let (id, corrections) = match source {
            ComesFrom::Demo => (left::DEMO.to_owned(), of_demo()),
            ComesFrom::File(id) => (id, String::new()),
        };
        let (from, to) = self.bars_left();
        let chosen = self.chosen.get();
        Some((id, LeftScore { chosen, from, to, corrections, at: self.at.get() }))
    }

    /// Nothing is open any more.
    pub fn close(self) {
        self.problem.set(None);
        self.file_problem.set(None);
        self.depth.set(0.0);
        self.open.set(None);
        self.audit.set(None);
        self.shown.set(None);
        self.fits.set(None);
        self.chosen.set(Vec::new());
        self.corrections.set(Vec::new());
    }

    /// Chooses a staff, or no longer.
    pub fn choose(self, staff: u32) {
        self.chosen.update(|chosen| match chosen.iter().position(|one| *one == staff) {
            Some(at) => drop(chosen.remove(at)),
            None => {
                let place = chosen.partition_point(|one| *one < staff);
                chosen.insert(place, staff);
            }
        });
    }

    /// Lists these staves first, too.
    pub fn list_first(self, staves: &[u32]) {
        self.first.update(|first| {
            first.extend(staves.iter().filter(|staff| !first.contains(staff)).copied().collect::<Vec<_>>());
            put_in_order(first, |one| *one);
        });
    }

    /// Ticks all of these staves, or none of them; the others stay as they are.
    pub fn tick(self, staves: &[u32], ticked: bool) {
        self.chosen.update(|chosen| {
            chosen.retain(|one| !staves.contains(one));
            if ticked {
                chosen.extend(staves);
                put_in_order(chosen, |one| *one);
            }
        });
    }

    /// The bars that are chosen, counted from 0.
    ///
    /// # Errors
    /// What cannot be found in the movement, as a sentence.
    pub fn bars(self) -> Result<(u32, u32), String> {
        let (from, to) = (self.from.read(), self.to.read());
        self.open.with(|open| match open {
            Some(open) => bars::chosen(&open.summary, &from, &to),
            None => Err(String::new()),
        })
    }

    /// The number of a bar as printed.
    #[must_use]
    pub fn printed(self, bar: u32) -> String {
        let at = usize::try_from(bar).unwrap_or(usize::MAX);
        self.open.and_then(|open| open.summary.bars.get(at).cloned()).unwrap_or_default()
    }

    /// The score as it is now.
    #[must_use]
    pub fn now(self) -> ScoreNow {
        (self.openings.get(), self.laid.get())
    }

    /// The label of a staff, corrected where it was.
    #[must_use]
    pub fn name_of(self, staff: u32) -> String {
        self.open
            .and_then(|open| {
                let staves = open.summary.parts.iter().flat_map(|part| &part.staves);
                staves.filter(|own| own.staff == staff).map(|own| own.label.clone()).next()
            })
            .unwrap_or_default()
    }

    /// Chooses a bar that was tapped; a second one after it chooses all from the first on.
    pub fn choose_bar(self, bar: u32, anchor: Watched<Option<u32>>) {
        let first = anchor.get_untracked().filter(|first| *first < bar);
        anchor.set(first.is_none().then_some(bar));
        self.from.set(self.printed_for_field(first.unwrap_or(bar)));
        self.to.set(self.printed_for_field(bar));
    }

    fn printed_for_field(self, bar: u32) -> String {
        untrack(|| self.printed(bar))
    }
}

impl Default for Movement {
    fn default() -> Self {
        Self::new()
    }
}

/// The staves that are chosen when a movement is opened: those that were when it was left, else those that stand out.
#[must_use]
pub fn first_choice(summary: &Summary, left: Option<&LeftScore>) -> Vec<u32> {
    let Some(left) = left else { return usual_choice(summary) };
    let is_here =
        |staff: &&u32| summary.parts.iter().flat_map(|part| &part.staves).any(|one| one.staff == **staff);
    left.chosen.iter().filter(is_here).copied().collect()
}

/// What is chosen to begin with: the brass and its drums, as many as a page holds; of a score without them its first staves.
#[must_use]
pub fn usual_choice(summary: &Summary) -> Vec<u32> {
    let mut chosen = standing_out(summary);
    chosen.truncate(crookwise_score::MOST_STAVES);
    chosen
}

/// The staves that stand out, by number: the brass and its drums; of a score without them all.
#[must_use]
pub fn standing_out(summary: &Summary) -> Vec<u32> {
    let some = |which: &dyn Fn(&&StaffRow) -> bool| -> Vec<u32> {
        let staves = summary.parts.iter().flat_map(|part| &part.staves);
        staves.filter(which).map(|staff| staff.staff).collect()
    };
    let out = some(&|staff| staff.stands_out);
    if out.is_empty() { some(&|_| true) } else { out }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_opened::PartRow;
    use leptos::prelude::Owner;

    fn summary() -> Summary {
        let staff =
            |number: u32, stands_out: bool| StaffRow { staff: number, stands_out, ..StaffRow::default() };
        let part = |staves: Vec<StaffRow>| PartRow { staves, ..PartRow::default() };
        Summary {
            bars: (1..=9).map(|bar| bar.to_string()).collect(),
            parts: vec![
                part(vec![staff(0, false)]),
                part(vec![staff(1, true)]),
                part(vec![staff(2, false), staff(3, true)]),
            ],
            ..Summary::default()
        }
    }

    fn movement() -> (Owner, Movement) {
        let owner = Owner::new();
        owner.set();
        let movement = Movement::new();
        let open = OpenMovement { source: ComesFrom::Demo, file: String::new(), summary: summary() };
        movement.show(open, Vec::new(), None);
        (owner, movement)
    }

    #[test]
    fn brass_and_its_drums_and_the_first_bars_are_chosen() {
        let (_owner, movement) = movement();
        assert_eq!(movement.chosen.get(), [1, 3]);
        assert_eq!(movement.bars(), Ok((0, 3)));
        let mut strings = summary();
        strings.parts.iter_mut().flat_map(|part| &mut part.staves).for_each(|staff| staff.stands_out = false);
        assert_eq!(usual_choice(&strings), [0, 1, 2, 3]);
    }

    #[test]
    fn staves_stay_in_the_order_of_the_score() {
        let (_owner, movement) = movement();
        movement.choose(2);
        movement.choose(1);
        movement.choose(0);
        assert_eq!(movement.chosen.get(), [0, 2, 3]);
    }

    #[test]
    fn all_of_a_list_are_ticked_or_none_and_the_others_stay() {
        let (_owner, movement) = movement();
        movement.tick(&[3, 0], true);
        assert_eq!(movement.chosen.get(), [0, 1, 3]);
        movement.tick(&[1, 3], false);
        assert_eq!(movement.chosen.get(), [0]);
    }

    #[test]
    fn a_movement_comes_back_as_it_was_left() {
        let (_owner, movement) = movement();
        movement.choose(0);
        movement.from.set("5".into());
        movement.to.set("A".into());
        movement.correct(1, |one| one.old_bass = true);
        let (id, left) = movement.left().unwrap();
        assert_eq!((id.as_str(), left.corrections.as_str()), (left::DEMO, "staff=1&bass=old"));
        movement.close();
        assert_eq!(movement.left(), None);
        let open = OpenMovement { source: ComesFrom::Demo, file: String::new(), summary: summary() };
        let other = LeftScore { chosen: vec![0, 1, 77], ..left.clone() };
        movement.show(open, Correction::read(&left.corrections), Some(&other));
        // What is not there any more is chosen no more.
        assert_eq!(movement.left().unwrap().1, LeftScore { chosen: vec![0, 1], ..left });
        assert_eq!(movement.laid.get(), "staff=1&bass=old");
    }

    #[test]
    fn a_link_chooses_what_the_movement_has() {
        let (_owner, movement) = movement();
        let place = link::LinkedPlace {
            staves: vec![0, 77],
            bars: Some(("5".into(), "7".into())),
            ..link::LinkedPlace::default()
        };
        movement.lead_to(&place);
        assert_eq!((movement.chosen.get(), movement.bars()), (vec![0], Ok((4, 6))));
        movement.lead_to(&link::LinkedPlace { staves: vec![77], ..link::LinkedPlace::default() });
        assert_eq!((movement.chosen.get(), movement.bars()), (vec![0], Ok((4, 6))));
    }

    #[test]
    fn no_staff_leaves_its_list_while_it_is_corrected() {
        let (_owner, movement) = movement();
        assert_eq!(movement.first.get(), [1, 3]);
        let mut corrected = summary();
        corrected.parts[1].staves[0].stands_out = false;
        movement.show_corrected(corrected.clone());
        assert_eq!(movement.first.get(), [1, 3]);
        // Nor when it is opened again.
        let open = OpenMovement { source: ComesFrom::Demo, file: String::new(), summary: corrected };
        movement.show(open, Vec::new(), None);
        movement.list_first(&standing_out(&summary()));
        assert_eq!(movement.first.get(), [1, 3]);
    }
}
