//! A pair on one staff, in one voice: who plays follows the words over it, in what is planned and on a page of Read.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod kit;

use crookwise_musicxml::Import;
use crookwise_planner::{Ticks, of_score};
use crookwise_score::Event;
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use kit::{bar, note, one, staff};
use std::sync::Arc;

fn decoded(text: &str) -> Arc<Decoded> {
    Arc::new(decode(text, DecodeOptions::default()))
}

fn words(text: &str) -> String {
    format!("<direction><direction-type><words>{text}</words></direction-type></direction>")
}

/// Two horns on one staff: nothing said, both, the first, two parts written out, nothing said again, the second, and a note
/// that he holds while the first is told to go on.
fn horns() -> Import {
    let whole = |pitch: &str| note(&format!("{pitch} 4"), "<voice>1</voice>");
    let tie = |pitch: &str, kind: &str| {
        note(&format!("{pitch} 4"), &format!("<tie type=\"{kind}\"/><voice>1</voice>"))
    };
    let chord = whole("C5") + &whole("G4").replace("<note>", "<note><chord/>");
    let bars = [
        whole("C5"),
        words("a 2") + &whole("D5"),
        whole("E5"),
        words("1.") + &whole("G5"),
        chord,
        whole("D5"),
        words("II. Solo") + &tie("C4", "start"),
        words("a 2") + &tie("C4", "stop"),
        whole("G4"),
    ];
    let begin = "<attributes><divisions>1</divisions></attributes>";
    let music = bars.iter().enumerate().map(|(at, inside)| {
        let begin = if at == 0 { begin } else { "" };
        bar(at as u32 + 1, &format!("{begin}{inside}"))
    });
    one("Corni I. II. in C alto", &music.collect::<String>())
}

#[test]
fn what_is_planned_is_asked_of_those_who_are_named() {
    let read = horns();
    assert_eq!(staff(&read).players, 2);
    let found = of_score::in_bars(&read.score, 0..9, Ticks::default(), &mut decoded).unwrap();
    let mut asked: Vec<_> = found
        .request
        .notes
        .iter()
        .map(|note| {
            let bars = [note.from, note.to].map(|time| (time.quarters() / 4.0) as u32 + 1);
            (note.player.unwrap() + 1, bars[0], bars[1], note.sounding.0.to_string())
        })
        .collect();
    asked.sort();
    let is = |player, from, to, pitch: &str| (player, from, to, pitch.to_owned());
    let first = [
        is(1, 1, 2, "C5"),
        is(1, 2, 3, "D5"),
        is(1, 3, 4, "E5"),
        is(1, 4, 5, "G5"),
        is(1, 5, 6, "C5"),
        is(1, 6, 7, "D5"),
        is(1, 9, 10, "G4"),
    ];
    let second =
        [is(2, 2, 3, "D5"), is(2, 3, 4, "E5"), is(2, 5, 6, "G4"), is(2, 7, 9, "C4"), is(2, 9, 10, "G4")];
    assert_eq!(asked, [first.as_slice(), second.as_slice()].concat());
}

#[test]
fn a_page_of_read_has_each_note_with_those_who_are_named() {
    let read = horns();
    let page = read.score.window(&[staff(&read).id], 0..9).unwrap();
    assert_eq!(page.left_out, 0);
    let staff = &page.passage.staves()[0];
    let told = |column: usize, player: usize| match staff.cells()[column].of(player) {
        Event::Note(printed) => printed.0.to_string(),
        Event::Held => "held".to_owned(),
        Event::Rest => "-".to_owned(),
    };
    assert_eq!(staff.players(), 2);
    let of = |player: usize| (0..9).map(|column| told(column, player)).collect::<Vec<_>>();
    assert_eq!(of(0), ["C5", "D5", "E5", "G5", "C5", "D5", "-", "-", "G4"]);
    assert_eq!(of(1), ["-", "D5", "E5", "-", "G4", "-", "C4", "held", "G4"]);
    // Both have one note between them.
    assert!(staff.cells()[1].is_together() && staff.cells()[8].is_together());
}

#[test]
fn one_player_alone_is_whoever_the_words_name() {
    let music = bar(1, &(words("2.") + &note("C5 4", "")));
    let read = one("Corno II in F", &music);
    assert_eq!(staff(&read).players, 1);
    assert_eq!(staff(&read).notes()[0].1.by, crookwise_score::score::PlayedBy::Voice);
}
