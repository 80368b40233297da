//! Ties and slurs in the course of a row.

use super::chord::Chord;
use super::curves::{self, OpenTie};
use super::row::DrawnBar;
use super::skyline::Skyline;
use crate::drawing::Shape;
use crate::units::Point;
use core::ops::Range;

/// A chord in the course of a row, grace notes before their own.
struct Passed<'c, 'a> {
    chord: &'c Chord<'a>,
    x: f64,
    voice: usize,
    /// The number of its voices.
    bar: usize,
    two: bool,
}

/// The curves of a row while they are gathered.
struct Course<'s> {
    /// Where curves begin that come from the system before, and where those end that go on to the next.
    ends: (f64, f64),
    skyline: &'s Skyline,
    shapes: Vec<Shape>,
}

/// Ties and slurs of a whole row, over and under what stands there.
pub(super) fn curves_of(bars: &[DrawnBar<'_, '_>], ends: (f64, f64), skyline: &Skyline) -> Vec<Shape> {
    let all = passed(bars);
    let mut course = Course { ends, skyline, shapes: Vec::new() };
    course.ties(&all, bars.last().map(|(placed, ..)| placed.bar));
    course.slurs(&all);
    course.shapes
}

/// The chords of a row, one after the other.
fn passed<'c, 'a>(bars: &'c [DrawnBar<'_, 'a>]) -> Vec<Passed<'c, 'a>> {
    let mut all = Vec::new();
    for (placed, _, voices) in bars {
        for (voice, chords) in voices.iter().enumerate() {
            for chord in chords.iter().flatten() {
                let x = placed.x_of(chord.event.at) + chord.shift;
                let two = voices.len() > 1;
                let of = |chord, x| Passed { chord, x, voice, bar: placed.bar, two };
                all.extend(chord.graces.iter().map(|(grace, at)| of(grace, x + at)));
                all.push(of(chord, x));
            }
        }
    }
    all
}

impl Course<'_> {
    fn ties(&mut self, all: &[Passed<'_, '_>], last: Option<usize>) {
        let mut open: Vec<OpenTie> = Vec::new();
        for own in all {
            for head in &own.chord.heads {
                let above = tie_is_above(own, head.place);
                let (out, into) = curves::tie_tips(own.chord, own.x, head.place, head.x, above);
                if head.note.tied {
                    // Two players in unison go on as one note: the tie nearest in voice is drawn, the other is the same.
                    let of_pitch = |tie: &OpenTie| tie.pitch == head.note.pitch;
                    let of_voice = |tie: &OpenTie| of_pitch(tie) && tie.voice == own.voice;
                    let found = open.iter().position(of_voice).or_else(|| open.iter().position(of_pitch));
                    let found = found.map(|at| open.remove(at));
                    if !own.two {
                        open.retain(|tie| !of_pitch(tie));
                    }
                    let shape = match found {
                        Some(tie) => curves::tie(tie.from, Point { x: into.x, y: tie.from.y }, tie.above),
                        None => curves::into(into, self.ends.0, above),
                    };
                    self.shapes.push(shape);
                }
                if head.note.tied_on {
                    let (voice, pitch, bar) = (own.voice, head.note.pitch, own.bar);
                    open.push(OpenTie { voice, pitch, from: out, above, bar });
                }
            }
        }
        // What is left open within the system is a slip of the file, not a tie to the next.
        for tie in open.into_iter().filter(|tie| Some(tie.bar) == last) {
            let shape = curves::out_of(tie.from, self.ends.1, tie.above);
            self.shapes.push(shape);
        }
    }

    fn slurs(&mut self, all: &[Passed<'_, '_>]) {
        let mut open: Vec<usize> = Vec::new();
        let voice = |at: usize| all.get(at).map(|own| own.voice);
        for (at, own) in all.iter().enumerate() {
            for _ in 0..own.chord.event.slurs_end.min(4) {
                let of_voice = open.iter().rposition(|begun| voice(*begun) == Some(own.voice));
                let begun = of_voice.or_else(|| open.len().checked_sub(1)).map(|place| open.remove(place));
                self.slur(all, begun, Some(at));
            }
            open.extend((0..own.chord.event.slurs_begin.min(4)).map(|_| at));
        }
        for begun in open {
            self.slur(all, Some(begun), None);
        }
    }

    /// A slur from one chord to another; where there is none, from the system before or on to the next.
    fn slur(&mut self, all: &[Passed<'_, '_>], from: Option<usize>, to: Option<usize>) {
        let range = from.unwrap_or(0)..to.map_or(all.len(), |to| to + 1);
        let Some(known) = from.or(to).and_then(|at| all.get(at)) else { return };
        let above = slur_is_above(all, known, range);
        let tip = |at: usize| all.get(at).map(|own| curves::slur_tip(own.chord, own.x, above, self.skyline));
        let (from, to) = (from.and_then(tip), to.and_then(tip));
        let Some(height) = from.or(to).map(|tip| tip.y.0) else { return };
        let from = from.unwrap_or(Point::new(self.ends.0, height));
        let to = to.unwrap_or(Point::new(self.ends.1, height));
        self.shapes.push(curves::slur(from, to, above, self.skyline));
    }
}

/// Away from the stem; of several heads the upper ones upwards; of two voices each to its own side.
fn tie_is_above(own: &Passed<'_, '_>, place: i32) -> bool {
    if own.two {
        own.voice.is_multiple_of(2)
    } else if own.chord.heads.len() > 1 {
        place > (own.chord.lowest() + own.chord.highest()) / 2
    } else {
        !own.chord.up
    }
}

/// Over the notes, unless all their stems go up; of two voices each to its own side.
fn slur_is_above(all: &[Passed<'_, '_>], known: &Passed<'_, '_>, range: Range<usize>) -> bool {
    let within = all.get(range).unwrap_or_default();
    if let Some(two) = within.iter().find(|own| own.two && own.voice == known.voice) {
        return two.voice % 2 == 0;
    }
    // Grace notes have their stems up, and their slurs under them.
    let mut full = within.iter().filter(|own| own.chord.scale > 0.9);
    let begins_with_grace = known.chord.scale < 0.9;
    !begins_with_grace && full.any(|own| !own.chord.up)
}
