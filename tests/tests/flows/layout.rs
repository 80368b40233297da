//! The page at every size, light and dark, in every state it can be in: laid out well, and without a barrier.

use anyhow::{Context, Result, ensure};
use crookwise_tests::browser::Browser;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::passage::EIGHT;
use crookwise_tests::wait;
use crookwise_tests::window::{Light, Window};
use serde_json::json;

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    on_a_tablet_on_its_side,
    on_a_tablet_upright,
    on_a_telephone,
    on_a_desk,
    what_was_opened_on_a_wide_page_lets_it_become_narrow,
    what_stands_beside_notes_covers_none,
    a_long_label_is_seen_whole_where_it_is_edited,
    what_is_laid_out_wrongly_is_noticed
];

/// What a reader may have before him: its name, its link, and what is pressed to come there.
type State = (&'static str, fn() -> String, &'static [&'static str]);

const STATES: [State; 8] = [
    ("the start page", String::new, &[]),
    ("an empty staff", || "/read?staff=Corni+in+Es".into(), &[]),
    ("64 notes", many, &[]),
    (
        "an absurd label",
        || format!("/read?staff={}&notes=C5&at=1&hand={}", "W".repeat(200), "i".repeat(200)),
        &[],
    ),
    ("many words", words, &[]),
    (
        "a small list opened",
        || "/read?staff=Clarinetto+basso+in+B&clef=F4&temperament=meantone-quarter&notes=C4&at=1".into(),
        &["tuning quarter-comma meantone, A 440"],
    ),
    ("Share opened", || many() + "&hand=Horn+in+F", &["Share"]),
    ("a sentence about the link", || "/read?v=1.0000&staff=Corni".into(), &[]),
];

/// All that notes can be: high and low, altered, held, rests, by hand, and not to be had.
fn many() -> String {
    let eight = "G4.C5.Eb5.Fs5._.-.A4.G2";
    let notes = [eight; 7].join(".") + ".C6.B5.Ds4.Cs3.Bb5.As4.D4.E5";
    format!("/read?staff=Corni+in+Es&key=Eb+major&a4=430&notes={notes}&at=63")
}

/// The longest sentences there are: an assumed old notation, several staves on one label, a note by hand.
fn words() -> String {
    "/read?staff=Corno+I+in+B+alto,+Corno+II+in+G,+muta+in+Es&clef=F4&key=Ab+minor&notes=A3&at=1&temperament=vallotti"
        .into()
}

async fn stands(page: &Page, (name, link, pressed): &State) -> Result<()> {
    page.visit(&link()).await?;
    for button in *pressed {
        page.click("button", *button).await?;
    }
    for light in [Light::Light, Light::Dark] {
        page.set_light(light).await?;
        wait::until("the colours to change", async || {
            let script = "return getComputedStyle(document.documentElement).colorScheme";
            Ok((page.eval(script, vec![]).await? == json!(light.name())).then_some(()))
        })
        .await?;
        let at = format!("{name}, {}", light.name());
        page.well_laid_out().await.context(at.clone())?;
        // Of the same page in another light only the colours are new.
        match light {
            Light::Light => page.axe().await.context(at)?,
            Light::Dark => page.axe_of_colours().await.context(at)?,
        }
    }
    Ok(())
}

fn at(window: Window) {
    flow::in_browser(Browser::Chromium, &Setup::new(window), async |page| {
        let mut wrong = Vec::new();
        for state in &STATES {
            if let Err(problem) = stands(page, state).await {
                wrong.push(format!("{problem:#}"));
            }
        }
        anyhow::ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
        Ok(())
    });
}

fn on_a_tablet_on_its_side() {
    at(Window::LANDSCAPE);
}

fn on_a_tablet_upright() {
    at(Window::PORTRAIT);
}

fn on_a_telephone() {
    at(Window::PHONE);
}

fn on_a_desk() {
    at(Window::DESK);
}

fn what_is_laid_out_wrongly_is_noticed() {
    // The looking itself: each of these must be found.
    let faults = [
        ("document.querySelector('h1').style.marginLeft = '1200px'", "out of the window"),
        ("document.querySelector('h1').style.fontSize = '12px'", "small text"),
        ("document.querySelector('h1').style.color = '#aaa'", "faint text"),
        (
            "document.querySelector('h1').style.cssText = 'overflow: hidden; width: 20px; white-space: nowrap'",
            "text cut off",
        ),
        (
            "document.querySelector('#share').style.cssText = 'align-self: start; min-height: 0; padding: 0'",
            "low target",
        ),
        ("document.querySelector('#share').style.cssText = 'position: relative; left: 80px'", "over"),
        ("document.querySelector('select').style.fontSize = '3rem'", "list too narrow"),
        ("document.querySelector('.picture svg').style.transform = 'translateY(90px)'", "ink over"),
        ("document.querySelector('main').style.width = '3000px'", "px wide in a window of"),
    ];
    flow::in_browser(Browser::Chromium, &Setup::new(Window::LANDSCAPE), async |page| {
        for (fault, wanted) in faults {
            page.visit("").await?;
            page.well_laid_out().await?;
            page.eval(fault, vec![]).await?;
            let found =
                page.well_laid_out().await.err().map(|problem| problem.to_string()).unwrap_or_default();
            anyhow::ensure!(found.contains(wanted), "{fault}: {found}");
        }
        Ok(())
    });
}

/// A small list under its button, and the page after it: what stands beside the staves stands under them when the window has
/// become narrower. In WebKit a list that was placed by the browser's anchors kept a page of several staves wide.
fn what_was_opened_on_a_wide_page_lets_it_become_narrow() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(EIGHT), async |page| {
        for chip in ["tuning", "movement"] {
            page.open_list(chip).await?;
            let script = "const list = document.querySelector(':popover-open'), button = list.previousElementSibling;
                const [own, over] = [list, button].map((at) => at.getBoundingClientRect());
                return [own.top - over.bottom, own.left - over.left, own.right - innerWidth, own.bottom - innerHeight].map(Math.round)";
            let stands = page.eval(script, vec![]).await?;
            let [under, along, beyond, below] = [0, 1, 2, 3].map(|at| stands[at].as_i64().unwrap_or(999));
            ensure!((0..12).contains(&under) && along <= 0 && beyond <= 0 && below <= 0, "{chip}: {stands}");
            page.shut_list(chip).await?;
        }
        let beside = "const [staves, leaves] = document.querySelector('.desk').children;
            return leaves.getBoundingClientRect().top < staves.getBoundingClientRect().bottom";
        let is_beside = async |wanted: bool| {
            wait::until("the page to be laid out", async || {
                Ok((page.eval(beside, vec![]).await? == json!(wanted)).then_some(()))
            })
            .await
        };
        is_beside(true).await?;
        page.resize(Window::PORTRAIT).await?;
        is_beside(false).await.context("the page stayed wide")
    });
}

/// A pair and three players with notes a second apart, whose heads stand beside each other.
const SECONDS: &str = "/read?staff=Corni+in+Es&players=2&notes=D5.C5.E5&notes2=C5.D5.E5&staff=Corni+in+F&players=3&notes=C5.D5.G4\
    &notes2=C5.D4.F4&notes3=C4.E5.G4&staff=Fagotti&players=2&notes=D3.C3.B3&notes2=C3.D3.A3";

/// Each head that something beside the notes covers by more than two pixels, how much it covers, and how many are looked at.
const COVERED: &str = "const box = (one) => one.getBoundingClientRect();
    const seen = (one) => getComputedStyle(one).visibility === 'visible' && box(one).width > 0;
    const marks = [...document.querySelectorAll('.close .mark')].filter(seen).map(box);
    const heads = [...document.querySelectorAll('.touched .picture:not(.ghost) use[href*=notehead]')].map(box);
    const covered = heads.flatMap((head) => marks
        .map((mark) => Math.min(mark.right - head.left, head.right - mark.left, mark.bottom - head.top, head.bottom - mark.top))
        .filter((much) => much > 2));
    return [covered, marks.length, heads.length];";

fn what_stands_beside_notes_covers_none() {
    for window in [Window::PORTRAIT, Window::LANDSCAPE] {
        flow::in_every_browser(&Setup::new(window).hash(SECONDS), async |page| {
            page.find("img", "Sounding staff, lower").await?;
            page.settled().await?;
            let seen = page.eval(COVERED, vec![]).await?;
            ensure!(seen[1].as_u64() > Some(8) && seen[2].as_u64() > Some(15), "marks and heads: {seen}");
            ensure!(seen[0] == json!([]), "heads are covered: {seen}");
            page.is_quiet().await
        });
    }
}

fn a_long_label_is_seen_whole_where_it_is_edited() {
    let hash = "/read?staff=Corno+primo+in+B+basso,+poi+in+Es+alto&notes=C5&staff=Fagotti&notes=C3&at=1";
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(hash), async |page| {
        page.find("textbox", "What the score prints").await?;
        page.settled().await?;
        let room = "const field = document.querySelector('.here textarea');
            return [field.scrollWidth - field.clientWidth, field.scrollHeight - field.clientHeight]";
        let left = page.eval(room, vec![]).await?;
        ensure!(left == json!([0, 0]), "so much of the label is not seen: {left}");
        page.is_quiet().await
    });
}
