//! The keyboard alone: the way to something by the tabulator key, and a focus that is seen and never lost on it.

use crate::find::Name;
use crate::page::Page;
use crate::wait;
use anyhow::{Context, Result, bail, ensure};
use serde_json::{Value, json};
use thirtyfour::WebElement;

const WATCH: &str = include_str!("scripts/focus.js");
const TABS: &str = include_str!("scripts/tabs.js");

impl Page {
    /// Begins to watch the keyboard's focus; see [`Page::focus_was_seen`]. A page that is loaded anew is watched anew.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn watch_focus(&self) -> Result<()> {
        self.eval(WATCH, vec![]).await.map(drop)
    }

    /// Fails if the focus was lost to the page as a whole, was not outlined or stood outside the window at any time
    /// since it was watched. In a window that is not in front, as WebKitGTK's, only its loss is noticed.
    ///
    /// # Errors
    /// With everything that was wrong; also where nothing was watched.
    pub async fn focus_was_seen(&self) -> Result<()> {
        self.settled().await?;
        let found = self.eval(WATCH, vec![]).await?;
        ensure!(found["looked"].as_u64().unwrap_or(0) > 0, "no focus was watched");
        let faults: Vec<&str> =
            found["faults"].as_array().into_iter().flatten().filter_map(Value::as_str).collect();
        ensure!(faults.is_empty(), "the focus was {}", faults.join("\n  and "));
        Ok(())
    }

    /// Goes to the one thing of this role and name by the tabulator key, forwards or backwards; in
    /// a toolbar, which is one stop, on by arrows.
    ///
    /// # Errors
    /// When it does not come, or the key leads elsewhere.
    pub async fn tab_to(&self, role: &str, name: impl Into<Name>) -> Result<()> {
        let name = name.into();
        let element = self.find(role, name.clone()).await?;
        self.tab_to_element(&element).await.with_context(|| format!("on the way to {role} {name}"))
    }

    /// The same for something that was found before.
    ///
    /// # Errors
    /// As [`Page::tab_to`].
    pub async fn tab_to_element(&self, element: &WebElement) -> Result<()> {
        self.at_rest().await?;
        let steps = self.eval(TABS, vec![element.to_json()?]).await?;
        let arrows = steps[1].as_i64().unwrap_or_default();
        let steps = steps[0].as_i64().context("the tabulator key does not stop there")?;
        let tab = if steps < 0 { "Shift+Tab" } else { "Tab" };
        for _ in 0..steps.unsigned_abs() {
            self.press(tab).await?;
        }
        let arrow = if arrows < 0 { "ArrowLeft" } else { "ArrowRight" };
        for _ in 0..arrows.unsigned_abs() {
            self.press(arrow).await?;
        }
        let script = "const [at] = arguments; return document.activeElement === at || document.activeElement.outerHTML";
        let answer = self.eval(script, vec![element.to_json()?]).await?;
        if answer != json!(true) {
            bail!("{steps} presses of the tabulator key lead to {answer}");
        }
        Ok(())
    }

    /// Presses a key on the one thing of this role and name, after going there by the tabulator key.
    ///
    /// # Errors
    /// As [`Page::tab_to`].
    pub async fn key_on(&self, key: &str, role: &str, name: impl Into<Name>) -> Result<()> {
        self.tab_to(role, name).await?;
        self.press(key).await
    }

    /// Chooses what a list offers under these words, by typing their first one into the list.
    ///
    /// # Errors
    /// When the list does not come, or something else is then chosen.
    pub async fn choose_by_keys(&self, list: &str, words: &str) -> Result<()> {
        self.tab_to("combobox", list).await?;
        self.write(words.split(' ').next().unwrap_or_default()).await?;
        self.value_is("combobox", list, words).await
    }

    /// Waits until the focus is on something of this role whose name begins so. WebKit calls a list a button.
    ///
    /// # Errors
    /// When it is elsewhere.
    pub async fn focus_is_on(&self, role: &str, name: &str) -> Result<()> {
        let seen = wait::until(name, async || {
            Ok(self.focused().await?.filter(|at| at.0 == role && at.1.starts_with(name)).map(|_| ()))
        })
        .await;
        if seen.is_err() {
            bail!("the focus should be on {role} \"{name}\", but is on {:?}", self.focused().await?);
        }
        Ok(())
    }
}
