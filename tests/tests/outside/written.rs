//! A plan written as parts is read by the pinned Python library: it hears the same notes at the same times, joined by the same
//! beams, and stopped where they are stopped.

#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::movements::{decoder, say};
use crookwise_musicxml::{import, import_text, write::write};
use crookwise_planner::written::{Seats, score};
use crookwise_planner::{NamedCrook, Ticks, of_score, plan};
use crookwise_score::score::{Beams, Mark};
use crookwise_tests::outside::Comparison;
use crookwise_theory::CrookFamily;
use std::path::Path;
use std::process::Command;

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![the_library_reads_written_plans_alike];

/// Prints a line for every part: its notes as 48ths of a quarter note from the beginning, what sounds, its beams, and a cross
/// where it is stopped.
const LIBRARY: &str = "
import sys
from music21 import articulations, converter
score = converter.parse(sys.argv[1]).toSoundingPitch()
for part in score.parts:
    heard = []
    for note in part.recurse().notes:
        when = round(note.getOffsetInHierarchy(part) * 48)
        beams = '/'.join(beam.type for beam in note.beams.beamsList)
        sign = '+' if any(isinstance(one, articulations.Stopped) for one in note.articulations) else ''
        heard.append(f'{when} ' + note.pitch.nameWithOctave.replace('-', 'b') + f' {beams}{sign}')
    print(','.join(sorted(heard)))
";

/// Beams by the words of the library.
fn told(beams: Beams) -> String {
    let of = |number: u8| {
        let has = |bits: u8| bits >> number & 1 == 1;
        let ways = [
            (beams.begin, "start"),
            (beams.through, "continue"),
            (beams.end, "stop"),
            (beams.hook_left | beams.hook_right, "partial"),
        ];
        ways.into_iter().find(|(bits, _)| has(*bits)).map(|(_, way)| way)
    };
    (0..8).filter_map(of).collect::<Vec<_>>().join("/")
}

fn the_library_reads_written_plans_alike(python: &str) {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../web/demo/movement.musicxml");
    let movement = import(&std::fs::read(demo).unwrap()).unwrap().score;
    let mut found =
        of_score::in_bars(&movement, 0..usize::MAX, Ticks::of_quarters(16.0).unwrap(), &mut decoder).unwrap();
    assert!(found.request.players.iter().any(|one| one.family == CrookFamily::Trumpet));
    let mut notes = [0; 3];
    // Crooks that change, and one crook for all, which leaves much to the hand.
    let in_f = |family| vec![NamedCrook::named(family, "F").unwrap()];
    for (changes, crooks) in [(true, NamedCrook::classical as fn(CrookFamily) -> _), (false, in_f)] {
        for player in &mut found.request.players {
            player.crooks = crooks(player.family);
        }
        let best = plan(&found.request).unwrap().plans.remove(0);
        assert_eq!(best.changes() > 0, changes);
        for seats in [Seats::Alone, Seats::Together] {
            let written = score(&found.request, &best, &found.layout, seats).unwrap();
            let own = read_alike(python, &write(&written, &mut decoder).unwrap());
            notes.iter_mut().zip(own).for_each(|(all, own)| *all += own);
        }
    }
    let [notes, beams, stopped] = notes;
    assert!(
        notes > 1_600 && beams > 20 && stopped > 10,
        "{notes} {beams} {stopped}: too few to say something"
    );
    say(&format!(
        "{notes} notes of written plans are read alike, joined by {beams} beams, {stopped} stopped"
    ));
}

/// Holds what the library reads in a file beside what is read here; how many notes, beams and stopped notes there are.
fn read_alike(python: &str, text: &str) -> [usize; 3] {
    let file = std::env::temp_dir().join(format!("crookwise-written-{}.musicxml", std::process::id()));
    std::fs::write(&file, text).unwrap();
    let run = Command::new(python).args(["-c", LIBRARY]).arg(&file).output().unwrap();
    std::fs::remove_file(&file).unwrap();
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    let read = import_text(text).unwrap().score;
    let said = String::from_utf8(run.stdout).unwrap();
    let heard: Vec<&str> = said.lines().collect();
    assert_eq!(heard.len(), read.parts().len());
    let mut found = [0; 3];
    for (part, heard) in read.parts().iter().zip(heard) {
        let own = part.by_file().into_iter().map(|one| {
            let when = (one.note.start.time.decimal() * 48.0).round();
            let sign = if one.note.look.marks.has(Mark::Stopped) { "+" } else { "" };
            format!("{when} {} {}{sign}", one.sounding, told(one.note.look.beams))
        });
        let mut own: Vec<String> = own.collect();
        own.sort_unstable();
        let with = |what: &str| own.iter().filter(|note| note.contains(what)).count();
        for (all, own) in found.iter_mut().zip([own.len(), with("start"), with("+")]) {
            *all += own;
        }
        assert_eq!(own.join(","), heard, "{}", part.name);
    }
    found
}
