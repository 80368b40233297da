//! An exercise under way: its questions, what was answered, where it stands.

use crate::words::practise::HowItWent;
use crookwise_practice::results::{Explained, Missed};
use crookwise_practice::{Answer, Exercise, ExerciseError, Mark, Mistake, Off, Question};

/// What became of a question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answered {
    /// Right, wrong with its mistakes, or left out.
    pub outcome: Verdict,
    /// How long it took, in milliseconds.
    pub ms: u32,
}

/// How a question was answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// As a musician would.
    Right,
    /// Otherwise; with what explains it.
    Wrong(Missed),
    /// Not at all.
    LeftOut,
}

/// An exercise under way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// The exercise.
    pub exercise: Exercise,
    /// Its questions.
    pub questions: Vec<Question>,
    /// What was answered, question by question.
    pub done: Vec<Answered>,
    /// Whether it repeats what was missed, picked from the record: then nobody has set it.
    pub repetition: bool,
    /// What each question of a repetition was drawn from; of an exercise nothing.
    pub picked: Vec<Exercise>,
    /// The last answer and its mark while they are shown; `None` while a question is asked.
    pub shown: Option<(Option<Answer>, Mark)>,
    /// Where it was stopped before its end: how many questions had been asked by then.
    pub stopped: Option<usize>,
}

/// What a question counts as that was not reached, or that was not answered when the exercise was stopped.
static NOT_REACHED: Answered = Answered { outcome: Verdict::LeftOut, ms: 0 };

impl Run {
    /// Begins an exercise.
    ///
    /// # Errors
    /// Where it cannot be asked.
    pub fn begin(exercise: Exercise) -> Result<Self, ExerciseError> {
        let questions = exercise.questions()?;
        let (done, picked) = (Vec::new(), Vec::new());
        Ok(Self { exercise, questions, done, repetition: false, picked, shown: None, stopped: None })
    }

    /// Begins a repetition: the first question of each of these; `None` where there is none.
    #[must_use]
    pub fn repeating(picked: Vec<Exercise>, seed: u32) -> Option<Self> {
        let ask = |exercise: Exercise| Some((exercise.questions().ok()?.into_iter().next()?, exercise));
        let (questions, picked): (Vec<_>, Vec<_>) = picked.into_iter().filter_map(ask).unzip();
        let count = u8::try_from(questions.len()).ok().filter(|count| *count > 0)?;
        let exercise = Exercise { questions: count, seed, ..Exercise::default() };
        let done = Vec::new();
        Some(Self { exercise, questions, done, repetition: true, picked, shown: None, stopped: None })
    }

    /// Questions by themselves, of no exercise.
    #[must_use]
    pub fn of(questions: Vec<Question>) -> Self {
        Self {
            exercise: Exercise::default(),
            questions,
            done: Vec::new(),
            repetition: false,
            picked: Vec::new(),
            shown: None,
            stopped: None,
        }
    }

    /// The question that is asked or whose answer is shown, counted from 0; `None` at the end, and where it was stopped.
    #[must_use]
    pub fn number(&self) -> Option<usize> {
        if self.stopped.is_some() {
            return None;
        }
        let at = self.done.len().saturating_sub(usize::from(self.shown.is_some()));
        (at < self.questions.len()).then_some(at)
    }

    /// That question.
    #[must_use]
    pub fn question(&self) -> Option<&Question> {
        self.questions.get(self.number()?)
    }

    /// Answers the question, or leaves it out; nothing while an answer is shown.
    pub fn answer(&mut self, answer: Option<Answer>, ms: u32) {
        if self.shown.is_some() {
            return;
        }
        let Some(question) = self.question() else { return };
        let mark = match &answer {
            Some(answer) => question.mark(answer, self.exercise.marking),
            None => Mark { right: false, explained: Vec::new() },
        };
        let outcome = match &answer {
            None => Verdict::LeftOut,
            Some(_) if mark.right => Verdict::Right,
            Some(answer) => {
                Verdict::Wrong(Missed { named: Explained::of(&mark.explained), off: question.off(answer) })
            }
        };
        // No time at all is kept for what was not reached alone.
        self.done.push(Answered { outcome, ms: ms.max(1) });
        self.shown = Some((answer, mark));
    }

    /// Goes on to the next question.
    pub fn go_on(&mut self) {
        self.shown = None;
    }

    /// Stops before the end. A question that is asked stays unanswered, and those after it are not reached.
    pub fn stop(&mut self) {
        let asked = self.number();
        self.shown = None;
        if let Some(at) = asked.filter(|_| self.done.len() < self.questions.len()) {
            self.stopped = Some(at + 1);
        }
    }

    /// Goes on where it was stopped, with the question that was not answered.
    pub fn resume(&mut self) {
        self.stopped = None;
    }

    /// How many questions have been asked.
    #[must_use]
    pub fn asked(&self) -> usize {
        let asked = self.number().map_or(self.done.len(), |at| at + 1);
        self.stopped.unwrap_or(asked)
    }

    /// What became of every question; one that was not reached was left out.
    pub fn outcomes(&self) -> impl Iterator<Item = &Answered> {
        self.done.iter().chain(core::iter::repeat(&NOT_REACHED)).take(self.questions.len())
    }

    /// Whether anything was answered.
    #[must_use]
    pub fn is_answered(&self) -> bool {
        self.done.iter().any(|done| done.outcome != Verdict::LeftOut)
    }

    /// How many were right.
    #[must_use]
    pub fn right(&self) -> usize {
        self.done.iter().filter(|done| done.outcome == Verdict::Right).count()
    }

    /// How many were left out by the reader.
    #[must_use]
    pub fn left_out(&self) -> usize {
        self.done.iter().filter(|done| done.outcome == Verdict::LeftOut).count()
    }

    /// How it went, in numbers.
    #[must_use]
    pub fn score(&self) -> HowItWent {
        let (right, left_out) = (self.right(), self.left_out());
        HowItWent { right, done: self.done.len(), asked: self.asked(), all: self.questions.len(), left_out }
    }

    /// The middle one of the times of what was answered, in milliseconds.
    #[must_use]
    pub fn usual_ms(&self) -> Option<u32> {
        let answered = self.done.iter().filter(|done| done.outcome != Verdict::LeftOut);
        let mut times: Vec<u32> = answered.map(|done| done.ms).collect();
        times.sort_unstable();
        times.get(times.len() / 2).copied()
    }

    /// What was answered, as text that is kept in case of a reload: "r1200 w3400.2/5:0.-2.0 o". Behind the time stand the
    /// mistakes, joined by `.` where it was one or both, `+` both, `/` either; then how far it was off. Where it was stopped,
    /// each of the rest is left out in no time: "o0".
    #[must_use]
    pub fn write(&self) -> String {
        let word = |done: &Answered| match &done.outcome {
            Verdict::Right => format!("r{}", done.ms),
            Verdict::Wrong(missed) => format!("w{}{}", done.ms, write(missed)),
            Verdict::LeftOut => format!("o{}", done.ms),
        };
        let kept = if self.stopped.is_some() { self.questions.len() } else { self.done.len() };
        self.outcomes().take(kept).map(word).collect::<Vec<_>>().join(" ")
    }

    /// Whether all that was kept of answers can be read.
    #[must_use]
    pub fn understands(kept: &str) -> bool {
        kept.split_whitespace().all(|word| read(word).is_some())
    }

    /// Takes up what was kept; what cannot be read is asked again. `asking` says whether a question was asked then that had
    /// not been answered.
    pub fn take_up(&mut self, kept: &str, asking: bool) {
        let done = kept.split_whitespace().map_while(read);
        self.done = done.take(self.questions.len()).collect();
        self.shown = None;
        self.stopped = None;
        if self.done.len() == self.questions.len() {
            while self.done.pop_if(|last| *last == NOT_REACHED).is_some() {
                self.stopped = Some(self.done.len() + usize::from(asking));
            }
        }
    }
}

fn write(missed: &Missed) -> String {
    let join = match missed.named {
        Explained::Both(..) => '+',
        Explained::Either(..) => '/',
        _ => '.',
    };
    let mut word = String::new();
    for (at, mistake) in missed.named.mistakes().enumerate() {
        word.push(if at == 0 { '.' } else { join });
        word.push_str(&mistake.code().to_string());
    }
    if let Some((sort, numbers)) = missed.off.as_ref().map(Off::numbers) {
        word.push_str(&format!(":{sort}"));
        numbers.iter().for_each(|number| word.push_str(&format!(".{number}")));
    }
    word
}

fn read(word: &str) -> Option<Answered> {
    let (letter, rest) = word.split_at_checked(1)?;
    let (rest, off) = rest.split_once(':').map_or((rest, None), |(rest, off)| (rest, Some(off)));
    let (ms, named) = rest.split_once('.').map_or((rest, None), |(ms, named)| (ms, Some(named)));
    let ms = ms.parse().ok()?;
    let outcome = match letter {
        "r" | "o" if named.is_some() || off.is_some() => return None,
        "r" => Verdict::Right,
        "o" => Verdict::LeftOut,
        "w" => {
            let named = named.map_or(Some(Explained::Nothing), read_named)?;
            let off = match off {
                Some(off) => Some(read_off(off)?),
                None => None,
            };
            Verdict::Wrong(Missed { named, off })
        }
        _ => return None,
    };
    Some(Answered { outcome, ms })
}

fn read_named(text: &str) -> Option<Explained> {
    let mistake = |code: &str| Mistake::from_code(code.parse().ok()?);
    let Some(join) = text.find(['.', '+', '/']) else { return mistake(text).map(Explained::One) };
    let (one, other) = (mistake(text.get(..join)?)?, mistake(text.get(join + 1..)?)?);
    Some(match text.as_bytes().get(join) {
        Some(b'+') => Explained::Both(one, other),
        Some(b'/') => Explained::Either(one, other),
        _ => Explained::OneOrBoth(one, other),
    })
}

fn read_off(text: &str) -> Option<Off> {
    let mut numbers = text.split('.');
    let sort = numbers.next()?.parse().ok()?;
    let numbers: Option<Vec<i32>> = numbers.map(|number| number.parse().ok()).collect();
    Off::of_numbers(sort, &numbers?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::AskedStaff;
    use crookwise_theory::Interval;

    fn run() -> Run {
        let staves = vec![AskedStaff::of("Corni in Es"), AskedStaff::of("Clarinetti in A")];
        Run::begin(Exercise { staves, questions: 4, ..Exercise::default() }).unwrap()
    }

    #[test]
    fn answers_are_marked_and_shown_before_the_next_question() {
        let mut run = run();
        let right = run.question().unwrap().right.clone();
        run.answer(Some(right), 900);
        assert_eq!((run.number(), run.right()), (Some(0), 1));
        assert!(run.shown.as_ref().unwrap().1.right);
        run.answer(None, 5);
        assert_eq!(run.done.len(), 1);
        run.go_on();
        assert_eq!(run.number(), Some(1));
        run.answer(Some(Answer::Which(crookwise_practice::Which::First)), 1_500);
        assert!(matches!(run.done[1].outcome, Verdict::Wrong(_)));
        run.go_on();
        run.stop();
        assert_eq!((run.number(), run.done.len(), run.asked()), (None, 2, 3));
        assert_eq!(run.usual_ms(), Some(1_500));
        // What was left out took no time that is worth telling, however long the reader looked.
        let mut looked = self::run();
        for _ in 0..4 {
            looked.answer(None, 600);
            looked.go_on();
        }
        assert_eq!((looked.right(), looked.left_out(), looked.usual_ms()), (0, 4, None));
        assert_eq!(score(&looked), "0 of 4 right, 4 left out");
        assert_eq!(
            score(&run),
            "3 of 4 asked, 1 right, 1 not answered, 1 not reached, 1.5 seconds each as a rule"
        );
    }

    fn score(run: &Run) -> String {
        crate::words::practise::score(run.score(), run.usual_ms())
    }

    #[test]
    fn what_was_not_reached_is_not_left_out_and_can_be_gone_on_with() {
        let mut first = run();
        first.stop();
        assert_eq!(
            (first.number(), first.asked(), first.left_out(), first.is_answered()),
            (None, 1, 0, false)
        );
        assert_eq!(score(&first), "1 of 4 asked, 0 right, 1 not answered, 3 not reached");
        // For a teacher all of it was left out.
        assert_eq!(first.outcomes().filter(|one| one.outcome == Verdict::LeftOut).count(), 4);
        first.resume();
        assert_eq!((first.number(), first.asked()), (Some(0), 1));

        // Stopped while an answer is shown: the next question was not asked.
        let mut second = run();
        second.answer(None, 0);
        second.stop();
        assert_eq!((second.asked(), second.left_out(), second.done.len()), (1, 1, 1));
        assert_eq!(score(&second), "1 of 4 asked, 0 right, 1 left out, 3 not reached");
        // A reload knows what was asked, and what was not.
        for (run, asking) in [(&first, false), (&second, false), (&second, true)] {
            let mut stopped = run.clone();
            stopped.stopped = None;
            stopped.stop();
            let mut again = self::run();
            again.take_up(&stopped.write(), asking || run.done.is_empty());
            assert_eq!(again.done, stopped.done);
            assert_eq!(again.stopped, Some(stopped.done.len() + usize::from(asking || run.done.is_empty())));
        }
        second.resume();
        assert_eq!(second.number(), Some(1));

        // Behind the last answer nothing is left to stop.
        let mut last = run();
        for _ in 0..4 {
            last.go_on();
            last.answer(None, 5);
        }
        last.stop();
        assert_eq!((last.stopped, last.asked(), last.left_out()), (None, 4, 4));
        assert_eq!(score(&last), "0 of 4 right, 4 left out");
    }

    fn wrong(named: Explained, off: Option<Off>) -> Answered {
        Answered { outcome: Verdict::Wrong(Missed { named, off }), ms: 3_400 }
    }

    #[test]
    fn what_earlier_versions_kept_of_answers_is_read_for_ever() {
        let mut run = run();
        run.take_up("w3400.1.2 w3400.2 w3400 w3400:9.-2", false);
        let both = Explained::OneOrBoth(Mistake::Direction, Mistake::Octave);
        assert_eq!(
            run.done,
            [
                wrong(both, None),
                wrong(Explained::One(Mistake::Octave), None),
                wrong(Explained::Nothing, None),
                wrong(Explained::Nothing, Some(Off::Hand(-2)))
            ]
        );
    }

    #[test]
    fn a_reload_loses_nothing_and_rubbish_is_asked_again() {
        let mut first = run();
        first.done = vec![
            Answered { outcome: Verdict::Right, ms: 1_200 },
            wrong(
                Explained::Either(Mistake::Direction, Mistake::Octave),
                Some(Off::Note(Interval::new(-2, -4))),
            ),
            wrong(Explained::Both(Mistake::Direction, Mistake::Octave), None),
            Answered { outcome: Verdict::LeftOut, ms: 10 },
        ];
        let mut again = run();
        again.take_up(&first.write(), false);
        assert_eq!(again.done, first.done);
        assert!(Run::understands(&first.write()) && Run::understands(""));
        for rubbish in ["r", "w1.999", "x5", "ü12", "r-1", "r5.2", "w1.2.3.4", "w1:99", "w1.2+", "w1:0.1"] {
            again.take_up(&format!("r5 {rubbish} r6"), false);
            assert_eq!(again.done.len(), 1, "{rubbish}");
            assert!(!Run::understands(&format!("r5 {rubbish} r6")));
        }
        again.take_up(&"r1 ".repeat(50), false);
        assert_eq!(again.done.len(), 4);
    }
}
