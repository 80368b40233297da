//! What the reader has answered so far: what is kept of it, what is weak, what comes next.

use crate::state::practise::run::{Run, Verdict};
use crate::state::store::lists::Lists;
use crate::state::store::lists::done::which;
use crookwise_practice::course::{CourseStep, Progress};
use crookwise_practice::record::{Attempt, Counts, Item, Record, Span, Subject, Zone, plan, week};
use crookwise_practice::{Edition, Exercise, Mistake};

/// Seconds of a day.
const DAY: u64 = 86_400;

/// Questions of a repetition.
const REPEATED: usize = 10;

/// Staves that are named of those that are due.
const NAMED: usize = 4;

/// Weeks of the picture.
pub const WEEKS: u32 = 12;

/// The last answer of a run, to be remembered with the label of its staff: nothing for what was left out.
#[must_use]
pub fn last(run: &Run, now: u64) -> Option<(Attempt, String)> {
    let at = run.done.len().checked_sub(1)?;
    let (done, question) = (run.done.get(at)?, run.questions.get(at)?);
    let item = Item::of(question)?;
    let attempt = match &done.outcome {
        Verdict::Right => Attempt::new(now, item, true, &[], done.ms),
        Verdict::Wrong(missed) => {
            let mistakes: Vec<Mistake> = missed.named.mistakes().collect();
            Attempt::new(now, item, false, &mistakes, done.ms)
        }
        Verdict::LeftOut => return None,
    };
    Some((attempt, question.staff_as_met().unwrap_or_default()))
}

/// What is kept, read for the reader's clock; what cannot be read counts as nothing.
#[must_use]
pub fn read(text: Option<&str>, zone: Zone) -> Record {
    text.and_then(|text| Record::from_text(text, zone).ok()).map(|read| read.record).unwrap_or_default()
}

/// What is new: the items of the course up to the first step that is not mastered yet.
#[must_use]
pub fn fresh(record: &Record) -> Vec<Item> {
    let mut fresh = Vec::new();
    for step in CourseStep::ALL {
        fresh.extend(step.items());
        let mastered = Progress::of(&step, record).mastered;
        if !mastered {
            break;
        }
    }
    fresh
}

/// The items that wait to come back.
#[must_use]
pub fn due(record: &Record, now: u64) -> Vec<Item> {
    let memories = record.memories();
    memories.iter().filter(|(_, memory)| memory.is_due(now)).map(|(item, _)| *item).collect()
}

/// In how many days the next thing comes back, where nothing is due at `now`: 1 for tomorrow.
#[must_use]
pub fn next_in_days(record: &Record, now: u64) -> Option<u64> {
    let memories = record.memories();
    let next = memories.iter().map(|(_, memory)| memory.due()).filter(|due| *due > now).min()?;
    Some((next / DAY).saturating_sub(now / DAY))
}

/// The staves they are about, as they were met last: a few, each once; and three dots where there are more.
#[must_use]
pub fn due_staves(record: &Record, due: &[Item]) -> Vec<String> {
    let mut staves: Vec<String> = Vec::new();
    for item in due.iter().filter(|item| item.kind.is_of_one_staff()) {
        match record.labels_of(item.staff).into_iter().next() {
            Some(label) if !staves.contains(&label) => staves.push(label),
            _ => {}
        }
    }
    if staves.len() > NAMED {
        staves.truncate(NAMED);
        staves.push("…".into());
    }
    staves
}

/// How many of them a step of the course teaches.
#[must_use]
pub fn due_of_step(due: &[Item], step: CourseStep) -> usize {
    let kinds = step.kinds();
    due.iter().filter(|item| kinds.contains(&item.kind) && step.items().contains(item)).count()
}

/// Whether an exercise of a step was done, by the rules of any edition. What else was answered on its staves is known from elsewhere.
#[must_use]
pub fn is_begun(lists: &Lists, step: CourseStep) -> bool {
    if lists.done.is_empty() {
        return false;
    }
    let exercises = step.exercises();
    let each = |own: &Exercise| Edition::ALL.map(|edition| which(&Exercise { edition, ..own.clone() }));
    exercises.iter().flat_map(each).any(|exercise| lists.done.iter().any(|done| done.exercise == exercise))
}

/// What was missed and what is weak as an exercise of its own; `None` where nothing has been answered yet.
#[must_use]
pub fn repetition(record: &Record, fresh: &[Item], now: u64, seed: u32) -> Option<Run> {
    let asks = plan(record, fresh, now, seed, REPEATED);
    let exercise = |(at, ask): (usize, &crookwise_practice::record::Ask)| {
        ask.item.exercise(seed.wrapping_add(u32::try_from(at).unwrap_or_default()))
    };
    Run::repeating(asks.iter().enumerate().filter_map(exercise).collect(), seed)
}

/// All answers of the last weeks, the oldest week first.
#[must_use]
pub fn weeks(record: &Record, now: u64) -> Vec<Counts> {
    let last = week(now);
    let all = record.over_time(Span::Week);
    (0..WEEKS)
        .rev()
        .map(|back| {
            let here = all.iter().filter(|((when, subject), _)| {
                Some(*when) == last.checked_sub(back) && matches!(subject, Subject::Kind(_))
            });
            here.fold(Counts::default(), |sum, (_, counts)| sum.plus(*counts))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::practise::setting;
    use crate::state::store::lists::done::Done;

    const NOW: u64 = 1_790_000_000;

    fn answered() -> Record {
        let mut run = Run::begin(setting::first(3)).unwrap();
        let mut record = Record::default();
        while let Some(question) = run.question() {
            let right = question.right.clone();
            let answer = if run.done.len() == 2 { None } else { Some(right) };
            run.answer(answer, 2_000);
            if let Some((attempt, label)) = last(&run, NOW) {
                record.meet(attempt.item.staff, attempt.at, &label);
                record.add(1, attempt);
            }
            run.go_on();
        }
        record
    }

    #[test]
    fn a_step_is_begun_by_an_exercise_of_its_own() {
        let (first, second) = (CourseStep::ALL[0], CourseStep::ALL[1]);
        let own = Exercise { seed: 99, edition: Edition::Third, ..first.exercises().remove(0) };
        let done = Done { exercise: which(&own), at: 5, right: 1, of: 10 };
        let lists = Lists { done: vec![done], ..Lists::default() };
        assert!(is_begun(&lists, first) && !is_begun(&lists, second));
        assert!(!is_begun(&Lists::default(), first));
    }

    #[test]
    fn answers_are_remembered_but_not_what_was_left_out() {
        let record = answered();
        assert_eq!(record.attempts().len(), 9);
        assert_eq!(weeks(&record, NOW).last().unwrap().asked, 9);
        assert_eq!(weeks(&record, NOW).len(), 12);
        // Staves are named as the exercise printed them.
        let printed: Vec<String> = setting::first(3).staves.into_iter().map(|staff| staff.label).collect();
        for attempt in record.attempts() {
            let labels = record.labels_of(attempt.item.staff);
            assert!(labels.iter().all(|label| printed.contains(label)), "{labels:?} of {printed:?}");
        }
        assert_eq!(read(Some(&record.to_text(Zone::default())), Zone::default()), record);
        assert!(read(Some("rubbish \u{202e}"), Zone::default()).is_empty());
    }

    #[test]
    fn what_is_due_is_asked_again() {
        let record = answered();
        let later = NOW + 400 * 86_400;
        // On the day of the answers nothing is, and it is said when it will be.
        assert_eq!(next_in_days(&record, NOW), Some(1));
        assert_eq!(next_in_days(&record, later), None);
        assert!(crate::words::results::due(0, &[], Some(1)).contains("tomorrow"));
        let due = due(&record, later);
        assert!(!due.is_empty() && super::due(&record, NOW).is_empty());
        let staves = due_staves(&record, &due);
        assert!(
            staves.iter().all(|staff| setting::first(3).staves.iter().any(|asked| asked.label == *staff))
        );
        let said = crate::words::results::due(due.len(), &staves, None);
        assert!(said.contains(" due: ") && said.contains(&staves[0]), "{said}");
        assert_eq!(due_staves(&record, &[]), [""; 0]);
        let step = CourseStep::ALL.into_iter().find(|step| due_of_step(&due, *step) > 0);
        assert!(step.is_none_or(|step| due_of_step(&[], step) == 0));
        let run = repetition(&record, &[], later, 5).unwrap();
        assert!(!run.questions.is_empty());
        assert_eq!(repetition(&Record::default(), &[], later, 5), None);
    }
}
