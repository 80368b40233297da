//! Mistakes by name: in a sentence for who made one, in a few words for tables and pictures.

use super::{capital, interval_with_direction, signature};
use crookwise_practice::{Answer, Explanation, Kind, Mark, Mistake, Off, Question};
use crookwise_theory::{Direction, Interval, Pitch, Production, Signature};

/// What led to a wrong answer, in one sentence: a mistake, two made together, or one of two; where none has a name, how
/// far off the answer is. `None` where there is nothing to say.
#[must_use]
pub fn said(question: &Question, given: &Answer, mark: &Mark) -> Option<String> {
    let explained: Vec<String> = mark.explained.iter().map(|one| together(question, given, *one)).collect();
    let clause = match explained.as_slice() {
        [] => return question.off(given).and_then(|off| how_far(question, &off)),
        [only] => only.clone(),
        [one, other, ..] => format!("either {one}, or {other}"),
    };
    Some(format!("{}.", capital(&clause)))
}

/// The mistake that was planted in a copy or in what is heard.
#[must_use]
pub fn planted(question: &Question) -> Option<String> {
    question.planted.map(|mistake| format!("{}.", capital(&clause(mistake, question, None, true))))
}

/// "the interval was taken the wrong way, and the octave is another".
fn together(question: &Question, given: &Answer, explanation: Explanation) -> String {
    let one = clause(explanation.mistake, question, Some(given), explanation.with.is_some());
    match explanation.with {
        Some(with) => format!("{one}, and {}", clause(with, question, Some(given), true)),
        None => one,
    }
}

/// What a mistake was, within a sentence; `both` where another was made with it, so that the answer is not all it did.
fn clause(mistake: Mistake, question: &Question, given: Option<&Answer>, both: bool) -> String {
    match mistake {
        Mistake::Octave => octave(question.kind, both),
        Mistake::Spelling if both => "it was spelled with another letter",
        Mistake::Spelling => "it is that key of the keyboard, but with another letter",
        Mistake::Direction | Mistake::ThirdForSixth | Mistake::FourthForFifth | Mistake::Quality => {
            interval(mistake, interval_of(question))
        }
        Mistake::EForEs => "E and E-flat, “Es”, were taken for each other",
        Mistake::BForH => "B-flat, the German “B”, and B natural, “H”, were taken for each other",
        Mistake::OtherClarinet => "the clarinet in A and the one in B-flat were taken for each other",
        Mistake::AccidentalNotShifted => {
            "the printed accidental was not shifted with the signature of the imagined clef"
        }
        Mistake::ClefSignature if question.kind == Kind::Clef => {
            "the clef is right, but its change of signature was forgotten"
        }
        Mistake::ClefSignature => "the signature that goes with the imagined clef was forgotten",
        Mistake::OldBassNotation => "old and new bass-clef notation were taken for each other",
        Mistake::SignatureImagined => "the movement's signature was read into a staff that does not have it",
        Mistake::SignatureOverlooked => "the signature at the head of the staff was overlooked",
        Mistake::CrookChange => "it was read with the crook from the other side of the change",
        Mistake::TakenForHorn if question.kind == Kind::Label => {
            "cor anglais and basset horn are no horns, whatever their names say"
        }
        Mistake::TakenForHorn => "it was read like a horn, whose staff has no signature",
        Mistake::PartialLiterally => "this partial lies between the keys, and was taken literally",
        Mistake::DrumsInCAndG => {
            "drums printed as C and G stand for the notes the label names, all others are at pitch"
        }
        Mistake::ATwo => "“a 2” is one note for both, not two",
        Mistake::NoteMissing => missing(question, given),
        Mistake::ClefMisread => "the note was read in another clef than the one that stands there",
        Mistake::NotTransposed => as_it_stands(question, given),
        Mistake::AltoForBasso => "alto and basso, an octave apart, were taken for each other",
        Mistake::OtherPlayersCrook => "it was read with the crook of the other player",
        Mistake::CrookForKey => {
            "the degree was counted above the crook's own C, not in the key of the movement"
        }
        Mistake::OtherBass => "the chord is right, but another note lies lowest",
        Mistake::OtherInstrument => "the key is right, but the instrument is another",
    }
    .into()
}

/// From paper to sound, where one interval is what a question is about.
fn interval_of(question: &Question) -> Option<Interval> {
    match (&question.right, question.kind) {
        (Answer::Label(choice), _) => Some(choice.transposition.0),
        (_, Kind::InHand | Kind::Chord | Kind::WrongNote | Kind::WrongStaff) => None,
        (_, Kind::Players) => {
            let each = question.players_read();
            let first = each.first()?.1.interval;
            Some(first).filter(|first| each.iter().all(|(_, reading)| reading.interval == *first))
        }
        _ => Some(question.reading()?.interval),
    }
}

/// What was done to an interval, said of that interval where it is known.
fn interval(mistake: Mistake, right: Option<Interval>) -> &'static str {
    let letters = right.map(|right| right.steps.unsigned_abs() % 7);
    let name = right.map(|right| right.to_string()).unwrap_or_default();
    match (mistake, letters) {
        (Mistake::ThirdForSixth, Some(5)) => "a third was taken for a sixth",
        (Mistake::ThirdForSixth, Some(2)) => "a sixth was taken for a third",
        (Mistake::ThirdForSixth, _) => "a third and a sixth were taken for each other",
        (Mistake::FourthForFifth, Some(4)) => "a fourth was taken for a fifth",
        (Mistake::FourthForFifth, Some(3)) => "a fifth was taken for a fourth",
        (Mistake::FourthForFifth, _) => "a fourth and a fifth were taken for each other",
        (Mistake::Quality, _) if name.contains("minor") => "the interval is minor, and was taken as major",
        (Mistake::Quality, _) if name.contains("major") => "the interval is major, and was taken as minor",
        (Mistake::Quality, _) => "a major and a minor interval were taken for each other",
        _ => match right.map(Interval::direction) {
            Some(Direction::Down) => "the interval was taken up instead of down",
            Some(Direction::Up) => "the interval was taken down instead of up",
            _ => "the interval was taken the wrong way",
        },
    }
}

/// What another octave means for an answer.
const fn octave(kind: Kind, both: bool) -> &'static str {
    match kind {
        _ if both => "the octave is another",
        Kind::Clef => "clef and signature are right, but the octave is another",
        Kind::Label => "the key is right, but the octave is another",
        Kind::Partial | Kind::Made => "that would be so an octave higher or lower",
        Kind::Players => "the letters are right, but not every octave",
        _ => "it is the right note, but in another octave",
    }
}

/// Which of two notes is missing.
fn missing(question: &Question, given: Option<&Answer>) -> &'static str {
    let note = given.and_then(first_note);
    match &question.right {
        Answer::Notes(right) if note.is_some() && right.last() == note => "the first note is missing",
        _ => "the second note is missing",
    }
}

/// The note of an answer, or the first of several.
fn first_note(given: &Answer) -> Option<&Pitch> {
    match given {
        Answer::Notes(notes) => notes.first(),
        Answer::Note(note) => Some(note),
        _ => None,
    }
}

/// What was left as it stands: on paper, or as the player reads it.
fn as_it_stands(question: &Question, given: Option<&Answer>) -> &'static str {
    let printed = question.reading().map(|reading| reading.printed.0);
    match question.kind {
        Kind::Chord | Kind::Clef => "the staff was read as if it sounded as it is written",
        Kind::Writes if given.and_then(first_note) == question.given.as_ref().map(|given| &given.0) => {
            "it was written as it sounds"
        }
        // Old notation moves the note by an octave all the same.
        Kind::Writes => "the transposition was left out",
        Kind::Label => "the staff was taken for one that sounds as it is written",
        Kind::InHand => "one of the two transpositions was left out",
        _ if printed.is_some() && given.and_then(first_note) == printed.as_ref() => {
            "it was read as if it sounded as it is printed"
        }
        _ => "it was read as if it sounded as it is written",
    }
}

/// What a way of making a note says that is not so.
const fn made(right: Production, given: Production) -> &'static str {
    match (right, given) {
        (_, Production::Unavailable) => "The note can be had.",
        (Production::Unavailable, _) => "The note cannot be had on the plain series, by hand or by lip.",
        (_, Production::Lipped) => "The lip need not bend it.",
        (Production::Lipped, _) => "The lip bends it.",
        _ => "It is made otherwise.",
    }
}

/// How far an answer is off, and in which direction.
fn how_far(question: &Question, off: &Off) -> Option<String> {
    Some(match *off {
        Off::Note(by) | Off::Name(by) => format!("It is {}.", too(by)),
        Off::Keys(keys) => format!("It is {} {}.", counted(keys, "semitone"), high(keys)),
        Off::Notes(ref by) => {
            let one = |(at, by): (usize, &Interval)| {
                let which = if at == 0 { "first" } else { "second" };
                if *by == Interval::UNISON {
                    format!("the {which} note is right")
                } else {
                    format!("the {which} is {}", too(*by))
                }
            };
            if let [first, second] = by.as_slice()
                && first == second
            {
                return Some(format!("Both are {}.", too(*first)));
            }
            let each: Vec<String> = by.iter().enumerate().map(one).collect();
            format!("{}.", capital(&each.join(", ")))
        }
        Off::Count { given: 1, right } => format!("There are {right} different notes, and it is neither."),
        Off::Count { .. } => "All players have one and the same note, and it is none of these.".into(),
        Off::Degrees(by, _) => {
            let side = if by > 0 { "above" } else { "below" };
            format!("Your degree lies {} {side} the right one.", counted(by, "degree"))
        }
        Off::DegreeSign(by) => {
            format!("The number is right, but its sign makes it {} {}.", counted(by, "semitone"), high(by))
        }
        Off::Partials(by) => format!("It is {} {}.", counted(by, "partial"), high(by)),
        Off::Series { on: true } => "The note is on the series.".into(),
        Off::Series { on: false } => "The note is not on the series.".into(),
        Off::Hand(by) if by > 0 => "That closes the bell too far.".into(),
        Off::Hand(_) if question.right == Answer::Made(Production::Open) => {
            "The hand need not come out: the note is open as the hand lies.".into()
        }
        Off::Hand(_) => "That does not close the bell far enough.".into(),
        Off::Made { right, given } => made(right, given).into(),
        Off::Clef(0, signs) => {
            format!("The clef is right, the signature is off by {}.", signature(Signature(signs)))
        }
        Off::Clef(letters, _) => {
            format!("In that clef the note stands {} {}.", counted(letters, "letter"), high(letters))
        }
        Off::Chord { root, quality, bass } => return chord(root, quality, bass),
        Off::Label(same, by) if by == Interval::UNISON => {
            if same {
                return None;
            }
            "It would sound the same, but the instrument is another.".into()
        }
        Off::Label(_, by) => format!("That would sound {}.", too(by)),
        Off::Sound => match question.kind {
            Kind::WrongNote => "That note is copied right.",
            Kind::WrongStaff => "That staff is played as it stands.",
            _ => "That is the corrected one.",
        }
        .into(),
    })
}

/// What is right of a chord.
fn chord(root: bool, quality: bool, bass: bool) -> Option<String> {
    let parts = [(root, "the root"), (quality, "the kind of chord"), (bass, "what lies lowest")];
    let named = |wanted: bool| {
        let all: Vec<&str> = parts.iter().filter(|(is, _)| *is == wanted).map(|(_, part)| *part).collect();
        (!all.is_empty()).then(|| (all.join(" and "), if all.len() > 1 { "are" } else { "is" }))
    };
    let (wrong, is) = named(false)?;
    Some(match named(true) {
        Some((right, is_right)) => format!("{} {is_right} right, {wrong} {is} not.", capital(&right)),
        None => "Neither the root nor the kind of chord nor what lies lowest is right.".into(),
    })
}

const fn high(amount: i32) -> &'static str {
    if amount > 0 { "too high" } else { "too low" }
}

/// "a perfect fourth too low".
fn too(by: Interval) -> String {
    let way = match by.direction() {
        Direction::Up => "too high",
        Direction::Down => "too low",
        Direction::None => return "the right note".into(),
    };
    if by.steps == 0 {
        return format!("{} {way}", counted(by.semitones, "semitone"));
    }
    let name = interval_with_direction(by);
    format!("{} {way}", name.strip_suffix(" higher").or(name.strip_suffix(" lower")).unwrap_or(&name))
}

/// "one partial", "3 semitones".
fn counted(number: i32, thing: &str) -> String {
    match number.unsigned_abs() {
        1 => format!("one {thing}"),
        many => format!("{many} {thing}s"),
    }
}

/// How far an answer is off in a few words, for tables; empty where there are none.
#[must_use]
pub fn off(off: &Off) -> String {
    match off {
        Off::Note(by) | Off::Name(by) | Off::Label(true, by) => too(*by),
        Off::Keys(keys) => format!("{} {}", counted(*keys, "semitone"), high(*keys)),
        Off::Notes(each) => match each.as_slice() {
            [first, others @ ..] if others.iter().all(|other| other == first) => {
                format!("all {}", too(*first))
            }
            each => each.iter().map(|by| too(*by)).collect::<Vec<_>>().join(", "),
        },
        Off::Count { given, right } => {
            format!("{given} of {}", counted(i32::try_from(*right).unwrap_or(0), "note"))
        }
        Off::Degrees(by, _) => format!("{} {}", counted(*by, "degree"), high(*by)),
        Off::DegreeSign(by) => format!("its sign {} {}", counted(*by, "semitone"), high(*by)),
        Off::Partials(by) => format!("{} {}", counted(*by, "partial"), high(*by)),
        Off::Series { on: true } => "taken for a note off the series".into(),
        Off::Series { on: false } => "taken for a note of the series".into(),
        Off::Hand(by) if *by > 0 => "bell closed too far".into(),
        Off::Hand(_) => "bell too open".into(),
        Off::Made { given, .. } => format!("taken for {}", given.words()),
        Off::Clef(0, signs) => format!("signature off by {}", signature(Signature(*signs))),
        Off::Clef(letters, _) => format!("{} {}", counted(*letters, "letter"), high(*letters)),
        Off::Chord { root, quality, bass } => {
            let parts = [(root, "root"), (quality, "kind of chord"), (bass, "bass")];
            let wrong = parts.iter().filter(|(right, _)| !**right).map(|(_, part)| *part);
            format!("another {}", wrong.collect::<Vec<_>>().join(" and "))
        }
        Off::Label(false, _) => "another instrument".into(),
        Off::Sound => "taken for wrong, but right".into(),
    }
}

/// A mistake in a few words, for tables and pictures.
#[must_use]
pub const fn short(mistake: Mistake) -> &'static str {
    match mistake {
        Mistake::Direction => "wrong direction",
        Mistake::Octave => "octave",
        Mistake::ThirdForSixth => "third for sixth",
        Mistake::Quality => "minor for major",
        Mistake::EForEs => "E for Es",
        Mistake::BForH => "B for H",
        Mistake::OtherClarinet => "the other clarinet",
        Mistake::AccidentalNotShifted => "accidental not shifted",
        Mistake::ClefSignature => "clef's signature",
        Mistake::OldBassNotation => "old bass notation",
        Mistake::SignatureImagined => "signature imagined",
        Mistake::SignatureOverlooked => "signature overlooked",
        Mistake::CrookChange => "change of crook",
        Mistake::TakenForHorn => "taken for a horn",
        Mistake::Spelling => "spelling",
        Mistake::PartialLiterally => "partial taken literally",
        Mistake::DrumsInCAndG => "drums in C and G",
        Mistake::ATwo => "a 2 as two notes",
        Mistake::ClefMisread => "clef misread",
        Mistake::NotTransposed => "not transposed",
        Mistake::AltoForBasso => "alto for basso",
        Mistake::OtherPlayersCrook => "the other player's crook",
        Mistake::CrookForKey => "crook for key",
        Mistake::OtherBass => "another bass",
        Mistake::OtherInstrument => "another instrument",
        Mistake::FourthForFifth => "fourth for fifth",
        Mistake::NoteMissing => "a note missing",
    }
}
