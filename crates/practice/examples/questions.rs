//! Prints what is asked, a question a line, to be read by a musician: fifty of every kind, and of every step of the course.
//! `cargo run -p crookwise-practice --example questions [SEED]`
#![allow(clippy::print_stdout, reason = "it prints")]

use crookwise_practice::course::CourseStep;
use crookwise_practice::{AskedStaff, Exercise, Kind, NoteRange, Question};

fn line(question: &Question) -> String {
    let mut lines: Vec<String> = question.canonical().lines().map(|line| line.trim().to_owned()).collect();
    lines.retain(|line| !line.is_empty());
    lines.join(" ; ")
}

fn print(head: &str, exercise: &Exercise) {
    println!("\n## {head}");
    match exercise.questions() {
        Ok(questions) => questions.iter().for_each(|one| println!("{}", line(one))),
        Err(error) => println!("none: {error}"),
    }
}

fn main() {
    let seed = std::env::args().nth(1).and_then(|seed| seed.parse().ok()).unwrap_or(1);
    let labels = [
        "2 Corni in Es",
        "Corni in D",
        "Hörner in tief B",
        "Trombe in C",
        "Clarini in D",
        "Clarinetti in A",
        "Corno inglese",
        "Viola",
        "Fagotti",
        "Timpani in C G",
    ];
    let mut staves: Vec<AskedStaff> = labels.iter().map(|label| AskedStaff::of(label)).collect();
    if let Some(first) = staves.first_mut() {
        first.pair = true;
    }
    let in_hand = Some("Clarinet in B-flat".to_owned());
    for kind in Kind::ALL {
        let range = NoteRange::Usual;
        let exercise = Exercise {
            kinds: vec![kind],
            staves: staves.clone(),
            in_hand: in_hand.clone(),
            range,
            questions: 50,
            seed,
            ..Exercise::default()
        };
        print(kind.id(), &exercise);
    }
    for step in CourseStep::ALL {
        for (at, exercise) in step.exercises().into_iter().enumerate() {
            let exercise = Exercise { questions: 50, seed, ..exercise };
            print(&format!("step {} exercise {}: {:?}", step.number, at + 1, exercise.kinds), &exercise);
        }
    }
}
