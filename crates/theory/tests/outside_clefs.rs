//! Clefs and reading by imagined clef, against music21, Savard and Elwart.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod outside;

use crookwise_theory::tables::{HORN_CROOKS, INSTRUMENTS, TRUMPET_CROOKS};
use crookwise_theory::{
    BassNotation, Clef, ClefReading, ClefSign, Habits, Interval, Notation, Pitch, Printed, Signature,
    Situation, StaffPosition, Step, read,
};
use outside::{int, oracle_rows, pitch, staff, table, text};

/// music21 10.5.1 `Clef.lowestLine`. Two of its clefs with an octave mark forget the mark; there MusicXML 4.0,
/// `clef-octave-change`, is the reference.
#[test]
fn clefs_of_other_libraries() {
    let rows = oracle_rows("clefs.json");
    assert_eq!(rows.len(), 13);
    for row in &rows {
        let sign = match text(&row["sign"]) {
            "G" => ClefSign::G,
            "F" => ClefSign::F,
            _ => ClefSign::C,
        };
        let line = u8::try_from(int(&row["line"])).unwrap();
        let mark = int(&row["clef_octave_change"]);
        let clef = Clef::new(sign, line, i8::try_from(mark).unwrap()).unwrap();
        let (mut bottom, mut top) = (pitch(text(&row["bottom_line"])), pitch(text(&row["top_line"])));
        let mut middle = int(&row["middle_C_staff_position"]);
        let octaves = match text(&row["music21_class"]) {
            // Stored as if the mark were an octave lower.
            "Treble8vaClef" => 2,
            // Stored as if there were no mark.
            "Bass8vbClef" => -1,
            _ => 0,
        };
        bottom.octave += octaves;
        top.octave += octaves;
        middle -= 7 * octaves;
        assert_eq!(clef.bottom_line(), bottom, "{row}");
        assert_eq!(clef.pitch_at(StaffPosition(8)), top, "{row}");
        assert_eq!(clef.position(pitch("C4")), StaffPosition(middle), "{row}");
    }
}

/// The clef a cell such as "baritone (F3 or C5)" names.
fn named(cell: &str) -> Clef {
    let start = cell.find('(').unwrap() + 1;
    cell[start..start + 2].parse().unwrap()
}

/// 26 rows: Savard, *Principes de la musique*, §§ 181–192, and Elwart, *Petit manuel d'harmonie*, p. 81, where they
/// speak; the others computed by the same rule.
#[test]
fn clef_reading_from_the_treble_clef() {
    let rows = table("clef_reading.csv");
    assert_eq!(rows.len(), 26);
    for row in &rows {
        let number = |at: usize| row[at].parse::<i32>().unwrap();
        let interval = Interval::new(number(1), number(2));
        let reading = ClefReading::of(Clef::TREBLE, Signature::NONE, interval);
        assert_eq!(reading.clef, named(&row[3]), "{}", &row[0]);
        assert_eq!((reading.octaves, reading.fifths), (number(4), number(5)), "{}", &row[0]);
    }
}

/// Elwart p. 81: clarinet in A reads C1 with three sharps, in B-flat C4 with two flats, cor anglais C2 with one flat.
/// Savard § 184: the tenor clef of the B-flat instruments lies an octave low.
#[test]
fn clef_reading_in_elwarts_words() {
    let cases = [
        ("Clarinette en La", "C1", 3, 0),
        ("Clarinette en Si♭", "C4", -2, 1),
        ("Clarinette en Ut", "G2", 0, 0),
        ("Cor anglais", "C2", -1, 0),
    ];
    for (label, clef, fifths, octaves) in cases {
        let staff = staff(label);
        let reading = read(&Situation::of(&staff, Habits::of(Clef::TREBLE)), Printed(pitch("C5"))).by_clef;
        assert_eq!((reading.clef.to_string().as_str(), reading.fifths), (clef, fifths), "{label}");
        assert_eq!(reading.octaves, octaves, "{label}");
        assert_eq!(reading.signature, Signature(fifths), "{label}");
    }
}

/// Bass clef in old notation, 18 crooks: intervals after Grove 1879, vol. 1, pp. 750–751; the clefs computed by
/// Savard's rule.
#[test]
fn clef_reading_of_old_bass_notation() {
    let rows = [
        ("C alto", (7, 12), "F4", 1),
        ("B alto (H alto)", (6, 11), "C3", 0),
        ("B-flat alto", (6, 10), "C3", 0),
        ("A (alto)", (5, 9), "G2", -1),
        ("A-flat (alto)", (5, 8), "G2", -1),
        ("G", (4, 7), "C4", 0),
        ("F-sharp", (3, 6), "C1", -1),
        ("G-flat", (4, 6), "C4", 0),
        ("F", (3, 5), "C1", -1),
        ("E", (2, 4), "F3", 0),
        ("E-flat", (2, 3), "F3", 0),
        ("D", (1, 2), "C2", -1),
        ("D-flat", (1, 1), "C2", -1),
        ("C basso", (0, 0), "F4", 0),
        ("B basso (H basso)", (-1, -1), "C3", -1),
        ("B-flat basso", (-1, -2), "C3", -1),
        ("A basso", (-2, -3), "G2", -2),
        ("A-flat basso", (-2, -4), "G2", -2),
    ];
    assert_eq!(rows.len(), HORN_CROOKS.len());
    for ((name, (steps, semitones), clef, octaves), crook) in rows.into_iter().zip(&HORN_CROOKS) {
        assert_eq!(name, crook.name);
        let mut horn = staff("Horn in F");
        horn.transposition = crook.transposition;
        let habits = Habits { bass: Some(BassNotation::Old), ..Habits::of(Clef::BASS) };
        let interval = Notation::of(&horn, habits).printed_to_sounding();
        assert_eq!(interval, Interval::new(steps, semitones), "{name}");
        assert_eq!(crook.old_bass.map(|old| old.0), Some(interval), "{name}");
        let reading = read(&Situation::of(&horn, habits), Printed(pitch("C3"))).by_clef;
        assert_eq!((reading.clef.to_string().as_str(), reading.octaves), (clef, octaves), "{name}");
    }
}

/// Intervals that need more than seven signs, so that letters are moved twice.
const FAR: [(i32, i32); 8] = [(0, 1), (0, -1), (1, 3), (-2, -5), (3, 7), (-4, -9), (0, 2), (-1, 1)];

/// Every interval by which something in the tables transposes, and the far ones.
fn transpositions() -> Vec<Interval> {
    let rows = INSTRUMENTS.iter().filter_map(|row| row.transposition);
    let crooks = HORN_CROOKS.iter().chain(&TRUMPET_CROOKS).map(|crook| crook.transposition);
    let old = HORN_CROOKS.iter().filter_map(|crook| crook.old_bass);
    let mut all: Vec<Interval> = rows.chain(crooks).chain(old).map(|transposition| transposition.0).collect();
    all.extend(FAR.map(|(steps, semitones)| Interval::new(steps, semitones)));
    all.sort_by_key(|interval| (interval.steps, interval.semitones));
    all.dedup();
    all
}

/// Savard §§ 188–192 in his own way: of the signs by which the new signature exceeds the old, sharps raise and flats
/// lower the accidentals before the letters they stand on; beyond seven the first letters are moved twice. Every
/// letter, printed accidental, signature and transposition; held against the library and against plain arithmetic.
#[test]
fn savards_rule_for_accidentals() {
    const SHARPS: [char; 7] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];
    const FLATS: [char; 7] = ['B', 'E', 'A', 'D', 'G', 'C', 'F'];
    let (mut cases, mut changed) = (0, 0);
    for interval in transpositions() {
        for old in -7..=7 {
            let reading = ClefReading::of(Clef::TREBLE, Signature(old), interval);
            let delta = reading.signature.0 - old;
            assert_eq!(delta, reading.fifths);
            for step in Step::ALL {
                let letter = Step::from_index(step.index() + interval.steps).letter();
                let row = if delta > 0 { SHARPS } else { FLATS };
                let moved = row
                    .iter()
                    .cycle()
                    .take(delta.unsigned_abs() as usize)
                    .filter(|&&name| name == letter)
                    .count();
                let by_rule = moved as i32 * delta.signum();
                for alter in -2..=2 {
                    let printed = Pitch::new(step, alter, 4);
                    let sounding = printed + interval;
                    assert_eq!(sounding.step.letter(), letter);
                    let sign = reading.sign(printed, Signature(old), interval);
                    if let Some(read_there) = sign.alter {
                        assert_eq!(read_there, alter + by_rule, "{printed} under {old} by {interval}");
                        assert_eq!(read_there, sounding.alter, "{printed} under {old} by {interval}");
                        assert_eq!(sign.changed, by_rule != 0);
                        changed += i32::from(sign.changed);
                    } else {
                        // No accidental is printed: the imagined signature says it.
                        assert_eq!(alter, Signature(old).alteration(step));
                        assert_eq!(sounding.alter, reading.signature.alteration(sounding.step));
                    }
                    cases += 1;
                }
            }
        }
    }
    assert!(cases > 1155 && changed > cases / 5, "{cases} cases, {changed} changed");
}
