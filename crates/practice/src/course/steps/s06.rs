//! Step 6: trumpets that sound above the page.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise, Helps, Material, Style};
use crate::kind::Kind;

pub(super) const STEP: CourseStep =
    CourseStep { number: 6, title: "Trumpets in D, E-flat and F: upwards", exercises };

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            staves: vec![AskedStaff::of("Clarini in D")],
            helps: Helps { sounding_c: true, ..Helps::default() },
            questions: 8,
            seed: 601,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: ["2 Trombe in Es", "Trompettes en Fa"].map(AskedStaff::of).into(),
            questions: 14,
            seed: 602,
            ..Exercise::default()
        },
        Exercise {
            staves: ["Trombe in Re", "Corni in D", "2 Trombe in Es", "2 Corni in Es"]
                .map(AskedStaff::of)
                .into(),
            questions: 16,
            seed: 603,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Label],
            staves: ["Clarini in D", "Trompettes en Fa", "Klarinette in Es", "Trombe in B"]
                .map(AskedStaff::of)
                .into(),
            material: Material::Phrases(vec![Style::Fanfare, Style::Dominant]),
            questions: 18,
            seed: 604,
            ..Exercise::default()
        },
    ]
}
