//! Pairs of name and value, with version and checksum in front.

use crate::VERSION;
use crate::error::LinkError;
use crc::{CRC_16_IBM_SDLC, Crc, NoTable};

/// Pairs in the order of the link.
pub(crate) type Fields = Vec<(String, String)>;

/// Reckoned without a table, which would be larger than what it reckons about.
const CHECK: Crc<u16, NoTable> = Crc::<u16, NoTable>::new(&CRC_16_IBM_SDLC);

/// Four hexadecimal digits over names and values, however the address escapes them.
fn checksum(fields: &[(String, String)]) -> String {
    let mut digest = CHECK.digest();
    for (name, value) in fields {
        digest.update(name.as_bytes());
        digest.update(&[0]);
        digest.update(value.as_bytes());
        digest.update(&[1]);
    }
    format!("{:04x}", digest.finalize())
}

/// Writes pairs with version and checksum.
pub(crate) fn write(fields: &Fields) -> String {
    let mut out = form_urlencoded::Serializer::new(String::new());
    out.append_pair("v", &format!("{VERSION}.{}", checksum(fields)));
    out.extend_pairs(fields);
    out.finish()
}

/// Reads pairs; a link without version was typed by hand and is taken as it stands.
pub(crate) fn read(text: &str) -> Result<Fields, LinkError> {
    let mut fields: Fields = form_urlencoded::parse(text.as_bytes()).into_owned().collect();
    let Some(at) = fields.iter().position(|(name, _)| name == "v") else { return Ok(fields) };
    let (_, stamp) = fields.remove(at);
    let (version, check) = stamp.split_once('.').unwrap_or((&stamp, ""));
    match version.parse::<u32>() {
        Ok(VERSION) if check == checksum(&fields) => Ok(fields),
        Ok(VERSION) | Ok(0) | Err(_) => Err(LinkError::Damaged),
        Ok(later) => Err(LinkError::Version(later.to_string())),
    }
}
