//! The movement that is open in Score, and what the reader does with it: parts and bars chosen, labels corrected.

pub mod audited;
pub mod bars;
pub mod link;
pub mod readings;

use crate::state::kept::Watched;
use crate::state::store::scores::KeptScore;
use crookwise_opened::{AuditStaff, Correction, Reads, StaffRow, Summary};
use leptos::prelude::use_context;

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
    /// The name of the score that was taken off the device last, while it can be put back.
    pub removed: Watched<Option<String>>,
    /// What is on its way.
    pub on_its_way: Watched<Option<OnItsWay>>,
    /// What is open.
    pub open: Watched<Option<OpenMovement>>,
    /// What could not be done.
    pub problem: Watched<Option<String>>,
    /// What was done.
    pub said: Watched<Option<String>>,
    /// The staves that are chosen, by number.
    pub chosen: Watched<Vec<u32>>,
    /// The first bar that is chosen, as typed.
    pub from: Watched<String>,
    /// The last bar, as typed.
    pub to: Watched<String>,
    /// How many columns of a page the choice takes, or why it cannot be shown; nothing while it is reckoned.
    pub fits: Watched<Option<Result<u32, String>>>,
    /// What was corrected.
    pub corrections: Watched<Vec<Correction>>,
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
            removed: Watched::new(None),
            on_its_way: Watched::new(None),
            open: Watched::new(None),
            problem: Watched::new(None),
            said: Watched::new(None),
            chosen: Watched::new(Vec::new()),
            from: Watched::new(String::new()),
            to: Watched::new(String::new()),
            fits: Watched::new(None),
            corrections: Watched::new(Vec::new()),
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

    /// Shows a movement as it was opened, with what is to be corrected in it; what stands out in it is chosen, and its first
    /// bars.
    pub fn show(self, open: OpenMovement, corrections: Vec<Correction>) {
        self.laid.set(String::new());
        self.audit.set(None);
        self.shown.set(None);
        self.problem.set(None);
        self.corrections.set(corrections);
        self.chosen.set(usual_choice(&open.summary));
        let bar = |at: usize| open.summary.bars.get(at).cloned().unwrap_or_default();
        self.from.set(bar(0));
        self.to.set(bar(FIRST_BARS.min(open.summary.bars.len()).saturating_sub(1)));
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

    /// Nothing is open any more.
    pub fn close(self) {
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

    /// Corrects a staff.
    pub fn correct(self, staff: u32, change: impl FnOnce(&mut Correction)) {
        self.corrections.update(|all| {
            let at = all.iter().position(|one| one.staff == staff).unwrap_or_else(|| {
                all.push(Correction { staff, ..Correction::default() });
                all.len() - 1
            });
            if let Some(one) = all.get_mut(at) {
                change(one);
            }
            all.retain(|one| !one.is_nothing());
        });
    }
}

impl Default for Movement {
    fn default() -> Self {
        Self::new()
    }
}

/// What is chosen to begin with: the brass and its drums, as many as a page holds; of a score without them its first staves.
#[must_use]
pub fn usual_choice(summary: &Summary) -> Vec<u32> {
    let staves = || summary.parts.iter().flat_map(|part| &part.staves);
    let some = |which: &dyn Fn(&&StaffRow) -> bool| -> Vec<u32> {
        staves().filter(which).take(crookwise_score::MOST_STAVES).map(|staff| staff.staff).collect()
    };
    let chosen = some(&|staff| staff.stands_out);
    if chosen.is_empty() { some(&|_| true) } else { chosen }
}

/// How a staff is corrected by a label: nothing where it is the file's own.
pub fn by_label(correction: &mut Correction, row: &StaffRow, label: &str) {
    let label = label.trim();
    correction.label = (label != row.label_by_file && !label.is_empty()).then(|| label.to_owned());
    correction.reads = Reads::AsGiven;
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
        movement.show(open, Vec::new());
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
    fn a_correction_that_is_taken_back_is_none() {
        let (_owner, movement) = movement();
        let row = StaffRow { label_by_file: "Corni in D".into(), ..StaffRow::default() };
        movement.correct(3, |one| by_label(one, &row, " Corni in Es "));
        assert_eq!(movement.corrections.get()[0].label.as_deref(), Some("Corni in Es"));
        movement.correct(3, |one| by_label(one, &row, "Corni in D"));
        assert!(movement.corrections.get().is_empty());
    }
}
