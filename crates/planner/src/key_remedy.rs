//! What can be done about a note that nobody has in a key: another crook there, and what that costs elsewhere.

use crate::key_course::{KeyCourse, Without};
use crate::key_family::KeyFamily;
use crate::key_table::Given;
use crate::of_keys::{FAMILIES, FixedCrook, KeyRequest};
use crate::request::WantedNote;
use crate::ticks::Ticks;
use crookwise_theory::Tonic;
use crookwise_theory::order::in_order;

/// A crook that would have what a key is missing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeyRemedy {
    /// Who would take it where.
    pub fixed: FixedCrook,
    /// How the note would be made on it.
    pub given: Given,
    /// What the best plan loses by it over all, from 0 on.
    pub loss: f64,
}

/// So many remedies are told.
const REMEDIES: usize = 4;

impl KeyRequest {
    /// Crooks on which somebody would have a note in a stretch, those first that cost least elsewhere; nothing where no crook
    /// that is owned has it.
    #[must_use]
    pub fn remedies(&self, stretch: usize, note: Tonic) -> Vec<KeyRemedy> {
        let wanted = WantedNote::in_any_octave(Ticks(0), Ticks(1), note);
        let mut all: Vec<KeyRemedy> = Vec::new();
        if stretch >= self.stretches.len() {
            return all;
        }
        for family in FAMILIES.into_iter().filter_map(|family| KeyFamily::of(self, family)) {
            let Some(best) = KeyCourse::best(&family, self, Without::Nothing) else { continue };
            for team in &family.teams {
                let Some(player) = team.players.first().copied() else { continue };
                for named in &team.crooks {
                    let given = wanted.given_on(named.crook, &self.weights);
                    if given.making.worth <= 0.0 {
                        continue;
                    }
                    let fixed = FixedCrook { stretch, player, crook: named.crook };
                    let other = self.with(fixed, &team.players);
                    let course = KeyFamily::of(&other, named.crook.family)
                        .and_then(|family| KeyCourse::best(&family, &other, Without::Nothing));
                    if let Some(course) = course {
                        all.push(KeyRemedy { fixed, given, loss: (best.total - course.total).max(0.0) });
                    }
                }
            }
        }
        let mut all = in_order(all, |one| one.loss);
        all.truncate(REMEDIES);
        all
    }

    /// The same with a crook fixed for those who share it, instead of another there.
    #[must_use]
    pub fn with(&self, fixed: FixedCrook, who: &[usize]) -> Self {
        let mut other = self.clone();
        other.fixed.retain(|one| one.stretch != fixed.stretch || !who.contains(&one.player));
        other.fixed.push(fixed);
        other
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::key_plan::KeyStretch;
    use crate::{CrookPlayer, NamedCrook, Stretch, Weights};
    use crookwise_theory::CrookFamily;

    /// D minor between two stretches of another key, for two horns and two trumpets without hand or lip.
    fn asked() -> KeyRequest {
        let of = |(key, bars): (&str, u32)| KeyStretch { key: key.parse().unwrap(), bars };
        let worth = Weights::default().worth.map(|worth| if worth == 1.0 { 1.0 } else { 0.0 });
        let player =
            |family, pair| CrookPlayer { family, crooks: NamedCrook::classical(family), pair: Some(pair) };
        let (horn, trumpet) = (player(CrookFamily::Horn, 1), player(CrookFamily::Trumpet, 2));
        KeyRequest {
            stretches: [("G minor", 16), ("D minor", 16), ("G minor", 16)].map(of).to_vec(),
            players: vec![horn.clone(), horn, trumpet.clone(), trumpet],
            rest: 4,
            together: true,
            weights: Weights { worth, ..Weights::default() },
            fixed: Vec::new(),
        }
    }

    #[test]
    fn a_remedy_gives_what_is_missing_and_tells_what_it_costs() {
        let request = asked();
        let best = request.plan().unwrap().outcome.plans[0].total;
        let found = request.remedies(1, "C#".parse().unwrap());
        assert!(!found.is_empty());
        for remedy in found {
            assert_eq!(remedy.given.sounding.0.tonic().to_string(), "C#");
            let player = remedy.fixed.player;
            let other = request.with(remedy.fixed, &[player, player + 1]).plan().unwrap().outcome;
            assert!((best - remedy.loss - other.plans[0].total).abs() < 1e-6, "{remedy:?}");
            let then = Ticks::of_fraction(25 * 4, 1).unwrap();
            let is_then = |one: &Stretch| one.player == player && one.from <= then && then < one.to;
            let on = other.plans[0].stretches.iter().find(|one| is_then(one)).map(|one| one.crook);
            assert_eq!(on, Some(remedy.fixed.crook));
        }
        assert_eq!(request.remedies(3, "C#".parse().unwrap()), []);
        let none = KeyRequest { players: Vec::new(), ..request };
        assert_eq!(none.remedies(0, "C#".parse().unwrap()), []);
    }
}
