//! What is asked: the notes wanted in sound, the players with their crooks, and what counts.

use crate::error::RequestError;
use crate::key_table::Given;
use crate::making::{Making, Weights};
use crate::ticks::Ticks;
use crate::usual::most_usual;
use crookwise_theory::label::{DecodeOptions, decode};
use crookwise_theory::{Crook, CrookFamily, OctaveWord, Pitch, Sounding, Tonic};

/// So many players are planned for at most.
pub const MOST_PLAYERS: usize = 8;

/// So many notes are planned at most.
pub const MOST_NOTES: usize = 60_000;

/// A note that is wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct WantedNote {
    /// When it begins.
    pub from: Ticks,
    /// When it ends, after its beginning; that moment is not of it any more.
    pub to: Ticks,
    /// What is to sound.
    pub sounding: Sounding,
    /// Whose it is, as an index into the players; `None` where any of them may play it.
    pub player: Option<usize>,
    /// How much it counts; 0 or more.
    pub weight: f64,
    /// Whether any octave of it will do: each player has it where his crook has it most
    /// usually, and it counts less the more seldom it is written there.
    pub any_octave: bool,
}

/// A crook under the name by which it was asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedCrook {
    /// Its name as asked for: "Eb", "Bb alto".
    pub name: String,
    /// The crook.
    pub crook: &'static Crook,
}

impl NamedCrook {
    /// A crook by the words that a label has after *in*: "Eb", "Bb alto"; "H alto" for B natural, since a label's B is often
    /// B-flat.
    #[must_use]
    pub fn of(crook: &'static Crook) -> Self {
        let octave = crook.octave.map_or_else(String::new, |octave| format!(" {}", octave.word()));
        let tonic = crook.tonic.to_string();
        let tonic = if tonic == "B" { "H".to_owned() } else { tonic };
        Self { name: format!("{tonic}{octave}"), crook }
    }

    /// Every crook of a family that is built, from short to long.
    #[must_use]
    pub fn all(family: CrookFamily) -> Vec<Self> {
        family.crooks().iter().map(Self::of).collect()
    }

    /// The crooks that were usual in classical orchestras, from short to long: of the horn those that *Encyclopædia Britannica*
    /// 1911 ("Horn") measures with a body of 7 ft 4 in, of the trumpet C, D, E-flat, F and B-flat, more seldom E and A (article
    /// "Trumpet" in *Scientific American Supplement* 819, 1891, and common practice).
    #[must_use]
    pub fn classical(family: CrookFamily) -> Vec<Self> {
        const TRUMPETS: [&str; 7] = ["F", "E", "Eb", "D", "C", "Bb", "A"];
        let is_usual = |crook: &&Crook| match family {
            CrookFamily::Horn => crook.britannica_inches.is_some(),
            CrookFamily::Trumpet => {
                TRUMPETS.contains(&crook.tonic.to_string().as_str()) && crook.octave != Some(OctaveWord::Alto)
            }
        };
        family.crooks().iter().filter(is_usual).map(Self::of).collect()
    }

    /// The crook that a label names after *in*; `None` where the family has none of that name.
    #[must_use]
    pub fn named(family: CrookFamily, name: &str) -> Option<Self> {
        let instrument = family.word();
        let decoded = decode(&format!("{instrument} in {name}"), DecodeOptions::default());
        // A horn in no key is read as one in F: here a crook must be named.
        let is_bare = decode(instrument, DecodeOptions::default()).assumed == decoded.assumed;
        if decoded.problem.is_some() || decoded.staves.len() != 1 || is_bare {
            return None;
        }
        let crook = decoded.staves.first()?.crook()?;
        (crook.family == family).then(|| Self { name: name.trim().to_owned(), crook })
    }
}

/// A player with what he owns.
#[derive(Clone, Debug, PartialEq)]
pub struct CrookPlayer {
    /// Horn or trumpet.
    pub family: CrookFamily,
    /// The crooks at hand.
    pub crooks: Vec<NamedCrook>,
    /// Players of the same number are a pair.
    pub pair: Option<u32>,
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Request {
    /// The notes wanted.
    pub notes: Vec<WantedNote>,
    /// The players.
    pub players: Vec<CrookPlayer>,
    /// The rest that a change of crook needs.
    pub change_time: Ticks,
    /// Whether the players of a pair share their crook.
    pub together: bool,
    /// What counts how much.
    pub weights: Weights,
}

impl Request {
    /// Keeps what sounds between two moments, and counts time from the first.
    pub fn keep_between(&mut self, (from, to): (Ticks, Ticks)) {
        self.notes.retain(|note| note.from < to && note.to > from);
        for note in &mut self.notes {
            note.from = note.from.max(from) - from;
            note.to = note.to.min(to) - from;
        }
    }

    /// Whether a plan can be sought for it.
    pub(crate) fn check(&self) -> Result<(), RequestError> {
        if self.players.is_empty() {
            return Err(RequestError::NoPlayers);
        }
        if self.players.len() > MOST_PLAYERS {
            return Err(RequestError::TooManyPlayers(self.players.len()));
        }
        if self.notes.len() > MOST_NOTES {
            return Err(RequestError::TooManyNotes(self.notes.len()));
        }
        if let Some(at) = self.players.iter().position(|player| player.crooks.is_empty()) {
            return Err(RequestError::NoCrooks(at));
        }
        if self.change_time.0 < 0 {
            return Err(RequestError::ChangeTime);
        }
        self.weights.check()?;
        self.check_pairs()?;
        self.notes.iter().enumerate().try_for_each(|(at, note)| self.check_note(at, note))
    }

    fn check_pairs(&self) -> Result<(), RequestError> {
        let mut before: Vec<(u32, CrookFamily)> = Vec::new();
        for player in self.players.iter().filter(|_| self.together) {
            let Some(pair) = player.pair else { continue };
            if before.iter().any(|(other, family)| *other == pair && *family != player.family) {
                return Err(RequestError::MixedPair(pair));
            }
            before.push((pair, player.family));
        }
        Ok(())
    }

    fn check_note(&self, at: usize, note: &WantedNote) -> Result<(), RequestError> {
        if note.to <= note.from {
            return Err(RequestError::NoLength(at));
        }
        if !(note.weight >= 0.0 && note.weight.is_finite()) {
            return Err(RequestError::Weight(at));
        }
        match note.player {
            Some(player) if player >= self.players.len() => Err(RequestError::UnknownPlayer(at, player)),
            _ => Ok(()),
        }
    }
}

/// Players who share their crook, and the others alone, each as indices into the players and in their order.
#[must_use]
pub fn teams(players: &[CrookPlayer], together: bool) -> Vec<Vec<usize>> {
    let mut teams: Vec<Vec<usize>> = Vec::new();
    let shares = |one: &CrookPlayer, other: &CrookPlayer| {
        together && one.pair.is_some() && (one.pair, one.family) == (other.pair, other.family)
    };
    for (at, player) in players.iter().enumerate() {
        let is_own = |team: &&mut Vec<usize>| {
            team.first().and_then(|first| players.get(*first)).is_some_and(|first| shares(first, player))
        };
        match teams.iter_mut().find(is_own) {
            Some(team) => team.push(at),
            None => teams.push(vec![at]),
        }
    }
    teams
}

/// The number of a player among those of his family, from 1.
#[must_use]
pub fn number_in_family(players: &[CrookPlayer], at: usize) -> usize {
    let family = players.get(at).map(|player| player.family);
    players.iter().take(at + 1).filter(|one| Some(one.family) == family).count()
}

impl WantedNote {
    /// A note of weight 1 for anybody, in whatever octave.
    #[must_use]
    pub const fn in_any_octave(from: Ticks, to: Ticks, note: Tonic) -> Self {
        Self { any_octave: true, ..Self::free(from, to, Pitch::new(note.step, note.alter, 4)) }
    }

    /// A note of weight 1 for anybody.
    #[must_use]
    pub const fn free(from: Ticks, to: Ticks, sounding: Pitch) -> Self {
        Self { from, to, sounding: Sounding(sounding), player: None, weight: 1.0, any_octave: false }
    }

    /// How it is sounded, written and made on a crook.
    #[must_use]
    pub fn given_on(&self, crook: &Crook, weights: &Weights) -> Given {
        let as_it_is =
            || Given { sounding: self.sounding, making: Making::of(crook, self.sounding, weights) };
        if self.any_octave {
            most_usual(crook, self.sounding.0.tonic(), weights).unwrap_or_else(as_it_is)
        } else {
            as_it_is()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pairs_of_a_family_share_and_players_are_counted_in_theirs() {
        let of = |family, pair| CrookPlayer { family, crooks: NamedCrook::classical(family), pair };
        let (horn, trumpet) = (CrookFamily::Horn, CrookFamily::Trumpet);
        let players = [
            of(horn, Some(1)),
            of(trumpet, Some(2)),
            of(horn, Some(1)),
            of(horn, None),
            of(trumpet, Some(1)),
        ];
        assert_eq!(teams(&players, true), [vec![0, 2], vec![1], vec![3], vec![4]]);
        assert_eq!(teams(&players, false), [vec![0], vec![1], vec![2], vec![3], vec![4]]);
        let numbers: Vec<usize> = (0..5).map(|at| number_in_family(&players, at)).collect();
        assert_eq!(numbers, [1, 1, 2, 3, 2]);
    }

    #[test]
    fn classical_crooks_are_those_of_the_sources() {
        let names = |family| {
            NamedCrook::classical(family).iter().map(|named| named.name.clone()).collect::<Vec<_>>().join(" ")
        };
        assert_eq!(names(CrookFamily::Horn), "Bb alto A alto Ab alto G F E Eb D C basso Bb basso");
        assert_eq!(names(CrookFamily::Trumpet), "F E Eb D C Bb basso A");
    }

    #[test]
    fn crooks_are_named_as_labels_name_them() {
        let name = |family, text: &str| NamedCrook::named(family, text).map(|named| named.crook.name);
        assert!(name(CrookFamily::Horn, "Eb").is_some());
        assert_ne!(name(CrookFamily::Horn, "Bb alto"), name(CrookFamily::Horn, "Bb basso"));
        assert!(name(CrookFamily::Horn, "C basso").is_some());
        assert_eq!(name(CrookFamily::Horn, "Qx"), None);
        for none in ["", " ", "alto", "basso", "tief"] {
            assert_eq!(name(CrookFamily::Horn, none), None, "{none:?}");
        }
        assert!(name(CrookFamily::Horn, "F").is_some() && name(CrookFamily::Trumpet, "F").is_some());
        for family in [CrookFamily::Horn, CrookFamily::Trumpet] {
            for own in NamedCrook::all(family) {
                assert_eq!(NamedCrook::named(family, &own.name), Some(own.clone()), "{own:?}");
            }
        }
        assert_eq!(name(CrookFamily::Horn, "fa"), name(CrookFamily::Horn, "F"));
        assert_eq!(name(CrookFamily::Horn, "D, Horn in E"), None);
    }
}
