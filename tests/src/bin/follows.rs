//! How the page does with a movement, on the built site in Chromium: `follows FILE`, such as the largest of the shared scores.
//!
//! Measured: from the file being given to its map and its brass on the screen; what the page's main thread has to do while
//! the music is scrolled past, picture by picture, and how long a picture waits; from the press on a note to what is said of
//! it; the memory that page and worker take. How busy the main thread is is known from a task that asks for its next turn at
//! once, over and over: what lies between two turns is work of the page, whether script, layout or paint. The figures are
//! printed, never judged: they are this machine's.
#![allow(clippy::print_stdout, reason = "a command-line tool prints its figures")]

use anyhow::{Context, Result};
use crookwise_tests::flow;
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use serde_json::{Value, json};
use std::path::Path;

/// Notes that are pressed.
const PRESSES: usize = 20;
/// The page is scrolled by so many pixels a second for so many seconds: nearly four windows of music a second.
const SCROLLED: (u32, u32) = (3_000, 8);

/// Keeps what wasm memory there is, in the page and in its worker, where the page's own script cannot look.
const WATCH: &str = r#"(() => {
    const keep = `const kept = globalThis.__memories = [];
        const { Memory } = WebAssembly;
        for (const way of ['instantiate', 'instantiateStreaming']) {
            const own = WebAssembly[way];
            WebAssembly[way] = async (...all) => {
                const made = await own.apply(WebAssembly, all);
                const memory = Object.values((made.instance ?? made).exports).find((one) => one instanceof Memory);
                if (memory && !kept.includes(memory)) kept.push(memory);
                return made;
            };
        }
        globalThis.__bytes = () => kept.reduce((sum, memory) => sum + memory.buffer.byteLength, 0);`;
    (0, eval)(keep);
    const answering = `new BroadcastChannel('bytes').addEventListener('message', ({ data, target }) => {
        if (data === 'ask') target.postMessage(__bytes());
    });`;
    const module = (text) => URL.createObjectURL(new Blob([text], { type: 'text/javascript' }));
    const { Worker: Own } = globalThis;
    globalThis.Worker = class extends Own {
        constructor(url, options) {
            const before = module(keep + answering);
            super(module(`import '${before}'; import '${new URL(url, location.href)}';`), options);
        }
    };
    const stands = () => {
        const here = [...document.querySelectorAll('.music-system')].filter((one) => one.getBoundingClientRect().top < innerHeight);
        return here.length > 0 && here.every((one) => one.querySelector('svg') !== null);
    };
    globalThis.__times = {};
    addEventListener('change', ({ target }) => {
        if (target.type !== 'file') return;
        const given = performance.now();
        const look = () => {
            const now = performance.now() - given;
            // What is played is known with the map.
            if (document.querySelector('#tool-play')?.getAttribute('aria-disabled') === null) __times.map ??= now;
            if (stands()) __times.music ??= now;
            if (!__times.map || !__times.music) requestAnimationFrame(look);
        };
        look();
    }, true);
})();"#;

/// Scrolls, and gives for each picture how long it was after the one before and how much of that the main thread was at work.
const SCROLL: &str = "const pictures = [];
    const busy = { sum: 0, last: performance.now(), on: true };
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
        const now = performance.now();
        if (now - busy.last > 0.2) busy.sum += now - busy.last;
        busy.last = now;
        if (busy.on) port2.postMessage(0);
    };
    port2.postMessage(0);
    const top = document.querySelector('#systems').getBoundingClientRect().top + scrollY;
    const begin = await new Promise((done) => requestAnimationFrame(done));
    let last = begin;
    let worked = busy.sum;
    while (last - begin < SECONDS * 1000) {
        scrollTo({ top: top + (last - begin) * SPEED / 1000, behavior: 'instant' });
        const now = await new Promise((done) => requestAnimationFrame(done));
        pictures.push([now - last, busy.sum - worked]);
        worked = busy.sum;
        last = now;
    }
    busy.on = false;
    return pictures;";

/// Presses and readouts: from the press to the next picture with what the note sounds.
const LISTEN: &str = "globalThis.__told = [];
    addEventListener('pointerdown', () => {
        const begin = performance.now();
        const before = document.querySelector('.tapped')?.textContent;
        const look = () => {
            const now = document.querySelector('.tapped');
            const is = now?.textContent !== before && now?.querySelector('.sea')?.textContent;
            if (is) __told.push(performance.now() - begin); else requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
    }, true);";

/// Megabytes of the page's heap, of its wasm memory and of the worker's.
const MEMORY: &str = "const channel = new BroadcastChannel('bytes');
    const worker = await new Promise((done) => {
        channel.onmessage = ({ data }) => done(data);
        channel.postMessage('ask');
    });
    return [performance.memory.usedJSHeapSize, __bytes(), worker].map((bytes) => bytes / 1e6)";

fn main() -> Result<()> {
    let file = std::env::args().nth(1).context("no score is named")?;
    println!("{}", flow::measured(async |page| follows(page, &file).await)?);
    Ok(())
}

async fn follows(page: &Page, file: &str) -> Result<String> {
    // What is watched reaches into the worker, which the page's own rules forbid.
    page.cdp("Page.setBypassCSP", json!({ "enabled": true })).await?;
    page.stand_in(WATCH).await?;
    page.come_back("/score").await?;
    let opened = opened(page, file).await?;
    let told = told(page).await?;
    let (seconds, speed) = (SCROLLED.1, SCROLLED.0);
    let script = SCROLL.replace("SECONDS", &seconds.to_string()).replace("SPEED", &speed.to_string());
    let pictures = page.promised(&script).await?;
    let memory = page.promised(MEMORY).await?;
    let of = |at: usize| numbers(&pictures, at);
    let (gaps, busy) = (sorted(of(0)), sorted(of(1)));
    let told = sorted(told);
    let memory: Vec<f64> = memory.as_array().into_iter().flatten().map(number).collect();
    Ok(format!(
        "{opened}\n{} presses on a note: what is said of it stands there after {:.0} ms in the middle, at most {:.0} ms\n\
         scrolled by {speed} pixels a second for {seconds} s, {} pictures: in 95 of 100 the main thread works {:.1} ms, at most {:.1} ms; the \
         longest wait for a picture {:.0} ms. planned: 8 ms in 95 of 100, no wait over 34 ms\n\
         memory then: {:.0} MB of the page's heap, {:.0} MB of wasm in the page, {:.0} MB in the worker; {:.0} MB together. planned: 300 MB",
        told.len(),
        at(&told, 0.5),
        at(&told, 1.0),
        gaps.len(),
        at(&busy, 0.95),
        at(&busy, 1.0),
        at(&gaps, 1.0),
        memory.first().copied().unwrap_or(f64::NAN),
        memory.get(1).copied().unwrap_or(f64::NAN),
        memory.get(2).copied().unwrap_or(f64::NAN),
        memory.iter().sum::<f64>(),
    ))
}

/// Opens the file, and says how long that took.
async fn opened(page: &Page, file: &str) -> Result<String> {
    page.find("button", "Open the demo movement").await?;
    page.give_file(Path::new(file)).await?;
    let times = wait::until("map and music", async || {
        let times = page.eval("return __times", vec![]).await?;
        Ok((times["map"].is_number() && times["music"].is_number()).then_some(times))
    })
    .await?;
    let of = |what: &str| number(&times[what]);
    Ok(format!(
        "from the file to the brass on the screen {:.0} ms, to the map {:.0} ms. planned: 1500 ms",
        of("music"),
        of("map")
    ))
}

/// How long it takes to tell of a note that is pressed.
async fn told(page: &Page) -> Result<Vec<f64>> {
    page.eval(LISTEN, vec![]).await?;
    page.eval("document.querySelector('#systems').scrollIntoView({ behavior: 'instant' })", vec![]).await?;
    let high = number(&page.eval("return innerHeight", vec![]).await?);
    for press in 0..PRESSES {
        let head = wait::until("a note", async || {
            let mut heads = page.heads().await?;
            heads.retain(|head| head.y > high * 0.45 && head.y < high * 0.65);
            // From the left and from the right in turn, so that of the next another bar is said.
            heads.sort_by(|one, other| one.x.total_cmp(&other.x));
            if press % 2 == 1 {
                heads.reverse();
            }
            Ok(heads.get(press / 2).copied())
        })
        .await?;
        page.click_at(head).await?;
        wait::until("what is said of it", async || {
            let told = page.eval("return __told.length", vec![]).await?;
            Ok((told.as_u64() > u64::try_from(press).ok()).then_some(()))
        })
        .await?;
    }
    Ok(page.eval("return __told", vec![]).await?.as_array().into_iter().flatten().map(number).collect())
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(f64::NAN)
}

/// The numbers of a column.
fn numbers(rows: &Value, column: usize) -> Vec<f64> {
    rows.as_array().into_iter().flatten().map(|row| number(&row[column])).collect()
}

fn sorted(mut all: Vec<f64>) -> Vec<f64> {
    all.sort_by(f64::total_cmp);
    all
}

fn at(sorted: &[f64], share: f64) -> f64 {
    let place = ((sorted.len() as f64 * share).ceil() as usize).saturating_sub(1);
    sorted.get(place).copied().unwrap_or(f64::NAN)
}
