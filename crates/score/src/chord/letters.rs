//! Letters: what the staves call the keys that sound, what the movement's key calls them, and what they are called in
//! the end. Names without octave are places on the line of fifths.

use super::build::Built;
use super::shape::{Tone, fifths};
use super::{Heard, Spelled};
use crookwise_theory::spelling::in_key;
use crookwise_theory::{Interval, Key, Pitch, Tonic};

/// Beyond so many fifths from C a letter is nobody's intention.
const FARTHEST: i32 = 60;
/// The middle of the natural notes: D.
const MIDDLE: i32 = 2;
/// The farthest notes of a key, in fifths from its tonic: the lowered first degree and the raised sixth.
const IN_KEY: core::ops::RangeInclusive<i32> = -7..=10;

/// The key of the keyboard, 0 (C) to 11.
pub(super) fn key_of(pitch: Pitch) -> i32 {
    pitch.semitones().rem_euclid(12)
}

/// The key of the keyboard at a place on the line of fifths.
pub(super) fn key_at(fifths: i32) -> i32 {
    fifths.saturating_mul(7).rem_euclid(12)
}

/// The name at a place on the line of fifths.
pub(super) fn tonic_of(fifths: i32) -> Tonic {
    Tonic::from_fifths(fifths)
}

/// All that is known about the letters of the keys that sound.
pub(super) struct Page {
    pub movement: Option<Key>,
    /// What all staves that have a say agree on, by key of the keyboard.
    agreed: [Option<i32>; 12],
    /// What each key that sounds is called.
    names: [Option<i32>; 12],
}

impl Page {
    /// The staves' letters; `order` goes from the lowest sound up.
    pub fn of(heard: &[Heard], order: &[usize], movement: Option<Key>) -> Self {
        let mut page = Self { movement, agreed: [None; 12], names: [None; 12] };
        for sounding in 0..12 {
            let mut sounds = false;
            let mut said: Option<i32> = None;
            let mut apart = false;
            let mut plain: Option<i32> = None;
            for one in order.iter().filter_map(|&place| heard.get(place)) {
                if key_of(one.pitch) != sounding {
                    continue;
                }
                sounds = true;
                let letter = one.pitch.tonic().fifths();
                if letter.saturating_abs() > FARTHEST {
                    continue;
                }
                if one.spells {
                    apart |= said.is_some_and(|said| said != letter);
                    said = said.or(Some(letter));
                }
                // Among staves that disagree the plainest letter, so that their order does not matter.
                plain = plain.filter(|&best| from_middle(best) <= from_middle(letter)).or(Some(letter));
            }
            let agreed = said.filter(|_| !apart);
            let name = match movement {
                Some(key) => keyed(sounding, key),
                None => agreed.or(plain).unwrap_or_else(|| plainest(sounding)),
            };
            if let (Some(slot), Some(names)) =
                (page.agreed.get_mut(sounding as usize), page.names.get_mut(sounding as usize))
            {
                *slot = agreed;
                *names = sounds.then_some(name);
            }
        }
        page
    }

    /// Whether a key of the keyboard sounds.
    pub fn sounds(&self, sounding: i32) -> bool {
        at(&self.names, sounding).is_some()
    }

    /// The keys that sound, one bit each from C.
    pub fn keys(&self) -> u32 {
        (0..12).filter(|&sounding| self.sounds(sounding)).fold(0, |keys, sounding| keys | 1 << sounding)
    }

    /// What the staves agree to call a key.
    pub fn agreed(&self, sounding: i32) -> Option<i32> {
        at(&self.agreed, sounding)
    }

    /// What a key that sounds is called.
    pub fn tonic(&self, sounding: i32) -> Tonic {
        tonic_of(at(&self.names, sounding).unwrap_or_else(|| plainest(sounding)))
    }

    /// Where a key of the keyboard stands in the movement's key: fifths from its tonic, −5 to 6.
    pub fn place_in_key(&self, sounding: i32) -> Option<i32> {
        self.movement.map(|key| keyed(sounding, key).saturating_sub(key.tonic.fifths()))
    }

    /// Whether no letter of the staves speaks against a chord on this root.
    pub fn consistent(&self, tones: &[Tone], root: i32) -> bool {
        let mut roots = tones.iter().filter_map(|&tone| Some(self.agreed(root + tone.0)? - fifths(tone)));
        let first = roots.next();
        roots.all(|other| Some(other) == first)
    }

    /// The name of a root, so that its chord lies well in the key, or agrees with the staves.
    pub fn root(&self, tones: &[Tone], root: i32) -> i32 {
        let Some(key) = self.movement else { return self.root_by_staves(tones, root) };
        let home = key.tonic.fifths();
        let lies_well = |name: i32| {
            tones
                .iter()
                .all(|&tone| IN_KEY.contains(&(name.saturating_add(fifths(tone)).saturating_sub(home))))
        };
        let name = keyed(root, key);
        [name, name.saturating_add(12), name.saturating_sub(12)]
            .into_iter()
            .find(|&name| lies_well(name))
            .unwrap_or(name)
    }

    fn root_by_staves(&self, tones: &[Tone], root: i32) -> i32 {
        let agreeing = |name: i32| {
            tones.iter().filter(|&&tone| self.agreed(root + tone.0) == Some(name + fifths(tone))).count()
        };
        // Signs of the chord: how far its notes lie from the natural ones.
        let strange = |name: i32| tones.iter().map(|&tone| name + fifths(tone) - MIDDLE).sum::<i32>().abs();
        let plain = plainest(root);
        let mut best = plain;
        let by_letter = tones.iter().filter_map(|&tone| Some(self.agreed(root + tone.0)? - fifths(tone)));
        for name in by_letter.chain([plain + 12, plain - 12]) {
            let (ours, theirs) = (agreeing(name), agreeing(best));
            if ours > theirs || (ours == theirs && strange(name) < strange(best)) {
                best = name;
            }
        }
        best
    }

    /// Calls the members of a chord as the chord has them.
    pub fn adopt(&mut self, built: &Built) {
        for &tone in built.tones {
            let name = built.root.saturating_add(fifths(tone));
            if let Some(slot) = self.names.get_mut(key_at(name) as usize) {
                *slot = Some(name);
            }
        }
    }

    /// Calls two keys so that they make an interval that is in use, where no key says so already.
    pub fn pair(&mut self, bass: i32, other: i32) {
        let (Some(low), Some(high)) = (at(&self.names, bass), at(&self.names, other)) else { return };
        if self.movement.is_some() || (high - low).abs() <= 6 {
            return;
        }
        let usual = Interval::usual((other - bass).rem_euclid(12)).fifths();
        let keep_bass = (low, low + usual);
        let keep_other = (high - usual, high);
        let signs = |(low, high): (i32, i32)| from_middle(low).0 + from_middle(high).0;
        let (low, high) = if signs(keep_bass) <= signs(keep_other) { keep_bass } else { keep_other };
        for (sounding, name) in [(bass, low), (other, high)] {
            if let Some(slot) = self.names.get_mut(sounding as usize) {
                *slot = Some(name);
            }
        }
    }

    /// From the bass up to another key, within the octave, by their names.
    pub fn interval(&self, bass: i32, other: i32) -> Interval {
        let name = |sounding| at(&self.names, sounding).unwrap_or_else(|| plainest(sounding));
        let semitones = (other - bass).rem_euclid(12);
        Interval::new((semitones * 7 - (name(other) - name(bass))) / 12, semitones)
    }

    /// The same sound by its name.
    pub fn spelled(&self, pitch: Pitch) -> Spelled {
        let strict = pitch.tonic();
        let name = at(&self.names, key_of(pitch)).map_or(strict, tonic_of);
        if name == strict {
            return Spelled { pitch, respelled: false };
        }
        let above = pitch.semitones().saturating_sub(name.step.semitones()).saturating_sub(name.alter);
        Spelled { pitch: Pitch::new(name.step, name.alter, above.div_euclid(12)), respelled: true }
    }
}

fn at(names: &[Option<i32>; 12], sounding: i32) -> Option<i32> {
    names.get(sounding.rem_euclid(12) as usize).copied().flatten()
}

/// Fifths from the natural notes, flats after sharps where they are as far.
fn from_middle(name: i32) -> (i32, i32) {
    let far = name.saturating_sub(MIDDLE).saturating_abs();
    (far, name.saturating_neg())
}

/// The name with the fewest signs: from D-flat to F-sharp.
fn plainest(sounding: i32) -> i32 {
    // Seven semitones are a fifth, and seven times seven is one more than four octaves.
    (sounding.rem_euclid(12) * 7 + 5).rem_euclid(12) - 5
}

/// What a key of the keyboard is called in the movement's key.
fn keyed(sounding: i32, key: Key) -> i32 {
    let plain = tonic_of(plainest(sounding));
    let home = key.tonic.fifths();
    // Spelled from near the key, so that the choice is among all that are near it.
    let apart = plain.fifths().saturating_sub(home).saturating_add(5).rem_euclid(12) - 5;
    let near = tonic_of(home.saturating_add(apart));
    in_key(Pitch::new(near.step, near.alter, 4), key).tonic().fifths()
}
