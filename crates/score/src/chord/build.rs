//! From keys that sound to the chord they make: its root where several are possible, and what else it may be.

use super::letters::{Page, key_at, tonic_of};
use super::shape::{DOMINANT, DOMINANT_WITHOUT_FIFTH, Fit, GERMAN, ITALIAN, OPEN_FIFTH, Tone, fifths, fit};
use super::{Chord, Quality, Role};
use crookwise_theory::{Mode, Tonic};

/// A chord with a name for its root.
pub(super) struct Built {
    /// Place of the root on the line of fifths.
    pub root: i32,
    pub tones: &'static [Tone],
    quality: Quality,
    missing: Option<Role>,
}

/// What a set of keys makes.
pub(super) struct Found {
    pub chord: Built,
    pub also: Vec<Built>,
    /// Whether the bass stands apart from it.
    pub pedal: bool,
}

impl Built {
    /// Two notes a fifth apart, treated as a chord.
    pub fn open_fifth(root: i32, page: &Page) -> Self {
        let root = page.root(OPEN_FIFTH, root);
        Self { root, tones: OPEN_FIFTH, quality: Quality::Major, missing: Some(Role::Third) }
    }

    /// The keys of its members with their roles.
    pub fn roles(&self) -> Vec<(i32, Role)> {
        self.tones.iter().map(|&tone| (key_at(self.root.saturating_add(fifths(tone))), tone.1)).collect()
    }

    /// The chord over a bass.
    pub fn chord(&self, bass: i32) -> Chord {
        let role = self.roles().iter().find(|(sounding, _)| *sounding == bass).map(|(_, role)| *role);
        Chord {
            root: tonic_of(self.root),
            quality: self.quality,
            missing: self.missing,
            bass: role.unwrap_or(Role::Pedal),
        }
    }
}

/// The chord of three keys or more, one bit each, over a bass.
pub(super) fn build(keys: u32, bass: i32, page: &Page) -> Option<Found> {
    let upper = keys & !(1 << bass);
    let (fit, pedal) = match fit(keys, bass, false) {
        Some(whole) => (whole, false),
        None => (fit(upper, bass, true)?, true),
    };
    let root = choose(&fit, page)?;
    let tones = fit.shape.tones;
    let built = |root, quality, tones| Built {
        root: page.root(tones, root),
        tones,
        quality,
        missing: fit.shape.missing.filter(|_| quality != Quality::ItalianSixth),
    };
    let quality = fit.shape.quality;
    let (chord, also) = match quality {
        Quality::DominantSeventh if sixth_by_key(root, page) || sixth_by_letters(root, page) => {
            let (sixth, tones, other) = if fit.shape.missing.is_some() {
                (Quality::ItalianSixth, ITALIAN, DOMINANT_WITHOUT_FIFTH)
            } else {
                (Quality::GermanSixth, GERMAN, DOMINANT)
            };
            (built(root, sixth, tones), vec![built(root, quality, other)])
        }
        Quality::MinorSeventh if fit.shape.missing.is_some() && key_lowers_fifth(root, page) => {
            (built(root, Quality::HalfDiminishedSeventh, tones), Vec::new())
        }
        Quality::Augmented | Quality::DiminishedSeventh => {
            let others = fit.roots.iter().filter(|&&other| other != root);
            (built(root, quality, tones), others.map(|&other| built(other, quality, tones)).collect())
        }
        _ => (built(root, quality, tones), Vec::new()),
    };
    Some(Found { chord, also, pedal })
}

/// The root among those that are possible.
fn choose(fit: &Fit, page: &Page) -> Option<i32> {
    let mut roots = fit.roots.iter().copied();
    let first = roots.next()?;
    if fit.roots.len() == 1 {
        return Some(first);
    }
    let all = || fit.roots.iter().copied();
    let consistent = || all().filter(|&root| page.consistent(fit.shape.tones, root));
    let minor = page.movement.is_some_and(|key| key.mode == Mode::Minor);
    let mine = |places: [i32; 4]| {
        move |root: &i32| {
            page.movement.is_some_and(|key| {
                places.iter().any(|place| key_at(key.tonic.fifths().saturating_add(*place)) == *root)
            })
        }
    };
    match fit.shape.quality {
        Quality::FrenchSixth => {
            let by_key = all().find(|&root| sixth_by_key(root, page));
            by_key.or_else(|| all().find(|&root| sixth_by_letters(root, page)))
        }
        Quality::Augmented => {
            let places = if minor { [-5, -4, -3, -2] } else { [-1, 0, 1, 2] };
            let by_key = all().find(mine(places));
            by_key.or_else(|| consistent().next())
        }
        _ => {
            let leading = all().find(mine([LEADING_NOTE; 4]));
            // To the fifth degree, and to the second in major, the fourth in minor.
            let other = mine(if minor { [6, 6, 6, 4] } else { [6, 6, 6, 7] });
            let letters_speak = consistent().count() < fit.roots.len();
            let by_letters = consistent().next().filter(|_| letters_speak);
            let by_both = consistent().find(&other);
            leading.or(by_both.filter(|_| letters_speak)).or(by_letters).or_else(|| all().find(&other))
        }
    }
    .or(Some(first))
}

/// Fifths from the tonic to the leading note.
const LEADING_NOTE: i32 = 5;

/// Whether the key itself spells a sixth above a root: the lowered second degree, and the lowered sixth.
fn sixth_by_key(root: i32, page: &Page) -> bool {
    matches!(page.place_in_key(root), Some(-5 | -4))
}

/// Whether the staves agree on a sixth above a root.
fn sixth_by_letters(root: i32, page: &Page) -> bool {
    page.agreed(root).zip(page.agreed(root + 10)).is_some_and(|(low, high)| high - low == 10)
}

/// Whether the key's own third and fifth on a root are a minor and a diminished one.
fn key_lowers_fifth(root: i32, page: &Page) -> bool {
    let Some(key) = page.movement else { return false };
    let signature = key.signature().0;
    let has = |sounding: i32| {
        (-1..=5)
            .any(|place| Tonic::from_fifths(signature.saturating_add(place)).pitch_class() == sounding % 12)
    };
    // A scale has one diminished fifth over a minor third, and no perfect one beside it.
    has(root + 3) && has(root + 6)
}
