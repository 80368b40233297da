//! What is missing at a gap, and the crooks that would have it: each with what it gains or loses over all.

use super::gaps::Gap;
use super::hand_mending::{in_keys, in_notes};
use super::wishes::{WishTally, wishes};
use super::{Crooks, ShownPlan, setting};
use crate::words::Names;
use crate::words::crook_gaps as gap_words;
use crate::words::crooks as words;
use crookwise_planner::of_keys::{FixedCrook, KeyRequest};
use crookwise_planner::written::Grid;
use crookwise_planner::{
    KeyRemedy, Planned, Remedy, RemedyKind, between_rests, number_in_family, remedies, teams,
};
use crookwise_share::crooks::{CrooksLink, MendedNote};
use crookwise_theory::order::put_in_order;
use crookwise_theory::{Pitch, Production, Tonic};

/// A note that is missing.
#[derive(Clone, Debug, PartialEq)]
pub struct MissingNote {
    /// The note; where any octave of it would do, in that of middle C.
    pub pitch: Pitch,
    /// Which it is, and how often it is missing.
    pub said: String,
    /// What can be done.
    pub remedies: Vec<OfferedRemedy>,
}

/// What a remedy changes.
#[derive(Clone, Debug, PartialEq)]
pub enum Mend {
    /// A crook is taken in a key.
    Crook(FixedCrook),
    /// Notes are played otherwise.
    Notes(Vec<MendedNote>),
    /// A way of making notes is asked for that was not.
    Asking(Production),
}

/// What can be done, as it is offered.
#[derive(Clone, Debug, PartialEq)]
pub struct OfferedRemedy {
    /// Who plays what, on which crook, and how it is made.
    pub said: String,
    /// What that gains or loses over all; empty where it is not known before it is tried.
    pub gain: String,
    /// What it changes; nothing where it is only advice.
    pub mend: Option<Mend>,
}

/// What is missing at a gap.
#[must_use]
pub fn missing(
    asked: &CrooksLink,
    plans: &Planned,
    shown: &ShownPlan,
    gap: &Gap,
    names: Names,
) -> Vec<MissingNote> {
    match gap.stretch {
        Some(stretch) => {
            let (request, held) = (setting::key_request(asked), held(plans));
            let (now, at) = ((&request, held), (asked, plans, shown));
            let of = |(tonic, bars): &(Tonic, usize)| {
                let all = request.remedies(stretch, *tonic);
                let mut all: Vec<(i64, OfferedRemedy)> =
                    all.iter().map(|remedy| offered(asked, now, remedy, names)).collect();
                let wants = |at: &usize| {
                    plans.request.notes.get(*at).is_some_and(|note| note.sounding.0.tonic() == *tonic)
                };
                let notes: Vec<usize> = gap.notes.iter().copied().filter(wants).collect();
                all.extend(in_keys(at, now, &notes, names));
                // What gains most stands first.
                put_in_order(&mut all, |(gain, _)| core::cmp::Reverse(*gain));
                MissingNote {
                    pitch: Pitch::new(tonic.step, tonic.alter, 4),
                    said: gap_words::missing_in(*tonic, *bars, names),
                    remedies: all.into_iter().map(|(_, remedy)| remedy).collect(),
                }
            };
            gap.missing.iter().map(of).collect()
        }
        None => missing_notes(asked, plans, shown, gap, names),
    }
}

/// Notes of the same sound for the same player are mended together.
fn missing_notes(
    asked: &CrooksLink,
    plans: &Planned,
    shown: &ShownPlan,
    gap: &Gap,
    names: Names,
) -> Vec<MissingNote> {
    let request = &plans.request;
    let key = |at: usize| request.notes.get(at).map(|note| (note.sounding, note.player));
    let mut alike: Vec<Vec<usize>> = Vec::new();
    for at in &gap.notes {
        match alike.iter_mut().find(|one| one.first().and_then(|first| key(*first)) == key(*at)) {
            Some(one) => one.push(*at),
            None => alike.push(vec![*at]),
        }
    }
    let of = |all: Vec<usize>| {
        let first = *all.first()?;
        let note = request.notes.get(first)?;
        let who = note.player.map(|player| row(asked, &[player])).unwrap_or_default();
        let at = (asked, plans, shown);
        let others = remedies(request, &shown.plan, first);
        let others = others.iter().map(|remedy| offered_for_notes(at, remedy, &all, names));
        Some(MissingNote {
            pitch: note.sounding.0,
            said: gap_words::missing_note(&names.note(note.sounding.0), &who, all.len()),
            remedies: in_notes(at, &all, names).into_iter().chain(others).collect(),
        })
    };
    alike.into_iter().filter_map(of).collect()
}

/// What is asked, the plans for it, and the one that is looked at.
pub(super) type LookedAt<'a> = (&'a CrooksLink, &'a Planned, &'a ShownPlan);

fn offered_for_notes(at: LookedAt<'_>, remedy: &Remedy, notes: &[usize], names: Names) -> OfferedRemedy {
    let (asked, ..) = at;
    let who = row(asked, &[remedy.player]);
    let (sounding, made) = (names.note(remedy.sounding.0), remedy.making.production);
    let said = match remedy.kind {
        RemedyKind::OtherPlayer => gap_words::other_player(&who, made),
        RemedyKind::Octave => gap_words::other_octave(&sounding, made),
        RemedyKind::ChordMember => gap_words::other_member(&sounding, made),
        RemedyKind::OtherCrook => return other_crook(at, remedy, notes, names),
    };
    let mended = notes.iter().map(|note| mended(remedy, *note, false)).collect();
    OfferedRemedy { said, gain: String::new(), mend: Some(Mend::Notes(mended)) }
}

fn mended(remedy: &Remedy, note: usize, firm: bool) -> MendedNote {
    MendedNote { note, sounding: remedy.sounding, player: Some(remedy.player), firm }
}

/// Another crook between rests that are long enough, for the notes between them. Where none are it is advice: a rest for the
/// change is the composer's to make.
fn other_crook(
    (asked, plans, shown): LookedAt<'_>,
    remedy: &Remedy,
    notes: &[usize],
    names: Names,
) -> OfferedRemedy {
    let (who, made) = (row(asked, &who(asked, remedy.player)), remedy.making.production);
    let first = notes.first().copied().unwrap_or_default();
    let Some(rests) = between_rests(&plans.request, &shown.plan, first, remedy.player, remedy.crook) else {
        let said = gap_words::other_crook(&who, remedy.crook, made, names);
        return OfferedRemedy { said, gain: String::new(), mend: None };
    };
    let bars = Grid::of(&setting::layout(asked).reaching(rests.time.1)).bars_of(rests.time);
    let is_there = |note: &&usize| {
        let note = plans.request.notes.get(**note);
        note.is_some_and(|note| rests.time.0 <= note.from && note.to <= rests.time.1)
    };
    let there = notes.iter().filter(is_there).map(|note| mended(remedy, *note, true)).collect();
    OfferedRemedy {
        said: gap_words::crook_between(&who, remedy.crook, shown.picture.printed(bars), made, names),
        gain: gap_words::lost_there(rests.lost, rests.played),
        mend: Some(Mend::Notes(there)),
    }
}

fn offered(
    asked: &CrooksLink,
    (request, held): (&KeyRequest, i64),
    remedy: &KeyRemedy,
    names: Names,
) -> (i64, OfferedRemedy) {
    let who = who(asked, remedy.fixed.player);
    let gain = gained(&request.with(remedy.fixed, &who), held);
    let made = remedy.given.making;
    let said =
        gap_words::remedy(&row(asked, &who), remedy.fixed.crook, made.written.0, made.production, names);
    (gain, OfferedRemedy { said, gain: gap_words::gains(gain), mend: Some(Mend::Crook(remedy.fixed)) })
}

/// How many wishes more the best plan of another request holds than so many; none where it has no plan.
pub(super) fn gained(other: &KeyRequest, held: i64) -> i64 {
    other.plan().map_or(0, |found| self::held(&found) - held)
}

/// Players as a row names them.
pub(super) fn row(asked: &CrooksLink, players: &[usize]) -> String {
    let family = players.first().and_then(|at| asked.players.get(*at)).map(|player| player.family);
    let numbers: Vec<usize> = players.iter().map(|at| number_in_family(&asked.players, *at)).collect();
    family.map(|family| words::row(family, &numbers)).unwrap_or_default()
}

/// How many wishes the best plan holds.
fn held(plans: &Planned) -> i64 {
    let best = plans.outcome.plans.first().map(|plan| WishTally::of(&wishes(&plans.request, plan)).held());
    i64::try_from(best.unwrap_or_default()).unwrap_or(i64::MAX)
}

/// A player and who shares his crook.
pub(super) fn who(asked: &CrooksLink, player: usize) -> Vec<usize> {
    let all = teams(&asked.players, asked.together);
    all.into_iter().find(|team| team.contains(&player)).unwrap_or_default()
}

impl Crooks {
    /// Takes a remedy: a step that can be taken back.
    pub fn mend(self, mend: Mend) {
        self.change(|asked| {
            match mend {
                Mend::Crook(fixed) => {
                    let who = who(asked, fixed.player);
                    asked.fixed = setting::key_request(asked).with(fixed, &who).fixed;
                }
                Mend::Asking(way) => asked.weights = asked.weights.clone().asking(way),
                Mend::Notes(notes) => {
                    asked.mended.retain(|one| notes.iter().all(|note| note.note != one.note));
                    asked.mended.extend(notes);
                    put_in_order(&mut asked.mended, |one| one.note);
                }
            }
            asked.plan = 0;
        });
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::state::crooks::SoughtPlans;
    use crate::state::crooks::setting::{HandAsked, first, of_link, set_hand};
    use crookwise_planner::{Ticks, WantedNote};
    use crookwise_share::crooks::CrooksWanted;
    use leptos::prelude::Owner;

    /// A bar of four quarters for a player.
    pub(in super::super) fn note(from: i64, sounding: &str, player: usize) -> WantedNote {
        let quarters = |many: i64| Ticks::of_fraction(many, 1).unwrap();
        let free = WantedNote::free(quarters(from), quarters(from + 4), sounding.parse().unwrap());
        WantedNote { player: Some(player), ..free }
    }

    /// Finds the plans for what is asked; gives the one that is looked at.
    pub(in super::super) fn seek(crooks: Crooks) -> ShownPlan {
        let asked = crooks.asked.get();
        let request = asked.request();
        let outcome = crookwise_planner::plan(&request).unwrap();
        let found = Ok(Planned { request, outcome });
        crooks.sought.set(Some(SoughtPlans { asked, found, goes_on: false }));
        crooks.shown.get().unwrap()
    }

    /// What is missing at the first gap.
    pub(in super::super) fn first_missing(crooks: Crooks, shown: &ShownPlan) -> Vec<MissingNote> {
        let plans = crooks.plans.get().unwrap();
        missing(&crooks.setting.read(), &plans, shown, &shown.picture.gaps[0], Names::default())
    }

    #[test]
    fn a_remedy_is_taken_and_taken_back() {
        let owner = Owner::new();
        owner.set();
        let mut asked = first();
        set_hand(&mut asked, HandAsked::None);
        let crooks = Crooks::new(asked);
        let shown = crooks.shown.get().unwrap();
        let gap = shown.picture.gaps.first().expect("without the hand something is missing").clone();
        let found = missing(
            &crooks.setting.read(),
            crooks.plans.read().as_ref().as_ref().unwrap(),
            &shown,
            &gap,
            Names::default(),
        );
        assert_eq!(found.len(), gap.missing.len());
        for note in &found {
            let gain = |one: &OfferedRemedy| {
                let many: i64 =
                    one.gain.split(' ').next().and_then(|many| many.parse().ok()).unwrap_or_default();
                if one.gain.contains("fewer") { -many } else { many }
            };
            assert!(note.remedies.is_sorted_by(|one, other| gain(one) >= gain(other)), "{:?}", note.remedies);
        }
        let (note, remedy) = found
            .iter()
            .find_map(|note| Some((note.pitch.tonic(), note.remedies.first()?.clone())))
            .expect("a remedy");
        crooks.mend(remedy.mend.clone().unwrap());
        let mended = crooks.shown.get().unwrap();
        let is_gap = |one: &&Gap| {
            (one.stretch, one.why) == (gap.stretch, gap.why)
                && one.missing.iter().any(|(tonic, _)| *tonic == note)
        };
        let left = mended.picture.gaps.iter().find(is_gap);
        let bars =
            |gap: &Gap| gap.missing.iter().find(|(tonic, _)| *tonic == note).map_or(0, |(_, bars)| *bars);
        assert!(left.map_or(0, bars) < bars(&gap), "{remedy:?} {left:?}");
        assert!(crooks.undo());
        assert_eq!(crooks.shown.get().unwrap(), shown);
    }

    #[test]
    fn a_note_that_nobody_has_is_mended_in_its_row() {
        let owner = Owner::new();
        owner.set();
        let link = "#/crooks?keys=&horn=1_1_G&horn=1_2_Bb+alto";
        let mut asked = of_link(link);
        // Sounding B-flat 2 lies too low for the horn in G.
        let notes = vec![note(0, "G4", 0), note(0, "Bb4", 1), note(4, "Bb2", 0), note(4, "D4", 1)];
        asked.wanted = CrooksWanted::Notes(notes);
        let crooks = Crooks::new(asked);
        assert!(crooks.shown.get().is_none() && crooks.plans.get() == Err(String::new()));
        let shown = seek(crooks);
        assert_eq!((shown.picture.bars, shown.picture.rows.len(), shown.picture.gaps.len()), (2, 2, 1));
        let gap = &shown.picture.gaps[0];
        assert_eq!((gap.row, gap.bars, gap.notes.as_slice()), (Some(0), (2, 2), [2].as_slice()));
        // The horn in G has a B-flat, but not this one.
        assert_eq!(gap.said(&shown.picture, Names::default()), "Bar 2: nobody has B♭2");
        let plans = crooks.plans.get().unwrap();
        let found = missing(&crooks.setting.read(), &plans, &shown, gap, Names::default());
        let octave = found[0].remedies.iter().find(|one| one.said.contains("B♭3")).expect("an octave");
        crooks.mend(octave.mend.clone().unwrap());
        assert!(crooks.shown.get().is_none(), "another search");
        let mended = seek(crooks);
        assert_eq!((mended.picture.gaps.len(), mended.tally.held()), (0, 4));
        assert!(crooks.undo());
    }

    #[test]
    fn a_crook_is_changed_for_a_note_where_the_rests_are_there() {
        let owner = Owner::new();
        owner.set();
        let link = "#/crooks?keys=&horn=1_1_G.F&change=8&cost=0.8";
        let mut asked = of_link(link);
        // The low G is on the crook in G alone, the low F on that in F; three bars of rest lie between them.
        let notes = vec![note(0, "G2", 0), note(16, "F2", 0), note(32, "G2", 0), note(36, "G2", 0)];
        asked.wanted = CrooksWanted::Notes(notes);
        let crooks = Crooks::new(asked);
        let shown = seek(crooks);
        assert_eq!((shown.tally.held(), shown.plan.changes()), (3, 0));
        let found = first_missing(crooks, &shown);
        let other = found[0].remedies.iter().find(|one| one.said.contains("in F")).expect("another crook");
        assert!(other.said.contains("Bar 5, with rest enough"), "{other:?}");
        assert_eq!(other.gain, "It has all that is played there.");
        crooks.mend(other.mend.clone().unwrap());
        let shown = seek(crooks);
        assert_eq!((shown.tally.held(), shown.plan.changes()), (4, 2));
        assert!(crooks.undo());
    }
}
