//! The labels of real scores against the transpositions in the same files: twelve movements of the OpenScore Orchestra
//! corpus (MarkGotham/Hauptstimme, commit 8f67785, CC0) in compressed MusicXML.
//!
//! `CROOKWISE_SCORES` names the folder.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::movements::say;
use crookwise_tests::outside::Comparison;
use crookwise_theory::label::{DecodeOptions, decode};
use crookwise_theory::{
    Clef, ClefSign, Habits, MusicXmlTranspose, Notation, Pitch, Printed, Signature, Situation, Step, Tonic,
    Transposition, read,
};
use quick_xml::Reader;
use quick_xml::events::Event;
use std::collections::BTreeMap;
use std::fs::File;
use std::io::Read as _;
use std::path::Path;
use zip::ZipArchive;

/// One part, as far as its transposition goes.
#[derive(Debug, Default)]
struct Part {
    name: String,
    /// Every `<transpose>` in order: diatonic where told, chromatic, octave-change.
    transposes: Vec<(Option<i32>, i32, i32)>,
    /// The first clef of its first staff.
    clef: Option<Clef>,
    /// Every letter that is printed.
    letters: Vec<Tonic>,
}

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![
    labels_of_real_scores_mean_what_the_files_transpose,
    oddities_of_the_transcriptions,
];

/// The MusicXML inside a compressed file: the one its container names.
fn music(path: &Path) -> String {
    let mut archive = ZipArchive::new(File::open(path).unwrap()).unwrap();
    let mut entry = |name: &str| {
        let mut text = String::new();
        archive.by_name(name).unwrap().read_to_string(&mut text).unwrap();
        text
    };
    let container = entry("META-INF/container.xml");
    let start = container.find("full-path=\"").unwrap() + 11;
    let end = start + container[start..].find('"').unwrap();
    entry(&container[start..end])
}

/// The parts of a score, in the order of its part list.
fn parts(xml: &str) -> Vec<Part> {
    let mut reader = Reader::from_str(xml);
    let mut parts: Vec<(String, Part)> = Vec::new();
    let mut path: Vec<String> = Vec::new();
    let mut current = 0;
    let mut number = [None; 3];
    let mut clef = (String::new(), 0, 0);
    let mut pitch = (None, 0);
    loop {
        let event = reader.read_event().unwrap();
        match &event {
            Event::Start(tag) => {
                let name = tag.name().as_ref().to_owned();
                let id = tag.try_get_attribute("id").unwrap();
                let id = id.map(|id| id.value.into_owned());
                match (name.as_str(), id) {
                    ("score-part", Some(id)) => parts.push((id, Part::default())),
                    ("part", Some(id)) => current = parts.iter().position(|(known, _)| *known == id).unwrap(),
                    ("transpose", _) => number = [None; 3],
                    ("clef", _) => clef = (String::new(), 0, 0),
                    ("pitch", _) => pitch = (None, 0),
                    _ => {}
                }
                path.push(name);
            }
            Event::Text(text) => {
                let text = text.trim();
                let within = |depth: usize| path.iter().rev().nth(depth).map_or("", String::as_str);
                let whole = || text.parse::<i32>().unwrap();
                match (within(1), within(0)) {
                    ("score-part", "part-name") => {
                        // Entities part a text; what belongs together is joined again.
                        let part = &mut parts.last_mut().unwrap().1;
                        part.name.extend(
                            text.chars().map(|letter| if letter.is_whitespace() { ' ' } else { letter }),
                        );
                    }
                    ("transpose", "diatonic") => number[0] = Some(whole()),
                    ("transpose", "chromatic") => number[1] = Some(whole()),
                    ("transpose", "octave-change") => number[2] = Some(whole()),
                    ("clef", "sign") => text.clone_into(&mut clef.0),
                    ("clef", "line") => clef.1 = whole(),
                    ("clef", "clef-octave-change") => clef.2 = whole(),
                    ("pitch", "step") => pitch.0 = text.chars().next().and_then(Step::from_letter),
                    ("pitch", "alter") => pitch.1 = whole(),
                    _ => {}
                }
            }
            Event::End(_) => {
                let part = parts.get_mut(current).map(|(_, part)| part);
                match (path.pop().unwrap_or_default().as_str(), part) {
                    ("transpose", Some(part)) => {
                        part.transposes.push((number[0], number[1].unwrap(), number[2].unwrap_or(0)));
                    }
                    ("clef", Some(part)) if part.clef.is_none() => {
                        let sign = match clef.0.as_str() {
                            "G" => Some(ClefSign::G),
                            "F" => Some(ClefSign::F),
                            "C" => Some(ClefSign::C),
                            _ => None,
                        };
                        part.clef = sign.map(|sign| {
                            Clef::new(sign, u8::try_from(clef.1).unwrap(), i8::try_from(clef.2).unwrap())
                                .unwrap()
                        });
                    }
                    ("pitch", Some(part)) => {
                        let letter = Tonic::new(pitch.0.unwrap(), pitch.1);
                        if !part.letters.contains(&letter) {
                            part.letters.push(letter);
                        }
                    }
                    _ => {}
                }
            }
            Event::Eof => break,
            _ => {}
        }
    }
    parts.into_iter().map(|(_, part)| part).collect()
}

/// Parts whose name and transposition disagree, or whose name cannot say it: what the file has, and why.
const KNOWN: [(&str, &str, (i32, i32), &str); 6] = [
    ("Brahms_Op.68_4", "C Horn 1", (0, 0), "a horn in C basso encoded an octave too high"),
    ("Brahms_Op.68_4", "C Horn 2", (0, 0), "a horn in C basso encoded an octave too high"),
    ("Bach_BWV.232_17", "Tromba 1", (1, 2), "the name leaves the key out"),
    ("Bach_BWV.232_17", "Tromba 2", (1, 2), "the name leaves the key out"),
    ("Bach_BWV.232_17", "Tromba 3", (1, 2), "the name leaves the key out"),
    ("Bach_BWV.232_17", "Timpani", (1, 2), "the name leaves the drums out"),
];

/// No row of the table of instruments has the violone, so what the decoder makes of its name is its own affair.
const NOT_IN_THE_TABLE: &str = "Violone";

fn labels_of_real_scores_mean_what_the_files_transpose(folder: &str) {
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .unwrap_or_else(|error| panic!("CROOKWISE_SCORES is {folder}: {error}"))
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "mxl"))
        .collect();
    files.sort();
    assert_eq!(files.len(), 12, "the twelve movements");

    let (mut seen, mut with_transposition) = (0, 0);
    let (mut transposing, mut at_pitch) = (0, 0);
    let mut unnamed: BTreeMap<String, usize> = BTreeMap::new();
    let mut met = Vec::new();
    let mut wrong = Vec::new();
    for file in &files {
        let title = file.file_stem().unwrap().to_str().unwrap();
        for part in parts(&music(file)) {
            let stated = stated(&part);
            seen += 1;
            with_transposition += usize::from(!part.transposes.is_empty());
            let label = decode(&part.name, DecodeOptions::default());
            let known = KNOWN.iter().find(|known| (known.0, known.1) == (title, part.name.as_str()));
            if part.name == NOT_IN_THE_TABLE {
                assert_eq!(stated, Transposition::new(-7, -12), "{title}: {}", part.name);
                continue;
            }
            let Some(staff) = label.staves.first() else {
                if let Some(known) = known {
                    assert_eq!(stated, Transposition::new(known.2.0, known.2.1), "{title}: {}", part.name);
                    met.push(known.1);
                } else {
                    *unnamed.entry(part.name.clone()).or_default() += 1;
                    assert_eq!(stated, Transposition::NONE, "{title}: {}", part.name);
                }
                continue;
            };
            let clef = part.clef.unwrap_or(staff.instrument.clef);
            let notation =
                Notation::of(staff, Habits::of(clef)).for_letters(staff, part.letters.iter().copied());
            let ours = notation.transposition;
            match known {
                Some(known) => {
                    assert_eq!(stated, Transposition::new(known.2.0, known.2.1), "{title}: {}", part.name);
                    assert_ne!(ours, stated, "{title}: {} is no longer known to be wrong", part.name);
                    met.push(known.1);
                }
                None if ours == stated && stated == Transposition::NONE => at_pitch += 1,
                None if ours == stated => transposing += 1,
                None => {
                    wrong.push(format!("{title}: {} is {ours:?} here, {stated:?} in the file", part.name));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!(met.len(), KNOWN.len(), "{met:?}");
    say(&format!(
        "scores: {transposing} transposing parts, {at_pitch} at pitch, {} known to disagree; no staff for {unnamed:?}",
        met.len()
    ));
    // Counted in the same files by lxml: 238 parts, 77 with a transposition.
    assert_eq!((seen, with_transposition), (238, 77));
    assert_eq!(transposing + at_pitch + met.len() + unnamed.values().sum::<usize>() + 1, seen);
}

/// The one transposition of a part; none where it has no `<transpose>`.
fn stated(part: &Part) -> Transposition {
    let mut all: Vec<Transposition> = part
        .transposes
        .iter()
        .map(|&(diatonic, chromatic, octave_change)| {
            let diatonic =
                diatonic.unwrap_or_else(|| panic!("{} has a transposition without letters", part.name));
            Transposition::from_musicxml(MusicXmlTranspose { diatonic, chromatic, octave_change })
        })
        .collect();
    all.dedup();
    assert!(all.len() <= 1, "{} changes its crook", part.name);
    all.pop().unwrap_or(Transposition::NONE)
}

/// The transcriptions' own oddities, which no transposition shows: two parts with the name of the first horn, and
/// horns in A and E merged into one in E.
fn oddities_of_the_transcriptions(folder: &str) {
    let names = |file: &str| -> Vec<String> {
        parts(&music(&Path::new(folder).join(file))).into_iter().map(|part| part.name).collect()
    };
    let ninth = names("Beethoven_Op.125_3.mxl");
    let firsts: Vec<&String> = ninth.iter().filter(|name| name.ends_with("Horn 1")).collect();
    assert_eq!(firsts, ["Bb (alto) Horn 1", "Eb Horn 1"]);
    let second = names("Beethoven_Op.36_2.mxl");
    let horn = second.iter().find(|name| name.contains("Horn 1")).unwrap();
    assert_eq!(horn, "E Horn 1 (orig. E and A)");
    let decoded = decode(horn, DecodeOptions::default());
    let staff = decoded.staves.first().unwrap();
    let reading = read(
        &Situation { signature: Signature::NONE, ..Situation::of(staff, Habits::of(Clef::TREBLE)) },
        Printed(Pitch::natural(Step::C, 5)),
    );
    assert_eq!(reading.sounding.to_string(), "E4");
}
