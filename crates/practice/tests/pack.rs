//! An exercise in bytes: it goes round, stays short, and damaged bytes are an error.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod kit;

use crookwise_practice::{Edition, Exercise, Kind, Material, PackError};
use crookwise_score::Passage;
use kit::{any_exercise, asked, set_exercises};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};

proptest! {
    #![proptest_config(Config { cases: 1000, rng_seed: RngSeed::Fixed(5), failure_persistence: None, ..Config::default() })]

    #[test]
    fn any_exercise_goes_round(exercise in any_exercise()) {
        prop_assert_eq!(Exercise::unpack(&exercise.pack(), None), Ok(exercise));
    }

    #[test]
    fn any_bytes_are_an_exercise_or_an_error(bytes in proptest::collection::vec(any::<u8>(), 0..80)) {
        for bytes in [bytes.clone(), [&[1], &bytes[..]].concat()] {
            if let Ok(exercise) = Exercise::unpack(&bytes, None) {
                prop_assert_eq!(exercise.pack(), bytes);
            }
        }
    }

    #[test]
    fn a_piece_is_damaged_and_so_is_more(exercise in any_exercise(), at in any::<prop::sample::Index>()) {
        let bytes = exercise.pack();
        let piece = &bytes[..at.index(bytes.len())];
        prop_assert_eq!(Exercise::unpack(piece, None), Err(PackError::Damaged));
        let more = [&bytes[..], &[0]].concat();
        prop_assert_eq!(Exercise::unpack(&more, None), Err(PackError::Damaged));
    }

    #[test]
    fn a_changed_byte_is_an_error_or_another_exercise(
        exercise in any_exercise(), at in any::<prop::sample::Index>(), by in 1u8..=255,
    ) {
        let mut bytes = exercise.pack();
        let at = at.index(bytes.len());
        bytes[at] ^= by;
        if let Ok(other) = Exercise::unpack(&bytes, Some(Passage::default())) {
            prop_assert_ne!(&other, &exercise);
            prop_assert_eq!(other.pack(), bytes);
        }
    }
}

#[test]
fn what_a_teacher_sets_is_short() {
    let mut horns = Exercise { staves: vec![asked("Corni in Es")], seed: u32::MAX, ..Exercise::default() };
    assert_eq!(horns.pack().len(), 23);
    horns.staves.extend(["Trombe in D", "Clarinetti in A"].map(asked));
    horns.kinds = vec![Kind::Sounds, Kind::Writes, Kind::Degree];
    horns.keys = vec!["Eb major".parse().unwrap(), "C minor".parse().unwrap()];
    assert!(horns.pack().len() < 60, "{}", horns.pack().len());
    for exercise in set_exercises() {
        let bytes = exercise.pack();
        let labels: usize = exercise.staves.iter().map(|staff| staff.label.len() + 2).sum();
        assert!(bytes.len() < labels + 50, "{exercise:?}");
        assert_eq!(Exercise::unpack(&bytes, None), Ok(exercise));
    }
}

#[test]
fn a_passage_travels_beside() {
    let passage = Passage::of_staff("Corni in Es");
    let exercise = Exercise { material: Material::Passage(Box::new(passage.clone())), ..Exercise::default() };
    let bytes = exercise.pack();
    assert_eq!(Exercise::unpack(&bytes, Some(passage)), Ok(exercise));
    assert_eq!(Exercise::unpack(&bytes, None), Err(PackError::NoPassage));
}

/// Bytes of links that were sent must be read for ever, and as of the edition they were sent in.
#[test]
fn bytes_of_every_edition_are_read() {
    for edition in Edition::ALL {
        let mut bytes = [1, 0, 10, 1, 1, 1, 1, 22, 67, 111, 114, 110, 105, 32, 105, 110, 32, 69, 115];
        bytes[0] = edition.code();
        let exercise = Exercise { edition, staves: vec![asked("Corni in Es")], ..Exercise::default() };
        assert_eq!(Exercise::unpack(&bytes, None), Ok(exercise));
    }
    assert_eq!(Exercise::unpack(&[0, 0], None), Err(PackError::Damaged));
    assert_eq!(Exercise::unpack(&[5, 0], None), Err(PackError::Version));
    assert_eq!(Exercise::unpack(&[], None), Err(PackError::Damaged));
}
