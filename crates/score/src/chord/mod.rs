//! What a column of sounding pitches makes together: its name, and who holds which member of it.
//!
//! The rules, in the order in which they are asked:
//!
//! 1. The lowest sounding pitch is the bass, doublings an octave below included. Octaves and unisons are counted but
//!    do not change the name.
//! 2. Nothing sounds: silence. One pitch class is one note, two are an interval above the bass, reduced within the
//!    octave. A perfect fifth or fourth of two pitch classes is an open fifth with its root.
//! 3. Triads and sevenths, whole and in every position. What can be stacked in thirds is never called a sixth chord:
//!    C E G A is a seventh on A.
//! 4. Sevenths with a member missing: root, third and seventh are a seventh chord without its fifth; root, fifth and
//!    seventh one without its third (minor or dominant, nobody knows). Third, fifth and seventh alone are a triad.
//!    The missing fifth of a minor seventh is the one the key has: B D A in C major is half-diminished.
//! 5. Dominant ninths, and suspended fourths with or without a seventh, only with their root in the bass: over another
//!    bass the same notes may be several things.
//! 6. Over a bass that is no member of it, a triad, a seventh or an augmented sixth is a chord over a pedal; so is a
//!    dominant seventh without its fifth.
//! 7. Everything else is no chord.
//!
//! Letters. What the keys of the keyboard make is found first, whatever the staves call them; letters decide only where
//! keys cannot:
//!
//! - Dominant seventh or **augmented sixth**: the sixth where the key spells it so (on the lowered sixth degree of major,
//!   the sixth of minor, and the lowered second), or where the staves do. The other way to hear it is in
//!   [`Harmony::also`].
//! - A **diminished seventh** has four possible roots. In a key it is the leading note if that is among them; else the
//!   root by which the staves' letters are a stack of thirds; else in a key the note that leads to the fifth degree,
//!   or to the second in major and the fourth in minor; else the bass.
//! - An **augmented triad** has three. In a key it is the tonic, dominant, subdominant or second degree in major; in
//!   minor the third, sixth, seventh or lowered second (the triad on the third degree of a minor key nearby). Without
//!   a key the letters say, else the bass.
//! - The keys of a **French sixth** are nothing else, whatever their letters, but have two possible roots: the one on
//!   which the key spells a sixth, else the one on which the staves do, else the bass.
//! - A tritone by itself, in no key, is a fifth or a fourth by its letters.
//!
//! Letters count only where all staves that have the note agree. Natural brass prints one letter for either
//! ([`crookwise_theory::spelling::as_brass_prints`]), so its letters count nowhere ([`Heard::spells`]).
//!
//! In a key, notes are then spelled in the key ([`crookwise_theory::spelling::in_key`]) as far as the chord allows:
//! its root as the key has it, its members in thirds above, twelve fifths the other way where a member would lie more
//! than seven fifths below the tonic or ten above. Without a key the spelling is the one most of the given letters
//! agree with, and where they say nothing the one with the fewest signs. What changes is marked
//! ([`Spelled::respelled`]).
//!
//! Sources: common practice.

mod build;
mod kind;
mod letters;
mod name;
mod shape;

use crate::sounding::Voice;
use build::{Built, build};
use crookwise_theory::{Degree, Key, Pitch, Tonic};
use letters::{Page, key_of, tonic_of};

pub use kind::{Chord, HarmonyKind, Quality, Role};

/// One sounding pitch as it enters a harmony.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Heard {
    /// The pitch in its strict spelling.
    pub pitch: Pitch,
    /// Whether its letter says something about the harmony.
    pub spells: bool,
}

/// What sounds together.
#[derive(Clone, Debug, PartialEq)]
pub struct Harmony {
    /// What it is.
    pub kind: HarmonyKind,
    /// Its pitch classes: the root first, then upwards by role; without a root upwards from the bass.
    pub members: Vec<Member>,
    /// How each pitch is spelled in it, in the order they were given.
    pub letters: Vec<Spelled>,
    /// Degree of the root in the movement's key; of the lowest member for an augmented sixth, of the chord over a
    /// pedal. `None` without a key or a root.
    pub degree: Option<Degree>,
    /// Other names for the same keys of the keyboard: roots of a chord that divides the octave evenly, the dominant
    /// seventh that an augmented sixth might be.
    pub also: Vec<Chord>,
}

/// One pitch class and who holds it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Member {
    /// Its name in this harmony.
    pub note: Tonic,
    /// What it is in it.
    pub role: Role,
    /// Who holds it: places in the list of pitches that was given, from the lowest sound up.
    pub voices: Vec<usize>,
    /// The octaves it sounds in, upwards, each with how many hold it there.
    pub octaves: Vec<(i32, usize)>,
}

/// How a pitch is spelled in a harmony.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spelled {
    /// The same sound as was given.
    pub pitch: Pitch,
    /// Whether its letter is another than in the strict spelling.
    pub respelled: bool,
}

impl Member {
    /// How many hold it.
    #[must_use]
    pub fn count(&self) -> usize {
        self.voices.len()
    }

    /// How many hold it in unison with another, beyond the first in each octave.
    #[must_use]
    pub fn unisons(&self) -> usize {
        self.voices.len().saturating_sub(self.octaves.len())
    }

    /// In how many octaves it sounds beyond the first.
    #[must_use]
    pub fn octave_doublings(&self) -> usize {
        self.octaves.len().saturating_sub(1)
    }
}

impl Harmony {
    /// What sounding voices make in the movement's key. The voices of natural brass have no say in spelling.
    #[must_use]
    pub fn of_voices(voices: &[Voice], key: Option<Key>) -> Self {
        let heard: Vec<Heard> = voices
            .iter()
            .map(|voice| Heard { pitch: voice.sounding.0, spells: voice.reading.making.is_none() })
            .collect();
        Self::of(&heard, key)
    }

    /// What pitches make whose letters all count.
    ///
    /// ```
    /// # use crookwise_score::chord::Harmony;
    /// let pitches = ["E3", "G4", "C5"].map(|name| name.parse().unwrap());
    /// assert_eq!(Harmony::of_pitches(&pitches, None).to_string(), "C major, third in the bass");
    /// ```
    #[must_use]
    pub fn of_pitches(pitches: &[Pitch], key: Option<Key>) -> Self {
        let heard: Vec<Heard> = pitches.iter().map(|&pitch| Heard { pitch, spells: true }).collect();
        Self::of(&heard, key)
    }

    /// What pitches make in the movement's key.
    #[must_use]
    pub fn of(heard: &[Heard], key: Option<Key>) -> Self {
        let order = from_the_lowest(heard);
        let Some(bass) = order.first().and_then(|&lowest| heard.get(lowest)).map(|low| key_of(low.pitch))
        else {
            return Self {
                kind: HarmonyKind::Silence,
                members: Vec::new(),
                letters: Vec::new(),
                degree: None,
                also: Vec::new(),
            };
        };
        let mut page = Page::of(heard, &order, key);
        let above: Vec<i32> =
            (0..12).map(|up| (bass + up) % 12).filter(|&sounding| page.sounds(sounding)).collect();
        let mut root = None;
        let mut also = Vec::new();
        let mut roles: Vec<(i32, Role)> = Vec::new();
        let kind = match above[..] {
            [_] => HarmonyKind::One { note: page.tonic(bass) },
            [_, other] if matches!((other - bass).rem_euclid(12), 5 | 7) => {
                let fifth_in_bass = (other - bass).rem_euclid(12) == 5;
                let fifth = Built::open_fifth(if fifth_in_bass { other } else { bass }, &page);
                page.adopt(&fifth);
                root = Some(fifth.root);
                roles = fifth.roles();
                HarmonyKind::OpenFifth { root: tonic_of(fifth.root), fifth_in_bass }
            }
            [_, other] => {
                page.pair(bass, other);
                let interval = page.interval(bass, other);
                HarmonyKind::Interval { lower: page.tonic(bass), upper: page.tonic(other), interval }
            }
            _ => match build(page.keys(), bass, &page) {
                Some(found) => {
                    page.adopt(&found.chord);
                    root = Some(found.chord.root);
                    roles = found.chord.roles();
                    also = found.also.iter().map(|other| other.chord(bass)).collect();
                    let chord = found.chord.chord(bass);
                    if found.pedal {
                        roles.push((bass, Role::Pedal));
                        HarmonyKind::Pedal { bass: page.tonic(bass), chord }
                    } else {
                        HarmonyKind::Chord(chord)
                    }
                }
                None => HarmonyKind::NoChord,
            },
        };
        if roles.is_empty() {
            roles = above.iter().map(|&sounding| (sounding, Role::Other)).collect();
        }
        let letters: Vec<Spelled> = heard.iter().map(|one| page.spelled(one.pitch)).collect();
        let members = roles
            .iter()
            .map(|&(sounding, role)| member(page.tonic(sounding), role, sounding, &order, &letters))
            .collect();
        let degree = key
            .zip(root)
            .map(|(key, root)| Degree::of(Pitch::new(tonic_of(root).step, tonic_of(root).alter, 4), key));
        Self { kind, members, letters, degree, also }
    }
}

/// Places from the lowest sound up, equal ones in the order given.
fn from_the_lowest(heard: &[Heard]) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::with_capacity(heard.len());
    for (place, one) in heard.iter().enumerate() {
        let height = one.pitch.semitones();
        let higher = |&other: &usize| heard.get(other).is_some_and(|other| other.pitch.semitones() > height);
        let at = order.iter().position(higher).unwrap_or(order.len());
        order.insert(at, place);
    }
    order
}

fn member(note: Tonic, role: Role, sounding: i32, order: &[usize], letters: &[Spelled]) -> Member {
    let mut member = Member { note, role, voices: Vec::new(), octaves: Vec::new() };
    for &voice in order {
        let Some(pitch) = letters.get(voice).map(|letter| letter.pitch) else { continue };
        if key_of(pitch) != sounding {
            continue;
        }
        member.voices.push(voice);
        match member.octaves.last_mut() {
            Some((octave, count)) if *octave == pitch.octave => *count += 1,
            _ => member.octaves.push((pitch.octave, 1)),
        }
    }
    member
}
