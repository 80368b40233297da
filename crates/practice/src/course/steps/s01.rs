//! Step 1: what sounds as written, and what moves by octaves.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise};
use crate::kind::Kind;

pub(super) const STEP: CourseStep =
    CourseStep { number: 1, title: "As written, and octaves away", exercises };

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            staves: ["Ottavino", "Contrabasso"].map(AskedStaff::of).into(),
            questions: 8,
            seed: 101,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: ["Corni in C", "Trombe in C"].map(AskedStaff::of).into(),
            questions: 12,
            seed: 102,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: ["Ottavino", "Oboe", "Corni in C", "Contrabasso", "Chitarra"].map(AskedStaff::of).into(),
            questions: 15,
            seed: 103,
            ..Exercise::default()
        },
    ]
}
