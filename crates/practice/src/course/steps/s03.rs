//! Step 3: the clarinet in A, beside the one in B-flat.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise, Helps};
use crate::kind::Kind;

pub(super) const STEP: CourseStep =
    CourseStep { number: 3, title: "The clarinet in A: a minor third down", exercises };

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            staves: vec![AskedStaff::of("Clarinetto in La")],
            helps: Helps { sounding_c: true, ..Helps::default() },
            questions: 10,
            seed: 301,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: ["Clarinetti in A", "Clarinetti in B"].map(AskedStaff::of).into(),
            questions: 16,
            seed: 302,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::InHand],
            staves: vec![AskedStaff::of("Clarinetti in A")],
            in_hand: Some("Clarinetto in B".to_owned()),
            questions: 16,
            seed: 303,
            ..Exercise::default()
        },
    ]
}
