//! Letting tones be heard, with a sentence where that is not possible.

use crate::browser::audio;
use crate::state::notices::Notices;
use crate::state::speaker::Speaker;
use crate::words;
use crookwise_sound::{Mix, Tone};

/// Plays tones instead of what was playing, as loud as the reader wants it.
pub fn play(speaker: Speaker, notices: Notices, tones: Vec<Tone>) {
    let volume = f64::from(speaker.volume.get_untracked()) / 100.0;
    let refused = match Mix::new(tones) {
        Ok(mix) if audio::play(&mix, volume, Box::new(move || speaker.playing.set(false))) => None,
        Ok(_) => Some(words::NO_SOUND.to_owned()),
        Err(error) => Some(error.to_string()),
    };
    if refused.is_none() {
        speaker.begins();
    } else {
        speaker.playing.set(false);
    }
    notices.show(refused);
}
