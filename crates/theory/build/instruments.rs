//! The table of instruments with what stands beside it: forms in other keys, habits of writing, other readings. A cell
//! that is none of the words of its column stops the build.

use super::{Fault, Row, rows, transposition};
use std::fmt::Write as _;

/// Every column after the names, as the constant has it: its head in the table, the field, and what its words mean.
type Words = &'static [(&'static str, &'static str)];

const FAMILY: Words = &[
    ("woodwind", "Family::Woodwind"),
    ("brass", "Family::Brass"),
    ("percussion", "Family::Percussion"),
    ("plucked and keyboard", "Family::PluckedAndKeyboard"),
    ("strings", "Family::Strings"),
    ("voices", "Family::Voices"),
];
const YES: Words = &[("", "false"), ("yes", "true")];
const CROOKS: Words =
    &[("", "None"), ("horn", "Some(CrookFamily::Horn)"), ("trumpet", "Some(CrookFamily::Trumpet)")];
const SYSTEMS: Words = &[
    ("", "None"),
    ("bass clarinet", "Some(Systems::BassClarinet)"),
    ("tenor Wagner tuba", "Some(Systems::TenorWagnerTuba)"),
    ("bass Wagner tuba", "Some(Systems::BassWagnerTuba)"),
];
const SCHEME: Words = &[
    ("", "None"),
    ("french", "Some(Scheme::French)"),
    ("german", "Some(Scheme::German)"),
    ("rheingold", "Some(Scheme::Rheingold)"),
    ("goetterdaemmerung", "Some(Scheme::Goetterdaemmerung)"),
    ("alpensinfonie", "Some(Scheme::Alpensinfonie)"),
];
const OTHER_CLEFS: Words = &[
    ("", "OtherClefs::Same"),
    ("at pitch outside G", "OtherClefs::AtPitchOutsideG"),
    ("at pitch in F", "OtherClefs::AtPitchInF"),
    ("octave higher in F", "OtherClefs::OctaveHigherInF"),
];
const MECHANISM: Words = &[
    ("", "Build::NotBrass"),
    ("none", "Build::Slide"),
    ("valves", "Build::Valves"),
    ("natural", "Build::Natural"),
    ("by label", "Build::ByLabel"),
];
const OCTAVE: Words =
    &[("", "None"), ("alto", "Some(OctaveWord::Alto)"), ("basso", "Some(OctaveWord::Basso)")];
const PITCH: Words =
    &[("", "PitchKind::Notes"), ("drums", "PitchKind::NamedDrums"), ("none", "PitchKind::None")];
const SIGNATURE: Words = &[("", "true"), ("none", "false")];
const KEY_MEANS: Words = &[
    ("", "KeyMeans::HowItSounds"),
    ("built", "KeyMeans::HowItIsBuilt"),
    ("as trumpet", "KeyMeans::AsTrumpet"),
];
const LIKE_HORN: Words =
    &[("", "LikeHorn::No"), ("often", "LikeHorn::Often"), ("at times", "LikeHorn::AtTimes")];
const NAMES_KEY: Words =
    &[("", "NamesKey::WhereUnusual"), ("always", "NamesKey::Always"), ("never", "NamesKey::Never")];
const KIND: Words = &[
    ("", "None"),
    ("flute", "Some(InstrumentKind::Flute)"),
    ("oboe", "Some(InstrumentKind::Oboe)"),
    ("clarinet", "Some(InstrumentKind::Clarinet)"),
    ("bass clarinet", "Some(InstrumentKind::BassClarinet)"),
    ("saxophone", "Some(InstrumentKind::Saxophone)"),
    ("bassoon", "Some(InstrumentKind::Bassoon)"),
    ("horn", "Some(InstrumentKind::Horn)"),
    ("trumpet", "Some(InstrumentKind::Trumpet)"),
    ("cornet", "Some(InstrumentKind::Cornet)"),
    ("trombone", "Some(InstrumentKind::Trombone)"),
    ("tuba", "Some(InstrumentKind::Tuba)"),
    ("timpani", "Some(InstrumentKind::Timpani)"),
    ("violin", "Some(InstrumentKind::Violin)"),
    ("viola", "Some(InstrumentKind::Viola)"),
    ("cello", "Some(InstrumentKind::Cello)"),
    ("contrabass", "Some(InstrumentKind::Contrabass)"),
];

const BLOWN: Words = &[
    ("", "None"),
    ("edge", "Some(Blown::Edge)"),
    ("cylinder", "Some(Blown::Cylinder)"),
    ("cone", "Some(Blown::Cone)"),
];

/// Columns with a closed list of words: head, field, list.
const TYPED: &[(&str, &str, Words)] = &[
    ("family", "family", FAMILY),
    ("crooks", "crooks", CROOKS),
    ("old_bass", "old_bass", YES),
    ("systems", "systems", SYSTEMS),
    ("scheme", "scheme", SCHEME),
    ("other_clefs", "other_clefs", OTHER_CLEFS),
    ("mechanism", "build", MECHANISM),
    ("octave", "octave", OCTAVE),
    ("doubled_below", "doubled_below", YES),
    ("pitch", "pitch", PITCH),
    ("signature", "has_signature", SIGNATURE),
    ("key_means", "key_means", KEY_MEANS),
    ("names_key", "names_key", NAMES_KEY),
    ("like_horn", "like_horn", LIKE_HORN),
    ("kind", "kind", KIND),
    ("kind_words", "teaches_kind", YES),
    ("blown", "blown", BLOWN),
];

/// Columns that stand in the constant as they are.
const TEXTS: &[(&str, &str)] = &[
    ("id", "id"),
    ("english", "english"),
    ("italian", "italian"),
    ("german", "german"),
    ("french", "french"),
    ("spanish", "spanish"),
    ("also", "also"),
    ("abbreviations", "abbreviations"),
    ("written_range", "range"),
    ("called", "called"),
    ("list_label", "label"),
    ("variant_reason", "variant_reason"),
];

/// A table whose cells are found by the head of their column.
pub(crate) struct Table {
    pub(crate) head: Row,
    pub(crate) rows: Vec<Row>,
}

impl Table {
    pub(crate) fn read(name: &str) -> Result<Self, Fault> {
        let mut reader = csv::Reader::from_path(std::path::Path::new("data").join(name))?;
        Ok(Self { head: reader.headers()?.clone(), rows: rows(name)? })
    }

    fn cell<'a>(&self, row: &'a Row, column: &str) -> Result<&'a str, Fault> {
        let place = self.head.iter().position(|head| head == column);
        place.and_then(|place| row.get(place)).ok_or_else(|| format!("no column {column}").into())
    }

    /// The transposition in the three columns of MusicXML's numbers; `None` where they are empty.
    fn transposition(&self, row: &Row) -> Result<Option<String>, Fault> {
        let [d, c, o] = ["mx_diatonic", "mx_chromatic", "mx_octave"].map(|column| self.cell(row, column));
        let (d, c, o) = (d?, c?, o?);
        if d.is_empty() { Ok(None) } else { Ok(Some(transposition(d, c, o)?)) }
    }
}

/// All constants of the instruments.
pub(crate) fn write(out: &mut String) -> Result<(), Fault> {
    let table = Table::read("instruments.csv")?;
    instruments(out, &table)?;
    let ids: Vec<&str> = table.rows.iter().map(|row| &row[0]).collect();
    forms(out, &ids)?;
    habits(out, &ids)?;
    readings(out, &ids)
}

/// The instruments and what the table notes beside them.
pub(crate) fn instruments(out: &mut String, table: &Table) -> Result<(), Fault> {
    let ids: Vec<&str> = table.rows.iter().map(|row| &row[0]).collect();
    constant(out, "INSTRUMENTS", "Instrument", "instruments.csv", "pub ", ids.len())?;
    for row in &table.rows {
        instrument(out, table, row).map_err(|fault| format!("{}: {fault}", &row[0]))?;
    }
    writeln!(out, "];")?;
    constant(out, "INSTRUMENT_NOTES", "InstrumentNotes", "instruments.csv", "pub ", ids.len())?;
    for row in &table.rows {
        let [clefs, source, remark] = ["clef", "certainty", "remark"].map(|column| table.cell(row, column));
        let (clefs, source, remark) = (clefs?, source?, remark?);
        writeln!(out, "InstrumentNotes {{ clefs: {clefs:?}, source: {source:?}, remark: {remark:?} }},")?;
    }
    Ok(writeln!(out, "];")?)
}

fn constant(
    out: &mut String,
    name: &str,
    of: &str,
    file: &str,
    public: &str,
    rows: usize,
) -> Result<(), Fault> {
    Ok(writeln!(out, "/// Every row of `data/{file}`.\n{public}static {name}: [{of}; {rows}] = [")?)
}

fn instrument(out: &mut String, table: &Table, row: &Row) -> Result<(), Fault> {
    write!(out, "Instrument {{ ")?;
    for (column, field) in TEXTS {
        write!(out, "{field}: {:?}, ", table.cell(row, column)?)?;
    }
    for (column, field, words) in TYPED {
        let cell = table.cell(row, column)?;
        let found = words.iter().find(|(word, _)| *word == cell);
        let (_, value) = found.ok_or_else(|| format!("“{cell}” is no word of the column {column}"))?;
        write!(out, "{field}: {value}, ")?;
    }
    let itself = optional(table.transposition(row)?);
    let own_key = match table.cell(row, "own_key")? {
        "" => "OwnKey::ByTransposition".to_owned(),
        "none" => "OwnKey::None".to_owned(),
        key => format!("OwnKey::Said({})", tonic(key)?),
    };
    let rank: u8 = match table.cell(row, "rank")? {
        "" => 2,
        rank => rank.parse()?,
    };
    let ids: Vec<&str> = table.rows.iter().map(|row| &row[0]).chain([""]).collect();
    let named = |column: &str| -> Result<String, Fault> {
        let id = table.cell(row, column)?;
        known(id, &ids)?;
        Ok(optional((!id.is_empty()).then(|| format!("{id:?}"))))
    };
    writeln!(
        out,
        "transposition: {itself}, clef: {}, own_key: {own_key}, variant_of: {}, pair: {}, rank: {rank} }},",
        clef(table.cell(row, "clef")?),
        named("variant_of")?,
        named("pair")?,
    )?;
    Ok(())
}

fn forms(out: &mut String, ids: &[&str]) -> Result<(), Fault> {
    let table = Table::read("forms.csv")?;
    constant(out, "FORMS", "Form", "forms.csv", "pub(crate) ", table.rows.len())?;
    for row in &table.rows {
        known(&row[0], ids)?;
        let octave = table.cell(row, "octave")?;
        let octave = OCTAVE.iter().find(|(word, _)| *word == octave).ok_or("no octave word")?.1;
        writeln!(
            out,
            "Form {{ id: {:?}, key: {}, octave: {octave}, transposition: {} }},",
            &row[0],
            tonic(table.cell(row, "key")?)?,
            table.transposition(row)?.ok_or("a form without its transposition")?
        )?;
    }
    Ok(writeln!(out, "];")?)
}

fn habits(out: &mut String, ids: &[&str]) -> Result<(), Fault> {
    let table = Table::read("habits.csv")?;
    constant(out, "HABITS", "Habit", "habits.csv", "pub(crate) ", table.rows.len())?;
    for row in &table.rows {
        known(&row[0], ids)?;
        writeln!(
            out,
            "Habit {{ id: {:?}, transposition: {}, reason: {:?} }},",
            &row[0],
            table.transposition(row)?.ok_or("a habit without its transposition")?,
            table.cell(row, "reason")?
        )?;
    }
    Ok(writeln!(out, "];")?)
}

fn readings(out: &mut String, ids: &[&str]) -> Result<(), Fault> {
    let table = Table::read("readings.csv")?;
    constant(out, "READINGS", "OtherReading", "readings.csv", "pub(crate) ", table.rows.len())?;
    for row in &table.rows {
        let (id, other) = (table.cell(row, "id")?, table.cell(row, "other")?);
        known(id, ids)?;
        known(other, ids)?;
        let key = match table.cell(row, "key")? {
            "" => "KeyAsked::Any".to_owned(),
            "none" => "KeyAsked::None".to_owned(),
            key => format!("KeyAsked::This({})", tonic(key)?),
        };
        let before = table.cell(row, "before")?;
        let before = if before.is_empty() { None } else { Some(before.parse::<i32>()?.to_string()) };
        writeln!(
            out,
            "OtherReading {{ id: {id:?}, words: {:?}, unless: {:?}, key: {key}, before: {}, bare: {}, other: {other:?}, \
             transposition: {}, reason: {:?}, assumed: {:?} }},",
            table.cell(row, "words")?,
            table.cell(row, "unless")?,
            optional(before),
            table.cell(row, "bare")? == "yes",
            optional(table.transposition(row)?),
            table.cell(row, "reason")?,
            table.cell(row, "assumed")?,
        )?;
    }
    Ok(writeln!(out, "];")?)
}

fn optional(value: Option<String>) -> String {
    value.map_or_else(|| "None".to_owned(), |value| format!("Some({value})"))
}

fn known(id: &str, ids: &[&str]) -> Result<(), Fault> {
    if ids.contains(&id) { Ok(()) } else { Err(format!("“{id}” is no instrument").into()) }
}

/// The Rust expression of a key: "Eb", "F#", "C".
fn tonic(name: &str) -> Result<String, Fault> {
    let alter = match &name[1..] {
        "" => 0,
        "b" => -1,
        "#" => 1,
        other => return Err(format!("“{other}” is no alteration").into()),
    };
    Ok(format!("Tonic::new(Step::{}, {alter})", &name[..1]))
}

/// The Rust expression of the first clef a cell names.
fn clef(cell: &str) -> &'static str {
    match cell.get(..2) {
        Some("F4") => "Clef::BASS",
        Some("C3") => "Clef::ALTO",
        _ if cell.contains("C3 and G2") => "Clef::BASS",
        _ => "Clef::TREBLE",
    }
}
