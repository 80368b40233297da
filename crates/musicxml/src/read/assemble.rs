//! The score of what was read: bars in line over all parts, times from the beginning.

use super::raw::{RawBar, RawChange, RawCounts, RawItem, RawNote, RawPart, RawScore, RawTime, RawTranspose};
use crate::changes::{self, Unheeded};
use crate::labels::{self, Named};
use crate::remark::{Oddity, Remarks};
use crate::who_plays;
use crookwise_score::score::{
    BarLine, BarSigns, Direction, Moment, PartGroup, PartId, PlayedBy, Quarters, Score, ScoreNote, StaffId,
    TimeSignature, TimedChange, TimedDirection, Told,
};
use crookwise_score::{ChangeTo, MOST_PLAYERS, SignatureSource};
use crookwise_theory::key::Mode;
use crookwise_theory::order::put_in_order;
use crookwise_theory::{BassNotation, Key, MusicXmlTranspose, Printed, Signature, Tonic, Transposition};
use std::collections::BTreeMap;
use std::sync::Arc;

/// A score and what its parts are.
#[derive(Debug)]
pub(crate) struct Assembled {
    pub score: Score,
    /// For each part of the file its number in the score, what was counted of it, its bars, and which of its notes have a
    /// pitch.
    pub parts: Vec<(PartId, RawCounts, usize, Vec<bool>)>,
    /// Words for another crook that the file does not heed.
    pub unheeded: Vec<Unheeded>,
}

/// Makes a score.
pub(crate) fn assemble(raw: RawScore, remarks: &mut Remarks) -> Assembled {
    let mut score = Score::default();
    score.title = raw.heading.title().as_str().into();
    score.composer = raw.heading.composer.as_str().into();
    let starts = bars(&mut score, &raw.parts);
    let mut keys = Keys::default();
    let mut parts = Vec::new();
    let mut unheeded = Vec::new();
    for (at, mut part) in raw.parts.into_iter().enumerate() {
        let (counts, bars, pitched) = (part.counts, part.bars.len(), core::mem::take(&mut part.pitched));
        let named = Named::of(&part.name);
        let id = score.add_part(&part.name);
        let staves = Staves::new(&mut score, id, &part, &named);
        fill(&mut score, &staves, part, &starts, (&named, at), &mut keys, remarks);
        // Of a part whose music is missing the file says nothing.
        for staff in staves.ids.iter().filter(|_| bars > 0) {
            if let Some(staff) = score.staff_mut(*staff) {
                labels::settle(staff, &named, raw.at_pitch, at, remarks);
            }
            unheeded.extend(changes::settle(&mut score, *staff, &named, at, remarks));
            who_plays::settle(&mut score, *staff, &named);
        }
        parts.push((id, counts, bars, pitched));
    }
    for group in raw.groups {
        if let (Some((from, ..)), Some((to, ..))) = (parts.get(group.from), parts.get(group.to)) {
            let name = group.name.as_str().into();
            score.groups.push(PartGroup { from: *from, to: *to, name, sign: group.sign });
        }
    }
    if raw.keys.is_empty() || keys.any_as_written() {
        keys.settle(&mut score);
        score.find_modes();
    } else {
        raw.keys.iter().for_each(|(from, key)| score.set_key(*from, *key));
    }
    Assembled { score, parts, unheeded }
}

/// The bars of all parts laid in line: each is as long as the longest of them; gives when each begins.
fn bars(score: &mut Score, parts: &[RawPart]) -> Vec<Quarters> {
    let count = parts.iter().map(|part| part.bars.len()).max().unwrap_or(0);
    let mut starts = Vec::with_capacity(count);
    let mut time = TimeSignature { beats: 4, value: 4 };
    for bar in 0..count {
        let all: Vec<&RawBar> = parts.iter().filter_map(|part| part.bars.get(bar)).collect();
        let told = all.iter().find_map(|bar| bar.time);
        time = told.unwrap_or(time);
        let longest = all.iter().map(|bar| bar.length).max().filter(|length| *length > Quarters::ZERO);
        let nominal =
            Quarters::new(i64::from(time.beats) * 4, i64::from(time.value)).unwrap_or(Quarters::whole(4));
        let number = all.first().map_or_else(Arc::default, |bar| Arc::clone(&bar.number));
        starts.push(score.end());
        // A bar whose end cannot be reckoned is one of a file that is broken in its numbers: it has its nominal length.
        if score.add_bar(&number, longest.unwrap_or(nominal), told).is_err() {
            let _ = score.add_bar(&number, nominal, told);
        }
        if let Some(signs) = score.bar_mut(bar) {
            *signs = joined(&all);
        }
    }
    starts
}

/// What all parts say of a bar; repeats often stand in the first one alone.
fn joined(bars: &[&RawBar]) -> BarSigns {
    let mut signs = BarSigns::default();
    for bar in bars {
        let own = &bar.signs;
        signs.repeat_from |= own.repeat_from;
        signs.repeat_to = signs.repeat_to.or(own.repeat_to);
        signs.ending = signs.ending.or_else(|| own.ending.clone());
        signs.ending_ends |= own.ending_ends;
        if signs.line == BarLine::Thin {
            signs.line = own.line;
        }
        for jump in &own.jumps {
            if !signs.jumps.contains(jump) {
                signs.jumps.push(*jump);
            }
        }
        // Rests together and repeated figures belong to single parts, and are kept where all have them.
        signs.rests_together = signs.rests_together.max(own.rests_together);
        signs.like_before = signs.like_before.max(own.like_before);
    }
    let all = |of: fn(&BarSigns) -> u16| bars.iter().all(|bar| of(&bar.signs) > 0);
    if !all(|signs| signs.rests_together) {
        signs.rests_together = 0;
    }
    if !all(|signs| signs.like_before) {
        signs.like_before = 0;
    }
    signs
}

/// The staves of a part, from the top.
struct Staves {
    ids: Vec<StaffId>,
}

impl Staves {
    fn new(score: &mut Score, part: PartId, raw: &RawPart, named: &Named) -> Self {
        let players = named.players().clamp(1, MOST_PLAYERS);
        let mut ids = Vec::new();
        for _ in 0..raw.staves.max(1) {
            let Ok(id) = score.add_staff(part, &raw.name, players) else { continue };
            if let Some(staff) = score.staff_mut(id) {
                // Files have the pitches that their own transposition makes sound: old bass-clef notation is found apart.
                staff.settings.bass = Some(BassNotation::New);
            }
            ids.push(id);
        }
        Self { ids }
    }

    /// A staff by its number in the file, from 1; those beyond are the last.
    fn get(&self, number: u8) -> Option<StaffId> {
        let at = usize::from(number.max(1)) - 1;
        self.ids.get(at).or(self.ids.last()).copied()
    }

    /// The staves a change is for.
    fn of(&self, number: Option<u8>) -> Vec<StaffId> {
        match number {
            Some(number) => self.get(number).into_iter().collect(),
            None => self.ids.clone(),
        }
    }
}

/// Puts what was read of a part where it belongs.
fn fill(
    score: &mut Score,
    staves: &Staves,
    part: RawPart,
    starts: &[Quarters],
    (named, at): (&Named, usize),
    keys: &mut Keys,
    remarks: &mut Remarks,
) {
    let time =
        |at: RawTime| -> Option<Quarters> { starts.get(usize::try_from(at.bar).ok()?)?.plus(at.offset) };
    // Of each kind the first change of a staff that stands at the very beginning is how the staff begins.
    let mut begun: Vec<(StaffId, ChangeSeen)> = Vec::new();
    let mut notes: Vec<(StaffId, ScoreNote)> = Vec::new();
    // Files tell a transposition behind the key that is written for it.
    let mut signed: Vec<(StaffId, Quarters, i32, Option<bool>)> = Vec::new();
    let mut changes = 0;
    for item in part.items {
        match item {
            RawItem::Note(note) => {
                let placed = time(note.at).and_then(|from| score_note(&note, from));
                notes.extend(staves.get(note.staff).zip(placed));
            }
            RawItem::Direction { at, staff, direction } => {
                let Some((from, staff)) = time(at).zip(staves.get(staff)) else { continue };
                let grace = matches!(direction, Direction::Words(_) | Direction::Dynamic(_)) && at.graces > 0;
                let at = if grace { Moment::without_length(from, at.graces) } else { Moment::measured(from) };
                if let Some(staff) = score.staff_mut(staff) {
                    staff.directions.push(TimedDirection { at, direction });
                }
            }
            RawItem::Change { at: when, staff, to } => {
                let Some(from) = time(when) else { continue };
                changes += 1;
                if changes > MOST_CHANGES {
                    remarks.add(Oddity::TooManyChanges, Some(at), &Arc::default());
                    continue;
                }
                for staff in staves.of(staff) {
                    let seen = (staff, ChangeSeen::of(to));
                    let first = from == Quarters::ZERO && !begun.contains(&seen);
                    if first {
                        begun.push(seen);
                    }
                    let moment = Moment::without_length(from, when.graces);
                    change(score, staff, (moment, first), to, named, at, remarks);
                    if let RawChange::Key(fifths, minor) = to {
                        signed.push((staff, from, fifths, minor));
                    }
                }
            }
        }
    }
    // What has no place in time was left out above: each of these has one.
    let _ = score.add_notes(notes);
    for staff in &staves.ids {
        if let Some(staff) = score.staff_mut(*staff) {
            put_in_order(&mut staff.directions, |told| told.at);
            put_in_order(&mut staff.told, |told| told.at);
        }
    }
    for (staff, from, fifths, minor) in signed {
        let told = score.staff(staff).and_then(|own| own.told_at(Moment::measured(from)));
        keys.add(from, fifths, minor, told.map_or(Transposition::NONE, |told| told.transposition));
    }
}

/// Changes of clef, key and transposition in one part, at most. The longest movements have some hundreds.
const MOST_CHANGES: usize = 5000;

/// The kinds of change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum ChangeSeen {
    Clef,
    Key,
    Transpose,
}

impl ChangeSeen {
    const fn of(change: RawChange) -> Self {
        match change {
            RawChange::Clef(_) => Self::Clef,
            RawChange::Key(..) => Self::Key,
            RawChange::Transpose(_) => Self::Transpose,
        }
    }
}

/// A note in its time; `None` where that cannot be reckoned.
fn score_note(note: &RawNote, from: Quarters) -> Option<ScoreNote> {
    let (start, end) = if note.grace {
        let order = note.at.graces;
        (Moment::without_length(from, order), Moment::without_length(from, order.saturating_add(1)))
    } else {
        (Moment::measured(from), Moment::measured(from.plus(note.length)?))
    };
    Some(ScoreNote {
        printed: note.pitch.map(Printed),
        voice: note.voice,
        by: PlayedBy::Voice,
        start,
        end,
        tied: note.tied,
        grace: note.grace,
        tuplet: note.tuplet,
        bar: note.at.bar,
        look: note.look,
    })
}

fn change(
    score: &mut Score,
    staff: StaffId,
    (moment, first): (Moment, bool),
    to: RawChange,
    named: &Named,
    part: usize,
    remarks: &mut Remarks,
) {
    let Some(own) = score.staff_mut(staff) else { return };
    // A change begins with what it stands before: a note with a length, as a rule.
    let at = Moment::measured(moment.time);
    match to {
        RawChange::Clef(clef) if first => own.settings.clef = Some(clef),
        RawChange::Key(fifths, _) if first => {
            own.settings.signature = Some(SignatureSource::Typed(Signature(fifths)));
        }
        RawChange::Clef(clef) => {
            let _ = score.change(staff, TimedChange { at, player: None, to: ChangeTo::Clef(clef) });
        }
        RawChange::Key(fifths, _) => {
            let to = ChangeTo::Signature(SignatureSource::Typed(Signature(fifths)));
            let _ = score.change(staff, TimedChange { at, player: None, to });
        }
        RawChange::Transpose(raw) => {
            let told = told(raw, moment, named);
            if !told.letters {
                remarks.add(Oddity::NoLetters, Some(part), &Arc::default());
            }
            own.told.push(told);
        }
    }
}

fn told(raw: RawTranspose, at: Moment, named: &Named) -> Told {
    let transposition = if raw.letters {
        Transposition::from_musicxml(raw.numbers)
    } else {
        Transposition::from_chromatic(raw.numbers.chromatic, raw.numbers.octave_change, named.transposition())
    };
    // The octaves of the file stay apart; the letters are what is left.
    let diatonic = transposition.0.steps.saturating_sub(raw.numbers.octave_change.saturating_mul(7));
    let numbers = MusicXmlTranspose { diatonic, ..raw.numbers };
    Told { at, transposition, numbers, doubled_below: raw.doubled_below, letters: raw.letters }
}

/// Keys as the parts have them, by when they begin.
#[derive(Debug, Default)]
struct Keys {
    at: BTreeMap<Quarters, Votes>,
}

/// What the staves say at one time: fifths as they sound, how many say so, and how many of these call it minor; those that sound
/// as written apart from the others.
#[derive(Debug, Default)]
struct Votes {
    as_written: BTreeMap<i32, (u32, u32)>,
    transposed: BTreeMap<i32, (u32, u32)>,
}

impl Keys {
    fn add(&mut self, time: Quarters, fifths: i32, minor: Option<bool>, told: Transposition) {
        let votes = self.at.entry(time).or_default();
        let (list, sounding) = if told.0.semitones % 12 == 0 {
            (&mut votes.as_written, fifths)
        } else {
            (&mut votes.transposed, fifths + told.fifths())
        };
        let vote = list.entry(sounding).or_default();
        vote.0 += 1;
        vote.1 += u32::from(minor == Some(true));
    }

    /// Whether a staff that sounds as it is written has a signature: it is the movement's.
    fn any_as_written(&self) -> bool {
        self.at.values().any(|votes| !votes.as_written.is_empty())
    }

    /// The movement's keys: what most of the staves say that sound as written, since natural brass prints no signature, and says
    /// that again with every crook; in a score that has none of them, what most of the others say.
    fn settle(self, score: &mut Score) {
        let mut last = None;
        let any_as_written = self.any_as_written();
        for (time, votes) in self.at {
            let most = |list: &BTreeMap<i32, (u32, u32)>| {
                let most = list.iter().max_by_key(|(_, (votes, _))| *votes);
                most.map(|(fifths, (votes, minor))| (*fifths, *minor * 2 > *votes))
            };
            let Some((fifths, minor)) =
                most(if any_as_written { &votes.as_written } else { &votes.transposed })
            else {
                continue;
            };
            let key = if minor {
                Key::new(Tonic::from_fifths(fifths + 3), Mode::Minor)
            } else {
                Key::new(Tonic::from_fifths(fifths), Mode::Major)
            };
            if last == Some(key) {
                continue;
            }
            last = Some(key);
            score.set_key(time, key);
        }
    }
}
