//! Crooks of horn and trumpet: the length of tube that puts the instrument in its key.

use crate::pitch::Tonic;
use crate::tables::{HORN_CROOKS, TRUMPET_CROOKS};
use crate::transposition::Transposition;

/// Which of the two octaves a key's crook has: *alto* (high, hoch, aigu) or *basso* (low, tief, grave).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum OctaveWord {
    /// The shorter tube.
    Alto,
    /// The longer tube.
    Basso,
}

impl OctaveWord {
    /// The trade's word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Alto => "alto",
            Self::Basso => "basso",
        }
    }
}

/// Horn or trumpet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CrookFamily {
    /// The horn: its written C4 sounds at or below C4.
    Horn,
    /// The trumpet: half the tube, an octave above the horn of the same key but for the low ones.
    Trumpet,
}

/// A crook. Lengths differ between the sources, so each is kept with its own.
#[derive(Debug)]
pub struct Crook {
    /// Horn or trumpet.
    pub family: CrookFamily,
    /// As the table names it.
    pub name: &'static str,
    /// Its key.
    pub tonic: Tonic,
    /// Alto or basso where the key has both or the name says so.
    pub octave: Option<OctaveWord>,
    /// From written (treble logic) to sounding.
    pub transposition: Transposition,
    /// From printed to sounding in old bass-clef notation (Grove 1879, vol. 1, p. 750); horns only in the table.
    pub old_bass: Option<Transposition>,
    /// The organ-pipe name of its length in feet. Common practice.
    pub nominal_feet: &'static str,
    /// Length in inches after Grove 1954 (A = 435), where given.
    pub grove_inches: Option<f64>,
    /// Body and crook in inches after *Encyclopædia Britannica* 1911 "Horn", where given.
    pub britannica_inches: Option<f64>,
    /// Half the wavelength of its first partial at A 440 and 20 °C, in metres: computed, "about".
    pub tube_metres: f64,
    /// First and last usable partial after *Encyclopædia Britannica* 1911; `None` where it does not say.
    pub comfortable: Option<(u8, u8)>,
}

impl CrookFamily {
    /// Its English name, which is its id too.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Horn => "horn",
            Self::Trumpet => "trumpet",
        }
    }

    /// Its crooks, from short to long.
    #[must_use]
    pub fn crooks(self) -> &'static [Crook] {
        match self {
            Self::Horn => &HORN_CROOKS,
            Self::Trumpet => &TRUMPET_CROOKS,
        }
    }

    /// The crooks in one key, from short to long: two where the key is built alto and basso.
    #[must_use]
    pub fn in_key(self, tonic: Tonic) -> Vec<&'static Crook> {
        self.crooks().iter().filter(|crook| crook.tonic == tonic).collect()
    }

    /// The crook with that transposition.
    #[must_use]
    pub fn by_transposition(self, transposition: Transposition) -> Option<&'static Crook> {
        self.crooks().iter().find(|crook| crook.transposition == transposition)
    }
}

impl PartialEq for Crook {
    fn eq(&self, other: &Self) -> bool {
        self.family == other.family && self.transposition == other.transposition
    }
}

impl Eq for Crook {}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::interval::Interval;
    use crate::pitch::{Pitch, Step};

    #[test]
    fn every_crook_lands_on_its_own_key() {
        for crook in HORN_CROOKS.iter().chain(&TRUMPET_CROOKS) {
            let sounding = Pitch::natural(Step::C, 4) + crook.transposition.0;
            assert_eq!(sounding.tonic(), crook.tonic, "{}", crook.name);
            if let Some(old) = crook.old_bass {
                assert_eq!(old.0, crook.transposition.0 + Interval::OCTAVE, "{}", crook.name);
            }
        }
    }

    #[test]
    fn keys_with_two_lengths() {
        let b_flat = Tonic::new(Step::B, -1);
        let words: Vec<_> = CrookFamily::Horn.in_key(b_flat).iter().map(|crook| crook.octave).collect();
        assert_eq!(words, [Some(OctaveWord::Alto), Some(OctaveWord::Basso)]);
        assert_eq!(CrookFamily::Horn.in_key(Tonic::new(Step::F, 0)).len(), 1);
        assert_eq!(CrookFamily::Trumpet.in_key(b_flat).len(), 2);
    }
}
