//! The link to a screen of Practise. An exercise is packed; a passage it is about stands beside it as in Read, readable.

use crate::error::LinkError;
use crate::fields::{self, Fields};
use crate::page::ReadPage;
use crate::{LONGEST, read};
use crookwise_practice::{Exercise, Material};
use data_encoding::BASE64URL_NOPAD;

/// What a link to Practise shows.
#[derive(Clone, Debug, PartialEq)]
pub enum PractiseLink {
    /// The course.
    Course,
    /// A step of the course, from 1.
    Step(u8),
    /// An exercise to be changed.
    Set(Box<Exercise>),
    /// An exercise to be done.
    Do(Box<Exercise>),
    /// An exercise for the whole class.
    Wall(Box<Exercise>),
    /// An exercise on paper.
    Paper(Box<Exercise>),
    /// Results of a class; a student's link brings his code.
    Class(String),
    /// The reader's own record.
    Record,
}

impl PractiseLink {
    /// The text behind `#`, without the sign.
    #[must_use]
    pub fn encode(&self) -> String {
        let fields = match self {
            Self::Course => return "/practise".into(),
            Self::Step(step) => vec![("step".to_owned(), step.to_string())],
            Self::Set(exercise) => packed("set", exercise),
            Self::Do(exercise) => packed("do", exercise),
            Self::Wall(exercise) => packed("wall", exercise),
            Self::Paper(exercise) => packed("paper", exercise),
            Self::Class(code) => vec![("class".to_owned(), code.clone())],
            Self::Record => vec![("record".to_owned(), String::new())],
        };
        format!("/practise?{}", fields::write(&fields))
    }

    /// Opens what stands in the address behind `/practise?`.
    ///
    /// ```
    /// use crookwise_share::practise::PractiseLink;
    /// assert_eq!(PractiseLink::decode("step=3"), Ok(PractiseLink::Step(3)));
    /// ```
    ///
    /// # Errors
    /// Where the link is damaged, of another version or not ours: [`LinkError`] says which.
    pub fn decode(pairs: &str) -> Result<Self, LinkError> {
        if pairs.chars().count() > LONGEST {
            return Err(LinkError::TooLong);
        }
        let mut fields = fields::read(pairs)?;
        if fields.is_empty() {
            return Ok(Self::Course);
        }
        let (name, value) = fields.remove(0);
        let exercise = || unpacked(&value, &fields).map(Box::new);
        match name.as_str() {
            "step" => value.parse().map(Self::Step).map_err(|_| LinkError::Damaged),
            "set" => exercise().map(Self::Set),
            "do" => exercise().map(Self::Do),
            "wall" => exercise().map(Self::Wall),
            "paper" => exercise().map(Self::Paper),
            "class" => Ok(Self::Class(value)),
            "record" => Ok(Self::Record),
            _ => Err(LinkError::Foreign),
        }
    }
}

fn packed(name: &str, exercise: &Exercise) -> Fields {
    let mut fields = vec![(name.to_owned(), BASE64URL_NOPAD.encode(&exercise.pack()))];
    if let Material::Passage(passage) = &exercise.material {
        let page = ReadPage { passage: crookwise_score::Passage::clone(passage), ..ReadPage::of_label("") };
        fields.extend(read::to_fields(&page));
    }
    fields
}

fn unpacked(value: &str, fields: &Fields) -> Result<Exercise, LinkError> {
    let bytes = BASE64URL_NOPAD.decode(value.as_bytes()).map_err(|_| LinkError::Damaged)?;
    let passage = if fields.is_empty() { None } else { Some(read::from_fields(fields)?.passage) };
    Exercise::unpack(&bytes, passage).map_err(|_| LinkError::Damaged)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::{AskedStaff, Kind};

    fn exercises() -> Vec<Exercise> {
        let staves = vec![AskedStaff::of("Corni in Es"), AskedStaff::of("Clarinetti in A")];
        let plain = Exercise { staves, kinds: vec![Kind::Sounds, Kind::Degree], ..Exercise::default() };
        let mut page = ReadPage::of_label("Corni in Es");
        page.passage.movement = Some("Eb major".parse().unwrap());
        page.passage
            .set(0, 0, 0, crookwise_score::Event::Note(crookwise_theory::Printed("E5".parse().unwrap())))
            .unwrap();
        let material = Material::Passage(Box::new(page.passage));
        vec![plain, Exercise { material, ..Exercise::default() }]
    }

    #[test]
    fn links_go_round() {
        let mut links = vec![
            PractiseLink::Course,
            PractiseLink::Step(13),
            PractiseLink::Class("ABC-123".into()),
            PractiseLink::Record,
        ];
        for exercise in exercises().into_iter().map(Box::new) {
            links.push(PractiseLink::Do(exercise.clone()));
            links.push(PractiseLink::Set(exercise.clone()));
            links.push(PractiseLink::Wall(exercise.clone()));
            links.push(PractiseLink::Paper(exercise));
        }
        for link in links {
            let text = link.encode();
            let pairs = text.split_once('?').map_or("", |(_, pairs)| pairs);
            assert_eq!(PractiseLink::decode(pairs), Ok(link), "{text}");
        }
    }

    #[test]
    fn an_ordinary_exercise_fits_a_camera_code() {
        let link = PractiseLink::Do(Box::new(exercises().remove(0))).encode();
        let address = format!("https://www.example.org/some/folder/crookwise/#{link}");
        assert!(crate::CameraCode::of(&address).is_ok(), "{} characters", address.len());
    }

    #[test]
    fn damage_is_noticed() {
        let link = PractiseLink::Do(Box::new(exercises().remove(0))).encode();
        let pairs = link.split_once('?').unwrap().1;
        for at in 0..pairs.len() {
            let mut spoiled = pairs.as_bytes().to_vec();
            spoiled[at] = if spoiled[at] == b'A' { b'B' } else { b'A' };
            let spoiled = String::from_utf8(spoiled).unwrap();
            let whole = PractiseLink::decode(pairs);
            assert!(PractiseLink::decode(&spoiled) != whole || spoiled == pairs, "{spoiled}");
        }
        assert_eq!(PractiseLink::decode("do=%%%"), Err(LinkError::Damaged));
        assert_eq!(PractiseLink::decode("other=1"), Err(LinkError::Foreign));
    }
}
