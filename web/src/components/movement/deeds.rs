//! What is done with a movement: each asks the worker and puts its answer where it is shown.

use crate::browser::given::{self, BroughtFile, GivenFile, Offered};
use crate::browser::{focus, leaving, score_worker, sight};
use crate::components::movement::music_deeds::{UNDER_THE_MUSIC, keep_place};
use crate::state::kept::{Derived, Watched, follow};
use crate::state::movement::along::Along;
use crate::state::movement::music::Music;
use crate::state::movement::{ComesFrom, Movement, ScoreNow, link};
use crate::state::panels::Panel;
use crate::state::place::{AppPlace, AtHand};
use crate::state::practise::Screen;
use crate::state::session::Session;
use crate::state::store::desk;
use crate::store::Store;
use crate::store::scores;
use crate::words;
use crookwise_opened::{Answer, Ask, Correction};
use crookwise_share::ReadPage;
use leptos::prelude::*;
use leptos::task::spawn_local;

/// Who does it: what is shown, what is kept, where the reader is.
#[derive(Clone, Copy, Debug)]
pub struct Deeds {
    pub(super) movement: Movement,
    pub(super) music: Music,
    pub(super) along: Along,
    pub(super) session: Session,
    pub(super) store: Store,
}

impl Deeds {
    /// Within Score.
    #[must_use]
    pub fn get() -> Self {
        let (movement, music, along) = (Movement::get(), Music::get(), Along::get());
        Self { movement, music, along, session: Session::get(), store: Store::get() }
    }

    /// Follows what the reader does, for as long as the app lasts: what the address names is opened, what is chosen is
    /// tried, what is corrected is laid over the score.
    pub fn follow_all(self) {
        let Self { movement, session, .. } = self;
        score_worker::on_progress(move |hundredths| {
            movement.on_its_way.update(|way| {
                if let Some(way) = way {
                    way.hundredths = hundredths;
                }
            });
        });
        leaving::on_leaving(move || keep_place(self));
        given::on_opened_by_system(move |file| self.open_file(file, 0));
        follow(move || {
            if let Some((id, left)) = movement.left() {
                untrack(|| scores::leave(|all| all.leave(&id, left)));
            }
        });
        let (score, made) = (session.whereabouts.score, session.whereabouts.made);
        follow(move || {
            let (pairs, text) = (score.get(), made.get());
            untrack(|| {
                if text.is_empty() {
                    self.open_what_the_address_names(&pairs);
                } else {
                    made.set(String::new());
                    self.open_text(given::of_text(words::crooks::PLAN_FILE, &text));
                }
            });
        });
        // What is corrected changes what is open, but not that it is.
        let is_open = Derived::new(move || movement.open.is_some());
        follow(move || {
            let wanted = (movement.chosen.get(), movement.bars(), is_open.get());
            untrack(|| self.try_fit(wanted));
        });
        follow(move || {
            let corrections = movement.corrections.get();
            let (valves_too, open) = (movement.valves_too.get(), is_open.get());
            untrack(|| {
                if open {
                    self.lay(&corrections, valves_too);
                }
            });
        });
    }

    /// Opens a file that was given; so many came with it.
    pub fn open_file(self, file: GivenFile, others: u32) {
        spawn_local(async move {
            match given::read(file).await {
                Some(given) => self.open(given).await,
                None => self.fail(words::movement::FILE_TOO_LARGE),
            }
            if others > 0 && self.movement.said.with_untracked(Option::is_none) {
                self.movement.said.set(Some(words::movement::ONE_SCORE_AT_A_TIME.to_owned()));
            }
        });
    }

    /// Opens a text.
    fn open_text(self, given: BroughtFile) {
        spawn_local(self.open(given));
    }

    /// Opens what was dropped or pasted.
    pub fn open_offered(self, offered: Offered) {
        match offered {
            Offered::File(file, others) => self.open_file(file, others),
            Offered::Text(given) => self.open_text(given),
            Offered::Nothing => self.fail(words::movement::NOTHING_TO_PASTE),
        }
    }

    /// Opens what was copied elsewhere, where there are no keys to paste it.
    pub fn open_copied(self) {
        spawn_local(async move {
            match given::copied().await {
                Some(offered) => self.open_offered(offered),
                None => self.fail(words::movement::MAY_NOT_PASTE),
            }
        });
    }

    /// Opens what stands under a link.
    pub fn go_to(self, source: &ComesFrom) {
        self.session.whereabouts.score.set(link::pairs(Some(source)));
    }

    /// Stops what is on its way.
    pub fn stop(self) {
        score_worker::stop();
        scores::leave(|left| left.open.clear());
        self.session.whereabouts.score.set(String::new());
        self.movement.openings.update(|openings| *openings += 1);
        self.movement.on_its_way.set(None);
        focus::to(FIELD.to_owned());
        self.movement.said.set(Some(words::movement::STOPPED.to_owned()));
    }

    /// Back to the list of scores.
    pub fn close(self) {
        scores::leave(|left| left.open.clear());
        self.movement.said.set(None);
        self.put_away();
        self.session.whereabouts.score.set(String::new());
        self.list();
    }

    /// Closes what is open, and keeps where it was looked at.
    pub(super) fn put_away(self) {
        keep_place(self);
        self.movement.close();
    }

    /// Puts what is chosen into Read.
    pub fn to_read(self) {
        self.with_page(move |_, page| self.show_in_read(page));
    }

    /// Puts what is chosen into Read, and opens its link there.
    pub fn share(self) {
        self.with_page(move |session, page| {
            self.show_in_read(page);
            session.panels.show(Panel::Share);
        });
    }

    /// Makes an exercise or a handout about what is chosen.
    pub fn to_practise(self, screen: Screen) {
        self.with_page(move |session, page| {
            session.whereabouts.at_hand.set(AtHand::About(Box::new(page.passage.clone())));
            session.desk.show(page);
            session.whereabouts.go(screen);
        });
    }

    /// Shows a note of a staff in Read, with the bars around it.
    pub fn show_note(self, staff: u32, note: u32) {
        spawn_local(async move {
            match self.ask(&Ask::Note { staff, note }).await {
                Some(Answer::Page(text)) => {
                    if let Ok(page) = desk::opened(&text) {
                        self.show_in_read(page);
                    }
                }
                Some(Answer::No(why)) => self.fail(why),
                _ => {}
            }
        });
    }

    /// Read, from its top; the way back leads to where the reader was.
    fn show_in_read(self, page: ReadPage) {
        let Self { movement, session, .. } = self;
        movement.depth.set(sight::depth());
        session.desk.show(page);
        session.whereabouts.place.set(AppPlace::Read);
        sight::top_at(session.desk.selected_element());
    }

    fn with_page(self, then: impl FnOnce(Session, ReadPage) + 'static) {
        let Self { movement, session, .. } = self;
        let staves = movement.chosen.get_untracked();
        let bars = match untrack(|| movement.bars()) {
            Ok(bars) => bars,
            Err(why) => return self.fail(why),
        };
        spawn_local(async move {
            match self.ask(&Ask::Page { staves, bars }).await {
                Some(Answer::Page(text)) => match desk::opened(&text) {
                    Ok(page) => then(session, page),
                    Err(_) => self.fail(words::movement::NO_WORKER),
                },
                Some(Answer::No(why)) => self.fail(why),
                _ => {}
            }
        });
    }

    fn try_fit(self, (staves, bars, is_open): (Vec<u32>, Result<(u32, u32), String>, bool)) {
        let movement = self.movement;
        if !is_open {
            return;
        }
        let bars = match bars {
            _ if staves.is_empty() => {
                return movement.fits.set(Some(Err(words::movement::CHOOSE_PARTS.to_owned())));
            }
            Err(why) => return movement.fits.set(Some(Err(why))),
            Ok(bars) => bars,
        };
        spawn_local(async move {
            let answer = self.ask(&Ask::Fit { staves: staves.clone(), bars }).await;
            // Unless something else was chosen meanwhile.
            if movement.chosen.get_untracked() == staves && untrack(|| movement.bars()) == Ok(bars) {
                movement.fits.set(match answer {
                    Some(Answer::Fits(columns)) => Some(Ok(columns)),
                    Some(Answer::No(why)) => Some(Err(why)),
                    _ => None,
                });
            }
        });
    }

    /// Lays corrections over the score, keeps them, and has its brass audited.
    fn lay(self, corrections: &[Correction], valves_too: bool) {
        let movement = self.movement;
        let text = Correction::write(corrections);
        let is_other = movement.laid.with_untracked(|laid| *laid != text);
        movement.laid.set(text.clone());
        let source = movement.open.map(|open| open.source.clone());
        // Kept before it is seen: who sees it may close the window.
        if is_other && let Some(ComesFrom::File(id)) = source {
            let text = text.clone();
            spawn_local(async move {
                // Where the browser refuses, the store has said so.
                let _ = scores::correct(self.store, id, text).await;
            });
        }
        spawn_local(async move {
            if is_other && let Some(Answer::Score(summary)) = self.ask(&Ask::Correct(text)).await {
                sight::hold_focused(UNDER_THE_MUSIC);
                movement.show_corrected(*summary);
            }
            movement.shown.set(None);
            if let Some(Answer::Audit(audit)) = self.ask(&Ask::Audit { valves_too }).await {
                movement.audit.set(Some(audit));
            }
        });
    }

    /// Asks about a score as it is `now`, unless that is what `of` was asked about already; the answer is taken while that holds.
    pub(super) fn ask_once(
        self,
        of: Watched<Option<ScoreNow>>,
        now: ScoreNow,
        ask: Ask,
        take: impl FnOnce(Answer) + 'static,
    ) {
        if of.with_untracked(|of| of.as_ref() == Some(&now)) {
            return;
        }
        of.set(Some(now.clone()));
        let take = Box::new(take);
        spawn_local(async move {
            let answer = self.ask(&ask).await;
            if untrack(|| self.movement.now()) != now {
                return;
            }
            match answer {
                Some(answer) => take(answer),
                // It may be asked for again.
                None => of.set(None),
            }
        });
    }

    pub(super) fn fail(self, why: impl Into<String>) {
        self.movement.problem.set(Some(why.into()));
    }
}

/// The title of what is open.
pub const TITLE: &str = "movement-title";
/// The field in which a file is chosen.
pub const FIELD: &str = "score-file";
