//! A question while it is answered: the run it belongs to, the answer that is being made, what becomes of it.

use crate::state::kept::{Derived, Watched};
use crate::state::practise::asking::{AnswerWay, Draft};
use crate::state::practise::run::Run;
use crookwise_practice::{Answer, Question};

/// Handles on the question that is answered; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Answering {
    /// The exercise that was begun last, under way or over.
    pub latest: Watched<Option<Run>>,
    /// The one that is meant here, where it was begun.
    pub run: Derived<Option<Run>>,
    /// The question that is asked, or whose answer is shown.
    pub question: Derived<Option<Question>>,
    /// How it is answered.
    pub way: Derived<Option<AnswerWay>>,
    /// The answer that is being made.
    pub draft: Watched<Draft>,
    /// When it was asked, in milliseconds since 1970.
    pub asked_at: Watched<f64>,
}

impl Answering {
    /// Nothing is asked. Of what was begun last, `run` is what is meant here.
    #[must_use]
    pub fn new(latest: Watched<Option<Run>>, run: Derived<Option<Run>>) -> Self {
        let question = Derived::new(move || run.and_then(|run| run.question().cloned()));
        Self {
            latest,
            run,
            question,
            way: Derived::new(move || question.map(AnswerWay::of)),
            draft: Watched::new(Draft::default()),
            asked_at: Watched::new(0.0),
        }
    }

    /// Questions by themselves, of which the first is asked at `now`, in milliseconds since 1970.
    #[must_use]
    pub fn alone(questions: Vec<Question>, now: f64) -> Self {
        let latest = Watched::new(Some(Run::of(questions)));
        let answering = Self::new(latest, Derived::new(move || latest.get()));
        answering.ask(now);
        answering
    }

    /// Answers the question at `now`, or leaves it out.
    pub fn answer(self, answer: Option<Answer>, now: f64) {
        let ms = (now - self.asked_at.get_untracked()).clamp(0.0, 3_600_000.0) as u32;
        self.change(|run| run.answer(answer, ms));
    }

    /// Goes on to the next question at `now`.
    pub fn go_on(self, now: f64) {
        self.change(Run::go_on);
        self.ask(now);
    }

    /// Changes the answer that is being made.
    pub fn draw(self, change: impl FnOnce(&mut Draft)) {
        let mut draft = Draft { lacking: false, ..self.draft.get_untracked() };
        change(&mut draft);
        self.draft.set(draft);
    }

    /// Which question it is, counted from 1, and of how many; nothing at the end.
    #[must_use]
    pub fn number(self) -> Option<(usize, usize)> {
        self.run.and_then(|run| Some((run.number()? + 1, run.questions.len())))
    }

    /// Whether what became of the answer is shown.
    #[must_use]
    pub fn is_shown(self) -> bool {
        self.run.map(|run| run.shown.is_some()).unwrap_or_default()
    }

    /// A question is asked at `now`: nothing is answered yet.
    pub(super) fn ask(self, now: f64) {
        self.draft.set(Draft::default());
        self.asked_at.set(now);
    }

    pub(super) fn change(self, change: impl FnOnce(&mut Run)) {
        if let Some(mut run) = self.run.get_untracked() {
            change(&mut run);
            self.latest.set(Some(run));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::practise::remembered::last;
    use crookwise_practice::{Exercise, Kind, Question};
    use crookwise_share::{Link, ReadPage};
    use leptos::prelude::Owner;

    fn page(link: &str) -> ReadPage {
        let Ok(Some(Link::Read(page))) = Link::decode(link) else { panic!() };
        *page
    }

    #[test]
    fn a_note_of_a_score_is_asked_marked_and_remembered_like_any_other() {
        let owner = Owner::new();
        owner.set();
        let page = page("/read?staff=Corno+I+in+D&notes=-.-.G4.C5");
        let at = crookwise_practice::Spot { staff: 0, column: 2, player: 0 };
        let question = Question::of_place(Kind::Sounds, &page.passage, at).unwrap();
        assert_eq!(question.right, Answer::Note("A3".parse().unwrap()));
        let answering = Answering::alone(vec![question], 1_000.0);
        answering.draw(|draft| draft.put("A4".parse().unwrap()));
        let given = answering.draft.get().answer(&answering.way.get().unwrap());
        answering.answer(given, 3_500.0);
        assert!(answering.is_shown());
        let (attempt, label) = answering.latest.with(|run| last(run.as_ref().unwrap(), 7)).unwrap();
        assert_eq!((attempt.ms, attempt.right, label.as_str()), (2_500, false, "Corno I in D"));
        assert!(attempt.mistakes[0].is_some(), "the octave is named");
        // It belongs to no exercise that could be repeated or handed in.
        assert!(answering.latest.with(|run| run.as_ref().unwrap().exercise == Exercise::default()));
        answering.go_on(4_000.0);
        assert_eq!(answering.question.get(), None);
    }

    #[test]
    fn notes_are_asked_one_after_the_other() {
        let owner = Owner::new();
        owner.set();
        let page = page("/read?staff=Corno+I+in+D&notes=G4.C5");
        let question = |column| {
            let at = crookwise_practice::Spot { staff: 0, column, player: 0 };
            Question::of_place(Kind::Sounds, &page.passage, at).unwrap()
        };
        let answering = Answering::alone(vec![question(0), question(1)], 0.0);
        assert_eq!(answering.number(), Some((1, 2)));
        answering.answer(None, 1_000.0);
        assert_eq!((answering.number(), answering.is_shown()), (Some((1, 2)), true));
        answering.go_on(2_000.0);
        assert_eq!((answering.number(), answering.is_shown()), (Some((2, 2)), false));
        answering.answer(Some(answering.question.get().unwrap().right), 3_000.0);
        let (attempt, _) = answering.latest.with(|run| last(run.as_ref().unwrap(), 7)).unwrap();
        assert!(attempt.right && attempt.ms == 1_000);
        answering.go_on(4_000.0);
        assert_eq!(answering.number(), None);
    }
}
