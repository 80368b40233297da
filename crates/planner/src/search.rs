//! The search for the best plan of a part: note by note, all ways kept that may still lead to a better plan than one found.

use crate::hope::Hope;
use crate::part::{Choice, Part};
use crate::state::State;

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

impl Found {
    /// For a part.
    pub fn of(part: &Part) -> Self {
        let hope = Hope::of(part);
        let mut found = Self {
            choices: vec![None; part.notes.len()],
            total: 0.0,
            bound: hope.whole(),
            is_best: hope.whole() <= ALIKE,
        };
        let kept = if part.notes.len() > LONG { MOST_KEPT_OF_LONG } else { MOST_KEPT };
        let most = (kept / part.notes.len().max(1)).max(WIDTHS[0]);
        for width in WIDTHS {
            if found.is_best {
                break;
            }
            found.attempt(part, &hope, width.min(most));
            if width >= most {
                break;
            }
        }
        found
    }

    fn attempt(&mut self, part: &Part, hope: &Hope, width: usize) {
        let mut attempt =
            Attempt { part, hope, width, beaten: self.total, let_go: f64::MIN, steps: Vec::new() };
        let ways = attempt.ways();
        let best = ways.iter().max_by(|one, other| one.value.total_cmp(&other.value));
        if let Some(best) = best.filter(|best| best.value > self.total + ALIKE) {
            self.total = best.value;
            self.choices = attempt.choices(best);
        }
        self.is_best = attempt.let_go <= self.total + ALIKE || self.bound <= self.total + ALIKE;
        let bound = if self.is_best { self.total } else { attempt.let_go };
        self.bound = self.bound.min(bound).max(self.total);
    }
}

/// One attempt, with so many ways kept at a time.
struct Attempt<'a> {
    part: &'a Part,
    hope: &'a Hope,
    width: usize,
    /// What a plan must be worth more than.
    beaten: f64,
    /// The most that a way promised that was let go for want of room.
    let_go: f64,
    steps: Vec<Step>,
}

impl Attempt<'_> {
    /// The ways that are left after the last note.
    fn ways(&mut self) -> Vec<Way> {
        let start =
            Way { state: State::START, value: 0.0, promise: self.hope.whole(), step: FIRST, choice: None };
        let mut ways = vec![start];
        for n in 0..self.part.notes.len() {
            let mut next = Vec::with_capacity(ways.len() * 3);
            for way in &ways {
                self.go_on(n, way, &mut next);
            }
            self.keep(&mut next);
            for way in &mut next {
                let step = (way.step, way.choice);
                // Far fewer than a 32-bit number counts.
                way.step = self.steps.len() as u32;
                self.steps.push(step);
            }
            ways = next;
        }
        ways
    }

    /// What may be done with a note: left out, or played by somebody on one of his crooks.
    fn go_on(&self, n: usize, way: &Way, next: &mut Vec<Way>) {
        let note = &self.part.notes[n];
        let state = way.state.at(note.from, self.part);
        self.promise(n, Way { state, choice: None, ..*way }, next);
        for (seat, place) in self.part.seats.iter().enumerate() {
            let (team, in_team) = *place;
            let may = note.whose.is_none_or(|whose| whose == *place);
            if !may || !state.is_free(seat) || state.is_spare(self.part, *place) {
                continue;
            }
            let own = usize::from(state.own[seat]);
            for (crook, gain) in note.gains[team].iter().enumerate() {
                let is_at_hand = state.bound(team).is_none_or(|bound| bound == crook);
                if *gain <= 0.0 || !is_at_hand || !self.part.teams[team].owns[in_team][crook] {
                    continue;
                }
                let cost = if own == 0 || own == crook + 1 { 0.0 } else { self.part.change_cost };
                // At most eight seats, and no family has as many crooks.
                let choice = Choice { seat: seat as u8, crook: crook as u8 };
                let state = state.played(team, choice, note.to);
                let value = way.value + gain - cost;
                self.promise(n, Way { state, value, choice: Some(choice), ..*way }, next);
            }
        }
    }

    fn promise(&self, n: usize, mut way: Way, next: &mut Vec<Way>) {
        way.promise = way.value + self.hope.from(n + 1, &way.state);
        if way.promise > self.beaten + ALIKE {
            next.push(way);
        }
    }

    /// Keeps of ways that stand alike the best, and of all of them as many as there is room for.
    fn keep(&mut self, ways: &mut Vec<Way>) {
        ways.sort_by(|one, other| {
            one.state.cmp(&other.state).then_with(|| other.value.total_cmp(&one.value))
        });
        ways.dedup_by(|next, one| next.state == one.state);
        self.drop_beaten(ways);
        if ways.len() > self.width {
            ways.sort_by(|one, other| other.promise.total_cmp(&one.promise));
            let most = ways.get(self.width).map_or(f64::MIN, |way| way.promise);
            self.let_go = self.let_go.max(most);
            ways.truncate(self.width);
        }
    }

    /// Of ways that differ but in the crooks last played on, those go that another beats whatever it may still cost.
    fn drop_beaten(&self, ways: &mut Vec<Way>) {
        let mut kept: Vec<Way> = Vec::with_capacity(ways.len());
        for beside in ways.chunk_by(|one, other| one.state.is_beside(&other.state)) {
            let Some(best) = beside.iter().max_by(|one, other| one.value.total_cmp(&other.value)) else {
                continue;
            };
            kept.extend(beside.iter().filter(|way| {
                let most = best.state.changes_more(&way.state) as f64 * self.part.change_cost;
                way.state == best.state || way.value > best.value - most
            }));
        }
        *ways = kept;
    }

    /// Who plays each note of a way.
    fn choices(&self, way: &Way) -> Vec<Option<Choice>> {
        let mut choices = Vec::with_capacity(self.part.notes.len());
        let mut at = way.step;
        while let Some((before, choice)) = self.steps.get(at as usize) {
            choices.push(*choice);
            at = *before;
        }
        choices.reverse();
        choices
    }
}
