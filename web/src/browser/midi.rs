//! A MIDI keyboard (W3C Web MIDI), where there is one and the reader allows it.

use core::cell::RefCell;
use leptos::prelude::window;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen_futures::JsFuture;
use web_sys::{MidiAccess, MidiInput, MidiMessageEvent};

/// Message that a key goes down, on any of the sixteen channels (MIDI 1.0).
const NOTE_ON: u8 = 0x90;

thread_local! {
    static KEYBOARD: RefCell<Option<MidiAccess>> = const { RefCell::new(None) };
}

/// Whether this browser knows MIDI keyboards.
#[must_use]
pub fn is_there() -> bool {
    js_sys::Reflect::get(&window().navigator(), &"requestMIDIAccess".into())
        .is_ok_and(|ask| ask.is_function())
}

/// Asks for the keyboards and calls back with the number of every key that goes down, until something else listens. The
/// number of keyboards; `None` where the reader or the browser refuses.
pub async fn listen(pressed: impl Fn(u8) + 'static) -> Option<u32> {
    let asked = window().navigator().request_midi_access().ok()?;
    let access: MidiAccess = JsFuture::from(asked).await.ok()?.dyn_into().ok()?;
    let pressed = Rc::new(pressed);
    let hear = Closure::<dyn FnMut(MidiMessageEvent)>::new(move |event: MidiMessageEvent| {
        let message = event.data().unwrap_or_default();
        if let [status, key, loudness, ..] = message[..] {
            // A key that goes down with no force has been let go.
            if status & 0xF0 == NOTE_ON && loudness > 0 {
                pressed(key);
            }
        }
    });
    let inputs = access.inputs();
    let each = inputs.values();
    for input in &each {
        if let Some(input) = input.ok().and_then(|input| input.dyn_into::<MidiInput>().ok()) {
            input.set_onmidimessage(Some(hear.as_ref().unchecked_ref()));
        }
    }
    // The keyboard is listened to as long as the page is open.
    hear.forget();
    let count = inputs.size();
    KEYBOARD.set(Some(access));
    Some(count)
}
