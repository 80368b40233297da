//! Step 9: two crooks in one pair, and changes of crook.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise, Material, Style};
use crate::kind::Kind;

pub(super) const STEP: CourseStep =
    CourseStep { number: 9, title: "Two crooks in one pair, and changes of crook", exercises };

fn exercises() -> Vec<Exercise> {
    let pair = |label: &str| AskedStaff { pair: true, ..AskedStaff::of(label) };
    let changing =
        |label: &str, muta: &str| AskedStaff { muta: Some(muta.to_owned()), ..AskedStaff::of(label) };
    vec![
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Players],
            staves: vec![pair("Corno I in B alto, Corno II in G")],
            questions: 12,
            seed: 901,
            ..Exercise::default()
        },
        Exercise {
            staves: vec![changing("Corni in Es", "Corni in F"), changing("Corni in C basso", "Corni in Es")],
            material: Material::Phrases(vec![Style::Fanfare, Style::Melody]),
            questions: 16,
            seed: 902,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Players, Kind::Sounds],
            staves: vec![
                pair("Corni in C basso"),
                pair("Corni in Es"),
                pair("Corno I in B alto, Corno II in G"),
            ],
            questions: 20,
            seed: 903,
            ..Exercise::default()
        },
    ]
}
