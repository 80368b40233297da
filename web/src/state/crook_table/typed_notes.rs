//! A passage typed by names of notes, beside the crooks at hand: what is written for each note, what is out of reach and why,
//! and what could be done.

use super::note_systems::{NoteColumn, NoteRow, fitting, system};
use super::note_words::{NoteWord, read};
use crate::words::crook_reach;
use crate::words::crook_table as words;
use crate::words::{Letters, Names};
use crookwise_planner::may_write::{Had, Nearby, NearbyKind, nearby};
use crookwise_planner::out_of_reach::{OutOfReach, why};
use crookwise_share::crooks::CrooksLink;
use crookwise_theory::order::in_order;
use crookwise_theory::{Clef, Crook, Pitch, Sounding};

/// A word that was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TypedWord {
    /// Whether one of the crooks at hand has its note.
    pub is_had: bool,
    /// How its note is written and made, or that it is none or out of reach.
    pub said: String,
    /// What sounds.
    pub heard: Option<Pitch>,
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
    /// Its notes, system by system.
    pub systems: Vec<Vec<NoteRow>>,
    /// What sounds.
    pub heard: Vec<Pitch>,
    /// How many notes nobody has.
    pub out_of_reach: usize,
}

impl TypedPassage {
    /// The passage of a setting, on so many pixels.
    #[must_use]
    pub fn of(setting: &CrooksLink, names: Names, width: f64) -> Self {
        let typed = read(&setting.typed, Letters::English);
        let words: Vec<TypedWord> =
            typed.iter().enumerate().map(|(at, word)| TypedWord::of(setting, at, word, names)).collect();
        let columns: Vec<NoteColumn> =
            typed.iter().filter_map(|word| Some(NoteColumn::of(setting, word.sounding?))).collect();
        let clef = clef(&columns);
        Self {
            words,
            systems: columns.chunks(fitting(width)).map(|line| system(setting, names, line, clef)).collect(),
            heard: columns.iter().map(|column| column.sounding.0).collect(),
            out_of_reach: columns.iter().filter(|column| column.best().is_none()).count(),
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

/// The clef in which what sounds stands with least beyond the staff.
fn clef(columns: &[NoteColumn]) -> Clef {
    let is_low = columns.get(columns.len() / 2).is_some_and(NoteColumn::is_low);
    if is_low { Clef::BASS } else { Clef::TREBLE }
}

impl TypedWord {
    fn of(setting: &CrooksLink, at: usize, word: &NoteWord, names: Names) -> Self {
        let Some(sounding) = word.sounding else {
            let said = words::no_note(&word.text);
            return Self { is_had: false, said, heard: None, remedies: Vec::new() };
        };
        let column = NoteColumn::of(setting, sounding);
        let had = ranked(&column);
        let near = nearby(&setting.mine, sounding, &setting.weights);
        Self {
            is_had: !had.is_empty(),
            said: if had.is_empty() { missed(setting, sounding, names) } else { told(sounding, &had, names) },
            heard: Some(sounding.0),
            remedies: near.iter().map(|one| remedy(at, one, names)).collect(),
        }
    }
}

/// Those who have a note, the best first.
fn ranked(column: &NoteColumn) -> Vec<Had> {
    in_order(column.on.iter().flatten().copied(), |one| -one.making.worth)
}

/// What is written for a note, of the crooks that have it best.
fn told(sounding: Sounding, had: &[Had], names: Names) -> String {
    let one = |had: &Had| {
        let who = words::players(had.crook, names);
        words::written_for(&names.note(had.printed().0), &who, words::way(had.making.production))
    };
    let all: Vec<String> = had.iter().map(one).collect();
    words::note_had(&names.note(sounding.0), &all)
}

/// Why nobody has a note.
fn missed(setting: &CrooksLink, sounding: Sounding, names: Names) -> String {
    let all: Vec<(&'static Crook, OutOfReach)> = setting
        .mine
        .iter()
        .filter_map(|crook| Some((*crook, why(crook, sounding, &setting.weights)?)))
        .collect();
    crook_reach::out_of_reach(&names.note(sounding.0), &all, names)
}

fn remedy(at: usize, near: &Nearby, names: Names) -> TypedRemedy {
    let Had { crook, sounding, making } = near.had;
    let who = words::players(crook, names);
    let written = words::written_for(&names.note(near.had.printed().0), &who, words::way(making.production));
    let deed = match near.kind {
        NearbyKind::Octave | NearbyKind::Neighbour => RemedyDeed::Replace(at, sounding.0),
        NearbyKind::OtherCrook => RemedyDeed::Take(crook),
    };
    TypedRemedy { said: words::remedy(near.kind, &names.note(sounding.0), &who, &written), deed }
}

impl RemedyDeed {
    /// Does it. All notes of the passage get their octaves, so that none moves with another.
    pub fn act(&self, setting: &mut CrooksLink) {
        match self {
            Self::Take(crook) => setting.mine.push(crook),
            Self::Replace(at, pitch) => {
                let all = read(&setting.typed, Letters::English).into_iter().enumerate();
                let words = all.map(|(place, word)| {
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
        let said: Vec<&str> = passage.words.iter().map(|word| word.said.as_str()).collect();
        assert_eq!(said[0], "D4: written C5 for horns in D, open; written C4 for trumpets in D, open.");
        assert_eq!(
            said[4],
            "E♭2 is out of reach: on horns in D it lies between partials 2 and 3 (D2, A2), too far for the hand; \
             trumpets in D have nothing below A3."
        );
        let last = passage.words.last().unwrap();
        assert!(!last.is_had && passage.out_of_reach >= 1, "{passage:?}");
        assert!(passage.told().contains("out of reach"));
        let remedies: Vec<&str> = last.remedies.iter().map(|one| one.said.as_str()).collect();
        assert_eq!(remedies[1], "D2 instead: written C3 for horns in D, open");
        let remedy = last.remedies.iter().find(|one| matches!(one.deed, RemedyDeed::Replace(..))).unwrap();
        remedy.deed.act(&mut setting);
        assert!(setting.typed.starts_with("D4 F#4 A4 D2 "), "{}", setting.typed);
        let after = TypedPassage::of(&setting, Names::default(), 400.0);
        assert_eq!(after.out_of_reach, passage.out_of_reach - 1);
    }

    #[test]
    fn words_that_are_no_notes_are_said() {
        let (_, passage) = passage("D4 quark");
        assert_eq!(passage.words[1].said, "“quark” is no note.");
        assert_eq!(
            (passage.heard.len(), passage.told().as_str()),
            (1, "The notes that could be read are in reach.")
        );
        let (_, empty) = self::passage("");
        assert!(empty.told().is_empty() && empty.systems.is_empty());
    }
}
