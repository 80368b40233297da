//! What is done to a course over weeks, step by step, each with what takes it back.

use super::codes::{self, KeptCodes};
use super::named::{self, Named};
use super::plans::{self, KeptPlan};
use crate::state::store::Drawers;
use crookwise_practice::clean_title;
use crookwise_share::Day;
use crookwise_share::practise::SentExercise;
use crookwise_share::weeks::{MOST_OF_A_WEEK, MOST_WEEKS, PlannedWeek, WeekPlan};

/// A step.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanChange {
    /// Another title.
    Title(String),
    /// Another day for a week.
    By(usize, Option<Day>),
    /// One more week, there.
    PutWeek(usize, PlannedWeek),
    /// A week goes, as it was seen.
    TakeWeek(usize, PlannedWeek),
    /// One more exercise in a week, there.
    PutExercise(usize, usize, SentExercise),
    /// An exercise of a week goes, as it was seen.
    TakeExercise(usize, usize, SentExercise),
    /// One more place of a movement in a week, there, as the pairs of the link to it.
    PutPlace(usize, usize, String),
    /// A place of a week goes, as it was seen.
    TakePlace(usize, usize, String),
}

impl PlanChange {
    /// Does it; gives what takes it back. `None` where there is nothing to do, no room, or what was seen is there no more.
    pub fn make(self, plan: &mut WeekPlan) -> Option<Self> {
        match self {
            Self::Title(title) => {
                let title = clean_title(&title).trim().to_owned();
                let is_other = title != plan.title;
                let before = core::mem::replace(&mut plan.title, title);
                is_other.then_some(Self::Title(before))
            }
            Self::By(at, by) => {
                let week = plan.weeks.get_mut(at)?;
                let before = core::mem::replace(&mut week.by, by);
                (before != by).then_some(Self::By(at, before))
            }
            Self::PutWeek(at, week) => {
                if plan.weeks.len() >= MOST_WEEKS {
                    return None;
                }
                let at = at.min(plan.weeks.len());
                plan.weeks.insert(at, week.clone());
                Some(Self::TakeWeek(at, week))
            }
            Self::TakeWeek(at, seen) => {
                plan.weeks.get(at).filter(|week| **week == seen)?;
                Some(Self::PutWeek(at, plan.weeks.remove(at)))
            }
            Self::PutExercise(week, at, exercise) => {
                let all = &mut room_in(plan, week)?.exercises;
                let at = at.min(all.len());
                let exercise = exercise.titled(exercise.title());
                all.insert(at, exercise.clone());
                Some(Self::TakeExercise(week, at, exercise))
            }
            Self::TakeExercise(week, at, seen) => {
                let all = &mut plan.weeks.get_mut(week)?.exercises;
                all.get(at).filter(|exercise| **exercise == seen)?;
                Some(Self::PutExercise(week, at, all.remove(at)))
            }
            Self::PutPlace(week, at, place) => {
                let all = &mut room_in(plan, week)?.places;
                let at = at.min(all.len());
                all.insert(at, place.clone());
                Some(Self::TakePlace(week, at, place))
            }
            Self::TakePlace(week, at, seen) => {
                let all = &mut plan.weeks.get_mut(week)?.places;
                all.get(at).filter(|place| **place == seen)?;
                Some(Self::PutPlace(week, at, all.remove(at)))
            }
        }
    }
}

/// A week that has room for one thing more.
fn room_in(plan: &mut WeekPlan, week: usize) -> Option<&mut PlannedWeek> {
    plan.weeks.get_mut(week).filter(|week| week.exercises.len() + week.places.len() < MOST_OF_A_WEEK)
}

/// The week that comes next: seven days after the last, where that has a day.
#[must_use]
pub fn next_week(plan: &WeekPlan) -> PlannedWeek {
    let by = plan.weeks.last().and_then(|week| week.by).map(|day| day.later(7));
    PlannedWeek { by, ..PlannedWeek::default() }
}

/// Changes a course as it stands there; gives what takes it back.
pub fn change(kept: &mut Drawers, number: u32, step: PlanChange) -> Option<PlanChange> {
    let mut one = plans::of(kept, number)?;
    let back = step.make(&mut one.plan)?;
    plans::put(kept, &one);
    Some(back)
}

/// What takes back what was done to the lists.
#[derive(Clone, Debug, PartialEq)]
pub enum TakeBack {
    /// An exercise was taken out.
    OutNamed(Named),
    /// An exercise took the place of another.
    Replaced(Named),
    /// An exercise has got another title.
    Renamed {
        /// As it is now.
        now: Named,
        /// As it was.
        before: Named,
    },
    /// A course was taken out, or another form of it has come.
    Plan(KeptPlan),
    /// Something of a course was changed.
    Changed(u32, PlanChange),
    /// Codes of a class were taken away.
    Codes(Vec<KeptCodes>),
}

impl TakeBack {
    /// Takes it back; nothing is lost that has come meanwhile.
    pub fn make(self, kept: &mut Drawers) {
        match self {
            Self::OutNamed(one) => drop(named::take_in(kept, &one)),
            Self::Replaced(one) => named::put(kept, &one),
            Self::Renamed { now, before } => {
                if named::remove(kept, &now) {
                    let _ = named::take_in(kept, &before);
                }
            }
            Self::Plan(one) => plans::put(kept, &one),
            Self::Changed(number, step) => drop(change(kept, number, step)),
            Self::Codes(all) => {
                for one in all {
                    let _ = codes::join(kept, one);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::sent;
    use super::*;

    #[test]
    fn every_step_is_taken_back() {
        let mut plan = WeekPlan { number: 1, title: "Autumn".into(), weeks: Vec::new() };
        let first = PlannedWeek {
            by: "2026-12-14".parse().ok(),
            exercises: vec![sent("A", 1)],
            ..PlannedWeek::default()
        };
        let steps = [
            PlanChange::PutWeek(9, first.clone()),
            PlanChange::Title(" Winter \n".into()),
            PlanChange::PutExercise(0, 9, sent("B ", 2)),
            PlanChange::By(0, None),
            PlanChange::PutPlace(0, 4, "demo=1&bars=5-12".into()),
            PlanChange::TakeExercise(0, 0, sent("A", 1)),
            PlanChange::TakePlace(0, 0, "demo=1&bars=5-12".into()),
            PlanChange::TakeWeek(0, PlannedWeek { exercises: vec![sent("B", 2)], ..PlannedWeek::default() }),
        ];
        for step in steps {
            let before = plan.clone();
            let back = step.clone().make(&mut plan).unwrap_or_else(|| panic!("{step:?}"));
            assert_ne!(plan, before, "{step:?}");
            let mut again = plan.clone();
            assert!(back.make(&mut again).is_some());
            assert_eq!(again, before, "{step:?}");
            assert_eq!(WeekPlan::from_text(&plan.to_text()), Ok(plan.clone()));
        }
        assert_eq!((plan.title.as_str(), plan.weeks.len()), ("Winter", 0));
    }

    #[test]
    fn what_is_there_no_more_is_left_alone() {
        let week = PlannedWeek { exercises: vec![sent("A", 1)], ..PlannedWeek::default() };
        let mut plan = WeekPlan { number: 1, title: "x".into(), weeks: vec![week] };
        let before = plan.clone();
        for step in [
            PlanChange::TakeWeek(0, PlannedWeek::default()),
            PlanChange::TakeWeek(3, PlannedWeek::default()),
            PlanChange::TakeExercise(0, 0, sent("B", 1)),
            PlanChange::TakePlace(0, 0, "demo=1".into()),
            PlanChange::By(5, None),
            PlanChange::By(0, None),
            PlanChange::Title("x ".into()),
        ] {
            assert_eq!(step.make(&mut plan), None);
            assert_eq!(plan, before);
        }
        plan.weeks = vec![PlannedWeek::default(); MOST_WEEKS];
        assert_eq!(PlanChange::PutWeek(0, PlannedWeek::default()).make(&mut plan), None);
        // A full week takes neither an exercise nor a place.
        plan.weeks[0].places = vec!["demo=1".into(); MOST_OF_A_WEEK - 1];
        assert!(PlanChange::PutExercise(0, 0, sent("A", 1)).make(&mut plan).is_some());
        assert_eq!(PlanChange::PutPlace(0, 0, "demo=1".into()).make(&mut plan), None);
    }

    #[test]
    fn a_week_follows_after_seven_days() {
        let week = |by: &str| PlannedWeek { by: by.parse().ok(), ..PlannedWeek::default() };
        let plan = |weeks| WeekPlan { number: 1, title: String::new(), weeks };
        assert_eq!(next_week(&plan(vec![week("2026-12-28")])), week("2027-01-04"));
        assert_eq!(next_week(&plan(vec![week("")])), week(""));
        assert_eq!(next_week(&plan(Vec::new())), week(""));
    }

    #[test]
    fn what_was_done_to_the_lists_is_taken_back() {
        let mut kept = Drawers::default();
        named::keep(&mut kept, &sent("A", 1), 1).unwrap();
        let one = named::list(&kept)[0].clone();
        let before = kept.clone();
        named::remove(&mut kept, &one);
        TakeBack::OutNamed(one.clone()).make(&mut kept);
        assert_eq!(kept, before);
        let replaced = named::keep(&mut kept, &sent("A", 2), 5).unwrap().unwrap();
        TakeBack::Replaced(replaced).make(&mut kept);
        assert_eq!(kept, before);
        let now = named::rename(&mut kept, &one, "B").unwrap();
        TakeBack::Renamed { now, before: one.clone() }.make(&mut kept);
        assert_eq!(kept, before);
        // One of the same title that has come meanwhile stays.
        named::remove(&mut kept, &one);
        named::keep(&mut kept, &sent("A", 7), 9).unwrap();
        TakeBack::OutNamed(one).make(&mut kept);
        assert_eq!(named::list(&kept).len(), 2);
        let plan = WeekPlan { number: 3, title: "Autumn".into(), weeks: vec![PlannedWeek::default()] };
        plans::keep(&mut kept, &plan, 1).unwrap();
        let before = kept.clone();
        let back = change(&mut kept, 3, PlanChange::TakeWeek(0, PlannedWeek::default())).unwrap();
        TakeBack::Changed(3, back).make(&mut kept);
        assert_eq!(kept, before);
        let out = plans::remove(&mut kept, 3).unwrap();
        TakeBack::Plan(out).make(&mut kept);
        assert_eq!(kept, before);
    }
}
