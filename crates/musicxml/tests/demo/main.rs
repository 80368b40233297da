//! The demo movement (`web/demo/movement.musicxml`), held against what was composed: everything that is asserted here was
//! meant when the notes were written.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod brass;
mod harmonies;
mod midi;
mod notation;
mod voices;

use crookwise_musicxml::{Import, import};
use crookwise_score::score::{PartStaff, Score};
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use std::sync::Arc;

/// The file as it is packed with the page.
const FILE: &str = include_str!("../../../../web/demo/movement.musicxml");

fn decoder(text: &str) -> Arc<Decoded> {
    Arc::new(decode(text, DecodeOptions::default()))
}

/// The movement as it is opened.
fn opened() -> Import {
    import(FILE.as_bytes()).unwrap()
}

/// The movement with its old bass-clef notation read as such.
fn repaired() -> Score {
    let mut score = opened().score;
    for old in score.old_bass(&mut decoder) {
        score.read_old_bass(old.staff);
    }
    score
}

/// The staff of a part by its name.
fn staff<'a>(score: &'a Score, name: &str) -> &'a PartStaff {
    let part = score.parts().iter().find(|part| part.name.as_ref() == name);
    &part.unwrap_or_else(|| panic!("no part {name}")).staves[0]
}
