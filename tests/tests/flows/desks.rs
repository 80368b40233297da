//! Each window has a desk of its own, whatever is opened, copied, closed or loaded again beside it; pages and record are
//! everybody's. What earlier versions kept is taken over.

use anyhow::{Context, Result, ensure};
use crookwise_practice::{AskedStaff, Exercise, Kind};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_tests::browser::Browser;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;

pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    two_windows_have_a_desk_each,
    a_copied_window_takes_a_desk_of_its_own,
    closing_right_after_a_tap_loses_nothing,
    what_stood_in_crooks_goes_with_a_desk_that_nobody_has_any_more,
    what_earlier_versions_kept_is_taken_over
];

const OBOES: &str = "/read?staff=Oboi&notes=C5&at=1";
const BASSOONS: &str = "/read?staff=Fagotti&notes=C3&at=1";

/// A letter typed behind the selected note.
async fn enter(page: &Page, letter: &str, notes: &[&str]) -> Result<()> {
    page.eval("document.querySelector('.cell[aria-current]').focus()", vec![]).await?;
    page.press(letter).await?;
    page.notes_are(notes).await
}

async fn close(page: &Page) -> Result<()> {
    page.driver().close_window().await?;
    let left = page.driver().windows().await?.into_iter().next().context("no window")?;
    page.driver().switch_to_window(left).await?;
    Ok(())
}

/// How many desks the device keeps.
async fn desks(page: &Page) -> Result<usize> {
    let script =
        "return Object.keys(localStorage).filter((name) => name.startsWith('crookwise.desk.')).length";
    Ok(page.eval(script, vec![]).await?.as_u64().unwrap_or_default() as usize)
}

fn two_windows_have_a_desk_each() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(OBOES), async |page| {
        enter(page, "e", &["written C5", "written E5"]).await?;
        let first = page.driver().window().await?;
        let second = page.open_window().await?;
        page.come_back("").await?;
        page.sees("Call across the Quarry").await.context("the desk of the first window is its own")?;
        page.come_back(BASSOONS).await?;
        enter(page, "d", &["written C3", "written D3"]).await?;
        page.driver().switch_to_window(first.clone()).await?;
        enter(page, "g", &["written C5", "written E5", "written G5"]).await?;
        page.come_back("").await?;
        page.notes_are(&["written C5", "written E5", "written G5"]).await?;
        // What one keeps, the other sees.
        page.driver().switch_to_window(second.clone()).await?;
        page.come_back("").await?;
        page.notes_are(&["written C3", "written D3"]).await?;
        page.click("button", "Pages").await?;
        page.sees("None yet.").await?;
        page.driver().switch_to_window(first.clone()).await?;
        page.click("button", "Pages").await?;
        page.fill("textbox", "A name for this page", "Two oboes").await?;
        page.click("button", "Keep this page").await?;
        page.find("button", "Two oboes").await?;
        page.driver().switch_to_window(second.clone()).await?;
        page.find("button", "Two oboes").await.context("kept in the other window")?;
        page.fill("textbox", "A name for this page", "A bassoon").await?;
        page.click("button", "Keep this page").await?;
        page.find("button", "A bassoon").await?;
        // Both are closed. The next window takes up the desk that was changed last, and finds the other in the list.
        let third = page.open_window().await?;
        for window in [first, second] {
            page.driver().switch_to_window(window).await?;
            page.driver().close_window().await?;
        }
        page.driver().switch_to_window(third).await?;
        page.come_back("").await?;
        page.notes_are(&["written C5", "written E5", "written G5"]).await?;
        page.click("button", "Pages").await?;
        for name in ["Two oboes", "A bassoon", "Fagotti"] {
            page.find("button", name).await.with_context(|| name.to_owned())?;
        }
        page.click("button", "Fagotti").await?;
        page.notes_are(&["written C3", "written D3"]).await
    });
}

/// Leaves fourteen desks behind, as windows that were closed long ago, each with a setting of Crooks.
const LEAVE: &str =
    "const own = Object.keys(localStorage).find((name) => name.startsWith('crookwise.desk.'));
    const lines = localStorage.getItem(own).split('\\n');
    for (let at = 1; at <= 14; at += 1) {
        lines[1] = `${at}`;
        localStorage.setItem(`crookwise.desk.left${at}`, lines.join('\\n'));
        localStorage.setItem(`crookwise.crooks.left${at}`, 'crookwise crooks 1\\n/crooks?keys=24_C+minor');
    }";

fn what_stood_in_crooks_goes_with_a_desk_that_nobody_has_any_more() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(OBOES), async |page| {
        enter(page, "e", &["written C5", "written E5"]).await?;
        wait::until("the desk to be kept", async || Ok((desks(page).await? == 1).then_some(()))).await?;
        page.eval(LEAVE, vec![]).await?;
        page.come_back("").await?;
        page.click("button", "Pages").await?;
        let kept = "return ['desk', 'crooks'].map((what) => Object.keys(localStorage)
            .filter((name) => name.startsWith(`crookwise.${what}.left`)).map((name) => +name.split('left')[1]).sort((a, b) => a - b))";
        let last: Vec<u32> = (3..=14).collect();
        wait::until("the desks left first to have gone", async || {
            let kept = page.eval(kept, vec![]).await?;
            Ok((kept == json!([last, last])).then_some(()))
        })
        .await
    });
}

fn a_copied_window_takes_a_desk_of_its_own() {
    flow::in_browser(Browser::Chromium, &Setup::new(Window::LANDSCAPE).hash(OBOES), async |page| {
        enter(page, "e", &["written C5", "written E5"]).await?;
        let first = page.driver().window().await?;
        // As a browser copies a window, with what that window has kept for itself.
        page.eval("window.open(location.href)", vec![]).await?;
        let windows = page.driver().windows().await?;
        let copy = windows.into_iter().find(|window| *window != first).context("no copy")?;
        page.driver().switch_to_window(copy.clone()).await?;
        page.notes_are(&["written C5", "written E5"]).await?;
        enter(page, "g", &["written C5", "written E5", "written G5"]).await?;
        page.driver().switch_to_window(first).await?;
        enter(page, "a", &["written C5", "written E5", "written A5"]).await?;
        page.come_back("").await?;
        page.notes_are(&["written C5", "written E5", "written A5"]).await.context("the first window")?;
        page.driver().switch_to_window(copy).await?;
        page.come_back("").await?;
        page.notes_are(&["written C5", "written E5", "written G5"]).await.context("the copy")?;
        ensure!(desks(page).await? == 2, "a desk each, also after a reload");
        close(page).await
    });
}

fn closing_right_after_a_tap_loses_nothing() {
    let exercise = Exercise {
        kinds: vec![Kind::Partial],
        staves: vec![AskedStaff::of("Corni in Es")],
        questions: 3,
        choices: false,
        seed: 11,
        ..Exercise::default()
    };
    let record = Link::from(PractiseLink::Record).encode();
    let asked = Link::from(PractiseLink::Do(Some(SentExercise::of(&exercise)))).encode();
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(OBOES), async |page| {
        page.eval("document.querySelector('.cell[aria-current]').focus()", vec![]).await?;
        page.press("e").await?;
        page.come_back("").await?;
        page.notes_are(&["written C5", "written E5"]).await?;
        page.click("button", "Pages").await?;
        page.fill("textbox", "A name for this page", "Mine").await?;
        page.click("button", "Keep this page").await?;
        page.come_back("").await?;
        page.click("button", "Pages").await?;
        page.find("button", "Mine").await?;
        page.come_back(&asked).await?;
        page.click("button", "Begin").await?;
        page.click("button", "Partial 16").await?;
        page.click("button", "Answer").await?;
        page.come_back(&record).await?;
        page.sees("highest column: 1 answer in a week").await
    });
}

/// What the version before this store kept, as it wrote it.
const EARLIER: [(&str, &str); 6] = [
    ("page", "/read?v=1.c691&staff=Oboi&notes=C5.E5&at=2"),
    ("pages", "Crookwise pages 1\nUntitled\t/read?staff=Fagotti&notes=C3\n"),
    ("before", "/read?v=1.7bfc&staff=2+Corni+in+Es&players=2&notes=C5.D5&notes2=E4.G4&key=Eb+major&at=1\n"),
    ("preferences", "german helmholtz tuning 40"),
    (
        "record",
        "crookwise record 1\nt 0 horn -5 -9 G2 0 - - b072\ni 0 1 0 0 b388\na 2871640993 1 1790000040 0 1 0 0 2000 9419\n",
    ),
    ("source", "2871640993"),
];

fn what_earlier_versions_kept_is_taken_over() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        page.forget().await?;
        for (name, text) in EARLIER {
            let name = format!("crookwise.{name}");
            page.eval("localStorage.setItem(arguments[0], arguments[1])", vec![json!(name), json!(text)])
                .await?;
        }
        page.come_back("").await?;
        page.value_is("textbox", "What the score prints", "Oboi").await?;
        wait::until("what was kept to be in its new place", async || {
            let script = "return ['page', 'pages', 'before', 'record', 'source'].filter((name) => localStorage.getItem(`crookwise.${name}`) !== null)";
            Ok((page.eval(script, vec![]).await? == json!([])).then_some(()))
        })
        .await?;
        page.click("button", "Pages").await?;
        for name in ["Untitled", "The page before"] {
            page.find("button", name).await?;
        }
        page.click("button", "Done").await?;
        page.click("button", "Settings").await?;
        page.value_is("combobox", "Names of notes", "German: B, H").await?;
        page.come_back(&Link::from(PractiseLink::Record).encode()).await?;
        page.sees("Repeat now").await
    });
}
