//! What of a file need not change when it is written for somebody else.

#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

/// Elements that are written anew: what they hold hangs on the pitch at which a part is written.
const ANEW: [&str; 8] = ["pitch", "key", "transpose", "accidental", "stem", "root", "bass", "concert-score"];

/// A file without them, without white space between its elements, and without names of parts.
pub fn bare(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('<') {
        let (before, from) = rest.split_at(at);
        out.push_str(before.trim());
        let end = from.find('>').unwrap() + 1;
        let (tag, after) = from.split_at(end);
        let name = tag[1..].split(['>', '/', ' ', '\n', '\r', '\t']).next().unwrap_or_default();
        let is_name = ["part-name", "part-name-display", "part-abbreviation", "part-abbreviation-display"]
            .contains(&name);
        rest = after;
        if tag.starts_with("<?xml") {
            continue;
        }
        if ANEW.contains(&name) || is_name {
            if !tag.ends_with("/>") {
                let close = format!("</{name}>");
                rest = &after[after.find(&close).unwrap() + close.len()..];
            }
            continue;
        }
        out.push_str(tag);
    }
    // A part that said nothing of itself says its transposition.
    (out + rest.trim()).replace(concat!("<attributes></", "attributes>"), "")
}
