//! How far a course over weeks is done, by what was done on this device.

use crate::state::practise::run::{Run, Verdict};
use crate::state::store::lists::Lists;
use crate::state::store::lists::done::{Done, which};
use crookwise_practice::Exercise;
use crookwise_practice::record::Zone;
use crookwise_share::Day;
use crookwise_share::practise::SentExercise;
use crookwise_share::weeks::{PlannedWeek, WeekPlan};

/// What a run has made done at `now`, in seconds since 1970: an exercise that is over, of which at least half was answered.
#[must_use]
pub fn finished(run: &Run, now: u64) -> Option<Done> {
    let answered = run.done.iter().filter(|done| done.outcome != Verdict::LeftOut).count();
    let is_over = run.number().is_none() && !run.repetition;
    let done = || Done {
        exercise: which(&run.exercise),
        at: now,
        right: u8::try_from(run.right()).unwrap_or(u8::MAX),
        of: u8::try_from(run.questions.len()).unwrap_or(u8::MAX),
    };
    (is_over && answered * 2 >= run.questions.len()).then(done)
}

/// Where an exercise stands, or a whole week.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum HowFar {
    /// It is done; perhaps after its day.
    Done {
        /// After its day.
        late: bool,
    },
    /// It has no day and is not done.
    Open,
    /// Its day is not over yet.
    Due,
    /// Its day is over, and it is not done.
    Late,
}

/// What was done, and what day it is.
#[derive(Clone, Copy, Debug)]
pub struct Today<'a> {
    /// What was done.
    pub done: &'a [Done],
    /// The reader's clock.
    pub zone: Zone,
    /// The day on it.
    pub day: Day,
}

impl Today<'_> {
    /// Where an exercise stands that is to be done by a day, and what was done of it.
    #[must_use]
    pub fn exercise(&self, exercise: &SentExercise, by: Option<Day>) -> (HowFar, Option<Done>) {
        let number = exercise.open().ok().map(|exercise| which(&exercise));
        let done = self.done.iter().find(|done| Some(done.exercise) == number).copied();
        let standing = match (done, by) {
            (Some(done), by) => {
                let on = Day::of_seconds(self.zone.shown(done.at));
                HowFar::Done { late: by.is_some_and(|by| on > by) }
            }
            (None, None) => HowFar::Open,
            (None, Some(by)) if self.day > by => HowFar::Late,
            (None, Some(_)) => HowFar::Due,
        };
        (standing, done)
    }

    /// Where a week stands: as the exercise of it that is furthest behind. `None` where nothing is to be done in it.
    #[must_use]
    pub fn week(&self, week: &PlannedWeek) -> Option<HowFar> {
        week.exercises.iter().map(|one| self.exercise(one, week.by).0).max()
    }

    /// How many exercises of a course are done, and how many are late.
    #[must_use]
    pub fn counts(&self, plan: &WeekPlan) -> (usize, usize) {
        let [done, _, late] = self.counted(&plan.weeks);
        (done, late)
    }

    /// How many exercises of some weeks are done, due and late.
    fn counted<'p>(&self, weeks: impl IntoIterator<Item = &'p PlannedWeek>) -> [usize; 3] {
        let mut counted = [0; 3];
        let [done, due, late] = &mut counted;
        for week in weeks {
            for exercise in &week.exercises {
                match self.exercise(exercise, week.by).0 {
                    HowFar::Done { .. } => *done += 1,
                    HowFar::Due => *due += 1,
                    HowFar::Late => *late += 1,
                    HowFar::Open => {}
                }
            }
        }
        counted
    }
}

/// Whether a course over weeks has an exercise.
#[must_use]
pub fn has(lists: &Lists, exercise: &Exercise) -> bool {
    let wanted = which(exercise);
    let all = lists.plans.iter().flat_map(|one| &one.plan.weeks).flat_map(|week| &week.exercises);
    all.filter_map(|one| one.open().ok()).any(|one| which(&one) == wanted)
}

/// How many exercises of all courses are due, and how many are late.
#[must_use]
pub fn waiting(lists: &Lists, zone: Zone, day: Day) -> (usize, usize) {
    let today = Today { done: &lists.done, zone, day };
    let [_, due, late] = today.counted(lists.plans.iter().flat_map(|one| &one.plan.weeks));
    (due, late)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::store::lists::plans::KeptPlan;
    use crookwise_practice::AskedStaff;

    fn exercise(label: &str) -> Exercise {
        Exercise { staves: vec![AskedStaff::of(label)], ..Exercise::default() }
    }

    #[test]
    fn an_exercise_is_done_when_it_is_over_and_half_of_it_was_answered() {
        let set = Exercise { questions: 4, ..exercise("Corni in D") };
        let mut run = Run::begin(set.clone()).unwrap();
        for _ in 0..2 {
            assert_eq!(finished(&run, 5), None);
            let right = run.question().unwrap().right.clone();
            run.answer(Some(right), 900);
            run.go_on();
        }
        let mut less = Run::begin(set.clone()).unwrap();
        less.stop();
        assert_eq!(finished(&less, 5), None);
        run.stop();
        assert_eq!(finished(&run, 5), Some(Done { exercise: which(&set), at: 5, right: 2, of: 4 }));
        run.repetition = true;
        assert_eq!(finished(&run, 5), None);
    }

    #[test]
    fn what_was_done_in_time_is_done_and_what_was_not_is_late() {
        let day = |text: &str| text.parse::<Day>().unwrap();
        // The last minute of Monday on a clock two hours ahead, and the first of Tuesday.
        let (monday, tuesday) = (20_802 * 86_400 - 2 * 3_600 - 60, 20_802 * 86_400 - 2 * 3_600);
        assert_eq!(Day::of_seconds(20_802 * 86_400), day("2026-12-14").later(1));
        let zone = Zone::ahead(120);
        for (at, late) in [(monday, false), (tuesday, true)] {
            // Other questions of the kind count as well.
            let done = [Done { exercise: which(&exercise("Corni in D")), at, right: 8, of: 10 }];
            let other =
                SentExercise::of(&Exercise { seed: 99, title: "Monday".into(), ..exercise("Corni in D") });
            let not = SentExercise::of(&exercise("Corni in F"));
            let today = Today { done: &done, zone, day: day("2026-12-16") };
            let by = Some(day("2026-12-14"));
            assert_eq!(today.exercise(&other, by), (HowFar::Done { late }, Some(done[0])));
            assert_eq!(today.exercise(&other, None).0, HowFar::Done { late: false });
            assert_eq!(today.exercise(&not, by).0, HowFar::Late);
            assert_eq!(today.exercise(&not, Some(day("2026-12-16"))).0, HowFar::Due);
            assert_eq!(today.exercise(&not, None).0, HowFar::Open);
            let week = |by, exercises: &[&SentExercise]| PlannedWeek {
                by,
                exercises: exercises.iter().map(|one| (*one).clone()).collect(),
                places: Vec::new(),
            };
            assert_eq!(today.week(&week(by, &[&other])), Some(HowFar::Done { late }));
            assert_eq!(today.week(&week(by, &[&other, &not])), Some(HowFar::Late));
            assert_eq!(today.week(&week(None, &[])), None);
            let weeks = vec![week(by, &[&other, &not]), week(None, &[&not])];
            let plan = WeekPlan { number: 1, title: String::new(), weeks };
            assert_eq!(today.counts(&plan), (1, 1));
            let plans = vec![KeptPlan { plan, at: 1 }];
            let lists = Lists { plans, done: done.to_vec(), ..Lists::default() };
            assert_eq!(waiting(&lists, zone, today.day), (0, 1));
            assert_eq!(waiting(&lists, zone, day("2026-12-14")), (1, 0));
        }
    }
}
