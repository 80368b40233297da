//! On the wall: read from the back row, revealed one by one, stepped through by keys.

use anyhow::{Context, Result, ensure};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::passage::EIGHT;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::{Value, json};

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![from_the_back_row];

/// The least size of a text on the wall, in CSS pixels.
const LEAST: f64 = 28.0;

/// Every text that is seen, with its size, where that is less than a size.
const SMALL: &str = r"
    const [least] = arguments;
    const seen = (at) => at.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !at.closest('.unseen, .glyph-store');
    const found = [];
    for (const at of document.body.querySelectorAll('*')) {
        const own = [...at.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim());
        if (!own || !seen(at) || ['SCRIPT', 'STYLE', 'OPTION'].includes(at.tagName)) continue;
        const scale = at.getScreenCTM ? at.getScreenCTM().a : 1;
        const size = parseFloat(getComputedStyle(at).fontSize) * scale;
        if (size < least - 0.01) found.push(`${size} px: ${at.textContent.trim().slice(0, 40)}`);
    }
    return found";

/// What can be hidden: its button, and what a reader then sees no more.
const PARTS: [(&str, &str); 4] = [
    ("Partials", ".mark.partial"),
    ("Sounding staff", "[role=img][aria-label^='Sounding staff'] svg"),
    ("Names", ".mark.name, .big"),
    ("Chord", "section[aria-label='The column together']"),
];

async fn is_seen(page: &Page, part: &str) -> Result<bool> {
    let script = "return [...document.querySelectorAll(arguments[0])].some((at) => at.checkVisibility({ visibilityProperty: true }))";
    Ok(page.eval(script, vec![json!(part)]).await? == json!(true))
}

async fn all_is_large(page: &Page, what: &str) -> Result<()> {
    let found = page.eval(SMALL, vec![json!(LEAST)]).await?;
    let found: Vec<&str> = found.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    ensure!(found.is_empty(), "{what}, texts too small for the back row:\n  {}", found.join("\n  "));
    let wide = "return document.documentElement.scrollWidth <= document.documentElement.clientWidth";
    ensure!(page.eval(wide, vec![]).await? == json!(true), "{what}: it scrolls sideways");
    Ok(())
}

/// Presses a key; the column is then this one.
async fn step(page: &Page, key: &str, column: usize) -> Result<()> {
    page.press(key).await?;
    page.makes_together(&format!("Column {column} of 2")).await.with_context(|| format!("after {key}"))
}

/// A button that has the focus keeps it when the column changes, and with the focus on a note a clicker steps as well:
/// only off the wall do the page keys go from staff to staff.
async fn wherever_the_focus_is(page: &Page) -> Result<()> {
    page.focus("button", "Partials").await?;
    for (key, column) in [("ArrowRight", 2), ("PageUp", 1)] {
        step(page, key, column).await?;
        let focus = page.focused().await?;
        ensure!(focus.is_some_and(|at| at.1 == "Partials"), "the focus goes when the column does");
    }
    let notes = page.find_all("button", Name::Has("written E5, sounds G4".into())).await?;
    page.click_at(page.extent(notes.first().context("no horn")?).await?.middle()).await?;
    for (key, column) in [("PageDown", 2), ("PageUp", 1)] {
        step(page, key, column).await?;
    }
    let selected = "return document.querySelector('.cell[aria-current]').textContent";
    let note = page.eval(selected, vec![]).await?;
    ensure!(
        note.as_str().is_some_and(|note| note.starts_with("written E5, sounds G4")),
        "a clicker leads from staff to staff: {note}"
    );
    Ok(())
}

async fn on_the_wall(page: &Page, part_by_part: bool) -> Result<()> {
    page.tab_to("button", "On the wall").await?;
    page.press("Enter").await?;
    page.find("button", "Leave the wall").await?;
    page.settled().await?;
    ensure!(page.focused().await?.is_some(), "the focus is lost on the way to the wall");
    all_is_large(page, "everything hidden").await?;
    for (_, part) in PARTS {
        ensure!(!is_seen(page, part).await?, "{part} is not hidden to begin with");
    }
    for (at, (button, part)) in PARTS.iter().enumerate() {
        page.click("button", *button).await?;
        wait::until(button, async || Ok(is_seen(page, part).await?.then_some(()))).await?;
        if part_by_part {
            for (_, other) in &PARTS[at + 1..] {
                ensure!(!is_seen(page, other).await?, "{button} reveals {other} as well");
            }
            page.click("button", *button).await?;
            wait::until(button, async || Ok((!is_seen(page, part).await?).then_some(()))).await?;
            page.click("button", *button).await?;
        }
    }
    all_is_large(page, "everything shown").await?;
    for (key, column) in
        [("ArrowRight", 2), ("ArrowLeft", 1), ("PageDown", 2), ("PageDown", 2), ("PageUp", 1), ("PageUp", 1)]
    {
        step(page, key, column).await?;
    }
    if part_by_part {
        wherever_the_focus_is(page).await?;
    }
    page.press("Escape").await?;
    page.find_gone("button", "Leave the wall").await?;
    page.find("button", "On the wall").await?;
    page.settled().await?;
    ensure!(page.focused().await?.is_some(), "the focus is lost on the way back");
    Ok(())
}

fn from_the_back_row() {
    flow::in_every_browser(&Setup::new(Window::DESK).hash(EIGHT), async |page| {
        on_the_wall(page, true).await?;
        page.resize(Window::LANDSCAPE).await?;
        on_the_wall(page, false).await?;
        // A single staff of natural brass: its partials with their drift.
        page.set_hash("/read?staff=Corni+in+Es&notes=E5.Fs5.A4._&at=2").await?;
        page.notes_are(&["written E5", "written F-sharp 5", "written A4", "held"]).await?;
        page.click("button", "On the wall").await?;
        // No field shows what the score prints.
        page.find("heading", "Corni in Es").await?;
        for button in ["Partials", "Sounding staff", "Names"] {
            page.click("button", button).await?;
        }
        all_is_large(page, "one staff").await?;
        page.click("button", "Leave the wall").await?;
        page.find_gone("button", "Leave the wall").await?;
        page.find("heading", "Written").await?;
        Ok(())
    });
}
