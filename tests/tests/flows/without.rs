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
    page.forget().await?;
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

/// The database is kept from the page; what follows stands in its place.
const NO_DATABASE: &str =
    "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); };";
const IN_PLACE: &str = "This browser refuses its database";
const FULL: &str = "There is no more room on this device";
const ASIDE: &str = "Nothing was thrown away: it is set aside as it was";

async fn keep(page: &Page, name: &str) -> Result<()> {
    page.fill("textbox", "A name for this page", name).await?;
    page.click("button", "Keep this page").await
}

/// Everything is forbidden, as in some private windows; and everything at once is full.
async fn storage_that_refuses(page: &Page) -> Result<()> {
    let forbidden = format!(
        "Object.defineProperty(window, 'localStorage', {{ get() {{ throw new DOMException('no', 'SecurityError'); }} }}); {NO_DATABASE}"
    );
    let full = format!(
        "Storage.prototype.setItem = () => {{ throw new DOMException('full', 'QuotaExceededError'); }}; {NO_DATABASE}"
    );
    for (what, script) in [("forbidden", forbidden), ("full", full)] {
        with(page, &script).await?;
        enter(page, "e", &["written C5", "written E5"]).await?;
        page.sees(NOT_KEPT).await.context(what)?;
        page.reload().await?;
        page.notes_are(&["written C5", "written E5"])
            .await
            .with_context(|| format!("{what}, loaded again"))?;
        page.click("button", "Pages").await?;
        keep(page, "Mine").await?;
        let said = page.find("dialog", "Pages").await?;
        wait::until("a sentence in the panel", async || {
            Ok(said.text().await?.contains(NOT_KEPT).then_some(()))
        })
        .await
        .context(what)?;
        done(page).await?;
    }
    Ok(())
}

/// A database that is refused: pages are kept in its place, and go into it when it is there again. One that is full says
/// so, and what was kept stays.
async fn database_that_refuses(page: &Page) -> Result<()> {
    with(page, NO_DATABASE).await?;
    page.click("button", "Pages").await?;
    keep(page, "Mine").await?;
    page.sees(IN_PLACE).await?;
    page.find("button", "Mine").await?;
    page.come_back(START).await?;
    page.click("button", "Pages").await?;
    page.find("button", "Mine").await.context("kept in place of the database")?;
    page.stand_in("").await?;
    page.come_back(START).await?;
    page.click("button", "Pages").await?;
    page.find("button", "Mine").await.context("in the database")?;
    let left = page
        .eval("return Object.keys(localStorage).filter((name) => name.startsWith('crookwise.in/'))", vec![]);
    ensure!(left.await? == json!([]), "what stood in its place is in the database now");
    let full = "IDBObjectStore.prototype.put = function () { this.transaction.abort(); throw new DOMException('full', 'QuotaExceededError'); };";
    page.eval(full, vec![]).await?;
    keep(page, "One too many").await?;
    let said = page.find("dialog", "Pages").await?;
    wait::until("a sentence in the panel", async || {
        let text = said.text().await?;
        Ok((text.contains(FULL) || text.contains(NOT_KEPT)).then_some(()))
    })
    .await?;
    page.find("button", "Mine").await?;
    done(page).await
}

/// The page that stood on the desk cannot make way for another: it stays, however often the device refuses.
async fn full_with_an_earlier_page(page: &Page) -> Result<()> {
    with(page, "").await?;
    enter(page, "e", &["written C5", "written E5"]).await?;
    let full = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };";
    page.stand_in(full).await?;
    page.come_back("/read?staff=Fagotti&notes=C3&at=1").await?;
    enter(page, "d", &["written C3", "written D3"]).await?;
    page.sees(NOT_KEPT).await?;
    enter(page, "e", &["written C3", "written D3", "written E3"]).await?;
    page.stand_in("").await?;
    page.come_back("").await?;
    page.notes_are(&["written C5", "written E5"]).await
}

/// Rubbish wherever earlier versions and this one keep something: said, set aside whole, offered, never written over.
async fn rubbish(page: &Page) -> Result<()> {
    with(page, "").await?;
    let script = "for (const name of ['page', 'pages', 'preferences', 'before', 'exercise', 'record', 'desk.00000001', 'answers.1'])
        localStorage.setItem(`crookwise.${name}`, `\\u0000\\u202e rubbish ${name} -1 99999999999999999999`);";
    page.eval(script, vec![]).await?;
    page.come_back("").await?;
    page.sees(ASIDE).await?;
    enter_anything(page).await?;
    page.click("button", "Pages").await?;
    wait::until("all of it to be set aside", async || {
        let there = page.find_all("button", Name::Has("Save as a file: ".into())).await?.len();
        Ok((there >= 7).then_some(()))
    })
    .await?;
    page.eval("const { createObjectURL } = URL; URL.createObjectURL = (blob) => { blob.text().then((text) => { window.__file = text; }); return createObjectURL.call(URL, blob); };
        HTMLAnchorElement.prototype.click = () => {};", vec![]).await?;
    page.click("button", "Save as a file: A record of practice").await?;
    wait::until("the file", async || {
        let file = page.eval("return window.__file ?? ''", vec![]).await?;
        Ok(file
            .as_str()
            .is_some_and(|text| text == "\u{0}\u{202e} rubbish record -1 99999999999999999999")
            .then_some(()))
    })
    .await?;
    page.reload().await?;
    page.click("button", "Pages").await?;
    page.find("button", "Save as a file: A record of practice").await.context("after a reload")?;
    page.click("button", "Remove for good: A record of practice").await?;
    page.find_gone("button", "Save as a file: A record of practice").await?;
    done(page).await
}

async fn enter_anything(page: &Page) -> Result<()> {
    let before = page.notes().await?.len();
    page.eval("document.querySelector('.cell[aria-current]').focus()", vec![]).await?;
    page.press("e").await?;
    wait::until("one note more", async || Ok((page.notes().await?.len() == before + 1).then_some(()))).await
}

/// Everything the device kept goes between two actions.
async fn evicted(page: &Page) -> Result<()> {
    with(page, "").await?;
    enter(page, "e", &["written C5", "written E5"]).await?;
    page.click("button", "Pages").await?;
    keep(page, "First").await?;
    page.find("button", "First").await?;
    page.forget().await?;
    keep(page, "Second").await?;
    page.find("button", "Second").await?;
    done(page).await?;
    page.forget().await?;
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
        database_that_refuses(page).await?;
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
