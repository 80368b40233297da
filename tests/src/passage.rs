//! A page of several staves: its players with their notes, and where each staff stands on the screen.

use crate::page::Page;
use crate::staff::StaffColumn;
use crate::wait;
use anyhow::{Context, Result, bail};
use serde_json::{Value, json};

const PLAYERS: &str = include_str!("scripts/players.js");

/// A page of eight staves and ten players in two columns, its first one selected.
pub const EIGHT: &str = "/read?staff=Oboi&notes=Bb5._&staff=Clarinetti+in+B&notes=F5.E5&staff=Fagotti&notes=Eb3.Bb2\
    &staff=Corni+in+Es&players=2&notes=E5.D5&notes2=C5.G4&staff=Trombe+in+Es&players=2&notes=G4.G4&notes2=G4.G4\
    &staff=Timpani+in+Es,+B&notes=C3.G2&staff=Violino+I&notes=G4.F4&staff=Violoncello+e+Basso&notes=Eb3.Bb2\
    &key=Eb+major&at=1";

/// A player by name, and what their notes are called aloud.
pub type Player = (String, Vec<String>);

impl Page {
    /// Every player of the page from the top down, with their notes from left to right.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn players(&self) -> Result<Vec<Player>> {
        let found = self.eval(PLAYERS, vec![]).await?;
        let word = |value: &Value| value.as_str().unwrap_or_default().to_owned();
        let player = |found: &Value| {
            let notes = found[1].as_array().into_iter().flatten().map(word).collect();
            (word(&found[0]), notes)
        };
        Ok(found.as_array().into_iter().flatten().map(player).collect())
    }

    /// Waits until the players are these, and the notes of each begin with these words each.
    ///
    /// # Errors
    /// When they do not; with what they are instead.
    pub async fn players_are(&self, wanted: &[(&str, &[&str])]) -> Result<()> {
        let seen = wait::until("the players", async || {
            let players = self.players().await?;
            let alike = players.len() == wanted.len()
                && players.iter().zip(wanted).all(|((name, notes), (called, begin))| {
                    name == called
                        && notes.len() == begin.len()
                        && notes.iter().zip(*begin).all(|(note, begin)| note.starts_with(begin))
                });
            Ok(alike.then_some(()))
        })
        .await;
        if seen.is_err() {
            bail!("the players should be {wanted:#?}, but are {:#?}", self.players().await?);
        }
        Ok(())
    }

    /// The column of a staff by its label, counted from 0.
    ///
    /// # Errors
    /// When there is no such staff or column.
    pub async fn column_of(&self, label: &str, column: usize) -> Result<StaffColumn> {
        self.column_at(vec![json!(column), json!(label)])
            .await
            .with_context(|| format!("the staff of {label}"))
    }

    /// What the column makes together, all that is said of it.
    ///
    /// # Errors
    /// When nothing is said.
    pub async fn together(&self) -> Result<String> {
        let panel = self.find("region", "The column together").await?;
        let text = self.eval("return arguments[0].innerText", vec![panel.to_json()?]).await?;
        Ok(text.as_str().unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" "))
    }

    /// Waits until this is among what the column makes together.
    ///
    /// # Errors
    /// When it is not; with what is said instead.
    pub async fn makes_together(&self, words: &str) -> Result<()> {
        let seen =
            wait::until(words, async || Ok(self.together().await?.contains(words).then_some(()))).await;
        if seen.is_err() {
            bail!("the column should make \"{words}\", but it says: {}", self.together().await?);
        }
        Ok(())
    }

    /// Waits until something is heard, or nothing any more: whether there is a "Stop" to press.
    ///
    /// # Errors
    /// When it stays as it is.
    pub async fn is_heard(&self, heard: bool) -> Result<()> {
        let what = if heard { "something to be heard" } else { "nothing to be heard" };
        wait::until(what, async || {
            Ok((self.find_all("button", "Stop").await?.is_empty() != heard).then_some(()))
        })
        .await
    }
}
