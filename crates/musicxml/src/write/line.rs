//! What a voice of a staff has in one bar, in the order in which it is written.

use super::lengths::{self, Value};
use crookwise_score::score::{Bar, Direction, PartStaff, Quarters, ScoreNote};
use crookwise_theory::Printed;

/// What stands beside the notes of a staff.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Beside {
    /// Words.
    Words(String),
    /// Something changes.
    Turn,
}

/// The same with its time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Timed {
    /// When.
    pub at: Quarters,
    /// What.
    pub what: Beside,
}

/// What stands beside the notes of a staff, by its time.
pub fn beside(staff: &PartStaff) -> Vec<Timed> {
    let words = staff.directions.iter().filter_map(|told| match &told.direction {
        Direction::Words(words) => Some(Timed { at: told.at.time, what: Beside::Words(words.to_string()) }),
        _ => None,
    });
    let turns = staff.changes().iter().map(|change| Timed { at: change.at.time, what: Beside::Turn });
    let mut all: Vec<Timed> = words.chain(turns).collect();
    all.sort_by_key(|timed| timed.at);
    all
}

/// What is written, one after the other.
#[derive(Debug)]
pub struct VoiceLine(pub Vec<Element>);

/// A piece of it.
#[derive(Debug)]
pub enum Element {
    /// Words.
    Words(String),
    /// A change at a moment.
    Turn(Quarters),
    /// A note or a rest.
    Sound(Sound),
}

/// A note or a rest.
#[derive(Debug)]
pub struct Sound {
    printed: Option<Printed>,
    voice: u8,
    length: Quarters,
    /// Whether it is tied from the note before, and to the next.
    tied: (bool, bool),
    /// Whether it is a rest that fills its bar.
    is_whole_bar: bool,
}

impl VoiceLine {
    /// Of a voice in a bar, with what stands beside it; `None` where times cannot be reckoned.
    pub fn of(staff: &PartStaff, voice: u8, bar: &Bar, beside: &[&Timed]) -> Option<Self> {
        let end = bar.start.plus(bar.length)?;
        let notes = staff.notes();
        let first = notes.partition_point(|(_, note)| note.start.time < bar.start);
        let own: Vec<&ScoreNote> = notes
            .get(first..)
            .unwrap_or_default()
            .iter()
            .map(|(_, note)| note)
            .take_while(|note| note.start.time <= end)
            .filter(|note| note.voice == voice && !note.grace)
            .collect();
        let mut line = Self(Vec::new());
        let mut beside = beside.iter().copied().peekable();
        let mut now = bar.start;
        for (at, note) in own.iter().enumerate().filter(|(_, note)| note.start.time < end) {
            if now < note.start.time {
                line.rest(voice, (now, note.start.time), bar, &mut beside)?;
            }
            match note.printed {
                None => line.rest(voice, (note.start.time, note.end.time), bar, &mut beside)?,
                Some(printed) => {
                    line.put_until(note.start.time, &mut beside);
                    let next = own.get(at + 1).filter(|next| next.start.time == note.end.time);
                    let goes_on = next.is_some_and(|next| next.tied && next.printed == note.printed);
                    line.0.push(Element::Sound(Sound {
                        printed: Some(printed),
                        voice,
                        length: note.end.time.minus(note.start.time)?,
                        tied: (note.tied, goes_on),
                        is_whole_bar: false,
                    }));
                }
            }
            now = note.end.time;
        }
        if now < end {
            line.rest(voice, (now, end), bar, &mut beside)?;
        }
        line.put_until(end, &mut beside);
        Some(line)
    }

    /// A rest, cut where something stands beside it.
    fn rest<'a>(
        &mut self,
        voice: u8,
        (mut from, to): (Quarters, Quarters),
        bar: &Bar,
        beside: &mut core::iter::Peekable<impl Iterator<Item = &'a Timed>>,
    ) -> Option<()> {
        loop {
            self.put_until(from, beside);
            let until = beside.peek().map_or(to, |timed| timed.at.min(to));
            let length = until.minus(from)?;
            let is_whole_bar = length == bar.length;
            let sound = Sound { printed: None, voice, length, tied: (false, false), is_whole_bar };
            self.0.push(Element::Sound(sound));
            from = until;
            if from >= to {
                return Some(());
            }
        }
    }

    /// What stands beside the notes up to a moment.
    fn put_until<'a>(
        &mut self,
        moment: Quarters,
        beside: &mut core::iter::Peekable<impl Iterator<Item = &'a Timed>>,
    ) {
        while let Some(timed) = beside.next_if(|timed| timed.at <= moment) {
            self.0.push(match &timed.what {
                Beside::Words(words) => Element::Words(words.clone()),
                Beside::Turn => Element::Turn(timed.at),
            });
        }
    }
}

impl Sound {
    /// As elements: as many notes or rests as its length takes, notes tied.
    pub fn write(&self, divisions: i64, out: &mut String) {
        let values =
            if self.is_whole_bar { vec![Value::unnamed(self.length)] } else { lengths::values(self.length) };
        let last = values.len().saturating_sub(1);
        for (at, value) in values.iter().enumerate() {
            let tied = (at > 0 || self.tied.0, at < last || self.tied.1);
            out.push_str(&self.note(value, tied, divisions));
        }
    }

    fn note(&self, value: &Value, tied: (bool, bool), divisions: i64) -> String {
        let duration = lengths::divided(value.length, divisions);
        let voice = self.voice;
        let head = match self.printed {
            None if self.is_whole_bar => "<rest measure=\"yes\"/>".to_owned(),
            None => "<rest/>".to_owned(),
            Some(printed) => pitch(printed),
        };
        let tied = if self.printed.is_some() { tied } else { (false, false) };
        let ties = [(tied.0, "stop"), (tied.1, "start")];
        let signs = |name: &str| -> String {
            let all = ties.iter().filter(|(is, _)| *is).map(|(_, kind)| format!("<{name} type=\"{kind}\"/>"));
            all.collect()
        };
        let notations = signs("tied");
        let notations =
            if notations.is_empty() { notations } else { format!("<notations>{notations}</notations>") };
        format!(
            "<note>{head}<duration>{duration}</duration>{}<voice>{voice}</voice>{}{notations}</note>\n",
            signs("tie"),
            value.named(),
        )
    }
}

fn pitch(printed: Printed) -> String {
    let pitch = printed.0;
    let alter = if pitch.alter == 0 { String::new() } else { format!("<alter>{}</alter>", pitch.alter) };
    format!("<pitch><step>{}</step>{alter}<octave>{}</octave></pitch>", pitch.step.letter(), pitch.octave)
}
