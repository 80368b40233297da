//! Courses over weeks: each an entry under its number, changed step by step as it stands there, so that two windows can work
//! on the same one.

use super::{ListFull, key, texts};
use crate::state::store::entry::{self, Unread, What};
use crate::state::store::{Drawers, backup};
use crookwise_share::weeks::WeekPlan;
use crookwise_theory::order::in_order;

/// Courses that are kept at most.
pub const MOST_PLANS: usize = 60;

/// A course that is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptPlan {
    /// The course.
    pub plan: WeekPlan,
    /// When it was first kept, in milliseconds since 1970: the order of the list.
    pub at: u64,
}

impl KeptPlan {
    /// As an entry.
    #[must_use]
    pub fn write(&self) -> String {
        entry::write(What::Weeks, &format!("{}\n{}", self.at, self.plan.to_text()))
    }

    /// Reads an entry.
    ///
    /// # Errors
    /// Where it is damaged, or a newer version wrote it.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let (at, plan) = entry::read(What::Weeks, text)?.split_once('\n').ok_or(Unread::Damaged)?;
        let at = at.parse().map_err(|_| Unread::Damaged)?;
        Ok(Self { plan: WeekPlan::from_text(plan)?, at })
    }
}

/// All of them, the oldest first.
#[must_use]
pub fn list(kept: &Drawers) -> Vec<KeptPlan> {
    in_order(texts(kept, What::Weeks).filter_map(|(_, text)| KeptPlan::read(text).ok()), |one| one.at)
}

/// Keeps a course under its number; gives the one that stood there before.
///
/// # Errors
/// Where there are as many as may be.
pub fn keep(kept: &mut Drawers, plan: &WeekPlan, at: u64) -> Result<Option<KeptPlan>, ListFull> {
    let before = of(kept, plan.number);
    if before.is_none() && texts(kept, What::Weeks).count() >= MOST_PLANS {
        return Err(ListFull);
    }
    put(kept, &KeptPlan { plan: plan.clone(), at: before.as_ref().map_or(at, |before| before.at) });
    Ok(before)
}

/// Takes out a course; gives it back as it was.
pub fn remove(kept: &mut Drawers, number: u32) -> Option<KeptPlan> {
    let before = of(kept, number);
    kept.remove(&key(What::Weeks, &number.to_string()));
    before
}

/// Puts back what was replaced or taken out, as it was.
pub fn put(kept: &mut Drawers, one: &KeptPlan) {
    kept.insert(key(What::Weeks, &one.plan.number.to_string()), one.write());
}

/// The course of a number.
#[must_use]
pub fn of(kept: &Drawers, number: u32) -> Option<KeptPlan> {
    KeptPlan::read(kept.get(&key(What::Weeks, &number.to_string()))?).ok()
}

/// The course that a file holds, the first where there are several.
#[must_use]
pub fn in_file(text: &str) -> Option<KeptPlan> {
    let file = backup::read(text, 0).ok()?;
    file.lists.iter().find_map(|(_, text)| KeptPlan::read(text).ok())
}

/// Takes in one from elsewhere. Where another stands under its number, that stays, and this gets a free one.
pub(super) fn take_in(kept: &mut Drawers, mut one: KeptPlan) -> Result<(), ListFull> {
    while let Some(here) = of(kept, one.plan.number) {
        if here.plan == one.plan {
            return Ok(());
        }
        one.plan.number = one.plan.number.wrapping_add(1);
    }
    keep(kept, &one.plan, one.at).map(|_| ())
}

#[cfg(test)]
mod tests {
    use super::super::tests::sent;
    use super::*;
    use crookwise_share::weeks::PlannedWeek;

    fn plan(number: u32, title: &str) -> WeekPlan {
        let week = PlannedWeek {
            by: "2026-12-14".parse().ok(),
            exercises: vec![sent("First", 1)],
            ..PlannedWeek::default()
        };
        WeekPlan { number, title: title.into(), weeks: vec![week] }
    }

    #[test]
    fn a_course_is_found_in_its_own_file_and_in_one_of_everything() {
        let course = KeptPlan { plan: plan(7, "Autumn"), at: 3 };
        let done = "crookwise done 1\n77 1796000000 8 10";
        let lists = [(What::Done, done.to_owned()), (What::Weeks, course.write())];
        for file in [course.write(), backup::write(&[], &lists, None, &[])] {
            assert_eq!(in_file(&file), Some(course.clone()), "{file}");
        }
        for foreign in ["", "rubbish", done, "crookwise weeks 9\nx"] {
            assert_eq!(in_file(foreign), None, "{foreign}");
        }
    }

    #[test]
    fn courses_are_kept_replaced_taken_out_and_joined() {
        let mut kept = Drawers::default();
        assert_eq!(keep(&mut kept, &plan(7, "Autumn"), 1), Ok(None));
        assert_eq!(keep(&mut kept, &plan(8, "Spring"), 2), Ok(None));
        let before = keep(&mut kept, &plan(7, "Autumn, second form"), 3).unwrap().unwrap();
        assert_eq!((before.plan.title.as_str(), before.at), ("Autumn", 1));
        let titles = |kept: &Drawers| list(kept).into_iter().map(|one| one.plan.title).collect::<Vec<_>>();
        assert_eq!(titles(&kept), ["Autumn, second form", "Spring"]);
        put(&mut kept, &before);
        assert_eq!(titles(&kept), ["Autumn", "Spring"]);
        for title in ["Autumn", "Winter", "Winter"] {
            take_in(&mut kept, KeptPlan { plan: plan(7, title), at: 9 }).unwrap();
        }
        assert_eq!(titles(&kept), ["Autumn", "Spring", "Winter"]);
        let out = remove(&mut kept, 7).unwrap();
        assert_eq!(titles(&kept), ["Spring", "Winter"]);
        put(&mut kept, &out);
        assert_eq!(list(&kept)[0], out);
        for number in 100..100 + MOST_PLANS as u32 {
            let _ = keep(&mut kept, &plan(number, "x"), 10);
        }
        assert_eq!(keep(&mut kept, &plan(999, "one more"), 11), Err(ListFull));
    }
}
