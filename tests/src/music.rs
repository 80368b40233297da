//! The music of a movement: where its notes stand.

use crate::input::Place;
use crate::page::Page;
use crate::wait;
use anyhow::Result;
use serde_json::{Value, json};

const HEADS: &str = include_str!("scripts/heads.js");

impl Page {
    /// Where the heads of notes stand, as far as they are drawn, in the order in which they are.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn heads(&self) -> Result<Vec<Place>> {
        self.heads_with(false).await
    }

    /// Waits for the first head of a note and brings it into the window.
    ///
    /// # Errors
    /// When none comes.
    pub async fn first_head(&self) -> Result<Place> {
        wait::until("the head of a note", async || Ok(self.heads_with(true).await?.first().copied())).await
    }

    async fn heads_with(&self, brought: bool) -> Result<Vec<Place>> {
        let all = self.eval(HEADS, vec![json!(brought)]).await?;
        let place = |head: &Value| Some(Place { x: head[0].as_f64()?, y: head[1].as_f64()? });
        Ok(all.as_array().into_iter().flatten().filter_map(place).collect())
    }
}
