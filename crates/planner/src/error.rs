//! What cannot be planned, in sentences.

use core::fmt;

/// Why no plan is sought. Players and notes count from 0 here, from 1 in the sentences.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RequestError {
    /// Nobody is there.
    NoPlayers,
    /// More than [`MOST_PLAYERS`](crate::MOST_PLAYERS).
    TooManyPlayers(usize),
    /// More than [`MOST_NOTES`](crate::MOST_NOTES).
    TooManyNotes(usize),
    /// This player has no crook.
    NoCrooks(usize),
    /// The rest that a change needs is below nothing.
    ChangeTime,
    /// The cost of a change is no number from 0 on.
    ChangeCost,
    /// What a way of making a note is worth is no number from 0 on.
    Worth,
    /// The highest partial lies outside 2 to 32.
    Highest(u8),
    /// This pair shares its crook, but is not of one family.
    MixedPair(u32),
    /// This note has no length.
    NoLength(usize),
    /// The weight of this note is no number from 0 on.
    Weight(usize),
    /// This note is given to a player who is not there.
    UnknownPlayer(usize, usize),
}

impl fmt::Display for RequestError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let one = |index: &usize| index + 1;
        match self {
            Self::NoPlayers => write!(f, "There are no players: name at least one horn or trumpet."),
            Self::TooManyPlayers(many) => {
                write!(f, "There are {many} players; crooks are planned for {} at most.", crate::MOST_PLAYERS)
            }
            Self::TooManyNotes(many) => {
                write!(
                    f,
                    "There are {many} notes; {} are planned at most. Take fewer bars.",
                    crate::MOST_NOTES
                )
            }
            Self::NoCrooks(at) => write!(f, "Player {} has no crook.", one(at)),
            Self::ChangeTime => write!(f, "The rest for a change of crook must be 0 quarter notes or more."),
            Self::ChangeCost => write!(f, "The cost of a change must be a number from 0 on."),
            Self::Worth => write!(f, "What a way of making a note is worth must be a number from 0 on."),
            Self::Highest(highest) => {
                write!(f, "The highest partial must lie between 2 and 32, not at {highest}.")
            }
            Self::MixedPair(pair) => {
                write!(f, "Pair {pair} joins a horn and a trumpet, which cannot share a crook.")
            }
            Self::NoLength(at) => write!(f, "Note {} has no length.", one(at)),
            Self::Weight(at) => write!(f, "The weight of note {} must be a number from 0 on.", one(at)),
            Self::UnknownPlayer(at, player) => {
                write!(f, "Note {} is given to player {}, who is not there.", one(at), one(player))
            }
        }
    }
}

impl core::error::Error for RequestError {}
