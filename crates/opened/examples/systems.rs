//! Writes some systems of a score as a page to look at: `systems FILE ROWS WIDTH FIRST COUNT`, rows as `12,13wsm 4w` (staves,
//! then w for written, s for sounding, m for partials), `+` for the harmonies under them. Without rows it lists the staves.
#![allow(clippy::print_stdout, clippy::print_stderr, reason = "it prints")]

use crookwise_opened::{Answer, Ask, RowWanted, ScoreHolder, TogetherShown};
use std::time::Instant;

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    let file = std::fs::read(&arguments[1]).expect("a file");
    let mut holder = ScoreHolder::default();
    let Answer::Score(summary) = holder.answer(Ask::Open(String::new()), file, &mut |_| {}) else {
        panic!("a score")
    };
    if arguments.len() < 3 {
        for part in &summary.parts {
            for staff in &part.staves {
                eprintln!("{} {} {}", staff.staff, part.name, staff.label);
            }
        }
        return;
    }
    let has_chords = arguments[2].contains('+');
    let together = if has_chords { TogetherShown::Shown } else { TogetherShown::No };
    let rows = arguments[2].trim_end_matches(['+', ' ']).split(' ').map(|text| {
        let letters: String = text.chars().filter(char::is_ascii_alphabetic).collect();
        let numbers: String = text.chars().filter(|letter| !letter.is_ascii_alphabetic()).collect();
        RowWanted {
            staves: numbers.split(',').map(|number| number.parse().expect("a number")).collect(),
            written: letters.contains('w'),
            sounding: letters.contains('s'),
            made: letters.contains('m'),
        }
    });
    let number = |at: usize| arguments[at].parse::<u32>().expect("a number");
    let start = Instant::now();
    let ask = Ask::Sheet {
        rows: rows.collect(),
        unseen: Vec::new(),
        together,
        width: number(3) * 100,
        letters: 200,
        gathered: false,
        high: None,
    };
    let Answer::Sheet(systems) = holder.answer(ask, Vec::new(), &mut |_| {}) else { panic!("a sheet") };
    eprintln!("{} systems in {:?}", systems.len(), start.elapsed());
    let Answer::Signs(signs) = holder.answer(Ask::Signs, Vec::new(), &mut |_| {}) else { panic!("signs") };
    println!(
        "<!doctype html><meta charset=utf-8><style>body{{margin:10px;font-family:serif;background:#fffdf7}} svg{{display:block;margin-bottom:14px}} .ink-staff,.ink-ledger{{color:#70675a}} .ink-sounding{{color:#0f6b66}} .ink-muted{{color:#6b6255}} .ink-warning{{color:#98312a}}</style>"
    );
    println!("{}{signs}", crookwise_engraving::svg::glyph_defs());
    let start = Instant::now();
    for at in number(4)..number(4) + number(5) {
        let Answer::System(drawn) = holder.answer(Ask::System(at), Vec::new(), &mut |_| {}) else { break };
        let scale = 7.0;
        let (wide, high) = (f64::from(drawn.size.0) / 100.0 * scale, f64::from(drawn.size.1) / 100.0 * scale);
        let sized = format!("<svg width='{wide}' height='{high}' ");
        println!("{}", drawn.pictures.concat().replacen("<svg ", &sized, 1));
    }
    eprintln!("drawn in {:?}", start.elapsed());
}
