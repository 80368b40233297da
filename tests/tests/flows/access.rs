//! Without barriers: checked by axe-core, large enough for fingers, enlarged to the double, and named for the ear.

use anyhow::{Context, Result, bail, ensure};
use crookwise_tests::browser::Browser;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::Page;
use crookwise_tests::passage::EIGHT;
use crookwise_tests::wait;
use crookwise_tests::window::{Light, Window};
use serde_json::{Value, json};

/// The flows of this file.
pub const FLOWS: &[Flow] =
    &crookwise_tests::flows![without_barriers, for_fingers_and_enlarged, words_of_the_dock_stand_apart];

/// Natural brass alone: with the ladder.
const ONE: &str = "/read?staff=Corni+in+Es&notes=E5.Fs5.A4&at=1";
/// What opens over the page.
const SHEETS: [&str; 5] = ["Pages", "Share", "Settings", "Ways of hearing", "Change here"];

/// Controls that a finger cannot hit well: lower or narrower than 44 px, or covered in part by another. Where staves stand
/// close, a column's button leaves the finger to the staff it lies over, which selects or enters the same.
const SMALL_TARGETS: &str = r"
    const whole = document.querySelector('dialog:modal, :popover-open') ?? document;
    const controls = [...whole.querySelectorAll('button, input, select, summary, a[href], [role=button], [role=slider], [role=option]')]
        .filter((at) => at.checkVisibility({ visibilityProperty: true }) && !at.closest('footer, .unseen'));
    const found = [];
    for (const at of controls) {
        at.scrollIntoView({ block: 'center', behavior: 'instant' });
        const { left, top, width, height } = at.getBoundingClientRect();
        const name = (at.ariaLabel || at.textContent || at.labels?.[0]?.textContent || '').trim().slice(0, 40);
        if (height < 43.9 || width < 43.9) found.push(`${name} is ${width.toFixed(1)} by ${height.toFixed(1)}`);
        for (const [right, down] of [[0.5, 0.5], [0.5, 0.1], [0.5, 0.9], [0.1, 0.5], [0.9, 0.5]]) {
            const hit = document.elementFromPoint(left + width * right, top + height * down);
            const staff = getComputedStyle(at).pointerEvents === 'none' && hit?.closest('[role=img][aria-label^=Written]');
            if (hit && !staff && !at.contains(hit) && !hit.contains(at) && !(at.labels && [...at.labels].some((label) => label.contains(hit)))) {
                found.push(`${name} is covered by ${hit.tagName} ${(hit.ariaLabel || hit.textContent).trim().slice(0, 30)}`);
            }
        }
    }
    if (controls.length < (whole === document ? 10 : 2)) found.push(`only ${controls.length} controls were looked at`);
    return [...new Set(found)]";

/// Words of the dock that stand closer than 4 px beside each other, or over each other.
const TOUCHING_WORDS: &str = r"
    const words = [...document.querySelectorAll('[role=toolbar] span')]
        .filter((at) => at.checkVisibility({ visibilityProperty: true }))
        .map((at) => {
            const range = document.createRange();
            range.selectNodeContents(at);
            const { left, right, top, bottom } = range.getBoundingClientRect();
            return { word: at.textContent, left, right, top, bottom };
        });
    if (words.length < 7) return [`only ${words.length} words`];
    const touch = (one, other) => other.left - one.right < 4 && one.left - other.right < 4 && one.top < other.bottom && other.top < one.bottom;
    const pairs = words.flatMap((one, at) => words.slice(at + 1).map((other) => [one, other]));
    return pairs.filter(([one, other]) => touch(one, other)).map(([one, other]) => `${one.word} ${other.word}`)";

/// In how many rows the tools stand.
const ROWS_OF_TOOLS: &str = "const tools = [...document.querySelectorAll('[role=toolbar] .tool')].filter((at) => at.checkVisibility());
    return new Set(tools.map((at) => Math.round(at.getBoundingClientRect().bottom))).size";

/// A stand-in over a slow connection, on which what comes later than the page does so by some pictures; it notes where the
/// last of the sound's tools stands in every picture.
const FOLLOW_THE_TOOLS: &str = "const { fetch } = window;
    window.fetch = async (...what) => {
        await new Promise((go) => setTimeout(go, 150));
        return fetch(...what);
    };
    const seen = (window.crookwiseTools = new Set());
    const look = () => {
        const at = document.getElementById('tool-ways')?.getBoundingClientRect();
        if (at) seen.add(Math.round(at.left));
        requestAnimationFrame(look);
    };
    look()";
/// How many places were seen.
const TOOLS_STOOD: &str = "return window.crookwiseTools.size";

async fn light(page: &Page, light: Light) -> Result<()> {
    page.set_light(light).await?;
    wait::until("the colours to change", async || {
        let script = "return getComputedStyle(document.documentElement).colorScheme";
        Ok((page.eval(script, vec![]).await? == json!(light.name())).then_some(()))
    })
    .await
}

async fn no_barrier(page: &Page, what: &str) -> Result<()> {
    let mut wrong = Vec::new();
    for window in Window::ALL {
        page.resize(window).await?;
        for colours in [Light::Light, Light::Dark] {
            light(page, colours).await?;
            // Of the same page in another light only the colours are new.
            let found = match colours {
                Light::Light => page.axe().await,
                Light::Dark => page.axe_of_colours().await,
            };
            if let Err(problem) = found {
                wrong.push(format!("{what}, {window}, {}: {problem:#}", colours.name()));
            }
        }
    }
    ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}

async fn targets(page: &Page, what: &str) -> Result<()> {
    let mut found = Vec::new();
    // What was pressed before may move the staves with the next pictures.
    let free = wait::until("targets free for fingers", async || {
        let Value::Array(now) = page.eval(SMALL_TARGETS, vec![]).await? else { bail!("no list") };
        found = now;
        Ok(found.is_empty().then_some(()))
    });
    free.await.with_context(|| format!("{what}: {found:?}"))
}

/// Nothing to scroll sideways; the window stands for a larger one at 200 %.
async fn enlarged(page: &Page, what: &str) -> Result<()> {
    for (width, height) in [(590, 410), (410, 590), (320, 480)] {
        // WebKitGTK's window is not made as narrow as that.
        if page.browser() == Browser::WebKit && width < 400 {
            continue;
        }
        page.resize(Window { width, height, touch: true }).await?;
        let script = "const root = document.documentElement; return [root.scrollWidth, root.clientWidth]";
        let wide = page.eval(script, vec![]).await?;
        ensure!(wide[0].as_u64() <= wide[1].as_u64(), "{what}: {} px in a window of {}", wide[0], wide[1]);
    }
    Ok(())
}

/// The browser's own names for every field and list that is seen: exactly the words of its label.
async fn fields_are_named(page: &Page, least: usize) -> Result<()> {
    let script = "return [...(document.querySelector('dialog:modal') ?? document).querySelectorAll('input, label textarea, select')].filter((at) => at.checkVisibility({ visibilityProperty: true }))";
    let mut seen = 0;
    // The code of a list may be on its way still.
    let there = wait::until("the fields", async || {
        let fields = page.driver().execute(script, vec![]).await?.elements()?;
        seen = fields.len();
        Ok((seen >= least).then_some(fields))
    });
    let fields = there.await.with_context(|| format!("only {seen} fields"))?;
    for field in fields {
        let script = "const at = arguments[0];
            return [...(at.labels ?? [])].map((label) => label.querySelector('span')?.textContent ?? label.textContent).join(' ').trim()";
        let label = page.eval(script, vec![field.to_json()?]).await?;
        let (_, name) = page.spoken(&field).await?;
        // Firefox adds to a field for a file what stands on its own button.
        let name = name.trim_end_matches(" Browse… No file selected.");
        ensure!(Some(name) == label.as_str(), "the field with the label {label} is called \"{name}\"");
    }
    Ok(())
}

/// Opens each sheet over the page in its turn, looks at it and shuts it.
async fn each_sheet(page: &Page, look: impl AsyncFn(&str) -> Result<()>) -> Result<()> {
    for sheet in SHEETS {
        page.resize(Window::LANDSCAPE).await?;
        page.click("button", sheet).await?;
        page.find("dialog", sheet).await?;
        look(sheet).await?;
        page.press("Escape").await?;
        page.find_gone("dialog", sheet).await?;
        page.settled().await?;
        ensure!(page.focused().await?.is_some(), "the focus is lost after {sheet}");
    }
    Ok(())
}

fn without_barriers() {
    flow::in_browser(Browser::Chromium, &Setup::new(Window::LANDSCAPE).hash(EIGHT), async |page| {
        page.click("button", "More tools").await?;
        no_barrier(page, "eight staves").await?;
        page.click("button", "Change this staff").await?;
        page.find("button", "players 1").await?;
        no_barrier(page, "what holds for a staff").await?;
        page.press("Escape").await?;
        each_sheet(page, async |sheet| no_barrier(page, sheet).await).await?;
        page.click("button", "On the wall").await?;
        page.find("button", "Leave the wall").await?;
        for button in ["Partials", "Sounding staff", "Names", "Chord"] {
            page.click("button", button).await?;
        }
        no_barrier(page, "the wall").await
    });
}

fn for_fingers_and_enlarged() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(EIGHT), async |page| {
        page.click("button", "More tools").await?;
        targets(page, "eight staves").await?;
        for chip in ["tuning", "movement"] {
            page.open_list(chip).await?;
            fields_are_named(page, 3).await.context(chip)?;
            page.shut_list(chip).await?;
        }
        page.click("button", "Change this staff").await?;
        page.find("button", "players 1").await?;
        targets(page, "what holds for a staff").await?;
        fields_are_named(page, 2).await?;
        page.open_list("players").await?;
        fields_are_named(page, 3).await.context("players")?;
        page.shut_list("players").await?;
        page.press("Escape").await?;
        enlarged(page, "eight staves").await?;
        each_sheet(page, async |sheet| {
            targets(page, sheet).await?;
            fields_are_named(page, 1).await?;
            enlarged(page, sheet).await
        })
        .await?;
        page.resize(Window::LANDSCAPE).await?;
        page.set_hash(ONE).await?;
        page.find("region", "Natural series").await.context("the ladder")?;
        targets(page, "one staff with its ladder").await?;
        enlarged(page, "one staff with its ladder").await
    });
}

fn words_of_the_dock_stand_apart() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).hash(EIGHT), async |page| {
        let four = "/read?staff=4+Corni+in+Es&players=4&notes=C5&notes2=G4&notes3=E4&notes4=C4&at=1";
        page.stand_in(FOLLOW_THE_TOOLS).await?;
        page.come_back(four).await?;
        page.find("button", "Player 4").await?;
        page.settled().await?;
        let places = page.eval(TOOLS_STOOD, vec![]).await?;
        ensure!(places == json!(1), "the tools make room for the players when they are there already");
        let rows = page.eval(ROWS_OF_TOOLS, vec![]).await?;
        ensure!(rows == json!(1), "the tools for four players stand in {rows} rows");
        let two = "/read?staff=Corni+in+Es&players=2&notes=C5.D5&notes2=C5.C5&at=1";
        for page_of in [ONE, EIGHT, two, four] {
            page.set_hash(page_of).await?;
            for window in Window::ALL {
                page.resize(window).await?;
                for _ in ["few tools", "all tools"] {
                    page.settled().await?;
                    let found = page.eval(TOUCHING_WORDS, vec![]).await?;
                    ensure!(found == json!([]), "{page_of} at {window}: words touch: {found}");
                    page.click("button", "More tools").await?;
                }
            }
        }
        Ok(())
    });
}
