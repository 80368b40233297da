//! How long an opened score takes to answer what a page asks of it: `asking FILE`.
#![allow(clippy::print_stdout, reason = "it prints")]

use crookwise_opened::{Answer, Ask, ScoreHolder, wire};
use std::time::Instant;

fn main() {
    let file = std::fs::read(std::env::args().nth(1).expect("a file")).expect("a file");
    let mut holder = ScoreHolder::default();
    let mut ask = |name: &str, ask: Ask, file: Vec<u8>| {
        let start = Instant::now();
        let answer = holder.answer(ask, file, &mut |_| {});
        let reckoned = start.elapsed();
        let bytes = wire::write(&answer);
        println!("{name:>10} {reckoned:>10.1?}, {} bytes in {:.1?}", bytes.len(), start.elapsed() - reckoned);
        answer
    };
    ask("open", Ask::Open(String::new()), file);
    ask("audit", Ask::Audit { valves_too: false }, vec![]);
    ask("map", Ask::Map, vec![]);
    ask("harmonies", Ask::Harmonies, vec![]);
    ask("again", Ask::Harmonies, vec![]);
    ask("places", Ask::Places, vec![]);
    let Answer::Map(map) = ask("map", Ask::Map, vec![]) else { panic!("a map") };
    let staves: Vec<u32> = map.staves.iter().map(|row| row.staff).collect();
    let spot = |place| crookwise_opened::RoadSpot { place, quarters: (0, 1) };
    ask("play", Ask::Play { staves: staves.clone(), from: spot(0), to: spot(4) }, vec![]);
    ask("play", Ask::Play { staves, from: spot(600), to: spot(604) }, vec![]);
}
