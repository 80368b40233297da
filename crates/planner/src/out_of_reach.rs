//! Why a crook has not a note: what a composer must know to write another one.

use crate::making::{Making, Weights, highest_written};
use crate::may_write::{on, written_at};
use crookwise_theory::{Crook, Production, Reach, Sounding};

/// A partial, and what it sounds on the crook.
pub type SoundingPartial = (u8, Sounding);

/// Why a crook has not a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OutOfReach {
    /// It lies below the lowest note of the crook, which sounds so.
    Below(Sounding),
    /// It lies above the highest partial that is asked of anybody.
    AboveAsked(SoundingPartial),
    /// It lies above the highest partial that is played at all.
    Above(SoundingPartial),
    /// It lies between two partials, and neither hand nor lip makes it of one of them.
    Between(SoundingPartial, SoundingPartial),
    /// It would be made so, which counts nothing.
    NotAsked(Production),
}

/// Why a crook has not a note; `None` where it has it.
#[must_use]
pub fn why(crook: &'static Crook, sounding: Sounding, weights: &Weights) -> Option<OutOfReach> {
    if on(crook, sounding, weights).is_some() {
        return None;
    }
    let written = Making::of(crook, sounding, weights).written.0.midi();
    let partial = |number: u8, midi: i32| (number, crook.transposition.to_sounding(written_at(midi)));
    let asked = highest_written(weights.highest);
    let all = Reach::all(crook.family);
    let made = |row: &&Reach| row.production != Production::Unavailable;
    let (first, last) = (all.iter().find(made)?, all.iter().rfind(made)?);
    let series = || all.iter().filter(made).filter_map(|row| Some((row.partial?, row.written_midi)));
    if written > asked && asked < last.written_midi {
        return Some(OutOfReach::AboveAsked(partial(weights.highest, asked)));
    }
    if written > last.written_midi {
        let highest = last.partial.unwrap_or(weights.highest);
        return Some(OutOfReach::Above(partial(highest, last.written_midi)));
    }
    if written < first.written_midi {
        return Some(OutOfReach::Below(crook.transposition.to_sounding(written_at(first.written_midi))));
    }
    if let Some(row) = all.iter().filter(made).find(|row| row.written_midi == written) {
        return Some(OutOfReach::NotAsked(row.production));
    }
    let (below, at) = series().take_while(|(_, midi)| *midi < written).last()?;
    let (above, next) = series().find(|(_, midi)| *midi > written)?;
    Some(OutOfReach::Between(partial(below, at), partial(above, next)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::request::NamedCrook;
    use crookwise_theory::CrookFamily;

    fn sounding(name: &str) -> Sounding {
        Sounding(name.parse().unwrap())
    }

    fn told(family: CrookFamily, crook: &str, note: &str, weights: &Weights) -> Option<OutOfReach> {
        why(NamedCrook::named(family, crook).unwrap().crook, sounding(note), weights)
    }

    #[test]
    fn every_reason_is_told() {
        use CrookFamily::{Horn, Trumpet};
        let usual = Weights::default();
        let in_d = |family, note| told(family, "D", note, &usual);
        assert_eq!(in_d(Horn, "D3"), None);
        assert_eq!(in_d(Horn, "C2"), Some(OutOfReach::Below(sounding("D2"))));
        assert_eq!(in_d(Trumpet, "G3"), Some(OutOfReach::Below(sounding("A3"))));
        assert_eq!(in_d(Horn, "Bb4"), Some(OutOfReach::AboveAsked((12, sounding("A4")))));
        let (two, three) = ((2, sounding("D2")), (3, sounding("A2")));
        assert_eq!(in_d(Horn, "Eb2"), Some(OutOfReach::Between(two, three)));
        let (four, five) = ((4, sounding("D4")), (5, sounding("F#4")));
        assert_eq!(in_d(Trumpet, "E4"), Some(OutOfReach::Between(four, five)));
        let all = Weights { highest: 32, ..Weights::default() };
        assert_eq!(told(Horn, "D", "E5", &all), Some(OutOfReach::Above((16, sounding("D5")))));
        let worth = [1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
        let no_hand = Weights { worth, ..Weights::default() };
        let told = told(Horn, "D", "E3", &no_hand);
        assert_eq!(told, Some(OutOfReach::NotAsked(Production::ThreeQuarter)));
    }

    /// Whatever is asked: a note is had, or there is a reason.
    #[test]
    fn no_note_is_left_without_an_answer() {
        for family in [CrookFamily::Horn, CrookFamily::Trumpet] {
            for crook in family.crooks() {
                for (midi, highest) in (0..=127).flat_map(|midi| [2, 8, 12, 16, 32].map(|top| (midi, top))) {
                    let weights = Weights { highest, ..Weights::default() };
                    let note = Sounding(written_at(midi).0);
                    let is_had = on(crook, note, &weights).is_some();
                    assert_eq!(is_had, why(crook, note, &weights).is_none(), "{} {midi}", crook.name);
                }
            }
        }
    }
}
