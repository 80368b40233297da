//! Step 2: clarinet and trumpet in B-flat.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise, Helps};
use crate::kind::Kind;

pub(super) const STEP: CourseStep = CourseStep { number: 2, title: "B-flat: a tone down", exercises };

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            staves: vec![AskedStaff::of("Clarinetti in B")],
            helps: Helps { interval: true, ..Helps::default() },
            questions: 8,
            seed: 201,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: ["Clarinetti in Sib", "Trompeten in B"].map(AskedStaff::of).into(),
            questions: 14,
            seed: 202,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Clef, Kind::Degree],
            staves: ["2 Clarinetti in B", "Trombe in B"].map(AskedStaff::of).into(),
            questions: 18,
            seed: 203,
            ..Exercise::default()
        },
    ]
}
