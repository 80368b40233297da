//! The course, the results of a class, the reader's own record.

texts! {
    OPEN_IN_SCORE = "Open this place in Score";
    COURSE = "Course";
    COURSE_TITLE = "From the first crook to the whole page";
    NEXT_STEP = "Next step";
    LESSON = "Lesson";
    EXERCISES_OF_THIS_STEP = "Exercises of this step";
    TO_THE_EXERCISES = "To the exercises";
    ALL_STEPS = "All steps";
    WHAT_TO_LOOK_FOR_IN_SCORES = "What to look for in scores";
    HEAR_IT = "Hear it";
    TOUCH_IT_HERE = "Touch it here";
    AS_IT_WAS = "As it was";
    OPEN_IN_READ = "Open in Read";
    SEEN_IN_AN_OPEN_SCORE = "seen in an open score";
    FROM_MEMORY = "from memory";
    RESULTS_OF_A_CLASS = "Results of a class";
    PASTE_ANYTHING = "Paste a whole mail or chat: every code in it is found";
    THE_CLASS = "The class";
    MISTAKES_OF_THE_CLASS = "Mistakes of the class";
    BY_STUDENT = "By student";
    BY_STAFF = "By staff as printed";
    BY_CLEF = "By clef";
    BY_QUESTION = "By question";
    READ_AS = "Labels read as others";
    OTHERWISE_MISREAD = "Other mistakes, staff by staff";
    MISTAKE = "Mistake";
    CLEFS_TAKEN = "Clefs read as others";
    ANSWERS_TAKEN = "Other answers";
    LABEL = "Label";
    CLEF = "Clef";
    RIGHT_WAS = "Right";
    TAKEN_FOR = "Taken for";
    TIMES = "Times";
    STUDENTS = "Students";
    ANSWERS = "Answers";
    OVER_THE_TERM = "Over the term";
    EXERCISES_AS_THEY_CAME = "Right answers in one exercise after the other, in the order in which their codes stand here.";
    TABLE_OF_RESULTS = "Table of results";
    NAME = "Name";
    RIGHT = "Right";
    TIME = "Time";
    MISTAKES = "Mistakes";
    SIGNS_OF_THE_TABLE = "· right, ✗ wrong, – not answered (left out, or not reached), question by question. The pace is the one in the middle of a student's answers.";
    SAVE_AS_A_TABLE_CSV = "Save as a table (CSV)";
    MY_RECORD = "My record";
    WHAT_COMES_BACK = "What comes back";
    REPEAT_NOW = "Repeat now";
    WEEK_BY_WEEK = "Week by week";
    FLUENT_RIGHT_AND_QUICK = "fluent: right and quick";
    RIGHT_BUT_SLOW = "right but slow";
    WRONG = "wrong";
    THIS_WEEK = "this week";
    WEAKEST_STAVES_LAST_THIRTY_DAYS = "Weakest staves, last thirty days";
    WEAKEST_NOTES = "Weakest written notes";
    WEAKEST_KINDS_OF_QUESTIONS = "Weakest kinds of questions";
    YES_WIPE_MY_RECORD_FOR_GOOD = "Yes, wipe my record for good";
    WIPE_MY_RECORD = "Wipe my record";
    SET_AN_EXERCISE = "Set an exercise";
    PRACTISE = "Practise";
}

/// Which step it is, from 1.
#[must_use]
pub fn step_of(number: usize, all: usize) -> String {
    format!("Step {number} of {all}")
}

/// The way back from an exercise, from 1.
#[must_use]
pub fn back_to_step(number: usize) -> String {
    format!("Back to step {number}")
}

/// Where the bars of the weeks begin.
#[must_use]
pub fn weeks_ago(weeks: u32) -> String {
    format!("{weeks} weeks ago")
}
