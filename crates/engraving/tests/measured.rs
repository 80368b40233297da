//! Measured music: what stands where in a system, read off the display list.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

use crookwise_engraving::measured::{AboveAll, DrawnSystem, MusicSheet, SheetBar, SheetRow};
use crookwise_engraving::{Ink, Shape, StaffSpace};
use crookwise_score::printed::{Made, PrintedBar, PrintedEvent, PrintedNote, PrintedStaff};
use crookwise_score::score::{
    BarSigns, Beams, Look, Moment, NoteValue, PlayedBy, Quarters, Score, ScoreNote, TimeSignature,
};
use crookwise_theory::{Clef, Printed, Production, Signature};

/// Notes of G4, each of a value with so many dots, its beams and its time in sixteenths.
fn bar(notes: &[(NoteValue, u8, Beams, i64)]) -> PrintedBar {
    let mut score = Score::default();
    let part = score.add_part("Horn");
    let staff = score.add_staff(part, "Horn", 1).unwrap();
    let event = |&(value, dots, beams, at): &(NoteValue, u8, Beams, i64)| {
        let at = Quarters::new(at, 4).unwrap();
        let pitch = "G4".parse().unwrap();
        let note = ScoreNote {
            printed: Some(Printed(pitch)),
            voice: 1,
            by: PlayedBy::Voice,
            start: Moment::measured(at),
            end: Moment::measured(at.plus(Quarters::whole(1)).unwrap()),
            tied: false,
            grace: false,
            tuplet: None,
            bar: 0,
            look: Look::default(),
        };
        let id = score.add_note(staff, note).unwrap();
        let note = PrintedNote {
            staff,
            id,
            pitch,
            accidental: None,
            tied: false,
            tied_on: false,
            unpitched: false,
            made: None,
        };
        let value = Some(value);
        PrintedEvent { at, value, dots, beams, notes: vec![note], ..PrintedEvent::default() }
    };
    PrintedBar {
        clef: Clef::TREBLE,
        signature: Signature(0),
        clefs: Vec::new(),
        voices: vec![notes.iter().map(event).collect()],
        signs: Vec::new(),
        players: None,
    }
}

fn row(bars: Vec<PrintedBar>) -> SheetRow {
    SheetRow {
        staff: PrintedStaff { label: String::new(), bars }.into(),
        ink: Ink::Written,
        label: (String::new(), String::new()),
        made: false,
        joined: false,
    }
}

fn sheet_bar(number: &str, (beats, value): (u16, u16)) -> SheetBar {
    SheetBar {
        number: number.into(),
        length: Quarters::new(i64::from(beats) * 4, i64::from(value)).unwrap(),
        time: Some(TimeSignature { beats, value }),
        signs: BarSigns::default(),
        above: Vec::new(),
    }
}

fn drawn(bar: PrintedBar, time: (u16, u16)) -> DrawnSystem {
    let (row, own) = (row(vec![bar]), sheet_bar("1", time));
    let sheet = MusicSheet::of(vec![row], vec![own], vec![1], StaffSpace(0.0));
    sheet.draw(sheet.break_into(60.0)[0], 60.0)
}

/// The left and right ends of the beams, in order.
fn beams(system: &DrawnSystem) -> Vec<(f64, f64)> {
    let ends = |shape: &Shape| match shape {
        Shape::Beam { from, to, .. } => Some((from.x.0, to.x.0)),
        _ => None,
    };
    system.drawing.items.iter().filter_map(|item| ends(&item.shape)).collect()
}

fn signs(system: &DrawnSystem) -> Vec<&'static str> {
    let name = |shape: &Shape| match shape {
        Shape::Sign { sign, .. } => Some(sign.name()),
        _ => None,
    };
    system.drawing.items.iter().filter_map(|item| name(&item.shape)).collect()
}

#[test]
fn a_hook_points_to_the_dotted_note_it_completes() {
    use NoteValue::{Eighth, N16};
    let begins = Beams { begin: 1, ..Beams::default() };
    let ends = Beams { end: 1, ..Beams::default() };
    // Behind a dotted note it points back, whichever way a file has it.
    for hook in [Beams { hook_left: 2, ..ends }, Beams { hook_right: 2, ..ends }] {
        let system = drawn(bar(&[(Eighth, 1, begins, 0), (N16, 0, hook, 3)]), (1, 4));
        let [whole, hook] = beams(&system)[..] else { panic!("a beam and a hook") };
        assert!((hook.1 - whole.1).abs() < 1e-9 && hook.0 > whole.0 + 0.5 && hook.0 < whole.1, "{hook:?}");
    }
    // Before a dotted note it points on.
    let hook = Beams { hook_right: 2, ..begins };
    let system = drawn(bar(&[(N16, 0, hook, 0), (Eighth, 1, ends, 1)]), (1, 4));
    let [hook, whole] = beams(&system)[..] else { panic!("a hook and a beam") };
    let (hook, whole) = if hook.1 < whole.1 { (hook, whole) } else { (whole, hook) };
    assert!((hook.0 - whole.0).abs() < 1e-9 && hook.1 < whole.1 - 0.5, "{hook:?} {whole:?}");
    // Between the two of a short-long-short it follows the file.
    let through = Beams { through: 1, ..Beams::default() };
    let last = Beams { hook_left: 2, ..ends };
    let system = drawn(
        bar(&[(N16, 0, Beams { hook_right: 2, ..begins }, 0), (Eighth, 0, through, 1), (N16, 0, last, 3)]),
        (1, 4),
    );
    assert_eq!(beams(&system).len(), 3);
}

#[test]
fn common_and_cut_time_have_their_signs_and_all_others_digits() {
    let whole = || bar(&[(NoteValue::Whole, 0, Beams::default(), 0)]);
    let of_time = |time| {
        let all = signs(&drawn(whole(), time));
        all.into_iter().filter(|name| name.starts_with("timeSig")).collect::<Vec<_>>()
    };
    assert_eq!(of_time((4, 4)), ["timeSigCommon"]);
    assert_eq!(of_time((2, 2)), ["timeSigCutCommon"]);
    assert_eq!(of_time((3, 4)), ["timeSig3", "timeSig4"]);
    assert_eq!(of_time((12, 8)), ["timeSig1", "timeSig2", "timeSig8"]);
    assert_eq!(of_time((4, 2)), ["timeSig4", "timeSig2"]);
}

/// The cents of two sixteenths beside each other are read apart.
#[test]
fn cents_stand_apart() {
    let begins = Beams { begin: 2, ..Beams::default() };
    let ends = Beams { end: 2, ..Beams::default() };
    let mut one = bar(&[(NoteValue::N16, 0, begins, 0), (NoteValue::N16, 0, ends, 1)]);
    for (event, drift) in one.voices[0].iter_mut().zip([51.3, -14.0]) {
        event.notes[0].made =
            Some(Made { partial: Some(11), production: Production::Open, drift: Some(drift) });
    }
    let row = SheetRow { made: true, ..row(vec![one]) };
    let sheet = MusicSheet::of(vec![row], vec![sheet_bar("1", (2, 16))], vec![1], StaffSpace(2.2));
    let drawn = sheet.draw(sheet.break_into(60.0)[0], 60.0);
    // What stands with the sign of a number on one line is the number.
    let of_line = |sign: &Shape| {
        let foot = sign.bounds().bottom.0;
        let muted = drawn.drawing.items.iter().filter(|item| item.ink == Ink::Muted);
        let own = muted.map(|item| item.shape.bounds()).filter(move |own| (own.bottom.0 - foot).abs() < 1.0);
        own.map(|own| (own.left.0, own.right.0)).collect::<Vec<_>>()
    };
    let items = &drawn.drawing.items;
    let sign = items.iter().find(|item| item.ink == Ink::Muted && matches!(item.shape, Shape::Line { .. }));
    let mut told = of_line(&sign.expect("a sign before the cents").shape);
    told.sort_by(|one, other| one.0.total_cmp(&other.0));
    assert_eq!(told.len(), 7, "+51 and −14: a cross of two lines, a dash, four digits");
    let gaps: Vec<f64> = told.windows(2).map(|pair| pair[1].0 - pair[0].1).collect();
    let between = gaps.iter().copied().fold(0.0, f64::max);
    assert!(between > 0.3, "{told:?}");
}

/// What the hand makes between the partials is a fraction of the bell, a cross or a word; the dash says that it cannot be had.
#[test]
fn what_has_no_partial_says_how_it_is_made() {
    let beneath = |production| {
        let mut one = bar(&[(NoteValue::Quarter, 0, Beams::default(), 0)]);
        one.voices[0][0].notes[0].made = Some(Made { partial: None, production, drift: None });
        let row = SheetRow { made: true, ..row(vec![one]) };
        let sheet = MusicSheet::of(vec![row], vec![sheet_bar("1", (1, 4))], vec![1], StaffSpace(1.7));
        let drawn = sheet.draw(sheet.break_into(60.0)[0], 60.0);
        let muted = drawn.drawing.items.iter().filter(|item| item.ink == Ink::Muted);
        let name = |shape: &Shape| match shape {
            Shape::Sign { sign, .. } => sign.name().to_owned(),
            Shape::Text { text, .. } => text.clone(),
            _ => "line".to_owned(),
        };
        muted.map(|item| name(&item.shape)).filter(|name| name != "1").collect::<Vec<_>>()
    };
    assert_eq!(beneath(Production::Half), ["fingering1", "line", "fingering2"]);
    assert_eq!(beneath(Production::Quarter), ["fingering1", "line", "fingering4"]);
    assert_eq!(beneath(Production::ThreeQuarter), ["fingering3", "line", "fingering4"]);
    assert_eq!(beneath(Production::Full), ["line", "line"]);
    assert_eq!(beneath(Production::Lipped), ["lip"]);
    assert_eq!(beneath(Production::Unavailable), ["line"]);
}

/// The frame of a letter stands over the number of a long rest.
#[test]
fn a_letter_keeps_clear_of_a_long_rest() {
    let silent = || PrintedBar { voices: vec![vec![whole_rest()]], ..bar(&[]) };
    let bars = (0..5).map(|number| {
        let above = vec![(Quarters::ZERO, AboveAll::Letter("C".into()))];
        SheetBar { above: if number == 0 { above } else { Vec::new() }, ..sheet_bar("38", (4, 4)) }
    });
    let rows = vec![row((0..5).map(|_| silent()).collect())];
    let sheet = MusicSheet::of(rows, bars.collect(), vec![5, 0, 0, 0, 0], StaffSpace(1.7));
    let drawn = sheet.draw(sheet.break_into(60.0)[0], 60.0);
    let over = |shape: &Shape| match shape {
        Shape::Line { from, to, .. } if from.y == to.y && from.y.0 < 0.0 => Some(from.y.0),
        _ => None,
    };
    let frame = drawn.drawing.items.iter().filter_map(|item| over(&item.shape)).fold(f64::MIN, f64::max);
    let number = |shape: &Shape| matches!(shape, Shape::Sign { sign, .. } if sign.name() == "timeSig5");
    let number = drawn.drawing.items.iter().find(|item| number(&item.shape)).unwrap();
    assert!(frame < number.shape.bounds().top.0 - 0.2, "{frame} {:?}", number.shape.bounds());
}

fn whole_rest() -> PrintedEvent {
    PrintedEvent { length: Quarters::whole(4), whole_bar: true, ..PrintedEvent::default() }
}
