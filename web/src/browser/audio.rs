//! Sound. A context is made at the first wish to hear something, which browsers ask to be a press of the reader's. It is
//! `web_sys`: gloo has nothing for sound.

use core::cell::RefCell;
use core::time::Duration;
use crookwise_sound::{Mix, Queue, Synth, Tone};
use gloo_timers::future::sleep;
use gloo_utils::window;
use wasm_bindgen_futures::spawn_local;
use web_sys::{AudioContext, GainNode};

/// How long it is from one look at what is ready to the next.
const LOOK: Duration = Duration::from_millis(200);
/// Seconds in which it dies away when stopped.
const FADE: f64 = 0.02;

/// What is being heard.
struct Playing {
    /// Counts the wishes: an older one makes no more sound.
    number: u32,
    context: AudioContext,
    knob: GainNode,
    synth: Synth,
    /// By the clock of the context.
    queue: Queue,
    ended: Box<dyn Fn()>,
}

thread_local! {
    static CONTEXT: RefCell<Option<AudioContext>> = const { RefCell::new(None) };
    static PLAYING: RefCell<Option<Playing>> = const { RefCell::new(None) };
    static WISHES: RefCell<u32> = const { RefCell::new(0) };
}

/// Whether this browser makes sound.
#[must_use]
pub fn is_there() -> bool {
    js_sys::Reflect::get(&window(), &"AudioContext".into()).is_ok_and(|made| made.is_function())
}

/// Makes the browser ready to sound, within a press of the reader's; false where it refuses.
pub fn wake() -> bool {
    // A context that was put to sleep wakes up at a press.
    context().is_some_and(|context| context.resume().is_ok())
}

/// Opens the browser's sound before it is wished for, and puts it to sleep: to open it takes longer than a tap should wait.
/// Only on a page that the reader has pressed something on: before that browsers refuse.
pub fn make_ready() {
    if CONTEXT.with_borrow(Option::is_none) && was_pressed() {
        // What cannot sleep is awake.
        let _ = context().map(|context| context.suspend());
    }
}

/// Whether the reader has pressed something on this page; false where the browser does not say.
fn was_pressed() -> bool {
    let activation = js_sys::Reflect::get(&window().navigator(), &"userActivation".into());
    activation
        .and_then(|activation| js_sys::Reflect::get(&activation, &"hasBeenActive".into()))
        .is_ok_and(|pressed| pressed.is_truthy())
}

/// Plays a mix instead of what was playing; `ended` is called when they are over, not when they are stopped. False
/// where the browser refuses.
pub fn play(mix: &Mix, volume: f64, ended: Box<dyn Fn()>) -> bool {
    let made =
        |rate: u32| Some((Synth::new(mix, rate, volume).ok()?, Queue::new(mix.seconds(), rate.into())));
    begin(&made, ended).is_some()
}

/// Makes ready for tones that are told while they are heard ([`add`]), instead of what was playing; so many of them sound at
/// once where it is full. Gives the number by which it is known; `None` where the browser refuses.
pub fn open(at_once: usize, volume: f64, ended: Box<dyn Fn()>) -> Option<u32> {
    begin(&|rate| Some((Synth::open(at_once, rate, volume).ok()?, Queue::open(rate.into()))), ended)
}

/// Tells the next tones of what was opened, in seconds from its beginning. All up to a second are told then; of those after
/// it none may begin before. `is_all`: no more come. False where something else is heard by now.
pub fn add(number: u32, tones: Vec<Tone>, (known, is_all): (f64, bool)) -> bool {
    with(number, |playing| {
        playing.synth.add(tones);
        playing.queue.know(known, is_all);
        playing.fill()
    })
    .flatten()
    .is_some()
}

/// Which second of what was opened is heard now; `None` where something else is, or nothing.
#[must_use]
pub fn heard(number: u32) -> Option<f64> {
    with(number, |playing| playing.queue.heard(playing.context.current_time()))
}

/// Ends what is playing.
pub fn stop() {
    if let Some(playing) = PLAYING.take() {
        let now = playing.context.current_time();
        let _ = playing.knob.gain().set_target_at_time(0.0, now, FADE);
        spawn_local(async move {
            sleep(LOOK).await;
            let _ = playing.knob.disconnect();
        });
    }
}

/// What makes samples at a rate, and when they are wanted.
type Made<'a> = &'a dyn Fn(u32) -> Option<(Synth, Queue)>;

fn begin(made: Made<'_>, ended: Box<dyn Fn()>) -> Option<u32> {
    stop();
    let context = context()?;
    let _ = context.resume();
    let (synth, queue) = made(context.sample_rate() as u32)?;
    let knob = context.create_gain().ok()?;
    knob.connect_with_audio_node(&context.destination()).ok()?;
    let number = WISHES.with_borrow_mut(|wishes| {
        *wishes = wishes.wrapping_add(1);
        *wishes
    });
    let mut playing = Playing { number, context, knob, synth, queue, ended };
    playing.fill()?;
    PLAYING.set(Some(playing));
    spawn_local(follow(number));
    Some(number)
}

/// Does something with what is heard, if it has this number.
fn with<R>(number: u32, act: impl FnOnce(&mut Playing) -> R) -> Option<R> {
    PLAYING.with_borrow_mut(|playing| playing.as_mut().filter(|playing| playing.number == number).map(act))
}

fn context() -> Option<AudioContext> {
    CONTEXT.with_borrow_mut(|kept| {
        if kept.is_none() {
            *kept = AudioContext::new().ok();
        }
        kept.clone()
    })
}

/// Makes sound ready as it is needed, until it is over or another is wished for.
async fn follow(number: u32) {
    loop {
        match look(number) {
            Some(false) => sleep(LOOK).await,
            Some(true) => {
                if let Some(playing) = PLAYING.take() {
                    let _ = playing.knob.disconnect();
                    (playing.ended)();
                }
                return;
            }
            None => return,
        }
    }
}

/// Makes as much sound ready as is needed now. Whether all has been heard; `None` where something else plays.
fn look(number: u32) -> Option<bool> {
    with(number, |playing| {
        playing.fill()?;
        Some(playing.queue.is_over(playing.context.current_time()))
    })
    .flatten()
}

impl Playing {
    /// Makes ready what is wanted now; nothing where the browser refuses.
    fn fill(&mut self) -> Option<()> {
        while let Some(samples) = self.queue.wanted(self.context.current_time()) {
            self.add(samples)?;
        }
        Some(())
    }

    /// Adds a piece of so many samples.
    fn add(&mut self, samples: usize) -> Option<()> {
        let mut piece = vec![0.0; samples];
        self.synth.fill(&mut piece);
        let length = u32::try_from(samples).ok()?;
        let buffer = self.context.create_buffer(1, length, self.context.sample_rate()).ok()?;
        buffer.copy_to_channel(&piece, 0).ok()?;
        let source = self.context.create_buffer_source().ok()?;
        source.set_buffer(Some(&buffer));
        source.connect_with_audio_node(&self.knob).ok()?;
        // The clock has run on meanwhile, on a busy machine for long.
        let begin = self.queue.begins(samples, self.context.current_time());
        source.start_with_when(begin).ok()
    }
}
