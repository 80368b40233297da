//! Where the signs of a key signature stand under each clef.

use crate::accidental::Accidental;
use crookwise_theory::key::{FLAT_ORDER, SHARP_ORDER};
use crookwise_theory::order::in_order;
use crookwise_theory::{Clef, ClefSign, Signature, StaffPosition, Step};

/// One sign of a signature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SignatureSign {
    /// Which letter it alters.
    pub step: Step,
    /// What it says.
    pub accidental: Accidental,
    /// Where it stands.
    pub place: StaffPosition,
}

/// The signs of a signature from left to right.
///
/// Beyond seven the letters altered once come first, those altered twice after them (common practice varies).
///
/// ```
/// # use crookwise_engraving::signature_signs;
/// # use crookwise_theory::{Clef, Signature};
/// let places: Vec<i32> = signature_signs(Clef::TREBLE, Signature(-3)).iter().map(|sign| sign.place.0).collect();
/// assert_eq!(places, [4, 7, 3]);
/// ```
#[must_use]
pub fn signature_signs(clef: Clef, signature: Signature) -> Vec<SignatureSign> {
    let sharps = signature.0 > 0;
    let order = if sharps { SHARP_ORDER } else { FLAT_ORDER };
    let lowest = lowest_place(clef, sharps);
    let signs = order
        .into_iter()
        .map(|step| SignatureSign {
            step,
            accidental: Accidental(signature.alteration(step)),
            place: place_of(clef, step, lowest),
        })
        .filter(|sign: &SignatureSign| sign.accidental.0 != 0);
    in_order(signs, |sign| sign.accidental.0.unsigned_abs())
}

/// The naturals that cancel what a new signature no longer alters, in the order in which the old one had the signs.
#[must_use]
pub fn cancelling_signs(clef: Clef, old: Signature, new: Signature) -> Vec<SignatureSign> {
    let gone = |sign: &SignatureSign| new.alteration(sign.step) == 0;
    let natural = |sign| SignatureSign { accidental: Accidental(0), ..sign };
    signature_signs(clef, old).into_iter().filter(gone).map(natural).collect()
}

/// The lowest of the seven neighbouring places a full signature fills.
///
/// Treble, bass, alto and tenor: common practice, the tenor clef with its own order of sharps. French violin and
/// subbass share the letters of the bass and treble clef. Soprano, mezzo-soprano and baritone, from memory: the shape
/// of the treble clef where it stays within the staff, else the one that alternates strictly and does.
fn lowest_place(clef: Clef, sharps: bool) -> i32 {
    let (sharp, flat) = match (clef.sign, clef.line()) {
        (ClefSign::G, 1) => (1, -1),
        (ClefSign::G, _) | (ClefSign::F, 5) => (3, 1),
        (ClefSign::C, 1) => (0, 0),
        (ClefSign::C, 2) => (0, 2),
        (ClefSign::C, 3) => (2, 0),
        (ClefSign::C, 4) => (2, 2),
        (ClefSign::C, _) | (ClefSign::F, 3) => (1, 1),
        (ClefSign::F, _) => (1, -1),
    };
    if sharps { sharp } else { flat }
}

/// The place of a letter among seven neighbouring ones.
fn place_of(clef: Clef, step: Step, lowest: i32) -> StaffPosition {
    let bottom = clef.bottom_line().step.index();
    StaffPosition(lowest + (step.index() - bottom - lowest).rem_euclid(7))
}
