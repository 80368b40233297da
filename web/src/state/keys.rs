//! Keys of the keyboard on the staff: letters enter notes, arrows move, + and - alter.

use crookwise_theory::Step;

/// What a key asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeyAction {
    /// Enter this letter behind the selected note.
    Enter(Step),
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

/// Further than any passage is long.
const FAR: isize = 1_000;

impl KeyAction {
    /// What a key means on the staff, by the name the browser gives it (W3C UI Events).
    #[must_use]
    pub fn of(key: &str, held: Held) -> Option<Self> {
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
            letter => Self::Enter(single_letter(letter)?),
        })
    }
}

fn single_letter(key: &str) -> Option<Step> {
    let mut letters = key.chars();
    let letter = letters.next()?;
    letters.next().is_none().then(|| Step::from_letter(letter)).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_mean_what_they_say() {
        let plain = |key| KeyAction::of(key, Held::default());
        let held = |key, command, shift| KeyAction::of(key, Held { command, shift, alt: false });
        assert_eq!(plain("e"), Some(KeyAction::Enter(Step::E)));
        assert_eq!(plain("E"), Some(KeyAction::Enter(Step::E)));
        assert_eq!(plain("h"), None);
        assert_eq!(plain("Enter"), None);
        assert_eq!(plain("Tab"), None);
        assert_eq!(plain("+"), Some(KeyAction::Alter(1)));
        assert_eq!(held("ArrowUp", false, true), Some(KeyAction::Octave(1)));
        assert_eq!(held("z", true, false), Some(KeyAction::Undo));
        assert_eq!(held("Z", true, true), Some(KeyAction::Redo));
        assert_eq!(held("c", true, false), None);
    }
}
