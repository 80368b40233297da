//! What lies over something else on a system that is drawn, by kinds: heads, signs, stems, curves, words, loudness.

use crookwise_engraving::measured::DrawnSystem;
use crookwise_engraving::{Bounds, Ink, Item, Outline, Point, Shape, StaffSpace, tie_height};
use std::collections::{BTreeMap, BTreeSet};

/// The kinds of what is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Drawn {
    Head,
    Accidental,
    Dot,
    Rest,
    Stem,
    Beam,
    Articulation,
    Curve,
    Loudness,
    Words,
}

/// Pairs of kinds with how often one lies over the other, and where first.
pub type Over = BTreeMap<(Drawn, Drawn), (usize, String)>;

/// What may meet: a stem its head, its beam and its flag, a curve the ends of stems; what else meets lies over.
const MAY_MEET: [(Drawn, Drawn); 10] = [
    (Drawn::Head, Drawn::Head),
    (Drawn::Head, Drawn::Stem),
    (Drawn::Stem, Drawn::Stem),
    (Drawn::Stem, Drawn::Beam),
    (Drawn::Beam, Drawn::Beam),
    (Drawn::Stem, Drawn::Curve),
    (Drawn::Dot, Drawn::Dot),
    (Drawn::Head, Drawn::Beam),
    (Drawn::Loudness, Drawn::Loudness),
    (Drawn::Curve, Drawn::Curve),
];

/// What two things may share without lying over each other.
const HAIR: f64 = 0.06;
/// Pieces of a curve.
const PIECES: i32 = 12;

/// Counts what lies over something else on a system that is called so, each pair of things once.
pub fn count(system: &DrawnSystem, called: &str, over: &mut Over) {
    let mut boxes: Vec<(usize, Drawn, Bounds)> = Vec::new();
    for (number, item) in system.drawing.items.iter().enumerate() {
        let Some(kind) = kind(item) else { continue };
        boxes.extend(pieces(&item.shape).into_iter().map(|own| (number, kind, own.grown(StaffSpace(-HAIR)))));
    }
    boxes.sort_by(|(.., one), (.., two)| one.left.0.total_cmp(&two.left.0));
    let mut seen: BTreeSet<(usize, usize)> = BTreeSet::new();
    for (at, (number, kind, own)) in boxes.iter().enumerate() {
        for (other, their, bounds) in boxes.iter().skip(at + 1) {
            if bounds.left > own.right {
                break;
            }
            let pair = if kind <= their { (*kind, *their) } else { (*their, *kind) };
            if number == other || MAY_MEET.contains(&pair) || !own.overlaps(*bounds) {
                continue;
            }
            if seen.insert(((*number).min(*other), (*number).max(*other))) {
                let place = || format!("{called}, {:.0} to the right and {:.0} down", own.left.0, own.top.0);
                over.entry(pair).or_insert_with(|| (0, place())).0 += 1;
            }
        }
    }
}

fn kind(item: &Item) -> Option<Drawn> {
    if matches!(item.ink, Ink::Staff | Ink::Ledger | Ink::Sign) {
        return None;
    }
    match &item.shape {
        Shape::Sign { sign, .. } => of_sign(sign),
        Shape::Beam { .. } => Some(Drawn::Beam),
        Shape::Tie { .. } => Some(Drawn::Curve),
        Shape::Text { .. } => Some(Drawn::Words),
        // The signs before cents, whose dashes cross.
        Shape::Line { from, to, .. } if item.ink == Ink::Muted => (from.y == to.y).then_some(Drawn::Words),
        Shape::Line { from, to, thickness } if from.x == to.x && thickness.0 < 0.15 => Some(Drawn::Stem),
        // A thinner one strikes a grace note through.
        Shape::Line { from, to, thickness } if from.x != to.x && from.y != to.y && thickness.0 > 0.12 => {
            Some(Drawn::Loudness)
        }
        _ => None,
    }
}

fn of_sign(sign: &Outline) -> Option<Drawn> {
    let starts = |names: &[&str]| names.iter().any(|name| sign.name().starts_with(name));
    let kinds: [(&[&str], Drawn); 8] = [
        (&["notehead"], Drawn::Head),
        (&["accidental"], Drawn::Accidental),
        (&["augmentation"], Drawn::Dot),
        (&["rest"], Drawn::Rest),
        (&["flag"], Drawn::Stem),
        (&["dynamic"], Drawn::Loudness),
        // Partials and cents.
        (&["fingering"], Drawn::Words),
        (&["artic", "fermata", "ornament", "brass", "strings", "breath"], Drawn::Articulation),
    ];
    kinds.iter().find(|(names, _)| starts(names)).map(|(_, kind)| *kind)
}

/// The ink of a shape as upright rectangles: signs with their cut-outs, what slants or bends in pieces.
fn pieces(shape: &Shape) -> Vec<Bounds> {
    match shape {
        Shape::Sign { sign, at, scale } => {
            let placed = |band: Bounds| {
                Bounds::new(
                    at.x.0 + band.left.0 * scale,
                    at.y.0 + band.top.0 * scale,
                    at.x.0 + band.right.0 * scale,
                    at.y.0 + band.bottom.0 * scale,
                )
            };
            sign.bands().into_iter().map(placed).collect()
        }
        Shape::Tie { from, to, rise } => bent(*from, *to, rise.0, 0.1),
        Shape::Line { from, to, thickness } | Shape::Beam { from, to, thickness } if from.x != to.x => {
            bent(*from, *to, 0.0, thickness.0 / 2.0)
        }
        other => vec![other.bounds()],
    }
}

/// A line from one place to another that rises by so much in its middle, as a tie does.
fn bent(from: Point, to: Point, rise: f64, half: f64) -> Vec<Bounds> {
    let at = |piece: i32| {
        let t = f64::from(piece) / f64::from(PIECES);
        let y = from.y.0 + (to.y.0 - from.y.0) * t - tie_height(t) * rise;
        (from.x.0 + (to.x.0 - from.x.0) * t, y)
    };
    (0..PIECES)
        .map(|piece| {
            let ((left, one), (right, two)) = (at(piece), at(piece + 1));
            Bounds::new(left, one.min(two) - half, right, one.max(two) + half)
        })
        .collect()
}
