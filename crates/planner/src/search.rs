//! The search for the best plan of a part: note by note, all ways kept that may still lead to a better plan than one found.

use crate::hope::{Hope, HopeSearch};
use crate::part::{Choice, Part, PartNote};
use crate::state::State;
use core::cmp::Ordering;

/// So many ways are kept at a time, in one attempt after the other, until nothing had to be let go.
const WIDTHS: [usize; 4] = [4, 48, 768, 12_288];
/// So many ways are kept at most in an attempt, over all notes: in a passage, and in what is longer than so many notes.
const MOST_KEPT: usize = 1_000_000;
const LONG: usize = 400;
const MOST_KEPT_OF_LONG: usize = 100_000;
/// What differs by less is the same: sums of many small numbers.
const ALIKE: f64 = 1e-9;

/// What was found for a part.
#[derive(Clone, Debug)]
pub struct Found {
    /// For each note of the part who plays it; `None` where it is left out.
    pub choices: Vec<Option<Choice>>,
    /// What that is worth.
    pub total: f64,
    /// No plan is worth more.
    pub bound: f64,
    /// Whether that is proved to be the best.
    pub is_best: bool,
}

impl Found {
    /// Before anything was sought: every note left out, and none worth more than at its best.
    pub fn nothing(part: &Part) -> Self {
        let bound = part.notes.iter().map(PartNote::highest).sum();
        Self { choices: vec![None; part.notes.len()], total: 0.0, bound, is_best: false }
    }
}

/// A way so far: where it stands, what it brought, and the step that led there.
#[derive(Clone, Copy, Debug)]
struct Way {
    state: State,
    value: f64,
    /// Value and hope.
    promise: f64,
    step: u32,
    choice: Option<Choice>,
}

/// A step of a way: the one before, and who plays the note.
type Step = (u32, Option<Choice>);

/// No step before.
const FIRST: u32 = u32::MAX;

/// The search for a part, which may pause.
#[derive(Debug)]
pub struct PartSearch {
    part: Part,
    found: Found,
    stage: Stage,
}

/// How far it is.
#[derive(Debug)]
enum Stage {
    /// What may be hoped for is reckoned.
    Hoping(HopeSearch),
    /// An attempt with one of the widths, and whether it is the last.
    Trying { hope: Hope, attempt: Attempt, next: Option<usize> },
    /// It is over.
    Over,
}

impl PartSearch {
    /// For a part.
    pub fn of(part: Part) -> Self {
        let found = Found::nothing(&part);
        let stage = Stage::Hoping(HopeSearch::of(&part));
        Self { part, found, stage }
    }

    /// What was found so far.
    pub const fn found(&self) -> &Found {
        &self.found
    }

    /// Goes on for so many steps, and takes them off; whether it is over.
    pub fn go_on(&mut self, steps: &mut usize) -> bool {
        while *steps > 0 {
            match &mut self.stage {
                Stage::Hoping(search) => {
                    *steps = steps.saturating_sub(self.part.notes.len().max(1));
                    if let Some(hope) = search.go_on(&self.part) {
                        self.found.bound = hope.whole();
                        self.found.is_best = hope.whole() <= ALIKE;
                        self.stage = self.attempt(hope, 0);
                    }
                }
                Stage::Trying { hope, attempt, .. } => {
                    if attempt.go_on(&self.part, hope, steps) {
                        self.settle();
                    }
                }
                Stage::Over => return true,
            }
        }
        matches!(self.stage, Stage::Over)
    }

    /// The attempt with one of the widths, if anything is left to be sought.
    fn attempt(&self, hope: Hope, at: usize) -> Stage {
        let Some(width) = WIDTHS.get(at).copied().filter(|_| !self.found.is_best) else { return Stage::Over };
        let notes = self.part.notes.len();
        let kept = if notes > LONG { MOST_KEPT_OF_LONG } else { MOST_KEPT };
        let most = (kept / notes.max(1)).max(WIDTHS[0]);
        let attempt = Attempt::new(&hope, width.min(most), self.found.total);
        Stage::Trying { hope, attempt, next: (width < most).then_some(at + 1) }
    }

    /// Takes over what an attempt has found, and goes on to the next.
    fn settle(&mut self) {
        let Stage::Trying { hope, attempt, next } = core::mem::replace(&mut self.stage, Stage::Over) else {
            return;
        };
        let found = &mut self.found;
        let best = attempt.ways.iter().max_by(|one, other| one.value.total_cmp(&other.value));
        if let Some(best) = best.filter(|best| best.value > found.total + ALIKE) {
            found.total = best.value;
            found.choices = attempt.choices(best);
        }
        found.is_best = attempt.let_go <= found.total + ALIKE || found.bound <= found.total + ALIKE;
        let bound = if found.is_best { found.total } else { attempt.let_go };
        found.bound = found.bound.min(bound).max(found.total);
        if let Some(next) = next {
            self.stage = self.attempt(hope, next);
        }
    }
}

/// One attempt, with so many ways kept at a time.
#[derive(Debug)]
struct Attempt {
    width: usize,
    /// What a plan must be worth more than.
    beaten: f64,
    /// The most that a way promised that was let go for want of room.
    let_go: f64,
    steps: Vec<Step>,
    /// The ways before a note, how many of them have gone on, and the ways behind it.
    ways: Vec<Way>,
    gone_on: usize,
    next: Vec<Way>,
    note: usize,
}

impl Attempt {
    fn new(hope: &Hope, width: usize, beaten: f64) -> Self {
        let start = Way { state: State::START, value: 0.0, promise: hope.whole(), step: FIRST, choice: None };
        Self {
            width,
            beaten,
            let_go: f64::MIN,
            steps: Vec::new(),
            ways: vec![start],
            gone_on: 0,
            next: Vec::new(),
            note: 0,
        }
    }

    /// Goes on for so many steps, one a way; whether the last note is behind it.
    fn go_on(&mut self, part: &Part, hope: &Hope, steps: &mut usize) -> bool {
        while self.note < part.notes.len() {
            while let Some(way) = self.ways.get(self.gone_on).copied() {
                if *steps == 0 {
                    return false;
                }
                *steps -= 1;
                self.gone_on += 1;
                self.spread(part, hope, &way);
            }
            self.end_note(part);
        }
        true
    }

    /// Keeps what is behind a note, and goes to the next.
    fn end_note(&mut self, part: &Part) {
        let mut next = core::mem::take(&mut self.next);
        self.keep(&mut next, part);
        for way in &mut next {
            let step = (way.step, way.choice);
            // Far fewer than a 32-bit number counts.
            way.step = self.steps.len() as u32;
            self.steps.push(step);
        }
        self.ways = next;
        self.gone_on = 0;
        self.note += 1;
    }

    /// What may be done with a note: left out, or played by somebody on one of his crooks.
    fn spread(&mut self, part: &Part, hope: &Hope, way: &Way) {
        let note = &part.notes[self.note];
        let state = way.state.at(note.from, part);
        self.promise(hope, Way { state, choice: None, ..*way });
        for (seat, place) in part.seats.iter().enumerate() {
            let (team, in_team) = *place;
            let may = note.whose.is_none_or(|whose| whose == *place);
            if !may || !state.is_free(seat) || state.is_spare(part, *place) {
                continue;
            }
            let own = usize::from(state.own[seat]);
            for (crook, gain) in note.gains[team].iter().enumerate() {
                let is_at_hand = state.bound(team).is_none_or(|bound| bound == crook);
                if *gain <= 0.0 || !is_at_hand || !part.teams[team].owns[in_team][crook] {
                    continue;
                }
                let cost = if own == 0 || own == crook + 1 { 0.0 } else { part.change_cost };
                // At most eight seats, and no family has as many crooks.
                let choice = Choice { seat: seat as u8, crook: crook as u8 };
                let state = state.played(team, choice, note.to);
                let value = way.value + gain - cost;
                self.promise(hope, Way { state, value, choice: Some(choice), ..*way });
            }
        }
    }

    fn promise(&mut self, hope: &Hope, mut way: Way) {
        way.promise = way.value + hope.from(self.note + 1, &way.state);
        if way.promise > self.beaten + ALIKE {
            self.next.push(way);
        }
    }

    /// Keeps of ways that stand alike the best, and of all of them as many as there is room for.
    fn keep(&mut self, ways: &mut Vec<Way>, part: &Part) {
        put(ways, |one, other| one.state.cmp(&other.state).then_with(|| other.value.total_cmp(&one.value)));
        ways.dedup_by(|next, one| next.state == one.state);
        drop_beaten(ways, part.change_cost);
        if ways.len() > self.width {
            put(ways, |one, other| other.promise.total_cmp(&one.promise));
            let most = ways.get(self.width).map_or(f64::MIN, |way| way.promise);
            self.let_go = self.let_go.max(most);
            ways.truncate(self.width);
        }
    }

    /// Who plays each note of a way.
    fn choices(&self, way: &Way) -> Vec<Option<Choice>> {
        let mut choices = Vec::with_capacity(self.note);
        let mut at = way.step;
        while let Some((before, choice)) = self.steps.get(at as usize) {
            choices.push(*choice);
            at = *before;
        }
        choices.reverse();
        choices
    }
}

/// Puts ways in an order; by a pointer, so that the library's sort is there once.
fn put(ways: &mut [Way], compare: fn(&Way, &Way) -> Ordering) {
    ways.sort_by(compare);
}

/// Of ways that differ but in the crooks last played on, those go that another beats whatever it may still cost.
fn drop_beaten(ways: &mut Vec<Way>, change_cost: f64) {
    let mut kept: Vec<Way> = Vec::with_capacity(ways.len());
    for beside in ways.chunk_by(|one, other| one.state.is_beside(&other.state)) {
        let Some(best) = beside.iter().max_by(|one, other| one.value.total_cmp(&other.value)) else {
            continue;
        };
        kept.extend(beside.iter().filter(|way| {
            let most = best.state.changes_more(&way.state) as f64 * change_cost;
            way.state == best.state || way.value > best.value - most
        }));
    }
    *ways = kept;
}
