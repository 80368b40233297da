//! Links go back and forth, old ones stay open, damaged ones say what is wrong.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

use crookwise_score::{Choice, Event, SignatureSource};
use crookwise_share::{Link, LinkError, ReadPage};
use crookwise_theory::label::Mechanism;
use crookwise_theory::{
    BassNotation, Clef, ClefSign, Instrument, Pitch, Printed, Scheme, Signature, Step, Temperament, Tonic,
    Transposition, TunedOn, Warmth,
};
use proptest::prelude::*;

fn open(text: &str) -> Result<ReadPage, LinkError> {
    Link::decode(text).map(|link| match link {
        Some(Link::Read(page)) => *page,
        None => panic!("{text} opened as nothing"),
    })
}

/// Links made by each version. They must open for ever: add to the list, never change it.
const SAMPLES: [(&str, &str); 3] = [
    ("by hand", "#/read?staff=Corni+in+Es&notes=C4.E4.G4.Bb4.C5.Fs5.A4.E5"),
    (
        "version 1",
        "#/read?v=1.3593&staff=Corni+in+Es&notes=C4.E4.G4.Bb4.C5.Fs5.A4.E5&key=Eb+major&a4=430&at=8",
    ),
    (
        "version 1",
        "#/read?v=1.c6e7&staff=Corni+in+B&reads=horn_-1_-2&played=valves&clef=F4&bass=new&notes=C3._.-&temperament=vallotti",
    ),
];

#[test]
fn links_of_every_version_open() {
    for (version, text) in SAMPLES {
        let page = open(text).unwrap_or_else(|error| panic!("{version}: {text}: {error}"));
        assert!(!page.passage.columns().is_empty());
    }
    let page = open(SAMPLES[1].1).unwrap();
    assert_eq!(page.selected, Some(7));
    assert_eq!(page.intonation.tuning.a4, 430.0);
    assert_eq!(page.passage.event(0, 5, 0), Some(Event::Note(Printed("F#5".parse().unwrap()))));
    assert_eq!(page.passage.movement, Some("Eb major".parse().unwrap()));
}

#[test]
fn a_link_stays_readable() {
    let page = open(SAMPLES[0].1).unwrap();
    let text = Link::Read(Box::new(page)).encode();
    assert!(text.starts_with("/read?v=1."), "{text}");
    assert!(text.ends_with("&staff=Corni+in+Es&notes=C4.E4.G4.Bb4.C5.Fs5.A4.E5"), "{text}");
}

#[test]
fn nothing_is_a_start_page() {
    for text in ["", "#", "#/", "#/read", "/read"] {
        assert_eq!(Link::decode(text), Ok(None), "{text}");
    }
}

#[test]
fn what_cannot_be_opened_says_why() {
    let field = |name| move |error: &LinkError| matches!(error, LinkError::Field { name: named, .. } if *named == name);
    type Expected = Box<dyn Fn(&LinkError) -> bool>;
    let cases: [(&str, Expected); 17] = [
        ("#/elsewhere?staff=x", Box::new(|error| *error == LinkError::Foreign)),
        ("#javascript:alert(1)", Box::new(|error| *error == LinkError::Foreign)),
        ("#/read?notes=C4", Box::new(|error| *error == LinkError::NoStaff)),
        ("#/read?v=2.0000&staff=Corni", Box::new(|error| *error == LinkError::Version("2".into()))),
        ("#/read?v=1.0000&staff=Corni+in+Es", Box::new(|error| *error == LinkError::Damaged)),
        ("#/read?v=&staff=Corni+in+Es", Box::new(|error| *error == LinkError::Damaged)),
        ("#/read?staff=Corni&notes=C4.E", Box::new(field("notes"))),
        ("#/read?staff=Corni&notes=_", Box::new(field("notes"))),
        ("#/read?staff=Corni&notes=C99", Box::new(field("notes"))),
        ("#/read?staff=Corni&notes5=C4", Box::new(field("notes"))),
        ("#/read?staff=Corni&clef=G7", Box::new(field("clef"))),
        ("#/read?staff=Corni&a4=NaN", Box::new(field("a4"))),
        ("#/read?staff=Corni&a4=1e9", Box::new(field("a4"))),
        ("#/read?staff=Corni&key=Q", Box::new(field("key"))),
        ("#/read?staff=Corni&at=0", Box::new(field("at"))),
        ("#/read?staff=Corni&signature=99", Box::new(field("signature"))),
        ("#/read?staff=Corni&players=9", Box::new(|error| *error == LinkError::TooMany)),
    ];
    for (text, expected) in cases {
        let error = open(text).expect_err(text);
        assert!(expected(&error), "{text}: {error:?}");
        assert!(error.to_string().len() > 20);
    }
    let long = format!("#/read?staff=Corni&notes={}", "C4.".repeat(9_000));
    assert_eq!(open(&long), Err(LinkError::TooLong));
    let many = format!("#/read?staff=Corni&notes={}", ["C4"; 65].join("."));
    assert_eq!(open(&many), Err(LinkError::TooMany));
    let staves = format!("#/read?{}", ["staff=x"; 17].join("&"));
    assert_eq!(open(&staves), Err(LinkError::TooMany));
}

#[test]
fn a_truncated_link_is_told_wherever_it_was_cut() {
    let whole = SAMPLES[1].1;
    for end in 8..whole.len() {
        let cut = &whole[..end];
        assert!(open(cut).is_err(), "{cut} opened");
    }
}

#[test]
fn what_a_stranger_wrote_is_shown_short_and_plain() {
    let error = open(
        "#/read?staff=x&clef=%3Cscript%3Ealert(1)%3C/script%3E%E2%80%AE%00aaaaaaaaaaaaaaaaaaaaaaaaaaaaaa",
    )
    .unwrap_err();
    let LinkError::Field { value, .. } = error else { panic!("{error:?}") };
    assert!(value.chars().count() <= 24 && !value.contains(['<', '\u{202e}', '\0']), "{value}");
}

fn any_event() -> impl Strategy<Value = Event> {
    prop_oneof![
        6 => (0..7_i32, -3..=3_i32, 0..9_i32)
            .prop_map(|(step, alter, octave)| Event::Note(Printed(Pitch::new(Step::from_index(step), alter, octave)))),
        1 => Just(Event::Rest),
        1 => Just(Event::Held),
    ]
}

prop_compose! {
    fn any_page()(
        label in "\\PC{0,40}",
        events in prop::collection::vec(any_event(), 0..64),
        second in prop::option::of(prop::collection::vec(any_event(), 0..20)),
        settings in (0..3_usize, 0..4_usize, 0..3_usize, any::<bool>(), -7..=7_i32),
        choice in prop::option::of((0..87_usize, -14..14_i32, -24..24_i32)),
        a4 in (37_000..57_000_i32).prop_map(|hundredths| f64::from(hundredths) / 100.0),
        temperament in 0..9_usize,
        root in -6..7_i32,
        on_g in any::<bool>(),
        warmth in prop::option::of((-50..400_i32, 0..400_i32)),
        year in prop::option::of(1600..2000_i32),
        hand in prop::option::of("[a-zA-Zäöü ]{1,20}"),
        key in 0..15_usize,
        selected in 0..64_usize,
        second_staff in any::<bool>(),
    ) -> ReadPage {
        let mut page = ReadPage::of_label(&label);
        let (mechanism, clef, signature, at_pitch, fifths) = settings;
        for (column, &event) in events.iter().enumerate() {
            let _ = page.passage.set(0, page.passage.columns().len().min(column), 0, event);
        }
        if let Some(second) = second {
            page.passage.set_players(0, 2).unwrap();
            for (column, &event) in second.iter().enumerate().take(page.passage.columns().len()) {
                let _ = match event {
                    Event::Note(printed) if column % 5 == 0 => page.passage.set_together(0, column, printed),
                    event => page.passage.set(0, column, 1, event),
                };
            }
        }
        let staff = page.passage.staff_mut(0).unwrap();
        staff.settings.mechanism = [None, Some(Mechanism::Natural), Some(Mechanism::Valves)][mechanism];
        staff.settings.clef = [None, Some(Clef::BASS), Some(Clef::ALTO), Some(Clef::new(ClefSign::G, 2, -1).unwrap())][clef];
        staff.settings.bass = [None, Some(BassNotation::Old), Some(BassNotation::New)][mechanism];
        staff.settings.scheme = [None, Some(Scheme::Russian), Some(Scheme::Rheingold)][signature];
        staff.settings.signature = [None, Some(SignatureSource::Movement), Some(SignatureSource::Typed(Signature(fifths)))][signature];
        staff.settings.at_pitch = at_pitch;
        staff.choice = choice.map(|(at, steps, semitones)| Choice {
            instrument: &crookwise_theory::tables::INSTRUMENTS[at],
            transposition: Transposition::new(steps, semitones),
        });
        page.passage.movement = crookwise_theory::Key::common(crookwise_theory::Mode::Minor).get(key).copied();
        page.intonation.tuning.a4 = a4;
        page.intonation.tuning.temperament = &crookwise_theory::tables::TEMPERAMENTS[temperament];
        page.intonation.tuning.root = Tonic::from_fifths(root);
        page.intonation.tuned_on = if on_g { TunedOn::G } else { TunedOn::C };
        page.intonation.warmth = warmth.map(|(tuned_at, playing_at)| Warmth {
            tuned_at: f64::from(tuned_at) / 10.0,
            playing_at: f64::from(playing_at) / 10.0,
        });
        page.year = year;
        page.in_hand = hand;
        if second_staff {
            page.passage.add_staff("Fagotti").unwrap();
            page.staff = 1;
        } else {
            page.player = page.passage.staves()[0].players() - 1;
        }
        page.selected = Some(selected).filter(|&at| at < page.passage.columns().len());
        page
    }
}

proptest! {
    #[test]
    fn every_page_goes_back_and_forth(page in any_page()) {
        let text = Link::Read(Box::new(page.clone())).encode();
        prop_assert_eq!(open(&text), Ok(page));
    }

    #[test]
    fn no_text_panics(text in "\\PC{0,200}", pairs in "[a-z0-9=&.%_+-]{0,120}") {
        let _ = Link::decode(&text);
        let _ = Link::decode(&format!("#/read?staff=Corni&{pairs}"));
    }

    #[test]
    fn one_changed_letter_is_told_or_harmless(page in any_page(), at in 0..400_usize, letter in "[a-zA-Z0-9]") {
        let text = Link::Read(Box::new(page.clone())).encode();
        let mut bytes = text.into_bytes();
        let at = 12 + at % bytes.len().saturating_sub(12).max(1);
        if let Some(byte) = bytes.get_mut(at) {
            *byte = letter.as_bytes()[0];
        }
        if let Ok(Ok(opened)) = String::from_utf8(bytes).map(|text| open(&text)) {
            prop_assert_eq!(opened, page);
        }
    }
}

#[test]
fn a_known_choice_is_kept_by_what_it_is() {
    let page = open(SAMPLES[2].1).unwrap();
    let choice = page.passage.staves()[0].choice.unwrap();
    assert_eq!(choice.instrument, Instrument::by_id("horn").unwrap());
    assert_eq!(page.intonation.tuning.temperament, Temperament::by_id("vallotti").unwrap());
}

#[test]
fn the_largest_page_comes_back_from_what_the_device_kept() {
    let mut page = ReadPage::of_label("Corni");
    page.passage = crookwise_score::Passage::default();
    for staff in 0..crookwise_score::MOST_STAVES {
        page.passage.add_staff(&"Ω".repeat(crookwise_theory::label::LONGEST)).unwrap();
        page.passage.set_players(staff, crookwise_score::MOST_PLAYERS).unwrap();
        for column in 0..crookwise_score::MOST_COLUMNS {
            for player in 0..crookwise_score::MOST_PLAYERS {
                let note = Event::Note(Printed("F###8".parse().unwrap()));
                page.passage.set(staff, column, player, note).unwrap();
            }
        }
    }
    let kept = Link::Read(Box::new(page)).encode();
    assert_eq!(Link::decode(&kept), Err(LinkError::TooLong));
    assert_eq!(Link::decode_kept(&kept).unwrap().unwrap().encode(), kept);
    assert_eq!(Link::decode_kept(&"x".repeat(crookwise_share::LONGEST_KEPT + 1)), Err(LinkError::TooLong));
}
