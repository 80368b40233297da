//! The list to choose from: every entry is understood as the staff it is named for, and every staff is in it.

use crookwise_theory::label::{DecodeOptions, catalogue, decode};
use crookwise_theory::tables::{HORN_CROOKS, INSTRUMENTS, TRUMPET_CROOKS};
use crookwise_theory::{CrookFamily, Family};

#[test]
fn every_entry_is_its_staff() {
    let list = catalogue();
    assert_eq!(list.iter().map(|(family, _)| *family).collect::<Vec<_>>(), Family::ALL);
    let mut seen = Vec::new();
    for (family, entries) in &list {
        for entry in entries {
            let decoded = decode(&entry.label, DecodeOptions::default());
            assert_eq!(decoded.problem, None, "{}", entry.label);
            assert_eq!((decoded.staves.len(), decoded.changes.len()), (1, 0), "{}", entry.label);
            let staff = &decoded.staves[0];
            assert_eq!(staff.instrument.family, *family, "{}", entry.label);
            assert!(entry.name.starts_with(&staff.name()), "{} / {}", entry.name, staff.name());
            assert_eq!(
                (staff.count, staff.players.len(), staff.drums.len()),
                (None, 0, 0),
                "{}",
                entry.label
            );
            if let Some(transposition) = staff.instrument.transposition {
                assert_eq!(staff.transposition, transposition, "{}", entry.label);
            }
            assert!(!seen.contains(&(staff.instrument.id, staff.transposition)), "{} twice", entry.label);
            seen.push((staff.instrument.id, staff.transposition));
        }
    }
    for row in INSTRUMENTS.iter().filter(|row| !row.is_crooked()) {
        assert_eq!(seen.iter().filter(|(id, _)| *id == row.id).count(), 1, "{}", row.id);
    }
    for crook in HORN_CROOKS.iter().chain(&TRUMPET_CROOKS) {
        let id = if crook.family == CrookFamily::Horn { "horn" } else { "trumpet" };
        assert!(seen.contains(&(id, crook.transposition)), "{id} {}", crook.name);
    }
    let names: Vec<&String> = list.iter().flat_map(|(_, entries)| entries).map(|entry| &entry.name).collect();
    for (place, name) in names.iter().enumerate() {
        assert!(!names[..place].contains(name), "two entries are named {name}");
    }
}

#[test]
fn names_as_musicians_say_them() {
    for (label, name, words) in [
        ("Corni in Es", "Horn in E-flat", "Horn in E-flat — sounds a major sixth lower"),
        ("Corni in B basso", "Horn in B-flat basso", "Horn in B-flat basso — sounds a major ninth lower"),
        ("Corni in C alto", "Horn in C alto", "Horn in C alto — sounds as written"),
        ("Klarinette in A", "Clarinet in A", "Clarinet in A — sounds a minor third lower"),
        ("Cornet à pistons en La", "Cornet in A", "Cornet in A — sounds a minor third lower"),
        ("Corno inglese", "Cor anglais", "Cor anglais — sounds a perfect fifth lower"),
        (
            "Clarinette basse en Si♭",
            "Bass clarinet in B-flat",
            "Bass clarinet in B-flat — sounds a major ninth lower",
        ),
        ("Timpani in D–A", "Timpani in D and A", "Timpani in D and A — sounds a major second higher"),
        ("Bratschen", "Viola", "Viola — sounds as written"),
        ("Contrabbassi", "Double bass", "Double bass — sounds an octave lower"),
        ("Bassi", "Cellos and basses", "Cellos and basses — sounds as written, the basses an octave lower"),
        ("Trombe in B", "Trumpet in B-flat", "Trumpet in B-flat — sounds a major second lower"),
        ("Ottavino", "Piccolo", "Piccolo — sounds an octave higher"),
        ("Campanelli", "Glockenspiel", "Glockenspiel — sounds two octaves higher"),
        (
            "Basssaxophon",
            "Bass saxophone in B-flat",
            "Bass saxophone in B-flat — sounds two octaves and a major second lower",
        ),
        ("Trompete in H", "Trumpet in B natural", "Trumpet in B natural — sounds a minor second lower"),
    ] {
        let decoded = decode(label, DecodeOptions::default());
        assert_eq!(decoded.staves[0].name(), name, "{label}");
        assert_eq!(decoded.staves[0].words(), words, "{label}");
    }
}
