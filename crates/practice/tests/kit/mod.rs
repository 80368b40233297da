//! Exercises for tests: any value at all, and such as a teacher would set.
#![allow(dead_code, reason = "each file of tests uses its own part")]

use crookwise_practice::{
    AskedStaff, Edition, Exercise, Helps, Kind, Marking, Material, NoteRange, Style, Time,
};
use crookwise_score::{Change, ChangeTo, Choice, Event, Passage, Settings, SignatureSource};
use crookwise_theory::label::Mechanism;
use crookwise_theory::{
    BassNotation, Clef, ClefSign, Instrument, Interval, Key, Mode, Pitch, Printed, Scheme, Signature, Step,
    Tonic, Transposition,
};
use proptest::collection::vec;
use proptest::option::{of as perhaps, weighted};
use proptest::prelude::*;
use proptest::sample::select;

/// Labels of all sorts.
pub const LABELS: [&str; 30] = [
    "Corni in Es",
    "Corni in B basso",
    "Corno I in B alto, Corno II in G",
    "Horn in C alto",
    "Hörner in H",
    "Cors en Ré",
    "Corni in F",
    "Trombe in D",
    "Trompeten in F",
    "Trombe in B",
    "Clarinetti in A",
    "Clarinetti in B",
    "Klarinetten in Es",
    "Bass Clarinet in B-flat",
    "Corno inglese",
    "Corni di bassetto",
    "Viole",
    "Violini",
    "Fagotti",
    "Flauto piccolo",
    "Oboi",
    "Contrabassi",
    "Timpani in D-A",
    "Timpani in C-G",
    "Tromboni",
    "Tenor Tubas in B-flat",
    "Alto Saxophone",
    "Trompa en Mi bemol",
    "Cornetta in B",
    "nothing known",
];

fn clef() -> impl Strategy<Value = Clef> {
    (select(&[ClefSign::G, ClefSign::F, ClefSign::C][..]), 1u8..=5, -2i8..=2)
        .prop_filter_map("no such clef", |(sign, line, octave)| Clef::new(sign, line, octave).ok())
}

fn signature() -> impl Strategy<Value = SignatureSource> {
    prop_oneof![
        Just(SignatureSource::None),
        Just(SignatureSource::Movement),
        prop_oneof![-7i32..=7, any::<i32>()].prop_map(|signs| SignatureSource::Typed(Signature(signs))),
    ]
}

fn choice() -> impl Strategy<Value = Choice> {
    let far = || prop_oneof![-20i32..=20, any::<i32>()];
    (select(&["horn", "trumpet", "cl_a", "cl_bb", "cor_ang", "timp_old"][..]), far(), far()).prop_map(
        |(id, steps, semitones)| Choice {
            instrument: Instrument::by_id(id).unwrap(),
            transposition: Transposition(Interval { steps, semitones }),
        },
    )
}

fn settings() -> impl Strategy<Value = Settings> {
    let schemes = [
        Scheme::French,
        Scheme::German,
        Scheme::Russian,
        Scheme::Italian,
        Scheme::Rheingold,
        Scheme::Goetterdaemmerung,
        Scheme::Alpensinfonie,
    ];
    (
        weighted(0.3, select(&[Mechanism::Natural, Mechanism::Valves][..])),
        weighted(0.3, clef()),
        weighted(0.3, select(&[BassNotation::Old, BassNotation::New][..])),
        weighted(0.2, select(schemes.to_vec())),
        weighted(0.3, signature()),
        weighted(0.1, Just(())),
    )
        .prop_map(|(mechanism, clef, bass, scheme, signature, at_pitch)| Settings {
            mechanism,
            clef,
            bass,
            scheme,
            signature,
            at_pitch: at_pitch.is_some(),
        })
}

fn label() -> impl Strategy<Value = String> {
    prop_oneof![9 => select(&LABELS[..]).prop_map(String::from), 1 => any::<String>()]
}

fn staff() -> impl Strategy<Value = AskedStaff> {
    (
        label(),
        weighted(0.15, choice()),
        prop_oneof![2 => Just(Settings::default()), 1 => settings()],
        weighted(0.2, label()),
        any::<bool>(),
    )
        .prop_map(|(label, choice, settings, muta, pair)| AskedStaff {
            label,
            choice,
            settings,
            muta,
            pair,
        })
}

fn key() -> impl Strategy<Value = Key> {
    (select(&Step::ALL[..]), prop_oneof![9 => -1i32..=1, 1 => any::<i32>()], any::<bool>()).prop_map(
        |(step, alter, minor)| Key::new(Tonic { step, alter }, if minor { Mode::Minor } else { Mode::Major }),
    )
}

fn material() -> impl Strategy<Value = Material> {
    prop_oneof![Just(Material::Notes), vec(select(&Style::ALL[..]), 0..8).prop_map(Material::Phrases)]
}

fn range() -> impl Strategy<Value = NoteRange> {
    prop_oneof![
        4 => Just(NoteRange::Usual),
        1 => any::<(u8, u8)>().prop_map(|(low, high)| NoteRange::Partials(low, high)),
        1 => (1u8..9, 1u8..20).prop_map(|(low, high)| NoteRange::Partials(low, high)),
        1 => any::<(u8, u8)>().prop_map(|(low, high)| NoteRange::Written(low, high)),
        1 => (40u8..65, 60u8..90).prop_map(|(low, high)| NoteRange::Written(low, high)),
    ]
}

fn time() -> impl Strategy<Value = Time> {
    prop_oneof![Just(Time::Free), any::<u16>().prop_map(Time::Each), any::<u16>().prop_map(Time::All),]
}

prop_compose! {
    /// Any exercise whose material is not a passage, sensible or not.
    pub fn any_exercise()(
        kinds in vec(select(&Kind::ALL[..]), 0..6),
        staves in prop_oneof![9 => vec(staff(), 0..5), 1 => vec(staff(), 0..20)],
        material in material(),
        range in range(),
        keys in prop_oneof![3 => vec(key(), 0..4), 1 => vec(key(), 0..40)],
        in_hand in perhaps(label()),
        helps in any::<[bool; 6]>(),
        (choices, enharmonics, octave) in any::<(bool, bool, bool)>(),
        questions in prop_oneof![9 => 0u8..25, 1 => any::<u8>()],
        time in time(),
        (seed, edition) in (any::<u32>(), select(&Edition::ALL[..])),
    ) -> Exercise {
        let [interval, clef, sounding_c, series, name, label] = helps;
        Exercise {
            title: String::new(),
            edition, kinds, staves, material, range, keys, in_hand, choices, questions, time, seed,
            helps: Helps { interval, clef, sounding_c, series, name, label },
            marking: Marking { enharmonics, octave },
        }
    }
}

fn likely_staff() -> impl Strategy<Value = AskedStaff> {
    let label = || select(&LABELS[..29]).prop_map(String::from);
    (label(), prop_oneof![3 => Just(Settings::default()), 1 => settings()], weighted(0.15, label())).prop_map(
        |(label, settings, muta)| {
            let typed = matches!(settings.signature, Some(SignatureSource::Typed(Signature(signs))) if signs.abs() > 7);
            let signature = settings.signature.filter(|_| !typed);
            AskedStaff { settings: Settings { signature, ..settings }, muta, ..asked(&label) }
        },
    )
}

prop_compose! {
    /// An exercise of which questions can mostly be made.
    pub fn likely_exercise()(
        exercise in any_exercise(),
        kinds in prop_oneof![2 => vec(select(&Kind::ALL[..]), 1..2), 1 => vec(select(&Kind::ALL[..]), 1..4)],
        mut staves in vec(likely_staff(), 2..6),
        keys in vec((0usize..15, any::<bool>()), 0..3),
        range in prop_oneof![
            3 => Just(NoteRange::Usual),
            1 => (2u8..5, 8u8..17).prop_map(|(low, high)| NoteRange::Partials(low, high)),
            1 => (45u8..60, 70u8..90).prop_map(|(low, high)| NoteRange::Written(low, high)),
        ],
        hand in select(&["Horn in F", "Clarinet in B-flat", "Clarinetto in A", "Violini"][..]),
        questions in 1u8..=20,
    ) -> Exercise {
        staves.push(AskedStaff { pair: true, ..AskedStaff::of("Corni in Es") });
        let keys = keys.into_iter().map(|(at, minor)| {
            Key::common(if minor { Mode::Minor } else { Mode::Major })[at]
        });
        Exercise { kinds, staves, keys: keys.collect(), range, in_hand: Some(hand.into()), questions, ..exercise }
    }
}

/// A printed note near a staff, or a rest, or a held note.
fn event() -> impl Strategy<Value = Event> {
    prop_oneof![
        20 => (15i32..45, -1i32..=1).prop_map(|(place, alter)| {
            Event::Note(Printed(Pitch::from_diatonic(place, alter)))
        }),
        1 => any::<(i32, i32)>().prop_map(|(place, alter)| {
            Event::Note(Printed(Pitch::from_diatonic(place, alter)))
        }),
        2 => Just(Event::Held),
        2 => Just(Event::Rest),
    ]
}

prop_compose! {
    /// A passage of a few staves and columns, with changes of crook and clef.
    pub fn any_passage()(
        staves in vec((label(), 1usize..=3, prop_oneof![2 => Just(Settings::default()), 1 => settings()]), 1..4),
        notes in vec((0usize..4, 0usize..6, 0usize..3, event()), 0..40),
        movement in perhaps(key()),
        changes in vec((0usize..4, 0usize..6, perhaps(0usize..3), prop_oneof![
            label().prop_map(ChangeTo::Label),
            clef().prop_map(ChangeTo::Clef),
            signature().prop_map(ChangeTo::Signature),
        ]), 0..3),
    ) -> Passage {
        let mut passage = Passage::default();
        passage.movement = movement;
        for (label, players, settings) in staves {
            let at = passage.add_staff(&label).unwrap();
            passage.set_players(at, players).unwrap();
            passage.staff_mut(at).unwrap().settings = settings;
        }
        for (staff, column, player, event) in notes {
            // What does not fit is left out.
            let _ = passage.set(staff, column, player, event);
        }
        for (staff, column, player, to) in changes {
            let _ = passage.set_change(staff, Change { column, player, to });
        }
        passage
    }
}

/// A staff of a label; two players where a comma parts two.
pub fn asked(label: &str) -> AskedStaff {
    AskedStaff { pair: label.contains(", "), ..AskedStaff::of(label) }
}

/// Exercises as a teacher would set them, together of all kinds and with all that can be set.
pub fn set_exercises() -> Vec<Exercise> {
    let page = ["Corni in Es", "Trombe in D", "Clarinetti in A", "Viole", "Fagotti"];
    let brass = ["Corni in Es", "Corni in B basso", "Corno I in B alto, Corno II in G", "Trombe in D"];
    let winds = ["Clarinetti in B", "Corno inglese", "Corni di bassetto", "Flauto piccolo", "Alto Saxophone"];
    let of = |labels: &[&str], kinds: &[Kind]| Exercise {
        staves: labels.iter().map(|label| asked(label)).collect(),
        kinds: kinds.to_vec(),
        questions: 8,
        ..Exercise::default()
    };
    let mut bass = asked("Corni in D");
    bass.settings.clef = Some(Clef::BASS);
    bass.settings.bass = Some(BassNotation::Old);
    let mut muta = asked("Corni in F");
    muta.muta = Some("Corni in Es".into());
    let mut minor = of(&winds, &[Kind::Sounds, Kind::Degree]);
    minor.keys = ["C minor", "G minor", "Eb major"].map(|key| key.parse().unwrap()).into();
    let mut all = of(&brass, &Kind::ALL);
    all.in_hand = Some("Clarinet in B-flat".into());
    all.questions = 26;
    let mut phrases = of(&brass, &[Kind::Sounds, Kind::Partial, Kind::Players, Kind::WrongNote]);
    phrases.material = Material::Phrases(vec![Style::HornFifths, Style::Fanfare]);
    phrases.in_hand = Some("Horn in F".into());
    vec![
        of(&page, &[Kind::Sounds]),
        of(&winds, &[Kind::Sounds, Kind::Writes, Kind::Clef]),
        of(&brass, &[Kind::Partial, Kind::Made, Kind::Natural]),
        of(&page, &[Kind::Chord, Kind::WrongStaff]),
        of(&LABELS[..20], &[Kind::Label]).shortened(),
        Exercise { staves: vec![bass, muta, asked("Timpani in D-A")], ..of(&[], &[Kind::Sounds]) },
        Exercise { choices: true, ..minor },
        all,
        phrases,
        Exercise {
            range: NoteRange::Partials(4, 12),
            choices: true,
            ..of(&brass, &[Kind::Sounds, Kind::Players, Kind::Writes, Kind::Degree])
        },
        Exercise {
            in_hand: Some("Horn in F".into()),
            range: NoteRange::Written(55, 79),
            ..of(&page, &[Kind::InHand, Kind::WrongNote])
        },
    ]
}

trait Shortened {
    fn shortened(self) -> Self;
}

impl Shortened for Exercise {
    /// Within the most staves that an exercise may have.
    fn shortened(mut self) -> Self {
        self.staves.truncate(16);
        self
    }
}
