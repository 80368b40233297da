//! An invented class of thirty sends its codes, as people do, and the teacher pastes the whole chat into one box.

#![allow(clippy::unwrap_used, reason = "a test may fail by unwrapping")]

use crookwise_practice::results::{
    Class, CsvWords, Explained, Fingerprint, Given, Missed, Outcome, find_all,
};
use crookwise_practice::{Mistake, Pace};

const QUESTIONS: usize = 20;
const NAMES: [&str; 24] = [
    "Mira Tal",
    "Jonas Brück",
    "Ilse Ott",
    "Pål Strand",
    "Noor Haddad",
    "Żaneta Wilk",
    "Théo Marchais",
    "Ada Quill",
    "Bram de Wit",
    "Lúcia Prado",
    "=SUM(A1:A9)",
    "Kenji Mori",
    "Olga Petrova",
    "Sanne Vos",
    "Ravi Nair",
    "Emre Koç",
    "Li Na",
    "Tomás Rey",
    "Greta Holm",
    "Yael Oren",
    "Sofía Luz",
    "Hugo, der Zweite",
    "Ana \"Nita\" Sol",
    "-Per",
];

/// Whole numbers that look like chance (a linear congruence), so that the class is always the same.
struct Dice(u32);

impl Dice {
    fn below(&mut self, bound: u32) -> u32 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (self.0 >> 8) % bound
    }

    fn mistake(&mut self) -> Mistake {
        Mistake::ALL[self.below(25) as usize]
    }
}

fn student(dice: &mut Dice, number: usize, exercise: Fingerprint) -> Outcome {
    let mut given = Vec::new();
    for question in 0..QUESTIONS {
        let pace = Pace::ALL[dice.below(4) as usize];
        given.push(match dice.below(10) {
            // The fifth question is the nasty one: two of three take the third for the sixth.
            _ if question == 4 && !number.is_multiple_of(3) => {
                Given::wrong(pace, &[Mistake::ThirdForSixth, Mistake::Octave])
            }
            0 => Given::LeftOut,
            1 => Given::wrong(pace, &[]),
            2 => Given::wrong(pace, &[dice.mistake(), dice.mistake()]),
            _ => Given::Right(pace),
        });
    }
    let name = NAMES.get(number).copied().unwrap_or_default();
    Outcome::new(exercise, dice.below(2048), given, name).unwrap()
}

/// What becomes of a code on its way.
fn sent(number: usize, outcome: &Outcome) -> String {
    let code = outcome.code();
    let wrapped = |width: usize, by: &str| {
        let signs: Vec<char> = code.chars().collect();
        signs.chunks(width).map(|line| line.iter().collect::<String>()).collect::<Vec<_>>().join(by)
    };
    match number % 10 {
        0 => format!("[09:{number:02}] here is mine: {code}"),
        1 => format!("{}\nhope it worked :-)", code.to_lowercase()),
        2 => format!("https://horns.example/#/results?code={code}&lang=en <- link"),
        3 => format!("On Tuesday you wrote:\n> > {}\n> thanks!", wrapped(24, "\n> > ")),
        4 => {
            let by_hand = outcome.code_in_groups().replace('0', "O").replace('1', "l");
            format!("I copied it by hand: {by_hand}.")
        }
        5 => format!("({code})"),
        6 => format!("Code:{code},see you"),
        7 => format!("result =\r\n{}\r\n-- \r\nsent from a telephone", wrapped(40, "=\r\n")),
        8 => format!("*{}*", wrapped(4, "-")),
        _ => format!("{}, and again {code}", wrapped(30, "\n")),
    }
}

fn class_and_chat() -> (Fingerprint, Vec<Outcome>, String) {
    let exercise = Fingerprint::of(b"third week, crooks of A and E-flat");
    let mut dice = Dice(1824);
    let class: Vec<Outcome> = (0..30).map(|number| student(&mut dice, number, exercise)).collect();
    let mut chat: Vec<String> = class.iter().enumerate().map(|(number, one)| sent(number, one)).collect();
    for again in [2, 11, 17] {
        chat.push(format!("in case it got lost, {}", class[again].code()));
    }
    let other = Outcome::new(Fingerprint::of(b"second week"), 7, class[0].given().to_vec(), "Mira Tal");
    chat.insert(9, format!("sorry, the old one first: {}", other.unwrap().code()));
    let code = class[20].code();
    chat.insert(15, format!("cut: {}", &code[..code.len() - 6]));
    let misread = format!("{}{}{}", &code[..30], if &code[30..31] == "7" { "4" } else { "7" }, &code[31..]);
    chat.push(format!("misread: {misread}"));
    (exercise, class, chat.join("\n\n"))
}

#[test]
fn every_code_of_the_chat_is_found() {
    let (exercise, class, text) = class_and_chat();
    let found = find_all(&text);
    // Thirty of the class and one of another week.
    assert_eq!(found.codes.len(), 31);
    assert_eq!(found.commonest(), Some(exercise));
    // Three are sent again, and the messages of three hold their code twice.
    assert_eq!(found.doubles, 6);
    let [cut, misread] = &found.damaged[..] else { panic!("{:?}", found.damaged) };
    assert!(cut.text.starts_with(&class[20].code()[..20]));
    assert!(misread.text.starts_with(&class[20].code()[..20]));
    assert_eq!(misread.at.line, text[..misread.at.from].matches('\n').count() + 1);
    assert!(class.iter().all(|one| one.name().is_some() || one.code().len() <= 80));
}

#[test]
fn the_table_agrees_with_what_the_class_did() {
    let (exercise, class, text) = class_and_chat();
    let table = Class::of(exercise, &find_all(&text));
    assert_eq!((table.students.len(), table.questions.len(), table.others.len()), (30, QUESTIONS, 1));
    assert!(table.students.iter().all(|student| !student.again));
    for one in &class {
        let same =
            table.students.iter().filter(|row| row.given == one.given() && row.name.as_deref() == one.name());
        assert_eq!(same.count(), 1, "{:?}", one.name());
    }
    for (question, tally) in table.questions.iter().enumerate() {
        let count = |wanted: fn(&Given) -> bool| {
            u32::try_from(class.iter().filter(|one| wanted(&one.given()[question])).count()).unwrap()
        };
        assert_eq!(tally.right, count(|given| matches!(given, Given::Right(_))));
        assert_eq!(tally.wrong, count(|given| matches!(given, Given::Wrong(..))));
        assert_eq!(tally.left_out, count(|given| matches!(given, Given::LeftOut)));
        let mut paces: Vec<Pace> = class.iter().filter_map(|one| one.given()[question].pace()).collect();
        paces.sort_unstable();
        assert_eq!(tally.pace, Some(paces[(paces.len() - 1) / 2]));
    }
    // Every wrong answer is counted once, whatever explains it.
    let wrong =
        class.iter().flat_map(Outcome::given).filter(|given| matches!(given, Given::Wrong(..))).count();
    assert_eq!(table.all.missed.iter().map(|missed| missed.count as usize).sum::<usize>(), wrong);
    // The planted mistakes head the list of their question and of the class.
    let planted = Missed { named: Explained::Either(Mistake::Octave, Mistake::ThirdForSixth), off: None };
    assert_eq!(table.questions[4].missed[0].missed, planted);
    assert!(table.questions[4].missed[0].count >= 20);
    assert_eq!(table.all.missed[0].missed, planted);
}

#[test]
fn the_table_opens_in_a_spreadsheet() {
    let (exercise, _, text) = class_and_chat();
    let csv = Class::of(exercise, &find_all(&text)).csv(&CsvWords::default());
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!((rows.len(), rows[0].len()), (30, 5 + QUESTIONS));
    assert!(rows.iter().all(|row| !row[0].starts_with(['=', '+', '-', '@'])));
    let names: Vec<&str> = rows.iter().map(|row| &row[0]).collect();
    assert!(
        ["'=SUM(A1:A9)", "'-Per", "Hugo, der Zweite", "Ana \"Nita\" Sol"].iter().all(|n| names.contains(n))
    );
}
