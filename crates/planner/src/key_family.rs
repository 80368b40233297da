//! The horns of a plan of keys, or its trumpets: who shares a crook, what each crook gives of each chord, and who holds what.

use crate::key_plan::{MEMBERS, chord_of_bar};
use crate::key_table::{chords, degrees};
use crate::of_keys::{FixedCrook, KeyRequest};
use crate::request::{NamedCrook, WantedNote, teams};
use crate::ticks::Ticks;
use crookwise_theory::order::in_order;
use crookwise_theory::{CrookFamily, Key};

/// What a crook gives of the three members of each of the three chords of a key.
type ChordGains = [[f64; 3]; 3];

/// Which team holds each member of a chord.
pub type Holders = [Option<usize>; 3];

/// Players of one crook.
#[derive(Clone, Debug)]
pub struct KeyTeam {
    /// Who they are, as indices into the players of the request.
    pub players: Vec<usize>,
    /// The crooks they may take, none of them as good as another in every key that is wanted.
    pub crooks: Vec<NamedCrook>,
    /// For each crook and each key wanted what it gives.
    gains: Vec<Vec<ChordGains>>,
}

/// All players of a family.
#[derive(Clone, Debug)]
pub struct KeyFamily {
    /// Who shares a crook.
    pub teams: Vec<KeyTeam>,
    /// The keys wanted, each once.
    keys: Vec<Key>,
}

impl KeyFamily {
    /// The players of a family in a request; `None` where there are none.
    pub fn of(request: &KeyRequest, family: CrookFamily) -> Option<Self> {
        let mut keys: Vec<Key> = Vec::new();
        for stretch in &request.stretches {
            if !keys.contains(&stretch.key) {
                keys.push(stretch.key);
            }
        }
        let is_own = |team: &Vec<usize>| team.iter().any(|at| request.players[*at].family == family);
        let teams = teams(&request.players, request.together).into_iter().filter(is_own);
        let teams: Vec<KeyTeam> = teams.map(|players| KeyTeam::of(request, &players, &keys)).collect();
        (!teams.is_empty()).then_some(Self { teams, keys })
    }

    /// The place of a key among those wanted.
    pub fn place_of(&self, key: Key) -> usize {
        self.keys.iter().position(|one| *one == key).unwrap_or_default()
    }

    /// What the teams that play hold of a chord, each on one of its crooks, and what that is worth: the most there is.
    pub fn held(&self, key: usize, chord: usize, crooks: &[u8], plays: u32) -> (f64, Holders) {
        let mut room: Vec<usize> = Vec::with_capacity(self.teams.len());
        let mut gains: Vec<[f64; 3]> = Vec::with_capacity(self.teams.len());
        for (at, (team, crook)) in self.teams.iter().zip(crooks).enumerate() {
            room.push(if plays & (1 << at) == 0 { 0 } else { team.players.len() });
            let given = team.gains.get(usize::from(*crook)).and_then(|keys| keys.get(key));
            gains.push(given.map_or([0.0; 3], |chords| chords[chord]));
        }
        best(&gains, &mut room, 0)
    }
}

/// The best that the members from one on can be held by teams with so much room.
fn best(gains: &[[f64; 3]], room: &mut [usize], member: usize) -> (f64, Holders) {
    if member == 3 {
        return (0.0, [None; 3]);
    }
    let mut found = best(gains, room, member + 1);
    for team in 0..gains.len() {
        let gain = gains[team][member];
        if gain <= 0.0 || room[team] == 0 {
            continue;
        }
        room[team] -= 1;
        let (more, mut holders) = best(gains, room, member + 1);
        room[team] += 1;
        if gain + more > found.0 + ALIKE {
            holders[member] = Some(team);
            found = (gain + more, holders);
        }
    }
    found
}

/// What differs by less is the same.
const ALIKE: f64 = 1e-9;

impl KeyTeam {
    /// The crooks of which every one of the players has his own. Of those that give the same in all keys, as the two octaves of
    /// a horn's key do, one is enough: the one that a remedy has fixed, else one that was
    /// usual, else the first.
    fn of(request: &KeyRequest, players: &[usize], keys: &[Key]) -> Self {
        let owned =
            |at: &usize| request.players.get(*at).map(|player| player.crooks.as_slice()).unwrap_or_default();
        let all_own = |named: &&NamedCrook| {
            players.iter().all(|at| owned(at).iter().any(|own| own.crook == named.crook))
        };
        let first = players.first().map(owned).unwrap_or_default();
        let is_fixed = |named: &NamedCrook| {
            let is = |one: &FixedCrook| players.contains(&one.player) && one.crook == named.crook;
            request.fixed.iter().any(is)
        };
        let usual = first.first().map(|named| NamedCrook::classical(named.crook.family)).unwrap_or_default();
        let rank = |named: &&NamedCrook| {
            if is_fixed(named) {
                0
            } else if usual.iter().any(|one| one.crook == named.crook) {
                1
            } else {
                2
            }
        };
        let sorted = in_order(first.iter().filter(all_own), rank);
        let mut team = Self { players: players.to_vec(), crooks: Vec::new(), gains: Vec::new() };
        for named in sorted {
            let gains: Vec<ChordGains> = keys.iter().map(|key| given(request, named, *key)).collect();
            if is_fixed(named) || !team.gains.contains(&gains) {
                team.crooks.push(named.clone());
                team.gains.push(gains);
            }
        }
        team
    }
}

fn given(request: &KeyRequest, named: &NamedCrook, key: Key) -> ChordGains {
    let degrees = degrees(key);
    chords(key).map(|chord| {
        core::array::from_fn(|member| {
            let Some(degree) = degrees.get(chord.members[member]) else { return 0.0 };
            let note = WantedNote::in_any_octave(Ticks(0), Ticks(1), degree.tonic);
            note.given_on(named.crook, &request.weights).making.worth * MEMBERS[member]
        })
    })
}

/// In how many of these bars of a stretch each of the three chords stands.
pub fn chords_in(bars: core::ops::Range<u32>) -> [f64; 3] {
    let mut count = [0.0; 3];
    for bar in bars {
        count[chord_of_bar(bar)] += 1.0;
    }
    count
}
