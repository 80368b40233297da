//! What to choose from: the right answer among those that typical mistakes lead to.

use crate::answer::{Answer, ChordName};
use crate::chance::Chance;
use crate::chords::roles;
use crate::edition::Edition;
use crate::exercise::{Exercise, Marking, Material};
use crate::kind::Kind;
use crate::mark::accepts;
use crate::met::{is_met, kin};
use crate::question::Question;
use crate::wrong::wrong_answers;
use crookwise_score::{Choice, Quality};
use crookwise_theory::{CrookFamily, Degree, Interval, Pitch, Production, Tonic, Transposition};

/// How many answers are offered, the right one among them.
pub(crate) const OFFERED: usize = 4;

/// The choices of a question in the order in which they are shown; empty where it is answered freely. Labels, clefs,
/// chords and ways of making a note are always chosen.
pub(crate) fn offer(question: &Question, exercise: &Exercise, chance: &mut Chance) -> Vec<Answer> {
    let closed = matches!(question.kind, Kind::Label | Kind::Clef | Kind::Chord | Kind::Made);
    let places = matches!(question.kind, Kind::WrongNote | Kind::WrongStaff | Kind::Natural);
    if places || !(closed || exercise.choices) {
        return Vec::new();
    }
    let is_first = exercise.edition.is_first();
    let making = question.reading().and_then(|reading| reading.making);
    let hand = is_first || making.is_none_or(|making| making.family == CrookFamily::Horn);
    let able = |answer: &Answer| hand || !needs_hand(answer);
    // At first chords of a reader's page were offered in every key.
    let anyhow = is_first && matches!(exercise.material, Material::Passage(_));
    let likely = |answer: &Answer| {
        sensible(answer) && (is_first || is_met(answer, question)) && (anyhow || in_style(answer, question))
    };
    let mut wrong: Vec<Answer> = Vec::new();
    let mut mistakes = Vec::new();
    for one in wrong_answers(question) {
        if one.offered
            && one.explanation.with.is_none()
            && one.explanation.mistake.is_planted()
            && !mistakes.contains(&one.explanation.mistake)
            && likely(&one.answer)
            && able(&one.answer)
        {
            mistakes.push(one.explanation.mistake);
            wrong.push(one.answer);
        }
    }
    chance.shuffle(&mut wrong);
    // What nobody would say is offered only where nothing better is left.
    let fillers = fillers(question, exercise.edition).into_iter().filter(able);
    let (better, worse): (Vec<Answer>, Vec<Answer>) = fillers.partition(likely);
    wrong.extend(better.into_iter().chain(worse));
    // Choices must differ whatever the marking lets pass.
    let marking = exercise.marking;
    let mut offered = vec![question.right.clone()];
    for answer in wrong {
        let known = |other: &Answer| accepts(other, &answer, marking) || alike(other, &answer);
        if offered.len() < OFFERED && !question.is_right(&answer, marking) && !offered.iter().any(known) {
            offered.push(answer);
        }
    }
    chance.shuffle(&mut offered);
    offered
}

/// Whether a view would show two answers alike.
fn alike(one: &Answer, other: &Answer) -> bool {
    accepts(one, other, Marking { enharmonics: false, octave: true })
}

/// Whether a musician would ever say so.
fn sensible(answer: &Answer) -> bool {
    let few = |alter: i32| (-2..=2).contains(&alter);
    match answer {
        Answer::Note(note) => (-1..=1).contains(&note.alter) && (-1..=9).contains(&note.octave),
        Answer::Notes(notes) => notes.iter().all(|note| (-1..=1).contains(&note.alter)),
        Answer::Degree(degree) => few(degree.alter),
        Answer::Clef { octaves, fifths, .. } => few(*octaves) && (-7..=7).contains(fifths),
        Answer::Label(choice) => (-28..=14).contains(&choice.transposition.0.steps),
        Answer::Chord(chord) => few(chord.root.alter),
        _ => true,
    }
}

/// Whether a chord is one that is met in the key of the page: no more than seven fifths from it, and a triad
/// or a seventh that is written for its own sake.
fn in_style(answer: &Answer, question: &Question) -> bool {
    let Answer::Chord(chord) = answer else { return true };
    let home = question.passage.movement.map_or(0, |key| key.signature().0);
    let plain = matches!(
        chord.quality,
        Quality::Major
            | Quality::Minor
            | Quality::Diminished
            | Quality::DominantSeventh
            | Quality::MajorSeventh
            | Quality::MinorSeventh
            | Quality::HalfDiminishedSeventh
            | Quality::DiminishedSeventh
    );
    plain && chord.root.alter.abs() <= 1 && (-7..=7).contains(&chord.root.fifths().saturating_sub(home))
}

/// Whether only a hand in the bell does so: a trumpet has none.
fn needs_hand(answer: &Answer) -> bool {
    use Production::{Full, Half, HandOut, Quarter, ThreeQuarter};
    matches!(answer, Answer::Made(HandOut | Quarter | Half | ThreeQuarter | Full))
}

/// Answers near the right one, where mistakes give too few.
fn fillers(question: &Question, edition: Edition) -> Vec<Answer> {
    let near = |note: Pitch| {
        [(1, 2), (-1, -2), (2, 4), (-2, -3), (4, 7), (3, 5)]
            .map(|(steps, by)| note + Interval::new(steps, by))
    };
    match &question.right {
        Answer::Note(note) => near(*note).map(Answer::Note).into(),
        Answer::Notes(notes) => (0..6)
            .map(|at| {
                let moved = |note: &Pitch| near(*note).get(at).copied().unwrap_or(*note);
                Answer::Notes(notes.iter().map(moved).collect())
            })
            .collect(),
        Answer::Partial(partial) => {
            let own = partial.unwrap_or(8);
            let around = [own + 1, own.saturating_sub(1).max(2), own + 2, own.saturating_sub(2).max(2)];
            let numbers = around.into_iter().map(|number| Answer::Partial(Some(number)));
            numbers.chain([Answer::Partial(None)]).collect()
        }
        Answer::Made(_) => {
            use Production::{Full, Half, HandOut, Lipped, Open, Quarter, Unavailable};
            let all = [Open, Half, HandOut, Full, Quarter, Lipped, Unavailable];
            let known = if edition.is_first() { 5 } else { all.len() };
            all.into_iter().take(known).map(Answer::Made).collect()
        }
        Answer::Degree(degree) => [(2, 0), (4, 0), (6, 0), (1, 0), (5, 0)]
            .map(|(up, alter)| Answer::Degree(Degree { number: (degree.number + up - 1) % 7 + 1, alter }))
            .into(),
        Answer::Clef { clef, octaves, fifths } => crookwise_theory::Clef::ALL
            .into_iter()
            .skip(1)
            .filter(|other| other != clef)
            .map(|clef| Answer::Clef { clef, octaves: *octaves, fifths: *fifths })
            .collect(),
        Answer::Chord(chord) => {
            let fifth = |by: i32| Tonic::from_fifths(chord.root.fifths().saturating_add(by));
            let mut found: Vec<Answer> =
                [1, -1, 3, -3].map(|by| Answer::Chord(ChordName { root: fifth(by), ..*chord })).into();
            let other = match chord.quality {
                Quality::Major => Quality::Minor,
                // Only in name is a diminished chord a major one.
                Quality::Diminished if !edition.is_first() => Quality::Minor,
                _ => Quality::Major,
            };
            if roles(other).contains(&chord.bass) {
                found.insert(0, Answer::Chord(ChordName { quality: other, ..*chord }));
            }
            found
        }
        Answer::Label(choice) if choice.instrument.crooks.is_none() && !edition.is_first() => kin(*choice),
        Answer::Label(choice) => {
            let crooks = choice.instrument.crooks.map_or(&[][..], CrookFamily::crooks).iter();
            let crooks = crooks.map(|crook| Choice { transposition: crook.transposition, ..*choice });
            let own = choice.transposition.0;
            let moved = [(1, 2), (-1, -2), (-4, -7)].map(|(steps, by)| Choice {
                transposition: Transposition(own + Interval::new(steps, by)),
                ..*choice
            });
            crooks.chain(moved).map(Answer::Label).collect()
        }
        _ => Vec::new(),
    }
}
