//! The reader's own pages: kept, listed, opened, taken away as a file and back, never lost to a link.

use anyhow::{Context, Result, ensure};
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::process::Folder;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![no_page_is_lost];

const OBOES: &str = "/read?staff=Oboi&notes=C5&at=1";
const BASSOONS: &str = "/read?staff=Fagotti&notes=C3&at=1";
const LABEL: &str = "What the score prints";

/// A stand-in that takes the file the page gives away, instead of the browser's own download: it is then in
/// `window.__file`.
const TAKE_FILE: &str = "
    const { createObjectURL } = URL;
    URL.createObjectURL = (blob) => { blob.text().then((text) => { window.__file = text; }); return createObjectURL.call(URL, blob); };
    const { click } = HTMLAnchorElement.prototype;
    HTMLAnchorElement.prototype.click = function () { if (!this.download) click.call(this); };";

/// The label and the first words of the notes, of a page of one staff.
async fn shows(page: &Page, label: &str, notes: &[&str]) -> Result<()> {
    page.value_is("textbox", LABEL, label).await?;
    page.notes_are(notes).await
}

/// A letter typed behind the selected note: from here on the page is the reader's own.
async fn enter(page: &Page, letter: &str) -> Result<()> {
    let before = page.notes().await?.len();
    page.eval("document.querySelector('.cell[aria-current]').focus()", vec![]).await?;
    page.press(letter).await?;
    wait::until("one note more", async || Ok((page.notes().await?.len() == before + 1).then_some(()))).await
}

async fn open_pages(page: &Page) -> Result<()> {
    page.click("button", "Pages").await?;
    page.find("dialog", "Pages").await.map(drop)
}

/// The names in the list of kept pages.
async fn kept(page: &Page, wanted: &[&str]) -> Result<()> {
    let script = "return [...document.querySelectorAll('dialog[aria-label=Pages] li button:first-child')].map((at) => at.textContent)";
    let seen = wait::until("the kept pages", async || {
        Ok((page.eval(script, vec![]).await? == json!(wanted)).then_some(()))
    })
    .await;
    let found = page.eval(script, vec![]).await?;
    seen.with_context(|| format!("kept are {found}, and not {wanted:?}"))
}

async fn keep(page: &Page, name: &str) -> Result<()> {
    page.fill("textbox", "A name for this page", name).await?;
    page.click("button", "Keep this page").await
}

/// A link never takes the place of the reader's own page.
async fn beside_a_link(page: &Page) -> Result<()> {
    enter(page, "e").await?;
    page.come_back(BASSOONS).await?;
    shows(page, "Fagotti", &["written C3"]).await?;
    page.come_back("").await?;
    shows(page, "Oboi", &["written C5", "written E5"]).await.context("after a link that was looked at")?;
    page.come_back(BASSOONS).await?;
    shows(page, "Fagotti", &["written C3"]).await?;
    enter(page, "d").await?;
    page.come_back("").await?;
    shows(page, "Fagotti", &["written C3", "written D3"]).await.context("after a link that was changed")?;
    open_pages(page).await?;
    kept(page, &["The page before"]).await?;
    page.click("button", "The page before").await?;
    shows(page, "Oboi", &["written C5", "written E5"]).await
}

/// Kept under a name, listed, opened again after a reload, removed.
async fn in_the_list(page: &Page) -> Result<()> {
    // What was opened from it shut the sheet.
    page.find_gone("dialog", "Pages").await?;
    open_pages(page).await?;
    keep(page, "Two oboes").await?;
    kept(page, &["The page before", "Two oboes"]).await?;
    page.click("button", "Remove The page before").await?;
    kept(page, &["Two oboes"]).await?;
    keep(page, "").await?;
    kept(page, &["Two oboes", "Untitled"]).await?;
    page.click("button", "Done").await?;
    // The focus goes back to what the sheet was opened by.
    page.find_gone("dialog", "Pages").await?;
    page.focus_is_on("button", "Pages").await?;
    enter(page, "g").await?;
    open_pages(page).await?;
    keep(page, "").await?;
    // The changed page of the link made way in its turn when another of the list was opened and changed.
    kept(page, &["Two oboes", "Untitled", "The page before", "Untitled 2"]).await?;
    page.reload().await?;
    shows(page, "Oboi", &["written C5", "written E5", "written G5"]).await?;
    open_pages(page).await?;
    kept(page, &["Two oboes", "Untitled", "The page before", "Untitled 2"]).await?;
    page.click("button", "Two oboes").await?;
    shows(page, "Oboi", &["written C5", "written E5"]).await
}

/// Everything as a file, and back on a device that has nothing.
async fn as_a_file(page: &Page) -> Result<()> {
    page.eval(TAKE_FILE, vec![]).await?;
    open_pages(page).await?;
    // What stands below the list moves as long as it is not there.
    kept(page, &["Two oboes", "Untitled", "The page before", "Untitled 2"]).await?;
    page.settled().await?;
    page.click("button", "Save everything as a file").await?;
    let text = wait::until("a file", async || {
        let text = page.eval("return window.__file ?? null", vec![]).await?;
        Ok(text.as_str().map(String::from))
    })
    .await?;
    ensure!(text.starts_with("Crookwise pages 1\n") && text.lines().count() == 6, "the file is {text}");
    let folder = Folder::make()?;
    let (good, bad) = (folder.path().join("pages.txt"), folder.path().join("other.txt"));
    std::fs::write(&good, text)?;
    std::fs::write(&bad, "no pages at all")?;
    page.visit("").await?;
    open_pages(page).await?;
    page.sees("None yet.").await?;
    for (file, sentence) in [(&bad, Some("This is not a file of pages written by Crookwise")), (&good, None)]
    {
        page.give_file(file).await?;
        if let Some(sentence) = sentence {
            page.sees(sentence).await?;
        }
    }
    kept(page, &["Two oboes", "Untitled", "The page before", "Untitled 2", "The page on the screen"]).await?;
    page.click("button", "The page on the screen").await?;
    shows(page, "Oboi", &["written C5", "written E5"]).await?;
    open_pages(page).await?;
    page.click("button", "Untitled 2").await?;
    shows(page, "Oboi", &["written C5", "written E5", "written G5"]).await
}

fn no_page_is_lost() {
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash(OBOES), async |page| {
        beside_a_link(page).await?;
        in_the_list(page).await?;
        as_a_file(page).await
    });
}
