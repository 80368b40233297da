//! Pictures of the built site in Chromium, at every size, light and dark: `shots FOLDER [HASH [NAME ...]]`.
//! Named "1180x820-dark" and so on; where names are given, only those are taken.

use anyhow::{Context, Result};
use crookwise_tests::browser::Browser;
use crookwise_tests::flow;
use crookwise_tests::page::{Page, View};
use crookwise_tests::window::{Light, Window};
use std::path::{Path, PathBuf};

fn main() -> Result<()> {
    let mut words = std::env::args_os().skip(1);
    let folder = PathBuf::from(words.next().context("say into which folder: shots FOLDER [HASH]")?);
    let hash = words.next().map(|word| word.to_string_lossy().into_owned()).unwrap_or_default();
    let wanted: Vec<String> = words.map(|word| word.to_string_lossy().into_owned()).collect();
    flow::wait_for(async {
        for window in Window::ALL {
            for light in [Light::Light, Light::Dark] {
                let name = format!("{window}-{}", light.name());
                if wanted.is_empty() || wanted.contains(&name) {
                    take(&folder.join(format!("{name}.png")), &hash, window, light).await?;
                }
            }
        }
        Ok(())
    })
}

#[allow(clippy::print_stdout, reason = "a command-line tool says what it wrote")]
async fn take(file: &Path, hash: &str, window: Window, light: Light) -> Result<()> {
    let view = View { browser: Browser::Chromium, window, hash, light: Some(light), dots: 1, watched: true };
    let page = Page::open(&view).await?;
    let outcome = async {
        page.settled().await?;
        page.screenshot(file).await?;
        page.is_quiet().await
    }
    .await;
    page.quit().await?;
    outcome?;
    println!("{}", file.display());
    Ok(())
}
