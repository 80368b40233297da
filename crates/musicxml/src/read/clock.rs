//! Time within a bar.

use super::raw::RawTime;
use crookwise_score::score::Quarters;

/// Quarter notes of the longest note or step in time that is taken for true.
pub(super) const LONGEST: i32 = 1024;

/// Where the reading of a bar has come to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Clock {
    bar: u32,
    now: Quarters,
    /// As far as anything came.
    reached: Quarters,
    /// Grace notes in a row before what comes next.
    graces: u32,
    /// When the note before began, for those on its stem.
    last: RawTime,
}

impl Clock {
    pub fn new(bar: u32) -> Self {
        let last = RawTime { bar, offset: Quarters::ZERO, graces: 0 };
        Self { bar, now: Quarters::ZERO, reached: Quarters::ZERO, graces: 0, last }
    }

    pub fn now(&self) -> RawTime {
        RawTime { bar: self.bar, offset: self.now, graces: self.graces }
    }

    /// When the note before began.
    pub fn last(&self) -> RawTime {
        self.last
    }

    /// A time away from now, as directions may stand.
    pub fn beside(&self, by: Quarters) -> RawTime {
        let offset = self.now.plus(by).filter(|time| *time >= Quarters::ZERO).unwrap_or(self.now);
        RawTime { bar: self.bar, offset, graces: if offset == self.now { self.graces } else { 0 } }
    }

    pub fn reached(&self) -> Quarters {
        self.reached
    }

    /// A note of some length begins now, and time goes on behind it.
    pub fn note(&mut self, length: Quarters) -> RawTime {
        self.last = self.now();
        self.forward(length);
        self.last
    }

    /// A note on the stem of the one before.
    pub fn on_stem(&mut self, length: Quarters) -> RawTime {
        if let Some(end) = self.last.offset.plus(length) {
            self.reached = self.reached.max(end);
        }
        self.last
    }

    /// A grace note: time stands.
    pub fn grace(&mut self) -> RawTime {
        self.last = self.now();
        self.graces = self.graces.saturating_add(1);
        self.last
    }

    pub fn forward(&mut self, by: Quarters) {
        if by > Quarters::ZERO {
            self.now = self.now.plus(by).unwrap_or(self.now);
            self.reached = self.reached.max(self.now);
            self.graces = 0;
        }
    }

    /// Goes back; whether that is within the bar. If not, it stands at the beginning.
    pub fn back(&mut self, by: Quarters) -> bool {
        self.graces = 0;
        let back = self.now.minus(by).filter(|time| *time >= Quarters::ZERO);
        self.now = back.unwrap_or(Quarters::ZERO);
        back.is_some()
    }
}
