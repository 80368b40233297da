//! An exercise under way, kept in case the window is left: what is asked, the answers so far, and when it began.

use super::entry::{self, Unread, What};
use crookwise_practice::Exercise;
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};

/// Names begin so; behind it stands the name of the desk.
pub const NAMES: &str = "crookwise.exercise.";
/// The same for the exercise at hand, begun or not: it has no answers and no times.
pub const AT_HAND: &str = "crookwise.at-hand.";
/// Where earlier versions kept it, one for all windows and without times.
pub const EARLIER: &str = "crookwise.exercise";

/// What stands before the links of a repetition.
const REPEATS: &str = "repeat ";

/// An exercise under way.
#[derive(Clone, Debug, PartialEq)]
pub struct UnderWay {
    /// The link to the exercise.
    pub link: String,
    /// Its answers as a run writes them.
    pub answers: String,
    /// When it was begun, in milliseconds since 1970.
    pub begun: f64,
    /// When the present question was asked; `None` while an answer is shown.
    pub asked: Option<f64>,
}

impl UnderWay {
    /// Whether a question of it has been asked. Earlier versions did not keep that of the first.
    #[must_use]
    pub const fn was_begun(&self) -> bool {
        self.asked.is_some() || !self.answers.is_empty()
    }

    /// What is asked; `None` where the link leads to no exercise.
    #[must_use]
    pub fn exercise(&self) -> Option<SentExercise> {
        match Link::decode_kept(&self.link) {
            Ok(Some(Link::Practise(PractiseLink::Do(exercise)))) => exercise,
            _ => None,
        }
    }

    /// What each question of a repetition is drawn from; `None` where it is none.
    #[must_use]
    pub fn repeated(&self) -> Option<Vec<Exercise>> {
        let links = self.link.strip_prefix(REPEATS)?.split(' ');
        links.map(|link| Self { link: link.to_owned(), ..self.clone() }.exercise()?.open().ok()).collect()
    }

    /// What is kept in the place of a link for a repetition: a link for each question.
    #[must_use]
    pub fn link_of_repetition(picked: &[Exercise]) -> String {
        let links: Vec<String> = picked.iter().map(Self::link_of).collect();
        format!("{REPEATS}{}", links.join(" "))
    }

    /// The link to an exercise, of any length.
    #[must_use]
    pub fn link_of(exercise: &Exercise) -> String {
        Link::from(PractiseLink::Do(Some(SentExercise::of(exercise)))).encode()
    }

    /// As an entry.
    #[must_use]
    pub fn write(&self) -> String {
        let asked = self.asked.map_or(0, |asked| asked as u64);
        entry::write(
            What::Exercise,
            &format!("{}\n{}\n{} {asked}", self.link, self.answers, self.begun as u64),
        )
    }

    /// Reads an entry. What earlier versions kept had no first line and no times: it counts as begun `now`.
    ///
    /// # Errors
    /// Where it is damaged, or a newer version wrote it.
    pub fn read(text: &str, now: f64) -> Result<Self, Unread> {
        if text.starts_with("/practise?") {
            let (link, answers) = text.split_once('\n').ok_or(Unread::Damaged)?;
            let (link, answers) = (link.to_owned(), answers.to_owned());
            return Ok(Self { link, answers, begun: now, asked: None });
        }
        let mut lines = entry::read(What::Exercise, text)?.split('\n');
        let mut line = || lines.next().ok_or(Unread::Damaged);
        let (link, answers, times) = (line()?.to_owned(), line()?.to_owned(), line()?);
        let mut times = times.split(' ').map(|time| time.parse::<u64>().map_err(|_| Unread::Damaged));
        let mut time = || times.next().unwrap_or(Err(Unread::Damaged));
        let (begun, asked) = (time()? as f64, time()? as f64);
        if times.next().is_some() || lines.next().is_some() {
            return Err(Unread::Damaged);
        }
        Ok(Self { link, answers, begun, asked: (asked > 0.0).then_some(asked) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_exercise_under_way_goes_back_and_forth() {
        let one = UnderWay {
            link: "/practise?x=abc".into(),
            answers: "r1200 w3400.2/5:0.-2.0 o10".into(),
            begun: 1_790_000_000_123.0,
            asked: Some(1_790_000_060_000.0),
        };
        assert_eq!(UnderWay::read(&one.write(), 5.0), Ok(one.clone()));
        let shown = UnderWay { asked: None, answers: String::new(), ..one.clone() };
        assert_eq!(UnderWay::read(&shown.write(), 5.0), Ok(shown));
        assert_eq!(UnderWay::read(&one.write().replace(" 2\n", " 3\n"), 5.0), Err(Unread::Newer));
        for damaged in
            ["", "rubbish", "crookwise exercise 1\n/practise?x=abc", "crookwise exercise 1\na\nb\n1 x"]
        {
            assert_eq!(UnderWay::read(damaged, 5.0), Err(Unread::Damaged), "{damaged}");
        }
    }

    #[test]
    fn what_earlier_versions_kept_is_taken_up() {
        let read = UnderWay::read("/practise?do=abc\nr1200 o10", 5.0).unwrap();
        assert_eq!((read.answers.as_str(), read.begun, read.asked), ("r1200 o10", 5.0, None));
        // The first version of the entry: answers without how far off they were.
        let first = "crookwise exercise 1\n/practise?x=abc\nr1200 w3400.2.5 o10\n1790000000123 0";
        let read = UnderWay::read(first, 5.0).unwrap();
        assert_eq!((read.answers.as_str(), read.begun), ("r1200 w3400.2.5 o10", 1_790_000_000_123.0));
    }
}
