//! The worker that holds the open score, and another in its place where it broke, which is no fault of the score: in WebKit one
//! does now and then on a busy machine. The other is given the file, what lies corrected over it and the sheet on the screen, and
//! then asked again. The page stays as it is meanwhile: who reads, types or listens does not notice.

use crate::browser::given::FileBytes;
use crate::browser::score_worker;
use crate::components::movement::deeds::Deeds;
use crate::components::movement::opening_deeds::file_of;
use crate::words;
use async_lock::Mutex;
use crookwise_opened::{Answer, Ask, wire};
use std::rc::Rc;

/// So often a question is asked before the reader is told that nobody answers.
const TIMES: usize = 2;

/// What another worker needs to take the place of the one that holds the score.
struct Held {
    /// The worker that holds it.
    by: Option<u32>,
    /// Its file, where the device does not keep it.
    file: Option<FileBytes>,
    /// The question for the sheet on the screen, whose systems are asked for by number.
    sheet: Option<Ask>,
}

thread_local! {
    // Whoever finds that the worker broke waits while somebody gives another the score.
    static HELD: Rc<Mutex<Held>> = Rc::new(Mutex::new(Held { by: None, file: None, sheet: None }));
}

fn held() -> Rc<Mutex<Held>> {
    HELD.with(Rc::clone)
}

/// Asks whichever worker is at work.
pub(super) async fn ask(ask: &Ask) -> Option<Answer> {
    wire::read(&score_worker::ask(&wire::write(ask), None).await?)
}

/// Has a file opened with these corrections: what holds it from then on.
pub(super) async fn open(file: &FileBytes, corrections: String) -> Option<Answer> {
    let by = score_worker::start_ahead();
    let answer = asked_to_open(file, corrections).await?;
    *held().lock().await = Held { by, file: None, sheet: None };
    Some(answer)
}

async fn asked_to_open(file: &FileBytes, corrections: String) -> Option<Answer> {
    wire::read(&score_worker::ask(&wire::write(&Ask::Open(corrections)), Some(file)).await?)
}

/// Keeps a file that the device does not keep, as long as its score is open.
pub(super) async fn keep_file(file: FileBytes) {
    held().lock().await.file = Some(file);
}

impl Deeds {
    /// Asks about what is open; nothing where something else was opened meanwhile, or where nobody answers, of which the
    /// reader is told.
    pub(super) async fn ask(self, question: &Ask) -> Option<Answer> {
        let mine = self.movement.openings.get_untracked();
        for _ in 0..TIMES {
            let answer = if self.is_held(question).await { ask(question).await } else { None };
            if answer.is_some() || self.movement.openings.get_untracked() != mine {
                return answer;
            }
        }
        self.fail(words::movement::NO_WORKER);
        None
    }

    /// Whether what is open is held, by another worker where the one before broke, so that a question can be asked of it.
    async fn is_held(self, question: &Ask) -> bool {
        let movement = self.movement;
        let Some(source) = movement.open.map(|open| open.source.clone()) else { return true };
        let mine = movement.openings.get_untracked();
        let held = held();
        let mut held = held.lock().await;
        let by = score_worker::start_ahead();
        if by.is_none() || by != held.by {
            let file = match &held.file {
                Some(file) => Some(file.clone()),
                None => file_of(&source).await.map(|file| file.bytes),
            };
            let is_ours = movement.openings.get_untracked() == mine;
            let Some(file) = file.filter(|_| is_ours) else { return false };
            held.by = held.given_to_another(&file, movement.laid.get_untracked()).await;
        }
        if let Ask::Sheet { .. } = question {
            held.sheet = Some(question.clone());
        }
        held.by.is_some()
    }
}

impl Held {
    /// Gives what is held to the worker that is at work now: which it is, where it could be given.
    async fn given_to_another(&self, file: &FileBytes, corrections: String) -> Option<u32> {
        let by = score_worker::start_ahead();
        let answer = asked_to_open(file, corrections).await;
        let Some(Answer::Score(_)) = answer else { return None };
        if let Some(sheet) = &self.sheet {
            ask(sheet).await?;
        }
        by
    }
}
