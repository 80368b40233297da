//! Step 4: the fifth of the horn in F, the cor anglais and the basset horn.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise, Helps, Material, Style};
use crate::kind::Kind;

pub(super) const STEP: CourseStep = CourseStep { number: 4, title: "F: a perfect fifth down", exercises };

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            staves: vec![AskedStaff::of("Corni in F")],
            helps: Helps { sounding_c: true, ..Helps::default() },
            questions: 10,
            seed: 401,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Partial],
            staves: vec![AskedStaff::of("Cors en Fa")],
            questions: 14,
            seed: 402,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: ["Corno inglese", "2 Corni di bassetto in F"].map(AskedStaff::of).into(),
            questions: 14,
            seed: 403,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Degree, Kind::Clef],
            staves: vec![AskedStaff::of("4 Hörner in F")],
            material: Material::Phrases(vec![Style::Fanfare, Style::Dominant, Style::Melody]),
            questions: 18,
            seed: 404,
            ..Exercise::default()
        },
    ]
}
