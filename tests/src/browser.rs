//! The browsers, and how each is started with its driver.

use crate::process::{Folder, Process, free_port, program};
use crate::wait;
use anyhow::{Context, Result, bail};
use serde_json::{Value, json};
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::sync::{Mutex, PoisonError};
use thirtyfour::{Capabilities, WebDriver};

/// A browser that the app is held to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Browser {
    /// Chromium or Chrome, through chromedriver.
    Chromium,
    /// WebKitGTK's small browser, through WebKitWebDriver, on a screen of its own.
    WebKit,
    /// Firefox, through geckodriver. Only where it is named.
    Firefox,
}

impl Browser {
    /// The browsers to run flows in: those that `CROOKWISE_BROWSERS` names ("chromium,webkit", which is the default).
    ///
    /// # Panics
    /// On a name that is none of ours, since leaving a browser out in silence would weaken every flow.
    pub fn wanted() -> Vec<Self> {
        let names = std::env::var("CROOKWISE_BROWSERS").unwrap_or_else(|_| "chromium,webkit".into());
        let browser = |name: &str| match name.trim() {
            "chromium" => Self::Chromium,
            "webkit" => Self::WebKit,
            "firefox" => Self::Firefox,
            other => panic!("CROOKWISE_BROWSERS names \"{other}\", which is not chromium, webkit or firefox"),
        };
        names.split(',').map(browser).collect()
    }

    /// Whether flows run in this browser.
    pub fn is_wanted(self) -> bool {
        Self::wanted().contains(&self)
    }
}

/// So many flows, and a browser makes way for a fresh one: what it piles up shall slow down none of them. To start one
/// costs as much as a flow.
const FLOWS_FOR_EACH: u32 = 20;

/// Browsers that wait for the next flow.
static IDLE: Mutex<Vec<Running>> = Mutex::new(Vec::new());

/// A browser with its driver, and what had to be started for it. Ends with this value, after [`WebDriver::quit`].
#[derive(Debug)]
pub struct Running {
    browser: Browser,
    logged: bool,
    /// How many flows it has served.
    flows: u32,
    /// The driver's session.
    pub driver: WebDriver,
    // In this order: the driver goes before the screen that its browser stands on, and the files last.
    _driver: Process,
    _screen: Option<Process>,
    _files: Folder,
}

/// Starts a browser. Logged: Chromium also notes what is written to the console and what is asked of the network.
///
/// # Errors
/// Where the browser or its driver is missing or does not start.
pub async fn start(browser: Browser, logged: bool) -> Result<Running> {
    let files = Folder::make()?;
    let port = free_port()?;
    let (process, screen, capabilities) = match browser {
        Browser::Chromium => (chromedriver(port)?, None, chromium(&files, logged)),
        Browser::WebKit => {
            let (screen, display) = screen()?;
            (webkit_driver(port, &display, &files)?, Some(screen), webkit()?)
        }
        Browser::Firefox => {
            (geckodriver(port)?, None, json!({ "moz:firefoxOptions": { "args": ["-headless"] } }))
        }
    };
    let Value::Object(capabilities) = capabilities else { bail!("capabilities are an object") };
    let capabilities = Capabilities::from(capabilities);
    let address = format!("http://127.0.0.1:{port}");
    wait::until("the driver to listen", async || {
        Ok(tokio::net::TcpStream::connect(("127.0.0.1", port)).await.ok().map(|_| ()))
    })
    .await?;
    let driver = WebDriver::new(&address, capabilities).await.context("the browser did not start")?;
    Ok(Running { browser, logged, flows: 0, driver, _driver: process, _screen: screen, _files: files })
}

/// A browser that an earlier flow has given back, or a new one.
///
/// # Errors
/// As [`start`].
pub async fn take(browser: Browser, logged: bool) -> Result<Running> {
    let fits = |running: &Running| running.browser == browser && running.logged == logged;
    let idle = {
        let mut idle = IDLE.lock().unwrap_or_else(PoisonError::into_inner);
        idle.iter().position(fits).map(|at| idle.swap_remove(at))
    };
    match idle {
        Some(running) => Ok(running),
        None => start(browser, logged).await,
    }
}

/// Keeps a browser for the next flow, which finds it with one empty window. One that has served long enough is ended.
pub async fn give_back(mut running: Running) {
    running.flows += 1;
    if running.flows < FLOWS_FOR_EACH {
        IDLE.lock().unwrap_or_else(PoisonError::into_inner).push(running);
    } else {
        end(&running).await;
    }
}

/// Ends a browser. One that does not answer ends with its driver.
async fn end(running: &Running) {
    let _ = running.driver.clone().quit().await;
}

/// Ends every browser that waits.
pub async fn end_all() {
    let idle = std::mem::take(&mut *IDLE.lock().unwrap_or_else(PoisonError::into_inner));
    for running in &idle {
        end(running).await;
    }
}

fn found(names: &[&str], advice: &str) -> Result<PathBuf> {
    names
        .iter()
        .find_map(|name| program(name))
        .with_context(|| format!("{} is not there: {advice}", names[0]))
}

fn quiet(command: &mut Command) -> &mut Command {
    command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null())
}

fn chromedriver(port: u16) -> Result<Process> {
    let path =
        found(&["chromedriver"], "install Chromium and its driver (Debian: chromium chromium-driver)")?;
    Process::start(quiet(Command::new(path).arg(format!("--port={port}"))))
}

fn chromium(files: &Folder, logged: bool) -> Value {
    let profile = files.path().join("profile");
    let mut args = vec![
        "--headless=new".to_owned(),
        "--no-sandbox".into(),
        "--disable-gpu".into(),
        "--disable-quic".into(),
        "--no-first-run".into(),
        "--disable-background-networking".into(),
        "--disable-component-update".into(),
        "--disable-sync".into(),
        "--disable-dev-shm-usage".into(),
        // One site is all that is ever open: with a process for each, every load of a page starts one, and another ahead.
        "--disable-site-isolation-trials".into(),
        "--lang=en-GB".into(),
    ];
    args.push(format!("--user-data-dir={}", profile.display()));
    let mut options = json!({ "args": args });
    let binary = ["chromium", "chromium-browser", "google-chrome", "chrome"].into_iter().find_map(program);
    if let Some(binary) = std::env::var_os("CROOKWISE_CHROME").map(PathBuf::from).or(binary) {
        options["binary"] = json!(binary);
    }
    let mut capabilities = json!({ "browserName": "chrome", "goog:chromeOptions": options });
    if logged {
        capabilities["goog:loggingPrefs"] = json!({ "browser": "ALL", "performance": "ALL" });
    }
    capabilities
}

/// A screen in memory, large enough for every window, and its name.
fn screen() -> Result<(Process, String)> {
    let path = found(&["Xvfb"], "install it (Debian: xvfb)")?;
    let mut command = Command::new(path);
    command.args(["-displayfd", "1", "-screen", "0", "2400x1600x24", "-nolisten", "tcp"]);
    command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::null());
    let mut process = Process::start(&mut command)?;
    let mut number = String::new();
    let output = process.output().context("Xvfb has no output")?;
    BufReader::new(output).read_line(&mut number).context("Xvfb named no screen")?;
    if number.trim().is_empty() {
        bail!("Xvfb did not start");
    }
    Ok((process, format!(":{}", number.trim())))
}

/// The small browser's own buttons would keep its window wider than a telephone.
const NO_BUTTONS: &str = "headerbar, headerbar *, toolbar, toolbar *, entry, button { \
    padding: 0; margin: 0; min-width: 0; min-height: 0; border-width: 0; font-size: 1px; }\n";

fn webkit_driver(port: u16, display: &str, files: &Folder) -> Result<Process> {
    let path = found(&["WebKitWebDriver"], "install WebKitGTK's driver (Debian: webkit2gtk-driver xvfb)")?;
    let style = files.path().join("gtk-3.0");
    std::fs::create_dir_all(&style).context("no folder for the browser's style")?;
    std::fs::write(style.join("gtk.css"), NO_BUTTONS).context("no file for the browser's style")?;
    let mut command = Command::new(path);
    command.arg(format!("--port={port}")).arg("--host=127.0.0.1");
    command.env("DISPLAY", display).env("XDG_CONFIG_HOME", files.path());
    command.env("XDG_DATA_HOME", files.path()).env("XDG_CACHE_HOME", files.path());
    // With some of these set, screenshots hang.
    for (name, _) in std::env::vars_os().filter(|(name, _)| name.to_string_lossy().starts_with("WEBKIT_")) {
        command.env_remove(name);
    }
    command.env_remove("WAYLAND_DISPLAY");
    // There is no graphics card: what it would do in layers of the page is done by the same cores, and costs more than all
    // the rest. The page is then painted as one.
    command.env("WEBKIT_DISABLE_COMPOSITING_MODE", "1");
    // No page of a flow lives long enough to win back what its compiler spends on the last optimisation. It is the suspect,
    // too, where on a busy machine a page now and then stops with an access out of bounds, which no flow alone brings about.
    command.env("JSC_useOMGJIT", "0");
    // The same goes for the optimisations before it, which are otherwise put in while the page runs.
    command.env("JSC_useConcurrentJIT", "0");
    Process::start(quiet(&mut command))
}

fn webkit() -> Result<Value> {
    let folders = std::fs::read_dir("/usr/lib").into_iter().flatten().flatten().map(|entry| entry.path());
    let folders = folders.chain([PathBuf::from("/usr/lib"), PathBuf::from("/usr/libexec")]);
    let binary = folders
        .flat_map(|folder| {
            ["4.1", "4.0"].map(|version| folder.join(format!("webkit2gtk-{version}/MiniBrowser")))
        })
        .find(|path| path.is_file())
        .context("WebKitGTK's MiniBrowser is not there: install it (Debian: webkit2gtk-driver)")?;
    Ok(json!({ "webkitgtk:browserOptions": { "binary": binary, "args": ["--automation"] } }))
}

fn geckodriver(port: u16) -> Result<Process> {
    let path = found(&["geckodriver"], "install Firefox and run `cargo install --locked geckodriver`")?;
    Process::start(quiet(Command::new(path).arg(format!("--port={port}"))))
}
