//! The setting from pairs.

use super::write::{ALL, FIRM, NONE, crook_word, view_word};
use super::{
    CrooksLink, CrooksView, CrooksWanted, MOST_BARS, MOST_KEYS, MOST_PRINTED, MOST_SHOWN, MOST_STRETCHES,
    MOST_TITLE, MOST_TYPED, MendedNote, bars, notes,
};
use crate::error::LinkError;
use crate::fields::Fields;
use crate::read::decimal;
use crate::read::placed::from_one;
use crookwise_planner::key_plan::KeyStretch;
use crookwise_planner::of_keys::FixedCrook;
use crookwise_planner::printed::PrintedCrook;
use crookwise_planner::{CrookPlayer, MOST_NOTES, MOST_PLAYERS, NamedCrook, Ticks, Weights};
use crookwise_score::score::TimeSignature;
use crookwise_theory::{Crook, CrookFamily, Key, Pitch, Sounding};
use data_encoding::BASE64URL_NOPAD;

/// The longest rest for a change, in quarter notes, and the most that anything is worth or costs.
const LONGEST_CHANGE: f64 = 10_000.0;
const MOST_WORTH: f64 = 1_000.0;
/// The widest pitch that a mended note may have.
const OCTAVES: core::ops::RangeInclusive<i32> = -2..=12;

pub(super) fn setting(fields: &Fields) -> Result<CrooksLink, LinkError> {
    let mut setting = CrooksLink::default();
    let mut players: Option<Vec<CrookPlayer>> = None;
    for (name, value) in &fields.pairs {
        if let Some(family) = family(name) {
            let error = || LinkError::field("players", value);
            let players = players.get_or_insert_default();
            players.extend(group(family, value).ok_or_else(error)?);
            if players.len() > MOST_PLAYERS {
                return Err(error());
            }
        } else if let Some(known) = NAMES.into_iter().find(|known| known == name) {
            one(&mut setting, known, value).ok_or_else(|| LinkError::field(known, value))?;
        } else {
            fields.unknown(name)?;
        }
    }
    setting.players = players.unwrap_or(setting.players);
    for (name, value) in &fields.pairs {
        match name.as_str() {
            "fixed" => fix(&mut setting, value).ok_or_else(|| LinkError::field("fixed", value))?,
            "printed" => printed(&mut setting, value).ok_or_else(|| LinkError::field("printed", value))?,
            _ => {}
        }
    }
    Ok(setting)
}

/// `1_G.1_96_Bb alto.2_G`, by player and then by time.
fn printed(setting: &mut CrooksLink, value: &str) -> Option<()> {
    let one = |word: &str| {
        let mut parts = word.splitn(3, '_');
        let player = from_one(parts.next()?, MOST_PLAYERS)?;
        let family = setting.players.get(player)?.family;
        let (from, name) = from_then(&mut parts)?;
        Some(PrintedCrook { player, from, crook: crook(family, name)? })
    };
    let all: Vec<PrintedCrook> = value.split('.').take(MOST_PRINTED + 1).map(one).collect::<Option<_>>()?;
    let is_rising = all.is_sorted_by(|one, next| (one.player, one.from) < (next.player, next.from));
    setting.printed = Some(all).filter(|all| is_rising && all.len() <= MOST_PRINTED)?;
    Some(())
}

/// When something holds from, and what: from the beginning where no time stands before it.
fn from_then<'a>(parts: &mut impl Iterator<Item = &'a str>) -> Option<(Ticks, &'a str)> {
    match (parts.next()?, parts.next()) {
        (name, None) => Some((Ticks::default(), name)),
        (from, Some(name)) => Some((bars::fraction(from).filter(|from| from.0 > 0)?, name)),
    }
}

/// `G minor.96_Bb major`, by rising time.
fn movement_keys(value: &str) -> Option<Vec<(Ticks, Key)>> {
    let one = |word: &str| {
        let (from, name) = from_then(&mut word.splitn(2, '_'))?;
        Some((from, key(name)?))
    };
    let all: Vec<(Ticks, Key)> = value.split('.').take(MOST_KEYS + 1).map(one).collect::<Option<_>>()?;
    let is_rising = all.is_sorted_by(|(one, _), (next, _)| one < next);
    Some(all).filter(|all| is_rising && all.len() <= MOST_KEYS)
}

/// `2_1_G`: in the second stretch the first player has his crook in G.
fn fix(setting: &mut CrooksLink, value: &str) -> Option<()> {
    let one = |word: &str| {
        let mut parts = word.splitn(3, '_');
        let stretch = from_one(parts.next()?, MOST_STRETCHES)?;
        let player = from_one(parts.next()?, MOST_PLAYERS)?;
        let family = setting.players.get(player)?.family;
        Some(FixedCrook { stretch, player, crook: crook(family, parts.next()?)? })
    };
    setting.fixed = value.split('.').take(MOST_STRETCHES * MOST_PLAYERS).map(one).collect::<Option<_>>()?;
    Some(())
}

/// The names of all pairs but those of players.
const NAMES: [&str; 20] = [
    "view", "keys", "wanted", "time", "bars", "key", "of", "pairs", "change", "worth", "cost", "highest",
    "mended", "fixed", "printed", "plan", "table", "crooks", "mine", "typed",
];

/// Reads a pair; `None` where its value is not understood.
fn one(setting: &mut CrooksLink, name: &str, value: &str) -> Option<()> {
    match name {
        "view" => setting.view = view(Some(value))?,
        "keys" => setting.wanted = CrooksWanted::Keys(stretches(value)?),
        "wanted" => {
            let bytes = BASE64URL_NOPAD.decode(value.as_bytes()).ok()?;
            setting.wanted = CrooksWanted::Notes(notes::unpack(&bytes)?);
        }
        "time" => setting.time = time(value)?,
        "bars" => setting.bars = bars::read(value)?,
        "key" => setting.keys = movement_keys(value)?,
        "of" => {
            setting.title = Some(value).filter(|text| text.chars().nth(MOST_TITLE).is_none())?.to_owned();
        }
        "pairs" if value == "apart" => setting.together = false,
        "change" => setting.change_time = change(value)?,
        "worth" => setting.weights.worth = worth(value)?,
        "cost" => setting.weights.change_cost = within(value)?,
        "highest" => setting.weights.highest = value.parse().ok().filter(|one| (2..=32).contains(one))?,
        "mended" => setting.mended = value.split('.').map(mended).collect::<Option<_>>()?,
        // Read when the players are known, who say of which family each crook is.
        "fixed" | "printed" => {}
        "plan" => setting.plan = from_one(value, 99)?,
        "table" => setting.table = key(value)?,
        "crooks" => setting.shown = list(value)?,
        "mine" => setting.mine = list(value)?,
        "typed" => {
            setting.typed = Some(value).filter(|text| text.chars().nth(MOST_TYPED).is_none())?.to_owned();
        }
        _ => return None,
    }
    Some(())
}

/// What is looked at, by its word in the link.
pub(super) fn view(word: Option<&str>) -> Option<CrooksView> {
    let all = [CrooksView::Plans, CrooksView::Table, CrooksView::MayWrite];
    all.into_iter().find(|view| view_word(*view) == word)
}

fn family(name: &str) -> Option<CrookFamily> {
    [CrookFamily::Horn, CrookFamily::Trumpet].into_iter().find(|family| family.word() == name)
}

/// `2_1_G.Bb alto`: two players of the first pair, with these crooks.
fn group(family: CrookFamily, value: &str) -> Option<Vec<CrookPlayer>> {
    if value == NONE {
        return Some(Vec::new());
    }
    let (count, rest) = value.split_once('_')?;
    let (pair, crooks) = rest.split_once('_')?;
    let crooks = match crooks {
        ALL => NamedCrook::all(family),
        NONE => Vec::new(),
        words => {
            let named: Option<Vec<_>> =
                words.split('.').map(|word| crook(family, word).map(NamedCrook::of)).collect();
            named.filter(|all| all.len() <= family.crooks().len())?
        }
    };
    let pair = if pair == NONE { None } else { Some(pair.parse().ok()?) };
    let player = CrookPlayer { family, crooks, pair };
    Some(vec![player; from_one(count, MOST_PLAYERS)? + 1])
}

fn crook(family: CrookFamily, word: &str) -> Option<&'static Crook> {
    family.crooks().iter().find(|crook| crook_word(crook) == word)
}

/// `horn_D.trumpet_D`.
fn list(value: &str) -> Option<Vec<&'static Crook>> {
    if value == NONE {
        return Some(Vec::new());
    }
    let one = |word: &str| {
        let (name, word) = word.split_once('_')?;
        crook(family(name)?, word)
    };
    let all: Option<Vec<_>> = value.split('.').take(MOST_SHOWN + 1).map(one).collect();
    all.filter(|all| all.len() <= MOST_SHOWN)
}

/// `32_G minor.26_Bb major`.
fn stretches(value: &str) -> Option<Vec<KeyStretch>> {
    if value.is_empty() {
        return Some(Vec::new());
    }
    let one = |word: &str| {
        let (bars, name) = word.split_once('_')?;
        let bars = from_one(bars, MOST_BARS as usize)? + 1;
        Some(KeyStretch { key: key(name)?, bars: u32::try_from(bars).ok()? })
    };
    let all: Vec<KeyStretch> = value.split('.').take(MOST_STRETCHES + 1).map(one).collect::<Option<_>>()?;
    let bars: u32 = all.iter().map(|one| one.bars).sum();
    (all.len() <= MOST_STRETCHES && bars <= MOST_BARS).then_some(all)
}

/// A key by its name, in which a sharp is an s behind the letter.
fn key(text: &str) -> Option<Key> {
    let (tonic, mode) = text.split_once(' ')?;
    format!("{} {mode}", tonic.replace('s', "#")).parse().ok()
}

fn time(value: &str) -> Option<TimeSignature> {
    let (beats, below) = value.split_once('_')?;
    signature(beats, below)
}

pub(super) fn signature(beats: &str, below: &str) -> Option<TimeSignature> {
    let beats = beats.parse().ok().filter(|beats| (1..=64).contains(beats))?;
    let value = below.parse().ok().filter(|value: &u16| *value <= 64 && value.is_power_of_two())?;
    Some(TimeSignature { beats, value })
}

fn change(value: &str) -> Option<Ticks> {
    let (above, below) = value.split_once('_').unwrap_or((value, "1"));
    let time = Ticks::of_fraction(above.parse().ok()?, below.parse().ok()?)?;
    (0.0..=LONGEST_CHANGE).contains(&time.quarters()).then_some(time)
}

fn within(value: &str) -> Option<f64> {
    decimal::read(value).filter(|number| (0.0..=MOST_WORTH).contains(number))
}

fn worth(value: &str) -> Option<[f64; Weights::WAYS]> {
    let all: Vec<f64> = value.split('_').map(within).collect::<Option<_>>()?;
    all.try_into().ok()
}

/// `12_Eb4_2`: the twelfth note becomes E-flat 4, for the second player; with `_firm` whatever else goes.
fn mended(word: &str) -> Option<MendedNote> {
    let mut parts = word.splitn(4, '_');
    let note = from_one(parts.next()?, MOST_NOTES)?;
    // The letter comes first, so an s behind it can only be a sharp.
    let pitch: Pitch = parts.next()?.replace('s', "#").parse().ok()?;
    let player = match parts.next() {
        None | Some(NONE) => None,
        Some(player) => Some(from_one(player, MOST_PLAYERS)?),
    };
    let firm = match parts.next() {
        None => false,
        Some(FIRM) => true,
        Some(_) => return None,
    };
    let is_near = OCTAVES.contains(&pitch.octave) && pitch.alter.abs() <= 9;
    is_near.then_some(MendedNote { note, sounding: Sounding(pitch), player, firm })
}
