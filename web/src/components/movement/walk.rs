//! The notes of the music for the keyboard: one stop, from which arrows lead from note to note; Enter tells of one as a tap does.

use crate::components::live::{hear, live, press};
use crate::components::movement::deeds::Deeds;
use crate::components::movement::map_deeds::show_note;
use crate::components::movement::music::pixel_text;
use crate::components::movement::music_deeds;
use crate::state::kept::{Derived, Watched};
use crate::state::movement::Movement;
use crate::state::movement::drawn::{bar_at, spot_at, stretch_of};
use crate::state::movement::music::Music;
use crate::state::movement::walk::{NoteStep, end_of, first_from, number_in, row_of, stepped};
use crate::words;
use crookwise_opened::{Answer, Ask, DrawnRow};
use leptos::ev::{FocusEvent, KeyboardEvent};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;

/// Before it begins it stands so many pixels within the music.
const BEFORE: f64 = 22.0;

/// Where the walk stands: the layout and its system, and a head of that.
#[derive(Clone, Debug, PartialEq)]
struct Walked {
    layout: u32,
    system: usize,
    drawn: Arc<DrawnRow>,
    at: usize,
}

/// Handles on the walk.
#[derive(Clone, Copy)]
struct Walk {
    music: Music,
    movement: Movement,
    deeds: Deeds,
    stands: Watched<Option<Walked>>,
    /// Whether a system is asked for: keys wait.
    asks: Watched<bool>,
}

impl Walk {
    /// Where it stands, while that is on the screen.
    fn here(self) -> Option<Walked> {
        let layout = self.music.laid_out.with(|laid| laid.number);
        self.stands.get().filter(|walked| walked.layout == layout)
    }

    /// Begins at the bar that was gone to where that is seen, else at the first in the window.
    fn begin(self) {
        if untrack(|| self.here()).is_some() {
            return;
        }
        let (top, _) = self.music.seen.get_untracked();
        let top = f64::from(top) + self.music.covered.get_untracked();
        let (bar, system) = self.music.laid_out.with_untracked(|laid| {
            let seen = laid.spans().iter().position(|(_, bottom)| *bottom > top).unwrap_or(0);
            let gone_to = self.music.gone_to.get_untracked();
            let own = gone_to.and_then(|bar| Some((bar, laid.system_of(bar)?)));
            own.filter(|(_, system)| *system >= seen).unwrap_or((0, seen))
        });
        self.enter(system, NoteStep::After, move |drawn| first_from(drawn, bar));
    }

    fn step(self, step: NoteStep) {
        let Some(walked) = untrack(|| self.here()).filter(|_| !self.asks.get_untracked()) else { return };
        if let Some(at) = stepped(&walked.drawn, walked.at, step) {
            return self.stand(Walked { at, ..walked });
        }
        let Some(row) = row_of(&walked.drawn, walked.at) else { return };
        match (step, walked.system.checked_sub(1)) {
            (NoteStep::Before, Some(before)) => {
                self.enter(before, step, move |drawn| end_of(drawn, row, step));
            }
            (NoteStep::After, _) => {
                self.enter(walked.system + 1, step, move |drawn| end_of(drawn, row, step));
            }
            _ => {}
        }
    }

    /// Goes to a head of a system, or of the next one that has such a head.
    fn enter(self, from: usize, step: NoteStep, head: impl Fn(&DrawnRow) -> Option<usize> + 'static) {
        self.asks.set(true);
        spawn_local(async move {
            let count =
                |music: Music| music.laid_out.with_untracked(|laid| (laid.number, laid.systems.len()));
            let (layout, end) = count(self.music);
            let mut next = Some(from).filter(|system| *system < end);
            while let Some(system) = next {
                // Systems are far fewer than a 32-bit number counts.
                let answer = self.deeds.ask(&Ask::System(system as u32)).await;
                let Some(Answer::System(drawn)) = answer.filter(|_| count(self.music).0 == layout) else {
                    break;
                };
                if let Some(at) = head(&drawn) {
                    self.stand(Walked { layout, system, drawn: Arc::from(drawn), at });
                    break;
                }
                let further = if step == NoteStep::Before { system.checked_sub(1) } else { Some(system + 1) };
                next = further.filter(|system| *system < end);
            }
            self.asks.set(false);
        });
    }

    /// Stands at a head, and shows it.
    fn stand(self, walked: Walked) {
        if let Some((staff, _, bar, (_, y))) = head(&walked) {
            show_note(self.music, (bar, staff, y));
        }
        self.stands.set(Some(walked));
    }

    /// Tells of the note.
    fn tell(self) {
        let Some(walked) = untrack(|| self.here()) else { return };
        if let Some((staff, note, bar, (x, y))) = head(&walked) {
            music_deeds::tell(self.deeds, self.music, (staff, note, bar), y);
            self.music.look_at(spot_at(&walked.drawn, x));
        }
    }

    /// What stands there in words.
    fn name(self) -> Option<String> {
        let walked = self.here()?;
        let (staff, _, bar, _) = head(&walked)?;
        let number = number_in(&walked.drawn, walked.at, stretch_of(&walked.drawn, (bar, bar))?);
        let (label, bar) = (self.movement.name_of(staff), self.movement.printed(bar));
        Some(words::movement::note_in_bar(&label, &bar, number))
    }
}

/// The staff, the note, the bar and the place of the head where it stands.
fn head(walked: &Walked) -> Option<(u32, u32, u32, (i32, i32))> {
    let (staff, note, place) = *walked.drawn.heads.get(walked.at)?;
    Some((staff, note, bar_at(&walked.drawn, place.0)?, place))
}

/// The one stop, which stands where the walk does.
pub fn note_walk() -> AnyView {
    let walk = Walk {
        music: Music::get(),
        movement: Movement::get(),
        deeds: Deeds::get(),
        stands: Watched::new(None),
        asks: Watched::new(false),
    };
    let name = Derived::new(move || walk.name());
    let label = live(move || Some(name.get().unwrap_or_else(|| words::movement::NOTES_BY_KEYS.to_owned())));
    let place = Derived::new(move || {
        let walked = walk.here()?;
        let (.., (x, y)) = head(&walked)?;
        walk.music.laid_out.with(|laid| {
            let top = laid.spans().get(walked.system).map_or(0.0, |(top, _)| *top);
            let pixels = |length: i32| f64::from(length) / 100.0 * laid.scale;
            Some((pixels(x), top + pixels(y)))
        })
    });
    let left = live(move || pixel_text(place.get().map_or(BEFORE, |place| place.0)));
    let top = live(move || pixel_text(place.get().map_or(BEFORE, |place| place.1)));
    let key = hear(move |event: KeyboardEvent| {
        let is_plain = !(event.ctrl_key() || event.meta_key() || event.alt_key());
        if let Some(step) = NoteStep::of_key(&event.key()).filter(|_| is_plain) {
            event.prevent_default();
            walk.step(step);
        }
    });
    view! {
        <button
            class="note-walk"
            aria-label=label
            style:left=left
            style:top=top
            on:focus=hear(move |_: FocusEvent| walk.begin())
            on:keydown=key
            on:click=press(move || walk.tell())
        ></button>
        <p class="unseen" role="status">{live(move || name.get())}</p>
    }
    .into_any()
}
