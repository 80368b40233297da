//! What one player's part offers to ask: single notes, pairs, phrases; and how much each weighs.

use crate::edition::Edition;
use crate::exercise::Material;
use crate::kind::Kind;
use crate::page::{every, fit, is_reached, lines};
use crate::pattern::{DUOS, HIGH_DUOS, OPEN, PATTERNS, Pattern};
use crate::pool::{Atom, Theme, atom, fits};
use crate::setting::{Setting, Workshop, is_low_brass, stock};
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

    /// What is asked of anybody.
    pub(crate) const fn of(atoms: Vec<Atom>) -> Self {
        Self { atoms, outside: Vec::new() }
    }

    /// How much of it lies within reach.
    pub(crate) const fn within(&self) -> usize {
        self.atoms.len()
    }

    /// All of it: what lies out of reach only where all staves have next to nothing else.
    pub(crate) fn all(self, kind: Kind, edition: Edition, few: bool) -> Vec<Atom> {
        let Self { mut atoms, outside } = self;
        if few {
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
                found.add(self.in_hand(kind, note), atom);
            }
        }
    }

    /// The notes that may be asked for.
    fn wanted(&self) -> Vec<(Pitch, u32)> {
        stock(self.place, self.workshop.exercise.range, self.setting.edition)
    }

    /// Two players at once.
    pub(crate) fn duos(&self, found: &mut Found) {
        if let Some(other) = self.other_crook() {
            self.pairs(&other, found);
            return;
        }
        let low = is_low_brass(self.place, self.setting.edition);
        for duo in (0..DUOS.len()).filter(|duo| (*duo >= HIGH_DUOS) == low) {
            found.add(true, atom(Theme::Duo(duo), self.key, self.often(duo)));
        }
    }

    /// The place of the second player, where his crook is another one than that of the first; at first nobody thought of it.
    fn other_crook(&self) -> Option<Place> {
        let other = self.setting.place(*self.setting.keys.first()?, 1)?;
        let is_other = other.staff.transposition != self.place.staff.transposition;
        (is_other && self.setting.edition.has_third()).then_some(other)
    }

    /// Open notes of two crooks that make a consonance: what is written as horn fifths would sound as anything.
    fn pairs(&self, other: &Place, found: &mut Found) {
        let open = OPEN.map(str::parse::<Pitch>);
        let open = || open.iter().flatten().copied();
        for upper in open() {
            for lower in open().filter(|lower| *lower != upper) {
                let high = self.place.notation().sounding(Written(upper)).0.midi();
                let apart = high - other.notation().sounding(Written(lower)).0.midi();
                let weight = match apart {
                    3 | 4 | 8 | 9 | 15 | 16 => 3,
                    7 | 12 => 2,
                    _ => continue,
                };
                found.add(true, atom(Theme::Pair(upper, lower), self.key, weight));
            }
        }
    }

    /// How often a pair is met: winds have what is counted for horns, but seldom one note for both.
    fn often(&self, duo: usize) -> u32 {
        let Some((upper, lower, weight)) = DUOS.get(duo) else { return 0 };
        let winds = self.place.staff.natural_family().is_none() && !self.setting.edition.is_first();
        if winds && upper == lower { weight / 5 } else { *weight }
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
                let Some((notes, reached)) = self.notes_of(kind, own, line, &playable) else { continue };
                if self.leaps(&notes) {
                    continue;
                }
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
                        found.add(reached, Atom { by_hand, ..atom(theme, key, 1) });
                    }
                }
            }
        }
    }

    /// The notes of a line of a pattern as the page will have them, and whether the instrument in hand has all of it.
    fn notes_of(
        &self,
        kind: Kind,
        own: &Pattern,
        line: usize,
        playable: &[(Pitch, u32)],
    ) -> Option<(Vec<Pitch>, bool)> {
        let Some(hand) = self.workshop.reader(kind) else {
            return Some((fit(self.place, playable, &own.line(line))?, true));
        };
        let key = self.place.movement?;
        let (reached, lines) = [Some(hand), None]
            .into_iter()
            .find_map(|hand| Some((hand.is_some(), lines(self.setting, key, own, line, hand)?)))?;
        let player = if lines.len() > 1 { line } else { 0 };
        Some((lines.into_iter().nth(player)?.1, reached))
    }

    /// Whether a line leaps by a seventh or by more than an octave, which natural brass does for want of other notes.
    fn leaps(&self, notes: &[Pitch]) -> bool {
        let winds = self.place.staff.natural_family().is_none() && !self.setting.edition.is_first();
        let wide = |pair: &[Pitch]| {
            let leap =
                pair.first().zip(pair.last()).map_or(0, |(one, next)| (next.midi() - one.midi()).abs());
            matches!(leap, 10 | 11 | 13..)
        };
        winds && self.setting.players() == 1 && notes.windows(2).any(wide)
    }

    /// Whether the instrument in hand has a note, where it matters.
    fn in_hand(&self, kind: Kind, note: Pitch) -> bool {
        self.workshop.reader(kind).is_none_or(|hand| is_reached(self.place, hand, note))
    }
}

/// Whether the hand makes a note: it is neither plain open nor out of reach, and the player has a hand for it.
fn is_by_hand(place: &Place, note: Pitch) -> bool {
    let horn = place.staff.natural_family().filter(|family| *family == CrookFamily::Horn);
    let reach = horn.and_then(|family| Reach::of(family, note));
    reach.is_some_and(|reach| !matches!(reach.production, Production::Open | Production::Unavailable))
}
