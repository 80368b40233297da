//! Step 12: rare crooks, Wagner tubas, bass clarinets, retuned strings.

use crate::course::CourseStep;
use crate::exercise::{AskedStaff, Exercise};
use crate::kind::Kind;
use crookwise_score::{Choice, Settings};
use crookwise_theory::{Clef, Instrument, Key, Mode, Scheme, Step, Tonic};

pub(super) const STEP: CourseStep =
    CourseStep { number: 12, title: "Rare crooks, Wagner tubas, bass clarinets, retuned strings", exercises };

fn by(label: &str, scheme: Scheme, clef: Clef) -> AskedStaff {
    let settings = Settings { scheme: Some(scheme), clef: Some(clef), ..Settings::default() };
    AskedStaff { settings, ..AskedStaff::of(label) }
}

/// A staff read as an instrument whose strings are tuned otherwise.
fn retuned(label: &str, id: &str) -> AskedStaff {
    let choice = Instrument::by_id(id).and_then(|instrument| {
        let transposition = instrument.transposition?;
        Some(Choice { instrument, transposition })
    });
    AskedStaff { choice, ..AskedStaff::of(label) }
}

fn exercises() -> Vec<Exercise> {
    vec![
        Exercise {
            kinds: vec![Kind::Label, Kind::Sounds],
            staves: ["Corni in H basso", "Corni in B basso", "Trombe in H", "Trombe in B"]
                .map(AskedStaff::of)
                .into(),
            questions: 16,
            seed: 1201,
            ..Exercise::default()
        },
        Exercise {
            staves: ["Corni in Fis", "Corni in Des", "Corni in As"].map(AskedStaff::of).into(),
            questions: 12,
            seed: 1202,
            ..Exercise::default()
        },
        Exercise {
            staves: vec![
                by("Clarinetto basso in B", Scheme::French, Clef::TREBLE),
                by("Clarinetto basso in B", Scheme::German, Clef::BASS),
                by("Clarinetto basso in B", Scheme::Italian, Clef::BASS),
            ],
            questions: 12,
            seed: 1203,
            ..Exercise::default()
        },
        Exercise {
            kinds: vec![Kind::Sounds, Kind::Writes],
            staves: vec![
                by("Tenortuben in B", Scheme::Rheingold, Clef::TREBLE),
                by("Tenortuben in Es", Scheme::Goetterdaemmerung, Clef::TREBLE),
                by("Tenortuben in B", Scheme::Alpensinfonie, Clef::TREBLE),
                retuned("Viola principale", "va_k364"),
            ],
            // The key for which a viola is tuned a semitone up.
            keys: vec![Key::new(Tonic::new(Step::E, -1), Mode::Major)],
            questions: 16,
            seed: 1204,
            ..Exercise::default()
        },
    ]
}
