//! What is not opened, and what is said about it.

use crate::open;
use crookwise_share::{Link, LinkError};

fn refusal(text: &str) -> LinkError {
    let error = Link::decode(text).expect_err(text);
    assert!(error.to_string().len() > 20, "{text}: {error}");
    error
}

#[test]
fn what_cannot_be_opened_says_why() {
    let cases: [(&str, LinkError); 14] = [
        ("#/elsewhere?staff=x", LinkError::Foreign),
        ("#javascript:alert(1)", LinkError::Foreign),
        ("#/practise?other=1", LinkError::Foreign),
        ("#/practise?record=1", LinkError::Foreign),
        ("#/read?notes=C4", LinkError::Unknown("notes".into())),
        ("#/read?key=C+major", LinkError::NoStaff),
        ("#/read?v=4.0000&staff=Corni", LinkError::Version("4".into())),
        ("#/read?v=3.0000&staff=Corni", LinkError::Damaged),
        ("#/read?v=3.", LinkError::Damaged),
        ("#/read?v=1.0000&staff=Corni+in+Es", LinkError::Damaged),
        ("#/read?v=2.00000000&staff=Corni+in+Es", LinkError::Damaged),
        ("#/read?v=&staff=Corni+in+Es", LinkError::Damaged),
        ("#/practise?do=%%%", LinkError::Damaged),
        ("#/read?staff=Corni&players=9", LinkError::TooMany),
    ];
    for (text, expected) in cases {
        assert_eq!(refusal(text), expected, "{text}");
    }
    for text in ["#/read?", "#/practise?", "#/practise?step=0", "#/practise?step=14", "#/practise?step="] {
        refusal(text);
    }
    let long = format!("#/read?staff=Corni&notes={}", "C4.".repeat(9_000));
    assert_eq!(open(&long), Err(LinkError::TooLong));
    let many = format!("#/read?staff=Corni&notes={}", ["C4"; 65].join("."));
    assert_eq!(open(&many), Err(LinkError::TooMany));
    let staves = format!("#/read?{}", ["staff=x"; 17].join("&"));
    assert_eq!(open(&staves), Err(LinkError::TooMany));
}

#[test]
fn what_is_not_understood_is_named() {
    let cases = [
        ("notes=C4.E", "notes"),
        ("notes=_", "notes"),
        ("notes=C99", "notes"),
        ("notes5=C4", "notes"),
        ("notes1=C4", "notes"),
        ("clef=G7", "clef"),
        ("a4=NaN", "a4"),
        ("a4=1e9", "a4"),
        ("key=Q", "key"),
        ("at=0", "at"),
        ("signature=99", "signature"),
        // A change needs a column that is there, a player who is there, and something to change to.
        ("notes=C4.E4&muta=in+D", "muta"),
        ("notes=C4.E4&muta=3_in+D", "muta"),
        ("notes=C4.E4&muta=0_in+D", "muta"),
        ("notes=C4.E4&muta=+1_in+D", "muta"),
        ("notes=C4.E4&muta2=1_in+D", "muta"),
        ("notes=C4.E4&muta5=1_in+D", "muta"),
        ("notes=C4&clef=1_G7", "clef"),
        ("notes=C4&clef=2_F4", "clef"),
        ("notes=C4&signature=1_99", "signature"),
        ("notes=C4&key=2_C+major", "key"),
        ("notes=C4&key=1_Q", "key"),
        ("crook=horn_-1_-2", "crook"),
        ("crook2=horn_-1_-2", "crook"),
        ("players=2&crook2=horn", "crook"),
        ("notes=C4&bars=2", "bars"),
        ("notes=C4.D4&bars=2_67.1_66", "bars"),
        ("notes=C4&bars=1_66+bis", "bars"),
        ("notes=C4&lengths=1.1", "lengths"),
        ("notes=C4&lengths=0", "lengths"),
        ("notes=C4&lengths=1_0", "lengths"),
        ("notes=C4&lengths=-1", "lengths"),
    ];
    for (pairs, expected) in cases {
        match refusal(&format!("#/read?staff=Corni&{pairs}")) {
            LinkError::Field { name, .. } => assert_eq!(name, expected, "{pairs}"),
            other => panic!("{pairs}: {other:?}"),
        }
    }
}

#[test]
fn what_is_not_understood_is_said_in_words_of_music() {
    let said = |pairs: &str| refusal(&format!("#/read?staff=Corni&{pairs}")).to_string();
    assert_eq!(said("notes=C4.E"), "This link is not understood where it gives the notes: “E”");
    assert_eq!(said("a4=NaN"), "This link is not understood where it gives the height of A: “NaN”");
    assert_eq!(
        said("muta=in+D"),
        "This link is not understood where it gives a change of crook or instrument: “in D”"
    );
    assert_eq!(said("on=x"), "This link is not understood where it gives which note is selected: “x”");
}

#[test]
fn an_unknown_name_is_a_slip_by_hand_and_a_later_addition_under_a_checksum() {
    let slip = LinkError::Unknown("nots".into());
    assert_eq!(refusal("#/read?staff=Corni&nots=C4"), slip);
    assert_eq!(refusal("#/practise?step=3&nots=1"), slip);
    assert_eq!(refusal("#/read?kept=x&nots=1"), slip);
    // Made with the checksum of a pair that this version does not know.
    let later = open("#/read?v=2.298836d9&staff=Corni&colour=brass&notes=C4").unwrap();
    assert_eq!(later, open("#/read?staff=Corni&notes=C4").unwrap());
}

#[test]
fn what_a_stranger_wrote_is_shown_short_and_plain() {
    let script = "%3Cscript%3Ealert(1)%3C/script%3E%E2%80%AE%00aaaaaaaaaaaaaaaaaaaaaaaaaaaaaa";
    let shown = |error| match error {
        LinkError::Field { value, .. } | LinkError::Unknown(value) => value,
        other => panic!("{other:?}"),
    };
    for text in [format!("#/read?staff=x&clef={script}"), format!("#/read?staff=x&{script}=1")] {
        let value = shown(refusal(&text));
        assert!(value.chars().count() <= 24 && !value.contains(['<', '\u{202e}', '\0']), "{value}");
    }
}

#[test]
fn an_exercise_that_is_none_says_so_where_it_is_asked() {
    for code in ["AA", "AQAKAQIBBwIWQ29ybmkgaW4gRXMeQ2xhcmluZXR0aSBp", "AYCIAQoBrAIBAQA"] {
        match Link::decode(&format!("#/practise?do={code}")).unwrap().unwrap() {
            Link::Practise(link) => {
                assert_eq!(link.exercise().unwrap().open(), Err(LinkError::Damaged), "{code}");
            }
            other => panic!("{other:?}"),
        }
    }
}
