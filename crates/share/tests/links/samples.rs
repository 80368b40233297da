//! Links made by every version. They must open for ever: add to the lists, never change them.

use crate::{bare, meaning, open};
use crookwise_practice::{Exercise, Kind, Material, NoteRange, Style, Time};
use crookwise_score::{Event, SignatureSource};
use crookwise_share::Link;
use crookwise_share::practise::PractiseLink;
use crookwise_theory::{BassNotation, Instrument, Printed, Scheme, Signature, Temperament, TunedOn};

/// By hand.
const BY_HAND: [&str; 4] = [
    "#/read?staff=Corni+in+Es&notes=C4.E4.G4.Bb4.C5.Fs5.A4.E5",
    "#/read?staff=2+Corni+in+C&players=2&notes=E5._&notes2=C5.G4&staff=Violoncello&notes=C3.-&at=2",
    "#/read?staff=Corni%20in%20D&notes=C4.E4&key=D%20major",
    "#/practise?step=3",
];

/// Read, first version: one staff, players with a shared note, several staves, every setting, letters that an address
/// must escape, an empty label.
const READ_1: [&str; 9] = [
    "#/read?v=1.3593&staff=Corni+in+Es&notes=C4.E4.G4.Bb4.C5.Fs5.A4.E5&key=Eb+major&a4=430&at=8",
    "#/read?v=1.c6e7&staff=Corni+in+B&reads=horn_-1_-2&played=valves&clef=F4&bass=new&notes=C3._.-&temperament=vallotti",
    "#/read?v=1.0908&staff=Corni+in+Es&notes=C4.E4.G4.Bb4.C5.Fs5.A4.E5",
    "#/read?v=1.da45&staff=Corni+I+II+in+F&players=2&notes=*C4.E4._.-&notes2=-.C4.G3._&player=2&at=2",
    "#/read?v=1.abbe&staff=Flauti&notes=G5.A5.B5&staff=Clarinetti+in+A&notes=Bb4.C5.D5&staff=Corni+in+D&players=2&notes=G4.*C5.E5&notes2=E4.-.G4&staff=Timpani+in+D%2C+A&clef=F4&notes=D3.-.A2&key=D+major&on=3&at=2",
    "#/read?v=1.cc99&staff=Clarinetto+basso&clef=F4_-1&system=russian&signature=-3&page=sounding&notes=C4.Fss3.Ebb3",
    "#/read?v=1.ca16&staff=Corno+in+B&reads=horn_-8_-14&played=natural&clef=F4&bass=old&signature=none&notes=C3.G3&a4=421.6&temperament=vallotti&from=Eb&tuned=G&warmth=15_22.5&year=1805&hand=Horn+in+F",
    "#/read?v=1.da73&staff=%C3%84rgerliche+H%C3%B6rner+%28hoch%29%26tief+100%25&signature=movement&notes=B3&key=F+minor",
    "#/read?v=1.5a6b&staff=",
];

/// Practise, first version: every screen, with exercises on staves, of phrases, and about a page.
const PRACTISE_1: [&str; 18] = [
    "#/practise",
    "#/practise?from=read",
    "#/practise?v=1.83ae&step=1",
    "#/practise?v=1.2814&step=13",
    "#/practise?v=1.9d94&class=",
    "#/practise?v=1.e7d2&class=CWX1-ABCD-EFGH+12",
    "#/practise?v=1.0056&record=",
    "#/practise?v=1.e99d&set=AQAKAQIBBwIWQ29ybmkgaW4gRXMeQ2xhcmluZXR0aSBpbiBB",
    "#/practise?v=1.bb0c&do=AQAKAQIBBwIWQ29ybmkgaW4gRXMeQ2xhcmluZXR0aSBpbiBB",
    "#/practise?v=1.0c41&wall=AQAKAQIBBwIWQ29ybmkgaW4gRXMeQ2xhcmluZXR0aSBpbiBB",
    "#/practise?v=1.c7e6&paper=AQAKAQIBBwIWQ29ybmkgaW4gRXMeQ2xhcmluZXR0aSBpbiBB",
    "#/practise?v=1.7e76&set=AcDUBgdjFAQMAQEBFkNvcm5pIGluIEVzAgACAQsJSG9ybiBpbiBG",
    "#/practise?v=1.ba59&do=AcDUBgdjFAQMAQEBFkNvcm5pIGluIEVzAgACAQsJSG9ybiBpbiBG",
    "#/practise?v=1.2126&wall=AcDUBgdjFAQMAQEBFkNvcm5pIGluIEVzAgACAQsJSG9ybiBpbiBG",
    "#/practise?v=1.f706&paper=AcDUBgdjFAQMAQEBFkNvcm5pIGluIEVzAgACAQsJSG9ybiBpbiBG",
    "#/practise?v=1.a9d6&set=AYCIAQoBrAIBAQA&staff=Corni+in+Es&players=2&notes=C5.E5.G5&notes2=E4._.-&staff=Viola&notes=Eb4.G4.Bb4&key=Eb+major",
    "#/practise?v=1.6ccd&do=AYCIAQoBrAIBAQA&staff=Corni+in+Es&players=2&notes=C5.E5.G5&notes2=E4._.-&staff=Viola&notes=Eb4.G4.Bb4&key=Eb+major",
    "#/practise?v=1.2044&paper=AYCIAQoBrAIBAQA&staff=Corni+in+Es&players=2&notes=C5.E5.G5&notes2=E4._.-&staff=Viola&notes=Eb4.G4.Bb4&key=Eb+major",
];

/// Read, second version: changes for all and for one player, crooks of single players, lengths, a kept page, bars. Their
/// checksums were reckoned by another library (zlib's crc32).
const READ_2: [&str; 4] = [
    "#/read?v=2.e8e13b65&staff=Corni+in+Es&notes=C4.E4.G4&muta=3_in+D",
    "#/read?v=2.f56c4a04&staff=Corni+in+Es&players=2&crook2=horn_-8_-14&notes=C5.*G4._&notes2=E4&muta2=2_in+D&clef=2_F4&signature=2_none&signature=3_-2&staff=Bassi&notes=C3&muta=1_Violoncello&key=Eb+major&key=2_C+minor&lengths=1.3_2&at=2",
    "#/read?v=2.d1d85869&kept=Horns+in+two+crooks",
    "#/read?v=2.326dcc1b&staff=Corni+in+Es&players=2&notes=C5.E5.G5.C5.D5&notes2=E4._.C4&key=Eb+major&bars=1_66.3.5_67a&lengths=1.1.2.2.4",
];

/// Practise, second version: exercises with a title of their own. Checksums by zlib's crc32.
const PRACTISE_2: [&str; 2] = [
    "#/practise?v=2.2c802e00&do=AQAKAQIBBwIWQ29ybmkgaW4gRXMeQ2xhcmluZXR0aSBpbiBB&title=%C3%9Cbung+f%C3%BCr+Montag",
    "#/practise?v=2.f1adc928&set=AYCIAQoBrAIBAQA&title=The+cadence&staff=Corni+in+Es&players=2&notes=C5.E5.G5&notes2=E4._.-&staff=Viola&notes=Eb4.G4.Bb4&key=Eb+major",
];

/// Packed, third version, each with the pairs it was packed from: several staves, every setting, changes and letters that an
/// address must escape, an exercise about a page, bars. Their checksums were reckoned by another library (zlib's crc32).
const PACKED_3: [(&str, &str); 5] = [
    (
        "#/read?v=3.37F6202COBM8FZAD9W61FPVDIO8649Q5Z6BGZEEO26NCTC8CB1ZX",
        "#/read?staff=2+Corni+in+Es&players=2&notes=E5.C5.D5.C5&notes2=C5.C4.G4.E4&staff=Violino+I&notes=Eb5.Eb5.D5.Eb5&staff=Viola&notes=G4.Ab4.F4.G4&staff=Violoncello+e+Basso&notes=Eb3.Ab3.Bb3.Eb3&key=Eb+major&at=1",
    ),
    (
        "#/read?v=3.AD7DDCFEEBS3SXAPAR8G85I6LVVQKPSW8HRT78FG8A0RP6O7MHD0NUE3HTBNRQZ8WUW57AA8VTTKMME1YVKAVRUNV57FF7E4COFDATZALTN8R1FBZ7N5",
        "#/read?staff=Corno+in+B&reads=horn_-8_-14&played=natural&clef=F4&bass=old&signature=none&notes=C3.G3&staff=Clarinetto+basso&clef=F4_-1&system=russian&signature=-3&page=sounding&notes=C4.Fss3&a4=421.6&temperament=vallotti&from=Eb&tuned=G&warmth=15_22.5&year=1805&hand=Horn+in+F",
    ),
    (
        "#/read?v=3.C3E4F3D6QBHLEGLFTCDCSREZ9ES3KAGTHOZCNASMV3CNL3KWNR42YZV5TV9H42XIRVHXCPHZSYKXBQG364W4Y7D1HN2ZM8MVGE94B5TBVK0VREQG10LUBLGFJKK8BHOSO7WMTCCPPTTIKT3NTL7VWYRMZIL0CZ857G",
        "#/read?staff=%C3%84rgerliche+H%C3%B6rner+%28hoch%29%26tief+100%25&players=2&crook2=horn_-8_-14&notes=C5.*G4._&notes2=E4&muta2=2_in+D&clef=2_F4&signature=2_none&signature=3_-2&staff=%F0%9D%84%A2&notes=C3&muta=1_Violoncello&key=Eb+major&key=2_C+minor&lengths=1.3_2&on=2&at=2",
    ),
    (
        "#/practise?v=3.5AB7ABCBWM9EZ4YBWW3QDMNV57XPBR3O0DZY2Q0WUXKLNLMPH6JISW5DO2NFMJ",
        "#/practise?do=AYCIAQoBrAIBAQA&staff=Corni+in+Es&players=2&notes=C5.E5.G5&notes2=E4._.-&staff=Viola&notes=Eb4.G4.Bb4&key=Eb+major",
    ),
    (
        "#/read?v=3.BAB6A20EEGMRUYZDTN3JDZ0YWHRSLPYQAICGHHU8ZXRFUPD8Y6BJX1MK",
        "#/read?staff=Corni+in+Es&players=2&notes=C5.E5.G5.C5.D5&notes2=E4._.C4&key=Eb+major&bars=1_66.3.5_67a&lengths=1.1.2.2.4",
    ),
];

/// Pairs mean the same, but for rests at the end of a line, which are left out where they say nothing.
fn says_the_same(one: &str, other: &str) {
    let trimmed = |text: &str| {
        let (place, mut pairs) = bare(text);
        for (name, value) in &mut pairs {
            if name.starts_with("notes") {
                *value = value.trim_end_matches(".-").to_owned();
            }
        }
        (place, pairs)
    };
    assert_eq!(trimmed(one), trimmed(other));
}

#[test]
fn links_of_every_version_open_as_what_they_were() {
    for text in BY_HAND.iter().chain(&READ_1).chain(&PRACTISE_1).chain(&READ_2).chain(&PRACTISE_2) {
        let link = Link::decode(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        let link = link.unwrap_or_else(|| panic!("{text} opened as nothing"));
        if let Link::Practise(link) = &link {
            assert!(link.exercise().is_none_or(|exercise| exercise.open().is_ok()), "{text}");
        }
        let again = link.encode();
        says_the_same(text, &again);
        let stamp = meaning(&again).1.first().map(|(name, _)| name.clone());
        assert_eq!(stamp.as_deref(), (*text != "#/practise").then_some("v"), "{again}");
    }
}

#[test]
fn packed_links_open_as_what_was_packed() {
    for (packed, by_hand) in PACKED_3 {
        let link = Link::decode(packed).unwrap().unwrap();
        assert_eq!(Link::decode(by_hand), Ok(Some(link.clone())), "{packed}");
        assert_eq!(format!("#{}", link.pack()), packed);
    }
}

#[test]
fn an_old_page_is_what_it_was() {
    let page = open(READ_1[0]).unwrap();
    assert_eq!((page.selected, page.intonation.tuning.a4), (Some(7), 430.0));
    assert_eq!(page.passage.event(0, 5, 0), Some(Event::Note(Printed("F#5".parse().unwrap()))));
    assert_eq!(page.passage.movement, Some("Eb major".parse().unwrap()));
    let page = open(READ_1[1]).unwrap();
    assert_eq!(page.passage.staves()[0].choice.unwrap().instrument, Instrument::by_id("horn").unwrap());
    assert_eq!(page.intonation.tuning.temperament, Temperament::by_id("vallotti").unwrap());
    let page = open(READ_1[3]).unwrap();
    assert_eq!((page.player, page.passage.staves()[0].cells()[0].is_together()), (1, true));
    assert_eq!(page.passage.event(0, 3, 1), Some(Event::Held));
    let page = open(READ_1[5]).unwrap();
    let settings = page.passage.staves()[0].settings;
    assert_eq!((settings.scheme, settings.at_pitch), (Some(Scheme::Russian), true));
    assert_eq!(settings.signature, Some(SignatureSource::Typed(Signature(-3))));
    let page = open(READ_1[6]).unwrap();
    assert_eq!(page.passage.staves()[0].settings.bass, Some(BassNotation::Old));
    assert_eq!((page.intonation.tuned_on, page.year), (TunedOn::G, Some(1805)));
    assert_eq!(page.in_hand.as_deref(), Some("Horn in F"));
    assert_eq!(open(READ_1[7]).unwrap().passage.staves()[0].label, "Ärgerliche Hörner (hoch)&tief 100%");
}

#[test]
fn an_old_exercise_is_what_it_was() {
    let exercise = |text: &str| -> Exercise {
        match Link::decode(text).unwrap().unwrap() {
            Link::Practise(PractiseLink::Do(Some(exercise))) => exercise.open().unwrap(),
            other => panic!("{text} opened as {other:?}"),
        }
    };
    let plain = exercise(PRACTISE_1[8]);
    assert_eq!((plain.kinds, plain.questions), (vec![Kind::Sounds, Kind::Degree], 10));
    assert_eq!(plain.staves[1].label, "Clarinetti in A");
    let phrases = exercise(PRACTISE_1[12]);
    assert_eq!(phrases.material, Material::Phrases(vec![Style::ALL[0], Style::ALL[2]]));
    assert_eq!((phrases.time, phrases.range), (Time::Each(20), NoteRange::Partials(4, 12)));
    assert_eq!((phrases.seed, phrases.choices, phrases.in_hand.as_deref()), (99, true, Some("Horn in F")));
    let about = exercise(PRACTISE_1[16]);
    let Material::Passage(passage) = about.material else { panic!("no page") };
    assert_eq!((passage.staves().len(), passage.columns().len()), (2, 3));
}

#[test]
fn a_page_of_the_second_version_is_what_it_was() {
    let page = open(READ_2[1]).unwrap();
    let staff = &page.passage.staves()[0];
    assert_eq!(staff.changes().len(), 4);
    assert_eq!((staff.changes()[0].column, staff.changes()[0].player), (1, Some(1)));
    assert_eq!(staff.crook(1).unwrap().transposition.0.semitones, -14);
    assert_eq!(page.passage.columns()[1].length.unwrap().quarters(), (3, 2));
    assert_eq!(page.passage.movement_at(2), Some("C minor".parse().unwrap()));
    assert_eq!(Link::decode(READ_2[2]), Ok(Some(Link::Kept("Horns in two crooks".into()))));
}

#[test]
fn bars_of_a_score_are_what_they_were() {
    let page = open(READ_2[3]).unwrap();
    let bars: Vec<_> = (0..5).map(|at| page.passage.columns()[at].bar.map(|bar| bar.to_string())).collect();
    let number = |text: &str| Some(text.to_owned());
    assert_eq!(bars, [number("66"), None, number("67"), None, number("67a")]);
    assert_eq!(open(READ_2[0]).unwrap().passage.bar_at(2), None);
}

#[test]
fn a_lookup_stays_readable() {
    let text = Link::Read(Box::new(open(BY_HAND[0]).unwrap())).encode();
    assert!(text.starts_with("/read?v=2."), "{text}");
    assert!(text.ends_with("&staff=Corni+in+Es&notes=C4.E4.G4.Bb4.C5.Fs5.A4.E5"), "{text}");
}

#[test]
fn nothing_said_is_nothing_opened() {
    for text in ["", "#", "#/", "#/read", "/read"] {
        assert_eq!(Link::decode(text), Ok(None), "{text}");
    }
}
