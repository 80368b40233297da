//! Wrong answers that typical mistakes lead to, each with the mistakes behind it.

mod players;

use crate::answer::{Answer, ChordName};
use crate::ask::{note, resolved};
use crate::chords::{name, roles, sounding};
use crate::kind::Kind;
use crate::mistake::{Explanation, Mistake};
use crate::question::{Question, Spot};
use crate::setting::named;
use crate::slip::{Change, Slip, Steps};
use crate::slips::{Around, like_a_horn, of_printed, of_staff, steps, transpositions};
use crookwise_score::{Choice, Harmony, Passage, Place, ResolvedStaff, chord::Heard};
use crookwise_theory::label::StaffLabel;
use crookwise_theory::spelling::as_brass_prints;
use crookwise_theory::tables::INSTRUMENTS;
use crookwise_theory::{
    ClefReading, CrookFamily, Degree, Instrument, InstrumentKind, Interval, LikeHorn, Partial, Pitch,
    Production, Reach, Step, Written,
};

/// A wrong answer and what leads to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Wrong {
    pub(crate) answer: Answer,
    pub(crate) explanation: Explanation,
    /// How far-fetched a pair of mistakes is.
    pub(crate) cost: u8,
    /// Whether the explanation is true of the answer, so that it may be named.
    pub(crate) told: bool,
    /// Whether it is among the answers to choose from: links ask what they asked.
    pub(crate) offered: bool,
}

/// Every wrong answer that one typical mistake or two together lead to. Some may be right all the same.
pub(crate) fn wrong_answers(question: &Question) -> Vec<Wrong> {
    let found = match question.kind {
        Kind::Sounds | Kind::InHand | Kind::Degree => of_note(question),
        Kind::Writes => of_writing(question),
        Kind::Partial | Kind::Made => of_making(question),
        Kind::Clef => of_clef(question),
        Kind::Label => of_label(question),
        Kind::Chord => of_chord(question),
        Kind::Players => players::of_players(question),
        Kind::WrongNote | Kind::WrongStaff | Kind::Natural => None,
    };
    found.unwrap_or_default()
}

/// A staff of a question with one place on it.
struct Scene<'a> {
    passage: &'a Passage,
    staff: ResolvedStaff,
    at: Spot,
    place: Place,
    hand: Option<StaffLabel>,
}

impl<'a> Scene<'a> {
    fn of(passage: &'a Passage, at: Spot, hand: Option<&str>) -> Option<Self> {
        let staff = resolved(passage, at.staff)?;
        let place = staff.place_at(at.column, at.player)?.clone();
        Some(Self { passage, staff, at, place, hand: hand.and_then(named) })
    }

    fn around(&self) -> Around<'_> {
        let own = self.place.notation().transposition.0;
        let other = |place: &Place| Some(place.notation().transposition.0).filter(|other| *other != own);
        let mut other_crooks: Vec<Interval> = Vec::new();
        for crook in self.staff.spans(self.at.player).filter_map(|(_, place)| other(place)) {
            if !other_crooks.contains(&crook) {
                other_crooks.push(crook);
            }
        }
        let players = self.passage.staves().get(self.at.staff).map_or(1, crookwise_score::Staff::players);
        let partner = (0..players)
            .filter(|&player| player != self.at.player)
            .find_map(|player| self.staff.place_at(self.at.column, player).and_then(other));
        Around { place: &self.place, other_crooks, partner, hand: self.hand.as_ref() }
    }

    /// Every slip of the note at the place, with the steps of the right reading.
    fn slips(&self) -> Option<(Steps, Vec<Slip>)> {
        let printed = note(self.passage, self.at)?;
        let around = self.around();
        let (steps, mut slips) = (steps(&around, printed), of_printed(&around, printed));
        if steps.bass != Interval::UNISON {
            // Read as it is printed: neither the bass notation nor the transposition is thought of.
            slips.push(Slip { mistake: Mistake::NotTransposed, change: Change::Transposition(-steps.bass) });
        }
        Some((steps, slips))
    }
}

fn single(answer: Answer, mistake: Mistake) -> Wrong {
    Wrong { answer, explanation: Explanation::single(mistake), cost: 0, told: true, offered: true }
}

/// Whether a slip, by itself or with another that leads on, is what its name says: a direction is wrong only on the other
/// side of what is read.
fn is_told(slip: &Slip, led: Steps, right: Steps) -> bool {
    let of_staff = matches!(slip.change, Change::Reverse | Change::Transposition(_));
    let alone = right.with(slip.change);
    slip.mistake != Mistake::Direction || !of_staff || (alone.is_turned(right) && led.is_across(right))
}

/// The wrong direction of old bass-clef notation, which goes the other way than the transposition.
fn turned(steps: Steps, at_pitch: bool) -> Option<Slip> {
    let old = !at_pitch && steps.bass != Interval::UNISON;
    let change = Change::Transposition(steps.turned().filter(|_| old)?);
    Some(Slip { mistake: Mistake::Direction, change })
}

/// Where single slips and pairs of them lead; those of `named` are named and never offered.
fn lead(
    steps: Steps,
    (slips, named): (&[Slip], Option<Slip>),
    answer: impl Fn(Pitch) -> Vec<Answer>,
) -> Vec<Wrong> {
    let mut found = Vec::new();
    let mut put = |led: Steps, explanation: Explanation, cost: u8, (told, offered): (bool, bool)| {
        let wrong = |answer| Wrong { answer, explanation, cost, told, offered };
        found.extend(answer(led.lead()).into_iter().map(wrong));
    };
    let all: Vec<Slip> = slips.iter().copied().chain(named).collect();
    for (place, slip) in all.iter().enumerate() {
        let offered = place < slips.len();
        let once = steps.with(slip.change);
        put(once, Explanation::single(slip.mistake), 0, (is_told(slip, once, steps), offered));
        for other in all.get(place + 1..).unwrap_or_default() {
            if other.mistake != slip.mistake && other.change.goes_with(slip.change) {
                let both = Explanation { mistake: slip.mistake, with: Some(other.mistake) };
                let led = once.with(other.change);
                let told = is_told(slip, led, steps) && is_told(other, led, steps);
                put(led, both, slip.change.cost() + other.change.cost(), (told, offered));
            }
        }
    }
    found
}

fn of_note(question: &Question) -> Option<Vec<Wrong>> {
    let scene = Scene::of(&question.passage, question.at, question.in_hand.as_deref())?;
    let (steps, slips) = scene.slips()?;
    if question.kind != Kind::Degree {
        let named = turned(steps, scene.place.habits.at_pitch);
        return Some(lead(steps, (&slips, named), |pitch| vec![Answer::Note(pitch)]));
    }
    let key = scene.place.movement?;
    let degree = |pitch: Pitch| Answer::Degree(Degree::of(pitch, key));
    // Another letter of the same sound is another degree only on paper.
    let heard = slips.iter().filter(|slip| slip.mistake != Mistake::Spelling);
    let mut found: Vec<Wrong> =
        heard.map(|slip| single(degree(steps.with(slip.change).lead()), slip.mistake)).collect();
    if steps.transposition.fifths() != 0 {
        found.push(single(Answer::Degree(question.reading()?.crook_degree), Mistake::CrookForKey));
    }
    Some(found)
}

fn of_writing(question: &Question) -> Option<Vec<Wrong>> {
    let scene = Scene::of(&question.passage, question.at, None)?;
    let notation = scene.place.notation();
    let mut steps = Steps::new(question.given?.0, notation.printed_to_written, notation.transposition.0);
    steps.backwards = true;
    let mut slips = of_staff(&scene.around(), steps);
    let clef = scene.place.habits.clef;
    let right = steps.lead();
    for other in crookwise_theory::Clef::ALL {
        let mixed = clef.sign == crookwise_theory::ClefSign::C
            && matches!(
                other,
                crookwise_theory::Clef::TREBLE
                    | crookwise_theory::Clef::BASS
                    | crookwise_theory::Clef::ALTO
                    | crookwise_theory::Clef::TENOR
            )
            && other != clef.without_octave();
        if mixed {
            // Put where the note would stand in the other clef, which the printed one makes another note.
            let there = clef.pitch_at(other.position(right));
            let by = Interval::between(Pitch { alter: 0, ..right }, there);
            slips.push(Slip { mistake: Mistake::ClefMisread, change: Change::From(steps.from + by) });
        }
    }
    let brass = scene.place.staff.natural_family().is_some();
    let named = turned(steps, scene.place.habits.at_pitch);
    Some(lead(steps, (&slips, named), |strict| {
        let printed = as_brass_prints(Written(strict)).0;
        let also = (brass && printed != strict).then_some(Answer::Note(printed));
        core::iter::once(Answer::Note(strict)).chain(also).collect()
    }))
}

fn of_making(question: &Question) -> Option<Vec<Wrong>> {
    let scene = Scene::of(&question.passage, question.at, None)?;
    let family = scene.place.staff.natural_family()?;
    let printed = note(&question.passage, question.at)?;
    let making = question.reading()?.making?;
    let made = |written: Pitch| match question.kind {
        Kind::Partial => Some(Answer::Partial(Partial::of(family, written).map(Partial::number))),
        _ => Reach::of(family, written).map(|row| Answer::Made(row.production)),
    };
    let mut found = Vec::new();
    if making.partial.is_some_and(|partial| matches!(partial.number(), 7 | 11 | 13 | 14)) {
        let literal: &[Answer] = match question.kind {
            Kind::Partial => &[Answer::Partial(None)],
            _ => &[Answer::Made(Production::Open), Answer::Made(Production::Half)],
        };
        found.extend(literal.iter().map(|answer| single(answer.clone(), Mistake::PartialLiterally)));
    }
    let bass = scene.place.notation().printed_to_written;
    for slip in of_printed(&scene.around(), printed) {
        let written = match slip.change {
            Change::From(note) if slip.mistake != Mistake::PartialLiterally => note + bass,
            Change::Bass(other) => printed.0 + other,
            Change::Octaves(octaves) => printed.0 + bass + Interval::octaves(octaves),
            _ => continue,
        };
        // Off the series lands who reads an E-flat for an E; from another octave nobody says so.
        let off =
            |answer: &Answer| *answer == Answer::Partial(None) && slip.mistake != Mistake::SignatureImagined;
        found.extend(made(written).filter(|answer| !off(answer)).map(|answer| single(answer, slip.mistake)));
    }
    Some(found)
}

fn of_clef(question: &Question) -> Option<Vec<Wrong>> {
    let scene = Scene::of(&question.passage, question.at, None)?;
    let printed = note(&question.passage, question.at)?;
    let Answer::Clef { clef, octaves, .. } = question.right else { return None };
    let habits = scene.place.habits;
    let around = scene.around();
    let steps = steps(&around, printed);
    let mut found = vec![single(Answer::Clef { clef, octaves, fifths: 0 }, Mistake::ClefSignature)];
    let slips = of_staff(&around, steps);
    let named = turned(steps, habits.at_pitch);
    for (place, slip) in slips.iter().chain(&named).enumerate() {
        let interval = match slip.change {
            Change::Reverse => steps.bass - steps.transposition,
            Change::Transposition(other) => steps.bass + other,
            Change::Bass(other) => other + steps.transposition,
            Change::Octaves(by) => steps.bass + steps.transposition + Interval::octaves(by),
            _ => continue,
        };
        let by = ClefReading::of(habits.clef, scene.place.signature, interval);
        let answer = Answer::Clef { clef: by.clef.without_octave(), octaves: by.octaves, fifths: by.fifths };
        let told = is_told(slip, steps.with(slip.change), steps);
        found.push(Wrong { told, offered: place < slips.len(), ..single(answer, slip.mistake) });
    }
    Some(found)
}

fn of_label(question: &Question) -> Option<Vec<Wrong>> {
    let staff = resolved(&question.passage, 0)?;
    let staff = staff.staff(0)?;
    let own = staff.transposition;
    let choice = |instrument: &'static Instrument, to: Interval| {
        Answer::Label(Choice { instrument, transposition: crookwise_theory::Transposition(to) })
    };
    let mut found: Vec<Wrong> = transpositions(staff, own.0)
        .into_iter()
        .map(|(mistake, to)| {
            let pair = staff.instrument.other_of_pair();
            let instrument = pair.filter(|_| mistake == Mistake::OtherClarinet);
            single(choice(instrument.unwrap_or(staff.instrument), to), mistake)
        })
        .collect();
    if own.0 != Interval::UNISON {
        found.push(single(choice(staff.instrument, -own.0), Mistake::Direction));
    }
    for octaves in [1, -1] {
        found.push(single(choice(staff.instrument, own.0 + Interval::octaves(octaves)), Mistake::Octave));
    }
    let mut other = |instrument: &'static Instrument, mistake: Mistake| {
        let crooks = instrument.crooks.zip(staff.key).map(|(family, key)| family.in_key(key));
        match crooks {
            Some(crooks) => {
                for crook in crooks {
                    found.push(single(choice(instrument, crook.transposition.0), mistake));
                }
            }
            None => {
                let to = instrument.transposition.map_or(own.0, |own| own.0);
                found.push(single(choice(instrument, to), mistake));
            }
        }
    };
    let horn = Instrument::with_crooks(CrookFamily::Horn);
    match (staff.instrument.crooks, horn) {
        (Some(CrookFamily::Horn), _) => {
            if let Some(trumpet) = Instrument::with_crooks(CrookFamily::Trumpet) {
                other(trumpet, Mistake::OtherInstrument);
            }
            for row in INSTRUMENTS.iter().filter(|row| row.like_horn == LikeHorn::Often) {
                other(row, Mistake::TakenForHorn);
            }
        }
        (Some(CrookFamily::Trumpet), Some(horn)) => {
            other(horn, Mistake::OtherInstrument);
            // The usual clarinet in that key: "Clarino" is taken for one.
            for row in
                INSTRUMENTS.iter().filter(|row| row.kind == Some(InstrumentKind::Clarinet) && row.is_usual())
            {
                let sounds = row.transposition.map(|to| (Pitch::natural(Step::C, 4) + to.0).tonic());
                if sounds == staff.key {
                    other(row, Mistake::OtherInstrument);
                }
            }
        }
        (None, Some(horn)) if like_a_horn(staff.instrument) => other(horn, Mistake::TakenForHorn),
        _ => {}
    }
    Some(found)
}

fn of_chord(question: &Question) -> Option<Vec<Wrong>> {
    let Answer::Chord(right) = question.right else { return None };
    let bass = |role| Answer::Chord(ChordName { bass: role, ..right });
    let mut found: Vec<Wrong> = roles(right.quality)
        .iter()
        .filter(|role| **role != right.bass)
        .map(|role| single(bass(*role), Mistake::OtherBass))
        .collect();
    let voices = sounding(&question.passage, 0);
    let heard: Vec<Heard> = voices
        .iter()
        .map(|voice| Heard { pitch: voice.sounding.0, spells: voice.reading.making.is_none() })
        .collect();
    let mut try_chord = |heard: &[Heard], mistake: Mistake| {
        if let Some(chord) = name(&Harmony::of(heard, question.passage.movement)) {
            found.push(single(Answer::Chord(chord), mistake));
        }
    };
    let as_printed: Vec<Heard> =
        voices.iter().zip(&heard).map(|(voice, heard)| Heard { pitch: voice.printed.0, ..*heard }).collect();
    try_chord(&as_printed, Mistake::NotTransposed);
    for staff in 0..question.passage.staves().len() {
        let at = Spot { staff, column: question.at.column, player: 0 };
        let Some((steps, slips)) = Scene::of(&question.passage, at, None).and_then(|scene| scene.slips())
        else {
            continue;
        };
        // Another octave only changes what lies lowest, which has its own name.
        let audible =
            slips.iter().filter(|slip| !matches!(slip.change, Change::Octaves(_) | Change::Letters(_)));
        for slip in audible {
            let by = Interval::between(steps.lead(), steps.with(slip.change).lead());
            let moved = |(voice, heard): (&crookwise_score::Voice, &Heard)| Heard {
                pitch: if voice.staff == staff { heard.pitch + by } else { heard.pitch },
                ..*heard
            };
            let moved: Vec<Heard> = voices.iter().zip(&heard).map(moved).collect();
            try_chord(&moved, slip.mistake);
        }
    }
    Some(found)
}
