//! A flow: steps that a reader takes in a browser, from an opened page to a quiet end.

use crate::browser::{self, Browser};
use crate::page::{Page, View};
use crate::site::{self, Site};
use crate::window::{Light, Window};
use anyhow::{Context, Result};
use libtest_mimic::{Arguments, Trial};
use std::cell::RefCell;
use std::future::Future;
use std::io::Write;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::PathBuf;
use std::pin::{Pin, pin};
use std::process::ExitCode;
use std::sync::LazyLock;
use std::time::Instant;
use tokio::runtime::Runtime;

/// One event loop for all flows: a browser that serves several of them keeps its connection to it.
static EVENTS: LazyLock<Option<Runtime>> = LazyLock::new(|| {
    let mut events = tokio::runtime::Builder::new_multi_thread();
    events.worker_threads(1).enable_all().build().ok()
});

/// So many flows are under way at a time in each run: one alone waits as often as it works.
const AT_A_TIME: usize = 2;

thread_local! {
    /// The flow under way, by its file and its name: each has a thread.
    static NOW: RefCell<String> = const { RefCell::new(String::new()) };
}

/// A flow with its name.
pub type Flow = (&'static str, fn());

/// Flows by their functions.
#[macro_export]
macro_rules! flows {
    ($($flow:ident),+ $(,)?) => { [$((stringify!($flow), $flow as fn())),+] };
}

/// Runs the flows of these files, those that the command line names or all: `cargo xtask` runs this once for each browser,
/// beside the others. A few are under way at a time, each in a browser of its own, which then serves the next. How long each
/// flow took is written to a file of `target/flows` with the browsers in its name.
pub fn run_files(files: &[(&'static str, &'static [Flow])]) -> ExitCode {
    let mut arguments = Arguments::from_args();
    arguments.test_threads.get_or_insert(AT_A_TIME);
    let flows = files.iter().flat_map(|(file, flows)| flows.iter().map(move |flow| (*file, *flow)));
    let trials = flows.map(|(file, (name, steps))| {
        let called = format!("{file}::{name}");
        Trial::test(called.clone(), move || {
            NOW.set(called.clone());
            let start = Instant::now();
            steps();
            note_time(&called, start);
            Ok(())
        })
    });
    // Of an earlier run; where there is none, nothing is to be removed.
    let _ = std::fs::remove_file(seconds());
    let conclusion = libtest_mimic::run(&arguments, trials.collect());
    end_browsers();
    conclusion.exit_code()
}

fn end_browsers() {
    // A browser that does not end in good order is ended with its driver all the same.
    let _ = wait_for(async {
        browser::end_all().await;
        Ok(())
    });
}

fn note_time(called: &str, start: Instant) {
    let line = format!("{:7.1}  {called}\n", start.elapsed().as_secs_f64());
    let file = seconds();
    // Nothing hangs on it.
    let _ = file.parent().map(std::fs::create_dir_all);
    if let Ok(mut open) = std::fs::OpenOptions::new().create(true).append(true).open(&file) {
        let _ = open.write_all(line.as_bytes());
    }
}

fn seconds() -> PathBuf {
    let browsers: Vec<String> =
        Browser::wanted().iter().map(|one| format!("{one:?}").to_lowercase()).collect();
    site::root().join(format!("target/flows/seconds-{}.txt", browsers.join("-")))
}

/// How the page of a flow is opened.
#[derive(Clone, Debug)]
pub struct Setup {
    window: Window,
    hash: String,
    light: Option<Light>,
    folder: Option<PathBuf>,
    kept: bool,
}

impl Setup {
    /// At this size, at the page's own address, in the system's light.
    pub const fn new(window: Window) -> Self {
        Self { window, hash: String::new(), light: None, folder: None, kept: false }
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

    /// With the whole site kept on the device by its service worker, which takes as long as all else at the start. In other
    /// flows it keeps nothing; on a site of its own folder it always keeps.
    #[must_use]
    pub const fn kept(mut self) -> Self {
        self.kept = true;
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

/// Opens Score in Chromium to be measured: nothing but the page runs there, and nobody watches it.
///
/// # Errors
/// Those of the steps, or where the browser does not open it.
#[allow(clippy::needless_pass_by_value, reason = "the steps are written where they are handed over")]
pub fn measured<T>(steps: impl AsyncFn(&Page) -> Result<T>) -> Result<T> {
    let view = View {
        browser: Browser::Chromium,
        window: Window::LANDSCAPE,
        hash: "/score",
        light: None,
        dots: 1,
        watched: false,
        kept: true,
    };
    wait_for(async {
        let page = Page::open(&view).await?;
        let outcome = steps(&page).await;
        page.quit().await?;
        outcome
    })
}

/// Opens the built site with this after the `#` in a browser of its own, at the size of this page, takes the steps there, and
/// ends it: what one reader sends another opens there as it was sent.
///
/// # Errors
/// Those of the steps, or where that page was not quiet.
pub async fn elsewhere(page: &Page, hash: &str, steps: impl AsyncFnOnce(&Page) -> Result<()>) -> Result<()> {
    let view = View {
        browser: page.browser(),
        window: page.window(),
        hash,
        light: None,
        dots: 1,
        watched: true,
        kept: false,
    };
    let other = Page::open(&view).await?;
    let outcome = match steps(&other).await {
        Ok(()) => other.is_quiet().await,
        failed => failed,
    };
    other.leave(outcome).await
}

/// Runs to the end what needs the harness' own event loop.
///
/// # Errors
/// Those of the future itself, or where no event loop can be had.
pub fn wait_for<T>(future: impl Future<Output = Result<T>>) -> Result<T> {
    EVENTS.as_ref().context("no event loop")?.block_on(future)
}

fn run(browser: Browser, setup: &Setup, steps: &impl AsyncFn(&Page) -> Result<()>) {
    let outcome = wait_for(async {
        let view = View {
            browser,
            window: setup.window,
            hash: &setup.hash,
            light: setup.light.filter(|_| browser == Browser::Chromium),
            dots: 1,
            watched: true,
            kept: setup.kept,
        };
        let page = match &setup.folder {
            Some(folder) => Page::open_on(&view, Site::of(folder.clone(), false)?).await?,
            None => Page::open(&view).await?,
        };
        let outcome = caught(pin!(take(&page, steps))).await;
        if matches!(outcome, Ok(Ok(()))) {
            page.give_back().await?;
        } else {
            keep_picture(&page).await;
            // What went wrong is to be told, and not that the browser then did not answer: it ends with its driver.
            let _ = page.quit().await;
        }
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
    let test = NOW.with_borrow(|now| now.replace("::", "-"));
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
