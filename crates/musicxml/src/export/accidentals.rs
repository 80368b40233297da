//! Which notes need an accidental: the memory of a bar, by place on the staff (common practice: an accidental holds for its
//! line or space to the end of the bar, and for no other octave).

use crookwise_theory::{Pitch, Signature};

/// The memory of one staff.
#[derive(Clone, Debug, Default)]
pub(super) struct Memory {
    pub signature: Signature,
    seen: Vec<(i32, i32)>,
}

impl Memory {
    /// Nothing seen yet under a signature.
    pub const fn new(signature: Signature) -> Self {
        Self { signature, seen: Vec::new() }
    }

    /// A bar begins.
    pub fn bar(&mut self) {
        self.seen.clear();
    }

    /// The sign a note needs, in the words of MusicXML; `None` for none. One that is tied to the note before needs none.
    pub fn sign(&mut self, pitch: Pitch, tied: bool) -> Option<&'static str> {
        let place = pitch.diatonic();
        let held = self.seen.iter().find(|(other, _)| *other == place).map(|(_, alter)| *alter);
        let holds = held.unwrap_or_else(|| self.signature.alteration(pitch.step));
        if holds == pitch.alter || tied {
            return None;
        }
        match self.seen.iter_mut().find(|(other, _)| *other == place) {
            Some(seen) => seen.1 = pitch.alter,
            None => self.seen.push((place, pitch.alter)),
        }
        Some(name(pitch.alter))
    }
}

/// The sign of an alteration, in the words of MusicXML.
pub(super) const fn name(alter: i32) -> &'static str {
    match alter {
        i32::MIN..=-3 => "triple-flat",
        -2 => "flat-flat",
        -1 => "flat",
        0 => "natural",
        1 => "sharp",
        2 => "double-sharp",
        _ => "triple-sharp",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_accidental_holds_for_its_bar_and_octave() {
        let pitch = |name: &str| name.parse::<Pitch>().unwrap();
        let mut memory = Memory::new(Signature(-3));
        assert_eq!(memory.sign(pitch("Bb4"), false), None);
        assert_eq!(memory.sign(pitch("B4"), false), Some("natural"));
        assert_eq!(memory.sign(pitch("B4"), false), None);
        assert_eq!(memory.sign(pitch("B5"), false), Some("natural"));
        assert_eq!(memory.sign(pitch("Bb4"), false), Some("flat"));
        memory.bar();
        assert_eq!(memory.sign(pitch("B4"), true), None);
        assert_eq!(memory.sign(pitch("B4"), false), Some("natural"));
    }
}
