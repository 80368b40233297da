//! Every bar of real scores through a window, all staves: it lasts as long as the bar does, and grace notes take their time
//! before its beats.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::movements::{MOVEMENTS, movement, say};
use crookwise_score::score::{Quarters, StaffId, WindowError};
use crookwise_score::{MOST_STAVES, Passage};
use crookwise_tests::outside::Comparison;

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![every_bar_lasts_as_long_as_it_does];

/// The sum of the lengths of its columns.
fn lasts(passage: &Passage) -> Quarters {
    let lengths = passage.columns().iter().map(|column| Quarters::from(column.length.unwrap()));
    lengths.fold(Quarters::ZERO, |sum, length| sum.plus(length).unwrap())
}

fn every_bar_lasts_as_long_as_it_does(folder: &str) {
    let (mut windows, mut upbeats, mut left_out, mut too_many) = (0, 0, 0, 0);
    for name in MOVEMENTS {
        let score = movement(folder, name).score;
        let staves: Vec<StaffId> = score.staves().map(|staff| staff.id).collect();
        for (at, bar) in score.bars().iter().enumerate() {
            for some in staves.chunks(MOST_STAVES) {
                let window = match score.window(some, at..at + 1) {
                    Ok(window) => window,
                    Err(WindowError::TooManyColumns(_)) => {
                        too_many += 1;
                        continue;
                    }
                    Err(error) => panic!("{name}, bar {}: {error}", bar.number),
                };
                let more = lasts(&window.passage).minus(bar.length).unwrap();
                // An upbeat of grace notes alone makes it longer, by eighths of a quarter note.
                let graces = some.iter().map(|staff| {
                    let notes = score.staff(*staff).unwrap().notes().iter();
                    let first = notes.filter(|(_, note)| note.grace && note.start.time == bar.start);
                    first
                        .filter(|(_, note)| note.bar as usize == at)
                        .map(|(_, note)| note.start.order + 1)
                        .max()
                });
                let graces = i64::from(graces.flatten().max().unwrap_or(0));
                assert_eq!(Some(more), Quarters::new(graces, 8), "{name}, bar {}", bar.number);
                windows += 1;
                upbeats += usize::from(graces > 0);
                left_out += window.left_out;
            }
        }
    }
    assert!(windows > 3_000 && upbeats > 20, "{windows} windows, {upbeats} with an upbeat");
    say(&format!(
        "{windows} windows, {upbeats} with an upbeat of grace notes; {left_out} notes without a player, {too_many} bars of too many columns"
    ));
}
