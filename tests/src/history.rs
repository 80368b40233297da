//! Steps in the browser's history.

use crate::page::Page;
use anyhow::{Context, Result};

impl Page {
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
}
