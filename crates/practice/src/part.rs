//! What one player's part offers to ask: single notes, pairs, phrases; and how much each weighs.

use crate::edition::Edition;
use crate::exercise::Material;
use crate::kind::Kind;
use crate::page::{every, fit};
use crate::pattern::{DUOS, HIGH_DUOS, PATTERNS, Pattern};
use crate::pool::{Atom, Theme, atom, fits};
use crate::setting::{Setting, Workshop, is_low_brass, stock};
use crate::usage::is_in_range;
use crookwise_score::Place;
use crookwise_theory::{CrookFamily, Pitch, Production, Reach, Written};

/// What a staff offers.
#[derive(Default)]
pub(crate) struct Found {
    atoms: Vec<Atom>,
    /// What the instrument in hand could not play.
    outside: Vec<Atom>,
}

impl Found {
    fn add(&mut self, inside: bool, atom: Atom) {
        if inside { &mut self.atoms } else { &mut self.outside }.push(atom);
    }

    /// All of it: what lies out of reach only where next to nothing else is there.
    pub(crate) fn all(self, kind: Kind, edition: Edition) -> Vec<Atom> {
        let Self { mut atoms, outside } = self;
        if atoms.len() < 2 {
            atoms.extend(outside);
        }
        if kind == Kind::Made && !edition.is_first() {
            even(&mut atoms);
        }
        atoms
    }
}

/// Gives the notes made by hand together somewhat more weight than the open ones, however rare they are in parts.
fn even(atoms: &mut [Atom]) {
    let sum = |by_hand: bool, atoms: &[Atom]| {
        atoms.iter().filter(|atom| atom.by_hand == by_hand).map(|atom| u64::from(atom.weight)).sum::<u64>()
    };
    let (hand, open) = (sum(true, atoms), sum(false, atoms));
    for atom in atoms.iter_mut().filter(|atom| atom.by_hand) {
        let more = u64::from(atom.weight) * open * 5 / (hand * 4).max(1);
        atom.weight = u32::try_from(more).unwrap_or(u32::MAX).max(atom.weight);
    }
}

/// A player's part of a staff in one key.
pub(crate) struct Part<'a> {
    pub(crate) workshop: &'a Workshop<'a>,
    pub(crate) setting: &'a Setting,
    pub(crate) place: &'a Place,
    pub(crate) player: usize,
    pub(crate) key: Option<usize>,
}

impl Part<'_> {
    /// Single notes.
    pub(crate) fn notes(&self, found: &mut Found, kind: Kind) {
        for (note, weight) in self.wanted() {
            if fits(kind, self.place, note) {
                let by_hand = kind == Kind::Made && is_by_hand(self.place, note);
                let atom = Atom { by_hand, ..atom(Theme::Note(note, self.player), self.key, weight) };
                found.add(self.in_hand(kind, &[note]), atom);
            }
        }
    }

    /// The notes that may be asked for.
    fn wanted(&self) -> Vec<(Pitch, u32)> {
        stock(self.place, self.workshop.exercise.range, self.setting.edition)
    }

    /// Two players at once.
    pub(crate) fn duos(&self, found: &mut Found) {
        let low = is_low_brass(self.place, self.setting.edition);
        for (duo, (.., weight)) in DUOS.iter().enumerate().filter(|(duo, _)| (*duo >= HIGH_DUOS) == low) {
            found.add(true, atom(Theme::Duo(duo), self.key, *weight));
        }
    }

    /// The phrases this part can play, each asked about in the columns whose note is wanted.
    pub(crate) fn phrases(&self, found: &mut Found, kind: Kind) {
        let Self { setting, place, player, key, .. } = *self;
        let (wanted, playable) = (self.wanted(), every(place));
        let low = is_low_brass(place, setting.edition);
        let in_style = |own: &Pattern| match &self.workshop.exercise.material {
            Material::Phrases(styles) => styles.is_empty() || styles.contains(&own.style),
            _ => true,
        };
        let patterns = PATTERNS.iter().enumerate();
        for (pattern, own) in patterns.filter(|(_, own)| own.low == low && (low || in_style(own))) {
            let both = !own.line(1).is_empty();
            if kind == Kind::Players && !both {
                continue;
            }
            // A single player may have either line.
            let lines: &[usize] = match (setting.players(), both) {
                (1, true) => &[0, 1],
                (_, true) => &[player][..],
                (_, false) => &[0],
            };
            for &line in lines {
                let Some(notes) = fit(place, &playable, &own.line(line)) else { continue };
                let one = notes.iter().all(|note| Some(note) == notes.first());
                if one && kind == Kind::WrongNote && !setting.edition.is_first() {
                    continue;
                }
                for (column, note) in notes.iter().enumerate() {
                    let first = column == 0 && setting.muta.is_some();
                    let inside = wanted.iter().any(|(known, _)| known.midi() == note.midi());
                    if inside && !first && fits(kind, place, *note) {
                        let theme = Theme::Phrase { pattern, player: line, column };
                        let by_hand = kind == Kind::Made && is_by_hand(place, *note);
                        found.add(self.in_hand(kind, &notes), Atom { by_hand, ..atom(theme, key, 1) });
                    }
                }
            }
        }
    }

    /// Whether the instrument in hand has these notes, where it matters; at first nobody asked.
    fn in_hand(&self, kind: Kind, notes: &[Pitch]) -> bool {
        let matters = matches!(kind, Kind::InHand | Kind::WrongNote) && !self.setting.edition.is_first();
        let hand = self.workshop.hand.as_ref().filter(|_| matters);
        let Some(hand) = hand else { return true };
        let there = |note: &Pitch| self.place.notation().sounding(Written(*note)).0 + -hand.transposition.0;
        notes.iter().map(there).all(|note| is_in_range(hand, note))
    }
}

/// Whether the hand makes a note: it is neither plain open nor out of reach, and the player has a hand for it.
fn is_by_hand(place: &Place, note: Pitch) -> bool {
    let horn = place.staff.natural_family().filter(|family| *family == CrookFamily::Horn);
    let reach = horn.and_then(|family| Reach::of(family, note));
    reach.is_some_and(|reach| !matches!(reach.production, Production::Open | Production::Unavailable))
}
