//! Questions as plain text: the same on every machine, for comparing and for the JavaScript package.

use crate::answer::Answer;
use crate::question::{Question, QuestionSound, Spot};
use core::fmt::{self, Write};
use crookwise_score::ChangeTo;
use crookwise_score::{Cell, Event, Passage, SignatureSource, Staff};
use crookwise_theory::Pitch;

impl fmt::Display for Spot {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}.{}", self.staff, self.column, self.player)
    }
}

impl Question {
    /// Everything in it as lines of text. Equal texts are equal questions, on every machine.
    #[must_use]
    pub fn canonical(&self) -> String {
        let mut out = String::new();
        // Writing to a string cannot fail.
        let _ = self.write(&mut out);
        out
    }

    fn write(&self, out: &mut String) -> fmt::Result {
        writeln!(out, "{} at {}", self.kind.id(), self.at)?;
        write_passage(out, &self.passage)?;
        if let Some(given) = self.given {
            writeln!(out, "given {given}")?;
        }
        if let Some(hand) = &self.in_hand {
            writeln!(out, "hand {hand}")?;
        }
        writeln!(out, "right {}", self.right)?;
        for also in &self.also {
            writeln!(out, "also {also}")?;
        }
        for choice in &self.choices {
            writeln!(out, "choice {choice}")?;
        }
        match &self.heard {
            Some(QuestionSound::Page(notes)) => {
                out.write_str("heard")?;
                for played in notes {
                    write!(out, " {}={}", played.at, played.sounding)?;
                }
                out.write_char('\n')?;
            }
            Some(QuestionSound::Two { natural }) => writeln!(out, "heard natural {}", *natural as u8 + 1)?,
            None => {}
        }
        if let Some(planted) = self.planted {
            writeln!(out, "planted {}", planted.id())?;
        }
        Ok(())
    }
}

/// A passage as text: equal texts are equal passages.
pub(crate) fn passage(passage: &Passage) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    let _ = write_passage(&mut out, passage);
    out
}

fn write_passage(out: &mut String, passage: &Passage) -> fmt::Result {
    if let Some(key) = passage.movement {
        writeln!(out, "key {key}")?;
    }
    for (number, column) in passage.columns().iter().enumerate() {
        if let Some(key) = column.movement {
            writeln!(out, "key from {number} {key}")?;
        }
        if let Some(length) = column.length {
            let (above, below) = length.quarters();
            writeln!(out, "length of {number} {above}/{below}")?;
        }
    }
    for staff in passage.staves() {
        write_staff(out, staff)?;
    }
    Ok(())
}

fn write_staff(out: &mut String, staff: &Staff) -> fmt::Result {
    write!(out, "| {}", staff.label)?;
    if let Some(choice) = staff.choice {
        write!(out, "; {}", Answer::Label(choice))?;
    }
    let settings = staff.settings;
    if let Some(mechanism) = settings.mechanism {
        write!(out, "; {}", mechanism.id())?;
    }
    if let Some(clef) = settings.clef {
        write!(out, "; {clef} {}", clef.octave())?;
    }
    if let Some(bass) = settings.bass {
        write!(out, "; {}", bass.id())?;
    }
    if let Some(scheme) = settings.scheme {
        write!(out, "; {}", scheme.id())?;
    }
    if let Some(source) = settings.signature {
        write_signature(out, source)?;
    }
    if settings.at_pitch {
        out.write_str("; at pitch")?;
    }
    for (player, crook) in staff.crooks().iter().enumerate() {
        if let Some(choice) = crook {
            write!(out, "; player {player} {}", Answer::Label(*choice))?;
        }
    }
    for change in staff.changes() {
        write!(out, "; from {} ", change.column)?;
        if let Some(player) = change.player {
            write!(out, "player {player} ")?;
        }
        match &change.to {
            ChangeTo::Clef(clef) => write!(out, "{clef} {}", clef.octave())?,
            ChangeTo::Signature(source) => write_signature(out, *source)?,
            ChangeTo::Label(label) => out.write_str(label)?,
        }
    }
    out.write_str(" |")?;
    for cell in staff.cells() {
        match cell {
            Cell::Together(event) => {
                out.write_str(" ")?;
                write_event(out, *event)?;
                if staff.players() > 1 && cell.is_together() {
                    out.write_str("*")?;
                }
            }
            Cell::Each(events) => {
                for (player, event) in events.iter().enumerate() {
                    out.write_str(if player == 0 { " " } else { "+" })?;
                    write_event(out, *event)?;
                }
            }
        }
    }
    out.write_char('\n')
}

fn write_signature(out: &mut String, source: SignatureSource) -> fmt::Result {
    match source {
        SignatureSource::None => out.write_str("; no signature"),
        SignatureSource::Movement => out.write_str("; signature of the movement"),
        SignatureSource::Typed(signature) => write!(out, "; signature {}", signature.0),
    }
}

fn write_event(out: &mut String, event: Event) -> fmt::Result {
    match event {
        Event::Note(printed) => write_note(out, printed.0),
        Event::Held => out.write_str("_"),
        Event::Rest => out.write_str("-"),
    }
}

fn write_note(out: &mut String, note: Pitch) -> fmt::Result {
    write!(out, "{note}")
}
