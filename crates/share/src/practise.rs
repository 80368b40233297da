//! The link to a screen of Practise. An exercise is packed; its title and a passage it is about stand beside it, readable,
//! the passage as in Read.

use crate::error::LinkError;
use crate::fields::{Fields, Pairs};
use crate::page::ReadPage;
use crate::{Link, read};
use crookwise_practice::course::CourseStep;
use crookwise_practice::{Exercise, Material, PackError, clean_title};
use crookwise_score::Passage;
use data_encoding::BASE64URL_NOPAD;

/// Steps of the course; its lessons are no business of a link.
const STEPS: usize = CourseStep::ALL.len();

/// The name of the pair with the title.
const TITLE: &str = "title";

/// An exercise as a link brings it: packed, and beside it its title and the passage it is about. What it asks is read where
/// it is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SentExercise {
    code: Vec<u8>,
    title: String,
    pub(crate) passage: Option<Box<Passage>>,
}

impl SentExercise {
    /// An exercise to be sent.
    #[must_use]
    pub fn of(exercise: &Exercise) -> Self {
        let passage = match &exercise.material {
            Material::Passage(passage) => Some(passage.clone()),
            _ => None,
        };
        Self { code: exercise.pack(), title: clean_title(&exercise.title), passage }
    }

    /// Its own title; empty where it has none.
    #[must_use]
    pub fn title(&self) -> &str {
        self.title.trim()
    }

    /// The same exercise under another title.
    #[must_use]
    pub fn titled(&self, title: &str) -> Self {
        Self { title: clean_title(title), ..self.clone() }
    }

    /// The exercise that was sent.
    ///
    /// # Errors
    /// Where it is none of ours: a link with a checksum has only what [`SentExercise::of`] has made.
    pub fn open(&self) -> Result<Exercise, LinkError> {
        let opened = Exercise::unpack(&self.code, self.passage.as_deref().cloned());
        opened.map(|one| Exercise { title: self.title.clone(), ..one }).map_err(|error| match error {
            PackError::Version => {
                LinkError::Version(self.code.first().map(u8::to_string).unwrap_or_default())
            }
            _ => LinkError::Damaged,
        })
    }
}

/// A screen of Practise, and what stands there. Where no exercise is named, it is the one at hand on the device.
#[derive(Clone, Debug, PartialEq)]
pub enum PractiseLink {
    /// The course.
    Course,
    /// A step of the course, from 1.
    Step(u8),
    /// An exercise to be changed.
    Set(Option<SentExercise>),
    /// An exercise to be changed: the one at hand, about the page in Read.
    AboutPage,
    /// An exercise to be done.
    Do(Option<SentExercise>),
    /// An exercise for the whole class.
    Wall(Option<SentExercise>),
    /// An exercise on paper.
    Paper(Option<SentExercise>),
    /// Results of a class; a student's link brings his code.
    Class(String),
    /// Courses over weeks; a teacher's link brings one, as text ([`crate::weeks::WeekPlan`]).
    Weeks(String),
    /// The reader's own record.
    Record,
    /// What the record has brought back, being repeated.
    Repeat,
}

impl From<PractiseLink> for Link {
    fn from(link: PractiseLink) -> Self {
        Self::Practise(link)
    }
}

impl PractiseLink {
    /// The exercise it brings.
    #[must_use]
    pub const fn exercise(&self) -> Option<&SentExercise> {
        match self {
            Self::Set(exercise) | Self::Do(exercise) | Self::Wall(exercise) | Self::Paper(exercise) => {
                exercise.as_ref()
            }
            _ => None,
        }
    }

    pub(crate) const fn exercise_mut(&mut self) -> Option<&mut SentExercise> {
        match self {
            Self::Set(exercise) | Self::Do(exercise) | Self::Wall(exercise) | Self::Paper(exercise) => {
                exercise.as_mut()
            }
            _ => None,
        }
    }

    /// The pairs of a link to it; the course has none.
    pub(crate) fn to_pairs(&self) -> Pairs {
        let one = |name: &str, value: String| vec![(name.to_owned(), value)];
        match self {
            Self::Course => Pairs::new(),
            Self::Step(step) => one("step", step.to_string()),
            Self::Set(exercise) => packed("set", exercise.as_ref()),
            Self::AboutPage => one("from", "read".into()),
            Self::Do(exercise) => packed("do", exercise.as_ref()),
            Self::Wall(exercise) => packed("wall", exercise.as_ref()),
            Self::Paper(exercise) => packed("paper", exercise.as_ref()),
            Self::Class(code) => one("class", code.clone()),
            Self::Weeks(plan) => one("weeks", plan.clone()),
            Self::Record => one("record", String::new()),
            Self::Repeat => one("repeat", String::new()),
        }
    }

    /// Reads the pairs of a link.
    pub(crate) fn from_fields(mut fields: Fields) -> Result<Self, LinkError> {
        if fields.pairs.is_empty() {
            return Err(LinkError::Damaged);
        }
        let (name, value) = fields.pairs.remove(0);
        let link = match name.as_str() {
            "set" => return unpacked(&value, fields).map(Self::Set),
            "do" => return unpacked(&value, fields).map(Self::Do),
            "wall" => return unpacked(&value, fields).map(Self::Wall),
            "paper" => return unpacked(&value, fields).map(Self::Paper),
            "step" => {
                let step = value.parse().ok().filter(|step: &u8| (1..=STEPS).contains(&usize::from(*step)));
                Self::Step(step.ok_or_else(|| LinkError::field("step", &value))?)
            }
            "class" => Self::Class(value),
            "weeks" => Self::Weeks(value),
            "record" if value.is_empty() => Self::Record,
            "repeat" if value.is_empty() => Self::Repeat,
            "from" if value == "read" => Self::AboutPage,
            _ => return Err(LinkError::Foreign),
        };
        fields.pairs.iter().try_for_each(|(name, _)| fields.unknown(name))?;
        Ok(link)
    }
}

fn packed(name: &str, exercise: Option<&SentExercise>) -> Pairs {
    let code = exercise.map(|exercise| BASE64URL_NOPAD.encode(&exercise.code));
    let mut pairs = vec![(name.to_owned(), code.unwrap_or_default())];
    let title = exercise.map(SentExercise::title).filter(|title| !title.is_empty());
    pairs.extend(title.map(|title| (TITLE.to_owned(), title.to_owned())));
    if let Some(passage) = exercise.and_then(|exercise| exercise.passage.as_deref()) {
        pairs.extend(read::to_pairs(&ReadPage { passage: passage.clone(), ..ReadPage::of_label("") }));
    }
    pairs
}

fn unpacked(value: &str, mut fields: Fields) -> Result<Option<SentExercise>, LinkError> {
    let titled = fields.pairs.iter().position(|(name, _)| name == TITLE);
    let title = titled.map(|at| clean_title(&fields.pairs.remove(at).1)).unwrap_or_default();
    let passage = if fields.pairs.iter().any(|(name, _)| name == "staff") {
        Some(Box::new(read::from_fields(&fields)?.passage))
    } else {
        fields.pairs.iter().try_for_each(|(name, _)| fields.unknown(name))?;
        None
    };
    if value.is_empty() && passage.is_none() {
        return Ok(None);
    }
    let code = BASE64URL_NOPAD.decode(value.as_bytes()).map_err(|_| LinkError::Damaged)?;
    Ok(Some(SentExercise { code, title, passage }))
}
