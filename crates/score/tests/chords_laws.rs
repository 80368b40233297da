//! Laws of naming, held against chance: octaves above the bass, the order of the voices and the letters of the staves
//! do not change what a chord is, and a chord moved with its key keeps its name.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_score::chord::{Harmony, HarmonyKind, Member, Quality, Role};
use crookwise_theory::{Interval, Key, Mode, Pitch, Tonic};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};

fn config() -> Config {
    Config { cases: 4000, rng_seed: RngSeed::Fixed(3), failure_persistence: None, ..Config::default() }
}

fn any_key() -> impl Strategy<Value = Option<Key>> {
    prop_oneof![
        Just(None),
        (0..15_usize, any::<bool>()).prop_map(|(place, minor)| {
            Some(Key::common(if minor { Mode::Minor } else { Mode::Major })[place])
        })
    ]
}

/// A note by its place on the line of fifths, from F-flat to B-sharp.
fn any_pitch() -> impl Strategy<Value = Pitch> {
    (-8..=12_i32, 2..=5_i32).prop_map(|(fifths, octave)| {
        let name = Tonic::from_fifths(fifths);
        Pitch::new(name.step, name.alter, octave)
    })
}

/// Chords as often as chance: thirds stacked on a root with a bass of its own now and then.
fn any_pitches() -> impl Strategy<Value = Vec<Pitch>> {
    let stack = (any_pitch(), prop::collection::vec(3..=4_i32, 1..=3), any_pitch(), 0..4_u8, 0..5_usize)
        .prop_map(|(root, thirds, other, how, left_out)| {
            let mut pitches = vec![root];
            let mut top = root;
            for third in thirds {
                top = top + Interval::new(2, third);
                pitches.push(top);
            }
            if left_out < pitches.len() {
                pitches.remove(left_out);
            }
            if how == 0 {
                pitches.push(other);
            }
            pitches
        });
    prop_oneof![prop::collection::vec(any_pitch(), 0..7), stack]
}

/// Everything that is said, without who holds what.
fn said(harmony: &Harmony) -> (HarmonyKind, Vec<(Tonic, Role)>, String) {
    let members = harmony.members.iter().map(|member| (member.note, member.role)).collect();
    (harmony.kind, members, harmony.degree.map(|degree| degree.to_string()).unwrap_or_default())
}

/// Which chord, on which key of the keyboard.
fn sounds_as(harmony: &Harmony) -> (Option<i32>, Option<Quality>, Vec<(i32, Role)>) {
    let members = harmony.members.iter().map(|member| (member.note.pitch_class(), member.role)).collect();
    match harmony.kind {
        HarmonyKind::Chord(chord) | HarmonyKind::Pedal { chord, .. } => {
            (Some(chord.root.pitch_class()), Some(chord.quality), members)
        }
        HarmonyKind::OpenFifth { root, .. } => (Some(root.pitch_class()), None, members),
        _ => (None, None, members),
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn octaves_above_the_bass_change_nothing(pitches in any_pitches(), key in any_key(), doubled in 0..7_usize, up in 1..3) {
        let Some(&one) = pitches.get(doubled) else { return Ok(()) };
        let mut more = pitches.clone();
        more.push(one + Interval::octaves(up));
        let (plain, more) = (Harmony::of_pitches(&pitches, key), Harmony::of_pitches(&more, key));
        prop_assert_eq!(said(&plain), said(&more));
        let held = |harmony: &Harmony| harmony.members.iter().map(Member::count).sum::<usize>();
        prop_assert_eq!(held(&plain) + 1, held(&more));
    }

    #[test]
    fn the_order_of_the_voices_changes_nothing(pitches in any_pitches(), key in any_key(), turn in 0..7_usize, swap in 0..7_usize) {
        let mut turned = pitches.clone();
        let length = turned.len().max(1);
        turned.rotate_left(turn % length);
        if swap < turned.len() {
            turned.swap(0, swap);
        }
        prop_assert_eq!(said(&Harmony::of_pitches(&pitches, key)), said(&Harmony::of_pitches(&turned, key)));
    }

    /// Every voice has a member, every member its voices, and nobody's sound changes.
    #[test]
    fn everybody_holds_something(pitches in any_pitches(), key in any_key()) {
        let harmony = Harmony::of_pitches(&pitches, key);
        let mut held: Vec<usize> = harmony.members.iter().flat_map(|member| member.voices.clone()).collect();
        held.sort_unstable();
        prop_assert_eq!(held, (0..pitches.len()).collect::<Vec<_>>());
        for (pitch, letter) in pitches.iter().zip(&harmony.letters) {
            prop_assert!(pitch.same_key(letter.pitch));
            prop_assert_eq!(letter.respelled, *pitch != letter.pitch);
        }
        for member in &harmony.members {
            prop_assert!(member.voices.iter().all(|&voice| harmony.letters[voice].pitch.tonic() == member.note));
            prop_assert_eq!(member.octaves.iter().map(|(_, count)| count).sum::<usize>(), member.count());
            prop_assert_eq!(member.unisons() + member.octave_doublings() + 1, member.count());
        }
    }

    /// In a key letters change nothing but what the rules name: augmented sixths, and diminished sevenths without the
    /// leading note.
    #[test]
    fn letters_change_nothing_in_a_key(pitches in any_pitches(), key in any_key(), changes in prop::collection::vec(-1..=1_i32, 7)) {
        let Some(key) = key else { return Ok(()) };
        let respelled: Vec<Pitch> =
            pitches.iter().zip(changes).map(|(pitch, letters)| pitch.respelled(letters)).collect();
        let (plain, other) =
            (Harmony::of_pitches(&pitches, Some(key)), Harmony::of_pitches(&respelled, Some(key)));
        let by_letters = |harmony: &Harmony| {
            let leading = key.tonic.pitch_class() + 11;
            sounds_as(harmony).1.is_some_and(|quality| match quality {
                Quality::DiminishedSeventh => {
                    !harmony.members.iter().any(|member| member.note.pitch_class() == leading % 12)
                }
                Quality::DominantSeventh | Quality::ItalianSixth | Quality::FrenchSixth | Quality::GermanSixth => true,
                _ => false,
            })
        };
        if by_letters(&plain) {
            prop_assert!(by_letters(&other), "{} and {}", plain, other);
        } else {
            prop_assert_eq!(said(&plain), said(&other));
        }
    }

    /// In no key they change only which of several roots, a tritone, and the choice between dominant and sixth.
    #[test]
    fn letters_change_little_without_a_key(pitches in any_pitches(), changes in prop::collection::vec(-1..=1_i32, 7)) {
        let respelled: Vec<Pitch> =
            pitches.iter().zip(changes).map(|(pitch, letters)| pitch.respelled(letters)).collect();
        let (plain, other) = (Harmony::of_pitches(&pitches, None), Harmony::of_pitches(&respelled, None));
        let (one, two) = (sounds_as(&plain), sounds_as(&other));
        match one.1 {
            Some(quality @ (Quality::Augmented | Quality::DiminishedSeventh | Quality::FrenchSixth)) => {
                prop_assert_eq!(two.1, Some(quality));
            }
            Some(Quality::DominantSeventh | Quality::ItalianSixth | Quality::GermanSixth) => {
                prop_assert_eq!(one.0, two.0);
            }
            _ => prop_assert_eq!(one, two),
        }
        if let (HarmonyKind::Interval { interval: one, .. }, HarmonyKind::Interval { interval: two, .. }) = (plain.kind, other.kind) {
            prop_assert!(one == two || one.semitones == 6, "{} and {}", one, two);
        }
    }

    /// Moved by any of the twelve intervals together with its key, a chord keeps its name on another root.
    #[test]
    fn a_chord_moves_with_its_key(pitches in any_pitches(), minor: bool, semitones in 0..12) {
        let by = Interval::usual(semitones);
        let key = Key::new(Tonic::from_fifths(0), if minor { Mode::Minor } else { Mode::Major });
        let moved: Vec<Pitch> = pitches.iter().map(|&pitch| pitch + by).collect();
        let here = Harmony::of_pitches(&pitches, Some(key));
        let there = Harmony::of_pitches(&moved, Some(key.transposed(by)));
        let up = |tonic: Tonic| Tonic::from_fifths(tonic.fifths() + by.fifths());
        let expected: Vec<_> =
            here.members.iter().map(|member| (up(member.note), member.role, member.voices.clone())).collect();
        let found: Vec<_> =
            there.members.iter().map(|member| (member.note, member.role, member.voices.clone())).collect();
        prop_assert_eq!(expected, found);
        prop_assert_eq!(here.degree, there.degree);
        let quality = |harmony: &Harmony| sounds_as(harmony).1;
        prop_assert_eq!(quality(&here), quality(&there));
        prop_assert_eq!(
            here.also.iter().map(|chord| (up(chord.root), chord.quality, chord.bass)).collect::<Vec<_>>(),
            there.also.iter().map(|chord| (chord.root, chord.quality, chord.bass)).collect::<Vec<_>>()
        );
    }
}

/// Every triad and seventh there is, in every position, moved to all twelve keys: none of them is passed over.
#[test]
fn every_chord_in_every_position_moves() {
    let stacks: [&[(i32, i32)]; 12] = [
        &[(2, 4), (4, 7)],
        &[(2, 3), (4, 7)],
        &[(2, 3), (4, 6)],
        &[(2, 4), (4, 8)],
        &[(2, 4), (4, 7), (6, 10)],
        &[(2, 4), (4, 7), (6, 11)],
        &[(2, 3), (4, 7), (6, 10)],
        &[(2, 3), (4, 6), (6, 10)],
        &[(2, 3), (4, 6), (6, 9)],
        &[(2, 3), (4, 7), (6, 11)],
        &[(2, 4), (4, 8), (6, 11)],
        &[(2, 4), (4, 8), (6, 10)],
    ];
    let mut seen = Vec::new();
    for stack in stacks {
        for inversion in 0..=stack.len() {
            for semitones in 0..12 {
                let root = "C3".parse::<Pitch>().unwrap() + Interval::usual(semitones);
                let mut pitches = vec![root];
                pitches
                    .extend(stack.iter().map(|&(steps, semitones)| root + Interval::new(steps, semitones)));
                for pitch in pitches.iter_mut().take(inversion) {
                    *pitch = *pitch + Interval::OCTAVE;
                }
                let harmony = Harmony::of_pitches(&pitches, None);
                let HarmonyKind::Chord(chord) = harmony.kind else { panic!("{pitches:?}: {harmony}") };
                assert_eq!(chord.root, root.tonic(), "{harmony}");
                assert_eq!(chord.inversion().map(usize::from), Some(inversion), "{harmony}");
                assert!(harmony.letters.iter().all(|letter| !letter.respelled), "{harmony}");
                if !seen.contains(&chord.quality) {
                    seen.push(chord.quality);
                }
            }
        }
    }
    assert_eq!(seen.len(), stacks.len());
}

/// A key that nobody writes comes in by a damaged file: it is named somehow, and nothing breaks.
#[test]
fn a_key_beyond_all_signs_breaks_nothing() {
    let pitches: Vec<Pitch> = ["C3", "E4", "G4", "Bb4"].map(|name| name.parse().unwrap()).into();
    for alter in [i32::MIN, -306_783_377, -20, 20, 306_783_378, i32::MAX] {
        for step in crookwise_theory::Step::ALL {
            let key = Key::new(Tonic::new(step, alter), Mode::Major);
            for more in 0..=pitches.len() {
                let harmony = Harmony::of_pitches(&pitches[..more], Some(key));
                assert_eq!(harmony.letters.len(), more);
            }
        }
    }
}
