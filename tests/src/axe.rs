//! The accessibility checker axe-core, put into the page.

use crate::page::Page;
use crate::site::{self, AXE_FILE, AXE_PATH};
use anyhow::{Result, bail, ensure};
use serde_json::{Value, json};

impl Page {
    /// Fails if axe-core finds anything at all, with all that it found. Its contrast rule asks for 4.5 to 1. Where a dialog
    /// stands over the page the dialog is looked at: what is beneath nobody reaches then, and it is looked at without it.
    ///
    /// # Errors
    /// With each violation: the rule, why, and where. Also where axe-core is not installed.
    pub async fn axe(&self) -> Result<()> {
        self.axe_with("{ resultTypes: ['violations'] }").await
    }

    /// As [`Page::axe`], by the rules that ask for colours alone: for a page that has been looked at in the other light.
    /// Only the values of colours are other there (`web/style/10_ground.css`).
    ///
    /// # Errors
    /// As [`Page::axe`].
    pub async fn axe_of_colours(&self) -> Result<()> {
        self.axe_with("{ resultTypes: ['violations'], runOnly: ['color-contrast', 'link-in-text-block'] }")
            .await
    }

    async fn axe_with(&self, options: &str) -> Result<()> {
        self.start_axe().await?;
        let run = format!(
            "const done = arguments[arguments.length - 1];
            axe.run(document.querySelector('dialog:modal') ?? document, {options}).then(
                (found) => done({{ rules: found.passes.length + found.violations.length, violations: found.violations }}),
                (problem) => done({{ problem: String(problem) }}));"
        );
        let answer = self.driver().execute_async(run, vec![]).await?.json().clone();
        if let Some(problem) = answer["problem"].as_str() {
            bail!("axe-core failed: {problem}");
        }
        // A checker that looked at nothing finds nothing.
        if answer["rules"].as_u64().unwrap_or(0) == 0 {
            bail!("axe-core checked no rule");
        }
        let violations: Vec<String> =
            answer["violations"].as_array().into_iter().flatten().map(in_words).collect();
        if !violations.is_empty() {
            bail!(
                "axe-core found {} violations at {}:\n{}",
                violations.len(),
                self.window,
                violations.join("\n")
            );
        }
        Ok(())
    }

    /// Puts the checker into the page, which fetches it from where the site is: through the driver it took as long as its
    /// whole work.
    async fn start_axe(&self) -> Result<()> {
        if !site::root().join(AXE_FILE).is_file() {
            bail!("axe-core is not installed: run `npm ci` in tests/ (`cargo xtask test` does)");
        }
        let started = self
            .promised(&format!(
                "if (typeof window.axe === 'object') return true;
                const script = document.createElement('script');
                script.src = '{AXE_PATH}';
                const there = new Promise((done) => {{ script.onload = script.onerror = done; }});
                document.head.append(script);
                await there;
                script.remove();
                return typeof window.axe === 'object';"
            ))
            .await?;
        ensure!(started == json!(true), "axe-core did not start");
        Ok(())
    }
}

fn in_words(violation: &Value) -> String {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let mut words = format!(
        "- {} ({}): {}; see {}",
        text(&violation["id"]),
        text(&violation["impact"]),
        text(&violation["help"]),
        text(&violation["helpUrl"])
    );
    for node in violation["nodes"].as_array().into_iter().flatten() {
        words.push_str("\n    ");
        words.push_str(&text(&node["html"]));
        words.push_str("\n      at ");
        words.push_str(&node["target"].to_string());
        words.push_str("\n      ");
        words.push_str(&text(&node["failureSummary"]).replace('\n', "\n      "));
    }
    words
}
