//! How late a movement is heard, on the built site in Chromium: `plays FILE [BAR]`, such as the largest of the shared scores.
//!
//! All parts are played for half a minute from a bar on. A piece of sound is late by as much as it is handed to the browser
//! after the time at which it should begin, by the clock of the sound itself, or begins after the piece before it has ended. Beside that:
//! how far ahead the pieces are handed over, how long it is from the press to the first sound, and what is left to the page
//! meanwhile, by the time from picture to picture. The figures are printed, never judged: they are this machine's.
#![allow(clippy::print_stdout, reason = "a command-line tool prints its figures")]

use anyhow::{Context, Result, ensure};
use crookwise_tests::flow;
use crookwise_tests::page::Page;
use crookwise_tests::wait;
use serde_json::{Value, json};
use std::path::Path;
use std::time::Duration;

/// So long is played.
const HEARD: Duration = Duration::from_secs(30);
/// So long nothing is done first: the score is at rest, its places found.
const REST: Duration = Duration::from_secs(20);
/// Writes down every piece, the press, and the pictures.
const WATCH: &str = "window.__plays = { pieces: [], pictures: [] };
    const { start } = AudioBufferSourceNode.prototype;
    AudioBufferSourceNode.prototype.start = function (when, ...rest) {
        __plays.context = this.context;
        __plays.pieces.push([when, this.context.currentTime, this.buffer.duration]);
        return start.call(this, when, ...rest);
    };
    addEventListener('click', () => { __plays.press ??= performance.now(); }, true);
    const picture = (now) => { __plays.pictures.push(now); requestAnimationFrame(picture); };
    requestAnimationFrame(picture);";

/// What was written down, and when the first piece left the browser by the clock of the page: a context that was put to sleep
/// needs a while until its own clock runs.
const TOLD: &str = "const { pieces, pictures, press, context } = __plays;
    const { contextTime, performanceTime } = context.getOutputTimestamp();
    return { pieces, pictures, press, sound: performanceTime + (pieces[0][0] - contextTime) * 1000 }";

fn main() -> Result<()> {
    let mut words = std::env::args().skip(1);
    let file = words.next().context("no score is named")?;
    let bar = words.next().unwrap_or_else(|| "1".into());
    let told = flow::measured(async |page| plays(page, &file, &bar).await)?;
    println!("{}", figures(&told)?);
    Ok(())
}

/// Plays, and gives what was written down.
async fn plays(page: &Page, file: &str, bar: &str) -> Result<Value> {
    page.find("button", "Open the demo movement").await?;
    page.give_file(Path::new(file)).await?;
    wait::until("what is played to be known", async || {
        let ready = "return document.querySelector('#tool-play')?.getAttribute('aria-disabled') === null";
        Ok((page.eval(ready, vec![]).await? == json!(true)).then_some(()))
    })
    .await?;
    page.fill("textbox", "Go to bar or letter", bar).await?;
    page.press("Enter").await?;
    tokio::time::sleep(REST).await;
    page.eval(WATCH, vec![]).await?;
    page.click("button", "Play").await?;
    tokio::time::sleep(HEARD).await;
    page.eval(TOLD, vec![]).await
}

fn figures(plays: &Value) -> Result<String> {
    let number = |value: &Value| value.as_f64().unwrap_or(f64::NAN);
    let pieces: Vec<[f64; 3]> = plays["pieces"]
        .as_array()
        .into_iter()
        .flatten()
        .map(|piece| [number(&piece[0]), number(&piece[1]), number(&piece[2])])
        .collect();
    ensure!(pieces.len() > 10, "{} pieces were played", pieces.len());
    let mut late: Vec<f64> = pieces.iter().map(|[when, now, _]| (now - when).max(0.0) * 1000.0).collect();
    for pair in pieces.windows(2) {
        late.push((pair[1][0] - pair[0][0] - pair[0][2]).max(0.0) * 1000.0);
    }
    // Behind the first, which are made at the press.
    let ahead = pieces.iter().skip(4).map(|[when, now, _]| when - now).fold(f64::INFINITY, f64::min);
    let pictures: Vec<f64> = plays["pictures"].as_array().into_iter().flatten().map(number).collect();
    let gaps = pictures.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let (late, gaps) = (sorted(late), sorted(gaps));
    Ok(format!(
        "{} pieces of sound: 99 of 100 late by {:.1} ms at most, the latest by {:.1} ms; handed over at least {ahead:.2} s ahead. \
         planned: p99 below 10 ms\n{:.0} ms from the press to the first sound. planned: 150 ms\n\
         {} pictures meanwhile: 95 of 100 after {:.0} ms at most, the longest wait {:.0} ms",
        pieces.len(),
        at(&late, 0.99),
        at(&late, 1.0),
        number(&plays["sound"]) - number(&plays["press"]),
        pictures.len(),
        at(&gaps, 0.95),
        at(&gaps, 1.0),
    ))
}

fn sorted(mut all: Vec<f64>) -> Vec<f64> {
    all.sort_by(f64::total_cmp);
    all
}

fn at(sorted: &[f64], share: f64) -> f64 {
    let place = ((sorted.len() as f64 * share).ceil() as usize).saturating_sub(1);
    sorted.get(place).copied().unwrap_or(f64::NAN)
}
