//! A MIDI keyboard (W3C Web MIDI), where there is one and the reader allows it. It is `web_sys`: gloo has
//! nothing for it, and a keyboard is opened by its handler, not by a listener.

use core::cell::RefCell;
use gloo_utils::window;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Event, MidiAccess, MidiInput, MidiMessageEvent};

/// Message that a key goes down, on any of the sixteen channels (MIDI 1.0).
const NOTE_ON: u8 = 0x90;

thread_local! {
    /// What is listened to as long as the page is open.
    static KEYBOARDS: RefCell<Option<Keyboards>> = const { RefCell::new(None) };
}

/// The keyboards, what hears their keys, and what hears that one is connected.
struct Keyboards {
    access: MidiAccess,
    keys: Closure<dyn FnMut(MidiMessageEvent)>,
    changes: Closure<dyn FnMut(Event)>,
}

/// Whether this browser knows MIDI keyboards.
#[must_use]
pub fn is_there() -> bool {
    js_sys::Reflect::get(&window().navigator(), &"requestMIDIAccess".into())
        .is_ok_and(|ask| ask.is_function())
}

/// Asks for the keyboards and calls back with the number of every key that goes down, also on keyboards connected later,
/// until something else listens. The number of keyboards now; `None` where the reader or the browser refuses.
pub async fn listen(pressed: impl Fn(u8) + 'static) -> Option<u32> {
    let asked = window().navigator().request_midi_access().ok()?;
    let access: MidiAccess = JsFuture::from(asked).await.ok()?.dyn_into().ok()?;
    let keys = Closure::new(move |event: MidiMessageEvent| {
        let message = event.data().unwrap_or_default();
        if let [status, key, loudness, ..] = message[..] {
            // A key that goes down with no force has been let go.
            if status & 0xF0 == NOTE_ON && loudness > 0 {
                pressed(key);
            }
        }
    });
    let changes = Closure::new(|_: Event| {
        KEYBOARDS.with_borrow(|known| known.as_ref().map(Keyboards::hear));
    });
    let keyboards = Keyboards { access, keys, changes };
    keyboards.access.set_onstatechange(Some(keyboards.changes.as_ref().unchecked_ref()));
    let count = keyboards.hear();
    KEYBOARDS.set(Some(keyboards));
    Some(count)
}

impl Keyboards {
    /// Listens to every keyboard there is, and says how many.
    fn hear(&self) -> u32 {
        let inputs = self.access.inputs();
        let each = inputs.values();
        for input in &each {
            if let Some(input) = input.ok().and_then(|input| input.dyn_into::<MidiInput>().ok()) {
                input.set_onmidimessage(Some(self.keys.as_ref().unchecked_ref()));
            }
        }
        inputs.size()
    }
}
