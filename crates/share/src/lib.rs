//! The link: where the reader is and what stands there, as text behind `#`, and back.
//!
//! A page of Read stays readable by eye: `#/read?staff=Corni+in+Es&notes=C4.E4.G4`, with a change of crook before the
//! third column `&muta=3_in+D`. Links made here carry a version and a checksum in front (`v=2.8c1d0a37`), so that
//! a damaged one is told and opens as nothing; one typed by hand needs neither. What is handed on and would be too long for
//! the code of a camera is packed: `/read?v=3.8C1D0A37…`.

mod camera;
pub mod crooks;
mod day;
mod error;
mod fields;
mod fit;
mod packed;
mod page;
pub mod practise;
mod read;
mod tail;
pub mod weeks;

pub use camera::{CameraCode, LONGEST_ADDRESS};
pub use day::{Day, NoDay};
pub use error::LinkError;
pub use fit::{Shared, TooLong, TooLongForCamera};
pub use page::ReadPage;
pub use read::{choice, choice_text};

use crooks::SentCrooks;
use fields::{Fields, Pairs, Unpack};
use practise::PractiseLink;

/// The version written into new links. Every older one still opens.
pub const VERSION: u32 = 2;

/// The version written into packed links: the same pairs, packed with the first list of words.
pub const PACKED_VERSION: u32 = 3;

/// Characters of the longest link: more are lost on the way through mail and chat.
pub const LONGEST: usize = 8_000;

/// Characters of the longest text that is opened from the device or a file. The largest page that there can be has
/// some twelve million: sixteen staves that change their label for each of four players before every column.
pub const LONGEST_KEPT: usize = 16_000_000;

/// Where the reader is, and what stands there.
#[derive(Clone, Debug, PartialEq)]
pub enum Link {
    /// A page in Read.
    Read(Box<ReadPage>),
    /// The page in Read that the reader has kept under this name.
    Kept(String),
    /// A screen of Practise.
    Practise(PractiseLink),
    /// Score, with what stands there: pairs that the part of the app reads which shows it.
    Score(String),
    /// Crooks, with what stands there.
    Crooks(SentCrooks),
}

impl Link {
    /// The text behind `#` for Read with nothing said about what stands there, without the sign.
    pub const READ: &'static str = "/read";

    /// The same for Crooks.
    pub const CROOKS: &'static str = "/crooks";

    /// The text behind `#`, without the sign, however long.
    #[must_use]
    pub fn encode(&self) -> String {
        self.written(fields::write)
    }

    /// The same in few letters, which nobody can read by eye.
    ///
    /// ```
    /// use crookwise_share::Link;
    /// let link = Link::decode("#/read?staff=2+Corni+in+Es&notes=C5.D5.C5&staff=Violino+I&notes=Eb5.D5.Eb5").unwrap().unwrap();
    /// assert!(link.pack().len() * 2 < link.encode().len());
    /// assert_eq!(Link::decode(&link.pack()), Ok(Some(link)));
    /// ```
    #[must_use]
    pub fn pack(&self) -> String {
        self.written(fields::write_packed)
    }

    fn written(&self, write: fn(&str, &Pairs) -> String) -> String {
        match self {
            Self::Read(page) => write("/read", &read::to_pairs(page)),
            Self::Kept(name) => write("/read", &vec![("kept".to_owned(), name.clone())]),
            Self::Practise(PractiseLink::Course) => "/practise".to_owned(),
            Self::Practise(link) => write("/practise", &link.to_pairs()),
            Self::Score(pairs) if pairs.is_empty() => "/score".to_owned(),
            Self::Score(pairs) => format!("/score?{pairs}"),
            Self::Crooks(sent) if sent.is_empty() => "/crooks".to_owned(),
            Self::Crooks(sent) => write("/crooks", &sent.fields.pairs),
        }
    }

    /// The text behind `#`, where it is short enough to open again.
    #[must_use]
    pub fn short(&self) -> Option<String> {
        Some(self.encode()).filter(|text| text.chars().count() <= LONGEST)
    }

    /// Opens the text behind `#`, with or without the sign; `None` for Read with nothing said about what stands there. What
    /// the sentence round a link leaves behind it, a full stop or a bracket, is no damage.
    ///
    /// ```
    /// use crookwise_share::Link;
    /// let link = Link::decode("#/read?staff=Corni+in+Es&notes=C4.E4&muta=2_in+D").unwrap().unwrap();
    /// assert!(link.encode().ends_with("staff=Corni+in+Es&notes=C4.E4&muta=2_in+D"));
    /// assert_eq!(Link::decode("#/read"), Ok(None));
    /// ```
    ///
    /// # Errors
    /// Where the link is damaged, too long, of a later version or not ours: [`LinkError`] says which.
    pub fn decode(text: &str) -> Result<Option<Self>, LinkError> {
        decode_with(text, packed::unpack)
    }

    /// The same for a link that is not packed, without the code and the list of words that unpacking takes.
    ///
    /// # Errors
    /// As [`Link::decode`]; one that [`Link::is_packed`] is damaged here.
    pub fn decode_readable(text: &str) -> Result<Option<Self>, LinkError> {
        decode_with(text, fields::never_packed)
    }

    /// Whether only [`Link::decode`] can open this.
    ///
    /// ```
    /// use crookwise_share::Link;
    /// let link = Link::decode_readable("#/read?staff=Oboi&notes=C5").unwrap().unwrap();
    /// assert!(Link::is_packed(&link.pack()) && !Link::is_packed(&link.encode()));
    /// ```
    #[must_use]
    pub fn is_packed(text: &str) -> bool {
        text.split_once('?').is_some_and(|(_, pairs)| fields::is_packed(pairs))
    }

    /// The same for what the device or a file has kept, which may be longer and is never packed.
    ///
    /// # Errors
    /// As [`Link::decode_readable`], beyond [`LONGEST_KEPT`].
    pub fn decode_kept(text: &str) -> Result<Option<Self>, LinkError> {
        open(text, LONGEST_KEPT, fields::never_packed)
    }
}

fn decode_with(text: &str, unpack: Unpack) -> Result<Option<Link>, LinkError> {
    tail::open_without_marks(text, |text| open(text, LONGEST, unpack))
}

fn open(text: &str, longest: usize, unpack: Unpack) -> Result<Option<Link>, LinkError> {
    if text.chars().nth(longest).is_some() {
        return Err(LinkError::TooLong);
    }
    let text = text.strip_prefix('#').unwrap_or(text);
    let (place, pairs) = match text.split_once('?') {
        Some((place, pairs)) => (place, Some(pairs)),
        None => (text, None),
    };
    match (place, pairs) {
        ("" | "/" | "/read", None) => Ok(None),
        ("/practise", None) => Ok(Some(Link::Practise(PractiseLink::Course))),
        ("/crooks", None) => Ok(Some(Link::Crooks(SentCrooks::default()))),
        ("/crooks", Some(pairs)) => {
            Ok(Some(Link::Crooks(SentCrooks { fields: Fields::read(place, pairs, unpack)? })))
        }
        ("/score", pairs) => Ok(Some(Link::Score(pairs.unwrap_or_default().to_owned()))),
        ("/read", Some(pairs)) => read_link(&Fields::read(place, pairs, unpack)?).map(Some),
        ("/practise", Some(pairs)) => PractiseLink::from_fields(Fields::read(place, pairs, unpack)?)
            .map(|link| Some(Link::Practise(link))),
        _ => Err(LinkError::Foreign),
    }
}

fn read_link(fields: &Fields) -> Result<Link, LinkError> {
    match fields.pairs.first() {
        Some((name, kept)) if name == "kept" => {
            fields.pairs.iter().skip(1).try_for_each(|(name, _)| fields.unknown(name))?;
            Ok(Link::Kept(kept.clone()))
        }
        _ => Ok(Link::Read(Box::new(read::from_fields(fields)?))),
    }
}
