//! The notes of one player as text: `C4.Eb4._.-.Fs5`, held as `_`, rests as `-`, sharps as `s`, and `*C4` for a
//! note that all players of the staff share.

use crate::error::LinkError;
use crookwise_score::{Event, MOST_COLUMNS};
use crookwise_theory::{Pitch, Printed};

/// The widest pitches a link may name: far off any staff, but no further.
const OCTAVES: core::ops::RangeInclusive<i32> = -2..=12;

/// What stands at one column in the line of a player.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Token {
    /// The player's own event.
    Own(Event),
    /// One note for all players.
    Shared(Printed),
}

pub(crate) fn write(tokens: impl IntoIterator<Item = Token>) -> String {
    let name = |printed: Printed| printed.to_string().replace('#', "s");
    let words: Vec<String> = tokens
        .into_iter()
        .map(|token| match token {
            Token::Shared(printed) => format!("*{}", name(printed)),
            Token::Own(Event::Note(printed)) => name(printed),
            Token::Own(Event::Held) => "_".into(),
            Token::Own(Event::Rest) => "-".into(),
        })
        .collect();
    words.join(".")
}

pub(crate) fn read(text: &str) -> Result<Vec<Token>, LinkError> {
    if text.is_empty() {
        return Ok(Vec::new());
    }
    let words: Vec<&str> = text.split('.').collect();
    if words.len() > MOST_COLUMNS {
        return Err(LinkError::TooMany);
    }
    let token = |word: &&str| match *word {
        "_" => Ok(Token::Own(Event::Held)),
        "-" => Ok(Token::Own(Event::Rest)),
        name => match name.strip_prefix('*') {
            Some(shared) => pitch(shared).map(Token::Shared),
            None => pitch(name).map(|printed| Token::Own(Event::Note(printed))),
        },
    };
    words.iter().map(token).collect()
}

fn pitch(name: &str) -> Result<Printed, LinkError> {
    // The letter comes first, so an s behind it can only be a sharp.
    let pitch: Pitch = name.replace('s', "#").parse().map_err(|_| LinkError::field("notes", name))?;
    if OCTAVES.contains(&pitch.octave) && pitch.alter.abs() <= 9 {
        Ok(Printed(pitch))
    } else {
        Err(LinkError::field("notes", name))
    }
}
