//! A hundred texts that name no staff, and any text at all: never a staff out of nothing, never a panic.

#[path = "labels_kit/holds.rs"]
mod holds;

use crookwise_theory::label::{DecodeOptions, LabelProblem, decode};
use holds::holds;
use proptest::prelude::*;

const NONSENSE: &[&str] = &[
    "asdf",
    "qwertz",
    "xyzzy",
    "lorem ipsum dolor sit amet",
    "hello world",
    "the quick brown fox",
    "12345",
    "0",
    "1, 2, 3",
    "in F",
    "in Es",
    "in B basso",
    "in C (alto)",
    "B",
    "Mi♭",
    "Ut",
    "♭",
    "♯♯♯",
    "♮",
    "I",
    "III/IV",
    "1. 2. 3.",
    "muta in C",
    "muta",
    "solo",
    "tutti",
    "Allegro con brio",
    "Andante",
    "Adagio ma non troppo",
    "p dolce",
    "fff",
    "crescendo",
    "da capo",
    "Fine",
    "Takt 12",
    "Qwrtz in Pf",
    "Xyzzy Vl",
    "con sordino",
    "Segue",
    "measure 40",
    "page 3",
    "Symphony No. 5",
    "Beethoven",
    "Mozart K. 550",
    "Op. 67",
    "Breitkopf",
    "please read this",
    "what is this",
    "je ne sais pas",
    "wer weiß das",
    "non lo so",
    "no lo sé",
    "some words in a row",
    "I like the horn of plenty",
    "a harp seal swims away quickly",
    "organ donor card please sign",
    "the viola is a pansy",
    "bass fishing at the lake",
    "please tune the piano tomorrow",
    "horn of Africa map",
    "my flute lesson was cancelled today",
    "a b c d e",
    "x",
    "ß",
    "?",
    "!!!",
    "...",
    "---",
    "///",
    "()",
    "[ ]",
    ",",
    "; ; ;",
    "&",
    "+",
    "1/2",
    "a 2",
    "à 2",
    "unis.",
    "🎺",
    "🎻🎻🎻",
    "😀 in F",
    "♩ = 120",
    "𝄞",
    "مرحبا",
    "שלום",
    "日本語",
    "ヴァイオリン",
    "валторна",
    "κόρνο",
    "\u{202e}abc",
    "\u{feff}",
    "\u{200b}\u{200b}",
    "http://example.org",
    "foo@bar.baz",
    "<script>alert(1)</script>",
    "'; DROP TABLE",
    "%s%s%n",
    "\\u0043orni",
    "NaN",
    "null",
    "undefined",
    "-1",
    "99999999999999999999",
    "Hirn",
    "Korb in F",
    "Tomte in D",
    "Cello\u{ad}phane wrap roll",
];

#[test]
fn a_hundred_texts_give_no_staff() {
    assert!(NONSENSE.len() >= 100, "{}", NONSENSE.len());
    for text in NONSENSE {
        let decoded = decode(text, DecodeOptions::default());
        assert!(decoded.staves.is_empty(), "{text:?}: {}", decoded.staves[0].name());
        assert!(decoded.changes.is_empty() && decoded.alternatives.is_empty(), "{text:?}");
        let problem = decoded.problem.expect("a sentence");
        assert!(problem.to_string().chars().count() < 160, "{problem}");
        assert!(
            matches!(problem, LabelProblem::Empty | LabelProblem::NoInstrument { .. }),
            "{text:?}: {problem:?}"
        );
    }
}

proptest! {
    #[test]
    fn any_text_is_survived(text in "\\PC{0,60}", year in proptest::option::of(any::<i32>())) {
        holds(&text, year);
    }

    #[test]
    fn any_bytes_are_survived(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
        holds(&String::from_utf8_lossy(&bytes), None);
    }

    #[test]
    fn words_of_labels_in_any_order_are_survived(words in proptest::collection::vec(
        prop_oneof![
            Just("Corni"), Just("in"), Just("Es"), Just("B"), Just("basso"), Just("alto"), Just("1."), Just("2"), Just("III"),
            Just("e"), Just("a"), Just(","), Just("("), Just(")"), Just("muta"), Just("Tuba"), Just("Bass"), Just("Timpani"),
            Just("D"), Just("–"), Just("Clarinetto"), Just("Wagner"), Just("Tenor"), Just("♭"), Just("not"), Just("orig."),
            Just("umstimmen"), Just("Vc."), Just("mi"), Just("la"), Just("fa"), Just("B."), Just("piccolo"), Just("hoch"),
        ], 0..14)) {
        holds(&words.join(" "), None);
    }
}
