//! Wrong answers written by hand, each with the mistakes that lead to it: `mistakes.txt`.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod second;

use crookwise_practice::{Answer, Exercise, Kind, Mark, Marking, Material, Mistake, Question};
use crookwise_score::{Change, ChangeTo, Passage};
use crookwise_theory::BassNotation;
use second::{in_bass, pair, passage, staff};

/// A row of the table.
struct Row<'a> {
    text: &'a str,
    question: Question,
    right: Answer,
    wrong: Answer,
    mistakes: &'a str,
}

fn rows() -> Vec<Row<'static>> {
    let table = include_str!("mistakes.txt");
    table.lines().filter(|line| !line.is_empty() && !line.starts_with('#')).map(row).collect()
}

fn row(text: &'static str) -> Row<'static> {
    let cells: Vec<&str> = text.split('|').map(str::trim).collect();
    let [kind, staves, key, notes, right, wrong, mistakes] = cells[..] else { panic!("{text}") };
    let kind = Kind::ALL.into_iter().find(|known| known.id() == kind).unwrap_or_else(|| panic!("{text}"));
    let answer = |text: &str| text.parse().unwrap_or_else(|_| panic!("{text}"));
    Row {
        text,
        question: question(kind, staves, key, notes),
        right: answer(right),
        wrong: answer(wrong),
        mistakes,
    }
}

/// The question of a row, drawn from a passage of its notes.
fn question(kind: Kind, staves: &str, key: &str, notes: &str) -> Question {
    let (label, options) = staves.split_once('{').map_or((staves, ""), |(label, rest)| (label.trim(), rest));
    let option = |name: &str| {
        options
            .split('{')
            .find_map(|option| option.trim().trim_end_matches('}').strip_prefix(name))
            .map(str::trim)
    };
    let column = notes.split(' ').position(|note| note.starts_with('!')).unwrap_or(0);
    let plain = notes.replace('!', "");
    let page = if kind == Kind::Chord {
        let mut page: Option<Passage> = None;
        for (label, note) in label.split(" / ").zip(plain.split(" / ")) {
            match &mut page {
                None => page = Some(passage(&staff(label), key, note)),
                Some(page) => {
                    let at = page.add_staff(label).unwrap();
                    let note = crookwise_score::Event::Note(crookwise_theory::Printed(second::pitch(note)));
                    page.set(at, 0, 0, note).unwrap();
                }
            }
        }
        page.unwrap()
    } else {
        let asked = match (option("bass"), option("pair")) {
            (Some("new"), _) => in_bass(label, Some(BassNotation::New)),
            (Some(_), _) => in_bass(label, None),
            (None, Some(_)) => pair(label),
            (None, None) => staff(label),
        };
        let mut page = passage(&asked, key, if plain.is_empty() { "-" } else { &plain });
        if let Some((column, label)) = option("from").and_then(|option| option.split_once(' ')) {
            let to = ChangeTo::Label(label.to_owned());
            let column = column.parse().unwrap();
            page.set_change(0, Change { column, player: None, to }).unwrap();
        }
        page
    };
    let mut exercise = Exercise {
        kinds: vec![kind],
        material: Material::Passage(Box::new(page)),
        in_hand: option("hand").map(str::to_owned),
        ..Exercise::default()
    };
    // As many questions as there are notes: each is asked about once.
    for questions in (1..=6).rev() {
        exercise.questions = questions;
        if let Ok(drawn) = exercise.questions() {
            let wanted = |question: &Question| question.at.column == column && question.at.player == 0;
            if let Some(found) = drawn.into_iter().find(wanted) {
                return found;
            }
        }
    }
    panic!("{kind:?} of {staves}: {:?}", exercise.questions());
}

/// The mistakes of a mark as the table writes them, in the order of their numbers.
fn named(mark: &Mark) -> Vec<String> {
    let mut named: Vec<String> = mark
        .explained
        .iter()
        .map(|one| {
            let mut both = vec![one.mistake];
            both.extend(one.with);
            both.sort_unstable();
            both.into_iter().map(Mistake::id).collect::<Vec<_>>().join("+")
        })
        .collect();
    named.sort_unstable();
    named
}

#[test]
fn every_mistake_is_recognised() {
    let mut failures = Vec::new();
    let rows = rows();
    for row in &rows {
        let marking = Marking::default();
        assert_eq!(row.question.right, row.right, "{}\n{}", row.text, row.question.canonical());
        assert!(row.question.mark(&row.right, marking).right, "{}", row.text);
        let mark = row.question.mark(&row.wrong, marking);
        assert!(!mark.right, "{}", row.text);
        let mut expected: Vec<String> = row
            .mistakes
            .split(',')
            .map(|name| name.trim().to_owned())
            .filter(|name| !name.is_empty())
            .collect();
        expected.sort_unstable();
        if named(&mark) != expected {
            failures.push(format!("{}\n    found {}", row.text, named(&mark).join(", ")));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    assert!(rows.len() >= 60, "{}", rows.len());
}

#[test]
fn every_mistake_stands_in_the_table() {
    let table: Vec<String> = rows().iter().map(|row| row.mistakes.to_owned()).collect();
    for mistake in Mistake::ALL {
        let named = |row: &String| row.split([',', '+']).any(|name| name.trim() == mistake.id());
        assert!(table.iter().any(named), "{}", mistake.id());
    }
}

#[test]
fn numbers_and_words_of_kinds_and_mistakes_stay() {
    let kinds: Vec<String> = Kind::ALL.iter().map(|kind| format!("{} {}", kind.code(), kind.id())).collect();
    assert_eq!(
        kinds.join(", "),
        "1 sounds, 2 writes, 3 inHand, 4 label, 5 partial, 6 made, 7 degree, 8 clef, 9 chord, 10 wrongNote, \
         11 wrongStaff, 12 natural, 13 players"
    );
    let mistakes: Vec<String> =
        Mistake::ALL.iter().map(|mistake| format!("{} {}", mistake.code(), mistake.id())).collect();
    assert_eq!(
        mistakes.join(", "),
        "1 direction, 2 octave, 3 thirdForSixth, 4 quality, 5 eForEs, 6 bForH, 7 otherClarinet, \
         8 accidentalNotShifted, 9 clefSignature, 10 oldBassNotation, 11 signatureImagined, 12 signatureOverlooked, \
         13 crookChange, 14 takenForHorn, 15 spelling, 16 partialLiterally, 17 drumsInCAndG, 18 aTwo, 19 clefMisread, \
         20 notTransposed, 21 altoForBasso, 22 otherPlayersCrook, 23 crookForKey, 24 otherBass, 25 otherInstrument, \
         26 fourthForFifth, 27 noteMissing"
    );
    for code in 0..=u8::MAX {
        assert!(Kind::from_code(code).is_none_or(|kind| kind.code() == code));
        assert!(Mistake::from_code(code).is_none_or(|mistake| mistake.code() == code));
    }
}

#[test]
fn marking_may_let_octaves_and_other_spellings_pass() {
    let question = question(Kind::Sounds, "Corni in Es", "Eb major", "!Bb4");
    let judged = |text: &str, enharmonics: bool, octave: bool| {
        question.mark(&text.parse().unwrap(), Marking { enharmonics, octave })
    };
    assert!(judged("note C#4", true, true).right);
    assert!(!judged("note C#4", false, true).right);
    assert!(judged("note Db6", false, false).right);
    assert!(!judged("note Db6", true, true).right);
    assert!(judged("name Db", false, true).right && judged("key 61", false, true).right);
    assert!(!judged("key 73", false, true).right && judged("key 73", false, false).right);
    // Where other spellings pass, mistakes are known by their sound: a minor sixth lower is D, whatever its name.
    assert_eq!(judged("note C##4", true, true).mistakes(), [Mistake::EForEs, Mistake::Quality]);
    assert_eq!(judged("name D", false, true).mistakes(), [Mistake::EForEs, Mistake::Quality]);
}
