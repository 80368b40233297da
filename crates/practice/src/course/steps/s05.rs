//! Step 5: the horns in E-flat and D.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise, Helps, Material, Style};
use crate::kind::Kind;

pub(super) const STEP: CourseStep =
    CourseStep { number: 5, title: "Horns in E-flat and D: a sixth and a seventh down", exercises };

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            staves: vec![AskedStaff::of("2 Corni in Es")],
            helps: Helps { sounding_c: true, ..Helps::default() },
            questions: 10,
            seed: 501,
            ..Exercise::default()
        },
        Exercise {
            staves: vec![AskedStaff::of("Corni in D")],
            helps: Helps { sounding_c: true, ..Helps::default() },
            questions: 10,
            seed: 502,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes, Kind::Made],
            staves: ["Cors en Mi♭", "Waldhörner in D"].map(AskedStaff::of).into(),
            questions: 18,
            seed: 503,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Players],
            staves: vec![
                AskedStaff { pair: true, ..AskedStaff::of("2 Corni in Es") },
                AskedStaff { pair: true, ..AskedStaff::of("2 Corni in D") },
            ],
            material: Material::Phrases(vec![Style::HornFifths, Style::Octaves]),
            questions: 12,
            seed: 504,
            ..Exercise::default()
        },
    ]
}
