//! What a staff of a passage means: its label decoded, its habits filled in, its notes read.

use crate::change::ChangeTo;
use crate::passage::Passage;
use crate::staff::{Choice, Settings, SignatureSource, Staff};
use crookwise_theory::label::{DecodeOptions, Decoded, StaffLabel, decode};
use crookwise_theory::{
    Clef, Habits, Intonation, Key, Notation, Pitch, Printed, Reading, Signature, Situation, Tonic, read_among,
};

/// A staff whose label has been decoded.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ResolvedStaff {
    /// All that its label says.
    pub decoded: Decoded,
    /// The staff it is read as, player by player; empty where the label names none.
    players: Vec<StaffLabel>,
    settings: Settings,
    /// Labels that replace the first in the course of the passage.
    later: Vec<(usize, Option<usize>, Vec<StaffLabel>)>,
    clefs: Vec<(usize, Clef)>,
    signatures: Vec<(usize, SignatureSource)>,
    /// Letters printed anywhere on the staff: they decide how drums are read.
    letters: Vec<Tonic>,
}

/// One place on a staff: who reads it, and how it is printed there.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// The staff as its label names it.
    pub staff: StaffLabel,
    /// How it is printed.
    pub habits: Habits,
    /// The signature printed on it.
    pub signature: Signature,
    /// The movement's key.
    pub movement: Option<Key>,
    letters: Vec<Tonic>,
}

impl ResolvedStaff {
    /// Decodes a staff of a passage. The year of the music decides some habits.
    #[must_use]
    pub fn of(staff: &Staff, options: DecodeOptions) -> Self {
        let decoded = decode(&staff.label, options);
        let players = players(staff, &decoded, true);
        let mut later = Vec::new();
        let mut clefs = Vec::new();
        let mut signatures = Vec::new();
        for change in &staff.changes {
            match &change.to {
                ChangeTo::Label(label) => {
                    let decoded = decode(label, options);
                    later.push((change.column, change.player, self::players(staff, &decoded, false)));
                }
                ChangeTo::Clef(clef) => clefs.push((change.column, *clef)),
                ChangeTo::Signature(source) => signatures.push((change.column, *source)),
            }
        }
        let letters = staff.cells().iter().flat_map(|cell| {
            (0..staff.players()).filter_map(|player| match cell.of(player) {
                crate::cell::Event::Note(printed) => Some(printed.0.tonic()),
                _ => None,
            })
        });
        Self {
            players,
            settings: staff.settings,
            later,
            clefs,
            signatures,
            letters: letters.collect(),
            decoded,
        }
    }

    /// The staff a player reads at its beginning; `None` where the label names none.
    #[must_use]
    pub fn staff(&self, player: usize) -> Option<&StaffLabel> {
        self.players.get(player).or(self.players.last())
    }

    /// The staff, its habits and its signature for a player in a column.
    #[must_use]
    pub fn place(&self, passage: &Passage, column: usize, player: usize) -> Option<Place> {
        let changed = self.later.iter().rev().find(|(from, own, players)| {
            *from <= column && own.is_none_or(|own| own == player) && !players.is_empty()
        });
        let changed = changed.map_or(&self.players, |(_, _, players)| players);
        let mut staff = changed.get(player).or(changed.last())?.clone();
        if let (Some(_), Some(told)) = (staff.mechanism, self.settings.mechanism) {
            staff.mechanism = Some(told);
        }
        let first = self.settings.clef.unwrap_or(staff.instrument.clef);
        let habits = Habits {
            clef: latest(&self.clefs, column).copied().unwrap_or(first),
            bass: self.settings.bass,
            scheme: self.settings.scheme,
            at_pitch: self.settings.at_pitch,
        };
        let movement = passage.movement_at(column);
        let source = latest(&self.signatures, column).copied().or(self.settings.signature);
        let signature = signature(&staff, habits, source, movement);
        Some(Place { staff, habits, signature, movement, letters: self.letters.clone() })
    }

    /// Where a signature comes from unless told otherwise: none for natural brass and drums, else the movement.
    #[must_use]
    pub fn usual_signature(staff: &StaffLabel) -> SignatureSource {
        if staff.natural_family().is_some() || staff.instrument.id == "timp_old" {
            SignatureSource::None
        } else {
            SignatureSource::Movement
        }
    }
}

impl Place {
    /// Everything around a note of this place.
    #[must_use]
    pub fn situation<'a>(&'a self, intonation: Intonation, in_hand: Option<&'a StaffLabel>) -> Situation<'a> {
        Situation {
            staff: &self.staff,
            habits: self.habits,
            signature: self.signature,
            movement: self.movement,
            in_hand,
            intonation,
        }
    }

    /// A printed note read here, the letters of the whole staff considered.
    #[must_use]
    pub fn read(&self, printed: Printed, intonation: Intonation, in_hand: Option<&StaffLabel>) -> Reading {
        let letters = self.letters.iter().copied().chain([printed.0.tonic()]);
        read_among(&self.situation(intonation, in_hand), printed, letters)
    }

    /// How the staff is read here.
    #[must_use]
    pub fn notation(&self) -> Notation {
        Notation::of(&self.staff, self.habits).for_letters(&self.staff, self.letters.iter().copied())
    }

    /// The signature of what sounds: the movement's, or the printed one transposed where no movement is named.
    #[must_use]
    pub fn sounding_signature(&self) -> Signature {
        match self.movement {
            Some(key) => key.signature(),
            None => self.signature.transposed(self.notation().printed_to_sounding()).practical(),
        }
    }

    /// The note that a place on the printed staff means, the signature counted.
    #[must_use]
    pub fn printed_at(&self, place: crookwise_theory::StaffPosition) -> Printed {
        let natural = self.habits.clef.pitch_at(place);
        Printed(Pitch { alter: self.signature.alteration(natural.step), ..natural })
    }
}

/// The staff each player reads: by his own crook, else by the label, which may name one for each.
fn players(staff: &Staff, decoded: &Decoded, at_start: bool) -> Vec<StaffLabel> {
    let Some(first) = decoded.staves.first() else { return Vec::new() };
    let chosen = staff.choice.filter(|_| at_start).and_then(|choice| choice.among(decoded));
    (0..staff.players())
        .map(|player| {
            let own = staff.crook(player).filter(|_| at_start);
            let by_label = match &chosen {
                Some(chosen) if player == 0 || decoded.staves.len() < 2 => chosen,
                _ => decoded.staves.get(player).or(decoded.staves.last()).unwrap_or(first),
            };
            own.and_then(|choice: Choice| choice.among(decoded)).unwrap_or_else(|| by_label.clone())
        })
        .collect()
}

/// The last entry at or before a column.
fn latest<T>(entries: &[(usize, T)], column: usize) -> Option<&T> {
    entries.iter().rev().find(|(from, _)| *from <= column).map(|(_, value)| value)
}

fn signature(
    staff: &StaffLabel,
    habits: Habits,
    source: Option<SignatureSource>,
    movement: Option<Key>,
) -> Signature {
    match (source.unwrap_or_else(|| ResolvedStaff::usual_signature(staff)), movement) {
        (SignatureSource::Typed(signature), _) => signature,
        (SignatureSource::Movement, Some(key)) => {
            let notation = Notation::of(staff, habits);
            key.signature().transposed(-notation.printed_to_sounding()).practical()
        }
        _ => Signature::NONE,
    }
}
