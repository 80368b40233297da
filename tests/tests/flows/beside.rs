//! What stands beside the page: a MIDI keyboard, and the same exercise in a second window. No keyboard is connected here,
//! so one is made in front of the page's own scripts, as the standard has it (W3C Web MIDI).

use anyhow::{Context, Result};
use crookwise_practice::{Answer, AskedStaff, Exercise, Kind, Question};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_tests::browser::Browser;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    a_keyboard_answers,
    two_windows_keep_one_record,
    an_exercise_in_a_second_window_is_not_lost
];

/// Keyboards that a script plays: `window.plug()` connects one more, `window.play(bytes)` sends a message from all.
const KEYBOARDS: &str = "if (location.protocol === 'http:') {
    const inputs = new Map();
    const access = Object.defineProperties(Object.create(MIDIAccess.prototype), {
        inputs: { value: inputs },
        onstatechange: { value: null, writable: true },
    });
    window.plug = () => {
        const input = Object.defineProperty(Object.create(MIDIInput.prototype), 'onmidimessage', { value: null, writable: true });
        inputs.set(String(inputs.size), input);
        access.onstatechange?.(new Event('statechange'));
    };
    window.play = (bytes) => {
        for (const input of inputs.values()) input.onmidimessage?.(new MIDIMessageEvent('midimessage', { data: new Uint8Array(bytes) }));
    };
    Navigator.prototype.requestMIDIAccess = () => Promise.resolve(access);
}";

fn exercise(kind: Kind, questions: u8) -> Exercise {
    Exercise {
        kinds: vec![kind],
        staves: vec![AskedStaff::of("Corni in Es")],
        questions,
        choices: false,
        seed: 11,
        ..Exercise::default()
    }
}

fn link(exercise: &Exercise) -> String {
    Link::from(PractiseLink::Do(Some(SentExercise::of(exercise)))).encode()
}

/// The number of the key that answers, 60 for C4 (MIDI 1.0).
fn key(question: &Question) -> Result<i32> {
    match &question.right {
        Answer::Note(note) => Ok(note.midi()),
        other => anyhow::bail!("{other} is no note"),
    }
}

/// A key goes down and up again.
async fn play(page: &Page, key: i32) -> Result<()> {
    for message in [[0x90, key, 64], [0x90, key, 0]] {
        page.eval("window.play(arguments[0])", vec![json!(message)]).await?;
    }
    Ok(())
}

fn a_keyboard_answers() {
    let exercise = exercise(Kind::Sounds, 3);
    let questions = exercise.questions().expect("questions");
    // WebKit knows no MIDI.
    flow::in_browser(Browser::Chromium, &Setup::new(Window::LANDSCAPE), async |page| {
        page.stand_in(KEYBOARDS).await?;
        page.come_back(&link(&exercise)).await?;
        page.click("button", "Begin").await?;
        page.click("button", "Play it on a MIDI keyboard").await?;
        page.sees("No MIDI keyboard is connected").await?;
        // One that is connected now answers without being asked for again.
        page.eval("window.plug()", vec![]).await?;
        play(page, key(&questions[0])?).await?;
        page.sees("Right:").await?;
        page.click("button", "Next question").await?;
        page.sees("Question 2 of 3").await?;
        play(page, key(&questions[1])? + 1).await?;
        page.sees("You said").await?;
        // A key that is played while the answer is explained answers nothing.
        play(page, key(&questions[2])?).await?;
        page.click("button", "Next question").await?;
        page.sees("Question 3 of 3").await?;
        // Of what else a keyboard sends, nothing answers: a pedal, a key let go, half a message.
        for message in [vec![0xB0, 64, 127], vec![0x80, 60, 64], vec![0x90], vec![]] {
            page.eval("window.play(arguments[0])", vec![json!(message)]).await?;
        }
        page.sees("Question 3 of 3").await?;
        play(page, key(&questions[2])?).await?;
        page.click("button", "See how it went").await?;
        page.sees("2 of 3 right").await
    });
}

fn two_windows_keep_one_record() {
    let asked = link(&exercise(Kind::Partial, 3));
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(&asked), async |page| {
        page.click("button", "Begin").await?;
        page.sees("Question 1 of 3").await?;
        let first = page.driver().window().await?;
        let second = page.open_window().await?;
        page.come_back(&link(&exercise(Kind::Partial, 4))).await?;
        page.click("button", "Begin").await?;
        // In turn, each window with what it read before the other answered.
        for number in 1..=3 {
            for window in [&first, &second] {
                page.driver().switch_to_window(window.clone()).await?;
                page.sees(&format!("Question {number} of")).await?;
                page.click("button", "Partial 16").await?;
                page.click("button", "Answer").await?;
                let next = if number == 3 && *window == first { "See how it went" } else { "Next question" };
                page.click("button", next).await?;
            }
        }
        page.driver().switch_to_window(first).await?;
        page.click("button", "My record").await?;
        page.sees("highest column: 6 answers in a week").await?;
        page.driver().switch_to_window(second).await?;
        page.driver().close_window().await?;
        let left = page.driver().windows().await?.into_iter().next().context("no window")?;
        page.driver().switch_to_window(left).await?;
        Ok(())
    });
}

fn an_exercise_in_a_second_window_is_not_lost() {
    let asked = [3, 4].map(|questions| link(&exercise(Kind::Partial, questions)));
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(&asked[0]), async |page| {
        page.click("button", "Begin").await?;
        page.click("button", "Partial 16").await?;
        page.click("button", "Answer").await?;
        page.click("button", "Next question").await?;
        page.sees("Question 2 of 3").await?;
        let first = page.driver().window().await?;
        let second = page.open_window().await?;
        page.come_back(&asked[1]).await?;
        page.click("button", "Begin").await?;
        for _ in 0..2 {
            page.click("button", "Partial 16").await?;
            page.click("button", "Answer").await?;
            page.click("button", "Next question").await?;
        }
        page.sees("Question 3 of 4").await?;
        // Both are closed. The next two windows take up where each was left, the last one first.
        let third = page.open_window().await?;
        for window in [first, second] {
            page.driver().switch_to_window(window).await?;
            page.driver().close_window().await?;
        }
        page.driver().switch_to_window(third.clone()).await?;
        page.come_back(&asked[1]).await?;
        page.sees("Question 3 of 4").await.context("the exercise that was left last")?;
        page.open_window().await?;
        page.come_back(&asked[0]).await?;
        page.sees("Question 2 of 3").await.context("the exercise of the other window")?;
        page.driver().close_window().await?;
        page.driver().switch_to_window(third).await?;
        Ok(())
    });
}
