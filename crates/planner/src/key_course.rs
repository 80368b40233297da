//! Which crooks the teams of a family take from key to key: the best course through all their choices, found from the end of
//! each stretch to the next.

use crate::key_family::{KeyFamily, chords_in};
use crate::of_keys::KeyRequest;
use core::cmp::Reverse;
use crookwise_theory::order::put_in_order;

/// So many choices of crooks are followed from key to key; where there are more, those that give most.
const MOST_CHOICES: usize = 600;

/// A course through the keys.
#[derive(Clone, Debug, PartialEq)]
pub struct KeyCourse {
    /// For each stretch the crook of each team, by its place in the team's list.
    pub crooks: Vec<Vec<u8>>,
    /// What all that is held is worth, less what the changes cost.
    pub total: f64,
    /// No course is worth more.
    pub bound: f64,
}

/// What a course must do without.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Without {
    /// Nothing.
    Nothing,
    /// Changes of crook.
    Changes,
    /// A crook, by team and place in its list.
    Crook(usize, u8),
}

/// What a stretch gives for each choice of crooks.
struct StretchValues {
    bars: u32,
    key: usize,
    /// In how many bars each chord stands: while a crook is changed, and after that.
    first: [f64; 3],
    after: [f64; 3],
    /// What each choice is worth where all play from the first bar.
    whole: Vec<f64>,
}

impl KeyCourse {
    /// The best one; `None` where a team has no crook.
    pub fn best(family: &KeyFamily, request: &KeyRequest, without: Without) -> Option<Self> {
        let all = choices(family, without);
        let mut values = values(family, request, &all);
        let bound = values.iter().map(|one| one.whole.iter().copied().fold(f64::MIN, f64::max)).sum();
        let kept = kept(&values, all.len());
        let choices: Vec<&[u8]> = kept.iter().filter_map(|at| all.get(*at)).map(Vec::as_slice).collect();
        for stretch in &mut values {
            stretch.whole = kept.iter().filter_map(|at| stretch.whole.get(*at).copied()).collect();
        }
        let course = Steps { family, request, without, choices: &choices }.walk(&values)?;
        Some(Self { bound: f64::max(bound, course.total), ..course })
    }

    /// Whether nothing better was passed over.
    pub fn is_best(family: &KeyFamily) -> bool {
        family.teams.iter().map(|team| team.crooks.len().max(1)).product::<usize>() <= MOST_CHOICES
    }
}

/// Every choice of crooks, one for each team.
fn choices(family: &KeyFamily, without: Without) -> Vec<Vec<u8>> {
    let mut all: Vec<Vec<u8>> = vec![Vec::new()];
    for (at, team) in family.teams.iter().enumerate() {
        let own = (0..team.crooks.len() as u8).filter(|crook| without != Without::Crook(at, *crook));
        let own: Vec<u8> = own.collect();
        let longer =
            |one: &Vec<u8>| own.iter().map(|crook| [one.as_slice(), &[*crook]].concat()).collect::<Vec<_>>();
        all = all.iter().flat_map(longer).collect();
    }
    all
}

fn values(family: &KeyFamily, request: &KeyRequest, choices: &[Vec<u8>]) -> Vec<StretchValues> {
    let everybody = !0;
    let mut known: Vec<Option<Vec<[f64; 3]>>> = Vec::new();
    let of = |stretch: &crate::key_plan::KeyStretch| {
        let key = family.place_of(stretch.key);
        if known.len() <= key {
            known.resize(key + 1, None);
        }
        let worth =
            |crooks: &Vec<u8>| core::array::from_fn(|chord| family.held(key, chord, crooks, everybody).0);
        let each = known[key].get_or_insert_with(|| choices.iter().map(worth).collect());
        let rest = request.rest.min(stretch.bars);
        let (first, after) = (chords_in(0..rest), chords_in(rest..stretch.bars));
        let all = chords_in(0..stretch.bars);
        let whole = each.iter().map(|worth| sum(&all, worth)).collect();
        StretchValues { bars: stretch.bars, key, first, after, whole }
    };
    request.stretches.iter().map(of).collect()
}

fn sum(count: &[f64; 3], worth: &[f64; 3]) -> f64 {
    count.iter().zip(worth).map(|(count, worth)| count * worth).sum()
}

/// The choices that are followed: those that give most over all, and most in a stretch.
fn kept(values: &[StretchValues], choices: usize) -> Vec<usize> {
    if choices <= MOST_CHOICES {
        return (0..choices).collect();
    }
    let by = |worth: &dyn Fn(usize) -> f64, most: usize| {
        let mut all: Vec<usize> = (0..choices).collect();
        // Worths are never below nothing, so they stand in the order of their bits.
        put_in_order(&mut all, |at| Reverse(worth(*at).max(0.0).to_bits()));
        all.truncate(most);
        all
    };
    let over_all = |at: usize| values.iter().filter_map(|one| one.whole.get(at)).sum::<f64>();
    let mut kept = by(&over_all, MOST_CHOICES / 2);
    let share = MOST_CHOICES / 2 / values.len().max(1);
    for one in values {
        kept.extend(by(&|at| one.whole.get(at).copied().unwrap_or(0.0), share));
    }
    put_in_order(&mut kept, |at| *at);
    kept.dedup();
    kept
}

/// The way from stretch to stretch.
struct Steps<'a> {
    family: &'a KeyFamily,
    request: &'a KeyRequest,
    without: Without,
    choices: &'a [&'a [u8]],
}

impl Steps<'_> {
    fn walk(&self, values: &[StretchValues]) -> Option<KeyCourse> {
        let mut reached: Vec<f64> = vec![0.0; self.choices.len()];
        let mut came: Vec<Vec<usize>> = Vec::new();
        for (at, stretch) in values.iter().enumerate() {
            let mut now = vec![f64::MIN; self.choices.len()];
            let mut from = vec![0; self.choices.len()];
            for to in (0..self.choices.len()).filter(|to| self.is_allowed(at, *to)) {
                let first = &stretch.whole[to];
                if at == 0 {
                    now[to] = *first;
                    continue;
                }
                let mut changed = Changed::default();
                for (before, value) in reached.iter().enumerate().filter(|(_, value)| **value > f64::MIN) {
                    let Some(more) = self.step(stretch, before, to, &mut changed) else { continue };
                    if value + more > now[to] {
                        now[to] = value + more;
                        from[to] = before;
                    }
                }
            }
            reached = now;
            came.push(from);
        }
        let (mut at, total) = reached
            .iter()
            .copied()
            .enumerate()
            .max_by(|one, other| one.1.total_cmp(&other.1).then(other.0.cmp(&one.0)))?;
        if total <= f64::MIN {
            return None;
        }
        let mut crooks = Vec::new();
        for from in came.iter().rev() {
            crooks.push(self.choices[at].to_vec());
            at = from[at];
        }
        crooks.reverse();
        Some(KeyCourse { crooks, total, bound: total })
    }

    /// What a stretch brings on other crooks than those before, or on the same; `None` where it is too short for the change.
    fn step(&self, stretch: &StretchValues, before: usize, to: usize, changed: &mut Changed) -> Option<f64> {
        if before == to {
            return Some(stretch.whole[to]);
        }
        if stretch.bars < self.request.rest || self.without == Without::Changes {
            return None;
        }
        let (before, now) = (self.choices[before], self.choices[to]);
        let teams = before.iter().zip(now).enumerate().filter(|(_, (one, other))| one != other);
        let (mut who, mut players) = (0, 0);
        for (team, _) in teams {
            who |= 1 << team;
            players += self.family.teams[team].players.len();
        }
        let worth = changed.worth(who, || {
            let held = |chord: usize, plays: u32| self.family.held(stretch.key, chord, now, plays).0;
            let first = core::array::from_fn(|chord| held(chord, !who));
            let after = core::array::from_fn(|chord| held(chord, !0));
            sum(&stretch.first, &first) + sum(&stretch.after, &after)
        });
        Some(worth - self.request.weights.change_cost * players as f64)
    }

    /// Whether the crooks are those that remedies have fixed for a stretch.
    fn is_allowed(&self, stretch: usize, choice: usize) -> bool {
        let own = self.request.fixed.iter().filter(|fixed| fixed.stretch == stretch);
        own.into_iter().all(|fixed| {
            let mut teams = self.family.teams.iter().zip(self.choices[choice]);
            teams.all(|(team, crook)| {
                let has =
                    || team.crooks.get(usize::from(*crook)).is_some_and(|named| named.crook == fixed.crook);
                !team.players.contains(&fixed.player) || has()
            })
        })
    }
}

/// What a stretch is worth on given crooks, by who has changed.
#[derive(Default)]
struct Changed(Vec<(u32, f64)>);

impl Changed {
    fn worth(&mut self, who: u32, make: impl FnOnce() -> f64) -> f64 {
        if let Some((_, worth)) = self.0.iter().find(|(one, _)| *one == who) {
            return *worth;
        }
        let worth = make();
        self.0.push((who, worth));
        worth
    }
}
