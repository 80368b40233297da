//! The best plan for keys alone, found exactly: horns and trumpets each hold what they can of the chords of a key, and a crook is
//! changed only where the key changes, in so many bars of rest at the beginning of the new one.

use crate::error::RequestError;
use crate::key_course::{KeyCourse, Without};
use crate::key_family::KeyFamily;
use crate::key_plan::{self, KeyStretch, chord_of_bar};
use crate::key_table::Given;
use crate::making::Weights;
use crate::plan::{Plan, PlayedNote, Stretch};
use crate::plan_search::PLANS;
use crate::request::{CrookPlayer, NamedCrook, Request};
use crate::ticks::Ticks;
use crate::{Outcome, Planned};
use crookwise_theory::order::{in_order, put_in_order};
use crookwise_theory::{Crook, CrookFamily};

/// A crook that is taken in a stretch, whatever else would be better there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FixedCrook {
    /// The stretch, from 0.
    pub stretch: usize,
    /// Whose crook, as an index into the players; who shares it with him takes it too.
    pub player: usize,
    /// The crook.
    pub crook: &'static Crook,
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct KeyRequest {
    /// The keys, one after the other.
    pub stretches: Vec<KeyStretch>,
    /// The players.
    pub players: Vec<CrookPlayer>,
    /// Bars of rest that a change of crook needs. In a key of fewer bars nobody changes.
    pub rest: u32,
    /// Whether the players of a pair share their crook.
    pub together: bool,
    /// What counts how much; each change costs every player of the pair that changes.
    pub weights: Weights,
    /// What remedies have fixed.
    pub fixed: Vec<FixedCrook>,
}

/// Ticks of a bar.
const BAR: i64 = 4;

impl KeyRequest {
    /// The notes wanted of the players, and the players.
    #[must_use]
    pub fn request(&self) -> Request {
        let has = |family: &CrookFamily| self.players.iter().any(|player| player.family == *family);
        let families = FAMILIES.into_iter().filter(has).count();
        let once = key_plan::wanted(&self.stretches, 0);
        Request {
            notes: core::iter::repeat_n(once, families).flatten().collect(),
            players: self.players.clone(),
            change_time: quarters(i64::from(self.rest) * BAR),
            together: self.together,
            weights: self.weights.clone(),
        }
    }

    /// The best plans, in the same order whenever it is asked: of the notes wanted, bar by bar, those of the horns stand first, then
    /// those of the trumpets.
    ///
    /// # Errors
    /// Where the request asks for what cannot be: see [`RequestError`].
    pub fn plan(&self) -> Result<Planned, RequestError> {
        let request = self.request();
        request.check()?;
        let families: Vec<KeyFamily> =
            FAMILIES.into_iter().filter_map(|family| KeyFamily::of(self, family)).collect();
        let courses: Vec<Vec<KeyCourse>> = families.iter().map(|family| courses(family, self)).collect();
        if let Some(at) = courses.iter().position(Vec::is_empty) {
            let first = families[at].teams.iter().find(|team| team.crooks.is_empty());
            let player = first.or(families[at].teams.first()).and_then(|team| team.players.first().copied());
            return Err(RequestError::NoCrooks(player.unwrap_or_default()));
        }
        let best: Vec<&KeyCourse> = courses.iter().filter_map(|all| all.first()).collect();
        let mut plans = vec![self.told(&request, &families, &best)];
        for (at, others) in courses.iter().enumerate() {
            for other in others.iter().skip(1) {
                let mut chosen = best.clone();
                chosen[at] = other;
                plans.push(self.told(&request, &families, &chosen));
            }
        }
        let mut plans = in_order(plans, Plan::rank);
        plans.truncate(PLANS);
        let bound = best.iter().map(|course| course.bound).sum::<f64>();
        let optimal = families.iter().all(KeyCourse::is_best);
        let total = plans.first().map_or(0.0, |plan| plan.total);
        Ok(Planned {
            request,
            outcome: Outcome { bound: if optimal { total } else { bound.max(total) }, optimal, plans },
        })
    }

    /// A plan as it is told, from a course for each family.
    fn told(&self, request: &Request, families: &[KeyFamily], courses: &[&KeyCourse]) -> Plan {
        let mut plan = Plan { total: 0.0, stretches: Vec::new(), notes: Vec::new() };
        for (family, course) in families.iter().zip(courses) {
            plan.total += course.total;
            self.tell_notes(request, family, course, &mut plan);
            self.tell_stretches(family, course, &mut plan);
        }
        put_in_order(&mut plan.stretches, |stretch| (stretch.player, stretch.from));
        plan
    }

    fn tell_notes(&self, request: &Request, family: &KeyFamily, course: &KeyCourse, plan: &mut Plan) {
        for (at, stretch) in self.stretches.iter().enumerate() {
            let (Some(crooks), key) = (course.crooks.get(at), family.place_of(stretch.key)) else { continue };
            let rest = changed(course, at);
            for bar in 0..stretch.bars {
                let plays = if bar < self.rest { !rest } else { !0 };
                let (_, holders) = family.held(key, chord_of_bar(bar), crooks, plays);
                let mut seats = vec![0; family.teams.len()];
                for holder in holders {
                    let note = request.notes.get(plan.notes.len());
                    let played = holder.zip(note).and_then(|(team, note)| {
                        let own = &family.teams[team];
                        let player = *own.players.get(seats[team])?;
                        seats[team] += 1;
                        let crook = own.crooks.get(usize::from(crooks[team]))?.crook;
                        let Given { sounding, making } = note.given_on(crook, &self.weights);
                        Some(PlayedNote {
                            player,
                            crook,
                            sounding,
                            making,
                            worth: making.worth * note.weight,
                        })
                    });
                    plan.notes.push(played);
                }
            }
        }
    }

    fn tell_stretches(&self, family: &KeyFamily, course: &KeyCourse, plan: &mut Plan) {
        for (at, team) in family.teams.iter().enumerate() {
            let mut own: Vec<(u8, i64, i64)> = Vec::new();
            let mut bar = 0;
            for (number, stretch) in self.stretches.iter().enumerate() {
                let (from, to) = (bar, bar + i64::from(stretch.bars));
                bar = to;
                let Some(crook) = course.crooks.get(number).and_then(|crooks| crooks.get(at)) else {
                    continue;
                };
                match own.last_mut() {
                    Some((last, _, end)) if last == crook => *end = to,
                    None => own.push((*crook, from, to)),
                    Some(_) => own.push((*crook, from + i64::from(self.rest.min(stretch.bars)), to)),
                }
            }
            for player in &team.players {
                plan.stretches.extend(own.iter().filter_map(|(crook, from, to)| {
                    let NamedCrook { name, crook } = team.crooks.get(usize::from(*crook))?.clone();
                    let (from, to) = (quarters(from * BAR), quarters(to * BAR));
                    Some(Stretch { player: *player, crook, name, from, to })
                }));
            }
        }
    }
}

/// Horns stand above trumpets, as scores have them.
pub(crate) const FAMILIES: [CrookFamily; 2] = [CrookFamily::Horn, CrookFamily::Trumpet];

/// Which teams change before a stretch.
fn changed(course: &KeyCourse, stretch: usize) -> u32 {
    let before = stretch.checked_sub(1).and_then(|before| course.crooks.get(before));
    let (Some(before), Some(now)) = (before, course.crooks.get(stretch)) else { return 0 };
    let both = before.iter().zip(now).enumerate();
    both.filter(|(_, (one, other))| one != other).fold(0, |who, (team, _)| who | 1 << team)
}

/// The best course of a family and the next best: without one of its crooks, or without changes. Those that only exchange what
/// two pairs have are one.
fn courses(family: &KeyFamily, request: &KeyRequest) -> Vec<KeyCourse> {
    let Some(best) = KeyCourse::best(family, request, Without::Nothing) else { return Vec::new() };
    let mut used: Vec<Without> = vec![Without::Changes];
    for crooks in &best.crooks {
        for (team, crook) in crooks.iter().enumerate() {
            let without = Without::Crook(team, *crook);
            if !used.contains(&without) {
                used.push(without);
            }
        }
    }
    let mut all = vec![best];
    for without in used {
        let Some(course) = KeyCourse::best(family, request, without) else { continue };
        let alike = |one: &KeyCourse| seen(family, one) == seen(family, &course);
        if !all.iter().any(alike) {
            all.push(course);
        }
    }
    let mut all = in_order(all, |course| -course.total);
    all.truncate(PLANS);
    all
}

/// A course without saying which of several teams has what.
fn seen(family: &KeyFamily, course: &KeyCourse) -> Vec<Vec<&'static str>> {
    let of = |team: usize| {
        let own = family.teams.get(team);
        let name = |crooks: &Vec<u8>| {
            let crook = crooks.get(team).and_then(|crook| own?.crooks.get(usize::from(*crook)));
            crook.map(|named| named.crook.name).unwrap_or_default()
        };
        course.crooks.iter().map(name).collect::<Vec<_>>()
    };
    let all: Vec<_> = (0..family.teams.len()).map(of).collect();
    in_order(all, Clone::clone)
}

fn quarters(many: i64) -> Ticks {
    Ticks::of_fraction(many, 1).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    fn keys(keys: &[(&str, u32)]) -> Vec<KeyStretch> {
        keys.iter().map(|(key, bars)| KeyStretch { key: key.parse().unwrap(), bars: *bars }).collect()
    }

    fn players(horns: u32, trumpets: u32) -> Vec<CrookPlayer> {
        let of = |family, many: u32, first: u32| {
            (0..many).map(move |at| CrookPlayer {
                family,
                crooks: NamedCrook::classical(family),
                pair: Some(first + at / 2),
            })
        };
        of(CrookFamily::Horn, horns, 1).chain(of(CrookFamily::Trumpet, trumpets, 101)).collect()
    }

    fn asked(stretches: &[(&str, u32)], players: Vec<CrookPlayer>, rest: u32) -> KeyRequest {
        KeyRequest {
            stretches: keys(stretches),
            players,
            rest,
            together: true,
            weights: Weights::default(),
            fixed: Vec::new(),
        }
    }

    fn crooks(request: &KeyRequest) -> BTreeSet<String> {
        let found = request.plan().unwrap();
        assert!(found.outcome.optimal);
        found.outcome.plans[0].stretches.iter().map(|one| one.crook.tonic.to_string()).collect()
    }

    /// As the search over notes finds them, and practice has them: sources stand at the test of `key_plan`.
    #[test]
    fn minor_keys_take_the_crooks_of_practice() {
        let is = |stretches: &[(&str, u32)], horns, expected: &[&str]| {
            let found = crooks(&asked(stretches, players(horns, 0), 10));
            assert_eq!(found, expected.iter().map(|one| (*one).to_owned()).collect(), "{stretches:?}");
        };
        is(&[("G minor", 24), ("Bb major", 24), ("G minor", 24)], 4, &["Bb", "G"]);
        is(&[("C minor", 24), ("Eb major", 24), ("C minor", 24)], 4, &["C", "Eb"]);
        is(&[("D minor", 48)], 4, &["Bb", "D"]);
        is(&[("G major", 24), ("D major", 24), ("G major", 24)], 2, &["G"]);
    }

    #[test]
    fn what_is_told_adds_up() {
        let request = asked(
            &[("G minor", 32), ("Bb major", 26), ("D minor", 16), ("Eb major", 22), ("G minor", 24)],
            players(4, 2),
            4,
        );
        let found = request.plan().unwrap();
        assert_eq!(found.request.notes.len(), 120 * 3 * 2);
        let totals: Vec<f64> = found.outcome.plans.iter().map(|plan| plan.total).collect();
        assert!(totals.len() > 1 && totals.is_sorted_by(|one, other| one >= other), "{totals:?}");
        for plan in &found.outcome.plans {
            let worth: f64 = plan.notes.iter().flatten().map(|note| note.worth).sum();
            let total = worth - request.weights.change_cost * plan.changes() as f64;
            assert!((total - plan.total).abs() < 1e-6, "{total} {}", plan.total);
            for (note, played) in found.request.notes.iter().zip(&plan.notes) {
                let Some(played) = played else { continue };
                let own = |one: &&Stretch| {
                    one.player == played.player && one.from <= note.from && note.to <= one.to
                };
                let stretch = plan.stretches.iter().find(own).expect("a note stands in a stretch");
                assert_eq!(
                    (stretch.crook, played.sounding.0.tonic()),
                    (played.crook, note.sounding.0.tonic())
                );
            }
            // A player plays one note at a time, and rests while he changes.
            for player in 0..request.players.len() {
                let own: Vec<_> = plan.stretches.iter().filter(|one| one.player == player).collect();
                assert!(own.windows(2).all(|two| two[1].from.0 - two[0].to.0 == quarters(16).0), "{own:?}");
            }
        }
    }

    /// Every course there is, tried one by one.
    #[test]
    fn no_course_is_better() {
        let owned: Vec<NamedCrook> = ["G", "Bb alto", "D", "Eb"]
            .iter()
            .map(|name| NamedCrook::named(CrookFamily::Horn, name).unwrap())
            .collect();
        let horn = |pair| CrookPlayer { family: CrookFamily::Horn, crooks: owned.clone(), pair: Some(pair) };
        for (rest, cost) in [(0, 0.5), (2, 0.5), (2, 3.0), (6, 0.0)] {
            let mut request =
                asked(&[("G minor", 9), ("D minor", 5), ("Eb major", 7)], vec![horn(1), horn(2)], rest);
            request.weights.change_cost = cost;
            let found = request.plan().unwrap().outcome.plans[0].total;
            let mut best = f64::MIN;
            for number in 0..4_usize.pow(6) {
                let at = |place: u32| owned[number / 4_usize.pow(place) % 4].crook;
                let fixed = |stretch: usize| {
                    (0..2).map(move |player| FixedCrook {
                        stretch,
                        player,
                        crook: at(stretch as u32 * 2 + player as u32),
                    })
                };
                let fixed = KeyRequest { fixed: (0..3).flat_map(fixed).collect(), ..request.clone() };
                if let Ok(found) = fixed.plan() {
                    best = best.max(found.outcome.plans[0].total);
                }
            }
            assert!((best - found).abs() < 1e-6, "{rest} {cost}: {best} {found}");
        }
    }

    #[test]
    fn what_cannot_be_planned_is_said() {
        assert_eq!(asked(&[("G minor", 8)], Vec::new(), 4).plan(), Err(RequestError::NoPlayers));
        let mut none = players(2, 0);
        none[1].crooks.clear();
        assert_eq!(asked(&[("G minor", 8)], none, 4).plan(), Err(RequestError::NoCrooks(1)));
        assert!(asked(&[], players(2, 0), 4).plan().unwrap().outcome.plans[0].notes.is_empty());
        // The longest that is planned, and what is longer.
        assert!(asked(&[("G minor", 10_000)], players(4, 2), 4).plan().is_ok());
        let long = asked(&[("G minor", 10_001)], players(4, 2), 4).plan();
        assert!(matches!(long, Err(RequestError::TooManyNotes(_))), "{long:?}");
    }

    #[test]
    fn pairs_that_may_differ_are_planned_too() {
        let mut request = asked(&[("G minor", 32), ("Bb major", 26)], players(4, 2), 4);
        let shared = request.plan().unwrap().outcome.plans[0].total;
        request.together = false;
        let found = request.plan().unwrap().outcome;
        assert!(found.plans[0].total >= shared - 1e-6 && found.bound >= found.plans[0].total - 1e-6);
    }
}
