//! A score and the passages that are seen through its windows: a law over passages of every kind, and cases by hand.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

use crookwise_score::score::{
    Look, Moment, PlayedBy, Quarters, ScoreError, ScoreNote, StaffId, TimeSignature, TimedChange, Tuplet,
    WindowError,
};
use crookwise_score::{
    BarNumber, Change, ChangeTo, Choice, Event, Length, Passage, ResolvedStaff, Score, SignatureSource,
};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Clef, Key, Mode, Pitch, Printed, Signature, Step};
use proptest::prelude::*;

const LABELS: [&str; 5] = ["Corni in Es", "2 Clarinetti in B", "Timpani in D, A", "in G", ""];

fn printed(name: &str) -> Printed {
    Printed(name.parse().unwrap())
}

fn any_event() -> impl Strategy<Value = Event> {
    prop_oneof![
        4 => (0..7_i32, -1..=1_i32, 3..6_i32)
            .prop_map(|(step, alter, octave)| Event::Note(Printed(Pitch::new(Step::from_index(step), alter, octave)))),
        2 => Just(Event::Held),
        1 => Just(Event::Rest),
    ]
}

fn any_change() -> impl Strategy<Value = ChangeTo> {
    prop_oneof![
        prop::sample::select(&LABELS[..]).prop_map(|label| ChangeTo::Label(label.into())),
        Just(ChangeTo::Clef(Clef::BASS)),
        (-7..=7_i32).prop_map(|fifths| ChangeTo::Signature(SignatureSource::Typed(Signature(fifths)))),
    ]
}

prop_compose! {
    fn any_passage()(
        players in prop::collection::vec(1..=4_usize, 1..=5),
        columns in 0..=20_usize,
        events in prop::collection::vec((any_event(), any::<bool>()), 400),
        lengths in prop::collection::vec(prop::option::of((1..=9_u32, 1..=12_u32)), 20),
        keys in prop::collection::vec((0..20_usize, 0..15_usize), 0..3),
        changes in prop::collection::vec((0..5_usize, 0..20_usize, prop::option::of(0..4_usize), any_change()), 0..8),
        crook in prop::option::of((0..5_usize, 0..4_usize)),
        movement in prop::option::of(0..15_usize),
        bars in prop::collection::vec((0..20_usize, prop::sample::select(&["", "1", "66", "12a"][..])), 0..4),
    ) -> Passage {
        let keys_there = Key::common(Mode::Major);
        let mut passage = Passage::default();
        passage.movement = movement.and_then(|at| keys_there.get(at).copied());
        let mut events = events.into_iter().cycle();
        for (staff, players) in players.iter().enumerate() {
            passage.add_staff(LABELS[staff % LABELS.len()]).unwrap();
            passage.set_players(staff, *players).unwrap();
        }
        for column in 0..columns {
            passage.insert_column(column).unwrap();
        }
        for (staff, players) in players.iter().enumerate() {
            for column in 0..columns {
                for player in 0..*players {
                    match events.next().unwrap() {
                        (Event::Note(note), true) if player == 0 => passage.set_together(staff, column, note).unwrap(),
                        (event, _) => passage.set(staff, column, player, event).unwrap_or_default(),
                    }
                }
            }
        }
        for (column, length) in lengths.into_iter().enumerate().take(columns) {
            let length = length.and_then(|(above, below)| Length::new(above, below));
            passage.set_length(column, length).unwrap();
        }
        for (column, key) in keys {
            let _ = passage.set_movement_at(column, keys_there.get(key).copied());
        }
        for (column, number) in bars {
            let _ = passage.set_bar(column, BarNumber::new(number));
        }
        for (staff, column, player, to) in changes {
            // Some are for nobody who is there.
            let _ = passage.set_change(staff, Change { column, player, to });
        }
        if let Some((staff, player)) = crook {
            let horn = crookwise_theory::label::decode("Corno in G", DecodeOptions::default());
            let _ = passage.set_crook(staff, player, horn.staves.first().map(Choice::of));
        }
        passage
    }
}

proptest! {
    #[test]
    fn all_of_the_score_of_a_passage_is_the_passage(passage in any_passage()) {
        let score = Score::of_passage(&passage).unwrap();
        let staves: Vec<StaffId> = score.staves().map(|staff| staff.id).collect();
        let window = score.window(&staves, 0..score.bars().len()).unwrap();
        prop_assert_eq!(window.left_out, 0);
        prop_assert_eq!(window.passage, passage);
    }
}

/// A measured note of so many quarters.
fn note(name: &str, (from, to): (i32, i32), voice: u8, by: PlayedBy) -> ScoreNote {
    ScoreNote {
        printed: Some(printed(name)),
        voice,
        by,
        start: Moment::measured(Quarters::whole(from)),
        end: Moment::measured(Quarters::whole(to)),
        tied: false,
        grace: false,
        tuplet: None,
        bar: 0,
        look: Look::default(),
    }
}

/// Four bars of four quarters over one staff.
fn score(label: &str, players: usize) -> (Score, StaffId) {
    let mut score = Score::default();
    let part = score.add_part(label);
    let staff = score.add_staff(part, label, players).unwrap();
    for bar in 1..=4 {
        let time = (bar == 1).then_some(TimeSignature { beats: 4, value: 4 });
        score.add_bar(&bar.to_string(), Quarters::whole(4), time).unwrap();
    }
    (score, staff)
}

/// What a player does, column by column.
fn line(passage: &Passage, player: usize) -> String {
    let word = |column| match passage.event(0, column, player).unwrap() {
        Event::Note(printed) => printed.to_string(),
        Event::Held => "_".into(),
        Event::Rest => "-".into(),
    };
    (0..passage.columns().len()).map(word).collect::<Vec<_>>().join(" ")
}

#[test]
fn voices_and_stems_go_to_players() {
    let (mut score, staff) = score("Corni in D", 2);
    for new in [
        note("G4", (0, 2), 1, PlayedBy::Voice),
        note("E4", (0, 1), 2, PlayedBy::Voice),
        // Two on one stem, the lower one written first.
        note("C4", (2, 3), 1, PlayedBy::Voice),
        note("E5", (2, 3), 1, PlayedBy::Voice),
        note("C5", (3, 4), 1, PlayedBy::All),
    ] {
        score.add_note(staff, new).unwrap();
    }
    let window = score.window(&[staff], 0..1).unwrap();
    assert_eq!(line(&window.passage, 0), "G4 _ E5 C5");
    assert_eq!(line(&window.passage, 1), "E4 - C4 C5");
    assert!(window.passage.staves()[0].cells()[3].is_together());
    let lengths: Vec<_> = window.passage.columns().iter().map(|column| column.length).collect();
    assert_eq!(lengths, [Length::new(1, 1); 4]);
    // A silent bar is a column that lasts the whole of it.
    let silent = score.window(&[staff], 2..3).unwrap().passage;
    assert_eq!((line(&silent, 0).as_str(), silent.columns()[0].length), ("-", Length::new(4, 1)));
}

#[test]
fn grace_notes_take_no_time_and_triplets_are_exact() {
    let (mut score, staff) = score("Tromba in D", 1);
    let grace = Moment::without_length(Quarters::ZERO, 0);
    let first = ScoreNote {
        start: grace,
        end: Moment::measured(Quarters::ZERO),
        grace: true,
        ..note("G4", (0, 1), 1, PlayedBy::Voice)
    };
    score.add_note(staff, first).unwrap();
    for third in 0..3 {
        let at = |third| Moment::measured(Quarters::new(third, 3).unwrap());
        let tuplet = Some(Tuplet { notes: 3, in_time_of: 2 });
        let new = ScoreNote {
            start: at(third),
            end: at(third + 1),
            tuplet,
            ..note("C5", (0, 1), 1, PlayedBy::Voice)
        };
        score.add_note(staff, new).unwrap();
    }
    let passage = score.window(&[staff], 0..1).unwrap().passage;
    assert_eq!(line(&passage, 0), "G4 C5 C5 C5 -");
    let lengths: Vec<_> = passage.columns().iter().map(|column| column.length).collect();
    let third = Length::new(1, 3);
    // What is graced begins on its time, and they before it.
    assert_eq!(lengths, [Length::new(1, 8), third, third, third, Length::new(3, 1)]);
    let notes = score.staff(staff).unwrap().notes();
    assert_eq!((notes[0].1.length(), notes[1].1.length()), (Some(Quarters::ZERO), Quarters::new(1, 3)));
}

/// A grace note, as a file has it: one of several at a time, printed in a bar.
fn grace(name: &str, (time, order): (i32, u32), bar: u32) -> ScoreNote {
    let at = |order| Moment::without_length(Quarters::whole(time), order);
    ScoreNote {
        start: at(order),
        end: at(order + 1),
        grace: true,
        bar,
        ..note(name, (time, time + 1), 1, PlayedBy::Voice)
    }
}

/// The lengths of the columns, in eighths of a quarter note.
fn eighths(passage: &Passage) -> Vec<Option<u32>> {
    let eighths = |length: Length| length.quarters().0 * 8 / length.quarters().1;
    passage.columns().iter().map(|column| column.length.map(eighths)).collect()
}

#[test]
fn grace_notes_take_their_time_from_what_comes_before_them() {
    let (mut score, horn) = score("Corno in Es", 1);
    let part = score.add_part("Archi");
    let viola = score.add_staff(part, "Viola", 1).unwrap();
    score.add_note(horn, note("C5", (0, 2), 1, PlayedBy::Voice)).unwrap();
    score.add_note(horn, grace("D5", (2, 0), 0)).unwrap();
    score.add_note(horn, grace("E5", (2, 1), 0)).unwrap();
    score.add_note(horn, note("D5", (2, 4), 1, PlayedBy::Voice)).unwrap();
    score.add_note(viola, note("C4", (0, 4), 1, PlayedBy::Voice)).unwrap();
    let window = score.window(&[horn, viola], 0..1).unwrap();
    // Its own player has them, whose note ends before them; the others hold on.
    assert_eq!((window.passage.staves()[0].players(), window.left_out), (1, 0));
    assert_eq!(line(&window.passage, 0), "C5 D5 E5 D5");
    assert_eq!(window.passage.event(1, 2, 0), Some(Event::Held));
    assert_eq!(eighths(&window.passage), [14, 1, 1, 16].map(Some));
    // Many before a short note leave it half of its length.
    let (mut score, horn) = self::score("Corno in Es", 1);
    score.add_note(horn, note("C5", (0, 1), 1, PlayedBy::Voice)).unwrap();
    for order in 0..8 {
        score.add_note(horn, grace("D5", (1, order), 0)).unwrap();
    }
    let passage = score.window(&[horn], 0..1).unwrap().passage;
    let lengths: Vec<_> = passage.columns().iter().map(|column| column.length).collect();
    assert_eq!(lengths[..2], [Length::new(1, 2), Length::new(1, 16)]);
    // What they grace is a rest: it has its time all the same.
    assert_eq!((lengths.len(), lengths[9]), (10, Length::new(3, 1)));
}

#[test]
fn grace_notes_stand_in_the_bar_in_which_they_are_printed() {
    let (mut score, horn) = score("Corno in Es", 1);
    let part = score.add_part("Archi");
    let viola = score.add_staff(part, "Viola", 1).unwrap();
    score.add_note(horn, note("C5", (0, 4), 1, PlayedBy::Voice)).unwrap();
    // The end of a trill, before the bar line.
    score.add_note(horn, grace("B4", (4, 0), 0)).unwrap();
    score.add_note(horn, note("C5", (4, 8), 1, PlayedBy::Voice)).unwrap();
    // Two beside one: all lead to the same beat.
    score.add_note(horn, grace("D5", (8, 0), 2)).unwrap();
    score.add_note(horn, grace("E5", (8, 1), 2)).unwrap();
    score.add_note(horn, note("C5", (8, 12), 1, PlayedBy::Voice)).unwrap();
    score.add_note(viola, grace("B3", (8, 0), 2)).unwrap();
    score.add_note(viola, note("C4", (8, 12), 1, PlayedBy::Voice)).unwrap();
    let seen = |bars| {
        let passage = score.window(&[horn, viola], bars).unwrap().passage;
        (line(&passage, 0), eighths(&passage))
    };
    assert_eq!(seen(0..1), ("C5 B4".into(), [31, 1].map(Some).to_vec()));
    assert_eq!(seen(1..2), ("C5".into(), vec![Some(32)]));
    assert_eq!(seen(0..2), ("C5 B4 C5".into(), [31, 1, 32].map(Some).to_vec()));
    assert_eq!(seen(2..3), ("D5 E5 C5".into(), [1, 1, 32].map(Some).to_vec()));
    let passage = score.window(&[viola], 2..3).unwrap().passage;
    assert_eq!((line(&passage, 0), eighths(&passage)), ("B3 C4".into(), [1, 32].map(Some).to_vec()));
    let both = score.window(&[viola, horn], 2..3).unwrap().passage;
    assert_eq!(line(&both, 0), "B3 _ C4");
}

#[test]
fn ties_and_held_notes_are_not_struck_anew_but_sound_from_the_window_on() {
    let (mut score, staff) = score("Corni in F", 2);
    score.add_note(staff, note("C5", (0, 4), 1, PlayedBy::Voice)).unwrap();
    score.add_note(staff, note("E4", (0, 4), 1, PlayedBy::Voice)).unwrap();
    let tied = ScoreNote { tied: true, ..note("E4", (4, 6), 1, PlayedBy::Voice) };
    score.add_note(staff, tied).unwrap();
    score.add_note(staff, note("G4", (4, 6), 1, PlayedBy::Voice)).unwrap();
    let both = score.window(&[staff], 0..2).unwrap().passage;
    assert_eq!((line(&both, 0), line(&both, 1)), ("C5 G4 -".into(), "E4 _ -".into()));
    let second = score.window(&[staff], 1..2).unwrap().passage;
    assert_eq!(second.event(0, 0, 0).map(|event| matches!(event, Event::Note(_))), Some(true));
}

#[test]
fn what_changed_before_the_window_holds_in_it() {
    let (mut score, staff) = score("Corni in Es", 2);
    score.movement = Some("Eb major".parse().unwrap());
    let at = |quarter| Moment::measured(Quarters::whole(quarter));
    score.change_key(at(4), "C minor".parse().unwrap());
    let label = |at, player, text: &str| TimedChange { at, player, to: ChangeTo::Label(text.into()) };
    score.change(staff, label(at(4), None, "in C")).unwrap();
    score.change(staff, label(at(6), Some(1), "in D")).unwrap();
    score.add_note(staff, note("C5", (4, 16), 1, PlayedBy::All)).unwrap();
    let passage = score.window(&[staff], 2..4).unwrap().passage;
    assert_eq!(passage.movement_at(0), Some("C minor".parse().unwrap()));
    let resolved = ResolvedStaff::of(&passage, 0, DecodeOptions::default());
    let crook = |player| resolved.place_at(0, player).unwrap().staff.name();
    assert_eq!((crook(0).as_str(), crook(1).as_str()), ("Horn in C basso", "Horn in D"));
    // Inside the window a change stands where it is, and what is held is held through.
    let whole = score.window(&[staff], 0..4).unwrap().passage;
    assert_eq!(line(&whole, 0), "- C5 _ _ _");
    assert_eq!(whole.staves()[0].changes().iter().map(|change| change.column).collect::<Vec<_>>(), [1, 2]);
    assert_eq!(whole.columns()[1].movement, Some("C minor".parse().unwrap()));
}

/// Where bars begin in a window, by their numbers.
fn bars(passage: &Passage) -> Vec<Option<String>> {
    passage.columns().iter().map(|column| column.bar.map(|bar| bar.to_string())).collect()
}

#[test]
fn a_window_says_where_its_bars_begin() {
    let mut score = Score::default();
    let part = score.add_part("Corni");
    let horn = score.add_staff(part, "Corno in Es", 1).unwrap();
    let viola = score.add_staff(part, "Viola", 1).unwrap();
    for number in ["65", "66", "66a", "Trio 1", "68"] {
        score.add_bar(number, Quarters::whole(4), None).unwrap();
    }
    let in_bar = |bar, note: ScoreNote| ScoreNote { bar, ..note };
    score.add_note(horn, in_bar(0, note("C5", (0, 4), 1, PlayedBy::Voice))).unwrap();
    // The end of a trill stands before the line, a grace note of the next bar behind it.
    score.add_note(horn, grace("B4", (4, 0), 0)).unwrap();
    score.add_note(horn, in_bar(1, note("C5", (4, 6), 1, PlayedBy::Voice))).unwrap();
    score.add_note(viola, grace("B3", (8, 0), 2)).unwrap();
    score.add_note(viola, in_bar(2, note("C4", (8, 20), 1, PlayedBy::Voice))).unwrap();
    let seen = |staves: &[StaffId], bars_seen| {
        let passage = score.window(staves, bars_seen).unwrap().passage;
        (line(&passage, 0), bars(&passage))
    };
    let number = |text: &str| Some(text.to_owned());
    let (notes, numbers) = seen(&[horn, viola], 0..3);
    assert_eq!(notes, "C5 B4 C5 - - -");
    assert_eq!(numbers, [number("65"), None, number("66"), None, number("66a"), None]);
    // A bar in which nothing begins has its line all the same; what is no number is printed as none.
    let (notes, numbers) = seen(&[viola], 2..5);
    assert_eq!(notes, "B3 C4 _ _");
    assert_eq!(numbers, [number("66a"), None, number(""), number("68")]);
    // Silent bars are a column each.
    assert_eq!(seen(&[horn], 2..5).1, [number("66a"), number(""), number("68")]);
}

#[test]
fn numbers_outlive_what_comes_and_goes() {
    let (mut score, horn) = score("Corni in Es", 2);
    let part = score.add_part("Archi");
    let viola = score.add_staff(part, "Viola", 1).unwrap();
    let first = score.add_note(viola, note("C4", (0, 1), 1, PlayedBy::Voice)).unwrap();
    let second = score.add_note(viola, note("D4", (1, 2), 1, PlayedBy::Voice)).unwrap();
    let horns = score.parts()[0].id;
    score.remove_part(horns).unwrap();
    score.remove_note(viola, first).unwrap();
    let third = score.add_note(viola, note("E4", (0, 1), 1, PlayedBy::Voice)).unwrap();
    let notes = score.staff(viola).unwrap().notes();
    assert_eq!(notes.iter().map(|(id, _)| *id).collect::<Vec<_>>(), [third, second]);
    assert!(third != first && score.staff(horn).is_none());
    assert_eq!(score.window(&[horn], 0..1), Err(WindowError::NoStaff));
    assert_eq!(score.remove_note(viola, first), Err(ScoreError::Nowhere));
}

#[test]
fn what_does_not_fit_is_said() {
    let (mut score, staff) = score("Corni in Es", 1);
    for player in 0..5 {
        let name = ["C5", "G4", "E4", "C4", "G3"][player];
        score.add_note(staff, note(name, (0, 1), 1, PlayedBy::Voice)).unwrap();
    }
    let window = score.window(&[staff], 0..1).unwrap();
    assert_eq!((window.left_out, window.passage.staves()[0].players()), (1, 4));
    assert_eq!(score.window(&[staff], 3..9), Err(WindowError::NoBar));
    assert_eq!(score.window(&[staff], 2..2), Err(WindowError::NoBar));
    assert_eq!(score.window(&[], 0..1), Err(WindowError::NoStaff));
    assert_eq!(score.window(&[staff; 17], 0..1), Err(WindowError::TooManyStaves(17)));
    for at in 0..70 {
        let time = |at| Moment::measured(Quarters::new(at, 20).unwrap());
        let new = ScoreNote { start: time(at), end: time(at + 1), ..note("C5", (0, 1), 1, PlayedBy::One(0)) };
        score.add_note(staff, new).unwrap();
    }
    assert_eq!(score.window(&[staff], 0..1), Err(WindowError::TooManyColumns(71)));
    let backwards = note("C5", (2, 1), 1, PlayedBy::Voice);
    assert_eq!(score.add_note(staff, backwards), Err(ScoreError::NoLength));
    assert_eq!(score.add_note(staff, note("C5", (0, 1), 1, PlayedBy::One(3))), Err(ScoreError::Nowhere));
    assert_eq!(score.add_bar("5", Quarters::ZERO, None), Err(ScoreError::NoLength));
}
