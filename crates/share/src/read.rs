//! The page of Read to pairs and back. A staff begins at each `staff=`; what is usual is left out.

use crate::decimal;
use crate::error::LinkError;
use crate::fields::Fields;
use crate::notes::{self, Token};
use crate::page::ReadPage;
use crookwise_score::{Cell, Choice, Event, MOST_PLAYERS, Passage, Settings, SignatureSource, Staff};
use crookwise_theory::label::{LONGEST as LONGEST_LABEL, Mechanism};
use crookwise_theory::{
    BassNotation, Clef, Instrument, Intonation, Signature, Temperament, Tonic, Transposition, TunedOn,
    Tuning, Warmth,
};

/// Years a link may name.
const YEARS: core::ops::RangeInclusive<i32> = 1500..=2100;

/// Air temperatures in °C a link may name.
const WARMTH: core::ops::RangeInclusive<f64> = -20.0..=50.0;

pub(crate) fn to_fields(page: &ReadPage) -> Fields {
    let mut out: Fields = Vec::new();
    let mut put = |name: &str, value: String| out.push((name.to_owned(), value));
    for staff in page.passage.staves() {
        put("staff", staff.label.clone());
        staff_fields(staff, &mut put);
        if staff.players() > 1 {
            put("players", staff.players().to_string());
        }
        for player in 0..staff.players() {
            let text = notes::write(staff.cells().iter().map(|cell| token(staff, cell, player)));
            if !text.is_empty() {
                put(&notes_name(player), text);
            }
        }
    }
    if let Some(key) = page.passage.movement {
        put("key", key.to_string());
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
    if page.staff > 0 {
        put("on", (page.staff + 1).to_string());
    }
    if page.player > 0 {
        put("player", (page.player + 1).to_string());
    }
    if let Some(selected) = page.selected {
        put("at", (selected + 1).to_string());
    }
    out
}

/// A shared note stands in the line of the first player; the others pause in theirs.
fn token(staff: &Staff, cell: &Cell, player: usize) -> Token {
    match (cell, player) {
        (Cell::Together(Event::Note(printed)), 0) if staff.players() > 1 => Token::Shared(*printed),
        (Cell::Together(Event::Note(_)), 1..) => Token::Own(Event::Rest),
        _ => Token::Own(cell.of(player)),
    }
}

fn notes_name(player: usize) -> String {
    if player == 0 { "notes".into() } else { format!("notes{}", player + 1) }
}

fn staff_fields(staff: &Staff, put: &mut impl FnMut(&str, String)) {
    if let Some(Choice { instrument, transposition }) = staff.choice {
        put("reads", format!("{}_{}_{}", instrument.id, transposition.0.steps, transposition.0.semitones));
    }
    let settings = staff.settings;
    if let Some(mechanism) = settings.mechanism {
        put("played", mechanism.id().into());
    }
    if let Some(clef) = settings.clef {
        let mark = if clef.octave() == 0 { String::new() } else { format!("_{}", clef.octave()) };
        put("clef", format!("{clef}{mark}"));
    }
    if let Some(bass) = settings.bass {
        put("bass", bass.id().into());
    }
    if let Some(scheme) = settings.scheme {
        put("system", scheme.id().into());
    }
    match settings.signature {
        Some(SignatureSource::None) => put("signature", "none".into()),
        Some(SignatureSource::Movement) => put("signature", "movement".into()),
        Some(SignatureSource::Typed(Signature(fifths))) => put("signature", fifths.to_string()),
        None => {}
    }
    if settings.at_pitch {
        put("page", "sounding".into());
    }
}

pub(crate) fn from_fields(fields: &Fields) -> Result<ReadPage, LinkError> {
    let mut page = ReadPage {
        passage: Passage::default(),
        intonation: Intonation::default(),
        year: None,
        in_hand: None,
        selected: None,
        staff: 0,
        player: 0,
    };
    let mut staff = None;
    for (name, value) in fields {
        if name == "staff" {
            if value.chars().count() > LONGEST_LABEL {
                return Err(LinkError::field("staff", value));
            }
            staff = Some(page.passage.add_staff(value).map_err(|_| LinkError::TooMany)?);
            continue;
        }
        match staff {
            Some(at) => {
                let known = read_staff_field(&mut page.passage, at, name, value)?;
                if !known {
                    read_page_field(&mut page, name, value)?;
                }
            }
            None => read_page_field(&mut page, name, value)?,
        }
    }
    if staff.is_none() {
        return Err(LinkError::NoStaff);
    }
    page.selected = page.selected.filter(|&at| at < page.passage.columns().len());
    page.staff = page.staff.min(page.passage.staves().len().saturating_sub(1));
    let players = page.passage.staves().get(page.staff).map_or(1, Staff::players);
    page.player = page.player.min(players.saturating_sub(1));
    Ok(page)
}

/// Reads a field of a staff; false where it is none.
fn read_staff_field(passage: &mut Passage, at: usize, name: &str, value: &str) -> Result<bool, LinkError> {
    if let Some(player) = name.strip_prefix("notes") {
        let player = match player {
            "" => 0,
            number => {
                number
                    .parse::<usize>()
                    .ok()
                    .filter(|number| (2..=MOST_PLAYERS).contains(number))
                    .ok_or_else(|| LinkError::field("notes", value))?
                    - 1
            }
        };
        read_notes(passage, at, player, value)?;
        return Ok(true);
    }
    if name == "players" {
        let players = value.parse().map_err(|_| LinkError::field("players", value))?;
        passage.set_players(at, players).map_err(|_| LinkError::TooMany)?;
        return Ok(true);
    }
    let Some(staff) = passage.staff_mut(at) else { return Ok(false) };
    let Settings { mechanism, clef, bass, scheme, signature, at_pitch } = &mut staff.settings;
    match name {
        "reads" => staff.choice = Some(choice(value).ok_or_else(|| LinkError::field("reads", value))?),
        "played" => {
            let all = [Mechanism::Natural, Mechanism::Valves];
            *mechanism =
                Some(by_id(all, Mechanism::id, value).ok_or_else(|| LinkError::field("played", value))?);
        }
        "clef" => *clef = Some(self::clef(value).ok_or_else(|| LinkError::field("clef", value))?),
        "bass" => {
            let all = [BassNotation::Old, BassNotation::New];
            *bass = Some(by_id(all, BassNotation::id, value).ok_or_else(|| LinkError::field("bass", value))?);
        }
        "system" => *scheme = Some(value.parse().map_err(|_| LinkError::field("system", value))?),
        "signature" => {
            *signature = Some(match value {
                "none" => SignatureSource::None,
                "movement" => SignatureSource::Movement,
                number => {
                    let fifths = number.parse().ok().filter(|fifths: &i32| fifths.abs() <= 7);
                    SignatureSource::Typed(Signature(
                        fifths.ok_or_else(|| LinkError::field("signature", value))?,
                    ))
                }
            });
        }
        "page" if value == "sounding" => *at_pitch = true,
        "page" => return Err(LinkError::field("page", value)),
        _ => return Ok(false),
    }
    Ok(true)
}

fn read_notes(passage: &mut Passage, at: usize, player: usize, value: &str) -> Result<(), LinkError> {
    let players = passage.staves().get(at).map_or(1, Staff::players);
    if player >= players {
        passage.set_players(at, player + 1).map_err(|_| LinkError::TooMany)?;
    }
    for (column, token) in notes::read(value)?.into_iter().enumerate() {
        let shared = |staff: &Staff| staff.cells().get(column).is_some_and(Cell::is_together);
        let set = match token {
            Token::Shared(printed) => passage.set_together(at, column, printed),
            Token::Own(Event::Rest) if player > 0 && passage.staves().get(at).is_some_and(shared) => Ok(()),
            Token::Own(event) => passage.set(at, column, player, event),
        };
        set.map_err(|_| LinkError::field("notes", value))?;
    }
    Ok(())
}

fn by_id<T: Copy, const N: usize>(all: [T; N], id: impl Fn(T) -> &'static str, value: &str) -> Option<T> {
    all.into_iter().find(|&one| id(one) == value)
}

fn choice(value: &str) -> Option<Choice> {
    // Ids hold underscores themselves, so the two numbers are taken from the end.
    let (rest, semitones) = value.rsplit_once('_')?;
    let (id, steps) = rest.rsplit_once('_')?;
    let within = |text: &str, most: i32| text.parse().ok().filter(|number: &i32| number.abs() <= most);
    Some(Choice {
        instrument: Instrument::by_id(id)?,
        transposition: Transposition::new(within(steps, 28)?, within(semitones, 48)?),
    })
}

fn clef(value: &str) -> Option<Clef> {
    let (name, mark) = value.split_once('_').unwrap_or((value, "0"));
    let clef: Clef = name.parse().ok()?;
    Clef::new(clef.sign, clef.line(), mark.parse().ok()?).ok()
}

/// Reads a field of the whole page; names that are not known are left alone, for later versions.
fn read_page_field(page: &mut ReadPage, name: &str, value: &str) -> Result<(), LinkError> {
    let tuning = &mut page.intonation.tuning;
    match name {
        "key" => page.passage.movement = Some(value.parse().map_err(|_| LinkError::field("key", value))?),
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
        "at" => page.selected = Some(from_one(value).ok_or_else(|| LinkError::field("at", value))?),
        "on" => page.staff = from_one(value).ok_or_else(|| LinkError::field("on", value))?,
        "player" => page.player = from_one(value).ok_or_else(|| LinkError::field("player", value))?,
        _ => {}
    }
    Ok(())
}

/// A number that people count from 1, counted from 0.
fn from_one(value: &str) -> Option<usize> {
    value.parse::<usize>().ok()?.checked_sub(1)
}

fn warmth(value: &str) -> Option<Warmth> {
    let (tuned_at, playing_at) = value.split_once('_')?;
    let degrees = |text: &str| decimal::read(text).filter(|celsius| WARMTH.contains(celsius));
    Some(Warmth { tuned_at: degrees(tuned_at)?, playing_at: degrees(playing_at)? })
}
