//! The harmonies of an opened score as the page takes them: when, in which key, who sounds what.

use crate::followed::spot;
use crate::following::{HarmonyRow, HeardRow};
use crate::holder::{Opened, decoder};
use crookwise_score::harmony::ScoreHarmony;
use crookwise_score::score::Sounded;
use std::collections::HashMap;

/// All of them in their course.
pub(crate) fn rows(opened: &Opened, harmonies: &[ScoreHarmony]) -> Vec<HarmonyRow> {
    let score = &opened.import.score;
    let sounded = score.sounded(&mut decoder);
    let by_note: HashMap<u32, &Sounded<'_>> = sounded.iter().map(|one| (one.id.number(), one)).collect();
    let row = |own: &ScoreHarmony| HarmonyRow {
        from: spot(score, score.bar_at(own.from), own.from),
        to: spot(score, score.bar_at(own.to), own.to),
        key: own.key.map(|key| key.to_string()),
        heard: heard(opened, own.notes.iter().filter_map(|id| by_note.get(&id.number()).copied())),
        drums: own.drums.iter().map(ToString::to_string).collect(),
    };
    harmonies.iter().map(row).collect()
}

/// Each staff with each of its pitches once.
fn heard<'a>(opened: &Opened, notes: impl Iterator<Item = &'a Sounded<'a>>) -> Vec<HeardRow> {
    let mut rows: Vec<HeardRow> = Vec::new();
    for note in notes {
        let row = HeardRow {
            staff: opened.number_of(note.staff),
            note: note.id.number(),
            pitch: note.pitch.to_string(),
            spells: note.making.is_none(),
            made: note.making.as_ref().map(|making| {
                let cents = making.drift.map(|cents| cents.round() as i32);
                (making.partial.map(crookwise_theory::Partial::number), cents)
            }),
        };
        if !rows.iter().any(|old| (old.staff, &old.pitch) == (row.staff, &row.pitch)) {
            rows.push(row);
        }
    }
    rows
}
