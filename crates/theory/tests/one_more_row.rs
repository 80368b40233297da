//! An instrument is added by a row of its table alone: the build takes one that says something in every column, and what
//! comes out is an instrument that is named and read like any other.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

#[allow(dead_code, clippy::print_stdout, reason = "the whole build is here, and it speaks to cargo")]
#[path = "../build.rs"]
mod build;

use build::instruments::{Table, instruments};
use crookwise_theory::instrument::{KeyMeans, LikeHorn, NamesKey, OtherClefs, OwnKey};
use crookwise_theory::label::{Mechanism, StaffLabel};
use crookwise_theory::tables::INSTRUMENTS;
use crookwise_theory::{
    Blown, Build, Clef, CrookFamily, Family, Habits, Instrument, InstrumentKind, Interval, Notation,
    OctaveWord, PitchKind, Scheme, Step, Systems, Tonic, Transposition,
};

/// The row, column by column: an instrument that nobody has built.
const ROW: [(&str, &str); 39] = [
    ("id", "moonhorn"),
    ("english", "Moonhorn in A"),
    ("italian", "Corno lunare"),
    ("german", "Mondhorn, Mondhörner"),
    ("french", "Cor de lune"),
    ("spanish", "Trompa de luna"),
    ("abbreviations", "Mhn."),
    ("mx_diatonic", "-2"),
    ("mx_chromatic", "-3"),
    ("mx_octave", "-1"),
    ("clef", "F4, G2"),
    ("written_range", "C3–C6"),
    ("certainty", "C"),
    ("remark", "invented"),
    ("family", "brass"),
    ("also", "lunar horn"),
    ("crooks", "horn"),
    ("old_bass", "yes"),
    ("systems", "tenor Wagner tuba"),
    ("scheme", "rheingold"),
    ("other_clefs", "octave higher in F"),
    ("mechanism", "natural"),
    ("octave", "basso"),
    ("doubled_below", "yes"),
    ("pitch", "drums"),
    ("signature", "none"),
    ("pair", "horn"),
    ("like_horn", "often"),
    ("variant_of", "horn"),
    ("variant_reason", "by moonlight"),
    ("own_key", "Bb"),
    ("key_means", "built"),
    ("names_key", "always"),
    ("called", "Moonhorn"),
    ("list_label", "Corno lunare in La"),
    ("rank", "7"),
    ("kind", "horn"),
    ("kind_words", "yes"),
    ("blown", "edge"),
];

/// What stands here as code, and as the text of it.
macro_rules! both {
    ($($code:tt)*) => { ($($code)*, stringify!($($code)*)) };
}

static BOTH: (Instrument, &str) = both!(Instrument {
    id: "moonhorn",
    english: "Moonhorn in A",
    italian: "Corno lunare",
    german: "Mondhorn, Mondhörner",
    french: "Cor de lune",
    spanish: "Trompa de luna",
    also: "lunar horn",
    abbreviations: "Mhn.",
    range: "C3–C6",
    called: "Moonhorn",
    label: "Corno lunare in La",
    variant_reason: "by moonlight",
    family: Family::Brass,
    crooks: Some(CrookFamily::Horn),
    old_bass: true,
    systems: Some(Systems::TenorWagnerTuba),
    scheme: Some(Scheme::Rheingold),
    other_clefs: OtherClefs::OctaveHigherInF,
    build: Build::Natural,
    octave: Some(OctaveWord::Basso),
    doubled_below: true,
    pitch: PitchKind::NamedDrums,
    has_signature: false,
    key_means: KeyMeans::HowItIsBuilt,
    names_key: NamesKey::Always,
    like_horn: LikeHorn::Often,
    kind: Some(InstrumentKind::Horn),
    teaches_kind: true,
    blown: Some(Blown::Edge),
    transposition: Some(Transposition::new(-9, -15)),
    clef: Clef::BASS,
    own_key: OwnKey::Said(Tonic::new(Step::B, -1)),
    variant_of: Some("horn"),
    pair: Some("horn"),
    rank: 7
});

/// The table with that row, one of its cells another where that is asked for.
fn table(other: Option<(&str, &str)>) -> Table {
    let mut table = Table::read("instruments.csv").unwrap();
    let cell = |column: &str| {
        let cell = ROW.iter().chain(&other).rev().find(|(name, _)| *name == column);
        cell.unwrap_or_else(|| panic!("the row says nothing of {column}")).1
    };
    let row: csv::StringRecord = table.head.iter().map(cell).collect();
    assert!(row.iter().all(|cell| !cell.is_empty()));
    table.rows.push(row);
    table
}

fn plain(code: &str) -> String {
    code.split_whitespace().collect::<String>().replace(",}", "}")
}

#[test]
fn a_row_that_says_something_in_every_column_becomes_an_instrument() {
    let mut out = String::new();
    instruments(&mut out, &table(None)).unwrap();
    let written = out.lines().find(|line| line.contains("moonhorn")).unwrap();
    assert_eq!(plain(written.trim_end_matches(',')), plain(BOTH.1));
    let count = INSTRUMENTS.len() + 1;
    assert!(out.contains(&format!("static INSTRUMENTS: [Instrument; {count}]")), "one more than before");
    let notes = r#"InstrumentNotes { clefs: "F4, G2", source: "C", remark: "invented" }"#;
    assert!(
        out.contains(&format!("static INSTRUMENT_NOTES: [InstrumentNotes; {count}]")) && out.contains(notes)
    );
}

#[test]
fn every_column_is_asked_for_and_a_strange_word_stops_the_build() {
    let heads = Table::read("instruments.csv").unwrap().head;
    assert_eq!(heads.len(), ROW.len());
    let said = |other| instruments(&mut String::new(), &table(Some(other))).unwrap_err().to_string();
    for (column, cell) in [
        ("family", "moon"),
        ("pitch", "some"),
        ("mechanism", "wheels"),
        ("blown", "bellows"),
        ("own_key", "H?"),
        ("pair", "sunhorn"),
        ("variant_of", "sunhorn"),
        ("rank", "first"),
        ("mx_octave", "low"),
    ] {
        assert!(said((column, cell)).starts_with("moonhorn: "), "{column}");
    }
}

#[test]
fn that_instrument_is_named_and_read_like_any_other() {
    let instrument = &BOTH.0;
    let staff = StaffLabel {
        instrument,
        key: instrument.key(),
        octave: None,
        count: None,
        players: Vec::new(),
        mechanism: Some(Mechanism::Natural),
        doubled_below: instrument.doubled_below,
        drums: Vec::new(),
        transposition: instrument.transposition.unwrap(),
    };
    assert_eq!(staff.name(), "Moonhorn in B-flat");
    assert!(staff.words().ends_with("lower, the basses an octave lower"), "{}", staff.words());
    let notation = Notation::of(&staff, Habits::of(Clef::BASS));
    assert_ne!(notation.printed_to_sounding(), Interval::UNISON);
    assert_eq!(instrument.other_of_pair(), Instrument::by_id("horn"));
    assert!(instrument.is_crooked() && instrument.is_pitched() && !instrument.is_usual());
}
