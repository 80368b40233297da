//! Questions and answers as bytes, in the compact form of the crate `postcard` (its wire format is a published one). They
//! never leave the device and are never kept, so the form may change with any version.

use crate::{Answer, Progress, ScoreHolder};
use serde::Serialize;
use serde::de::DeserializeOwned;

/// As bytes; empty where there is no memory for them.
#[must_use]
pub fn write<T: Serialize>(value: &T) -> Vec<u8> {
    postcard::to_allocvec(value).unwrap_or_default()
}

/// From bytes; `None` where they are something else.
#[must_use]
pub fn read<T: DeserializeOwned>(bytes: &[u8]) -> Option<T> {
    postcard::from_bytes(bytes).ok()
}

/// Answers a question that came as bytes in bytes; nothing yet where it is to be asked again
/// ([`ScoreHolder::answer_in_pieces`]).
pub fn answer(
    holder: &mut ScoreHolder,
    ask: &[u8],
    file: Vec<u8>,
    progress: &mut dyn FnMut(Progress),
) -> Option<Vec<u8>> {
    let answer = match read(ask) {
        Some(ask) => holder.answer_in_pieces(ask, file, progress)?,
        None => Answer::No("The page asks what this version does not know; load it again".to_owned()),
    };
    Some(write(&answer))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_question_is_answered_with_a_sentence() {
        let answer =
            answer(&mut ScoreHolder::default(), &[255; 3], Vec::new(), &mut |_| {}).unwrap_or_default();
        assert!(matches!(read(&answer), Some(Answer::No(said)) if said.contains("load it again")));
    }
}
