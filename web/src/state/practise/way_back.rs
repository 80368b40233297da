//! What was done last in the lists, in the setting or to the codes of a class: said where it was done, with the way back, and
//! where the keyboard goes when it is taken.

use crate::state::store::lists::changing::{PlanChange, TakeBack};
use crookwise_practice::{AskedStaff, Exercise};

/// What was done last.
#[derive(Clone, Debug, PartialEq)]
pub struct DoneLast {
    /// It, in a sentence.
    pub said: String,
    /// What takes it back.
    pub back: Option<WayBack>,
}

impl DoneLast {
    /// A sentence alone.
    #[must_use]
    pub fn said(sentence: &str) -> Self {
        Self { said: sentence.to_owned(), back: None }
    }
}

/// What takes back what was done last.
#[derive(Clone, Debug, PartialEq)]
pub enum WayBack {
    /// Something in the lists.
    Kept(TakeBack),
    /// A staff was taken out of the exercise that is set, from this place.
    Staff(usize, Box<AskedStaff>),
}

/// The button that keeps the exercise which is set, by its id.
pub const KEEP_IT: &str = "keep-it";
/// The button that takes the codes of a class away, by its id.
pub const CODES_AWAY: &str = "codes-away";

/// The field with the label of a staff of the setting, by its id.
#[must_use]
pub fn staff_id(at: usize) -> String {
    format!("set-staff-{at}")
}

/// The button that takes out a place of a week, by its id.
#[must_use]
pub fn planned_place_id(number: u32, week: usize, at: usize) -> String {
    format!("plan-{number}-{week}-place-{at}")
}

/// A named exercise in the list, by its id: by the time when it was kept, which a new title does not change.
#[must_use]
pub fn named_id(at: u64) -> String {
    format!("named-{at}")
}

/// The head of a course, by its id.
#[must_use]
pub fn plan_id(number: u32) -> String {
    format!("plan-{number}")
}

/// The button that takes out a week of a course, by its id.
#[must_use]
pub fn week_id(number: u32, week: usize) -> String {
    format!("plan-{number}-{week}")
}

/// The button that takes out an exercise of a week, by its id.
#[must_use]
pub fn planned_id(number: u32, week: usize, at: usize) -> String {
    format!("plan-{number}-{week}-{at}")
}

impl WayBack {
    /// The id of the element that has the keyboard once it was taken: where the thing is that is back.
    #[must_use]
    pub fn place(&self) -> String {
        match self {
            Self::Staff(at, _) => staff_id(*at),
            Self::Kept(TakeBack::OutNamed(one) | TakeBack::Renamed { before: one, .. }) => named_id(one.at),
            Self::Kept(TakeBack::Replaced(_)) => KEEP_IT.to_owned(),
            Self::Kept(TakeBack::Plan(one)) => plan_id(one.plan.number),
            Self::Kept(TakeBack::Changed(number, step)) => match step {
                PlanChange::PutExercise(week, at, _) => planned_id(*number, *week, *at),
                PlanChange::PutPlace(week, at, _) => planned_place_id(*number, *week, *at),
                PlanChange::By(week, _)
                | PlanChange::PutWeek(week, _)
                | PlanChange::TakeWeek(week, _)
                | PlanChange::TakePlace(week, ..)
                | PlanChange::TakeExercise(week, ..) => week_id(*number, *week),
                PlanChange::Title(_) => plan_id(*number),
            },
            Self::Kept(TakeBack::Codes(_)) => CODES_AWAY.to_owned(),
        }
    }
}

/// Takes a staff out of an exercise, unless it is the only one; gives the way back.
pub fn take_staff(exercise: &mut Exercise, at: usize) -> Option<WayBack> {
    let may = exercise.staves.len() > 1 && at < exercise.staves.len();
    may.then(|| WayBack::Staff(at, Box::new(exercise.staves.remove(at))))
}

/// Puts it back where it was; what was set meanwhile stays.
pub fn put_staff(exercise: &mut Exercise, at: usize, staff: AskedStaff) {
    let at = at.min(exercise.staves.len());
    exercise.staves.insert(at, staff);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_staff_comes_back_to_its_place_and_what_was_set_meanwhile_stays() {
        let staves: Vec<AskedStaff> = ["Corni in Es", "Trombe in D", "Viole"].map(AskedStaff::of).into();
        let mut set = Exercise { staves: staves.clone(), ..Exercise::default() };
        let Some(WayBack::Staff(at, staff)) = take_staff(&mut set, 1) else { panic!("no way back") };
        assert_eq!((at, set.staves.len()), (1, 2));
        set.questions = 7;
        put_staff(&mut set, at, *staff);
        assert_eq!((&set.staves, set.questions), (&staves, 7));
        assert_eq!(take_staff(&mut set, 3), None);
        set.staves.truncate(1);
        assert_eq!(take_staff(&mut set, 0), None);
        put_staff(&mut set, 9, staves[2].clone());
        assert_eq!(set.staves.len(), 2);
    }
}
