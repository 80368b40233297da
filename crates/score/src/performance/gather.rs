//! The notes of a score as they are struck.

use super::strike::{How, Line, Natural, PlayedSound, Strike};
use super::{ACCENT, DETACHED, STACCATISSIMO, STACCATO, STRONG_ACCENT};
use crate::score::{
    Look, Mark, Moment, NoteId, PartStaff, Quarters, Score, ScoreNote, Sounded, StaffId, Tremolo, TremoloKind,
};
use crate::strength::Strengths;
use crookwise_theory::order::put_in_order;
use crookwise_theory::{Interval, Pitch, Step, Transposition, Written};

/// Strikes among which what a tied note is tied to is looked for.
const NEAR: usize = 32;

/// The strikes of every staff.
pub(super) fn lines(score: &Score, sounded: &[Sounded<'_>]) -> Vec<Line> {
    let mut own: Vec<(StaffId, Vec<&Sounded<'_>>)> = Vec::new();
    for note in sounded {
        match own.iter_mut().find(|(staff, _)| *staff == note.staff) {
            Some((_, notes)) => notes.push(note),
            None => own.push((note.staff, vec![note])),
        }
    }
    let of = |staff: StaffId| own.iter().find(|(own, _)| *own == staff).map_or(&[][..], |(_, notes)| notes);
    score.staves().map(|staff| line(score, staff, of(staff.id))).collect()
}

fn line(score: &Score, staff: &PartStaff, sounded: &[&Sounded<'_>]) -> Line {
    let strengths = Strengths::of(staff);
    let mut strikes: Vec<Strike> = Vec::new();
    let mut sounded = sounded.iter().peekable();
    // What stands at a stem stands at its first note.
    let mut stem = Look::default();
    for (id, note) in staff.notes() {
        let heard = sounded.next_if(|heard| heard.id == *id);
        let Some(printed) = note.printed.filter(|_| note.is_played()) else { continue };
        if !note.look.on_stem {
            stem = note.look;
        }
        let signs = Signs { stem, own: note.look };
        let sound = heard.map_or(PlayedSound::Unpitched(printed.0), |heard| sound(heard));
        if note.tied
            && !note.grace
            && signs.tremolo().is_none()
            && let Some(before) = tied_to(&mut strikes, note, &sound)
        {
            before.end = note.end.time;
            before.ties = before.ties.saturating_add(1);
            before.strength_end = level(strengths.before(note.end.time));
            continue;
        }
        strikes.push(strike(score, (*id, note), &signs, sound, &strengths));
    }
    graces(&mut strikes, staff);
    put_in_order(&mut strikes, |strike| strike.start);
    let mut last = Quarters::ZERO;
    let reach = strikes.iter().map(|strike| {
        last = last.max(strike.end);
        last
    });
    let reach = reach.collect();
    Line { staff: staff.id, strikes, reach }
}

/// What stands at a note: its own signs, and those of its stem.
struct Signs {
    stem: Look,
    own: Look,
}

impl Signs {
    fn tremolo(&self) -> Option<Tremolo> {
        self.own.tremolo.or(self.stem.tremolo)
    }

    fn has(&self, mark: Mark) -> bool {
        self.own.marks.has(mark) || self.stem.marks.has(mark)
    }

    /// How much of its length a note sounds.
    fn share(&self) -> f64 {
        let shorter = [
            (Mark::Staccatissimo, STACCATISSIMO),
            (Mark::Staccato, STACCATO),
            (Mark::DetachedLegato, DETACHED),
        ];
        shorter.iter().find(|(mark, _)| self.has(*mark)).map_or(1.0, |(_, share)| *share)
    }
}

/// What a note that is tied goes on from: the same sound that ends where it begins, of its own voice where there is one.
fn tied_to<'a>(strikes: &'a mut [Strike], note: &ScoreNote, sound: &PlayedSound) -> Option<&'a mut Strike> {
    let goes_on = |strike: &Strike| {
        strike.end == note.start.time
            && strike.sound_alike(sound)
            && matches!(strike.how, How::Once | How::Trill(_))
    };
    let near = strikes.len().saturating_sub(NEAR);
    let of_voice = |own: bool| {
        let fits = |strike: &Strike| goes_on(strike) && (!own || strike.voice == note.voice);
        strikes.iter().skip(near).rposition(fits).map(|at| near + at)
    };
    let at = of_voice(true).or_else(|| of_voice(false))?;
    strikes.get_mut(at)
}

impl Strike {
    /// Whether it sounds the same; how it is made does not matter.
    pub(super) fn sound_alike(&self, other: &PlayedSound) -> bool {
        match (&self.sound, other) {
            (PlayedSound::Pitched { pitch, .. }, PlayedSound::Pitched { pitch: other, .. })
            | (PlayedSound::Drum(pitch), PlayedSound::Drum(other))
            | (PlayedSound::Unpitched(pitch), PlayedSound::Unpitched(other)) => pitch == other,
            _ => false,
        }
    }
}

fn sound(heard: &Sounded<'_>) -> PlayedSound {
    if heard.is_drum {
        return PlayedSound::Drum(heard.pitch);
    }
    let natural = heard.making.map(|making| {
        let crook = Transposition(Interval::between(heard.written.0, heard.pitch));
        Natural {
            family: making.family,
            partial: making.partial,
            production: making.production,
            crook: crook.to_sounding(Written(Pitch::natural(Step::C, 4))).0,
        }
    });
    PlayedSound::Pitched { pitch: heard.pitch, natural, below: heard.doubled_below }
}

fn strike(
    score: &Score,
    (id, note): (NoteId, &ScoreNote),
    signs: &Signs,
    sound: PlayedSound,
    strengths: &Strengths,
) -> Strike {
    let (start, end) = (note.start.time, note.end.time);
    let strong = signs.has(Mark::StrongAccent) || (strengths.is_accented(start) && !note.tied);
    let accent = match (strong, signs.has(Mark::Accent) || signs.has(Mark::Stress)) {
        (true, _) => STRONG_ACCENT,
        (_, true) => ACCENT,
        _ => 0.0,
    };
    let mut strike = Strike {
        note: id,
        start,
        end,
        bar: note.bar,
        voice: note.voice,
        sound,
        strength: level(strengths.at(start) + accent),
        strength_end: level(strengths.before(end)),
        share: signs.share(),
        how: How::Once,
        tied: note.tied,
        ties: 0,
    };
    let length = end.minus(start).unwrap_or(Quarters::ZERO);
    match signs.tremolo() {
        // The place among its like is found later.
        _ if note.grace => strike.how = How::Grace { place: 0, of: 1 },
        Some(Tremolo { kind: TremoloKind::Unmeasured, .. }) => strike.how = How::Roll,
        Some(tremolo) => {
            let before = if tremolo.kind == TremoloKind::Ends { start.minus(length) } else { Some(start) };
            let behind = if tremolo.kind == TremoloKind::Begins { end.plus(length) } else { Some(end) };
            if let Some(((from, to), how)) = before.zip(behind).zip(strokes(note, signs, tremolo, length)) {
                (strike.start, strike.end, strike.how) = (from, to, how);
            }
        }
        None if signs.has(Mark::Trill) => {
            strike.how = match sound {
                PlayedSound::Pitched { pitch, .. } => How::Trill(above(score, note.start, pitch)),
                _ => How::Roll,
            };
        }
        None => {}
    }
    if strike.how != How::Once {
        strike.share = 1.0;
    }
    strike
}

fn level(strength: f64) -> u8 {
    strength.round().clamp(1.0, 127.0) as u8
}

/// The strokes of a measured tremolo: each stroke through the stem halves, from the eighth note on, or from the half of a shorter
/// note. In a tuplet, or where two notes go to and fro in the time of one, they keep their number.
fn strokes(note: &ScoreNote, signs: &Signs, tremolo: Tremolo, length: Quarters) -> Option<How> {
    let two = matches!(tremolo.kind, TremoloKind::Begins | TremoloKind::Ends);
    let look = if note.look.value.is_some() { note.look } else { signs.stem };
    let value = look.value.and_then(|value| {
        let (above, below) = value.quarters();
        Quarters::new(above, below)
    });
    let dots = i64::from(look.dots.min(4));
    let printed = value.and_then(|value| value.scaled(((2 << dots) - 1, 1 << dots)));
    let quarter = Quarters::whole(1);
    let nominal =
        value.map_or(quarter, |value| value.min(quarter)).scaled((1, 1 << tremolo.strokes.min(8)))?;
    // As it sounds: what is printed fits into the length, or into twice the length of each of two.
    let room = if two { length.scaled((2, 1))? } else { length };
    let apart = match printed {
        Some(printed) if printed > Quarters::ZERO => {
            let (above, below) = nominal.fraction();
            let (over, under) = printed.fraction();
            room.scaled((above.checked_mul(under)?, below.checked_mul(over)?))?
        }
        _ => nominal,
    };
    let first = u8::from(tremolo.kind == TremoloKind::Ends);
    (apart > Quarters::ZERO).then_some(How::Strokes { apart, first, every: 1 + u8::from(two) })
}

/// The next note of the key above a pitch, half a tone or a tone higher.
fn above(score: &Score, at: Moment, pitch: Pitch) -> Pitch {
    let next = Pitch::from_diatonic(pitch.diatonic().saturating_add(1), 0);
    let alter = score.movement_at(at).map(|key| key.signature().alteration(next.step));
    let own = Pitch { alter: alter.unwrap_or(0), ..next };
    let semitones = own.semitones().saturating_sub(pitch.semitones());
    let right = if (1..=2).contains(&semitones) { 0 } else { 2_i32.saturating_sub(semitones) };
    Pitch { alter: own.alter.saturating_add(right), ..own }
}

/// The place of each grace note among those before the same note.
fn graces(strikes: &mut [Strike], staff: &PartStaff) {
    // Their orders, voice by voice.
    let mut at: Vec<(Quarters, u8, u32)> = staff
        .notes()
        .iter()
        .filter(|(_, note)| note.grace && note.printed.is_some())
        .map(|(_, note)| (note.start.time, note.voice, note.start.order))
        .collect();
    put_in_order(&mut at, |grace| *grace);
    at.dedup();
    let mut orders: Vec<(NoteId, u32)> = staff
        .notes()
        .iter()
        .filter(|(_, note)| note.grace && note.printed.is_some())
        .map(|(id, note)| (*id, note.start.order))
        .collect();
    put_in_order(&mut orders, |(id, _)| *id);
    for strike in strikes.iter_mut().filter(|strike| matches!(strike.how, How::Grace { .. })) {
        let own = (strike.start, strike.voice);
        let from = at.partition_point(|(time, voice, _)| (*time, *voice) < own);
        let to = at.partition_point(|(time, voice, _)| (*time, *voice) <= own);
        let order = orders.binary_search_by_key(&strike.note, |(id, _)| *id).ok();
        let order = order.and_then(|at| orders.get(at)).map_or(0, |(_, order)| *order);
        let here = at.get(from..to).unwrap_or_default();
        let place = here.partition_point(|(_, _, other)| *other < order);
        let small = |count: usize| u16::try_from(count).unwrap_or(u16::MAX);
        // How many beats of a grace note lie before the note.
        strike.how =
            How::Grace { place: small(here.len().saturating_sub(place)), of: small(here.len().max(1)) };
    }
}
