//! Why none of the crooks at hand has a note, in a sentence.

use super::Names;
use super::crook_table::{lower, players, way};
use crookwise_planner::out_of_reach::{OutOfReach, SoundingPartial};
use crookwise_theory::{Crook, CrookFamily, Production};

/// So many crooks are spoken of one by one; of more it is counted.
const ONE_BY_ONE: usize = 2;

/// Why a note is out of reach, for each crook at hand.
#[must_use]
pub fn out_of_reach(note: &str, why: &[(&'static Crook, OutOfReach)], names: Names) -> String {
    let reasons: Vec<String> = match why {
        [] => vec!["nobody is at hand".to_owned()],
        few if few.len() <= ONE_BY_ONE => few.iter().map(|(crook, why)| one(crook, *why, names)).collect(),
        many => counted(many),
    };
    format!("{note} is out of reach: {}.", reasons.join("; "))
}

fn one(crook: &Crook, why: OutOfReach, names: Names) -> String {
    let who = lower(&players(crook, names));
    let named = |(number, sounding): SoundingPartial| (number, names.note(sounding.0));
    match why {
        OutOfReach::Below(lowest) => format!("{who} have nothing below {}", names.note(lowest.0)),
        OutOfReach::AboveAsked(top) => {
            let (number, note) = named(top);
            format!("{who} end at {note}, since partial {number} is the highest that is asked")
        }
        OutOfReach::Above(top) => {
            let (number, note) = named(top);
            format!("{who} end at {note}, partial {number}")
        }
        OutOfReach::Between(below, above) => {
            let ((one, low), (other, high)) = (named(below), named(above));
            let hand = match crook.family {
                CrookFamily::Horn => "too far for the hand",
                CrookFamily::Trumpet => "and no hand shapes it",
            };
            format!("on {who} it lies between partials {one} and {other} ({low}, {high}), {hand}")
        }
        OutOfReach::NotAsked(Production::Lipped) => {
            format!("on {who} the lip would have to bend it, which is not allowed")
        }
        OutOfReach::NotAsked(production) => {
            format!("on {who} it is made {}, which is not allowed", way(production))
        }
    }
}

/// How many crooks have it not for each reason.
fn counted(why: &[(&'static Crook, OutOfReach)]) -> Vec<String> {
    let many = |is: fn(OutOfReach) -> bool| why.iter().filter(|(_, why)| is(*why)).count();
    let all = [
        (many(|why| matches!(why, OutOfReach::Below(_))), "too low for"),
        (many(|why| matches!(why, OutOfReach::Above(_))), "too high for"),
        (many(|why| matches!(why, OutOfReach::AboveAsked(_))), "above the highest partial asked on"),
        (many(|why| matches!(why, OutOfReach::Between(..))), "between two partials on"),
        (many(|why| matches!(why, OutOfReach::NotAsked(_))), "made in a way that is not allowed on"),
    ];
    let said = |(many, reason): (usize, &str)| match many {
        0 => None,
        1 => Some(format!("{reason} one crook")),
        many => Some(format!("{reason} {many} crooks")),
    };
    all.into_iter().filter_map(said).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_planner::out_of_reach::why;
    use crookwise_planner::{NamedCrook, Weights};
    use crookwise_theory::Sounding;

    fn said(crooks: &[(CrookFamily, &str)], note: &str, weights: &Weights) -> String {
        let all: Vec<_> = crooks
            .iter()
            .filter_map(|(family, name)| {
                let crook = NamedCrook::named(*family, name).unwrap().crook;
                Some((crook, why(crook, Sounding(note.parse().unwrap()), weights)?))
            })
            .collect();
        out_of_reach(note, &all, Names::default())
    }

    #[test]
    fn every_reason_is_a_sentence() {
        use CrookFamily::{Horn, Trumpet};
        let usual = Weights::default();
        let worth = [1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
        let open = Weights { worth, ..Weights::default() };
        let all = Weights { highest: 32, ..Weights::default() };
        for (crooks, note, weights, expected) in [
            (&[][..], "D4", &usual, "D4 is out of reach: nobody is at hand."),
            (&[(Trumpet, "D")], "G3", &usual, "G3 is out of reach: trumpets in D have nothing below A3."),
            (
                &[(Trumpet, "D")],
                "E4",
                &usual,
                "E4 is out of reach: on trumpets in D it lies between partials 4 and 5 (D4, F♯4), and no hand shapes it.",
            ),
            (
                &[(Horn, "D")],
                "B4",
                &usual,
                "B4 is out of reach: horns in D end at A4, since partial 12 is the highest that is asked.",
            ),
            (&[(Horn, "D")], "E5", &all, "E5 is out of reach: horns in D end at D5, partial 16."),
            (
                &[(Horn, "D")],
                "E3",
                &open,
                "E3 is out of reach: on horns in D it is made ¾ stopped, which is not allowed.",
            ),
            (
                &[(Trumpet, "D")],
                "G5",
                &open,
                "G5 is out of reach: on trumpets in D the lip would have to bend it, which is not allowed.",
            ),
            (
                &[(Horn, "D"), (Horn, "C basso"), (Trumpet, "D"), (Trumpet, "C")],
                "Eb2",
                &usual,
                "Eb2 is out of reach: too low for 2 crooks; between two partials on 2 crooks.",
            ),
        ] {
            assert_eq!(said(crooks, note, weights), expected);
        }
    }
}
