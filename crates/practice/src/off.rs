//! How far a wrong answer lies from the right one, and in which direction: what is said where no mistake has a name.

use crate::answer::{Answer, ChordName};
use crate::question::Question;
use crookwise_score::Choice;
use crookwise_theory::{Interval, Pitch, Production, Tonic};

/// How far an answer is off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Off {
    /// From the right note to the one given.
    Note(Interval),
    /// A note named without its octave: by the nearer way.
    Name(Interval),
    /// So many keys of the keyboard; negative is too low.
    Keys(i32),
    /// Of the notes of several players each by itself, in the order they were given.
    Notes(Vec<Interval>),
    /// So many notes, where there are so many.
    Count {
        /// How many were given.
        given: usize,
        /// How many there are.
        right: usize,
    },
    /// So many degrees above (positive) or below, by the nearer way; then the sign of the degree that was given.
    Degrees(i32, i32),
    /// The right number of a degree with another sign: too high or too low.
    DegreeSign(i32),
    /// So many partials too high (positive) or too low.
    Partials(i32),
    /// The note is on the series, or is not.
    Series {
        /// Whether it is.
        on: bool,
    },
    /// The bell is closed more (positive) than it should be, or less.
    Hand(i32),
    /// Two ways of making a note that are no degrees of one.
    Made {
        /// How it is made.
        right: Production,
        /// What was said.
        given: Production,
    },
    /// What is read in the clef lies so many letters too high (positive) or too low; then so many sharps (positive) or
    /// flats too many in the signature.
    Clef(i32, i32),
    /// What is right of a chord.
    Chord {
        /// Its root.
        root: bool,
        /// Which chord it is.
        quality: bool,
        /// What lies lowest.
        bass: bool,
    },
    /// Whether the instrument is right, and how far from what sounds it would sound.
    Label(bool, Interval),
    /// That one is right as it stands: a note of a copy, a staff that is heard, the corrected one of two.
    Sound,
}

impl Question {
    /// How far a wrong answer is off; `None` where it cannot be compared.
    #[must_use]
    pub fn off(&self, answer: &Answer) -> Option<Off> {
        Some(match (&self.right, answer) {
            (Answer::Note(right), Answer::Note(given)) => Off::Note(Interval::between(*right, *given)),
            (Answer::Note(right), Answer::Name(given)) => Off::Name(nearest(right.tonic(), *given)),
            (Answer::Note(right), Answer::Key(given)) => {
                Off::Keys(i32::from(*given).saturating_sub(right.midi()))
            }
            (Answer::Notes(right), Answer::Notes(given)) => notes(right, given),
            (Answer::Notes(right), Answer::Note(given)) => notes(right, core::slice::from_ref(given)),
            (Answer::Degree(right), Answer::Degree(given)) if right.number == given.number => {
                Off::DegreeSign(given.alter.saturating_sub(right.alter))
            }
            (Answer::Degree(right), Answer::Degree(given)) => {
                let apart = (i32::from(given.number) - i32::from(right.number)).rem_euclid(7);
                Off::Degrees(if apart > 3 { apart - 7 } else { apart }, given.alter)
            }
            (Answer::Partial(Some(right)), Answer::Partial(Some(given))) => {
                Off::Partials(i32::from(*given) - i32::from(*right))
            }
            (Answer::Partial(right), Answer::Partial(_)) => Off::Series { on: right.is_some() },
            (Answer::Made(right), Answer::Made(given)) => match (closed(*right), closed(*given)) {
                (Some(right), Some(given)) => Off::Hand(given.saturating_sub(right)),
                _ => Off::Made { right: *right, given: *given },
            },
            (
                Answer::Clef { clef, octaves, fifths },
                Answer::Clef { clef: given, octaves: given_octaves, fifths: given_fifths },
            ) => {
                let line = given.bottom_line().diatonic() - clef.bottom_line().diatonic();
                Off::Clef(line + 7 * (given_octaves - octaves), given_fifths - fifths)
            }
            (Answer::Chord(right), Answer::Chord(given)) => chord(*right, *given),
            (Answer::Label(right), Answer::Label(given)) => label(*right, *given),
            (Answer::Column(_), Answer::Column(_))
            | (Answer::Staff(_), Answer::Staff(_))
            | (Answer::Which(_), Answer::Which(_)) => Off::Sound,
            _ => return None,
        })
    }
}

/// From one name to the other by the nearer way.
pub(crate) fn nearest(right: Tonic, given: Tonic) -> Interval {
    let at = |name: Tonic, octave: i32| Pitch::new(name.step, name.alter, octave);
    let right = at(right, 4);
    let all = [3, 4, 5].map(|octave| Interval::between(right, at(given, octave)));
    all.into_iter().min_by_key(|way| (way.semitones.abs(), way.steps.abs())).unwrap_or_default()
}

fn notes(right: &[Pitch], given: &[Pitch]) -> Off {
    if right.len() != given.len() {
        return Off::Count { given: given.len(), right: right.len() };
    }
    Off::Notes(right.iter().zip(given).map(|(right, given)| Interval::between(*right, *given)).collect())
}

/// The hand in the bell, from open to closed.
pub(crate) const HAND: [Production; 6] = [
    Production::HandOut,
    Production::Open,
    Production::Quarter,
    Production::Half,
    Production::ThreeQuarter,
    Production::Full,
];

/// How far the bell is closed; `None` for what no hand does.
fn closed(production: Production) -> Option<i32> {
    HAND.iter().position(|one| *one == production).and_then(|place| i32::try_from(place).ok())
}

fn chord(right: ChordName, given: ChordName) -> Off {
    Off::Chord {
        root: right.root == given.root,
        quality: right.quality == given.quality,
        bass: right.bass == given.bass,
    }
}

fn label(right: Choice, given: Choice) -> Off {
    let apart = given.transposition.0 - right.transposition.0;
    Off::Label(given.instrument == right.instrument, apart)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kind::Kind;
    use crate::question::Spot;
    use crookwise_score::Passage;

    fn off(right: &str, given: &str) -> Option<Off> {
        let page = Passage::of_staff("Corni in Es");
        Question::plain(Kind::Sounds, page, Spot::default(), right.parse().unwrap())
            .off(&given.parse().unwrap())
    }

    #[test]
    fn it_is_said_how_far_an_answer_is_off_and_in_which_direction() {
        let between = |steps, semitones| Interval::new(steps, semitones);
        for (right, given, expected) in [
            ("note G4", "note D4", Off::Note(between(-3, -5))),
            ("note G4", "note Ab4", Off::Note(between(1, 1))),
            ("note C4", "name B", Off::Name(between(-1, -1))),
            ("note C4", "name F#", Off::Name(between(3, 6))),
            ("note C4", "key 55", Off::Keys(-5)),
            ("notes G4 Eb4", "notes G4 F4", Off::Notes(vec![between(0, 0), between(1, 2)])),
            ("notes G4 Eb4", "note F4", Off::Count { given: 1, right: 2 }),
            ("degree 3", "degree b1", Off::Degrees(-2, -1)),
            ("degree 7", "degree 1", Off::Degrees(1, 0)),
            ("degree #4", "degree 4", Off::DegreeSign(-1)),
            ("partial 5", "partial 8", Off::Partials(3)),
            ("partial 5", "partial none", Off::Series { on: true }),
            ("made open", "made half", Off::Hand(2)),
            ("made lipped", "made open", Off::Made { right: Production::Lipped, given: Production::Open }),
            ("clef F4 1 -3", "clef C3 0 -3", Off::Clef(-1, 0)),
            ("clef F4 1 -3", "clef F4 1 -2", Off::Clef(0, 1)),
            (
                "chord Eb major root",
                "chord Eb minor root",
                Off::Chord { root: true, quality: false, bass: true },
            ),
            ("label horn -5 -9", "label horn -4 -7", Off::Label(true, between(1, 2))),
            ("column 1", "column 2", Off::Sound),
        ] {
            assert_eq!(off(right, given), Some(expected), "{right} {given}");
        }
        assert_eq!(off("note C4", "degree 1"), None);
    }
}
