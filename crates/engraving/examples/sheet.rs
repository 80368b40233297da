//! Writes a page that shows what the crate can draw, to look at in a browser:
//! `cargo run -p crookwise-engraving --example sheet > sheet.html`.

use crookwise_engraving::{
    AccidentalRule, ColumnSpec, ElementId, Head, Ink, Metrics, NoteSpec, RestPlace, RestSpec, RestValue,
    StaffSpace, StaffSpec, StemRule, TechniqueSign, lay_out, narrowest_column, svg,
};
use crookwise_theory::{Clef, ClefSign, Signature};
use std::io::Write as _;

/// Pixels of a staff space.
const SCALE: f64 = 11.0;

fn main() -> std::io::Result<()> {
    let mut page = String::from(
        "<!doctype html><meta charset=utf-8><title>Sheet</title><style>\
         body{margin:16px;background:#FFFDF7;font:14px sans-serif;width:1180px}\
         .glyphs{position:absolute}.row{display:flex;flex-wrap:wrap;gap:6px 28px;align-items:center}\
         .ink-staff,.ink-ledger{fill:#57503F}.ink-sign,.ink-written{fill:#1F1B16}.ink-sounding{fill:#0F6B66}\
         .ink-ghost{fill:#8A5A12;opacity:.5}.ink-muted{fill:#6B6255}.ink-warning{fill:#98312A}\
         </style>",
    );
    page += &svg::glyph_defs();
    for row in rows() {
        page += "<div class=row>";
        for staff in row {
            let metrics = Metrics::fit(&[&staff], staff.all(), narrowest_column(&staff).max(StaffSpace(5.4)));
            let layout = lay_out(&staff, staff.all(), &metrics);
            let frame = Some(layout.bounds.grown(StaffSpace(0.5)));
            page += &svg::write(
                &layout.drawing,
                &svg::SvgOptions { frame, scale: Some(SCALE), ..svg::SvgOptions::default() },
            );
        }
        page += "</div>";
    }
    std::io::stdout().write_all(page.as_bytes())
}

fn rows() -> Vec<Vec<StaffSpec>> {
    let treble = |fifths: i32, text: &str| staff(Clef::TREBLE, fifths, text);
    let mut sounding = treble(-3, "Eb3 G3 Bb3 Db4 Eb4 A4 C4 G4");
    sounding.ink = Ink::Sounding;
    let signatures =
        |fifths: i32| Clef::ALL.into_iter().map(move |clef| staff(clef, fifths, "")).collect::<Vec<_>>();
    let octaves = [-2, -1, 1, 2].into_iter().flat_map(|octave| {
        [(ClefSign::G, 2), (ClefSign::F, 4), (ClefSign::C, 4)]
            .into_iter()
            .filter_map(move |(sign, line)| Some(staff(Clef::new(sign, line, octave).ok()?, 0, "")))
    });
    vec![
        vec![treble(0, "C4 E4 G4 Bb4 C5 F#5 A4 E5")],
        vec![sounding],
        vec![treble(0, "F3 A3 C4 G5 B5 D6 G6 C7"), treble(0, "Ebb5 F##4 Abbb4 C###5 Bbbbb4 G5!")],
        vec![
            treble(0, "C4,E4,G4 C5,D5 A4,B4,C5 Eb4,Gb4,Bb4,Db5 C#5,D#5,E#5 F4,F#4 C4,D4 A5,B5"),
            treble(2, "Fb4,Ab4,Cb5,Eb5 B3,C4 Bb3,C4,Db4 G#5,A#5,B#5,C#6"),
        ],
        vec![
            treble(0, "C5^,E4v D5^,C5v C5^,C5v C5^,C#5v B4^,D5v E5^,G5^,C5v,G4v R1^,C4v"),
            treble(0, "C4 C4~ C5 C5~ E4,G4,C5 E4~,G4~,C5~ F5^,A4v F5^~,A4v~"),
        ],
        vec![
            treble(0, "R1 R2 R4 R8 R16 A4+ C5o E4% G5+,C5o"),
            treble(0, "C4w D5h A4h E4w,F4w C5n"),
            treble(0, "G4 [F4]A3 {-3}B3 {2}C#4 [G2]{0}C5"),
        ],
        signatures(7),
        signatures(-7),
        vec![treble(9, "F##4 G4"), treble(-10, "Bbb4 B4"), treble(0, "F#4? Eb4! C5")],
        octaves.collect(),
    ]
}

/// Columns from a shorthand: notes by comma; `^` and `v` stems, `n` none, `~` tied, `+ o %` signs, `w` and `h` heads,
/// `!` forced, `?` ghost; `R4` a rest; `[F4]` and `{-3}` changes before it.
fn staff(clef: Clef, fifths: i32, text: &str) -> StaffSpec {
    let mut staff = StaffSpec::new(clef, Signature(fifths));
    let mut id = 0;
    for word in text.split_whitespace() {
        let mut column = ColumnSpec::default();
        let mut word = word;
        if let Some((clef, rest)) = word.strip_prefix('[').and_then(|word| word.split_once(']')) {
            column.clef_change = clef.parse().ok();
            word = rest;
        }
        if let Some((fifths, rest)) = word.strip_prefix('{').and_then(|word| word.split_once('}')) {
            column.signature_change = fifths.parse().ok().map(Signature);
            word = rest;
        }
        for item in word.split(',') {
            let end = item.find(|sign: char| "^vn~+o%wh!?".contains(sign)).unwrap_or(item.len());
            let (name, marks) = item.split_at(end);
            id += 1;
            if let Some(value) = name.strip_prefix('R') {
                let value = match value {
                    "1" => RestValue::Whole,
                    "2" => RestValue::Half,
                    "8" => RestValue::Eighth,
                    "16" => RestValue::Sixteenth,
                    _ => RestValue::Quarter,
                };
                let place = if marks == "^" { RestPlace::Above } else { RestPlace::Middle };
                column.rests.push(RestSpec { place, ..RestSpec::new(value) });
                continue;
            }
            let Ok(pitch) = name.trim_end_matches('!').parse() else { continue };
            let mut note = NoteSpec { id: Some(ElementId(id)), ..NoteSpec::new(pitch) };
            for mark in marks.chars() {
                match mark {
                    '^' => note.stem = StemRule::Up,
                    'v' => note.stem = StemRule::Down,
                    'n' => note.stem = StemRule::None,
                    '~' => note.tied_from_previous = true,
                    '+' => note.sign = Some(TechniqueSign::Stopped),
                    'o' => note.sign = Some(TechniqueSign::Open),
                    '%' => note.sign = Some(TechniqueSign::HalfStopped),
                    'w' => note.head = Head::Whole,
                    'h' => note.head = Head::Half,
                    '!' => note.accidental = AccidentalRule::Force,
                    _ => note.ink = Some(Ink::Ghost),
                }
            }
            column.notes.push(note);
        }
        staff.columns.push(column);
    }
    staff
}
