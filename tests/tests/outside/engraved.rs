//! Real scores engraved: their brass as written and as it sounds, on rows as print has them. Heads, accidentals and dots that lie
//! over each other are counted by their boxes with the cut-outs of SMuFL, and none may; every note has its head.

use super::lying_over::{self, Over};
use super::movements::{MOVEMENTS, decoder, movement, say};
use crookwise_engraving::measured::{DrawnSystem, MusicSheet, SheetBar, SheetRow};
use crookwise_engraving::{Bounds, ElementId, Ink, Outline, Shape, StaffSpace};
use crookwise_score::printed::{Row, RowPitch, pairs, printed, rests_together};
use crookwise_score::score::{PartStaff, Score, StaffCourse};
use crookwise_tests::outside::Comparison;
use crookwise_theory::{Family, Intonation};

pub const COMPARISONS: &[Comparison] =
    &[("every_note_has_its_head_and_nothing_lies_over_it", every_note_has_its_head_and_nothing_lies_over_it)];

/// Whether a staff is of brass, by its label.
pub fn is_brass(score: &Score, staff: &PartStaff) -> bool {
    let course = StaffCourse::of(score, staff, &mut decoder);
    staff
        .notes()
        .first()
        .and_then(|(_, note)| course.place_of(note))
        .is_some_and(|place| place.staff.instrument.family == Family::Brass)
}

fn sheet(score: &Score) -> (MusicSheet, usize) {
    let mut rows = Vec::new();
    let mut notes = 0;
    for staves in pairs(score, &mut decoder) {
        let own: Vec<&PartStaff> = staves.iter().filter_map(|id| score.staff(*id)).collect();
        let count =
            own.iter().flat_map(|staff| staff.notes()).filter(|(_, note)| note.printed.is_some()).count();
        let brass = own.iter().all(|staff| is_brass(score, staff));
        for pitch in [RowPitch::Written, RowPitch::Sounding].into_iter().take(if brass { 2 } else { 1 }) {
            notes += count;
            let staff =
                printed(score, &Row { staves: staves.clone(), pitch }, Intonation::default(), &mut decoder);
            rows.push(SheetRow {
                staff: staff.into(),
                ink: Ink::Written,
                label: (String::new(), String::new()),
                made: brass && pitch == RowPitch::Written,
                joined: false,
            });
        }
    }
    let bars = score.bars().iter().map(|bar| SheetBar {
        number: bar.number.clone(),
        length: bar.length,
        time: bar.time,
        signs: bar.signs.clone(),
        above: Vec::new(),
    });
    let staves: Vec<_> = rows.iter().map(|row| row.staff.clone()).collect();
    let together = rests_together(score, &staves);
    (MusicSheet::of(rows, bars.collect(), together, StaffSpace(0.0)), notes)
}

/// How often any two kinds of things but those may lie over each other, of a thousand notes.
const MOST_OF_A_THOUSAND: f64 = 1.0;

/// What a sign is, where it must lie over nothing else.
#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Head(Option<ElementId>),
    Accidental,
    Dot,
}

fn kind(sign: &Outline, id: Option<ElementId>) -> Option<Kind> {
    match sign.name() {
        name if name.starts_with("notehead") => Some(Kind::Head(id)),
        name if name.starts_with("accidental") => Some(Kind::Accidental),
        "augmentationDot" => Some(Kind::Dot),
        _ => None,
    }
}

/// Pairs that lie over each other by more than a hair; two heads of a unison may share their place.
fn over(drawn: &DrawnSystem) -> usize {
    // Neighbours on one stem meet in it: heads may share its thickness.
    const HAIR: f64 = 0.03;
    const STEM: f64 = 0.12;
    let mut all: Vec<(Kind, Vec<Bounds>)> = Vec::new();
    for item in &drawn.drawing.items {
        let Shape::Sign { sign, at, scale } = &item.shape else { continue };
        let Some(kind) = kind(sign, item.id) else { continue };
        let bands = sign.bands().into_iter().map(|band| {
            Bounds::new(
                at.x.0 + band.left.0 * scale + HAIR,
                at.y.0 + band.top.0 * scale + HAIR,
                at.x.0 + band.right.0 * scale - HAIR,
                at.y.0 + band.bottom.0 * scale - HAIR,
            )
        });
        all.push((kind, bands.collect()));
    }
    all.sort_by(|(_, one), (_, two)| {
        let left = |bands: &[Bounds]| bands.iter().map(|band| band.left.0).fold(f64::INFINITY, f64::min);
        left(one).total_cmp(&left(two))
    });
    let mut count = 0;
    for (at, (kind, bands)) in all.iter().enumerate() {
        let right = bands.iter().map(|band| band.right.0).fold(0.0, f64::max);
        for (other, others) in all.iter().skip(at + 1) {
            if others.iter().all(|band| band.left.0 > right + 2.0) {
                break;
            }
            let heads = matches!((kind, other), (Kind::Head(_), Kind::Head(_)));
            // One stands for both, where both are the same.
            let dots = *kind == Kind::Dot && *other == Kind::Dot;
            let beside =
                |one: &Bounds, two: &Bounds| (one.left.0 - two.left.0).abs() < 0.15 && one.top == two.top;
            let same_dot = dots && bands.iter().zip(others).all(|(one, two)| beside(one, two));
            let same_place = heads && bands == others || same_dot;
            let near = if heads { STEM } else { 0.0 };
            let apart = |band: &Bounds| Bounds { left: band.left + StaffSpace(near), ..*band };
            let touch = bands.iter().any(|one| others.iter().any(|two| one.overlaps(apart(two))));
            count += usize::from(touch && !same_place);
        }
    }
    count
}

fn every_note_has_its_head_and_nothing_lies_over_it(folder: &str) {
    let mut worst = Vec::new();
    let mut beside = Over::new();
    let mut all_notes = 0;
    for name in MOVEMENTS {
        let score = movement(folder, name).score;
        let (sheet, notes) = sheet(&score);
        let mut heads = 0;
        let mut lies_over = 0;
        let spans = sheet.break_into(150.0);
        for span in &spans {
            let drawn = sheet.draw(*span, 150.0);
            heads += drawn.heads.len();
            lies_over += over(&drawn);
            let first = drawn.bars.first().map_or(0, |(bar, ..)| *bar);
            lying_over::count(&drawn, &format!("{name}, from bar {first} on"), &mut beside);
        }
        all_notes += notes;
        say(&format!(
            "{name}: {notes} notes on {} systems, {heads} heads, {lies_over} over each other",
            spans.len()
        ));
        if lies_over > 0 {
            worst.push(format!("{name}: {lies_over}"));
        }
        // Of two in unison one head stands for both.
        assert!(heads <= notes && heads * 10 > notes * 7, "{name}: {heads} heads of {notes} notes");
    }
    let mut too_often = Vec::new();
    for ((one, other), (count, place)) in &beside {
        let thousand = 1000.0 * *count as f64 / all_notes as f64;
        let line = format!("{one:?} and {other:?}: {count}, {thousand:.2} of a thousand notes; {place}");
        say(&line);
        if thousand >= MOST_OF_A_THOUSAND {
            too_often.push(line);
        }
    }
    assert!(too_often.is_empty(), "{too_often:?}");
    assert!(worst.is_empty(), "over each other: {worst:?}");
}
