//! The address behind `#`, steps in the browser's history, and loading the page anew.

use crate::browser::Browser;
use crate::page::Page;
use crate::wait;
use anyhow::{Context, Result, ensure};
use serde_json::json;

/// Empties what is kept at once, and every drawer of the database where there is one.
const FORGET: &str = include_str!("scripts/forget.js");

impl Page {
    /// Waits until the part of the address from `#` on holds this.
    ///
    /// # Errors
    /// When it does not come; the sentence holds what stands there instead.
    pub async fn hash_has(&self, part: &str) -> Result<()> {
        let seen = wait::until(part, async || Ok(self.hash().await?.contains(part).then_some(()))).await;
        ensure!(seen.is_ok(), "the address should hold {part:?}, but is {:?}", self.hash().await?);
        Ok(())
    }

    /// What stands in the address from `#` on, or nothing.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn hash(&self) -> Result<String> {
        Ok(self.eval("return location.hash", vec![]).await?.as_str().unwrap_or_default().to_owned())
    }

    /// Puts this after the `#` of the address, as a reader does who edits it.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn set_hash(&self, hash: &str) -> Result<()> {
        self.eval("location.hash = arguments[0]", vec![json!(hash)]).await?;
        Ok(())
    }

    /// Goes a step back in the browser's history.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn back(&self) -> Result<()> {
        self.driver().back().await.context("no step back")
    }

    /// Goes a step forward again.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn forward(&self) -> Result<()> {
        self.driver().forward().await.context("no step forward")
    }

    /// How many steps the browser's history has.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn steps(&self) -> Result<u64> {
        Ok(self.eval("return history.length", vec![]).await?.as_u64().unwrap_or_default())
    }

    /// Loads the page anew with this after the `#` of its address, as a reader does who comes for the first time: what
    /// the browser kept of earlier visits is gone.
    ///
    /// # Errors
    /// Where the app does not start again.
    pub async fn visit(&self, hash: &str) -> Result<()> {
        self.forget().await?;
        self.come_back(hash).await
    }

    /// Takes everything away that the browser has kept of this site, but for the app itself. The database is emptied and
    /// not deleted: WebKit waits for ever where a page was left while it made the database.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn forget(&self) -> Result<()> {
        self.promised(FORGET).await.map(drop)
    }

    /// Loads the page anew with this after the `#` of its address; what the browser kept is still there.
    ///
    /// # Errors
    /// Where the app does not start again.
    pub async fn come_back(&self, hash: &str) -> Result<()> {
        self.note_before_leaving().await?;
        // By way of an empty page: to another `#` of the same address a browser goes without loading anything.
        self.driver().goto("about:blank").await.context("the page could not be left")?;
        self.driver().goto(self.site.address(hash)).await.context("the page did not load")?;
        self.started().await
    }

    /// Loads the page anew at its present address.
    ///
    /// # Errors
    /// Where the app does not start again.
    pub async fn reload(&self) -> Result<()> {
        self.note_before_leaving().await?;
        if self.browser == Browser::Firefox {
            return self.reload_as_readers_do().await;
        }
        self.driver().refresh().await.context("the page did not load again")?;
        self.started().await
    }

    /// Firefox's driver goes around the service worker, which no reader does who reloads.
    async fn reload_as_readers_do(&self) -> Result<()> {
        self.eval("window.crookwiseLeaves = true; setTimeout(() => location.reload())", vec![]).await?;
        wait::until("the page to load again", async || {
            // While a page goes, the driver has none to ask.
            let gone = self.eval("return !window.crookwiseLeaves", vec![]).await.unwrap_or_default();
            Ok((gone == json!(true)).then_some(()))
        })
        .await?;
        self.started().await
    }
}
