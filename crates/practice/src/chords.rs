//! Chords spread over the staves of a page, as a score would: the bass below, open notes for natural brass.

use crate::answer::{Answer, ChordName};
use crate::ask::resolved;
use crate::chance::Chance;
use crate::kind::Kind;
use crate::page;
use crate::question::{Question, Spot};
use crate::setting::{Setting, Workshop, stock};
use crookwise_score::{Event, Harmony, HarmonyKind, Passage, Quality, Role, Voice, voices};
use crookwise_theory::{Intonation, Key, Mode, Pitch, Written};

/// A chord on a degree of a key.
#[derive(Debug)]
pub(crate) struct Template {
    mode: Mode,
    /// Semitones of its root above the tonic.
    root: i32,
    /// Its members in semitones above the root, with their roles in the order of thirds.
    members: &'static [i32],
    /// How often it is met. A musician's estimate: common practice.
    pub(crate) weight: u32,
}

const fn template(mode: Mode, root: i32, members: &'static [i32], weight: u32) -> Template {
    Template { mode, root, members, weight }
}

/// Triads and sevenths of the keys.
pub(crate) const TEMPLATES: [Template; 14] = [
    template(Mode::Major, 0, &[0, 4, 7], 8),
    template(Mode::Major, 7, &[0, 4, 7], 4),
    template(Mode::Major, 7, &[0, 4, 7, 10], 6),
    template(Mode::Major, 5, &[0, 4, 7], 4),
    template(Mode::Major, 2, &[0, 3, 7], 3),
    template(Mode::Major, 9, &[0, 3, 7], 3),
    template(Mode::Major, 11, &[0, 3, 6], 1),
    template(Mode::Major, 2, &[0, 3, 7, 10], 2),
    template(Mode::Minor, 0, &[0, 3, 7], 8),
    template(Mode::Minor, 7, &[0, 4, 7], 4),
    template(Mode::Minor, 7, &[0, 4, 7, 10], 6),
    template(Mode::Minor, 5, &[0, 3, 7], 4),
    template(Mode::Minor, 8, &[0, 4, 7], 3),
    template(Mode::Minor, 3, &[0, 4, 7], 3),
];

/// How often a member lies lowest: root, third, fifth, seventh. A musician's estimate: common practice.
pub(crate) const LOWEST: [u32; 4] = [6, 3, 2, 1];
/// The root of the dominant in semitones above the tonic.
const DOMINANT: i32 = 7;
/// How often the notes are dealt anew before a chord is given up.
const DEALS: usize = 60;

impl Template {
    /// How many members it has; 0 in a key of the other mode.
    pub(crate) fn members(&self, key: Key) -> usize {
        if key.mode == self.mode { self.members.len() } else { 0 }
    }
}

/// A page on which the staves make a chord, its given member lowest; `None` where they cannot.
pub(crate) fn page(
    workshop: &Workshop<'_>,
    key: Key,
    template: &Template,
    lowest: usize,
    chance: &mut Chance,
) -> Option<Passage> {
    let tonic = key.tonic.pitch_class();
    let class = |member: &i32| (tonic + template.root + member).rem_euclid(12);
    let classes: Vec<i32> = template.members.iter().map(class).collect();
    let bass = *classes.get(lowest)?;
    let hands: Vec<Vec<Candidate>> =
        workshop.settings.iter().map(|setting| candidates(workshop, setting, key, &classes)).collect();
    let carriers: Vec<usize> = (0..hands.len())
        .filter(|&staff| hands.get(staff).is_some_and(|hand| hand.iter().any(|one| one.class == bass)))
        .collect();
    for _ in 0..DEALS {
        let carrier = *chance.one(&carriers)?;
        let Some(dealt) = deal(&hands, carrier, bass, chance) else { continue };
        let covered = classes.iter().all(|class| dealt.iter().flatten().any(|one| one.class == *class));
        if !covered || dealt.iter().flatten().count() < 2 {
            continue;
        }
        let page = set(workshop, key, &dealt)?;
        if chord(&page).is_some() {
            return Some(page);
        }
    }
    None
}

/// A note that a staff could have in a chord.
#[derive(Clone, Copy, Debug)]
struct Candidate {
    written: Pitch,
    sounding: i32,
    class: i32,
    weight: u32,
}

fn candidates(workshop: &Workshop<'_>, setting: &Setting, key: Key, classes: &[i32]) -> Vec<Candidate> {
    let Some(place) = setting.place(key, 0) else { return Vec::new() };
    let notation = place.notation();
    stock(&place, workshop.exercise.range)
        .into_iter()
        .map(|(written, weight)| {
            let sounding = notation.sounding(Written(written)).0.semitones();
            Candidate { written, sounding, class: sounding.rem_euclid(12), weight: weight.min(60) + 4 }
        })
        .filter(|one| classes.contains(&one.class))
        .collect()
}

/// A note for each staff, none lower than the bass of the carrier; `None` for a staff that rests.
fn deal(
    hands: &[Vec<Candidate>],
    carrier: usize,
    bass: i32,
    chance: &mut Chance,
) -> Option<Vec<Option<Candidate>>> {
    let pick = |staff: usize, chance: &mut Chance, may: &dyn Fn(&Candidate) -> bool| {
        let able: Vec<Candidate> = hands.get(staff)?.iter().filter(|one| may(one)).copied().collect();
        let weights: Vec<u32> = able.iter().map(|one| one.weight).collect();
        able.get(chance.by_weight(&weights)).copied()
    };
    let low = pick(carrier, chance, &|one| one.class == bass)?;
    let own = |staff: usize, chance: &mut Chance| {
        if staff == carrier {
            return Some(low);
        }
        pick(staff, chance, &|one| one.sounding >= low.sounding)
    };
    Some((0..hands.len()).map(|staff| own(staff, chance)).collect())
}

fn set(workshop: &Workshop<'_>, key: Key, dealt: &[Option<Candidate>]) -> Option<Passage> {
    let mut page = Passage::default();
    page.movement = Some(key);
    for (setting, note) in workshop.settings.iter().zip(dealt) {
        let at = setting.add_to(&mut page)?;
        let Some(note) = note else { continue };
        let printed = setting.place(key, 0)?.notation().printed(Written(note.written));
        if setting.players() > 1 {
            page.set_together(at, 0, printed).ok()?;
        } else {
            page.set(at, 0, 0, Event::Note(printed)).ok()?;
        }
    }
    Some(page)
}

/// Closes a phrase that began with a chord: the dominant, then the tonic, each where the staves can make it.
pub(crate) fn close(
    workshop: &Workshop<'_>,
    key: Key,
    mut phrase: Passage,
    first: &Template,
    chance: &mut Chance,
) -> Option<Passage> {
    let mut last = first.root;
    for root in [DOMINANT, 0] {
        let triad = TEMPLATES.iter().find(|one| one.mode == key.mode && one.root == root);
        let next = triad.filter(|_| root != last).and_then(|triad| page(workshop, key, triad, 0, chance));
        if let Some(next) = next {
            page::append(&mut phrase, &next)?;
            last = root;
        }
    }
    Some(phrase)
}

/// What sounds in a column.
pub(crate) fn sounding(page: &Passage, column: usize) -> Vec<Voice> {
    let staves: Vec<_> = (0..page.staves().len()).filter_map(|staff| resolved(page, staff)).collect();
    voices(page, &staves.iter().collect::<Vec<_>>(), column, Intonation::default())
}

/// The name of the chord in the first column: a whole one that can be heard one way only, on at least two staves.
pub(crate) fn chord(page: &Passage) -> Option<ChordName> {
    let voices = sounding(page, 0);
    on_several_staves(&voices).then(|| name(&Harmony::of_voices(&voices, page.movement)))?
}

/// Whether voices stand on at least two staves.
pub(crate) fn on_several_staves(voices: &[Voice]) -> bool {
    voices.first().is_some_and(|first| voices.iter().any(|voice| voice.staff != first.staff))
}

/// The name of a harmony that is a whole triad or seventh and nothing else besides.
pub(crate) fn name(harmony: &Harmony) -> Option<ChordName> {
    match harmony.kind {
        HarmonyKind::Chord(chord) if chord.missing.is_none() && harmony.also.is_empty() => {
            // Chords that divide the octave evenly and sixths have no bass that could be asked for.
            let plain = chord.inversion().is_some() && chord.quality != Quality::Augmented;
            plain.then_some(ChordName { root: chord.root, quality: chord.quality, bass: chord.bass })
        }
        _ => None,
    }
}

/// A question about the chord of a page of one column.
pub(crate) fn question(page: Passage) -> Option<Question> {
    let right = Answer::Chord(chord(&page)?);
    Some(Question::plain(Kind::Chord, page, Spot::default(), right))
}

/// The roles that may lie lowest in a chord of so many members.
pub(crate) fn roles(quality: Quality) -> &'static [Role] {
    match quality {
        Quality::Major | Quality::Minor | Quality::Diminished | Quality::Augmented => {
            &[Role::Root, Role::Third, Role::Fifth]
        }
        _ => &[Role::Root, Role::Third, Role::Fifth, Role::Seventh],
    }
}
