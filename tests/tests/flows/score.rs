//! Score: a movement is opened by a tap, a field, a drop or a paste, its parts corrected, its brass audited, bars of it
//! taken into Read and into an exercise; it stays on the device until it is taken off.
#![allow(clippy::print_stdout, reason = "what is skipped is said")]

use anyhow::{Context, Result, ensure};
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::json;
use std::path::{Path, PathBuf};

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    the_demo_movement_opens_with_one_tap_and_its_brass_stands_in_read,
    rows_of_the_audit_lead_to_their_notes_by_keyboard,
    a_file_is_kept_corrected_opened_again_and_taken_off,
    what_is_dropped_or_pasted_is_opened_and_what_is_no_score_is_refused,
    bars_make_an_exercise_and_files,
    a_file_opened_by_the_system_is_shown,
    real_movements_are_opened
];

fn demo_file() -> PathBuf {
    crookwise_tests::site::root().join("web/demo/movement.musicxml")
}

/// Puts a file into the field.
async fn choose(page: &Page, file: &Path) -> Result<()> {
    page.find("button", "Open the demo movement").await?;
    let field = page
        .driver()
        .execute("return document.querySelector('input[type=file]')", vec![])
        .await?
        .element()?;
    Ok(field.send_keys(file.to_string_lossy()).await?)
}

/// Waits until the audit has rows.
async fn is_audited(page: &Page) -> Result<()> {
    wait::until("rows of the audit", async || {
        let rows =
            page.eval("return document.querySelectorAll('table[aria-label=Audit] tbody').length", vec![]);
        Ok((rows.await?.as_u64() > Some(0)).then_some(()))
    })
    .await
}

/// Opens the demo movement from the start of Score.
async fn open_demo(page: &Page) -> Result<()> {
    page.tap("button", "Open the demo movement").await?;
    page.find("heading", "Parts").await?;
    is_audited(page).await
}

async fn is_ticked(page: &Page, name: &str, wanted: bool) -> Result<()> {
    wait::until("the box", async || {
        let is = page.find("checkbox", Name::Has(name.to_owned())).await?.is_selected().await?;
        Ok((is == wanted).then_some(()))
    })
    .await
}

fn the_demo_movement_opens_with_one_tap_and_its_brass_stands_in_read() {
    flow::in_every_browser(&Setup::new(Window::PHONE), async |page| {
        page.tap("link", "Score").await?;
        open_demo(page).await?;
        page.hash_has("demo=1").await?;
        page.well_laid_out().await?;
        page.axe().await?;
        is_ticked(page, "Corno I in D", true).await?;
        page.fill("textbox", "From bar or letter", "9").await?;
        page.fill("textbox", "To bar or letter", "12").await?;
        page.sees("7 staves, bars 9–12").await?;
        page.fill("textbox", "To bar or letter", "999").await?;
        page.sees("There is no bar or letter “999” in this movement").await?;
        page.fill("textbox", "To bar or letter", "12").await?;
        page.tap("button", "Open in Read").await?;
        page.hash_has("/read").await?;
        let staves = page.eval("return location.hash.split('staff=').length - 1", vec![]).await?;
        ensure!(staves == json!(7), "{staves} staves");
        page.sees("Corno III in F").await?;
        // One step back is the movement, as it was left.
        page.back().await?;
        page.find("heading", "Parts").await?;
        page.value_is("textbox", "From bar or letter", "9").await?;
        page.reload().await?;
        is_audited(page).await?;
        page.tap("button", "Another score").await?;
        page.find("button", "Open the demo movement").await?;
        page.is_quiet().await
    });
}

fn rows_of_the_audit_lead_to_their_notes_by_keyboard() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        page.well_laid_out().await?;
        page.axe().await?;
        page.find_all("button", Name::Has("half stopped".to_owned()))
            .await?
            .first()
            .context("a stopped note")?;
        page.eval("document.querySelector('.kind.off').focus()", vec![]).await?;
        page.press("Enter").await?;
        // The bars of those notes stand below, and one leads to Read with its note selected.
        let bar = "return [...document.querySelectorAll('.kinds.bars button')].map((one) => one.textContent)[0] ?? ''";
        let first = wait::until("bars", async || {
            let bar = page.eval(bar, vec![]).await?;
            Ok(bar.as_str().filter(|bar| bar.starts_with("bar ")).map(str::to_owned))
        })
        .await?;
        page.focus("button", first.as_str()).await?;
        page.press("Enter").await?;
        page.hash_has("/read").await?;
        page.sees("half stopped").await?;
        page.back().await?;
        is_audited(page).await?;
        page.is_quiet().await
    });
}

fn a_file_is_kept_corrected_opened_again_and_taken_off() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score"), async |page| {
        choose(page, &demo_file()).await?;
        is_audited(page).await?;
        page.hash_has("kept=").await?;
        // A label is corrected, and old notation read as such.
        page.click("button", "Correct: Corno I in D").await?;
        page.fill("textbox", "Label as the score prints it", "Corno I in Es").await?;
        page.press("Enter").await?;
        page.sees("Horn in E-flat").await?;
        page.click("checkbox", Name::Has("Read them as old notation".to_owned())).await?;
        is_ticked(page, "Read them as old notation", true).await?;
        page.settled().await?;
        page.reload().await?;
        is_audited(page).await?;
        page.sees("Corno I in Es").await?;
        is_ticked(page, "Read them as old notation", true).await?;
        // What was corrected governs what goes to Read.
        page.click("button", "Open in Read").await?;
        page.hash_has("Corno+I+in+Es").await?;
        page.set_hash("/score").await?;
        page.find("region", "Scores on this device").await?;
        page.sees("Introduction and Rondo").await?;
        page.axe().await?;
        page.click("button", Name::Has("Take off this device".to_owned())).await?;
        page.find_gone("region", "Scores on this device").await?;
        // By a slip: it is put back, with what was corrected.
        page.click("button", "Put it back").await?;
        page.click("button", Name::Has("Open Introduction and Rondo".to_owned())).await?;
        is_audited(page).await?;
        page.sees("Corno I in Es").await?;
        page.click("button", "Another score").await?;
        page.click("button", Name::Has("Take off this device".to_owned())).await?;
        page.find_gone("region", "Scores on this device").await?;
        page.reload().await?;
        page.find("button", "Open the demo movement").await?;
        page.find_gone("region", "Scores on this device").await?;
        page.is_quiet().await
    });
}

/// Gives the page a file in an event of this kind.
async fn give(page: &Page, kind: &str, name: &str, text: &str) -> Result<()> {
    let script = "const [kind, name, text] = arguments;
        const data = new DataTransfer();
        if (name) data.items.add(new File([text], name)); else data.setData('text', text);
        const told = kind === 'drop'
            ? new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: data })
            : new ClipboardEvent('paste', { bubbles: true, cancelable: true, clipboardData: data });
        document.body.dispatchEvent(told);";
    page.eval(script, vec![json!(kind), json!(name), json!(text)]).await.map(|_| ())
}

fn what_is_dropped_or_pasted_is_opened_and_what_is_no_score_is_refused() {
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash("/score"), async |page| {
        page.find("button", "Open the demo movement").await?;
        give(page, "drop", "tune.mid", "MThd\0\0\0\u{6}").await?;
        page.sees("This is a MIDI file").await?;
        give(page, "drop", "notes.mxl", "PK\u{3}\u{4} and no more").await?;
        page.sees("This compressed file is damaged").await?;
        give(page, "drop", "scan.png", "a picture").await?;
        page.sees("This is not a score in MusicXML").await?;
        give(page, "paste", "", "Corni in Es").await?;
        page.sees("What was pasted is no score in MusicXML").await?;
        let text = std::fs::read_to_string(demo_file()).context("the demo movement")?;
        give(page, "paste", "", &text).await?;
        is_audited(page).await?;
        page.set_hash("/score").await?;
        give(page, "drop", "again.musicxml", &text).await?;
        is_audited(page).await?;
        // A link to what is not here, and one that is none, say so.
        page.set_hash("/score?kept=0123abcd").await?;
        page.sees("The score of this link is not on this device").await?;
        page.set_hash("/score?what=1").await?;
        page.sees("This link to Score is damaged").await?;
        page.is_quiet().await
    });
}

/// What a browser does that opens files with the installed app ("File Handling", W3C Web Incubator CG).
const LAUNCHED: &str = "const getFile = async () => {
        const parts = document.querySelector('link[href$=\"parts.js\"]').href;
        const answer = await fetch(parts.replace('parts.js', 'demo.musicxml'));
        return new File([await answer.text()], 'launched.musicxml');
    };
    const setConsumer = (told) => told({ files: [{ getFile }] });
    Object.defineProperty(window, 'launchQueue', { value: { setConsumer } });";

fn a_file_opened_by_the_system_is_shown() {
    flow::in_every_browser(&Setup::new(Window::DESK), async |page| {
        page.stand_in(LAUNCHED).await?;
        page.visit("/score").await?;
        is_audited(page).await?;
        page.hash_has("kept=").await?;
        page.well_laid_out().await?;
        page.is_quiet().await
    });
}

fn bars_make_an_exercise_and_files() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score?demo=1"), async |page| {
        is_audited(page).await?;
        // What would be saved is caught.
        let catch = "window.saved = [];
            HTMLAnchorElement.prototype.click = function () { window.saved.push(this.download); };";
        page.eval(catch, vec![]).await?;
        page.click("button", "Save as a table (CSV)").await?;
        page.eval("document.querySelector('.taking details').open = true", vec![]).await?;
        page.click("button", "Save as MusicXML").await?;
        page.click("button", "Save as MIDI").await?;
        wait::until("three files", async || {
            let saved =
                page.eval("return window.saved.map((name) => name.split('.').pop()).sort()", vec![]).await?;
            Ok((saved == json!(["csv", "mid", "musicxml"])).then_some(()))
        })
        .await?;
        page.click("button", "Make an exercise").await?;
        page.hash_has("/practise").await?;
        page.hash_has("from=read").await?;
        page.find("button", "Set an exercise").await?;
        // What it asks is drawn from these staves.
        wait::until("a staff of the movement", async || {
            let text = page.text().await?;
            let labels = ["Corno I", "Tromba I", "Timpani in D A"];
            Ok(labels.iter().any(|label| text.contains(label)).then_some(()))
        })
        .await?;
        page.is_quiet().await
    });
}

fn real_movements_are_opened() {
    let Some(scores) = std::env::var_os("CROOKWISE_SCORES").map(PathBuf::from) else {
        println!("skipped: CROOKWISE_SCORES is not set");
        return;
    };
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score"), async |page| {
        choose(page, &scores.join("Beethoven_Op.92_1.mxl")).await?;
        is_audited(page).await?;
        page.sees("35 notes under the bass clef").await?;
        page.sees("bars 9, 66–80").await?;
        // One to each: both horns read as old, and the audit follows.
        page.well_laid_out().await?;
        page.fill("textbox", "From bar or letter", "63").await?;
        page.fill("textbox", "To bar or letter", "66").await?;
        page.click("button", "Open in Read").await?;
        page.hash_has("/read").await?;
        page.back().await?;
        page.click("button", "Another score").await?;
        // The largest of them.
        choose(page, &scores.join("Beethoven_Op.125_4.mxl")).await?;
        page.sees("943 bars · ").await?;
        is_audited(page).await?;
        page.set_hash("/score").await?;
        page.find("region", "Scores on this device").await?;
        page.is_quiet().await
    });
}
