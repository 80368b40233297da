//! Actions on the staff and its tuning.

use super::Document;
use crate::state::decoding::decoded;
use crate::state::start;
use crookwise_score::{Choice, Event, MOST_PLAYERS, SignatureSource, Staff};
use crookwise_share::ReadPage;
use crookwise_theory::label::{LONGEST, Mechanism};
use crookwise_theory::{BassNotation, Clef, Key, Scheme, Temperament, Tonic, TunedOn, Warmth};
use std::sync::Arc;

impl Document {
    /// Types in the label. Typing on belongs to the same step.
    pub fn type_label(&mut self, label: &str) {
        if self.typing {
            let mut page = ReadPage::clone(&self.page);
            relabel(&mut page, label);
            self.page = Arc::new(page);
            self.changes += 1;
        } else {
            self.set(|page| {
                forget_the_example(page);
                relabel(page, label);
            });
            self.typing = true;
        }
    }

    /// The label is finished: the staff has the players it names, and the next typing is a step of its own.
    pub fn finish_typing(&mut self) {
        if core::mem::take(&mut self.typing) {
            let mut page = ReadPage::clone(&self.page);
            seat_named(&mut page);
            if page != *self.page {
                self.page = Arc::new(page);
                self.changes += 1;
            }
        }
    }

    /// Puts a whole label in place, as one step.
    pub fn set_label(&mut self, label: &str) {
        self.typing = false;
        self.set(|page| {
            forget_the_example(page);
            relabel(page, label);
            seat_named(page);
        });
    }

    /// Picks another reading of the label for the selected player and all who read the same of the staves it names; `None`
    /// goes back to the usual one.
    pub fn choose_reading(&mut self, choice: Option<Choice>) {
        self.set(|page| {
            let Some(staff) = page.passage.staves().get(page.staff) else { return };
            let seats = decoded(&staff.label, page.year).seats(staff.players());
            let own = seats.get(page.player).map_or(0, |seat| seat.staff);
            // The first of the staves has its reading beside the label; the others have crooks of their own.
            if let Some(staff) = page.passage.staff_mut(page.staff).filter(|_| own == 0) {
                staff.choice = choice;
                let _ = page.passage.set_crook(page.staff, page.player, None);
                return;
            }
            for (player, _) in seats.iter().enumerate().filter(|(_, seat)| seat.staff == own) {
                // The player is one of the staff.
                let _ = page.passage.set_crook(page.staff, player, choice);
            }
        });
    }

    /// Natural or with valves.
    pub fn set_mechanism(&mut self, mechanism: Mechanism) {
        self.set_staff(|staff| staff.settings.mechanism = Some(mechanism));
    }

    /// The clef. Notes keep their pitch, as far as they are printed.
    pub fn set_clef(&mut self, clef: Clef) {
        self.set_staff(|staff| staff.settings.clef = Some(clef));
    }

    /// The octave mark at the clef: 1 for an 8 above, -1 for one below, 0 for none.
    pub fn set_clef_octave(&mut self, octave: i8) {
        let (clef, _) = self.head_at(0);
        if let Ok(clef) = Clef::new(clef.sign, clef.line(), octave) {
            self.set_clef(clef);
        }
    }

    /// Old or new bass-clef notation.
    pub fn set_bass(&mut self, bass: BassNotation) {
        self.set_staff(|staff| staff.settings.bass = Some(bass));
    }

    /// The system of bass clarinet or Wagner tuba.
    pub fn set_scheme(&mut self, scheme: Scheme) {
        self.set_staff(|staff| staff.settings.scheme = Some(scheme));
    }

    /// Where the signature of the staff comes from.
    pub fn set_signature(&mut self, source: SignatureSource) {
        self.set_staff(|staff| staff.settings.signature = Some(source));
    }

    /// Whether the page is printed at sounding pitch.
    pub fn set_at_pitch(&mut self, at_pitch: bool) {
        self.set_staff(|staff| staff.settings.at_pitch = at_pitch);
    }

    /// The key of the movement.
    pub fn set_movement(&mut self, key: Option<Key>) {
        self.set(|page| page.passage.movement = key);
    }

    /// Frequency of A4 in Hz, brought into the range in use and to hundredths, as links keep it.
    pub fn set_a4(&mut self, a4: f64) {
        let (low, high) = crookwise_theory::Tuning::A4_RANGE;
        if a4.is_finite() {
            self.set(|page| page.intonation.tuning.a4 = (a4.clamp(low, high) * 100.0).round() / 100.0);
        }
    }

    /// The temperament.
    pub fn set_temperament(&mut self, temperament: &'static Temperament) {
        self.set(|page| page.intonation.tuning.temperament = temperament);
    }

    /// The key from which the temperament is laid.
    pub fn set_root(&mut self, root: Tonic) {
        self.set(|page| page.intonation.tuning.root = root);
    }

    /// On which of its notes the brass tunes.
    pub fn set_tuned_on(&mut self, tuned_on: TunedOn) {
        self.set(|page| page.intonation.tuned_on = tuned_on);
    }

    /// Warmth of the air in °C when the brass tuned and now; `None` where it is left out of account.
    pub fn set_warmth(&mut self, warmth: Option<Warmth>) {
        self.set(|page| page.intonation.warmth = warmth);
    }

    /// The year of the music.
    pub fn set_year(&mut self, year: Option<i32>) {
        self.set(|page| page.year = year);
    }

    /// The instrument in the reader's hands, as a label.
    pub fn set_in_hand(&mut self, label: &str) {
        let label = label.trim();
        self.set(|page| page.in_hand = (!label.is_empty()).then(|| label.to_owned()));
    }
}

/// The key, the tuning and the instrument in hand of the page that stands there before the reader has made one are an
/// example's, and go with its label.
pub(super) fn forget_the_example(page: &mut ReadPage) {
    if page.passage == start::page().passage {
        page.passage.movement = None;
        *page = ReadPage { passage: page.passage.clone(), selected: page.selected, ..ReadPage::of_label("") };
    }
}

/// A new label forgets what was chosen for the old one, but not the notes.
pub(super) fn relabel(page: &mut ReadPage, label: &str) {
    // A link takes no longer one, and whatever stands here must open again.
    let label: String = label.chars().take(LONGEST).collect();
    if let Some(staff) = page.passage.staff_mut(page.staff)
        && staff.label != label
    {
        let seated = decoded(&staff.label, page.year).named_players() == Some(staff.players());
        staff.label = label;
        staff.choice = None;
        staff.settings.mechanism = None;
        staff.settings.scheme = None;
        let players = staff.players();
        for player in 0..players {
            // The player is one of the staff.
            let _ = page.passage.set_crook(page.staff, player, None);
        }
        if seated {
            unseat(page);
        }
    }
}

/// Where a label that named its players gives way to one that names none, they go with it. Who has notes of his own stays.
fn unseat(page: &mut ReadPage) {
    let Some(staff) = page.passage.staves().get(page.staff) else { return };
    if decoded(&staff.label, page.year).named_players().is_none() {
        let players = with_notes(staff);
        // Fewer than before.
        let _ = page.passage.set_players(page.staff, players);
        page.player = page.player.min(players - 1);
    }
}

/// The fewest players that take nobody's notes away.
fn with_notes(staff: &Staff) -> usize {
    let own = |player: &usize| {
        staff.cells().iter().any(|cell| !cell.is_together() && cell.of(*player) != Event::Rest)
    };
    (0..staff.players()).filter(own).max().map_or(1, |player| player + 1)
}

/// Gives the staff as many players as its label names ("2 Corni"). Who has notes of his own stays.
pub(super) fn seat_named(page: &mut ReadPage) {
    let Some(staff) = page.passage.staves().get(page.staff) else { return };
    let Some(named) = decoded(&staff.label, page.year).named_players() else { return };
    let players = named.clamp(1, MOST_PLAYERS).max(with_notes(staff));
    // So many players a staff may have.
    let _ = page.passage.set_players(page.staff, players);
    page.player = page.player.min(players - 1);
}
