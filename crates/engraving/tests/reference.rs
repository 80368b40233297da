//! A few drawings as SVG, compared byte for byte; `UPDATE=1` rewrites them. To look at one, open it in a browser.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

use crookwise_engraving::{
    ColumnSpec, ElementId, Ink, Join, Metrics, NoteSpec, RestSpec, RestValue, StaffSpace, StaffSpec,
    StemRule, TechniqueSign, lay_out, narrowest_column, stack_staves, svg,
};
use crookwise_theory::{Clef, Signature};
use std::path::PathBuf;

fn check(name: &str, drawing: &crookwise_engraving::Drawing) {
    let frame = drawing.bounds().map(|bounds| bounds.grown(StaffSpace(0.5)));
    let options = svg::SvgOptions {
        frame,
        scale: Some(12.0),
        label: Some(name),
        glyphs: svg::Glyphs::Own,
        ..svg::SvgOptions::default()
    };
    // One element a line, so that a difference can be read.
    let actual = svg::write(drawing, &options).replace("><", ">\n<") + "\n";
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("tests/ref/{name}.svg"));
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, &actual).unwrap();
    }
    let expected = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(actual == expected, "{name}.svg differs; run with UPDATE=1 and look at it\n{actual}");
}

fn staff(clef: Clef, fifths: i32, text: &str) -> StaffSpec {
    let mut id = 0;
    let mut next = || {
        id += 1;
        Some(ElementId(id))
    };
    let columns = text.split_whitespace().map(|word| {
        let note = |name: &str| NoteSpec { id: next(), ..NoteSpec::new(name.parse().unwrap()) };
        ColumnSpec { notes: word.split(',').map(note).collect(), ..ColumnSpec::default() }
    });
    let columns = columns.collect();
    StaffSpec { columns, ..StaffSpec::new(clef, Signature(fifths)) }
}

fn drawn(spec: &StaffSpec) -> crookwise_engraving::Drawing {
    let metrics = Metrics::fit(&[spec], spec.all(), narrowest_column(spec).max(StaffSpace(6.0)));
    lay_out(spec, spec.all(), &metrics).drawing
}

#[test]
fn horn_call() {
    let mut spec = staff(Clef::TREBLE, 0, "C4 E4 G4 Bb4 C5 F#5 A4 E5");
    spec.columns[6].notes[0].sign = Some(TechniqueSign::HalfStopped);
    check("horn_call", &drawn(&spec));
}

#[test]
fn sounding() {
    let mut spec = staff(Clef::TREBLE, -3, "Eb3 G3 Bb3 Db4 Eb4 A4 C4 G4");
    spec.ink = Ink::Sounding;
    check("sounding", &drawn(&spec));
}

#[test]
fn two_horns() {
    let mut spec =
        staff(Clef::new(crookwise_theory::ClefSign::F, 4, -1).unwrap(), 2, "C3,E2 D3,C3 C3,C3 C#3,E3 C3,E2");
    for column in &mut spec.columns {
        column.notes[0].stem = StemRule::Up;
        column.notes[1].stem = StemRule::Down;
    }
    spec.columns[4].notes[0].sign = Some(TechniqueSign::Stopped);
    spec.columns[4].notes[1].tied_from_previous = true;
    spec.columns.push(ColumnSpec {
        rests: vec![RestSpec::new(RestValue::Quarter)],
        clef_change: Some(Clef::TENOR),
        signature_change: Some(Signature(-1)),
        ..ColumnSpec::default()
    });
    check("two_horns", &drawn(&spec));
}

#[test]
fn reduction() {
    let upper = staff(Clef::TREBLE, -3, "Eb4,G4,C5 F4,Ab4,B4,D5 G4,Ab4,Bb4");
    let lower = staff(Clef::BASS, -3, "C3 G2,F3 Eb2,E3");
    let column = narrowest_column(&upper).max(narrowest_column(&lower));
    let metrics = Metrics::fit(&[&upper, &lower], upper.all(), column);
    let staves = [&upper, &lower].map(|staff| lay_out(staff, staff.all(), &metrics));
    check("reduction", &stack_staves(staves.into(), StaffSpace(1.5), Join::Brace).drawing);
}

#[test]
fn bars() {
    let mut upper = staff(Clef::TREBLE, 0, "C4 E4 G4 Bb4 C5 F#5 A3 E5");
    let mut lower = staff(Clef::BASS, -3, "Eb3 G3 Bb2 Db4 Eb3 A2 C3 G3");
    for (column, number) in [(0, "66"), (2, "67"), (5, "68"), (6, "68a")] {
        upper.columns[column].bar = Some(number.into());
        lower.columns[column].bar = Some(String::new());
    }
    upper.columns[5].above.push("muta in D".into());
    upper.columns[2].clef_change = Some(Clef::BASS);
    upper.columns[5].clef_change = Some(Clef::TREBLE);
    lower.columns[5].signature_change = Some(Signature(2));
    let column = narrowest_column(&upper).max(narrowest_column(&lower));
    let metrics = Metrics::fit(&[&upper, &lower], upper.all(), column);
    let staves = [&upper, &lower].map(|staff| lay_out(staff, staff.all(), &metrics));
    check("bars", &stack_staves(staves.into(), StaffSpace(1.5), Join::Line).drawing);
}
