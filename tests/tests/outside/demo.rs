//! The demo movement: its file is what its text makes, and an outside library hears in it what we do.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_musicxml::import;
use crookwise_tests::outside::Comparison;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] =
    &crookwise_tests::comparisons![the_file_is_what_its_text_makes, the_library_sounds_the_same_notes];

fn web(file: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../web").join(file)
}

fn the_file_is_what_its_text_makes(python: &str) {
    let run = Command::new(python).arg(web("make_demo")).arg("--check").output().unwrap();
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
}

/// Prints a line for every part: its notes as sixteenths from the beginning and what sounds, in order.
const LIBRARY: &str = "
import sys
from music21 import chord, converter
score = converter.parse(sys.argv[1]).toSoundingPitch()
for part in score.parts:
    heard = []
    for one in part.recurse().notes:
        at = 0 if one.duration.isGrace else 1
        when = round(one.getOffsetInHierarchy(part) * 4)
        for note in one.notes if isinstance(one, chord.Chord) else [one]:
            heard.append(f'{when} {at} ' + note.pitch.nameWithOctave.replace('-', 'b'))
    print(','.join(sorted(heard)))
";

fn the_library_sounds_the_same_notes(python: &str) {
    let file = web("demo/movement.musicxml");
    let run = Command::new(python).args(["-c", LIBRARY]).arg(&file).output().unwrap();
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    let read = import(&std::fs::read(&file).unwrap()).unwrap();
    let said = String::from_utf8(run.stdout).unwrap();
    let heard: Vec<&str> = said.lines().collect();
    assert_eq!(heard.len(), read.score.parts().len());
    let mut notes = 0;
    for (part, heard) in read.score.parts().iter().zip(heard) {
        let mut own: Vec<String> = part
            .by_file()
            .iter()
            .map(|one| {
                let sixteenths = one.note.start.time.decimal() * 4.0;
                format!("{} {} {}", sixteenths.round(), i32::from(!one.note.grace), one.sounding)
            })
            .collect();
        own.sort_unstable();
        notes += own.len();
        assert_eq!(own.join(","), heard, "{}", part.name);
    }
    assert!(notes > 2000, "{notes}");
}
