//! Everything an exercise could ask, and how often each is to be asked.

use crate::ask::OFF_KEYS;
use crate::chords::{LOWEST, TEMPLATES};
use crate::error::Why;
use crate::exercise::{Material, NoteRange};
use crate::kind::Kind;
use crate::labels::LANGUAGES;
use crate::part::{Found, Part};
use crate::question::Spot;
use crate::setting::{Setting, Workshop};
use crookwise_score::{Event, Passage, Place, ResolvedStaff};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Interval, Partial, Pitch, Printed, Tonic, Written};

/// Something to ask.
#[derive(Clone, Debug)]
pub(crate) struct Atom {
    /// Which key of the staff; `None` where any will do.
    pub(crate) key: Option<usize>,
    pub(crate) theme: Theme,
    pub(crate) weight: u32,
    pub(crate) state: State,
    /// Whether the hand makes the note, where it is asked how.
    pub(crate) by_hand: bool,
}

/// Whether it can still be asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum State {
    Fresh,
    Used,
    /// Not just now: it was the last question.
    Aside,
    /// No question can be made of it.
    Dead,
}

/// What a question is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Theme {
    /// A written note of a player.
    Note(Pitch, usize),
    /// A column of a pattern, for a player.
    Phrase { pattern: usize, player: usize, column: usize },
    /// Two players at once.
    Duo(usize),
    /// Two players at once, each with a crook of his own.
    Pair(Pitch, Pitch),
    /// A stroke among strokes on two drums.
    Drums { strokes: usize, in_c: bool, column: usize },
    /// The label itself: 0 as it is printed, then in other languages.
    Label(usize),
    /// A chord and which member lies lowest.
    Chord { template: usize, lowest: usize },
    /// A note of the passage.
    Place(Spot),
    /// A column of the passage.
    Column(usize),
}

/// Strokes on the two drums: 0 for the first that the label names.
pub(crate) const STROKES: [&[usize]; 4] = [&[0, 1, 0], &[0, 0, 1, 0], &[1, 0], &[1, 1, 0]];

pub(crate) fn atom(theme: Theme, key: Option<usize>, weight: u32) -> Atom {
    Atom { key, theme, weight: weight.max(1), state: State::Fresh, by_hand: false }
}

/// What a kind could ask, staff by staff; what concerns all staves stands in the first list.
pub(crate) fn atoms(workshop: &Workshop<'_>, kind: Kind) -> Result<Vec<Vec<Atom>>, Why> {
    if matches!(kind, Kind::InHand | Kind::WrongNote) && workshop.hand.is_none() {
        return Err(Why::Hand);
    }
    if let Some(passage) = workshop.source() {
        return of_passage(passage, kind, workshop.exercise.range);
    }
    if matches!(kind, Kind::Chord | Kind::WrongStaff) {
        return of_chords(workshop);
    }
    // Nobody reads drums on another instrument, unless there is nothing else.
    let suited = workshop.settings.iter().any(|setting| suits(kind, setting));
    if !suited && !matches!(kind, Kind::InHand | Kind::Label) {
        return Err(lack(kind));
    }
    // Nor does it take any reading where both instruments stand alike.
    let apart =
        workshop.settings.iter().any(|setting| suits(kind, setting) && !is_alike(workshop, kind, setting));
    let able = |setting: &Setting| {
        (suits(kind, setting) || !suited) && !(apart && is_alike(workshop, kind, setting))
    };
    let of_one = |setting: &Setting| {
        if able(setting) { of_staff(workshop, kind, setting) } else { Found::default() }
    };
    let found: Vec<Found> = workshop.settings.iter().map(of_one).collect();
    let few = found.iter().map(Found::within).sum::<usize>() < 2;
    let edition = workshop.exercise.edition;
    let lists: Vec<Vec<Atom>> = found.into_iter().map(|found| found.all(kind, edition, few)).collect();
    let phrases = kind == Kind::WrongNote || matches!(workshop.exercise.material, Material::Phrases(_));
    match lists.iter().all(Vec::is_empty) {
        true if phrases => Err(Why::Phrase),
        true => Err(Why::Range),
        false => Ok(lists),
    }
}

/// Whether a staff is to be read on an instrument that has the same notes for it; at first that was asked as well.
fn is_alike(workshop: &Workshop<'_>, kind: Kind, setting: &Setting) -> bool {
    let same = workshop.reader(kind).is_some_and(|hand| {
        hand.transposition == setting.staff.transposition
            && hand.instrument.clef == setting.staff.instrument.clef
    });
    same && setting.asked.settings.clef.is_none() && setting.muta.is_none()
}

/// Whether a kind can be asked on a staff.
fn suits(kind: Kind, setting: &Setting) -> bool {
    let staff = &setting.staff;
    match kind {
        Kind::Partial | Kind::Made | Kind::Natural => staff.natural_family().is_some(),
        // Nobody reads drums in another clef.
        Kind::Clef if !staff.drums.is_empty() => setting.edition.is_first(),
        Kind::Clef => setting
            .keys
            .first()
            .and_then(|key| setting.place(*key, 0))
            .is_some_and(|place| place.notation().printed_to_sounding() != Interval::UNISON),
        Kind::Writes | Kind::WrongNote => staff.drums.is_empty(),
        Kind::InHand => staff.drums.is_empty() || setting.edition.is_first(),
        Kind::Players => setting.asked.pair && staff.drums.is_empty(),
        // Where all instruments of a name sound as written there is nothing to read.
        Kind::Label => {
            let is_read = staff.crook_family().is_some() || staff.transposition.0 != Interval::UNISON;
            is_read || !setting.edition.has_third()
        }
        _ => true,
    }
}

/// What no staff has, where a kind suits none.
fn lack(kind: Kind) -> Why {
    match kind {
        Kind::Partial | Kind::Made | Kind::Natural => Why::NaturalBrass,
        Kind::Clef => Why::Transposing,
        Kind::Players => Why::Pair,
        _ => Why::Range,
    }
}

fn of_staff(workshop: &Workshop<'_>, kind: Kind, setting: &Setting) -> Found {
    if kind == Kind::Label {
        return Found::of((0..=LANGUAGES).map(|form| atom(Theme::Label(form), None, 1)).collect());
    }
    if !setting.staff.drums.is_empty() {
        return Found::of(of_drums(setting));
    }
    let mut found = Found::default();
    let any_key = setting.staff.natural_family().is_some();
    let phrases = matches!(workshop.exercise.material, Material::Phrases(_));
    for (number, key) in setting.keys.iter().enumerate() {
        if any_key && number > 0 {
            break;
        }
        let in_key = (!any_key).then_some(number);
        for player in 0..setting.players() {
            let Some(place) = setting.place(*key, player) else { continue };
            let part = Part { workshop, setting, place: &place, player, key: in_key };
            match kind {
                Kind::WrongNote | Kind::Players if player > 0 => {}
                Kind::Players if !phrases => part.duos(&mut found),
                _ if phrases || kind == Kind::WrongNote => part.phrases(&mut found, kind),
                _ => part.notes(&mut found, kind),
            }
        }
    }
    found
}

/// Whether a kind can be asked of a note.
pub(crate) fn fits(kind: Kind, place: &Place, written: Pitch) -> bool {
    let partial = || {
        let family = place.staff.natural_family()?;
        Partial::of(family, written).map(Partial::number)
    };
    kind != Kind::Natural || partial().is_some_and(|number| OFF_KEYS.contains(&number))
}

fn of_drums(setting: &Setting) -> Vec<Atom> {
    let named = &setting.staff.drums;
    if named.len() < 2 {
        return Vec::new();
    }
    let c_and_g = |drum: &Tonic| drum.fifths() == 0 || drum.fifths() == 1;
    let may_be_in_c = !named.iter().all(c_and_g);
    let mut found = Vec::new();
    for (strokes, own) in STROKES.iter().enumerate() {
        for column in 0..own.len() {
            for in_c in [false, true] {
                if may_be_in_c || !in_c {
                    found.push(atom(Theme::Drums { strokes, in_c, column }, None, 1));
                }
            }
        }
    }
    found
}

fn of_chords(workshop: &Workshop<'_>) -> Result<Vec<Vec<Atom>>, Why> {
    if workshop.settings.len() < 2 {
        return Err(Why::TwoStaves);
    }
    let mut found = Vec::new();
    let keys = chord_keys(workshop).map_or(&[][..], |setting| &setting.keys);
    for (number, key) in keys.iter().enumerate() {
        for (template, own) in TEMPLATES.iter().enumerate() {
            let third = workshop.exercise.edition.has_third();
            let may = |lowest: &usize| !third || own.is_met(*lowest);
            for (lowest, weight) in
                LOWEST.iter().enumerate().take(own.members(*key)).filter(|(lowest, _)| may(lowest))
            {
                let theme = Theme::Chord { template, lowest };
                found.push(atom(theme, Some(number), own.weight * weight));
            }
        }
    }
    if found.is_empty() { Err(Why::Chord) } else { Ok(vec![found]) }
}

/// The staff whose keys a page of several staves is in: the first natural brass, else the first that transposes, else
/// the first.
pub(crate) fn chord_keys<'a>(workshop: &'a Workshop<'_>) -> Option<&'a Setting> {
    let settings = &workshop.settings;
    let brass = settings.iter().find(|setting| setting.staff.natural_family().is_some());
    let transposing = || settings.iter().find(|setting| setting.staff.transposition.0.fifths() != 0);
    brass.or_else(transposing).or(settings.first())
}

fn of_passage(passage: &Passage, kind: Kind, range: NoteRange) -> Result<Vec<Vec<Atom>>, Why> {
    let columns = passage.columns().len();
    let mut lists = Vec::new();
    let mut suits_some = false;
    let mut keyed = false;
    let together = matches!(kind, Kind::Chord | Kind::WrongStaff);
    for (staff, own) in passage.staves().iter().enumerate() {
        let resolved = ResolvedStaff::of(passage, staff, DecodeOptions::default());
        let mut found = Vec::new();
        let first = resolved.place_at(0, 0);
        if kind == Kind::Label && first.is_none_or(|place| place.staff.is_pitched()) {
            suits_some = true;
            found.push(atom(Theme::Place(Spot { staff, ..Spot::default() }), None, 1));
        }
        let players = if matches!(kind, Kind::Players | Kind::WrongNote) { 1 } else { own.players() };
        for column in 0..if kind == Kind::Label { 0 } else { columns } {
            for player in 0..players {
                let Some(Event::Note(printed)) = passage.event(staff, column, player) else { continue };
                let place = resolved.place_at(column, player);
                let Some(place) = place.filter(|place| place.staff.is_pitched()) else { continue };
                let written = place.notation().written(printed);
                let brass = place.staff.natural_family().is_some();
                keyed |= place.movement.is_some();
                let suits = match kind {
                    Kind::Partial | Kind::Made | Kind::Natural => brass,
                    Kind::Clef => place.notation().printed_to_sounding() != Interval::UNISON,
                    Kind::Writes | Kind::WrongNote => place.staff.drums.is_empty(),
                    Kind::Players => own.players() > 1,
                    Kind::Degree => place.movement.is_some(),
                    _ => true,
                };
                suits_some |= suits;
                if suits
                    && is_printed(printed)
                    && within(range, place, written)
                    && fits(kind, place, written.0)
                {
                    found.push(atom(Theme::Place(Spot { staff, column, player }), None, 1));
                }
            }
        }
        lists.push(found);
    }
    if together {
        if passage.staves().len() < 2 {
            return Err(Why::TwoStaves);
        }
        return Ok(vec![(0..columns).map(|column| atom(Theme::Column(column), None, 1)).collect()]);
    }
    match (lists.iter().all(Vec::is_empty), suits_some) {
        (false, _) => Ok(lists),
        (true, true) => Err(Why::Range),
        (true, false) if kind == Kind::Degree && !keyed => Err(Why::Key),
        (true, false) => Err(lack(kind)),
    }
}

/// Whether any score prints such a note: at most two signs, and on the keyboard of ten octaves.
fn is_printed(note: Printed) -> bool {
    (-2..=2).contains(&note.0.alter) && (0..=127).contains(&note.0.midi())
}

/// Whether a written note lies within what is asked for.
pub(crate) fn within(range: NoteRange, place: &Place, written: Written) -> bool {
    match range {
        NoteRange::Usual => true,
        NoteRange::Written(low, high) => (i32::from(low)..=i32::from(high)).contains(&written.0.midi()),
        NoteRange::Partials(low, high) => place
            .staff
            .natural_family()
            .and_then(|family| Partial::of(family, written.0))
            .is_some_and(|partial| (low..=high).contains(&partial.number())),
    }
}
