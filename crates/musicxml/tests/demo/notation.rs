//! What stands on the page: bars, keys, times, repeats, words, signs.

use crate::{FILE, opened, staff};
use crookwise_score::ChangeTo;
use crookwise_score::score::{BarLine, Direction, Mark, Moment, NoteValue, PartStaff, Quarters, Score};

/// The printed number of the bar at a time.
fn bar_at(score: &Score, time: Quarters) -> String {
    score.bars()[score.bar_at(time)].number.to_string()
}

#[test]
fn nothing_in_the_file_is_odd() {
    let read = opened();
    assert_eq!(read.remarks, []);
    assert_eq!(read.score.title.as_ref(), "Introduction and Rondo");
    let names: Vec<&str> = read.score.parts().iter().map(|part| part.name.as_ref()).collect();
    let players: Vec<usize> = read.score.staves().map(|staff| staff.players).collect();
    assert_eq!(
        names,
        [
            "Flauto",
            "2 Oboi",
            "2 Clarinetti in A",
            "2 Fagotti",
            "Corno I in D",
            "Corno II in D",
            "Corno III in F",
            "Corno IV in F",
            "Tromba I in D",
            "Tromba II in D",
            "Timpani in D A",
            "Violino I",
            "Violino II",
            "Viola",
            "Violoncello",
            "Contrabbasso",
        ]
    );
    assert_eq!(players, [1, 2, 2, 2, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1]);
}

#[test]
fn eighty_one_bars_and_an_upbeat_in_two_keys_and_times() {
    let score = opened().score;
    assert_eq!(score.bars().len(), 82);
    let length = |bar: usize| score.bars()[bar].length;
    assert_eq!(
        (length(0), length(1), length(13)),
        (Quarters::whole(1), Quarters::whole(4), Quarters::whole(3))
    );
    let times: Vec<(&str, u16, u16)> = score
        .bars()
        .iter()
        .filter_map(|bar| bar.time.map(|time| (bar.number.as_ref(), time.beats, time.value)))
        .collect();
    assert_eq!(times, [("0", 4, 4), ("13", 6, 8)]);
    let key = |bar: usize| score.movement_at(Moment::measured(score.bars()[bar].start)).unwrap().to_string();
    assert_eq!(
        (key(0), key(12), key(13), key(81)),
        ("D minor".into(), "D minor".into(), "D major".into(), "D major".into())
    );
}

#[test]
fn the_refrain_is_repeated_with_two_endings() {
    let score = opened().score;
    let signs = |bar: usize| &score.bars()[bar].signs;
    assert!(signs(13).repeat_from);
    assert_eq!(
        (signs(20).ending.as_deref(), signs(20).repeat_to, signs(20).ending_ends),
        (Some("1"), Some(2), true)
    );
    assert_eq!(
        (signs(21).ending.as_deref(), signs(21).repeat_to, signs(21).ending_ends),
        (Some("2"), None, true)
    );
    assert_eq!((signs(12).line, signs(81).line), (BarLine::Double, BarLine::Final));
}

#[test]
fn letters_tempi_and_words_stand_over_the_first_staff() {
    let score = opened().score;
    let mut letters = Vec::new();
    let mut tempi = Vec::new();
    let mut words = Vec::new();
    for told in &staff(&score, "Flauto").directions {
        let bar = bar_at(&score, told.at.time);
        match &told.direction {
            Direction::Rehearsal(letter) => letters.push(format!("{letter} {bar}")),
            Direction::Tempo(tempo) => tempi.push(format!("{tempo} {bar}")),
            Direction::Words(text) => words.push(format!("{text} {bar}")),
            _ => {}
        }
    }
    assert_eq!(letters, ["A 13", "B 22", "C 38", "D 54", "E 62", "F 73"]);
    // Thousandths of a quarter note a minute: 54 quarters, 100 dotted quarters.
    assert_eq!(tempi, ["54000 0", "150000 13"]);
    assert_eq!(words, ["Adagio 0", "Rondo. Allegro 13", "poco ritenuto 77", "a tempo 79"]);
}

#[test]
fn who_plays_of_two_is_said() {
    let score = opened().score;
    let words = |name: &str| -> Vec<String> {
        let all = staff(&score, name).directions.iter();
        all.filter_map(|told| match &told.direction {
            Direction::Words(text) => Some(format!("{text} {}", bar_at(&score, told.at.time))),
            _ => None,
        })
        .collect()
    };
    assert_eq!(words("2 Oboi"), ["1. 22", "1. 57", "a 2 62"]);
    assert_eq!(words("2 Clarinetti in A"), ["a 2 30", "1. 55", "a 2 70"]);
    assert_eq!(words("Violoncello"), ["pizz. 38", "arco 52"]);
    assert_eq!(words("Corno I in D"), ["Solo 5", "Solo 77"]);
    assert_eq!(words("Corno III in F"), ["muta in G 12", "Solo 40", "in G 40"]);
    assert_eq!(words("Corno IV in F"), ["muta in G 12", "in G 48"]);
}

#[test]
fn every_sign_that_the_demo_shows_is_there() {
    let score = opened().score;
    let looks = || score.staves().flat_map(PartStaff::notes).map(|(_, note)| note.look);
    let marks = |mark: Mark| looks().filter(|look| look.marks.has(mark)).count();
    // Five of the first horn and two of the third; one open again.
    assert_eq!((marks(Mark::Stopped), marks(Mark::Open)), (7, 1));
    assert_eq!(marks(Mark::Trill), 3);
    // Two halts of all staves: a sign for each, and on stems of two one for both.
    assert!(marks(Mark::Fermata) >= 32, "{}", marks(Mark::Fermata));
    for mark in [Mark::Staccato, Mark::Accent, Mark::Tenuto] {
        assert!(marks(mark) > 0, "{mark:?}");
    }
    assert!(looks().filter(|look| look.tremolo.is_some()).count() > 40);
    assert!(looks().filter(|look| look.slurs_begin > 0).count() > 60);
    assert_eq!(
        looks().map(|look| i32::from(look.slurs_begin) - i32::from(look.slurs_end)).sum::<i32>(),
        0,
        "every slur that begins ends"
    );
    assert!(looks().filter(|look| look.value == Some(NoteValue::N16)).count() >= 6);
    let graces = score.staves().flat_map(PartStaff::notes).filter(|(_, note)| note.grace).count();
    assert!(graces >= 2, "{graces}");
    let all = || score.staves().flat_map(|staff| &staff.directions).map(|told| &told.direction);
    let hairpins = |wanted: &Direction| all().filter(|one| *one == wanted).count();
    let (begin, end) = (
        hairpins(&Direction::Crescendo) + hairpins(&Direction::Diminuendo),
        hairpins(&Direction::HairpinEnds),
    );
    assert!(begin > 20 && begin == end, "{begin} hairpins begin and {end} end");
    let loud: Vec<&str> = all()
        .filter_map(|one| if let Direction::Dynamic(sign) = one { Some(sign.as_ref()) } else { None })
        .collect();
    for sign in ["pp", "p", "mp", "mf", "f", "ff"] {
        assert!(loud.contains(&sign), "{sign}");
    }
    // Long rests are counted in one in the parts that have them.
    assert!(FILE.contains("<multiple-rest>14</multiple-rest>"));
}

#[test]
fn the_low_horn_has_a_bass_clef_for_eight_bars() {
    let score = opened().score;
    let clefs: Vec<String> = staff(&score, "Corno II in D")
        .changes()
        .iter()
        .filter(|change| matches!(change.to, ChangeTo::Clef(_)))
        .map(|change| bar_at(&score, change.at.time))
        .collect();
    assert_eq!(clefs, ["5", "13"]);
}

#[test]
fn every_tie_goes_on_to_the_same_note() {
    let score = opened().score;
    for staff in score.staves() {
        for (_, note) in staff.notes().iter().filter(|(_, note)| note.look.tied_on) {
            let next = staff.notes().iter().any(|(_, other)| {
                other.tied && other.printed == note.printed && other.start.time == note.end.time
            });
            assert!(next, "{} in bar {}", staff.label, note.bar);
        }
    }
}
