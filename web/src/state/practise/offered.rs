//! What can be put into a week: the exercise that is set, named ones, and those of the course's steps.

use crate::state::list_item::ListItem;
use crate::state::store::lists::named::Named;
use crate::words;
use crookwise_practice::Exercise;
use crookwise_practice::course::CourseStep;
use crookwise_share::practise::SentExercise;

/// All of it, each with its place in a list to choose from.
#[must_use]
pub fn offered(set: &Exercise, named: &[Named]) -> Vec<(ListItem, SentExercise)> {
    let mut all = Vec::new();
    if set.questions().is_ok() {
        let title = words::weeks::deed(words::weeks::SET_NOW, &words::titles::heading(set));
        all.push((ListItem::new("set", title), SentExercise::of(set)));
    }
    let one = |one: &Named| {
        (ListItem::new(format!("named {}", one.title), one.title.clone()), one.exercise.clone())
    };
    all.extend(named.iter().map(one));
    for step in CourseStep::ALL {
        for (at, exercise) in step.exercises().into_iter().enumerate() {
            let title = words::weeks::of_step(step.number, &words::titles::title(&exercise));
            all.push((
                ListItem::new(format!("step {} {at}", step.number), title),
                SentExercise::of(&exercise),
            ));
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::practise::setting;
    use crate::state::store::Drawers;
    use crate::state::store::lists::named;

    #[test]
    fn what_is_set_what_is_named_and_the_course_are_offered_once_each() {
        let mut kept = Drawers::default();
        let titled = Exercise { title: "Monday".into(), ..setting::first(5) };
        named::keep(&mut kept, &SentExercise::of(&titled), 1).unwrap();
        let all = offered(&setting::first(1), &named::list(&kept));
        let steps: usize = CourseStep::ALL.iter().map(|step| step.exercises().len()).sum();
        assert_eq!(all.len(), steps + 2);
        let mut values: Vec<&str> = all.iter().map(|(item, _)| item.value.as_str()).collect();
        values.sort_unstable();
        values.dedup();
        assert_eq!(values.len(), all.len());
        assert_eq!(all[1].1.open(), Ok(titled));
        assert!(all.iter().all(|(_, sent)| sent.open().is_ok_and(|one| one.questions().is_ok())));
        // What cannot be asked is not offered.
        let none = Exercise { staves: Vec::new(), ..setting::first(1) };
        assert_eq!(offered(&none, &[]).len(), steps);
    }
}
