//! What print shows: pairs on one staff, the bar's memory of accidentals, beams, long rests.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_score::change::ChangeTo;
use crookwise_score::printed::{
    Players, PrintedEvent, PrintedStaff, Row, RowPitch, pairs, printed, rests_together,
};
use crookwise_score::score::{
    BarLine, BarSigns, Direction, Jump, Look, Moment, NoteValue, PlayedBy, Quarters, Score, ScoreNote,
    StaffId, TimeSignature, TimedChange, TimedDirection,
};
use crookwise_score::staff::{Settings, SignatureSource};
use crookwise_theory::label::{DecodeOptions, decode};
use crookwise_theory::{Clef, Intonation, Printed, Production, Signature};
use std::sync::Arc;

/// A score of two horns in such a time; the notes of each as "bar" texts: letters with octave, `/` and the quarters, `-` rests,
/// `~` before a note that is tied to the one before.
fn pair(labels: [&str; 2], time: (u16, u16), parts: [&str; 2]) -> (Score, [StaffId; 2]) {
    let mut score = Score::default();
    let staves = labels.map(|label| {
        let part = score.add_part(label);
        score.add_staff(part, label, 1).unwrap()
    });
    let length = Quarters::new(i64::from(time.0) * 4, i64::from(time.1)).unwrap();
    let bars = parts[0].split('|').count();
    for bar in 0..bars {
        let signature = (bar == 0).then_some(TimeSignature { beats: time.0, value: time.1 });
        score.add_bar(&(bar + 1).to_string(), length, signature).unwrap();
    }
    for (staff, text) in staves.into_iter().zip(parts) {
        for (bar, text) in text.split('|').enumerate() {
            let mut at = score.bars()[bar].start;
            for word in text.split_whitespace() {
                let (name, quarters) = word.split_once('/').unwrap();
                let (over, under) = quarters.split_once(':').unwrap_or((quarters, "1"));
                let end =
                    at.plus(Quarters::new(over.parse().unwrap(), under.parse().unwrap()).unwrap()).unwrap();
                let tied = name.starts_with('~');
                let note = name.trim_start_matches('~');
                let note = ScoreNote {
                    printed: (note != "-").then(|| Printed(note.parse().unwrap())),
                    voice: 1,
                    by: PlayedBy::Voice,
                    start: Moment::measured(at),
                    end: Moment::measured(end),
                    tied,
                    grace: false,
                    tuplet: None,
                    bar: u32::try_from(bar).unwrap(),
                    look: Look::default(),
                };
                score.add_note(staff, note).unwrap();
                at = end;
            }
        }
    }
    (score, staves)
}

fn print(score: &Score, staves: &[StaffId], pitch: RowPitch) -> PrintedStaff {
    let row = Row { staves: staves.to_vec(), pitch };
    let mut decoder = |text: &str| Arc::new(decode(text, DecodeOptions::default()));
    printed(score, &row, Intonation::default(), &mut decoder)
}

fn joined(one: &str, two: &str) -> (Vec<String>, Vec<Option<Players>>) {
    let (score, staves) = pair(["Corno 1 in D", "Corno 2 in D"], (2, 4), [one, two]);
    let printed = print(&score, &staves, RowPitch::Written);
    assert_eq!(printed.label, "Corno 1, 2 in D");
    let bars = printed.bars.iter();
    let voices = bars.clone().map(|bar| {
        let voices = bar.voices.iter().map(|voice| voice.iter().map(said).collect::<Vec<_>>().join(" "));
        voices.collect::<Vec<_>>().join(" / ")
    });
    (voices.collect(), bars.map(|bar| bar.players).collect())
}

fn said(event: &PrintedEvent) -> String {
    let notes: Vec<String> = event
        .notes
        .iter()
        .map(|note| {
            format!("{}{}", note.pitch, note.accidental.map_or(String::new(), |sign| format!("({sign})")))
        })
        .collect();
    let notes = if notes.is_empty() { "-".to_owned() } else { notes.join("+") };
    format!("{notes}:{:?}", event.value.unwrap())
}

#[test]
fn a_pair_stands_on_one_staff_as_print_has_it() {
    let (voices, players) = joined(
        "C5/1 D5/1 | E5/1 D5/1 | C5/2 | C5/2 | -/2 | G4/2 | E5/1 D5/1",
        "C5/1 D5/1 | C5/1 G4/1 | C4/1 G4/1 | -/2 | -/2 | G4/2 | C5/1 G4/1",
    );
    assert_eq!(
        voices,
        [
            "C5:Quarter D5:Quarter",
            "C5+E5:Quarter G4+D5:Quarter",
            "C5:Half / C4:Quarter G4:Quarter",
            "C5:Half",
            "-:Whole",
            "G4:Half",
            "C5+E5:Quarter G4+D5:Quarter",
        ]
    );
    let told = [
        Some(Players::Both),
        Some(Players::Each),
        None,
        Some(Players::First),
        None,
        Some(Players::Both),
        Some(Players::Each),
    ];
    assert_eq!(players, told);
}

/// Split and joined again is the same: what each has alone is in what both have.
#[test]
fn joined_holds_what_each_has() {
    let (score, staves) =
        pair(["Corno 1 in D", "Corno 2 in D"], (2, 4), ["C5/1 D5/1|E5/2|-/2", "C5/1 D5/1|-/1 C5/1|G4/2"]);
    let ids = |staff: &PrintedStaff| -> Vec<_> {
        let notes =
            staff.bars.iter().flat_map(|bar| bar.voices.iter().flatten()).flat_map(|event| &event.notes);
        notes.map(|note| note.pitch).collect::<Vec<_>>()
    };
    let both = ids(&print(&score, &staves, RowPitch::Written));
    for staff in staves {
        let alone = ids(&print(&score, &[staff], RowPitch::Written));
        assert!(alone.iter().all(|pitch| both.contains(pitch)), "{alone:?} {both:?}");
    }
}

#[test]
fn signs_hold_to_the_bar_line_in_all_voices_and_another_octave_is_told() {
    let (voices, _) = joined("F#5/1 F#5/1 | F5/1 F#5/1 | F#5/1 -/1", "D5/2 | F#5/2 | F#4/1 F5/1");
    assert_eq!(
        voices,
        [
            "F#5(1):Quarter F#5:Quarter / D5:Half",
            "F5:Quarter F#5:Quarter / F#5(1):Half",
            "F#5(1):Quarter -:Quarter / F#4(1):Quarter F5(0):Quarter",
        ]
    );
    // A letter that was altered is told again in another octave, also where the signature has it so; not where both agree.
    let (voices, _) = joined("F#5/1 F4/1 | F#5/1 F#4/1 | F5/1 F4/1", "-/2 | -/2 | -/2");
    assert_eq!(
        voices,
        ["F#5(1):Quarter F4(0):Quarter", "F#5(1):Quarter F#4(1):Quarter", "F5:Quarter F4:Quarter"]
    );
    // Tied over the bar line: none at the note, and none holds for those after it.
    let (voices, _) = joined("-/1 F#5/1 | ~F#5/1 F#5/1", "-/2 | -/2");
    assert_eq!(voices, ["-:Quarter F#5(1):Quarter", "F#5:Quarter F#5(1):Quarter"]);
}

/// Under the sounding signature signs are set anew: a horn in D, its F-sharp sounds G-sharp in D major.
#[test]
fn what_sounds_has_signs_of_its_own() {
    let (mut score, staves) = pair(["Corno 1 in D", "Corno 2 in D"], (2, 4), ["F#5/1 E5/1", "-/2"]);
    score.movement = Some("D major".parse().unwrap());
    let sounding = print(&score, &staves[..1], RowPitch::Sounding);
    let notes: Vec<String> = sounding.bars[0].voices[0].iter().map(said).collect();
    assert_eq!(notes, ["G#4(1):Quarter", "F#4:Quarter"]);
    assert_eq!(sounding.bars[0].signature.0, 2);
}

/// A horn an octave and more under what is written: what sounds has the clef with fewer ledger lines.
#[test]
fn what_sounds_low_stands_under_the_bass_clef() {
    let clef = |label: &str| {
        let (score, staves) = pair([label, label], (4, 4), ["G4/1 C5/1 E5/1 G5/1", "-/4"]);
        print(&score, &staves[..1], RowPitch::Sounding).bars[0].clef
    };
    assert_eq!(clef("Corno in B♭ basso"), Clef::BASS);
    assert_eq!(clef("Corno in F"), Clef::TREBLE);
}

/// A note from between the partials says how the hand makes it; only what cannot be had is off the series.
#[test]
fn what_is_made_between_the_partials_is_told() {
    let (score, staves) = pair(["Corno 1 in D", "Corno 2 in D"], (3, 4), ["E4/1 Eb5/1 D4/1", "-/3"]);
    let written = print(&score, &staves[..1], RowPitch::Written);
    let made = |event: &PrintedEvent| event.notes[0].made.map(|made| (made.partial, made.production));
    let made: Vec<_> = written.bars[0].voices[0].iter().map(|event| made(event).unwrap()).collect();
    assert_eq!(made[0], (Some(5), Production::Open));
    assert_eq!(made[1], (None, Production::Half));
    assert_eq!(made[2].0, None);
}

fn beams(time: (u16, u16), bar: &str) -> String {
    let (score, staves) = pair(["Corno 1 in D", "Corno 2 in D"], time, [bar, "-/1"]);
    let printed = print(&score, &staves[..1], RowPitch::Written);
    let mut text = String::new();
    for event in &printed.bars[0].voices[0] {
        let beams = event.beams;
        text.push(match () {
            () if beams.begin & 1 > 0 => '[',
            () if beams.end & 1 > 0 => ']',
            () if beams.through & 1 > 0 => '=',
            () if event.is_rest() => '-',
            () => '.',
        });
    }
    text
}

#[test]
fn beams_go_by_the_beat() {
    assert_eq!(beams((2, 4), "C5/1:2 C5/1:2 C5/1:2 C5/1:2"), "[==]");
    assert_eq!(beams((3, 4), "C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2"), "[====]");
    assert_eq!(beams((6, 8), "C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2"), "[=][=]");
    assert_eq!(beams((4, 4), "C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2 C5/1:2"), "[==][==]");
    assert_eq!(beams((2, 4), "C5/1:2 -/1:2 C5/1:2 C5/1:2"), ".-[]");
    assert_eq!(beams((2, 4), "C5/1:4 C5/1:4 C5/1:2 C5/1:4 C5/1:4 C5/1:4 C5/1:4"), "[=][==]");
    assert_eq!(beams((2, 4), "C5/1 C5/1:2 C5/1:2"), ".[]");
}

#[test]
fn long_rests_break_at_every_change() {
    let rests = "-/2|-/2|-/2|-/2|-/2|-/2|C5/2|-/2";
    let (mut score, staves) = pair(["Corno 1 in D", "Corno 2 in D"], (2, 4), [rests, rests]);
    let runs = |score: &Score| {
        let staff = print(score, &staves, RowPitch::Written);
        rests_together(score, &[staff])
    };
    assert_eq!(runs(&score), [6, 0, 0, 0, 0, 0, 1, 1]);
    let at = Moment::measured(Quarters::whole(4));
    score.change(staves[0], TimedChange { at, player: None, to: ChangeTo::Label("in G".into()) }).unwrap();
    assert_eq!(runs(&score), [2, 0, 4, 0, 0, 0, 1, 1]);
    score.bar_mut(3).unwrap().repeat_to = Some(2);
    assert_eq!(runs(&score), [2, 0, 2, 0, 2, 0, 1, 1]);
}

/// Each change by itself, at the third of six bars of rest.
#[test]
fn long_rests_break_at_signatures_clefs_words_letters_and_signs_of_bars() {
    let rests = "-/2|-/2|-/2|-/2|-/2|-/2";
    let third = Moment::measured(Quarters::whole(4));
    let runs = |change: &dyn Fn(&mut Score, StaffId)| {
        let (mut score, staves) = pair(["Corno 1 in D", "Corno 2 in D"], (2, 4), [rests, rests]);
        change(&mut score, staves[0]);
        let staff = print(&score, &staves[..1], RowPitch::Written);
        rests_together(&score, &[staff])
    };
    let changed = |to: ChangeTo| {
        runs(&|score, staff| {
            score.change(staff, TimedChange { at: third, player: None, to: to.clone() }).unwrap();
        })
    };
    let told = |direction: Direction| {
        runs(&|score, staff| {
            let direction = TimedDirection { at: third, direction: direction.clone() };
            score.staff_mut(staff).unwrap().directions.push(direction);
        })
    };
    let signed = |sign: &dyn Fn(&mut BarSigns)| runs(&|score, _| sign(score.bar_mut(2).unwrap()));
    let broken = [2, 0, 4, 0, 0, 0];
    assert_eq!(changed(ChangeTo::Signature(SignatureSource::Typed(Signature(2)))), broken, "signature");
    assert_eq!(changed(ChangeTo::Clef(Clef::BASS)), broken, "clef");
    assert_eq!(told(Direction::Words("Solo".into())), broken, "words");
    assert_eq!(told(Direction::Rehearsal("A".into())), broken, "letter");
    assert_eq!(told(Direction::Tempo(90_000)), broken, "tempo");
    assert_eq!(signed(&|bar| bar.repeat_from = true), broken, "repeat");
    assert_eq!(signed(&|bar| bar.ending = Some("1".into())), broken, "ending");
    assert_eq!(signed(&|bar| bar.jumps.push(Jump::Segno)), broken, "jump");
    assert_eq!(signed(&|bar| bar.line = BarLine::Double), [3, 0, 0, 3, 0, 0], "double line");
    // Loudness alone is no reason to break.
    assert_eq!(told(Direction::Dynamic("f".into())), [6, 0, 0, 0, 0, 0]);
}

/// Which of two staves, the second with these changes beside those of the first, stand on one.
fn rows(labels: [&str; 2], prepare: impl Fn(&mut Score, [StaffId; 2])) -> Vec<usize> {
    let (mut score, staves) = pair(labels, (2, 4), ["C5/2|C5/2", "C5/2|C5/2"]);
    prepare(&mut score, staves);
    let mut decoder = |text: &str| Arc::new(decode(text, DecodeOptions::default()));
    pairs(&score, &mut decoder).iter().map(Vec::len).collect()
}

#[test]
fn two_of_one_crook_stand_on_one_staff_and_others_do_not() {
    let horns = ["Corno 1 in D", "Corno 2 in D"];
    assert_eq!(rows(horns, |_, _| {}), [2]);
    assert_eq!(rows(["Corno I in Es", "Corno II in Es"], |_, _| {}), [2]);
    for apart in [
        ["Corno 1 in D", "Corno 2 in G"],
        ["Corno 1 in B alto", "Corno 2 in B basso"],
        ["Corno 1 in D", "Tromba 2 in D"],
        ["Corno 1 in D", "Corno 1 in D"],
        ["Corno solo in D", "Corno tutti in D"],
    ] {
        assert_eq!(rows(apart, |_, _| {}), [1, 1], "{apart:?}");
    }
    let second = Moment::measured(Quarters::whole(2));
    let change = |score: &mut Score, staff: StaffId, to: ChangeTo| {
        score.change(staff, TimedChange { at: second, player: None, to }).unwrap();
    };
    // What changes for one alone parts them for all the way; what changes alike does not.
    for to in [ChangeTo::Label("Corno 2 in G".into()), ChangeTo::Clef(Clef::BASS)] {
        assert_eq!(rows(horns, |score, [_, second]| change(score, second, to.clone())), [1, 1], "{to:?}");
    }
    let both = |score: &mut Score, [one, two]: [StaffId; 2]| {
        change(score, one, ChangeTo::Label("Corno 1 in G".into()));
        change(score, two, ChangeTo::Label("Corno 2 in G".into()));
        // A clef that holds already changes nothing.
        change(score, one, ChangeTo::Clef(Clef::TREBLE));
        change(score, two, ChangeTo::Clef(Clef::TREBLE));
    };
    assert_eq!(rows(horns, both), [2]);
    let differently = |score: &mut Score, [one, two]: [StaffId; 2]| {
        change(score, one, ChangeTo::Label("Corno 1 in G".into()));
        change(score, two, ChangeTo::Label("Corno 2 in E".into()));
    };
    assert_eq!(rows(horns, differently), [1, 1]);
    // What a reader set for one alone parts them too.
    let set =
        |settings: Settings| rows(horns, |score, [_, two]| score.staff_mut(two).unwrap().settings = settings);
    assert_eq!(set(Settings { clef: Some(Clef::BASS), ..Settings::default() }), [1, 1]);
    assert_eq!(set(Settings { clef: Some(Clef::TENOR), ..Settings::default() }), [1, 1]);
    // The usual clef told is the usual clef.
    assert_eq!(set(Settings { clef: Some(Clef::TREBLE), ..Settings::default() }), [2]);
    let signature = Some(SignatureSource::Typed(Signature(2)));
    assert_eq!(set(Settings { signature, ..Settings::default() }), [1, 1]);
}

/// A third goes with a fourth, not with the second; a staff of two players is a pair by itself, and the staves of one part
/// stand by themselves.
#[test]
fn pairs_are_counted_from_the_top() {
    let mut score = Score::default();
    let mut part = |players: &[(u32, usize)]| {
        let part = score.add_part("Corni");
        for (number, players) in players {
            score.add_staff(part, &format!("Corno {number} in F"), *players).unwrap();
        }
    };
    (1..=4).for_each(|number| part(&[(number, 1)]));
    part(&[(5, 1)]);
    part(&[(6, 2)]);
    part(&[(7, 1)]);
    part(&[(8, 1), (9, 1)]);
    part(&[(10, 1)]);
    let mut decoder = |text: &str| Arc::new(decode(text, DecodeOptions::default()));
    let rows: Vec<usize> = pairs(&score, &mut decoder).iter().map(Vec::len).collect();
    assert_eq!(rows, [2, 2, 1, 1, 1, 1, 1, 1]);
}

#[test]
fn values_follow_from_lengths_where_none_are_given() {
    let (voices, _) = joined("C5/3:2 C5/1:2", "-/2");
    assert_eq!(voices, ["C5:Quarter C5:Eighth"]);
    let (score, staves) = pair(["Corno 1 in D", "Corno 2 in D"], (2, 4), ["C5/3:2 C5/1:2", "-/2"]);
    let printed = print(&score, &staves[..1], RowPitch::Written);
    assert_eq!(printed.bars[0].voices[0][0].dots, 1);
    assert_eq!(printed.bars[0].voices[0][0].value, Some(NoteValue::Quarter));
}
