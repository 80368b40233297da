//! What is done to read a movement along: from bar to bar and from entry to entry without sound, and what the score is asked.

use crate::browser::focus;
use crate::components::movement::along::OPENER;
use crate::components::movement::map_deeds::show_bar;
use crate::components::movement::player::Player;
use crate::state::kept::{Derived, follow};
use crate::state::movement::along::{AskedEntry, before, entries};
use crate::state::movement::playback::road;
use crate::words::along as words;
use crookwise_opened::{Answer, Ask, MovementRows};
use leptos::prelude::*;
use leptos::task::spawn_local;

/// Who does it.
#[derive(Clone, Copy, Debug)]
pub struct ReadAlong {
    pub(super) player: Player,
}

impl ReadAlong {
    /// Within Score.
    #[must_use]
    pub fn get() -> Self {
        Self { player: Player::get() }
    }

    /// Reads a staff along from where the music stands.
    pub fn begin(self, staff: u32) {
        let Player { playback, music, along, .. } = self.player;
        self.player.pause();
        playback.loops.set(false);
        music.look_at(None);
        music.tapped.set(None);
        let bar = untrack(|| self.bar());
        along.begin(staff, bar);
        music.arrives_at.set(Some(bar));
    }

    /// Reads along no more.
    pub fn leave(self) {
        let Player { music, along, .. } = self.player;
        self.player.pause();
        music.arrives_at.set(Some(untrack(|| self.bar())));
        along.leave();
        focus::to(OPENER.to_owned());
    }

    /// The bar at which the reader is.
    fn bar(self) -> u32 {
        self.player.playback.bar.get().unwrap_or_else(|| self.player.start())
    }

    /// The bar of the road at which he is.
    fn place(self, rows: &MovementRows) -> u32 {
        let at = self.player.playback.at.get().map(|at| road::place_at(rows, at));
        at.or_else(|| road::place_of(rows, self.player.start())).unwrap_or(0)
    }

    /// Where he is, in words.
    pub fn place_said(self) -> String {
        let Player { movement, along, map, .. } = self.player;
        let part = along.staff.get().map(|staff| movement.name_of(staff)).unwrap_or_default();
        if let Some(AskedEntry { entry, .. }) = along.asked.get() {
            return words::asked(&part, &movement.printed(entry.bar), entry.rest);
        }
        if along.hidden_from.get() == u32::MAX {
            return words::READ_TO_THE_END.to_owned();
        }
        let next = map.rows.get().and_then(|rows| along.next(&rows, self.place(&rows)));
        let next = next.map(|(_, entry)| (movement.printed(entry.bar), entry.rest));
        let next = next.as_ref().map(|(bar, rest)| (bar.as_str(), *rest));
        words::reading(&part, &movement.printed(self.bar()), next)
    }

    /// A bar further without sound, unless somebody enters here.
    pub fn step(self) {
        let Player { along, map, .. } = self.player;
        self.player.pause();
        let Some(rows) = map.rows.get_untracked().filter(|_| along.asked.with_untracked(Option::is_none))
        else {
            return;
        };
        untrack(|| {
            let here = self.place(&rows);
            let entry = along.next(&rows, here).filter(|(place, _)| *place <= here + 1);
            let to = entry.map_or(here + 1, |(place, _)| place);
            if to >= road::count(&rows) {
                return along.reach(u32::MAX);
            }
            self.go(&rows, to);
            if let Some((_, entry)) = entry {
                along.ask(entry, false);
            }
        });
    }

    /// To the next entry, without sound.
    pub fn to_entry(self) {
        let Player { along, map, .. } = self.player;
        self.player.pause();
        let Some(rows) = map.rows.get_untracked() else { return };
        untrack(|| match along.next(&rows, self.place(&rows)) {
            Some((place, entry)) => {
                self.go(&rows, place);
                along.ask(entry, false);
            }
            None => along.reach(u32::MAX),
        });
    }

    /// On the wall: what is asked is told, then the next entry is asked.
    pub fn forward(self) {
        let along = self.player.along;
        match along.asked.get_untracked() {
            Some(AskedEntry { told: false, .. }) => along.tell(),
            Some(AskedEntry { heard, .. }) => {
                along.read_on();
                // What was heard goes on by itself.
                if !heard {
                    self.to_entry();
                }
            }
            None => self.to_entry(),
        }
    }

    /// On the wall: the entry before is asked anew.
    pub fn back(self) {
        let Player { along, map, .. } = self.player;
        self.player.pause();
        let (Some(rows), Some(staff)) = (map.rows.get_untracked(), along.staff.get_untracked()) else {
            return;
        };
        untrack(|| {
            let here = along.asked.map(|asked| asked.entry.bar).unwrap_or_else(|| self.bar());
            let Some(entry) = before(&entries(&rows, staff), here) else { return };
            along.begin_at(entry.bar);
            if let Some(place) = road::place_of(&rows, entry.bar) {
                self.go(&rows, place);
            }
            along.ask(entry, false);
        });
    }

    fn go(self, rows: &MovementRows, place: u32) {
        let Player { playback, music, .. } = self.player;
        playback.at.set(Some(road::begins(rows, place)));
        if let Some(bar) = road::bar_at(rows, place) {
            show_bar(music, bar);
        }
    }

    /// Follows the reader, for as long as Score is there.
    pub fn follow_all(self) {
        let Player { playback, movement, music, along, .. } = self.player;
        let opened = Derived::new(move || movement.openings.get());
        follow(move || {
            let _ = opened.get();
            along.leave();
        });
        let start = Derived::new(move || (music.gone_to.get(), movement.own_bars()));
        follow(move || {
            let _ = start.get();
            untrack(|| along.begin_at(self.player.start()));
        });
        follow(move || {
            if let Some(bar) = playback.bar.get().filter(|_| along.is_on()) {
                untrack(|| along.reach(bar));
            }
        });
        follow(move || {
            if let Some(asked) = along.asked.get().filter(|asked| !asked.told) {
                untrack(|| self.ask(asked));
            }
        });
        follow(move || {
            if along.plays_on.get() {
                along.plays_on.set(false);
                untrack(|| self.player.play());
            }
        });
    }

    /// Brings an entry into sight and asks the score for its note.
    fn ask(self, asked: AskedEntry) {
        let Player { music, along, deeds, .. } = self.player;
        show_bar(music, asked.entry.bar);
        spawn_local(async move {
            let answer = deeds.ask(&Ask::Note { staff: asked.staff, note: asked.entry.note }).await;
            let is_asked = along.asked.with_untracked(|now| now.is_some_and(|now| now.entry == asked.entry));
            match answer {
                Some(Answer::Page(text)) if is_asked => along.page.set(Some(text)),
                Some(Answer::No(why)) => deeds.fail(why),
                _ => {}
            }
        });
    }
}
