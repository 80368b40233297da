//! Names of keys in a label: letters, syllables, German names and the solmisation names of the 18th century.

use super::fold::{fold_word, is_letter};
use super::near::is_one_slip;
use super::tokens::{Kind, Token};
use super::words::{MORE_ALTERATIONS, MORE_KEYS};
use crate::key_names::KeyNames;
use crate::pitch::{Step, Tonic};
use crate::tables::KEY_NAMES;

/// How a key is worded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wording {
    /// A letter, with or without flat or sharp.
    Letter,
    /// A name only German has: Es, As, Cis, H.
    German,
    /// Do re mi, or ut.
    Syllable,
    /// Delasolrè and its kin.
    Old,
}

/// A key as a label names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct KeyName {
    /// The key; B-flat for a bare letter B until the style of the label is known.
    pub tonic: Tonic,
    /// A bare letter B: B-flat in German and Italian print, B natural in English.
    pub bare_b: bool,
    /// How it is worded.
    pub wording: Wording,
    /// The name Dis, by which the 18th century means E-flat.
    pub dis: bool,
}

/// All names of keys, gathered from the table.
#[derive(Debug, Default)]
pub(super) struct KeyBook {
    naturals: Vec<(String, Step, Wording)>,
    alterations: Vec<(String, i32)>,
    direct: Vec<(String, Tonic)>,
    old: Vec<(String, Tonic)>,
}

impl KeyBook {
    pub(super) fn from_tables() -> Self {
        let mut book = Self::default();
        for row in &KEY_NAMES {
            if row.tonic.alter == 0 {
                book.add_natural(row);
            }
        }
        for row in &KEY_NAMES {
            if row.tonic.alter != 0 {
                book.add_altered(row);
            }
            for piece in pieces(row.solmisation) {
                book.add_old(&piece.join(""), &piece, row.tonic);
            }
        }
        for (word, alter) in MORE_ALTERATIONS {
            push_new(&mut book.alterations, (*word).to_owned(), *alter);
        }
        for (name, tonic) in MORE_KEYS {
            if let Ok(tonic) = tonic.parse() {
                book.direct.push(((*name).to_owned(), tonic));
            }
        }
        book
    }

    fn add_natural(&mut self, row: &KeyNames) {
        for cell in [row.english, row.italian, row.german, row.french, row.spanish] {
            for word in pieces(cell).into_iter().flatten() {
                if word.starts_with("natur") {
                    push_new(&mut self.alterations, word, 0);
                    continue;
                }
                let wording = match word.as_str() {
                    "h" => Wording::German,
                    letter if letter.len() == 1 => Wording::Letter,
                    _ => Wording::Syllable,
                };
                if !self.naturals.iter().any(|(known, ..)| *known == word) {
                    self.naturals.push((word, row.tonic.step, wording));
                }
            }
        }
    }

    fn add_altered(&mut self, row: &KeyNames) {
        for cell in [row.english, row.italian, row.french, row.spanish] {
            for piece in pieces(cell) {
                if let [_, alteration] = &piece[..] {
                    push_new(&mut self.alterations, alteration.clone(), row.tonic.alter);
                }
            }
        }
        match &pieces(row.german)[..] {
            // The bare letter B waits until the style of the label is known.
            [first, ..] if first.len() == 1 && first != &["b"] => {
                self.direct.extend(first.iter().map(|name| (name.clone(), row.tonic)));
            }
            _ => {}
        }
    }

    /// An old name, spelled with its letter ("d-la-sol-re") or with the letter's name ("Delasolrè").
    fn add_old(&mut self, joined: &str, parts: &[String], tonic: Tonic) {
        let mut forms = vec![joined.to_owned()];
        if let [letter, rest @ ..] = parts
            && letter.len() == 1
        {
            let rest = rest.join("");
            let spoken = match letter.as_str() {
                vowel @ ("a" | "e") => vec![vowel.to_owned()],
                "f" => vec!["ef".to_owned(), "e".to_owned(), "eff".to_owned()],
                other => vec![format!("{other}e")],
            };
            forms.extend(spoken.into_iter().map(|spoken| format!("{spoken}{rest}")));
        }
        // Effaut drops the second f of "fa" in use.
        let stems: Vec<String> = forms
            .iter()
            .flat_map(|form| {
                let stem = match form.find("ut") {
                    Some(at) if at + 2 < form.len() => form.get(..at + 2).unwrap_or(form),
                    _ => form,
                };
                [stem.to_owned(), stem.replace("effaut", "efaut")]
            })
            .collect();
        for stem in stems {
            let endings: &[&str] = if stem.ends_with("ut") { &["", "te", "e", "t"] } else { &[""] };
            for ending in endings {
                push_new(&mut self.old, format!("{stem}{ending}"), tonic);
            }
        }
    }

    /// The key that begins at a token, and how many tokens name it.
    pub(super) fn read(&self, tokens: &[Token], at: usize) -> Option<(KeyName, usize)> {
        if let Some(found) = self.read_old(tokens, at) {
            return Some(found);
        }
        let token = tokens.get(at)?;
        let love = || tokens.get(at + 1).is_some_and(|next| next.text.starts_with("am"));
        if token.kind != Kind::Word || (token.text == "d" && (token.apostrophe || love())) {
            return None;
        }
        let direct = self.direct.iter().find(|(name, _)| *name == token.text);
        if let Some((name, tonic)) = direct {
            let named =
                KeyName { tonic: *tonic, bare_b: false, wording: Wording::German, dis: name == "dis" };
            return Some((named, 1));
        }
        if let Some((_, step, wording)) = self.naturals.iter().find(|(name, ..)| *name == token.text) {
            let (alter, used) = match self.read_alteration(tokens, at, *wording) {
                Some((alter, used)) => (Some(alter), used),
                None => (None, 1),
            };
            let bare_b = *step == Step::B && *wording == Wording::Letter && alter.is_none();
            let alter = if bare_b { -1 } else { alter.unwrap_or(0) };
            let named = KeyName { tonic: Tonic::new(*step, alter), bare_b, wording: *wording, dis: false };
            return Some((named, used));
        }
        // "BB♭": a doubled letter is the same key, built low.
        let mut letters = token.text.chars();
        if let (Some(first), Some(second), None) = (letters.next(), letters.next(), letters.next())
            && first == second
            && tokens.get(at + 1).is_some_and(|next| next.kind == Kind::Flat)
            && let Some(step) = Step::from_letter(first)
        {
            let tonic = Tonic::new(step, -1);
            return Some((KeyName { tonic, bare_b: false, wording: Wording::Letter, dis: false }, 2));
        }
        // One word: "Sib", "Eb", "Bflat".
        for (name, step, wording) in &self.naturals {
            let Some(rest) = token.text.strip_prefix(name.as_str()) else { continue };
            let sign =
                if rest == "b" && *wording != Wording::German { Some(-1) } else { self.alteration(rest) };
            if let Some(alter) = sign {
                let tonic = Tonic::new(*step, alter);
                return Some((KeyName { tonic, bare_b: false, wording: *wording, dis: false }, 1));
            }
        }
        None
    }

    fn alteration(&self, word: &str) -> Option<i32> {
        self.alterations.iter().find(|(known, _)| known == word).map(|(_, alter)| *alter)
    }

    /// Flat, sharp or natural after a letter or syllable, with all tokens counted.
    fn read_alteration(&self, tokens: &[Token], at: usize, wording: Wording) -> Option<(i32, usize)> {
        let dash = usize::from(tokens.get(at + 1).is_some_and(|token| token.kind == Kind::Dash));
        let sign = tokens.get(at + 1 + dash)?;
        let used = 2 + dash;
        match sign.kind {
            Kind::Flat => Some((-1, used)),
            Kind::Sharp => Some((1, used)),
            Kind::Natural => Some((0, used)),
            // "mi b"; between letters a capital B is a key of its own ("Timpani in E B").
            Kind::Word if sign.text == "b" && dash == 0 => {
                let letter = tokens.get(at)?;
                let flat = wording == Wording::Syllable || !sign.capital || (letter.text.len() > 1);
                (flat && !sign.dot).then_some((-1, used))
            }
            Kind::Word => self.alteration(&sign.text).map(|alter| (alter, used)),
            _ => None,
        }
    }

    /// "E la mi", "E-la-mi" or "Elamì".
    fn read_old(&self, tokens: &[Token], at: usize) -> Option<(KeyName, usize)> {
        let mut joined = String::new();
        let mut best = None;
        let mut place = at;
        for parts in 0..5 {
            if parts > 0 && tokens.get(place).is_some_and(|token| token.kind == Kind::Dash) {
                place += 1;
            }
            let Some(token) = tokens.get(place).filter(|token| token.kind == Kind::Word) else { break };
            joined.push_str(&token.text);
            place += 1;
            if let Some((_, tonic)) = self.old.iter().find(|(name, _)| *name == joined) {
                let named = KeyName { tonic: *tonic, bare_b: false, wording: Wording::Old, dis: false };
                best = Some((named, place - at));
            }
            if token.dot {
                break;
            }
        }
        best
    }

    /// The old name that a word with a slip stands for, and "bemolle" and its kin.
    pub(super) fn old_with_slip(&self, typed: &[char]) -> Option<(KeyName, &str)> {
        let mut found: Option<(KeyName, &str)> = None;
        for (name, tonic) in &self.old {
            let near = name.len().abs_diff(typed.len()) <= 1;
            if near && is_one_slip(typed, &name.chars().collect::<Vec<_>>()) {
                if found.is_some_and(|(known, _)| known.tonic != *tonic) {
                    return None;
                }
                let named = KeyName { tonic: *tonic, bare_b: false, wording: Wording::Old, dis: false };
                found = Some((named, name));
            }
        }
        found
    }

    /// The alteration that a word with a slip stands for.
    pub(super) fn alteration_with_slip(&self, typed: &[char]) -> Option<i32> {
        let near =
            self.alterations.iter().find(|(known, _)| is_one_slip(typed, &known.chars().collect::<Vec<_>>()));
        near.map(|(_, alter)| *alter)
    }
}

fn push_new<T>(list: &mut Vec<(String, T)>, word: String, value: T) {
    if !list.iter().any(|(known, _)| *known == word) {
        list.push((word, value));
    }
}

/// The names in a cell, each cut into its words.
fn pieces(cell: &str) -> Vec<Vec<String>> {
    cell.split([';', '(', ')', ','])
        .map(|piece| {
            piece
                .split([' ', '-'])
                .map(fold_word)
                .filter(|word| word.chars().all(is_letter))
                .filter(|word| !word.is_empty())
                .collect()
        })
        .filter(|words: &Vec<String>| !words.is_empty())
        .collect()
}
