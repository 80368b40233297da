//! What looks alike and reads alike has the same answers: over the whole course and ten thousand random exercises.
//!
//! The picture of a question is put together here, from what a page shows, apart from the crate's own text of it.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod kit;

use crookwise_practice::course::CourseStep;
use crookwise_practice::{Answer, AskedStaff, Exercise, Kind, Marking, NoteRange, Question, QuestionSound};
use crookwise_score::{ChangeTo, Choice, Event, ResolvedStaff, Settings, SignatureSource};
use crookwise_theory::label::{DecodeOptions, Mechanism, decode};
use crookwise_theory::{BassNotation, Clef, Scheme};
use kit::{any_exercise, likely_exercise};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngSeed, TestRunner};
use std::collections::BTreeMap;
use std::fmt::Write;

/// Seeds each exercise of the course is tried with, beside its own.
const SEEDS: u32 = 12;
/// How many random exercises of each kind there are.
const RANDOM: usize = 5000;

/// All that a reader sees and hears of a question before answering.
fn look(question: &Question) -> String {
    let mut out = question.kind.id().to_owned();
    let page = &question.passage;
    if question.kind == Kind::Degree {
        write!(out, " in {:?}", page.movement_at(question.at.column)).unwrap();
    }
    if let Some(given) = question.given {
        write!(out, " so that {given} sounds").unwrap();
    }
    if let (Kind::InHand, Some(hand)) = (question.kind, &question.in_hand) {
        write!(out, " on {hand}").unwrap();
    }
    let nowhere = matches!(question.kind, Kind::WrongNote | Kind::WrongStaff | Kind::Chord | Kind::Label);
    for (at, staff) in page.staves().iter().enumerate() {
        let resolved = ResolvedStaff::of(page, at, DecodeOptions::default());
        let place = resolved.place_at(0, 0).unwrap();
        let shown: Vec<String> = question.shown(at).iter().map(ToString::to_string).collect();
        let label = staff.label.trim();
        write!(out, "\n{label} | {} | ", shown.join(", ")).unwrap();
        write!(out, "{} {} {}", place.habits.clef, place.habits.clef.octave(), place.signature.0).unwrap();
        for change in staff.changes() {
            write!(out, " | at {} for {:?} ", change.column, change.player).unwrap();
            match &change.to {
                ChangeTo::Clef(clef) => write!(out, "{clef} {}", clef.octave()),
                ChangeTo::Signature(SignatureSource::Typed(signature)) => write!(out, "{}", signature.0),
                ChangeTo::Signature(source) => write!(out, "{source:?}"),
                ChangeTo::Label(label) => write!(out, "{label}"),
            }
            .unwrap();
        }
        out.push_str(" |");
        for column in 0..page.columns().len() {
            out.push(' ');
            let together = staff.cells()[column].is_together();
            // Where one note is printed for all, no player is told from another.
            let players = if together { 1 } else { staff.players() };
            if together && staff.players() > 1 {
                out.push_str("a 2:");
            }
            for player in 0..players {
                let asked = !nowhere && (question.at.staff, question.at.column) == (at, column);
                if asked && (together || question.at.player == player) {
                    // Where there are several players, his number stands at the note of the one who is asked.
                    let alone = staff.players() == 1 || question.kind == Kind::Players;
                    let number = if alone { 0 } else { resolved.number(question.at.player) };
                    write!(out, "asked {number}:").unwrap();
                }
                match page.event(at, column, player) {
                    Some(Event::Note(printed)) => write!(out, "{printed}+").unwrap(),
                    Some(Event::Held) => out.push_str("_+"),
                    _ => {}
                }
            }
        }
    }
    match &question.heard {
        Some(QuestionSound::Page(played)) => write!(out, "\n{played:?}").unwrap(),
        Some(QuestionSound::Two { natural }) => write!(out, "\n{natural:?}").unwrap(),
        None => {}
    }
    out
}

/// Questions seen so far, by what they look like.
#[derive(Default)]
struct Seen {
    by_look: BTreeMap<String, Question>,
    asked: usize,
    met_again: usize,
    unjust: BTreeMap<String, String>,
}

impl Seen {
    fn ask(&mut self, exercise: &Exercise) {
        for question in exercise.questions().into_iter().flatten() {
            self.asked += 1;
            let look = look(&question);
            let Some(other) = self.by_look.get(&look) else {
                self.by_look.insert(look, question);
                continue;
            };
            self.met_again += 1;
            if !(takes_all(other, &question) && takes_all(&question, other)) {
                let answers = |question: &Question| {
                    let all = std::iter::once(&question.right).chain(&question.also);
                    all.map(Answer::to_string).collect::<Vec<_>>().join(", ")
                };
                let both = format!("{} against {}", answers(other), answers(&question));
                self.unjust.insert(look, both);
            }
        }
    }

    fn hold(&self) {
        let told: Vec<String> =
            self.unjust.iter().map(|(look, both)| format!("{look}\n    {both}")).collect();
        let some: Vec<&String> = told.iter().take(12).collect();
        let some: String = some.into_iter().map(|one| format!("\n\n{one}")).collect();
        assert!(
            told.is_empty(),
            "{} looks of {} have several answers:{some}",
            told.len(),
            self.by_look.len()
        );
    }
}

/// Whether all that is right for one question is right for another.
fn takes_all(question: &Question, other: &Question) -> bool {
    let mut all = core::iter::once(&other.right).chain(&other.also);
    all.all(|answer| question.is_right(answer, Marking::default()))
}

#[test]
fn questions_of_the_course_that_look_alike_have_the_same_answers() {
    let mut seen = Seen::default();
    for exercise in CourseStep::ALL.iter().flat_map(CourseStep::exercises) {
        for seed in core::iter::once(exercise.seed).chain(1..=SEEDS) {
            seen.ask(&Exercise { seed, ..exercise.clone() });
        }
    }
    assert!(seen.asked > 5000 && seen.met_again > 1000, "{} {}", seen.asked, seen.met_again);
    seen.hold();
}

#[test]
fn questions_of_random_exercises_that_look_alike_have_the_same_answers() {
    let mut seen = Seen::default();
    let mut runner = TestRunner::new(Config { rng_seed: RngSeed::Fixed(10), ..Config::default() });
    let (any, likely) = (any_exercise(), likely_exercise());
    for _ in 0..RANDOM {
        seen.ask(&any.new_tree(&mut runner).unwrap().current());
        seen.ask(&likely.new_tree(&mut runner).unwrap().current());
    }
    assert!(seen.asked > 20_000 && seen.met_again > 1000, "{} {}", seen.asked, seen.met_again);
    seen.hold();
}

/// Labels that the trade leaves open, and others whose staff may be read in several ways.
const OPEN: [&str; 16] = [
    "Corni in B",
    "Corni in C",
    "Corni in A",
    "Corni in H",
    "Horns in B",
    "Corni",
    "Trombe in B",
    "Trombe",
    "Clarinetti",
    "Clarinets in B",
    "Clarinetto basso in B",
    "Tenortuben in B",
    "Viole",
    "Contrabasso",
    "Violone",
    "Corni in F",
];

/// Every way to read a label: by each of its readings, in either clef, old and new, by each system, at pitch.
fn ways(label: &str) -> Vec<AskedStaff> {
    let decoded = decode(label, DecodeOptions::default());
    let readings = decoded.alternatives.iter().map(|other| Some(Choice::of(&other.staff)));
    let mut ways = Vec::new();
    for choice in core::iter::once(None).chain(readings) {
        let instrument = choice.map_or(decoded.staves[0].instrument, |choice| choice.instrument);
        let systems = Scheme::of(instrument).iter().copied().map(Some);
        for scheme in core::iter::once(None).chain(systems) {
            for clef in [None, Some(Clef::BASS)] {
                for bass in [None, Some(BassNotation::New)] {
                    for (at_pitch, mechanism) in
                        [(false, None), (true, None), (false, Some(Mechanism::Valves))]
                    {
                        let signature = Some(SignatureSource::None);
                        let settings = Settings { mechanism, clef, bass, scheme, signature, at_pitch };
                        ways.push(AskedStaff { choice, settings, ..AskedStaff::of(label) });
                    }
                }
            }
        }
    }
    ways
}

#[test]
fn staves_that_may_be_read_in_several_ways_say_in_which() {
    let mut seen = Seen::default();
    for (number, label) in OPEN.iter().enumerate() {
        for way in ways(label) {
            for kind in [Kind::Sounds, Kind::Writes, Kind::InHand, Kind::Partial, Kind::Clef, Kind::Degree] {
                for key in ["Eb major", "E major"] {
                    let exercise = Exercise {
                        kinds: vec![kind],
                        staves: vec![way.clone()],
                        keys: vec![key.parse().unwrap()],
                        in_hand: Some("Horn in F".into()),
                        range: NoteRange::Written(58, 72),
                        questions: 3,
                        seed: number as u32,
                        ..Exercise::default()
                    };
                    seen.ask(&exercise);
                }
            }
        }
    }
    assert!(seen.asked > 10_000 && seen.met_again > 3000, "{} {}", seen.asked, seen.met_again);
    seen.hold();
}
