//! Labels changed at random, for as long as `CROOKWISE_FUZZ_SECONDS` says (two seconds by default): the reader must
//! never panic and must always answer with a staff or a sentence. The run prints how many texts it read.

#[path = "labels_kit/holds.rs"]
mod holds;

use crookwise_theory::label::catalogue;
use holds::holds;
use std::time::{Duration, Instant};

/// Pieces that labels are made of, and pieces that they are not.
const PIECES: &[&str] = &[
    " ",
    ".",
    ",",
    "-",
    "–",
    "/",
    "(",
    ")",
    "[",
    "]",
    "'",
    "’",
    "♭",
    "♯",
    "♮",
    "b",
    "#",
    "1",
    "2",
    "99",
    "4294967296",
    "I",
    "IV",
    "x",
    "e",
    "a",
    "à",
    "in",
    "en",
    "muta in ",
    "alto",
    "basso",
    "hoch",
    "Es",
    "B",
    "H",
    "\u{301}",
    "\u{308}",
    "\u{a0}",
    "\u{202e}",
    "\u{0}",
    "\u{feff}",
    "🎺",
    "𝄫",
    "ß",
    "ﬁ",
    "İ",
    "Ⅷ",
    "½",
    "مرحبا",
    "1º",
    "not ",
    "orig. ",
    "Vc. e ",
    "umstimmen",
    "\n",
    "\t",
    "\\",
];

/// A chance that is the same every time (xorshift).
struct Chance(u64);

impl Chance {
    fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 >> 8).unwrap_or(0) % limit.max(1)
    }
}

fn corpus() -> Vec<String> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("data/labels.csv");
    let mut reader = csv::Reader::from_path(path).expect("the table of labels");
    let printed = reader.records().map(|row| row.expect("a row")[0].to_owned());
    let listed = catalogue().into_iter().flat_map(|(_, entries)| entries).map(|entry| entry.label);
    printed.chain(listed).collect()
}

/// One change: a piece put in, a stretch taken out, doubled or turned about, a letter replaced, another label joined on.
fn change(text: &str, corpus: &[String], chance: &mut Chance) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    let place = chance.below(letters.len() + 1);
    let end = (place + chance.below(6)).min(letters.len());
    match chance.below(8) {
        0 | 1 => {
            let piece = PIECES[chance.below(PIECES.len())];
            letters.splice(place..place, piece.chars());
        }
        2 => {
            letters.drain(place..end);
        }
        3 => {
            let copy = letters[place..end].to_vec();
            letters.splice(place..place, copy);
        }
        4 => letters[place..end].reverse(),
        5 => {
            if let Some(letter) = letters.get_mut(place) {
                *letter = char::from_u32(u32::try_from(chance.below(0x3000)).unwrap_or(65)).unwrap_or('?');
            }
        }
        6 => {
            let other = &corpus[chance.below(corpus.len())];
            letters.splice(place..place, other.chars());
        }
        _ => {
            let upper: String = letters.iter().collect::<String>().to_uppercase();
            letters = upper.chars().collect();
        }
    }
    letters.into_iter().collect()
}

#[test]
#[allow(clippy::print_stdout, reason = "the figure is what a long run is for")]
fn labels_changed_at_random() {
    let seconds =
        std::env::var("CROOKWISE_FUZZ_SECONDS").ok().and_then(|text| text.parse().ok()).unwrap_or(2);
    let corpus = corpus();
    let seed = std::env::var("CROOKWISE_FUZZ_SEED").ok().and_then(|text| text.parse().ok()).unwrap_or(7);
    let mut chance = Chance(seed);
    let end = Instant::now() + Duration::from_secs(seconds);
    let mut read = 0_u64;
    let mut slowest = (Duration::ZERO, String::new());
    while Instant::now() < end {
        let mut text = corpus[chance.below(corpus.len())].clone();
        for _ in 0..=chance.below(5) {
            text = change(&text, &corpus, &mut chance);
            let year = if chance.below(3) == 0 { i32::try_from(chance.below(2200)).ok() } else { None };
            let begun = Instant::now();
            holds(&text, year);
            let mut took = begun.elapsed();
            if took > slowest.0 {
                // Once more: the machine may have been busy with something else.
                for _ in 0..2 {
                    let begun = Instant::now();
                    holds(&text, year);
                    took = took.min(begun.elapsed());
                }
                slowest = if took > slowest.0 { (took, text.clone()) } else { slowest };
            }
            read += 1;
        }
    }
    println!(
        "{read} texts read in {seconds} s, the slowest in {} µs: {:?}",
        slowest.0.as_micros(),
        slowest.1
    );
    assert!(read > 0);
}
