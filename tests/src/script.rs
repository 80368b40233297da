//! Scripts that the harness runs in the page.

use crate::page::Page;
use crate::wait;
use anyhow::Result;
use serde_json::Value;
use thirtyfour::error::WebDriverErrorInner;

impl Page {
    /// Runs a script in the page, as the body of a function of `arguments`, and gives back what it returns. One that throws is run
    /// again, as whoever looks for something looks again: between two pictures the page may be without what the script reads.
    ///
    /// # Errors
    /// What it throws, where it throws for as long as [`wait::PATIENCE`].
    pub async fn eval(&self, script: &str, arguments: Vec<Value>) -> Result<Value> {
        let mut thrown = None;
        let value = wait::until("a script that does not throw", async || {
            match self.driver().execute(script, arguments.clone()).await {
                Ok(value) => Ok(Some(value.json().clone())),
                Err(error) if matches!(*error, WebDriverErrorInner::JavascriptError(_)) => {
                    thrown = Some(error.to_string());
                    Ok(None)
                }
                Err(error) => Err(error.into()),
            }
        });
        let value = value.await;
        value.map_err(|error| match thrown {
            Some(thrown) => error.context(thrown),
            None => error,
        })
    }
}
