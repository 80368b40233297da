//! Questions and answers as bytes, in the compact form of the crate `postcard` (its wire format is a published one). They
//! never leave the device and are never kept, so the form may change with any version.

use serde::Serialize;
use serde::de::DeserializeOwned;

/// As bytes; empty where there is no memory for them.
#[must_use]
pub fn write<T: Serialize>(value: &T) -> Vec<u8> {
    postcard::to_allocvec(value).unwrap_or_default()
}

/// From bytes; `None` where they are something else.
#[must_use]
pub fn read<T: DeserializeOwned>(bytes: &[u8]) -> Option<T> {
    postcard::from_bytes(bytes).ok()
}
