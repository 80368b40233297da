//! The views of Crooks as steps of the browser's history, by real presses.

use crate::{crooks, score};
use anyhow::ensure;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::window::Window;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    views_are_steps_of_the_history,
    a_movement_too_long_for_an_address_keeps_its_views
];

const KEYS: &str = "Keys and their bars";
const PASSAGE: &str = "A passage, by names of notes as they sound";

fn views_are_steps_of_the_history() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/crooks"), async |page| {
        page.sees("Plan 1 of").await?;
        page.fill("textbox", KEYS, "D minor 48").await?;
        page.sees("for a movement in D minor").await?;
        let before = page.steps().await?;
        page.click("button", "What crooks give of a key").await?;
        page.find("table", "Degrees and chords of G minor").await?;
        page.choose("Key", "C minor").await?;
        page.find("table", "Degrees and chords of C minor").await?;
        page.click("button", "What may I write?").await?;
        page.fill("textbox", PASSAGE, "D4 F#4 A4").await?;
        page.sees("All of it is in reach.").await?;
        ensure!(page.steps().await? == before + 2, "a view is a step, and what is typed is none");
        page.back().await?;
        page.find("table", "Degrees and chords of C minor").await?;
        page.hash_has("view=table").await?;
        page.reload().await?;
        page.find("table", "Degrees and chords of C minor").await?;
        page.back().await?;
        page.sees("for a movement in D minor").await?;
        // What was made meanwhile stays on the way there and back.
        page.fill("textbox", KEYS, "F major 24").await?;
        page.sees("for a movement in F major").await?;
        page.forward().await?;
        page.find("table", "Degrees and chords of C minor").await?;
        page.forward().await?;
        page.value_is("textbox", PASSAGE, "D4 F#4 A4").await?;
        page.click("button", "Plans").await?;
        page.sees("for a movement in F major").await?;
        // A link that is followed or pasted opens whole.
        page.set_hash("/crooks?view=table&table=D+major&keys=12_D+major").await?;
        page.find("table", "Degrees and chords of D major").await?;
        page.click("button", "Plans").await?;
        page.sees("for a movement in D major").await?;
        page.back().await?;
        page.find("table", "Degrees and chords of D major").await?;
        page.is_quiet().await
    });
}

fn a_movement_too_long_for_an_address_keeps_its_views() {
    let file = std::env::temp_dir().join(format!("crookwise-views-{}.musicxml", std::process::id()));
    std::fs::write(&file, crooks::long_score()).expect("a place for a file");
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash("/score"), async |page| {
        score::choose(page, &file).await?;
        page.click("button", "Plan its crooks").await?;
        page.sees("for “Long”, bars 1 to 700").await?;
        page.sees("Plan 1 of").await?;
        page.click("button", "What may I write?").await?;
        page.find("textbox", PASSAGE).await?;
        page.hash_has("view=write").await?;
        page.reload().await?;
        page.find("textbox", PASSAGE).await?;
        page.back().await?;
        page.sees("for “Long”, bars 1 to 700").await?;
        page.forward().await?;
        page.find("textbox", PASSAGE).await?;
        page.back().await?;
        page.sees("for “Long”, bars 1 to 700").await?;
        page.back().await?;
        page.find("heading", "Parts").await?;
        page.is_quiet().await
    });
}
