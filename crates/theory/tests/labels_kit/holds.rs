//! What holds of any text whatever that is read as a label.

use crookwise_theory::label::{DecodeOptions, decode};

/// Reads the text and checks what must hold: a staff or a sentence, players in range, crooks that are built.
pub fn holds(text: &str, year: Option<i32>) {
    let decoded = decode(text, DecodeOptions { year });
    // A staff or a sentence, and nothing in the sentence that could turn the page around.
    assert!(!decoded.staves.is_empty() || decoded.problem.is_some(), "{text:?}");
    let sentences = decoded.problem.iter().map(ToString::to_string).chain(decoded.assumed);
    for sentence in sentences {
        assert!(!sentence.is_empty(), "{text:?}");
        let hidden =
            |ch: char| ch.is_control() || matches!(ch, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
        assert!(!sentence.chars().any(hidden), "{text:?}: {sentence:?}");
    }
    for staff in decoded
        .staves
        .iter()
        .chain(&decoded.changes)
        .chain(decoded.alternatives.iter().map(|other| &other.staff))
    {
        assert!(staff.players.iter().all(|player| (1..=64).contains(player)), "{text:?}");
        assert!(!staff.name().is_empty() && !staff.words().is_empty(), "{text:?}");
        assert_eq!(staff.words().contains("sounds"), staff.is_pitched(), "{text:?}");
        assert_eq!(staff.words().contains("no pitch"), !staff.is_pitched(), "{text:?}");
        if staff.crook_family().is_some() {
            assert!(staff.crook().is_some(), "{text:?}");
        }
    }
}
