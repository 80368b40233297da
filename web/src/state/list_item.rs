//! One value among others to choose from.

/// One value of a choice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ListItem {
    /// By which it is reported.
    pub value: String,
    /// What the reader sees.
    pub text: String,
}

impl ListItem {
    /// A value with its text.
    #[must_use]
    pub fn new(value: impl Into<String>, text: impl Into<String>) -> Self {
        Self { value: value.into(), text: text.into() }
    }
}
