//! A staff in English words: its name, and what it does to the notes.

use super::staff::StaffLabel;
use crate::crook::{CrookFamily, OctaveWord};
use crate::instrument::NamesKey;
use crate::interval::{Direction, Interval};
use crate::pitch::{Step, Tonic};

impl StaffLabel {
    /// The English name, with key and octave where they matter: "Horn in B-flat basso", "Cor anglais",
    /// "Timpani in D and A".
    #[must_use]
    pub fn name(&self) -> String {
        self.name_by(&key_words)
    }

    /// The same with keys named in another language: "Horn in Es".
    #[must_use]
    pub fn name_by(&self, key_name: &dyn Fn(Tonic) -> String) -> String {
        let base = base_name(self);
        if !self.drums.is_empty() {
            let drums: Vec<String> = self.drums.iter().map(|drum| key_name(*drum)).collect();
            let list = match drums.split_last() {
                Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
                _ => drums.concat(),
            };
            return format!("{base} in {list}");
        }
        let keyed = match self.instrument.names_key {
            NamesKey::Always => true,
            NamesKey::Never => false,
            NamesKey::WhereUnusual => self.key != self.instrument.key(),
        };
        let Some(key) = self.key.filter(|_| keyed) else { return base };
        // The low trumpet in B-flat is the usual one and goes without its word.
        let word = self.octave.filter(|octave| {
            let trumpet = self.crook_family() == Some(CrookFamily::Trumpet);
            let usual = trumpet && *octave == OctaveWord::Basso && key.alter < 0;
            !usual
        });
        match word {
            Some(word) => format!("{base} in {} {}", key_name(key), word.word()),
            None => format!("{base} in {}", key_name(key)),
        }
    }

    /// The name and what its notes do: "Horn in E-flat — sounds a major sixth lower".
    #[must_use]
    pub fn words(&self) -> String {
        self.words_by(&key_words)
    }

    /// The same with keys named in another language.
    #[must_use]
    pub fn words_by(&self, key_name: &dyn Fn(Tonic) -> String) -> String {
        let name = self.name_by(key_name);
        if !self.is_pitched() {
            return format!("{name} — no pitch: what is printed stands for a stroke");
        }
        let basses = if self.doubled_below { ", the basses an octave lower" } else { "" };
        format!("{name} — {}{basses}", sounds(self.transposition.0))
    }
}

/// What an interval from written to sounding does: "sounds as written", "sounds a major sixth lower".
#[must_use]
pub fn sounds(interval: Interval) -> String {
    let way = match interval.direction() {
        Direction::None => return "sounds as written".to_owned(),
        Direction::Up => "higher",
        Direction::Down => "lower",
    };
    let name = interval.to_string();
    let article = match name.chars().next() {
        _ if name.starts_with("two") || name.starts_with("three") => "",
        Some('a' | 'e' | 'i' | 'o' | 'u') if !name.starts_with("un") => "an ",
        _ => "a ",
    };
    format!("sounds {article}{name} {way}")
}

/// The name of the row without key and remarks.
fn base_name(staff: &StaffLabel) -> String {
    if !staff.instrument.called.is_empty() {
        return staff.instrument.called.to_owned();
    }
    let mut name = String::new();
    let mut depth = 0_u32;
    for ch in staff.instrument.english.chars() {
        match ch {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            ',' if depth == 0 => break,
            _ if depth == 0 => name.push(ch),
            _ => {}
        }
    }
    let name = name.split(" in ").next().unwrap_or("").split(" on ").next().unwrap_or("");
    name.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A key in words: "E-flat", "F-sharp", "C". More alterations than one are spelled as signs.
pub(crate) fn key_words(key: Tonic) -> String {
    match key.alter {
        // A bare B would be B-flat to a German reader.
        0 if key.step == Step::B => "B natural".to_owned(),
        0 => key.step.letter().to_string(),
        -1 => format!("{}-flat", key.step.letter()),
        1 => format!("{}-sharp", key.step.letter()),
        _ => key.to_string(),
    }
}
