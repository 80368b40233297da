//! Lengths as the values of print: heads, flags, dots, and notes of which so many stand in the time of so many.

use crookwise_score::score::{NoteValue, Quarters};

/// A value of print.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Value {
    /// How long it is.
    pub length: Quarters,
    /// Value and dots, where it has any that print knows.
    named: Option<(NoteValue, u8)>,
    /// So many in the time of so many.
    tuplet: Option<(i64, i64)>,
}

/// So many values make a length at most: what is odder has no names.
const MOST: usize = 8;

/// Dots that are written at most.
const DOTS: u8 = 2;

/// The length in divisions of a quarter note.
pub fn divided(length: Quarters, divisions: i64) -> i64 {
    let (above, below) = length.fraction();
    // They were counted so that this is whole.
    above.saturating_mul(divisions) / below.max(1)
}

/// The values that make up a length, one after the other.
pub fn values(length: Quarters) -> Vec<Value> {
    let (_, below) = length.fraction();
    let odd = below >> below.trailing_zeros();
    // A triplet is three in the time of two: as many in the time of the next power of two below.
    let tuplet = (odd > 1).then(|| (odd, 1 << odd.ilog2()));
    as_printed(length, tuplet).unwrap_or_else(|| vec![Value::unnamed(length)])
}

fn as_printed(length: Quarters, tuplet: Option<(i64, i64)>) -> Option<Vec<Value>> {
    let mut left = tuplet.map_or(Some(length), |tuplet| length.scaled(tuplet))?;
    let mut values = Vec::new();
    while left > Quarters::ZERO {
        let (value, dots, printed) = largest(left)?;
        let own = tuplet.map_or(Some(printed), |(many, of)| printed.scaled((of, many)))?;
        values.push(Value { length: own, named: Some((value, dots)), tuplet });
        left = left.minus(printed)?;
        if values.len() > MOST {
            return None;
        }
    }
    Some(values)
}

/// The largest value with dots that a length has room for; nothing longer than a breve.
fn largest(room: Quarters) -> Option<(NoteValue, u8, Quarters)> {
    let usual = NoteValue::ALL.into_iter().filter(|value| *value <= NoteValue::Breve).rev();
    let all = usual.flat_map(|value| (0..=DOTS).rev().map(move |dots| (value, dots)));
    let mut lengths = all.filter_map(|(value, dots)| {
        let (above, below) = value.quarters();
        // One dot: three halves; two: seven quarters.
        let length = Quarters::new(above * ((2 << dots) - 1), below << dots)?;
        Some((value, dots, length))
    });
    lengths.find(|(_, _, length)| *length <= room)
}

impl Value {
    /// A length that has no name.
    pub const fn unnamed(length: Quarters) -> Self {
        Self { length, named: None, tuplet: None }
    }

    /// Its value in print, where it has one.
    pub fn printed(&self) -> Option<NoteValue> {
        self.named.map(|(value, _)| value)
    }

    /// Its elements.
    pub fn named(&self) -> String {
        let Some((value, dots)) = self.named else { return String::new() };
        let tuplet = self.tuplet.map_or_else(String::new, |(many, of)| {
            format!(
                "<time-modification><actual-notes>{many}</actual-notes><normal-notes>{of}</normal-notes></time-modification>"
            )
        });
        format!("<type>{}</type>{}{tuplet}", name(value), "<dot/>".repeat(usize::from(dots)))
    }
}

const fn name(value: NoteValue) -> &'static str {
    match value {
        NoteValue::N1024 => "1024th",
        NoteValue::N512 => "512th",
        NoteValue::N256 => "256th",
        NoteValue::N128 => "128th",
        NoteValue::N64 => "64th",
        NoteValue::N32 => "32nd",
        NoteValue::N16 => "16th",
        NoteValue::Eighth => "eighth",
        NoteValue::Quarter => "quarter",
        NoteValue::Half => "half",
        NoteValue::Whole => "whole",
        NoteValue::Breve => "breve",
        NoteValue::Long => "long",
        NoteValue::Maxima => "maxima",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn printed(above: i64, below: i64) -> Vec<(NoteValue, u8)> {
        let length = Quarters::new(above, below).unwrap();
        let values = values(length);
        let sum = values.iter().fold(Quarters::ZERO, |sum, value| sum.plus(value.length).unwrap());
        assert_eq!(sum, length);
        values.iter().filter_map(|value| value.named).collect()
    }

    #[test]
    fn lengths_are_made_of_the_values_of_print() {
        assert_eq!(printed(1, 1), [(NoteValue::Quarter, 0)]);
        assert_eq!(printed(3, 2), [(NoteValue::Quarter, 1)]);
        assert_eq!(printed(7, 1), [(NoteValue::Whole, 2)]);
        assert_eq!(printed(5, 1), [(NoteValue::Whole, 0), (NoteValue::Quarter, 0)]);
        assert_eq!(printed(9, 4), [(NoteValue::Half, 0), (NoteValue::N16, 0)]);
        // A triplet of eighths, and five in the time of four sixteenths.
        assert_eq!(printed(1, 3), [(NoteValue::Eighth, 0)]);
        assert_eq!(printed(1, 5), [(NoteValue::N16, 0)]);
        assert_eq!(printed(2, 3), [(NoteValue::Quarter, 0)]);
        // Nothing that print has a name for.
        assert_eq!(printed(1, 4096), []);
    }
}
