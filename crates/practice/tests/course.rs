//! The course held against theory: what its lessons claim, and whether its exercises can be asked.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_practice::course::{CourseStep, Entry, Lesson, Source};
use crookwise_practice::{Exercise, Material};
use crookwise_score::{Event, Passage, ResolvedStaff};
use crookwise_share::Link;
use crookwise_theory::label::{DecodeOptions, decode};
use crookwise_theory::{Clef, ClefReading, Intonation, Signature};
use std::collections::BTreeMap;

fn lessons() -> Vec<(CourseStep, Lesson)> {
    let read = |step: CourseStep| {
        let lesson = step.lesson().unwrap_or_else(|problem| panic!("step {}: {problem}", step.number));
        (step, lesson)
    };
    CourseStep::ALL.into_iter().map(read).collect()
}

fn words(lesson: &Lesson) -> String {
    let said = lesson.entries.iter().filter_map(|entry| match entry {
        Entry::Says { text, .. } => Some(text.as_str()),
        Entry::Touch { .. } | Entry::Place { .. } => None,
    });
    said.collect::<Vec<_>>().join(" ")
}

/// What a passage sounds, staff by staff and player by player, as lessons write it.
fn sounding(passage: &Passage) -> Vec<String> {
    let mut lines = Vec::new();
    let all = ResolvedStaff::all(passage, DecodeOptions::default());
    for (staff, resolved) in passage.staves().iter().zip(&all) {
        for player in 0..staff.players() {
            let column = |(column, cell): (usize, &crookwise_score::Cell)| match cell.of(player) {
                Event::Note(printed) => {
                    let place = resolved.place_at(column, player).unwrap();
                    place.read(printed, Intonation::default(), None).sounding.to_string()
                }
                Event::Held => "_".to_owned(),
                Event::Rest => "-".to_owned(),
            };
            let columns: Vec<String> = staff.cells().iter().enumerate().map(column).collect();
            // A staff that ends before the others is filled with rests, which no lesson writes down.
            let text = columns.join(" ");
            lines.push(text.trim_end_matches([' ', '-']).to_owned());
        }
    }
    lines
}

#[test]
fn steps_are_counted_from_one_and_have_their_lessons() {
    for (number, (step, lesson)) in (1..).zip(lessons()) {
        assert_eq!(step.number, number);
        assert_eq!(lesson.title, step.title);
        assert_eq!(CourseStep::numbered(number).map(|step| step.title), Some(step.title));
        let length = words(&lesson).split_whitespace().count();
        assert!((120..=250).contains(&length), "{number}: {length} words");
        assert!(!lesson.look.is_empty() && lesson.works.len() >= 3, "step {number}");
        let touched = lesson.entries.iter().filter(|entry| matches!(entry, Entry::Touch { .. })).count();
        assert!(touched >= 1, "step {number}");
    }
    assert!(CourseStep::numbered(0).is_none() && CourseStep::numbered(14).is_none());
}

#[test]
fn what_is_touched_sounds_as_the_lesson_says() {
    for (step, lesson) in lessons() {
        for entry in &lesson.entries {
            let Entry::Touch { link, sounds, .. } = entry else { continue };
            let opened =
                Link::decode(&format!("#{link}")).unwrap_or_else(|problem| panic!("{link}: {problem}"));
            let Some(Link::Read(page)) = opened else { panic!("{link}") };
            for staff in page.passage.staves() {
                let decoded = decode(&staff.label, DecodeOptions::default());
                assert!(decoded.problem.is_none() && !decoded.staves.is_empty(), "{}", staff.label);
            }
            assert_eq!(&sounding(&page.passage), sounds, "step {}: {link}", step.number);
        }
    }
}

/// The clefs that the lessons tell one to imagine: step, label, words of the lesson, clef, octaves, fifths.
const BY_CLEF: &[(u8, &str, &str, Clef, i32, i32)] = &[
    (2, "Clarinetti in B", "tenor clef with two flats and read an octave higher", Clef::TENOR, 1, -2),
    (3, "Clarinetti in A", "soprano clef with three sharps, at its own octave", Clef::SOPRANO, 0, 3),
    (4, "Corni in F", "mezzo-soprano clef with one flat, at its own octave", Clef::MEZZO_SOPRANO, 0, -1),
    (4, "Corno inglese", "mezzo-soprano clef with one flat, at its own octave", Clef::MEZZO_SOPRANO, 0, -1),
    (5, "Corni in Es", "for E-flat the bass clef with three flats, an octave higher", Clef::BASS, 1, -3),
    (5, "Corni in D", "for D the alto clef with two sharps, at its own octave", Clef::ALTO, 0, 2),
    (6, "Trombe in D", "alto with two sharps and one octave for D", Clef::ALTO, 1, 2),
    (6, "Trombe in Es", "bass with three flats and two octaves for E-flat", Clef::BASS, 2, -3),
    (6, "Trombe in F", "mezzo-soprano with one flat and one octave for F", Clef::MEZZO_SOPRANO, 1, -1),
    (7, "Corni in A", "soprano clef and three sharps for A", Clef::SOPRANO, 0, 3),
    (7, "Corni in E", "bass clef an octave higher and four sharps for E", Clef::BASS, 1, 4),
    (7, "Corni in G", "baritone clef an octave higher and one sharp for G", Clef::BARITONE, 1, 1),
    (11, "Corni in D", "horn in D is read by imagining the alto clef", Clef::ALTO, 0, 2),
    (11, "Corni in B basso", "low B-flat horn has that bond with the tenor clef", Clef::TENOR, 0, -2),
];

#[test]
fn clefs_to_imagine_are_those_of_theory() {
    let lessons = lessons();
    for &(number, label, phrase, clef, octaves, fifths) in BY_CLEF {
        let (_, lesson) = &lessons[usize::from(number) - 1];
        assert!(words(lesson).contains(phrase), "step {number}: {phrase}");
        let staff = decode(label, DecodeOptions::default()).staves.remove(0);
        let reading = ClefReading::of(Clef::TREBLE, Signature::NONE, staff.transposition.0);
        assert_eq!((reading.clef, reading.octaves, reading.fifths), (clef, octaves, fifths), "{label}");
    }
}

#[test]
fn every_exercise_of_the_course_can_be_asked() {
    for step in CourseStep::ALL {
        let exercises = step.exercises();
        assert!(exercises.len() >= 2, "step {}", step.number);
        for (number, exercise) in exercises.iter().enumerate() {
            let questions = exercise.questions();
            let questions =
                questions.unwrap_or_else(|problem| panic!("step {} {number}: {problem}", step.number));
            assert_eq!(questions.len(), usize::from(exercise.questions));
            for question in &questions {
                assert!(
                    question.is_right(&question.right, exercise.marking),
                    "step {} {number}",
                    step.number
                );
            }
            for kind in &exercise.kinds {
                assert!(
                    questions.iter().any(|question| question.kind == *kind),
                    "{kind:?} in step {}",
                    step.number
                );
            }
            assert_eq!(exercise.questions().as_ref(), Ok(&questions));
        }
    }
}

#[test]
fn exercises_of_the_course_differ_and_travel() {
    let mut packed: Vec<Vec<u8>> = Vec::new();
    for exercise in CourseStep::ALL.iter().flat_map(CourseStep::exercises) {
        let bytes = exercise.pack();
        if !matches!(exercise.material, Material::Passage(_)) {
            assert_eq!(Exercise::unpack(&bytes, None), Ok(exercise));
        }
        assert!(!packed.contains(&bytes));
        packed.push(bytes);
    }
}

#[test]
fn no_sentence_is_said_twice() {
    let mut said: BTreeMap<String, u8> = BTreeMap::new();
    for (step, lesson) in lessons() {
        let beside = lesson.entries.iter().filter_map(|entry| match entry {
            Entry::Touch { text, .. } => Some(text.as_str()),
            Entry::Says { .. } | Entry::Place { .. } => None,
        });
        let all = [words(&lesson)].into_iter().chain(beside.map(str::to_owned)).chain(lesson.look.clone());
        for sentence in all.flat_map(|text| text.split(". ").map(str::to_owned).collect::<Vec<_>>()) {
            let long = sentence.split_whitespace().count() > 5;
            let before = said.insert(sentence.trim_end_matches('.').to_owned(), step.number);
            assert!(!long || before.is_none(), "steps {before:?} and {}: {sentence}", step.number);
        }
    }
}

#[test]
fn facts_have_sources_and_works_their_marks() {
    let mut verified = 0;
    for (step, lesson) in lessons() {
        for entry in &lesson.entries {
            if let Entry::Says { source: Source::Published(name), .. } = entry {
                // A publication is named with its author or title, not by a slip in one of the three set words.
                assert!(name.split_whitespace().count() >= 2 && name != "common practise", "{name}");
            }
        }
        verified += lesson.works.iter().filter(|work| work.verified).count();
        assert!(lesson.works.iter().all(|work| !work.what.is_empty()), "step {}", step.number);
    }
    assert!(verified >= 30, "{verified}");
}
