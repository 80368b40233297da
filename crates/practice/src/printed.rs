//! How notes of the first edition are printed: a raised note in a flat or minor key as a lowered one.

use crate::answer::Answer;
use crate::ask::{place, write_at};
use crate::kind::Kind;
use crate::question::Question;
use crate::setting::named;
use crookwise_score::Place;
use crookwise_theory::spelling::as_part_prints;
use crookwise_theory::{Interval, Pitch, Printed, Signature, Sounding, Written};

/// A note as it was printed under a signature.
fn under(signature: Signature, strict: Pitch) -> Pitch {
    let far = strict.alter.saturating_sub(signature.alteration(strict.step));
    let plain = (-1..=1).contains(&strict.alter) && (-1..=1).contains(&far);
    let against = strict.alter.signum() != signature.0.signum();
    if far == 0 || !against || strict.tonic().fifths().unsigned_abs() < 6 {
        return if plain { strict } else { as_part_prints(Written(strict), signature).0 };
    }
    // The nearest spelling to the keys of the signature, in tenths of a fifth.
    let off = |note: &Pitch| (10 * note.tonic().fifths() - 10 * signature.0 - 16).abs();
    [0, 1, -1].map(|letters| strict.respelled(letters)).into_iter().min_by_key(off).unwrap_or(strict)
}

/// What is written for a sound on a staff.
pub(crate) fn at_first(place: &Place, sounding: Sounding) -> Printed {
    let writing = write_at(place, sounding);
    let notation = place.notation();
    if place.habits.at_pitch {
        let key = place.movement.map(|key| under(key.signature(), sounding.0));
        return Printed(key.unwrap_or(sounding.0));
    }
    let strict = notation.written(writing.strict.printed).0;
    let signature = match place.movement {
        Some(key) if place.signature == Signature::NONE => {
            key.signature().transposed(-notation.transposition.0)
        }
        _ => place.signature,
    };
    if place.staff.natural_family().is_some() && place.signature == Signature::NONE {
        return writing.also_printed.unwrap_or(writing.strict.printed);
    }
    notation.printed(Written(under(signature.practical(), strict)))
}

impl Question {
    /// The same question with its right answers spelled as they were.
    pub(crate) fn spelled_at_first(mut self) -> Option<Self> {
        let place = place(&self.passage, self.at)?;
        match self.kind {
            Kind::Writes => {
                let sounding = self.given?;
                let strict = Answer::Note(write_at(&place, sounding).strict.printed.0);
                self.right = Answer::Note(at_first(&place, sounding).0);
                self.also = if strict == self.right { Vec::new() } else { vec![strict] };
            }
            Kind::InHand => {
                let hand = named(self.in_hand.as_deref()?)?;
                let Answer::Note(strict) = self.right else { return Some(self) };
                if hand.natural_family().is_none() {
                    let to_hand: Interval = -hand.transposition.0;
                    let signature = place.sounding_signature().transposed(to_hand).practical();
                    let also = Answer::Note(under(signature, strict));
                    self.also = if also == self.right { Vec::new() } else { vec![also] };
                }
            }
            _ => {}
        }
        Some(self)
    }
}
