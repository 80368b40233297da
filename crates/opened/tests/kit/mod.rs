//! The demo movement, opened: what several tests begin with.

use crookwise_opened::{Answer, Ask, ScoreHolder, Summary};

/// Its file.
pub const DEMO: &[u8] = include_bytes!("../../../../web/demo/movement.musicxml");

/// The movement with these corrections, and what is known of it.
pub fn opened(corrections: &str) -> (ScoreHolder, Summary) {
    let mut holder = ScoreHolder::default();
    let answer = holder.answer(Ask::Open(corrections.to_owned()), DEMO.to_vec(), &mut |_| {});
    let Answer::Score(summary) = answer else { panic!("{answer:?}") };
    (holder, *summary)
}
