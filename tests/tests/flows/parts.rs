//! Parts of the app whose code comes when they are first wanted: they are not there before, they work after, they are on
//! the device, and a reader is told when one cannot come.

use anyhow::{Result, ensure};
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::versions::Version;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::{Value, json};

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    rules_that_come_with_a_part_change_nothing_else,
    a_part_comes_when_it_is_wanted_and_works,
    a_part_that_failed_once_comes_without_a_word,
    a_part_that_cannot_come_is_said_and_comes_when_asked_again,
    what_is_to_be_done_by_a_part_that_failed_once_is_done_without_a_word,
    what_cannot_be_done_is_said_and_is_done_when_asked_again,
    the_caret_waits_for_a_field_that_comes_late,
    a_part_that_was_never_wanted_is_there_without_a_server,
    what_a_teacher_needs_comes_when_a_teacher_wants_it
];

const ONE_NOTE: &str = "/read?staff=Corni+in+Es&notes=C5&at=1";
/// In the place of a connection on which the first part that is asked for fails so often.
const FAILS: &str = "const whole = window.fetch;
let name, left = TIMES;
window.fetch = (what, ...more) => {
  const url = String(what.url ?? what);
  if (!/parts-.*wasm$/.test(url) || (name ??= url) !== url || left-- <= 0) return whole(what, ...more);
  return Promise.reject(new TypeError('failed on purpose'));
};";

/// In the place of a slow connection.
const IS_SLOW: &str = "const whole = window.fetch;
window.fetch = async (what, ...more) => {
  if (/parts-.*wasm$/.test(String(what.url ?? what))) await new Promise((done) => setTimeout(done, 1500));
  return whole(what, ...more);
};";
/// What is said of a part that does not come.
const MISSING: &str = "This part could not be fetched";
/// What stands beside the first sound.
const SOUNDS: &str = "With headphones, turn it down before you listen.";
const LABEL: &str = "What the score prints";

/// The parts that this page itself has fetched, by name.
async fn parts(page: &Page) -> Result<Vec<String>> {
    let script =
        "return performance.getEntriesByType('resource').map((entry) => new URL(entry.name).pathname)
        .filter((path) => /^.parts-.*wasm$/.test(path)).map((path) => path.split('/').pop())";
    let names = page.eval(script, vec![]).await?;
    Ok(names.as_array().into_iter().flatten().filter_map(Value::as_str).map(String::from).collect())
}

/// How many they are.
async fn fetched(page: &Page) -> Result<usize> {
    Ok(parts(page).await?.len())
}

/// Opens a panel by its button and finds it.
async fn open(page: &Page, panel: &str) -> Result<()> {
    page.tap("button", panel).await?;
    page.find("dialog", panel).await.map(|_| ())
}

/// How everything on the page stands and is written.
async fn looks(page: &Page) -> Result<Vec<String>> {
    page.settled().await?;
    let script = "return [...document.querySelectorAll('main *')].map((at) => {
        const { x, y, width, height } = at.getBoundingClientRect();
        const { font, color, margin } = getComputedStyle(at);
        return [at.tagName, at.getAttribute('class'), [x, y, width, height].map(Math.round), font, color, margin].join(' ');
    })";
    let seen = page.eval(script, vec![]).await?;
    Ok(seen.as_array().into_iter().flatten().filter_map(Value::as_str).map(String::from).collect())
}

fn rules_that_come_with_a_part_change_nothing_else() {
    let several = "/read?staff=Corni+in+Es&notes=C5.E5&staff=Viola&notes=Eb4.G4&at=2";
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        // What stands beside the staves comes behind them.
        for (hash, beside) in [(ONE_NOTE, "[aria-label=\"Natural series\"]"), (several, ".members > *")] {
            let stands = async || {
                let script = "return document.querySelector(arguments[0]) !== null";
                wait::until(beside, async || {
                    Ok((page.eval(script, vec![json!(beside)]).await? == json!(true)).then_some(()))
                })
                .await
            };
            page.come_back(hash).await?;
            stands().await?;
            let before = looks(page).await?;
            ensure!(before.len() > 100, "only {} things are seen", before.len());
            for (place, there) in [("Practise", "Course"), ("Score", "Open a score"), ("Crooks", "This plan")]
            {
                page.click("link", place).await?;
                page.find("region", there).await?;
            }
            page.click("link", "Read").await?;
            stands().await?;
            let after = looks(page).await?;
            let other = before.iter().zip(&after).find(|(before, after)| before != after);
            ensure!(before.len() == after.len() && other.is_none(), "{hash} looks otherwise: {other:?}");
        }
        Ok(())
    });
}

fn a_part_comes_when_it_is_wanted_and_works() {
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).hash(ONE_NOTE), async |page| {
        page.notes_are(&["written C5, sounds E-flat 4"]).await?;
        ensure!(fetched(page).await? == 0, "a part was fetched before it was wanted");
        open(page, "Settings").await?;
        ensure!(fetched(page).await? > 0, "the panel came, but no part");
        page.choose("Octaves", "Helmholtz: c′ is middle C").await?;
        page.notes_are(&["written two-line C, sounds one-line E-flat"]).await?;
        page.click("button", "Done").await?;
        page.find_gone("dialog", "Settings").await?;

        // The others come from the same file.
        let before = fetched(page).await?;
        open(page, "Share").await?;
        page.find("img", "The link as a code for a camera").await?;
        page.click("button", "Done").await?;
        open(page, "Pages").await?;
        page.fill("textbox", "A name for this page", "One note").await?;
        page.click("button", "Keep this page").await?;
        page.find("button", "Remove One note").await?;
        ensure!(fetched(page).await? == before, "a part was fetched twice");
        page.axe().await
    });
}

/// A site whose first part fails so often.
fn failing(times: &str) -> Version {
    Version::with_script(&FAILS.replace("TIMES", times)).expect("a site with a poor connection")
}

fn a_part_that_failed_once_comes_without_a_word() {
    let site = failing("1");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(site.path()).hash(ONE_NOTE), async |page| {
        page.tap("button", "Settings").await?;
        page.find("dialog", "Settings").await?;
        page.find_gone("button", "Try again").await?;
        let noise = page.is_quiet().await.expect_err("the reason is on the console").to_string();
        ensure!(noise.contains("failed on purpose"), "{noise}");
        Ok(())
    });
}

fn what_is_to_be_done_by_a_part_that_failed_once_is_done_without_a_word() {
    let site = failing("1");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(site.path()).hash(ONE_NOTE), async |page| {
        page.tap("button", "Hear the note").await?;
        page.sees(SOUNDS).await?;
        ensure!(!page.text().await?.contains(MISSING), "what came at the second time was said to be missing");
        let noise = page.is_quiet().await.expect_err("the reason is on the console").to_string();
        ensure!(noise.contains("failed on purpose"), "{noise}");
        Ok(())
    });
}

fn what_cannot_be_done_is_said_and_is_done_when_asked_again() {
    let site = failing("2");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(site.path()).hash(ONE_NOTE), async |page| {
        page.tap("button", "Hear the note").await?;
        page.sees(MISSING).await?;
        let noise = page.is_quiet().await.expect_err("the reason is on the console").to_string();
        ensure!(noise.contains("failed on purpose"), "{noise}");
        page.tap("button", "Hear the note").await?;
        page.sees(SOUNDS).await
    });
}

fn a_part_that_cannot_come_is_said_and_comes_when_asked_again() {
    let site = failing("2");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(site.path()).hash(ONE_NOTE), async |page| {
        page.tap("button", "Settings").await?;
        page.sees(MISSING).await?;
        let noise = page.is_quiet().await.expect_err("the reason is on the console").to_string();
        ensure!(noise.contains("failed on purpose"), "{noise}");
        page.click("button", "Try again").await?;
        page.find("dialog", "Settings").await?;
        page.choose("Octaves", "Helmholtz: c′ is middle C").await?;
        page.notes_are(&["written two-line C, sounds one-line E-flat"]).await
    });
}

fn the_caret_waits_for_a_field_that_comes_late() {
    let site = Version::with_script(IS_SLOW).expect("a site with a slow connection");
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).site(site.path()).hash(ONE_NOTE), async |page| {
        page.key_on("Enter", "button", "Add a staff").await?;
        page.focus_is_on("textbox", LABEL).await?;
        page.write("Oboi").await?;
        page.value_is("textbox", LABEL, "Oboi").await?;
        // Who has gone elsewhere is left there.
        page.come_back(ONE_NOTE).await?;
        page.key_on("Enter", "button", "Add a staff").await?;
        page.press("Tab").await?;
        let elsewhere = page.focused().await?;
        page.find("textbox", LABEL).await?;
        page.settled().await?;
        let now = page.focused().await?;
        ensure!(now == elsewhere, "the focus went from {elsewhere:?} to {now:?}");
        Ok(())
    });
}

fn a_part_that_was_never_wanted_is_there_without_a_server() {
    let site = Version::as_built().expect("a site");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(site.path()).hash(ONE_NOTE), async |page| {
        wait::until("the worker to answer", async || {
            let script = "return navigator.serviceWorker.controller !== null";
            Ok((page.eval(script, vec![]).await? == Value::Bool(true)).then_some(()))
        })
        .await?;
        page.site().stop();
        open(page, "Settings").await?;
        page.choose("Octaves", "Helmholtz: c′ is middle C").await?;
        page.notes_are(&["written two-line C, sounds one-line E-flat"]).await
    });
}

fn what_a_teacher_needs_comes_when_a_teacher_wants_it() {
    const STUDENT: &str = "split_practise.wasm";
    const TEACHER: &str = "split_teach.wasm";
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/practise"), async |page| {
        let has =
            async |part: &str| Ok::<_, anyhow::Error>(parts(page).await?.iter().any(|name| name == part));
        page.find("region", "Course").await?;
        // What it shares with other places comes in few files: each costs a question to the host.
        let all = parts(page).await?.len();
        ensure!(all <= 25, "Practise asks for {all} files");
        ensure!(has(STUDENT).await? && !has(TEACHER).await?, "{:?}", parts(page).await?);
        page.click("button", "My record").await?;
        page.sees("Nothing has been answered on this device yet").await?;
        page.set_hash("/practise?step=1").await?;
        page.sees("Step 1 of 13").await?;
        ensure!(!has(TEACHER).await?, "a student has fetched {:?}", parts(page).await?);
        page.click("button", "Set an exercise").await?;
        page.find("region", "The first questions").await?;
        ensure!(has(TEACHER).await?, "a teacher has fetched {:?}", parts(page).await?);
        // Wall, paper and results come from the same file.
        let before = fetched(page).await?;
        page.click("button", "On paper").await?;
        page.find("button", "Print").await?;
        page.click("button", "Results of a class").await?;
        page.find("textbox", "Paste a whole mail or chat: every code in it is found").await?;
        ensure!(fetched(page).await? == before, "a part was fetched twice: {:?}", parts(page).await?);
        Ok(())
    });
}
