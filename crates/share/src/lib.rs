//! The link: everything that stands on the screen as text behind `#`, and back.
//!
//! A page of Read stays readable by eye: `#/read?v=1.4c1f&staff=Corni+in+Es&notes=C4.E4.G4`. The number behind
//! the version is a checksum against slips; a link typed by hand needs neither.

mod camera;
mod decimal;
mod error;
mod fields;
mod notes;
mod page;
pub mod practise;
mod read;

pub use camera::{CameraCode, LONGEST_ADDRESS, TooLongForCamera};
pub use error::LinkError;
pub use page::ReadPage;

/// The version written into new links. Every older one still opens.
pub const VERSION: u32 = 1;

/// Characters of the longest link that is opened.
pub const LONGEST: usize = 8_000;

/// Characters of the longest text that is opened from what the device kept: more than the largest page takes.
pub const LONGEST_KEPT: usize = 400_000;

/// What a link shows.
#[derive(Clone, Debug, PartialEq)]
pub enum Link {
    /// The page of Read.
    Read(Box<ReadPage>),
}

impl Link {
    /// The text behind `#`, without the sign.
    #[must_use]
    pub fn encode(&self) -> String {
        match self {
            Self::Read(page) => format!("/read?{}", fields::write(&read::to_fields(page))),
        }
    }

    /// Opens the text behind `#`, with or without the sign; `None` where there is no text.
    ///
    /// ```
    /// use crookwise_share::Link;
    /// let link = Link::decode("#/read?staff=Corni+in+Es&notes=C4.E4").unwrap().unwrap();
    /// assert!(link.encode().ends_with("staff=Corni+in+Es&notes=C4.E4"));
    /// ```
    ///
    /// # Errors
    /// Where the link is damaged, of another version or not ours: [`LinkError`] says which.
    pub fn decode(text: &str) -> Result<Option<Self>, LinkError> {
        Self::decode_within(text, LONGEST)
    }

    /// Opens what the device kept of a page: the same text, but as long as the largest page makes it.
    ///
    /// # Errors
    /// As [`Link::decode`].
    pub fn decode_kept(text: &str) -> Result<Option<Self>, LinkError> {
        Self::decode_within(text, LONGEST_KEPT)
    }

    fn decode_within(text: &str, longest: usize) -> Result<Option<Self>, LinkError> {
        let text = text.strip_prefix('#').unwrap_or(text);
        if text.chars().count() > longest {
            return Err(LinkError::TooLong);
        }
        if text.is_empty() || text == "/" || text == "/read" {
            return Ok(None);
        }
        match text.split_once('?') {
            Some(("/read", pairs)) => {
                Ok(Some(Self::Read(Box::new(read::from_fields(&fields::read(pairs)?)?))))
            }
            _ => Err(LinkError::Foreign),
        }
    }
}
