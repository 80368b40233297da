//! The chords that have a name, as semitones above the root, and where a set of keys shows one of them.

use super::{Quality, Role};

/// Semitones above the root and the member they are.
pub(super) type Tone = (i32, Role);

/// A chord that has a name.
pub(super) struct Shape {
    pub quality: Quality,
    pub tones: &'static [Tone],
    pub missing: Option<Role>,
    /// Whether it is this chord only with its root in the bass.
    pub on_root: bool,
    /// Whether it may stand over a pedal.
    pub over_pedal: bool,
}

impl Shape {
    const fn whole(quality: Quality, tones: &'static [Tone]) -> Self {
        Self { quality, tones, missing: None, on_root: false, over_pedal: true }
    }

    const fn without(missing: Role, quality: Quality, tones: &'static [Tone]) -> Self {
        Self { quality, tones, missing: Some(missing), on_root: false, over_pedal: false }
    }

    const fn on_root(quality: Quality, missing: Option<Role>, tones: &'static [Tone]) -> Self {
        Self { quality, tones, missing, on_root: true, over_pedal: false }
    }

    /// The keys it has above its root, one bit each.
    fn keys(&self) -> u32 {
        self.tones.iter().fold(0, |keys, (semitones, _)| keys | 1 << semitones)
    }
}

const ROOT: Tone = (0, Role::Root);
/// An augmented sixth has no root: its lower note is the one the sixth stands above.
const LOWER: Tone = (0, Role::Lower);
const MINOR_THIRD: Tone = (3, Role::Third);
const MAJOR_THIRD: Tone = (4, Role::Third);
const FOURTH: Tone = (5, Role::Fourth);
const LOW_FIFTH: Tone = (6, Role::Fifth);
const FIFTH: Tone = (7, Role::Fifth);
const HIGH_FIFTH: Tone = (8, Role::Fifth);
const LOW_SEVENTH: Tone = (9, Role::Seventh);
const MINOR_SEVENTH: Tone = (10, Role::Seventh);
const MAJOR_SEVENTH: Tone = (11, Role::Seventh);
const SIXTH: Tone = (10, Role::Sixth);
const MINOR_NINTH: Tone = (1, Role::Ninth);
const MAJOR_NINTH: Tone = (2, Role::Ninth);

/// The open fifth, which is no chord but has a root.
pub(super) const OPEN_FIFTH: &[Tone] = &[ROOT, FIFTH];
pub(super) const ITALIAN: &[Tone] = &[LOWER, MAJOR_THIRD, SIXTH];
pub(super) const GERMAN: &[Tone] = &[LOWER, MAJOR_THIRD, FIFTH, SIXTH];
pub(super) const DOMINANT: &[Tone] = &[ROOT, MAJOR_THIRD, FIFTH, MINOR_SEVENTH];
pub(super) const DOMINANT_WITHOUT_FIFTH: &[Tone] = &[ROOT, MAJOR_THIRD, MINOR_SEVENTH];

/// All of them; the first that fits is the name. No two have the same keys but the augmented sixths and the
/// dominant seventh.
pub(super) const SHAPES: &[Shape] = &[
    Shape::whole(Quality::Major, &[ROOT, MAJOR_THIRD, FIFTH]),
    Shape::whole(Quality::Minor, &[ROOT, MINOR_THIRD, FIFTH]),
    Shape::whole(Quality::Diminished, &[ROOT, MINOR_THIRD, LOW_FIFTH]),
    Shape::whole(Quality::Augmented, &[ROOT, MAJOR_THIRD, HIGH_FIFTH]),
    Shape::whole(Quality::DominantSeventh, DOMINANT),
    Shape::whole(Quality::MajorSeventh, &[ROOT, MAJOR_THIRD, FIFTH, MAJOR_SEVENTH]),
    Shape::whole(Quality::MinorSeventh, &[ROOT, MINOR_THIRD, FIFTH, MINOR_SEVENTH]),
    Shape::whole(Quality::HalfDiminishedSeventh, &[ROOT, MINOR_THIRD, LOW_FIFTH, MINOR_SEVENTH]),
    Shape::whole(Quality::DiminishedSeventh, &[ROOT, MINOR_THIRD, LOW_FIFTH, LOW_SEVENTH]),
    Shape::whole(Quality::MinorMajorSeventh, &[ROOT, MINOR_THIRD, FIFTH, MAJOR_SEVENTH]),
    Shape::whole(Quality::AugmentedMajorSeventh, &[ROOT, MAJOR_THIRD, HIGH_FIFTH, MAJOR_SEVENTH]),
    Shape::whole(Quality::AugmentedSeventh, &[ROOT, MAJOR_THIRD, HIGH_FIFTH, MINOR_SEVENTH]),
    Shape::whole(Quality::FrenchSixth, &[LOWER, MAJOR_THIRD, (6, Role::Fourth), SIXTH]),
    // The dominant over a pedal is at home without its fifth too.
    Shape {
        over_pedal: true,
        ..Shape::without(Role::Fifth, Quality::DominantSeventh, DOMINANT_WITHOUT_FIFTH)
    },
    Shape::without(Role::Fifth, Quality::MajorSeventh, &[ROOT, MAJOR_THIRD, MAJOR_SEVENTH]),
    Shape::without(Role::Fifth, Quality::MinorSeventh, &[ROOT, MINOR_THIRD, MINOR_SEVENTH]),
    Shape::without(Role::Fifth, Quality::MinorMajorSeventh, &[ROOT, MINOR_THIRD, MAJOR_SEVENTH]),
    Shape::without(Role::Third, Quality::Seventh, &[ROOT, FIFTH, MINOR_SEVENTH]),
    Shape::without(Role::Third, Quality::MajorSeventh, &[ROOT, FIFTH, MAJOR_SEVENTH]),
    Shape::without(Role::Third, Quality::HalfDiminishedSeventh, &[ROOT, LOW_FIFTH, MINOR_SEVENTH]),
    Shape::on_root(Quality::DominantNinth, None, &[ROOT, MAJOR_THIRD, FIFTH, MINOR_SEVENTH, MAJOR_NINTH]),
    Shape::on_root(
        Quality::DominantMinorNinth,
        None,
        &[ROOT, MAJOR_THIRD, FIFTH, MINOR_SEVENTH, MINOR_NINTH],
    ),
    Shape::on_root(
        Quality::DominantNinth,
        Some(Role::Fifth),
        &[ROOT, MAJOR_THIRD, MINOR_SEVENTH, MAJOR_NINTH],
    ),
    Shape::on_root(
        Quality::DominantMinorNinth,
        Some(Role::Fifth),
        &[ROOT, MAJOR_THIRD, MINOR_SEVENTH, MINOR_NINTH],
    ),
    Shape::on_root(Quality::SuspendedFourth, None, &[ROOT, FOURTH, FIFTH]),
    Shape::on_root(Quality::SeventhSuspendedFourth, None, &[ROOT, FOURTH, FIFTH, MINOR_SEVENTH]),
];

/// What a set of keys is, and on which roots: more than one for the chords that divide the octave evenly, counted
/// upwards from the bass.
pub(super) struct Fit {
    pub shape: &'static Shape,
    pub roots: Vec<i32>,
}

/// The first chord that has exactly these keys; `keys` has one bit for each, from C.
pub(super) fn fit(keys: u32, bass: i32, over_pedal: bool) -> Option<Fit> {
    SHAPES.iter().filter(|shape| shape.over_pedal || !over_pedal).find_map(|shape| {
        let wanted = shape.keys();
        let reach = if shape.on_root { 1 } else { 12 };
        let roots: Vec<i32> = (0..reach)
            .map(|up| (bass + up).rem_euclid(12))
            .filter(|&root| (keys >> root | keys << (12 - root)) & 0xFFF == wanted)
            .collect();
        (!roots.is_empty()).then_some(Fit { shape, roots })
    })
}

/// Fifths on the line of fifths from the root to a tone.
pub(super) const fn fifths((semitones, role): Tone) -> i32 {
    semitones * 7 - role.letters() * 12
}
