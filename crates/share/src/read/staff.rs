//! A staff to pairs and back. What changes in its course stands before a column: `muta=3_in+D`, `clef=5_F4`.

use super::notes::{self, Token};
use super::{Later, placed};
use crate::error::LinkError;
use crate::fields::Pairs;
use crookwise_score::{Cell, Change, ChangeTo, Choice, Event, Passage, Settings, SignatureSource, Staff};
use crookwise_theory::label::{LONGEST as LONGEST_LABEL, Mechanism};
use crookwise_theory::{BassNotation, Clef, Instrument, Signature, Transposition};

/// Writes a staff; the first one says how many columns there are, so it is written to the end.
pub(crate) fn write(staff: &Staff, first: bool, out: &mut Pairs) {
    let mut put = |name: String, value: String| out.push((name, value));
    put("staff".into(), staff.label.clone());
    if let Some(choice) = staff.choice {
        put("reads".into(), choice_text(choice));
    }
    settings(staff.settings, &mut put);
    if staff.players() > 1 {
        put("players".into(), staff.players().to_string());
    }
    for (player, crook) in staff.crooks().iter().enumerate() {
        if let Some(choice) = crook {
            put(placed::name("crook", Some(player)), choice_text(*choice));
        }
    }
    for player in 0..staff.players() {
        let tokens: Vec<Token> = staff.cells().iter().map(|cell| token(staff, cell, player)).collect();
        let sounds =
            tokens.iter().rposition(|token| *token != Token::Own(Event::Rest)).map_or(0, |at| at + 1);
        let length = if first && player == 0 { tokens.len() } else { sounds };
        let text = notes::write(tokens.into_iter().take(length));
        if !text.is_empty() {
            put(placed::name("notes", Some(player).filter(|player| *player > 0)), text);
        }
    }
    for Change { column, player, to } in staff.changes() {
        let (stem, value) = match to {
            ChangeTo::Label(label) => ("muta", label.clone()),
            ChangeTo::Clef(clef) => ("clef", clef_text(*clef)),
            ChangeTo::Signature(source) => ("signature", signature_text(*source)),
        };
        put(placed::name(stem, *player), placed::write(*column, &value));
    }
}

/// A shared note stands in the line of the first player; the others pause in theirs.
fn token(staff: &Staff, cell: &Cell, player: usize) -> Token {
    match (cell, player) {
        (Cell::Together(Event::Note(printed)), 0) if staff.players() > 1 => Token::Shared(*printed),
        (Cell::Together(Event::Note(_)), 1..) => Token::Own(Event::Rest),
        _ => Token::Own(cell.of(player)),
    }
}

fn settings(settings: Settings, put: &mut impl FnMut(String, String)) {
    let mut put = |name: &str, value: String| put(name.to_owned(), value);
    if let Some(mechanism) = settings.mechanism {
        put("played", mechanism.id().into());
    }
    if let Some(clef) = settings.clef {
        put("clef", clef_text(clef));
    }
    if let Some(bass) = settings.bass {
        put("bass", bass.id().into());
    }
    if let Some(scheme) = settings.scheme {
        put("system", scheme.id().into());
    }
    if let Some(source) = settings.signature {
        put("signature", signature_text(source));
    }
    if settings.at_pitch {
        put("page", "sounding".into());
    }
}

/// Reads a pair of a staff; false where its name is none of theirs. What belongs to a column or a player that may still
/// come is laid aside.
pub(crate) fn read(
    passage: &mut Passage,
    at: usize,
    (name, value): (&str, &str),
    later: &mut Vec<Later>,
) -> Result<bool, LinkError> {
    if let Some(player) = placed::player(name, "notes").map_err(|()| LinkError::field("notes", value))? {
        // The first player's line has no number.
        let player = if player == Some(0) { None } else { Some(player.unwrap_or(0)) };
        read_notes(passage, at, player.ok_or_else(|| LinkError::field("notes", value))?, value)?;
        return Ok(true);
    }
    if let Some(player) = placed::player(name, "muta").map_err(|()| LinkError::field("muta", value))? {
        let (column, label) = placed::read(value)
            .filter(|(_, label)| label.chars().count() <= LONGEST_LABEL)
            .ok_or_else(|| LinkError::field("muta", value))?;
        let change = Change { column, player, to: ChangeTo::Label(label.to_owned()) };
        later.push(Later::Change(at, change, "muta", value.to_owned()));
        return Ok(true);
    }
    if let Some(player) = placed::player(name, "crook").map_err(|()| LinkError::field("crook", value))? {
        let crook = player.zip(choice(value)).ok_or_else(|| LinkError::field("crook", value))?;
        later.push(Later::Crook(at, crook.0, crook.1, value.to_owned()));
        return Ok(true);
    }
    if name == "players" {
        let players = value.parse().map_err(|_| LinkError::field("players", value))?;
        passage.set_players(at, players).map_err(|_| LinkError::TooMany)?;
        return Ok(true);
    }
    if let Some((column, value)) = placed::read(value) {
        let to = match name {
            "clef" => clef(value).map(ChangeTo::Clef).ok_or_else(|| LinkError::field("clef", value))?,
            "signature" => {
                let source = signature(value).ok_or_else(|| LinkError::field("signature", value))?;
                ChangeTo::Signature(source)
            }
            _ => return Ok(false),
        };
        let name = if name == "clef" { "clef" } else { "signature" };
        later.push(Later::Change(at, Change { column, player: None, to }, name, value.to_owned()));
        return Ok(true);
    }
    let Some(staff) = passage.staff_mut(at) else { return Ok(false) };
    read_setting(staff, name, value)
}

/// Reads how a staff is printed at its beginning; false where the name means no such thing.
fn read_setting(staff: &mut Staff, name: &str, value: &str) -> Result<bool, LinkError> {
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
            *signature = Some(self::signature(value).ok_or_else(|| LinkError::field("signature", value))?);
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

/// A reading of a label as text: `horn_-5_-9` is a horn that sounds five letters and nine semitones lower.
#[must_use]
pub fn choice_text(Choice { instrument, transposition }: Choice) -> String {
    format!("{}_{}_{}", instrument.id, transposition.0.steps, transposition.0.semitones)
}

/// A reading of a label from its text; `None` where it is none.
#[must_use]
pub fn choice(value: &str) -> Option<Choice> {
    // Ids hold underscores themselves, so the two numbers are taken from the end.
    let (rest, semitones) = value.rsplit_once('_')?;
    let (id, steps) = rest.rsplit_once('_')?;
    let within = |text: &str, most: i32| text.parse().ok().filter(|number: &i32| number.abs() <= most);
    Some(Choice {
        instrument: Instrument::by_id(id)?,
        transposition: Transposition::new(within(steps, 28)?, within(semitones, 48)?),
    })
}

fn clef_text(clef: Clef) -> String {
    if clef.octave() == 0 { clef.to_string() } else { format!("{clef}_{}", clef.octave()) }
}

fn clef(value: &str) -> Option<Clef> {
    let (name, mark) = value.split_once('_').unwrap_or((value, "0"));
    let clef: Clef = name.parse().ok()?;
    Clef::new(clef.sign, clef.line(), mark.parse().ok()?).ok()
}

fn signature_text(source: SignatureSource) -> String {
    match source {
        SignatureSource::None => "none".into(),
        SignatureSource::Movement => "movement".into(),
        SignatureSource::Typed(Signature(fifths)) => fifths.to_string(),
    }
}

fn signature(value: &str) -> Option<SignatureSource> {
    match value {
        "none" => Some(SignatureSource::None),
        "movement" => Some(SignatureSource::Movement),
        number => {
            let fifths = number.parse().ok().filter(|fifths: &i32| fifths.abs() <= 7);
            fifths.map(|fifths| SignatureSource::Typed(Signature(fifths)))
        }
    }
}
