//! The page of Read to pairs and back. A staff begins at each `staff=`; what is usual is left out.

mod bars;
pub(crate) mod decimal;
mod lengths;
mod notes;
pub(crate) mod placed;
mod room;
mod staff;

pub use staff::{choice, choice_text};

use crate::error::LinkError;
use crate::fields::{Fields, Pairs};
use crate::page::ReadPage;
use crookwise_score::{BarNumber, Change, Choice, Length, MOST_COLUMNS, MOST_PLAYERS, MOST_STAVES, Staff};
use crookwise_theory::Key;
use crookwise_theory::label::LONGEST as LONGEST_LABEL;

/// What belongs to columns or players that may stand further behind in the link.
enum Later {
    /// A change on a staff, with its name and what the link says.
    Change(usize, Change, &'static str, String),
    /// A crook of one player of a staff, with what the link says.
    Crook(usize, usize, Choice, String),
    /// The movement's key before a column, with what the link says.
    Key(usize, Key, String),
    /// The lengths of the columns, with what the link says.
    Lengths(Vec<Option<Length>>, String),
    /// The columns that begin bars, with what the link says.
    Bars(Vec<(usize, BarNumber)>, String),
}

pub(crate) fn to_pairs(page: &ReadPage) -> Pairs {
    let mut out = Pairs::new();
    for (at, staff) in page.passage.staves().iter().enumerate() {
        staff::write(staff, at == 0, &mut out);
    }
    room::write(page, &mut out);
    let mut put = |name: &str, value: usize| out.push((name.to_owned(), value.to_string()));
    if page.staff > 0 {
        put("on", page.staff + 1);
    }
    if page.player > 0 {
        put("player", page.player + 1);
    }
    if let Some(selected) = page.selected {
        put("at", selected + 1);
    }
    out
}

pub(crate) fn from_fields(fields: &Fields) -> Result<ReadPage, LinkError> {
    let mut page = ReadPage { passage: Default::default(), ..ReadPage::of_label("") };
    let (mut staff, mut later) = (None, Vec::new());
    for (name, value) in &fields.pairs {
        if name == "staff" {
            if value.chars().count() > LONGEST_LABEL {
                return Err(LinkError::field("staff", value));
            }
            staff = Some(page.passage.add_staff(value).map_err(|_| LinkError::TooMany)?);
            continue;
        }
        let of_staff = match staff {
            Some(at) => staff::read(&mut page.passage, at, (name, value), &mut later)?,
            None => false,
        };
        if !(of_staff
            || room::read(&mut page, (name, value), &mut later)?
            || selection(&mut page, name, value)?)
        {
            fields.unknown(name)?;
        }
    }
    if staff.is_none() {
        return Err(LinkError::NoStaff);
    }
    later.into_iter().try_for_each(|later| later.settle(&mut page))?;
    page.selected = page.selected.filter(|&at| at < page.passage.columns().len());
    page.staff = page.staff.min(page.passage.staves().len().saturating_sub(1));
    let players = page.passage.staves().get(page.staff).map_or(1, Staff::players);
    page.player = page.player.min(players.saturating_sub(1));
    Ok(page)
}

/// Reads what is selected; false where the name means no such thing.
fn selection(page: &mut ReadPage, name: &str, value: &str) -> Result<bool, LinkError> {
    let number = |name, most| placed::from_one(value, most).ok_or_else(|| LinkError::field(name, value));
    match name {
        "at" => page.selected = Some(number("at", MOST_COLUMNS)?),
        "on" => page.staff = number("on", MOST_STAVES)?,
        "player" => page.player = number("player", MOST_PLAYERS)?,
        _ => return Ok(false),
    }
    Ok(true)
}

impl Later {
    /// Puts it where it belongs, now that all columns and players are there.
    fn settle(self, page: &mut ReadPage) -> Result<(), LinkError> {
        let passage = &mut page.passage;
        match self {
            Self::Change(staff, change, name, value) => {
                passage.set_change(staff, change).map_err(|_| LinkError::field(name, &value))
            }
            Self::Crook(staff, player, choice, value) => {
                passage.set_crook(staff, player, Some(choice)).map_err(|_| LinkError::field("crook", &value))
            }
            Self::Key(column, key, value) => {
                passage.set_movement_at(column, Some(key)).map_err(|_| LinkError::field("key", &value))
            }
            Self::Lengths(lengths, value) => lengths
                .into_iter()
                .enumerate()
                .try_for_each(|(column, length)| passage.set_length(column, length))
                .map_err(|_| LinkError::field("lengths", &value)),
            Self::Bars(bars, value) => bars
                .into_iter()
                .try_for_each(|(column, bar)| passage.set_bar(column, Some(bar)))
                .map_err(|_| LinkError::field("bars", &value)),
        }
    }
}
