//! The app on the device: without a server after one visit, a new version over an old one, and installed. The servers of
//! these flows are really ended, and the second versions are copies of the built site with other contents and names.

use crate::{playback, score};
use anyhow::{Context, Result, bail, ensure};
use crookwise_tests::browser::Browser;
use crookwise_tests::find::Name;
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::page::{Page, View};
use crookwise_tests::site::{Site, root};
use crookwise_tests::versions::Version;
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::{Value, json};

/// The flows of this file.
pub const FLOWS: &[Flow] = &crookwise_tests::flows![
    after_one_visit_the_server_may_go,
    a_movement_is_followed_and_heard_without_a_server,
    a_new_version_waits_until_it_is_wanted,
    a_version_that_arrived_in_part_is_not_taken,
    two_windows_each_reload_when_their_reader_wants,
    a_version_that_cannot_start_gives_way_to_the_next,
    a_notice_of_the_browser_does_not_end_the_start,
    a_release_makes_way_for_the_site_under_development,
    without_a_service_worker_all_else_is_there,
    the_app_can_be_installed,
    a_browser_that_is_too_old_is_told_so
];

/// What the page says of a newer version.
const NEWS: &str = "A new version of Crookwise is ready";
/// The button beside it.
const TAKE: &str = "Reload to use it";
/// One horn with one note.
const ONE_NOTE: &str = "/read?staff=Corni+in+Es&notes=C5&at=1";
const TOO_OLD: &str =
    "This browser is too old for Crookwise. It needs Safari 16.4, Firefox 115, Chrome or Edge 111";

/// Waits until the app is on the device: a worker answers for this page, no other is on its way, and of all versions
/// just one is kept, the older one given up by the work of activation. The worker's own word for its state is not asked:
/// a page that WebKit loads while a worker comes to work is never told that it has.
async fn is_kept(page: &Page) -> Result<()> {
    let script = "return Promise.all([navigator.serviceWorker.getRegistration(), caches.keys()]).then(([here, kept]) => [
        navigator.serviceWorker.controller !== null, here?.installing ?? null, here?.waiting ?? null,
        kept.filter((name) => name.startsWith('crookwise ')).length])";
    let mut seen = json!(null);
    let kept = wait::until("the app to be kept on the device", async || {
        seen = page.eval(script, vec![]).await?;
        Ok((seen == json!([true, null, null, 1])).then_some(()))
    })
    .await;
    kept.with_context(|| format!("controlled, installing, waiting, versions kept: {seen}"))
}

/// Ends the server and makes sure that nobody listens any more.
async fn server_is_gone(page: &Page) -> Result<()> {
    page.site().stop();
    let address = page.site().origin().replace("http://", "");
    ensure!(tokio::net::TcpStream::connect(address).await.is_err(), "somebody still listens");
    Ok(())
}

/// Enters a note by its letter as the last one, and waits until the address holds these notes.
async fn enter(page: &Page, letter: &str, notes: &str) -> Result<()> {
    page.focus("button", "Add a note").await?;
    page.press(letter).await?;
    notes_are(page, notes).await
}

async fn notes_are(page: &Page, notes: &str) -> Result<()> {
    let seen = wait::until(notes, async || {
        let hash = page.hash().await?;
        Ok(hash.split('&').any(|pair| pair == format!("notes={notes}")).then_some(()))
    })
    .await;
    if seen.is_err() {
        bail!("the address should say notes={notes}, but is {}", page.hash().await?);
    }
    Ok(())
}

/// Goes to another name of the page, and waits until that page has taken the place of this one.
async fn go(page: &Page, name: &str) -> Result<()> {
    page.eval("window.crookwiseBefore = true", vec![]).await?;
    page.driver().goto(format!("{}{name}", page.site().address(""))).await?;
    wait::until("the app to start again", async || {
        let script = "return document.readyState === 'complete' && !window.crookwiseBefore && !document.getElementById('before')";
        Ok((page.eval(script, vec![]).await? == json!(true)).then_some(()))
    })
    .await
}

/// Which version the page, and which its style sheet is of; empty where it is the one that was built.
async fn versions(page: &Page) -> Result<[String; 2]> {
    let script = "return [document.querySelector('meta[name=crookwise-version]')?.content ?? '',
        getComputedStyle(document.documentElement).getPropertyValue('--crookwise-version').trim()]";
    let said = page.eval(script, vec![]).await?;
    Ok([0, 1].map(|at| said[at].as_str().unwrap_or_default().to_owned()))
}

/// Everything that the page has loaded, as it now stands, is of this version; its page and its style sheet say so too,
/// and the device keeps exactly what belongs to it.
async fn is_all_of(page: &Page, version: &Version, called: &str) -> Result<()> {
    ensure!(
        versions(page).await? == [called, called],
        "the page and its style are of {:?}",
        versions(page).await?
    );
    let script = "return performance.getEntriesByType('resource').map((entry) => new URL(entry.name).pathname.slice(1))";
    let loaded = page.eval(script, vec![]).await?;
    let loaded: Vec<&str> = loaded.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    // The worker itself is asked for by every page, and by Firefox the icon for a telephone's desk.
    let besides = ["sw.js", "apple-touch-icon.png"];
    let foreign =
        loaded.iter().find(|name| !besides.contains(name) && !version.names().iter().any(|own| own == *name));
    ensure!(foreign.is_none(), "{foreign:?} is not of this version: {loaded:?}");
    ensure!(loaded.iter().any(|name| name.ends_with(".wasm")), "the app itself was not loaded: {loaded:?}");
    let script = "const found = [];
        for (const name of await caches.keys()) {
            if (!name.startsWith('crookwise ')) continue;
            const cache = await caches.open(name);
            const files = (await cache.keys()).map((request) => new URL(request.url).pathname.slice(1) || './');
            found.push(files.sort());
        }
        return found";
    let kept = page.promised(script).await?;
    let mut wanted = version.names().to_vec();
    wanted.sort();
    ensure!(kept == json!([wanted]), "kept on the device: {kept}, and not {wanted:?}");
    Ok(())
}

/// Waits until the app of this version has started in the place of another. While a page goes, WebKit's driver has none to
/// ask.
async fn becomes(page: &Page, called: &str) -> Result<()> {
    wait::until(&format!("the version \"{called}\""), async || {
        let gone = page.eval("return !document.getElementById('before')", vec![]).await.unwrap_or_default();
        let of_version = versions(page).await.is_ok_and(|said| said == [called, called]);
        Ok((gone == json!(true) && of_version).then_some(()))
    })
    .await
}

/// The news, without pressing the button.
async fn no_news(page: &Page) -> Result<()> {
    ensure!(!page.text().await?.contains(NEWS), "there is nothing new");
    Ok(())
}

/// Asks for a newer version, as a browser does by itself now and then, and waits until it has been tried.
async fn look_for_news(page: &Page) -> Result<()> {
    let script =
        "const kept = await navigator.serviceWorker.getRegistration(); await kept.update().catch(() => {})";
    page.promised(script).await?;
    wait::until("the newer version to have been tried", async || {
        let script = "const kept = await navigator.serviceWorker.getRegistration(); return !kept.installing";
        Ok((page.promised(script).await? == json!(true)).then_some(()))
    })
    .await
}

/// Looks until a newer version is announced. Asking once is not enough: where the browser itself is trying what it found
/// after a reload, the question joins that try (Service Workers, "schedule job"), which began with what was there then.
async fn news_come(page: &Page) -> Result<()> {
    wait::until(NEWS, async || {
        look_for_news(page).await?;
        Ok(page.text().await?.contains(NEWS).then_some(()))
    })
    .await
}

fn after_one_visit_the_server_may_go() {
    let site = Version::as_built().expect("a site");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(site.path()).hash(ONE_NOTE), async |page| {
        is_kept(page).await?;
        server_is_gone(page).await?;
        page.reload().await?;
        enter(page, "e", "C5.E5").await?;
        page.reload().await?;
        notes_are(page, "C5.E5").await?;
        enter(page, "g", "C5.E5.G5").await?;
        // By the page's other names, without the link: the reader's own page is there.
        let names =
            [("", "C5.E5.G5.A5"), ("index.html", "C5.E5.G5.A5.A5"), ("?from=home", "C5.E5.G5.A5.A5.A5")];
        for (name, notes) in names {
            go(page, name).await?;
            enter(page, "a", notes).await.with_context(|| format!("as /{name}"))?;
        }
        is_all_of(page, &site, "").await?;
        // The licences are linked and not kept: that is said.
        page.driver().goto(page.site().address("") + "licences.txt").await?;
        page.sees("This text is not kept on the device: it needs a connection.").await?;
        go(page, "").await?;
        no_news(page).await
    });
}

/// The demo movement, and a score that is opened and kept without a server too.
fn a_movement_is_followed_and_heard_without_a_server() {
    let site = Version::as_built().expect("a site");
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE).site(site.path()).hash(ONE_NOTE), async |page| {
        is_kept(page).await?;
        server_is_gone(page).await?;
        page.come_back("/score").await?;
        page.click("button", "Open the demo movement").await?;
        is_followed_and_heard(page).await.context("the demo movement")?;
        page.click("button", "Another score").await?;
        page.find("button", "Open the demo movement").await?;
        let own = std::fs::read_to_string(root().join("web/demo/movement.musicxml"))?
            .replace("Introduction and Rondo", "A score of one's own");
        score::give(page, "drop", "own.musicxml", &own).await?;
        page.find("heading", "A score of one's own").await?;
        page.reload().await?;
        page.find("heading", "A score of one's own").await?;
        is_followed_and_heard(page).await.context("the kept score")?;
        // A part of it goes to paper.
        page.click("button", "Print a part").await?;
        page.find("region", "1 / 1").await.map(|_| ())
    });
}

/// From entry to entry by the map, and played: the mark of what is heard goes over the music.
async fn is_followed_and_heard(page: &Page) -> Result<()> {
    score::is_audited(page).await?;
    page.find("img", Name::Has("entries after".to_owned())).await?;
    page.click("button", "Next entry").await?;
    score::went_to(page, "Bar 9: ").await?;
    if page.browser() == Browser::Firefox {
        return Ok(());
    }
    playback::is_ready(page).await?;
    page.click("button", "Play").await?;
    playback::is_heard_within(page, 1, 40).await?;
    page.click("button", "Pause").await.map(|_| ())
}

fn a_new_version_waits_until_it_is_wanted() {
    let old = Version::as_built().expect("a site");
    let new = Version::called("second").expect("a second site");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(old.path()).hash(ONE_NOTE), async |page| {
        is_kept(page).await?;
        no_news(page).await?;
        page.site().serve_again(new.path().to_path_buf())?;
        page.reload().await?;
        page.sees(NEWS).await?;
        page.axe().await?;
        // It is announced, not forced: this page and the next are whole, and of the old version.
        enter(page, "e", "C5.E5").await?;
        page.reload().await?;
        page.sees(NEWS).await?;
        enter(page, "g", "C5.E5.G5").await?;
        ensure!(versions(page).await? == ["", ""], "the old version stays until the button is pressed");

        page.click("button", TAKE).await?;
        becomes(page, "second").await?;
        notes_are(page, "C5.E5.G5").await?;
        is_kept(page).await?;
        no_news(page).await?;
        is_all_of(page, &new, "second").await?;
        server_is_gone(page).await?;
        page.reload().await?;
        enter(page, "a", "C5.E5.G5.A5").await?;
        is_all_of(page, &new, "second").await
    });
}

fn a_version_that_arrived_in_part_is_not_taken() {
    let old = Version::as_built().expect("a site");
    let new = Version::called("second").expect("a second site");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(old.path()), async |page| {
        is_kept(page).await?;
        page.site().serve_again(new.path().to_path_buf())?;
        let style = new.name_of("style", ".css")?;
        let wasm = new.name_of("app", ".wasm")?;
        // A host that answers with a page of its own where a file is missing; a file cut short; the page still the old one.
        let page_of_old = old.text("index.html")?;
        let mut spoilt =
            vec![(wasm, "<!doctype html><title>Not here</title>"), (style, ""), ("index.html", &page_of_old)];
        // In a site for development names carry no hash, and the page names what it always did.
        spoilt.retain(|(name, _)| *name != "index.html" || style != "style.css");
        let mut before = None;
        for (name, contents) in spoilt {
            // The next is spoilt before the last is whole again, and what the browser tries by itself after a reload is over in
            // between: it never finds all of the new version, neither at once nor one file before and one behind.
            new.spoil(name, contents)?;
            look_for_news(page).await?;
            before.map_or(Ok(()), |name| new.restore(name))?;
            look_for_news(page).await?;
            no_news(page).await.context(name.to_owned())?;
            page.reload().await?;
            ensure!(versions(page).await? == ["", ""], "with {name} spoilt, the old version stays");
            before = Some(name);
        }
        before.map_or(Ok(()), |name| new.restore(name))?;
        news_come(page).await
    });
}

fn two_windows_each_reload_when_their_reader_wants() {
    let old = Version::as_built().expect("a site");
    let new = Version::called("second").expect("a second site");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(old.path()).hash(ONE_NOTE), async |page| {
        is_kept(page).await?;
        page.site().serve_again(new.path().to_path_buf())?;
        news_come(page).await?;
        let first = page.driver().window().await?;
        let second = page.open_window().await?;
        go(page, "").await?;
        page.sees(NEWS).await?;
        ensure!(versions(page).await? == ["", ""], "the second window is of the old version as well");
        page.click("button", TAKE).await?;
        becomes(page, "second").await.context("the second window")?;

        page.driver().switch_to_window(first).await?;
        ensure!(
            versions(page).await? == ["", ""],
            "the first window is not reloaded under its reader's hands"
        );
        enter(page, "e", "C5.E5").await?;
        // What the host no longer has, the first window is still given from the device.
        let wasm = old.name_of("app", ".wasm")?;
        let there = page.promised(&format!("return (await fetch('{wasm}')).ok")).await?;
        ensure!(there == json!(true), "the old version's {wasm} is gone from the device");
        page.click("button", TAKE).await?;
        becomes(page, "second").await.context("the first window")?;
        notes_are(page, "C5.E5").await?;
        page.driver().switch_to_window(second).await?;
        page.driver().close_window().await?;
        page.driver()
            .switch_to_window(page.driver().windows().await?.into_iter().next().context("no window")?)
            .await?;
        is_kept(page).await.context("the old version goes with its last window")?;
        is_all_of(page, &new, "second").await
    });
}

fn a_version_that_cannot_start_gives_way_to_the_next() {
    let broken = Version::broken("second").expect("a site that cannot start");
    let old = Version::as_built().expect("a site");
    let mended = Version::called("third").expect("a third site");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(old.path()).hash(ONE_NOTE), async |page| {
        is_kept(page).await?;
        page.site().serve_again(broken.path().to_path_buf())?;
        news_come(page).await?;
        page.click("button", TAKE).await?;
        wait::until("the sentence about an app that cannot start", async || {
            let said = page.text().await.unwrap_or_default();
            Ok(said.contains("Crookwise could not start. Reload the page").then_some(()))
        })
        .await?;
        let noise = page.is_quiet().await.expect_err("the reason is on the console").to_string();
        ensure!(noise.contains("broken on purpose"), "{noise}");
        // Nothing can be pressed here, so the next version is taken as soon as the page is loaded again.
        page.site().serve_again(mended.path().to_path_buf())?;
        page.driver().refresh().await?;
        becomes(page, "third").await?;
        notes_are(page, "C5").await?;
        page.find("application", "Notes on the staff").await?;
        // The same reason as before, if the broken version was seen again on the way; a slow machine also says that the
        // broken app never used what it had loaded.
        let of_the_broken_one = |line: &str| {
            line.contains("broken on purpose")
                || line.contains("was preloaded using link preload but not used")
        };
        if let Err(noise) = page.is_quiet().await {
            ensure!(noise.to_string().lines().skip(1).all(of_the_broken_one), "{noise}");
        }
        Ok(())
    });
}

/// A browser reports as an error of the page what is none, such as sizes that changed once more while they were told.
fn a_notice_of_the_browser_does_not_end_the_start() {
    let notices = "const say = () => dispatchEvent(new ErrorEvent('error', { message: 'only a notice' }));
        const saying = setInterval(say, 1);
        addEventListener('crookwise-begun', () => clearInterval(saying));";
    let site = Version::with_script(notices).expect("a site");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(site.path()).hash(ONE_NOTE), async |page| {
        is_kept(page).await?;
        page.find("application", "Notes on the staff").await?;
        if let Err(noise) = page.is_quiet().await {
            ensure!(noise.to_string().lines().skip(1).all(|line| line.contains("only a notice")), "{noise}");
        }
        Ok(())
    });
}

fn a_release_makes_way_for_the_site_under_development() {
    let release = Version::as_built().expect("a site");
    let dev = Version::called("second").expect("a second site");
    // As `cargo xtask serve` writes it: its page registers no worker, and the worker's name leads to one that goes.
    let file = root().join("crates/xtask/assets/no_worker.js");
    dev.spoil("sw.js", &std::fs::read_to_string(file).expect("the worker that goes"))
        .expect("a site without a worker");
    let boot = dev.name_of("boot", ".js").expect("a boot module");
    let quiet = dev.text(boot).expect("its text").replace("start().then(keep)", "start()");
    dev.spoil(boot, &quiet).expect("a boot module that keeps nothing");
    flow::in_every_browser(&Setup::new(Window::PORTRAIT).site(release.path()).hash(ONE_NOTE), async |page| {
        is_kept(page).await?;
        page.site().serve_again(dev.path().to_path_buf())?;
        look_for_news(page).await?;
        wait::until("the site under development", async || {
            page.reload().await?;
            Ok((versions(page).await? == ["second", "second"]).then_some(()))
        })
        .await?;
        wait::until("the release to be gone", async || {
            let gone =
                "return !(await navigator.serviceWorker.getRegistration()) && !(await caches.keys()).length";
            Ok((page.promised(gone).await? == json!(true)).then_some(()))
        })
        .await?;
        page.reload().await?;
        ensure!(versions(page).await? == ["second", "second"], "the site under development");
        enter(page, "e", "C5.E5").await
    });
}

/// Stand-ins: browsers here all have service workers, so what others lack or forbid is taken from them by a script in
/// front of the page's own.
const ABSENT: [(&str, &str); 3] = [
    ("missing", "delete Navigator.prototype.serviceWorker;"),
    (
        "forbidden",
        "Object.defineProperty(navigator, 'serviceWorker', { get() { throw new DOMException('no', 'SecurityError'); } });",
    ),
    ("failing", "ServiceWorkerContainer.prototype.register = () => Promise.reject(new TypeError('no'));"),
];

fn without_a_service_worker_all_else_is_there() {
    for (what, script) in ABSENT {
        let site = Version::with_script(script).expect("a site");
        flow::in_every_browser(
            &Setup::new(Window::PORTRAIT).site(site.path()).hash(ONE_NOTE),
            async |page| {
                let seen = "try { return navigator.serviceWorker === undefined ? 'missing' : 'failing' } catch { return 'forbidden' }";
                ensure!(page.eval(seen, vec![]).await? == json!(what), "the stand-in is not in its place");
                enter(page, "e", "C5.E5").await?;
                page.reload().await?;
                notes_are(page, "C5.E5").await?;
                no_news(page).await?;
                ensure!(
                    page.promised("return (await caches.keys()).length").await? == json!(0),
                    "nothing is kept"
                );
                Ok(())
            },
        );
    }
}

fn the_app_can_be_installed() {
    flow::in_browser(Browser::Chromium, &Setup::new(Window::LANDSCAPE).kept(), async |page| {
        is_kept(page).await?;
        let found = page.cdp("Page.getInstallabilityErrors", json!({})).await?;
        ensure!(found["installabilityErrors"] == json!([]), "{found}");
        let manifest = page.cdp("Page.getAppManifest", json!({})).await?;
        ensure!(manifest["errors"] == json!([]), "{manifest}");
        let manifest: Value = serde_json::from_str(manifest["data"].as_str().context("no manifest")?)?;
        ensure!(manifest["name"] == "Crookwise" && manifest["display"] == "standalone", "{manifest}");
        let icons = manifest["icons"].as_array().context("no icons")?;
        ensure!(icons.iter().any(|icon| icon["purpose"] == "maskable"), "no icon that may be cut to a shape");
        let mut sizes: Vec<(&str, &str)> = vec![("apple-touch-icon.png", "180x180")];
        sizes.extend(icons.iter().filter_map(|icon| Some((icon["src"].as_str()?, icon["sizes"].as_str()?))));
        ensure!(sizes.len() == 5, "{sizes:?}");
        for (name, wanted) in sizes {
            let script = format!(
                "const icon = new Image(); icon.src = '{name}'; await icon.decode();
                 return `${{icon.naturalWidth}}x${{icon.naturalHeight}}`"
            );
            let size = page.promised(&script).await?;
            ensure!(wanted == "any" || size == wanted, "{name} is {size}, not {wanted}");
        }
        Ok(())
    });
}

/// What a browser says that cannot start the app in this site.
fn says(browser: Browser, site: &Version) -> String {
    let view = View {
        browser,
        window: Window::PORTRAIT,
        hash: "",
        light: None,
        dots: 1,
        watched: true,
        kept: false,
    };
    let opened = flow::wait_for(async {
        let page = Page::open_on(&view, Site::of(site.path().to_path_buf(), false)?).await?;
        page.quit().await?;
        Ok(())
    });
    opened.expect_err("this app cannot start").to_string()
}

fn a_browser_that_is_too_old_is_told_so() {
    for browser in Browser::wanted() {
        // Stand-ins again: no WebAssembly; a policy that refuses it, as browsers do that do not know our word for it; and no
        // modules, where a browser runs what carries "nomodule" and passes over what is of type "module".
        let without = Version::with_script("delete window.WebAssembly;").expect("a site");
        let refusing = "WebAssembly.instantiate = WebAssembly.instantiateStreaming = async () => { throw new EvalError('no'); };";
        let refusing = Version::with_script(refusing).expect("a site");
        let modules = Version::as_built().expect("a site");
        let page = modules.text("index.html").expect("a page");
        let passed_over =
            page.replace("type=\"module\"", "type=\"unknown\"").replace("<script nomodule ", "<script ");
        assert_ne!(page, passed_over);
        modules.spoil("index.html", &passed_over).expect("a page without modules");
        for (what, site) in [("WebAssembly", &without), ("its permission", &refusing), ("modules", &modules)]
        {
            let said = says(browser, site);
            assert!(said.contains(TOO_OLD), "in {browser:?} without {what}: {said}");
        }
    }
}
