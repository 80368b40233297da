//! Chords and progressions as scores have them: counted over hundreds of columns, each claim on its own.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

use crookwise_practice::course::CourseStep;
use crookwise_practice::{Answer, AskedStaff, Exercise, Kind, Question, QuestionSound};
use crookwise_score::{Passage, Quality, ResolvedStaff, Voice, voices};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Intonation, Key, Mode, Printed, Production, StaffPosition};

/// What is counted against a law: how often, and the first that breaks it.
#[derive(Default)]
struct Count {
    columns: usize,
    broken: usize,
    first: Option<String>,
}

impl Count {
    fn add(&mut self, breaks: bool, question: &Question) {
        self.columns += 1;
        if breaks {
            self.broken += 1;
            self.first.get_or_insert_with(|| question.canonical());
        }
    }

    /// At most so many of a thousand.
    fn at_most(&self, thousandths: usize, law: &str) {
        let Self { columns, broken, first } = self;
        let first = first.as_deref().unwrap_or_default();
        assert!(*columns >= 400, "{law}: only {columns} looked at");
        assert!(
            broken * 1000 <= columns * thousandths,
            "{law}: {broken} of {columns} are not, first\n{first}"
        );
    }
}

/// Pages of a symphony, and the keys they are asked in; those of the course and others.
fn pages() -> Vec<Exercise> {
    let of = |labels: &[&str], pair: bool, keys: &[&str]| Exercise {
        staves: labels
            .iter()
            .map(|label| AskedStaff { pair: pair && !label.starts_with("V"), ..AskedStaff::of(label) })
            .collect(),
        keys: keys.iter().map(|key| key.parse().unwrap()).collect(),
        ..Exercise::default()
    };
    let own = [
        of(
            &["Oboi", "Fagotti", "Corni in D", "Trombe in D", "Violini", "Viole", "Bassi"],
            true,
            &["D major"],
        ),
        of(&["Flauti", "Clarinetti in B", "Corni in Es", "Corni in C", "Violoncelli"], true, &["C minor"]),
        of(&["Corni in F", "Viole", "Violoncelli", "Contrabassi"], false, &["F major", "D minor"]),
        of(&["Corni in E", "Trombe in E", "Tromboni", "Violini", "Fagotti"], false, &["E major", "C# minor"]),
        of(&["Corno I in B alto, Corno II in G", "Oboi", "Violini", "Viole"], true, &["G minor"]),
        of(&["Corni in As", "Clarinetti in B", "Fagotti"], false, &["Ab major", "Db major", "Gb major"]),
    ];
    let steps = CourseStep::ALL.iter().flat_map(CourseStep::exercises);
    let chords = steps.filter(|exercise| exercise.kinds.contains(&Kind::Chord));
    chords.chain(own).collect()
}

fn questions(kind: Kind) -> Vec<Question> {
    let mut all = Vec::new();
    for exercise in pages() {
        for seed in 0..if kind == Kind::Chord { 9 } else { 5 } {
            let exercise = Exercise { kinds: vec![kind], questions: 8, seed, ..exercise.clone() };
            all.extend(exercise.questions().unwrap_or_else(|error| panic!("{error} {exercise:?}")));
        }
    }
    all
}

fn sounding(page: &Passage, column: usize) -> Vec<Voice> {
    let staves = ResolvedStaff::all(page, DecodeOptions::default());
    voices(page, &staves.iter().collect::<Vec<_>>(), column, Intonation::default())
}

/// What the middle line of a player's staff sounds: where his notes lie best.
fn middle(page: &Passage, staff: usize, player: usize) -> i32 {
    let staff = ResolvedStaff::of(page, staff, DecodeOptions::default());
    let place = staff.place_at(0, player).unwrap();
    let line = Printed(place.habits.clef.pitch_at(StaffPosition(4)));
    place.read(line, Intonation::default(), None).sounding.0.midi()
        - if place.staff.doubled_below { 12 } else { 0 }
}

/// All columns of all questions.
fn each_column(mut look: impl FnMut(&Question, usize, &[Voice])) {
    for kind in [Kind::Chord, Kind::WrongStaff] {
        for question in questions(kind) {
            for column in 0..question.passage.columns().len() {
                look(&question, column, &sounding(&question.passage, column));
            }
        }
    }
}

#[test]
fn the_bass_lies_in_the_lowest_instrument_that_plays() {
    let mut count = Count::default();
    each_column(|question, _, voices| {
        let lowest = voices.iter().map(|voice| voice.sounding.0.midi()).min().unwrap();
        let deepest =
            voices.iter().map(|voice| middle(&question.passage, voice.staff, voice.player)).min().unwrap();
        let has = |voice: &Voice| {
            voice.sounding.0.midi() == lowest
                && middle(&question.passage, voice.staff, voice.player) == deepest
        };
        count.add(!voices.iter().any(has), question);
    });
    count.at_most(0, "bass in the lowest instrument");
}

#[test]
fn within_a_choir_the_lower_instrument_stays_below() {
    let mut count = Count::default();
    each_column(|question, _, voices| {
        let page = &question.passage;
        let staves = ResolvedStaff::all(page, DecodeOptions::default());
        let of = |voice: &Voice| staves[voice.staff].place_at(0, voice.player).unwrap().staff.clone();
        let crosses = |low: &Voice, high: &Voice| {
            let (one, other) = (of(low), of(high));
            one.instrument.family == other.instrument.family
                // Crooks decide which notes natural brass has.
                && (one.natural_family().is_none() && other.natural_family().is_none())
                && middle(page, low.staff, low.player) < middle(page, high.staff, high.player)
                && low.sounding.0.midi() > high.sounding.0.midi()
        };
        let players = |first: &Voice, second: &Voice| {
            first.staff == second.staff
                && first.player < second.player
                && !(first.doubled_below || second.doubled_below)
                && of(first) == of(second)
                && first.sounding.0.midi() < second.sounding.0.midi()
        };
        let broken =
            voices.iter().any(|one| voices.iter().any(|other| crosses(one, other) || players(one, other)));
        count.add(broken, question);
    });
    count.at_most(0, "order of the score kept");
}

#[test]
fn natural_brass_has_open_notes_or_rests() {
    let mut count = Count::default();
    let mut brass = 0;
    each_column(|question, _, voices| {
        let made = |voice: &Voice| voice.reading.making.map(|making| making.production);
        brass += voices.iter().filter_map(made).count();
        // The open B and C above G5 are for soloists.
        let high = voices.iter().any(|voice| made(voice).is_some() && voice.written.0.midi() > 79);
        count.add(high || voices.iter().filter_map(made).any(|made| made != Production::Open), question);
    });
    count.at_most(0, "brass on open notes");
    assert!(brass > count.columns, "most columns have brass: {brass} notes in {} columns", count.columns);
}

#[test]
fn instruments_keep_to_their_ranges_and_near_their_staves() {
    let mut count = Count::default();
    each_column(|question, _, voices| {
        let staves = ResolvedStaff::all(&question.passage, DecodeOptions::default());
        let outside = |voice: &Voice| {
            let place = staves[voice.staff].place_at(0, voice.player).unwrap();
            let range = place.staff.instrument.range.split_once('–').and_then(|(low, high)| {
                let pitch =
                    |text: &str| text.split(['/', ' ']).next()?.parse::<crookwise_theory::Pitch>().ok();
                Some(pitch(low)?.midi()..=pitch(high)?.midi())
            });
            let stands = place.habits.clef.position(voice.printed.0).0;
            range.is_some_and(|range| !range.contains(&voice.written.0.midi()))
                || !(-4..=12).contains(&stands)
        };
        count.add(voices.iter().any(outside), question);
    });
    count.at_most(0, "two ledger lines and the range of the instrument");
}

#[test]
fn chords_are_such_as_are_written_also_among_the_choices() {
    let mut count = Count::default();
    for question in questions(Kind::Chord) {
        let key = question
            .passage
            .movement
            .unwrap_or(Key::new(crookwise_theory::Tonic::from_fifths(0), Mode::Major));
        for answer in question.choices.iter().chain([&question.right]) {
            let Answer::Chord(chord) = answer else { panic!("{answer}") };
            let odd = !matches!(
                chord.quality,
                Quality::Major
                    | Quality::Minor
                    | Quality::Diminished
                    | Quality::DominantSeventh
                    | Quality::MajorSeventh
                    | Quality::MinorSeventh
                    | Quality::HalfDiminishedSeventh
                    | Quality::DiminishedSeventh
            );
            let far = (chord.root.fifths() - key.signature().0).abs() > 7 || chord.root.alter.abs() > 1;
            count.add(odd || far, &question);
        }
        assert_eq!(question.choices.len(), 4, "{}", question.canonical());
    }
    count.at_most(0, "chords of the key");
}

#[test]
fn parts_move_by_little_where_a_staff_is_misread() {
    let mut count = Count::default();
    let mut repeated = 0;
    for question in questions(Kind::WrongStaff) {
        let Some(QuestionSound::Page(_)) = &question.heard else { panic!() };
        let columns: Vec<Vec<Voice>> =
            (0..question.passage.columns().len()).map(|column| sounding(&question.passage, column)).collect();
        let bass = middle_of_bass(&question.passage, &columns);
        for pair in columns.windows(2) {
            for now in &pair[1] {
                let before = pair[0].iter().find(|other| {
                    (other.staff, other.player, other.doubled_below)
                        == (now.staff, now.player, now.doubled_below)
                });
                let Some(before) = before else { continue };
                let leap = (before.sounding.0.midi() - now.sounding.0.midi()).abs();
                repeated += usize::from(leap == 0);
                // A bass goes from root to root.
                let most = if now.staff == bass || now.reading.making.is_some() { 7 } else { 5 };
                count.add(leap > most, &question);
            }
        }
    }
    count.at_most(10, "small steps");
    assert!(repeated * 6 > count.columns, "notes in common are kept: {repeated} of {}", count.columns);
}

#[test]
fn a_misread_staff_is_off_by_the_same_letters_throughout() {
    let mut count = Count::default();
    for question in questions(Kind::WrongStaff) {
        let (Some(QuestionSound::Page(heard)), Answer::Staff(wrong)) = (&question.heard, &question.right)
        else {
            panic!()
        };
        let mut off: Vec<i32> = Vec::new();
        for played in heard.iter().filter(|played| played.at.staff == usize::from(*wrong)) {
            let voices = sounding(&question.passage, played.at.column);
            let own = voices.iter().find(|voice| {
                (voice.staff, voice.player, voice.doubled_below) == (played.at.staff, played.at.player, false)
            });
            // Bassi sound an octave below as well.
            off.push((played.sounding.0.diatonic() - own.unwrap().sounding.0.diatonic()).rem_euclid(7));
        }
        off.dedup();
        count.add(off.len() > 1, &question);
    }
    count.at_most(0, "misread alike");
}

fn middle_of_bass(page: &Passage, columns: &[Vec<Voice>]) -> usize {
    let staves = columns.iter().flatten().map(|voice| voice.staff);
    staves.min_by_key(|staff| middle(page, *staff, 0)).unwrap()
}
