//! Names of chords beside those of music21 10.5.1: all triads and sevenths in all positions and spellings, sevenths with
//! a member missing, augmented sixths, and every set of three or four keys of the keyboard over each of its notes.
//!
//! `CROOKWISE_PYTHON` names a Python that has what `tests/python/requirements.txt` lists.
//!
//! Known differences, each by name:
//!
//! - `root of an augmented sixth`: there it is the root of the letters' stack of thirds (F-sharp of A-flat C E-flat
//!   F-sharp, D of a French sixth), here the lower note of the sixth, on which the chord is said to stand.
//! - `letters of no chord`: there a chord whose letters make no stack of thirds is only "enharmonic" to one and its root
//!   is found by letters; here letters do not matter, so such chords are compared by name alone.
//! - `French sixth by keys alone`: there its letters make it one; here its four keys do, which are nothing else that has
//!   a name. Such sets are held to those keys instead.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::library::ask;
use crookwise_score::chord::{Chord, Harmony, HarmonyKind, Quality, Role};
use crookwise_tests::outside::Comparison;
use crookwise_theory::{Interval, Pitch, Tonic};
use serde_json::{Value, json};

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![
    triads_and_sevenths_in_all_positions_and_spellings,
    sevenths_with_a_member_missing,
    augmented_sixths_in_all_positions,
    every_set_of_three_or_four_keys,
];

/// What the library says of each list of pitches.
fn asked(python: &str, chords: &[Vec<Pitch>]) -> Vec<Value> {
    let names: Vec<Vec<String>> =
        chords.iter().map(|chord| chord.iter().map(ToString::to_string).collect()).collect();
    let found = ask(python, "chords.py", &json!(names))["chords"].as_array().unwrap().clone();
    assert_eq!(found.len(), chords.len());
    found
}

/// Members of a chord above its root in letters and semitones.
type Stack = &'static [(i32, i32)];

/// Each chord, its members, and what the library calls it.
const WHOLE: [(Quality, Stack, &str); 12] = [
    (Quality::Major, &[(2, 4), (4, 7)], "major triad"),
    (Quality::Minor, &[(2, 3), (4, 7)], "minor triad"),
    (Quality::Diminished, &[(2, 3), (4, 6)], "diminished triad"),
    (Quality::Augmented, &[(2, 4), (4, 8)], "augmented triad"),
    (Quality::DominantSeventh, &[(2, 4), (4, 7), (6, 10)], "dominant seventh chord"),
    (Quality::MajorSeventh, &[(2, 4), (4, 7), (6, 11)], "major seventh chord"),
    (Quality::MinorSeventh, &[(2, 3), (4, 7), (6, 10)], "minor seventh chord"),
    (Quality::HalfDiminishedSeventh, &[(2, 3), (4, 6), (6, 10)], "half-diminished seventh chord"),
    (Quality::DiminishedSeventh, &[(2, 3), (4, 6), (6, 9)], "diminished seventh chord"),
    (Quality::MinorMajorSeventh, &[(2, 3), (4, 7), (6, 11)], "minor-augmented tetrachord"),
    (Quality::AugmentedMajorSeventh, &[(2, 4), (4, 8), (6, 11)], "augmented major tetrachord"),
    (Quality::AugmentedSeventh, &[(2, 4), (4, 8), (6, 10)], "augmented seventh chord"),
];

const INCOMPLETE: [(Quality, Role, Stack, &str); 6] = [
    (Quality::DominantSeventh, Role::Fifth, &[(2, 4), (6, 10)], "incomplete dominant-seventh chord"),
    (Quality::MajorSeventh, Role::Fifth, &[(2, 4), (6, 11)], "incomplete major-seventh chord"),
    (Quality::MinorSeventh, Role::Fifth, &[(2, 3), (6, 10)], "incomplete minor-seventh chord"),
    (Quality::Seventh, Role::Third, &[(4, 7), (6, 10)], "incomplete dominant-seventh chord"),
    (Quality::MajorSeventh, Role::Third, &[(4, 7), (6, 11)], "incomplete major-seventh chord"),
    (
        Quality::HalfDiminishedSeventh,
        Role::Third,
        &[(4, 6), (6, 10)],
        "incomplete half-diminished seventh chord",
    ),
];

const SIXTHS: [(Quality, Stack, &str); 3] = [
    (Quality::ItalianSixth, &[(2, 4), (5, 10)], "Italian"),
    (Quality::FrenchSixth, &[(2, 4), (3, 6), (5, 10)], "French"),
    (Quality::GermanSixth, &[(2, 4), (4, 7), (5, 10)], "German"),
];

/// One chord in one position: its root and its pitches.
struct Case {
    quality: Quality,
    root: Tonic,
    inversion: usize,
    name: &'static str,
    pitches: Vec<Pitch>,
}

/// A chord on every root of so many fifths, with every member in the bass, close and wide.
fn cases(
    quality: Quality,
    stack: &[(i32, i32)],
    name: &'static str,
    roots: core::ops::RangeInclusive<i32>,
) -> Vec<Case> {
    let mut cases = Vec::new();
    for fifths in roots {
        let root = Tonic::from_fifths(fifths);
        let low = Pitch::new(root.step, root.alter, 3);
        let above = stack.iter().map(|&(letters, semitones)| low + Interval::new(letters, semitones));
        let close: Vec<Pitch> = core::iter::once(low).chain(above).collect();
        for inversion in 0..close.len() {
            for wide in [0, 1] {
                let placed = close.iter().enumerate().map(|(member, &pitch)| {
                    let up = i32::from(member < inversion) + if member == inversion { 0 } else { wide };
                    pitch
                        + Interval::octaves(up + wide * (member as i32 % 2) * i32::from(member != inversion))
                });
                cases.push(Case { quality, root, inversion, name, pitches: placed.collect() });
            }
        }
    }
    cases
}

fn chord(pitches: &[Pitch]) -> Chord {
    let harmony = Harmony::of_pitches(pitches, None);
    match harmony.kind {
        HarmonyKind::Chord(chord) => chord,
        _ => panic!("{pitches:?}: {harmony}"),
    }
}

/// Numbers that look like chance and are the same in every run (xorshift, seed 2025).
struct Chance(u64);

impl Chance {
    fn below(&mut self, bound: u64) -> i32 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        i32::try_from(self.0 % bound).unwrap()
    }
}

fn triads_and_sevenths_in_all_positions_and_spellings(python: &str) {
    // Roots from F-double-flat to B-double-sharp.
    let cases: Vec<Case> =
        WHOLE.iter().flat_map(|&(quality, stack, name)| cases(quality, stack, name, -15..=19)).collect();
    let pitches: Vec<Vec<Pitch>> = cases.iter().map(|case| case.pitches.clone()).collect();
    let answers = asked(python, &pitches);
    let mut chance = Chance(2025);
    for (case, answer) in cases.iter().zip(&answers) {
        let ours = chord(&case.pitches);
        assert_eq!((ours.quality, ours.root, ours.missing), (case.quality, case.root, None), "{ours}");
        assert_eq!(answer["root"], ours.root.to_string(), "{ours}: {answer}");
        assert_eq!(answer["inversion"], json!(ours.inversion()), "{ours}: {answer}");
        assert_eq!(ours.inversion().map(usize::from), Some(case.inversion));
        assert_eq!(answer["name"], case.name, "{ours}: {answer}");
        let stack: Vec<i32> = answer["stack"]
            .as_array()
            .unwrap()
            .iter()
            .filter_map(|step| step.as_i64().and_then(|step| i32::try_from(step).ok()))
            .collect();
        let own: Vec<i32> =
            WHOLE.iter().find(|row| row.0 == ours.quality).unwrap().1.iter().map(|tone| tone.1).collect();
        assert_eq!(stack, own, "{ours}: {answer}");
        // The same sound on other letters is the same chord, where keys alone can tell.
        if matches!(case.quality, Quality::Augmented | Quality::DiminishedSeventh | Quality::DominantSeventh)
        {
            continue;
        }
        for _ in 0..3 {
            let other: Vec<Pitch> =
                case.pitches.iter().map(|pitch| pitch.respelled(chance.below(3) - 1)).collect();
            let again = chord(&other);
            assert_eq!(again.root.pitch_class(), case.root.pitch_class(), "{other:?}: {again}, not {ours}");
            assert_eq!((again.quality, again.bass), (ours.quality, ours.bass), "{other:?}");
        }
    }
    assert!(cases.len() > 3000, "{}", cases.len());
}

fn sevenths_with_a_member_missing(python: &str) {
    let mut all = Vec::new();
    let mut missing = Vec::new();
    for (quality, lost, stack, name) in INCOMPLETE {
        let these = cases(quality, stack, name, -10..=14);
        missing.extend(these.iter().map(|_| lost));
        all.extend(these);
    }
    let pitches: Vec<Vec<Pitch>> = all.iter().map(|case| case.pitches.clone()).collect();
    let answers = asked(python, &pitches);
    for ((case, lost), answer) in all.iter().zip(missing).zip(&answers) {
        let ours = chord(&case.pitches);
        assert_eq!((ours.quality, ours.root, ours.missing), (case.quality, case.root, Some(lost)), "{ours}");
        assert_eq!(answer["root"], ours.root.to_string(), "{ours}: {answer}");
        assert_eq!(answer["inversion"], json!(ours.inversion()), "{ours}: {answer}");
        assert_eq!(answer["name"], case.name, "{ours}: {answer}");
    }
}

fn augmented_sixths_in_all_positions(python: &str) {
    let all: Vec<Case> =
        SIXTHS.iter().flat_map(|&(quality, stack, name)| cases(quality, stack, name, -13..=9)).collect();
    let pitches: Vec<Vec<Pitch>> = all.iter().map(|case| case.pitches.clone()).collect();
    let answers = asked(python, &pitches);
    for (case, answer) in all.iter().zip(&answers) {
        let ours = chord(&case.pitches);
        assert_eq!((ours.quality, ours.root), (case.quality, case.root), "{ours}");
        assert_eq!(answer["sixth"], case.name, "{ours}: {answer}");
        // `root of an augmented sixth`
        let steps = if case.quality == Quality::FrenchSixth { 6 } else { 10 };
        let theirs: Tonic = answer["root"].as_str().unwrap().parse().unwrap();
        assert_eq!(theirs.fifths() - ours.root.fifths(), steps, "{ours}: {answer}");
    }
}

/// The sets of keys that are a triad or a seventh are the same ones there and here.
fn every_set_of_three_or_four_keys(python: &str) {
    let mut sets = Vec::new();
    for keys in 0..4096_u32 {
        if !matches!(keys.count_ones(), 3 | 4) {
            continue;
        }
        for bass in (0..12).filter(|&bass| keys >> bass & 1 == 1) {
            let above = (0..12).filter(|&up| keys >> ((bass + up) % 12) & 1 == 1);
            let low = "C3".parse::<Pitch>().unwrap() + Interval::usual(bass);
            sets.push(above.map(|up| low + Interval::usual(up)).collect::<Vec<Pitch>>());
        }
    }
    let answers = asked(python, &sets);
    let mut named = 0;
    for (pitches, answer) in sets.iter().zip(&answers) {
        let harmony = Harmony::of_pitches(pitches, None);
        // `letters of no chord`
        let theirs = answer["name"].as_str().unwrap();
        let theirs = theirs
            .strip_prefix("enharmonic equivalent to ")
            .or(theirs.strip_prefix("enharmonic to "))
            .unwrap_or(theirs);
        let whole = match harmony.kind {
            HarmonyKind::Chord(chord) if chord.missing.is_none() => Some(chord.quality),
            _ => None,
        };
        let expected = WHOLE.iter().find(|row| row.2 == theirs).map(|row| row.0);
        match whole {
            Some(Quality::FrenchSixth) => {
                // `French sixth by keys alone`
                let keys = pitches.iter().fold(0, |keys, pitch| keys | 1 << pitch.midi().rem_euclid(12));
                let french =
                    |root: i32| [0, 4, 6, 10].iter().fold(0, |keys, up| keys | 1 << ((root + up) % 12));
                assert!((0..12).any(|root| keys == french(root)), "{pitches:?}: {harmony}");
                assert!(expected.is_none(), "{pitches:?}: {harmony}, {answer}");
            }
            Some(Quality::GermanSixth) => {
                assert!(theirs.starts_with("German augmented sixth"), "{pitches:?}: {harmony}, {answer}");
            }
            whole => {
                let ours = whole.filter(|quality| WHOLE.iter().any(|row| row.0 == *quality));
                named += i32::from(ours.is_some());
                assert_eq!(ours, expected, "{pitches:?}: {harmony}, {answer}");
            }
        }
    }
    assert!(named > 300, "{named}");
}
