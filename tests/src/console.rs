//! What the page said to nobody: warnings, errors, missing files, and requests that left for another host.

use crate::browser::Browser;
use crate::page::Page;
use anyhow::{Result, bail};
use serde_json::Value;
use std::sync::{Mutex, PoisonError};

impl Page {
    /// Fails if anything was written to the console as a warning or an error, if an error was thrown and not caught, if
    /// a file was missing, or if a request went to another host.
    ///
    /// # Errors
    /// With everything that was found.
    pub async fn is_quiet(&self) -> Result<()> {
        self.note_before_leaving().await?;
        let mut found = taken(&self.noted);
        found.extend(self.site.take_missing().into_iter().map(|path| format!("not there: {path}")));
        let origin = format!("{}/", self.site.origin());
        let foreign = taken(&self.asked).into_iter().filter(|url| !is_own(url, &origin));
        found.extend(foreign.map(|url| format!("asked another host: {url}")));
        if !found.is_empty() {
            bail!("the page was not quiet:\n  {}", found.join("\n  "));
        }
        Ok(())
    }

    /// Keeps what the page has noted so far, since it is lost with the page.
    pub(crate) async fn note_before_leaving(&self) -> Result<()> {
        if !self.watched {
            return Ok(());
        }
        let (noted, asked) = match self.browser {
            Browser::Chromium => self.chromium_logs().await?,
            Browser::WebKit | Browser::Firefox => self.page_notes().await?,
        };
        put(&self.noted, noted);
        put(&self.asked, asked);
        Ok(())
    }

    async fn chromium_logs(&self) -> Result<(Vec<String>, Vec<String>)> {
        let console = self.driver().get_log("browser").await?.into_iter();
        let console = console.filter(|entry| entry.level == "WARNING" || entry.level == "SEVERE");
        let noted = console.map(|entry| format!("{} {}", entry.level, entry.message)).collect();
        let network = self.driver().get_log("performance").await?;
        Ok((noted, network.iter().filter_map(|entry| requested(&entry.message)).collect()))
    }

    async fn page_notes(&self) -> Result<(Vec<String>, Vec<String>)> {
        // A text beside the app is not watched.
        let script = "return [document.querySelector('script') ? window.__crookwiseSeen.splice(0) : [],
            performance.getEntriesByType('resource').map((entry) => entry.name)]";
        let answer = self.eval(script, vec![]).await?;
        let words = |value: &Value| -> Vec<String> {
            let values = value.as_array().into_iter().flatten();
            values.filter_map(|value| value.as_str().map(String::from)).collect()
        };
        Ok((words(&answer[0]), words(&answer[1])))
    }
}

/// The address of a request, from a line of Chromium's performance log.
fn requested(line: &str) -> Option<String> {
    let line: Value = serde_json::from_str(line).ok()?;
    let message = &line["message"];
    let url = match message["method"].as_str()? {
        "Network.requestWillBeSent" => &message["params"]["request"]["url"],
        "Network.webSocketCreated" => &message["params"]["url"],
        _ => return None,
    };
    url.as_str().map(String::from)
}

/// Whether an address stays on the site. What a browser opens itself with, and data inside the page, go nowhere.
fn is_own(url: &str, origin: &str) -> bool {
    url.starts_with(origin)
        || ["data:", "blob:", "about:", "chrome:", "chrome-extension:"]
            .iter()
            .any(|start| url.starts_with(start))
}

fn put(place: &Mutex<Vec<String>>, words: Vec<String>) {
    place.lock().unwrap_or_else(PoisonError::into_inner).extend(words);
}

fn taken(place: &Mutex<Vec<String>>) -> Vec<String> {
    std::mem::take(&mut place.lock().unwrap_or_else(PoisonError::into_inner))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_port_or_host_is_foreign() {
        let origin = "http://127.0.0.1:4000/";
        assert!(is_own("http://127.0.0.1:4000/app.js", origin));
        assert!(is_own("data:,", origin));
        assert!(!is_own("http://127.0.0.1:40001/app.js", origin));
        assert!(!is_own("https://example.org/font.woff2", origin));
    }

    #[test]
    fn requests_are_read_from_the_log() {
        let line =
            r#"{"message":{"method":"Network.requestWillBeSent","params":{"request":{"url":"http://a/b"}}}}"#;
        assert_eq!(requested(line).as_deref(), Some("http://a/b"));
        assert_eq!(requested(r#"{"message":{"method":"Page.loadEventFired","params":{}}}"#), None);
    }
}
