//! How long from a finger's touch to the next picture on the screen: `taps [ROLE NAME]`, on the built site in Chromium.
//!
//! Measured by the browser itself, with Event Timing (W3C): for each `pointerdown` the time from the touch to the next
//! paint after its handlers, which the standard rounds to 8 ms. It reports no event quicker than 16 ms; those are
//! counted here as 8 ms, and it is said how many they were. Taps go to different places of the staff, one when the last
//! one's picture is there and at another moment between two pictures each time, as fingers do: a tap that always came
//! just after a picture would always wait for a whole one more. First at the machine's own speed, then with the processor
//! slowed down four times. Nothing else is watched meanwhile, since watching costs time. The figures are printed, never
//! judged: they are this machine's.
#![allow(clippy::print_stdout, reason = "a command-line tool prints its figures")]

use anyhow::{Context, Result};
use crookwise_tests::browser::Browser;
use crookwise_tests::flow;
use crookwise_tests::input::Extent;
use crookwise_tests::page::{Page, View};
use crookwise_tests::window::Window;
use serde_json::json;
use std::time::Duration;

/// What is tapped, where nothing else is named: its role and its accessible name.
const STAFF: (&str, &str) = ("img", "Written staff");
/// How many taps make a measurement.
const TAPS: u32 = 200;
/// The time from one picture of the screen to the next.
const FRAME: Duration = Duration::from_nanos(16_666_667);
/// What an event counts as that was too quick to be reported, in milliseconds.
const TOO_QUICK: f64 = 8.0;

fn main() -> Result<()> {
    let mut words = std::env::args().skip(1);
    let role = words.next().unwrap_or_else(|| STAFF.0.into());
    let name = words.next().unwrap_or_else(|| STAFF.1.into());
    flow::wait_for(async {
        for (slowed, planned) in
            [(1, "planned: median 16 ms, 95 of 100 within 34 ms"), (4, "planned: 95 of 100 within 100 ms")]
        {
            measure(&role, &name, slowed, planned).await?;
        }
        Ok(())
    })
}

async fn measure(role: &str, name: &str, slowed: u32, planned: &str) -> Result<()> {
    let view = View {
        browser: Browser::Chromium,
        window: Window::LANDSCAPE,
        hash: "",
        light: None,
        dots: 1,
        watched: false,
        kept: true,
    };
    let page = Page::open(&view).await?;
    let outcome = taps(&page, role, name, slowed).await;
    let version =
        page.driver().capabilities().get("browserVersion").and_then(|value| value.as_str().map(String::from));
    page.quit().await?;
    let (mut times, quick) = outcome?;
    times.sort_by(f64::total_cmp);
    let at =
        |share: f64| times.get(((times.len() as f64 * share).ceil() as usize).saturating_sub(1)).copied();
    let (median, most) = (at(0.5).context("no tap was measured")?, at(0.95).context("no tap was measured")?);
    println!(
        "Chromium {}, {TAPS} taps on {role} \"{name}\", processor slowed {slowed} times: median {median} ms, 95 of 100 \
         within {most} ms, slowest {} ms; {quick} too quick to be reported (under 16 ms). {planned}",
        version.unwrap_or_default(),
        times.last().copied().unwrap_or_default(),
    );
    Ok(())
}

const OBSERVE: &str = "window.__downs = [];
    new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) if (entry.name === 'pointerdown') __downs.push(entry.duration);
    }).observe({ type: 'event', durationThreshold: 16, buffered: false });
    window.__heard = 0;
    addEventListener('pointerdown', () => { __heard += 1; }, { capture: true });";
const NEXT_PICTURES: &str = "const done = arguments[arguments.length - 1];
    requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => done(true))));";

/// The times of all taps in milliseconds, and how many of them were too quick to be reported.
async fn taps(page: &Page, role: &str, name: &str, slowed: u32) -> Result<(Vec<f64>, u32)> {
    let staff = page.find(role, name).await?;
    page.settled().await?;
    page.cdp("Emulation.setCPUThrottlingRate", json!({ "rate": slowed })).await?;
    page.eval(OBSERVE, vec![]).await?;
    let extent = page.extent(&staff).await?;
    for number in 0..TAPS {
        tokio::time::sleep(FRAME.mul_f64((f64::from(number) * 0.754_878).fract())).await;
        // With a mouse, which enters and moves notes wherever it points; a finger mostly selects.
        page.click_at(place(extent, number)).await?;
        page.driver().execute_async(NEXT_PICTURES, vec![]).await?;
    }
    page.settled().await?;
    let heard = page.eval("return __heard", vec![]).await?.as_u64().unwrap_or_default();
    anyhow::ensure!(heard == u64::from(TAPS), "{heard} of {TAPS} taps reached the page");
    let reported = page.eval("return __downs", vec![]).await?;
    let mut times: Vec<f64> =
        reported.as_array().into_iter().flatten().filter_map(serde_json::Value::as_f64).collect();
    let quick = TAPS.saturating_sub(u32::try_from(times.len())?);
    times.extend(std::iter::repeat_n(TOO_QUICK, quick as usize));
    Ok((times, quick))
}

/// Places spread over the staff, the same in every run: steps that never fall into a simple pattern.
fn place(extent: Extent, number: u32) -> crookwise_tests::input::Place {
    let share = |step: f64| 0.1 + 0.8 * (f64::from(number) * step).fract();
    extent.at(share(0.618_034), share(0.414_214))
}
