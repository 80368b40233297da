//! Step 7: the horns in G, E and A.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise, Helps, Material, Style};
use crate::kind::Kind;

pub(super) const STEP: CourseStep =
    CourseStep { number: 7, title: "G, E and A: a fourth, a minor sixth, a minor third down", exercises };

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            staves: vec![AskedStaff::of("Corni in G")],
            helps: Helps { sounding_c: true, ..Helps::default() },
            questions: 10,
            seed: 701,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: vec![AskedStaff::of("Corni in A")],
            questions: 12,
            seed: 702,
            ..Exercise::default()
        },
        Exercise {
            staves: ["Corni in E", "Corni in Es"].map(AskedStaff::of).into(),
            questions: 16,
            seed: 703,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Clef, Kind::Degree],
            staves: ["Corni in G", "Corni in E", "Corni in A"].map(AskedStaff::of).into(),
            material: Material::Phrases(vec![Style::Fanfare, Style::HornFifths, Style::Melody]),
            questions: 20,
            seed: 704,
            ..Exercise::default()
        },
    ]
}
