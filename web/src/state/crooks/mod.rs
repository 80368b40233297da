//! The place Crooks: what is asked, the plans for it, and the way back through what was changed.

pub mod chips;
pub mod gaps;
mod hand_mending;
pub mod heard;
pub mod key_rows;
pub mod mending;
pub mod other_plan;
pub mod picture;
pub mod printed;
pub mod setting;
pub mod summary;
pub mod taking;
pub mod typed;
pub mod wishes;

use crate::state::kept::{Derived, Watched};
use crate::state::steps::Steps;
use crate::words::{Letters, Names, crooks as words};
use crookwise_planner::{Plan, Planned};
use crookwise_share::crooks::{CrooksLink, CrooksView, CrooksWanted};
use leptos::prelude::use_context;
use picture::PlanPicture;
use printed::PrintedPlan;
use typed::FilledBars;
use wishes::{Wish, WishTally};

/// The way back through the settings.
type SettingSteps = Steps<CrooksLink, 100>;

/// Plans that are sought for notes, which may take its time.
#[derive(Clone, Debug, PartialEq)]
pub struct SoughtPlans {
    /// For what.
    pub asked: CrooksLink,
    /// What was found so far, or why nothing is sought.
    pub found: Result<Planned, String>,
    /// Whether the search goes on.
    pub goes_on: bool,
}

/// A plan with what it does.
#[derive(Clone, Debug, PartialEq)]
pub struct ShownPlan {
    /// Which it is, from 0.
    pub at: usize,
    /// The plan.
    pub plan: Plan,
    /// What becomes of everything that is wanted.
    pub wishes: Vec<Wish>,
    /// The same, counted.
    pub tally: WishTally,
    /// As it is drawn.
    pub picture: PlanPicture,
}

/// Handles on the state of Crooks; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Crooks {
    /// What is asked, and what of it is looked at.
    pub setting: Watched<CrooksLink>,
    /// The way back.
    steps: Watched<SettingSteps>,
    /// Whether the last step was made by typing, which goes on.
    is_typing: Watched<bool>,
    /// The keys as they stand in their field.
    pub typed: Watched<String>,
    /// What of them is not understood.
    pub typed_problem: Watched<Option<String>>,
    /// What of the setting decides which plans there are.
    pub asked: Derived<CrooksLink>,
    /// What is sought for notes.
    pub sought: Watched<Option<SoughtPlans>>,
    /// The plans, or why there are none; nothing is said while they are sought.
    pub plans: Derived<Result<Planned, String>>,
    /// The one that is looked at.
    pub shown: Derived<Option<ShownPlan>>,
    /// What the crooks give that are printed where the notes were taken from; nothing where that is not known.
    pub printed: Derived<Option<PrintedPlan>>,
    /// The gap that is looked at.
    pub gap: Watched<Option<usize>>,
    /// How wide the bars are drawn, in pixels.
    pub width: Watched<u32>,
    /// How the reader names notes.
    pub names: Watched<Names>,
}

impl Crooks {
    /// With a movement of our own.
    #[must_use]
    pub fn new(first: CrooksLink) -> Self {
        let typed = Watched::new(typed::write(setting::keys(&first)));
        let setting = Watched::new(first);
        let asked = Derived::new(move || asked(&setting.read()));
        let sought = Watched::new(None::<SoughtPlans>);
        let plans = Derived::new(move || {
            let asked = asked.read();
            if let Some(family) = setting::without_crooks(&asked) {
                return Err(words::no_crook_of(family).to_owned());
            }
            if matches!(asked.wanted, CrooksWanted::Notes(_)) {
                let found = sought.and_then(|sought| (sought.asked == *asked).then(|| sought.found.clone()));
                return found.unwrap_or_else(|| Err(String::new()));
            }
            setting::key_request(&asked).plan().map_err(|error| error.to_string())
        });
        let shown = Derived::new(move || {
            let (plans, setting) = (plans.read(), setting.read());
            ShownPlan::of(&setting, plans.as_ref().as_ref().ok()?)
        });
        let printed = Derived::new(move || PrintedPlan::of(&asked.read()));
        Self {
            setting,
            steps: Watched::new(SettingSteps::default()),
            is_typing: Watched::new(false),
            typed,
            typed_problem: Watched::new(None),
            asked,
            sought,
            plans,
            shown,
            printed,
            gap: Watched::new(None),
            width: Watched::new(0),
            names: Watched::new(Names::default()),
        }
    }

    /// The same for a reader who names notes so.
    #[must_use]
    pub fn named(self, names: Watched<Names>) -> Self {
        Self { names, ..self }
    }

    /// The state of Crooks.
    ///
    /// # Panics
    /// Never in Crooks, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("Crooks provides its state")
    }

    /// Changes what is asked; a step that can be taken back.
    pub fn change(self, change: impl FnOnce(&mut CrooksLink)) {
        self.is_typing.set(false);
        if self.step(change) {
            self.write_keys();
        }
    }

    /// Whether something was changed.
    fn step(self, change: impl FnOnce(&mut CrooksLink)) -> bool {
        let before = self.setting.get_untracked();
        self.setting.update(change);
        let is_other = self.setting.with_untracked(|now| *now != before);
        if is_other {
            self.steps.update(|steps| steps.made(before));
            self.gap.set(None);
        }
        is_other
    }

    /// Looks at something else of what there is, which is no step.
    pub fn look(self, change: impl FnOnce(&mut CrooksLink)) {
        self.setting.update(change);
    }

    /// Takes keys as they are typed: all letters of a wish are one step.
    pub fn type_keys(self, text: &str) {
        self.typed.set(text.to_owned());
        match typed::read(text, self.letters()) {
            Ok(keys) => {
                self.typed_problem.set(None);
                if self.is_typing.get_untracked() {
                    self.setting.update(|setting| setting::set_keys(setting, keys));
                    self.gap.set(None);
                } else {
                    let is_other = self.step(|setting| setting::set_keys(setting, keys));
                    self.is_typing.set(is_other);
                }
            }
            // The last piece may be half a word yet.
            Err(problem) => {
                let told = (!problem.is_at_the_end_of(text)).then(|| problem.sentence());
                self.typed_problem.set(told);
            }
        }
    }

    fn letters(self) -> Letters {
        self.names.get_untracked().letters
    }

    /// What stands in the field: what was typed, until it means other keys than are wanted.
    #[must_use]
    pub fn standing(self) -> String {
        let (letters, setting) = (self.names.get().letters, self.setting.read());
        self.typed.with(|typed| typed::standing(typed, setting::keys(&setting), letters))
    }

    /// How a bare B is read, where one stands there.
    #[must_use]
    pub fn bare_b(self) -> Option<&'static str> {
        let letters = self.names.get().letters;
        self.typed.with(|typed| typed::has_a_bare_b(typed)).then(|| words::bare_b(letters))
    }

    /// Whoever typed this has stopped, for a while at least: what is not understood is told.
    pub fn typed_so_far(self, text: &str) {
        if self.typed.with_untracked(|typed| typed == text) {
            self.typed_problem.set(typed::read(text, self.letters()).err().map(|problem| problem.sentence()));
        }
    }

    /// Typing is over: what is typed next is another step.
    pub fn typed_all(self) {
        self.is_typing.set(false);
        self.typed_so_far(&self.typed.get_untracked());
    }

    /// Whether what is shown is for what stood there before, since what is typed now is not understood.
    #[must_use]
    pub fn is_of_before(self) -> bool {
        self.wants_keys() && self.typed_problem.is_some()
    }

    /// Bars that have no key of their own in what is typed, with the key they are planned in.
    #[must_use]
    pub fn filled(self) -> Vec<FilledBars> {
        self.typed.with(|typed| typed::filled(typed, self.names.get().letters))
    }

    /// Takes back the last change; whether there was one.
    pub fn undo(self) -> bool {
        self.go(SettingSteps::back)
    }

    /// Makes again what was taken back; whether something was.
    pub fn redo(self) -> bool {
        self.go(SettingSteps::forth)
    }

    /// Whether there is a way back, and one forth.
    #[must_use]
    pub fn ways(self) -> (bool, bool) {
        self.steps.read().ways()
    }

    fn go(self, way: fn(&mut SettingSteps, CrooksLink) -> Option<CrooksLink>) -> bool {
        let now = self.setting.get_untracked();
        let Some(other) = self.steps.update(|steps| way(steps, now)) else { return false };
        self.is_typing.set(false);
        self.setting.set(other);
        self.gap.set(None);
        self.write_keys();
        true
    }

    /// Opens a setting that a link brought. What was there before is a step back.
    pub fn open(self, brought: CrooksLink) {
        self.change(|setting| *setting = brought);
    }

    /// Looks at the plan so many places further down.
    pub fn turn(self, places: isize) {
        let many =
            self.plans.with_untracked(|plans| plans.as_ref().map_or(0, |plans| plans.outcome.plans.len()));
        self.gap.set(None);
        self.look(|setting| {
            let at = setting.plan.saturating_add_signed(places);
            setting.plan = at.min(many.saturating_sub(1));
        });
    }

    /// Whether keys are wanted, and not notes.
    #[must_use]
    pub fn wants_keys(self) -> bool {
        self.setting.with(|setting| matches!(setting.wanted, CrooksWanted::Keys(_)))
    }

    /// Whether plans for what is asked are being sought.
    #[must_use]
    pub fn is_seeking(self) -> bool {
        let asked = self.asked.read();
        self.sought.map(|sought| sought.goes_on && sought.asked == *asked).unwrap_or_default()
    }

    /// Looks at a gap, or no longer.
    pub fn look_at_gap(self, at: usize) {
        self.gap.update(|gap| *gap = (*gap != Some(at)).then_some(at));
    }

    /// Looks into the gap that is looked at.
    pub fn with_gap<R>(self, look: impl FnOnce(&PlanPicture, &gaps::Gap) -> R) -> Option<R> {
        let at = self.gap.get()?;
        self.shown.and_then(|shown| shown.picture.gaps.get(at).map(|gap| look(&shown.picture, gap)))
    }

    fn write_keys(self) {
        self.typed.set(self.setting.with_untracked(|setting| typed::write(setting::keys(setting))));
        self.typed_problem.set(None);
    }
}

/// What of a setting decides which plans there are.
fn asked(setting: &CrooksLink) -> CrooksLink {
    let CrooksLink { table, shown, mine, typed, .. } = CrooksLink::default();
    CrooksLink { view: CrooksView::Plans, plan: 0, table, shown, mine, typed, ..setting.clone() }
}

impl ShownPlan {
    /// The plan that a setting looks at; the last where there are fewer.
    fn of(setting: &CrooksLink, plans: &Planned) -> Option<Self> {
        let all = &plans.outcome.plans;
        let at = setting.plan.min(all.len().checked_sub(1)?);
        let plan = all.get(at)?.clone();
        let wishes = wishes::wishes(&plans.request, &plan);
        let picture = PlanPicture::of(setting, &plans.request, &plan, &wishes);
        Some(Self { at, tally: WishTally::of(&wishes), picture, wishes, plan })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use leptos::prelude::Owner;

    fn crooks() -> (Owner, Crooks) {
        let owner = Owner::new();
        owner.set();
        (owner, Crooks::new(setting::first()))
    }

    #[test]
    fn keys_are_planned_as_they_are_typed_and_typing_is_one_step() {
        let (_owner, crooks) = crooks();
        let first = crooks.setting.get();
        for text in ["D", "D minor", "D minor 1-4", "D minor 1-48"] {
            crooks.type_keys(text);
        }
        assert_eq!(crooks.typed_problem.get(), None);
        let shown = crooks.shown.get().unwrap();
        assert_eq!((shown.tally.wanted, shown.picture.keys.len()), (48 * 3, 1));
        assert!(crooks.undo());
        assert_eq!(crooks.setting.get(), first);
        assert!(crooks.typed.get().starts_with("G minor 1-32"));
        assert!(!crooks.undo() && crooks.redo());
        assert_eq!(crooks.typed.get(), "D minor 1-48");
    }

    #[test]
    fn what_is_not_understood_leaves_the_plan_alone() {
        let (_owner, crooks) = crooks();
        let before = crooks.plans.get();
        crooks.type_keys("G minor 1-32, quark");
        // It may be half a word yet.
        assert!(crooks.typed_problem.get().is_none() && !crooks.is_of_before());
        crooks.typed_so_far("G minor 1-32, qua");
        assert_eq!(crooks.typed_problem.get(), None);
        crooks.typed_so_far("G minor 1-32, quark");
        assert!(crooks.is_of_before());
        assert!(crooks.typed_problem.get().unwrap().contains("quark"));
        assert_eq!((crooks.plans.get(), crooks.typed.get().as_str()), (before, "G minor 1-32, quark"));
    }

    #[test]
    fn what_is_wrong_before_the_end_is_told_at_once_and_the_end_when_typing_is_over() {
        let (_owner, crooks) = crooks();
        crooks.type_keys("quark 1-32, G min");
        assert!(crooks.typed_problem.get().unwrap().contains("quark"));
        crooks.type_keys("G minor 1-32, G min 20");
        assert_eq!(crooks.typed_problem.get(), None);
        crooks.type_keys("");
        assert_eq!(crooks.typed_problem.get(), None);
        crooks.typed_all();
        assert!(crooks.is_of_before());
        crooks.type_keys("C minor 5-40, E-flat major 60-70");
        assert_eq!((crooks.typed_problem.get(), crooks.filled().len()), (None, 2));
    }

    #[test]
    fn plans_are_turned_over_and_end() {
        let (_owner, crooks) = crooks();
        let many = crooks.plans.get().unwrap().outcome.plans.len();
        assert!(many > 1);
        crooks.turn(-1);
        assert_eq!(crooks.shown.get().unwrap().at, 0);
        for _ in 0..many + 3 {
            crooks.turn(1);
        }
        assert_eq!(crooks.shown.get().unwrap().at, many - 1);
        // Looking is no step.
        assert_eq!(crooks.ways(), (false, false));
    }

    #[test]
    fn horns_without_a_crook_are_told_so() {
        let (_owner, crooks) = crooks();
        crooks.change(|setting| setting::set_crooks(setting, crookwise_theory::CrookFamily::Horn, &[]));
        assert_eq!(crooks.plans.get().unwrap_err(), "The horns have no crook yet: tick those they own.");
    }

    #[test]
    fn nobody_is_said() {
        let (_owner, crooks) = crooks();
        crooks.change(|setting| setting.players.clear());
        assert!(crooks.plans.get().unwrap_err().contains("no players"));
        assert!(crooks.undo() && crooks.plans.get().is_ok());
    }
}
