//! Finding what a reader would call by its role and its name, and waiting for it.

use crate::page::Page;
use crate::wait;
use anyhow::{Context, Result, bail};
use serde_json::{Value, json};
use thirtyfour::common::command::FormatRequestData;
use thirtyfour::error::WebDriverError;
use thirtyfour::{RequestData, SessionId, WebElement};

const FIND: &str = include_str!("scripts/find.js");

/// What something is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Name {
    /// Exactly this.
    Is(String),
    /// Somewhere in its name.
    Has(String),
    /// Anything at all, or nothing.
    Any,
}

impl From<&str> for Name {
    fn from(name: &str) -> Self {
        Self::Is(name.to_owned())
    }
}

impl From<String> for Name {
    fn from(name: String) -> Self {
        Self::Is(name)
    }
}

impl std::fmt::Display for Name {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Is(name) => write!(f, "\"{name}\""),
            Self::Has(part) => write!(f, "with \"{part}\" in its name"),
            Self::Any => f.write_str("of any name"),
        }
    }
}

impl Page {
    /// Every visible thing of this role and name that is there now, in the order of the page.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn find_all(&self, role: &str, name: impl Into<Name>) -> Result<Vec<WebElement>> {
        let (exact, part) = match name.into() {
            Name::Is(name) => (json!(name), Value::Null),
            Name::Has(part) => (Value::Null, json!(part)),
            Name::Any => (Value::Null, Value::Null),
        };
        loop {
            match self.driver().execute(FIND, vec![json!(role), exact.clone(), part.clone()]).await {
                // What was found has left the page before WebKit's driver could name it: the page is asked anew.
                Err(error) if has_left(&error) => {}
                answer => return Ok(answer?.elements()?),
            }
        }
    }

    /// Waits for the one visible thing of this role and name.
    ///
    /// # Errors
    /// When it does not come, or when there are several: then the name does not tell a reader which is meant.
    pub async fn find(&self, role: &str, name: impl Into<Name>) -> Result<WebElement> {
        let name = name.into();
        let what = format!("{role} {name}");
        let mut found = wait::until(&what, async || {
            let found = self.find_all(role, name.clone()).await?;
            Ok((!found.is_empty()).then_some(found))
        })
        .await?;
        match (found.pop(), found.len()) {
            (Some(one), 0) => Ok(one),
            (_, others) => bail!("{what}: there are {} of them", others + 1),
        }
    }

    /// Waits until nothing visible has this role and name.
    ///
    /// # Errors
    /// When it stays.
    pub async fn find_gone(&self, role: &str, name: impl Into<Name>) -> Result<()> {
        let name = name.into();
        wait::until(&format!("{role} {name} to go"), async || {
            Ok(self.find_all(role, name.clone()).await?.is_empty().then_some(()))
        })
        .await
    }

    /// Waits until so many visible things have this role and name.
    ///
    /// # Errors
    /// When there are never so many.
    pub async fn find_count(
        &self,
        role: &str,
        name: impl Into<Name>,
        count: usize,
    ) -> Result<Vec<WebElement>> {
        let name = name.into();
        wait::until(&format!("{count} of {role} {name}"), async || {
            let found = self.find_all(role, name.clone()).await?;
            Ok((found.len() == count).then_some(found))
        })
        .await
    }

    /// The role and the name that the browser itself gives something, as it tells them to a screen reader.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn spoken(&self, element: &WebElement) -> Result<(String, String)> {
        let ask = |what: &str| Ask(format!("/element/{}/{what}", element.element_id()));
        let role = self.driver().cmd(ask("computedrole")).await?.value_json()?;
        let label = self.driver().cmd(ask("computedlabel")).await?.value_json()?;
        let word = |value: &Value| value.as_str().map(String::from).context("the browser gave no word");
        Ok((word(&role)?, word(&label)?))
    }

    /// The role and name of what has the keyboard's focus, as the browser itself gives them; nothing where the page as
    /// a whole has it.
    ///
    /// # Errors
    /// Where the driver does not answer.
    pub async fn focused(&self) -> Result<Option<(String, String)>> {
        let script = "const at = document.activeElement; return at === document.body ? null : at";
        let answer = match self.driver().execute(script, vec![]).await {
            Err(error) if has_left(&error) => return Ok(None),
            answer => answer?,
        };
        if answer.json().is_null() {
            return Ok(None);
        }
        // It may leave the page before it is asked what it is called.
        match self.spoken(&answer.element()?).await {
            Err(error) if format!("{error:#}").contains("stale") => Ok(None),
            spoken => spoken.map(Some),
        }
    }
}

/// Whether something left the page while the driver spoke of it.
fn has_left(error: &WebDriverError) -> bool {
    error.to_string().contains("stale")
}

/// A question of the WebDriver standard that the library has no word for.
#[derive(Debug)]
struct Ask(String);

impl FormatRequestData for Ask {
    fn format_request(&self, session: &SessionId) -> RequestData {
        RequestData::new(http::Method::GET, format!("session/{session}{}", self.0))
    }
}
