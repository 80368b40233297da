//! What engravers agree on, read off the display list.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

use crookwise_engraving::{
    AccidentalRule, Before, Bounds, ColumnSpec, Drawing, ElementId, FARTHEST, Glyph, Head, Ink, Join,
    Metrics, NoteSpec, Parts, Point, RestSpec, RestValue, Shape, StaffLayout, StaffSpace, StaffSpec,
    StemRule, cancelling_signs, extent, head_width, lay_out, narrowest_column, place_at, signature_signs,
    stack_staves,
};
use crookwise_theory::{Clef, Pitch, Signature, StaffPosition, Step};

fn note(name: &str) -> NoteSpec {
    NoteSpec::new(name.parse().unwrap())
}

fn column(notes: Vec<NoteSpec>) -> ColumnSpec {
    ColumnSpec { notes, ..ColumnSpec::default() }
}

/// A staff of single notes and chords ("C4 E4,G4").
fn staff(clef: Clef, fifths: i32, text: &str) -> StaffSpec {
    let columns = text.split_whitespace().map(|word| column(word.split(',').map(note).collect()));
    StaffSpec { columns: columns.collect(), ..StaffSpec::new(clef, Signature(fifths)) }
}

fn lay(spec: &StaffSpec) -> StaffLayout {
    let metrics = Metrics::fit(&[spec], spec.all(), narrowest_column(spec).max(StaffSpace(6.0)));
    lay_out(spec, spec.all(), &metrics)
}

fn lines(drawing: &Drawing, wanted: Ink) -> Vec<(Point, Point)> {
    let line = |item: &crookwise_engraving::Item| match item.shape {
        Shape::Line { from, to, .. } if item.ink == wanted => Some((from, to)),
        _ => None,
    };
    drawing.items.iter().filter_map(line).collect()
}

fn glyphs(drawing: &Drawing) -> Vec<(Glyph, Point)> {
    let glyph = |item: &crookwise_engraving::Item| match item.shape {
        Shape::Glyph { glyph, at } => Some((glyph, at)),
        _ => None,
    };
    drawing.items.iter().filter_map(glyph).collect()
}

fn ties(drawing: &Drawing) -> Vec<(Point, Point, StaffSpace)> {
    let tie = |item: &crookwise_engraving::Item| match item.shape {
        Shape::Tie { from, to, rise } => Some((from, to, rise)),
        _ => None,
    };
    drawing.items.iter().filter_map(tie).collect()
}

fn places(clef: &str, fifths: i32) -> Vec<i32> {
    signature_signs(clef.parse().unwrap(), Signature(fifths)).iter().map(|sign| sign.place.0).collect()
}

/// Common practice, counted from the bottom line (0) to the top line (8).
#[test]
fn signatures_stand_where_engravers_put_them() {
    assert_eq!(places("G2", 7), [8, 5, 9, 6, 3, 7, 4]);
    assert_eq!(places("G2", -7), [4, 7, 3, 6, 2, 5, 1]);
    assert_eq!(places("F4", 7), [6, 3, 7, 4, 1, 5, 2]);
    assert_eq!(places("F4", -7), [2, 5, 1, 4, 0, 3, -1]);
    assert_eq!(places("C3", 7), [7, 4, 8, 5, 2, 6, 3]);
    assert_eq!(places("C3", -7), [3, 6, 2, 5, 1, 4, 0]);
    // The tenor clef: sharps in an order of their own.
    assert_eq!(places("C4", 7), [2, 6, 3, 7, 4, 8, 5]);
    assert_eq!(places("C4", -7), [5, 8, 4, 7, 3, 6, 2]);
    // The same letters on the same lines.
    for fifths in -7..=7 {
        assert_eq!(places("G1", fifths), places("F4", fifths));
        assert_eq!(places("F5", fifths), places("G2", fifths));
        assert_eq!(places("C5", fifths), places("F3", fifths));
    }
}

/// For every clef and signature: the right letters in the right order, on the staff or in the space at most beside
/// it, each once, and the octave mark changes nothing.
#[test]
fn signatures_name_their_letters() {
    let sharps = [Step::F, Step::C, Step::G, Step::D, Step::A, Step::E, Step::B];
    for clef in Clef::ALL {
        for fifths in -7..=7_i32 {
            let signs = signature_signs(clef, Signature(fifths));
            assert_eq!(signs.len(), fifths.unsigned_abs() as usize);
            for (at, sign) in signs.iter().enumerate() {
                let expected = if fifths > 0 { sharps[at] } else { sharps[6 - at] };
                assert_eq!(sign.step, expected);
                assert_eq!(clef.pitch_at(sign.place).step, expected, "{clef} {fifths}");
                assert!((-1..=9).contains(&sign.place.0), "{clef} {fifths}");
                assert_eq!(sign.accidental.0, fifths.signum());
            }
            let lower = Clef::new(clef.sign, clef.line(), -1).unwrap();
            assert_eq!(signature_signs(lower, Signature(fifths)), signs);
        }
    }
}

#[test]
fn signatures_beyond_seven_alter_twice() {
    let signs = signature_signs(Clef::TREBLE, Signature(9));
    let read: Vec<(Step, i32)> = signs.iter().map(|sign| (sign.step, sign.accidental.0)).collect();
    let expected =
        [(Step::G, 1), (Step::D, 1), (Step::A, 1), (Step::E, 1), (Step::B, 1), (Step::F, 2), (Step::C, 2)];
    assert_eq!(read, expected);
    let gone: Vec<Step> =
        cancelling_signs(Clef::TREBLE, Signature(-3), Signature(-1)).iter().map(|sign| sign.step).collect();
    assert_eq!(gone, [Step::E, Step::A]);
}

/// Middle C has one ledger line under the treble clef, A3 two; A5 one above.
#[test]
fn ledger_lines_are_counted() {
    let cases = [
        ("E4", 0),
        ("D4", 0),
        ("C4", 1),
        ("B3", 1),
        ("A3", 2),
        ("G3", 2),
        ("C3", 4),
        ("F5", 0),
        ("G5", 0),
        ("A5", 1),
        ("B5", 1),
        ("C6", 2),
        ("E6", 3),
        ("C7", 5),
        ("C4,A5", 2),
        ("A3,C4", 2),
        ("A5,B5,C6", 2),
    ];
    for (notes, count) in cases {
        let drawing = lay(&staff(Clef::TREBLE, 0, notes)).drawing;
        let drawn = lines(&drawing, Ink::Ledger);
        assert_eq!(drawn.len(), count, "{notes}");
        for (from, to) in drawn {
            assert_eq!(from.y, to.y);
            assert!(from.y.0 < -0.5 || from.y.0 > 4.5);
            let length = (to.x - from.x).0;
            assert!(length > 1.18 && length < 3.2, "{notes}: a ledger line of {length}");
        }
    }
}

/// The stem of a single column: its x against the middle, root and tip.
fn stem(spec: &StaffSpec) -> (f64, f64, f64) {
    let layout = lay(spec);
    let center = layout.column_center(0).unwrap();
    let stems = lines(&layout.drawing, Ink::Written);
    assert_eq!(stems.len(), 1);
    let (from, to) = stems[0];
    ((from.x - center).0, from.y.0, to.y.0)
}

#[test]
fn stems_turn_at_the_middle_line() {
    for place in -20..=28 {
        let pitch = Clef::TREBLE.pitch_at(StaffPosition(place));
        let (side, root, tip) = stem(&staff(Clef::TREBLE, 0, &pitch.to_string()));
        let y = f64::from(8 - place) / 2.0;
        if place < 4 {
            assert!(side > 0.0 && tip < root, "up, on the right: {pitch}");
            assert_eq!(tip, (y - 3.5).min(2.0), "an octave, or to the middle line: {pitch}");
        } else {
            assert!(side < 0.0 && tip > root, "down, on the left: {pitch}");
            assert_eq!(tip, (y + 3.5).max(2.0), "{pitch}");
        }
    }
    // The farthest note of a chord decides; equally far goes down.
    let up = |text: &str| stem(&staff(Clef::TREBLE, 0, text)).0 > 0.0;
    assert_eq!(["C4,C5", "G4,F5", "G4,D5", "F4,D5", "F4,E5"].map(up), [true, false, false, true, false]);
}

#[test]
fn two_voices_take_both_directions() {
    let mut spec = staff(Clef::TREBLE, 0, "E5,C5");
    spec.columns[0].notes[0].stem = StemRule::Up;
    spec.columns[0].notes[1].stem = StemRule::Down;
    let stems = lines(&lay(&spec).drawing, Ink::Written);
    assert_eq!(stems.len(), 2);
    assert!(stems[0].1.y < stems[0].0.y && stems[1].1.y > stems[1].0.y);
    // A stem forced away from the staff is a little shorter.
    assert!((stems[0].1.y.0 - (0.5 - 3.5)).abs() < 0.5 && stems[0].1.y.0 > 0.5 - 3.5);
    // At the unison one head with two stems.
    let mut spec = staff(Clef::TREBLE, 0, "C5,C5");
    spec.columns[0].notes[0].stem = StemRule::Up;
    spec.columns[0].notes[1].stem = StemRule::Down;
    let heads: Vec<Point> = glyphs(&lay(&spec).drawing)
        .into_iter()
        .filter(|(glyph, _)| *glyph == Glyph::NoteheadBlack)
        .map(|(_, at)| at)
        .collect();
    assert_eq!(heads.len(), 2);
    assert_eq!(heads[0], heads[1]);
}

/// Where voices cross, the one with the stem upwards stands to the right, clear of the other.
#[test]
fn crossing_voices_stand_beside_each_other() {
    for (notes, upper_right) in [("B4,D5", true), ("D5,B4", false), ("D5,C5", false)] {
        let mut spec = staff(Clef::TREBLE, 0, notes);
        spec.columns[0].notes[0].stem = StemRule::Up;
        spec.columns[0].notes[1].stem = StemRule::Down;
        let stems = lines(&lay(&spec).drawing, Ink::Written);
        let [up, down] = [stems[0].0.x, stems[1].0.x];
        if upper_right {
            assert!(up - down > StaffSpace(2.0), "{notes}");
        } else if notes == "D5,C5" {
            assert!((up - down).0.abs() < 1e-9, "a second: both stems in one line");
        } else {
            assert!((up - down).0 > 1.0 && (up - down).0 < 1.18, "one above the other");
        }
    }
}

#[test]
fn a_whole_note_has_no_stem() {
    let mut spec = staff(Clef::TREBLE, 0, "C5");
    spec.columns[0].notes[0].head = Head::Whole;
    assert!(lines(&lay(&spec).drawing, Ink::Written).is_empty());
}

#[test]
fn a_staff_of_strokes_has_the_neutral_clef_and_crosses() {
    let mut spec = staff(Clef::BASS, -3, "A3 A3");
    spec.unpitched = true;
    for column in &mut spec.columns {
        column.notes[0].head = Head::Cross;
    }
    let names: Vec<_> = glyphs(&lay(&spec).drawing).into_iter().map(|(glyph, _)| glyph.name()).collect();
    assert_eq!(names, ["unpitchedPercussionClef1", "noteheadXBlack", "noteheadXBlack"]);
}

/// A small staff under a large one: the same columns, and as long, measured in its own spaces.
#[test]
fn a_small_staff_has_its_columns_under_those_of_a_large_one() {
    let large = staff(Clef::TREBLE, 3, "F#4 Bb4 C5");
    let small = StaffSpec { size: 0.5, ..large.clone() };
    let metrics = Metrics::fit(&[&large], 0..3, StaffSpace(6.0));
    let [large, small] = [&large, &small].map(|spec| lay_out(spec, 0..3, &metrics));
    assert!((small.width.0 * 0.5 - large.width.0).abs() < 1e-9);
    let heads = |layout: &StaffLayout| {
        let heads = glyphs(&layout.drawing).into_iter().filter(|(glyph, _)| glyph.name() == "noteheadBlack");
        heads.map(|(_, at)| at.x.0).collect::<Vec<_>>()
    };
    let apart = |heads: &[f64]| heads[2] - heads[0];
    assert!((apart(&heads(&small)) * 0.5 - apart(&heads(&large))).abs() < 1e-9);
}

/// The accidentals drawn in the columns, as SMuFL names.
fn accidentals(spec: &StaffSpec) -> Vec<&'static str> {
    let notes = StaffSpec { parts: Parts::Notes, ..spec.clone() };
    let names = glyphs(&lay(&notes).drawing).into_iter().map(|(glyph, _)| glyph.name());
    names.filter(|name| name.starts_with("accidental")).collect()
}

#[test]
fn every_column_is_a_bar_of_its_own() {
    assert_eq!(accidentals(&staff(Clef::TREBLE, 0, "F#4 F#4 F4")), ["accidentalSharp", "accidentalSharp"]);
    assert_eq!(
        accidentals(&staff(Clef::TREBLE, -3, "Eb4 E4 Eb4 Ebb4")),
        ["accidentalNatural", "accidentalDoubleFlat"]
    );
    let mut spec = staff(Clef::TREBLE, 0, "F#4 F#4 F#4 F4");
    spec.columns[0].notes[0].accidental = AccidentalRule::Hide;
    spec.columns[1].notes[0].tied_from_previous = true;
    spec.columns[3].notes[0].accidental = AccidentalRule::Force;
    assert_eq!(accidentals(&spec), ["accidentalSharp", "accidentalNatural"]);
    // A new signature counts from its column on.
    let mut spec = staff(Clef::TREBLE, 0, "F#4 F#4 F4");
    spec.columns[1].signature_change = Some(Signature(1));
    assert_eq!(accidentals(&spec), ["accidentalSharp", "accidentalNatural"]);
}

/// A sharp and a plain note on one line in one column: the plain one says so.
#[test]
fn two_alterations_on_one_line_are_both_shown() {
    let mut shown = accidentals(&staff(Clef::TREBLE, 0, "C5,C#5"));
    shown.sort_unstable();
    assert_eq!(shown, ["accidentalNatural", "accidentalSharp"]);
    assert!(accidentals(&staff(Clef::TREBLE, 0, "C5,C5")).is_empty());
    // The signs stand in the order of their heads, the lower alteration to the left.
    for rules in [[StemRule::Auto; 2], [StemRule::Up, StemRule::Down]] {
        let mut spec = staff(Clef::TREBLE, 0, "C5,C#5");
        for (note, rule) in spec.columns[0].notes.iter_mut().zip(rules) {
            note.stem = rule;
            note.id = Some(ElementId(note.pitch.alter.unsigned_abs()));
        }
        let drawing = lay(&spec).drawing;
        let x = |wanted: u32, accidental: bool| {
            let hit = drawing.items.iter().find_map(|item| match item.shape {
                Shape::Glyph { glyph, at }
                    if item.id == Some(ElementId(wanted))
                        && glyph.name().starts_with("accidental") == accidental =>
                {
                    Some(at.x)
                }
                _ => None,
            });
            hit.unwrap()
        };
        assert!(
            x(0, true) < x(1, true) && x(1, true) < x(0, false) && x(0, false) < x(1, false),
            "{rules:?}"
        );
    }
}

/// The drawing is never larger than its bounds, and these hold the farthest ink.
#[test]
fn the_extent_holds_everything() {
    let spec = staff(Clef::TREBLE, 0, "C2 C8 Ebbb4,F####4");
    let layout = lay(&spec);
    for item in &layout.drawing.items {
        assert_eq!(layout.bounds.union(item.shape.bounds()), layout.bounds);
    }
    let (top, bottom) = extent(&spec);
    assert_eq!((top, bottom), (layout.bounds.top, layout.bounds.bottom));
    // C8 is 28 places above C4, which stands on place −2: place 26, nine spaces above the top line, half a head more.
    assert!((top.0 - (-9.5)).abs() < 1e-9, "{top:?}");
    // C2 stands 14 places below C4: place −16, eight spaces below the bottom line.
    assert!((bottom.0 - 12.5).abs() < 1e-9, "{bottom:?}");
}

#[test]
fn no_pitch_is_too_wild() {
    for octave in [i32::MIN, -100, 100, i32::MAX] {
        for alter in [i32::MIN, -7, 7, i32::MAX] {
            let mut spec = StaffSpec::new(Clef::BASS, Signature(alter));
            spec.columns.push(column(vec![NoteSpec::new(Pitch::new(Step::B, alter, octave))]));
            spec.columns[0].rests.push(RestSpec::new(RestValue::Half));
            let layout = lay(&spec);
            assert!(layout.bounds.height().0 < f64::from(FARTHEST), "{octave}");
            assert!(layout.drawing.items.len() < 800, "{}", layout.drawing.items.len());
        }
    }
}

#[test]
fn a_pointer_finds_place_and_column() {
    for place in -40..50 {
        let y = f64::from(8 - place) / 2.0;
        for off in [-0.24, 0.0, 0.24] {
            assert_eq!(place_at(StaffSpace(y + off)), StaffPosition(place));
        }
    }
    assert_eq!(place_at(StaffSpace(f64::NAN)), StaffPosition(8));
    let _ = (place_at(StaffSpace(f64::INFINITY)), place_at(StaffSpace(f64::MIN)));
    let mut spec = staff(Clef::TREBLE, 2, "C4 D4 E4 F4 G4");
    spec.columns[3].clef_change = Some(Clef::BASS);
    let metrics = Metrics::fit(&[&spec], 1..5, StaffSpace(6.0));
    let layout = lay_out(&spec, 1..5, &metrics);
    assert_eq!(layout.columns(), 1..5);
    for at in 1..5 {
        let center = layout.column_center(at).unwrap();
        for off in [-2.9, 0.0, 2.9] {
            assert_eq!(layout.column_at(center + StaffSpace(off)), Some(at));
        }
    }
    assert_eq!((layout.column_center(0), layout.column_center(5)), (None, None));
    assert_eq!((layout.column_at(StaffSpace(1.0)), layout.column_at(layout.width)), (None, None));
    assert_eq!(layout.clef_at(2), Some(Clef::TREBLE));
    assert_eq!(layout.clef_at(3), Some(Clef::BASS));
    // The change has room of its own before its column.
    assert!(layout.column_center(3).unwrap() - layout.column_center(2).unwrap() > StaffSpace(7.5));
}

/// Heads of all staves are as wide as the widest, and what sounds together stands together.
#[test]
fn staves_share_their_measures() {
    let upper = staff(Clef::TREBLE, 0, "C4 D4");
    let mut lower = staff(Clef::BASS, -7, "C3 D3");
    lower.columns[1].signature_change = Some(Signature(2));
    let metrics = Metrics::fit(&[&upper, &lower], 0..2, StaffSpace(6.0));
    assert_eq!(metrics.head, head_width(Clef::BASS, Signature(-7)));
    let (one, two) = (lay_out(&upper, 0..2, &metrics), lay_out(&lower, 0..2, &metrics));
    assert_eq!(one.column_center(1), two.column_center(1));
    assert_eq!(one.width, two.width);
    let room = StaffSpace(1.0);
    let system = stack_staves(vec![one.clone(), two.clone()], room, Join::Brace);
    assert_eq!(system.tops.len(), 2);
    let (above, below) = (one.bounds.bottom, system.tops[1] + two.bounds.top);
    assert!(below - above >= room - StaffSpace(1e-9), "{above:?} {below:?}");
    // Far notes push the staves apart, by the ink and the room and no more.
    let (deep, high) = (lay(&staff(Clef::TREBLE, 0, "C3")), lay(&staff(Clef::BASS, 0, "C6")));
    let (deep_end, high_end) = (deep.bounds.bottom, high.bounds.top);
    let system_far = stack_staves(vec![deep, high], room, Join::Line);
    let gap = system_far.tops[1] + high_end - deep_end;
    assert!((gap - room).0.abs() < 1e-9, "{gap:?}");
    assert!(system.bounds.left < StaffSpace::ZERO, "the brace stands left of the staves");
}

/// Heads of a staff in a second system: what is in force there.
#[test]
fn a_later_system_begins_with_what_is_in_force() {
    let mut spec = staff(Clef::TREBLE, 0, "C4 D4 E4 F#3");
    spec.columns[2].clef_change = Some(Clef::ALTO);
    spec.columns[2].signature_change = Some(Signature(1));
    let metrics = Metrics::fit(&[&spec], 2..4, StaffSpace(6.0));
    assert_eq!(metrics.head, head_width(Clef::ALTO, Signature(1)));
    assert!(metrics.before.iter().all(|room| *room == Before::default()), "the head shows the change");
    let drawn: Vec<Glyph> =
        glyphs(&lay_out(&spec, 2..4, &metrics).drawing).into_iter().map(|(glyph, _)| glyph).collect();
    assert_eq!(drawn, [Glyph::CClef, Glyph::AccidentalSharp, Glyph::NoteheadBlack, Glyph::NoteheadBlack]);
}

#[test]
fn ties_join_heads_and_cross_the_end_of_a_system() {
    let mut spec = staff(Clef::TREBLE, 0, "C5 C5 F#4 F#4");
    spec.columns[1].notes[0].tied_from_previous = true;
    spec.columns[3].notes[0].tied_from_previous = true;
    let layout = lay(&spec);
    let drawn = ties(&layout.drawing);
    assert_eq!(drawn.len(), 2);
    for (at, (from, to, rise)) in drawn.iter().enumerate() {
        let centers = [at * 2, at * 2 + 1].map(|column| layout.column_center(column).unwrap());
        assert!(centers[0] < from.x && to.x < centers[1]);
        // Away from the stem: over a stem downwards, under a stem upwards.
        assert_eq!(*rise > StaffSpace::ZERO, at == 0);
    }
    let metrics = Metrics::fit(&[&spec], 0..3, StaffSpace(6.0));
    let (first, second) = (lay_out(&spec, 0..3, &metrics), lay_out(&spec, 3..4, &metrics));
    assert_eq!(ties(&first.drawing).len(), 2, "one goes on to the next system");
    assert_eq!(ties(&first.drawing)[1].1.x, first.width);
    assert_eq!(ties(&second.drawing).len(), 1, "and arrives there");
}

#[test]
fn overlays_hold_the_notes_alone() {
    let spec = staff(Clef::TREBLE, -3, "C4 E4");
    let whole = lay(&spec);
    let notes = lay(&StaffSpec { parts: Parts::Notes, ..spec });
    assert_eq!(whole.width, notes.width);
    assert!(notes.drawing.items.iter().all(|item| matches!(item.ink, Ink::Written | Ink::Ledger)));
    assert!(whole.drawing.items.ends_with(&notes.drawing.items));
}

#[test]
fn ids_and_inks_reach_the_items() {
    let mut spec = staff(Clef::TREBLE, 0, "Eb4,G4");
    spec.ink = Ink::Sounding;
    spec.columns[0].notes[0].id = Some(ElementId(7));
    spec.columns[0].notes[0].ink = Some(Ink::Warning);
    let drawing = lay(&spec).drawing;
    let mine: Vec<&Shape> =
        drawing.items.iter().filter(|item| item.id == Some(ElementId(7))).map(|item| &item.shape).collect();
    assert_eq!(mine.len(), 2, "its head and its flat; the stem belongs to both notes");
    assert!(drawing.items.iter().filter(|item| item.id.is_some()).all(|item| item.ink == Ink::Warning));
    assert_eq!(lines(&drawing, Ink::Sounding).len(), 1, "the shared stem");
}

/// No column touches its neighbour at the narrowest width.
#[test]
fn the_narrowest_column_is_wide_enough() {
    let spec = staff(Clef::TREBLE, 0, "Eb4,Gb4,Bb4,Db5 C#5,D#5,E#5 Abbbb4 C4 B3,C4,D4");
    let narrowest = narrowest_column(&spec);
    let metrics = Metrics::fit(&[&spec], spec.all(), narrowest);
    let inks: Vec<Bounds> = (0..spec.columns.len())
        .map(|at| {
            let mut alone = StaffSpec { parts: Parts::Notes, ..spec.clone() };
            for (other, column) in alone.columns.iter_mut().enumerate() {
                if other != at {
                    *column = ColumnSpec::default();
                }
            }
            lay_out(&alone, alone.all(), &metrics).drawing.bounds().unwrap()
        })
        .collect();
    for pair in inks.windows(2) {
        assert!(pair[1].left - pair[0].right > StaffSpace(0.69), "{pair:?}");
    }
}

#[test]
fn directions_stand_over_their_columns_clear_of_everything() {
    let mut spec = StaffSpec::new(Clef::TREBLE, Signature(-3));
    let notes = ["C7", "E5", "G6", "C5", "A6"];
    spec.columns = notes.iter().map(|name| column(vec![NoteSpec::new(name.parse().unwrap())])).collect();
    spec.columns[1].above = vec!["I muta in B basso".into(), "II muta in D".into()];
    spec.columns[2].above = vec!["muta in F".into()];
    spec.columns[4].above = vec!["muta in C".into()];
    spec.columns[1].clef_change = Some(Clef::BASS);
    let metrics = Metrics::fit(&[&spec], spec.all(), narrowest_column(&spec));
    let layout = lay_out(&spec, spec.all(), &metrics);
    let is_text = |item: &&crookwise_engraving::Item| matches!(item.shape, Shape::Text { .. });
    let texts: Vec<Bounds> =
        layout.drawing.items.iter().filter(is_text).map(|item| item.shape.bounds()).collect();
    assert_eq!(texts.len(), 4);
    for (at, text) in texts.iter().enumerate() {
        assert!(text.left >= StaffSpace::ZERO && text.right.0 <= layout.width.0 + 1e-9, "{text:?}");
        assert!(text.bottom < StaffSpace::ZERO);
        let others =
            layout.drawing.items.iter().filter(|item| !is_text(item)).map(|item| item.shape.bounds());
        assert!(others.chain(texts[..at].iter().copied()).all(|other| !other.overlaps(*text)), "{text:?}");
    }
    // The first player's stands over the second's, and both over their column.
    let left = metrics.left(1);
    assert!(texts[1].bottom < texts[0].top);
    assert!(texts.iter().take(2).all(|text| text.left <= left && text.right > left), "{texts:?}");
}

/// Bars before these columns of a staff.
fn barred(mut spec: StaffSpec, bars: &[(usize, &str)]) -> StaffSpec {
    for (column, number) in bars {
        spec.columns[*column].bar = Some((*number).to_owned());
    }
    spec
}

fn bar_lines(drawing: &Drawing) -> Vec<StaffSpace> {
    let upright = lines(drawing, Ink::Staff).into_iter().filter(|(from, to)| from.x == to.x);
    upright.map(|(from, _)| from.x).collect()
}

fn texts(drawing: &Drawing) -> Vec<(String, Bounds)> {
    let text = |item: &crookwise_engraving::Item| match &item.shape {
        Shape::Text { text, .. } => Some((text.clone(), item.shape.bounds())),
        _ => None,
    };
    drawing.items.iter().filter_map(text).collect()
}

#[test]
fn bar_lines_of_staves_stand_under_each_other() {
    let bars = [(0, "66"), (2, "67"), (4, "68")];
    let mut upper = barred(staff(Clef::TREBLE, 0, "C4 D4 Fb6,Gb6 G4 A#3,B#3 C5"), &bars);
    let mut lower = barred(staff(Clef::BASS, -3, "C3 D3 E3 F3 G3 A3"), &bars.map(|(at, _)| (at, "")));
    upper.columns[2].clef_change = Some(Clef::BASS);
    lower.columns[2].signature_change = Some(Signature(2));
    let staves = [&upper, &lower];
    let widest = staves.map(narrowest_column).into_iter().fold(StaffSpace::ZERO, StaffSpace::max);
    let metrics = Metrics::fit(&staves, 0..6, widest);
    let [upper, lower] = staves.map(|spec| lay_out(spec, 0..6, &metrics));
    assert_eq!(bar_lines(&upper.drawing), bar_lines(&lower.drawing));
    // At the head stands none: two of three.
    let [second, third] = bar_lines(&upper.drawing)[..] else { panic!() };
    // The clef stands before the line, the signature behind it.
    let clef = glyphs(&upper.drawing).into_iter().find(|(glyph, _)| *glyph == Glyph::FClefChange).unwrap().1;
    assert!(clef.x < second && second < metrics.left(2) && third < metrics.left(4));
    let signature = glyphs(&lower.drawing).into_iter().filter(|(glyph, _)| *glyph == Glyph::AccidentalSharp);
    let signature: Vec<StaffSpace> = signature.map(|(_, at)| at.x).collect();
    assert!(signature.len() == 2 && signature.iter().all(|x| *x > second && *x < metrics.left(2)));
    // Nothing but the five lines meets a bar line, ledger lines and accidentals included.
    for layout in [&upper, &lower] {
        for x in bar_lines(&layout.drawing) {
            let line = Bounds::new(x.0 - 0.35, -20.0, x.0 + 0.35, 20.0);
            let meets = layout.drawing.items.iter().filter(|item| item.ink != Ink::Staff);
            let meets: Vec<_> = meets.filter(|item| !matches!(item.shape, Shape::Text { .. })).collect();
            assert!(meets.iter().all(|item| !item.shape.bounds().overlaps(line)), "{x:?}");
        }
    }
}

#[test]
fn numbers_stand_over_their_lines_and_clear_of_all_else() {
    let mut spec =
        barred(staff(Clef::TREBLE, 0, "C4 D4 A6,C7 G4 A4 C5"), &[(0, "66"), (2, "67"), (3, ""), (4, "68")]);
    spec.columns[2].above.push("muta in D".into());
    let layout = lay(&spec);
    let texts = texts(&layout.drawing);
    assert_eq!(
        texts.iter().map(|(text, _)| text.as_str()).collect::<Vec<_>>(),
        ["66", "67", "68", "muta in D"]
    );
    assert_eq!(texts[0].1.left, StaffSpace::ZERO);
    for (number, line) in [(1, 0), (2, 2)] {
        let bounds = texts[number].1;
        let line = bar_lines(&layout.drawing)[line];
        assert!(bounds.left < line && line < bounds.right && bounds.bottom < StaffSpace::ZERO);
    }
    for (at, (text, bounds)) in texts.iter().enumerate() {
        let others = layout.drawing.items.iter().map(|item| item.shape.bounds());
        assert_eq!(others.filter(|other| other.overlaps(*bounds)).count(), 1, "{text} {at}");
    }
}

#[test]
fn a_system_ends_with_a_line_where_the_next_begins_a_bar() {
    let spec = barred(staff(Clef::TREBLE, 0, "C4 D4 E4 F4"), &[(0, "1"), (2, "2")]);
    let metrics = Metrics::fit(&[&spec], 0..2, StaffSpace(6.0));
    let first = lay_out(&spec, 0..2, &metrics);
    let [line] = bar_lines(&first.drawing)[..] else { panic!() };
    assert!((line.0 - first.width.0).abs() < 0.2 && first.bounds.right == first.width);
    let metrics = Metrics::fit(&[&spec], 2..4, StaffSpace(6.0));
    let second = lay_out(&spec, 2..4, &metrics);
    assert!(bar_lines(&second.drawing).is_empty() && metrics.before == [Before::default(); 2]);
    assert_eq!(texts(&second.drawing)[0].0, "2");
    // Laid over the same staff once more are only the notes.
    let notes = StaffSpec { parts: Parts::Notes, ..spec };
    assert!(texts(&lay_out(&notes, 0..4, &metrics).drawing).is_empty());
}
