//! Practise: which of its screens is shown, the exercise that is set, the one under way.

pub mod answering;
pub mod asking;
pub mod engraved;
mod engraved_draft;
mod engraved_key;
mod engraved_line;
pub mod entry;
pub mod fitted;
pub mod heard;
pub mod of_step;
pub mod offered;
pub mod on_wall;
pub mod open_points;
pub mod paper;
pub mod paper_choices;
pub mod paper_pages;
pub mod pasted;
pub mod picker;
pub mod picture;
pub mod placed;
pub mod remembered;
pub mod run;
mod screen;
pub mod setting;
pub mod sharing;
pub mod wall_clock;
pub mod way_back;
pub mod weeks;

use crate::state::kept::{Derived, Watched};
use crate::state::place::{AppPlace, AtHand, Whereabouts};
use crate::state::store::lists::Lists;
use crate::state::store::under_way::UnderWay;
use answering::Answering;
use crookwise_practice::record::Record;
use crookwise_practice::{Edition, Exercise, Material, Time};
use crookwise_share::ReadPage;
use crookwise_share::practise::SentExercise;
use leptos::prelude::*;
use of_step::OfStep;
use on_wall::OnWall;
use run::Run;
pub use screen::Screen;
use way_back::{DoneLast, take_staff};

/// Handles on the state of Practise. It lasts as long as the app, so that nothing is lost by going elsewhere and back.
#[derive(Clone, Copy, Debug)]
pub struct Practise {
    whereabouts: Whereabouts,
    /// What is shown.
    pub screen: Derived<Screen>,
    /// The exercise that is set, shared or printed.
    pub exercise: Derived<Exercise>,
    /// What is answered: of the exercise that was begun last, which may be another than the one that is set, the one that is
    /// set, or the repetition that is shown.
    pub answering: Answering,
    /// The step of the course that it came from.
    pub of_step: Derived<Option<OfStep>>,
    /// What the reader was setting himself before another exercise took its place, and has kept nowhere.
    pub aside: Derived<Option<Exercise>>,
    set_by_hand: Watched<Option<Exercise>>,
    /// Whether what was missed is being repeated.
    pub repeating: Derived<bool>,
    /// Whether the questions of an exercise are on the screen: until its end nothing else stands beside them.
    pub under_way: Derived<bool>,
    /// When the exercise was begun, in milliseconds since 1970: its time runs on while the reader is elsewhere.
    pub begun_at: Watched<f64>,
    /// What the reader has answered so far; `None` until it has been read.
    pub record: Watched<Option<Record>>,
    /// Named exercises, courses over weeks and what was done; `None` until they have been read.
    pub lists: Watched<Option<Lists>>,
    /// What was done last where the reader is.
    pub done_last: Derived<Option<DoneLast>>,
    told: Watched<Option<(Screen, DoneLast)>>,
    /// Examples of lessons that the reader has changed, by step and number.
    examples: Watched<Vec<((usize, usize), ReadPage)>>,
    /// Where the keyboard goes, by its id, once what was taken back is there; empty where nothing was.
    pub back_at: Watched<String>,
    /// The question on the wall.
    pub on_wall: Derived<OnWall>,
    shown_on_wall: Watched<(Exercise, OnWall)>,
    /// What a teacher has pasted.
    pub pasted: Watched<String>,
    /// A course over weeks that a link has brought, as text.
    pub brought: Watched<String>,
    /// A sentence about something that could not be done.
    pub notice: Derived<Option<String>>,
    said: Watched<Option<(Screen, String)>>,
}

impl Practise {
    /// Practise at its beginning.
    #[must_use]
    pub fn new(whereabouts: Whereabouts) -> Self {
        let Whereabouts { place, at_hand, seed, pasted, weeks, .. } = whereabouts;
        let screen = Derived::new(move || match place.get() {
            AppPlace::Practise(screen) => screen,
            AppPlace::Read | AppPlace::Score | AppPlace::Crooks => Screen::Course,
        });
        let opened = Derived::new(move || match &*at_hand.read() {
            AtHand::First => Ok(setting::first(seed)),
            AtHand::Sent(exercise) => exercise.open(),
            AtHand::About(page) => {
                Ok(Exercise { material: Material::Passage(page.clone()), ..setting::first(seed) })
            }
        });
        let exercise = Derived::new(move || {
            opened.with(|opened| opened.clone().unwrap_or_else(|_| setting::first(seed)))
        });
        let latest = Watched::new(None::<Run>);
        let run = Derived::new(move || {
            let repeats = screen.get() == Screen::Repeat;
            let is_meant = |run: &Run| {
                run.repetition == repeats && (repeats || run.exercise.asks_the_same(&exercise.read()))
            };
            latest.get().filter(is_meant)
        });
        let answering = Answering::new(latest, run);
        let set_by_hand = Watched::new(None::<Exercise>);
        let is_another = move |set: &Exercise| *set != *exercise.read();
        let shown_on_wall = Watched::new((exercise.get_untracked(), OnWall::default()));
        let said = Watched::new(None::<(Screen, String)>);
        let told = Watched::new(None::<(Screen, DoneLast)>);
        Self {
            whereabouts,
            screen,
            exercise,
            answering,
            of_step: Derived::new(move || OfStep::of(&exercise.read())),
            aside: Derived::new(move || set_by_hand.get().filter(is_another)),
            set_by_hand,
            repeating: Derived::new(move || run.map(|run| run.repetition).unwrap_or_default()),
            under_way: Derived::new(move || {
                matches!(screen.get(), Screen::Do | Screen::Repeat) && answering.question.read().is_some()
            }),
            begun_at: Watched::new(0.0),
            record: Watched::new(None),
            lists: Watched::new(None),
            done_last: Derived::new(move || {
                told.and_then(|(there, done)| (*there == screen.get()).then(|| done.clone()))
            }),
            told,
            examples: Watched::new(Vec::new()),
            back_at: Watched::new(String::new()),
            on_wall: Derived::new(move || {
                let shown = shown_on_wall.read();
                if shown.0.asks_the_same(&exercise.read()) { shown.1 } else { OnWall::default() }
            }),
            shown_on_wall,
            pasted,
            brought: weeks,
            notice: Derived::new(move || {
                let said = said.and_then(|(there, said)| (*there == screen.get()).then(|| said.clone()));
                said.or_else(|| opened.with(|opened| opened.as_ref().err().map(ToString::to_string)))
            }),
            said,
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

    /// Goes to a screen. Its address carries the exercise it shows.
    pub fn go(self, screen: Screen) {
        if screen.is_of_the_exercise() {
            self.set(&self.exercise.read_untracked());
        }
        self.whereabouts.go(screen);
    }

    /// Sets an exercise.
    pub fn set(self, exercise: &Exercise) {
        self.whereabouts.at_hand.set(AtHand::Sent(SentExercise::of(exercise)));
    }

    /// Says a sentence, until the reader goes elsewhere.
    pub fn say(self, sentence: impl Into<String>) {
        self.said.set(Some((self.screen.get_untracked(), sentence.into())));
    }

    /// Tells what was done last; it is said until the reader goes elsewhere.
    pub fn tell(self, done: Option<DoneLast>) {
        let here = self.screen.get_untracked();
        self.told.set(done.map(|done| (here, done)));
    }

    /// An example of a lesson as the reader left it, by its step and number; `None` where it is as it was.
    #[must_use]
    pub fn example(self, which: (usize, usize)) -> Option<ReadPage> {
        let all = self.examples.read_untracked();
        all.iter().find(|(known, _)| *known == which).map(|(_, page)| page.clone())
    }

    /// Keeps an example as it is now.
    pub fn keep_example(self, which: (usize, usize), page: Option<ReadPage>) {
        self.examples.update(|all| {
            all.retain(|(known, _)| *known != which);
            all.extend(page.map(|page| (which, page)));
        });
    }

    /// Takes a staff out of the exercise that is set, with the way back; `said` is the sentence on it.
    pub fn take_staff(self, at: usize, said: impl FnOnce(&str) -> String) {
        let mut set = self.exercise.get_untracked();
        let label = set.staves.get(at).map(|staff| staff.label.clone()).unwrap_or_default();
        if let Some(back) = take_staff(&mut set, at) {
            self.change_set(set);
            self.tell(Some(DoneLast { said: said(&label), back: Some(back) }));
        }
    }

    /// Sets what the reader has changed: it is drawn by the rules of now, also where it began as an old link.
    pub fn change_set(self, exercise: Exercise) {
        self.set_by_hand(Exercise { edition: Edition::NOW, ..exercise });
    }

    /// Sets what the reader has made: where another exercise takes its place, it is put aside.
    pub fn set_by_hand(self, exercise: Exercise) {
        self.set(&exercise);
        self.set_by_hand.set(Some(exercise));
    }

    /// Takes up again what was put aside.
    pub fn take_up(self) {
        if let Some(exercise) = self.aside.get_untracked() {
            self.set(&exercise);
        }
    }

    /// The exercise that is set stands in the reader's list: nothing of it need be put aside.
    pub fn kept_it(self) {
        self.set_by_hand.set(None);
    }

    /// Shows a question of this exercise on the wall.
    pub fn show_on_wall(self, shown: OnWall) {
        self.shown_on_wall.set((self.exercise.get_untracked(), shown));
    }

    /// Begins an exercise of the course at `now`, with questions drawn by `seed`: the course asks anew each time, where a
    /// link asks all who open it the same.
    pub fn begin_of_course(self, exercise: Exercise, seed: u32, now: f64) {
        self.set(&Exercise { seed, ..exercise });
        self.go(Screen::Do);
        self.begin(now);
    }

    /// Begins the exercise that is set, at `now` in milliseconds since 1970.
    pub fn begin(self, now: f64) {
        match Run::begin(self.exercise.get_untracked()) {
            Ok(run) => self.start(run, now),
            Err(error) => self.say(error.to_string()),
        }
    }

    /// Takes up what this window kept before it was loaded again: the exercise at hand, unless the address brought one,
    /// and the one under way where it was left; its time has run on.
    pub fn resume(self, at_hand: Option<&UnderWay>, under_way: Option<&UnderWay>, now: f64) {
        let is_first = matches!(*self.whereabouts.at_hand.read_untracked(), AtHand::First);
        let kept = at_hand.or(under_way).and_then(UnderWay::exercise);
        if let Some(kept) = kept.filter(|kept| is_first && kept.open().is_ok()) {
            self.whereabouts.at_hand.set(AtHand::Sent(kept));
        }
        let Some(kept) = under_way.filter(|kept| kept.was_begun()) else { return };
        let begun = match kept.repeated() {
            Some(picked) => Run::repeating(picked, 0),
            None => kept.exercise().and_then(|exercise| Run::begin(exercise.open().ok()?).ok()),
        };
        if let Some(mut run) = begun {
            run.take_up(&kept.answers, kept.asked.is_some());
            self.start(run, now);
            self.begun_at.set(kept.begun.min(now));
            self.answering.asked_at.set(kept.asked.unwrap_or(now).min(now));
        }
    }

    /// The exercise at hand as it is kept; `None` where it is the one everybody begins with.
    #[must_use]
    pub fn at_hand(self) -> Option<UnderWay> {
        let is_first = matches!(*self.whereabouts.at_hand.read(), AtHand::First);
        let link = || UnderWay::link_of(&self.exercise.read());
        (!is_first).then(|| UnderWay { link: link(), answers: String::new(), begun: 0.0, asked: None })
    }

    /// The exercise under way as it is kept.
    #[must_use]
    pub fn under_way(self, run: &Run) -> UnderWay {
        let link = if run.repetition {
            UnderWay::link_of_repetition(&run.picked)
        } else {
            UnderWay::link_of(&run.exercise)
        };
        UnderWay {
            link,
            answers: run.write(),
            begun: self.begun_at.get_untracked(),
            asked: (run.asked() > run.done.len()).then(|| self.answering.asked_at.get_untracked()),
        }
    }

    /// Which question of a repetition that was left is to be answered next, from 0, and of how many.
    #[must_use]
    pub fn left_repetition(self) -> Option<(usize, usize)> {
        self.answering.latest.with(|run| {
            let run = run.as_ref().filter(|run| run.repetition)?;
            Some((run.number()?, run.questions.len()))
        })
    }

    fn start(self, run: Run, now: f64) {
        self.said.set(None);
        self.answering.latest.set(Some(run));
        self.begun_at.set(now);
        self.answering.ask(now);
    }

    /// Begins a repetition, at `now` in milliseconds.
    pub fn repeat(self, run: Run, now: f64) {
        self.start(run, now);
        self.go(Screen::Repeat);
    }

    /// Stops before the end.
    pub fn stop(self) {
        self.answering.change(Run::stop);
    }

    /// Goes on with what was stopped, at `now`.
    pub fn resume_stopped(self, now: f64) {
        self.answering.change(Run::resume);
        self.answering.ask(now);
    }

    /// Whether what was stopped can be gone on with at `now`: the time for all of it is not over.
    #[must_use]
    pub fn may_go_on(self, now: f64) -> bool {
        let begun = self.begun_at.get_untracked();
        let has_time = |run: &Run| match run.exercise.time {
            Time::All(seconds) => now - begun < f64::from(seconds) * 1000.0,
            _ => true,
        };
        self.answering.run.map(|run| run.stopped.is_some() && has_time(run)).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_share::Link;

    fn practise() -> (Owner, Practise) {
        let owner = Owner::new();
        owner.set();
        (owner, Practise::new(Whereabouts::new(7)))
    }

    #[test]
    fn what_a_teacher_was_setting_is_put_aside_for_another_exercise() {
        let (_owner, practise) = practise();
        assert_eq!(practise.aside.get(), None);
        let draft = Exercise { title: "Thursday".to_owned(), questions: 7, ..setting::first(3) };
        practise.change_set(draft.clone());
        assert_eq!(practise.aside.get(), None);
        // A step of the course is tried, and the teacher comes back.
        practise.begin_of_course(setting::first(4), 5, 1_000.0);
        practise.go(Screen::Set);
        assert_eq!(practise.aside.get(), Some(draft.clone()));
        practise.take_up();
        assert_eq!((practise.exercise.get(), practise.aside.get()), (draft, None));
        // What stands in the list is found there.
        practise.kept_it();
        practise.set(&setting::first(6));
        assert_eq!(practise.aside.get(), None);
    }

    #[test]
    fn an_exercise_under_way_is_there_again_and_no_other_is_taken_for_it() {
        let (_owner, practise) = practise();
        practise.go(Screen::Do);
        practise.begin(1_000.0);
        practise.answering.answer(None, 2_000.0);
        let under_way = practise.answering.run.get();
        assert!(under_way.as_ref().is_some_and(|run| run.done.len() == 1 && run.shown.is_some()));
        practise.go(Screen::Record);
        practise.whereabouts.place.set(AppPlace::Read);
        practise.go(Screen::Do);
        assert_eq!(practise.answering.run.get(), under_way);
        // Another exercise that a link brings has not begun, nor is it a repetition.
        let first = practise.exercise.get();
        practise.set(&Exercise { seed: 8, ..first.clone() });
        assert_eq!(practise.answering.run.get(), None);
        practise.set(&first);
        assert_eq!(practise.answering.run.get(), under_way);
        practise.go(Screen::Repeat);
        assert_eq!(practise.answering.run.get(), None);
        practise.repeat(Run::repeating(vec![first], 5).unwrap(), 3_000.0);
        assert!(practise.repeating.get());
        practise.go(Screen::Do);
        assert_eq!(practise.answering.run.get(), None);
    }

    #[test]
    fn a_repetition_is_there_again_after_the_window_was_loaded_anew() {
        let (_owner, practise) = practise();
        let seeds = 1..=4;
        let picked = seeds.map(|seed| Exercise { questions: 1, ..setting::first(seed) }).collect();
        practise.repeat(Run::repeating(picked, 5).unwrap(), 3_000.0);
        let right = practise.answering.question.get().unwrap().right;
        practise.answering.answer(Some(right), 4_000.0);
        practise.answering.go_on(5_000.0);
        let asked = practise.answering.question.get();
        let (_owner, again) = reloaded(practise, 6_000.0);
        assert_eq!(again.left_repetition(), Some((1, 4)));
        again.go(Screen::Repeat);
        assert!(again.repeating.get() && asked.is_some());
        assert_eq!(again.answering.question.get(), asked);
        assert_eq!(again.answering.run.get().unwrap().right(), 1);
        // It is no exercise that anybody has set.
        again.go(Screen::Do);
        assert_eq!(again.answering.run.get(), None);
    }

    /// An exercise about a page that no link holds.
    fn long(seed: u32) -> Exercise {
        let line = [["Fs4", "Gs4", "Fs5", "Cs5"]; 16].concat().join(".");
        let staff = format!("staff=Corni+in+Es&players=2&notes={line}&notes2={line}");
        let link = format!("/read?{}", vec![staff; crookwise_score::MOST_STAVES].join("&"));
        assert!(link.len() > crookwise_share::LONGEST);
        let Ok(Some(Link::Read(page))) = Link::decode_kept(&link) else { panic!("{link}") };
        Exercise { seed, material: Material::Passage(Box::new(page.passage)), ..setting::first(seed) }
    }

    /// The same window loaded again: its address, and what it kept.
    fn reloaded(before: Practise, now: f64) -> (Owner, Practise) {
        let address = before.whereabouts.address(before.screen.get());
        let [at_hand, under_way] =
            [before.at_hand(), before.answering.latest.map(|run| before.under_way(run))]
                .map(|kept| kept.map(|kept| UnderWay::read(&kept.write(), 0.0).unwrap()));
        let owner = Owner::new();
        owner.set();
        let whereabouts = Whereabouts::new(99);
        let Ok(Some(Link::Practise(link))) = Link::decode(&address) else { panic!("{address}") };
        whereabouts.open(link, &crookwise_score::Passage::default());
        let again = Practise::new(whereabouts);
        again.resume(at_hand.as_ref(), under_way.as_ref(), now);
        (owner, again)
    }

    #[test]
    fn an_exercise_under_way_survives_a_reload_at_any_length_and_from_anywhere() {
        for exercise in [setting::first(3), long(3)] {
            for screen in [Screen::Do, Screen::Set, Screen::Record, Screen::Course] {
                let (_owner, practise) = practise();
                practise.set(&exercise);
                practise.go(Screen::Do);
                practise.begin(1_000.0);
                practise.answering.answer(None, 2_000.0);
                practise.answering.go_on(2_500.0);
                practise.go(screen);
                assert_eq!(
                    practise.answering.latest.get().map(|run| run.done.len()),
                    Some(1),
                    "{:?}",
                    practise.notice.get()
                );
                let (_owner, again) = reloaded(practise, 9_000.0);
                assert_eq!(again.screen.get(), screen);
                again.go(Screen::Do);
                assert_eq!(again.exercise.get(), exercise, "{screen:?}");
                assert_eq!(again.answering.run.get(), practise.answering.latest.get(), "{screen:?}");
                assert_eq!((again.begun_at.get(), again.answering.asked_at.get()), (1_000.0, 2_500.0));
            }
        }
    }

    #[test]
    fn an_exercise_that_is_set_survives_a_reload_beside_another_under_way() {
        let (_owner, practise) = practise();
        practise.set(&setting::first(3));
        practise.begin(1_000.0);
        practise.answering.answer(None, 2_000.0);
        practise.set(&long(4));
        practise.go(Screen::Set);
        let (_owner, again) = reloaded(practise, 9_000.0);
        assert_eq!((again.exercise.get(), again.answering.run.get()), (long(4), None));
        again.set(&setting::first(3));
        assert_eq!(again.answering.run.get().map(|run| run.done.len()), Some(1));
        // What a link brings goes before what was kept.
        let (_owner, brought) = {
            let kept = again.at_hand();
            let (owner, practise) = self::practise();
            practise.set(&setting::first(5));
            practise.resume(kept.as_ref(), None, 9_000.0);
            (owner, practise)
        };
        assert_eq!(brought.exercise.get(), setting::first(5));
        // Nothing was kept, or what was kept is no exercise.
        let (_owner, fresh) = self::practise();
        assert_eq!(fresh.at_hand(), None);
        let odd =
            UnderWay { link: "/read?staff=Corni".into(), answers: "r5".into(), begun: 1.0, asked: None };
        fresh.resume(Some(&odd), Some(&odd), 9_000.0);
        assert_eq!((fresh.exercise.get(), fresh.answering.latest.get()), (setting::first(7), None));
    }

    #[test]
    fn what_was_stopped_is_gone_on_with_also_after_a_reload_unless_its_time_is_over() {
        for time in [Time::Free, Time::Each(20), Time::All(60)] {
            let (_owner, practise) = practise();
            practise.set(&Exercise { time, ..setting::first(3) });
            practise.go(Screen::Do);
            practise.begin(1_000.0);
            assert!(!practise.may_go_on(2_000.0));
            practise.answering.answer(None, 2_000.0);
            practise.answering.go_on(3_000.0);
            practise.stop();
            let (_owner, again) = reloaded(practise, 9_000.0);
            for one in [practise, again] {
                assert_eq!(one.answering.run.map(|run| (run.asked(), run.number())), Some((2, None)));
                assert!(one.may_go_on(9_000.0));
                assert_eq!(one.may_go_on(61_000.0), !matches!(time, Time::All(_)), "{time:?}");
                one.resume_stopped(9_000.0);
                assert_eq!(one.answering.run.map(Run::number), Some(Some(1)));
                assert_eq!((one.answering.asked_at.get(), one.begun_at.get()), (9_000.0, 1_000.0));
            }
            // While an answer is shown, no question is asked.
            again.answering.answer(None, 10_000.0);
            again.stop();
            let (_owner, third) = reloaded(again, 12_000.0);
            assert_eq!(third.answering.run.map(Run::asked), Some(2));
        }
    }

    #[test]
    fn a_question_on_the_wall_is_of_its_exercise_and_a_sentence_of_its_screen() {
        let (_owner, practise) = practise();
        practise.go(Screen::Wall);
        let shown = OnWall { at: 3, revealed: true };
        practise.show_on_wall(shown);
        practise.say("No room");
        assert_eq!((practise.on_wall.get(), practise.notice.get()), (shown, Some("No room".into())));
        practise.go(Screen::Set);
        assert_eq!((practise.on_wall.get(), practise.notice.get()), (shown, None));
        let other = Exercise { questions: 3, ..practise.exercise.get() };
        practise.set(&other);
        assert_eq!(practise.on_wall.get(), OnWall::default());
    }

    #[test]
    fn a_link_that_brings_no_exercise_says_so() {
        let (_owner, practise) = practise();
        let Ok(Some(Link::Practise(link))) = Link::decode("/practise?do=AAAA") else { panic!("no link") };
        practise.whereabouts.open(link, &crookwise_score::Passage::default());
        assert!(practise.notice.get().unwrap().contains("damaged"));
        assert_eq!(practise.exercise.get(), setting::first(7));
    }

    #[test]
    fn the_time_of_an_exercise_runs_on_while_the_reader_is_elsewhere() {
        let (_owner, practise) = practise();
        practise.begin(1_000.0);
        let kept = practise.answering.run.map(|run| practise.under_way(run)).unwrap();
        // Another place, another window, and back after a minute, before the first answer.
        let again = Practise::new(Whereabouts::new(7));
        again.resume(None, Some(&UnderWay::read(&kept.write(), 0.0).unwrap()), 61_000.0);
        assert_eq!((again.begun_at.get(), again.answering.asked_at.get()), (1_000.0, 1_000.0));
        // What was answered before is not asked again, and the next question has its own time.
        again.answering.answer(None, 62_000.0);
        let kept = again.answering.run.map(|run| again.under_way(run)).unwrap();
        let third = Practise::new(Whereabouts::new(7));
        third.resume(None, Some(&kept), 90_000.0);
        assert_eq!((third.begun_at.get(), third.answering.asked_at.get()), (1_000.0, 90_000.0));
        assert_eq!(third.answering.run.map(Run::number), Some(Some(1)));
        // A clock that was set back makes no time.
        third.resume(None, Some(&kept), 500.0);
        assert_eq!(third.begun_at.get(), 500.0);
    }
}
