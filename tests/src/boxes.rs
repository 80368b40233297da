//! How the page is laid out: nothing out of the window, cut off, over something else, too small or too faint.

use crate::page::Page;
use anyhow::{Result, bail};
use serde_json::{Value, json};

const BOXES: &str = include_str!("scripts/boxes.js");
/// The least contrast of text (WCAG 2.2, 1.4.3).
const TEXT: f64 = 4.5;
/// The least contrast of notes, staff lines and the edges of fields (WCAG 2.2, 1.4.11).
const INK: f64 = 3.0;

impl Page {
    /// Fails with everything that is laid out wrongly now. Text is at least 14 px high with a contrast of 4.5, controls
    /// are at least 44 px high, nothing scrolls sideways.
    ///
    /// # Errors
    /// With each thing, where it is and what is wrong with it.
    pub async fn well_laid_out(&self) -> Result<()> {
        self.settled().await?;
        let found = self.eval(BOXES, vec![json!(TEXT), json!(INK)]).await?;
        let found: Vec<&str> = found.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
        if !found.is_empty() {
            let shown: Vec<&str> = found.iter().copied().take(40).collect();
            bail!(
                "{} things are laid out wrongly at {}:\n  {}",
                found.len(),
                self.window,
                shown.join("\n  ")
            );
        }
        Ok(())
    }
}
