//! The worker that holds an opened score: asked by number, answered by number. What runs in it stands
//! in `score_holder.rs`, with the reason why it is not one of gloo's.

use crate::browser::given::{FileBytes, beside};
use core::future::poll_fn;
use core::task::{Poll, Waker};
use gloo_events::EventListener;
use js_sys::{Array, Uint8Array};
use std::cell::{Cell, RefCell};
use wasm_bindgen::prelude::*;
use web_sys::{Event, MessageEvent, Worker, WorkerOptions, WorkerType};

/// Its module.
const MODULE: &str = "score.js";

/// A question on its way.
struct Waiting {
    number: u32,
    waker: Option<Waker>,
    /// The answer, once it is there; `None` in it where there will be none.
    answer: Option<Option<Vec<u8>>>,
}

/// The worker at work.
struct Running {
    /// Which of those that were started.
    number: u32,
    worker: Worker,
    _heard: [EventListener; 2],
}

/// Who is told how far it is.
type Told = Box<dyn Fn(u32)>;

thread_local! {
    static THE: RefCell<Option<Running>> = const { RefCell::new(None) };
    static WAITING: RefCell<Vec<Waiting>> = const { RefCell::new(Vec::new()) };
    static NUMBER: Cell<u32> = const { Cell::new(0) };
    static TOLD: RefCell<Option<Told>> = const { RefCell::new(None) };
}

/// Whoever is told from now on how far an opening is, in hundredths.
pub fn on_progress(told: impl Fn(u32) + 'static) {
    TOLD.replace(Some(Box::new(told)));
}

/// Asks; `file` goes along. `None` where there is no worker, it was stopped, or it broke.
pub async fn ask(question: &[u8], file: Option<&FileBytes>) -> Option<Vec<u8>> {
    let number = send(question, file)?;
    poll_fn(|context| {
        WAITING.with_borrow_mut(|all| {
            let Some(at) = all.iter().position(|one| one.number == number) else { return Poll::Ready(None) };
            if all.get(at).is_some_and(|one| one.answer.is_some()) {
                return Poll::Ready(all.remove(at).answer.flatten());
            }
            if let Some(one) = all.get_mut(at) {
                one.waker = Some(context.waker().clone());
            }
            Poll::Pending
        })
    })
    .await
}

/// Stops it, whatever it is doing; who waits is answered with nothing. The next question starts another.
pub fn stop() {
    if let Some(running) = THE.take() {
        running.worker.terminate();
    }
    let all = WAITING.with_borrow(|all| all.iter().map(|one| one.number).collect::<Vec<_>>());
    for number in all {
        answered(number, None);
    }
}

/// Starts it, if none is at work: it takes some tenths of a second, which a reader needs to choose a file. Which one is at work
/// then, where one can be: who has its answer has it from this one.
pub fn start_ahead() -> Option<u32> {
    THE.with_borrow_mut(|the| {
        if the.is_none() {
            *the = start();
        }
        the.as_ref().map(|running| running.number)
    })
}

/// The next number, for a question or a worker.
fn next_number() -> u32 {
    NUMBER.set(NUMBER.get().wrapping_add(1));
    NUMBER.get()
}

fn send(question: &[u8], file: Option<&FileBytes>) -> Option<u32> {
    let number = next_number();
    let question = Uint8Array::from(question);
    let message = Array::new();
    message.push(&number.into());
    message.push(&question);
    message.push(file.map_or(&Uint8Array::from(&[][..]), |file| &file.0));
    start_ahead();
    THE.with_borrow(|the| the.as_ref()?.worker.post_message(&message).ok())?;
    WAITING.with_borrow_mut(|all| all.push(Waiting { number, waker: None, answer: None }));
    Some(number)
}

fn start() -> Option<Running> {
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let worker = Worker::new_with_options(&beside(MODULE)?, &options).ok()?;
    let heard = EventListener::new(&worker, "message", |event: &Event| {
        heard(&event.unchecked_ref::<MessageEvent>().data());
    });
    // What listens goes with the worker: not while it is being told.
    let broken = EventListener::new(&worker, "error", |_| stop_soon());
    Some(Running { number: next_number(), worker, _heard: [heard, broken] })
}

fn stop_soon() {
    wasm_bindgen_futures::spawn_local(async { stop() });
}

fn heard(message: &JsValue) {
    let message = Array::from(message);
    // Both are small whole numbers.
    let whole = |at: u32| message.get(at).as_f64().map(|number| number as u32);
    let Some(number) = whole(0) else { return };
    if let Some(hundredths) = whole(2) {
        TOLD.with_borrow(|told| told.as_ref().map(|told| told(hundredths)));
        return;
    }
    let answer = message.get(1);
    if answer.is_undefined() {
        // It broke: what it holds is not to be trusted any more.
        answered(number, None);
        stop_soon();
    } else {
        answered(number, Some(Uint8Array::new(&answer).to_vec()));
    }
}

/// Hands an answer to whom it belongs.
fn answered(number: u32, answer: Option<Vec<u8>>) {
    let waker = WAITING.with_borrow_mut(|all| {
        let one = all.iter_mut().find(|one| one.number == number)?;
        one.answer = Some(answer);
        one.waker.take()
    });
    if let Some(waker) = waker {
        waker.wake();
    }
}
