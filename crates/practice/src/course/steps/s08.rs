//! Step 8: B-flat and C, alto and basso.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise};
use crate::kind::Kind;

pub(super) const STEP: CourseStep = CourseStep { number: 8, title: "B-flat alto and basso", exercises };

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            staves: vec![AskedStaff::of("Corni in B basso")],
            questions: 10,
            seed: 801,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: ["Corni in B alto", "Corni in B basso"].map(AskedStaff::of).into(),
            questions: 16,
            seed: 802,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Label, Kind::Sounds],
            staves: ["Corni in B alto", "Corni in B basso", "Corni in C basso", "Corni in C alto"]
                .map(AskedStaff::of)
                .into(),
            questions: 20,
            seed: 803,
            ..Exercise::default()
        },
    ]
}
