//! Letting tones be heard, with a sentence where that is not possible.

use crate::browser::audio;
use crate::state::session::Session;
use crate::words;
use crookwise_sound::{Mix, Tone};

/// Plays tones instead of what was playing, as loud as the reader wants it.
pub fn play(session: Session, tones: Vec<Tone>) {
    let volume = f64::from(*session.volume.get_untracked()) / 100.0;
    let refused = match Mix::new(tones) {
        Ok(mix) if audio::play(&mix, volume, Box::new(move || session.playing.set(false))) => None,
        Ok(_) => Some(words::NO_SOUND.to_owned()),
        Err(error) => Some(error.to_string()),
    };
    session.playing.set(refused.is_none());
    session.notice.set(refused);
}
