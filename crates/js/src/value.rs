//! What a caller may hand in for a field, as far as the contract cares, and where fields come from.

use crate::problem::{Code, Problem};

/// A value out of JavaScript.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Not there, or `undefined`.
    Missing,
    /// A string; the beginning of a very long one.
    Text(String),
    /// A number, `NaN` and the infinities among them.
    Number(f64),
    /// True or false.
    Flag(bool),
    /// A list.
    List(Vec<Value>),
    /// An object with the fields that were looked for.
    Object(Vec<(&'static str, Value)>),
    /// Anything else, in words with an article: "null", "a function".
    Other(&'static str),
}

/// Something with named fields.
pub trait Fields {
    /// The value of a field.
    fn get(&self, name: &'static str) -> Value;

    /// The value of a field that is an object with these fields, or a list of up to so many.
    fn get_with(&self, name: &'static str, _fields: &'static [&'static str], _most: usize) -> Value {
        self.get(name)
    }
}

impl Value {
    /// What it is, in words with an article.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Missing => "nothing",
            Self::Text(_) => "a string",
            Self::Number(_) => "a number",
            Self::Flag(_) => "a boolean",
            Self::List(_) => "an array",
            Self::Object(_) => "an object",
            Self::Other(kind) => kind,
        }
    }

    /// The value as true or false; missing is false.
    ///
    /// # Errors
    /// [`Code::Type`] for anything else.
    pub fn flag(self, field: &'static str) -> Result<bool, Problem> {
        match self {
            Self::Missing => Ok(false),
            Self::Flag(flag) => Ok(flag),
            other => Err(wrong_type(field, "a boolean", other.kind())),
        }
    }

    /// The value as a list; missing is an empty one.
    ///
    /// # Errors
    /// [`Code::Type`] for anything else.
    pub fn list(self, field: &'static str) -> Result<Vec<Self>, Problem> {
        match self {
            Self::Missing => Ok(Vec::new()),
            Self::List(list) => Ok(list),
            other => Err(wrong_type(field, "an array", other.kind())),
        }
    }

    /// The value as a text, where one may be missing.
    ///
    /// # Errors
    /// [`Code::Type`] for what is neither a string nor missing.
    pub fn text(self, field: &'static str) -> Result<Option<String>, Problem> {
        match self {
            Self::Missing => Ok(None),
            Self::Text(text) => Ok(Some(text)),
            other => Err(wrong_type(field, "a string", other.kind())),
        }
    }

    /// The value as a text that must be there.
    ///
    /// # Errors
    /// [`Code::Missing`], and as [`Value::text`].
    pub fn required_text(self, field: &'static str) -> Result<String, Problem> {
        self.text(field)?.ok_or_else(|| missing(field, "a string"))
    }

    /// The value as a number, where one may be missing. It may be `NaN`.
    ///
    /// # Errors
    /// [`Code::Type`] for what is neither a number nor missing.
    pub fn number(self, field: &'static str) -> Result<Option<f64>, Problem> {
        match self {
            Self::Missing => Ok(None),
            Self::Number(number) => Ok(Some(number)),
            other => Err(wrong_type(field, "a number", other.kind())),
        }
    }

    /// The value as a whole number within a range.
    ///
    /// # Errors
    /// As [`Value::number`]; with `code` and the sentence where it is no whole number or out of range.
    pub fn whole(
        self,
        field: &'static str,
        code: Code,
        (low, high): (i32, i32),
        sentence: &str,
    ) -> Result<Option<i32>, Problem> {
        let Some(number) = self.number(field)? else { return Ok(None) };
        // NaN fails both comparisons, and what is left fits into 32 bits.
        if number >= f64::from(low) && number <= f64::from(high) && number % 1.0 == 0.0 {
            Ok(Some(number as i32))
        } else {
            Err(Problem { code, field, sentence: sentence.to_owned() })
        }
    }
}

pub(crate) fn missing(field: &'static str, wanted: &str) -> Problem {
    Problem { code: Code::Missing, field, sentence: format!("{field} is missing: it must be {wanted}") }
}

pub(crate) fn wrong_type(field: &'static str, wanted: &str, found: &str) -> Problem {
    Problem { code: Code::Type, field, sentence: format!("{field} must be {wanted}, not {found}") }
}
