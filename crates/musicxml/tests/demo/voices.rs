//! Voice leading and ranges.

use crate::{decoder, repaired, staff};
use crookwise_score::score::{Quarters, Score};
use crookwise_theory::Pitch;

/// Who has the tune, by bars.
const TUNE: [(usize, usize, &str); 13] = [
    (0, 4, "Violino I"),
    (5, 8, "Corno I in D"),
    (9, 21, "Violino I"),
    (22, 23, "2 Oboi"),
    (24, 25, "Flauto"),
    (26, 37, "Violino I"),
    (40, 49, "Corno III in F"),
    (50, 51, "2 Oboi"),
    (52, 73, "Violino I"),
    (73, 74, "Corno I in D"),
    (75, 76, "Tromba I in D"),
    (77, 78, "Corno I in D"),
    (79, 81, "Violino I"),
];

/// A note: when it begins and ends, its height.
type Heard = (Quarters, Quarters, i32);

/// What is heard of a staff, and which of several notes at once is listened to.
struct Line {
    notes: Vec<Heard>,
    pick: fn(i32, i32) -> i32,
}

impl Line {
    /// The highest notes of a staff in these bars.
    fn of(score: &Score, name: &str, bars: (usize, usize)) -> Self {
        let id = staff(score, name).id;
        let sounded = score.sounded(&mut decoder);
        let own = sounded.iter().filter(|note| note.staff == id && !note.note.grace);
        let within = own.filter(|note| (bars.0..=bars.1).contains(&score.bar_at(note.note.start.time)));
        let mut notes: Vec<Heard> =
            within.map(|note| (note.span().0, note.span().1, note.pitch.semitones())).collect();
        // Rests of less than a quarter note are the player's breath: what stood before them is heard on.
        let starts: Vec<Quarters> = notes.iter().map(|note| note.0).collect();
        for note in &mut notes {
            let next = starts.iter().find(|start| **start >= note.1);
            let soon = |next: &&Quarters| next.minus(note.1).is_some_and(|rest| rest < Quarters::whole(1));
            note.1 = next.filter(soon).copied().unwrap_or(note.1);
        }
        Self { notes, pick: i32::max }
    }

    fn at(&self, time: Quarters) -> Option<i32> {
        let sounding = self.notes.iter().filter(|note| note.0 <= time && time < note.1);
        sounding.map(|note| note.2).reduce(self.pick)
    }
}

/// Pairs of heights one after the other in which both voices moved the same way, from a fifth to a fifth or from an octave to
/// an octave: when, and whether they are fifths.
fn parallels(upper: &Line, lower: &Line) -> Vec<(Quarters, bool)> {
    let mut times: Vec<Quarters> = upper.notes.iter().chain(&lower.notes).map(|note| note.0).collect();
    times.sort_unstable();
    times.dedup();
    let mut found = Vec::new();
    let mut before: Option<(i32, i32)> = None;
    for time in times {
        let now = upper.at(time).zip(lower.at(time));
        if let (Some(before), Some(now)) = (before, now) {
            let same_way = (now.0 - before.0) * (now.1 - before.1) > 0;
            let apart = |pair: (i32, i32)| (pair.0 - pair.1).abs() % 12;
            if same_way && matches!(apart(now), 0 | 7) && apart(now) == apart(before) {
                found.push((time, apart(now) == 7));
            }
        }
        before = now;
    }
    found
}

/// The bars of parallels.
fn bars_of(score: &Score, found: &[(Quarters, bool)]) -> Vec<usize> {
    found.iter().map(|(time, _)| score.bar_at(*time)).collect()
}

#[test]
fn the_outer_voices_have_no_parallel_fifths_or_octaves() {
    let score = repaired();
    let mut tune = Line { notes: Vec::new(), pick: i32::max };
    for (from, to, name) in TUNE {
        tune.notes.extend(Line::of(&score, name, (from, to)).notes);
    }
    let bass = Line::of(&score, "Contrabbasso", (0, 81));
    assert!(tune.notes.len() > 250 && bass.notes.len() > 150);
    assert_eq!(bars_of(&score, &parallels(&tune, &bass)), []);
}

#[test]
fn the_strings_move_against_one_another() {
    let score = repaired();
    let strings = ["Violino I", "Violino II", "Viola", "Contrabbasso"];
    for (at, upper) in strings.iter().enumerate() {
        for lower in &strings[at + 1..] {
            let found = parallels(&Line::of(&score, upper, (0, 81)), &Line::of(&score, lower, (0, 81)));
            let bars = bars_of(&score, &found);
            // The second violins double the first an octave lower in the last refrain.
            let doubled = (*upper, *lower) == ("Violino I", "Violino II");
            assert!(bars.iter().all(|bar| doubled && (62..=70).contains(bar)), "{upper}, {lower}: {bars:?}");
        }
    }
}

/// Octaves between all others are doublings; fifths would be none.
#[test]
fn nobody_moves_in_fifths_with_anybody() {
    let score = repaired();
    let names: Vec<&str> = score.parts().iter().map(|part| part.name.as_ref()).collect();
    let mut lines = Vec::new();
    for name in names {
        lines.push((name, Line::of(&score, name, (0, 81))));
        if name.starts_with('2') {
            lines.push((name, Line { pick: i32::min, ..Line::of(&score, name, (0, 81)) }));
        }
    }
    assert_eq!(lines.len(), 19);
    for (at, (upper, above)) in lines.iter().enumerate() {
        for (lower, below) in &lines[at + 1..] {
            let fifths: Vec<_> = parallels(above, below).into_iter().filter(|(_, fifths)| *fifths).collect();
            assert_eq!(bars_of(&score, &fifths), [], "{upper}, {lower}");
        }
    }
}

/// A check that cannot fail is none: it hears parallels where there are some.
#[test]
fn parallels_are_heard() {
    let line = |heights: &[i32]| {
        let note = |(at, height): (i32, &i32)| (Quarters::whole(at), Quarters::whole(at + 1), *height);
        Line { notes: (0..).zip(heights).map(note).collect(), pick: i32::max }
    };
    let second = Quarters::whole(1);
    assert_eq!(parallels(&line(&[67, 69]), &line(&[48, 50])), [(second, true)]);
    assert_eq!(parallels(&line(&[60, 62, 62]), &line(&[48, 50, 43])), [(second, false)]);
    assert_eq!(parallels(&line(&[67, 69]), &line(&[48, 38])), []);
}

#[test]
fn every_instrument_keeps_its_range() {
    let score = repaired();
    let sounded = score.sounded(&mut decoder);
    let mut checked = 0;
    for part in score.parts() {
        let staff = &part.staves[0];
        let own: Vec<Pitch> =
            sounded.iter().filter(|note| note.staff == staff.id).map(|note| note.written.0).collect();
        let lowest = own.iter().map(|pitch| pitch.semitones()).min().unwrap();
        let highest = own.iter().map(|pitch| pitch.semitones()).max().unwrap();
        let instrument = decoder(&staff.label).staves[0].instrument;
        // Horns and trumpets are held against their series; drums are two.
        let Some((low, high)) = instrument.range.split_once('–') else { continue };
        if instrument.is_crooked() {
            continue;
        }
        let first = |text: &str| -> i32 {
            let text = text.split(['/', ' ']).next().unwrap().replace('♭', "b").replace('♯', "#");
            text.parse::<Pitch>().unwrap().semitones()
        };
        assert!(first(low) <= lowest && highest <= first(high), "{}: {lowest} to {highest}", part.name);
        checked += 1;
    }
    assert_eq!(checked, 9);
    let drums: Vec<String> = {
        let id = staff(&score, "Timpani in D A").id;
        let mut all: Vec<String> =
            sounded.iter().filter(|note| note.staff == id).map(|note| note.pitch.to_string()).collect();
        all.sort_unstable();
        all.dedup();
        all
    };
    assert_eq!(drums, ["A2", "D3"]);
}
