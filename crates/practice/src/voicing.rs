//! A chord spread over the players of a page as scores have it: the bass in the lowest instrument that plays, the order of
//! the score kept within a choir, open notes for natural brass or rests, every note near the middle of its staff or near
//! the note before it.
//!
//! How much each of these weighs is a musician's estimate: common practice of the classical orchestra.

use crate::chance::Chance;
use crate::edition::Edition;
use crate::exercise::NoteRange;
use crate::page::{join_unisons, on_drum};
use crate::setting::{Workshop, stock};
use crookwise_score::{Event, Passage, Place};
use crookwise_theory::order::in_order;
use crookwise_theory::{
    Family, Key, Pitch, Printed, Production, Reach, StaffPosition, Tonic, Transposition, Written,
};

/// Places of a chord's notes on their staves: two ledger lines either way.
const PLACES: core::ops::RangeInclusive<i32> = -4..=12;
/// The place of the middle line.
const MIDDLE: StaffPosition = StaffPosition(4);
/// Below this an instrument next to the bass doubles it rather than fills the chord: middle lines up to B3.
const LOW: i32 = 59;
/// The highest note of natural brass in a chord: written G5, its twelfth partial.
const HIGHEST: i32 = 79;
/// How many ways are followed for each set of members that sound so far.
const WAYS: usize = 6;
/// What it costs that natural brass rests, and that others do.
const REST: (i32, i32) = (9, 60);
/// What it costs that drums rest though one of them belongs to the chord.
const NO_STROKE: i32 = 20;

/// What natural brass has in a chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Brass {
    /// Open notes, as scores have it.
    Open,
    /// Whatever it can play.
    Any,
}

/// The players of a page in one key, from the lowest instrument to the highest.
#[derive(Debug)]
pub(crate) struct Ensemble<'a> {
    workshop: &'a Workshop<'a>,
    key: Key,
    parts: Vec<Part>,
}

/// A player.
#[derive(Debug)]
struct Part {
    staff: usize,
    player: usize,
    family: Family,
    natural: bool,
    /// Drums come in where one of them belongs to the chord; they carry none.
    drums: bool,
    /// What the middle line of the staff sounds.
    home: i32,
    notes: Vec<Candidate>,
}

/// A note that a player could have.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Candidate {
    printed: Printed,
    sounding: i32,
    /// The same, or an octave lower where the staff is doubled below.
    lowest: i32,
}

/// The chord that is wanted.
#[derive(Debug)]
pub(crate) struct Wanted {
    /// Pitch classes of its members in the order of thirds.
    pub(crate) classes: Vec<i32>,
    /// Which of them lies lowest.
    pub(crate) lowest: usize,
    /// The class of the leading note.
    pub(crate) leading: i32,
}

/// What each player has, in the order of the ensemble; `None` for a rest.
pub(crate) type Voicing = Vec<Option<Candidate>>;

impl<'a> Ensemble<'a> {
    pub(crate) fn of(workshop: &'a Workshop<'a>, key: Key, brass: Brass) -> Self {
        let mut parts = Vec::new();
        // Of two that lie alike the one that stands lower in the score comes first.
        for (staff, setting) in workshop.settings.iter().enumerate().rev() {
            for player in (0..setting.players()).rev() {
                if let Some(place) = setting.place(key, player) {
                    parts.push(Part::of(&place, (workshop.exercise.range, brass), (staff, player)));
                }
            }
        }
        Self { workshop, key, parts: in_order(parts, |part| part.home) }
    }

    /// The players' notes for a chord, near those before; `None` where they cannot make it.
    pub(crate) fn voiced(
        &self,
        wanted: &Wanted,
        before: Option<&Voicing>,
        chance: &mut Chance,
    ) -> Option<Voicing> {
        let bass = *wanted.classes.get(wanted.lowest)?;
        let has_bass = |part: &Part| part.notes.iter().any(|note| note.class() == bass);
        let carrier = self.parts.iter().position(|part| !part.drums && has_bass(part))?;
        let mut ways =
            vec![Way { notes: vec![None; carrier], cost: 0, members: vec![0; wanted.classes.len()] }];
        for (number, part) in self.parts.iter().enumerate().skip(carrier) {
            let own = before.and_then(|before| before.get(number).copied().flatten());
            let able: Vec<(Candidate, usize, i32)> = part
                .notes
                .iter()
                .filter(|note| number > carrier || note.class() == bass)
                .filter_map(|note| {
                    Some((*note, wanted.member(*note)?, part.far(*note, own, number == carrier, chance)))
                })
                .collect();
            let mut next = Vec::new();
            for way in &ways {
                for (note, member, cost) in &able {
                    let more = self.apart(way, (part, *note), wanted, carrier);
                    // What drums double is no matter of how the others are spread.
                    let member = (!part.drums).then_some(*member);
                    next.extend(more.map(|more| way.with(Some((*note, member)), cost + more)));
                }
                if number > carrier {
                    let cost = if able.is_empty() { 0 } else { self.silence(way, part) };
                    next.push(way.with(None, cost));
                }
            }
            ways = few(next);
        }
        let whole = ways.into_iter().filter(|way| way.members.iter().all(|count| *count > 0));
        whole.min_by_key(|way| way.cost).map(|way| way.notes)
    }

    /// What a note costs beside the notes of the lower players; `None` where it cannot stand there.
    fn apart(
        &self,
        way: &Way,
        (part, note): (&Part, Candidate),
        wanted: &Wanted,
        carrier: usize,
    ) -> Option<i32> {
        let member = wanted.member(note)?;
        let times = way.members.get(member).copied().unwrap_or(0);
        let mut cost = if part.drums { 0 } else { wanted.doubled(member, note, times) };
        let Some(floor) = way.notes.get(carrier).copied().flatten() else { return Some(cost) };
        if note.lowest < floor.lowest {
            return None;
        }
        if way.notes.len() == carrier + 1 && part.home < LOW && !part.drums && note.class() != floor.class() {
            cost += 10;
        }
        let lower = self.parts.iter().zip(&way.notes).filter_map(|(other, own)| Some((other, (*own)?)));
        let mut under = None;
        for (other, own) in lower.filter(|(other, _)| other.family == part.family) {
            let crossing = own.sounding > note.sounding;
            if crossing && !part.may_cross(other) {
                return None;
            }
            cost += if crossing { 5 } else { 0 };
            // Players of one staff may well be in unison.
            let unison = match (other.staff == part.staff, part.natural) {
                (true, true) => 2,
                // A pair of winds has two parts.
                (true, false) => 9,
                _ => 4,
            };
            cost += if own.sounding == note.sounding { unison } else { 0 };
            under = Some(own.sounding).max(under);
        }
        let gap = under.map_or(0, |under| note.sounding - under);
        Some(cost + (gap - 12).max(0))
    }

    /// What it costs that a player rests; the first of a staff does not where the second plays.
    fn silence(&self, way: &Way, part: &Part) -> i32 {
        let fellow =
            self.parts.iter().zip(&way.notes).any(|(other, own)| other.staff == part.staff && own.is_some());
        if part.drums {
            return NO_STROKE;
        }
        if part.natural && !fellow { REST.0 } else { REST.1 }
    }

    /// A page of one column with these notes.
    pub(crate) fn page(&self, voicing: &Voicing) -> Option<Passage> {
        let mut page = Passage::default();
        page.movement = Some(self.key);
        for setting in &self.workshop.settings {
            setting.add_to(&mut page)?;
        }
        for (part, note) in self.parts.iter().zip(voicing) {
            let event = note.map_or(Event::Rest, |note| Event::Note(note.printed));
            page.set(part.staff, 0, part.player, event).ok()?;
        }
        for staff in 0..self.workshop.settings.len() {
            join_unisons(&mut page, staff);
        }
        Some(page)
    }
}

impl Part {
    fn of(place: &Place, (range, brass): (NoteRange, Brass), (staff, player): (usize, usize)) -> Self {
        let natural = place.staff.natural_family();
        let notation = place.notation();
        let below = if place.staff.doubled_below { 12 } else { 0 };
        let candidate = |written: Pitch| {
            let printed = notation.printed(Written(written));
            let sounding = notation.sounding(Written(written)).0.semitones();
            Candidate { printed, sounding, lowest: sounding - below }
        };
        let stands = |note: &Candidate| {
            range != NoteRange::Usual || PLACES.contains(&place.habits.clef.position(note.printed.0).0)
        };
        let open = |written: Pitch| match natural {
            Some(family) if brass == Brass::Open => {
                let reach = Reach::of(family, written);
                written.midi() <= HIGHEST && reach.is_some_and(|reach| reach.production == Production::Open)
            }
            _ => true,
        };
        // Where notes stand in a chord is told by `PLACES`, in every edition alike.
        let notes = stock(place, range, Edition::Second)
            .into_iter()
            .map(|(written, _)| written)
            .filter(|note| open(*note));
        let drums = &place.staff.drums;
        let stroke = |drum: Pitch| Candidate {
            printed: Printed(drum),
            sounding: drum.semitones(),
            lowest: drum.semitones(),
        };
        let tuned = drums.iter().filter(|drum| is_at_pitch(place, **drum)).map(|drum| stroke(on_drum(*drum)));
        let line = notation.written(Printed(place.habits.clef.pitch_at(MIDDLE)));
        Self {
            staff,
            player,
            family: place.staff.instrument.family,
            natural: natural.is_some(),
            drums: !drums.is_empty(),
            home: notation.sounding(line).0.semitones() - below,
            notes: notes.map(candidate).filter(stands).chain(tuned).collect(),
        }
    }

    /// What a note costs by itself: its way from the note before, or from the middle of the staff.
    fn far(&self, note: Candidate, before: Option<Candidate>, carries: bool, chance: &mut Chance) -> i32 {
        let off = note.lowest - self.home;
        match before {
            Some(before) => {
                let step = (note.sounding - before.sounding).abs();
                let wide = if step > 5 && !(carries && step < 8) { 20 } else { 0 };
                step * if carries || self.natural { 1 } else { 3 } + wide + off * off / 24
            }
            // Where nothing comes from before, rather high than low.
            None => {
                let part = if off < 0 && !carries { 5 } else { 8 };
                off * off / part + i32::try_from(chance.below(8)).unwrap_or(0)
            }
        }
    }

    /// Whether he may sound below one who lies lower: natural brass has the notes that its crook gives, but the first
    /// player of a staff stays above the second.
    fn may_cross(&self, lower: &Self) -> bool {
        self.natural && lower.natural && (self.staff != lower.staff || self.home != lower.home)
    }
}

/// Whether a drum that stands alone on its staff is read as printed: C and G may stand for others.
fn is_at_pitch(place: &Place, drum: Tonic) -> bool {
    !matches!(drum.fifths(), 0 | 1) || place.staff.transposition == Transposition::NONE
}

impl Candidate {
    const fn class(&self) -> i32 {
        self.sounding.rem_euclid(12)
    }
}

impl Wanted {
    /// Which member a note is.
    fn member(&self, note: Candidate) -> Option<usize> {
        self.classes.iter().position(|class| *class == note.class())
    }

    /// What it costs to have a member once more: sevenths and leading notes stand alone, thirds nearly so.
    fn doubled(&self, member: usize, note: Candidate, times: i32) -> i32 {
        match (times, member) {
            (0, _) => 0,
            _ if member == 3 || note.class() == self.leading => 14,
            (times, 1) => 3 * times,
            (times, 2) => 2 * times,
            (times, _) => times,
        }
    }
}

/// The notes of the lower players.
#[derive(Clone, Debug)]
struct Way {
    notes: Voicing,
    cost: i32,
    /// How often each member sounds.
    members: Vec<i32>,
}

impl Way {
    fn with(&self, note: Option<(Candidate, Option<usize>)>, cost: i32) -> Self {
        let mut way = self.clone();
        way.cost += cost;
        way.notes.push(note.map(|(note, _)| note));
        if let Some(count) = note.and_then(|(_, member)| way.members.get_mut(member?)) {
            *count += 1;
        }
        way
    }

    /// Whether the same members sound.
    fn sounds_like(&self, other: &Self) -> bool {
        self.members.iter().zip(&other.members).all(|(one, other)| (*one > 0) == (*other > 0))
    }
}

/// The cheapest ways, a few for each set of members that sound.
fn few(ways: Vec<Way>) -> Vec<Way> {
    let mut kept: Vec<Way> = Vec::new();
    for way in in_order(ways, |way| way.cost) {
        if kept.iter().filter(|other| other.sounds_like(&way)).count() < WAYS {
            kept.push(way);
        }
    }
    kept
}
