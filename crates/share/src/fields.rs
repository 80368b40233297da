//! Pairs of name and value, with version and checksum in front.
//!
//! The checksum goes over the place and over every pair, whatever its name, in the one way of writing them that the
//! standard has: how an address escapes them makes no difference, all else does. So it holds for pairs that this version
//! does not know as well. Those are left alone in a link with a checksum: a later version may add what can be passed over
//! without showing something else (what cannot gets a new version). A link without a checksum was typed by hand: there
//! an unknown name is a slip of the pen, and is told.
//!
//! Where a link must be short, the pairs are packed ([`crate::packed`]) and stand in the stamp itself, behind its checksum:
//! `/read?v=3.0A1B2C3DPACKED`. That checksum goes over the place and the packed letters.

use crate::error::LinkError;
use crate::packed::pack;
use crate::{PACKED_VERSION, VERSION};
use crc::{CRC_16_IBM_SDLC, CRC_32_ISO_HDLC, Crc, NoTable};

/// Pairs in the order of the link.
pub(crate) type Pairs = Vec<(String, String)>;

/// What unpacks the letters of a packed link; `None` where it cannot. It is handed in, so that what opens only readable
/// links does without its code.
pub(crate) type Unpack = fn(&str) -> Option<String>;

/// In its place where a link is readable.
pub(crate) fn never_packed(_: &str) -> Option<String> {
    None
}

/// Whether pairs as they stand in a link are packed.
pub(crate) fn is_packed(text: &str) -> bool {
    let version =
        |value: &str| value.split_once('.').is_some_and(|(version, _)| version.parse() == Ok(PACKED_VERSION));
    form_urlencoded::parse(text.as_bytes()).any(|(name, value)| name == "v" && version(&value))
}

/// Pairs that were read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Fields {
    /// In the order of the link, without the stamp.
    pub pairs: Pairs,
    /// Whether a checksum vouches for them.
    pub stamped: bool,
}

/// Reckoned without a table, which would be larger than what it reckons about.
const CHECK: Crc<u32, NoTable> = Crc::<u32, NoTable>::new(&CRC_32_ISO_HDLC);

/// The same of the first version.
const FIRST_CHECK: Crc<u16, NoTable> = Crc::<u16, NoTable>::new(&CRC_16_IBM_SDLC);

/// The sum over a place and what stands behind it.
fn sum(place: &str, behind: &str) -> u32 {
    let mut digest = CHECK.digest();
    digest.update(place.as_bytes());
    digest.update(b"?");
    digest.update(behind.as_bytes());
    digest.finalize()
}

/// Pairs in the one way of writing them that the standard has.
fn text(pairs: &Pairs) -> String {
    form_urlencoded::Serializer::new(String::new()).extend_pairs(pairs).finish()
}

/// Eight hexadecimal digits over place, names and values.
fn checksum(place: &str, pairs: &Pairs) -> String {
    format!("{:08x}", sum(place, &text(pairs)))
}

/// Eight hexadecimal digits over place and packed letters: capitals, as these are.
fn packed_checksum(place: &str, letters: &str) -> String {
    format!("{:08X}", sum(place, letters))
}

/// The first version's: four digits over names and values.
fn first_checksum(pairs: &Pairs) -> String {
    let mut digest = FIRST_CHECK.digest();
    for (name, value) in pairs {
        digest.update(name.as_bytes());
        digest.update(&[0]);
        digest.update(value.as_bytes());
        digest.update(&[1]);
    }
    format!("{:04x}", digest.finalize())
}

/// Writes a place and its pairs with version and checksum.
pub(crate) fn write(place: &str, pairs: &Pairs) -> String {
    let mut out = form_urlencoded::Serializer::new(String::new());
    out.append_pair("v", &format!("{VERSION}.{}", checksum(place, pairs)));
    out.extend_pairs(pairs);
    format!("{place}?{}", out.finish())
}

/// Writes a place and its pairs in few letters.
pub(crate) fn write_packed(place: &str, pairs: &Pairs) -> String {
    let letters = pack(&text(pairs));
    format!("{place}?v={PACKED_VERSION}.{}{letters}", packed_checksum(place, &letters))
}

impl Fields {
    /// Reads the pairs of a place; a link without version was typed by hand and is taken as it stands.
    pub(crate) fn read(place: &str, text: &str, unpack: Unpack) -> Result<Self, LinkError> {
        let mut pairs: Pairs = form_urlencoded::parse(text.as_bytes()).into_owned().collect();
        let Some(at) = pairs.iter().position(|(name, _)| name == "v") else {
            return Ok(Self { pairs, stamped: false });
        };
        let (_, stamp) = pairs.remove(at);
        let (version, check) = stamp.split_once('.').unwrap_or((&stamp, ""));
        let whole = match version.parse::<u32>() {
            // Written otherwise than here, such as 02.
            Ok(number) if number.to_string() != version => false,
            Ok(1) => check == first_checksum(&pairs),
            Ok(VERSION) => check == checksum(place, &pairs),
            Ok(PACKED_VERSION) if pairs.is_empty() => return Self::unpacked(place, check, unpack),
            Ok(0 | PACKED_VERSION) | Err(_) => false,
            Ok(later) => return Err(LinkError::Version(later.to_string())),
        };
        if whole { Ok(Self { pairs, stamped: true }) } else { Err(LinkError::Damaged) }
    }

    /// Reads checksum and packed letters.
    fn unpacked(place: &str, stamp: &str, unpack: Unpack) -> Result<Self, LinkError> {
        let whole = stamp
            .split_at_checked(8)
            .filter(|(check, letters)| *check == packed_checksum(place, letters))
            .and_then(|(_, letters)| unpack(letters));
        let text = whole.ok_or(LinkError::Damaged)?;
        Ok(Self { pairs: form_urlencoded::parse(text.as_bytes()).into_owned().collect(), stamped: true })
    }

    /// What a name means that is not known here: nothing under a checksum, else a slip.
    pub(crate) fn unknown(&self, name: &str) -> Result<(), LinkError> {
        if self.stamped { Ok(()) } else { Err(LinkError::unknown(name)) }
    }
}
