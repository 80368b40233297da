//! Courses over weeks, and the list of named exercises.

use crookwise_share::Day;

texts! {
    WEEKS = "Weeks";
    BACK_TO_THE_WEEKS = "Back to the weeks";
    COURSES_OF_WEEKS = "Courses of weeks";
    NO_COURSE_YET = "A teacher plans what is to be done week by week and hands it on as a link or a file; whoever opens it sees here what is due.";
    PLAN_A_COURSE = "Plan a course of weeks";
    TAKE_IN_A_COURSE = "Take in a course from a file";
    FROM_A_LINK = "From a link";
    TAKE_IT_IN = "Keep it on this device";
    TAKE_IN_THE_NEW_FORM = "Keep this form of it instead of mine";
    NOT_NOW = "Not now";
    DAMAGED_PLAN = "This link brings a course of weeks that cannot be read: perhaps a piece of it is missing";
    CHANGE_THIS_COURSE = "Change this course";
    CHANGED_ENOUGH = "Done changing";
    SAVE_COURSE_AS_A_FILE = "Save this course as a file";
    TAKE_COURSE_OUT = "Take this course out";
    TITLE_OF_THE_COURSE = "Title of the course";
    A_NEW_COURSE = "A course of weeks";
    TO_BE_DONE_BY = "To be done by";
    ADD_A_WEEK = "Add a week";
    ADD_AN_EXERCISE = "Add an exercise";
    ADD_A_PLACE = "Add a place of a score";
    PASTE_ITS_LINK = "paste its link";
    NO_PLACE = "This is no link to a place in Score: one is copied there under Bars";
    A_SCORE = "a score";
    DEMO_MOVEMENT = "the demo movement";
    CHOOSE_ONE = "choose one";
    HAND_IT_ON = "Hand this course on";
    LINK_TO_THIS_COURSE = "A link to this course";
    TOO_LONG_FOR_A_LINK = "This course is too long for a link: save it as a file and hand that on.";
    NOTHING_IN_IT = "Nothing is to be done in it yet.";
    UNDO = "Undo";
    YOUR_EXERCISES = "Your exercises";
    NONE_NAMED = "None yet. One that is kept stands here under its title, on this device.";
    KEEP_THIS_EXERCISE = "Keep this exercise";
    NEW_TITLE = "New title";
    RENAME = "Rename";
    TAKE_OUT = "Take out";
    SET_NOW = "The exercise that is set";
    NO_ROOM = "There are as many as this list holds: take some out first";
    FOREIGN_FILE = "This is no file with a course of weeks written by Crookwise";
    GONE_MEANWHILE = "This was changed in another window meanwhile: nothing was done";
    DONE = "done";
    DONE_LATE = "done late";
    DUE = "due";
    LATE = "late";
    TO_DO = "to do";
    CANNOT_BE_OPENED = "An exercise that cannot be opened here: perhaps a newer version of Crookwise made it";
    TAKEN_IN = "The course is kept on this device.";
}

/// How a course goes out that no code holds.
#[must_use]
pub fn too_long_for_a_code(held: usize, all: usize) -> String {
    let holds = match held {
        0 => "A code has no room for it.".to_owned(),
        1 => format!("A code would hold the first of its {all} exercises alone."),
        held => format!("A code would hold the first {held} of its {all} exercises."),
    };
    format!("{holds} Send the course as its link, in a mail or a chat, or as its file.")
}

const DAYS: [&str; 7] = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];
const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// A day in words.
#[must_use]
pub fn day(day: Day) -> String {
    let (year, month, of_month) = day.date();
    let of_week = DAYS.get(day.of_week()).copied().unwrap_or_default();
    let month = MONTHS.get(month.saturating_sub(1)).copied().unwrap_or_default();
    format!("{of_week} {of_month} {month} {year}")
}

/// A week of a course, from 1, with the day by which it is to be done.
#[must_use]
pub fn week(number: usize, by: Option<Day>) -> String {
    match by {
        Some(by) => format!("Week {number}, by {}", day(by)),
        None => format!("Week {number}"),
    }
}

/// How many exercises of a course are done, and how many are late.
#[must_use]
pub fn progress(done: usize, late: usize, of: usize) -> String {
    let exercises = if of == 1 { "exercise" } else { "exercises" };
    let late = if late > 0 { format!(", {late} late") } else { String::new() };
    format!("{done} of {of} {exercises} done{late}")
}

/// How it went when it went best, behind the word that it is done.
#[must_use]
pub fn right_of(right: u8, of: u8) -> String {
    format!(", {right} of {of} right")
}

/// What courses over weeks ask for.
#[must_use]
pub fn waiting(due: usize, late: usize) -> String {
    let of = |count: usize, word: &str| match count {
        1 => format!("1 exercise {word}"),
        count => format!("{count} exercises {word}"),
    };
    match (due, late) {
        (due, 0) => format!("From your weeks: {}", of(due, DUE)),
        (0, late) => format!("From your weeks: {}", of(late, LATE)),
        (due, late) => format!("From your weeks: {}, {late} late", of(due, DUE)),
    }
}

/// A place of a movement that is to be looked at: its title, the demo movement's where it has none, and its bars.
#[must_use]
pub fn place(title: &str, bars: Option<&(String, String)>, along: bool) -> String {
    let title = if title.is_empty() { DEMO_MOVEMENT } else { title };
    let deed = if along { "Read along" } else { "Look and listen" };
    match bars {
        None => format!("{deed} in {title}"),
        Some((first, last)) if first == last => format!("{deed} in {title}, bar {first}"),
        Some((first, last)) => format!("{deed} in {title}, bars {first} to {last}"),
    }
}

/// The field for a place of a week.
#[must_use]
pub fn place_to_week(week: usize) -> String {
    format!("{ADD_A_PLACE} to week {week}")
}

/// The name of a button that does something with a thing in a list.
#[must_use]
pub fn deed(deed: &str, what: &str) -> String {
    format!("{deed}: {what}")
}

/// Takes a week out.
#[must_use]
pub fn take_week_out(number: usize) -> String {
    format!("Take week {number} out")
}

/// Adds an exercise to a week.
#[must_use]
pub fn add_to_week(number: usize) -> String {
    format!("Add to week {number}")
}

/// When a week is to be done.
#[must_use]
pub fn week_by(number: usize) -> String {
    format!("Week {number} is to be done by")
}

/// What was taken out of a list.
#[must_use]
pub fn taken_out(what: &str) -> String {
    format!("“{what}” was taken out.")
}

/// What took the place of another of the same title.
#[must_use]
pub fn replaced(what: &str) -> String {
    format!("“{what}” has taken the place of the one before.")
}

/// What is kept now.
#[must_use]
pub fn kept(what: &str) -> String {
    format!("“{what}” is among your exercises.")
}

/// What has another title now.
#[must_use]
pub fn renamed(before: &str, now: &str) -> String {
    format!("“{before}” is called “{now}” now.")
}

/// The list of named exercises, with how many there are.
#[must_use]
pub fn your_exercises(count: usize) -> String {
    format!("{YOUR_EXERCISES} ({count})")
}

/// An exercise of the course in a list to choose from.
#[must_use]
pub fn of_step(step: u8, title: &str) -> String {
    format!("Step {step}: {title}")
}

/// What a link has brought: its weeks and exercises.
#[must_use]
pub fn so_much(weeks: usize, exercises: usize) -> String {
    let of = |count: usize, one: &str, more: &str| match count {
        1 => format!("1 {one}"),
        count => format!("{count} {more}"),
    };
    format!("{}, {}", of(weeks, "week", "weeks"), of(exercises, "exercise", "exercises"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_and_weeks_are_said_as_one_says_them() {
        let by = "2026-12-14".parse().ok();
        assert_eq!(week(2, by), "Week 2, by Monday 14 December 2026");
        assert_eq!(week(2, None), "Week 2");
        assert_eq!(progress(1, 1, 6), "1 of 6 exercises done, 1 late");
        assert_eq!(progress(0, 0, 1), "0 of 1 exercise done");
        assert_eq!(so_much(1, 3), "1 week, 3 exercises");
    }
}
