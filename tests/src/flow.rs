//! A flow: steps that a reader takes in a browser, from an opened page to a quiet end.

use crate::browser::Browser;
use crate::page::{Page, View};
use crate::site::{self, Site};
use crate::window::{Light, Window};
use anyhow::{Context, Result};
use std::future::Future;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::PathBuf;
use std::pin::{Pin, pin};
use tokio::sync::Mutex;

/// Only one browser at a time, however many threads the tests have: two of them slow each other down on two cores.
static TURN: Mutex<()> = Mutex::const_new(());

/// How the page of a flow is opened.
#[derive(Clone, Debug)]
pub struct Setup {
    window: Window,
    hash: String,
    light: Option<Light>,
    folder: Option<PathBuf>,
}

impl Setup {
    /// At this size, at the page's own address, in the system's light.
    pub const fn new(window: Window) -> Self {
        Self { window, hash: String::new(), light: None, folder: None }
    }

    /// With this after the `#` of the address.
    #[must_use]
    pub fn hash(mut self, hash: impl Into<String>) -> Self {
        self.hash = hash.into();
        self
    }

    /// With light or dark colours asked for by the system; Chromium only.
    #[must_use]
    pub const fn light(mut self, light: Light) -> Self {
        self.light = Some(light);
        self
    }

    /// On the site in this folder, which brings the watching script along, instead of the one that was built: see
    /// [`Version`](crate::versions::Version).
    #[must_use]
    pub fn site(mut self, folder: impl Into<PathBuf>) -> Self {
        self.folder = Some(folder.into());
        self
    }
}

/// Takes the steps in every browser that is wanted (see [`Browser::wanted`]), one after the other.
///
/// # Panics
/// With all that went wrong: where a step fails, or the page was not quiet. A picture of the page as it then was is in
/// `target/flows`.
#[allow(clippy::needless_pass_by_value, reason = "the steps are written where they are handed over")]
pub fn in_every_browser(setup: &Setup, steps: impl AsyncFn(&Page) -> Result<()>) {
    for browser in Browser::wanted() {
        run(browser, setup, &steps);
    }
}

/// Takes the steps in one browser; does nothing where that browser is not wanted.
///
/// # Panics
/// As [`in_every_browser`].
#[allow(clippy::needless_pass_by_value, reason = "the steps are written where they are handed over")]
pub fn in_browser(browser: Browser, setup: &Setup, steps: impl AsyncFn(&Page) -> Result<()>) {
    if browser.is_wanted() {
        run(browser, setup, &steps);
    }
}

/// Runs to the end what needs the harness' own event loop.
///
/// # Errors
/// Those of the future itself, or where no event loop can be had.
pub fn wait_for<T>(future: impl Future<Output = Result<T>>) -> Result<T> {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    runtime.context("no event loop")?.block_on(future)
}

fn run(browser: Browser, setup: &Setup, steps: &impl AsyncFn(&Page) -> Result<()>) {
    let outcome = wait_for(async {
        let _turn = TURN.lock().await;
        let view = View {
            browser,
            window: setup.window,
            hash: &setup.hash,
            light: setup.light.filter(|_| browser == Browser::Chromium),
            dots: 1,
            watched: true,
        };
        let page = match &setup.folder {
            Some(folder) => Page::open_on(&view, Site::of(folder.clone(), false)?).await?,
            None => Page::open(&view).await?,
        };
        let outcome = caught(pin!(take(&page, steps))).await;
        if !matches!(outcome, Ok(Ok(()))) {
            keep_picture(&page).await;
        }
        page.quit().await?;
        outcome.unwrap_or_else(|panic| resume_unwind(panic))
    });
    if let Err(problem) = outcome {
        panic!("in {browser:?} at {}: {problem:#}", setup.window);
    }
}

async fn take(page: &Page, steps: &impl AsyncFn(&Page) -> Result<()>) -> Result<()> {
    let outcome = steps(page).await;
    // What was on the console often says why a step failed.
    match (outcome, page.is_quiet().await) {
        (Ok(()), quiet) => quiet,
        (Err(problem), Ok(())) => Err(problem),
        (Err(problem), Err(noise)) => Err(problem.context(noise)),
    }
}

/// Awaits a future, and gives a panic back as a value, so that the browser is ended all the same.
async fn caught<T>(mut future: Pin<&mut impl Future<Output = T>>) -> std::thread::Result<T> {
    std::future::poll_fn(|context| match catch_unwind(AssertUnwindSafe(|| future.as_mut().poll(context))) {
        Ok(poll) => poll.map(Ok),
        Err(panic) => std::task::Poll::Ready(Err(panic)),
    })
    .await
}

#[allow(clippy::print_stderr, reason = "said beside the failure of the test itself")]
async fn keep_picture(page: &Page) {
    let test = std::thread::current().name().unwrap_or("flow").replace("::", "-");
    let name = format!("{test}-{:?}-{}.png", page.browser(), page.window());
    let file = site::root().join("target/flows").join(name);
    match page.screenshot(&file).await {
        Ok(()) => eprintln!(
            "the page as it then was: target/flows/{}",
            file.file_name().unwrap_or_default().display()
        ),
        Err(problem) => eprintln!("{problem:#}"),
    }
}
