//! The places of the app, by the first word of the address.

/// The address of an exercise about the page that stands in Read.
pub const FROM_READ: &str = "#/practise?from=read";

/// Where the reader is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// The margin of a score page.
    Read,
    /// Exercises; with what stands behind the word in the address.
    Practise(String),
}

impl Place {
    /// The place an address names; everything but the known words is Read, which says what is wrong with it.
    #[must_use]
    pub fn of(hash: &str) -> Self {
        let hash = hash.strip_prefix('#').unwrap_or(hash);
        match hash.split_once('?').unwrap_or((hash, "")) {
            ("/practise", rest) => Self::Practise(rest.to_owned()),
            _ => Self::Read,
        }
    }

    /// Its address, without what stands behind the word.
    #[must_use]
    pub const fn address(&self) -> &'static str {
        match self {
            Self::Read => "/read",
            Self::Practise(_) => "/practise",
        }
    }

    /// Whether an exercise about the page in Read is wanted.
    #[must_use]
    pub fn is_from_read(&self) -> bool {
        matches!(self, Self::Practise(pairs) if FROM_READ.split_once('?').is_some_and(|(_, own)| own == pairs))
    }

    /// Whether it is Read.
    #[must_use]
    pub const fn is_read(&self) -> bool {
        matches!(self, Self::Read)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_word_names_the_place() {
        assert_eq!(Place::of("#/practise"), Place::Practise(String::new()));
        assert_eq!(Place::of("/practise?x=abc&step=2"), Place::Practise("x=abc&step=2".into()));
        assert!(Place::of(FROM_READ).is_from_read() && !Place::of("#/practise").is_from_read());
        for other in ["", "#", "/read?staff=Corni", "/practised", "rubbish ? \u{202e}"] {
            assert_eq!(Place::of(other), Place::Read);
        }
    }
}
