//! Step 13: the whole page.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise};
use crate::kind::Kind;
use crookwise_theory::{Key, Mode, Step, Tonic};

pub(super) const STEP: CourseStep = CourseStep { number: 13, title: "The whole page", exercises };

fn page(labels: &[&str]) -> Vec<AskedStaff> {
    labels.iter().map(|label| AskedStaff::of(label)).collect()
}

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            kinds: vec![Kind::Chord],
            staves: page(&["Corni in Es", "Violini", "Viole", "Violoncelli"]),
            questions: 10,
            seed: 1301,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Chord, Kind::Degree],
            staves: page(&[
                "Clarinetti in B",
                "Corni in Es",
                "Trombe in Es",
                "Violini",
                "Viole",
                "Violoncelli",
            ]),
            questions: 12,
            seed: 1302,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Chord, Kind::WrongStaff],
            staves: page(&[
                "Clarinetti in A",
                "Corni in A",
                "Trombe in D",
                "Violini",
                "Viole",
                "Violoncelli",
            ]),
            questions: 12,
            seed: 1303,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Chord],
            staves: page(&[
                "Flauti",
                "Clarinetti in B",
                "Corni in C basso",
                "Corni in Es",
                "Trombe in C",
                "Violini",
                "Viole",
                "Violoncelli",
            ]),
            // Horns in C and in E-flat stand beside each other in C minor.
            keys: vec![Key::new(Tonic::new(Step::C, 0), Mode::Minor)],
            questions: 12,
            seed: 1304,
            ..Exercise::default()
        },
    ]
}
