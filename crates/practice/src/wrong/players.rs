//! What explains a wrong answer about all players of a staff.

use super::{Scene, Wrong, is_told, single};
use crate::answer::Answer;
use crate::mistake::Mistake;
use crate::question::{Question, Spot};
use crate::slip::Change;
use crookwise_theory::{Interval, Pitch};

/// The answers of who slips with all players, or with one of them alone.
pub(super) fn of_players(question: &Question) -> Option<Vec<Wrong>> {
    let Answer::Notes(right) = &question.right else { return None };
    let staff = question.passage.staves().get(question.at.staff)?;
    let mut scenes = Vec::new();
    for player in 0..staff.players() {
        let at = Spot { player, ..question.at };
        scenes.push(Scene::of(&question.passage, at, None)?.slips()?);
    }
    let led: Vec<Pitch> = scenes.iter().map(|(steps, _)| steps.lead()).collect();
    let mut found = Vec::new();
    for (player, (steps, slips)) in scenes.iter().enumerate() {
        for slip in slips {
            // The same slip by all, and by this player alone.
            let alone = |other: usize, note: Pitch| {
                if other == player { steps.with(slip.change).lead() } else { note }
            };
            let all = scenes.iter().map(|(steps, slips)| {
                let own = slips
                    .iter()
                    .find(|own| own.mistake == slip.mistake && same_sort(own.change, slip.change));
                own.map_or(steps.lead(), |own| steps.with(own.change).lead())
            });
            let mut answers = vec![all.collect::<Vec<Pitch>>()];
            if right.len() > 1 {
                answers.push(led.iter().enumerate().map(|(other, note)| alone(other, *note)).collect());
            }
            for mut notes in answers {
                if right.len() == 1 {
                    notes.truncate(1);
                }
                let told = is_told(slip, steps.with(slip.change), *steps);
                found.push(Wrong { told, ..single(Answer::Notes(notes), slip.mistake) });
            }
        }
    }
    if let [only] = right[..] {
        let two = Answer::Notes(vec![only, only + -Interval::OCTAVE]);
        found.push(single(two, Mistake::ATwo));
    }
    Some(found)
}

/// Whether two changes are of one sort and, for octaves and letters, of one size.
fn same_sort(one: Change, other: Change) -> bool {
    match (one, other) {
        (Change::Octaves(_) | Change::Letters(_), _) => one == other,
        _ => core::mem::discriminant(&one) == core::mem::discriminant(&other),
    }
}
