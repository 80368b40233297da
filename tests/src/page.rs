//! The page as a test sees it: opened in a browser at a size, read, looked at, and closed with its console checked.

use crate::browser::{self, Browser, Running};
use crate::site::Site;
use crate::wait;
use crate::window::{Light, Window};
use anyhow::{Context, Result, bail};
use serde_json::{Value, json};
use std::path::Path;
use std::sync::{Mutex, PoisonError};
use thirtyfour::{WebDriver, WindowHandle};

/// So many looks at a window that does not change its size, and the browser is asked again: some two seconds.
const LOOKS_BEFORE_ASKED_AGAIN: u32 = 50;

/// What a browser's bars and edges take of its window at most, in pixels.
const THICKEST_BARS: u32 = 200;

/// How a page is opened.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// In which browser.
    pub browser: Browser,
    /// At which size.
    pub window: Window,
    /// What stands after the `#` of the address.
    pub hash: &'a str,
    /// What the system says of its colours; Chromium only.
    pub light: Option<Light>,
    /// How many of the screen's dots a CSS pixel is wide; Chromium only.
    pub dots: u32,
    /// Whether console and network are watched. Only a measurement that watching would disturb leaves this off.
    pub watched: bool,
    /// Whether the service worker keeps the site on the device, as it does for a reader: see [`Site::serve`].
    pub kept: bool,
}

/// The open page. Its other methods are with their subjects: `find`, `input`, `console`, `axe`.
#[derive(Debug)]
pub struct Page {
    pub(crate) browser: Browser,
    pub(crate) window: Window,
    pub(crate) site: Site,
    pub(crate) watched: bool,
    /// What the console held before the page was last left.
    pub(crate) noted: Mutex<Vec<String>>,
    /// What the page had asked for before it was last left.
    pub(crate) asked: Mutex<Vec<String>>,
    /// The stand-in that Chromium now runs, by the number it gave it.
    stand_in: Mutex<Option<String>>,
    running: Running,
}

impl Page {
    /// Starts the browser and opens the site in it. Returns when the app has taken the place of the page's first
    /// words, or has said why it cannot.
    ///
    /// # Errors
    /// Where there is no site or no browser, or the app does not start.
    pub async fn open(view: &View<'_>) -> Result<Self> {
        let hooked = view.watched && view.browser != Browser::Chromium;
        Self::open_on(view, Site::serve(hooked, view.kept)?).await
    }

    /// Starts the browser and opens this site in it, as [`Page::open`] does with the one that was built.
    ///
    /// # Errors
    /// As [`Page::open`].
    pub async fn open_on(view: &View<'_>, site: Site) -> Result<Self> {
        let running = browser::take(view.browser, view.watched).await?;
        let page = Self {
            browser: view.browser,
            window: view.window,
            site,
            watched: view.watched,
            noted: Mutex::default(),
            asked: Mutex::default(),
            stand_in: Mutex::default(),
            running,
        };
        if let Err(problem) = page.prepare(view).await {
            page.quit().await?;
            return Err(problem);
        }
        Ok(page)
    }

    async fn prepare(&self, view: &View<'_>) -> Result<()> {
        if view.browser == Browser::Chromium {
            self.emulate(view).await?;
        } else {
            self.fit_window(view.window).await?;
        }
        self.driver().goto(self.site.address(view.hash)).await.context("the page did not load")?;
        self.started().await
    }

    async fn emulate(&self, view: &View<'_>) -> Result<()> {
        let Window { width, height, touch } = view.window;
        let metrics =
            json!({ "width": width, "height": height, "deviceScaleFactor": view.dots, "mobile": touch });
        self.cdp("Emulation.setDeviceMetricsOverride", metrics).await?;
        let fingers = json!({ "enabled": touch, "maxTouchPoints": if touch { 5 } else { 1 } });
        self.cdp("Emulation.setTouchEmulationEnabled", fingers).await?;
        if let Some(light) = view.light {
            self.set_light(light).await?;
        }
        Ok(())
    }

    /// Makes the page's own area exactly as large as wanted, whatever the browser's bars take. The browser answers
    /// before its window has its new size, so the sizes are read until they agree; now and then it forgets that it was
    /// asked, and is asked again.
    async fn fit_window(&self, window: Window) -> Result<()> {
        // Firefox makes no window narrower.
        let least = if self.browser == Browser::Firefox { 500 } else { 0 };
        let window = Window { width: window.width.max(least), ..window };
        let mut asked = [window.width, window.height];
        self.driver().set_window_rect(0, 0, asked[0], asked[1]).await?;
        let what = format!("the browser's window to be {window}");
        let mut looks = 0;
        wait::until(&what, async || {
            looks += 1;
            let sizes =
                self.eval("return [innerWidth, innerHeight, outerWidth, outerHeight]", vec![]).await?;
            let size = |at: usize| sizes[at].as_u64().and_then(|size| u32::try_from(size).ok()).unwrap_or(0);
            let (inner, outer) = ([size(0), size(1)], [size(2), size(3)]);
            if inner == [window.width, window.height] {
                return Ok(Some(()));
            }
            // The page is told of its new size later than the window.
            let bars = [outer[0].checked_sub(inner[0]), outer[1].checked_sub(inner[1])];
            let is_told = bars.iter().all(|bar| bar.is_some_and(|bar| bar <= THICKEST_BARS));
            if outer == asked && is_told {
                asked[0] = (asked[0] + window.width).saturating_sub(inner[0]);
                asked[1] = (asked[1] + window.height).saturating_sub(inner[1]);
            } else if looks % LOOKS_BEFORE_ASKED_AGAIN != 0 {
                return Ok(None);
            }
            self.driver().set_window_rect(0, 0, asked[0], asked[1]).await?;
            Ok(None)
        })
        .await
    }

    pub(crate) async fn started(&self) -> Result<()> {
        let script = "const problem = document.getElementById('boot-problem');
            if (problem && problem.textContent) return problem.textContent;
            return document.readyState === 'complete' && !document.getElementById('before');";
        let answer = wait::until("the app to start", async || {
            let answer = self.eval(script, vec![]).await?;
            Ok((answer != json!(false)).then_some(answer))
        });
        match answer.await? {
            Value::String(problem) => bail!("the app says: {problem}"),
            _ => Ok(()),
        }
    }

    /// Waits until fonts are there, movement has ended, and two frames have been painted since.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn settled(&self) -> Result<()> {
        let script = "const done = arguments[arguments.length - 1];
            const moving = () => document.getAnimations().filter((at) => at.effect?.getComputedTiming().endTime !== Infinity);
            document.fonts.ready.then(() => Promise.allSettled(moving().map((at) => at.finished)))
                .then(() => requestAnimationFrame(() => requestAnimationFrame(() => done(true))));";
        self.driver().execute_async(script, vec![]).await.context("the page did not settle")?;
        Ok(())
    }

    /// Whether the page says itself that it will move.
    pub(crate) async fn is_busy(&self) -> Result<bool> {
        let busy = self.eval("return document.querySelector('[aria-busy=true]') !== null", vec![]).await?;
        Ok(busy == json!(true))
    }

    /// Waits until nothing on the page is being laid out any more, and [`settled`](Page::settled).
    ///
    /// # Errors
    /// Where it does not come to rest.
    pub async fn at_rest(&self) -> Result<()> {
        wait::until("the page to come to rest", async || Ok((!self.is_busy().await?).then_some(()))).await?;
        self.settled().await
    }

    /// The browser it is open in.
    pub const fn browser(&self) -> Browser {
        self.browser
    }

    /// The size it was opened at.
    pub const fn window(&self) -> Window {
        self.window
    }

    /// The address of the site without anything after `#`.
    pub fn address(&self) -> String {
        self.site.address("")
    }

    /// The server of the site.
    pub const fn site(&self) -> &Site {
        &self.site
    }

    /// The driver's session, for what the harness has no word for.
    pub const fn driver(&self) -> &WebDriver {
        &self.running.driver
    }

    /// Sends a command of the Chrome DevTools Protocol.
    ///
    /// # Errors
    /// In any browser but Chromium.
    pub async fn cdp(&self, method: &str, parameters: Value) -> Result<Value> {
        if self.browser != Browser::Chromium {
            bail!("{method} is Chromium's alone");
        }
        self.driver().cdp().send_raw(method, parameters).await.with_context(|| format!("{method} failed"))
    }

    /// Says that the system's colours are light or dark; Chromium only.
    ///
    /// # Errors
    /// In any other browser.
    pub async fn set_light(&self, light: Light) -> Result<()> {
        let feature = json!({ "name": "prefers-color-scheme", "value": light.name() });
        self.cdp("Emulation.setEmulatedMedia", json!({ "features": [feature] })).await?;
        Ok(())
    }

    /// Makes the page's own area another size, with what goes with it.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn resize(&self, window: Window) -> Result<()> {
        if self.browser == Browser::Chromium {
            let Window { width, height, touch } = window;
            let metrics =
                json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": touch });
            self.cdp("Emulation.setDeviceMetricsOverride", metrics).await?;
        } else {
            self.fit_window(window).await?;
        }
        self.settled().await
    }

    /// From the next load on this script runs before the page's own, instead of the one that was last given here: a
    /// stand-in for something in the browser that is missing, refuses, or is to be listened to. Nothing runs where it
    /// is empty. The page must have been opened on the site that was built.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn stand_in(&self, script: &str) -> Result<()> {
        if self.browser != Browser::Chromium {
            self.site.set_stand_in(script);
            return Ok(());
        }
        let before = self.stand_in.lock().unwrap_or_else(PoisonError::into_inner).take();
        if let Some(known) = before {
            self.cdp("Page.removeScriptToEvaluateOnNewDocument", json!({ "identifier": known })).await?;
        }
        if !script.is_empty() {
            let answer =
                self.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script })).await?;
            let known = answer["identifier"].as_str().map(String::from);
            *self.stand_in.lock().unwrap_or_else(PoisonError::into_inner) = known;
        }
        Ok(())
    }

    /// Runs a script in the page, as the body of an asynchronous function, and gives back what its promise gives.
    ///
    /// # Errors
    /// Where the script throws.
    pub async fn promised(&self, script: &str) -> Result<Value> {
        let whole = format!(
            "const done = arguments[arguments.length - 1];
             (async () => {{ {script} }})().then((value) => done({{ value }}), (problem) => done({{ problem: String(problem) }}));"
        );
        let answer = self.driver().execute_async(whole, vec![]).await?.json().clone();
        match answer["problem"].as_str() {
            Some(problem) => bail!("{script}: {problem}"),
            None => Ok(answer["value"].clone()),
        }
    }

    /// Everything that is written on the page now, as a reader sees it.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn text(&self) -> Result<String> {
        let text = self.eval("return document.body.innerText", vec![]).await?;
        Ok(text.as_str().unwrap_or_default().to_owned())
    }

    /// Waits until these words stand on the page.
    ///
    /// # Errors
    /// When they do not come; the sentence holds what stands there instead.
    pub async fn sees(&self, words: &str) -> Result<()> {
        let seen = wait::until(words, async || Ok(self.text().await?.contains(words).then_some(()))).await;
        match seen {
            Ok(()) => Ok(()),
            Err(problem) => bail!("{problem}; the page says: {}", self.text().await?),
        }
    }

    /// Writes a picture of what is seen to a PNG file, making its folder.
    ///
    /// # Errors
    /// Where the file cannot be written.
    pub async fn screenshot(&self, file: &Path) -> Result<()> {
        if let Some(folder) = file.parent() {
            std::fs::create_dir_all(folder)
                .with_context(|| format!("could not make {}", folder.display()))?;
        }
        self.driver().screenshot(file).await.with_context(|| format!("no picture in {}", file.display()))
    }

    /// Opens another window beside this one, empty, and goes to it. In WebKit it is no tab: what is hidden behind a tab
    /// paints nothing there, and so never settles.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn open_window(&self) -> Result<WindowHandle> {
        let driver = self.driver();
        let is_tab = self.browser != Browser::WebKit;
        let window = if is_tab { driver.new_tab().await } else { driver.new_window().await };
        let window = window.context("no second window")?;
        driver.switch_to_window(window.clone()).await?;
        Ok(window)
    }

    /// Gives the browser back for the next flow, as empty as it came: one window, nothing in front of the page's own
    /// scripts, nothing emulated, nothing noted, and in Chromium no steps back. What the device kept belongs to this flow's server and goes with it, since
    /// no other server has its address.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn give_back(self) -> Result<()> {
        let windows = self.driver().windows().await?;
        for other in windows.iter().skip(1) {
            self.driver().switch_to_window(other.clone()).await?;
            self.driver().close_window().await?;
        }
        if let Some(first) = windows.first() {
            self.driver().switch_to_window(first.clone()).await?;
        }
        if self.browser == Browser::Chromium {
            self.stand_in("").await?;
            self.cdp("Emulation.setEmulatedMedia", json!({ "features": [] })).await?;
        }
        self.driver().goto("about:blank").await.context("the page could not be left")?;
        if self.browser == Browser::Chromium {
            // It counts no more than fifty steps.
            self.cdp("Page.resetNavigationHistory", json!({})).await?;
        }
        if self.browser == Browser::Chromium && self.watched {
            self.driver().get_log("browser").await?;
            self.driver().get_log("performance").await?;
        }
        browser::give_back(self.running).await;
        Ok(())
    }

    /// Leaves a page that was opened beside the flow's own: the browser goes back for the next one where all went well, and
    /// ends where not.
    ///
    /// # Errors
    /// What went wrong, or where the driver does not answer.
    pub async fn leave(self, outcome: Result<()>) -> Result<()> {
        match outcome {
            Ok(()) => self.give_back().await,
            Err(problem) => {
                self.quit().await?;
                Err(problem)
            }
        }
    }

    /// Ends the browser.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn quit(self) -> Result<()> {
        let Self { running, .. } = self;
        running.driver.clone().quit().await.context("the browser did not end")
    }
}
