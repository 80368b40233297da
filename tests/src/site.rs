//! The built site, served as any host of plain files would, with an eye on what was asked for in vain.

use anyhow::{Context, Result, bail};
use axum::Router;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::{StatusCode, header};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};
use tower_http::services::ServeDir;

const WATCH: &str = include_str!("scripts/watch.js");
/// Where the watching script is found on this server.
const WATCH_PATH: &str = "/crookwise-watch.js";

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

/// A server of the built site on this machine, ended when this value is dropped.
#[derive(Debug)]
pub struct Site {
    port: u16,
    missing: Arc<Mutex<Vec<String>>>,
    task: tokio::task::JoinHandle<()>,
}

#[derive(Clone)]
struct Eye {
    folder: PathBuf,
    hooked: bool,
    missing: Arc<Mutex<Vec<String>>>,
}

impl Site {
    /// Serves the site on a free port. When hooked, the page gets the watching script as its first script: for the
    /// browsers that do not tell their driver what was written to the console.
    ///
    /// # Errors
    /// Where no site has been built or no port is free.
    pub async fn serve(hooked: bool) -> Result<Self> {
        let missing = Arc::default();
        let eye = Eye { folder: folder()?, hooked, missing: Arc::clone(&missing) };
        let files = ServeDir::new(&eye.folder).precompressed_br();
        // The JavaScript package lies beside the page, for a flow that imports it.
        let package = ServeDir::new(root().join("dist/package"));
        let app = Router::new()
            .nest_service("/package", package)
            .fallback_service(files)
            .layer(middleware::from_fn_with_state(eye, look));
        let listener = tokio::net::TcpListener::bind(("127.0.0.1", 0)).await.context("no port is free")?;
        let port = listener.local_addr()?.port();
        let task = tokio::spawn(async move {
            if let Err(problem) = axum::serve(listener, app).await {
                eprintln_problem(&problem);
            }
        });
        Ok(Self { port, missing, task })
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

impl Drop for Site {
    fn drop(&mut self) {
        self.task.abort();
    }
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
            let page = page.replacen("<head>", &format!("<head><script src=\"{WATCH_PATH}\"></script>"), 1);
            ([(header::CONTENT_TYPE, "text/html")], Body::from(page)).into_response()
        }
        Err(problem) => (StatusCode::NOT_FOUND, problem.to_string()).into_response(),
    }
}
