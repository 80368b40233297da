//! What a teacher reads out of many codes: of a whole mail or chat, and of those that came before and are kept.

use crate::state::store::lists::Lists;
use crate::state::store::lists::codes::KeptCodes;
use crate::words;
use crookwise_practice::results::{ByPage, Class, Confusion, Fingerprint, Found, Term, find_all};
use crookwise_practice::{Exercise, Question};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};

/// What was found in a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Read {
    /// All codes and all that is damaged.
    pub found: Found,
    /// The exercises they are of, in the order in which they came.
    pub exercises: Vec<InCodes>,
    /// The class, for the exercise that is shown.
    pub class: Class,
    /// Whether that is the exercise which is set.
    pub same_exercise: bool,
    /// The questions of that exercise; none where another one was worked, which nobody here knows.
    pub questions: Vec<Question>,
    /// The class by staff and by clef, where the questions are known.
    pub page: ByPage,
    /// What was taken for what, where the questions are known.
    pub confusions: Vec<Confusion>,
    /// Who did what in one exercise after the other.
    pub term: Term,
    /// The exercises whose codes are shown, where some of them are kept.
    pub kept: Vec<Fingerprint>,
}

/// An exercise of which there are codes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InCodes {
    /// Which one.
    pub exercise: Fingerprint,
    /// Its own title, where it is known and has one.
    pub title: Option<String>,
    /// How many codes.
    pub codes: usize,
    /// Whether it is the one that is shown.
    pub shown: bool,
    /// Whether it is the one that is set.
    pub set: bool,
}

impl Read {
    /// How many codes were found, in a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        let count = self.class.students.len();
        if self.same_exercise {
            words::results::found_of_the_set(count)
        } else {
            words::results::found_of_another(count, !self.questions.is_empty())
        }
    }
}

/// Reads a whole mail or chat. Shown is the exercise that was chosen, else the one that is set, else the one most codes
/// belong to; where a link to it stands in the text, or it is in the teacher's own lists, its questions are known.
#[must_use]
pub fn read(text: &str, set: &Exercise, chosen: Option<Fingerprint>, lists: &Lists) -> Read {
    let found = with_kept(find_all(text), lists);
    let own = [Fingerprint::of_exercise(set), Fingerprint::of_settings(set)];
    let there = |exercise: &Fingerprint| found.codes.iter().any(|code| code.outcome.exercise() == *exercise);
    let chosen = chosen.filter(there);
    let is_own = own.iter().any(there) && chosen.is_none_or(|chosen| own.contains(&chosen));
    let other = chosen.or_else(|| found.commonest()).filter(|_| !is_own);
    let all = if found.codes.is_empty() { Vec::new() } else { known(text, lists) };
    let known = |wanted: Fingerprint| {
        let here = |(exercise, _): &&(Fingerprint, Exercise)| *exercise == wanted;
        all.iter().find(here).map(|(_, one)| one)
    };
    let (class, questions) = match other {
        Some(other) => (Class::of(other, &found), known(other).and_then(|one| one.questions().ok())),
        None => (Class::of_exercise(set, &found), set.questions().ok()),
    };
    let questions = questions.filter(|_| !class.students.is_empty()).unwrap_or_default();
    let term = Term::of(&found);
    let runs = Class::once_each(&found.codes);
    let counted = |exercise: &Fingerprint| InCodes {
        exercise: *exercise,
        codes: runs.iter().filter(|code| code.outcome.exercise() == *exercise).count(),
        shown: other.map_or_else(|| own.contains(exercise), |other| other == *exercise),
        set: own.contains(exercise),
        title: Some(set)
            .filter(|_| own.contains(exercise))
            .or_else(|| known(*exercise))
            .and_then(|one| one.own_title().map(str::to_owned)),
    };
    let exercises: Vec<InCodes> = term.exercises.iter().map(counted).collect();
    let is_kept = |one: &&InCodes| one.shown && lists.codes.iter().any(|kept| kept.exercise == one.exercise);
    Read {
        kept: exercises.iter().filter(is_kept).map(|one| one.exercise).collect(),
        exercises,
        page: class.by_page(&questions),
        confusions: class.confusions(&questions),
        same_exercise: other.is_none(),
        class,
        found,
        questions,
        term,
    }
}

/// Those that are kept come first: they came before.
fn with_kept(found: Found, lists: &Lists) -> Found {
    let kept: Vec<&str> = lists.codes.iter().flat_map(|one| &one.codes).map(String::as_str).collect();
    if kept.is_empty() {
        return found;
    }
    let mut codes = find_all(&kept.join("\n")).codes;
    for code in found.codes {
        if codes.iter().all(|known| known.outcome != code.outcome) {
            codes.push(code);
        }
    }
    Found { codes, ..found }
}

/// What is to be kept of a text, an entry an exercise: every code of it, and which exercise it is of where that is known.
#[must_use]
pub fn to_keep(text: &str, set: &Exercise, lists: &Lists, at: u64) -> Vec<KeptCodes> {
    let mut kept: Vec<KeptCodes> = Vec::new();
    let found = find_all(text).codes;
    if found.is_empty() {
        return kept;
    }
    let own = (Fingerprint::of_exercise(set), set.clone());
    let all: Vec<(Fingerprint, Exercise)> = core::iter::once(own).chain(known(text, lists)).collect();
    for code in found {
        let exercise = code.outcome.exercise();
        let text = code.outcome.code();
        match kept.iter_mut().find(|one| one.exercise == exercise) {
            Some(one) => one.codes.push(text),
            None => {
                let sent = all.iter().find(|(known, _)| *known == exercise);
                let sent = sent.map(|(_, one)| SentExercise::of(one));
                // They stay in the order in which they came together.
                let at = at.saturating_add(kept.len() as u64);
                kept.push(KeptCodes { exercise, at, sent, codes: vec![text] });
            }
        }
    }
    kept
}

/// The exercises whose links stand in a text, and those of the teacher's own lists.
fn known(text: &str, lists: &Lists) -> Vec<(Fingerprint, Exercise)> {
    let all = mentioned(text).into_iter().chain(lists.exercises().filter_map(open));
    all.map(|one| (Fingerprint::of_exercise(&one), one)).collect()
}

/// The exercises whose links stand in a text.
fn mentioned(text: &str) -> Vec<Exercise> {
    let opened = |link: &str| match Link::decode(link) {
        Ok(Some(Link::Practise(PractiseLink::Do(Some(exercise))))) => open(&exercise),
        _ => None,
    };
    let words = text.split(|sign: char| sign.is_whitespace() || "<>\"'".contains(sign));
    words
        .filter_map(|word| word.split_once("#/"))
        .filter_map(|(_, link)| opened(&format!("/{link}")))
        .collect()
}

fn open(exercise: &SentExercise) -> Option<Exercise> {
    exercise.open().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::practise::run::Run;
    use crate::state::practise::setting;
    use crate::state::practise::sharing::code;
    use crate::state::store::Drawers;
    use crate::state::store::lists::{self, named};
    use crookwise_practice::Pace;
    use crookwise_practice::results::{Given, Outcome};
    use crookwise_share::Link;
    use crookwise_share::practise::PractiseLink;

    fn read(text: &str, set: &Exercise, chosen: Option<Fingerprint>) -> Read {
        super::read(text, set, chosen, &Lists::default())
    }

    #[test]
    fn results_about_different_pages_are_told_apart_and_old_codes_still_count() {
        let about = |notes: &str| {
            let link = format!("/read?staff=Corni+in+Es&notes={notes}");
            let Ok(Some(crookwise_share::Link::Read(page))) = crookwise_share::Link::decode(&link) else {
                panic!("{link}")
            };
            let mut exercise = setting::first(3);
            exercise.staves.clear();
            exercise.keys.clear();
            exercise.questions = 3;
            exercise.material = crookwise_practice::Material::Passage(Box::new(page.passage));
            exercise
        };
        let (mine, other) = (about("C5.E5.G5"), about("C5.E5.D5"));
        let done = |exercise: &Exercise| {
            let mut run = Run::begin(exercise.clone()).unwrap();
            run.stop();
            code(&run, "Ann")
        };
        let found = read(&done(&mine), &mine, None);
        assert!(found.same_exercise && found.class.students.len() == 1);
        assert!(!read(&done(&other), &mine, None).same_exercise);
        // A code of before, whose number knew the settings only.
        let before =
            Outcome::new(Fingerprint::of(&mine.pack()), 1, vec![Given::LeftOut], "Bo").unwrap().code();
        let found = read(&format!("{} {before}", done(&mine)), &mine, None);
        assert!(found.same_exercise && found.class.students.len() == 2, "{found:?}");
    }

    #[test]
    fn what_a_student_sends_a_teacher_reads() {
        let mut run = Run::begin(setting::first(3)).unwrap();
        let right = run.question().unwrap().right.clone();
        run.answer(Some(right), 2_000);
        run.go_on();
        run.answer(None, 500);
        run.stop();
        let text = format!("Hello,\nhere is mine: {}\nBest", code(&run, "Ann"));
        let read = read(&text, &run.exercise, None);
        assert!(read.same_exercise);
        let student = &read.class.students[0];
        assert_eq!(
            (student.name.as_deref(), student.tally.right, student.tally.left_out),
            (Some("Ann"), 1, 9)
        );
        assert_eq!(student.given[0], Given::Right(Pace::Fluent));
        assert!(read.class.all.missed.is_empty());
        // The exercise is known, so its staves are.
        assert_eq!(read.questions, run.questions);
        assert_eq!(read.page.staves.iter().map(|(_, tally)| tally.asked()).sum::<u32>(), 10);
        assert_eq!((read.term.exercises.len(), read.term.lines.len()), (1, 1));
        let unknown = self::read(&text, &setting::first(4), None);
        assert!(!unknown.same_exercise && unknown.questions.is_empty() && unknown.page.staves.is_empty());
    }

    #[test]
    fn codes_that_are_kept_count_with_those_that_come_and_go_by_their_exercise() {
        let sent = |seed| {
            let mut run = Run::begin(setting::first(seed)).unwrap();
            run.stop();
            run
        };
        let (set, other) = (sent(3), sent(4));
        let monday = format!("{} {}", code(&set, "Ann"), code(&other, "Ann"));
        let titled = Exercise { title: "Monday".into(), ..other.exercise.clone() };
        let link = Link::from(PractiseLink::Do(Some(SentExercise::of(&titled)))).encode();
        let mut kept = Drawers::default();
        for one in to_keep(&format!("{monday} #{link}"), &set.exercise, &Lists::default(), 5) {
            lists::codes::join(&mut kept, one).unwrap();
        }
        let all = lists::all(&kept);
        // In the order in which they came, whatever their numbers are.
        let order = |text: &str| {
            let kept = to_keep(text, &set.exercise, &Lists::default(), 5);
            kept.iter().map(|one| (one.at, one.exercise)).collect::<Vec<_>>()
        };
        let (own, others) = (code(&set, "Ann"), code(&other, "Ann"));
        for (text, first) in [(format!("{own} {others}"), &set), (format!("{others} {own}"), &other)] {
            assert!(order(&text)[0].0 < order(&text)[1].0);
            assert_eq!(order(&text)[0].1, Fingerprint::of_exercise(&first.exercise));
        }
        // After a reload nothing is pasted, another exercise is set, and all is there.
        let later = super::read("", &setting::first(9), None, &all);
        assert_eq!(later.exercises.iter().map(|one| one.codes).collect::<Vec<_>>(), [1, 1]);
        assert_eq!((later.questions.len(), later.kept.len(), later.term.lines.len()), (10, 1, 1));
        let named: Vec<Option<&str>> = later.exercises.iter().map(|one| one.title.as_deref()).collect();
        assert!(named.contains(&Some("Monday")), "{named:?}");
        // What is pasted again is there once, and is no double; what is new stands behind it.
        let again = super::read(&format!("{monday} {}", code(&set, "Ben")), &set.exercise, None, &all);
        assert_eq!((again.class.students.len(), again.found.doubles), (2, 0));
        assert_eq!(again.kept, [Fingerprint::of_exercise(&set.exercise)]);
        let gone = lists::codes::remove(&mut kept, again.kept[0]).unwrap();
        assert_eq!(gone.codes.len(), 1);
        assert!(!super::read("", &set.exercise, None, &lists::all(&kept)).same_exercise);
        assert!(to_keep("no code CWX", &set.exercise, &all, 5).is_empty());
    }

    #[test]
    fn of_several_exercises_the_one_that_is_set_is_read_and_another_may_be_chosen() {
        let sent = |seed| {
            let mut run = Run::begin(setting::first(seed)).unwrap();
            run.stop();
            run
        };
        let (set, other) = (sent(3), sent(4));
        let text = format!("{}\n{}\n{}", code(&other, "Ann"), code(&other, "Ben"), code(&set, "Ann"));
        // Most codes are of another exercise, but whoever has set one wants to see that.
        let first = read(&text, &set.exercise, None);
        assert!(first.same_exercise && first.class.students.len() == 1);
        let counts: Vec<_> = first.exercises.iter().map(|one| (one.codes, one.shown, one.set)).collect();
        assert_eq!(counts, [(2, false, false), (1, true, true)]);
        let second = read(&text, &set.exercise, Some(first.exercises[0].exercise));
        assert!(!second.same_exercise && second.class.students.len() == 2 && second.questions.is_empty());
        assert_eq!(second.term.lines.len(), 2);
        // What is chosen and no more there is not shown.
        assert!(read(&code(&set, "Ann"), &set.exercise, Some(first.exercises[0].exercise)).same_exercise);
        // The mail in which the exercise was set stands in the same text: its questions are known.
        let titled = Exercise { title: "Monday".into(), ..other.exercise.clone() };
        let link = Link::from(PractiseLink::Do(Some(SentExercise::of(&titled)))).encode();
        let mail = format!("Please do <https://horns.example/crooks/#{link}>.\n{text}");
        let third = read(&mail, &set.exercise, Some(first.exercises[0].exercise));
        assert_eq!(third.questions, other.questions);
        assert!(!third.page.staves.is_empty());
        assert_eq!(third.exercises[0].title.as_deref(), Some("Monday"));
        // Or it stands in the teacher's lists.
        let mut kept = Drawers::default();
        named::keep(&mut kept, &SentExercise::of(&titled), 1).unwrap();
        let fourth = super::read(&text, &set.exercise, Some(first.exercises[0].exercise), &lists::all(&kept));
        assert_eq!((&fourth.questions, &fourth.exercises), (&other.questions, &third.exercises));
    }
}
