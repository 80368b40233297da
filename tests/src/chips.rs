//! The line of what holds: its choices, and the small list that each opens.

use crate::page::Page;
use crate::wait;
use anyhow::{Result, bail, ensure};
use serde_json::json;
use thirtyfour::WebElement;

impl Page {
    /// Opens the small list of a choice in the line of what holds, by the words its chip begins with.
    ///
    /// # Errors
    /// When there is no such choice.
    pub async fn open_list(&self, chip: &str) -> Result<()> {
        let button = self.chip(chip).await?;
        if button.attr("aria-expanded").await?.as_deref() != Some("true") {
            self.press_on(&button).await?;
        }
        self.list_is_open(chip, true).await
    }

    /// Shuts it again by Escape.
    ///
    /// # Errors
    /// When it stays open.
    pub async fn shut_list(&self, chip: &str) -> Result<()> {
        self.press("Escape").await?;
        self.list_is_open(chip, false).await
    }

    /// Waits until the small list of a choice is open, or shut.
    ///
    /// # Errors
    /// When it does not become so.
    pub async fn list_is_open(&self, chip: &str, open: bool) -> Result<()> {
        let wanted = open.to_string();
        wait::until(&format!("the list of \"{chip}\": open {wanted}"), async || {
            let expanded = self.chip(chip).await?.attr("aria-expanded").await?;
            Ok((expanded.as_deref() == Some(&wanted)).then_some(()))
        })
        .await
    }

    /// The chip of a choice.
    async fn chip(&self, chip: &str) -> Result<WebElement> {
        wait::until(&format!("a chip \"{chip}\""), async || {
            let line = self.find_all("group", "What holds").await?;
            let script = "const [chip, ...lines] = arguments;
                return lines.flatMap((line) => [...line.querySelectorAll(':scope > button')])
                .find((button) => button.textContent.startsWith(chip)) ?? null";
            // Each line by itself: WebKit's driver knows no elements within a list.
            let mut given = vec![json!(format!("{chip} "))];
            for line in &line {
                given.push(line.to_json()?);
            }
            let found = self.driver().execute(script, given).await?;
            Ok(if found.json().is_null() { None } else { Some(found.element()?) })
        })
        .await
    }

    /// Opens the small list of a choice and takes a value in one of its settings. The tap that takes it shuts the list.
    ///
    /// # Errors
    /// When there is no such choice or value.
    pub async fn choose_in(&self, chip: &str, list: &str, words: &str) -> Result<()> {
        self.open_list(chip).await?;
        let group = self.find("radiogroup", list).await?;
        let script = "const [group, words] = arguments;
            return [...group.querySelectorAll('label')].find((label) => label.textContent === words) ?? null";
        let option = self.driver().execute(script, vec![group.to_json()?, json!(words)]).await?;
        if option.json().is_null() {
            bail!("\"{list}\" does not offer \"{words}\"");
        }
        let option = option.element()?;
        self.press_on(&option).await?;
        self.list_is_open(chip, false).await
    }

    /// What a setting in the small list of a choice says.
    ///
    /// # Errors
    /// When there is no such choice or setting.
    pub async fn value_in(&self, chip: &str, role: &str, name: &str) -> Result<String> {
        self.open_list(chip).await?;
        let value = self.value(role, name).await?;
        self.shut_list(chip).await?;
        Ok(value)
    }

    /// The same by the keyboard alone: Enter, the tabulator key, arrows until it is chosen, Escape.
    ///
    /// # Errors
    /// When the list does not open, or never says so.
    pub async fn choose_by_keys_in(&self, chip: &str, list: &str, words: &str) -> Result<()> {
        self.open_list_by_keys(chip).await?;
        let group = self.find("radiogroup", list).await?;
        let script = "return arguments[0].querySelector(':checked')";
        let checked = self.driver().execute(script, vec![group.to_json()?]).await?.element()?;
        self.tab_to_element(&checked).await?;
        for _ in 0..40 {
            if self.value("radiogroup", list).await? == words {
                break;
            }
            self.press("ArrowDown").await?;
        }
        ensure!(self.value("radiogroup", list).await? == words, "the arrows never come to \"{words}\"");
        self.shut_list(chip).await?;
        self.focus_is_on("button", chip).await
    }

    /// Opens the small list of a choice by the keyboard alone.
    ///
    /// # Errors
    /// When it does not open.
    pub async fn open_list_by_keys(&self, chip: &str) -> Result<()> {
        let button = self.chip(chip).await?;
        self.tab_to_element(&button).await?;
        self.press("Enter").await?;
        self.list_is_open(chip, true).await
    }

    /// A finger where there are some, else the mouse.
    async fn press_on(&self, element: &WebElement) -> Result<()> {
        let middle = self.extent(element).await?.middle();
        if self.window().touch { self.tap_at(middle).await } else { self.click_at(middle).await }
    }
}
