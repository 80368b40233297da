//! Step 10: horns in the bass clef, old and new notation.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise};
use crate::kind::Kind;
use crookwise_score::Settings;
use crookwise_theory::{BassNotation, Clef};

pub(super) const STEP: CourseStep = CourseStep { number: 10, title: "The bass clef, old and new", exercises };

fn low(label: &str, bass: BassNotation) -> AskedStaff {
    let settings = Settings { clef: Some(Clef::BASS), bass: Some(bass), ..Settings::default() };
    AskedStaff { settings, ..AskedStaff::of(label) }
}

fn exercises() -> Vec<Exercise> {
    use BassNotation::{New, Old};
    vec![
        Exercise { staves: vec![low("Corni in F", Old)], questions: 8, seed: 1001, ..Exercise::default() },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: ["Corni in D", "Corni in Es", "Corni in A"].map(|label| low(label, Old)).into(),
            questions: 16,
            seed: 1002,
            ..Exercise::default()
        },
        Exercise {
            // Old and new are told apart best where the note must be written; no clef is imagined two octaves off.
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: vec![low("Corni in F", New), low("Corni in F", Old), AskedStaff::of("Corni in F")],
            questions: 20,
            seed: 1003,
            ..Exercise::default()
        },
    ]
}
