//! The record as text, for the device and for a backup, and back.
//!
//! A line an entry: its fields parted by spaces, whole numbers throughout, and last four hexadecimal digits of checksum
//! over what stands before. Staves and items are named once and numbered. A line that is damaged, or speaks of
//! something damaged, is left out and counted; the others are kept.

use super::attempt::{Attempt, Counts, LONGEST_MS, Subject};
use super::item::{Item, StaffKey};
use super::log::{Log, Record};
use super::memory::Memory;
use super::zone::Zone;
use crate::kind::Kind;
use crate::mistake::Mistake;
use core::fmt;
use core::fmt::Write;
use crc::{CRC_16_IBM_SDLC, Crc, NoTable};
use crookwise_theory::{BassNotation, Clef, Instrument, Scheme, Tonic};

/// The version written where labels are noted.
const VERSION: u32 = 3;
/// The version written where a pair stands in two crooks; the first version has no words for that.
const PAIRS: u32 = 2;
/// The version written otherwise, so that a window with an older program goes on.
const FIRST: u32 = 1;
const HEAD: &str = "crookwise record";
/// Lines of the longest text that is read.
const MOST_LINES: usize = 50_000;
/// The furthest a note may lie from C on the line of fifths.
const FURTHEST: i32 = 35;
const CHECK: Crc<u16, NoTable> = Crc::<u16, NoTable>::new(&CRC_16_IBM_SDLC);

/// A record that was read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ReadRecord {
    /// What could be read.
    pub record: Record,
    /// Entries that could not.
    pub damaged: usize,
}

/// Why a text is no record at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RecordError {
    /// It does not begin as a record does.
    NoRecord,
    /// A newer version wrote it.
    Newer,
}

impl fmt::Display for RecordError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoRecord => "This is no record of practice",
            Self::Newer => "A newer version wrote this record of practice: load the page anew",
        })
    }
}

impl core::error::Error for RecordError {}

impl Record {
    /// The record as text, with times of UTC; `zone` is the reader's clock.
    #[must_use]
    pub fn to_text(&self, zone: Zone) -> String {
        let pairs = self.items().any(|item| item.second.is_some());
        let version = match (self.met.is_empty(), pairs) {
            (false, _) => VERSION,
            (true, true) => PAIRS,
            (true, false) => FIRST,
        };
        let mut out = Writing { text: format!("{HEAD} {version}\n"), staves: Vec::new(), items: Vec::new() };
        for (item, memory) in self.folded.iter() {
            let item = out.item(item);
            out.line(format_args!("m {item} {} {} {}", zone.utc(memory.at), memory.days, memory.ease));
        }
        for (staff, labels) in self.met.iter() {
            let staff = out.staff(*staff);
            for (at, label) in labels {
                out.line(format_args!("n {staff} {} {label}", zone.utc(*at)));
            }
        }
        for (source, log) in self.logs.iter() {
            if log.folded > 0 {
                out.line(format_args!("f {source} {}", log.folded));
            }
            for ((week, subject), counts) in log.sums.iter() {
                let subject = out.subject(subject);
                let Counts { asked, right, fluent } = counts;
                out.line(format_args!("s {source} {week} {subject} {asked} {right} {fluent}"));
            }
            for (number, attempt) in log.open.iter() {
                let item = out.item(&attempt.item);
                let [first, second] = attempt.mistakes.map(|one| one.map_or(0, Mistake::code));
                let right = u8::from(attempt.right);
                let (at, ms) = (zone.utc(attempt.at), attempt.ms);
                out.line(format_args!("a {source} {number} {at} {item} {right} {first} {second} {ms}"));
            }
        }
        out.text
    }

    /// Every item it speaks of; some more than once.
    fn items(&self) -> impl Iterator<Item = &Item> {
        let open = self.logs.values().flat_map(|log| log.open.values().map(|attempt| &attempt.item));
        self.folded.keys().chain(open)
    }

    /// Reads a record; its times become those of the reader's clock.
    ///
    /// # Errors
    /// Where the text is none, or a newer version's.
    pub fn from_text(text: &str, zone: Zone) -> Result<ReadRecord, RecordError> {
        let mut lines = text.lines();
        let head = lines.next().and_then(|line| line.strip_prefix(HEAD)).ok_or(RecordError::NoRecord)?;
        match head.trim().parse::<u32>() {
            Ok(FIRST..=VERSION) => {}
            Ok(0) | Err(_) => return Err(RecordError::NoRecord),
            Ok(_) => return Err(RecordError::Newer),
        }
        let mut reading = Reading { zone, ..Reading::default() };
        let mut damaged = 0;
        for (number, line) in lines.enumerate() {
            let read = number < MOST_LINES && checked(line).is_some_and(|line| reading.line(line).is_some());
            damaged += usize::from(!read && !line.is_empty());
        }
        reading.record.trim();
        Ok(ReadRecord { record: reading.record, damaged })
    }
}

/// The text in the making, with the staves and items named so far.
struct Writing {
    text: String,
    staves: Vec<StaffKey>,
    items: Vec<Item>,
}

impl Writing {
    fn line(&mut self, fields: fmt::Arguments<'_>) {
        let start = self.text.len();
        // Writing to a string cannot fail.
        let _ = self.text.write_fmt(fields);
        let check = CHECK.checksum(self.text.get(start..).unwrap_or_default().as_bytes());
        let _ = writeln!(self.text, " {check:04x}");
    }

    fn staff(&mut self, staff: StaffKey) -> usize {
        if let Some(known) = self.staves.iter().position(|known| *known == staff) {
            return known;
        }
        let StaffKey { instrument, steps, semitones, clef, bass, scheme } = staff;
        let (bass, scheme) = (bass.map_or("-", BassNotation::id), scheme.map_or("-", Scheme::id));
        let number = self.staves.len();
        let octave = clef.octave();
        let clef = clef.without_octave();
        self.line(format_args!(
            "t {number} {instrument} {steps} {semitones} {clef} {octave} {bass} {scheme}"
        ));
        self.staves.push(staff);
        number
    }

    fn item(&mut self, item: &Item) -> usize {
        if let Some(known) = self.items.iter().position(|known| known == item) {
            return known;
        }
        let staff = self.staff(item.staff);
        let second = item.second.map(|second| self.staff(second));
        let number = self.items.len();
        let kind = item.kind.code();
        if let Some(second) = second {
            self.line(format_args!("p {number} {kind} {staff} {second}"));
            self.items.push(*item);
            return number;
        }
        match item.note {
            Some(note) => self.line(format_args!("i {number} {kind} {staff} {}", note.fifths())),
            None => self.line(format_args!("i {number} {kind} {staff} -")),
        }
        self.items.push(*item);
        number
    }

    fn subject(&mut self, subject: &Subject) -> String {
        match subject {
            Subject::Staff(staff) => format!("t {}", self.staff(*staff)),
            Subject::Note(note) => format!("n {}", note.fifths()),
            Subject::Kind(kind) => format!("k {}", kind.code()),
            Subject::Mistake(mistake) => format!("m {}", mistake.code()),
        }
    }
}

/// A line without its checksum, where that fits.
fn checked(line: &str) -> Option<&str> {
    let (fields, check) = line.rsplit_once(' ')?;
    let fits = check.len() == 4 && u16::from_str_radix(check, 16).ok()? == CHECK.checksum(fields.as_bytes());
    fits.then_some(fields)
}

#[derive(Default)]
struct Reading {
    zone: Zone,
    record: Record,
    /// Staves and items by their number.
    staves: Vec<(usize, StaffKey)>,
    items: Vec<(usize, Item)>,
}

/// The fields of a line.
struct Line<'a>(core::str::Split<'a, char>);

impl Line<'_> {
    fn number<T: core::str::FromStr>(&mut self) -> Option<T> {
        self.0.next()?.parse().ok()
    }

    fn end(&mut self) -> Option<()> {
        self.0.next().is_none().then_some(())
    }
}

impl Reading {
    /// Takes in a line; `None` where it says nothing sensible.
    fn line(&mut self, text: &str) -> Option<()> {
        let mut fields = text.split(' ');
        let what = fields.next()?;
        let mut line = Line(fields);
        match what {
            "t" => {
                let number = line.number()?;
                let instrument = Instrument::by_id(line.0.next()?)?.id;
                let (steps, semitones) = (line.number()?, line.number()?);
                let clef: Clef = line.number()?;
                let clef = Clef::new(clef.sign, clef.line(), line.number()?).ok()?;
                let bass = match line.0.next()? {
                    "-" => None,
                    id => {
                        Some([BassNotation::Old, BassNotation::New].into_iter().find(|one| one.id() == id)?)
                    }
                };
                let scheme = match line.0.next()? {
                    "-" => None,
                    id => Some(id.parse().ok()?),
                };
                line.end()?;
                self.staves.push((number, StaffKey { instrument, steps, semitones, clef, bass, scheme }));
            }
            "i" => {
                let number = line.number()?;
                let kind = Kind::from_code(line.number()?)?;
                let staff = self.staff(&mut line)?;
                let note = match line.0.next()? {
                    "-" => None,
                    fifths => Some(note(fifths.parse().ok()?)?),
                };
                line.end()?;
                self.items.push((number, Item { kind, staff, note, second: None }));
            }
            "p" => {
                let number = line.number()?;
                let kind = Kind::from_code(line.number()?)?;
                let (staff, second) = (self.staff(&mut line)?, self.staff(&mut line)?);
                line.end()?;
                self.items.push((number, Item { kind, staff, note: None, second: Some(second) }));
            }
            "n" => {
                let staff = self.staff(&mut line)?;
                let at = self.zone.shown(line.number()?);
                let label: Vec<&str> = line.0.collect();
                self.record.meet(staff, at, &label.join(" "));
            }
            "m" => {
                let item = self.item(&mut line)?;
                let (at, days, ease) = (self.zone.shown(line.number()?), line.number()?, line.number()?);
                line.end()?;
                self.record.folded.insert(item, Memory { at, days, ease });
            }
            "f" => {
                let (source, folded): (u32, u32) = (line.number()?, line.number()?);
                line.end()?;
                let log = self.record.logs.entry(source, Log::default);
                log.folded = folded;
            }
            "s" => {
                let (source, week): (u32, u32) = (line.number()?, line.number()?);
                let subject = self.subject(&mut line)?;
                let counts = Counts { asked: line.number()?, right: line.number()?, fluent: line.number()? };
                line.end()?;
                let sensible = counts.fluent <= counts.right && counts.right <= counts.asked;
                sensible.then_some(())?;
                self.record.logs.entry(source, Log::default).sums.insert((week, subject), counts);
            }
            "a" => {
                let (source, number): (u32, u32) = (line.number()?, line.number()?);
                let at = self.zone.shown(line.number()?);
                let item = self.item(&mut line)?;
                let right = match line.0.next()? {
                    "0" => false,
                    "1" => true,
                    _ => return None,
                };
                let mut mistake = || match line.number::<u8>()? {
                    0 => Some(None),
                    code => Mistake::from_code(code).map(Some),
                };
                let mistakes = [mistake()?, mistake()?];
                let ms = line.number().filter(|ms| *ms <= LONGEST_MS)?;
                line.end()?;
                let log = self.record.logs.entry(source, Log::default);
                log.open.insert(number, Attempt { at, item, right, mistakes, ms });
            }
            _ => return None,
        }
        Some(())
    }

    fn staff(&self, line: &mut Line<'_>) -> Option<StaffKey> {
        let number: usize = line.number()?;
        self.staves.iter().find(|(known, _)| *known == number).map(|(_, staff)| *staff)
    }

    fn item(&self, line: &mut Line<'_>) -> Option<Item> {
        let number: usize = line.number()?;
        self.items.iter().find(|(known, _)| *known == number).map(|(_, item)| *item)
    }

    fn subject(&self, line: &mut Line<'_>) -> Option<Subject> {
        Some(match line.0.next()? {
            "t" => Subject::Staff(self.staff(line)?),
            "n" => Subject::Note(note(line.number()?)?),
            "k" => Subject::Kind(Kind::from_code(line.number()?)?),
            "m" => Subject::Mistake(Mistake::from_code(line.number()?)?),
            _ => return None,
        })
    }
}

fn note(fifths: i32) -> Option<Tonic> {
    (fifths.abs() <= FURTHEST).then(|| Tonic::from_fifths(fifths))
}
