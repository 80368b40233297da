//! Where the reader is: the one answer to it. The address, what is on the screen and what is marked in the bars follow
//! from it and from what is at hand there: the page on the desk, the exercise, what was pasted.

use crate::state::kept::Watched;
use crate::state::practise::Screen;
use crate::words;
use crookwise_score::Passage;
use crookwise_share::Link;
use crookwise_share::crooks::{CrooksView, SentCrooks};
use crookwise_share::practise::{PractiseLink, SentExercise};
use leptos::prelude::untrack;

/// The address of an exercise about the page that stands in Read.
pub const FROM_READ: &str = "#/practise?from=read";

/// The pair of a link to Score that puts a part on paper.
pub const PAPER: &str = "paper";

/// Where the reader is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AppPlace {
    /// The margin of a score page.
    Read,
    /// Exercises.
    Practise(Screen),
    /// A whole movement.
    Score,
    /// Crooks and their changes.
    Crooks,
}

impl AppPlace {
    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Read => words::frame::READ,
            Self::Practise(_) => words::frame::PRACTISE,
            Self::Score => words::frame::SCORE,
            Self::Crooks => words::frame::CROOKS,
        }
    }

    /// Whether it is Read.
    #[must_use]
    pub const fn is_read(self) -> bool {
        matches!(self, Self::Read)
    }
}

/// How the reader comes to an address.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CameBy {
    /// By a link that he followed, pasted or typed.
    Link,
    /// By a step of the browser's history to where he was before.
    Step,
}

/// The exercise that is set, done, on the wall or on paper. What it asks is read by the part of the app that asks it.
#[derive(Clone, Debug, PartialEq)]
pub enum AtHand {
    /// The one everybody begins with.
    First,
    /// One that a link brought, or that the reader has set.
    Sent(SentExercise),
    /// One about a page.
    About(Box<Passage>),
}

/// Where the reader is, and what is at hand in Practise. Copy it where one goes somewhere.
#[derive(Clone, Copy, Debug)]
pub struct Whereabouts {
    /// Where.
    pub place: Watched<AppPlace>,
    /// The exercise.
    pub at_hand: Watched<AtHand>,
    /// By which the first exercise draws its questions.
    pub seed: u32,
    /// What a teacher has pasted to see the results of a class.
    pub pasted: Watched<String>,
    /// A course over weeks that a link has brought, as text; empty where none has.
    pub weeks: Watched<String>,
    /// What stands in Score, as the pairs of a link.
    pub score: Watched<String>,
    /// A score that was made here and is to be opened in Score, as MusicXML; empty where none is.
    pub made: Watched<String>,
    /// What was taken from a score to be planned in Crooks, as the text of a link to it; empty where nothing was.
    pub wanted: Watched<String>,
    /// What stands in Crooks, as the address has it.
    pub crooks: Watched<String>,
}

impl Whereabouts {
    /// In Read; by `seed` the first exercise draws its questions.
    #[must_use]
    pub fn new(seed: u32) -> Self {
        Self {
            place: Watched::new(AppPlace::Read),
            at_hand: Watched::new(AtHand::First),
            seed,
            pasted: Watched::new(String::new()),
            weeks: Watched::new(String::new()),
            score: Watched::new(String::new()),
            made: Watched::new(String::new()),
            wanted: Watched::new(String::new()),
            crooks: Watched::new(Link::CROOKS.to_owned()),
        }
    }

    /// Goes to a screen of Practise.
    pub fn go(self, screen: Screen) {
        self.place.set(AppPlace::Practise(screen));
    }

    /// Shows what a link to Score names; one that names nothing leads to what stands there.
    pub fn open_score(self, pairs: String) {
        if !pairs.is_empty() {
            self.score.set(pairs);
        }
        self.place.set(AppPlace::Score);
    }

    /// Whether a part of the movement in Score is on paper.
    #[must_use]
    pub fn is_on_paper(self) -> bool {
        let names = |pairs: &String| pairs.split('&').any(|pair| pair.split('=').next() == Some(PAPER));
        self.place.get() == AppPlace::Score && self.score.with(names)
    }

    /// Shows what a link to Crooks brings; one that brings nothing leads to what stands there. A step within Crooks changes
    /// what is looked at alone: what is wanted there is what it has become since.
    pub fn open_crooks(self, sent: SentCrooks, came: CameBy) {
        let is_within = came == CameBy::Step && self.place.get_untracked() == AppPlace::Crooks;
        if is_within || sent.is_only_a_view() {
            if came == CameBy::Step || !sent.is_empty() {
                self.look_in_crooks(sent.view());
            }
        } else {
            self.crooks.set(sent.link().encode());
        }
        self.place.set(AppPlace::Crooks);
    }

    /// Looks at something else of what stands in Crooks.
    fn look_in_crooks(self, view: CrooksView) {
        let stands = self.sent_crooks().showing(view);
        self.crooks.set(stands.link().encode());
    }

    /// What is looked at in Crooks.
    #[must_use]
    pub fn crooks_view(self) -> CrooksView {
        self.sent_crooks().view()
    }

    /// What stands in Crooks; nothing where its address cannot say it.
    fn sent_crooks(self) -> SentCrooks {
        match self.crooks.with(|text| Link::decode_readable(text)) {
            Ok(Some(Link::Crooks(sent))) => sent,
            _ => SentCrooks::default(),
        }
    }

    /// Goes to Crooks, to plan what was taken from a score, as the text of a link.
    pub fn plan(self, wanted: String) {
        self.wanted.set(wanted);
        untrack(|| self.look_in_crooks(CrooksView::Plans));
        self.place.set(AppPlace::Crooks);
    }

    /// Shows what a link to Practise names; `page` is what stands in Read.
    pub fn open(self, link: PractiseLink, page: &Passage) {
        let (screen, exercise) = match link {
            PractiseLink::Course => (Screen::Course, None),
            PractiseLink::Step(step) => (Screen::Step(usize::from(step).saturating_sub(1)), None),
            PractiseLink::Set(exercise) => (Screen::Set, exercise),
            PractiseLink::Do(exercise) => (Screen::Do, exercise),
            PractiseLink::Wall(exercise) => (Screen::Wall, exercise),
            PractiseLink::Paper(exercise) => (Screen::Paper, exercise),
            PractiseLink::Record => (Screen::Record, None),
            PractiseLink::Repeat => (Screen::Repeat, None),
            PractiseLink::Class(code) => {
                if !code.is_empty() {
                    self.pasted.set(code);
                }
                (Screen::Class, None)
            }
            PractiseLink::Weeks(plan) => {
                if !plan.is_empty() {
                    self.weeks.set(plan);
                }
                (Screen::Weeks, None)
            }
            PractiseLink::AboutPage => {
                self.at_hand.set(AtHand::About(Box::new(page.clone())));
                (Screen::Set, None)
            }
        };
        if let Some(exercise) = exercise {
            self.at_hand.set(AtHand::Sent(exercise));
        }
        self.go(screen);
    }

    /// The title that the exercise at hand has of its own, where a screen shows it.
    #[must_use]
    pub fn title(self, screen: Screen) -> Option<String> {
        match &*self.at_hand.read() {
            AtHand::Sent(exercise) if screen.is_of_the_exercise() => {
                Some(exercise.title().to_owned()).filter(|title| !title.is_empty())
            }
            _ => None,
        }
    }

    /// The link to a screen, with the exercise at hand.
    #[must_use]
    pub fn link(self, screen: Screen) -> PractiseLink {
        let exercise = || match &*self.at_hand.read() {
            AtHand::Sent(exercise) => Some(exercise.clone()),
            AtHand::First | AtHand::About(_) => None,
        };
        let about_page = || matches!(*self.at_hand.read(), AtHand::About(_));
        match screen {
            Screen::Course => PractiseLink::Course,
            Screen::Step(step) => PractiseLink::Step(u8::try_from(step + 1).unwrap_or(1)),
            Screen::Set if about_page() => PractiseLink::AboutPage,
            Screen::Set => PractiseLink::Set(exercise()),
            Screen::Do => PractiseLink::Do(exercise()),
            Screen::Wall => PractiseLink::Wall(exercise()),
            Screen::Paper => PractiseLink::Paper(exercise()),
            // A student's code came in a link; a whole mail is nobody else's business.
            Screen::Class => {
                PractiseLink::Class(self.pasted.with(|text| {
                    if text.contains(char::is_whitespace) { String::new() } else { text.clone() }
                }))
            }
            Screen::Weeks => PractiseLink::Weeks(self.weeks.get()),
            Screen::Record => PractiseLink::Record,
            Screen::Repeat => PractiseLink::Repeat,
        }
    }

    /// What the address says of a screen: the link, or where it would be too long, the screen without its exercise.
    #[must_use]
    pub fn address(self, screen: Screen) -> String {
        Link::Practise(self.link(screen)).short().unwrap_or_else(|| {
            Link::Practise(match screen {
                Screen::Set => PractiseLink::Set(None),
                Screen::Do => PractiseLink::Do(None),
                Screen::Wall => PractiseLink::Wall(None),
                Screen::Paper => PractiseLink::Paper(None),
                Screen::Weeks => PractiseLink::Weeks(String::new()),
                // What was pasted: no other link can be long.
                _ => PractiseLink::Class(String::new()),
            })
            .encode()
        })
    }
}
