//! What is played of real scores, counted against what they sound: every sounding note once for each pass of its bar.

use crate::movements::{MOVEMENTS, decoder, repaired, say};
use crookwise_score::performance::{Performance, PlayedSound};
use crookwise_score::score::{NoteId, PartStaff, Quarters, StaffId};
use crookwise_tests::outside::Comparison;
use std::collections::{BTreeMap, BTreeSet};
use std::time::Instant;

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![
    every_sounding_note_is_played_once_a_pass,
    windows_play_what_the_whole_plays
];

fn every_sounding_note_is_played_once_a_pass(folder: &str) {
    for name in MOVEMENTS {
        let score = repaired(folder, name);
        let sounded = score.sounded(&mut decoder);
        let begun = Instant::now();
        let performance = Performance::of(&score, &sounded);
        let ready = begun.elapsed();
        let (road, clock) = (performance.road(), performance.clock());
        let staves: Vec<StaffId> = score.staves().map(|staff| staff.id).collect();
        let begun = Instant::now();
        let played = performance.between(&staves, Quarters::ZERO, road.end());
        let took = begun.elapsed();
        say(&format!(
            "{name}: {} notes played ({} of them strokes) of {} written, in {:.0} s; ready in {ready:?}, all played in {took:?} (not built for speed)",
            played.len(),
            played.iter().filter(|note| note.stroke).count(),
            sounded.len(),
            clock.seconds(road.end()),
        ));
        // Written notes, those of ties counted each: as many as sound, and those without a pitch.
        let count: usize = staves.iter().map(|staff| performance.count(*staff)).sum();
        let heard: BTreeSet<NoteId> = sounded.iter().map(|note| note.id).collect();
        let without: usize = score
            .staves()
            .flat_map(PartStaff::notes)
            .filter(|(id, note)| note.printed.is_some() && note.is_played() && !heard.contains(id))
            .count();
        assert_eq!(count, sounded.len() + without, "{name}");
        // How often each is struck, beside how often its bar is played.
        let mut struck: BTreeMap<NoteId, usize> = BTreeMap::new();
        for note in played.iter().filter(|note| !note.stroke) {
            assert!(!note.held && note.onset >= 0.0 && note.length > 0.0, "{name}: {note:?}");
            *struck.entry(note.note).or_default() += 1;
        }
        for note in &sounded {
            let passes = road.places_of(note.note.bar as usize).count();
            let times = struck.get(&note.id).copied().unwrap_or(0);
            match (note.note.tied, times) {
                // It goes on from another, or that was not there.
                (true, _) => assert!(times <= passes, "{name}: {note:?}"),
                (false, times) => assert_eq!(times, passes, "{name}: {note:?}"),
            }
        }
        let unpitched = played.iter().filter(|note| matches!(note.sound, PlayedSound::Unpitched(_))).count();
        assert!(without > 0 || unpitched == 0, "{name}");
    }
}

/// The road in windows of some seconds, as it is played.
fn windows_play_what_the_whole_plays(folder: &str) {
    for name in ["Beethoven_Op.67_4", "Brahms_Op.68_3"] {
        let score = repaired(folder, name);
        let performance = Performance::of(&score, &score.sounded(&mut decoder));
        let road = performance.road();
        let staves: Vec<StaffId> = score.staves().map(|staff| staff.id).collect();
        let whole = performance.between(&staves, Quarters::ZERO, road.end()).len();
        let mut joined = 0;
        for place in 0..road.count() {
            let times = road.begins(&score, place).zip(road.begins(&score, place + 1));
            let Some((from, to)) = times else { panic!("{name}: bar {place}") };
            joined += performance.between(&staves, from, to).iter().filter(|note| !note.held).count();
        }
        assert_eq!(joined, whole, "{name}");
    }
}
