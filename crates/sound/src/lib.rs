//! Notes as sound, pure: tones in, samples out, the same on every machine; no browser, file, clock or chance.
//!
//! ```
//! use crookwise_sound::{Mix, Touch, alternate, note, render};
//!
//! // Partial 5 of a horn in C as the tube gives it, then as equal temperament wants it, twice.
//! let touch = Touch::default();
//! let (tube, tuning) = (note(327.032, 1.2, touch), note(329.628, 1.2, touch));
//! let mix = Mix::new(alternate(&[tube], &[tuning], 2, 0.1)).unwrap();
//! let samples = render(&mix, 48_000, 0.6).unwrap();
//! assert_eq!(samples.len(), 244_800); // 4 tones of 1.2 s, 3 gaps of 0.1 s
//! ```

mod beats;
mod limiter;
mod line;
mod queue;
mod spectrum;
mod synth;
mod tone;
mod voice;

pub use beats::{Beats, PureInterval, beats};
pub use limiter::CEILING;
pub use line::{Act, Manner, SoundColumn, Touch, alternate, column, hz, note, passage};
pub use queue::Queue;
pub use synth::{DEFAULT_VOLUME, SAMPLE_RATES, Synth, render};
pub use tone::{Colour, HZ, LONGEST, MOST_TONES, Mix, SoundError, Tone};
