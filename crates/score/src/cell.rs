//! What the players of one staff do in one column.

use crookwise_theory::Printed;

/// What a player does in a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Event {
    /// Begins a note, as printed.
    Note(Printed),
    /// Holds the note before.
    Held,
    /// Is silent.
    Rest,
}

/// One column of one staff: an event for each player, or one for all of them ("a 2").
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Cell {
    /// Every player does the same, written once.
    Together(Event),
    /// Each player from the first on; a player not listed rests.
    Each(Vec<Event>),
}

impl Cell {
    /// Everybody rests.
    pub const REST: Self = Self::Together(Event::Rest);

    /// What a player does, counted from 0.
    #[must_use]
    pub fn of(&self, player: usize) -> Event {
        match self {
            Self::Together(event) => *event,
            Self::Each(events) => events.get(player).copied().unwrap_or(Event::Rest),
        }
    }

    /// Sets what one player does and leaves the others as they were.
    pub(crate) fn set(&mut self, player: usize, players: usize, event: Event) {
        if players <= 1 {
            *self = Self::Together(event);
            return;
        }
        let mut events: Vec<Event> = (0..players).map(|other| self.of(other)).collect();
        if let Some(slot) = events.get_mut(player) {
            *slot = event;
        }
        let silent = events.iter().all(|event| *event == Event::Rest);
        *self = if silent { Self::REST } else { Self::Each(events) };
    }

    /// The cell of a column opened before this one: who holds here holds there, all others rest.
    pub(crate) fn held_through(&self) -> Self {
        let through = |event: Event| if event == Event::Held { Event::Held } else { Event::Rest };
        match self {
            Self::Together(event) => Self::Together(through(*event)),
            Self::Each(events) if events.contains(&Event::Held) => {
                Self::Each(events.iter().copied().map(through).collect())
            }
            Self::Each(_) => Self::REST,
        }
    }

    /// The same cell for another number of players: who stays goes on as before, who comes rests, and a held
    /// note is held by each.
    pub(crate) fn for_players(&self, players: usize) -> Self {
        match self {
            _ if players <= 1 => Self::Together(self.of(0)),
            Self::Together(Event::Held) => Self::Each(vec![Event::Held; players]),
            Self::Together(event) => Self::Together(*event),
            Self::Each(events) => {
                let mut cell = Self::REST;
                for (player, &event) in events.iter().enumerate().take(players) {
                    cell.set(player, players, event);
                }
                cell
            }
        }
    }

    /// Whether it is one note for all ("a 2").
    #[must_use]
    pub const fn is_together(&self) -> bool {
        matches!(self, Self::Together(Event::Note(_)))
    }
}
