//! What is played of small scores, reckoned by hand at a quarter note a second; and laws over scores of every kind.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

use crookwise_score::Score;
use crookwise_score::performance::{Performance, PlayedNote, PlayedSound};
use crookwise_score::score::{
    Direction, Look, Mark, Moment, NoteValue, PlayedBy, Quarters, ScoreNote, StaffId, TimedDirection,
    Tremolo, TremoloKind,
};
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use crookwise_theory::{Intonation, Key, Mode, Pitch, Printed, Step, Tonic};
use proptest::prelude::*;
use std::sync::Arc;

fn decoder(text: &str) -> Arc<Decoded> {
    Arc::new(decode(text, DecodeOptions::default()))
}

fn whole(quarters: i32) -> Quarters {
    Quarters::whole(quarters)
}

/// A time in eighth notes.
fn eighths(eighths: i32) -> Quarters {
    Quarters::new(eighths.into(), 2).unwrap()
}

/// A note of a pitch from when to when.
fn note(pitch: &str, from: Quarters, to: Quarters) -> ScoreNote {
    ScoreNote {
        printed: Some(Printed(pitch.parse().unwrap())),
        voice: 1,
        by: PlayedBy::Voice,
        start: Moment::measured(from),
        end: Moment::measured(to),
        tied: false,
        grace: false,
        tuplet: None,
        bar: u32::try_from(from.decimal() as i64 / 4).unwrap(),
        look: Look::default(),
    }
}

fn marked(mark: Mark, note: ScoreNote) -> ScoreNote {
    ScoreNote { look: Look { marks: note.look.marks.with(mark), ..note.look }, ..note }
}

fn tremolo(strokes: u8, kind: TremoloKind, value: NoteValue, note: ScoreNote) -> ScoreNote {
    let tremolo = Some(Tremolo { strokes, kind });
    ScoreNote { look: Look { tremolo, value: Some(value), ..note.look }, ..note }
}

/// Bars of four quarters, a quarter a second, and one staff of these notes.
fn score(bars: i32, label: &str, notes: &[ScoreNote]) -> (Score, StaffId) {
    let mut score = Score::default();
    for bar in 0..bars {
        score.add_bar(&(bar + 1).to_string(), whole(4), None).unwrap();
    }
    let part = score.add_part(label);
    let staff = score.add_staff(part, label, 1).unwrap();
    say(&mut score, staff, whole(0), Direction::Tempo(60_000));
    for note in notes {
        score.add_note(staff, *note).unwrap();
    }
    (score, staff)
}

fn say(score: &mut Score, staff: StaffId, at: Quarters, direction: Direction) {
    let at = Moment::measured(at);
    score.staff_mut(staff).unwrap().directions.push(TimedDirection { at, direction });
}

fn performance(score: &Score) -> Performance {
    Performance::of(score, &score.sounded(&mut decoder))
}

fn all(score: &Score, staff: StaffId) -> Vec<PlayedNote> {
    let performance = performance(score);
    performance.between(&[staff], Quarters::ZERO, performance.road().end())
}

fn name(sound: PlayedSound) -> String {
    match sound {
        PlayedSound::Pitched { pitch, .. } => pitch.to_string(),
        PlayedSound::Drum(pitch) => format!("drum {pitch}"),
        PlayedSound::Unpitched(place) => format!("at {place}"),
    }
}

fn rounded(seconds: f64) -> f64 {
    (seconds * 10_000.0).round() / 10_000.0
}

/// Pitch, onset and length of each.
fn shown(notes: &[PlayedNote]) -> Vec<(String, f64, f64)> {
    notes.iter().map(|note| (name(note.sound), rounded(note.onset), rounded(note.length))).collect()
}

fn as_shown(notes: &[(&str, f64, f64)]) -> Vec<(String, f64, f64)> {
    notes.iter().map(|(name, onset, length)| ((*name).to_owned(), *onset, *length)).collect()
}

#[test]
fn ties_are_one_note_and_dots_shorten() {
    let (score, staff) = score(
        3,
        "Oboe",
        &[
            note("C5", whole(0), whole(4)),
            ScoreNote { tied: true, ..note("C5", whole(4), whole(6)) },
            // The same note struck anew, and one that is tied to nothing.
            note("C5", whole(6), whole(7)),
            ScoreNote { tied: true, ..note("D5", whole(7), whole(8)) },
            marked(Mark::Staccato, note("E5", whole(8), whole(9))),
            marked(Mark::Staccatissimo, note("E5", whole(9), whole(10))),
            marked(Mark::DetachedLegato, note("E5", whole(10), whole(12))),
        ],
    );
    assert_eq!(
        shown(&all(&score, staff)),
        as_shown(&[
            ("C5", 0.0, 6.0),
            ("C5", 6.0, 1.0),
            ("D5", 7.0, 1.0),
            ("E5", 8.0, 0.5),
            ("E5", 9.0, 0.3),
            ("E5", 10.0, 1.5),
        ])
    );
    assert_eq!(performance(&score).count(staff), 7);
}

#[test]
fn tremolos_have_their_written_rate() {
    let onsets = |score: &Score, staff: StaffId| -> Vec<(String, f64)> {
        all(score, staff).iter().map(|note| (name(note.sound), rounded(note.onset))).collect()
    };
    let half = tremolo(2, TremoloKind::Repeated, NoteValue::Half, note("G4", whole(0), whole(2)));
    let (one, staff) = score(1, "Viola", &[half]);
    let played = all(&one, staff);
    assert_eq!(played.len(), 8, "sixteenths");
    assert!(played.iter().all(|note| rounded(note.length) == 0.25));
    assert_eq!(played.iter().filter(|note| !note.stroke).count(), 1);
    // An eighth note with a stroke: two sixteenths. Quarters of a triplet with one: two each.
    let third = |at: i64| Quarters::new(at * 2, 3).unwrap();
    let (short, staff) = score(
        1,
        "Viola",
        &[
            tremolo(1, TremoloKind::Repeated, NoteValue::Quarter, note("G4", third(0), third(1))),
            tremolo(1, TremoloKind::Repeated, NoteValue::Quarter, note("A4", third(1), third(2))),
            tremolo(1, TremoloKind::Repeated, NoteValue::Eighth, note("B4", whole(2), eighths(5))),
        ],
    );
    let expected = [("G4", 0.0), ("G4", 0.3333), ("A4", 0.6667), ("A4", 1.0), ("B4", 2.0), ("B4", 2.25)];
    assert_eq!(onsets(&short, staff), expected.map(|(name, at)| (name.to_owned(), at)));
    // Two half notes to and fro in the time of one, in eighths; a third on the stem of the second.
    let of_two =
        |kind, pitch, from, to| tremolo(1, kind, NoteValue::Half, note(pitch, whole(from), whole(to)));
    let mut third = note("E5", whole(1), whole(2));
    third.look.on_stem = true;
    let (two, staff) = score(
        1,
        "Viola",
        &[of_two(TremoloKind::Begins, "G4", 0, 1), of_two(TremoloKind::Ends, "C5", 1, 2), third],
    );
    let expected = [("G4", 0.0), ("C5", 0.5), ("E5", 0.5), ("G4", 1.0), ("C5", 1.5), ("E5", 1.5)];
    assert_eq!(onsets(&two, staff), expected.map(|(name, at)| (name.to_owned(), at)));
    let roll = tremolo(3, TremoloKind::Unmeasured, NoteValue::Half, note("D3", whole(0), whole(2)));
    let (roll, staff) = score(1, "Timpani in D A", &[roll]);
    let played = all(&roll, staff);
    assert_eq!(played.len(), 24, "twelve a second");
    assert!(played.iter().all(|note| name(note.sound) == "drum D3"));
}

#[test]
fn grace_notes_come_before_the_beat_and_trills_go_to_the_next_note_of_the_key() {
    let grace = |pitch: &str, at: i32, order: u32| ScoreNote {
        start: Moment::without_length(whole(at), order),
        end: Moment::without_length(whole(at), order + 1),
        grace: true,
        ..note(pitch, whole(at), whole(at))
    };
    let (mut score, staff) = score(
        2,
        "Oboe",
        &[
            grace("B4", 0, 0),
            note("C5", whole(0), whole(2)),
            grace("D5", 2, 0),
            grace("E5", 2, 1),
            note("F5", whole(2), whole(3)),
            marked(Mark::Trill, note("D5", whole(4), eighths(9))),
        ],
    );
    score.movement = Some(Key::new(Tonic::new(Step::E, -1), Mode::Major));
    let played = all(&score, staff);
    assert_eq!(
        shown(&played[..5]),
        as_shown(&[
            ("B4", 0.0, 0.09),
            ("C5", 0.0, 2.0),
            ("D5", 1.82, 0.09),
            ("E5", 1.91, 0.09),
            ("F5", 2.0, 1.0),
        ])
    );
    // Half a second: five notes, the last its own.
    let names: Vec<String> = played[5..].iter().map(|note| name(note.sound)).collect();
    assert_eq!(names, ["D5", "Eb5", "D5", "Eb5", "D5"]);
    assert!(played[5..].iter().all(|note| rounded(note.length) == 0.1));
}

#[test]
fn strengths_follow_signs_hairpins_and_accents() {
    let (mut score, staff) = score(
        3,
        "Oboe",
        &[
            note("C5", whole(0), whole(4)),
            marked(Mark::Accent, note("C5", whole(4), whole(5))),
            note("C5", whole(5), whole(6)),
            note("C5", whole(6), whole(8)),
        ],
    );
    say(&mut score, staff, whole(0), Direction::Dynamic("p".into()));
    say(&mut score, staff, whole(0), Direction::Crescendo);
    say(&mut score, staff, whole(4), Direction::HairpinEnds);
    say(&mut score, staff, whole(4), Direction::Dynamic("f".into()));
    say(&mut score, staff, whole(5), Direction::Dynamic("sf".into()));
    say(&mut score, staff, whole(6), Direction::Dynamic("fp".into()));
    let strengths: Vec<(u8, u8)> =
        all(&score, staff).iter().map(|note| (note.strength, note.strength_end)).collect();
    assert_eq!(strengths, [(48, 90), (106, 90), (112, 90), (90, 48)]);
    // In the middle of the hairpin.
    let late = performance(&score).between(&[staff], whole(2), whole(3));
    assert_eq!((late[0].strength, late[0].strength_end, late[0].held), (69, 90, true));
}

#[test]
fn a_start_inside_a_note_sounds_the_rest_of_it_and_a_loop_is_the_same_each_time() {
    let (score, staff) = score(
        4,
        "Oboe",
        &[
            note("C5", whole(0), whole(6)),
            marked(Mark::Staccato, note("E5", whole(1), whole(5))),
            note("D5", whole(6), whole(9)),
            marked(Mark::Fermata, note("F5", whole(9), whole(10))),
        ],
    );
    let performance = performance(&score);
    let late = performance.between(&[staff], whole(4), whole(7));
    // The dotted one has ended by then.
    assert_eq!(shown(&late), as_shown(&[("C5", 0.0, 2.0), ("D5", 2.0, 3.0)]));
    assert_eq!(late.iter().map(|note| note.held).collect::<Vec<_>>(), [true, false]);
    for _ in 0..20 {
        assert_eq!(performance.between(&[staff], whole(4), whole(7)), late);
    }
    assert_eq!(shown(&performance.between(&[staff], whole(9), whole(16))), as_shown(&[("F5", 0.0, 2.0)]));
    assert_eq!(performance.between(&[staff], whole(7), whole(7)), []);
    assert_eq!(performance.between(&[], whole(0), whole(7)), []);
}

#[test]
fn repeats_are_played_and_ties_over_their_ends_are_heard() {
    // Bars 1 and 2 with endings 2 and 3: the last note of bar 1 is tied into either ending.
    let tied = |note: ScoreNote| ScoreNote { tied: true, ..note };
    let (mut score, staff) = score(
        4,
        "Oboe",
        &[
            note("C5", whole(0), whole(2)),
            note("G5", whole(2), whole(4)),
            tied(note("G5", whole(4), whole(5))),
            note("C5", whole(6), whole(8)),
            tied(note("G5", whole(8), whole(10))),
            note("E5", whole(10), whole(14)),
        ],
    );
    let signs = score.bar_mut(1).unwrap();
    (signs.ending, signs.repeat_to) = (Some("1".into()), Some(2));
    score.bar_mut(2).unwrap().ending = Some("2".into());
    assert_eq!(
        shown(&all(&score, staff)),
        as_shown(&[
            ("C5", 0.0, 2.0),
            ("G5", 2.0, 3.0),
            ("C5", 6.0, 2.0),
            ("C5", 8.0, 2.0),
            ("G5", 10.0, 4.0),
            ("E5", 14.0, 4.0),
        ])
    );
    // From the second ending on its note sounds as held.
    let late = performance(&score).between(&[staff], whole(12), whole(16));
    assert_eq!(shown(&late), as_shown(&[("G5", 0.0, 2.0), ("E5", 2.0, 4.0)]));
    assert!(late[0].held && !late[1].held);
}

#[test]
fn a_tied_note_at_a_repeat_is_struck_where_nothing_goes_on_into_it() {
    let tied = |note: ScoreNote| ScoreNote { tied: true, ..note };
    let (mut score, staff) = score(
        3,
        "Oboe",
        &[
            note("G5", whole(2), whole(4)),
            tied(note("G5", whole(4), whole(6))),
            note("C5", whole(6), whole(8)),
        ],
    );
    let signs = score.bar_mut(1).unwrap();
    (signs.repeat_from, signs.repeat_to) = (true, Some(2));
    assert_eq!(
        shown(&all(&score, staff)),
        as_shown(&[("G5", 2.0, 4.0), ("C5", 6.0, 2.0), ("G5", 8.0, 2.0), ("C5", 10.0, 2.0)])
    );
}

#[test]
fn natural_brass_says_its_crook_and_what_has_no_pitch_is_told_apart() {
    let (score, staff) =
        score(1, "Corno in Es", &[note("E5", whole(0), whole(1)), note("A4", whole(1), whole(2))]);
    let played = all(&score, staff);
    let PlayedSound::Pitched { pitch, natural: Some(natural), below } = played[0].sound else { panic!() };
    assert_eq!((pitch.to_string(), natural.crook.to_string(), below), ("G4".into(), "Eb3".into(), false));
    assert_eq!(natural.partial.map(crookwise_theory::Partial::number), Some(10));
    let PlayedSound::Pitched { natural: Some(off), .. } = played[1].sound else { panic!() };
    assert_eq!(off.partial, None);
    // Partial 10 is 10/4 of the crook's C, an E-flat of 155.563 Hz; G4 has 391.995 Hz in equal temperament. Off the series the hand
    // brings the note to the tuning.
    let hz = |note: &PlayedNote, as_tube| rounded(note.sound.hz(&Intonation::default(), as_tube).unwrap());
    assert_eq!((hz(&played[0], true), hz(&played[0], false)), (388.9087, 391.9954));
    assert!(hz(&played[1], true) == hz(&played[1], false));

    let mut struck = note("E4", whole(0), whole(1));
    struck.look.unpitched = true;
    let mut cue = note("E4", whole(1), whole(2));
    cue.look.cue = true;
    let (score, staff) = score_of("Triangle", &[struck, cue]);
    let played = all(&score, staff);
    assert_eq!(shown(&played), as_shown(&[("at E4", 0.0, 1.0)]));
    assert_eq!(played[0].sound.hz(&Intonation::default(), true), None);
}

fn score_of(label: &str, notes: &[ScoreNote]) -> (Score, StaffId) {
    score(1, label, notes)
}

prop_compose! {
    fn any_score()(
        lengths in prop::collection::vec((1..7_i32, 0..9_u8, any::<bool>(), 0..5_i32), 1..24),
        repeats in prop::collection::vec((0..8_usize, 0..8_usize, any::<bool>()), 0..3),
        tempi in prop::collection::vec((0..32_i32, 40_000..300_000_u32), 0..4),
    ) -> (Score, StaffId) {
        let mut at = 0;
        let mut notes = Vec::new();
        for (length, kind, tied, step) in lengths {
            let end = (at + length).min(64);
            if end <= at { break; }
            let pitch = Pitch::new(Step::from_index(step), 0, 4).to_string();
            let plain = ScoreNote { tied, ..note(&pitch, eighths(at), eighths(end)) };
            notes.push(match kind {
                0 => tremolo(2, TremoloKind::Repeated, NoteValue::Quarter, plain),
                1 => tremolo(3, TremoloKind::Unmeasured, NoteValue::Quarter, plain),
                2 => marked(Mark::Trill, plain),
                3 => marked(Mark::Staccato, plain),
                4 => marked(Mark::Fermata, plain),
                5 => ScoreNote {
                    grace: true,
                    tied: false,
                    start: Moment::without_length(eighths(at), 0),
                    end: Moment::without_length(eighths(at), 1),
                    ..plain
                },
                _ => plain,
            });
            at = if kind == 5 { at } else { end };
        }
        let (mut score, staff) = score(8, "Oboe", &notes);
        for (from, to, ending) in repeats {
            score.bar_mut(from).unwrap().repeat_from = true;
            let signs = score.bar_mut(to).unwrap();
            signs.repeat_to = Some(2);
            if ending {
                signs.ending = Some("1".into());
            }
        }
        for (at, tempo) in tempi {
            say(&mut score, staff, whole(at), Direction::Tempo(tempo));
        }
        (score, staff)
    }
}

proptest! {
    /// Whatever is cut where: the windows of a road together play what the road plays at once, each note once and when it
    /// was; and what is held in a window began before it.
    #[test]
    fn windows_together_are_the_whole((score, staff) in any_score(), cuts in prop::collection::vec(1..400_i32, 0..6)) {
        let performance = performance(&score);
        let end = performance.road().end();
        let whole = performance.between(&[staff], Quarters::ZERO, end);
        let mut times: Vec<Quarters> = cuts.iter().map(|cut| Quarters::new((*cut).into(), 3).unwrap()).collect();
        times.extend([Quarters::ZERO, end]);
        times.retain(|time| *time <= end);
        times.sort();
        times.dedup();
        let mut joined = Vec::new();
        for pair in times.windows(2) {
            let begins = performance.clock().seconds(pair[0]);
            let within = performance.clock().seconds(pair[1]) - begins;
            for note in performance.between(&[staff], pair[0], pair[1]) {
                prop_assert!(note.onset >= 0.0 && note.onset < within && note.length > 0.0, "{:?}", note);
                if note.held {
                    prop_assert!(note.onset == 0.0 && pair[0] > Quarters::ZERO);
                } else {
                    joined.push((note.note, note.stroke, rounded(note.onset + begins), rounded(note.length)));
                }
            }
        }
        let mut at_once: Vec<_> =
            whole.iter().map(|note| (note.note, note.stroke, rounded(note.onset), rounded(note.length))).collect();
        for list in [&mut joined, &mut at_once] {
            list.sort_by(|one, other| one.partial_cmp(other).unwrap());
        }
        prop_assert_eq!(joined.len(), at_once.len());
        for (one, other) in joined.iter().zip(&at_once) {
            prop_assert_eq!((one.0, one.1), (other.0, other.1));
            prop_assert!((one.2 - other.2).abs() < 1e-3 && (one.3 - other.3).abs() < 1e-3, "{:?} {:?}", one, other);
        }
    }
}
