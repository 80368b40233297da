//! The search for plans, which may pause: a page goes on with it between two pictures.

use crate::part::{Chosen, Part};
use crate::search::{Found, PartSearch};
use crate::{Outcome, Plan, Request, RequestError, alternatives};
use crookwise_theory::order::in_order;

/// So many plans are told.
pub(crate) const PLANS: usize = 4;

/// A part that is sought for one of the plans.
#[derive(Debug)]
struct Job {
    /// The place of the plan; the first is the best.
    plan: usize,
    /// The place of the part.
    at: usize,
    search: PartSearch,
}

/// A search for the best plans of a request, and for the next best behind them.
#[derive(Debug)]
pub struct PlanSearch {
    request: Request,
    parts: Vec<Part>,
    /// What was found, for each plan and each of its parts.
    found: Vec<Vec<Found>>,
    /// What is still to be sought, the next last.
    jobs: Vec<Job>,
    /// Whether the other plans are among those to be sought.
    has_others: bool,
}

impl PlanSearch {
    /// A search for a request.
    ///
    /// # Errors
    /// Where the request asks for what cannot be: see [`RequestError`].
    pub fn of(request: Request) -> Result<Self, RequestError> {
        request.check()?;
        let parts = Part::all(&request);
        let best = parts.iter().map(Found::nothing).collect();
        let jobs = parts.iter().enumerate().rev().map(|(at, part)| Job::of(0, at, part.clone())).collect();
        Ok(Self { request, parts, found: vec![best], jobs, has_others: false })
    }

    /// What it seeks plans for.
    #[must_use]
    pub const fn request(&self) -> &Request {
        &self.request
    }

    /// Goes on for so many steps; whether it is over. A step is about a hundredth of a thousandth of a second; ten thousand of
    /// them at a time leave a page awake.
    pub fn go_on(&mut self, mut steps: usize) -> bool {
        while let Some(job) = self.jobs.last_mut() {
            let is_over = job.search.go_on(&mut steps);
            if let Some(found) = self.found.get_mut(job.plan).and_then(|found| found.get_mut(job.at)) {
                found.clone_from(job.search.found());
            }
            if !is_over {
                return false;
            }
            self.jobs.pop();
            if self.jobs.is_empty() && !self.has_others {
                self.seek_others();
            }
        }
        true
    }

    /// Whether the best plan is found as far as it is sought, and only the next best are still to come.
    #[must_use]
    pub const fn has_best(&self) -> bool {
        self.has_others
    }

    fn seek_others(&mut self) {
        self.has_others = true;
        let Some(best) = self.found.first().cloned() else { return };
        for (other, parts) in alternatives::all(&self.parts, &best).into_iter().enumerate() {
            let mut found = best.clone();
            for (at, part) in parts {
                if let Some(found) = found.get_mut(at) {
                    *found = Found::nothing(&part);
                }
                self.jobs.push(Job::of(other + 1, at, part));
            }
            self.found.push(found);
        }
        self.jobs.reverse();
    }

    /// What was found so far. While the search goes on, other plans are told once they are found.
    #[must_use]
    pub fn outcome(&self) -> Outcome {
        let is_sought = |plan: usize| self.jobs.iter().any(|job| job.plan == plan);
        let mut plans: Vec<Plan> = Vec::new();
        for (at, found) in self.found.iter().enumerate() {
            if at > 0 && is_sought(at) {
                continue;
            }
            let plan = Plan::of(&self.request, &chosen(&self.parts, found));
            if plans.iter().all(|one| one.stretches != plan.stretches) {
                plans.push(plan);
            }
        }
        let mut plans = in_order(plans, Plan::rank);
        plans.truncate(PLANS);
        let best = self.found.first().map(Vec::as_slice).unwrap_or_default();
        let total = plans.first().map_or(0.0, |plan| plan.total);
        let bound = best.iter().map(|found| found.bound).sum::<f64>().max(total);
        Outcome { optimal: best.iter().all(|found| found.is_best), bound, plans }
    }
}

impl Job {
    fn of(plan: usize, at: usize, part: Part) -> Self {
        Self { plan, at, search: PartSearch::of(part) }
    }
}

/// Who plays each note on which crook, in the order of the request.
fn chosen(parts: &[Part], found: &[Found]) -> Vec<Option<Chosen>> {
    let notes: usize = parts.iter().map(|part| part.notes.len()).sum();
    let mut all = vec![None; notes];
    for (part, found) in parts.iter().zip(found) {
        for (note, choice) in part.notes.iter().zip(&found.choices) {
            if let Some(place) = all.get_mut(note.index) {
                *place = choice.map(|choice| part.chosen(choice));
            }
        }
    }
    all
}
