//! Letting tones be heard, with a sentence where that is not possible.

use crate::browser::audio;
use crate::state::notices::Notices;
use crate::state::sounds::Sounds;
use crate::words;
use crookwise_sound::{Mix, Tone};

/// Plays tones instead of what was playing, as loud as the reader wants it.
pub fn play(sounds: Sounds, notices: Notices, tones: Vec<Tone>) {
    let volume = f64::from(sounds.volume.get_untracked()) / 100.0;
    let refused = match Mix::new(tones) {
        Ok(mix) if audio::play(&mix, volume, Box::new(move || sounds.playing.set(false))) => None,
        Ok(_) => Some(words::NO_SOUND.to_owned()),
        Err(error) => Some(error.to_string()),
    };
    sounds.playing.set(refused.is_none());
    notices.show(refused);
}
