//! A passage typed by names of notes, beside the crooks at hand: what is out of reach, and what could be done.

use super::may_write::{engraved, fitting, line_clef, made};
use crate::words::Names;
use crate::words::crook_table as words;
use crookwise_planner::may_write::{Nearby, NearbyKind, best, nearby, typed};
use crookwise_share::crooks::CrooksLink;
use crookwise_theory::{Crook, Pitch, Production};

/// A word that was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TypedWord {
    /// The note's name, or the word as it stands.
    pub name: String,
    /// Whether one of the crooks at hand has it.
    pub is_had: bool,
    /// Who has it and how, or that it is none or out of reach.
    pub said: String,
    /// What can be done.
    pub remedies: Vec<TypedRemedy>,
}

/// What can be done about a note.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TypedRemedy {
    /// In words.
    pub said: String,
    /// What it does.
    pub deed: RemedyDeed,
}

/// What a remedy does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RemedyDeed {
    /// Another note stands in place of a word, counted from 0.
    Replace(usize, Pitch),
    /// A crook is taken to hand.
    Take(&'static Crook),
}

/// A passage.
#[derive(Clone, Debug, PartialEq)]
pub struct TypedPassage {
    /// Its words.
    pub words: Vec<TypedWord>,
    /// Its notes, line by line, as pictures.
    pub lines: Vec<String>,
    /// What sounds.
    pub heard: Vec<Pitch>,
    /// How many notes nobody has.
    pub out_of_reach: usize,
}

impl TypedPassage {
    /// The passage of a setting, on so many pixels.
    #[must_use]
    pub fn of(setting: &CrooksLink, names: Names, width: f64) -> Self {
        let mut notes = Vec::new();
        let mut all = Vec::new();
        for (at, word) in typed(&setting.typed).into_iter().enumerate() {
            let Some(sounding) = word.sounding else {
                let said = format!("{}: {}", word.text, words::NO_NOTE);
                all.push(TypedWord { name: word.text, is_had: false, said, remedies: Vec::new() });
                continue;
            };
            let name = names.note(sounding.0);
            let found = best(&setting.mine, sounding, &setting.weights);
            let said = found.map_or_else(
                || format!("{name}: {}", words::OUT_OF_REACH),
                |had| {
                    let who = words::players(had.crook, names);
                    words::note_had(&name, &who, words::way(had.making.production))
                },
            );
            let near = nearby(&setting.mine, sounding, &setting.weights);
            let remedies = near.iter().map(|one| remedy(at, one, names)).collect();
            notes.push(made(found, sounding));
            all.push(TypedWord { name, is_had: found.is_some(), said, remedies });
        }
        let clef = line_clef(&notes);
        Self {
            lines: notes.chunks(fitting(width)).map(|line| engraved(line, clef)).collect(),
            heard: notes.iter().map(|(pitch, _)| *pitch).collect(),
            out_of_reach: notes.iter().filter(|(_, way)| *way == Production::Unavailable).count(),
            words: all,
        }
    }

    /// What is said of it as a whole; nothing of no notes.
    #[must_use]
    pub fn told(&self) -> String {
        match (self.heard.len(), self.out_of_reach) {
            (0, _) => String::new(),
            (notes, 0) if notes < self.words.len() => words::ALL_NOTES_IN_REACH.to_owned(),
            (_, 0) => words::ALL_IN_REACH.to_owned(),
            (_, many) => words::out_of_reach(many),
        }
    }
}

fn remedy(at: usize, near: &Nearby, names: Names) -> TypedRemedy {
    let had = near.had;
    let who = words::players(had.crook, names);
    let said = words::remedy(near.kind, &names.note(had.sounding.0), &who, words::way(had.making.production));
    let deed = match near.kind {
        NearbyKind::Octave | NearbyKind::Neighbour => RemedyDeed::Replace(at, had.sounding.0),
        NearbyKind::OtherCrook => RemedyDeed::Take(had.crook),
    };
    TypedRemedy { said, deed }
}

impl RemedyDeed {
    /// Does it. All notes of the passage get their octaves, so that none moves with another.
    pub fn act(&self, setting: &mut CrooksLink) {
        match self {
            Self::Take(crook) => setting.mine.push(crook),
            Self::Replace(at, pitch) => {
                let words = typed(&setting.typed).into_iter().enumerate().map(|(place, word)| {
                    let own = if place == *at { Some(*pitch) } else { word.sounding.map(|one| one.0) };
                    own.map_or(word.text, |pitch| pitch.to_string())
                });
                setting.typed = words.collect::<Vec<_>>().join(" ");
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn passage(text: &str) -> (CrooksLink, TypedPassage) {
        let setting = CrooksLink { typed: text.to_owned(), ..CrooksLink::default() };
        let passage = TypedPassage::of(&setting, Names::default(), 400.0);
        (setting, passage)
    }

    #[test]
    fn what_is_out_of_reach_is_told_while_it_is_typed_and_mended() {
        let (mut setting, passage) = passage("D4 F#4 A, D2 Eb2");
        assert_eq!(passage.words[0].said, "D4: horns in D, open");
        let last = passage.words.last().unwrap();
        assert!(!last.is_had && passage.out_of_reach >= 1, "{passage:?}");
        assert!(passage.told().contains("out of reach"));
        let remedy = last.remedies.iter().find(|one| matches!(one.deed, RemedyDeed::Replace(..))).unwrap();
        remedy.deed.act(&mut setting);
        assert!(setting.typed.starts_with("D4 F#4 A4 D2 "), "{}", setting.typed);
        let after = TypedPassage::of(&setting, Names::default(), 400.0);
        assert_eq!(after.out_of_reach, passage.out_of_reach - 1);
    }

    #[test]
    fn words_that_are_no_notes_are_said() {
        let (_, passage) = passage("D4 quark");
        assert_eq!(passage.words[1].said, "quark: no note");
        assert_eq!(
            (passage.heard.len(), passage.told().as_str()),
            (1, "The notes that could be read are in reach.")
        );
        assert_eq!(self::passage("").1.told(), "");
    }
}
