//! The JavaScript package in browsers, as a page would load it.

use anyhow::{Result, ensure};
use crookwise_tests::flow::{self, Flow, Setup};
use crookwise_tests::wait;
use crookwise_tests::window::Window;
use serde_json::{Value, json};

/// The flows of this file.
pub const FLOWS: &[Flow] =
    &crookwise_tests::flows![the_package_reads_and_writes_in_a_browser, nothing_is_needed_beside_it];

fn the_package_reads_and_writes_in_a_browser() {
    flow::in_every_browser(&Setup::new(Window::LANDSCAPE), async |page| {
        // In the app's own page, so under its strict policy too.
        let load = "document.title = 'Crookwise';
            document.body.innerHTML = '<output id=\"result\"></output>';
            import('/uses/browser_use.mjs?package=/package/browser.js').catch((problem) => { document.title = String(problem); });";
        page.eval(load, vec![]).await?;
        let title = wait::until("the package's answers", async || {
            let title = page.eval("return document.title", vec![]).await?;
            Ok((title != json!("Crookwise")).then_some(title))
        })
        .await?;
        let text = page.eval("return document.getElementById('result').textContent", vec![]).await?;
        ensure!(title == json!("done"), "{title}: {text}");
        let answer: Value = serde_json::from_str(text.as_str().unwrap_or_default())?;
        let staff = &answer["staff"];
        let transposition = json!({ "diatonic": -5, "chromatic": -9, "octaveChange": 0 });
        ensure!(staff["instrument"] == "horn" && staff["key"] == "Eb", "{staff}");
        ensure!(staff["transposition"] == transposition && staff["mechanism"] == "natural", "{staff}");
        let reading = &answer["reading"];
        ensure!(
            reading["sounding"] == "G4" && reading["partial"] == 10 && reading["production"] == "open",
            "{reading}"
        );
        let drift = reading["driftCents"].as_f64().unwrap_or_default();
        ensure!((drift + 13.686).abs() < 0.01, "drift {drift}");
        ensure!(reading["degree"]["movement"] == "3" && reading["inHand"]["written"] == "D5", "{reading}");
        let writing = &answer["writing"];
        ensure!(writing["printed"] == "D#5" && writing["alsoPrinted"] == "Eb5", "{writing}");
        ensure!(answer["code"].is_string() && answer["code"] != "no Error", "{answer}");
        Ok(())
    });
}

fn nothing_is_needed_beside_it() {
    is_whole().unwrap_or_else(|problem| panic!("{problem:#}"));
}

fn is_whole() -> Result<()> {
    // Every file that the package's entries name lies in its folder.
    let folder = crookwise_tests::site::root().join("dist/package");
    let manifest: Value = serde_json::from_str(&std::fs::read_to_string(folder.join("package.json"))?)?;
    ensure!(manifest.get("dependencies").is_none(), "{manifest}");
    for name in ["browser.js", "node.js", "glue.js", "crookwise.wasm", "crookwise.d.ts"] {
        ensure!(folder.join(name).is_file(), "{name} is missing: run `cargo xtask package`");
    }
    Ok(())
}
