//! An exercise on the wall, for a whole class: read from the back row, revealed, heard, led by a clock, and scanned.

use crate::names::seen_by_a_camera;
use anyhow::{Context, Result, ensure};
use crookwise_practice::{AskedStaff, Exercise, Kind, Time};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_tests::browser::Browser;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::hearing::LISTEN;
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::{Value, json};

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    one_staff_is_read_from_the_back_row,
    six_staves_and_what_to_choose_from_stand_in_one_window,
    on_a_telephone_the_question_is_whole_too,
    what_is_revealed_is_seen_and_heard_and_the_clock_goes_on,
    the_class_sees_how_long_it_has_and_the_clock_can_be_held,
    the_clock_stands_while_the_class_scans_the_code,
    what_two_players_sound_is_told_of_both,
    the_class_scans_a_large_code
];

const SIX: [&str; 6] =
    ["Clarinetti in B", "Corni in Es", "Trombe in Es", "Viola", "Violoncello", "Contrabbasso"];

fn exercise(kind: Kind, labels: &[&str]) -> Exercise {
    let staves = labels.iter().map(|label| AskedStaff::of(label)).collect();
    Exercise { kinds: vec![kind], staves, choices: true, questions: 3, seed: 5, ..Exercise::default() }
}

fn on_wall(exercise: &Exercise) -> Setup {
    on_wall_in(Window::DESK, exercise)
}

fn on_wall_in(window: Window, exercise: &Exercise) -> Setup {
    let link = Link::from(PractiseLink::Wall(Some(SentExercise::of(exercise)))).encode();
    Setup::new(window).hash(link)
}

/// What of the question, its staves and its choices does not stand whole in the window.
const WHOLE: &str = "
    const found = [];
    const wall = document.querySelector('.practise-wall');
    for (const at of wall.querySelectorAll('.prompt, .question-page, .wall-below > .picture, .wall-choices li, .wall-answer p, button')) {
        // What is drawn larger has its own measures: the page of the question, which holds it, is looked at.
        const box = at.getBoundingClientRect();
        if (box.width === 0 || box.height === 0) continue;
        if (box.top < -0.5 || box.left < -0.5 || box.bottom > innerHeight + 0.5 || box.right > innerWidth + 0.5)
            found.push(`${at.className} ${at.textContent.slice(0, 30)} ${JSON.stringify(box)}`);
    }
    for (const at of wall.querySelectorAll('*')) {
        const hides = getComputedStyle(at).overflowY !== 'visible' && !at.closest('.unseen');
        if (hides && at.clientHeight > 4 && at.scrollHeight > at.clientHeight + 2)
            found.push(`${at.className} hides ${at.scrollHeight - at.clientHeight} px of itself`);
    }
    if (document.documentElement.scrollHeight > innerHeight + 1) found.push('the page scrolls');
    return found;";

/// The height of the first staff with the room for its notes.
const STAFF: &str = "document.querySelector('.drawn svg').height.baseVal.value *
    parseFloat(getComputedStyle(document.querySelector('.drawn')).zoom)";

async fn whole(page: &Page) -> Result<()> {
    page.settled().await?;
    let found = page.eval(WHOLE, vec![]).await?;
    let found: Vec<&str> = found.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    ensure!(found.is_empty(), "not whole in the window:\n  {}", found.join("\n  "));
    Ok(())
}

/// A measure of the wall in parts of the window's height.
async fn share(page: &Page, script: &str) -> Result<f64> {
    page.eval(&format!("return ({script}) / innerHeight"), vec![]).await?.as_f64().context("no measure")
}

fn one_staff_is_read_from_the_back_row() {
    flow::in_every_browser(&on_wall(&exercise(Kind::Sounds, &["Corni in Es"])), async |page| {
        page.find("button", "Reveal").await?;
        whole(page).await?;
        let staff = share(page, STAFF).await?;
        ensure!(staff > 0.32, "the staff takes {staff} of the window");
        let choices = "[...document.querySelectorAll('.wall-choices li')].length * innerHeight";
        ensure!(share(page, choices).await? > 1.0, "nothing to choose from");
        let letters = "parseFloat(getComputedStyle(document.querySelector('.wall-choices')).fontSize)";
        let letters = share(page, letters).await?;
        ensure!(letters > 0.025, "choices are {letters} of the window high");
        page.axe().await?;
        page.press("ArrowRight").await?;
        page.find("button", "Next question").await?;
        whole(page).await?;
        page.axe().await
    });
}

fn six_staves_and_what_to_choose_from_stand_in_one_window() {
    flow::in_every_browser(&on_wall(&exercise(Kind::Chord, &SIX)), async |page| {
        // After the last question comes the first again.
        for next in ["Next question", "Next question", "From the first again"] {
            page.find("button", "Reveal").await?;
            whole(page).await?;
            let staves = "[...document.querySelectorAll('.question-page .picture')].length * innerHeight";
            ensure!((share(page, staves).await? - 6.0).abs() < 0.1, "not six staves");
            let staff = share(page, STAFF).await?;
            ensure!(staff > 0.085, "a staff of six takes {staff} of the window");
            page.press("ArrowRight").await?;
            page.find("button", next).await?;
            whole(page).await?;
            page.press("ArrowRight").await?;
        }
        Ok(())
    });
}

/// Of five staves two lay under the edge of their room, which half the window left empty.
fn on_a_telephone_the_question_is_whole_too() {
    let staves = ["Clarinetti in B", "Corni in Es", "Trombe in Es", "Viola", "Violoncello"];
    for kind in [Kind::WrongStaff, Kind::Chord] {
        flow::in_every_browser(&on_wall_in(Window::PHONE, &exercise(kind, &staves)), async |page| {
            page.find("button", "Reveal").await?;
            whole(page).await?;
            let staves = "[...document.querySelectorAll('.question-page .picture')].length * innerHeight";
            ensure!((share(page, staves).await? - 5.0).abs() < 0.1, "not five staves");
            page.tap("button", "Reveal").await?;
            page.find("button", "Next question").await?;
            whole(page).await
        });
    }
}

/// Seconds for each question: more than a busy browser needs for the steps that are taken while one stands.
const FOR_EACH: u16 = 12;

fn timed() -> Exercise {
    Exercise { time: Time::Each(FOR_EACH), ..exercise(Kind::Sounds, &["Corni in Es"]) }
}

fn what_is_revealed_is_seen_and_heard_and_the_clock_goes_on() {
    flow::in_every_browser(&on_wall(&timed()), async |page| {
        page.stand_in(LISTEN).await?;
        page.reload().await?;
        page.find("button", "Reveal").await?;
        // A browser lets a page be heard once it has been touched.
        page.press("ArrowRight").await?;
        page.press("ArrowLeft").await?;
        page.sees("1 of 3").await?;
        page.find("button", "Reveal").await?;
        // The clock reveals: the staff that sounds, the interval, and the sound.
        page.find("button", "Next question").await?;
        let heard = page.heard(0.8).await?;
        ensure!(heard.peak() > 0.01, "nothing is heard");
        // And goes on.
        page.sees("2 of 3").await?;
        page.find("button", "Reveal").await?;
        page.click("button", "Hold the clock").await?;
        page.press("ArrowRight").await?;
        page.sees("major sixth lower").await?;
        let staff = "document.querySelector('.wall-below .picture svg').getBoundingClientRect().height";
        let staff = share(page, staff).await?;
        ensure!(staff > 0.2, "the staff that sounds takes {staff} of the window");
        whole(page).await?;
        page.stand_in("").await
    });
}

fn the_class_sees_how_long_it_has_and_the_clock_can_be_held() {
    flow::in_every_browser(&on_wall(&timed()), async |page| {
        page.sees("1 of 3").await?;
        page.sees("s left").await?;
        page.settled().await?;
        page.click("button", "Hold the clock").await?;
        let left = "return document.querySelector('[role=timer]').textContent";
        let held = page.eval(left, vec![]).await?;
        // As long as it would have had for the question and more.
        let wait = format!("return new Promise((done) => setTimeout(done, {FOR_EACH}500))");
        page.eval(&wait, vec![]).await?;
        let now = page.eval(left, vec![]).await?;
        ensure!(now == held, "the clock ran on while it was held: {held}, {now}");
        page.find("button", "Reveal").await?;
        whole(page).await?;
        page.axe().await?;
        page.click("button", "Hold the clock").await?;
        page.find("button", "Next question").await.map(|_| ())
    });
}

fn the_clock_stands_while_the_class_scans_the_code() {
    flow::in_every_browser(&on_wall(&timed()), async |page| {
        page.sees("1 of 3").await?;
        page.click("button", "A code for the class").await?;
        page.find("img", "The link as a code for a camera").await?;
        let wait = format!("return new Promise((done) => setTimeout(done, {FOR_EACH}500))");
        page.eval(&wait, vec![]).await?;
        page.find("img", "The link as a code for a camera").await?;
        page.click("button", "A code for the class").await?;
        page.find("button", "Reveal").await?;
        page.sees("1 of 3").await?;
        // Then it runs on.
        page.find("button", "Next question").await.map(|_| ())
    });
}

fn what_two_players_sound_is_told_of_both() {
    let mut exercise = exercise(Kind::Players, &["Corni in Es"]);
    exercise.staves[0].pair = true;
    flow::in_every_browser(&on_wall(&exercise), async |page| {
        page.find("button", "Reveal").await?;
        page.press("ArrowRight").await?;
        page.sees("Player 1:").await?;
        page.sees("Player 2:").await?;
        whole(page).await
    });
}

fn the_class_scans_a_large_code() {
    let exercise = exercise(Kind::Sounds, &["Corni in Es", "Clarinetti in A"]);
    let sent = Link::from(PractiseLink::Do(Some(SentExercise::of(&exercise)))).encode();
    flow::in_every_browser(&on_wall(&exercise), async |page| {
        page.click("button", "A code for the class").await?;
        let code = page.find("img", "The link as a code for a camera").await?;
        let code = page.extent(&code).await?;
        ensure!(code.height > 0.7 * f64::from(Window::DESK.height), "the code is {} px high", code.height);
        whole(page).await?;
        if page.browser() == Browser::Chromium {
            let link = wait::until("the code", async || Ok(seen_by_a_camera(page).await.ok())).await?;
            let hash = link.split_once('#').context("no link")?.1;
            ensure!(Link::decode(hash)? == Link::decode(&sent)?, "{link} is not {sent}");
        }
        page.axe().await?;
        page.press("ArrowRight").await?;
        page.find("button", "Next question").await?;
        let is_gone = async || {
            let code = "return document.querySelector('.wall-code') === null";
            Ok::<_, anyhow::Error>(page.eval(code, vec![]).await? == json!(true))
        };
        ensure!(is_gone().await?, "the next step leaves the code there");
        // Escape shuts the code first, then leaves the wall.
        page.click("button", "A code for the class").await?;
        page.find("img", "The link as a code for a camera").await?;
        page.press("Escape").await?;
        wait::until("the code to go", async || Ok(is_gone().await?.then_some(()))).await?;
        page.find("button", "Next question").await?;
        page.press("Escape").await?;
        page.find_gone("button", "Next question").await
    });
}
