//! The movement as it is heard: what the reader wishes, where it stands, and what is told to the ear next.

pub mod course;
pub mod cursor;
pub mod ensemble;
pub mod families;
pub mod road;

use crate::state::kept::{Derived, Watched};
use crate::state::movement::map::MapState;
use course::Tour;
use crookwise_opened::{MovementRows, PlayedRows};
use leptos::prelude::use_context;
use road::SoundingSpot;
use std::sync::Arc;

/// The slowest and the fastest tempo, in hundredths of the written one.
pub const TEMPI: (u8, u8) = (50, 120);
/// From one tempo to the next.
pub const TEMPO_STEP: u8 = 5;
/// Stretches that are remembered, at most: the rounds of a loop ask for the same ones.
const MOST_STRETCHES: usize = 48;

/// Bars of the road: the first, and the one behind the last.
pub type Places = (u32, u32);

/// Handles on what of a movement is heard; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Playback {
    /// Whether it is heard now.
    pub is_on: Watched<bool>,
    /// Where it stands, in millionths of a second along the road; nothing where it begins at its start.
    pub at: Watched<Option<u64>>,
    /// Whether the chosen bars are heard over and over.
    pub loops: Watched<bool>,
    /// How fast, in hundredths of the written tempo.
    pub tempo: Watched<u8>,
    /// Whether only the parts that are shown are heard.
    pub only_shown: Watched<bool>,
    /// The staves that are silent.
    pub muted: Watched<Vec<u32>>,
    /// The staves that are heard alone, where there are any.
    pub alone: Watched<Vec<u32>>,
    /// Where it stands in the score, once that is known.
    pub spot: Derived<Option<SoundingSpot>>,
    /// The bar of it.
    pub bar: Derived<Option<u32>>,
    /// When the reader scrolled the page himself last, in milliseconds.
    pub scrolled: Watched<f64>,
    /// What was told by the score, stretch by stretch, since it was opened or corrected last.
    stretches: Watched<Vec<(Places, Arc<PlayedRows>)>>,
}

impl Playback {
    /// Silence.
    #[must_use]
    pub fn new(map: MapState) -> Self {
        let at = Watched::new(None);
        let spot = Derived::new(move || {
            let rows = map.rows.get()?;
            road::spot_at(&rows, at.get()?)
        });
        Self {
            is_on: Watched::new(false),
            at,
            loops: Watched::new(false),
            tempo: Watched::new(100),
            only_shown: Watched::new(false),
            muted: Watched::new(Vec::new()),
            alone: Watched::new(Vec::new()),
            spot,
            bar: Derived::new(move || spot.map(|spot| spot.bar)),
            scrolled: Watched::new(0.0),
            stretches: Watched::new(Vec::new()),
        }
    }

    /// What is heard in Score.
    ///
    /// # Panics
    /// Never in Score, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("Score provides its playback")
    }

    /// The bar at which it begins: the one gone to, else the first that is chosen; of a loop none that lies beside it.
    #[must_use]
    pub fn start(self, gone_to: Option<u32>, chosen: Option<(u32, u32)>) -> u32 {
        let looped = chosen.filter(|_| self.loops.get());
        let within = |bar: &u32| looped.is_none_or(|(first, last)| (first..=last).contains(bar));
        gone_to.filter(within).or(chosen.map(|bars| bars.0)).unwrap_or(0)
    }

    /// What is to be heard from where it stands, else from a bar on: over and over the chosen bars, where they are looped, else
    /// to the end of the movement. Who stands beside the loop begins with it.
    #[must_use]
    pub fn tour(self, rows: &MovementRows, start: u32, chosen: Option<(u32, u32)>) -> Tour {
        let rounds = self.loops.get();
        let whole = (0, road::count(rows));
        let looped = chosen.filter(|_| rounds).and_then(|bars| road::places_of(rows, bars));
        let places = looped.unwrap_or(whole);
        let (begin, end) = (road::begins(rows, places.0), road::begins(rows, places.1));
        let of_start = || road::begins(rows, road::place_of(rows, start).unwrap_or(0));
        let from = self.at.get().unwrap_or_else(of_start);
        let from = if (begin..end).contains(&from) { from } else { begin };
        Tour { places, from, rounds, tempo: self.tempo.get() }
    }

    /// Another movement is open, or it was corrected: nothing that was told of it holds.
    pub fn unlearn(self) {
        self.stretches.set(Vec::new());
    }

    /// Another movement is open: nothing of the one before is wished for any more.
    pub fn empty(self) {
        self.unlearn();
        self.at.set(None);
        self.loops.set(false);
        self.muted.set(Vec::new());
        self.alone.set(Vec::new());
    }

    /// A stretch that was told.
    #[must_use]
    pub fn told(self, places: Places) -> Option<Arc<PlayedRows>> {
        self.stretches.with_untracked(|all| {
            all.iter().find(|(known, _)| *known == places).map(|(_, played)| Arc::clone(played))
        })
    }

    /// Remembers a stretch that was told; the oldest of many is forgotten.
    pub fn remember(self, places: Places, played: Arc<PlayedRows>) {
        self.stretches.update(|all| {
            if all.len() >= MOST_STRETCHES {
                all.remove(0);
            }
            all.push((places, played));
        });
    }

    /// Silences staves, or no longer where all of them are silent.
    pub fn mute(self, staves: &[u32]) {
        turn(self.muted, staves);
    }

    /// Lets staves be heard alone, with those that are so already, or no longer where all of them are.
    pub fn single_out(self, staves: &[u32]) {
        turn(self.alone, staves);
    }

    /// Whether a staff is heard; `shown` are those that stand on the screen.
    #[must_use]
    pub fn hears(self, staff: u32, shown: &[u32]) -> bool {
        let alone = self.alone.read();
        let is_wanted = if alone.is_empty() {
            !self.only_shown.get() || shown.contains(&staff)
        } else {
            alone.contains(&staff)
        };
        is_wanted && !self.muted.with(|muted| muted.contains(&staff))
    }
}

fn turn(list: Watched<Vec<u32>>, staves: &[u32]) {
    list.update(|all| {
        let are_all = staves.iter().all(|staff| all.contains(staff));
        all.retain(|one| !staves.contains(one));
        if !are_all {
            all.extend(staves);
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_opened::MovementRows;
    use leptos::prelude::Owner;

    fn playback() -> (Owner, MapState, Playback) {
        let owner = Owner::new();
        owner.set();
        let map = MapState::new();
        (owner, map, Playback::new(map))
    }

    #[test]
    fn who_is_alone_is_heard_and_who_is_muted_is_not() {
        let (_owner, _, playback) = playback();
        let heard =
            |shown: &[u32]| -> Vec<u32> { (0..5).filter(|staff| playback.hears(*staff, shown)).collect() };
        assert_eq!(heard(&[1, 2]), [0, 1, 2, 3, 4]);
        playback.mute(&[3]);
        assert_eq!(heard(&[1, 2]), [0, 1, 2, 4]);
        playback.only_shown.set(true);
        assert_eq!(heard(&[1, 2, 3]), [1, 2]);
        // Also somebody who does not stand on the screen.
        playback.single_out(&[4]);
        playback.single_out(&[3]);
        assert_eq!(heard(&[1, 2]), [4]);
        playback.mute(&[3]);
        assert_eq!(heard(&[1, 2]), [3, 4]);
        playback.single_out(&[3]);
        playback.single_out(&[4]);
        assert_eq!(heard(&[1, 2]), [1, 2]);
    }

    #[test]
    fn a_family_is_muted_with_all_its_parts_and_heard_again_with_all() {
        let (_owner, _, playback) = playback();
        let heard = || -> Vec<u32> { (0..5).filter(|staff| playback.hears(*staff, &[])).collect() };
        playback.mute(&[3]);
        playback.mute(&[2, 3, 4]);
        assert_eq!(heard(), [0, 1]);
        playback.mute(&[3]);
        assert_eq!(heard(), [0, 1, 3]);
        playback.mute(&[2, 3, 4]);
        playback.mute(&[2, 3, 4]);
        assert_eq!(heard(), [0, 1, 2, 3, 4]);
        playback.single_out(&[0, 4]);
        playback.single_out(&[2]);
        assert_eq!(heard(), [0, 2, 4]);
        playback.single_out(&[0, 4]);
        assert_eq!(heard(), [2]);
    }

    #[test]
    fn it_begins_where_it_stands_or_at_its_start_and_loops_what_is_chosen() {
        let (_owner, _, playback) = playback();
        let rows = road::tests::rows();
        let tour = |start, chosen| {
            let Tour { places, from, rounds, .. } = playback.tour(&rows, start, chosen);
            (places, from / 1_000_000, rounds)
        };
        assert_eq!(tour(2, Some((4, 5))), ((0, 10), 3, false));
        playback.at.set(Some(7_000_000));
        assert_eq!(tour(2, None), ((0, 10), 7, false));
        playback.loops.set(true);
        assert_eq!(tour(2, Some((2, 4))), ((6, 9), 8, true));
        playback.at.set(Some(9_000_000));
        assert_eq!(tour(2, Some((2, 4))), ((6, 9), 9, true));
        // What cannot be found is not looped; the movement is.
        assert_eq!(tour(2, None), ((0, 10), 9, true));
        // At the end it begins anew.
        playback.at.set(Some(12_000_000));
        assert_eq!(tour(2, None), ((0, 10), 0, true));
    }

    #[test]
    fn it_begins_with_the_bar_gone_to_unless_that_lies_beside_the_loop() {
        let (_owner, _, playback) = playback();
        let start = |gone_to, chosen| playback.start(gone_to, chosen);
        assert_eq!((start(Some(9), Some((3, 5))), start(None, Some((3, 5))), start(None, None)), (9, 3, 0));
        playback.loops.set(true);
        assert_eq!(
            (start(Some(9), Some((3, 5))), start(Some(4), Some((3, 5))), start(Some(9), None)),
            (3, 4, 9)
        );
    }

    #[test]
    fn what_was_told_is_remembered_until_it_holds_no_more() {
        let (_owner, _, playback) = playback();
        let told = |at: u32| Arc::new(PlayedRows { length: u64::from(at), notes: Vec::new() });
        for at in 0..60 {
            playback.remember((at, at + 1), told(at));
        }
        assert_eq!((playback.told((59, 60)), playback.told((2, 3))), (Some(told(59)), None));
        playback.unlearn();
        assert_eq!(playback.told((59, 60)), None);
    }

    #[test]
    fn where_it_stands_is_known_once_its_map_is() {
        let (_owner, map, playback) = playback();
        playback.at.set(Some(1_500_000));
        assert_eq!(playback.spot.get(), None);
        let rows = MovementRows {
            lengths: vec![(4, 1); 2],
            legs: vec![crookwise_opened::LegRow { bars: (0, 1), pass: 1 }],
            begins: vec![0, 1_000_000, 2_000_000],
            ..MovementRows::default()
        };
        map.rows.set(Some(Arc::new(rows)));
        assert_eq!(playback.spot.get(), Some(SoundingSpot { bar: 1, hundredths: 200, of: 400 }));
        playback.empty();
        assert_eq!(playback.spot.get(), None);
    }
}
