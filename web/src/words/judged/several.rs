//! Questions about several players or staves: pairs, chords, copies, a page with one staff played wrong.

use super::second::oracle::{Staff, heights, printed};
use super::spoken::{Said, name, note};
use super::{Judge, oracle_name};
use crookwise_practice::{Answer, Question, QuestionSound, Spot};
use crookwise_score::Role;

pub(super) fn players(question: &Question, lines: &[Said<'_>]) {
    assert_eq!(lines.len(), 2);
    for (player, line) in lines.iter().enumerate() {
        let mut said = *line;
        said.begins(&format!("Player {}: ", player + 1));
        Judge::at(question, Spot { player, ..question.at }).sounds(said);
    }
}

pub(super) fn chord(question: &Question, lines: &[Said<'_>]) {
    let Answer::Chord(chord) = question.right else { panic!() };
    let root = oracle_name(chord.root).1;
    let mut told = Vec::new();
    for line in lines {
        let mut said = *line;
        let role = said.up_to(" ");
        let member = name(said.up_to(": "));
        let letters = match role {
            "Root" => 0,
            "Third" => 2,
            "Fifth" => 4,
            "Seventh" => 6,
            other => panic!("{other}"),
        };
        assert_eq!((member.0 - oracle_name(chord.root).0 - letters).rem_euclid(7), 0, "{}", line.0);
        assert!((member.1 - root).rem_euclid(12) <= 11);
        for one in said.up_to(".").split("), ") {
            let (label, printed) = one.trim_end_matches(')').rsplit_once(" (").unwrap();
            told.push((label.to_owned(), note(printed), member.1.rem_euclid(12)));
        }
    }
    // Every note of the page is told once with the member that it sounds, and nothing else is told.
    let mut count = Vec::new();
    for (staff, own) in question.passage.staves().iter().enumerate() {
        for player in 0..own.players() {
            let at = Spot { staff, column: question.at.column, player };
            let Some(printed) = printed(question, at) else { continue };
            let sounding = Staff::at(question, at).sounding(printed);
            let one = (own.label.clone(), printed, sounding.1.rem_euclid(12));
            assert!(told.contains(&one), "{one:?} of {told:?}");
            if !count.contains(&one) {
                count.push(one);
            }
        }
    }
    assert_eq!(told.len(), count.len());
    assert!(chord.bass == Role::Root || lines.len() > 2);
}

pub(super) fn copied(question: &Question, lines: &[Said<'_>]) {
    let above = Judge::at(question, Spot { staff: 0, ..question.at });
    let below = Judge::at(question, question.at);
    let mut said = lines[0];
    said.begins("Above, ");
    assert_eq!(note(said.up_to(" sounds ")), above.printed);
    assert_eq!(note(said.up_to("; in the copy that is ")), above.sounding);
    let should = note(said.up_to("."));
    // As it is strictly, or as parts print it.
    assert_eq!(below.staff.sounding(should).1, above.sounding.1);
    let mut said = lines[1];
    said.begins("What stands there, ");
    assert_eq!(note(said.up_to(", sounds ")), below.printed);
    assert_eq!(note(said.up_to(".")), below.sounding);
    assert_ne!(below.sounding.1, above.sounding.1);
}

pub(super) fn played(question: &Question, lines: &[Said<'_>]) {
    let Some(QuestionSound::Page(heard)) = &question.heard else { panic!() };
    let wrong = heard
        .iter()
        .find(|one| Judge::at(question, one.at).sounding.1 != heights(one.sounding.0).1)
        .expect("a staff is played wrong");
    let own = Judge::at(question, wrong.at);
    let mut said = lines[0];
    said.begins(&format!("{}: ", question.passage.staves()[wrong.at.staff].label));
    assert_eq!(note(said.up_to(" should sound ")), own.printed);
    assert_eq!(note(said.up_to("; what was heard is ")), own.sounding);
    assert_eq!(note(said.up_to(".")), heights(wrong.sounding.0));
    assert_eq!(question.right, Answer::Staff(wrong.at.staff as u8));
}
