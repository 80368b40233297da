//! Step 11: alto and tenor clefs beside the horns.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise};
use crate::kind::Kind;
use crookwise_score::Settings;
use crookwise_theory::Clef;

pub(super) const STEP: CourseStep =
    CourseStep { number: 11, title: "Alto and tenor clefs beside the horns", exercises };

fn tenor(label: &str) -> AskedStaff {
    AskedStaff {
        settings: Settings { clef: Some(Clef::TENOR), ..Settings::default() },
        ..AskedStaff::of(label)
    }
}

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            staves: vec![AskedStaff::of("Viole"), tenor("Trombone tenore")],
            questions: 12,
            seed: 1101,
            ..Exercise::default()
        },
        Exercise {
            staves: vec![AskedStaff::of("Corni in D"), AskedStaff::of("Viole")],
            questions: 16,
            seed: 1102,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: vec![
                AskedStaff::of("Corni in D"),
                AskedStaff::of("Corni in B basso"),
                tenor("Trombone tenore"),
                AskedStaff::of("Viole"),
            ],
            questions: 20,
            seed: 1103,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Chord],
            staves: ["Corni in D", "Violini", "Viole", "Violoncelli"].map(AskedStaff::of).into(),
            questions: 8,
            seed: 1104,
            ..Exercise::default()
        },
    ]
}
