//! Ties and slurs in the course of a row.

use super::curves::{self, OpenSlur, OpenTie};
use super::row::DrawnBar;
use super::skyline::Skyline;
use crate::drawing::{Drawing, Ink};
use crate::units::Point;

/// Ties and slurs of the whole row.
pub(super) fn draw(
    bars: &[DrawnBar<'_, '_>],
    ink: Ink,
    (left, right): (f64, f64),
    skyline: &Skyline,
    drawing: &mut Drawing,
) {
    let mut ties: Vec<OpenTie> = Vec::new();
    let mut slurs: Vec<OpenSlur> = Vec::new();
    let first = bars.first().map_or(left, |(placed, ..)| placed.begins);
    for (placed, _, voices) in bars {
        let two = voices.len() > 1;
        for (voice, chords) in voices.iter().enumerate() {
            for chord in chords.iter().flatten() {
                let x = placed.x_of(chord.event.at) + chord.shift;
                for head in &chord.heads {
                    let above = if two {
                        voice % 2 == 0
                    } else if chord.heads.len() > 1 {
                        head.place > (chord.lowest() + chord.highest()) / 2
                    } else {
                        !chord.up
                    };
                    let (out, into) = curves::tie_tips(chord, x, head.place, head.x, above);
                    if head.note.tied {
                        // Two players in unison go on as one note: the tie nearest in voice is drawn, the other is the same.
                        let of_pitch = |tie: &OpenTie| tie.pitch == head.note.pitch;
                        let open = ties
                            .iter()
                            .position(|tie| of_pitch(tie) && tie.voice == voice)
                            .or_else(|| ties.iter().position(of_pitch));
                        let found = open.map(|at| ties.remove(at));
                        if !two {
                            ties.retain(|tie| !of_pitch(tie));
                        }
                        let shape = match found {
                            Some(tie) => curves::tie(tie.from, Point { x: into.x, y: tie.from.y }, tie.above),
                            None => curves::into(into, first - 0.2, above),
                        };
                        drawing.push(shape, ink, None);
                    }
                    if head.note.tied_on {
                        ties.push(OpenTie {
                            voice,
                            pitch: head.note.pitch,
                            from: out,
                            above,
                            bar: placed.bar,
                        });
                    }
                }
                for _ in 0..chord.event.slurs_end.min(4) {
                    let open = slurs
                        .iter()
                        .rposition(|slur| slur.voice == voice)
                        .or_else(|| slurs.len().checked_sub(1));
                    match open.map(|at| slurs.remove(at)) {
                        Some(slur) => {
                            let to = curves::slur_tip(chord, x, slur.above);
                            drawing.push(curves::slur(slur.from, to, slur.above, skyline), ink, None);
                        }
                        None => {
                            let above = if two { voice % 2 == 0 } else { !chord.up };
                            drawing.push(
                                curves::into(curves::slur_tip(chord, x, above), first - 0.2, above),
                                ink,
                                None,
                            );
                        }
                    }
                }
                for _ in 0..chord.event.slurs_begin.min(4) {
                    let above = if two { voice % 2 == 0 } else { !chord.up };
                    slurs.push(OpenSlur { voice, from: curves::slur_tip(chord, x, above), above });
                }
            }
        }
    }
    // What is left open within the system is a slip of the file, not a tie to the next.
    let last = bars.last().map(|(placed, ..)| placed.bar);
    for tie in ties.into_iter().filter(|tie| Some(tie.bar) == last) {
        drawing.push(curves::out_of(tie.from, right - 0.3, tie.above), ink, None);
    }
    for slur in slurs {
        drawing.push(curves::out_of(slur.from, right - 0.3, slur.above), ink, None);
    }
}
