//! What a voice of a staff has in one bar, in the order in which it is written.

use super::is_short;
use super::lengths::{self, Value};
use crookwise_score::printed::beams::{Beamed, by_the_beat};
use crookwise_score::score::{Bar, Beams, Direction, Mark, PartStaff, Quarters, ScoreNote, TimeSignature};
use crookwise_theory::Printed;
use crookwise_theory::order::put_in_order;

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
    put_in_order(&mut all, |timed| timed.at);
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
    /// When it begins, from the beginning of the bar.
    at: Quarters,
    /// The values that make up its length, each with its beams.
    values: Vec<(Value, Beams)>,
    /// Whether it is tied from the note before, and to the next.
    tied: (bool, bool),
    /// Whether the sign of the stopped horn stands over it.
    is_stopped: bool,
    /// Whether it is a rest that fills its bar.
    is_whole_bar: bool,
}

impl VoiceLine {
    /// Of a voice in a bar of a time signature, with what stands beside it; `None` where times cannot be reckoned.
    pub fn of(
        staff: &PartStaff,
        voice: u8,
        (bar, time): (&Bar, Option<TimeSignature>),
        beside: &[&Timed],
    ) -> Option<Self> {
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
                line.rest(voice, (now, note.start.time), (bar, time), &mut beside)?;
            }
            match note.printed {
                None => line.rest(voice, (note.start.time, note.end.time), (bar, time), &mut beside)?,
                Some(printed) => {
                    line.put_until(note.start.time, &mut beside);
                    let next = own.get(at + 1).filter(|next| next.start.time == note.end.time);
                    let goes_on = next.is_some_and(|next| next.tied && next.printed == note.printed);
                    line.0.push(Element::Sound(Sound {
                        printed: Some(printed),
                        voice,
                        at: note.start.time.minus(bar.start)?,
                        values: unbeamed(lengths::values(note.end.time.minus(note.start.time)?)),
                        tied: (note.tied, goes_on),
                        is_stopped: note.look.marks.has(Mark::Stopped),
                        is_whole_bar: false,
                    }));
                }
            }
            now = note.end.time;
        }
        if now < end {
            line.rest(voice, (now, end), (bar, time), &mut beside)?;
        }
        line.put_until(end, &mut beside);
        line.beam(time)?;
        Some(line)
    }

    /// Gives its notes the beams of print.
    fn beam(&mut self, time: Option<TimeSignature>) -> Option<()> {
        let mut all: Vec<Beamed> = Vec::new();
        for sound in self.0.iter().filter_map(Element::sound) {
            let mut at = sound.at;
            for (value, _) in &sound.values {
                let end = at.plus(value.length)?;
                all.push(Beamed { at, end, value: value.printed(), is_rest: sound.printed.is_none() });
                at = end;
            }
        }
        let mut beams = by_the_beat(&all, time).into_iter();
        for element in &mut self.0 {
            let Element::Sound(sound) = element else { continue };
            for ((_, own), beams) in sound.values.iter_mut().zip(&mut beams) {
                *own = beams;
            }
        }
        Some(())
    }

    /// A rest, cut where something stands beside it.
    fn rest<'a>(
        &mut self,
        voice: u8,
        (mut from, to): (Quarters, Quarters),
        (bar, time): (&Bar, Option<TimeSignature>),
        beside: &mut core::iter::Peekable<impl Iterator<Item = &'a Timed>>,
    ) -> Option<()> {
        loop {
            self.put_until(from, beside);
            let until = beside.peek().map_or(to, |timed| timed.at.min(to));
            let length = until.minus(from)?;
            // In an upbeat a rest is as long as it lasts.
            let is_whole_bar = length == bar.length && !is_short(bar, time);
            let values = if is_whole_bar { vec![Value::unnamed(length)] } else { lengths::values(length) };
            let at = from.minus(bar.start)?;
            let values = unbeamed(values);
            let tied = (false, false);
            let sound = Sound { printed: None, voice, at, values, tied, is_stopped: false, is_whole_bar };
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

impl Element {
    const fn sound(&self) -> Option<&Sound> {
        match self {
            Self::Sound(sound) => Some(sound),
            _ => None,
        }
    }
}

impl Sound {
    /// As elements: as many notes or rests as its length takes, notes tied.
    pub fn write(&self, divisions: i64, out: &mut String) {
        let last = self.values.len().saturating_sub(1);
        for (at, (value, beams)) in self.values.iter().enumerate() {
            let tied = (at > 0 || self.tied.0, at < last || self.tied.1);
            let is_stopped = self.is_stopped && at == 0;
            out.push_str(&self.note(value, *beams, tied, is_stopped, divisions));
        }
    }

    fn note(
        &self,
        value: &Value,
        beams: Beams,
        tied: (bool, bool),
        is_stopped: bool,
        divisions: i64,
    ) -> String {
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
        let over = if is_stopped { "<technical><stopped/></technical>" } else { "" };
        let notations = signs("tied") + over;
        let notations =
            if notations.is_empty() { notations } else { format!("<notations>{notations}</notations>") };
        format!(
            "<note>{head}<duration>{duration}</duration>{}<voice>{voice}</voice>{}{}{notations}</note>\n",
            signs("tie"),
            value.named(),
            beam(beams),
        )
    }
}

/// Beams as elements, that of the eighth note first.
fn beam(beams: Beams) -> String {
    let ways = [
        (beams.begin, "begin"),
        (beams.through, "continue"),
        (beams.end, "end"),
        (beams.hook_right, "forward hook"),
        (beams.hook_left, "backward hook"),
    ];
    let of = |number: u32| {
        let way = ways.iter().find(|(bits, _)| bits >> number & 1 == 1)?.1;
        Some(format!("<beam number=\"{}\">{way}</beam>", number + 1))
    };
    (0..u8::BITS).filter_map(of).collect()
}

/// Before their beams are known.
fn unbeamed(values: Vec<Value>) -> Vec<(Value, Beams)> {
    values.into_iter().map(|value| (value, Beams::default())).collect()
}

fn pitch(printed: Printed) -> String {
    let pitch = printed.0;
    let alter = if pitch.alter == 0 { String::new() } else { format!("<alter>{}</alter>", pitch.alter) };
    format!("<pitch><step>{}</step>{alter}<octave>{}</octave></pitch>", pitch.step.letter(), pitch.octave)
}
