//! Numbers of a label: Arabic, Roman and ordinal ones, lists and ranges.

use super::items::{Reader, What};
use super::tokens::Kind;

/// Numbers that stand together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Numbers {
    /// Each number, ranges written out.
    pub values: Vec<u32>,
    /// They number players: ordinals, Roman numbers, or with a dot.
    pub ordinal: bool,
    /// They may as well be a count that a dot follows ("2. Corni").
    pub dotted: bool,
}

/// Numbers above this are no players.
const MOST: u32 = 64;

impl Reader<'_> {
    /// Whether the token is the label's only word, so that "V. 1" is a violin and not a number.
    pub(super) fn is_lone_letter(&self, at: usize) -> bool {
        let only = self.tokens.iter().filter(|token| token.kind == Kind::Word).count() == 1;
        only && self.tokens.get(at).is_some_and(|token| token.text == "v")
    }

    pub(super) fn roman(&self, at: usize) -> Option<u32> {
        let token = self.tokens.get(at).filter(|token| token.kind == Kind::Word && !token.accent)?;
        let numbers = ["i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"];
        let place = numbers.iter().position(|number| *number == token.text)?;
        u32::try_from(place + 1).ok()
    }

    /// Number at a token: its value, whether it is an ordinal, how many tokens it takes.
    fn one_number(&self, at: usize) -> Option<(u32, bool, usize)> {
        let token = self.tokens.get(at)?;
        if let Some(value) = self.roman(at) {
            return Some((value, true, 1));
        }
        let Kind::Number(value) = token.kind else { return None };
        let suffix = self.tokens.get(at + 1).filter(|next| next.kind == Kind::Word && !next.spaced);
        let is_suffix = |text: &str| {
            matches!(
                text,
                "er" | "ere"
                    | "re"
                    | "e"
                    | "eme"
                    | "me"
                    | "nd"
                    | "nde"
                    | "st"
                    | "rd"
                    | "th"
                    | "o"
                    | "a"
                    | "mo"
                    | "do"
                    | "ro"
                    | "ra"
                    | "da"
                    | "to"
                    | "ta"
                    | "ter"
                    | "te"
                    | "ten"
                    | "ster"
                    | "ste"
                    | "os"
                    | "as"
            )
        };
        match suffix {
            Some(next) if is_suffix(&next.text) => Some((value, true, 2)),
            _ => Some((value, false, 1)),
        }
    }

    pub(super) fn read_numbers(&mut self, at: usize) -> usize {
        let Some((first, ordinal, mut used)) = self.one_number(at) else { return 1 };
        let dot = |place: usize| self.tokens.get(place).is_some_and(|token| token.dot);
        let roman = self.roman(at).is_some();
        let mut numbers = Numbers { values: vec![first], ordinal, dotted: dot(at + used - 1) };
        loop {
            let place = at + used;
            let joint = match self.tokens.get(place) {
                Some(token) if matches!(token.kind, Kind::Comma | Kind::Slash | Kind::Plus | Kind::Dash) => 1,
                Some(token)
                    if token.kind == Kind::Word
                        && matches!(token.text.as_str(), "e" | "et" | "u" | "und" | "y" | "and") =>
                {
                    1
                }
                _ => 0,
            };
            let range = self.tokens.get(place).is_some_and(|token| token.kind == Kind::Dash);
            let Some((value, is_ordinal, taken)) = self.one_number(place + joint) else { break };
            // "Corno I, 2 Trombe" are two staves: Roman and Arabic do not mix.
            if roman != self.roman(place + joint).is_some() || value > MOST {
                break;
            }
            let last = numbers.values.last().copied().unwrap_or(0);
            if range && last < value && value <= MOST {
                numbers.values.extend(last + 1..=value);
            } else {
                numbers.values.push(value);
            }
            numbers.ordinal |= is_ordinal;
            used += joint + taken;
            numbers.dotted |= dot(at + used - 1);
        }
        let absurd =
            numbers.values.iter().any(|value| !(1..=MOST).contains(value)) || numbers.values.len() > 32;
        self.push(if absurd { What::Unknown } else { What::Numbers(numbers) }, at);
        used
    }
}
