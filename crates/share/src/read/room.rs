//! What holds for the whole page to pairs and back: the movement, bars, lengths, tuning, year, the instrument in hand.

use super::{Later, bars, decimal, lengths, placed};
use crate::error::LinkError;
use crate::fields::Pairs;
use crate::page::ReadPage;
use crookwise_theory::label::LONGEST as LONGEST_LABEL;
use crookwise_theory::{Intonation, Temperament, Tonic, TunedOn, Tuning, Warmth};

/// Years a link may name.
const YEARS: core::ops::RangeInclusive<i32> = 1500..=2100;

/// Air temperatures in °C a link may name.
const WARMTH: core::ops::RangeInclusive<f64> = -20.0..=50.0;

pub(crate) fn write(page: &ReadPage, out: &mut Pairs) {
    let mut put = |name: &str, value: String| out.push((name.to_owned(), value));
    if let Some(key) = page.passage.movement {
        put("key", key.to_string());
    }
    for (column, there) in page.passage.columns().iter().enumerate() {
        if let Some(key) = there.movement {
            put("key", placed::write(column, &key.to_string()));
        }
    }
    if let Some(bars) = bars::write(page.passage.columns()) {
        put("bars", bars);
    }
    if let Some(lengths) = lengths::write(page.passage.columns()) {
        put("lengths", lengths);
    }
    let Intonation { tuning, tuned_on, warmth } = page.intonation;
    let usual = Tuning::default();
    if tuning.a4 != usual.a4 {
        put("a4", decimal::write(tuning.a4));
    }
    if tuning.temperament != usual.temperament {
        put("temperament", tuning.temperament.id.to_owned());
    }
    if tuning.root != usual.root {
        put("from", tuning.root.to_string().replace('#', "s"));
    }
    if tuned_on == TunedOn::G {
        put("tuned", "G".into());
    }
    if let Some(warmth) = warmth {
        put("warmth", format!("{}_{}", decimal::write(warmth.tuned_at), decimal::write(warmth.playing_at)));
    }
    if let Some(year) = page.year {
        put("year", year.to_string());
    }
    if let Some(label) = &page.in_hand {
        put("hand", label.clone());
    }
}

/// Reads a pair of the whole page; false where its name is none of theirs.
pub(crate) fn read(
    page: &mut ReadPage,
    (name, value): (&str, &str),
    later: &mut Vec<Later>,
) -> Result<bool, LinkError> {
    let tuning = &mut page.intonation.tuning;
    match name {
        "key" => {
            let (column, text) = placed::read(value).map_or((None, value), |(at, text)| (Some(at), text));
            let key = text.parse().map_err(|_| LinkError::field("key", value))?;
            match column {
                None => page.passage.movement = Some(key),
                Some(column) => later.push(Later::Key(column, key, value.to_owned())),
            }
        }
        "bars" => {
            let bars = bars::read(value).ok_or_else(|| LinkError::field("bars", value))?;
            later.push(Later::Bars(bars, value.to_owned()));
        }
        "lengths" => {
            let lengths = lengths::read(value).ok_or_else(|| LinkError::field("lengths", value))?;
            later.push(Later::Lengths(lengths, value.to_owned()));
        }
        "a4" => {
            let (low, high) = Tuning::A4_RANGE;
            let a4 = decimal::read(value).filter(|a4| (low..=high).contains(a4));
            tuning.a4 = a4.ok_or_else(|| LinkError::field("a4", value))?;
        }
        "temperament" => {
            tuning.temperament =
                Temperament::by_id(value).ok_or_else(|| LinkError::field("temperament", value))?;
        }
        "from" => {
            let root = value.replace('s', "#").parse().ok().filter(|root: &Tonic| root.alter.abs() <= 1);
            tuning.root = root.ok_or_else(|| LinkError::field("from", value))?;
        }
        "tuned" => {
            page.intonation.tuned_on = match value {
                "C" => TunedOn::C,
                "G" => TunedOn::G,
                _ => return Err(LinkError::field("tuned", value)),
            };
        }
        "warmth" => {
            page.intonation.warmth = Some(warmth(value).ok_or_else(|| LinkError::field("warmth", value))?);
        }
        "year" => {
            let year = value.parse().ok().filter(|year| YEARS.contains(year));
            page.year = Some(year.ok_or_else(|| LinkError::field("year", value))?);
        }
        "hand" if value.chars().count() <= LONGEST_LABEL => page.in_hand = Some(value.to_owned()),
        "hand" => return Err(LinkError::field("hand", value)),
        _ => return Ok(false),
    }
    Ok(true)
}

fn warmth(value: &str) -> Option<Warmth> {
    let (tuned_at, playing_at) = value.split_once('_')?;
    let degrees = |text: &str| decimal::read(text).filter(|celsius| WARMTH.contains(celsius));
    Some(Warmth { tuned_at: degrees(tuned_at)?, playing_at: degrees(playing_at)? })
}
