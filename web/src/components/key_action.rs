//! What a key that is pressed on the page means, and the way back by the platform's keys.

use crate::browser::{field, screen};
use crate::state::keys::{Held, KeyAction};
use crate::words::Letters;
use leptos::ev::KeyboardEvent;

/// What a key means, with what is held beside it.
pub fn key_action(event: &KeyboardEvent, letters: Letters) -> Option<KeyAction> {
    let held = Held {
        command: event.ctrl_key() || event.meta_key(),
        shift: event.shift_key(),
        alt: event.alt_key(),
    };
    KeyAction::of(&event.key(), held, letters)
}

/// Goes the way back and forth by the platform's keys, wherever the focus is but in a field, where it is the text that is taken
/// back; both say whether there was something to go back to.
pub fn go_back_by_keys(undo: impl Fn() -> bool + 'static, redo: impl Fn() -> bool + 'static) {
    screen::on_key(move |event: KeyboardEvent| {
        if event.default_prevented() || field::is_text(&event) {
            return;
        }
        let done = match key_action(&event, Letters::English) {
            Some(KeyAction::Undo) => undo(),
            Some(KeyAction::Redo) => redo(),
            _ => false,
        };
        if done {
            event.prevent_default();
        }
    });
}
