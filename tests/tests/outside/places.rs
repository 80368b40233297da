//! Places of real scores beside a musician's list made by hand before the code was written (`tests/labels/README.md`): twelve
//! movements of the OpenScore Orchestra corpus.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::movements::{decoder, repaired, rows, say};
use crookwise_score::harmony::harmonies;
use crookwise_score::places::{PlaceKind, ScorePlace, places};
use crookwise_score::score::Score;
use crookwise_tests::outside::{Comparison, hold};
use std::collections::BTreeMap;

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![places_are_as_a_musician_listed_them];

struct Listed {
    kind: String,
    parts: Vec<String>,
    bars: (String, String),
    doubtful: bool,
}

const fn called(kind: PlaceKind) -> &'static str {
    match kind {
        PlaceKind::Entry => "entry",
        PlaceKind::Exposed => "exposed",
        PlaceKind::Solo => "solo",
        PlaceKind::Leads => "leads",
        PlaceKind::HornFifths => "horn-fifths",
        PlaceKind::Fanfare => "fanfare",
        PlaceKind::Pedal => "pedal",
        PlaceKind::OctaveDoubling => "octave-doubling",
    }
}

/// A name without its spaces, its flats as letters.
fn plain(name: &str) -> String {
    name.replace('♭', "b").replace('♯', "#").split_whitespace().collect()
}

/// Whether a place found is one listed: they share a part, and half of the shorter of the two (an entry its bar).
fn same(score: &Score, listed: &Listed, found: &ScorePlace) -> bool {
    let bar = |number: &str| score.bars().iter().position(|bar| bar.number.as_ref() == number).unwrap();
    let (from, to) = (bar(&listed.bars.0), bar(&listed.bars.1));
    let part = |staff| {
        let part = score.parts().iter().find(|part| part.staves.iter().any(|own| own.id == staff)).unwrap();
        plain(&part.name)
    };
    if !found.staves.iter().any(|staff| listed.parts.iter().any(|listed| plain(listed) == part(*staff))) {
        return false;
    }
    if listed.kind.ends_with("entry") {
        return found.bars.0 == from;
    }
    let shared = (found.bars.1.min(to) + 1).saturating_sub(found.bars.0.max(from));
    let shorter = (found.bars.1 + 1 - found.bars.0).min(to + 1 - from);
    shared * 2 >= shorter && shared > 0
}

#[derive(Default)]
struct Count {
    listed: usize,
    met: usize,
    found_where_complete: usize,
    right_where_complete: usize,
    traps: usize,
    fallen: usize,
}

fn places_are_as_a_musician_listed_them(folder: &str) {
    let verbose = std::env::var_os("CROOKWISE_SAY").is_some();
    let complete = rows("complete.tsv");
    let mut by_movement: BTreeMap<String, Vec<Listed>> = BTreeMap::new();
    for row in rows("places.tsv") {
        by_movement.entry(row[0].clone()).or_default().push(Listed {
            kind: row[1].clone(),
            parts: row[2].split(';').map(|part| part.trim().to_owned()).collect(),
            bars: (row[3].clone(), row[4].clone()),
            doubtful: row.get(5).is_some_and(|doubtful| doubtful == "?"),
        });
    }
    let mut counts: BTreeMap<&str, Count> = BTreeMap::new();
    for (movement, listed) in &by_movement {
        let score = repaired(folder, movement);
        let sounded = score.sounded(&mut decoder);
        let found = places(&score, &sounded, &harmonies(&score, &sounded));
        for kind in PlaceKind::ALL {
            let name = called(kind);
            let count = counts.entry(name).or_default();
            let own: Vec<&ScorePlace> = found.iter().filter(|place| place.kind == kind).collect();
            for place in listed.iter().filter(|place| place.kind == name && !place.doubtful) {
                count.listed += 1;
                let met = own.iter().any(|found| same(&score, place, found));
                count.met += usize::from(met);
                if verbose && !met {
                    say(&format!("  missed: {movement} {name} {} {:?}", place.parts.join(";"), place.bars));
                }
            }
            let trap = format!("not:{name}");
            for place in listed.iter().filter(|place| place.kind == trap && !place.doubtful) {
                count.traps += 1;
                let fallen = own.iter().any(|found| {
                    same(&score, place, found)
                        && !listed.iter().any(|other| other.kind == name && same(&score, other, found))
                });
                count.fallen += usize::from(fallen);
                if verbose && fallen {
                    say(&format!(
                        "  fallen for: {movement} {name} {} {:?}",
                        place.parts.join(";"),
                        place.bars
                    ));
                }
            }
            if complete.iter().any(|row| row[0] == *movement && row[1] == name) {
                for place in own {
                    let alike = |doubtful: bool| {
                        listed.iter().any(|other| {
                            other.kind == name && other.doubtful == doubtful && same(&score, other, place)
                        })
                    };
                    let right = alike(false);
                    if !right && alike(true) {
                        continue;
                    }
                    count.found_where_complete += 1;
                    count.right_where_complete += usize::from(right);
                    if verbose && !right {
                        let bars = score.bars();
                        let numbers = (&bars[place.bars.0].number, &bars[place.bars.1].number);
                        let part = score
                            .parts()
                            .iter()
                            .find(|part| part.staves.iter().any(|own| own.id == place.staves[0]))
                            .unwrap();
                        say(&format!("  not listed: {movement} {name} {} {numbers:?}", part.name));
                    }
                }
            }
        }
    }
    let lines: Vec<String> = counts
        .iter()
        .map(|(name, count)| {
            format!(
                "{name}: {} of {} listed places found; {} of {} found are listed where the list is complete; {} of {} near misses taken for one",
                count.met, count.listed, count.right_where_complete, count.found_where_complete, count.fallen, count.traps
            )
        })
        .collect();
    lines.iter().for_each(|line| say(line));
    hold("Places", &lines);
}
