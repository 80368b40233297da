//! A server on this machine only, which rebuilds the site and reloads the page when a file changes.

use crate::options::Options;
use crate::{shell, site, stamp};
use anyhow::{Context, Result, bail};
use axum::extract::{RawQuery, State};
use axum::http::{HeaderName, HeaderValue, header};
use axum::{Router, routing};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant, SystemTime};
use tokio::net::TcpListener;
use tokio::sync::watch;
use tower_http::services::ServeDir;
use tower_http::set_header::SetResponseHeaderLayer;

/// The port that is tried first where none is named.
const PORT: u16 = 8080;
/// How often the files are looked at.
const GLANCE: Duration = Duration::from_millis(400);
/// How long a page waits for news before it asks again.
const PATIENCE: Duration = Duration::from_secs(30);
/// What is watched.
const WATCHED: &[&str] = &["index.html", "Cargo.toml", "Cargo.lock", "web", "crates"];

/// Builds, serves and watches, until the program is ended.
pub fn serve(options: &Options) -> Result<()> {
    let build: fn() -> Result<PathBuf> = if options.release { site::build_release } else { site::build_dev };
    // The state of the files before the build, so that what is saved during it is built too.
    let seen = newest();
    let folder = build()?;
    let (tell, news) = watch::channel(0_u64);
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
    std::thread::spawn(move || keep_built(build, seen, &tell));
    runtime.block_on(answer(&folder, options.port, news))
}

async fn answer(folder: &Path, port: Option<u16>, news: watch::Receiver<u64>) -> Result<()> {
    let listener = listen(port).await?;
    println!("\nCrookwise is at http://{}/ (end with Ctrl+C)", listener.local_addr()?);
    let fresh: (HeaderName, HeaderValue) = (header::CACHE_CONTROL, HeaderValue::from_static("no-cache"));
    let app = Router::new()
        .route("/xtask/build", routing::get(wait_for_news))
        .with_state(news)
        .fallback_service(ServeDir::new(folder).precompressed_br())
        .layer(SetResponseHeaderLayer::overriding(fresh.0, fresh.1));
    axum::serve(listener, app).await.context("the server stopped")
}

async fn listen(port: Option<u16>) -> Result<TcpListener> {
    match (TcpListener::bind(("127.0.0.1", port.unwrap_or(PORT))).await, port) {
        (Ok(listener), _) => Ok(listener),
        (Err(problem), Some(port)) => bail!("port {port} cannot be used: {problem}"),
        (Err(_), None) => TcpListener::bind(("127.0.0.1", 0)).await.context("no port is free"),
    }
}

/// Answers with the number of the newest build: at once if the page knows another, else when there is a newer one.
async fn wait_for_news(State(news): State<watch::Receiver<u64>>, RawQuery(query): RawQuery) -> String {
    let mut news = news;
    let known = query.as_deref().and_then(|text| text.strip_prefix("seen=")?.parse::<u64>().ok());
    if let Some(known) = known {
        // Either way the page is told the number; it asks again.
        let _ = tokio::time::timeout(PATIENCE, news.wait_for(|build| *build != known)).await;
    }
    news.borrow().to_string()
}

fn newest() -> Option<(SystemTime, usize)> {
    let files = stamp::files(WATCHED);
    let times = files.iter().filter_map(|file| file.metadata().ok()?.modified().ok());
    times.max().map(|time| (time, files.len()))
}

fn keep_built(build: fn() -> Result<PathBuf>, seen: Option<(SystemTime, usize)>, tell: &watch::Sender<u64>) {
    let mut seen = seen;
    loop {
        std::thread::sleep(GLANCE);
        let now = newest();
        if now == seen {
            continue;
        }
        seen = now;
        let start = Instant::now();
        shell::heading("A file changed: build again");
        match build() {
            Ok(_) => {
                println!("built in {:.1} s", start.elapsed().as_secs_f64());
                tell.send_modify(|build| *build += 1);
            }
            Err(problem) => eprintln!("{problem:#}\nThe page stays as it was."),
        }
    }
}
