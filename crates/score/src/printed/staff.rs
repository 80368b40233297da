//! A row of a score as print shows it.

use super::join::join;
use super::{Made, Players, PrintedBar, PrintedEvent, PrintedNote, PrintedSign, PrintedStaff, Row, RowPitch};
use super::{beams, memory};
use crate::change::ChangeTo;
use crate::place::Place;
use crate::resolve::Decoder;
use crate::score::{
    Bar, Direction, Moment, NoteId, NoteValue, PartStaff, Quarters, Score, ScoreNote, StaffCourse,
    TimeSignature,
};
use crate::tempo::is_heading;
use crookwise_theory::{Clef, Intonation, Pitch, Signature};

/// Prints a row of a score; a staff that is not there prints nothing.
pub fn printed(score: &Score, row: &Row, intonation: Intonation, decoder: &mut Decoder<'_>) -> PrintedStaff {
    let staves: Vec<&PartStaff> = row.staves.iter().filter_map(|id| score.staff(*id)).collect();
    let mut of_each: Vec<Vec<PrintedBar>> = staves
        .iter()
        .map(|staff| Printer::of(score, staff, row.pitch, intonation, decoder).bars(score))
        .collect();
    let label = staff_label(&staves);
    let mut bars = if of_each.is_empty() { Vec::new() } else { of_each.remove(0) };
    for second in of_each {
        let mut before = None;
        for (bar, other) in bars.iter_mut().zip(second) {
            let (voices, players) = join(core::mem::take(&mut bar.voices), other.voices);
            bar.voices = voices;
            bar.players = players.filter(|now| before != Some(*now));
            before = players.or(before);
            for sign in other.signs {
                if !bar.signs.contains(&sign) {
                    bar.signs.push(sign);
                }
            }
        }
    }
    let mut time = None;
    for (bar, own) in bars.iter_mut().zip(score.bars()) {
        time = own.time.or(time);
        for voice in &mut bar.voices {
            beams::beam(voice, time);
        }
        memory::remember(bar);
    }
    PrintedStaff { label, bars }
}

/// The label of a row: that of its staff; of two what both have in common, with both numbers ("Horn 1", "Horn 2": "Horn 1, 2").
#[must_use]
pub fn staff_label(staves: &[&PartStaff]) -> String {
    match staves {
        [] => String::new(),
        [one] => one.label.to_string(),
        [one, two, ..] => pair_label(&one.label, &two.label),
    }
}

/// The label of two staves on one: what both have in common, with both numbers ("Horn 1", "Horn 2": "Horn 1, 2").
#[must_use]
pub fn pair_label(one: &str, two: &str) -> String {
    common_label(one, two)
        .unwrap_or_else(|| if one == two { one.to_owned() } else { format!("{one}, {two}") })
}

/// The label of two staves whose own differ in one word: both words ("Horn 1", "Horn 2": "Horn 1, 2").
pub(super) fn common_label(one: &str, two: &str) -> Option<String> {
    let words = |label: &str| label.split(' ').map(str::to_owned).collect::<Vec<_>>();
    let (mut first, second) = (words(one), words(two));
    let differ: Vec<usize> = (0..first.len()).filter(|at| first.get(*at) != second.get(*at)).collect();
    let &[at] = differ.as_slice() else { return None };
    if first.len() != second.len() {
        return None;
    }
    let is_number =
        |word: &str| word.chars().all(|letter| letter.is_ascii_digit() || "IVX.,".contains(letter));
    let (word, other) = (first.get_mut(at)?, second.get(at)?);
    if !is_number(word) || !is_number(other) {
        return None;
    }
    *word = format!("{}, {other}", word.trim_end_matches(','));
    Some(first.join(" "))
}

/// What prints a staff.
struct Printer<'a> {
    staff: &'a PartStaff,
    pitch: RowPitch,
    intonation: Intonation,
    course: StaffCourse,
    /// Clefs by from when they hold, the first at the beginning.
    clefs: Vec<(Quarters, Clef)>,
    /// The octaves that lines over the staff take off, by from when they hold.
    ottavas: Vec<(Quarters, i8)>,
}

impl<'a> Printer<'a> {
    fn of(
        score: &'a Score,
        staff: &'a PartStaff,
        pitch: RowPitch,
        intonation: Intonation,
        decoder: &mut Decoder<'_>,
    ) -> Self {
        let course = StaffCourse::of(score, staff, decoder);
        let beginning = Moment::without_length(Quarters::ZERO, 0);
        let usual = course.place_at(beginning, 0).map_or(Clef::TREBLE, |place| place.habits.clef);
        let mut clefs = vec![(Quarters::ZERO, staff.settings.clef.unwrap_or(usual))];
        let mut ottavas = Vec::new();
        if pitch == RowPitch::Written {
            clefs.extend(staff.changes().iter().filter_map(|change| match change.to {
                ChangeTo::Clef(clef) => Some((change.at.time, clef)),
                _ => None,
            }));
            ottavas.extend(staff.directions.iter().filter_map(|told| match told.direction {
                Direction::Ottava(octaves) => Some((told.at.time, octaves)),
                _ => None,
            }));
        }
        let mut printer = Self { staff, pitch, intonation, course, clefs, ottavas };
        if pitch == RowPitch::Sounding {
            printer.clefs = vec![(Quarters::ZERO, printer.sounding_clef())];
        }
        printer
    }

    /// Treble or bass, as what sounds stands best: the one clef of the whole row.
    fn sounding_clef(&self) -> Clef {
        let pitches: Vec<Pitch> =
            self.staff.notes().iter().filter_map(|(_, note)| self.shown(note)).collect();
        Clef::treble_or_bass(&pitches)
    }

    fn bars(&self, score: &Score) -> Vec<PrintedBar> {
        let mut bars: Vec<PrintedBar> = Vec::with_capacity(score.bars().len());
        let mut of_bar: Vec<Vec<(NoteId, &ScoreNote)>> = vec![Vec::new(); score.bars().len()];
        for (id, note) in self.staff.notes() {
            let bar = usize::try_from(note.bar).unwrap_or(usize::MAX);
            if let Some(there) = of_bar.get_mut(bar) {
                there.push((*id, note));
            }
        }
        let mut time = None;
        for (own, notes) in score.bars().iter().zip(of_bar) {
            time = own.time.or(time);
            bars.push(self.bar(own, &notes, time));
        }
        self.signs(score, &mut bars);
        bars
    }

    fn bar(&self, own: &Bar, notes: &[(NoteId, &ScoreNote)], time: Option<TimeSignature>) -> PrintedBar {
        let end = own.start.plus(own.length).unwrap_or(own.start);
        let place = self.course.place_at(Moment::measured(own.start), 0);
        let offset =
            |time: Quarters| time.minus(own.start).filter(|at| *at >= Quarters::ZERO).unwrap_or_default();
        let within =
            |(at, clef): &(Quarters, Clef)| (*at > own.start && *at < end).then(|| (offset(*at), *clef));
        let mut voices: Vec<(u8, Vec<PrintedEvent>)> = Vec::new();
        let mut graces: Vec<(u8, PrintedEvent)> = Vec::new();
        for (id, note) in notes {
            let event = self.event(*id, note, offset(note.start.time), own);
            if !voices.iter().any(|(voice, _)| *voice == note.voice) {
                voices.push((note.voice, Vec::new()));
            }
            let Some((_, voice)) = voices.iter_mut().find(|(voice, _)| *voice == note.voice) else {
                continue;
            };
            if note.grace {
                match graces.iter_mut().rev().find(|(of, _)| *of == note.voice && note.look.on_stem) {
                    Some((_, stem)) => add_to_stem(stem, event),
                    None => graces.push((note.voice, event)),
                }
                continue;
            }
            match voice.last_mut() {
                Some(last) if last.at == event.at && !last.is_rest() && !event.is_rest() => {
                    add_to_stem(last, event);
                }
                _ => {
                    let mut event = event;
                    let (own_graces, others) =
                        core::mem::take(&mut graces).into_iter().partition(|(of, _)| *of == note.voice);
                    graces = others;
                    event.graces = Vec::from_iter::<Vec<(u8, PrintedEvent)>>(own_graces)
                        .into_iter()
                        .map(|(_, grace)| grace)
                        .collect();
                    voice.push(event);
                }
            }
        }
        crookwise_theory::order::put_in_order(&mut voices, |(voice, _)| *voice);
        let plays = |voice: &Vec<PrintedEvent>| voice.iter().any(|event| !event.is_rest());
        let mut voices: Vec<Vec<PrintedEvent>> =
            voices.into_iter().map(|(_, voice)| voice).filter(|voice| !voice.is_empty()).collect();
        if voices.iter().any(plays) {
            voices.retain(plays);
        } else {
            voices = vec![vec![whole_rest(own, time)]];
        }
        PrintedBar {
            clef: self.clef_at(own.start),
            signature: match self.pitch {
                RowPitch::Written => place.map_or(Signature(0), |place| place.signature),
                RowPitch::Sounding => place.map_or(Signature(0), Place::sounding_signature),
            },
            clefs: self.clefs.iter().filter_map(within).collect(),
            voices,
            signs: Vec::new(),
            players: None,
        }
    }

    fn clef_at(&self, at: Quarters) -> Clef {
        let after = self.clefs.partition_point(|(from, _)| *from <= at);
        after.checked_sub(1).and_then(|last| self.clefs.get(last)).map_or(Clef::TREBLE, |(_, clef)| *clef)
    }

    /// The pitch at which a note stands on the row.
    fn shown(&self, note: &ScoreNote) -> Option<Pitch> {
        let printed = note.printed?;
        let off =
            self.ottavas.iter().rev().find(|(from, _)| *from <= note.start.time).map_or(0, |(_, off)| *off);
        if self.pitch == RowPitch::Written || note.look.unpitched {
            return Some(Pitch { octave: printed.0.octave.saturating_sub(i32::from(off)), ..printed.0 });
        }
        match self.course.place_of(note) {
            Some(place) if place.staff.is_pitched() => {
                Some(place.read(printed, self.intonation, None).sounding.0)
            }
            Some(_) => Some(printed.0),
            None => {
                let told = self.staff.told_at(note.start);
                let written = crookwise_theory::Written(printed.0);
                Some(told.map_or(printed.0, |told| told.transposition.to_sounding(written).0))
            }
        }
    }

    fn made(&self, note: &ScoreNote) -> Option<Made> {
        let printed = note.printed.filter(|_| !note.look.unpitched)?;
        let place = self.course.place_of(note).filter(|place| place.staff.is_pitched())?;
        let making = place.read(printed, self.intonation, None).making?;
        Some(Made {
            partial: making.partial.map(crookwise_theory::Partial::number),
            production: making.production,
            drift: making.drift,
        })
    }

    fn event(&self, id: NoteId, note: &ScoreNote, at: Quarters, bar: &Bar) -> PrintedEvent {
        let length = note.length().unwrap_or_default();
        let notes = self.shown(note).map(|pitch| PrintedNote {
            staff: self.staff.id,
            id,
            pitch,
            accidental: None,
            tied: note.tied,
            tied_on: note.look.tied_on,
            unpitched: note.look.unpitched,
            made: self.made(note),
        });
        let (value, dots) = match note.look.value {
            Some(value) => (Some(value), note.look.dots),
            None => value_of(length, note),
        };
        let fills = note.printed.is_none() && length == bar.length && at == Quarters::ZERO;
        PrintedEvent {
            at,
            length,
            value,
            dots,
            notes: notes.into_iter().collect(),
            graces: Vec::new(),
            whole_bar: note.look.whole_bar || fills,
            beams: note.look.beams,
            stem: note.look.stem.filter(|_| self.pitch == RowPitch::Written),
            tuplet: note.tuplet,
            tremolo: note.look.tremolo,
            marks: note.look.marks,
            slurs_begin: note.look.slurs_begin,
            slurs_end: note.look.slurs_end,
            cue: note.look.cue,
            slash: note.look.slash,
        }
    }

    /// What stands over and under the staff, put to its bars.
    fn signs(&self, score: &Score, bars: &mut [PrintedBar]) {
        let mut put = |at: Quarters, sign: PrintedSign| {
            let number = score.bar_at(at);
            let Some((bar, own)) = bars.get_mut(number).zip(score.bars().get(number)) else { return };
            bar.signs.push((at.minus(own.start).unwrap_or_default(), sign));
        };
        for told in &self.staff.directions {
            // Letters and headings of tempo stand over all staves.
            let skipped = match &told.direction {
                Direction::Rehearsal(_) | Direction::Tempo(_) => true,
                Direction::Words(words) => is_heading(words),
                _ => false,
            };
            if !skipped && self.pitch == RowPitch::Written {
                put(told.at.time, PrintedSign::Direction(told.direction.clone()));
            }
        }
        for change in self.staff.changes() {
            if let (ChangeTo::Label(label), RowPitch::Written) = (&change.to, self.pitch) {
                put(change.at.time, PrintedSign::Crook(label.as_str().into()));
            }
        }
    }
}

/// A rest that fills a bar.
fn whole_rest(bar: &Bar, time: Option<TimeSignature>) -> PrintedEvent {
    let wide = time.is_some_and(|time| u32::from(time.beats) >= 2 * u32::from(time.value.max(1)));
    let value = if wide { NoteValue::Breve } else { NoteValue::Whole };
    PrintedEvent { length: bar.length, value: Some(value), whole_bar: true, ..PrintedEvent::default() }
}

/// Puts the notes of an event to those that share its stem.
fn add_to_stem(stem: &mut PrintedEvent, event: PrintedEvent) {
    for note in event.notes {
        let at = stem.notes.partition_point(|other| {
            (other.pitch.diatonic(), other.pitch.alter) <= (note.pitch.diatonic(), note.pitch.alter)
        });
        stem.notes.insert(at, note);
    }
    stem.marks = stem.marks.and(event.marks);
    stem.slurs_begin = stem.slurs_begin.max(event.slurs_begin);
    stem.slurs_end = stem.slurs_end.max(event.slurs_end);
}

/// The value and dots of a length, where the score does not say.
fn value_of(length: Quarters, note: &ScoreNote) -> (Option<NoteValue>, u8) {
    let (numerator, denominator) = length.fraction();
    let (times, of) =
        note.tuplet.map_or((1, 1), |tuplet| (i64::from(tuplet.notes), i64::from(tuplet.in_time_of.max(1))));
    let (over, under) = (numerator.saturating_mul(times), denominator.saturating_mul(of).max(1));
    for value in NoteValue::ALL.into_iter().rev() {
        let (whole, part) = value.quarters();
        // With dots a note lasts (2^(n+1) - 1) / 2^n of its value.
        for dots in 0..=2_u8 {
            let (more, by) = ((1_i64 << (dots + 1)) - 1, 1_i64 << dots);
            if over.saturating_mul(part).saturating_mul(by)
                == under.saturating_mul(whole).saturating_mul(more)
            {
                return (Some(value), dots);
            }
        }
    }
    (None, 0)
}

impl Players {
    /// Whether it stands over the staff.
    #[must_use]
    pub const fn is_told(self) -> bool {
        !matches!(self, Self::Each)
    }
}
