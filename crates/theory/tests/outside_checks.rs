//! Every single check of `checks.json`: done here, done elsewhere by name, or named as waiting for the reading of
//! MusicXML files.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod outside;

use crookwise_theory::{
    Clef, ClefSign, Habits, MusicXmlTranspose, Partial, Printed, Signature, Situation, StaffPosition,
    Temperament, Tonic, Transposition, Written, read,
};
use outside::{both_ways, float, int, oracle, pitch, staff, staff_of, text};
use serde_json::Value;

/// Checks that need a MusicXML file to be read.
const NOT_YET: [&str; 6] = ["C55", "C56", "C62", "C64", "C70", "C71"];

/// Done whole in `outside_transposition`: all 195 signatures, and the transposition by semitones alone.
const ELSEWHERE: [&str; 2] = ["C29", "C59"];

#[test]
fn every_check_is_done_or_named() {
    let checks = oracle("checks.json")["checks"].as_array().unwrap().clone();
    assert_eq!(checks.len(), 45);
    let mut done = 0;
    for check in &checks {
        let id = text(&check["id"]);
        if NOT_YET.contains(&id) || ELSEWHERE.contains(&id) {
            continue;
        }
        let (input, expected) = (&check["input"], &check["expected"]);
        match (text(&check["area"]), id) {
            ("written→sounding", _) => sounding(input, expected),
            ("key signature", _) => signature(input, expected),
            // music21's spelling must not be used, its cents may: B quarter-flat and a cent, 1200·log₂ 11 above F1.
            ("harmonic series", "C38") => {
                let theirs = f64::from(pitch("B4").midi() * 100 - 50 + 1);
                let ours = f64::from(pitch("F1").midi() * 100) + Partial::new(11).unwrap().cents();
                assert!((theirs - ours).abs() <= 0.5, "{theirs} {ours}");
            }
            ("harmonic series", _) => partial(input, expected),
            ("temperament", _) => temperament(input, expected),
            ("clef", _) => clef(input, expected),
            ("MusicXML transpose", "C58") => {
                let numbers = MusicXmlTranspose { diatonic: 0, chromatic: 0, octave_change: -1 };
                let transposition = Transposition::from_musicxml(numbers);
                assert_eq!(transposition.to_sounding(Written(pitch("C5"))).0, pitch("C4"));
            }
            // The octave mark of a clef is in the pitch already.
            ("MusicXML transpose", "C61") => {
                let marked = Clef::new(ClefSign::G, 2, -1).unwrap();
                both_ways(&staff_of("flute"), Habits::of(marked), "C5", "C5", id);
            }
            other => panic!("nobody does {other:?}"),
        }
        done += 1;
    }
    assert_eq!(done + NOT_YET.len() + ELSEWHERE.len(), checks.len());
}

fn sounding(input: &Value, expected: &Value) {
    let name = text(&input["instrument"]);
    let (written, sounds) = (text(&input["written"]), text(&expected["sounding"]));
    assert_eq!(pitch(sounds).midi(), int(&expected["midi"]));
    let staff = staff(name);
    both_ways(&staff, Habits::of(Clef::TREBLE), written, sounds, name);
    let reading = read(&Situation::of(&staff, Habits::of(Clef::TREBLE)), Printed(pitch(written)));
    assert_eq!(reading.sounding.to_string(), sounds);
}

fn signature(input: &Value, expected: &Value) {
    let horn = staff(&format!("Horn in {}", text(&input["instrument_in"])));
    let sounding = Signature(int(&input["written_fifths"])).transposed(horn.transposition.0);
    assert_eq!(sounding.0, int(&expected["theoretical_fifths"]), "{input}");
    assert_eq!(sounding.practical().0, int(&expected["practical_fifths_verovio"]), "{input}");
}

fn partial(input: &Value, expected: &Value) {
    let partial = Partial::new(u8::try_from(int(&input["n"])).unwrap()).unwrap();
    assert!((partial.cents() - float(&expected["cents"])).abs() < 1e-5, "{input}");
    assert!((partial.deviation() - float(&expected["deviation_from_12tet"])).abs() < 1e-4, "{input}");
}

fn temperament(input: &Value, expected: &Value) {
    let name = text(&input["name"]);
    let (id, same) = match name {
        "Werckmeister III" => ("werckmeister-3", true),
        "Vallotti" => ("vallotti", true),
        // Of these two names there are several temperaments; ours are the others.
        "Young, C-E by 1/6 P and Bb-C, E-F# by 1/12 P (archive file young2.scl)" => ("young", false),
        "Kirnberger III (scl: schisma G#-Eb)" => ("kirnberger-3", false),
        "Pythagorean (Eb-G#)" => ("pythagorean", true),
        "just (Ptolemy intense diatonic, C major)" => ("just", true),
        other => panic!("{other}"),
    };
    let ours = Temperament::by_id(id).unwrap();
    let agrees =
        expected["degrees"].as_array().unwrap().iter().zip(expected["cents_from_C"].as_array().unwrap()).all(
            |(degree, cents)| {
                let tonic: Tonic = text(degree).replace('-', "b").parse().unwrap();
                (ours.cents()[tonic.pitch_class() as usize] - float(cents)).abs() < 2e-3
            },
        );
    assert_eq!(agrees, same, "{name}");
}

fn clef(input: &Value, expected: &Value) {
    let sign = match text(&input["sign"]) {
        "G" => ClefSign::G,
        "F" => ClefSign::F,
        _ => ClefSign::C,
    };
    let clef = Clef::new(
        sign,
        u8::try_from(int(&input["line"])).unwrap(),
        i8::try_from(int(&input["octave_change"])).unwrap(),
    )
    .unwrap();
    assert_eq!(clef.bottom_line().to_string(), text(&expected["bottom_line"]), "{input}");
    assert_eq!(clef.pitch_at(StaffPosition(8)).to_string(), text(&expected["top_line"]), "{input}");
    assert_eq!(clef.position(pitch("C4")).0, int(&expected["middle_C_position"]), "{input}");
}
