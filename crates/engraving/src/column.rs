//! What stands in one column, laid out round its middle: heads, stems, ledger lines, accidentals, rests and signs.

use crate::accidental::{Accidental, accidental_needed};
use crate::drawing::{Drawing, ElementId, Ink, Shape};
use crate::glyph::Glyph;
use crate::spec::{AccidentalRule, ColumnSpec, Head, NoteSpec, RestPlace, RestSpec, RestValue};
use crate::stack::{Obstacles, stack};
use crate::units::{Bounds, Point, StaffSpace};
use crate::voice::{Member, STEM, Voice, voices, y_of};
use crookwise_theory::{Clef, Signature};

/// Thickness of a ledger line (engraving default of the font).
const LEDGER: StaffSpace = StaffSpace(0.16);
/// How far a ledger line reaches beyond a head (engraving default of the font).
const LEDGER_REACH: StaffSpace = StaffSpace(0.4);
/// Between a technique sign and what it stands over.
const SIGN_GAP: StaffSpace = StaffSpace(0.4);
/// Between a technique sign and the staff.
const STAFF_GAP: StaffSpace = StaffSpace(0.6);
/// Between a rest and the notes of another voice.
const REST_GAP: StaffSpace = StaffSpace(0.4);

/// A column round its middle, x = 0.
#[derive(Debug, Default)]
pub(crate) struct Column {
    pub(crate) drawing: Drawing,
    /// Its heads, for the ties from and to the neighbours.
    pub(crate) heads: Vec<HeadPlace>,
}

/// A head as a tie sees it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct HeadPlace {
    /// Which line or space it is, whatever the clef.
    pub(crate) diatonic: i32,
    pub(crate) bounds: Bounds,
    /// Whether a tie curves upwards here.
    pub(crate) curve_up: bool,
    /// Whether it is the outermost head on that side, with nothing but the staff beyond.
    pub(crate) outer: bool,
    pub(crate) tied_from_previous: bool,
    pub(crate) ink: Ink,
    pub(crate) id: Option<ElementId>,
}

/// Lays out a column under a clef and a signature.
pub(crate) fn lay_out(spec: &ColumnSpec, clef: Clef, signature: Signature, ink: Ink) -> Column {
    let voices = voices(spec, clef);
    let mut column = Column::default();
    let heads: Vec<Bounds> = voices
        .iter()
        .flat_map(|voice| voice.members.iter().map(|member| voice.head_bounds(member)))
        .collect();
    let ledgers = ledger_lines(&voices);
    for line in &ledgers {
        column.drawing.push(level(*line, LEDGER), Ink::Ledger, None);
    }
    let mut lines = ledgers;
    for voice in &voices {
        lines.extend(draw_stem(&mut column.drawing, voice, ink));
    }
    draw_accidentals(&mut column.drawing, &voices, &spec.notes, signature, ink, &Obstacles { heads, lines });
    for voice in &voices {
        for member in &voice.members {
            let glyph = member.note.head.glyph();
            let ink = member.note.ink.unwrap_or(ink);
            column.drawing.push(Shape::Glyph { glyph, at: voice.head(member) }, ink, member.note.id);
            column.heads.push(head_place(voice, member, voices.len() > 1, ink));
        }
    }
    for rest in &spec.rests {
        draw_rest(&mut column.drawing, rest, ink);
    }
    draw_signs(&mut column.drawing, &voices, ink);
    column
}

/// A level line whose rectangle has no height yet.
fn level(line: Bounds, thickness: StaffSpace) -> Shape {
    let y = (line.top + line.bottom) / 2.0;
    Shape::Line { from: Point { x: line.left, y }, to: Point { x: line.right, y }, thickness }
}

/// The ledger lines from the staff to the farthest heads: each as wide as the heads that stand on it or just beyond,
/// or, where there are none, as the next ones farther out.
fn ledger_lines(voices: &[Voice<'_>]) -> Vec<Bounds> {
    let heads: Vec<(i32, Bounds)> = voices
        .iter()
        .flat_map(|voice| voice.members.iter().map(|member| (member.place, voice.head_bounds(member))))
        .collect();
    let farthest = |up: bool| {
        let places = heads.iter().map(|(place, _)| *place);
        if up { places.max().unwrap_or(4) } else { places.min().unwrap_or(4) }
    };
    let above = (10..=farthest(true)).step_by(2).map(|line| (line, 1));
    let below = (farthest(false)..=-2).rev().filter(|line| line % 2 == 0).map(|line| (line, -1));
    let mut lines = Vec::new();
    for (line, side) in above.chain(below) {
        // Places beyond this line, away from the staff.
        let beyond = |place: i32| (place - line) * side;
        let touching = heads.iter().filter(|(place, _)| (0..=1).contains(&beyond(*place)));
        let extent = touching.map(|(_, bounds)| *bounds).reduce(Bounds::union).or_else(|| {
            let farther = || heads.iter().filter(|(place, _)| beyond(*place) > 1);
            let nearest = farther().map(|(place, _)| beyond(*place)).min()?;
            let next = farther().filter(|(place, _)| beyond(*place) <= nearest + 1);
            next.map(|(_, bounds)| *bounds).reduce(Bounds::union)
        });
        if let Some(extent) = extent {
            let y = y_of(line);
            lines.push(Bounds {
                left: extent.left - LEDGER_REACH,
                right: extent.right + LEDGER_REACH,
                top: y - LEDGER / 2.0,
                bottom: y + LEDGER / 2.0,
            });
        }
    }
    lines
}

/// Draws the stem of a voice; gives back the room it takes.
fn draw_stem(drawing: &mut Drawing, voice: &Voice<'_>, ink: Ink) -> Option<Bounds> {
    let (start, tip) = voice.stem()?;
    let x = voice.stem_x() + STEM / 2.0;
    let shape = Shape::Line { from: Point { x, y: start }, to: Point { x, y: tip }, thickness: STEM };
    let bounds = shape.bounds();
    let (ink, id) = common(voice.stemmed().map(|member| member.note), ink);
    drawing.push(shape, ink, id);
    Some(bounds)
}

/// The ink of all notes if they agree, and the element if there is but one.
fn common<'a>(notes: impl Iterator<Item = &'a NoteSpec>, ink: Ink) -> (Ink, Option<ElementId>) {
    let notes: Vec<&NoteSpec> = notes.collect();
    let inks = || notes.iter().map(|note| note.ink.unwrap_or(ink));
    let first = inks().next().unwrap_or(ink);
    let shared = if inks().all(|ink| ink == first) { first } else { ink };
    (shared, if let [note] = notes.as_slice() { note.id } else { None })
}

/// The accidental a note shows among all notes of its column. Two alterations of one letter on one line are both
/// shown, or the plain one would be read like the other.
fn shown(note: &NoteSpec, signature: Signature, column: &[NoteSpec]) -> Option<Accidental> {
    let (letter, alter) = (note.pitch.diatonic(), note.pitch.alter);
    match note.accidental {
        AccidentalRule::Hide => None,
        _ if note.head == Head::Cross => None,
        AccidentalRule::Force => Some(Accidental(alter)),
        AccidentalRule::Auto if note.tied_from_previous => None,
        AccidentalRule::Auto
            if column.iter().any(|other| other.pitch.diatonic() == letter && other.pitch.alter != alter) =>
        {
            Some(Accidental(alter))
        }
        AccidentalRule::Auto => accidental_needed(note.pitch, signature),
    }
}

fn draw_accidentals(
    drawing: &mut Drawing,
    voices: &[Voice<'_>],
    notes: &[NoteSpec],
    signature: Signature,
    ink: Ink,
    obstacles: &Obstacles,
) {
    let mut signs: Vec<(StaffSpace, Accidental, &NoteSpec)> = Vec::new();
    for member in voices.iter().flat_map(|voice| &voice.members) {
        let y = y_of(member.place);
        if let Some(sign) = shown(member.note, signature, notes)
            // Two heads on one line that say the same need the sign once.
            && !signs.iter().any(|(at, other, _)| (*at, *other) == (y, sign))
        {
            signs.push((y, sign, member.note));
        }
    }
    let lines: Vec<(StaffSpace, Accidental)> = signs.iter().map(|(y, sign, _)| (*y, *sign)).collect();
    for ((y, sign, note), left) in signs.into_iter().zip(stack(&lines, obstacles)) {
        for (glyph, x) in sign.placed() {
            let at = Point { x: left + x, y };
            drawing.push(Shape::Glyph { glyph, at }, note.ink.unwrap_or(ink), note.id);
        }
    }
}

/// Ties curve away from a single stem; in a chord the upper half upwards, the lower half downwards; in two voices
/// outwards (common practice).
fn head_place(voice: &Voice<'_>, member: &Member<'_>, two_voices: bool, ink: Ink) -> HeadPlace {
    let (low, high) = (voice.lowest(), voice.highest());
    let curve_up = if two_voices {
        voice.up
    } else if low == high {
        !voice.up
    } else {
        member.place * 2 > low + high || (member.place * 2 == low + high && !voice.up)
    };
    HeadPlace {
        diatonic: member.note.pitch.diatonic(),
        bounds: voice.head_bounds(member),
        curve_up,
        outer: member.place == if curve_up { high } else { low } && curve_up != voice.up,
        tied_from_previous: member.note.tied_from_previous,
        ink,
        id: member.note.id,
    }
}

/// Rests of a voice stand a space or two off the middle, or as far as the notes of the other one push them.
fn draw_rest(drawing: &mut Drawing, rest: &RestSpec, ink: Ink) {
    let glyph = rest.value.glyph();
    // A whole rest hangs from the fourth line; the others sit round the middle one.
    let home = if rest.value == RestValue::Whole { StaffSpace(1.0) } else { StaffSpace(2.0) };
    let taken: Vec<Bounds> = drawing.items.iter().map(|item| item.shape.bounds().grown(REST_GAP)).collect();
    let ink_at = |y: StaffSpace| {
        let bounds = glyph.bounds();
        bounds.shifted(-(bounds.left + bounds.right) / 2.0, y)
    };
    let (start, step) = match rest.place {
        RestPlace::Middle => (home, -1.0),
        // A whole rest hangs from the top line then.
        RestPlace::Above if rest.value == RestValue::Whole => (StaffSpace::ZERO, -1.0),
        RestPlace::Above => (home - StaffSpace(2.0), -1.0),
        RestPlace::Below => (home + StaffSpace(2.0), 1.0),
    };
    // Every step moves on by a space, so a rest is clear after as many as the column is tall.
    let tall = drawing.bounds().map_or(0.0, |bounds| bounds.height().0 + 8.0) as u32;
    let free = |&y: &StaffSpace| !taken.iter().any(|other| other.overlaps(ink_at(y)));
    let y = (0..=tall).map(|steps| start + StaffSpace(step * f64::from(steps))).find(free).unwrap_or(start);
    let bounds = ink_at(y);
    let x = bounds.left - glyph.bounds().left;
    let off_staff = y < StaffSpace::ZERO || y > StaffSpace(4.0);
    if matches!(rest.value, RestValue::Whole | RestValue::Half) && off_staff {
        let ends = Bounds {
            left: bounds.left - LEDGER_REACH,
            right: bounds.right + LEDGER_REACH,
            top: y,
            bottom: y,
        };
        drawing.push(level(ends, LEDGER), Ink::Ledger, None);
    }
    drawing.push(Shape::Glyph { glyph, at: Point { x, y } }, rest.ink.unwrap_or(ink), rest.id);
}

/// Technique signs stand above the column, the highest note's on top; those of a lower voice below it.
fn draw_signs(drawing: &mut Drawing, voices: &[Voice<'_>], ink: Ink) {
    for voice in voices {
        let below = voices.len() > 1 && !voice.up;
        let signed = voice.members.iter().filter_map(|member| Some((member.note, member.note.sign?)));
        let signed: Vec<_> = if below { signed.rev().collect() } else { signed.collect() };
        for (note, sign) in signed {
            let glyph: Glyph = sign.glyph();
            let shape = glyph.bounds();
            let x = -(shape.left + shape.right) / 2.0;
            let level =
                |ink: &Bounds| ink.left < x + shape.right + SIGN_GAP && x + shape.left - SIGN_GAP < ink.right;
            let inks = drawing.items.iter().map(|item| item.shape.bounds()).filter(level);
            let ends = inks.reduce(Bounds::union).unwrap_or_default();
            let y = if below {
                (ends.bottom + SIGN_GAP).max(StaffSpace(4.0) + STAFF_GAP) - shape.top
            } else {
                (ends.top - SIGN_GAP).min(-STAFF_GAP) - shape.bottom
            };
            drawing.push(Shape::Glyph { glyph, at: Point { x, y } }, note.ink.unwrap_or(ink), note.id);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spec::{Head, StemRule, TechniqueSign};
    use crookwise_theory::Pitch;
    use proptest::prelude::*;

    fn note() -> impl Strategy<Value = NoteSpec> {
        let head = prop_oneof![4 => Just(Head::Black), 1 => Just(Head::Half), 1 => Just(Head::Whole)];
        let stem = prop_oneof![
            4 => Just(StemRule::Auto),
            1 => Just(StemRule::Up),
            1 => Just(StemRule::Down),
            1 => Just(StemRule::None)
        ];
        let rule = prop_oneof![3 => Just(AccidentalRule::Auto), 1 => Just(AccidentalRule::Force)];
        (22..46_i32, -3..=3_i32, head, stem, rule).prop_map(|(diatonic, alter, head, stem, accidental)| {
            let pitch = Pitch::from_diatonic(diatonic, alter);
            NoteSpec { head, stem, accidental, ..NoteSpec::new(pitch) }
        })
    }

    /// The rectangles of every accidental sign, sign by sign.
    fn accidentals(column: &Column) -> Vec<Vec<Bounds>> {
        let sign = |item: &crate::drawing::Item| match item.shape {
            Shape::Glyph { glyph, at } if glyph.name().starts_with("accidental") => {
                Some(glyph.bands().into_iter().map(|band| band.shifted(at.x, at.y)).collect())
            }
            _ => None,
        };
        column.drawing.items.iter().filter_map(sign).collect()
    }

    /// Stems and ledger lines.
    fn lines(column: &Column) -> impl Iterator<Item = Bounds> {
        let line = |item: &crate::drawing::Item| match item.shape {
            Shape::Line { .. } => Some(item.shape.bounds()),
            _ => None,
        };
        column.drawing.items.iter().filter_map(line)
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 4000, failure_persistence: None, ..ProptestConfig::default() })]

        /// Whatever stands in a column: no accidental lies over another, over a head, a stem or a ledger line, and
        /// heads lie over each other only where two voices share one.
        #[test]
        fn nothing_overlaps(notes in prop::collection::vec(note(), 1..6), fifths in -7..=7_i32) {
            let count = notes.len();
            let spec = ColumnSpec { notes, ..ColumnSpec::default() };
            let column = lay_out(&spec, Clef::TREBLE, Signature(fifths), Ink::Written);
            prop_assert_eq!(column.heads.len(), count);
            let signs = accidentals(&column);
            for (at, sign) in signs.iter().enumerate() {
                for band in sign {
                    for head in &column.heads {
                        prop_assert!(!band.overlaps(head.bounds), "{band:?} over {:?}", head.bounds);
                        prop_assert!(band.right < head.bounds.left || band.top >= head.bounds.bottom
                            || band.bottom <= head.bounds.top, "{band:?} right of {:?}", head.bounds);
                    }
                    for line in lines(&column) {
                        prop_assert!(!band.overlaps(line), "{band:?} over the line {line:?}");
                    }
                    for other in signs.iter().skip(at + 1).flatten() {
                        prop_assert!(!band.overlaps(*other), "{band:?} over {other:?}");
                    }
                }
            }
            for (at, one) in column.heads.iter().enumerate() {
                for two in column.heads.iter().skip(at + 1) {
                    let shared = one.bounds == two.bounds && spec.notes.iter().any(|note| note.stem == StemRule::Up
                        || note.stem == StemRule::Down);
                    // Heads on both sides of a stem overlap by its thickness.
                    let core = one.bounds.grown(-STEM);
                    prop_assert!(shared || !core.overlaps(two.bounds), "{one:?} over {two:?}");
                }
            }
        }

        /// Signs and rests are clear of all else, however many there are.
        #[test]
        fn signs_and_rests_are_clear(notes in prop::collection::vec(note(), 0..4), above: bool) {
            let mut spec = ColumnSpec { notes, ..ColumnSpec::default() };
            for note in &mut spec.notes {
                note.sign = Some(TechniqueSign::Open);
            }
            let place = if above { RestPlace::Above } else { RestPlace::Below };
            spec.rests.push(RestSpec { place, ..RestSpec::new(RestValue::Quarter) });
            let column = lay_out(&spec, Clef::TREBLE, Signature::NONE, Ink::Written);
            let mut clear: Vec<(bool, Bounds)> = Vec::new();
            for item in &column.drawing.items {
                let special = matches!(item.shape, Shape::Glyph { glyph: Glyph::BrassMuteOpen | Glyph::RestQuarter, .. });
                let bounds = item.shape.bounds();
                for (other_special, other) in &clear {
                    prop_assert!(!((special || *other_special) && bounds.overlaps(*other)), "{item:?}");
                }
                clear.push((special, bounds));
            }
        }
    }
}
