//! A crook that is corrected from a bar on: a small part of our own, a horn in F whose words twice say "muta in". The file heeds
//! the second alone.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod going_out;

use crookwise_musicxml::Import;
use crookwise_opened::{
    Answer, Ask, Correction, OutPitch, RoadSpot, ScoreHolder, SoundRow, StaffChangeRow, StaffRow, UnheededRow,
};
use crookwise_theory::Pitch;
use going_out::sounding;

/// Seven bars: a note, "muta in D" over a rest, two notes, "muta in Es" over a rest, two notes in E-flat.
const FILE: &str = include_str!("cases/unheeded.musicxml");
const IN_D: &str = "<transpose><diatonic>-6</diatonic><chromatic>-10</chromatic></transpose>";

/// Crooks corrected from these bars on.
fn correction(changes: &[(u32, &str)]) -> Correction {
    let mut one = Correction::default();
    changes.iter().for_each(|(bar, to)| one.change(*bar, to));
    one
}

/// The part with these corrected, as the device kept them.
fn corrected(changes: &[(u32, &str)]) -> (ScoreHolder, StaffRow) {
    let mut holder = ScoreHolder::default();
    let open = Ask::Open(Correction::write(&[correction(changes)]));
    let Answer::Score(summary) = holder.answer(open, FILE.as_bytes().to_vec(), &mut |_| {}) else { panic!() };
    (holder, summary.parts[0].staves[0].clone())
}

fn out(changes: &[(u32, &str)], pitch: OutPitch) -> (String, Import) {
    going_out::out(FILE, correction(changes), pitch)
}

/// What is heard, in semitones.
fn heard(holder: &mut ScoreHolder) -> Vec<i32> {
    let play = Ask::Play { staves: vec![0], from: RoadSpot::bar(0), to: RoadSpot::bar(7) };
    let Answer::Play(played) = holder.answer(play, Vec::new(), &mut |_| {}) else { panic!() };
    let semitones = |sound: SoundRow| match sound {
        SoundRow::Pitched(pitch, ..) => Pitch::from(pitch).semitones(),
        other => panic!("{other:?}"),
    };
    played.notes.iter().map(|note| semitones(note.sound)).collect()
}

fn semitones(pitches: &[&str]) -> Vec<i32> {
    pitches.iter().map(|pitch| pitch.parse::<Pitch>().unwrap().semitones()).collect()
}

fn change(bar: u32, label: &str, is_corrected: bool) -> StaffChangeRow {
    StaffChangeRow { bar, label: label.to_owned(), is_corrected, is_understood: true }
}

#[test]
fn words_that_the_file_does_not_heed_are_told_with_the_bar_in_which_the_horn_plays_next() {
    let (mut holder, staff) = corrected(&[]);
    assert_eq!(staff.unheeded, [UnheededRow { bar: 1, from: 2, words: "muta in D".into() }]);
    assert_eq!(staff.changes, [change(5, "muta in Es", false)]);
    assert_eq!(heard(&mut holder), semitones(&["F4", "F4", "F4", "Eb4", "Eb4"]));
}

#[test]
fn a_crook_from_a_bar_on_holds_until_the_next_change_and_governs_everything() {
    let (mut holder, staff) = corrected(&[(2, "muta in D")]);
    assert_eq!(staff.unheeded, []);
    assert_eq!(staff.changes, [change(2, "muta in D", true), change(5, "muta in Es", false)]);
    assert_eq!((staff.label.as_str(), staff.label_by_file.as_str()), ("Corno I in F", "Corno I in F"));
    assert_eq!(heard(&mut holder), semitones(&["F4", "D4", "D4", "Eb4", "Eb4"]));
    let Answer::Audit(audit) = holder.answer(Ask::Audit { valves_too: false }, Vec::new(), &mut |_| {})
    else {
        panic!()
    };
    let crooks: Vec<_> = audit[0].crooks.iter().map(|line| (line.crook.as_str(), line.bars)).collect();
    assert_eq!(crooks, [("Horn in F", (0, 0)), ("Horn in D", (2, 3)), ("Horn in E-flat", (5, 6))]);
    let Answer::Map(map) = holder.answer(Ask::Map, Vec::new(), &mut |_| {}) else { panic!() };
    let crooks: Vec<u32> = map.staves[0].crooks.iter().map(|crook| crook.bar).collect();
    assert_eq!(crooks, [2, 5]);
    let page = Ask::Page { staves: vec![0], bars: (0, 6) };
    let Answer::Page(page) = holder.answer(page, Vec::new(), &mut |_| {}) else { panic!() };
    assert!(page.contains("muta+in+D"), "{page}");
    // Taken back, all is as the file has it.
    let back = holder.answer(Ask::Correct(String::new()), Vec::new(), &mut |_| {});
    let Answer::Score(summary) = back else { panic!("{back:?}") };
    assert_eq!(summary.parts[0].staves[0], corrected(&[]).1);
    assert_eq!(heard(&mut holder), semitones(&["F4", "F4", "F4", "Eb4", "Eb4"]));
}

#[test]
fn what_goes_out_changes_where_it_was_corrected() {
    for pitch in [OutPitch::AsWritten, OutPitch::Sounding] {
        let (_, read) = out(&[(2, "muta in D")], pitch);
        assert_eq!(sounding(&read), ["F4", "D4", "D4", "Eb4", "Eb4"]);
    }
    let (text, read) = out(&[(2, "muta in D")], OutPitch::AsWritten);
    assert!(text.contains(&format!("<measure number=\"3\"><attributes>{IN_D}</attributes>")), "{text}");
    // The words stand there already, and mean something now; every other byte is as it came.
    assert_eq!(read.remarks, []);
    assert_eq!(text.replace(&format!("<attributes>{IN_D}</attributes>"), ""), FILE);
}

#[test]
fn other_words_take_the_place_of_those_of_the_file() {
    let changes = [(3, "muta in D"), (5, "muta in E")];
    let (_, staff) = corrected(&changes);
    assert_eq!(staff.changes, [change(3, "muta in D", true), change(5, "muta in E", true)]);
    let (text, read) = out(&changes, OutPitch::AsWritten);
    assert_eq!(sounding(&read), ["F4", "F4", "D4", "E4", "E4"]);
    let said: Vec<&str> = text.split("<words>").skip(1).map(|rest| rest.split('<').next().unwrap()).collect();
    // The first words stand before a note that is still in F: they are not those of the change after it.
    assert_eq!(said, ["muta in D", "muta in D", "muta in E"]);
    assert!(!text.contains("muta in Es"), "{text}");
}

#[test]
fn a_crook_from_the_first_bar_on_and_one_that_is_not_understood() {
    let (mut holder, _) = corrected(&[(0, "muta in G")]);
    assert_eq!(heard(&mut holder), semitones(&["G4", "G4", "G4", "Eb4", "Eb4"]));
    let (_, read) = out(&[(0, "muta in G")], OutPitch::AsWritten);
    assert_eq!(sounding(&read), ["G4", "G4", "G4", "Eb4", "Eb4"]);
    let (mut holder, staff) = corrected(&[(2, "muta in Xyz"), (99, "muta in D")]);
    let odd = StaffChangeRow { is_understood: false, ..change(2, "muta in Xyz", true) };
    assert_eq!(staff.changes, [odd, change(5, "muta in Es", false)]);
    assert_eq!(heard(&mut holder), semitones(&["F4", "F4", "F4", "Eb4", "Eb4"]));
}

#[test]
fn corrections_that_were_kept_before_open_as_they_did() {
    let kept = Correction::read("staff=0&label=Corno+in+E&reads=usual&bass=old");
    assert_eq!((kept.len(), kept[0].changes.len(), kept[0].old_bass), (1, 0, true));
    // What is damaged of a change changes nothing.
    for damaged in
        ["staff=0&to=muta+in+D", "staff=0&from=x&to=muta+in+D", "staff=0&from=2&to=", "staff=0&from=2"]
    {
        assert!(Correction::read(damaged)[0].is_nothing(), "{damaged}");
    }
}
