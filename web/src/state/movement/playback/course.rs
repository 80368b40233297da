//! What is told to the ear, stretch by stretch: the tones of the bars that come next, each at its time.
//!
//! Times are whole millionths of a second from the beginning of all, and every round of a loop begins where so many of them
//! have gone by: nothing is added up that was rounded, so that the last round begins as exactly as the first.

use super::ensemble::Ensemble;
use super::{Places, road};
use crookwise_opened::{MovementRows, PlayedRow, PlayedRows};
use crookwise_sound::Tone;
use std::sync::Arc;

/// A stretch that is asked for is so many millionths of a second long, at least, unless the end comes before.
const STRETCH: u64 = 4_000_000;
/// What is left of a note is heard if it is so long, likewise.
const SHORTEST: u64 = 30_000;

/// What is to be heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tour {
    /// The bars of the road.
    pub places: Places,
    /// Where it begins, in millionths of a second along the road, within them.
    pub from: u64,
    /// Whether it begins anew with the first of them when it is over.
    pub rounds: bool,
    /// How fast, in hundredths of the written tempo.
    pub tempo: u8,
}

/// How far it has been told.
#[derive(Clone, Debug)]
pub struct Course {
    rows: Arc<MovementRows>,
    tour: Tour,
    /// How many rounds have been told.
    round: u64,
    /// The bar of the road that is told next; none when all has been told.
    next: Option<u32>,
    /// Whether nothing was told of this round.
    is_new: bool,
}

/// How much of it is asked for next, from a bar on, up to the one behind the last.
#[must_use]
pub fn stretch(rows: &MovementRows, from: u32, end: u32) -> Places {
    let long_enough = |to: &u32| road::begins(rows, *to) >= road::begins(rows, from) + STRETCH;
    (from, (from + 1..end).find(long_enough).unwrap_or(end))
}

impl Course {
    /// Nothing has been told.
    #[must_use]
    pub fn new(rows: Arc<MovementRows>, tour: Tour) -> Self {
        let (begin, end) = tour.places;
        let first = road::place_at(&rows, tour.from).min(end.saturating_sub(1)).max(begin);
        let next = (begin < end).then_some(first);
        Self { rows, tour, round: 0, next, is_new: true }
    }

    /// The bars that are to be told next; none when all has been told.
    #[must_use]
    pub fn next(&self) -> Option<Places> {
        self.next.map(|next| stretch(&self.rows, next, self.tour.places.1))
    }

    /// The tones of the bars that were to be told next, as they are played.
    pub fn tell(&mut self, played: &PlayedRows, ensemble: &Ensemble) -> Vec<Tone> {
        let Some((from, to)) = self.next() else { return Vec::new() };
        let mut tones = Vec::with_capacity(played.notes.len());
        for note in &played.notes {
            if let Some(span) = self.span(note, road::begins(&self.rows, from)) {
                tones.extend(ensemble.tones(note, span));
            }
        }
        self.is_new = false;
        self.next = Some(to);
        if to >= self.tour.places.1 {
            self.next = self.tour.rounds.then_some(self.tour.places.0);
            self.round += 1;
            self.is_new = true;
        }
        tones
    }

    /// When a note of a stretch begins, and how long it sounds, in seconds as they are heard; none of what is not.
    fn span(&self, note: &PlayedRow, begins: u64) -> Option<(f64, f64)> {
        // What began before goes on from the stretch before, unless there was none.
        if note.held && !self.is_new {
            return None;
        }
        let onset = begins.saturating_add(note.onset);
        let mut end = onset.saturating_add(note.length);
        if self.tour.rounds {
            end = end.min(road::begins(&self.rows, self.tour.places.1));
        }
        let from = if self.round == 0 { onset.max(self.tour.from) } else { onset };
        let is_cut = from > onset;
        let left = end.checked_sub(from)?;
        if left == 0 || (is_cut && left < SHORTEST) {
            return None;
        }
        Some((self.seconds(self.elapsed(from)), self.seconds(left)))
    }

    /// Millionths of a second from the beginning of all to a time of the road in this round.
    fn elapsed(&self, at: u64) -> u64 {
        let Tour { places: (first, end), from, .. } = self.tour;
        let (first, end) = (road::begins(&self.rows, first), road::begins(&self.rows, end));
        match self.round.checked_sub(1) {
            None => at.saturating_sub(from),
            Some(rounds) => {
                let before = end.saturating_sub(from).saturating_add(rounds.saturating_mul(end - first));
                before.saturating_add(at.saturating_sub(first))
            }
        }
    }

    /// Seconds as they are heard.
    fn seconds(&self, millionths: u64) -> f64 {
        millionths as f64 / (f64::from(self.tour.tempo.max(1)) * 10_000.0)
    }

    /// How many seconds have been told, and whether that is all.
    #[must_use]
    pub fn known(&self) -> (f64, bool) {
        let Some(next) = self.next else {
            // What still sounds at the end dies away.
            let end = road::begins(&self.rows, self.tour.places.1).saturating_sub(self.tour.from);
            return (self.seconds(end) + 1.0, true);
        };
        (self.seconds(self.elapsed(road::begins(&self.rows, next))), false)
    }

    /// The time of the road that is heard after so many seconds.
    #[must_use]
    pub fn road_at(&self, seconds: f64) -> u64 {
        let Tour { places: (first, end), from, .. } = self.tour;
        let (first, end) = (road::begins(&self.rows, first), road::begins(&self.rows, end));
        let gone = (seconds.max(0.0) * f64::from(self.tour.tempo) * 10_000.0) as u64;
        let at = from.saturating_add(gone);
        match at.checked_sub(end) {
            Some(over) if self.tour.rounds => first + over % (end - first).max(1),
            _ => at.min(end),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::movement::playback::road::tests::rows;
    use crookwise_opened::{PitchRow, SoundRow};
    use crookwise_sound::Colour;
    use crookwise_theory::Pitch;

    fn note(staff: u32, onset: u64, length: u64) -> PlayedRow {
        let pitch: Pitch = "A4".parse().unwrap();
        let sound = SoundRow::Pitched(PitchRow::from(pitch), None, false);
        PlayedRow { staff, note: 0, onset, length, sound, strength: (90, 90), held: false, stroke: false }
    }

    fn ensemble(staves: &[u32]) -> Ensemble {
        Ensemble {
            staves: staves.iter().map(|staff| (*staff, Colour::Brass)).collect(),
            ..Ensemble::default()
        }
    }

    /// A note on every second of the road for staff 0, half a second long, and for staff 1 one that is held through all.
    fn played(rows: &MovementRows, (from, to): Places) -> PlayedRows {
        let (begin, end) = (road::begins(rows, from), road::begins(rows, to));
        let struck = (begin..end).step_by(1_000_000).map(|at| note(0, at - begin, 500_000));
        let all = road::begins(rows, u32::MAX);
        let long = PlayedRow { held: begin > 0, ..note(1, 0, all - begin) };
        PlayedRows { length: end - begin, notes: core::iter::once(long).chain(struck).collect() }
    }

    /// Tells so many stretches; each tone with when it begins and how long it is.
    fn told(tour: Tour, stretches: usize, staves: &[u32]) -> (Vec<(f64, f64)>, Course) {
        let rows = Arc::new(rows());
        let mut course = Course::new(Arc::clone(&rows), tour);
        let mut all = Vec::new();
        for _ in 0..stretches {
            let Some(next) = course.next() else { break };
            let before = course.known().0;
            let tones = course.tell(&played(&rows, next), &ensemble(staves));
            assert!(tones.iter().all(|tone| tone.start >= before - 1e-9), "told too late");
            all.extend(tones.iter().map(|tone| (tone.start, tone.length)));
        }
        (all, course)
    }

    const WHOLE: Tour = Tour { places: (0, 10), from: 0, rounds: false, tempo: 100 };

    #[test]
    fn all_of_a_movement_is_told_once_stretch_by_stretch_repeats_too() {
        let (tones, course) = told(WHOLE, 99, &[0]);
        let expected: Vec<(f64, f64)> = (0..12).map(|second| (f64::from(second), 0.5)).collect();
        assert_eq!(tones, expected);
        assert_eq!((course.next(), course.known()), (None, (13.0, true)));
        // At least four seconds at a time, by whole bars.
        let (_, first) = told(WHOLE, 0, &[0]);
        assert_eq!((first.next(), first.known()), (Some((0, 3)), (0.0, false)));
        let (_, second) = told(WHOLE, 1, &[0]);
        assert_eq!((second.next(), second.known()), (Some((3, 6)), (4.0, false)));
        // What sounds on from stretch to stretch is struck once.
        assert_eq!(told(WHOLE, 99, &[1]).0, [(0.0, 12.0)]);
    }

    #[test]
    fn twenty_rounds_of_a_loop_begin_as_exactly_as_the_first() {
        let tour = Tour { places: (1, 4), from: 1_000_000, rounds: true, tempo: 70 };
        let (tones, course) = told(tour, 20, &[0]);
        assert_eq!(tones.len(), 80);
        for (at, (start, _)) in (0_u32..).zip(&tones) {
            // By whole numbers of samples too.
            let exact = f64::from(at) / 0.7;
            assert!((start - exact).abs() < 1e-9, "{start} for {exact}");
            assert_eq!((start * 44_100.0).round().to_bits(), (exact * 44_100.0).round().to_bits());
        }
        assert!((course.known().0 - 80.0 / 0.7).abs() < 1e-9 && !course.known().1);
        // In the nineteenth round, a second and a half behind its beginning.
        assert_eq!(course.road_at((18.0 * 4.0 + 1.5) / 0.7 + 1e-7), 2_500_000);
        // What sounds on is struck anew with each round and ends with it.
        let held = told(tour, 2, &[1]).0;
        assert!(
            (held[0].1 - 4.0 / 0.7).abs() < 1e-9 && (held[1].0 - 4.0 / 0.7).abs() < 1e-9 && held.len() == 2
        );
    }

    #[test]
    fn who_begins_within_a_note_hears_the_rest_of_it() {
        let from = 4_250_000;
        let (tones, course) = told(Tour { from, ..WHOLE }, 1, &[0, 1]);
        assert_eq!(course.tour.from, from);
        // The long one at once, a quarter of a second of the one that was struck, then the next.
        assert_eq!(tones[..3], [(0.0, 7.75), (0.0, 0.25), (0.75, 0.5)]);
        assert_eq!(course.road_at(0.0), from);
        // Nothing is heard of what ends just then.
        let (tones, _) = told(Tour { from: 4_480_000, ..WHOLE }, 1, &[0]);
        assert_eq!(tones[0].1, 0.5);
        // A loop that is begun in its middle begins anew at its beginning.
        let tour = Tour { places: (1, 3), from: 3_500_000, rounds: true, tempo: 100 };
        let (tones, course) = told(tour, 2, &[0]);
        assert_eq!(tones, [(0.5, 0.5), (1.5, 0.5), (2.5, 0.5)]);
        assert_eq!((course.road_at(0.4), course.road_at(0.6)), (3_900_000, 1_100_000));
    }

    #[test]
    fn at_half_the_tempo_everything_takes_twice_as_long() {
        let (tones, course) = told(Tour { tempo: 50, ..WHOLE }, 1, &[0]);
        assert_eq!(tones[..2], [(0.0, 1.0), (2.0, 1.0)]);
        assert_eq!((course.known().0, course.road_at(3.0)), (8.0, 1_500_000));
    }

    #[test]
    fn who_is_not_in_the_ensemble_is_silent() {
        assert!(told(WHOLE, 9, &[]).0.is_empty() && told(WHOLE, 9, &[7]).0.is_empty());
        assert_eq!(told(WHOLE, 9, &[0, 1]).0.len(), 13);
    }

    #[test]
    fn a_place_that_is_not_there_is_not_told() {
        for places in [(3, 3), (5, 2)] {
            assert_eq!(Course::new(Arc::new(rows()), Tour { places, ..WHOLE }).next(), None);
        }
        let nothing = Course::new(Arc::default(), WHOLE);
        assert_eq!((nothing.known().0, nothing.road_at(7.0)), (0.0, 0));
    }
}
