//! Keys of the keyboard on the staff: letters enter notes, arrows move, + and - alter.

use crate::words::Letters;
use crookwise_theory::Step;

/// What a key asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeyAction {
    /// Enter this letter behind the selected note.
    Enter(Step),
    /// Enter this letter so altered, in semitones, whatever the signature says.
    EnterAltered(Step, i32),
    /// Enter a rest behind the selected note.
    Rest,
    /// Select so many columns on.
    Select(isize),
    /// Select the staff so many places further down.
    SelectStaff(isize),
    /// Move the selected note by letters.
    Move(i32),
    /// Move the selected note by octaves.
    Octave(i32),
    /// Raise or lower the selected note on its letter, in semitones.
    Alter(i32),
    /// Take the selected column out.
    Remove,
    /// Take back the last step.
    Undo,
    /// Do it again.
    Redo,
}

/// Which keys are held down besides.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Held {
    /// Control or command.
    pub command: bool,
    /// Shift.
    pub shift: bool,
    /// Alt.
    pub alt: bool,
}

/// A cell of the sheet: its staff, its player, and its column, or none where the next note goes.
pub type Focus = (usize, usize, Option<usize>);

/// The cell that an element of the sheet stands for, by its id.
#[must_use]
pub fn cell(id: &str) -> Option<Focus> {
    let (kind, numbers) = id.split_once('-')?;
    let mut numbers = numbers.split('-').map(|number| number.parse().ok());
    let (staff, player) = (numbers.next()??, numbers.next()??);
    match kind {
        "note" => Some((staff, player, Some(numbers.next()??))),
        "next" => Some((staff, player, None)),
        _ => None,
    }
}

/// The id of the element that stands for a cell.
#[must_use]
pub fn id((staff, player, column): Focus) -> String {
    match column {
        Some(column) => format!("note-{staff}-{player}-{column}"),
        None => format!("next-{staff}-{player}"),
    }
}

/// Further than any passage is long.
const FAR: isize = 1_000;

impl KeyAction {
    /// What a key means on the staff, by the name the browser gives it (W3C UI Events). With German names the key B
    /// enters B-flat and H enters B natural.
    #[must_use]
    pub fn of(key: &str, held: Held, letters: Letters) -> Option<Self> {
        if held.command {
            return match (key, held.shift) {
                ("z", false) => Some(Self::Undo),
                ("y", false) | ("z" | "Z", true) => Some(Self::Redo),
                _ => None,
            };
        }
        if held.alt {
            return None;
        }
        Some(match key {
            "ArrowLeft" => Self::Select(-1),
            "ArrowRight" => Self::Select(1),
            "PageUp" => Self::SelectStaff(-1),
            "PageDown" => Self::SelectStaff(1),
            "Home" => Self::Select(-FAR),
            "End" => Self::Select(FAR),
            "ArrowUp" if held.shift => Self::Octave(1),
            "ArrowDown" if held.shift => Self::Octave(-1),
            "ArrowUp" => Self::Move(1),
            "ArrowDown" => Self::Move(-1),
            "+" | "=" => Self::Alter(1),
            "-" | "_" => Self::Alter(-1),
            "Delete" | "Backspace" => Self::Remove,
            letter => entered(letter, letters)?,
        })
    }

    /// What it means on the wall, where the page is read and nothing enters or changes a note: the page keys are a
    /// clicker's, which steps through the columns, and arrows go from staff to staff.
    #[must_use]
    pub const fn on_the_wall(self) -> Option<Self> {
        match self {
            Self::Select(_) | Self::Undo | Self::Redo => Some(self),
            Self::Move(places) => Some(Self::SelectStaff(-places as isize)),
            _ => None,
        }
    }
}

fn entered(key: &str, names: Letters) -> Option<KeyAction> {
    let mut letters = key.chars();
    let letter = letters.next()?.to_ascii_uppercase();
    if letters.next().is_some() {
        return None;
    }
    Some(match (names, letter) {
        (Letters::German, 'B') => KeyAction::EnterAltered(Step::B, -1),
        (Letters::German, 'H') => KeyAction::EnterAltered(Step::B, 0),
        (_, 'R') => KeyAction::Rest,
        _ => KeyAction::Enter(Step::from_letter(letter)?),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_known_by_their_ids() {
        assert_eq!(cell("note-3-1-12"), Some((3, 1, Some(12))));
        assert_eq!(cell("next-0-2"), Some((0, 2, None)));
        for focus in [(3, 1, Some(12)), (0, 2, None)] {
            assert_eq!(cell(&id(focus)), Some(focus));
        }
        for other in ["", "sheet", "note", "note-1", "note-1-x-2", "share-1-2"] {
            assert_eq!(cell(other), None);
        }
    }

    #[test]
    fn on_the_wall_keys_lead_and_change_no_note() {
        let on_the_wall =
            |key| KeyAction::of(key, Held::default(), Letters::English).and_then(KeyAction::on_the_wall);
        assert_eq!(on_the_wall("ArrowUp"), Some(KeyAction::SelectStaff(-1)));
        assert_eq!(on_the_wall("ArrowRight"), Some(KeyAction::Select(1)));
        for key in ["e", "r", "+", "-", "Delete", "Backspace", "PageUp"] {
            assert_eq!(on_the_wall(key), None, "{key}");
        }
        let up = KeyAction::of("ArrowUp", Held { shift: true, ..Held::default() }, Letters::English);
        assert_eq!(up.and_then(KeyAction::on_the_wall), None);
    }

    #[test]
    fn keys_mean_what_they_say() {
        let plain = |key| KeyAction::of(key, Held::default(), Letters::English);
        let held =
            |key, command, shift| KeyAction::of(key, Held { command, shift, alt: false }, Letters::English);
        assert_eq!(plain("e"), Some(KeyAction::Enter(Step::E)));
        assert_eq!(plain("E"), Some(KeyAction::Enter(Step::E)));
        assert_eq!(plain("h"), None);
        assert_eq!(plain("r"), Some(KeyAction::Rest));
        assert_eq!(plain("Enter"), None);
        assert_eq!(plain("Tab"), None);
        assert_eq!(plain("+"), Some(KeyAction::Alter(1)));
        assert_eq!(held("ArrowUp", false, true), Some(KeyAction::Octave(1)));
        assert_eq!(held("z", true, false), Some(KeyAction::Undo));
        assert_eq!(held("Z", true, true), Some(KeyAction::Redo));
        assert_eq!(held("c", true, false), None);
        let german = |key| KeyAction::of(key, Held::default(), Letters::German);
        assert_eq!(german("b"), Some(KeyAction::EnterAltered(Step::B, -1)));
        assert_eq!(german("h"), Some(KeyAction::EnterAltered(Step::B, 0)));
        assert_eq!(german("e"), Some(KeyAction::Enter(Step::E)));
    }
}
