//! Loudness under a row: letters and hairpins, those that follow each other on one line.

use super::SheetRow;
use super::outside::Outside;
use super::row::PlacedBar;
use crate::drawing::{Ink, Shape};
use crate::glyph::{Outline, measured};
use crate::units::{Point, StaffSpace};
use crookwise_score::printed::PrintedSign;
use crookwise_score::score::Direction;

/// Thickness of the lines of a hairpin (engraving default of the font).
const HAIRPIN: f64 = 0.16;
/// How wide a hairpin opens.
const OPEN: f64 = 1.1;
/// The shortest hairpin.
const SHORTEST: f64 = 1.5;
/// Between letters and a hairpin.
const GAP: f64 = 0.5;
/// What stands no farther apart than this shares a line.
const NEAR: f64 = 3.0;
/// From what stands above to loudness.
const CLEAR: f64 = 0.5;
/// The middle of a hairpin over the base line of letters.
const MIDDLE: f64 = 0.55;
/// How much of an f reaches over the letter behind it (as the font sets the two in one).
const AFTER_F: f64 = 0.45;

/// Letters of loudness, or a hairpin, with its ends.
struct Piece {
    left: f64,
    right: f64,
    is: Kind,
}

enum Kind {
    Letters(Vec<&'static Outline>),
    Hairpin { opens: bool },
}

impl Piece {
    fn of_letters(name: &str, x: f64) -> Option<Self> {
        let letters = letters(name)?;
        let left = x - 0.3 + letters.first().map_or(0.0, |sign| sign.bounds().left.0);
        let wide = places(&letters).map(|(sign, at)| at + sign.bounds().right.0).fold(0.0, f64::max);
        Some(Self { left, right: left + wide, is: Kind::Letters(letters) })
    }

    /// How far it reaches over its base line.
    fn over(&self) -> f64 {
        match &self.is {
            Kind::Letters(letters) => letters.iter().map(|sign| -sign.bounds().top.0).fold(0.0, f64::max),
            Kind::Hairpin { .. } => MIDDLE + OPEN / 2.0,
        }
    }
}

/// The signs of letters that are all of them signs of loudness.
fn letters(name: &str) -> Option<Vec<&'static Outline>> {
    let sign = |letter: char| match letter {
        'p' => Some(&measured::DYNAMIC_PIANO),
        'm' => Some(&measured::DYNAMIC_MEZZO),
        'f' => Some(&measured::DYNAMIC_FORTE),
        'r' => Some(&measured::DYNAMIC_RINFORZANDO),
        's' => Some(&measured::DYNAMIC_SFORZANDO),
        'z' => Some(&measured::DYNAMIC_Z),
        _ => None,
    };
    let signs: Option<Vec<&'static Outline>> = name.chars().map(sign).collect();
    signs.filter(|signs| !signs.is_empty())
}

/// Letters with the places of their origins, from the left edge of the first.
fn places<'s>(letters: &'s [&'static Outline]) -> impl Iterator<Item = (&'static Outline, f64)> + 's {
    let start = letters.first().map_or(0.0, |sign| -sign.bounds().left.0);
    letters.iter().scan(start, |x, &sign| {
        let at = *x;
        let reaches = if sign.code_point() == measured::DYNAMIC_FORTE.code_point() { AFTER_F } else { 0.0 };
        *x += sign.advance().0 - reaches;
        Some((sign, at))
    })
}

impl Outside<'_> {
    /// The loudness of a row, hairpins that come from the system before or go on to the next among it.
    pub fn loudness(&mut self, row: &SheetRow, placed: &[PlacedBar], right: f64) {
        let mut pieces = pieces(row, placed, right);
        give_way(&mut pieces);
        // Where one still lies over another, it begins a line of its own.
        let mut chain: Vec<Piece> = Vec::new();
        for piece in pieces {
            let end = chain.last().map(|last| last.right);
            if end.is_some_and(|end| piece.left > end + NEAR || piece.left < end) {
                self.draw_chain(&core::mem::take(&mut chain));
            }
            chain.push(piece);
        }
        self.draw_chain(&chain);
    }

    fn draw_chain(&mut self, chain: &[Piece]) {
        let lines = chain
            .iter()
            .map(|piece| self.skyline.bottom(piece.left, piece.right).max(4.5) + CLEAR + piece.over());
        let y = lines.fold(0.0, f64::max);
        for piece in chain {
            match &piece.is {
                Kind::Letters(letters) => {
                    for (sign, at) in places(letters) {
                        self.sign(sign, piece.left + at, y);
                    }
                }
                Kind::Hairpin { opens } => self.hairpin(*opens, (piece.left, piece.right), y - MIDDLE),
            }
        }
    }

    fn hairpin(&mut self, opens: bool, (left, right): (f64, f64), y: f64) {
        let ink: Ink = self.ink;
        for side in [-1.0, 1.0] {
            let far = y + side * OPEN / 2.0;
            let (from, to) = if opens { (y, far) } else { (far, y) };
            let (from, to) = (Point::new(left, from), Point::new(right, to));
            self.push(Shape::Line { from, to, thickness: StaffSpace(HAIRPIN) }, ink);
        }
    }
}

/// All loudness of a row in its order; words that are no letters of loudness stand among the words.
fn pieces(row: &SheetRow, placed: &[PlacedBar], right: f64) -> Vec<Piece> {
    let Some(first) = placed.first() else { return Vec::new() };
    let mut open: Option<(bool, f64)> = None;
    for bar in row.staff.bars.get(..first.bar).unwrap_or_default() {
        for (_, sign) in &bar.signs {
            match sign {
                PrintedSign::Direction(Direction::Crescendo) => open = Some((true, first.begins)),
                PrintedSign::Direction(Direction::Diminuendo) => open = Some((false, first.begins)),
                PrintedSign::Direction(Direction::HairpinEnds) => open = None,
                _ => {}
            }
        }
    }
    let mut pieces = Vec::new();
    let hairpin = |opens: bool, left: f64, right: f64| Piece {
        left,
        right: right.max(left + SHORTEST),
        is: Kind::Hairpin { opens },
    };
    for bar in placed {
        let own = row.staff.bars.get(bar.bar..bar.bar + bar.rests.max(1)).unwrap_or_default();
        for (at, sign) in own.iter().flat_map(|bar| &bar.signs) {
            let x = bar.x_of(*at);
            let PrintedSign::Direction(direction) = sign else { continue };
            match direction {
                Direction::Dynamic(name) => pieces.extend(Piece::of_letters(name, x)),
                Direction::Crescendo => open = Some((true, x)),
                Direction::Diminuendo => open = Some((false, x)),
                Direction::HairpinEnds => {
                    // One that ends with the first note of a system has nothing left to show there.
                    let own = open.take().filter(|(_, from)| *from > first.begins || x > from + SHORTEST);
                    pieces.extend(own.map(|(opens, from)| hairpin(opens, from, x)));
                }
                _ => {}
            }
        }
    }
    pieces.extend(open.map(|(opens, from)| hairpin(opens, from, right - GAP)));
    crookwise_theory::order::put_in_order(&mut pieces, |piece| (piece.left * 1000.0) as i64);
    pieces
}

/// Hairpins begin behind the letters they stand at, and end before those they lead to.
fn give_way(pieces: &mut [Piece]) {
    let of_letters = |piece: &&Piece| matches!(piece.is, Kind::Letters(_));
    let letters: Vec<(f64, f64)> =
        pieces.iter().filter(of_letters).map(|piece| (piece.left, piece.right)).collect();
    for piece in pieces.iter_mut().filter(|piece| matches!(piece.is, Kind::Hairpin { .. })) {
        for (left, right) in &letters {
            if *left <= piece.left + 0.5 && *right + GAP > piece.left {
                piece.left = right + GAP;
            } else if *left > piece.left + SHORTEST && *left < piece.right + GAP && *right > piece.right - 2.0
            {
                piece.right = left - GAP;
            }
        }
        piece.right = piece.right.max(piece.left + SHORTEST);
    }
}

/// Whether a sign of loudness stands as words.
pub(super) fn is_words(name: &str) -> bool {
    letters(name).is_none()
}
