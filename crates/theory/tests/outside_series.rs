//! Partials, crooks and the hand, against *Encyclopædia Britannica* 1911, Grove 1879 and 1954, Widor, and music21.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod outside;

use crookwise_theory::label::StaffLabel;
use crookwise_theory::tables::{HORN_CROOKS, TRUMPET_CROOKS};
use crookwise_theory::{
    Clef, Crook, CrookFamily, Grade, Habits, Intonation, Making, Partial, Pitch, Printed, Production, Reach,
    Situation, Sounding, Step, Transposition, Tuning, Written, read, write,
};
use outside::{float, int, oracle_rows, pitch, pitches, staff, table, text};

/// Partials 1 to 32: cents 1200·log₂ n; the notes as the trade writes them, 1 to 16 after Grove 1879, vol. 1,
/// pp. 749–750, above common practice.
#[test]
fn partials_of_the_trades_table() {
    let rows = table("harmonics.csv");
    assert_eq!(rows.len(), 32);
    for (row, number) in rows.iter().zip(1..) {
        assert_eq!(row[0].parse(), Ok(number));
        let partial = Partial::new(number).unwrap();
        assert!((partial.cents() - row[2].parse::<f64>().unwrap()).abs() < 1e-4, "{number}");
        assert!((partial.deviation() - row[4].parse::<f64>().unwrap()).abs() < 1e-4, "{number}");
        // The nearest key of the keyboard follows from cents and deviation.
        let nearest = pitches(&row[3])[0];
        let above = f64::from((nearest.midi() - 36) * 100);
        assert!((partial.cents() - partial.deviation() - above).abs() < 1e-4, "{number}");
        let named = pitches(&row[1]);
        let usual = partial.written_midi();
        assert_eq!(usual[0], named[0].midi(), "{number}");
        if number <= 16 {
            assert!(usual.iter().all(|midi| named.iter().any(|note| note.midi() == *midi)), "{number}");
            assert!(named.iter().all(|note| usual.contains(&note.midi())), "{number}");
        }
    }
}

/// 1200·log₂ n as stored, and music21 10.5.1 within its rounding to whole cents. The names up to 16 are the
/// convention of natural brass (from memory in the oracle); music21's own spelling with quarter-tones is none.
#[test]
fn partials_of_other_libraries() {
    let rows = oracle_rows("harmonics.json");
    assert_eq!(rows.len(), 32);
    for row in &rows {
        let number = u8::try_from(int(&row["n"])).unwrap();
        let partial = Partial::new(number).unwrap();
        assert!((partial.cents() - float(&row["cents"])).abs() < 1e-5, "{row}");
        assert!((partial.deviation() - float(&row["deviation_cents"])).abs() < 1e-4, "{row}");
        assert!((partial.cents() - float(&row["music21_total_cents"])).abs() <= 0.5, "{row}");
        let nearest = (partial.cents() - partial.deviation()) / 100.0;
        assert!((nearest - float(&row["nearest_12tet_semitones"])).abs() < 1e-6, "{row}");
        if number <= 16 {
            // "F#5 (F5/F#5)" names both; the usual note must be among them.
            let name = text(&row["conventional_name_on_C"]);
            let midis = partial.written_midi();
            let found = name
                .split([' ', '/', '(', ')'])
                .filter_map(|part| part.parse::<Pitch>().ok())
                .filter(|note| midis.contains(&note.midi()))
                .count();
            assert!(found >= 1, "{row}");
        }
    }
}

/// Crook lengths: EB1911 "Horn" gives a body of 7 ft 4 in and ten crooks; Grove 1954 the whole tube, calculated for
/// A = 435 (as J. Ericson, "Chart of tube lengths", Horn Matters 2023, reports it). The two disagree, and both are
/// kept.
#[test]
fn crook_lengths_after_britannica_and_grove() {
    const BODY: f64 = 7.0 * 12.0 + 4.0;
    // Crook in inches by EB1911; feet and inches by Grove 1954.
    type Length = (&'static str, Option<f64>, Option<(f64, f64)>);
    let lengths: [Length; 11] = [
        ("C alto", None, Some((8.0, 2.125))),
        ("B-flat alto", Some(16.0), Some((9.0, 2.5))),
        ("A (alto)", Some(22.5), Some((9.0, 9.0))),
        ("A-flat (alto)", Some(29.5), None),
        ("G", Some(36.75), Some((10.0, 11.0))),
        ("F", Some(52.5), Some((12.0, 3.5))),
        ("E", Some(61.0), Some((13.0, 0.0))),
        ("E-flat", Some(70.25), Some((13.0, 9.25))),
        ("D", Some(80.0), Some((14.0, 7.25))),
        ("C basso", Some(101.0), Some((16.0, 4.25))),
        ("B-flat basso", Some(125.0), Some((18.0, 5.0))),
    ];
    for (name, britannica, grove) in lengths {
        let crook = HORN_CROOKS.iter().find(|crook| crook.name == name).unwrap();
        assert_eq!(crook.britannica_inches, britannica.map(|inches| BODY + inches), "{name}");
        assert_eq!(crook.grove_inches, grove.map(|(feet, inches)| feet * 12.0 + inches), "{name}");
        if let (Some(shorter), Some(longer)) = (crook.britannica_inches, crook.grove_inches) {
            assert!((5.0..=8.0).contains(&(longer - shorter)), "{name}: {}", longer - shorter);
        }
    }
    for crook in &HORN_CROOKS {
        if !lengths.iter().any(|(name, ..)| *name == crook.name) {
            assert_eq!((crook.britannica_inches, crook.grove_inches), (None, None), "{}", crook.name);
        }
    }
    let inches =
        |name: &str| HORN_CROOKS.iter().find(|crook| crook.name == name).unwrap().grove_inches.unwrap();
    assert!((inches("C alto") - inches("C basso") / 2.0).abs() < 1e-9);
}

/// EB1911 "Horn": the partials to expect of each crook; that of C alto by analogy, without a source.
#[test]
fn comfortable_partials_after_britannica() {
    for crook in &HORN_CROOKS {
        let expected = match crook.name {
            "C alto" | "B-flat alto" | "A (alto)" | "A-flat (alto)" => Some((2, 10)),
            "G" => Some((2, 12)),
            "F" | "E" | "E-flat" | "D" => Some((2, 16)),
            "C basso" | "B-flat basso" => Some((3, 16)),
            _ => None,
        };
        assert_eq!(crook.comfortable, expected, "{}", crook.name);
    }
    // Beethoven writes partial 12 for B-flat alto and A all the same, so it is in the stock of every crook.
    assert_eq!(Partial::classical(CrookFamily::Horn), (2, 12));
    assert_eq!(Partial::of(CrookFamily::Horn, pitch("G5")).unwrap().number(), 12);
}

/// The first partial of each crook, its frequency at A 440 and half its wave at 20 °C, c = 331.3·√(1 + t/273.15) m/s.
#[test]
fn first_partials_and_tube_lengths() {
    let speed = 331.3 * libm::sqrt(1.0 + 20.0 / 273.15);
    let check = |crook: &Crook, name: &str, note: &str, hz: &str| {
        assert_eq!(crook.name, name);
        let first = crook.transposition.to_sounding(Written(pitch("C2")));
        assert_eq!(first.to_string(), note, "{name}");
        let frequency = Intonation::default().natural_hz(Partial::new(1).unwrap(), crook.transposition);
        assert!((frequency - hz.parse::<f64>().unwrap()).abs() < 6e-4, "{name}");
        assert!((frequency - Tuning::default().frequency(first.0)).abs() < 1e-9, "{name}");
        // To the millimetre, c taken as 343.2 or 343.21.
        assert!((speed / 2.0 / frequency - crook.tube_metres).abs() < 1.5e-3, "{name}");
    };
    for (row, crook) in table("horn_crooks.csv").iter().zip(&HORN_CROOKS) {
        check(crook, &row[0], &row[13], &row[14]);
        assert_eq!(crook.transposition.fifths().to_string(), row[6], "{}", &row[0]);
        // Grove 1879, vol. 1, p. 750: the horn sounds below what is written, but for C alto.
        assert_eq!(crook.transposition.0.semitones < 0, crook.name != "C alto", "{}", crook.name);
    }
    for (row, crook) in table("trumpet_crooks.csv").iter().zip(&TRUMPET_CROOKS) {
        check(crook, &row[0], &row[7], &row[8]);
        assert_eq!(crook.transposition.fifths().to_string(), row[4], "{}", &row[0]);
    }
}

/// Grove 1879, vol. 2, p. 478, and the trap in it: the same label, the opposite way. Horn and trumpet of one key
/// differ by an octave.
#[test]
fn the_same_label_goes_down_for_the_horn_and_up_for_the_trumpet() {
    for (key, horn, trumpet) in [("D", -10, 2), ("E-flat", -9, 3), ("E", -8, 4), ("F", -7, 5), ("G", -5, 7)] {
        let semitones = |label: String| staff(&label).transposition.0.semitones;
        assert_eq!(semitones(format!("Horn in {key}")), horn, "{key}");
        assert_eq!(semitones(format!("Trumpet in {key}")), trumpet, "{key}");
    }
}

/// Widor, *Initiation musicale*, p. 34: his sign over every written note against how it is made here.
/// Where partial 11 serves, today's teachers (R. Burdick, naturalhorn.com) do otherwise, and both ways are told.
#[test]
fn widors_signs() {
    let rows = table("handhorn.csv");
    assert_eq!(rows.len(), 37);
    let mut between = (0, 0);
    for row in &rows {
        let midi: i32 = row[0].parse().unwrap();
        let note = pitches(&row[1])[0];
        assert_eq!(note.midi(), midi);
        let reach = Reach::of(CrookFamily::Horn, note).unwrap();
        let (production, other) = (reach.production, reach.other);
        let attacks: i32 = row[7].parse().unwrap();
        match (&row[2], note.to_string().as_str()) {
            // From partial 11, which is a quarter-tone too high for F: less than half of the bell.
            ("½", "F5") => assert_eq!(production, Production::Quarter),
            // From partial 11 with the hand out; half stopped from partial 12 is the other way.
            ("½", "F#5") => {
                assert_eq!((production, other), (Production::HandOut, Some(Production::Half)));
                assert!(reach.other_note.contains("Widor"));
            }
            ("½", _) => {
                assert_eq!(production, Production::Half, "{note}");
                assert_eq!(reach.grade, Grade::B, "{note}");
                between.0 += attacks;
            }
            ("+", _) => {
                assert!(matches!(production, Production::Full | Production::ThreeQuarter), "{note}");
                assert_eq!(reach.grade, Grade::D, "{note}");
                between.1 += attacks;
            }
            // The one semitone for which he prints no sign.
            ("(no sign)", _) => {
                assert_eq!((note.to_string().as_str(), production), ("C#4", Production::Full));
                between.1 += attacks;
            }
            // Open in his table; the partial is 31 cents flat, so today's hand draws out.
            ("open", "A#4") => assert_eq!((production, reach.partial), (Production::HandOut, Some(7))),
            ("open", _) => assert_eq!((production, reach.grade), (Production::Open, Grade::A), "{note}"),
            // Beyond his table.
            ("–", _) => assert!(!(54..=79).contains(&midi), "{note}"),
            (other, _) => panic!("{other}"),
        }
    }
    // Of the attacks of Beethoven's horns on notes between the open ones, 746 are half stopped in this way and 34
    // are not.
    assert_eq!(between, (746, 34));
}

/// His rule: the semitone directly below an open note is made by closing half the bell.
#[test]
fn widors_rule_is_the_semitone_below_an_open_note() {
    let rows = table("handhorn.csv");
    let open: Vec<i32> =
        rows.iter().filter(|row| &row[2] == "open").map(|row| row[0].parse().unwrap()).collect();
    for row in &rows {
        let midi: i32 = row[0].parse().unwrap();
        if &row[2] == "½" {
            // F5 counts from F-sharp 5, partial 11.
            assert!(open.contains(&(midi + 1)) || midi == 77, "{}", &row[1]);
        }
        if &row[2] == "+" {
            assert!(!open.contains(&(midi + 1)), "{}", &row[1]);
        }
    }
}

/// Cents from the partials above and below, as the table of the hand horn has them, in equal temperament.
#[test]
fn cents_from_the_neighbouring_partials() {
    for row in &table("handhorn.csv") {
        let written = Written(pitches(&row[1])[0]);
        for cell in [&row[5], &row[6]] {
            let (partial, cents) = cell.split_once(' ').unwrap();
            let partial = Partial::new(partial[1..].parse().unwrap()).unwrap();
            let cents: f64 = cents.parse().unwrap();
            let bend = Intonation::default().bend(partial, written, Transposition::NONE);
            assert!((bend - cents).abs() <= 0.5 + 1e-9, "{written}: {bend} {cents}");
        }
    }
}

/// Both spellings of a written note.
fn spellings(cell: &str) -> Vec<Written> {
    pitches(cell).into_iter().map(Written).collect()
}

fn production(word: &str) -> Production {
    Production::ALL.into_iter().find(|production| production.id() == word).unwrap_or_else(|| panic!("{word}"))
}

/// Every row of a table of reach against what is said of a note on that instrument, on all crooks: in equal
/// temperament the crook makes no difference.
fn reach_rows(family: CrookFamily, rows: &[csv::StringRecord], columns: [usize; 4]) {
    let [partial, made, grade, bend] = columns;
    for row in rows {
        for written in spellings(&row[1]) {
            assert_eq!(written.0.midi(), row[0].parse::<i32>().unwrap());
            for crook in family.crooks() {
                let making = Making::of(family, written, crook.transposition, &Intonation::default());
                let number = making.partial.map(|partial| partial.number().to_string()).unwrap_or_default();
                if row[partial].is_empty() {
                    // A-flat 5 is read as partial 13 too, and said as such.
                    assert!(number.is_empty() || (number == "13" && written.0.midi() == 80), "{written}");
                } else {
                    assert_eq!(number, row[partial], "{written}");
                }
                assert_eq!(making.production, production(&row[made]), "{written}");
                assert_eq!(format!("{:?}", making.grade.unwrap()), row[grade], "{written}");
                match row[bend].parse::<f64>() {
                    Ok(cents) => {
                        let found = making.bend.unwrap();
                        // The tables give tenths of a cent or round to whole ones.
                        let rounded = if cents.fract() == 0.0 { 0.5 } else { 0.06 };
                        assert!((found - cents).abs() < rounded, "{written}: {found} {cents}");
                        let from = f64::from(making.from.unwrap().number());
                        let exact = f64::from((written.0.midi() - 36) * 100) - 1200.0 * libm::log2(from);
                        assert!((found - exact).abs() < 1e-9, "{written}: {found} {exact}");
                    }
                    Err(_) => assert_eq!(making.bend, None, "{written}"),
                }
                if let (Some(drift), true) = (making.drift, making.partial == making.from) {
                    assert!((drift + making.bend.unwrap()).abs() < 1e-9);
                }
            }
        }
    }
}

/// Sources: Widor p. 34; R. Burdick; and a model of bending where neither speaks.
#[test]
fn reach_of_the_horn() {
    let rows = table("reach_horn.csv");
    assert_eq!(rows.len(), 37);
    reach_rows(CrookFamily::Horn, &rows, [2, 3, 5, 6]);
}

/// The trumpet has no hand; what is lipped is from memory where the table says so.
#[test]
fn reach_of_the_trumpet() {
    let rows = table("reach_trumpet.csv");
    assert_eq!(rows.len(), 32);
    reach_rows(CrookFamily::Trumpet, &rows, [2, 3, 4, 5]);
}

/// The trade writes the odd partials so (common practice), and the cents by which they are off follow.
#[test]
fn odd_partials_as_they_are_written() {
    let cases = [
        (7, "Bb4", -31.2),
        (11, "F5", 51.3),
        (11, "F#5", -48.7),
        (13, "A5", -59.5),
        (13, "Ab5", 40.5),
        (14, "Bb5", -31.2),
    ];
    for (number, note, cents) in cases {
        let written = Written(pitch(note));
        let partial = Partial::new(number).unwrap();
        assert_eq!(Partial::of(CrookFamily::Horn, written.0), Some(partial), "{note}");
        let drift = Intonation::default().drift(partial, written, Transposition::NONE);
        assert!((drift - cents).abs() < 0.05, "{note}: {drift}");
    }
}

/// Counted in the nine symphonies: horn parts print E♭, F♯, C♯, A♭, B♭ (and A, B, D, F plain), whatever the key that
/// sounds. So a sound in either spelling is written as that note.
#[test]
fn chromatic_notes_are_printed_as_beethovens_parts_have_them() {
    let printed = [
        "F#3", "Eb4", "F#4", "Ab4", "Bb4", "C#5", "Eb5", "F#5", "Ab5", "B3", "D4", "F4", "A4", "B4", "F5",
        "A5",
    ];
    for crook in &HORN_CROOKS {
        let mut horn = staff("Corni in Es");
        horn.transposition = crook.transposition;
        let situation = Situation::of(&horn, Habits::of(Clef::TREBLE));
        for note in printed {
            let sounding = read(&situation, Printed(pitch(note))).sounding.0;
            for letters in -1..=1 {
                let writing = write(&situation, Sounding(sounding.respelled(letters)));
                let found = writing.also_printed.unwrap_or(writing.strict.printed);
                assert_eq!(found.to_string(), note, "{}: {}", crook.name, sounding.respelled(letters));
                assert_eq!(writing.also_printed.is_none(), letters == 0);
            }
        }
    }
}

fn partial_of(staff: &StaffLabel, printed: Printed) -> Option<u8> {
    let reading = read(&Situation::of(staff, Habits::of(Clef::TREBLE)), printed);
    reading.making.and_then(|making| making.partial).map(Partial::number)
}

/// Counted in the nine symphonies: the horns' ten commonest notes are all partials, and so are the trumpets'.
#[test]
fn the_commonest_notes_are_partials() {
    let (horn, trumpet) = (staff("Corni in Es"), staff("Trombe in Es"));
    for (note, number) in
        [("G4", 6), ("C5", 8), ("D5", 9), ("E5", 10), ("C4", 4), ("G3", 3), ("G5", 12), ("E4", 5), ("F5", 11)]
    {
        assert_eq!(partial_of(&horn, Printed(pitch(note))), Some(number), "{note}");
        assert_eq!(partial_of(&trumpet, Printed(pitch(note))), Some(number), "{note}");
    }
    for note in ["Eb5", "B4", "A4", "Eb4"] {
        assert_eq!(partial_of(&horn, Printed(pitch(note))), None, "{note}");
    }
    assert_eq!(partial_of(&staff("Clarinet in A"), Printed(Pitch::natural(Step::G, 4))), None);
}
