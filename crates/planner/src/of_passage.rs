//! The horns and trumpets of a page of Read as a request: what they sound, each note for the player who has it there.

use crate::of_score::{self, ScoreRequest};
use crate::ticks::Ticks;
use crate::written::{BarLaid, Layout};
use crookwise_score::resolve::Decoder;
use crookwise_score::score::TimeSignature;
use crookwise_score::{Length, Passage, Score};

/// What the horns and trumpets of a page sound; their staves are numbered as in [`Score::of_passage`]. Columns of which no
/// length is known last a quarter note, and where the page tells no bars, they have four quarters. `None` where it has neither
/// horns nor trumpets, or a time of it is beyond what is planned.
pub fn request(passage: &Passage, change_time: Ticks, decoder: &mut Decoder<'_>) -> Option<ScoreRequest> {
    let passage = measured(passage);
    let score = Score::of_passage(&passage).ok()?;
    let seats = of_score::seats(&score, decoder);
    if seats.is_empty() {
        return None;
    }
    let (request, printed) = of_score::with_crooks(&score, &seats, change_time, decoder)?;
    Some(ScoreRequest { seats, request, layout: layout(&passage)?, printed })
}

/// The same with a length for every column.
fn measured(passage: &Passage) -> Passage {
    let mut passage = passage.clone();
    for column in 0..passage.columns().len() {
        if passage.columns().get(column).is_some_and(|column| column.length.is_none()) {
            // The column is there.
            let _ = passage.set_length(column, Length::new(1, 1));
        }
    }
    passage
}

fn layout(passage: &Passage) -> Option<Layout> {
    let mut laid = Layout::default();
    let mut now = Ticks::default();
    if let Some(key) = passage.movement {
        laid.change_key(now, key);
    }
    let is_told = passage.columns().iter().any(|column| column.bar.is_some());
    for column in passage.columns() {
        let (above, below) = column.length?.quarters();
        let length = Ticks::of_fraction(above.into(), below.into())?;
        if let Some(key) = column.movement {
            laid.change_key(now, key);
        }
        match laid.bars.last_mut() {
            Some(last) if column.bar.is_none() => last.length = last.length + length,
            _ => {
                let number = column.bar.map(|bar| bar.to_string());
                laid.bars.push(BarLaid {
                    number: number.unwrap_or_else(|| "1".to_owned()),
                    length,
                    time: None,
                });
            }
        }
        now = now + length;
    }
    if !is_told {
        return Some(Layout { keys: laid.keys, ..Layout::alike(TimeSignature { beats: 4, value: 4 }, now) });
    }
    let mut last = None;
    for bar in &mut laid.bars {
        let time = time(bar.length);
        if time != last {
            (bar.time, last) = (time, time);
        }
    }
    Some(laid)
}

/// The time signature of bars so long, in quarters where it may be, else in shorter values.
fn time(length: Ticks) -> Option<TimeSignature> {
    let (above, below) = length.fraction();
    let value =
        u16::try_from(below.checked_mul(4)?).ok().filter(|value| value.is_power_of_two() && *value <= 64)?;
    Some(TimeSignature { beats: u16::try_from(above).ok()?, value })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_score::{BarNumber, Event};
    use crookwise_theory::Printed;
    use crookwise_theory::label::{DecodeOptions, decode};
    use std::sync::Arc;

    fn note(name: &str) -> Event {
        Event::Note(Printed(name.parse().unwrap()))
    }

    fn asked(passage: &Passage) -> Option<ScoreRequest> {
        let mut decoder = |text: &str| Arc::new(decode(text, DecodeOptions::default()));
        request(passage, Ticks::of_fraction(8, 1).unwrap(), &mut decoder)
    }

    #[test]
    fn a_page_asks_for_what_its_brass_sounds() {
        let mut passage = Passage::of_staff("Violino I");
        passage.insert_staff(1, "2 Corni in Es").unwrap();
        passage.set_players(1, 2).unwrap();
        for column in 0..3 {
            passage.set(0, column, 0, note("Eb5")).unwrap();
        }
        passage.set_together(1, 0, Printed("C5".parse().unwrap())).unwrap();
        passage.set(1, 1, 0, note("E5")).unwrap();
        passage.set(1, 1, 1, note("C5")).unwrap();
        passage.set(1, 2, 0, Event::Held).unwrap();
        passage.set_length(2, Length::new(3, 2)).unwrap();
        passage.set_bar(0, BarNumber::new("66")).unwrap();
        passage.set_bar(2, BarNumber::new("67")).unwrap();
        let asked = asked(&passage).unwrap();
        assert_eq!((asked.seats.len(), asked.request.players.len()), (2, 2));
        let told =
            asked.request.notes.iter().map(|note| {
                (note.sounding.0.to_string(), note.player, note.from.quarters(), note.to.quarters())
            });
        let mut told: Vec<_> = told.collect();
        told.sort_by_key(|(name, player, ..)| (*player, name.clone()));
        let is = |name: &str, player, from, to| (name.to_owned(), Some(player), from, to);
        assert_eq!(
            told,
            [is("Eb4", 0, 0.0, 1.0), is("G4", 0, 1.0, 3.5), is("Eb4", 1, 0.0, 1.0), is("Eb4", 1, 1.0, 2.0)]
        );
        let bars: Vec<_> = asked
            .layout
            .bars
            .iter()
            .map(|bar| (bar.number.as_str(), bar.length.quarters(), bar.time))
            .collect();
        let time = |beats, value| Some(TimeSignature { beats, value });
        assert_eq!(bars, [("66", 2.0, time(2, 4)), ("67", 1.5, time(3, 8))]);
        assert_eq!(asked.layout.keys, []);
    }

    #[test]
    fn a_page_brings_the_keys_of_its_movement() {
        let mut passage = Passage::of_staff("Corno in Es");
        for column in 0..3 {
            passage.set(0, column, 0, note("C5")).unwrap();
        }
        let key = |name: &str| name.parse().unwrap();
        // A page that begins where the key changes has both at its first column.
        passage.movement = Some(key("Bb major"));
        passage.set_movement_at(0, Some(key("G minor"))).unwrap();
        passage.set_movement_at(2, Some(key("Eb major"))).unwrap();
        let keys = asked(&passage).unwrap().layout.keys;
        let told: Vec<_> = keys.iter().map(|(from, key)| (from.quarters(), key.to_string())).collect();
        assert_eq!(told, [(0.0, "G minor".to_owned()), (2.0, "Eb major".to_owned())]);
    }

    #[test]
    fn a_page_without_horns_asks_for_nothing() {
        let mut passage = Passage::of_staff("Oboi");
        passage.set(0, 0, 0, note("C5")).unwrap();
        assert_eq!(asked(&passage), None);
    }
}
