//! What is said of wrong notes, clause by clause: how far off, which interval was taken for which, what was left as it
//! stands. That the mistake which is named led to the answer is held in the tests of exercises.

use super::spoken::{Heights, size};
use super::{Judge, minus, right, second};
use crate::words::mistakes::said;
use crookwise_practice::{Answer, Kind, Marking, Question};
use crookwise_theory::{Interval, Pitch};
use second::oracle::heights;

/// Judges what is said of one wrong note; the number of clauses that were judged.
fn judge(question: &Question, given: Pitch, sentence: &str) -> usize {
    let own = Judge::of(question);
    let off = minus(heights(given), right(question));
    let sentence = sentence.trim_end_matches('.').to_lowercase();
    let clauses = sentence
        .split(", or ")
        .flat_map(|one| one.split(", and "))
        .map(|one| one.trim_start_matches("either ").trim_start_matches("it is "));
    let alone = sentence.split(", and ").count() == 1;
    let way = own.by();
    // The interval that is meant is known where one is: to hand there are two.
    let one_way = question.kind != Kind::InHand;
    let letters = way.0.abs() % 7;
    clauses.filter(|clause| holds(clause, &own, (off, way), (alone, one_way, letters))).count()
}

/// Whether a clause is one that can be judged by what was given; it must then be true.
fn holds(
    clause: &str,
    own: &Judge<'_>,
    (off, way): (Heights, Heights),
    (alone, one_way, letters): (bool, bool, i32),
) -> bool {
    let far = clause.strip_suffix(" too high").map(|size| (size, 1));
    let far = far.or(clause.strip_suffix(" too low").map(|size| (size, -1)));
    if let Some((text, sign)) = far {
        match text.split_once(" semitone") {
            Some((count, _)) => {
                let count = if count == "one" { 1 } else { count.parse().unwrap() };
                assert_eq!(off, (0, sign * count), "{clause}");
            }
            None => {
                let (letters, semitones) = size(text);
                assert_eq!(off, (sign * letters, sign * semitones), "{clause}");
            }
        }
        return true;
    }
    let minor = [1, 3, 8, 10].contains(&(way.1.abs() % 12));
    let is_true = match clause {
        // Natural brass has two spellings that are right.
        "the right note, but in another octave" => {
            off.1 != 0 && off.1 % 12 == 0 && (own.staff.natural() || off.0 * 12 == off.1 * 7)
        }
        "that key of the keyboard, but with another letter" => off.1 == 0 && off.0 != 0,
        "it was read as if it sounded as it is printed" => off == minus(own.printed, own.sounding),
        "it was written as it sounds" if alone => off.1 == own.sounding.1 - own.printed.1,
        "the interval was taken up instead of down" => one_way && way.1 < 0,
        "the interval was taken down instead of up" => one_way && way.1 > 0,
        "a third was taken for a sixth" => one_way && letters == 5,
        "a sixth was taken for a third" => one_way && letters == 2,
        "a fourth was taken for a fifth" => one_way && letters == 4,
        "a fifth was taken for a fourth" => one_way && letters == 3,
        "the interval is minor" | "was taken as major" => one_way && minor,
        "the interval is major" | "was taken as minor" => one_way && !minor,
        _ => return false,
    };
    assert!(is_true, "{clause}");
    true
}

#[test]
fn what_is_said_of_wrong_notes_is_true() {
    let (mut judged, mut untrue) = (0, Vec::new());
    let asked = [Kind::Sounds, Kind::Writes, Kind::InHand];
    for exercise in second::exercises(3).into_iter().filter(|own| asked.contains(&own.kinds[0])) {
        for question in exercise.questions().unwrap_or_default() {
            let Answer::Note(note) = question.right else { continue };
            let moved = (-8..=8)
                .flat_map(|steps| [0, 1, -1].map(|by| note + Interval::new(steps, steps * 12 / 7 + by)));
            let offered = question.choices.iter().filter_map(|one| match one {
                Answer::Note(note) => Some(*note),
                _ => None,
            });
            for given in moved.chain(offered) {
                let answer = Answer::Note(given);
                let mark = question.mark(&answer, Marking::default());
                let Some(sentence) = said(&question, &answer, &mark).filter(|_| !mark.right) else {
                    continue;
                };
                match std::panic::catch_unwind(|| judge(&question, given, &sentence)) {
                    Ok(count) => judged += count,
                    Err(_) => untrue.push(format!("{}given {answer}: {sentence}", question.canonical())),
                }
            }
        }
    }
    untrue.truncate(8);
    assert!(untrue.is_empty(), "{}", untrue.join("\n"));
    assert!(judged > 5_000, "{judged}");
}
