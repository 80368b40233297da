//! How long an opened score takes to answer what a page asks of it: `asking FILE`.
#![allow(clippy::print_stdout, reason = "it prints")]

use crookwise_opened::{Answer, Ask, RoadSpot, RowWanted, ScoreHolder, TogetherShown, wire};
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
    let Answer::Score(summary) = ask("open", Ask::Open(String::new()), file) else { panic!("a score") };
    ask("audit", Ask::Audit { valves_too: false }, vec![]);
    let brass = summary.parts.iter().flat_map(|part| &part.staves).filter(|staff| staff.stands_out);
    let row = |staff: u32| RowWanted { staves: vec![staff], written: true, sounding: true, made: true };
    let rows = brass.map(|staff| row(staff.staff)).collect();
    ask(
        "sheet",
        Ask::Sheet {
            rows,
            unseen: Vec::new(),
            together: TogetherShown::No,
            width: 15_000,
            letters: 200,
            gathered: false,
            high: None,
        },
        vec![],
    );
    ask("system", Ask::System(3), vec![]);
    ask("map", Ask::Map, vec![]);
    ask("harmonies", Ask::Harmonies, vec![]);
    ask("places", Ask::Places, vec![]);
    let Answer::Map(map) = ask("map", Ask::Map, vec![]) else { panic!("a map") };
    let staves: Vec<u32> = map.staves.iter().map(|row| row.staff).collect();
    ask("play", Ask::Play { staves, from: RoadSpot::bar(600), to: RoadSpot::bar(604) }, vec![]);
}
