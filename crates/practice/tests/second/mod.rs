//! A second hand: staves with their intervals written down apart from the crate, exercises over all kinds, in
//! `oracle` a second marker, and in `truth` whether what is said of a mistake is true.
#![allow(dead_code, reason = "each file of tests uses its own part")]

pub mod oracle;
pub mod truth;

use crookwise_practice::{AskedStaff, Exercise, Kind, Marking, Material, NoteRange, Question};
use crookwise_score::{Event, Passage, Settings};
use crookwise_theory::{BassNotation, Clef, Pitch, Printed};

/// Labels with the row of the table of instruments and, for each player, letters and semitones from written to sounding.
pub type Labelled = (&'static str, &'static str, &'static [(i32, i32)]);
pub const LABELS: [Labelled; 25] = [
    ("Corni in Es", "horn", &[(-5, -9)]),
    ("Corni in E", "horn", &[(-5, -8)]),
    ("Corni in F", "horn", &[(-4, -7)]),
    ("Corni in D", "horn", &[(-6, -10)]),
    ("Corni in G", "horn", &[(-3, -5)]),
    ("Corni in A", "horn", &[(-2, -3)]),
    ("Corni in B basso", "horn", &[(-8, -14)]),
    ("Corni in B alto", "horn", &[(-1, -2)]),
    ("Corni in C basso", "horn", &[(-7, -12)]),
    ("Hörner in tief H", "horn", &[(-8, -13)]),
    ("Trombe in D", "trumpet", &[(1, 2)]),
    ("Trombe in Es", "trumpet", &[(2, 3)]),
    ("Trombe in F", "trumpet", &[(3, 5)]),
    ("Trombe in B", "trumpet", &[(-1, -2)]),
    ("Clarinetti in A", "cl_a", &[(-2, -3)]),
    ("Clarinetti in B", "cl_bb", &[(-1, -2)]),
    ("Klarinette in Es", "cl_eb", &[(2, 3)]),
    ("Corno inglese", "cor_ang", &[(-4, -7)]),
    ("Ottavino", "piccolo", &[(7, 12)]),
    ("Contrabbassi", "cb", &[(-7, -12)]),
    ("Viole", "viola", &[(0, 0)]),
    ("Violini", "violin", &[(0, 0)]),
    ("Fagotti", "bassoon", &[(0, 0)]),
    ("Corno I in B alto, Corno II in G", "horn", &[(-1, -2), (-3, -5)]),
    ("Timpani in D-A", "timp_old", &[(1, 2)]),
];

/// The row of a label.
pub fn labelled(label: &str) -> Labelled {
    *LABELS.iter().find(|(known, ..)| *known == label).unwrap_or_else(|| panic!("no row for {label}"))
}

/// A staff with a label.
pub fn staff(label: &str) -> AskedStaff {
    AskedStaff::of(label)
}

/// A staff of two players.
pub fn pair(label: &str) -> AskedStaff {
    AskedStaff { pair: true, ..AskedStaff::of(label) }
}

/// A staff in the bass clef.
pub fn in_bass(label: &str, bass: Option<BassNotation>) -> AskedStaff {
    let settings = Settings { clef: Some(Clef::BASS), bass, ..Settings::default() };
    AskedStaff { settings, ..AskedStaff::of(label) }
}

/// A staff that changes its crook.
pub fn muta(label: &str, to: &str) -> AskedStaff {
    AskedStaff { muta: Some(to.to_owned()), ..AskedStaff::of(label) }
}

/// Groups of staves as pages have them.
pub fn pages() -> Vec<Vec<AskedStaff>> {
    vec![
        vec![staff("Corni in Es"), staff("Clarinetti in B"), staff("Viole"), staff("Fagotti")],
        vec![
            staff("Corni in D"),
            staff("Trombe in D"),
            staff("Timpani in D-A"),
            staff("Violini"),
            staff("Contrabbassi"),
        ],
        vec![pair("Corno I in B alto, Corno II in G"), staff("Corno inglese"), staff("Viole")],
        vec![
            in_bass("Corni in F", None),
            in_bass("Corni in Es", Some(BassNotation::New)),
            staff("Klarinette in Es"),
        ],
        vec![
            muta("Corni in Es", "Corni in D"),
            muta("Trombe in Es", "Trombe in D"),
            staff("Clarinetti in A"),
        ],
        vec![pair("Corni in B basso"), pair("Trombe in B"), staff("Ottavino"), staff("Fagotti")],
    ]
}

/// An exercise of one kind.
pub fn exercise(kind: Kind, staves: Vec<AskedStaff>, seed: u32) -> Exercise {
    Exercise {
        kinds: vec![kind],
        staves,
        questions: 12,
        in_hand: Some("Clarinetti in B".to_owned()),
        seed,
        ..Exercise::default()
    }
}

/// The questions of an exercise for so many seeds.
pub fn of_seeds(exercise: &Exercise, seeds: u32) -> Vec<Question> {
    let of = |seed| {
        Exercise { seed, ..exercise.clone() }
            .questions()
            .unwrap_or_else(|error| panic!("{error}: {exercise:?}"))
    };
    (1..=seeds).flat_map(of).collect()
}

/// Exercises over all kinds, pages, sources of notes and markings.
pub fn exercises(seeds: u32) -> Vec<Exercise> {
    let mut found = Vec::new();
    for seed in 1..=seeds {
        for (page, staves) in pages().into_iter().enumerate() {
            for kind in Kind::ALL {
                for phrases in [false, true] {
                    let turn = seed + page as u32;
                    let mut own = exercise(kind, staves.clone(), seed);
                    if phrases {
                        own.material = Material::Phrases(Vec::new());
                    }
                    if turn.is_multiple_of(3) {
                        own.range = NoteRange::Written(55, 79);
                    }
                    if turn.is_multiple_of(4) {
                        own.keys = ["Eb major", "C minor", "D major"].map(|key| key.parse().unwrap()).into();
                    }
                    own.choices = turn.is_multiple_of(2);
                    own.marking =
                        Marking { enharmonics: turn.is_multiple_of(5), octave: !turn.is_multiple_of(7) };
                    found.push(own);
                }
            }
        }
    }
    found
}

/// A pitch by name.
pub fn pitch(name: &str) -> Pitch {
    name.parse().unwrap_or_else(|_| panic!("{name}"))
}

/// A passage of one staff with these notes, for one player.
pub fn passage(staff: &AskedStaff, key: &str, notes: &str) -> Passage {
    let mut page = Passage::of_staff(&staff.label);
    if !key.is_empty() {
        page.movement = Some(key.parse().unwrap());
    }
    let own = page.staff_mut(0).unwrap();
    own.settings = staff.settings;
    own.choice = staff.choice;
    if staff.pair {
        page.set_players(0, 2).unwrap();
    }
    for (column, name) in notes.split(' ').enumerate() {
        match name.strip_suffix('*') {
            Some(name) => page.set_together(0, column, Printed(pitch(name))).unwrap(),
            None => {
                for (player, name) in name.split('+').enumerate() {
                    if name != "-" {
                        page.set(0, column, player, Event::Note(Printed(pitch(name)))).unwrap();
                    }
                }
            }
        }
    }
    page
}
