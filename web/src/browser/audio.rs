//! Sound. A context is made at the first wish to hear something, which browsers ask to be a press of the reader's. It is
//! `web_sys`: gloo has nothing for sound.

use core::cell::RefCell;
use core::time::Duration;
use crookwise_sound::{Mix, Queue, Synth};
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

/// Plays a mix instead of what was playing; `ended` is called when they are over, not when they are stopped. False
/// where the browser refuses.
pub fn play(mix: &Mix, volume: f64, ended: Box<dyn Fn()>) -> bool {
    stop();
    begin(mix, volume, ended).is_some()
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

fn begin(mix: &Mix, volume: f64, ended: Box<dyn Fn()>) -> Option<()> {
    let context = context()?;
    let _ = context.resume();
    let rate = context.sample_rate();
    let synth = Synth::new(mix, rate as u32, volume).ok()?;
    let knob = context.create_gain().ok()?;
    knob.connect_with_audio_node(&context.destination()).ok()?;
    let number = WISHES.with_borrow_mut(|wishes| {
        *wishes = wishes.wrapping_add(1);
        *wishes
    });
    let queue = Queue::new(mix.seconds(), rate.into());
    let mut playing = Playing { number, context, knob, synth, queue, ended };
    playing.fill()?;
    PLAYING.set(Some(playing));
    spawn_local(follow(number));
    Some(())
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
    PLAYING.with_borrow_mut(|playing| {
        let playing = playing.as_mut().filter(|playing| playing.number == number)?;
        playing.fill()?;
        Some(playing.queue.is_over(playing.context.current_time()))
    })
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
