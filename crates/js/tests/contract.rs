//! The calls of the package, natively: what they give, and that every wrong field is named.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_js::contract::{decode_label, read_note, write_note};
use crookwise_js::problem::{Code, Problem};
use crookwise_js::value::Value;
use serde_json::{Value as Json, json};

/// Fields out of a JSON object, as JavaScript would hand them in.
fn fields(object: &Json) -> Vec<(&str, Value)> {
    let value = |json: &Json| match json {
        Json::Null => Value::Other("null"),
        Json::Bool(_) => Value::Other("a boolean"),
        Json::Number(number) => Value::Number(number.as_f64().unwrap()),
        Json::String(text) => Value::Text(text.clone()),
        Json::Array(_) => Value::Other("an array"),
        Json::Object(_) => Value::Other("an object"),
    };
    object.as_object().unwrap().iter().map(|(name, json)| (name.as_str(), value(json))).collect()
}

fn reading(request: &Json) -> Result<Json, Problem> {
    read_note(&fields(request)[..]).map(|reading| serde_json::to_value(reading).unwrap())
}

fn writing(request: &Json) -> Result<Json, Problem> {
    write_note(&fields(request)[..]).map(|writing| serde_json::to_value(writing).unwrap())
}

/// A request with one more field.
fn with(field: &str, value: Json) -> Json {
    let mut request = json!({ "label": "Corni in Es", "printed": "E5" });
    request[field] = value;
    request
}

#[test]
fn a_note_of_the_horns_in_e_flat() {
    let reading = reading(&json!({
        "label": "Corni in Es", "printed": "E5", "movementKey": "Eb major", "as": "Horn in F"
    }))
    .unwrap();
    let drift = reading["driftCents"].as_f64().unwrap();
    assert!((drift + 13.686).abs() < 1e-3);
    assert!((reading["targetHz"].as_f64().unwrap() - 391.995).abs() < 1e-3);
    assert!((reading["naturalHz"].as_f64().unwrap() - 388.909).abs() < 1e-3);
    assert!((reading["bendCents"].as_f64().unwrap() - 13.686).abs() < 1e-3);
    let mut rest = reading.clone();
    for number in ["driftCents", "targetHz", "naturalHz", "bendCents"] {
        rest.as_object_mut().unwrap().remove(number);
    }
    assert_eq!(
        rest,
        json!({
            "printed": "E5", "written": "E5", "sounding": "G4", "partial": 10, "production": "open", "grade": "A",
            "degree": { "movement": "3", "crook": "3" },
            "byInterval": { "direction": "down", "name": "major sixth", "steps": -5, "semitones": -9 },
            "byClef": { "clef": "F4", "octaves": 1, "fifths": -3, "sign": "" },
            "inHand": { "written": "D5", "steps": -1, "semitones": -2 },
        })
    );
}

#[test]
fn an_accidental_is_read_as_another_in_the_imagined_clef() {
    let sign = |printed: &str| {
        let reading = reading(&json!({ "label": "Corni in Es", "printed": printed })).unwrap();
        (reading["sounding"].clone(), reading["byClef"]["sign"].clone())
    };
    assert_eq!(sign("F#5"), (json!("A4"), json!("n")));
    assert_eq!(sign("Bb4"), (json!("Db4"), json!("b")));
    assert_eq!(sign("Eb5"), (json!("Gb4"), json!("b")));
    assert_eq!(sign("Cb5"), (json!("Ebb4"), json!("bb")));
    assert_eq!(sign("C5"), (json!("Eb4"), json!("")));
}

#[test]
fn valves_and_woodwind_have_no_partials() {
    let valves = reading(&with("mechanism", json!("valves"))).unwrap();
    let clarinet = reading(&json!({ "label": "2 Clarinetti in B", "printed": "E5" })).unwrap();
    for reading in [&valves, &clarinet] {
        for field in ["partial", "driftCents", "naturalHz", "bendCents", "grade"] {
            assert_eq!(reading[field], Json::Null, "{field}");
        }
        assert_eq!(reading["production"], "chromatic");
        assert!(reading["targetHz"].as_f64().unwrap() > 0.0);
        assert_eq!(reading["inHand"], Json::Null);
        assert_eq!(reading["degree"]["movement"], Json::Null);
    }
    assert_eq!((&valves["sounding"], &clarinet["sounding"]), (&json!("G4"), &json!("D5")));
}

#[test]
fn off_the_series_there_is_no_drift_but_a_way_to_make_it() {
    let stopped = reading(&with("printed", json!("Eb5"))).unwrap();
    assert_eq!(
        (&stopped["partial"], &stopped["driftCents"], &stopped["naturalHz"]),
        (&Json::Null, &Json::Null, &Json::Null)
    );
    assert_eq!((&stopped["production"], &stopped["grade"]), (&json!("half"), &json!("B")));
    assert!((stopped["bendCents"].as_f64().unwrap() + 86.314).abs() < 1e-3);
    let none = reading(&with("printed", json!("E7"))).unwrap();
    assert_eq!(
        (&none["production"], &none["grade"], &none["bendCents"]),
        (&json!("unavailable"), &Json::Null, &Json::Null)
    );
}

#[test]
fn old_bass_notation_is_printed_an_octave_low() {
    let horn = |extra: Json| {
        let mut request = json!({ "label": "Horn in F", "printed": "C3", "clef": "F4" });
        for (name, value) in extra.as_object().unwrap() {
            request[name] = value.clone();
        }
        let reading = reading(&request).unwrap();
        (reading["written"].clone(), reading["sounding"].clone(), reading["partial"].clone())
    };
    assert_eq!(horn(json!({})), (json!("C4"), json!("F3"), json!(4)));
    assert_eq!(horn(json!({ "bassNotation": "new" })), (json!("C3"), json!("F2"), json!(2)));
    // The mark at the clef is counted in the pitch: a C3 there is meant as C3.
    assert_eq!(horn(json!({ "clefOctave": 1 })), (json!("C3"), json!("F2"), json!(2)));
}

#[test]
fn a_clef_with_a_mark_is_named_without_it() {
    let plain = reading(&json!({ "label": "Guitar", "printed": "C5" })).unwrap();
    assert_eq!((&plain["sounding"], &plain["byClef"]["octaves"]), (&json!("C4"), &json!(-1)));
    let marked =
        reading(&json!({ "label": "Guitar", "printed": "C4", "clef": "G2", "clefOctave": -1 })).unwrap();
    assert_eq!((&marked["sounding"], &marked["byClef"]["clef"]), (&json!("C4"), &json!("G2")));
    assert_eq!(marked["byClef"]["octaves"], -1);
}

#[test]
fn writing_gives_the_strict_spelling_and_the_printed_one() {
    let writing_of =
        |label: &str, sounding: &str| writing(&json!({ "label": label, "sounding": sounding })).unwrap();
    let horn = writing_of("Corni in Es", "F#4");
    assert_eq!((&horn["printed"], &horn["alsoPrinted"]), (&json!("D#5"), &json!("Eb5")));
    assert_eq!(horn["sounding"], "F#4");
    let plain = writing_of("Corni in Es", "G4");
    assert_eq!(
        (&plain["printed"], &plain["alsoPrinted"], &plain["partial"]),
        (&json!("E5"), &Json::Null, &json!(10))
    );
    // A request may hold what the other call would need.
    let both =
        writing(&json!({ "label": "Horn in F", "sounding": "F3", "printed": "nonsense", "clef": "F4" }))
            .unwrap();
    assert_eq!((&both["printed"], &both["written"]), (&json!("C3"), &json!("C4")));
}

#[test]
fn tuning_is_what_was_asked_for() {
    let horn = |extra: Json| {
        let mut request = json!({ "label": "Horn in E", "printed": "E4", "temperament": "vallotti" });
        for (name, value) in extra.as_object().unwrap() {
            request[name] = value.clone();
        }
        reading(&request).unwrap()
    };
    assert!((horn(json!({}))["driftCents"].as_f64().unwrap() + 17.6).abs() < 0.05);
    let on_e = horn(json!({ "temperamentKey": "E" }));
    assert!((on_e["driftCents"].as_f64().unwrap() + 5.9).abs() < 0.05);
    let low = horn(json!({ "a4": 415, "tunedOn": "G" }));
    assert!(low["targetHz"].as_f64().unwrap() < horn(json!({}))["targetHz"].as_f64().unwrap());
    assert!((low["driftCents"].as_f64().unwrap() + 17.6).abs() > 0.1);
}

#[test]
fn every_wrong_field_is_named() {
    let cases: &[(&str, Json, Code)] = &[
        ("label", json!(""), Code::Label),
        ("label", json!("qwertz asdf"), Code::Label),
        ("label", json!("x".repeat(5000)), Code::Label),
        ("label", json!(7), Code::Type),
        ("label", Json::Null, Code::Type),
        ("printed", json!("H4"), Code::Pitch),
        ("printed", json!("E"), Code::Pitch),
        ("printed", json!(""), Code::Pitch),
        ("printed", json!("E♭♯4"), Code::Pitch),
        ("printed", json!(format!("E{}4", "b".repeat(100_000))), Code::Pitch),
        ("printed", json!(["E4"]), Code::Type),
        ("clef", json!("G7"), Code::Clef),
        ("clef", json!("treble"), Code::Clef),
        ("clef", json!(2), Code::Type),
        ("clefOctave", json!(3), Code::ClefOctave),
        ("clefOctave", json!(0.5), Code::ClefOctave),
        ("clefOctave", json!(-1e300), Code::ClefOctave),
        ("clefOctave", json!("1"), Code::Type),
        ("bassNotation", json!("ancient"), Code::BassNotation),
        ("bassNotation", json!(true), Code::Type),
        ("scheme", json!("austrian"), Code::Scheme),
        ("scheme", json!({}), Code::Type),
        ("mechanism", json!("keys"), Code::Mechanism),
        ("mechanism", json!("Natural"), Code::Mechanism),
        ("movementKey", json!("Eb"), Code::MovementKey),
        ("movementKey", json!("G# major"), Code::MovementKey),
        ("movementKey", json!("H minor"), Code::MovementKey),
        ("as", json!("qwertz"), Code::As),
        ("as", Json::Null, Code::Type),
        ("a4", json!(369.9), Code::A4),
        ("a4", json!(570.5), Code::A4),
        ("a4", json!(-440), Code::A4),
        ("a4", json!("440"), Code::Type),
        ("temperament", json!("Vallotti"), Code::Temperament),
        ("temperament", json!(12), Code::Type),
        ("temperamentKey", json!("Eb major"), Code::TemperamentKey),
        ("temperamentKey", json!("H"), Code::TemperamentKey),
        ("tunedOn", json!("A"), Code::TunedOn),
        ("tunedOn", json!(false), Code::Type),
    ];
    for (field, value, code) in cases {
        let problem = reading(&with(field, value.clone())).unwrap_err();
        assert_eq!((problem.code, problem.field), (*code, *field), "{field}: {}", problem.sentence);
        assert!(problem.sentence.starts_with(field), "{}", problem.sentence);
        assert!(problem.sentence.chars().count() < 300, "{}", problem.sentence);
    }
}

#[test]
fn numbers_that_are_none_are_refused() {
    for number in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        for (field, code) in [("a4", Code::A4), ("clefOctave", Code::ClefOctave)] {
            let request = [
                ("label", Value::Text("Corni in Es".into())),
                ("printed", Value::Text("E5".into())),
                (field, Value::Number(number)),
            ];
            assert_eq!(read_note(&request[..]).unwrap_err().code, code);
        }
        let options = [("year", Value::Number(number))];
        assert_eq!(
            decode_label(Value::Text("Corni in Es".into()), &options[..]).unwrap_err().code,
            Code::Year
        );
    }
}

#[test]
fn what_is_missing_is_named() {
    for field in ["label", "printed"] {
        let mut request = json!({ "label": "Corni in Es", "printed": "E5" });
        request.as_object_mut().unwrap().remove(field);
        let problem = reading(&request).unwrap_err();
        assert_eq!((problem.code, problem.field), (Code::Missing, field));
    }
    let problem = writing(&json!({ "label": "Corni in Es", "printed": "E5" })).unwrap_err();
    assert_eq!((problem.code, problem.field), (Code::Missing, "sounding"));
    let problem = decode_label(Value::Missing, &[][..]).unwrap_err();
    assert_eq!((problem.code, problem.field), (Code::Missing, "text"));
}

#[test]
fn a_scheme_of_another_instrument_is_refused_and_one_without_choice_takes_any() {
    let request = |scheme: &str| json!({ "label": "Bassklarinette in B", "printed": "C4", "clef": "G2", "scheme": scheme });
    assert_eq!(reading(&request("german")).unwrap()["sounding"], "Bb3");
    assert_eq!(reading(&request("french")).unwrap()["sounding"], "Bb2");
    assert_eq!(reading(&request("rheingold")).unwrap_err().code, Code::Scheme);
    assert_eq!(reading(&with("scheme", json!("german"))).unwrap()["sounding"], "G4");
}

#[test]
fn a_label_says_what_it_means_or_what_is_wrong() {
    let decoded = |text: &str| {
        let decoded = decode_label(Value::Text(text.into()), &[][..]).unwrap();
        serde_json::to_value(decoded).unwrap()
    };
    let horns = decoded("2 Corni in Es");
    assert_eq!(
        horns["staff"],
        json!({
            "instrument": "horn", "name": "Horn", "key": "Eb", "octave": null, "count": 2, "players": [],
            "mechanism": "natural", "doubledBelow": false, "drums": [],
            "transposition": { "diatonic": -5, "chromatic": -9, "octaveChange": 0 },
        })
    );
    assert_eq!(horns["staves"].as_array().unwrap().len(), 1);
    assert_eq!((&horns["problem"], &horns["changes"]), (&Json::Null, &json!([])));
    let nothing = decoded("qwertz asdf");
    assert_eq!((&nothing["staff"], &nothing["staves"]), (&Json::Null, &json!([])));
    assert!(nothing["problem"].as_str().unwrap().contains("qwertz"));
    let two = decoded("Corno I in B alto, Corno II in G");
    assert_eq!(two["staves"].as_array().unwrap().len(), 2);
    assert_eq!((&two["staff"]["key"], &two["staff"]["octave"]), (&json!("Bb"), &json!("alto")));
}

/// Numbers that look like chance and are the same in every run (xorshift).
struct Chance(u64);

impl Chance {
    fn below(&mut self, bound: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % bound as u64).unwrap()
    }

    /// Something for a field: mostly a word that some field knows, else letters of all kinds, numbers, other types.
    fn value(&mut self) -> Value {
        const WORDS: [&str; 40] = [
            "Corni in Es",
            "2 Hörner in tief B",
            "Clarinetto in La",
            "Timpani in D, A",
            "Bassklarinette in B",
            "Tenortuben in B",
            "Trompa en Fa",
            "E5",
            "Ebbb4",
            "F##-9",
            "B99",
            "Cb-99",
            "C3",
            "G2",
            "F4",
            "C1",
            "F5",
            "old",
            "new",
            "french",
            "rheingold",
            "natural",
            "valves",
            "Eb major",
            "C minor",
            "F# minor",
            "Cb major",
            "vallotti",
            "just",
            "equal",
            "C",
            "G",
            "Eb",
            "",
            " ",
            "\u{0}",
            "\u{202e}muta in Es",
            "🎺 in 🎵",
            "♭♯𝄪",
            "ſſſſ İ ẞ",
        ];
        match self.below(12) {
            0 => Value::Missing,
            1 => Value::Other("null"),
            2 => {
                Value::Number([f64::NAN, f64::INFINITY, -0.0, 440.0, 1e308, -1.0, 2.0, 5e-324][self.below(8)])
            }
            3 => {
                let letters = self.below(60);
                let text = (0..letters).filter_map(|_| char::from_u32(self.below(0x2ff) as u32)).collect();
                Value::Text(text)
            }
            4 => Value::Text(WORDS[self.below(40)].repeat(self.below(50))),
            _ => Value::Text(WORDS[self.below(40)].into()),
        }
    }
}

/// A panic would end the package for good, so whatever is handed in gives a reply or a problem.
#[test]
fn nothing_panics_whatever_is_handed_in() {
    const FIELDS: [&str; 14] = [
        "label",
        "printed",
        "sounding",
        "clef",
        "clefOctave",
        "bassNotation",
        "scheme",
        "mechanism",
        "movementKey",
        "as",
        "a4",
        "temperament",
        "temperamentKey",
        "tunedOn",
    ];
    let mut chance = Chance(7);
    let (mut replies, mut problems) = (0, 0);
    for round in 0..4000 {
        let mut request: Vec<(&str, Value)> = vec![
            ("label", Value::Text("Corni in Es".into())),
            ("printed", Value::Text("E5".into())),
            ("sounding", Value::Text("G4".into())),
        ];
        // Few strange fields at a time, so that each is looked at.
        for _ in 0..=round % 3 {
            let field = FIELDS[chance.below(FIELDS.len())];
            request.retain(|(name, _)| *name != field);
            request.push((field, chance.value()));
        }
        for outcome in [read_note(&request[..]).map(|_| ()), write_note(&request[..]).map(|_| ())] {
            match outcome {
                Ok(()) => replies += 1,
                Err(problem) => {
                    assert!(problem.sentence.chars().count() < 400, "{}", problem.sentence);
                    problems += 1;
                }
            }
        }
        if let Ok(decoded) = decode_label(chance.value(), &[("year", chance.value())][..]) {
            assert_eq!(decoded.staff, decoded.staves.first().cloned());
            assert!(decoded.staff.is_some() || decoded.problem.is_some());
        }
    }
    assert!(replies > 500 && problems > 500, "{replies} {problems}");
}
