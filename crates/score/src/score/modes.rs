//! Major or minor, where a score prints a signature and does not say: found from what sounds under it.
//!
//! A signature leaves two keys open. For each speak, in so many votes: the bass with which the music under it begins
//! (2), the bass with which it ends (3), and whether the fifth of the major key is more
//! often raised to the leading note of the minor one than a third of the time (2), and which of the two tonics sounds more
//! often (1). Our own rule. What is found is shown as found, and can be told otherwise.

use super::{Moment, NoteByFile, Quarters, Score};
use crookwise_theory::key::Mode;
use crookwise_theory::order::put_in_order;
use crookwise_theory::{Key, Pitch, Tonic};

impl Score {
    /// Tells major from minor under each signature of a score of a file. Keys that are minor already stay.
    pub fn find_modes(&mut self) {
        let mut notes: Vec<NoteByFile<'_>> = self.parts.iter().flat_map(super::Part::by_file).collect();
        put_in_order(&mut notes, |note| note.note.start.time);
        let beginning = Moment::without_length(Quarters::ZERO, 0);
        let mut spans: Vec<(Moment, Key)> = self.movement.map(|key| (beginning, key)).into_iter().collect();
        spans.extend(self.keys.iter().copied());
        let ends = spans.iter().skip(1).map(|(at, _)| at.time).chain([self.end()]);
        let mut found = Vec::new();
        for ((from, key), to) in spans.iter().zip(ends) {
            let before = |time: Quarters| notes.partition_point(|note| note.note.start.time < time);
            let own = notes.get(before(from.time)..before(to)).unwrap_or_default();
            found.push(if key.mode == Mode::Major { mode_of(*key, own) } else { *key });
        }
        let mut found = found.into_iter();
        if self.movement.is_some() {
            self.movement = found.next().or(self.movement);
        }
        for ((_, key), better) in self.keys.iter_mut().zip(found) {
            *key = better;
        }
    }
}

/// The votes of each span of a signature.
fn mode_of(major: Key, notes: &[NoteByFile<'_>]) -> Key {
    let fifths = major.tonic.fifths();
    let minor = Key::new(Tonic::from_fifths(fifths + 3), Mode::Minor);
    let class = |tonic: Tonic| tonic.pitch_class();
    let (mut for_major, mut for_minor) = (0, 0);
    let mut vote = |bass: Option<Pitch>, votes: u32| {
        let class_of_bass = bass.map(|bass| bass.tonic().pitch_class());
        if class_of_bass == Some(class(major.tonic)) {
            for_major += votes;
        } else if class_of_bass == Some(class(minor.tonic)) {
            for_minor += votes;
        }
    };
    let first = notes.iter().map(|note| note.note.start).min();
    vote(lowest(notes.iter().filter(|note| Some(note.note.start) == first)), 2);
    // The bass that sounds to the end.
    let end = notes.iter().map(|note| note.note.end.time).max();
    vote(lowest(notes.iter().filter(|note| Some(note.note.end.time) == end)), 3);
    // The fifth of the major key against the leading note of the minor one.
    let (fifth, leading) = (Tonic::from_fifths(fifths + 1), Tonic::from_fifths(fifths + 8));
    let count = |tonic: Tonic| notes.iter().filter(|note| note.sounding.0.tonic() == tonic).count();
    if count(leading) * 2 > count(fifth) {
        for_minor += 2;
    } else {
        for_major += 2;
    }
    if count(minor.tonic) > count(major.tonic) {
        for_minor += 1;
    } else {
        for_major += 1;
    }
    if for_minor > for_major { minor } else { major }
}

fn lowest<'a>(notes: impl Iterator<Item = &'a NoteByFile<'a>>) -> Option<Pitch> {
    notes.map(|note| note.sounding.0).min_by_key(|pitch| pitch.semitones())
}
