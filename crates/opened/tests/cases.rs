//! Small scores of our own, each for one thing that engravers do, and how it is laid out: `cases/NAME.musicxml` and beside it
//! `cases/NAME.txt`, an element of the picture a line. `UPDATE=1` rewrites these; to look at one, draw it with the example
//! `systems`.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_opened::{Answer, Ask, DrawnRow, RowWanted, ScoreHolder, Summary, TogetherShown};
use std::path::PathBuf;

/// Each case with the rows that are drawn, as for the example, and the width in staff spaces.
const CASES: [(&str, &str, u32); 19] = [
    ("beams", "0w", 120),
    ("change_of_crook", "0wsm 1w", 120),
    ("changes", "0w 1ws", 110),
    ("crooks", "0ws 1ws", 80),
    ("curves", "0w", 70),
    ("graces", "0w", 100),
    ("groups", "0,1w 2w 3w 4w", 90),
    ("loudness", "0w", 100),
    ("marks", "0w 1w", 100),
    ("memory", "0ws", 120),
    ("ottava", "0w 1w", 80),
    ("pair", "0,1w", 120),
    ("repeats", "0w", 100),
    ("rests", "0w", 120),
    ("tuplets", "0w", 100),
    ("unheeded", "0ws", 90),
    ("values", "0w 1w", 120),
    ("voices", "0w", 120),
    ("words", "0w 1w", 100),
];

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/cases")
}

fn open(name: &str) -> (ScoreHolder, Summary) {
    let file = std::fs::read(folder().join(format!("{name}.musicxml"))).unwrap();
    let mut holder = ScoreHolder::default();
    match holder.answer(Ask::Open(String::new()), file, &mut |_| {}) {
        Answer::Score(summary) => (holder, *summary),
        other => panic!("{name}: {other:?}"),
    }
}

fn rows(text: &str) -> Vec<RowWanted> {
    let row = |text: &str| {
        let staves = text.trim_end_matches(char::is_alphabetic);
        RowWanted {
            staves: staves.split(',').map(|number| number.parse().unwrap()).collect(),
            written: text.contains('w'),
            sounding: text.contains('s'),
            made: text.contains('m'),
        }
    };
    text.split(' ').map(row).collect()
}

/// The systems of some rows.
fn drawn(holder: &mut ScoreHolder, rows: Vec<RowWanted>, width: u32) -> Vec<DrawnRow> {
    let ask = Ask::Sheet {
        rows,
        unseen: Vec::new(),
        together: TogetherShown::No,
        width: width * 100,
        letters: 160,
        gathered: false,
        high: None,
    };
    let Answer::Sheet(systems) = holder.answer(ask, Vec::new(), &mut |_| {}) else { panic!() };
    let draw = |number| match holder.answer(Ask::System(number), Vec::new(), &mut |_| {}) {
        Answer::System(drawn) => *drawn,
        other => panic!("{other:?}"),
    };
    (0..u32::try_from(systems.len()).unwrap()).map(draw).collect()
}

fn of_case(name: &str, text: &str, width: u32) -> Vec<DrawnRow> {
    drawn(&mut open(name).0, rows(text), width)
}

/// A picture with an element a line: its name and what its attributes say.
fn listed(svg: &str) -> String {
    let mut text = String::new();
    for tag in svg.split('<').filter(|tag| !tag.is_empty() && !tag.starts_with('/')) {
        let (tag, said) = tag.split_once('>').unwrap();
        let name = tag.split([' ', '/']).next().unwrap();
        let values = tag.split('"').skip(1).step_by(2).collect::<Vec<_>>().join(" ");
        text.push_str(&format!("{name} {values} {said}").trim_end().replace("#g-", ""));
        text.push('\n');
    }
    text
}

#[test]
fn each_case_is_laid_out_as_it_was_seen() {
    let mut other = Vec::new();
    for (name, rows, width) in CASES {
        let systems: Vec<String> =
            of_case(name, rows, width).iter().map(|row| listed(&row.pictures[0])).collect();
        let actual = systems.join("\n");
        let path = folder().join(format!("{name}.txt"));
        if std::env::var_os("UPDATE").is_some() {
            std::fs::write(&path, &actual).unwrap();
        }
        if std::fs::read_to_string(&path).unwrap_or_default() != actual {
            other.push(name);
        }
    }
    assert!(other.is_empty(), "{other:?} differ; run with UPDATE=1 and look at them");
}

/// The bar lines of each row of a system: where uprights in the ink of the staff cross its middle line.
fn bar_lines(system: &DrawnRow) -> Vec<Vec<f64>> {
    let mut uprights: Vec<(f64, f64, f64)> = Vec::new();
    let mut of_staff = false;
    for line in listed(&system.pictures[0]).lines() {
        if let Some(ink) = line.strip_prefix("g ") {
            of_staff = ink.starts_with("ink-staff");
        }
        let Some(rest) = line.strip_prefix("rect ").filter(|_| of_staff) else { continue };
        let numbers: Vec<f64> = rest.split(' ').map(|word| word.parse().unwrap()).collect();
        if let &[x, y, wide, high] = numbers.as_slice()
            && high >= 3.9
        {
            uprights.push((x + wide / 2.0, y, y + high));
        }
    }
    let middles = system.tops.iter().map(|top| f64::from(top - system.tops[0]) / 100.0 + 2.0);
    let crossed = |middle: f64| {
        let mut own: Vec<f64> = uprights
            .iter()
            .filter(|(_, from, to)| (*from..*to).contains(&middle))
            .map(|(x, ..)| *x)
            .collect();
        own.sort_by(f64::total_cmp);
        own
    };
    middles.map(crossed).collect()
}

/// Within a pixel, which is a tenth of a space of the smallest staff, at any width.
#[test]
fn bar_lines_of_what_is_written_and_what_sounds_stand_under_each_other() {
    for (name, rows) in
        [("change_of_crook", "0ws 1w"), ("changes", "0w 1ws"), ("memory", "0ws"), ("rests", "0ws")]
    {
        for width in [45, 90, 140] {
            for system in of_case(name, rows, width) {
                let lines = bar_lines(&system);
                let first = &lines[0];
                assert!(first.len() > 1, "{name}, {width}: {first:?}");
                for own in &lines {
                    assert_eq!(own.len(), first.len(), "{name}, {width}");
                    let apart = own.iter().zip(first).map(|(one, two)| (one - two).abs());
                    assert!(apart.fold(0.0, f64::max) < 0.1, "{name}, {width}: {own:?} {first:?}");
                }
            }
        }
    }
}

/// What stands on a row, in its order: signs by their names, texts by their words.
fn said(system: &DrawnRow) -> Vec<String> {
    let line = |line: &str| {
        let (kind, rest) = line.split_once(' ')?;
        match kind {
            "use" => Some(rest.split(' ').next()?.to_owned()),
            "text" => Some(rest.rsplit(' ').next()?.to_owned()),
            _ => None,
        }
    };
    listed(&system.pictures[0]).lines().filter_map(line).collect()
}

fn count(systems: &[DrawnRow], sign: &str) -> usize {
    systems.iter().flat_map(said).filter(|said| said == sign).count()
}

#[test]
fn a_pair_is_one_row_and_different_crooks_are_two() {
    assert_eq!(open("pair").1.pairs, [(0, 1)]);
    assert!(open("crooks").1.pairs.is_empty());
    // Each head of the two parts, and one for what both have in unison.
    let (both, first, second) =
        (of_case("pair", "0,1w", 120), of_case("pair", "0w", 120), of_case("pair", "1w", 120));
    let heads = |systems: &[DrawnRow]| systems.iter().map(|system| system.heads.len()).sum::<usize>();
    let unisons = 2 + 2 + 1 + 1 + 1;
    assert_eq!(heads(&both) + unisons, heads(&first) + heads(&second));
    // Split and joined again is the same.
    let again = of_case("pair", "0,1w", 120);
    assert_eq!(
        again.iter().map(|row| &row.pictures).collect::<Vec<_>>(),
        both.iter().map(|row| &row.pictures).collect::<Vec<_>>()
    );
}

/// What the pictures are full of, named: a case whose sign is not drawn shows nothing.
#[test]
fn every_sign_of_the_cases_is_drawn() {
    for (name, rows, signs) in [
        (
            "graces",
            "0w",
            &[
                "ornamentTrill",
                "ornamentTurn",
                "ornamentTurnInverted",
                "ornamentMordent",
                "ornamentShortTrill",
                "wiggleArpeggiatoUp",
            ][..],
        ),
        (
            "marks",
            "0w 1w",
            &[
                "articAccentAbove",
                "articStaccatoAbove",
                "articTenutoAbove",
                "articMarcatoAbove",
                "articMarcatoBelow",
                "articStaccatissimoAbove",
                "articStaccatissimoBelow",
                "fermataAbove",
                "breathMarkComma",
                "caesura",
                "brassMuteClosed",
                "brassMuteOpen",
                "brassMuteHalfClosed",
                "stringsUpBow",
                "stringsDownBow",
            ],
        ),
        ("repeats", "0w", &["segno", "coda", "1.", "2."]),
        ("groups", "0,1w 2w 3w 4w", &["bracketTop", "bracketBottom", "brace"]),
        (
            "changes",
            "0w 1ws",
            &["cClefChange", "gClefChange", "fClefChange", "timeSigCutCommon", "timeSigCommon"],
        ),
        ("loudness", "0w", &["dynamicPiano", "dynamicMezzo", "dynamicForte", "dynamicSforzando", "dynamicZ"]),
        ("ottava", "0w 1w", &["8", "15", "(8)"]),
        ("words", "0w 1w", &["A", "B", "Andante", "Solo"]),
        ("tuplets", "0w", &["3", "6"]),
        (
            "values",
            "0w 1w",
            &[
                "noteheadDoubleWhole",
                "noteheadWhole",
                "noteheadHalf",
                "noteheadBlack",
                "flag8thDown",
                "flag16thUp",
                "rest8th",
                "rest16th",
                "rest32nd",
                "restHalf",
                "restQuarter",
                "restDoubleWhole",
                "augmentationDot",
            ],
        ),
    ] {
        let systems = of_case(name, rows, if name == "ottava" { 80 } else { 100 });
        for sign in signs {
            assert!(count(&systems, sign) > 0, "{name}: {sign}");
        }
    }
}

/// A heading of tempo stands once, over the first row, whichever part has it.
#[test]
fn headings_of_tempo_stand_over_all() {
    let horn = of_case("words", "1w", 100);
    assert_eq!(count(&horn, "Andante"), 1);
    assert!(listed(&horn[0].pictures[0]).contains("Allegro con brio"));
    assert_eq!(count(&of_case("words", "0w 1w", 100), "Andante"), 1);
}

/// What the next system begins with anew stands behind the last bar line of the one before.
#[test]
fn systems_end_with_what_the_next_begins() {
    let systems = of_case("changes", "0w 1w", 110);
    assert_eq!(systems.len(), 2);
    assert_eq!(count(&systems[..1], "timeSigCutCommon"), 2);
    assert_eq!(count(&systems[1..], "timeSigCutCommon"), 2);
}
