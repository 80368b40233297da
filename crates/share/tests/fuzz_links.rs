//! Links changed at random, for as long as `CROOKWISE_FUZZ_SECONDS` says (two seconds by default): opening one must
//! never panic, what opens must go round unchanged, and what does not open must say why.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a test may panic and say what it did")]

use crookwise_share::Link;
use std::time::{Duration, Instant};

/// Links to begin with: by hand, with every field, damaged.
const CORPUS: [&str; 9] = [
    "#/read?staff=Corni+in+Es&notes=C4.E4.G4.Bb4.C5.Fs5.A4.E5",
    "#/read?v=1.3593&staff=Corni+in+Es&notes=C4.E4.G4.Bb4.C5.Fs5.A4.E5&key=Eb+major&a4=430&at=8",
    "#/read?v=1.c6e7&staff=Corni+in+B&reads=horn_-1_-2&played=valves&clef=F4&bass=new&notes=C3._.-&temperament=vallotti",
    "#/read?staff=Clarinetto+basso&clef=F4_-1&system=russian&signature=-3&page=sounding&players=2&notes=*C4.E4&notes2=-.G4",
    "#/read?staff=Corni&staff=Trombe+in+D&from=Fs&tuned=G&warmth=15_22.5&year=1805&hand=Horn+in+F",
    "#/read?staff=Corni+in+Es&players=2&crook2=horn_-8_-14&notes=C5.E5.G5&notes2=C4._&muta2=2_in+D&clef=3_F4&key=2_C+minor&bars=1_66.3&lengths=1.3_2",
    "#/practise?set=AYCIAQoBrAIBAQA&staff=Corni+in+Es&notes=C5.E5.G5",
    "#/read?v=1.0000&staff=Corni",
    "#/elsewhere?a=b",
];

/// Pieces that links are made of, and pieces that they are not.
const PIECES: [&str; 47] = [
    "&",
    "=",
    "+",
    ".",
    "_",
    "-",
    "*",
    "%",
    "%00",
    "%F0%9F%8E%BA",
    "%E2%80%AE",
    "%ff",
    "#",
    "/",
    "?",
    "s",
    "b",
    "C4",
    "Fss99",
    "99999999999",
    "-0",
    "1e309",
    "NaN",
    "staff=",
    "notes=",
    "notes4=",
    "players=4",
    "reads=cl_bb_9_9",
    "clef=C5_2",
    "system=french",
    "a4=569.99",
    "signature=7",
    "key=C+minor",
    "at=64",
    "v=1.",
    "v=2.abcd",
    "muta=2_in+D",
    "muta4=1_",
    "crook1=horn_0_0",
    "signature=2_movement",
    "bars=",
    "lengths=",
    "kept=",
    "<script>",
    "javascript:",
    "\u{202e}",
    "🎺",
];

/// A chance that is the same every time (xorshift).
struct Chance(u64);

impl Chance {
    fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 8) as usize % limit.max(1)
    }
}

/// One change: a piece put in, a stretch taken out or doubled, a letter replaced, another link joined on.
fn change(text: &str, chance: &mut Chance) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    let place = chance.below(letters.len() + 1);
    let end = (place + chance.below(12)).min(letters.len());
    match chance.below(6) {
        0 | 1 => drop(letters.splice(place..place, PIECES[chance.below(PIECES.len())].chars())),
        2 => drop(letters.drain(place..end)),
        3 => {
            let copy = letters[place..end].to_vec();
            letters.splice(place..place, copy);
        }
        4 => {
            if let Some(letter) = letters.get_mut(place) {
                *letter = char::from_u32(chance.below(0x2100) as u32).unwrap_or('?');
            }
        }
        _ => drop(letters.splice(place..place, CORPUS[chance.below(CORPUS.len())].chars())),
    }
    letters.into_iter().collect()
}

fn open(text: &str) -> Option<Link> {
    match Link::decode(text) {
        Ok(link) => link,
        Err(error) => {
            assert!(error.to_string().len() > 20, "{text}: {error}");
            None
        }
    }
}

#[test]
fn no_link_breaks_anything() {
    let seconds =
        std::env::var("CROOKWISE_FUZZ_SECONDS").ok().and_then(|text| text.parse().ok()).unwrap_or(2);
    let end = Instant::now() + Duration::from_secs(seconds);
    let mut chance = Chance(0x5eed_1e55_0f11_4b5d);
    let (mut tried, mut opened) = (0_u64, 0_u64);
    while Instant::now() < end {
        let mut text = CORPUS[chance.below(CORPUS.len())].to_owned();
        for _ in 0..=chance.below(5) {
            text = change(&text, &mut chance);
        }
        tried += 1;
        if let Some(link) = open(&text) {
            opened += 1;
            let again = link.encode();
            assert_eq!(open(&again).as_ref(), Some(&link), "{text} became {again}");
            let packed = link.pack();
            assert_eq!(open(&packed).as_ref(), Some(&link), "{text} became {packed}");
        }
    }
    assert!(opened * 1_000 > tried, "hardly any link opened: the changes say nothing");
    println!("{tried} links tried, {opened} opened and went round unchanged");
}
