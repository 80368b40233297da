//! Values that stand before a column: `3_in+D`, columns counted from 1; and names that belong to one player: `muta2`.

use crookwise_score::{MOST_COLUMNS, MOST_PLAYERS};

/// A value that holds from a column on, counted from 0.
pub(crate) fn write(column: usize, value: &str) -> String {
    format!("{}_{value}", column + 1)
}

/// The column and the value; `None` where no number of a column stands in front.
pub(crate) fn read(value: &str) -> Option<(usize, &str)> {
    let (column, value) = value.split_once('_')?;
    Some((from_one(column, MOST_COLUMNS)?, value))
}

/// The name of what belongs to a player, counted from 0; `None` for all players.
pub(crate) fn name(stem: &str, player: Option<usize>) -> String {
    player.map_or_else(|| stem.to_owned(), |player| format!("{stem}{}", player + 1))
}

/// The player of a name, if the name begins so; `Err` where no such player can be.
#[allow(clippy::option_option, reason = "another name, all players, one of them")]
pub(crate) fn player(name: &str, stem: &str) -> Result<Option<Option<usize>>, ()> {
    match name.strip_prefix(stem) {
        None => Ok(None),
        Some("") => Ok(Some(None)),
        Some(number) => from_one(number, MOST_PLAYERS).map(|player| Some(Some(player))).ok_or(()),
    }
}

/// A number that people count from 1, counted from 0.
pub(crate) fn from_one(text: &str, most: usize) -> Option<usize> {
    let digits = text.bytes().all(|byte| byte.is_ascii_digit());
    let number = text.parse::<usize>().ok().filter(|number| digits && (1..=most).contains(number))?;
    Some(number - 1)
}
