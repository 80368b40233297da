//! A part of a movement on paper: its pages on the screen, and read back from the printed file.
#![allow(clippy::print_stdout, reason = "what is skipped is said")]

use crate::paper::{is_of_size, nothing_is_cut, print, squeezed};
use crate::score::{choose, is_audited};
use anyhow::{Context, Result, ensure};
use crookwise_tests::browser::Browser;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::outside;
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use crookwise_tests::window::Window;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    parts_of_the_demo_are_printed,
    a_part_is_put_on_paper_on_a_telephone,
    parts_of_a_real_movement_are_printed
];

const DEMO: &str = "/score?demo=1";
const A4: (f32, f32) = (595.0, 842.0);
const LETTER: (f32, f32) = (612.0, 792.0);

/// Waits until a part of this name is laid out, and gives the bars of its systems, page by page, as they are named.
async fn laid_out(page: &Page, part: &str) -> Result<Vec<Vec<String>>> {
    let script = "if (document.querySelector('.part-head b')?.textContent !== arguments[0]) return [];
        return [...document.querySelectorAll('.sheet-of-paper')].map((sheet) =>
            [...sheet.querySelectorAll('.engraved')].map((at) => at.getAttribute('aria-label')))";
    wait::until(&format!("{part} on paper"), async || {
        let pages = page.eval(script, vec![part.into()]).await?;
        let pages: Vec<Vec<String>> = serde_json::from_value(pages)?;
        Ok((!pages.is_empty()).then_some(pages))
    })
    .await
}

/// The first bar of a system by its name, "Bars 9 to 17".
fn first_bar(system: &str) -> Result<&str> {
    system.split(' ').nth(1).context("a bar")
}

/// Prints the part, and holds the file against what is on the screen: as many pages of this size, on each its number and
/// every system that stands there, and what stands over each.
async fn is_printed(page: &Page, pages: &[Vec<String>], head: &[&str], size: (f32, f32)) -> Result<()> {
    ensure!(pages.iter().all(|systems| !systems.is_empty()), "an empty page: {pages:?}");
    nothing_is_cut(page).await?;
    if page.browser() != Browser::Chromium {
        return Ok(());
    }
    let file = print(page).await?;
    let printed = file.get_pages();
    ensure!(printed.len() == pages.len(), "{} pages became {}", pages.len(), printed.len());
    for ((number, id), systems) in printed.iter().zip(pages) {
        is_of_size(&file, *id, size)?;
        let said = file.extract_text(&[*number])?;
        let lines: Vec<&str> = said.lines().map(str::trim).collect();
        let foot = format!("{number} / {}", pages.len());
        ensure!(lines.contains(&foot.as_str()), "page {number} has no \"{foot}\": {lines:?}");
        for system in systems {
            let bar = first_bar(system)?;
            ensure!(lines.contains(&bar), "page {number} has no bar {bar}: {lines:?}");
        }
        let text = squeezed(&said);
        for wanted in head {
            ensure!(text.contains(&squeezed(wanted)), "page {number} does not say {wanted}: {text}");
        }
    }
    Ok(())
}

fn parts_of_the_demo_are_printed() {
    flow::in_every_browser(&Setup::new(Window::DESK).hash(DEMO), async |page| {
        is_audited(page).await?;
        page.click("button", "Print a part").await?;
        page.focus_is_on("button", "Back to the score").await?;
        let pages = laid_out(page, "Corno I in D").await?;
        ensure!(pages.len() == 1 && first_bar(&pages[0][0])? == "0", "{pages:?}");
        page.axe().await?;
        is_printed(page, &pages, &["Introduction and Rondo", "Corno I in D"], A4).await?;
        page.choose("Part", "Corno III, IV in F").await?;
        let pages = laid_out(page, "Corno III, IV in F").await?;
        is_printed(page, &pages, &["Introduction and Rondo", "Corno III, IV in F"], A4).await?;

        page.choose("Part", "Corno I in D").await?;
        page.choose("Pitch", "both, with the partials between").await?;
        page.choose("Paper", "Letter").await?;
        let pages = wait::until("its pages", async || {
            let pages = laid_out(page, "Corno I in D").await?;
            Ok((pages.len() == 2).then_some(pages))
        })
        .await?;
        is_printed(page, &pages, &["Corno I in D"], LETTER).await?;

        page.choose("Pitch", "as it sounds").await?;
        laid_out(page, "Corno I in D, as it sounds").await?;
        page.press("Escape").await?;
        page.focus_is_on("button", "Print a part").await?;
        // Only some bars, on another crook than at the beginning.
        page.fill("textbox", "From bar or letter", "C").await?;
        page.fill("textbox", "To bar or letter", "60").await?;
        page.click("button", "Print a part").await?;
        page.choose("Part", "Corno III in F").await?;
        page.choose("Bars", "bars 38–60").await?;
        let pages = laid_out(page, "Corno III in F (here muta in G)").await?;
        ensure!(first_bar(&pages[0][0])? == "38", "{pages:?}");
        is_printed(page, &pages, &["bars 38–60"], A4).await?;
        // The paper is a step of the history, and its address leads to it.
        page.back().await?;
        page.focus_is_on("button", "Print a part").await?;
        page.forward().await?;
        page.hash_has("&only=bars").await?;
        laid_out(page, "Corno III in F (here muta in G)").await?;
        page.reload().await?;
        let pages = laid_out(page, "Corno III in F (here muta in G)").await?;
        ensure!(first_bar(&pages[0][0])? == "38", "{pages:?}");
        page.is_quiet().await
    });
}

fn a_part_is_put_on_paper_on_a_telephone() {
    flow::in_every_browser(&Setup::new(Window::PHONE).hash(DEMO), async |page| {
        is_audited(page).await?;
        page.tap("button", "Print a part").await?;
        laid_out(page, "Corno I in D").await?;
        // The page of paper is looked at whole, and small.
        let wide = page.eval("return document.documentElement.scrollWidth - innerWidth", vec![]).await?;
        ensure!(wide.as_i64() <= Some(0), "it is {wide} pixels wider than the window");
        page.axe().await?;
        page.tap("button", "Back to the score").await?;
        page.focus_is_on("button", "Print a part").await?;
        page.is_quiet().await
    });
}

fn parts_of_a_real_movement_are_printed() {
    let Some(scores) = outside::scores() else { return };
    flow::in_every_browser(&Setup::new(Window::DESK).hash("/score"), async |page| {
        choose(page, &scores.join("Beethoven_Op.92_1.mxl")).await?;
        is_audited(page).await?;
        page.click("button", "Print a part").await?;
        for (part, way, least) in [
            ("D Trumpet 1, 2", "as written", 3),
            ("A Horn 1", "as written", 3),
            ("A Horn 1", "both, with the partials between", 6),
        ] {
            page.choose("Part", part).await?;
            page.choose("Pitch", way).await?;
            let pages = wait::until("its pages", async || {
                let pages = laid_out(page, part).await?;
                Ok((pages.len() >= least).then_some(pages))
            })
            .await?;
            is_printed(page, &pages, &[part], A4).await.with_context(|| part.to_owned())?;
        }
        page.is_quiet().await
    });
}
