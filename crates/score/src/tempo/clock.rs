//! The time along the road: quarter notes to seconds and back.

use super::Tempi;
use crate::road::Road;
use crate::score::Quarters;

/// Seconds along a road. Each is reckoned from the exact time in quarter notes and never added up from what was played before, so
/// that a stretch takes the same time whenever it is played.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RoadClock {
    pieces: Vec<Piece>,
}

/// A stretch of one tempo.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Piece {
    /// When it begins, in quarter notes from the beginning of the road.
    at: Quarters,
    /// The same in seconds.
    seconds: f64,
    /// Seconds of a quarter note.
    pace: f64,
}

impl RoadClock {
    /// The clock of a road.
    #[must_use]
    pub fn of(road: &Road, tempi: &Tempi) -> Self {
        let mut turns: Vec<Quarters> = tempi.steps.iter().map(|step| step.at).collect();
        turns.extend(tempi.held.iter().flat_map(|(from, to)| [*from, *to]));
        crookwise_theory::order::put_in_order(&mut turns, |turn| *turn);
        turns.dedup();
        let mut pieces: Vec<Piece> = Vec::new();
        let mut push = |at: Quarters, pace: f64| {
            let seconds = pieces.last().map_or(0.0, |last| last.after(at));
            if pieces.last().is_none_or(|last| last.pace.to_bits() != pace.to_bits()) {
                pieces.push(Piece { at, seconds, pace });
            }
        };
        for leg in road.legs() {
            push(leg.at, tempi.pace(leg.from));
            let after = turns.partition_point(|turn| *turn <= leg.from);
            for turn in turns.iter().skip(after).take_while(|turn| **turn < leg.to) {
                if let Some(at) = leg.on_road(*turn) {
                    push(at, tempi.pace(*turn));
                }
            }
        }
        Self { pieces }
    }

    /// Seconds from the beginning of the road to a time of it in quarter notes.
    #[must_use]
    pub fn seconds(&self, at: Quarters) -> f64 {
        self.piece(|piece| piece.at <= at).map_or(0.0, |piece| piece.after(at))
    }

    /// The time of the road so many seconds from its beginning, in quarter notes.
    #[must_use]
    pub fn quarters(&self, seconds: f64) -> f64 {
        let piece = self.piece(|piece| piece.seconds <= seconds);
        piece.map_or(0.0, |piece| piece.at.decimal() + (seconds - piece.seconds) / piece.pace)
    }

    /// Every time of the road from which a quarter note takes another time, in quarter notes; the first is its beginning.
    pub fn turns(&self) -> impl Iterator<Item = Quarters> {
        self.pieces.iter().map(|piece| piece.at)
    }

    /// Seconds that a quarter note takes at a time of the road.
    #[must_use]
    pub fn pace(&self, at: Quarters) -> f64 {
        self.piece(|piece| piece.at <= at).map_or(0.6, |piece| piece.pace)
    }

    /// The last piece that begins before something; the first where none does.
    fn piece(&self, begins: impl Fn(&Piece) -> bool) -> Option<&Piece> {
        let after = self.pieces.partition_point(begins);
        self.pieces.get(after.max(1) - 1)
    }
}

impl Piece {
    /// Seconds at a time behind its beginning.
    fn after(&self, at: Quarters) -> f64 {
        let since = at.minus(self.at).map_or_else(|| at.decimal() - self.at.decimal(), Quarters::decimal);
        self.seconds + since * self.pace
    }
}
