//! Drawing the questions of an exercise from its seed: each kind in turn, each staff alike, notes by how often parts use
//! them, nothing twice before it must be.

use crate::answer::Answer;
use crate::ask::{ask, note, place, resolved};
use crate::chance::Chance;
use crate::check::check;
use crate::choices::offer;
use crate::chords;
use crate::dealt::{Asked, Counts};
use crate::error::{ExerciseError, Why};
use crate::exercise::Exercise;
use crate::kind::Kind;
use crate::labels;
use crate::page;
use crate::pattern::{DUOS, PATTERNS};
use crate::planted::{self, Misreading};
use crate::pool::{Atom, STROKES, State, Theme, atoms, chord_keys, within};
use crate::question::{Question, Spot};
use crate::setting::Workshop;
use crookwise_score::Passage;
use crookwise_theory::{Key, Production};

/// What a kind could ask.
struct Pool {
    kind: Kind,
    staves: Vec<Vec<Atom>>,
    /// Why nothing can be made of it, should that turn out.
    why: Why,
    /// The first question of this round: once all have been asked, they may come again.
    since: usize,
    /// Nothing comes again: the clef of a staff is the same for all its notes, and other kinds are asked as well.
    once: bool,
    /// How many open notes may be asked, where it is asked how notes are made.
    open: Option<usize>,
    /// How often it asked about each staff, where staves are dealt: the one that was asked about least is the next.
    dealt: Option<Counts>,
}

impl Exercise {
    /// Its questions: the same for the same exercise everywhere.
    ///
    /// ```
    /// use crookwise_practice::{AskedStaff, Exercise};
    ///
    /// let exercise = Exercise { staves: vec![AskedStaff::of("Corni in Es")], ..Exercise::default() };
    /// assert_eq!(exercise.questions().unwrap().len(), 10);
    /// ```
    ///
    /// # Errors
    /// Where the exercise is not complete, or cannot give that many questions: [`ExerciseError`] says why.
    pub fn questions(&self) -> Result<Vec<Question>, ExerciseError> {
        self.drawn(Misreading::Throughout)
    }

    /// Its questions; a staff is misread by one mistake throughout, or as it was at first.
    pub(crate) fn drawn(&self, misreading: Misreading) -> Result<Vec<Question>, ExerciseError> {
        check(self)?;
        let workshop = Workshop { misreading, ..Workshop::of(self)? };
        let mut chance = Chance::new(self.seed);
        let mut kinds = self.kinds.clone();
        kinds.sort_unstable();
        kinds.dedup();
        chance.shuffle(&mut kinds);
        let count = kinds.len();
        let mut pools = Vec::new();
        for kind in kinds {
            let staves = atoms(&workshop, kind).map_err(|why| ExerciseError::Nothing { kind, why })?;
            // At first every clef was asked as often as any note, and open notes as often as parts have them.
            let once = kind == Kind::Clef && count > 1 && !self.edition.is_first();
            let open = (kind == Kind::Made && !self.edition.is_first())
                .then_some(usize::from(self.questions) / count / 2);
            // A chord is about all staves.
            let by_staff = self.edition.has_fourth() && !matches!(kind, Kind::Chord | Kind::WrongStaff);
            let dealt = by_staff.then(Counts::default);
            pools.push(Pool { kind, staves, why: why_dead(kind), since: 0, once, open, dealt });
        }
        let mut asked = Asked::default();
        while asked.questions.len() < usize::from(self.questions) {
            let turn = asked.questions.len() % count;
            let mut next = None;
            for offset in 0..count {
                let Some(pool) = pools.get_mut((turn + offset) % count) else { continue };
                next = pool.next(&workshop, &asked, &mut chance);
                if let Some((staff, _)) = next {
                    if let Some(own) = &mut pool.dealt {
                        own.count(staff);
                        asked.staves.count(staff);
                    }
                    break;
                }
                if !pool.alive() {
                    return Err(ExerciseError::Nothing { kind: pool.kind, why: pool.why });
                }
            }
            let (_, mut question) = next.ok_or(ExerciseError::TooFew { possible: asked.questions.len() })?;
            question.choices = offer(&question, self, &mut chance);
            asked.questions.push(question);
        }
        Ok(asked.questions)
    }
}

fn why_dead(kind: Kind) -> Why {
    match kind {
        Kind::Chord => Why::Chord,
        Kind::WrongStaff => Why::TwoStaves,
        Kind::Label => Why::Ambiguous,
        Kind::WrongNote => Why::Phrase,
        _ => Why::Range,
    }
}

impl Pool {
    fn alive(&self) -> bool {
        self.staves.iter().flatten().any(|atom| atom.state != State::Dead)
    }

    /// The next question, unlike the last one and, as long as there are others, unlike all before; `None` where there
    /// is none.
    fn next(
        &mut self,
        workshop: &Workshop<'_>,
        before: &Asked,
        chance: &mut Chance,
    ) -> Option<(usize, Question)> {
        let question = self.unlike(workshop, before, chance);
        if question.is_some() || self.once {
            return question;
        }
        // All have been asked: they may come again, but not the one that was just there.
        for atom in self.staves.iter_mut().flatten().filter(|atom| atom.state == State::Used) {
            atom.state = State::Fresh;
        }
        self.since = before.questions.len();
        self.unlike(workshop, before, chance)
    }

    /// A fresh question unlike all of this round and unlike the last one.
    fn unlike(
        &mut self,
        workshop: &Workshop<'_>,
        before: &Asked,
        chance: &mut Chance,
    ) -> Option<(usize, Question)> {
        let found = self.fresh(workshop, before, chance);
        for atom in self.staves.iter_mut().flatten().filter(|atom| atom.state == State::Aside) {
            atom.state = State::Fresh;
        }
        found
    }

    fn fresh(
        &mut self,
        workshop: &Workshop<'_>,
        before: &Asked,
        chance: &mut Chance,
    ) -> Option<(usize, Question)> {
        let (asked, before) = (before, before.questions.as_slice());
        let round = before.get(self.since..).unwrap_or_default();
        let alike = |other: &Question, question: &Question| {
            alike(other, question)
                || (self.once && same_clef(other, question))
                || (self.open.is_some() && same_made(other, question))
        };
        loop {
            // Where enough open notes were asked it is the turn of the others, as long as there are any.
            let by_hand = self.open.is_some_and(|most| open_notes(before) >= most)
                && self.staves.iter().flatten().any(|atom| is_fresh(atom) && atom.by_hand);
            let able = |atom: &Atom| is_fresh(atom) && (atom.by_hand || !by_hand);
            let mut fresh: Vec<usize> = (0..self.staves.len())
                .filter(|&staff| self.staves.get(staff).is_some_and(|list| list.iter().any(able)))
                .collect();
            if let Some(own) = &self.dealt {
                let often = |staff: usize| (own.of(staff), asked.staves.of(staff));
                let least = fresh.iter().map(|&staff| often(staff)).min();
                fresh.retain(|&staff| Some(often(staff)) == least);
            }
            let staff = *chance.one(&fresh)?;
            let list = self.staves.get_mut(staff)?;
            let weights: Vec<u32> =
                list.iter().map(|atom| if able(atom) { atom.weight } else { 0 }).collect();
            let atom = list.get_mut(chance.by_weight(&weights))?;
            let Some(question) = make(workshop, self.kind, staff, atom, chance) else {
                atom.state = State::Dead;
                continue;
            };
            if !round.iter().any(|other| alike(other, &question))
                && before.last().is_some_and(|last| alike(last, &question))
            {
                atom.state = State::Aside;
                continue;
            }
            let theme = atom.theme.clone();
            atom.state = State::Used;
            // The same in another key is another question only where the key is asked for.
            if self.kind != Kind::Degree {
                for other in list.iter_mut().filter(|other| is_fresh(other) && other.theme == theme) {
                    other.state = State::Used;
                }
            }
            if !round.iter().any(|other| alike(other, &question)) {
                return Some((staff, question));
            }
        }
    }
}

fn is_fresh(atom: &Atom) -> bool {
    atom.state == State::Fresh
}

/// How many questions there were whose note is plain open.
fn open_notes(questions: &[Question]) -> usize {
    questions.iter().filter(|question| question.right == Answer::Made(Production::Open)).count()
}

/// Whether two questions ask for the same clef to be imagined on the same staff.
fn same_clef(one: &Question, other: &Question) -> bool {
    let staff = |question: &Question| {
        let staff = question.passage.staves().first();
        staff.map(|staff| (staff.label.clone(), staff.settings, staff.choice))
    };
    one.kind == Kind::Clef
        && other.kind == Kind::Clef
        && one.right == other.right
        && staff(one) == staff(other)
}

/// Whether two questions ask how the same written note is made: crook and player change nothing.
fn same_made(one: &Question, other: &Question) -> bool {
    let note = |question: &Question| {
        let reading = question.reading()?;
        Some((reading.making?.family, reading.written))
    };
    one.kind == Kind::Made && other.kind == Kind::Made && note(one) == note(other)
}

/// Whether two questions ask the same.
fn alike(one: &Question, other: &Question) -> bool {
    let shown = |question: &Question| {
        let mut passage = question.passage.clone();
        if question.kind != Kind::Degree {
            passage.movement = None;
        }
        passage
    };
    one.kind == other.kind
        && one.at == other.at
        && one.given == other.given
        && one.right == other.right
        && shown(one) == shown(other)
}

/// The question an atom makes.
fn make(
    workshop: &Workshop<'_>,
    kind: Kind,
    staff: usize,
    atom: &Atom,
    chance: &mut Chance,
) -> Option<Question> {
    let hand = workshop.exercise.in_hand.as_deref();
    if let Some(source) = workshop.source() {
        return of_source(workshop, source, kind, &atom.theme, chance);
    }
    if let Theme::Chord { template, lowest } = atom.theme {
        let key = *chord_keys(workshop)?.keys.get(atom.key?)?;
        let template = chords::TEMPLATES.get(template)?;
        let mut chance = chance.apart();
        if kind == Kind::Chord {
            return chords::question(chords::page(workshop, key, template, lowest, &mut chance)?);
        }
        return planted::played(
            chords::phrase(workshop, key, template, lowest, &mut chance)?,
            workshop.misreading,
            &mut chance,
        );
    }
    let setting = workshop.settings.get(staff)?;
    let key: Key = match atom.key {
        Some(number) => *setting.keys.get(number)?,
        None if kind == Kind::Degree => *chance.one(&setting.keys_of_degrees(workshop.exercise))?,
        None => *chance.one(&setting.keys)?,
    };
    let (page, at) = match &atom.theme {
        Theme::Note(written, player) => page::single(setting, key, *written, *player, chance)?,
        Theme::Phrase { pattern, player, column } => {
            let at = Spot { staff: 0, column: *column, player: *player };
            page::phrase(setting, key, PATTERNS.get(*pattern)?, at, (workshop.reader(kind), chance))?
        }
        Theme::Duo(duo) => {
            let (upper, lower, _) = DUOS.get(*duo)?;
            page::duo(setting, key, upper.parse().ok()?, lower.parse().ok()?)?
        }
        Theme::Pair(upper, lower) => page::duo(setting, key, *upper, *lower)?,
        Theme::Drums { strokes, in_c, column } => {
            page::drums(setting, key, STROKES.get(*strokes)?, *in_c, *column)?
        }
        Theme::Label(form) => {
            let mut page = setting.page(key);
            page.insert_column(0).ok()?;
            if let Some(language) = form.checked_sub(1) {
                let label = labels::form(&setting.staff, language)?;
                let own = page.staff_mut(0)?;
                own.choice = None;
                own.label = label;
            }
            return labels::question(page);
        }
        Theme::Chord { .. } | Theme::Place(_) | Theme::Column(_) => return None,
    };
    of_note(workshop, kind, page, at, hand, chance)
}

fn of_note(
    workshop: &Workshop<'_>,
    kind: Kind,
    page: Passage,
    at: Spot,
    hand: Option<&str>,
    chance: &mut Chance,
) -> Option<Question> {
    let question = asked(workshop, kind, page, at, hand, chance)?;
    if workshop.exercise.edition.is_first() { question.spelled_at_first() } else { Some(question) }
}

fn asked(
    workshop: &Workshop<'_>,
    kind: Kind,
    page: Passage,
    at: Spot,
    hand: Option<&str>,
    chance: &mut Chance,
) -> Option<Question> {
    match kind {
        Kind::Natural => planted::natural(page, at, chance),
        Kind::WrongNote => planted::copy(page, hand?, at.column, (workshop.exercise.edition, chance)),
        Kind::InHand => {
            let mut question = ask(kind, page, at, workshop.hand.as_ref())?;
            question.in_hand = Some(hand?.to_owned());
            // As its part would print it, where that is another spelling; at first it was the strict one.
            if let Some(printed) = question.also.first_mut().filter(|_| !workshop.exercise.edition.is_first())
            {
                core::mem::swap(printed, &mut question.right);
            }
            Some(question)
        }
        Kind::Players => {
            let inside = |player: usize| {
                let at = Spot { player, ..at };
                let place = place(&page, at)?;
                let written = place.notation().written(note(&page, at)?);
                Some(within(workshop.exercise.range, &place, written))
            };
            let players = page.staves().first()?.players();
            if !(0..players).all(|player| inside(player) == Some(true)) {
                return None;
            }
            ask(kind, page, at, None)
        }
        _ => ask(kind, page, at, None),
    }
}

/// How many columns of a page are heard.
const HEARD: usize = 4;

fn of_source(
    workshop: &Workshop<'_>,
    source: &Passage,
    kind: Kind,
    theme: &Theme,
    chance: &mut Chance,
) -> Option<Question> {
    match *theme {
        Theme::Column(column) if kind == Kind::Chord => {
            chords::question(page::struck(source, column..column + 1)?)
        }
        Theme::Column(column) => {
            let end = source.columns().len().min(column + HEARD);
            planted::played(page::struck(source, column..end)?, workshop.misreading, chance)
        }
        Theme::Place(at) if kind == Kind::Label => {
            let mut page = source.clone();
            page::keep_staves(&mut page, |staff| staff == at.staff);
            resolved(&page, 0)?;
            labels::question(page::bare(&page)?)
        }
        Theme::Place(at) => {
            let (page, at) = page::around(source, at)?;
            of_note(workshop, kind, page, at, workshop.exercise.in_hand.as_deref(), chance)
        }
        _ => None,
    }
}
