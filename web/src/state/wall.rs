//! On the wall: what the back row sees, and what is still hidden from it.

use crate::state::kept::Watched;
use crate::words;

/// A handle on what is on the wall; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Wall {
    revealed: Watched<Revealed>,
    /// Whether its controls have left, since nobody used them.
    pub alone: Watched<bool>,
}

/// Milliseconds after which controls that nobody uses leave.
const PATIENCE: f64 = 4_000.0;
/// Milliseconds after which they come back: a tap that calls them presses none of them.
const SETTLED: f64 = 120.0;

impl Wall {
    /// The page is not on the wall.
    #[must_use]
    pub fn new() -> Self {
        Self { revealed: Watched::new(Revealed::default()), alone: Watched::new(false) }
    }

    /// Whether the page is on the wall.
    #[must_use]
    pub fn is_on(self) -> bool {
        self.revealed.get().on
    }

    /// The same, for once.
    #[must_use]
    pub fn is_on_untracked(self) -> bool {
        self.revealed.get_untracked().on
    }

    /// Goes to the wall with everything hidden that can be revealed.
    pub fn enter(self) {
        self.alone.set(false);
        self.revealed.set(Revealed::begin());
    }

    /// So many milliseconds ago somebody touched it or moved something: the controls leave or come back.
    pub fn rests(self, idle: f64) {
        if idle >= PATIENCE {
            self.alone.set(true);
        } else if idle >= SETTLED {
            self.alone.set(false);
        }
    }

    /// Comes back from the wall.
    pub fn leave(self) {
        self.revealed.set(Revealed::default());
    }

    /// Whether it is shown.
    #[must_use]
    pub fn shows(self, what: Hidden) -> bool {
        self.revealed.get().shows(what)
    }

    /// Hides what is shown, reveals what is hidden.
    pub fn turn(self, what: Hidden) {
        self.revealed.set(self.revealed.get_untracked().turn(what));
    }

    /// The classes of the page in the style sheet.
    #[must_use]
    pub fn class(self) -> String {
        self.revealed.get().class()
    }
}

impl Default for Wall {
    fn default() -> Self {
        Self::new()
    }
}

/// Whether the page is on the wall, and what is shown there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Revealed {
    /// On the wall.
    pub on: bool,
    /// The staff that sounds.
    pub sounding: bool,
    /// Partials and drift.
    pub partials: bool,
    /// Names of notes.
    pub names: bool,
    /// What the column makes together, on a page of several.
    pub chord: bool,
}

/// Something that can be hidden on the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hidden {
    /// The staff that sounds.
    Sounding,
    /// Partials and drift.
    Partials,
    /// Names of notes.
    Names,
    /// What the column makes together.
    Chord,
}

impl Hidden {
    /// All of them, in the order in which a teacher reveals.
    pub const ALL: [Self; 4] = [Self::Partials, Self::Sounding, Self::Names, Self::Chord];

    /// Whether there is such a thing to hide: one player alone makes no chord.
    #[must_use]
    pub const fn is_there(self, alone: bool) -> bool {
        !(alone && matches!(self, Self::Chord))
    }

    /// Its name on the button.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sounding => words::frame::SOUNDING_STAFF,
            Self::Partials => words::frame::PARTIALS,
            Self::Names => words::frame::NAMES,
            Self::Chord => words::frame::CHORD,
        }
    }
}

impl Default for Revealed {
    fn default() -> Self {
        Self { on: false, sounding: true, partials: true, names: true, chord: true }
    }
}

impl Revealed {
    /// Goes to the wall with everything hidden that can be revealed.
    #[must_use]
    pub const fn begin() -> Self {
        Self { on: true, sounding: false, partials: false, names: false, chord: false }
    }

    /// Whether it is shown.
    #[must_use]
    pub const fn shows(self, what: Hidden) -> bool {
        match what {
            Hidden::Sounding => self.sounding,
            Hidden::Partials => self.partials,
            Hidden::Names => self.names,
            Hidden::Chord => self.chord,
        }
    }

    /// Hides what is shown, reveals what is hidden.
    #[must_use]
    pub const fn turn(self, what: Hidden) -> Self {
        match what {
            Hidden::Sounding => Self { sounding: !self.sounding, ..self },
            Hidden::Partials => Self { partials: !self.partials, ..self },
            Hidden::Names => Self { names: !self.names, ..self },
            Hidden::Chord => Self { chord: !self.chord, ..self },
        }
    }

    /// The classes of the page in the style sheet.
    #[must_use]
    pub fn class(self) -> String {
        let mut class = String::from("page");
        if self.on {
            class.push_str(" wall");
        }
        for (shown, name) in [
            (self.sounding, " no-sounding"),
            (self.partials, " no-partials"),
            (self.names, " no-names"),
            (self.chord, " no-chord"),
        ] {
            if self.on && !shown {
                class.push_str(name);
            }
        }
        class
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn controls_leave_when_nobody_uses_them_and_come_back_after_the_tap_that_called_them() {
        let owner = leptos::prelude::Owner::new();
        owner.set();
        let wall = Wall::new();
        wall.enter();
        let seen = |idle| {
            wall.rests(idle);
            !wall.alone.get()
        };
        assert_eq!([10.0, 3_900.0, 4_100.0, 60_000.0].map(seen), [true, true, false, false]);
        // Touched: the tap itself still goes to the page.
        assert_eq!([5.0, 300.0].map(seen), [false, true]);
        wall.rests(9_000.0);
        wall.enter();
        assert!(!wall.alone.get());
    }

    #[test]
    fn everything_is_revealed_one_by_one() {
        let mut wall = Revealed::begin();
        assert_eq!(wall.class(), "page wall no-sounding no-partials no-names no-chord");
        for what in Hidden::ALL {
            assert!(!wall.shows(what));
            wall = wall.turn(what);
            assert!(wall.shows(what));
        }
        assert_eq!(wall.class(), "page wall");
        assert_eq!(Revealed::default().class(), "page");
        assert_eq!(Hidden::ALL.map(|what| what.is_there(true)), [true, true, true, false]);
        assert!(Hidden::ALL.into_iter().all(|what| what.is_there(false)));
    }
}
