//! Reading along: the written part alone, what it sounds shown bar by bar behind it, and before each entry what will sound is
//! asked.

use super::map::REST_BEFORE;
use super::playback::course::Tour;
use super::playback::road;
use crate::state::kept::Watched;
use crookwise_opened::{MovementRows, RowWanted};
use leptos::prelude::use_context;

/// An entry of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PartEntry {
    /// Its bar.
    pub bar: u32,
    /// Its first note, by number.
    pub note: u32,
    /// Whole bars of rest before it.
    pub rest: u32,
}

/// What is asked of an entry.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum EntryNotes {
    /// What its first note sounds.
    #[default]
    First,
    /// What each note of its first bar sounds.
    FirstBar,
}

/// An entry that is asked about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AskedEntry {
    /// The staff.
    pub staff: u32,
    /// What enters.
    pub entry: PartEntry,
    /// Whether the movement was heard up to here, and goes on when it is answered.
    pub heard: bool,
    /// Whether the class was told.
    pub told: bool,
}

/// Handles on reading along; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Along {
    /// The staff that is read; nothing while nobody reads along.
    pub staff: Watched<Option<u32>>,
    /// The first bar of which it is still hidden what it sounds.
    pub hidden_from: Watched<u32>,
    /// What is asked of each entry.
    pub notes: Watched<EntryNotes>,
    /// The entry that is asked about.
    pub asked: Watched<Option<AskedEntry>>,
    /// Its note in its bars, as the text of a page, once that is known.
    pub page: Watched<Option<String>>,
    /// Whether what was heard is to go on.
    pub plays_on: Watched<bool>,
    /// The bar of the entry that was asked about last: it is asked about once.
    passed: Watched<Option<u32>>,
}

impl Along {
    /// Nobody reads along.
    #[must_use]
    pub fn new() -> Self {
        Self {
            staff: Watched::new(None),
            hidden_from: Watched::new(0),
            notes: Watched::new(EntryNotes::default()),
            asked: Watched::new(None),
            page: Watched::new(None),
            plays_on: Watched::new(false),
            passed: Watched::new(None),
        }
    }

    /// Reading along in Score.
    ///
    /// # Panics
    /// Never in Score, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("Score provides reading along")
    }

    /// Whether somebody reads along.
    #[must_use]
    pub fn is_on(self) -> bool {
        self.staff.is_some()
    }

    /// Reads a staff along from a bar on.
    pub fn begin(self, staff: u32, bar: u32) {
        self.begin_at(bar);
        self.staff.set(Some(staff));
    }

    /// Reads on from a bar: what sounds from there on is hidden, and all entries from there on are asked about.
    pub fn begin_at(self, bar: u32) {
        self.put_away();
        self.hidden_from.set(bar);
        self.passed.set(None);
    }

    /// Nobody reads along any more.
    pub fn leave(self) {
        self.put_away();
        self.staff.set(None);
    }

    /// The reader comes to a bar: what the bars before it sound is shown.
    pub fn reach(self, bar: u32) {
        self.hidden_from.update(|hidden| *hidden = bar.max(*hidden));
    }

    /// Asks about an entry; `heard`: the movement was heard up to here.
    pub fn ask(self, entry: PartEntry, heard: bool) {
        if let Some(staff) = self.staff.get_untracked() {
            self.page.set(None);
            self.asked.set(Some(AskedEntry { staff, entry, heard, told: false }));
        }
    }

    /// Tells the class, which then sees what the bar sounds.
    pub fn tell(self) {
        self.asked.update(|asked| {
            if let Some(asked) = asked {
                asked.told = true;
            }
        });
        if let Some(asked) = self.asked.get_untracked() {
            self.reach(asked.entry.bar.saturating_add(1));
        }
    }

    /// Goes on behind the entry that was asked about.
    pub fn read_on(self) {
        if let Some(asked) = self.pass() {
            self.plays_on.set(asked.heard);
        }
    }

    /// Asks no more about the entry that was asked about; gives it.
    pub fn pass(self) -> Option<AskedEntry> {
        let asked = self.asked.get_untracked()?;
        self.put_away();
        self.passed.set(Some(asked.entry.bar));
        Some(asked)
    }

    fn put_away(self) {
        self.asked.set(None);
        self.page.set(None);
        self.plays_on.set(false);
    }

    /// Whether an entry is still to be asked about.
    fn is_open(self, entry: &PartEntry) -> bool {
        entry.bar >= self.hidden_from.get() && self.passed.get().is_none_or(|passed| entry.bar > passed)
    }

    /// The next entry that is to be asked about, from a bar of the road on, with its own bar there.
    #[must_use]
    pub fn next(self, rows: &MovementRows, place: u32) -> Option<(u32, PartEntry)> {
        let open: Vec<PartEntry> =
            entries(rows, self.staff.get()?).into_iter().filter(|entry| self.is_open(entry)).collect();
        (place..road::count(rows)).find_map(|at| {
            let bar = road::bar_at(rows, at)?;
            open.iter().find(|entry| entry.bar == bar).map(|entry| (at, *entry))
        })
    }

    /// How far is heard of a tour: once through, up to the next entry that is asked about.
    #[must_use]
    pub fn tour(self, rows: &MovementRows, tour: Tour) -> (Tour, Option<(u32, PartEntry)>) {
        if !self.is_on() {
            return (tour, None);
        }
        let next = self.next(rows, road::place_at(rows, tour.from));
        let end = next.map_or(road::count(rows), |(place, _)| place);
        (Tour { places: (0, end), rounds: false, ..tour }, next)
    }
}

impl Default for Along {
    fn default() -> Self {
        Self::new()
    }
}

/// The entries of a staff, as the map has them.
#[must_use]
pub fn entries(rows: &MovementRows, staff: u32) -> Vec<PartEntry> {
    let own = rows.staves.iter().filter(|row| row.staff == staff).flat_map(|row| &row.stretches);
    own.filter(|stretch| stretch.rest >= REST_BEFORE)
        .map(|stretch| PartEntry { bar: stretch.from.bar, note: stretch.first, rest: stretch.rest })
        .collect()
}

/// The last entry before a bar.
#[must_use]
pub fn before(entries: &[PartEntry], bar: u32) -> Option<PartEntry> {
    entries.iter().rev().find(|entry| entry.bar < bar).copied()
}

/// The staff that is read: as written, and under it as it sounds, which is covered.
#[must_use]
pub fn rows_of(staff: u32) -> Vec<RowWanted> {
    vec![RowWanted { staves: vec![staff], written: true, sounding: true, made: false }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_opened::{BarSpot, StaffMapRow, StretchRow};
    use leptos::prelude::Owner;

    /// Bars 0 to 3 twice, then to 5; staff 7 enters in bar 2 after a short rest, and in bars 3 and 5.
    fn rows() -> MovementRows {
        let spot = |bar: u32| BarSpot { bar, quarters: (2, 1) };
        let stretch =
            |bar: u32, first: u32, rest: u32| StretchRow { from: spot(bar), to: spot(bar), first, rest };
        let staff = StaffMapRow {
            staff: 7,
            stretches: vec![stretch(2, 20, 1), stretch(3, 30, 4), stretch(5, 50, 9)],
            ..StaffMapRow::default()
        };
        MovementRows { staves: vec![staff], ..road::tests::rows() }
    }

    fn along() -> (Owner, Along) {
        let owner = Owner::new();
        owner.set();
        let along = Along::new();
        along.begin(7, 0);
        (owner, along)
    }

    fn stop(along: Along, from: u32) -> Option<(u32, u32)> {
        along.next(&rows(), from).map(|(place, entry)| (place, entry.note))
    }

    #[test]
    fn an_entry_is_asked_about_once_and_not_again_in_the_repeat() {
        let (_owner, along) = along();
        assert_eq!(stop(along, 0), Some((3, 30)));
        along.ask(along.next(&rows(), 0).unwrap().1, true);
        along.read_on();
        // Bar 3 is played again at the eighth place; only bar 5 is still asked about.
        assert_eq!((stop(along, 3), along.plays_on.get()), (Some((9, 50)), true));
        along.reach(4);
        along.reach(0);
        assert_eq!((stop(along, 4), along.hidden_from.get()), (Some((9, 50)), 4));
        along.ask(along.next(&rows(), 4).unwrap().1, false);
        along.read_on();
        assert_eq!((stop(along, 9), along.plays_on.get()), (None, false));
        // Who begins anew is asked anew.
        along.begin_at(0);
        assert_eq!(stop(along, 0), Some((3, 30)));
    }

    #[test]
    fn what_is_heard_ends_before_the_next_entry_and_is_heard_once() {
        let (_owner, along) = along();
        let tour = Tour { places: (1, 3), from: 4_500_000, rounds: true, tempo: 80 };
        let (heard, next) = along.tour(&rows(), tour);
        assert_eq!((heard.places, heard.from, heard.rounds, heard.tempo), ((0, 3), 4_500_000, false, 80));
        assert_eq!(next.map(|(place, entry)| (place, entry.bar)), Some((3, 3)));
        along.reach(6);
        assert_eq!(along.tour(&rows(), tour).0.places, (0, 10));
        along.leave();
        assert_eq!(along.tour(&rows(), tour), (tour, None));
    }

    #[test]
    fn the_class_sees_what_the_bar_sounds_once_it_is_told() {
        let (_owner, along) = along();
        along.ask(along.next(&rows(), 0).unwrap().1, false);
        assert_eq!(along.hidden_from.get(), 0);
        along.tell();
        assert!(along.asked.get().is_some_and(|asked| asked.told) && along.hidden_from.get() == 4);
        along.leave();
        along.tell();
        assert_eq!((along.asked.get(), along.staff.get()), (None, None));
    }

    #[test]
    fn entries_are_those_of_the_map() {
        let found = entries(&rows(), 7);
        assert_eq!(found.iter().map(|entry| (entry.bar, entry.rest)).collect::<Vec<_>>(), [(3, 4), (5, 9)]);
        assert_eq!((before(&found, 5).map(|one| one.bar), before(&found, 3)), (Some(3), None));
        assert_eq!(entries(&rows(), 1), []);
    }
}
