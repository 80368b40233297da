//! What is said of a score: small ones of our own, reckoned by hand.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod kit;

use crookwise_musicxml::{Import, import_text};
use crookwise_score::Event;
use crookwise_score::audit::{AuditOptions, StaffAudit, audit};
use crookwise_score::harmony::harmonies;
use crookwise_score::places::{PlaceKind, ScorePlace, places};
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use kit::{bar, note, score};
use std::sync::Arc;

fn decoder(text: &str) -> Arc<Decoded> {
    Arc::new(decode(text, DecodeOptions::default()))
}

/// The attributes of a part: divisions of a quarter, key, time, clef, transposition.
fn attributes(inside: &str) -> String {
    format!(
        "<attributes><divisions>1</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time>{inside}</attributes>"
    )
}

const TREBLE: &str = "<clef><sign>G</sign><line>2</line></clef>";
const BASS: &str = "<clef><sign>F</sign><line>4</line></clef>";
const IN_E_FLAT: &str = "<transpose><diatonic>-5</diatonic><chromatic>-9</chromatic></transpose>";
const IN_D: &str = "<transpose><diatonic>-6</diatonic><chromatic>-10</chromatic></transpose>";

/// Bars of these notes, each bar of four quarters, the first with attributes in front.
fn bars(first: &str, all: &[&[&str]]) -> String {
    (1..)
        .zip(all)
        .map(|(number, notes)| {
            let inside: String = notes.iter().map(|text| note(text, "")).collect();
            bar(number, &if number == 1 { format!("{first}{inside}") } else { inside })
        })
        .collect()
}

fn of(parts: &[(&str, &str)]) -> Import {
    import_text(&score(parts)).unwrap()
}

fn audits(read: &Import) -> Vec<StaffAudit> {
    audit(&read.score, AuditOptions::default(), &mut decoder)
}

#[test]
fn a_horn_is_held_against_each_of_its_crooks() {
    let first = attributes(&format!("{TREBLE}{IN_E_FLAT}"));
    let muta = "<direction><direction-type><words>muta in D</words></direction-type></direction>";
    // Open, hand out (partial 7 corrected), off the series by hand, out of reach, a grace note and a tie that do not count.
    let grace = "<note><grace/><pitch><step>D</step><octave>5</octave></pitch></note>";
    let tied = note("C5 4", "<tie type=\"stop\"/>");
    let horn = bar(
        1,
        &[&first, &note("C4 1", ""), &note("G4 1", ""), &note("Bb4 1", ""), grace, &note("A4 1", "")]
            .concat(),
    ) + &bar(2, &[note("D3 2", "").as_str(), &note("C5 2", "<tie type=\"start\"/>")].concat())
        + &bar(3, &[tied.as_str(), muta].concat())
        + &bar(4, &note("r 4", ""))
        + &bar(
            5,
            &[
                format!("<attributes>{IN_D}</attributes>").as_str(),
                &note("r 2", ""),
                &note("C6 1", ""),
                &note("A5 1", ""),
            ]
            .concat(),
        );
    let read = of(&[("Corno in Es", &horn)]);
    let [own] = &audits(&read)[..] else { panic!("one staff of brass") };
    assert_eq!((own.attacks(), own.on_series()), (8, 6));
    let [e_flat, d] = &own.lines[..] else { panic!("two crooks: {:?}", own.lines) };
    assert_eq!((e_flat.crook.as_str(), d.crook.as_str()), ("Horn in E-flat", "Horn in D"));
    let by_partial = |list: &[(u8, Vec<_>)]| {
        list.iter().map(|(partial, notes)| (*partial, notes.len())).collect::<Vec<_>>()
    };
    assert_eq!(by_partial(&e_flat.open), [(4, 1), (6, 1), (8, 1)]);
    assert_eq!(by_partial(&e_flat.corrected), [(7, 1)]);
    let made: Vec<(String, usize)> =
        e_flat.made.iter().map(|(letter, _, notes)| (letter.to_string(), notes.len())).collect();
    assert_eq!(made, [("A".to_owned(), 1)]);
    assert_eq!(e_flat.out_of_reach.len(), 1);
    assert_eq!(
        (e_flat.lowest.unwrap().0.to_string(), e_flat.highest.unwrap().0.to_string()),
        ("D3".into(), "C5".into())
    );
    // Partials 16 and 13 stand above the twelfth.
    let high = d.longest_high.unwrap();
    assert_eq!((high.bar, high.length.to_string(), high.attacks), (4, "2".to_owned(), 2));
    let [change] = &own.changes[..] else { panic!("one change") };
    assert_eq!((change.from.as_str(), change.to.as_str(), change.bar), ("Horn in E-flat", "Horn in D", 4));
    assert_eq!(change.rest.to_string(), "6");
}

/// By the standard a cue is silent (MusicXML 4.0, `cue`): another part's notes, printed small for who counts.
#[test]
fn cue_notes_are_not_the_parts_own() {
    let cue = |pitch: &str| note(&format!("{pitch} 4"), "").replace("<note>", "<note><cue/>");
    let first = attributes(&format!("{TREBLE}{IN_E_FLAT}"));
    // Far above its reach, then far below.
    let bass = format!("<attributes>{BASS}</attributes>");
    let treble = format!("<attributes>{TREBLE}</attributes>");
    let horn = bar(1, &[first.as_str(), &note("C5 4", "")].concat())
        + &bar(2, &cue("C7"))
        + &bar(3, &[bass.as_str(), &cue("C2")].concat())
        + &bar(4, &[treble.as_str(), &note("G4 4", "")].concat());
    let read = of(&[("Corno in Es", &horn)]);
    assert_eq!((audits(&read)[0].attacks(), audits(&read)[0].on_series()), (2, 2));
    let sounds: Vec<String> =
        read.score.sounded(&mut decoder).iter().map(|note| note.pitch.to_string()).collect();
    assert_eq!(sounds, ["Eb4", "Bb3"]);
    assert_eq!(read.score.old_bass(&mut decoder), []);
    let staff = read.score.parts()[0].staves[0].id;
    let window = read.score.window(&[staff], 0..4).unwrap().passage;
    let seen: Vec<_> = (0..4).map(|column| window.event(0, column, 0)).collect();
    assert!(matches!(
        seen[..],
        [Some(Event::Note(_)), Some(Event::Rest), Some(Event::Rest), Some(Event::Note(_))]
    ));
    // They are in the file all the same.
    assert_eq!((read.parts[0].counts.cues, read.score.parts()[0].by_file().len()), (2, 4));
}

#[test]
fn two_horns_on_a_staff_are_both_counted() {
    let chord = |pitch: &str| note(&format!("{pitch} 4"), "").replace("<note>", "<note><chord/>");
    let first = attributes(&format!("{TREBLE}{IN_E_FLAT}"));
    let voices = [
        &note("E5 4", "<voice>1</voice>"),
        "<backup><duration>4</duration></backup>",
        &note("C5 4", "<voice>2</voice>"),
    ]
    .concat();
    let music = bar(1, &[first.as_str(), &note("G4 4", ""), &chord("C4")].concat()) + &bar(2, &voices);
    let read = of(&[("2 Corni in Es", &music)]);
    assert_eq!(read.score.parts()[0].staves[0].players, 2);
    assert_eq!(audits(&read)[0].attacks(), 4);
    // Through the window each has his own line.
    let staff = read.score.parts()[0].staves[0].id;
    let window = read.score.window(&[staff], 0..2).unwrap();
    assert_eq!((window.passage.staves()[0].players(), window.left_out), (2, 0));
}

#[test]
fn bass_clef_is_old_where_its_notes_would_lie_too_low_and_new_where_not() {
    let first = attributes(&format!("{BASS}{IN_E_FLAT}"));
    let old = bars(&first, &[&["C3 4"], &["G2 2", "C2 2"]]);
    let with_it = bars(&first, &[&["C3 4"], &["r 4"]]);
    let new = bars(&first, &[&["C3 2", "G3 2"], &["C4 4"]]);
    let alone = |music: &str| of(&[("Corno in Es", music)]).score.old_bass(&mut decoder).len();
    assert_eq!((alone(&old), alone(&new)), (1, 0));
    // One that could be new sounds with one that cannot: both are old.
    let both = of(&[("Corno I in Es", &with_it), ("Corno II in Es", &old)]);
    let found = both.score.old_bass(&mut decoder);
    assert_eq!(
        found.iter().map(|old| (old.notes.len(), old.bars.len())).collect::<Vec<_>>(),
        [(1, 1), (3, 2)]
    );
    // An octave mark at the clef has undone it.
    let marked = attributes(&format!(
        "{}{IN_E_FLAT}",
        BASS.replace("</line>", "</line><clef-octave-change>1</clef-octave-change>")
    ));
    assert_eq!(alone(&bars(&marked, &[&["C2 4"]])), 0);
    // Repaired it sounds an octave higher.
    let mut repaired = of(&[("Corno in Es", &old)]);
    let sounds = |read: &Import| -> Vec<String> {
        read.score.sounded(&mut decoder).iter().map(|note| note.pitch.to_string()).collect()
    };
    assert_eq!(sounds(&repaired), ["Eb2", "Bb1", "Eb1"]);
    let staff = repaired.score.old_bass(&mut decoder)[0].staff;
    repaired.score.read_old_bass(staff);
    assert_eq!(sounds(&repaired), ["Eb3", "Bb2", "Eb2"]);
}

/// Four parts in C major: I, V7 over its third, I, ii6 with a passing note in the soprano, I over a held G, V, I.
fn chorale() -> Import {
    let upper = attributes(TREBLE);
    let soprano = bars(&upper, &[&["C5 2", "D5 2"], &["E5 1", "F5 1", "F5 2"], &["E5 2", "D5 2"], &["C5 4"]]);
    let alto = bars(&upper, &[&["G4 2", "G4 2"], &["G4 2", "A4 2"], &["G4 2", "G4 2"], &["G4 4"]]);
    let tenor = bars(&upper, &[&["E4 2", "F4 2"], &["E4 2", "D4 2"], &["C4 2", "B3 2"], &["E4 4"]]);
    let low = bars(&attributes(BASS), &[&["C3 2", "B2 2"], &["C3 2", "F2 2"], &["G2 2", "G2 2"], &["C3 4"]]);
    of(&[("Oboe", &soprano), ("Viola", &alto), ("Bassoon", &tenor), ("Violoncello", &low)])
}

#[test]
fn harmonies_change_where_they_do_and_not_at_a_passing_note() {
    let read = chorale();
    let found = harmonies(&read.score, &read.score.sounded(&mut decoder));
    let told: Vec<String> = found
        .iter()
        .map(|one| {
            format!(
                "{}: {} {}",
                one.from,
                one.harmony,
                one.harmony.degree.map_or_else(String::new, |degree| degree.to_string())
            )
        })
        .collect();
    assert_eq!(
        told,
        [
            "0: C major 1",
            "2: G dominant seventh, third in the bass 5",
            "4: C major 1",
            "6: D minor, third in the bass 2",
            "8: C major, fifth in the bass 1",
            "10: G major 5",
            "12: C major 1",
        ]
    );
    // Who holds it: every note of the first chord.
    assert_eq!(found[0].notes.len(), 4);
}

#[test]
fn drums_stand_beside_the_bass() {
    let drums = bars(&attributes(BASS), &[&["G2 4"]]);
    let upper = bars(&attributes(TREBLE), &[&["C5 4"]]);
    let middle = bars(&attributes(TREBLE), &[&["E4 4"]]);
    let low = bars(&attributes(BASS), &[&["C3 4"]]);
    let read = of(&[("Oboe", &upper), ("Viola", &middle), ("Timpani in C G", &drums), ("Violoncello", &low)]);
    let found = harmonies(&read.score, &read.score.sounded(&mut decoder));
    assert_eq!(found[0].harmony.to_string(), "major third, C and E");
    assert_eq!(found[0].drums.iter().map(ToString::to_string).collect::<Vec<_>>(), ["G2"]);
}

fn found_in(read: &Import) -> Vec<ScorePlace> {
    let sounded = read.score.sounded(&mut decoder);
    places(&read.score, &sounded, &harmonies(&read.score, &sounded))
}

#[test]
fn places_are_found_by_their_thresholds() {
    let first = attributes(&format!("{TREBLE}{IN_E_FLAT}"));
    let rest: &[&str] = &["r 4"];
    let mut one: Vec<&[&str]> = vec![rest; 8];
    let mut two = one.clone();
    // Horn fifths up and down, then a fanfare, then a pedal.
    one.extend([&["C5 1", "D5 1", "E5 2"][..], &["D5 2", "C5 2"]]);
    two.extend([&["E4 1", "G4 1", "C5 2"][..], &["G4 2", "E4 2"]]);
    one.extend([&["C5 1", "E5 1", "G5 1", "E5 1"][..], &["C5 4"]]);
    two.extend([rest, rest]);
    let read = of(&[("Corno I in Es", &bars(&first, &one)), ("Corno II in Es", &bars(&first, &two))]);
    let found = found_in(&read);
    let of_kind = |kind: PlaceKind| -> Vec<((usize, usize), usize)> {
        found
            .iter()
            .filter(|place| place.kind == kind)
            .map(|place| (place.bars, place.staves.len()))
            .collect()
    };
    assert_eq!(of_kind(PlaceKind::Entry), [((8, 8), 2)]);
    assert_eq!(of_kind(PlaceKind::HornFifths), [((8, 9), 2)]);
    assert_eq!(of_kind(PlaceKind::Exposed), [((8, 11), 2)]);
    // The second horn's own line is one, and the first's that follows it.
    assert_eq!(of_kind(PlaceKind::Fanfare), [((8, 11), 2)]);
    assert_eq!(of_kind(PlaceKind::Pedal), []);
    // One bar of rest less is no long rest.
    let short: Vec<&[&str]> = one[1..].to_vec();
    let read = of(&[("Corno in Es", &bars(&first, &short))]);
    let found = found_in(&read);
    assert!(found.iter().all(|place| place.kind != PlaceKind::Entry));
}

/// The bars of the places of a kind, each with the number of its staves.
fn of_kind(parts: &[(&str, &str)], kind: PlaceKind) -> Vec<((usize, usize), usize)> {
    let read = of(parts);
    let found = found_in(&read).into_iter().filter(|place| place.kind == kind);
    found.map(|place| (place.bars, place.staves.len())).collect()
}

#[test]
fn a_pedal_lies_while_chords_change() {
    let horn = attributes(&format!("{TREBLE}{IN_E_FLAT}"));
    let lies = bars(&horn, &[&["C5 4"], &["C5 4"], &["C5 4"], &["C5 4"]]);
    let under = |chords: &[&[&str]]| {
        let chords: Vec<Vec<&[&str]>> =
            (0..3).map(|voice| chords.iter().map(|bar| &bar[voice..=voice]).collect()).collect();
        let [high, middle, low] = &chords[..] else { panic!("three voices") };
        let upper = attributes(TREBLE);
        let voices = [bars(&upper, high), bars(&upper, middle), bars(&attributes(BASS), low)];
        let parts = [
            ("Corno in Es", &*lies),
            ("Oboe", &*voices[0]),
            ("Clarinetto in C", &*voices[1]),
            ("Fagotto", &*voices[2]),
        ];
        of_kind(&parts, PlaceKind::Pedal)
    };
    let tonic = ["Bb4 4", "G4 4", "Eb3 4"];
    let subdominant = ["C5 4", "Ab4 4", "Ab2 4"];
    let seventh = ["Db5 4", "G4 4", "Eb3 4"];
    assert_eq!(under(&[&tonic, &subdominant, &tonic, &subdominant]), [((0, 3), 1)]);
    // A triad and its seventh are one chord.
    assert_eq!(under(&[&tonic, &seventh, &tonic, &seventh]), []);
    // It only reaches into the next chord.
    let horn_longer = |last: &[&str]| {
        let lies = bars(&horn, &[&["C5 4"], &["C5 4"], &["C5 4"], last]);
        let parts = ["G4 4", "Bb4 4", "Eb3 4"]
            .map(|pitch| bars(&attributes(TREBLE), &[&[pitch], &[pitch], &[pitch], &[]]));
        let last = ["Ab4 4", "C5 4", "Ab2 4"];
        let parts: Vec<String> = parts
            .iter()
            .zip(last)
            .map(|(part, pitch)| {
                part.replace("<measure number=\"4\">", &format!("<measure number=\"4\">{}", note(pitch, "")))
            })
            .collect();
        let names = ["Oboe", "Clarinetto in C", "Fagotto"];
        let parts: Vec<(&str, &str)> = [("Corno in Es", &*lies)]
            .into_iter()
            .chain(names.into_iter().zip(parts.iter().map(String::as_str)))
            .collect();
        of_kind(&parts, PlaceKind::Pedal)
    };
    assert_eq!(horn_longer(&["C5 4"]), [((0, 3), 1)]);
    assert_eq!(horn_longer(&["C5 3", "r 1"]), []);
}

#[test]
fn a_solo_is_one_line_over_what_others_hold() {
    let horn = attributes(&format!("{TREBLE}{IN_E_FLAT}"));
    let line = bars(&horn, &[&["C5 2", "D5 2"], &["E5 2", "G5 2"], &["E5 2", "C5 2"]]);
    let with = |other: &[&[&str]]| {
        of_kind(&[("Corno I in Es", &line), ("Corno II in Es", &bars(&horn, other))], PlaceKind::Solo)
    };
    // It may change once, with the harmony.
    assert_eq!(with(&[&["C4 4"], &["C4 4"], &["G3 4"]]), [((0, 2), 1)]);
    // Each bar another note is a line of its own, though none of them moves within its bar.
    assert_eq!(with(&[&["C4 4"], &["G4 4"], &["C4 4"]]), []);
    // In octaves it is one line.
    assert_eq!(with(&[&["C4 2", "D4 2"], &["E4 2", "G4 2"], &["E4 2", "C4 2"]]), [((0, 2), 2)]);
    // Three notes that are repeated are no line.
    let repeated =
        bars(&horn, &[&["C5 1", "C5 1", "C5 1", "C5 1"], &["D5 1", "D5 1", "D5 1", "D5 1"], &["E5 4"]]);
    assert_eq!(of_kind(&[("Corno in Es", &repeated)], PlaceKind::Solo), []);
    // A violin that has it in syncopation doubles it.
    let violin = bars(
        &attributes(TREBLE),
        &[&["r 1", "Eb5 2", "F5 1"], &["r 1", "G5 2", "Bb5 1"], &["r 1", "G5 2", "Eb5 1"]],
    );
    assert_eq!(of_kind(&[("Corno in Es", &line), ("Violino I", &violin)], PlaceKind::Solo), []);
}

#[test]
fn who_leads_is_louder_or_has_the_highest_line() {
    let horn = attributes(&format!("{TREBLE}{IN_E_FLAT}"));
    let loud = |mark: &str| {
        format!("<direction><direction-type><dynamics><{mark}/></dynamics></direction-type></direction>")
    };
    let tune: [&[&str]; 3] = [&["C5 2", "D5 2"], &["E5 2", "G5 2"], &["E5 2", "C5 2"]];
    let figure: [&[&str]; 3] = [&["Eb4 1", "G4 1", "Bb4 1", "G4 1"]; 3];
    let with = |mark: &str, more: Option<&str>| {
        let line = bars(&format!("{horn}{}", loud("f")), &tune);
        let figures = bars(&format!("{}{}", attributes(TREBLE), loud(mark)), &figure);
        let mut parts = vec![
            ("Corno in Es", &*line),
            ("Violino I", &*figures),
            ("Violino II", &*figures),
            ("Viola", &*figures),
        ];
        parts.extend(more.map(|more| ("Oboe", more)));
        of_kind(&parts, PlaceKind::Leads)
    };
    assert_eq!(with("f", None), []);
    assert_eq!(with("pp", None), [((0, 2), 1)]);
    let oboe = bars(&attributes(TREBLE), &[&["Eb5 2", "F5 2"], &["G5 2", "Bb5 2"], &["G5 2", "Eb5 2"]]);
    assert_eq!(with("f", Some(&oboe)), [((0, 2), 1)]);
    // A part that only joins in some notes of the tune does not lead.
    let richer = bars(
        &attributes(TREBLE),
        &[
            &["Eb5 1", "Ab5 1", "F5 1", "Ab5 1"],
            &["G5 1", "C6 1", "Bb5 1", "C6 1"],
            &["G5 1", "F5 1", "Eb5 1", "D5 1"],
        ],
    );
    assert_eq!(with("f", Some(&richer)), []);
}
