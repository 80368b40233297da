//! Practise: which of its screens is shown, the exercise that is set, the one under way.

pub mod asking;
pub mod heard;
pub mod paper;
pub mod picture;
pub mod remembered;
pub mod run;
pub mod setting;
pub mod sharing;

use crate::state::kept::{Derived, Watched};
use crate::state::store::under_way::UnderWay;
use asking::{AnswerWay, Draft};
use crookwise_practice::record::Record;
use crookwise_practice::{Answer, Exercise, Question};
use crookwise_score::Passage;
use crookwise_share::practise::PractiseLink;
use leptos::prelude::*;
use run::Run;

/// A screen of Practise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Screen {
    /// The course, step by step.
    Course,
    /// A step of it, from 0.
    Step(usize),
    /// An exercise is set.
    Set,
    /// An exercise is done.
    Do,
    /// One question at a time for the whole class.
    Wall,
    /// Results of a class are read.
    Class,
    /// What the reader has answered so far.
    Record,
    /// A worksheet on paper.
    Paper,
}

/// A question on the wall: which, and whether its answer is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct OnWall {
    /// Which question, from 0.
    pub at: usize,
    /// Whether its answer is shown.
    pub revealed: bool,
}

/// Handles on the state of Practise.
#[derive(Clone, Copy, Debug)]
pub struct Practise {
    /// What is shown.
    pub screen: Watched<Screen>,
    /// The exercise that is set, shared or printed.
    pub set: Watched<Exercise>,
    /// The exercise under way.
    pub run: Watched<Option<Run>>,
    /// The answer that is being made.
    pub draft: Watched<Draft>,
    /// The question that is asked, or whose answer is shown.
    pub question: Derived<Option<Question>>,
    /// How it is answered.
    pub way: Derived<Option<AnswerWay>>,
    /// Whether what was missed is being repeated.
    pub repeating: Derived<bool>,
    /// When it was asked, in milliseconds since 1970.
    pub asked_at: Watched<f64>,
    /// When the exercise was begun, in milliseconds since 1970: its time runs on while the reader is elsewhere.
    pub begun_at: Watched<f64>,
    /// What the reader has answered so far; `None` until it has been read.
    pub record: Watched<Option<Record>>,
    /// The question on the wall.
    pub on_wall: Watched<OnWall>,
    /// What a teacher has pasted.
    pub pasted: Watched<String>,
    /// A sentence about something that could not be done.
    pub notice: Watched<Option<String>>,
}

impl Practise {
    /// Practise at its beginning.
    #[must_use]
    pub fn new(set: Exercise) -> Self {
        let run = Watched::new(None::<Run>);
        let question = Derived::new(move || run.and_then(|run| run.question().cloned()));
        let way = Derived::new(move || question.map(AnswerWay::of));
        Self {
            screen: Watched::new(Screen::Course),
            set: Watched::new(set),
            run,
            draft: Watched::new(Draft::default()),
            question,
            way,
            repeating: Derived::new(move || run.map(|run| run.repetition).unwrap_or_default()),
            asked_at: Watched::new(0.0),
            begun_at: Watched::new(0.0),
            record: Watched::new(None),
            on_wall: Watched::new(OnWall::default()),
            pasted: Watched::new(String::new()),
            notice: Watched::new(None),
        }
    }

    /// The state of this page.
    ///
    /// # Panics
    /// Never in the place Practise, which provides it first.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("the place provides its state")
    }

    /// Shows what a link names.
    pub fn open(self, link: PractiseLink) {
        self.notice.set(None);
        let (screen, exercise) = match link {
            PractiseLink::Course => (Screen::Course, None),
            PractiseLink::Step(step) => (Screen::Step(usize::from(step).saturating_sub(1)), None),
            PractiseLink::Set(exercise) => (Screen::Set, exercise),
            PractiseLink::Do(exercise) => (Screen::Do, exercise),
            PractiseLink::Wall(exercise) => (Screen::Wall, exercise),
            PractiseLink::Paper(exercise) => (Screen::Paper, exercise),
            PractiseLink::AboutPage => (Screen::Set, None),
            PractiseLink::Record | PractiseLink::Repeat => (Screen::Record, None),
            PractiseLink::Class(text) => {
                if !text.is_empty() {
                    self.pasted.set(text);
                }
                (Screen::Class, None)
            }
        };
        if let Some(exercise) = exercise {
            if self.set.get_untracked() != *exercise {
                self.run.set(None);
            }
            self.set.set(*exercise);
        }
        self.on_wall.set(OnWall::default());
        self.screen.set(screen);
    }

    /// Sets an exercise about a page.
    pub fn set_from(self, page: &Passage) {
        let mut exercise = self.set.get_untracked();
        setting::List::Material.choose(&mut exercise, "passage", page);
        self.notice.set(None);
        self.run.set(None);
        self.set.set(exercise);
        self.screen.set(Screen::Set);
    }

    /// The link to what is shown.
    #[must_use]
    pub fn link(self) -> PractiseLink {
        let exercise = || Some(Box::new(self.set.get()));
        match self.screen.get() {
            Screen::Course => PractiseLink::Course,
            Screen::Step(step) => PractiseLink::Step(u8::try_from(step + 1).unwrap_or(1)),
            Screen::Set => PractiseLink::Set(exercise()),
            Screen::Do if self.repeating.get() => PractiseLink::Record,
            Screen::Do => PractiseLink::Do(exercise()),
            Screen::Wall => PractiseLink::Wall(exercise()),
            Screen::Paper => PractiseLink::Paper(exercise()),
            Screen::Class => PractiseLink::Class(String::new()),
            Screen::Record => PractiseLink::Record,
        }
    }

    /// Begins the exercise that is set, at `now` in milliseconds since 1970.
    pub fn begin(self, now: f64) {
        match Run::begin(self.set.get_untracked()) {
            Ok(run) => self.start(run, now),
            Err(error) => self.notice.set(Some(error.to_string())),
        }
    }

    /// Takes up the exercise that is set where it was left; its time has run on.
    pub fn take_up(self, kept: &UnderWay, now: f64) {
        match Run::begin(self.set.get_untracked()) {
            Ok(mut run) => {
                run.take_up(&kept.answers);
                self.start(run, now);
                self.begun_at.set(kept.begun.min(now));
                self.asked_at.set(kept.asked.unwrap_or(now).min(now));
            }
            Err(error) => self.notice.set(Some(error.to_string())),
        }
    }

    /// The exercise under way as it is kept.
    #[must_use]
    pub fn under_way(self, run: &Run) -> UnderWay {
        UnderWay {
            link: UnderWay::link_of(&run.exercise),
            answers: run.write(),
            begun: self.begun_at.get_untracked(),
            asked: run.shown.is_none().then(|| self.asked_at.get_untracked()),
        }
    }

    fn start(self, run: Run, now: f64) {
        self.notice.set(None);
        self.run.set(Some(run));
        self.begun_at.set(now);
        self.ask(now);
    }

    /// Begins a repetition, at `now` in milliseconds.
    pub fn repeat(self, run: Run, now: f64) {
        self.start(run, now);
        self.screen.set(Screen::Do);
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

    /// Leaves out the rest.
    pub fn stop(self) {
        self.change(Run::stop);
    }

    /// Changes the answer that is being made.
    pub fn draw(self, change: impl FnOnce(&mut Draft)) {
        let mut draft = self.draft.get_untracked();
        change(&mut draft);
        self.draft.set(draft);
    }

    fn ask(self, now: f64) {
        self.draft.set(Draft::default());
        self.asked_at.set(now);
    }

    fn change(self, change: impl FnOnce(&mut Run)) {
        if let Some(mut run) = self.run.get_untracked() {
            change(&mut run);
            self.run.set(Some(run));
        }
    }
}
