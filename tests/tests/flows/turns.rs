//! A crook from a bar of a movement on, corrected by touch: where the file does not heed its own words, and at a note that was
//! tapped. It is told, kept, taken back.

use crate::score::{choose, is_audited};
use anyhow::{Context, Result, ensure};
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::input::Place;
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use std::path::PathBuf;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    words_that_the_file_does_not_heed_hold_at_a_tap,
    a_note_has_another_crook_from_its_bar_on,
    a_bar_and_a_crook_are_typed_beside_the_label
];

/// A horn in F: in bar 2 stands "muta in D", and its file does not change until bar 6, to E-flat.
fn file() -> PathBuf {
    crookwise_tests::site::root().join("crates/opened/tests/cases/unheeded.musicxml")
}

/// The crooks in the audit, in their course.
async fn crooks_are(page: &Page, wanted: &str) -> Result<()> {
    let crooks = "return [...document.querySelectorAll('table[aria-label=Audit] tbody tr')]
        .map((row) => row.textContent.match(/Horn in [A-Z](-flat)?/)?.[0]).filter((one) => one).join(', ')";
    wait::until(
        wanted,
        async || Ok((page.eval(crooks, vec![]).await?.as_str() == Some(wanted)).then_some(())),
    )
    .await
}

const AS_IN_THE_FILE: &str = "Horn in F, Horn in E-flat";
const HEED: &str = "From bar 3 on: muta in D";
const TAKE_BACK: &str = "Take it back: From bar 3 on: muta in D";

fn words_that_the_file_does_not_heed_hold_at_a_tap() {
    for window in [Window::PHONE, Window::LANDSCAPE] {
        flow::in_every_browser(&Setup::new(window).hash("/score"), async |page| {
            choose(page, &file()).await?;
            is_audited(page).await?;
            page.sees("“muta in D” stands in bar 2, and in the file nothing changes").await?;
            crooks_are(page, AS_IN_THE_FILE).await?;
            page.tap("button", HEED).await?;
            page.sees("From bar 3 on: muta in D, as you corrected it").await?;
            page.find_gone("button", HEED).await?;
            page.focus_is_on("button", "Correct: Corno I in F").await?;
            crooks_are(page, "Horn in F, Horn in D, Horn in E-flat").await?;
            page.well_laid_out().await?;
            page.axe().await?;
            // It is kept with the score, and taken back from what was kept.
            page.settled().await?;
            page.reload().await?;
            is_audited(page).await?;
            crooks_are(page, "Horn in F, Horn in D, Horn in E-flat").await?;
            page.tap("button", TAKE_BACK).await?;
            page.find("button", HEED).await?;
            crooks_are(page, AS_IN_THE_FILE).await?;
            // So it is by the way back, and forth again.
            page.tap("button", "Undo").await?;
            page.find("button", TAKE_BACK).await?;
            page.tap("button", "Redo").await?;
            page.find("button", HEED).await?;
            page.is_quiet().await
        });
    }
}

/// What is said of the note that was tapped.
async fn note_is(page: &Page, wanted: &str) -> Result<()> {
    let said = "return document.querySelector('.tapped .sea')?.textContent ?? ''";
    wait::until(wanted, async || Ok((page.eval(said, vec![]).await?.as_str() == Some(wanted)).then_some(())))
        .await
}

/// Opens the ways to another crook, as a finger does.
async fn open_other_crook(page: &Page) -> Result<()> {
    let place = page
        .eval(
            "const box = document.querySelector('.other-crook summary').getBoundingClientRect();
        return [box.left + 20, box.top + box.height / 2, box.height]",
            vec![],
        )
        .await?;
    let at = |number: usize| place.get(number).and_then(serde_json::Value::as_f64).context("a place");
    ensure!(at(2)? >= 44.0, "a finger is larger than that: {place}");
    page.tap_at(Place { x: at(0)?, y: at(1)? }).await
}

fn a_note_has_another_crook_from_its_bar_on() {
    for window in [Window::PHONE, Window::LANDSCAPE] {
        flow::in_every_browser(&Setup::new(window).hash("/score"), async |page| {
            choose(page, &file()).await?;
            is_audited(page).await?;
            page.tap("button", "As written").await?;
            page.settled().await?;
            // The second note stands behind the rest with the words.
            let second = wait::until("heads", async || Ok(page.heads().await?.get(1).copied())).await?;
            page.tap_at(second).await?;
            page.sees("Corno I in F, bar 3").await?;
            note_is(page, "F4").await?;
            page.well_laid_out().await?;
            page.axe().await?;
            // The words of the file stand beside it, and hold at a tap.
            let in_moment =
                "return [...document.querySelectorAll('.moment .heed')].map((one) => one.textContent).join()";
            ensure!(
                page.eval(in_moment, vec![]).await?.as_str() == Some(HEED),
                "the words are not beside the note"
            );
            let heed = page.find_all("button", HEED).await?;
            page.tap_on(heed.first().context("the words beside the note")?).await?;
            note_is(page, "D4").await?;
            // Any other is chosen from the list.
            open_other_crook(page).await?;
            page.choose("From this bar on", "G").await?;
            note_is(page, "G4").await?;
            page.sees("From bar 3 on: muta in G, as you corrected it").await?;
            page.choose("From this bar on", "as the file has it").await?;
            note_is(page, "F4").await?;
            // The whole part is corrected where its label stands.
            page.tap("button", "The whole part …").await?;
            page.focus_is_on("textbox", "Label as the score prints it").await?;
            page.is_quiet().await
        });
    }
}

fn a_bar_and_a_crook_are_typed_beside_the_label() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score"), async |page| {
        choose(page, &file()).await?;
        is_audited(page).await?;
        page.click("button", "Correct: Corno I in F").await?;
        page.fill("textbox", "Another crook from bar or letter", "99").await?;
        page.press("Enter").await?;
        page.sees("There is no bar or letter “99” in this movement").await?;
        page.fill("textbox", "Another crook from bar or letter", "4").await?;
        page.press("Enter").await?;
        // "D" alone is "muta in D".
        page.fill("textbox", "Change of crook, as printed", "D").await?;
        page.press("Enter").await?;
        page.sees("From bar 4 on: muta in D, as you corrected it").await?;
        crooks_are(page, "Horn in F, Horn in D, Horn in E-flat").await?;
        page.fill("textbox", "Change of crook, as printed", "Xyz").await?;
        page.press("Enter").await?;
        page.sees("is not understood here: the crook stays").await?;
        crooks_are(page, AS_IN_THE_FILE).await?;
        page.axe().await?;
        // Escape leaves what is kept as it was.
        page.fill("textbox", "Change of crook, as printed", "muta in A").await?;
        page.press("Escape").await?;
        page.find_gone("textbox", "Change of crook, as printed").await?;
        page.focus_is_on("button", "Correct: Corno I in F").await?;
        ensure!(!page.text().await?.contains("muta in A"), "Escape changed the crook");
        page.is_quiet().await
    });
}
