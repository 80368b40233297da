//! The voices of a bar as chords beside each other.

use super::chord::{Chord, goes_up, y_of};
use crate::accidental::Accidental;
use crate::stack::{Obstacles, stack};
use crate::units::StaffSpace;
use crookwise_score::printed::PrintedEvent;
use crookwise_score::score::{Quarters, Stem};
use crookwise_theory::Clef;

/// The chords of the voices of a bar, each voice in its course; of two voices the upper has its stems up. Where both begin
/// at once and would touch, the lower one is moved to the right.
pub(super) fn chords<'a>(
    voices: &'a [Vec<PrintedEvent>],
    clef_at: impl Fn(&PrintedEvent) -> Clef,
) -> Vec<Vec<Option<Chord<'a>>>> {
    let two = voices.len() > 1;
    let mut all: Vec<Vec<Option<Chord<'a>>>> = voices
        .iter()
        .enumerate()
        .map(|(number, voice)| {
            let up = two.then_some(number % 2 == 0);
            let directions = beamed_directions(voice, &clef_at);
            let each = voice.iter().zip(directions).map(|(event, beamed)| {
                (!event.is_rest()).then(|| Chord::of(event, clef_at(event), up.or(beamed), 1.0))
            });
            each.collect()
        })
        .collect();
    if two {
        beside_each_other(&mut all);
    }
    all
}

/// Moves the chords of several voices that begin at once beside each other where their heads would touch, and sets their
/// accidentals and dots clear of all heads.
fn beside_each_other(all: &mut [Vec<Option<Chord<'_>>>]) {
    let mut onsets: Vec<Quarters> = Vec::new();
    for chord in all.iter().flatten().flatten() {
        if !onsets.contains(&chord.event.at) {
            onsets.push(chord.event.at);
        }
    }
    for onset in onsets {
        let mut here: Vec<&mut Chord<'_>> =
            all.iter_mut().flatten().flatten().filter(|chord| chord.event.at == onset).collect();
        if here.len() < 2 {
            continue;
        }
        for at in 1..here.len() {
            let (before, rest) = here.split_at_mut(at);
            let Some(chord) = rest.first_mut() else { continue };
            chord.lower = !chord.up;
            chord.shift = before.iter().map(|other| chord.clear_of(other)).fold(0.0, f64::max);
        }
        let right = here.iter().map(|chord| chord.shift + chord.heads_right()).fold(0.0, f64::max);
        for chord in &mut here {
            chord.beside = right - chord.shift;
        }
        let mut dotted: Vec<i32> = Vec::new();
        for chord in here.iter_mut().filter(|chord| chord.event.dots > 0) {
            let own = chord.dots().1;
            chord.dotted.clone_from(&dotted);
            dotted.extend(own);
        }
        let before: Vec<f64> = here.iter().map(|chord| chord.notes_left()).collect();
        if here.iter().all(|chord| (chord.scale - 1.0).abs() < 0.01) {
            set_together(&mut here);
        }
        // Grace notes stand before all accidentals, those of a later voice before those of the earlier ones.
        let mut left = here.iter().map(|chord| chord.shift + chord.notes_left()).fold(0.0, f64::min);
        for (chord, before) in here.iter_mut().zip(before) {
            let (shift, away) = (chord.shift, left - chord.shift - before);
            for (_, at) in &mut chord.graces {
                *at += away.min(0.0);
            }
            let own = chord.graces.iter().map(|(grace, at)| shift + at + grace.left() - 0.2);
            left = own.fold(left, f64::min);
        }
    }
}

/// Sets the accidentals of chords of one column clear of all their heads and of each other.
fn set_together(here: &mut [&mut Chord<'_>]) {
    let mut obstacles = Obstacles::default();
    let mut signs: Vec<(StaffSpace, Accidental)> = Vec::new();
    for chord in here.iter() {
        for head in &chord.heads {
            obstacles.heads.push(chord.head_bounds(head));
            signs.extend(head.accidental.map(|(sign, _)| (StaffSpace(y_of(head.place)), sign)));
        }
    }
    let mut lefts = stack(&signs, &obstacles).into_iter();
    for chord in here.iter_mut() {
        let shift = chord.shift;
        for head in &mut chord.heads {
            if let Some((_, own)) = &mut head.accidental {
                *own = lefts.next().map_or(*own, |left| left.0 - shift);
            }
        }
    }
}

/// The direction of each event that is beamed: one for the whole beam.
fn beamed_directions(voice: &[PrintedEvent], clef_at: &impl Fn(&PrintedEvent) -> Clef) -> Vec<Option<bool>> {
    let mut directions = vec![None; voice.len()];
    let mut from: Option<usize> = None;
    for (at, event) in voice.iter().enumerate() {
        if event.beams.begin & 1 > 0 {
            from = Some(at);
        }
        if event.beams.end & 1 > 0
            && let Some(first) = from.take()
        {
            let group = voice.get(first..=at).unwrap_or_default();
            let places = group
                .iter()
                .flat_map(|event| event.notes.iter().map(|note| clef_at(event).position(note.pitch).0));
            let stems = group.iter().filter_map(|event| event.stem);
            let up = match stems.clone().next() {
                Some(Stem::Up) => true,
                Some(Stem::Down) => false,
                _ => goes_up(places.collect::<Vec<_>>().into_iter()),
            };
            for direction in directions.iter_mut().take(at + 1).skip(first) {
                *direction = Some(up);
            }
        }
    }
    directions
}
