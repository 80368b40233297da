//! Whether what is said of a mistake is true of the answer that was given: from letters and semitones alone, apart from
//! the way the crate comes to the name.

use super::labelled;
use super::oracle::{Heights, Staff, heights, printed};
use crookwise_practice::{Answer, Explanation, Kind, Mistake, Question};
use crookwise_score::ChangeTo;
use crookwise_theory::{Clef, Pitch, Signature, Step};

const OCTAVE: Heights = (7, 12);

fn plus(one: Heights, other: Heights) -> Heights {
    (one.0 + other.0, one.1 + other.1)
}

fn minus(one: Heights, other: Heights) -> Heights {
    (one.0 - other.0, one.1 - other.1)
}

fn octaves(count: i32) -> Heights {
    (7 * count, 12 * count)
}

fn opposite(one: Heights) -> Heights {
    minus((0, 0), one)
}

/// How many semitones a note is from the natural note of its letter.
fn alter(note: Heights) -> i32 {
    note.1 - heights(Pitch::from_diatonic(note.0, 0)).1
}

fn step(note: Heights) -> Step {
    Pitch::from_diatonic(note.0, 0).step
}

/// A reading as one interval from where it begins, and the one that would have been right.
#[derive(Clone, Copy)]
struct Way {
    right: Heights,
    taken: Heights,
}

/// What a note that was given for a right one says.
struct Given<'a> {
    question: &'a Question,
    staff: Staff,
    /// The note on paper.
    printed: Heights,
    right: Heights,
    given: Heights,
}

impl<'a> Given<'a> {
    fn of(question: &'a Question, note: Pitch) -> Option<Self> {
        let staff = Staff::at(question, question.at);
        let given = heights(note);
        let (printed, right) = match question.kind {
            Kind::Writes => {
                let sounding = heights(question.given?.0);
                (sounding, minus(minus(sounding, staff.by), staff.bass))
            }
            _ => {
                let printed = printed(question, question.at)?;
                (printed, staff.sounding(printed))
            }
        };
        let right = match question.kind {
            Kind::InHand => minus(right, hand(question)),
            _ => right,
        };
        Some(Self { question, staff, printed, right, given })
    }

    /// The intervals that may have been taken wrongly: of the staff, and of the instrument in hand.
    fn ways(&self) -> Vec<Way> {
        let own = self.staff.by;
        let off = minus(self.given, self.right);
        match self.question.kind {
            Kind::Writes => vec![Way { right: own, taken: minus(own, off) }],
            Kind::InHand => {
                let hand = hand(self.question);
                vec![Way { right: own, taken: plus(own, off) }, Way { right: hand, taken: minus(hand, off) }]
            }
            _ => vec![Way { right: own, taken: plus(own, off) }],
        }
    }

    /// Whether it lies on the other side of what it was read from: of the printed note, which old bass-clef notation puts
    /// an octave lower.
    fn turned(&self) -> bool {
        self.ways().into_iter().enumerate().any(|(which, way)| {
            // The second is that of the hand, whose notation is the usual one.
            let bass = if which == 0 { self.staff.bass } else { (0, 0) };
            wrong_way(Way { right: plus(way.right, bass), taken: plus(way.taken, bass) })
        })
    }

    fn signature(&self) -> Signature {
        let resolved = crookwise_score::ResolvedStaff::of(
            &self.question.passage,
            self.question.at.staff,
            crookwise_theory::label::DecodeOptions::default(),
        );
        resolved.place_at(self.question.at.column, self.question.at.player).unwrap().signature
    }

    /// The same with another note given.
    fn with(&self, given: Heights) -> Self {
        Self { question: self.question, staff: Staff::at(self.question, self.question.at), given, ..*self }
    }

    /// Whether a mistake led to the note.
    fn made(&self, mistake: Mistake) -> bool {
        let off = minus(self.given, self.right);
        let same_letter = off.0 == 0;
        let key = |letter: &str| {
            let label =
                self.staff.label.rsplit(" in ").next().unwrap_or_default().trim_start_matches("tief ");
            let hand = self
                .question
                .in_hand
                .as_deref()
                .unwrap_or_default()
                .rsplit(" in ")
                .next()
                .unwrap_or_default();
            letter.contains(label.chars().next().unwrap_or(' '))
                || letter.contains(hand.chars().next().unwrap_or(' '))
                || self.staff.label.split(" in ").any(|part| part.starts_with(letter.chars().next().unwrap()))
        };
        let any = |holds: &dyn Fn(Way) -> bool| self.ways().into_iter().any(holds);
        match mistake {
            Mistake::Direction => self.turned(),
            Mistake::Octave => off != (0, 0) && off.0 % 7 == 0 && off.0 / 7 * 12 == off.1,
            Mistake::ThirdForSixth => any(&|way| inverted(way, [2, 5])),
            Mistake::FourthForFifth => any(&|way| inverted(way, [3, 4])),
            Mistake::Quality => {
                same_letter && off.1.abs() == 1 && any(&|way| [1, 2, 5, 6].contains(&(way.right.0.abs() % 7)))
            }
            Mistake::EForEs => same_letter && off.1.abs() == 1 && key("E"),
            Mistake::BForH => same_letter && off.1.abs() == 1 && key("BH"),
            Mistake::OtherClarinet => any(&|way| [(-1, -2), (-2, -3)].contains(&way.taken)),
            Mistake::NotTransposed => {
                let hand = if self.question.kind == Kind::InHand { hand(self.question) } else { (0, 0) };
                self.given == minus(self.printed, hand) || any(&|way| way.taken == (0, 0))
            }
            Mistake::OldBassNotation | Mistake::AltoForBasso => off == OCTAVE || off == opposite(OCTAVE),
            Mistake::Spelling => !same_letter && off.1 == 0,
            Mistake::PartialLiterally => same_letter && off.1.abs() == 1,
            Mistake::CrookChange => any(&|way| self.other_crooks().contains(&way.taken)),
            Mistake::OtherPlayersCrook => {
                any(&|way| labelled(&self.question.passage.staves()[0].label).2.contains(&way.taken))
            }
            Mistake::SignatureImagined => same_letter && self.imagined().contains(&off.1),
            Mistake::SignatureOverlooked | Mistake::TakenForHorn => {
                let sign = self.signature().alteration(step(self.printed));
                same_letter && sign != 0 && off.1 == -sign
            }
            Mistake::AccidentalNotShifted => {
                same_letter
                    && off.1 != 0
                    && alter(self.given) == alter(self.printed)
                    && alter(self.printed) != self.signature().alteration(step(self.printed))
            }
            Mistake::ClefSignature => {
                same_letter
                    && off.1 != 0
                    && alter(self.given) == self.signature().alteration(step(self.given))
            }
            Mistake::ClefMisread => self.in_another_clef(),
            Mistake::DrumsInCAndG => any(&|way| way.taken == (0, 0) || way.right == (0, 0)),
            _ => false,
        }
    }

    fn other_crooks(&self) -> Vec<Heights> {
        let staff = &self.question.passage.staves()[self.question.at.staff];
        let mut crooks = labelled(&staff.label).2.to_vec();
        for change in staff.changes() {
            if let ChangeTo::Label(to) = &change.to {
                crooks.extend(labelled(&super::oracle::changed(&staff.label, to)).2);
            }
        }
        crooks
    }

    /// What the movement's signature, as it sounds or as the part would have it, would make of the printed note.
    fn imagined(&self) -> Vec<i32> {
        let Some(key) = self.question.passage.movement_at(self.question.at.column) else { return Vec::new() };
        let fifths = |(letters, semitones): Heights| semitones * 7 - letters * 12;
        let sounding = key.signature().0;
        let written = sounding - fifths(self.staff.by);
        let near = [written, written - 12, written + 12].into_iter().filter(|signs| signs.abs() <= 7);
        near.chain([sounding]).map(|signs| Signature(signs).alteration(step(self.printed))).collect()
    }

    /// Whether it is right for the note that stands in the same place under another clef.
    fn in_another_clef(&self) -> bool {
        let clefs = [Clef::TREBLE, Clef::BASS, Clef::ALTO, Clef::TENOR];
        let bottom = |clef: Clef| clef.bottom_line().diatonic();
        let off = self.given.0 - self.right.0;
        clefs.into_iter().filter(|other| *other != self.staff.clef).any(|other| {
            let between = bottom(other) - bottom(self.staff.clef);
            let between = if self.question.kind == Kind::Writes { -between } else { between };
            // Who overlooks the bass clef does not think of its old notation either.
            off == between || off == between - self.staff.bass.0
        })
    }
}

fn hand(question: &Question) -> Heights {
    labelled(question.in_hand.as_deref().unwrap()).2[0]
}

/// Up for down: the same interval, or the one to the same letter, on the other side.
fn wrong_way(way: Way) -> bool {
    let sides = way.right.1.signum() * way.taken.1.signum() < 0;
    let to_letter = [1, -1].map(|count| plus(way.right, octaves(count)));
    sides && (way.taken == opposite(way.right) || to_letter.contains(&way.taken))
}

/// Whether the direction was taken wrongly by who imagines a clef: by the letters alone, which go to the other side.
pub fn is_true_of_clef(question: &Question, given: &Answer, explanation: Explanation) -> Option<bool> {
    let (Answer::Clef { clef, octaves, .. }, Answer::Clef { clef: other, octaves: others, .. }) =
        (&question.right, given)
    else {
        return None;
    };
    if explanation.mistake != Mistake::Direction {
        return None;
    }
    let staff = Staff::at(question, question.at);
    let own = staff.by.0 + staff.bass.0;
    let line = |clef: &Clef, octaves: i32| clef.bottom_line().diatonic() + 7 * octaves;
    let taken = own + line(other, *others) - line(clef, *octaves);
    Some(own.signum() * taken.signum() < 0 && [-own, own - 7, own + 7].contains(&taken))
}

/// As far from the other end of the octave, in the same direction.
fn inverted(way: Way, letters: [i32; 2]) -> bool {
    let (right, taken) = (way.right.0.abs(), way.taken.0.abs());
    letters.contains(&(right % 7))
        && right % 7 + taken % 7 == 7
        && right / 7 == taken / 7
        && way.right.1.signum() == way.taken.1.signum()
}

/// Whether an explanation is true of a note that was given; `None` where it is not judged.
pub fn is_true(
    question: &Question,
    note: Pitch,
    explanation: Explanation,
    enharmonics: bool,
) -> Option<bool> {
    if !matches!(question.kind, Kind::Sounds | Kind::Writes | Kind::InHand) {
        return None;
    }
    let given = Given::of(question, note)?;
    // Where spelling does not count, any spelling may stand for the note; on natural brass two may be printed.
    let respelled = |by: i32| given.with((given.given.0 + by, given.given.1));
    let spelled: Vec<i32> =
        if enharmonics || given.staff.natural() { vec![0, 1, -1, 2, -2] } else { vec![0] };
    let Some(with) = explanation.with else {
        return Some(spelled.into_iter().any(|by| respelled(by).made(explanation.mistake)));
    };
    // Two together: with the one undone, the other led to what is left.
    let undone = |one: Mistake, given: &Given<'_>| -> Vec<Heights> {
        let moved = |by: Heights| plus(given.given, by);
        match one {
            Mistake::Octave | Mistake::OldBassNotation | Mistake::AltoForBasso => {
                [1, -1, 2, -2].map(|count| moved(octaves(count))).into()
            }
            Mistake::Spelling => [1, -1].map(|letters| moved((letters, 0))).into(),
            Mistake::Quality
            | Mistake::EForEs
            | Mistake::BForH
            | Mistake::SignatureImagined
            | Mistake::SignatureOverlooked
            | Mistake::TakenForHorn
            | Mistake::PartialLiterally => [1, -1].map(|semitones| moved((0, semitones))).into(),
            _ => Vec::new(),
        }
    };
    let mut judged = false;
    for by in [0, 1, -1, 2, -2] {
        if by != 0 && !spelled.contains(&by) {
            continue;
        }
        let given = respelled(by);
        for (one, other) in [(explanation.mistake, with), (with, explanation.mistake)] {
            for left in undone(one, &given) {
                judged = true;
                if given.with(left).made(other) {
                    return Some(true);
                }
            }
        }
    }
    judged.then_some(false)
}
