//! Sentences about results: of a class, and of the reader's own record.

use super::names::Names;
use super::{mistakes, practise};
use crookwise_practice::course::Progress;
use crookwise_practice::record::{Counts, Record, StaffKey};
use crookwise_practice::results::{
    AskedOn, Cause, CsvWords, Damaged, Explained, Found, Given, Missed, Tally,
};
use crookwise_practice::{Pace, Question};

/// Over the table of a class.
pub const NO_PROOF: &str = "Nothing is sent anywhere. A code holds a checksum against slips of the pen; it is no proof of who answered.";

/// How many codes were found of the exercise that is set.
#[must_use]
pub fn found_of_the_set(count: usize) -> String {
    match count {
        0 => "No code yet.".into(),
        1 => "One code of the exercise that is set.".into(),
        _ => format!("{count} codes of the exercise that is set."),
    }
}

/// How many codes were found of another exercise, and whether its questions are known.
#[must_use]
pub fn found_of_another(count: usize, known: bool) -> String {
    let found = match count {
        0 => return "No code yet.".into(),
        1 => "One code of an exercise that is not the one set".to_owned(),
        _ => format!("{count} codes of one exercise, which is not the one set"),
    };
    if known {
        format!("{found}, but is known here.")
    } else {
        format!("{found}. Set it, or paste its link as well, to see labels, clefs and questions.")
    }
}

/// An exercise of which there are codes, by its title or its place among them: "Exercise 2, which is set: 30 codes".
#[must_use]
pub fn in_codes(number: usize, title: Option<&str>, codes: usize, set: bool) -> String {
    let set = if set { ", which is set" } else { "" };
    let codes = if codes == 1 { "one code".to_owned() } else { format!("{codes} codes") };
    let name = title.map_or_else(|| format!("Exercise {number}"), |title| format!("{number}. {title}"));
    format!("{name}{set}: {codes}")
}

/// What looks like a code and is none, each with its line.
#[must_use]
pub fn troubles(found: &Found) -> Vec<String> {
    let one = |one: &Damaged| format!("Line {}: a code that is damaged. {}", one.at.line, one.trouble);
    found.damaged.iter().map(one).collect()
}

/// A run over the term: "2. 12 of 20 right, steady".
#[must_use]
pub fn run(number: usize, run: &Tally) -> String {
    format!("{}. {}", number + 1, tally(run))
}

/// The same in the least room.
#[must_use]
pub fn of_all(tally: &Tally) -> String {
    format!("{}/{}", tally.right, tally.asked())
}

/// What a question asks and of which staff: "What sounds, Corni in Es".
#[must_use]
pub fn about(question: &Question) -> String {
    let staff = question.staff_as_met().filter(|label| !label.is_empty());
    let kind = practise::kind(question.kind);
    staff.map_or_else(|| kind.to_owned(), |staff| format!("{kind}, {staff}"))
}

/// A question in a list: its number, what it asks, how it went, and what was mostly wrong.
#[must_use]
pub fn question(number: usize, about: Option<String>, tally: &Tally) -> String {
    let about = about.map(|about| format!("{about}: ")).unwrap_or_default();
    let most = tally.missed.first().map(|most| format!("; mostly {}", missed(&most.missed)));
    format!("{}. {about}{}{}", number + 1, counts(tally), most.unwrap_or_default())
}

/// A student without a name.
#[must_use]
pub fn nameless(number: usize) -> String {
    format!("without a name ({number})")
}

/// An answer in the table: its class, its sign, and what it says aloud.
#[must_use]
pub fn given(given: &Given) -> (&'static str, &'static str, String) {
    match given {
        Given::LeftOut => ("left-out", "–", "not answered".into()),
        Given::Right(pace) => ("right", "·", format!("right, {}", self::pace(*pace))),
        Given::Wrong(_, missed) => ("wrong", "✗", self::missed(missed)),
    }
}

/// What explains wrong answers, in a few words: the mistakes, or how far off they were.
#[must_use]
pub fn missed(missed: &Missed) -> String {
    let join = match missed.named {
        Explained::Nothing => {
            let off = missed.off.as_ref().map(mistakes::off).unwrap_or_default();
            return if off.is_empty() { "no usual mistake".to_owned() } else { off };
        }
        Explained::Both(..) => " and ",
        Explained::Either(..) => " or ",
        _ => " / ",
    };
    missed.named.mistakes().map(mistakes::short).collect::<Vec<_>>().join(join)
}

/// Wrong answers with their numbers: "third for sixth 3, octave".
#[must_use]
pub fn all_missed(tally: &Tally) -> String {
    let one = |one: &Cause| match one.count {
        1 => missed(&one.missed),
        more => format!("{} {more}", missed(&one.missed)),
    };
    tally.missed.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// "12 of 30 right, 4 not answered": a code does not tell what was left out from what was not reached.
#[must_use]
pub fn counts(tally: &Tally) -> String {
    let open = if tally.left_out > 0 { format!(", {} not answered", tally.left_out) } else { String::new() };
    format!("{} of {} right{open}", tally.right, tally.asked())
}

/// "12 of 30 right, 4 not answered, steady".
#[must_use]
pub fn tally(tally: &Tally) -> String {
    let pace = tally.pace.map(|pace| format!(", {}", self::pace(pace))).unwrap_or_default();
    format!("{}{pace}", counts(tally))
}

/// A staff as it was printed, with what stood beside its label: "Corni in Es", "Corni in B, basso", "Corni in Es, muta in D".
#[must_use]
pub fn asked_on(staff: &AskedOn, names: Names) -> String {
    let label = if staff.label.is_empty() { "A staff without a label" } else { staff.label.as_str() };
    let beside = practise::said_beside(&staff.beside, names);
    let changed = staff.changed.as_deref().map(|to| super::changes::direction(to, None));
    let parts = [Some(label.to_owned()), Some(beside).filter(|text| !text.is_empty()), changed];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// A class of response time.
#[must_use]
pub const fn pace(pace: Pace) -> &'static str {
    match pace {
        Pace::Fluent => "quick",
        Pace::Steady => "steady",
        Pace::Slow => "slow",
        Pace::VerySlow => "very slow",
    }
}

/// The words of the table for a spreadsheet.
#[must_use]
pub fn csv() -> CsvWords {
    CsvWords { mistake: mistakes::short, off: mistakes::off, ..CsvWords::default() }
}

/// Where nothing has been answered yet.
pub const NO_RECORD: &str =
    "Nothing has been answered on this device yet. What you miss in an exercise will come back here.";

/// Under the record.
pub const RECORD_IS_HERE: &str = "Kept on this device only, and in the backup you make of your pages. A reading is fluent when it is right and quick.";

/// What waits to come back, and on which staves: "3 things are due: Corni in Es, Viole"; or in how many days it will.
#[must_use]
pub fn due(count: usize, staves: &[String], next: Option<u64>) -> String {
    let staves = if staves.is_empty() { String::new() } else { format!(": {}", staves.join(", ")) };
    match count {
        0 => {
            let next = match next {
                None => String::new(),
                Some(0 | 1) => " The next comes back tomorrow.".to_owned(),
                Some(days) => format!(" The next comes back in {days} days."),
            };
            format!("Nothing is due.{next} Repeating now takes what is weakest.")
        }
        1 => format!("One thing is due{staves}."),
        more => format!("{more} things are due{staves}."),
    }
}

/// The way back into a repetition that was left.
#[must_use]
pub fn go_on_repeating(number: usize, all: usize) -> String {
    format!("Go on with question {number} of {all}")
}

/// "8 of 10 right, 5 fluent".
#[must_use]
pub fn share(counts: Counts) -> String {
    format!("{} of {} right, {} fluent", counts.right, counts.asked, counts.fluent)
}

/// What the highest column of the weeks stands for.
#[must_use]
pub fn highest(answers: u32) -> String {
    let plural = if answers == 1 { "answer" } else { "answers" };
    format!("highest column: {answers} {plural} in a week")
}

/// A week in words.
#[must_use]
pub fn week(back: usize, counts: Counts) -> String {
    let when = match back {
        0 => "This week".to_owned(),
        1 => "Last week".to_owned(),
        more => format!("{more} weeks ago"),
    };
    let much = if counts.asked == 0 { "nothing".to_owned() } else { share(counts) };
    format!("{when}: {much}")
}

/// A staff under all labels as it was met, with its clef where that is not the instrument's own, and how low notes are printed.
#[must_use]
pub fn staff_met(record: &Record, staff: StaffKey) -> String {
    let labels = record.labels_of(staff);
    let sounds = || super::sounds(staff.transposition().0);
    let mut words = vec![if labels.is_empty() { sounds() } else { labels.join(" / ") }];
    let own = staff.choice().map(|choice| choice.instrument.clef);
    if own.is_some_and(|own| own != staff.clef) {
        words.push(super::changes::clef_said(staff.clef));
    }
    if let Some(bass) = staff.bass {
        words.push(format!("{} bass notation", bass.id()));
    }
    words.join(", ")
}

/// How far a step of the course is, and how much of it waits to come back. Of one that was not `begun` it is said what is
/// known of its staves from elsewhere.
#[must_use]
pub fn progress_and_due(progress: &Progress, begun: bool, due: usize) -> String {
    let far = match progress.asked {
        asked if asked > 0 && !begun => format!("{} of {asked} right elsewhere", progress.right),
        _ => self::progress(progress),
    };
    let waits = (due > 0).then(|| format!("{due} due"));
    [Some(far), waits].into_iter().flatten().filter(|text| !text.is_empty()).collect::<Vec<_>>().join("; ")
}

/// How far a step of the course is.
fn progress(progress: &Progress) -> String {
    match (progress.mastered, progress.asked) {
        (true, _) => "mastered".into(),
        (false, 0) => String::new(),
        (false, asked) => format!("{} of {asked} right, {} fluent", progress.right, progress.fluent),
    }
}
