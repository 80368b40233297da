//! Crooks that are not needed in a search: whatever they have of its notes, another crook of the team has at least as well. Of
//! notes that may stand in any octave, that is one of two crooks an octave apart.

use crate::part::{Part, PartNote, chosen};

/// A part with the crooks that are needed, and for each of its teams the places that these have in the lists of the whole part.
///
/// No plan is lost that is worth more: where a crook is taken for another all along, no note is worth less, nobody changes more
/// often, and whoever owned the one owns the other.
pub fn without(part: &Part) -> (Part, Vec<Vec<u8>>) {
    let kept: Vec<Vec<usize>> = (0..part.teams.len()).map(|team| needed(part, team)).collect();
    let notes = part.notes.iter().map(|note| {
        let gains = note.gains.iter().zip(&kept).map(|(gains, kept)| chosen(gains, kept)).collect();
        PartNote { gains, ..note.clone() }
    });
    let teams = part.teams.iter().zip(&kept).map(|(team, kept)| team.with_crooks(kept));
    let (notes, teams) = (notes.collect(), teams.collect());
    // No family has as many crooks as a number of 8 bits counts.
    let places = kept.iter().map(|kept| kept.iter().map(|crook| *crook as u8).collect()).collect();
    (Part { notes, teams, seats: part.seats.clone(), ..*part }, places)
}

/// The crooks of a team that no other makes needless; of two that are alike the first.
fn needed(part: &Part, at: usize) -> Vec<usize> {
    let team = &part.teams[at];
    let all = 0..team.crooks.len();
    let owned = |crook: &usize| team.owns.iter().any(|owns| owns[*crook]);
    let owns_no_less = |one: usize, other: usize| team.owns.iter().all(|owns| owns[one] || !owns[other]);
    let own = |note: &&PartNote| note.whose.is_none_or(|(whose, _)| whose == at);
    let has_no_less = |one: usize, other: usize| {
        part.notes.iter().filter(own).all(|note| note.gains[at][one] >= note.gains[at][other])
    };
    let beats = |one: usize, other: usize| owns_no_less(one, other) && has_no_less(one, other);
    let is_needless = |crook: usize| {
        all.clone()
            .any(|other| other != crook && beats(other, crook) && (other < crook || !beats(crook, other)))
    };
    all.clone().filter(owned).filter(|crook| !is_needless(*crook)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{CrookPlayer, NamedCrook, Request, Ticks, WantedNote, Weights};
    use crookwise_theory::CrookFamily;

    /// The crooks of the only team that are needed, for a pair that owns these, which wants one note.
    fn names(owned: [&[&str]; 2], note: WantedNote) -> Vec<&'static str> {
        let named = |name: &&str| NamedCrook::named(CrookFamily::Horn, name).unwrap();
        let players = owned.map(|crooks| CrookPlayer {
            family: CrookFamily::Horn,
            crooks: crooks.iter().map(named).collect(),
            pair: Some(1),
        });
        let request = Request {
            notes: vec![note],
            players: players.into(),
            change_time: Ticks(1),
            together: true,
            weights: Weights::default(),
        };
        let (needed, places) = without(&Part::all(&request)[0]);
        let whole = &Part::all(&request)[0].teams[0];
        let of_places: Vec<_> = places[0].iter().map(|at| whole.crooks[usize::from(*at)].name).collect();
        let own: Vec<_> = needed.teams[0].crooks.iter().map(|crook| crook.name).collect();
        assert_eq!(own, of_places);
        own
    }

    #[test]
    fn a_crook_that_another_does_as_well_is_not_needed() {
        let quarter = (Ticks(0), Ticks(1));
        let d_4 = WantedNote::free(quarter.0, quarter.1, "D4".parse().unwrap());
        let any_d = WantedNote::in_any_octave(quarter.0, quarter.1, "D".parse().unwrap());
        let all: &[&str] = &["Bb basso", "Bb alto", "D"];
        // Open on D, on partial 5 of B-flat alto, and on partial 10 of B-flat basso: the first that has it so.
        assert_eq!(names([all, all], d_4.clone()), ["B-flat basso"]);
        // In any octave D has it most usually, and the two in B-flat alike.
        assert_eq!(names([all, all], any_d.clone()), ["D"]);
        assert_eq!(names([&all[..2], &all[..2]], any_d.clone()), ["B-flat basso"]);
        // It is needed where one of the pair has no other.
        assert_eq!(names([&["Bb basso"], &["D"]], any_d), ["B-flat basso", "D"]);
        // Out of reach on every crook: one stands for all.
        assert_eq!(names([all, all], WantedNote { weight: 0.0, ..d_4 }), ["B-flat basso"]);
    }
}
