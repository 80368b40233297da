//! Turns the tables in `data/` into Rust constants: checked when the crate is built, nothing to read at run time.

use std::fmt::Write as _;
use std::path::Path;
use std::{env, fs};

#[path = "build/instruments.rs"]
pub(crate) mod instruments;

type Row = csv::StringRecord;
type Fault = Box<dyn std::error::Error>;

fn main() -> Result<(), Fault> {
    println!("cargo::rerun-if-changed=data");
    println!("cargo::rerun-if-changed=build.rs");
    println!("cargo::rerun-if-changed=build");
    let mut out = String::new();
    instruments::write(&mut out)?;
    crooks(&mut out)?;
    temperaments(&mut out)?;
    reach(&mut out)?;
    key_names(&mut out)?;
    fs::write(Path::new(&env::var("OUT_DIR")?).join("tables.rs"), out)?;
    Ok(())
}

/// All rows of a table, its head left out.
fn rows(name: &str) -> Result<Vec<Row>, Fault> {
    let mut reader = csv::Reader::from_path(Path::new("data").join(name))?;
    Ok(reader.records().collect::<Result<_, _>>()?)
}

/// Letters and semitones, octaves included, from the three numbers of MusicXML.
fn transposition(diatonic: &str, chromatic: &str, octaves: &str) -> Result<String, std::num::ParseIntError> {
    let (d, c, o): (i32, i32, i32) = (diatonic.parse()?, chromatic.parse()?, octaves.parse()?);
    Ok(format!("Transposition::new({}, {})", d + 7 * o, c + 12 * o))
}

/// The Rust expressions of a crook's tonic and octave word.
fn crook_name(name: &str, trumpet: bool) -> (String, &'static str) {
    let octave = match name {
        _ if name.contains("alto") && !(trumpet && name.starts_with("A-flat (As)")) => {
            "Some(OctaveWord::Alto)"
        }
        _ if name.contains("basso") => "Some(OctaveWord::Basso)",
        _ => "None",
    };
    let letter = &name[..1];
    let alter = match name.get(1..) {
        Some(rest) if rest.starts_with("-flat") => -1,
        Some(rest) if rest.starts_with("-sharp") => 1,
        _ => 0,
    };
    (format!("Tonic::new(Step::{letter}, {alter})"), octave)
}

/// An optional number as a Rust expression.
fn number(cell: &str) -> String {
    match cell.parse::<f64>() {
        Ok(value) => format!("Some({value:?})"),
        Err(_) => "None".into(),
    }
}

fn crooks(out: &mut String) -> Result<(), Fault> {
    let horns = rows("horn_crooks.csv")?;
    writeln!(
        out,
        "/// Every row of `data/horn_crooks.csv`, from short to long.\npub static HORN_CROOKS: [Crook; {}] = [",
        horns.len()
    )?;
    for row in &horns {
        let (tonic, octave) = crook_name(&row[0], false);
        let (low, high) = match &row[15] {
            range if range.starts_with("2-10") => ("2", "10"),
            "2-12" => ("2", "12"),
            "2-16" => ("2", "16"),
            "3-16" => ("3", "16"),
            _ => ("0", "0"),
        };
        let comfortable = if low == "0" { "None".to_owned() } else { format!("Some(({low}, {high}))") };
        writeln!(
            out,
            "Crook {{ family: CrookFamily::Horn, name: {:?}, tonic: {tonic}, octave: {octave}, transposition: Transposition::new({}, {}), \
             old_bass: Some(Transposition::new({}, {})), nominal_feet: {:?}, grove_inches: {}, britannica_inches: {}, \
             tube_metres: {}, comfortable: {comfortable} }},",
            &row[0],
            &row[1],
            &row[2],
            &row[7],
            &row[8],
            &row[9],
            number(&row[10]),
            number(&row[11]),
            number(&row[12]).trim_start_matches("Some(").trim_end_matches(')'),
        )?;
    }
    writeln!(out, "];")?;
    let trumpets = rows("trumpet_crooks.csv")?;
    writeln!(
        out,
        "/// Every row of `data/trumpet_crooks.csv`, from short to long.\npub static TRUMPET_CROOKS: [Crook; {}] = [",
        trumpets.len()
    )?;
    for row in &trumpets {
        let (tonic, octave) = crook_name(&row[0], true);
        writeln!(
            out,
            "Crook {{ family: CrookFamily::Trumpet, name: {:?}, tonic: {tonic}, octave: {octave}, transposition: {}, old_bass: None, \
             nominal_feet: {:?}, grove_inches: None, britannica_inches: None, tube_metres: {}, comfortable: None }},",
            &row[0],
            transposition(&row[1], &row[2], &row[3])?,
            &row[5],
            number(&row[6]).trim_start_matches("Some(").trim_end_matches(')'),
        )?;
    }
    writeln!(out, "];")?;
    Ok(())
}

fn temperaments(out: &mut String) -> Result<(), Fault> {
    let rows = rows("temperaments.csv")?;
    writeln!(
        out,
        "/// Every row of `data/temperaments.csv`.\npub static TEMPERAMENTS: [Temperament; {}] = [",
        rows.len()
    )?;
    for row in &rows {
        let cents: Vec<String> = row
            .iter()
            .skip(2)
            .map(|cell| Ok(format!("{:?}", cell.parse::<f64>()?)))
            .collect::<Result<_, std::num::ParseFloatError>>()?;
        writeln!(
            out,
            "Temperament {{ id: {:?}, definition: {:?}, cents: [{}] }},",
            &row[0],
            &row[1],
            cents.join(", ")
        )?;
    }
    writeln!(out, "];")?;
    Ok(())
}

fn reach(out: &mut String) -> Result<(), Fault> {
    for (file, name, from, grade, note) in
        [("reach_horn.csv", "HORN_REACH", Some(7), 5, 8), ("reach_trumpet.csv", "TRUMPET_REACH", None, 4, 6)]
    {
        let rows = rows(file)?;
        writeln!(
            out,
            "/// Every row of `data/{file}`.\npub(crate) static {name}: [Reach; {}] = [",
            rows.len()
        )?;
        for row in &rows {
            let other = if from.is_some() { &row[4] } else { "" };
            let (other, other_note) = match other.split_once(' ') {
                Some((word, note)) => (word, note),
                None => (other, ""),
            };
            let other = if other.is_empty() { "None".into() } else { format!("Some({})", production(other)) };
            let partial = |cell: &str| match cell.trim_start_matches("partial ").parse::<u8>() {
                Ok(number) => format!("Some({number})"),
                Err(_) => "None".into(),
            };
            let made_from = match from {
                Some(column) => partial(&row[column]),
                // The trumpet's table names the partial where there is one; the rest stands in its note.
                None => match row[note].split("partial ").nth(1).and_then(|rest| rest.split(' ').next()) {
                    Some(number) => partial(number),
                    None => partial(&row[2]),
                },
            };
            writeln!(
                out,
                "Reach {{ written_midi: {}, partial: {}, production: {}, other: {other}, other_note: {other_note:?}, \
                 grade: Grade::{}, bend: {}, from: {made_from}, note: {:?} }},",
                &row[0],
                partial(&row[2]),
                production(&row[3]),
                &row[grade],
                number(&row[if from.is_some() { 6 } else { 5 }]),
                &row[note],
            )?;
        }
        writeln!(out, "];")?;
    }
    Ok(())
}

/// The Rust expression of a way to make a note.
fn production(cell: &str) -> &'static str {
    match cell {
        "open" => "Production::Open",
        "handOut" => "Production::HandOut",
        "quarter" => "Production::Quarter",
        "half" => "Production::Half",
        "threeQuarter" => "Production::ThreeQuarter",
        "full" => "Production::Full",
        "lipped" => "Production::Lipped",
        _ => "Production::Unavailable",
    }
}

fn key_names(out: &mut String) -> Result<(), Fault> {
    let rows = rows("key_names.csv")?;
    writeln!(
        out,
        "/// Every row of `data/key_names.csv`.\npub static KEY_NAMES: [KeyNames; {}] = [",
        rows.len()
    )?;
    for row in &rows {
        let alter = match row[0].chars().nth(1) {
            Some('♭') => -1,
            Some('♯') => 1,
            _ => 0,
        };
        writeln!(
            out,
            "KeyNames {{ tonic: Tonic::new(Step::{}, {alter}), english: {:?}, italian: {:?}, german: {:?}, french: {:?}, spanish: {:?}, solmisation: {:?} }},",
            &row[0][..1],
            &row[2],
            &row[3],
            &row[4],
            &row[5],
            &row[6],
            &row[7],
        )?;
    }
    writeln!(out, "];")?;
    Ok(())
}
