//! The worksheet on paper.

use super::Names;
use crookwise_practice::{Kind, Question};

texts! {
    CLEF_OF_THE_ANSWERS = "Clef of the answers";
    KEY = "Key";
}

/// The instruction over questions of a kind, where it is another than on the screen: each has a caption of its own, or the
/// answer is put on the paper.
#[must_use]
pub const fn instruction(kind: Kind) -> Option<&'static str> {
    Some(match kind {
        Kind::Writes => "Write for the instrument named, so that the note given sounds.",
        Kind::Degree => "Which degree of the key named sounds?",
        Kind::WrongNote => "The lower staff copies the upper one. Circle the wrong note.",
        Kind::WrongStaff => "Listen. Tick the staff that is played wrong.",
        _ => return None,
    })
}

/// The same, where one note of several is meant.
#[must_use]
pub fn with_bracket(instruction: &str, points: bool) -> String {
    if points {
        format!("{instruction} The bracket shows the place that is meant.")
    } else {
        instruction.to_owned()
    }
}

/// What is said of one question where its section's instruction does not say it.
#[must_use]
pub fn caption(question: &Question, names: Names) -> String {
    match question.kind {
        Kind::Writes => question.given.map(|given| format!("{} sounds", names.note(given.0))),
        Kind::Degree => question.passage.movement_at(question.at.column).map(|key| names.key(key)),
        Kind::InHand => question.in_hand.clone(),
        _ => None,
    }
    .unwrap_or_else(|| super::practise::prompt(question, names))
}

/// The foot of a page.
#[must_use]
pub fn page_of(page: usize, all: usize) -> String {
    format!("{page} / {all}")
}

/// The foot of a page of the key.
#[must_use]
pub fn key_page_of(page: usize, all: usize) -> String {
    format!("{KEY} {page} / {all}")
}

/// Some questions for who cannot see them: "Question 3: Corni in Es, treble clef: C5".
#[must_use]
pub fn said(number: usize, caption: &str, page: &str) -> String {
    let caption = if caption.is_empty() { String::new() } else { format!(" ({caption})") };
    format!("Question {number}{caption}: {page}")
}

/// An answer of the key for who cannot see it: "Answer 3: G3".
#[must_use]
pub fn answer_said(number: usize, right: &str) -> String {
    format!("Answer {number}: {right}")
}
