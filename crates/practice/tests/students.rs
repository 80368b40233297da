//! Twelve invented students of three kinds go through the course: what the plan repeats for them, and what the teacher's
//! tables say. Both stand in `docs/students.md`, which `UPDATE=1 cargo test -p crookwise-practice` writes anew.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

use core::fmt::Write;
use crookwise_practice::course::CourseStep;
use crookwise_practice::record::{Attempt, Item, Record, plan};
use crookwise_practice::results::{
    Cause, Class, Confusion, Explained, Fingerprint, Given, Missed, Outcome, Sight, Taken, find_all,
};
use crookwise_practice::{Answer, Kind, Marking, Mistake, Pace, Question};
use crookwise_score::{Event, Place, ResolvedStaff};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{CrookFamily, Interval, Intonation, Pitch, Tonic};

const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/students.md");
const DAY: u64 = 86_400;
/// Questions of the plan on the day after a step.
const REPEATED: usize = 20;
/// The exercises whose codes the teacher gets, by step and place, counted from 0; and what they are about.
const HOMEWORK: [(usize, usize, &str); 3] = [
    (5, 2, "Step 6, third exercise: trumpets and horns in D and E-flat"),
    (6, 2, "Step 7, third exercise: horns in E and in E-flat"),
    (7, 1, "Step 8, second exercise: horns in B-flat alto and basso"),
];

/// What a student gets wrong, two times of three where it can be got wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Habit {
    /// Transposes trumpets the wrong way.
    Direction,
    /// Is an octave too high where a staff sounds an octave or more below the page.
    Octave,
    /// Takes "Es" for E, and E for "Es".
    EForEs,
}

impl Habit {
    const ALL: [Self; 3] = [Self::Direction, Self::Octave, Self::EForEs];

    /// What it is called. An octave too high is as printed for a double bass, and alto for basso on a low horn.
    const fn mistakes(self) -> &'static [Mistake] {
        match self {
            Self::Direction => &[Mistake::Direction],
            Self::Octave => &[Mistake::Octave, Mistake::AltoForBasso, Mistake::NotTransposed],
            Self::EForEs => &[Mistake::EForEs],
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::Direction => "wrong direction",
            Self::Octave => "wrong octave",
            Self::EForEs => "E for Es",
        }
    }

    /// Where a printed note leads him; `None` where he gets it right.
    fn reads(self, place: &Place, printed: Pitch) -> Option<Pitch> {
        let reading = place.read(crookwise_theory::Printed(printed), Intonation::default(), None);
        match self {
            Self::Direction => is_trumpet(place).then(|| printed + -reading.interval),
            Self::Octave => is_far_below(reading.interval).then(|| reading.sounding.0 + Interval::OCTAVE),
            Self::EForEs => Some(reading.sounding.0 + sharper(place)?),
        }
    }

    /// Where a sound leads him that he has to write.
    fn writes(self, place: &Place, sounding: Pitch) -> Option<Pitch> {
        let writing = place.write(crookwise_theory::Sounding(sounding), Intonation::default(), None);
        let printed = writing.also_printed.unwrap_or(writing.strict.printed).0;
        match self {
            Self::Direction => is_trumpet(place).then(|| sounding + writing.strict.interval),
            // Who hears it an octave too high writes it an octave too low.
            Self::Octave => is_far_below(writing.strict.interval).then(|| printed + -Interval::OCTAVE),
            Self::EForEs => Some(writing.strict.printed.0 + -sharper(place)?),
        }
    }

    /// A wrong answer; `None` where this habit does nothing to the question.
    fn wrong(self, question: &Question) -> Option<Answer> {
        let at = question.at;
        let staff = ResolvedStaff::of(&question.passage, at.staff, DecodeOptions::default());
        let note = |player| {
            let place = staff.place_at(at.column, player)?;
            match question.passage.event(at.staff, at.column, player)? {
                Event::Note(printed) => self.reads(place, printed.0),
                _ => None,
            }
        };
        match (question.kind, &question.right) {
            (Kind::Sounds, _) => Some(Answer::Note(note(at.player)?)),
            (Kind::Writes, _) => {
                Some(Answer::Note(self.writes(staff.place_at(at.column, at.player)?, question.given?.0)?))
            }
            (Kind::Players, Answer::Notes(right)) if right.len() > 1 => {
                Some(Answer::Notes((0..right.len()).map(note).collect::<Option<_>>()?))
            }
            _ => None,
        }
    }
}

/// A trumpet that sounds elsewhere than it is written.
fn is_trumpet(place: &Place) -> bool {
    place.staff.crook_family() == Some(CrookFamily::Trumpet)
        && place.staff.transposition.0 != Interval::UNISON
}

fn is_far_below(interval: Interval) -> bool {
    interval.semitones <= -12
}

/// A semitone up for horns and trumpets in E-flat, down for those in E; `None` for all others.
fn sharper(place: &Place) -> Option<Interval> {
    place.staff.crook_family()?;
    let key = place.staff.key?;
    let is = |name: &str| name.parse::<Tonic>() == Ok(key);
    if is("Eb") {
        return Some(Interval::new(0, 1));
    }
    is("E").then_some(Interval::new(0, -1))
}

/// Whole numbers that look like chance.
struct Dice(u64);

impl Dice {
    fn percent(&mut self) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % 100
    }
}

struct Student {
    name: String,
    habit: Habit,
    dice: Dice,
    record: Record,
    /// Questions of the plan about what the habit spoils, and all.
    repeated: (usize, usize),
    /// What an even share would be, in the same counts.
    even: (usize, usize),
}

impl Student {
    /// Answers a question and remembers it.
    fn answer(&mut self, question: &Question, at: u64) -> Given {
        let wrong = self.habit.wrong(question).filter(|_| self.dice.percent() < 67);
        let answer = wrong.unwrap_or_else(|| question.right.clone());
        let mark = question.mark(&answer, Marking::default());
        let mistakes = mark.mistakes();
        let ms = if self.dice.percent() < 80 { 2500 } else { 6000 };
        if let Some(item) = Item::of(question) {
            self.record.add(1, Attempt::new(at, item, mark.right, &mistakes, ms));
        }
        let pace = Pace::of(question.kind, ms);
        Given::of(pace, &mark, question.off(&answer))
    }

    /// Whether the habit can spoil an item.
    fn spoils(&self, item: &Item) -> bool {
        let question = item.exercise(1).and_then(|exercise| exercise.questions().ok());
        question.is_some_and(|questions| questions.first().is_some_and(|one| self.habit.wrong(one).is_some()))
    }

    /// The day after a step: what the plan asks.
    fn repeat(&mut self, items: &[Item], spoiled: &[bool], day: u64) {
        let asks = plan(&self.record, items, day * DAY, 7, REPEATED);
        for (number, ask) in asks.iter().enumerate() {
            let Some(place) = items.iter().position(|item| *item == ask.item) else { continue };
            self.repeated.0 += usize::from(spoiled[place]);
            self.repeated.1 += 1;
            let Some(exercise) = ask.item.exercise(number as u32) else { continue };
            for question in exercise.questions().unwrap_or_default() {
                self.answer(&question, day * DAY + 10 * number as u64);
            }
        }
        self.even.0 += spoiled.iter().filter(|spoiled| **spoiled).count() * asks.len();
        self.even.1 += items.len() * asks.len();
    }
}

fn class() -> Vec<Student> {
    let names = ["Ada", "Bram", "Cleo", "Dirk", "Elin", "Faro", "Gwen", "Hal", "Ivo", "Juna", "Kaja", "Leif"];
    let student = |(number, name): (usize, &str)| Student {
        name: name.to_owned(),
        habit: Habit::ALL[number / 4],
        dice: Dice(number as u64 + 1),
        record: Record::default(),
        repeated: (0, 0),
        even: (0, 0),
    };
    names.into_iter().enumerate().map(student).collect()
}

/// What the teacher's tables say of an exercise.
struct Homework {
    about: &'static str,
    table: Class,
    confusions: Vec<Confusion>,
}

/// All go through the course, a step every other day; the teacher's tables of the homework come back.
fn through_the_course(class: &mut [Student]) -> Vec<Homework> {
    let mut tables = Vec::new();
    let mut items: Vec<Item> = Vec::new();
    let mut spoiled = [const { Vec::new() }; 3];
    for (number, step) in CourseStep::ALL.into_iter().enumerate() {
        let day = 20_000 + 2 * number as u64;
        let before = items.len();
        items.extend(step.items());
        for (habit, spoiled) in Habit::ALL.into_iter().zip(&mut spoiled) {
            let one = class.iter().find(|student| student.habit == habit).unwrap();
            spoiled.extend(items[before..].iter().map(|item| one.spoils(item)));
        }
        for (which, exercise) in step.exercises().iter().enumerate() {
            let questions = exercise.questions().unwrap();
            let mut codes = Vec::new();
            for (at, student) in (0..).zip(class.iter_mut()) {
                let given: Vec<Given> =
                    questions.iter().map(|question| student.answer(question, day * DAY)).collect();
                let fingerprint = Fingerprint::of_exercise(exercise);
                codes.push(Outcome::new(fingerprint, at, given, &student.name).unwrap().code());
            }
            if let Some((.., about)) = HOMEWORK.iter().find(|(step, at, _)| (*step, *at) == (number, which)) {
                let table = Class::of_exercise(exercise, &find_all(&codes.join("\n")));
                let confusions = table.confusions(&questions);
                tables.push(Homework { about, table, confusions });
            }
        }
        for student in class.iter_mut() {
            let spoiled = &spoiled[student.habit as usize];
            student.repeat(&items, spoiled, day + 1);
        }
    }
    tables
}

fn percent((part, whole): (usize, usize)) -> usize {
    (part * 100 + whole / 2) / whole.max(1)
}

fn named(missed: &[Cause]) -> String {
    let one = |cause: &Cause| format!("{} {}", words(&cause.missed), cause.count);
    if missed.is_empty() { "none".to_owned() } else { missed.iter().map(one).collect::<Vec<_>>().join(", ") }
}

fn words(missed: &Missed) -> String {
    let mistakes: Vec<&str> = missed.named.mistakes().map(Mistake::id).collect();
    let join = if matches!(missed.named, Explained::Both(..)) { " + " } else { " / " };
    if mistakes.is_empty() { "unexplained".to_owned() } else { mistakes.join(join) }
}

/// What stood there and what it was taken for. No staff of this homework leaves anything open.
fn confused(one: &Confusion) -> [String; 2] {
    let Sight::Staff(staff) = &one.sight else { panic!("{one:?}") };
    let taken = match &one.taken {
        Taken::Label(label) => label.clone(),
        Taken::Missed(missed, _) => words(missed),
        other => panic!("{other:?}"),
    };
    [staff.label.clone(), taken]
}

fn report(class: &[Student], tables: &[Homework]) -> String {
    let mut out = String::from(
        "# Twelve students go through the course\n\n\
         Written by `UPDATE=1 cargo test -p crookwise-practice --test students`, and held by that test. The students are \
         invented: four transpose trumpets the wrong way, four are an octave too high where a staff sounds an octave or more \
         below the page, four take \"Es\" for E and E for \"Es\"; each two times of three where it can happen, in what \
         sounds, what must be written and what two players sound. All else they answer rightly. They work every exercise of a step, the next day the twenty questions of the plan, and \
         go on to the next step.\n\n\
         ## What the plan repeats\n\n\
         How many of the plan's questions were about what the student gets wrong, how many that would be if all items \
         of the course so far were asked alike, the weakest staff at the end, and what the record names as mistakes, \
         each with how many answers it explains.\n\n\
         | student | habit | repeated | an even share | weakest staff | mistakes of the record |\n|---|---|---|---|---|---|\n",
    );
    for student in class {
        let weak = student.record.weak(20_026 * DAY);
        let staff = weak.staves.first().and_then(|(staff, _)| staff.label()).unwrap_or_default();
        let mistakes: Vec<String> = weak
            .mistakes
            .iter()
            .take(3)
            .map(|(mistake, counts)| format!("{} {counts}", mistake.id()))
            .collect();
        writeln!(
            out,
            "| {} | {} | {} % | {} % | {staff} | {} |",
            student.name,
            student.habit.words(),
            percent(student.repeated),
            percent(student.even),
            mistakes.join(", ")
        )
        .unwrap();
    }
    out.push_str(
        "\n## What the teacher's tables say\n\n\
         Right answers, and the mistakes that explain the others, each with how many it explains. Where two are named \
         equally often the answers do not tell them apart: the letters of E and of E-flat are the same, so that a sixth \
         may as well have been taken for the other sixth. An octave too high goes by three names, since it is as \
         printed on a double bass and alto for basso on a low horn in B-flat. The last table of each exercise says \
         what was taken for what: there the answer tells E from E-flat.\n",
    );
    for Homework { about, table, confusions } in tables {
        let all = table.questions.len();
        writeln!(
            out,
            "\n{about}, {all} questions.\n\n| student | habit | right | mistakes |\n|---|---|---|---|"
        )
        .unwrap();
        for row in &table.students {
            let name = row.name.as_deref().unwrap_or_default();
            let habit = class.iter().find(|student| student.name == name).unwrap().habit.words();
            writeln!(out, "| {name} | {habit} | {} | {} |", row.tally.right, named(&row.tally.missed))
                .unwrap();
        }
        writeln!(out, "\nOf the whole class: {}.", named(&table.all.missed)).unwrap();
        out.push_str("\n| label | read as | times | students |\n|---|---|---|---|\n");
        for one in confusions {
            let [sight, taken] = confused(one);
            writeln!(out, "| {sight} | {taken} | {} | {} |", one.times, one.students).unwrap();
        }
    }
    out
}

#[test]
fn plan_and_tables_find_what_twelve_students_get_wrong() {
    let mut class = class();
    let tables = through_the_course(&mut class);
    let now = report(&class, &tables);
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(FILE, &now).unwrap();
    }
    for student in &class {
        let (repeated, even) = (percent(student.repeated), percent(student.even));
        assert!(repeated * 2 >= even * 3, "{}: {repeated} of {even}\n{now}", student.name);
        let weak = student.record.weak(20_026 * DAY).mistakes;
        let weak: Vec<Cause> = weak
            .into_iter()
            .map(|(mistake, count)| Cause {
                missed: Missed { named: Explained::One(mistake), off: None },
                count,
            })
            .collect();
        assert!(is_first(&weak, student.habit), "{}: {weak:?}", student.name);
    }
    assert_eq!(tables.len(), HOMEWORK.len());
    let rows = tables.iter().flat_map(|homework| &homework.table.students);
    let mut told = 0;
    for row in rows.filter(|row| row.tally.wrong > 0) {
        let student = class.iter().find(|student| Some(&student.name) == row.name.as_ref()).unwrap();
        assert!(is_first(&row.tally.missed, student.habit), "{}\n{now}", student.name);
        told += 1;
    }
    assert!(told >= class.len(), "{now}");
    // Every wrong answer is in a line of the table of what was taken for what, which names the other label.
    for Homework { table, confusions, .. } in &tables {
        assert_eq!(confusions.iter().map(|one| one.times).sum::<u32>(), table.all.wrong);
        for one in confusions {
            let Sight::Staff(staff) = &one.sight else { panic!("{one:?}") };
            let Taken::Label(label) = &one.taken else { continue };
            let mut pair = [&staff.label, label].map(|label| label.rsplit(" in ").next().unwrap_or_default());
            pair.sort_unstable();
            let known = [["E", "Es"], ["Mi", "Mi bemolle"], ["B alto", "B basso"]];
            assert!(known.contains(&pair), "{one:?}");
        }
    }
    let then = std::fs::read_to_string(FILE).unwrap_or_default();
    assert_eq!(now, then, "docs/students.md is not what the students do");
}

/// Whether no mistake is named more often than that of a habit.
fn is_first(missed: &[Cause], habit: Habit) -> bool {
    let own = |one: &&Cause| one.missed.named.mistakes().any(|mistake| habit.mistakes().contains(&mistake));
    let most = missed.iter().filter(own).map(|one| one.count).max();
    most.is_some() && missed.iter().all(|one| Some(one.count) <= most)
}
