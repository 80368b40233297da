//! Links go back and forth, old ones stay open, damaged ones open as nothing and say what is wrong.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

mod any_page;
mod crooks;
mod damage;
mod exercises;
mod largest;
mod pages;
mod refused;
mod samples;

use crookwise_share::{Link, LinkError, ReadPage};

/// The page of a link to Read.
fn open(text: &str) -> Result<ReadPage, LinkError> {
    Link::decode(text).map(|link| match link {
        Some(Link::Read(page)) => *page,
        other => panic!("{text} opened as {other:?}"),
    })
}

/// Place and pairs of a link as the standard reads them, the stamp among them.
fn meaning(text: &str) -> (String, Vec<(String, String)>) {
    let (place, pairs) = text.split_once('?').unwrap_or((text, ""));
    let place = place.strip_prefix('#').unwrap_or(place);
    (place.to_owned(), form_urlencoded::parse(pairs.as_bytes()).into_owned().collect())
}

/// The same without the stamp.
fn bare(text: &str) -> (String, Vec<(String, String)>) {
    let (place, mut pairs) = meaning(text);
    pairs.retain(|(name, _)| name != "v");
    (place, pairs)
}
