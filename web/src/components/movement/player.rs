//! What is done to hear a movement: it is told to the ear stretch by stretch, followed on the page, and begun anew from where
//! it stands when the reader wishes it otherwise.

use crate::browser::{audio, clock, sight};
use crate::components::movement::deeds::Deeds;
use crate::components::movement::map::MAP;
use crate::components::movement::map_deeds::{UNDER_THE_MAP, go_to_bar};
use crate::components::movement::music::SYSTEMS;
use crate::state::hearing::HeardAs;
use crate::state::kept::{Derived, follow};
use crate::state::movement::Movement;
use crate::state::movement::along::{Along, PartEntry};
use crate::state::movement::map::MapState;
use crate::state::movement::music::Music;
use crate::state::movement::playback::course::{Course, Tour, stretch};
use crate::state::movement::playback::ensemble::Ensemble;
use crate::state::movement::playback::{Places, Playback, cursor, road};
use crate::state::session::Session;
use crate::words;
use crookwise_opened::{Answer, Ask, MovementRows, PlayedRows};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;

/// The dock of playback, which stays at the foot of the window.
pub const PLAYBACK: &str = "playback";
/// So many seconds are told ahead of what is heard: the score may be busy for so long.
const AHEAD: f64 = 20.0;

/// Who does it.
#[derive(Clone, Copy, Debug)]
pub struct Player {
    pub(super) playback: Playback,
    pub(super) movement: Movement,
    pub(super) music: Music,
    pub(super) map: MapState,
    pub(super) session: Session,
    pub(super) deeds: Deeds,
    pub(super) along: Along,
}

impl Player {
    /// Within Score.
    #[must_use]
    pub fn get() -> Self {
        Self {
            playback: Playback::get(),
            movement: Movement::get(),
            music: Music::get(),
            map: MapState::get(),
            session: Session::get(),
            deeds: Deeds::get(),
            along: Along::get(),
        }
    }

    /// The bar at which it begins.
    pub fn start(self) -> u32 {
        let Self { playback, movement, .. } = self;
        let chosen = if playback.loops.get() { movement.bars().ok() } else { movement.own_bars() };
        playback.start(self.music.gone_to.get(), chosen)
    }

    /// The bar that is heard, or that it stands at, else the one that was gone to; none while bars are heard over and over:
    /// those stay.
    fn led_to(self) -> Option<u32> {
        let Self { playback, music, .. } = self;
        if playback.loops.get() { None } else { playback.bar.get().or(music.gone_to.get()) }
    }

    /// The bars that are heard over and over, or would be.
    pub fn looped(self) -> Option<(u32, u32)> {
        match self.led_to() {
            Some(bar) => self.movement.bars_from(bar),
            None => self.movement.bars().ok(),
        }
    }

    /// Hears bars over and over, or no longer: those the reader has chosen, else some from where he was led to.
    pub fn turn_loop(self) {
        let loops = self.playback.loops;
        self.offer_bars();
        loops.set(!loops.get_untracked());
    }

    /// Offers the bars from where the reader was led to.
    pub fn offer_bars(self) {
        if let Some(bar) = untrack(|| self.led_to()) {
            untrack(|| self.movement.offer_bars(bar));
        }
    }

    /// Whether what is played is known.
    pub fn is_ready(self) -> bool {
        self.map.rows.is_some()
    }

    /// Those who are heard.
    pub fn ensemble(self) -> Ensemble {
        let Self { playback, movement, session, .. } = self;
        let (rows, shown) = (self.map.rows.get().unwrap_or_default(), movement.chosen.read());
        let natural = session.speaker.way.get() == HeardAs::Instrument;
        let intonation = session.desk.page.with(|page| page.intonation);
        Ensemble::of(&rows, &|staff| playback.hears(staff, &shown), natural, intonation)
    }

    /// Plays, or pauses.
    pub fn toggle(self) {
        if self.playback.is_on.get_untracked() {
            self.pause();
        } else if audio::wake() {
            untrack(|| self.play());
        } else {
            self.session.notices.say(words::NO_SOUND);
        }
    }

    /// Stays where it is.
    pub fn pause(self) {
        if self.playback.is_on.get_untracked() {
            audio::stop();
            self.is_over();
        }
    }

    /// Back to the start; what is heard goes on from there.
    pub fn to_start(self) {
        self.playback.at.set(None);
        self.anew();
    }

    /// Back to the start; from there to the beginning of the movement.
    pub fn further_back(self) {
        let is_there = self.playback.at.with_untracked(Option::is_none);
        if is_there && !self.playback.loops.get_untracked() {
            go_to_bar(self.music, 0, &[]);
        }
        self.to_start();
    }

    fn is_over(self) {
        self.playback.is_on.set(false);
        self.session.speaker.playing.set(false);
    }

    /// What is heard goes on as the reader wishes it now.
    fn anew(self) {
        if self.playback.is_on.get_untracked() {
            untrack(|| self.play());
        }
    }

    /// What is to be heard; who reads along hears it up to the next entry.
    fn tour(self, rows: &MovementRows) -> (Tour, Option<(u32, PartEntry)>) {
        self.along.tour(rows, self.playback.tour(rows, self.start(), self.movement.bars().ok()))
    }

    pub(super) fn play(self) {
        let Self { playback, session, along, .. } = self;
        let Some(rows) = self.map.rows.get() else { return };
        along.pass();
        let (tour, next) = self.tour(&rows);
        if let Some((place, entry)) = next.filter(|(place, _)| *place <= road::place_at(&rows, tour.from)) {
            self.pause();
            playback.at.set(Some(road::begins(&rows, place)));
            return along.ask(entry, true);
        }
        let stops = next.map(|(place, entry)| (road::begins(&rows, place), entry));
        let ensemble = self.ensemble();
        let volume = f64::from(session.speaker.volume.get()) / 100.0;
        let ended = move || {
            self.is_over();
            playback.at.set(stops.map(|(at, _)| at));
            match stops {
                Some((_, entry)) => along.ask(entry, true),
                None => along.reach(u32::MAX),
            }
        };
        let Some(number) = audio::open(ensemble.at_once(), volume, Box::new(ended)) else {
            self.is_over();
            return session.notices.say(words::NO_SOUND);
        };
        playback.is_on.set(true);
        session.speaker.begins();
        let course = Course::new(rows, tour);
        spawn_local(self.show(number, course.clone()));
        spawn_local(self.tell(number, course, ensemble));
    }

    /// Tells what is heard under a number, always far enough ahead.
    async fn tell(self, number: u32, mut course: Course, ensemble: Ensemble) {
        while let Some(heard) = audio::heard(number) {
            let Some(places) = course.next() else { return };
            if course.known().0 > heard + AHEAD {
                clock::a_moment().await;
                continue;
            }
            let Some(played) = self.told(places).await else { return self.pause() };
            let tones = course.tell(&played, &ensemble);
            if !audio::add(number, tones, course.known()) {
                return;
            }
        }
    }

    /// What is played in some bars of the road.
    async fn told(self, places: Places) -> Option<Arc<PlayedRows>> {
        let Self { playback, movement, .. } = self;
        if let Some(told) = playback.told(places) {
            return Some(told);
        }
        let now = || untrack(|| movement.now());
        let asked = now();
        let rows = self.map.rows.get_untracked()?;
        let staves = rows.staves.iter().map(|row| row.staff).collect();
        let (from, to) = road::asked(places);
        let Some(Answer::Play(played)) = self.deeds.ask(&Ask::Play { staves, from, to }).await else {
            return None;
        };
        let played = Arc::new(played);
        if asked == now() {
            playback.remember(places, Arc::clone(&played));
        }
        Some(played)
    }

    /// Follows what is heard under a number, picture by picture.
    async fn show(self, number: u32, course: Course) {
        while let Some(heard) = audio::heard(number) {
            self.playback.at.set(Some(course.road_at(heard)));
            clock::a_picture().await;
        }
    }

    /// Follows the reader, for as long as Score is there.
    pub fn follow_all(self) {
        let Self { playback, movement, music, .. } = self;
        // Another movement, or the same one corrected.
        let opened = Derived::new(move || movement.openings.get());
        follow(move || {
            let _ = opened.get();
            self.pause();
            playback.empty();
        });
        let how = Derived::new(move || {
            let volume = self.session.speaker.volume.get();
            (self.ensemble(), playback.tempo.get(), playback.loops.get(), volume)
        });
        follow(move || {
            let _ = how.read();
            self.anew();
        });
        let laid = Derived::new(move || movement.laid.get());
        follow(move || {
            let _ = laid.read();
            playback.unlearn();
            self.anew();
        });
        let start = Derived::new(move || (music.gone_to.get(), movement.own_bars()));
        follow(move || {
            let _ = start.get();
            self.to_start();
        });
        // While it is heard they would change with every bar.
        let led_to = Derived::new(move || if playback.is_on.get() { None } else { self.led_to() });
        follow(move || {
            let _ = led_to.get();
            self.offer_bars();
        });
        self.follow_start();
        self.follow_sight();
    }

    /// Has at hand what is heard first, so that it sounds at the tap.
    fn follow_start(self) {
        let Self { playback, movement, .. } = self;
        let first = Derived::new(move || {
            if playback.is_on.get() {
                return None;
            }
            let rows: Arc<MovementRows> = self.map.rows.get()?;
            let (tour, _) = self.tour(&rows);
            let laid = movement.laid.get();
            (tour.places.0 < tour.places.1)
                .then(|| (stretch(&rows, road::place_at(&rows, tour.from), tour.places.1), laid))
        });
        follow(move || {
            if let Some((places, _)) = first.get() {
                spawn_local(async move {
                    drop(self.told(places).await);
                    audio::make_ready();
                });
            }
        });
    }

    /// Keeps the system that is heard in the window, unless the reader has just scrolled elsewhere.
    fn follow_sight(self) {
        let Self { playback, music, .. } = self;
        sight::on_own_scroll(move || playback.scrolled.set(clock::now()));
        let system = Derived::new(move || {
            let bar = playback.bar.get()?;
            music.laid_out.with(|laid| laid.system_of(bar))
        });
        // Who has scrolled elsewhere is led back after a while, also in a loop of one system.
        let second = Derived::new(move || playback.at.map(|at| at / 1_000_000));
        follow(move || {
            let _ = second.get();
            if !playback.is_on.get() {
                return;
            }
            let (system, (from, to)) = (system.get(), music.seen.get());
            if clock::now() - playback.scrolled.get_untracked() < cursor::OWN_WAY {
                return;
            }
            let span = system.and_then(|at| music.laid_out.read_untracked().spans().get(at).copied());
            let Some(span) = span else { return };
            let seen = (f64::from(from) + sight::cover(MAP), f64::from(to) - sight::cover(PLAYBACK));
            if !cursor::is_in_sight(span, seen) {
                sight::show_under(SYSTEMS, span.0, sight::cover(MAP) + UNDER_THE_MAP);
            }
        });
    }
}
