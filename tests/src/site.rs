//! The built site, served as any host of plain files would, with an eye on what was asked for in vain.

use anyhow::{Context, Result, bail};
use axum::Router;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::{StatusCode, header};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use std::collections::BTreeSet;
use std::net::TcpListener;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use tokio::sync::oneshot;
use tower_http::services::ServeDir;

/// Noted in the page, where the browser does not tell its driver what was written to the console.
pub(crate) const WATCH: &str = include_str!("scripts/watch.js");
/// Where the watching script is found on this server.
const WATCH_PATH: &str = "/crookwise-watch.js";
/// Where the accessibility checker is found on this server, and where npm puts it.
pub(crate) const AXE_PATH: &str = "/crookwise-axe.js";
pub(crate) const AXE_FILE: &str = "tests/node_modules/axe-core/axe.min.js";
/// Where the site's service worker is, and one that keeps nothing.
const WORKER_PATH: &str = "/sw.js";
const KEEPS_NOTHING: &str = "// Keeps nothing.";
/// Where the stand-in is found that comes before the page's own scripts.
const STAND_IN_PATH: &str = "/crookwise-stand-in.js";

/// The folder of the built site: `CROOKWISE_SITE`, or `dist/site`.
///
/// # Errors
/// Where no site has been built.
pub fn folder() -> Result<PathBuf> {
    let folder = std::env::var_os("CROOKWISE_SITE").map_or_else(|| root().join("dist/site"), PathBuf::from);
    if !folder.join("index.html").is_file() {
        bail!("there is no site in {}: run `cargo xtask build` first", folder.display());
    }
    Ok(folder)
}

/// The root of the repository, as cargo says when it runs the tests.
pub fn root() -> PathBuf {
    let here = std::env::var_os("CARGO_MANIFEST_DIR").unwrap_or_else(|| env!("CARGO_MANIFEST_DIR").into());
    let here = PathBuf::from(here);
    here.parent().map(PathBuf::from).unwrap_or(here)
}

/// Listens where no server of this run has listened before: what a browser kept for one flow is not there for another.
fn new_address() -> Result<TcpListener> {
    static HAD: Mutex<BTreeSet<u16>> = Mutex::new(BTreeSet::new());
    loop {
        let listener = TcpListener::bind(("127.0.0.1", 0)).context("no port is free")?;
        let port = listener.local_addr()?.port();
        if HAD.lock().unwrap_or_else(PoisonError::into_inner).insert(port) {
            return Ok(listener);
        }
    }
}

/// A server of the built site on this machine, ended when this value is dropped.
#[derive(Debug)]
pub struct Site {
    port: u16,
    missing: Arc<Mutex<Vec<String>>>,
    stand_in: Arc<Mutex<String>>,
    server: Mutex<Option<Server>>,
}

#[derive(Clone)]
struct Eye {
    folder: PathBuf,
    hooked: bool,
    kept: bool,
    missing: Arc<Mutex<Vec<String>>>,
    stand_in: Arc<Mutex<String>>,
}

impl Site {
    /// Serves the site on a free port. When hooked, the page gets the watching script as its first script: for the
    /// browsers that do not tell their driver what was written to the console. Kept, its service worker does as it does for a
    /// reader; else one stands in its place that keeps nothing: for every flow alone it would fetch, add up and store all
    /// that there is.
    ///
    /// # Errors
    /// Where no site has been built or no port is free.
    pub fn serve(hooked: bool, kept: bool) -> Result<Self> {
        Self::seen_by(folder()?, hooked, kept)
    }

    /// Serves the site in this folder, as [`Site::serve`] serves the one that was built.
    ///
    /// # Errors
    /// Where no port is free.
    pub fn of(folder: PathBuf, hooked: bool) -> Result<Self> {
        Self::seen_by(folder, hooked, true)
    }

    fn seen_by(folder: PathBuf, hooked: bool, kept: bool) -> Result<Self> {
        let listener = new_address()?;
        let port = listener.local_addr()?.port();
        let (missing, stand_in) = (Arc::default(), Arc::default());
        let eye =
            Eye { folder, hooked, kept, missing: Arc::clone(&missing), stand_in: Arc::clone(&stand_in) };
        let server = Server::start(listener, eye)?;
        Ok(Self { port, missing, stand_in, server: Mutex::new(Some(server)) })
    }

    /// Ends the server with all its connections. Until [`Site::serve_again`] nobody listens at its address.
    pub fn stop(&self) {
        *self.server.lock().unwrap_or_else(PoisonError::into_inner) = None;
    }

    /// Serves the site in this folder at the same address, in the place of what was served there, not hooked.
    ///
    /// # Errors
    /// Where another program has taken the port meanwhile.
    pub fn serve_again(&self, folder: PathBuf) -> Result<()> {
        self.stop();
        let listener = TcpListener::bind(("127.0.0.1", self.port)).context("the port is taken")?;
        let (missing, stand_in) = (Arc::clone(&self.missing), Arc::clone(&self.stand_in));
        let eye = Eye { folder, hooked: false, kept: true, missing, stand_in };
        *self.server.lock().unwrap_or_else(PoisonError::into_inner) = Some(Server::start(listener, eye)?);
        Ok(())
    }

    /// Where the site is hooked, this script runs before the page's own from the next load on.
    pub(crate) fn set_stand_in(&self, script: &str) {
        script.clone_into(&mut self.stand_in.lock().unwrap_or_else(PoisonError::into_inner));
    }

    /// The page's address with this after the `#`.
    pub fn address(&self, hash: &str) -> String {
        let hash = hash.trim_start_matches('#');
        let sign = if hash.is_empty() { "" } else { "#" };
        format!("{}/{sign}{hash}", self.origin())
    }

    /// Scheme, host and port.
    pub fn origin(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// What was asked for and is not there, since this was last called.
    pub fn take_missing(&self) -> Vec<String> {
        std::mem::take(&mut self.missing.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

/// What answers on the port: a thread of its own, so that with it every open connection ends.
#[derive(Debug)]
struct Server {
    stop: Option<oneshot::Sender<()>>,
    thread: Option<JoinHandle<()>>,
}

impl Server {
    fn start(listener: TcpListener, eye: Eye) -> Result<Self> {
        listener.set_nonblocking(true)?;
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
        let (stop, stopped) = oneshot::channel();
        let thread = std::thread::spawn(move || {
            runtime.block_on(async {
                tokio::spawn(async move {
                    if let Err(problem) = answer(listener, eye).await {
                        eprintln_problem(&problem);
                    }
                });
                // Also when nobody can say so any more.
                let _ = stopped.await;
            });
        });
        Ok(Self { stop: Some(stop), thread: Some(thread) })
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        drop(self.stop.take());
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

async fn answer(listener: TcpListener, eye: Eye) -> std::io::Result<()> {
    let files = ServeDir::new(&eye.folder).precompressed_br();
    // The JavaScript package lies beside the page, for a flow that imports it.
    let package = ServeDir::new(root().join("dist/package"));
    // And what uses it, as an outside page would.
    let uses = ServeDir::new(root().join("tests/node"));
    let app = Router::new()
        .nest_service("/package", package)
        .nest_service("/uses", uses)
        .fallback_service(files)
        .layer(middleware::from_fn_with_state(eye, look));
    axum::serve(tokio::net::TcpListener::from_std(listener)?, app).await
}

#[allow(clippy::print_stderr, reason = "a server that died can say so nowhere else")]
fn eprintln_problem(problem: &std::io::Error) {
    eprintln!("the site's server stopped: {problem}");
}

async fn look(State(eye): State<Eye>, request: Request, next: Next) -> Response {
    let path = request.uri().path().to_owned();
    if eye.hooked && path == WATCH_PATH {
        return ([(header::CONTENT_TYPE, "text/javascript")], WATCH).into_response();
    }
    if eye.hooked && path == STAND_IN_PATH {
        let script = eye.stand_in.lock().unwrap_or_else(PoisonError::into_inner).clone();
        let headers = [(header::CONTENT_TYPE, "text/javascript"), (header::CACHE_CONTROL, "no-store")];
        return (headers, script).into_response();
    }
    if path == AXE_PATH {
        let script = std::fs::read(root().join(AXE_FILE)).unwrap_or_default();
        return ([(header::CONTENT_TYPE, "text/javascript")], script).into_response();
    }
    if !eye.kept && path == WORKER_PATH {
        return ([(header::CONTENT_TYPE, "text/javascript")], KEEPS_NOTHING).into_response();
    }
    if eye.hooked && (path == "/" || path == "/index.html") {
        return hooked_page(&eye);
    }
    let response = next.run(request).await;
    if response.status().is_client_error() || response.status().is_server_error() {
        eye.missing.lock().unwrap_or_else(PoisonError::into_inner).push(path);
    }
    response
}

fn hooked_page(eye: &Eye) -> Response {
    match std::fs::read_to_string(eye.folder.join("index.html")) {
        Ok(page) => {
            let scripts =
                [WATCH_PATH, STAND_IN_PATH].map(|path| format!("<script src=\"{path}\"></script>")).concat();
            let page = page.replacen("<head>", &format!("<head>{scripts}"), 1);
            ([(header::CONTENT_TYPE, "text/html")], Body::from(page)).into_response()
        }
        Err(problem) => (StatusCode::NOT_FOUND, problem.to_string()).into_response(),
    }
}
