//! Every sentence the page says, gathered where a translator would look for them. Nothing here computes music.

mod names;
mod reading;
mod ways;

pub use names::{alteration_sign, decimal, key, note, note_spoken, signature, signed_cents, tonic};
pub use reading::{
    GUIDE, column_name, degrees, headline, making, production_sentence, range, temperament, tuning_sentence,
    written_otherwise,
};
pub use ways::{
    HAND_UNKNOWN, by_clef, by_interval, hand_not_understood, in_hand, interval_with_direction, sounds,
};
