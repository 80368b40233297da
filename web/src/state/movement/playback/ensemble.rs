//! Who is heard, in which character, and how: what is played becomes tones.

use crookwise_opened::{MovementRows, PlayedRow, SoundRow};
use crookwise_score::performance::PlayedSound;
use crookwise_sound::{Colour, Tone};
use crookwise_theory::{Instrument, Intonation};

/// The strongest that anything is played.
const STRONGEST: f64 = 127.0;

/// Those who are heard.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ensemble {
    /// Each staff that is heard, with the character of its instrument.
    pub staves: Vec<(u32, Colour)>,
    /// Whether natural brass sounds the partials of its crooks; else it is in tune with the others.
    pub natural: bool,
    /// The tuning of everybody else.
    pub intonation: Intonation,
}

impl Ensemble {
    /// The staves of a movement that are heard.
    #[must_use]
    pub fn of(
        rows: &MovementRows,
        hears: &dyn Fn(u32) -> bool,
        natural: bool,
        intonation: Intonation,
    ) -> Self {
        let heard = rows.staves.iter().filter(|row| hears(row.staff));
        let staves = heard.map(|row| {
            let instrument = row.instrument.as_deref().and_then(Instrument::by_id);
            (row.staff, instrument.map_or(Colour::default(), Colour::of))
        });
        Self { staves: staves.collect(), natural, intonation }
    }

    /// How many play at once as loud as can be where it is full: mostly few do, and softly. A limiter holds back who are more.
    #[must_use]
    pub fn at_once(&self) -> usize {
        self.staves.len().div_ceil(6).max(1)
    }

    /// The tones of something that is played, at a time of its own and so many seconds long: two where the octave below
    /// sounds too, none of who is not heard and of what has no pitch.
    pub(super) fn tones(&self, row: &PlayedRow, (start, length): (f64, f64)) -> impl Iterator<Item = Tone> {
        let colour = self.staves.iter().find(|(staff, _)| *staff == row.staff).map(|(_, colour)| *colour);
        let hz = PlayedSound::from(row.sound).hz(&self.intonation, self.natural);
        let (colour, below) = match row.sound {
            SoundRow::Pitched(_, _, below) => (colour, below),
            SoundRow::Drum(_) => (colour.map(|_| Colour::Drum), false),
            SoundRow::Unpitched(_) => (None, false),
        };
        let (begins, ends) = (level(row.strength.0), level(row.strength.1));
        let tone = colour.zip(hz).map(|(colour, hz)| Tone {
            hz,
            start,
            length,
            level: begins,
            swell: ends / begins,
            colour,
        });
        let octave = tone.filter(|_| below).map(|tone| Tone { hz: tone.hz / 2.0, ..tone });
        tone.into_iter().chain(octave)
    }
}

/// A strength as loudness, never quite nothing.
fn level(strength: u8) -> f64 {
    let share = (f64::from(strength) / STRONGEST).clamp(0.01, 1.0);
    share * share.sqrt()
}

/// Whether some of a movement's instruments have no pitch of their own, and are therefore not heard.
#[must_use]
pub fn has_unpitched(rows: &MovementRows) -> bool {
    let instruments = rows.staves.iter().filter_map(|row| Instrument::by_id(row.instrument.as_deref()?));
    instruments.into_iter().any(|instrument| !instrument.is_pitched())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_opened::{Answer, Ask, NaturalRow, PitchRow, RoadSpot, ScoreHolder, StaffMapRow};
    use crookwise_theory::Pitch;

    fn rows() -> MovementRows {
        let staff = |staff: u32, id: &str| StaffMapRow {
            staff,
            instrument: Some(id.to_owned()),
            ..StaffMapRow::default()
        };
        MovementRows { staves: vec![staff(0, "horn"), staff(1, "cl_a")], ..MovementRows::default() }
    }

    fn pitch(text: &str) -> PitchRow {
        PitchRow::from(text.parse::<Pitch>().unwrap())
    }

    fn heard(sound: SoundRow, natural: bool, staff: u32) -> Vec<Tone> {
        let ensemble = Ensemble::of(&rows(), &|staff| staff < 2, natural, Intonation::default());
        let row = PlayedRow {
            staff,
            note: 0,
            onset: 0,
            length: 1,
            sound,
            strength: (127, 32),
            held: false,
            stroke: false,
        };
        ensemble.tones(&row, (2.0, 0.5)).collect()
    }

    #[test]
    fn natural_brass_sounds_its_partials_and_all_others_the_tuning() {
        // Partial 10 of a horn in C: E4 as the tuning wants it, else 14 cents flat.
        let natural = NaturalRow { is_horn: true, partial: Some(10), production: 0, crook: pitch("C3") };
        let note = SoundRow::Pitched(pitch("E4"), Some(natural), false);
        let hz = |natural: bool| heard(note, natural, 0)[0].hz;
        assert!((hz(true) - 327.032).abs() < 0.01 && (hz(false) - 329.628).abs() < 0.01);
        let other = SoundRow::Pitched(pitch("E4"), None, false);
        assert!((heard(other, true, 1)[0].hz - 329.628).abs() < 0.01);
        assert_eq!(
            (heard(note, true, 0)[0].colour, heard(other, true, 1)[0].colour),
            (Colour::Brass, Colour::Clarinet)
        );
    }

    #[test]
    fn octaves_below_hairpins_and_drums_are_heard_and_what_has_no_pitch_is_not() {
        let doubled = heard(SoundRow::Pitched(pitch("C3"), None, true), false, 1);
        assert!(doubled.len() == 2 && (doubled[0].hz / doubled[1].hz - 2.0).abs() < 1e-9);
        assert!((doubled[0].level - 1.0).abs() < 1e-9 && doubled[0].swell < 0.2);
        assert_eq!(heard(SoundRow::Drum(pitch("C3")), false, 0)[0].colour, Colour::Drum);
        assert!(heard(SoundRow::Unpitched(pitch("C3")), false, 0).is_empty());
        // A staff that is not heard.
        assert!(heard(SoundRow::Drum(pitch("C3")), false, 2).is_empty());
    }

    #[test]
    fn the_demo_movement_is_heard() {
        let mut holder = ScoreHolder::default();
        let file = include_bytes!("../../../../demo/movement.musicxml").to_vec();
        let mut ask = |ask: Ask, file: Vec<u8>| holder.answer(ask, file, &mut |_| {});
        ask(Ask::Open(String::new()), file);
        let Answer::Map(rows) = ask(Ask::Map, Vec::new()) else { panic!() };
        let staves: Vec<u32> = rows.staves.iter().map(|row| row.staff).collect();
        let (from, to) = (RoadSpot::bar(0), RoadSpot::bar(u32::try_from(rows.begins.len()).unwrap() - 1));
        let Answer::Play(played) = ask(Ask::Play { staves, from, to }, Vec::new()) else { panic!() };
        let ensemble = Ensemble::of(&rows, &|_| true, true, Intonation::default());
        let tones: Vec<Tone> =
            played.notes.iter().flat_map(|note| ensemble.tones(note, (0.0, 1.0))).collect();
        assert!(tones.len() >= played.notes.len(), "{} of {}", tones.len(), played.notes.len());
        assert_eq!(crookwise_sound::Mix::new(tones[..4_000.min(tones.len())].to_vec()).map(|_| ()), Ok(()));
        assert!(!has_unpitched(&rows) && ensemble.at_once() == 3);
    }
}
