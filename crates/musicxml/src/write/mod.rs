//! A score that came from no file is written as MusicXML 4.0: its staves as parts by themselves, each with its label, clef,
//! transposition and voices, the words over it, bars, times, the beams that print would have, and the sign of stopped notes; and
//! the movement's keys. What such a score does not have, such as slurs, is not written.

mod lengths;
mod line;

use crate::movement_keys;
use core::fmt;
use crookwise_score::resolve::Decoder;
use crookwise_score::score::{Bar, Moment, PartStaff, Quarters, Score, StaffCourse, TimeSignature};
use crookwise_theory::order::put_in_order;
use crookwise_theory::{Clef, ClefSign, Transposition};
use line::{Timed, VoiceLine};

/// Why a score is not written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WriteError {
    /// It has no bars, or no staff.
    NoMusic,
    /// Its lengths are too fine to be counted in whole divisions of a quarter note.
    TooFine,
}

impl fmt::Display for WriteError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoMusic => f.write_str("There is no music to be written"),
            Self::TooFine => f.write_str("These lengths are too fine to be written"),
        }
    }
}

impl core::error::Error for WriteError {}

/// Divisions of a quarter note, at most: what a whole number of 32 bits still counts over many bars.
const MOST_DIVISIONS: i64 = 1 << 24;

/// Writes a score as MusicXML in UTF-8, its labels read by `decoder`.
///
/// # Errors
/// Where there is nothing to write, or lengths are too fine.
pub fn write(score: &Score, decoder: &mut Decoder<'_>) -> Result<String, WriteError> {
    if score.bars().is_empty() || score.staves().next().is_none() {
        return Err(WriteError::NoMusic);
    }
    let divisions = divisions(score).ok_or(WriteError::TooFine)?;
    let mut out = String::from(HEAD);
    if !score.title.is_empty() {
        out.push_str(&format!("<work><work-title>{}</work-title></work>\n", escaped(&score.title)));
    }
    let keys = movement_keys::text(score);
    if !keys.is_empty() {
        out.push_str(&format!(
            "<identification><miscellaneous><miscellaneous-field name=\"{}\">{keys}</miscellaneous-field></miscellaneous></identification>\n",
            movement_keys::NAME
        ));
    }
    out.push_str("<part-list>\n");
    for (number, staff) in score.staves().enumerate() {
        let label = escaped(&staff.label);
        out.push_str(&format!(
            "<score-part id=\"P{0}\"><part-name>{label}</part-name></score-part>\n",
            number + 1
        ));
    }
    out.push_str("</part-list>\n");
    for (number, staff) in score.staves().enumerate() {
        out.push_str(&format!("<part id=\"P{}\">\n", number + 1));
        let course = StaffCourse::of(score, staff, decoder);
        PartWriter { staff, course, divisions, out: &mut out }.bars(score.bars())?;
        out.push_str("</part>\n");
    }
    out.push_str("</score-partwise>\n");
    Ok(out)
}

const HEAD: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"no\"?>\n\
    <!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" \
    \"http://www.musicxml.org/dtds/partwise.dtd\">\n\
    <score-partwise version=\"4.0\">\n";

/// So many divisions of a quarter note that every time of the score is whole; `None` for too many.
fn divisions(score: &Score) -> Option<i64> {
    let bars = score.bars().iter().map(|bar| bar.length);
    let notes =
        score.staves().flat_map(PartStaff::notes).flat_map(|(_, note)| [note.start.time, note.end.time]);
    let others = score.staves().flat_map(|staff| staff.directions.iter().map(|told| told.at.time));
    let changes = score.staves().flat_map(|staff| staff.changes().iter().map(|change| change.at.time));
    bars.chain(notes).chain(others).chain(changes).try_fold(1, |divisions, time| {
        let (_, below) = time.fraction();
        let all = below.checked_mul(divisions)?.checked_div(gcd(below, divisions))?;
        (all <= MOST_DIVISIONS).then_some(all)
    })
}

const fn gcd(mut a: i64, mut b: i64) -> i64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// Writes a staff as a part.
struct PartWriter<'a> {
    staff: &'a PartStaff,
    course: StaffCourse,
    divisions: i64,
    out: &'a mut String,
}

impl PartWriter<'_> {
    fn bars(&mut self, bars: &[Bar]) -> Result<(), WriteError> {
        let mut transposition = self.transposition(Moment::measured(Quarters::ZERO));
        let mut beside: Vec<Timed> = line::beside(self.staff);
        // The beginning is told with the first bar.
        beside.retain(|timed| !matches!(timed.what, line::Beside::Turn) || timed.at > Quarters::ZERO);
        let mut time = None;
        for (number, bar) in bars.iter().enumerate() {
            time = bar.time.or(time);
            let implicit = if is_short(bar, time) { " implicit=\"yes\"" } else { "" };
            self.out.push_str(&format!("<measure number=\"{}\"{implicit}>\n", escaped(&bar.number)));
            let first = (number == 0).then_some(transposition);
            self.attributes(first, bar);
            let end = bar.start.plus(bar.length).ok_or(WriteError::TooFine)?;
            let own: Vec<&Timed> =
                beside.iter().filter(|timed| bar.start <= timed.at && timed.at < end).collect();
            for (at, voice) in self.voices().into_iter().enumerate() {
                if at > 0 {
                    self.out.push_str(&format!("<backup>{}</backup>\n", self.duration(bar.length)));
                }
                let own = if at == 0 { own.as_slice() } else { &[] };
                let line = VoiceLine::of(self.staff, voice, (bar, time), own).ok_or(WriteError::TooFine)?;
                self.line(&line, &mut transposition);
            }
            self.out.push_str("</measure>\n");
        }
        Ok(())
    }

    /// The voices of the staff, from the first on; one at least.
    fn voices(&self) -> Vec<u8> {
        let mut voices: Vec<u8> = self.staff.notes().iter().map(|(_, note)| note.voice).collect();
        put_in_order(&mut voices, |voice| *voice);
        voices.dedup();
        if voices.is_empty() { vec![1] } else { voices }
    }

    /// Divisions, time and clef, where a bar tells them.
    fn attributes(&mut self, first: Option<Transposition>, bar: &Bar) {
        let mut all = String::new();
        if first.is_some() {
            all.push_str(&format!("<divisions>{}</divisions>", self.divisions));
        }
        if let Some(time) = bar.time {
            let (beats, value) = (time.beats, time.value);
            all.push_str(&format!("<time><beats>{beats}</beats><beat-type>{value}</beat-type></time>"));
        }
        if let Some(transposition) = first {
            all.push_str(&clef(self.staff.settings.clef.unwrap_or(Clef::TREBLE)));
            all.push_str(&transpose(transposition));
        }
        if !all.is_empty() {
            self.out.push_str(&format!("<attributes>{all}</attributes>\n"));
        }
    }

    fn line(&mut self, line: &VoiceLine, transposition: &mut Transposition) {
        for piece in &line.0 {
            match piece {
                line::Element::Words(words) => self.out.push_str(&format!(
                    "<direction placement=\"above\"><direction-type><words>{}</words></direction-type></direction>\n",
                    escaped(words)
                )),
                line::Element::Turn(at) => {
                    let now = self.transposition(Moment::measured(*at));
                    if now != *transposition {
                        *transposition = now;
                        self.out.push_str(&format!("<attributes>{}</attributes>\n", transpose(now)));
                    }
                }
                line::Element::Sound(sound) => sound.write(self.divisions, self.out),
            }
        }
    }

    fn transposition(&self, at: Moment) -> Transposition {
        self.course.place_at(at, 0).map_or(Transposition::NONE, |place| place.staff.transposition)
    }

    fn duration(&self, length: Quarters) -> String {
        format!("<duration>{}</duration>", lengths::divided(length, self.divisions))
    }
}

/// Whether a bar is shorter than its time signature, as upbeats are: who reads the file shall not look for what is missing.
fn is_short(bar: &Bar, time: Option<TimeSignature>) -> bool {
    let whole = time.and_then(|time| Quarters::new(i64::from(time.beats) * 4, i64::from(time.value)));
    whole.is_some_and(|whole| bar.length < whole)
}

fn clef(clef: Clef) -> String {
    let sign = match clef.sign {
        ClefSign::G => "G",
        ClefSign::F => "F",
        ClefSign::C => "C",
    };
    format!("<clef><sign>{sign}</sign><line>{}</line></clef>", clef.line())
}

fn transpose(transposition: Transposition) -> String {
    let numbers = transposition.to_musicxml();
    let (diatonic, chromatic, octaves) = (numbers.diatonic, numbers.chromatic, numbers.octave_change);
    let octaves =
        if octaves == 0 { String::new() } else { format!("<octave-change>{octaves}</octave-change>") };
    format!(
        "<transpose><diatonic>{diatonic}</diatonic><chromatic>{chromatic}</chromatic>{octaves}</transpose>"
    )
}

fn escaped(text: &str) -> String {
    quick_xml::escape::escape(text).into_owned()
}
