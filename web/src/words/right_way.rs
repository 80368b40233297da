//! The way to the right answer, as the question asks it: from paper to sound, from sound to paper, from staff to staff.

use super::mistakes::planted;
use super::names::Names;
use super::practise::instrument;
use super::ways::read_at_clef;
use super::{
    degrees, interval_with_direction, making, octaves_further, production_sentence, written_otherwise,
};
use crookwise_practice::{Answer, Kind, Question, Which};
use crookwise_score::ResolvedStaff;
use crookwise_score::chord::Role;
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{BassNotation, Interval, Making, Partial, Pitch, Reading, Signature, Step};

/// How drums are read that are printed as C and G.
const DRUMS: &str = "C and G on drums stand for the notes that the label names, in that order.";

/// The way to the right answer, a sentence each.
#[must_use]
pub fn right_way(question: &Question, names: Names) -> Vec<String> {
    let reading = question.reading();
    let of = |lines: &dyn Fn(&Reading) -> Vec<String>| reading.as_ref().map(lines).unwrap_or_default();
    match question.kind {
        Kind::Sounds => of(&|reading| to_sound(question, reading, names)),
        Kind::Writes => of(&|reading| to_paper(question, reading, names)),
        Kind::InHand => of(&|reading| to_hand(question, reading, names)),
        Kind::Partial => of(&|reading| partial(reading, names)),
        Kind::Made => of(&|reading| reading.making.as_ref().map(made).unwrap_or_default()),
        Kind::Degree => of(&|reading| degree(question, reading, names)),
        Kind::Clef => of(&|reading| clef(reading, names)),
        Kind::Natural => of(&|reading| natural(question, reading)),
        Kind::Players => players(question, names),
        Kind::Chord => chord(question, names),
        Kind::WrongNote => copied(question, names),
        Kind::WrongStaff => played(question, names),
        Kind::Label => Vec::new(),
    }
}

/// "C5 sounds a major sixth lower: E♭4."
fn sounds(reading: &Reading, names: Names) -> String {
    let (printed, sounding) = (names.note(reading.printed.0), names.note(reading.sounding.0));
    match reading.interval {
        Interval::UNISON => format!("{printed} sounds as it is printed."),
        by => format!("{printed} sounds {}: {sounding}.", interval_with_direction(by)),
    }
}

/// Which bass notation it is, and what the other would make of it.
fn notation(reading: &Reading, names: Names) -> Option<String> {
    let (own, other, by) = match reading.notation.bass? {
        BassNotation::Old => ("Old", "new", -Interval::OCTAVE),
        BassNotation::New => ("New", "old", Interval::OCTAVE),
    };
    let there = names.note(reading.sounding.0 + by);
    Some(format!("{own} notation; in {other} notation it would sound {there}."))
}

fn to_sound(question: &Question, reading: &Reading, names: Names) -> Vec<String> {
    let mut lines = vec![format!("By interval: {}", sounds(reading, names))];
    lines.extend(notation(reading, names));
    // Nobody reads drums in another clef.
    if question.is_of_drums() {
        lines.extend((reading.interval != Interval::UNISON).then(|| DRUMS.to_owned()));
    } else if is_by_clef(reading) {
        lines.push(format!("By clef: {}", read_at_clef(reading, names)));
    }
    lines.extend(by_degree(question, reading, names).filter(|_| shows_key(question)));
    lines.extend(reading.making.as_ref().map(|made| format!("{}.", making(made))));
    lines
}

/// Whether the key of the movement can be seen at the note that is asked about: by its signature, or it is that of the crook.
fn shows_key(question: &Question) -> bool {
    let at = question.at;
    let staff = ResolvedStaff::of(&question.passage, at.staff, DecodeOptions::default());
    let key = question.passage.movement_at(at.column);
    let place = staff.place_at(at.column, at.player);
    key.zip(place)
        .is_some_and(|(key, place)| place.signature != Signature::NONE || place.staff.key == Some(key.tonic))
}

/// Whether there is another clef to imagine.
const fn is_by_clef(reading: &Reading) -> bool {
    reading.interval.steps % 7 != 0
}

fn by_degree(question: &Question, reading: &Reading, names: Names) -> Option<String> {
    let key = question.passage.movement_at(question.at.column)?;
    let above = reading.making.as_ref().map(|_| reading.crook_degree);
    let degrees = degrees(reading.movement_degree?, key, above, names);
    Some(format!("By degree: {degrees}"))
}

/// From sound to paper.
fn to_paper(question: &Question, reading: &Reading, names: Names) -> Vec<String> {
    let (printed, sounding) = (names.note(reading.printed.0), names.note(reading.sounding.0));
    let mut lines = Vec::new();
    lines.push(match reading.interval {
        Interval::UNISON => {
            format!("The staff sounds as it is written, so {sounding} is written as it sounds.")
        }
        by => format!(
            "What is written sounds {}, so {sounding} must be written {}: {printed}.",
            interval_with_direction(by),
            interval_with_direction(-by)
        ),
    });
    if is_by_clef(reading) {
        let way = reading.by_clef;
        lines.push(format!(
            "By clef: find the place of {sounding}{} in the {} clef ({}); in the clef of the staff it is {printed}.",
            octaves_further(-way.octaves),
            way.clef.name(),
            way.clef
        ));
    }
    lines.extend(as_printed(question, reading.printed.0, names));
    if reading.printed.0 != reading.written.0 {
        lines.push(written_otherwise(reading.printed, reading.written, names));
    }
    lines.extend(reading.making.as_ref().map(|made| format!("{}.", making(made))));
    lines
}

/// What parts print for a note where that is another spelling than the strict one.
fn as_printed(question: &Question, strict: Pitch, names: Names) -> Option<String> {
    match &question.right {
        Answer::Note(right) if *right != strict => {
            Some(format!("Parts print {} for it.", names.note(*right)))
        }
        _ => None,
    }
}

/// From the staff of the part to that of the instrument in hand.
fn to_hand(question: &Question, reading: &Reading, names: Names) -> Vec<String> {
    let Some(there) = reading.in_hand else { return Vec::new() };
    let hand = question.in_hand.as_deref().map(|label| instrument(label, names)).unwrap_or_default();
    let own = Interval::between(there.written.0, reading.sounding.0);
    let written = names.note(there.written.0);
    let from_staff_to_staff = Interval::between(reading.printed.0, there.written.0);
    let how = match from_staff_to_staff {
        Interval::UNISON => "as it stands".to_owned(),
        by => interval_with_direction(by),
    };
    let heard = match own {
        Interval::UNISON => "sounds as written".to_owned(),
        by => format!("sounds {}", interval_with_direction(by)),
    };
    let mut lines = vec![
        sounds(reading, names),
        format!("On {hand}, which {heard}, that is {written}."),
        format!("From staff to staff: read every note {how}."),
    ];
    lines.extend(as_printed(question, there.written.0, names));
    lines
}

fn partial(reading: &Reading, names: Names) -> Vec<String> {
    let Some(made) = &reading.making else { return Vec::new() };
    let written = names.note(reading.written.0);
    let mut lines: Vec<String> = notation_of_paper(reading, names).into_iter().collect();
    let Some(partial) = made.partial.map(Partial::number) else {
        lines.push(format!("Written {written} lies between the partials of the crook."));
        lines.push(format!("{}.", making(made)));
        return lines;
    };
    // Every octave of the crook's C is twice the partial below it.
    let known = [(3, 2), (4, 4), (5, 8)].into_iter().filter(|(_, number)| *number != partial).rev();
    let known: Vec<String> = known
        .take(2)
        .map(|(octave, number)| {
            format!("{} is partial {number}", names.note(Pitch::natural(Step::C, octave)))
        })
        .collect();
    lines.push(format!("Written {written} is partial {partial}, where written {}.", known.join(" and ")));
    lines.push(format!("It is {}.", made.production.words()));
    lines
}

/// Where old notation hides what the player reads.
fn notation_of_paper(reading: &Reading, names: Names) -> Option<String> {
    let hidden = reading.printed.0 != reading.written.0;
    hidden.then(|| written_otherwise(reading.printed, reading.written, names))
}

fn made(made: &Making) -> Vec<String> {
    let more = production_sentence(made);
    let mut lines = vec![format!("{}.", making(made))];
    lines.extend(Some(more).filter(|more| !more.is_empty()));
    lines
}

fn degree(question: &Question, reading: &Reading, names: Names) -> Vec<String> {
    let mut lines = vec![sounds(reading, names)];
    lines.extend(by_degree(question, reading, names));
    lines
}

fn clef(reading: &Reading, names: Names) -> Vec<String> {
    let mut lines = vec![sounds(reading, names)];
    lines.push(read_at_clef(reading, names));
    if reading.by_clef.fifths != 0 {
        lines.push(format!(
            "The signature changes by {}: it becomes {}.",
            Signature(reading.by_clef.fifths).words(),
            match reading.by_clef.signature {
                Signature(0) => "one without sharps or flats".to_owned(),
                other => other.words(),
            }
        ));
    }
    lines
}

/// The natural one of two: which, and by how much.
fn natural(question: &Question, reading: &Reading) -> Vec<String> {
    let Some(made) = &reading.making else { return Vec::new() };
    let (Some(partial), Some(drift)) = (made.partial, made.drift) else { return Vec::new() };
    let which = match question.right {
        Answer::Which(Which::Second) => "second",
        _ => "first",
    };
    let side = if drift < 0.0 { "lower" } else { "higher" };
    vec![format!(
        "The {which} is partial {} as the tube gives it, {} cents {side} than the tuning has the note.",
        partial.number(),
        drift.abs().round() as u64
    )]
}

fn players(question: &Question, names: Names) -> Vec<String> {
    let one = |(number, reading): (u32, Reading)| format!("Player {number}: {}", sounds(&reading, names));
    question.players_read().into_iter().map(one).collect()
}

/// The members of a chord from the root up, and who has them.
fn chord(question: &Question, names: Names) -> Vec<String> {
    let Some((harmony, voices)) = question.harmony() else { return Vec::new() };
    let member = |member: &crookwise_score::Member| {
        let mut who: Vec<String> = Vec::new();
        for voice in member.voices.iter().filter_map(|at| voices.get(*at)) {
            let label = question.passage.staves().get(voice.staff).map_or("", |staff| staff.label.as_str());
            let one = format!("{label} ({})", names.note(voice.printed.0));
            if !who.contains(&one) {
                who.push(one);
            }
        }
        format!("{} {}: {}.", role(member.role), names.tonic(member.note), who.join(", "))
    };
    harmony.members.iter().map(member).collect()
}

const fn role(role: Role) -> &'static str {
    match role {
        Role::Root => "Root",
        Role::Third => "Third",
        Role::Fourth => "Fourth",
        Role::Fifth => "Fifth",
        Role::Sixth => "Sixth",
        Role::Seventh => "Seventh",
        Role::Ninth => "Ninth",
        Role::Lower | Role::Pedal | Role::Other => "Bass",
    }
}

/// What should stand in the copy.
fn copied(question: &Question, names: Names) -> Vec<String> {
    let Some(wrong) = question.miscopied() else { return Vec::new() };
    let lines = vec![
        format!(
            "Above, {} sounds {}; in the copy that is {}.",
            names.note(wrong.source.0),
            names.note(wrong.sounding.0),
            names.note(wrong.should.0)
        ),
        format!("What stands there, {}, sounds {}.", names.note(wrong.stands.0), names.note(wrong.heard.0)),
    ];
    lines.into_iter().chain(planted(question)).collect()
}

/// What was played wrong.
fn played(question: &Question, names: Names) -> Vec<String> {
    let Some(wrong) = question.misplayed() else { return Vec::new() };
    let label = question.passage.staves().get(wrong.at.staff).map_or("", |staff| staff.label.as_str());
    let line = format!(
        "{label}: {} should sound {}; what was heard is {}.",
        names.note(wrong.printed.0),
        names.note(wrong.sounding.0),
        names.note(wrong.heard.0)
    );
    core::iter::once(line).chain(planted(question)).collect()
}

/// The interval that leads to an answer which is a note, for the key of a worksheet: "a major sixth lower"; nothing where two
/// players have two.
#[must_use]
pub fn shortest_way(question: &Question) -> Option<String> {
    let reading = question.reading()?;
    Some(match question.kind {
        Kind::Writes => interval_with_direction(-reading.interval),
        Kind::InHand => {
            interval_with_direction(Interval::between(reading.printed.0, reading.in_hand?.written.0))
        }
        Kind::Sounds => interval_with_direction(reading.interval),
        _ => return None,
    })
}

/// The way to an answer in a few words, for the key of a worksheet.
#[must_use]
pub fn short_way(question: &Question, names: Names) -> Option<String> {
    let reading = question.reading()?;
    Some(match question.kind {
        Kind::Partial | Kind::Made | Kind::Natural => making(reading.making.as_ref()?),
        Kind::Writes => format!(
            "{} is written {}",
            names.note(reading.sounding.0),
            interval_with_direction(-reading.interval)
        ),
        Kind::InHand => {
            let there = reading.in_hand?.written.0;
            let by = Interval::between(reading.printed.0, there);
            format!("{} is read {}", names.note(reading.printed.0), interval_with_direction(by))
        }
        Kind::Sounds | Kind::Players | Kind::Degree | Kind::Clef => {
            format!("{} sounds {}", names.note(reading.printed.0), interval_with_direction(reading.interval))
        }
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::mistakes::said;
    use crookwise_practice::{AskedStaff, Exercise, Marking};

    /// Questions of every kind, on staves of several sorts.
    fn questions() -> Vec<Question> {
        let labels = ["Corni in Es", "Clarinetti in A", "Viole", "Trombe in F", "Corno inglese", "Ottavino"];
        let mut staves: Vec<AskedStaff> = labels.map(AskedStaff::of).into();
        staves[0].pair = true;
        let mut low = AskedStaff::of("Corni in F");
        low.settings.clef = Some(crookwise_theory::Clef::BASS);
        staves.push(low);
        let of = |kind| Exercise {
            kinds: vec![kind],
            staves: staves.clone(),
            in_hand: Some("Horn in F".into()),
            questions: 16,
            seed: 7,
            ..Exercise::default()
        };
        Kind::ALL.iter().flat_map(|kind| of(*kind).questions().unwrap()).collect()
    }

    /// Answers near the right one, and whatever is offered.
    fn wrongs(question: &Question) -> Vec<Answer> {
        let mut wrongs = question.choices.clone();
        let moved = |note: Pitch| (-9..=9).map(move |steps| note + Interval::new(steps, steps * 12 / 7));
        match &question.right {
            Answer::Note(note) => {
                wrongs.extend(moved(*note).map(Answer::Note));
                wrongs.extend(moved(*note).map(|note| Answer::Name(note.tonic())));
                wrongs.extend([40, 61, 72].map(Answer::Key));
            }
            Answer::Notes(notes) => {
                for note in notes.iter().flat_map(|note| moved(*note)) {
                    wrongs.push(Answer::Note(note));
                    wrongs.push(Answer::Notes(vec![note, *notes.last().unwrap()]));
                }
            }
            Answer::Column(column) => wrongs.push(Answer::Column(column + 1)),
            Answer::Staff(staff) => wrongs.push(Answer::Staff(staff + 1)),
            Answer::Which(Which::First) => wrongs.push(Answer::Which(Which::Second)),
            Answer::Which(Which::Second) => wrongs.push(Answer::Which(Which::First)),
            _ => {}
        }
        wrongs.retain(|wrong| !question.is_right(wrong, Marking::default()));
        wrongs
    }

    fn is_sentence(line: &str) -> bool {
        let odd = ["  ", "..", " .", ",,", "no instrument", "{"];
        line.trim_start_matches('“').starts_with(char::is_alphanumeric)
            && line.ends_with('.')
            && !odd.iter().any(|odd| line.contains(odd))
    }

    #[test]
    fn every_question_says_the_way_to_its_answer_and_what_was_wrong() {
        let mut said_of = 0;
        for question in questions() {
            let lines = right_way(&question, Names::default());
            assert!(!lines.is_empty() || question.kind == Kind::Label, "{}", question.canonical());
            for line in &lines {
                assert!(is_sentence(line), "{line}");
            }
            for wrong in wrongs(&question) {
                let mark = question.mark(&wrong, Marking::default());
                let sentence = said(&question, &wrong, &mark);
                assert!(sentence.is_some(), "{wrong}\n{}", question.canonical());
                assert!(is_sentence(&sentence.clone().unwrap()), "{sentence:?}");
                said_of += 1;
            }
        }
        assert!(said_of > 2000, "{said_of}");
    }

    fn asked(kind: Kind, label: &str, note: &str) -> Question {
        let mut page = crookwise_score::Passage::of_staff(label);
        page.movement = Some("Eb major".parse().unwrap());
        let printed = crookwise_score::Event::Note(crookwise_theory::Printed(note.parse().unwrap()));
        page.set(0, 0, 0, printed).unwrap();
        let exercise = Exercise {
            kinds: vec![kind],
            material: crookwise_practice::Material::Passage(Box::new(page)),
            in_hand: Some("Clarinet in B-flat".into()),
            questions: 1,
            ..Exercise::default()
        };
        exercise.questions().unwrap().remove(0)
    }

    #[test]
    fn the_way_goes_in_the_direction_of_the_question() {
        let way = |kind| right_way(&asked(kind, "Corni in Es", "E5"), Names::default());
        assert_eq!(way(Kind::Sounds)[0], "By interval: E5 sounds a major sixth lower: G4.");
        assert!(way(Kind::Sounds)[1].ends_with("So E5 is read G4."));
        assert!(way(Kind::Sounds)[2].starts_with("By degree: Third degree of E♭ major (3)"));
        assert_eq!(
            way(Kind::Writes)[0],
            "What is written sounds a major sixth lower, so G4 must be written a major sixth higher: E5."
        );
        assert_eq!(way(Kind::InHand)[2], "From staff to staff: read every note a perfect fifth lower.");
    }

    #[test]
    fn the_degree_in_a_key_that_is_nowhere_on_the_page_is_not_said() {
        let degrees = |exercise: Exercise| {
            let exercise = Exercise { questions: 16, seed: 902, ..exercise };
            let said = |question: &Question| {
                let way = right_way(question, Names::default());
                let key = question.passage.movement.map(|key| Names::default().key(key)).unwrap();
                (way.iter().any(|line| line.contains(&key)), question.at.column)
            };
            let questions = exercise.questions().unwrap();
            let is_before = |question: &Question| {
                question.passage.staves()[0].changes().iter().all(|change| change.column > question.at.column)
            };
            questions.iter().map(|question| (said(question).0, is_before(question))).collect::<Vec<_>>()
        };
        // On the crook of the key it is; after a change it would be the degree of a key that nobody sees.
        let staff = AskedStaff { muta: Some("F".into()), ..AskedStaff::of("Corni in Es") };
        let changed = degrees(Exercise { staves: vec![staff], ..Exercise::default() });
        assert!(changed.iter().all(|(said, before)| said == before), "{changed:?}");
        assert!(changed.iter().any(|(said, _)| *said) && changed.iter().any(|(said, _)| !said));
        // A signature shows it.
        let staves = vec![AskedStaff::of("Clarinetti in A")];
        assert!(degrees(Exercise { staves, ..Exercise::default() }).iter().any(|(said, _)| *said));
    }

    #[test]
    fn a_mistake_is_said_in_one_sentence() {
        let said = |label: &str, given: &str| {
            let question = asked(Kind::Sounds, label, "C5");
            let given: Answer = given.parse().unwrap();
            said(&question, &given, &question.mark(&given, Marking::default())).unwrap()
        };
        assert_eq!(said("Corni in F", "note G4"), "A fourth was taken for a fifth.");
        assert_eq!(said("Clarinetti in B", "note D5"), "The interval was taken up instead of down.");
        assert_eq!(said("Corni in F", "note D4"), "It is a minor third too low.");
        assert_eq!(said("Viole", "note B4"), "It is a minor second too low.");
        assert!(said("Corni in Es", "note E4").starts_with("Either E and E-flat, “Es”, "));
        assert!(said("Corni in Es", "note Ab5").contains(", and "));
    }
}
