//! Pictures of the built site in Chromium: `shots FOLDER` takes those of the README, `shots FOLDER HASH [NAME ...]` those
//! of a page at every size, light and dark, or of the sizes named ("1180x820-dark" and so on).

use anyhow::{Context, Result};
use crookwise_tests::browser::Browser;
use crookwise_tests::flow;
use crookwise_tests::page::{Page, View};
use crookwise_tests::window::{Light, Window};
use std::path::{Path, PathBuf};

/// A picture.
struct Picture {
    name: &'static str,
    window: Window,
    light: Light,
    hash: &'static str,
    /// The buttons that are pressed before, by their names.
    presses: &'static [&'static str],
}

/// Four horns in two crooks over a bass: our own chords.
const FOUR_HORNS: &str = "/read?staff=Corni+I,+II+in+G&players=2&notes=C5.D5.C5.D5.G4&notes2=G4.G4.G4.-.-&staff=Corni+III,+IV+in+B+alto&players=2&notes=C5.E5.C5.D5.E5&notes2=E4.E4.E4.G4.G4&staff=Bassi&notes=G2.Fs2.G2.A2.Bb2&key=G+minor&at=2";

/// The pictures of the README.
const README: [Picture; 9] = [
    Picture { name: "tablet", window: Window::LANDSCAPE, light: Light::Light, hash: "", presses: &[] },
    Picture { name: "tablet-dark", window: Window::LANDSCAPE, light: Light::Dark, hash: "", presses: &[] },
    Picture { name: "telephone", window: Window::PHONE, light: Light::Light, hash: "", presses: &[] },
    Picture {
        name: "several",
        window: Window::LANDSCAPE,
        light: Light::Light,
        hash: FOUR_HORNS,
        presses: &[],
    },
    Picture {
        name: "wall",
        window: Window::DESK,
        light: Light::Light,
        hash: FOUR_HORNS,
        presses: &["On the wall", "Partials", "Chord"],
    },
    Picture {
        name: "movement",
        window: Window::LANDSCAPE,
        light: Light::Light,
        hash: "/score?demo=1",
        presses: &["As written", "Together", "Next entry"],
    },
    Picture { name: "crooks", window: Window::LANDSCAPE, light: Light::Light, hash: "/crooks", presses: &[] },
    Picture {
        name: "crook-table",
        window: Window::DESK,
        light: Light::Light,
        hash: "/crooks",
        presses: &["What crooks give of a key", "On the wall"],
    },
    Picture {
        name: "worksheet",
        window: Window::LANDSCAPE,
        light: Light::Light,
        hash: "/practise",
        presses: &["Set an exercise", "On paper"],
    },
];

fn main() -> Result<()> {
    let mut words = std::env::args_os().skip(1);
    let folder = PathBuf::from(words.next().context("say into which folder: shots FOLDER [HASH]")?);
    let hash = words.next().map(|word| word.to_string_lossy().into_owned());
    let wanted: Vec<String> = words.map(|word| word.to_string_lossy().into_owned()).collect();
    flow::wait_for(async {
        let Some(hash) = hash.filter(|hash| !hash.is_empty()) else {
            for picture in &README {
                take(&folder, picture.name, picture.hash, (picture.window, picture.light), picture.presses)
                    .await?;
            }
            return Ok(());
        };
        for window in Window::ALL {
            for light in [Light::Light, Light::Dark] {
                let name = format!("{window}-{}", light.name());
                if wanted.is_empty() || wanted.contains(&name) {
                    take(&folder, &name, &hash, (window, light), &[]).await?;
                }
            }
        }
        Ok(())
    })
}

#[allow(clippy::print_stdout, reason = "a command-line tool says what it wrote")]
async fn take(
    folder: &Path,
    name: &str,
    hash: &str,
    (window, light): (Window, Light),
    presses: &[&str],
) -> Result<()> {
    let file = folder.join(format!("{name}.png"));
    let view = View {
        browser: Browser::Chromium,
        window,
        hash,
        light: Some(light),
        dots: 1,
        watched: true,
        kept: false,
    };
    let page = Page::open(&view).await?;
    let outcome = async {
        page.settled().await?;
        for button in presses {
            page.click("button", *button).await?;
            page.settled().await?;
        }
        page.screenshot(&file).await?;
        page.is_quiet().await
    }
    .await;
    page.quit().await?;
    outcome?;
    println!("{}", file.display());
    Ok(())
}
