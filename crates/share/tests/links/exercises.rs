//! Exercises sent by earlier versions: they open, and ask what they asked except where they say that they were mended.
//!
//! Made by the code of those versions: every exercise of the course, those that teachers set, every kind on four pages,
//! and exercises of all kinds by chance. Before each link stands a checksum of the questions it had then. Add files, never
//! change them.

use crate::meaning;
use crookwise_practice::{Edition, Exercise, Kind, Material, Mended};
use crookwise_share::Link;

/// The version of the first exercises, and the one that was the last to draw by its rules. The third file has those of the
/// second edition, from the version that was the last to draw by its rules, and the fourth those of the third.
const SENT: [&str; 2] = [include_str!("exercises_1.txt"), include_str!("exercises_2.txt")];

/// An exercise that was sent.
struct Sent {
    text: &'static str,
    /// The checksum of its questions.
    then: u32,
    exercise: Exercise,
    /// Whether copies had all players when it was sent: its bytes do not tell.
    whole: bool,
}

fn sent() -> impl Iterator<Item = Sent> {
    let files = SENT.iter().enumerate();
    files.flat_map(|(number, file)| file.lines().map(move |line| read(line, number > 0)))
}

fn read(line: &'static str, whole: bool) -> Sent {
    let (then, text) = line.split_once(' ').unwrap();
    let link = Link::decode(text).unwrap_or_else(|error| panic!("{text}: {error}"));
    let Some(Link::Practise(link)) = link else { panic!("{text}") };
    let exercise = link.exercise().unwrap().open().unwrap_or_else(|error| panic!("{text}: {error}"));
    Sent { text, then: u32::from_str_radix(then, 16).unwrap(), exercise, whole }
}

/// The checksum of all questions as they are now.
fn now(exercise: &Exercise) -> Option<u32> {
    let questions = exercise.questions().ok()?;
    let text: String = questions.iter().map(crookwise_practice::Question::canonical).collect();
    Some(crc::Crc::<u32>::new(&crc::CRC_32_ISO_HDLC).checksum(text.as_bytes()))
}

#[test]
fn old_exercises_ask_what_they_asked_or_say_what_was_mended() {
    let (mut count, mut kinds, mut mended, mut wrong) = (0, Vec::new(), Vec::new(), Vec::new());
    for Sent { text, then, exercise, whole } in sent() {
        assert_eq!(exercise.edition, Edition::First, "{text}");
        let same = now(&exercise) == Some(then);
        let mut own = exercise.mended();
        mended.extend(own.clone());
        own.retain(|one| !(whole && *one == Mended::Copies));
        if own.is_empty() != same {
            wrong.push(format!("{text}: {:?} {own:?}", exercise.kinds));
        }
        count += usize::from(same);
        kinds.extend(exercise.kinds.iter().filter(|_| same).copied());
    }
    assert!(wrong.is_empty(), "{} of old ones:\n{}", wrong.len(), wrong.join("\n"));
    assert!(count > 400, "{count}");
    assert!(Mended::ALL.iter().all(|one| mended.contains(one)), "{mended:?}");
    // Of every kind there are exercises that ask what they asked.
    assert!(Kind::ALL.iter().all(|kind| kinds.contains(kind)), "{kinds:?}");
}

#[test]
fn old_exercises_are_sent_on_as_they_came() {
    for Sent { text, exercise, .. } in sent() {
        let code = |text: &str| meaning(text).1.into_iter().find(|(name, _)| name == "do").unwrap().1;
        let link = Link::Practise(crookwise_share::practise::PractiseLink::Do(Some(
            crookwise_share::practise::SentExercise::of(&exercise),
        )));
        assert_eq!(code(text), code(&link.encode()));
        // Set anew it is another exercise, whose results are counted by themselves.
        let anew = Exercise { edition: Edition::NOW, ..exercise.clone() };
        assert!(anew.mended().is_empty() && anew.pack() != exercise.pack());
        assert_eq!(anew.pack().get(1..), exercise.pack().get(1..));
        assert!(
            matches!(exercise.material, Material::Passage(_))
                || Exercise::unpack(&anew.pack(), None) == Ok(anew)
        );
    }
}

#[test]
fn an_exercise_of_a_later_edition_says_so() {
    // Of the edition after the next.
    let text = "#/practise?do=CQAKAQEBARZDb3JuaSBpbiBFcw";
    let Ok(Some(Link::Practise(link))) = Link::decode(text) else { panic!("{text}") };
    assert_eq!(link.exercise().unwrap().open(), Err(crookwise_share::LinkError::Version("9".to_owned())));
}

#[test]
fn exercises_of_the_second_edition_ask_what_they_asked() {
    let file = include_str!("exercises_3.txt");
    let mut kinds = Vec::new();
    for Sent { text, then, exercise, .. } in file.lines().map(|line| read(line, true)) {
        assert_eq!(exercise.edition, Edition::Second, "{text}");
        assert_eq!(now(&exercise), Some(then), "{text}");
        assert!(exercise.mended().is_empty(), "{text}");
        kinds.extend(exercise.kinds.iter().copied());
    }
    assert!(file.lines().count() > 300);
    assert!(Kind::ALL.iter().all(|kind| kinds.contains(kind)), "{kinds:?}");
}

#[test]
fn exercises_of_the_third_edition_ask_what_they_asked() {
    let file = include_str!("exercises_4.txt");
    let mut kinds = Vec::new();
    for Sent { text, then, exercise, .. } in file.lines().map(|line| read(line, true)) {
        assert_eq!(exercise.edition, Edition::Third, "{text}");
        assert_eq!(now(&exercise), Some(then), "{text}");
        assert!(exercise.mended().is_empty(), "{text}");
        kinds.extend(exercise.kinds.iter().copied());
    }
    assert!(file.lines().count() > 400);
    assert!(Kind::ALL.iter().all(|kind| kinds.contains(kind)), "{kinds:?}");
}
