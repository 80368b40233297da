//! Browsers that lack something, forbid it or fail in it: a clear sentence or a quiet absence, and nothing lost.
//!
//! The browsers here have all of it, so each lack is a stand-in: a script in front of the page's own that takes something
//! away or makes it fail.

use anyhow::{Context, Result, ensure};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] =
    &crookwise_tests::flows![storage_may_fail, sound_clipboard_and_full_screen_may_be_missing];

const START: &str = "/read?staff=Oboi&notes=C5&at=1";
const NOT_KEPT: &str = "This device refuses to keep it";
const NO_SOUND: &str = "This browser makes no sound here";

/// Loads the page with a stand-in, on a device that keeps nothing yet.
async fn with(page: &Page, script: &str) -> Result<()> {
    page.stand_in("").await?;
    page.come_back("").await?;
    page.eval("localStorage.clear()", vec![]).await?;
    // Not in the empty page on the way.
    let script = if script.is_empty() {
        String::new()
    } else {
        format!("if (location.protocol === 'http:') {{ {script} }}")
    };
    page.stand_in(&script).await?;
    page.come_back(START).await?;
    page.notes_are(&["written C5"]).await
}

/// A letter typed behind the selected note.
async fn enter(page: &Page, letter: &str, notes: &[&str]) -> Result<()> {
    // What was closed before gives the focus back with the next picture, and would take it from the note.
    page.settled().await?;
    page.eval("document.querySelector('.cell[aria-current]').focus()", vec![]).await?;
    page.press(letter).await?;
    page.notes_are(notes).await
}

/// Closes the panel of pages, and waits until the focus has gone back to what opened it.
async fn done(page: &Page) -> Result<()> {
    page.click("button", "Done").await?;
    wait::until("the focus on Pages", async || {
        Ok((page.eval("return document.activeElement?.id", vec![]).await? == json!("pages")).then_some(()))
    })
    .await
}

/// Storage that is forbidden, and storage that is full.
async fn storage_that_refuses(page: &Page) -> Result<()> {
    let forbidden = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });";
    let full = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };";
    for (what, script) in [("forbidden", forbidden), ("full", full)] {
        with(page, script).await?;
        enter(page, "e", &["written C5", "written E5"]).await?;
        page.sees(NOT_KEPT).await.context(what)?;
        page.reload().await?;
        page.notes_are(&["written C5", "written E5"])
            .await
            .with_context(|| format!("{what}, loaded again"))?;
        page.click("button", "Pages").await?;
        page.fill("textbox", "A name for this page", "Mine").await?;
        page.click("button", "Keep this page").await?;
        let said = page.find("region", "Pages").await?;
        wait::until("a sentence in the panel", async || {
            Ok(said.text().await?.contains(NOT_KEPT).then_some(()))
        })
        .await
        .context(what)?;
        done(page).await?;
    }
    Ok(())
}

/// The earlier page cannot make way: it stays, since the device would lose it.
async fn full_with_an_earlier_page(page: &Page) -> Result<()> {
    let full = "localStorage.setItem('crookwise.page', '/read?staff=Fagotti&notes=C3');
        Storage.prototype.setItem = function (name) { if (name !== 'crookwise.page') throw new DOMException('full', 'QuotaExceededError'); };";
    with(page, full).await?;
    enter(page, "e", &["written C5", "written E5"]).await?;
    page.sees(NOT_KEPT).await?;
    let kept = page.eval("return localStorage.getItem('crookwise.page')", vec![]).await?;
    ensure!(kept == json!("/read?staff=Fagotti&notes=C3"), "kept is {kept}");
    Ok(())
}

/// Storage with rubbish in it.
async fn rubbish(page: &Page) -> Result<()> {
    let script = "for (const name of ['page', 'pages', 'preferences', 'before', 'practise', 'record'])
        localStorage.setItem(`crookwise.${name}`, '\\u0000\\u202e rubbish \\ud800 -1 99999999999999999999');";
    with(page, script).await?;
    page.click("button", "Pages").await?;
    page.sees("What this device kept as your pages is damaged and cannot be read").await?;
    done(page).await?;
    page.come_back("").await?;
    page.sees("Call across the Quarry").await
}

/// Everything the device kept goes between two actions.
async fn evicted(page: &Page) -> Result<()> {
    with(page, "").await?;
    enter(page, "e", &["written C5", "written E5"]).await?;
    page.click("button", "Pages").await?;
    page.fill("textbox", "A name for this page", "First").await?;
    page.click("button", "Keep this page").await?;
    page.find("button", "First").await?;
    page.eval("localStorage.clear()", vec![]).await?;
    page.fill("textbox", "A name for this page", "Second").await?;
    page.click("button", "Keep this page").await?;
    page.find("button", "Second").await?;
    done(page).await?;
    page.eval("localStorage.clear()", vec![]).await?;
    enter(page, "g", &["written C5", "written E5", "written G5"]).await?;
    page.come_back("").await?;
    page.notes_are(&["written C5", "written E5", "written G5"]).await
}

/// No sound at all, and sound that is refused.
async fn sound(page: &Page) -> Result<()> {
    with(page, "delete window.AudioContext; delete window.webkitAudioContext;").await?;
    ensure!(page.find_all("group", "Sound").await?.is_empty(), "a bar of buttons that do nothing");
    page.click("button", "On the wall").await?;
    page.find("button", "Leave the wall").await?;
    ensure!(
        page.find_all("button", Name::Has("Hear".into())).await?.is_empty(),
        "a button that does nothing"
    );
    page.press("Escape").await?;
    page.find_gone("button", "Leave the wall").await?;
    for script in [
        "window.AudioContext = class { constructor() { throw new DOMException('no', 'NotSupportedError'); } };",
        "AudioContext.prototype.createBufferSource = () => { throw new DOMException('no', 'InvalidStateError'); };",
    ] {
        with(page, script).await?;
        page.click("button", "Hear the note").await?;
        page.sees(NO_SOUND).await?;
        enter(page, "e", &["written C5", "written E5"]).await?;
    }
    Ok(())
}

/// No clipboard, one that refuses, and a sheet of the system that the reader closes.
async fn clipboard(page: &Page) -> Result<()> {
    for script in [
        "Object.defineProperty(Navigator.prototype, 'clipboard', { get() { return undefined; } });",
        "Clipboard.prototype.writeText = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
         Navigator.prototype.share = () => Promise.reject(new DOMException('closed', 'AbortError'));",
    ] {
        with(page, script).await?;
        page.click("button", "Share").await?;
        page.click("button", "Copy the link").await?;
        page.sees("This browser does not let the page copy: select").await?;
        if script.contains("share") {
            page.click("button", "Hand it on").await?;
        }
        page.settled().await?;
        let link = page.value("textbox", "A link to exactly this page").await?;
        ensure!(link.contains("#/read?") && link.contains("Oboi"), "{link}");
    }
    Ok(())
}

/// No full screen, and one that refuses.
async fn full_screen(page: &Page) -> Result<()> {
    for script in [
        "delete Element.prototype.requestFullscreen; delete Document.prototype.exitFullscreen;",
        "Element.prototype.requestFullscreen = () => Promise.reject(new TypeError('no'));
         Object.defineProperty(Document.prototype, 'fullscreenElement', { get() { return document.documentElement; } });
         Document.prototype.exitFullscreen = () => Promise.reject(new TypeError('no'));",
    ] {
        with(page, script).await?;
        page.click("button", "On the wall").await?;
        page.click("button", "Leave the wall").await?;
        page.find_gone("button", "Leave the wall").await?;
        enter(page, "e", &["written C5", "written E5"]).await?;
    }
    Ok(())
}

fn storage_may_fail() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        storage_that_refuses(page).await?;
        full_with_an_earlier_page(page).await?;
        rubbish(page).await?;
        evicted(page).await
    });
}

fn sound_clipboard_and_full_screen_may_be_missing() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        sound(page).await?;
        clipboard(page).await?;
        full_screen(page).await
    });
}
