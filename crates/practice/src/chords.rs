//! Chords of the keys, each on a page or at the head of a phrase that closes; how they are spread is told in `voicing`.

use crate::answer::{Answer, ChordName};
use crate::ask::resolved;
use crate::chance::Chance;
use crate::kind::Kind;
use crate::page;
use crate::question::{Question, Spot};
use crate::setting::Workshop;
use crate::voicing::{Brass, Ensemble, Voicing, Wanted};
use crookwise_score::{Harmony, HarmonyKind, Passage, Quality, Role, Voice, voices};
use crookwise_theory::{Intonation, Key, Mode};

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
/// The leading note.
const LEADING: i32 = 11;

impl Template {
    /// How many members it has; 0 in a key of the other mode.
    pub(crate) fn members(&self, key: Key) -> usize {
        if key.mode == self.mode { self.members.len() } else { 0 }
    }

    /// Whether it is met with this member lowest: a diminished triad stands on its third, and on their fifth stand the
    /// triads of the tonic, the fourth and the fifth degree alone. Common practice of the classical style.
    pub(crate) fn is_met(&self, lowest: usize) -> bool {
        match (self.members, lowest) {
            ([_, 3, 6], lowest) => lowest == 1,
            ([_, _, _], 2) => matches!(self.root, 0 | 5 | 7),
            _ => true,
        }
    }

    fn wanted(&self, key: Key, lowest: usize) -> Wanted {
        let class = |above: i32| (key.tonic.pitch_class() + above).rem_euclid(12);
        let classes = self.members.iter().map(|member| class(self.root + member)).collect();
        Wanted { classes, lowest, leading: class(LEADING) }
    }
}

/// A page on which the players make a chord, its given member lowest; `None` where they cannot.
pub(crate) fn page(
    workshop: &Workshop<'_>,
    key: Key,
    template: &Template,
    lowest: usize,
    chance: &mut Chance,
) -> Option<Passage> {
    let (_, page, _) = opening(workshop, key, &template.wanted(key, lowest), chance)?;
    Some(page)
}

/// A chord out of nothing, with the players who make it. Where they cannot with open notes an exercise of the first
/// edition has others, as it had when it was sent.
fn opening<'a>(
    workshop: &'a Workshop<'a>,
    key: Key,
    wanted: &Wanted,
    chance: &mut Chance,
) -> Option<(Ensemble<'a>, Passage, Voicing)> {
    let any = workshop.exercise.edition.is_first().then_some(Brass::Any);
    core::iter::once(Brass::Open).chain(any).find_map(|brass| {
        let ensemble = Ensemble::of(workshop, key, brass);
        let voicing = ensemble.voiced(wanted, None, chance)?;
        let page = column(&ensemble, &voicing)?;
        Some((ensemble, page, voicing))
    })
}

/// A column in which a whole chord sounds, on several staves.
fn column(ensemble: &Ensemble<'_>, voicing: &Voicing) -> Option<Passage> {
    ensemble.page(voicing).filter(|page| chord(page).is_some())
}

/// A phrase that begins with a chord and closes: the dominant, then the tonic, each where the players can make it, and
/// every part by the shortest way.
pub(crate) fn phrase(
    workshop: &Workshop<'_>,
    key: Key,
    first: &Template,
    lowest: usize,
    chance: &mut Chance,
) -> Option<Passage> {
    let (ensemble, mut phrase, mut before) = opening(workshop, key, &first.wanted(key, lowest), chance)?;
    let mut last = first.root;
    for root in [DOMINANT, 0] {
        let triad = TEMPLATES.iter().find(|one| one.mode == key.mode && one.root == root && root != last);
        let Some(triad) = triad else { continue };
        let Some(next) = ensemble.voiced(&triad.wanted(key, 0), Some(&before), chance) else { continue };
        if let Some(more) = column(&ensemble, &next) {
            page::append(&mut phrase, &more)?;
            (before, last) = (next, root);
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
