//! Every construct of a file, in small ones checked by hand against the MusicXML 4.0 standard (W3C).
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod kit;

use crookwise_musicxml::{Oddity, import, import_text};
use crookwise_score::score::{
    BarLine, Direction, GroupSign, Jump, Mark, NoteValue, Stem, TimeSignature, TimedDirection, TremoloKind,
};
use crookwise_score::{ChangeTo, SignatureSource};
use crookwise_theory::{Clef, Signature};
use kit::{bar, note, notes, one, part, score, sounding, staff, written};

/// Where a title of a work ends; in one piece it looks like a folder.
const WORK_ENDS: &str = concat!("/work-title></", "work>");
const FOUR: &str =
    "<attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>";

#[test]
fn notes_chords_rests_and_voices_stand_in_their_time() {
    let music = bar(
        1,
        &[
            FOUR,
            &note("C4 2", "<voice>1</voice>"),
            &format!("<note><chord/>{}<duration>2</duration></note>", written("E4")),
            &note("r 2", ""),
            "<backup><duration>4</duration></backup><forward><duration>1</duration></forward>",
            &note("G3 3", "<voice>2</voice>"),
        ]
        .concat(),
    ) + &bar(2, &note("D4 4", ""));
    let read = one("Piano", &music);
    assert_eq!(notes(&read), ["C4 0-2", "E4 0-2", "G3 1-4", "r 2-4", "D4 4-8"]);
    let voices: Vec<u8> = staff(&read).notes().iter().map(|(_, note)| note.voice).collect();
    assert_eq!(voices, [1, 1, 2, 1, 1]);
    assert_eq!(read.parts[0].counts.on_stem, 1);
    assert!(staff(&read).notes()[1].1.look.on_stem);
    assert_eq!(read.score.bars()[0].time, Some(TimeSignature { beats: 4, value: 4 }));
    assert_eq!(read.score.bars()[1].number.as_ref(), "2");
    // In the order of the file, whatever the time.
    assert_eq!(sounding(&read), ["C4", "E4", "G3", "D4"]);
}

#[test]
fn fractions_of_divisions_and_tuplets_are_exact() {
    let third =
        "<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>";
    let music = bar(
        1,
        &[
            "<attributes><divisions>1.5</divisions></attributes>",
            &note("C4 0.5", third),
            &note("D4 .5", third),
            &note("E4 0.50", third),
            &note("F4 1.5", ""),
            "<attributes><divisions>960</divisions></attributes>",
            &note("G4 320", third),
        ]
        .concat(),
    );
    let read = one("Flute", &music);
    assert_eq!(notes(&read), ["C4 0-1/3", "D4 1/3-2/3", "E4 2/3-1", "F4 1-2", "G4 2-7/3"]);
    let tuplet = staff(&read).notes()[0].1.tuplet.unwrap();
    assert_eq!((tuplet.notes, tuplet.in_time_of), (3, 2));
}

#[test]
fn a_note_without_a_length_has_that_of_its_value() {
    let bare = |inside: &str| format!("<note>{}{inside}</note>", written("C4"));
    let music = bar(
        1,
        &[
            FOUR,
            &bare("<type>half</type><dot/>"),
            &bare("<duration>-3</duration><type>eighth</type>"),
            &bare("<duration>99999999999</duration><type>eighth</type>"),
            &bare("<duration>one</duration>"),
        ]
        .concat(),
    );
    let read = one("Flute", &music);
    assert_eq!(notes(&read), ["C4 0-3", "C4 3-7/2", "C4 7/2-4", "C4 4-4"]);
    let said =
        |what: &Oddity| read.remarks.iter().find(|remark| remark.what == *what).map(|remark| remark.times);
    assert_eq!(said(&Oddity::NoDuration), Some(1));
    assert_eq!(said(&Oddity::OddDuration), Some(3));
}

#[test]
fn grace_and_cue_notes_take_no_time_or_stand_small() {
    let grace =
        |pitch: &str| format!("<note><grace slash=\"yes\"/>{}<type>eighth</type></note>", written(pitch));
    let music = bar(
        1,
        &[
            FOUR,
            &grace("D5"),
            &grace("E5"),
            &note("C5 4", ""),
            &note("G4 1", "").replace("<note>", "<note><cue/>"),
        ]
        .concat(),
    );
    let read = one("Flute", &music);
    assert_eq!(notes(&read), ["D5 0-0", "E5 0-0", "C5 0-4", "G4 4-5"]);
    let all = staff(&read).notes();
    assert!(all[0].1.grace && all[0].1.look.slash && all[0].1.start < all[1].1.start);
    assert!(all[1].1.end <= all[2].1.start && all[3].1.look.cue);
    assert_eq!((read.parts[0].counts.graces, read.parts[0].counts.cues), (2, 1));
}

#[test]
fn ties_join_and_slurs_do_not() {
    let music = bar(
        1,
        &[
            FOUR,
            &note("C4 4", "<tie type=\"start\"/><notations><tied type=\"start\"/><slur type=\"start\" number=\"1\"/></notations>"),
        ]
        .concat(),
    ) + &bar(2, &note("C4 2", "<tie type=\"stop\"/><notations><slur type=\"stop\"/></notations>"))
        + &bar(3, &note("C4 2", "<notations><tied type=\"stop\"/></notations>"));
    let read = one("Flute", &music);
    let tied: Vec<(bool, bool)> =
        staff(&read).notes().iter().map(|(_, note)| (note.tied, note.look.tied_on)).collect();
    assert_eq!(tied, [(false, true), (true, false), (true, false)]);
    let slurs: Vec<(u8, u8)> =
        staff(&read).notes().iter().map(|(_, note)| (note.look.slurs_begin, note.look.slurs_end)).collect();
    assert_eq!(slurs, [(1, 0), (0, 1), (0, 0)]);
}

#[test]
fn signs_at_notes_are_kept() {
    let inside = "<type>16th</type><dot/><accidental>natural</accidental><stem>down</stem>\
        <beam number=\"1\">begin</beam><beam number=\"2\">forward hook</beam>\
        <notations><technical><stopped/></technical><articulations><accent/><staccato/></articulations>\
        <ornaments><trill-mark/><tremolo type=\"single\">3</tremolo></ornaments><fermata/><dynamics><sf/></dynamics></notations>";
    let music = bar(
        1,
        &[
            FOUR,
            &note("B4 1", inside),
            &note("C4 1", "<notations><technical><open/></technical></notations>"),
            &note("C4 1", "<notations><technical><half-muted/></technical></notations>"),
        ]
        .concat(),
    );
    let read = one("Corno in C alto", &music);
    let look = staff(&read).notes()[0].1.look;
    assert_eq!(
        (look.value, look.dots, look.stem, look.accidental),
        (Some(NoteValue::N16), 1, Some(Stem::Down), Some(0))
    );
    assert_eq!((look.beams.begin, look.beams.hook_right), (1, 2));
    for mark in [Mark::Stopped, Mark::Accent, Mark::Staccato, Mark::Trill, Mark::Fermata] {
        assert!(look.marks.has(mark), "{mark:?}");
    }
    assert_eq!(look.tremolo.map(|tremolo| (tremolo.strokes, tremolo.kind)), Some((3, TremoloKind::Repeated)));
    assert!(staff(&read).notes()[1].1.look.marks.has(Mark::Open));
    assert!(staff(&read).notes()[2].1.look.marks.has(Mark::HalfStopped));
    assert_eq!(staff(&read).directions[0].direction, Direction::Dynamic("sf".into()));
    assert_eq!(read.remarks, []);
}

#[test]
fn a_tremolo_between_two_notes_begins_and_ends() {
    let tremolo = |kind: &str| {
        format!(
            "<type>half</type><notations><ornaments><tremolo type=\"{kind}\">3</tremolo></ornaments></notations>"
        )
    };
    let music = bar(
        1,
        &[
            FOUR,
            &note("C5 2", &tremolo("start")),
            &note("E5 2", &tremolo("stop")),
            &note("C5 2", &tremolo("unmeasured")).replace(">3<", "><"),
        ]
        .concat(),
    );
    let read = one("Violino I", &music);
    let kinds: Vec<_> = staff(&read)
        .notes()
        .iter()
        .map(|(_, note)| note.look.tremolo.map(|tremolo| (tremolo.strokes, tremolo.kind)))
        .collect();
    assert_eq!(kinds[..2], [Some((3, TremoloKind::Begins)), Some((3, TremoloKind::Ends))]);
    assert_eq!(kinds[2].map(|(_, kind)| kind), Some(TremoloKind::Unmeasured));
    // Each lasts as long as its duration says, whatever its printed value.
    assert_eq!(notes(&read), ["C5 0-2", "E5 2-4", "C5 4-6"]);
}

#[test]
fn what_stands_at_a_note_of_the_lower_staff_is_the_lower_staffs() {
    let loud = "<staff>2</staff><notations><dynamics><ff/></dynamics></notations>";
    let clef =
        "<attributes><staves>2</staves><clef number=\"2\"><sign>F</sign><line>4</line></clef></attributes>";
    let music = bar(
        1,
        &[
            clef,
            &note("C5 4", "<staff>1</staff>"),
            "<backup><duration>4</duration></backup>",
            &note("C3 4", loud),
        ]
        .concat(),
    );
    let read = one("Piano", &music);
    let [upper, lower] = &part(&read).staves[..] else { panic!("two staves") };
    assert_eq!((upper.directions.len(), lower.directions.len()), (0, 1));
    assert_eq!(lower.directions[0].direction, Direction::Dynamic("ff".into()));
    // At a note on the stem of another they stand where both begin.
    let on_stem =
        note("E5 4", "<notations><dynamics><p/></dynamics></notations>").replace("<note>", "<note><chord/>");
    let read = one("Flute", &bar(1, &[note("r 4", ""), note("C5 4", ""), on_stem].concat()));
    assert_eq!(staff(&read).directions[0].at.time.to_string(), "4");
    assert_eq!((lower.settings.clef, upper.notes().len(), lower.notes().len()), (Some(Clef::BASS), 1, 1));
}

#[test]
fn clefs_keys_and_times_change_anywhere() {
    let music = bar(
        1,
        "<attributes><divisions>2</divisions><key><fifths>-3</fifths><mode>minor</mode></key><time><beats>3+2</beats>\
         <beat-type>8</beat-type></time><clef><sign>F</sign><line>4</line><clef-octave-change>-1</clef-octave-change></clef></attributes>",
    ) + &bar(
        2,
        &[
            &note("C3 2", ""),
            "<attributes><clef><sign>C</sign><line>4</line></clef><key><fifths>0</fifths></key></attributes>",
            &note("D3 3", ""),
        ]
        .concat(),
    );
    let read = one("Violoncello", &music);
    let own = staff(&read);
    assert_eq!(own.settings.clef, "F4".parse().ok().and_then(|clef: Clef| Clef::new(clef.sign, 4, -1).ok()));
    assert_eq!(own.settings.signature, Some(SignatureSource::Typed(Signature(-3))));
    // The first bar holds nothing: it has the length of its time.
    assert_eq!(read.score.bars()[1].start.to_string(), "5/2");
    let changes: Vec<String> =
        own.changes().iter().map(|change| format!("{} {:?}", change.at.time, change.to.kind())).collect();
    assert_eq!(changes, ["7/2 Clef", "7/2 Signature"]);
    assert_eq!(read.score.movement.map(|key| key.to_string()).as_deref(), Some("C minor"));
    assert_eq!(
        read.score.movement_at(own.changes()[0].at).map(|key| key.to_string()).as_deref(),
        Some("C major")
    );
}

#[test]
fn transposition_changes_anywhere_and_by_staff() {
    let transpose = |number: &str, numbers: &str| {
        format!("<attributes><transpose{number}>{numbers}</transpose></attributes>")
    };
    let down_fifth = "<diatonic>-4</diatonic><chromatic>-7</chromatic>";
    let music = bar(
        1,
        &[
            transpose("", down_fifth).as_str(),
            &note("C5 1", ""),
            &transpose(
                "",
                "<diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change>",
            ),
            &note("C5 1", ""),
            &transpose(
                "",
                "<diatonic>0</diatonic><chromatic>0</chromatic><octave-change>-1</octave-change><double/>",
            ),
            &note("C5 1", ""),
        ]
        .concat(),
    );
    let read = one("Horn in F", &music);
    assert_eq!(sounding(&read), ["F4", "Bb3", "C4"]);
    assert!(staff(&read).told[2].doubled_below && !staff(&read).told[1].doubled_below);
    // For one staff of two.
    let two = bar(
        1,
        &[
            "<attributes><staves>2</staves></attributes>",
            &transpose(" number=\"2\"", down_fifth),
            &note("C5 1", "<staff>1</staff>"),
            "<backup><duration>1</duration></backup>",
            &note("C5 1", "<staff>2</staff>"),
        ]
        .concat(),
    );
    assert_eq!(sounding(&one("Piano", &two)), ["C5", "F4"]);
}

#[test]
fn grace_notes_at_a_change_belong_to_the_side_on_which_they_stand() {
    let grace = format!("<note><grace/>{}</note>", written("C5"));
    let transpose = |numbers: &str| format!("<attributes><transpose>{numbers}</transpose></attributes>");
    let music = bar(
        1,
        &[
            transpose("<diatonic>-4</diatonic><chromatic>-7</chromatic>").as_str(),
            &note("C5 4", ""),
            &grace,
            &transpose("<diatonic>-1</diatonic><chromatic>-2</chromatic>"),
            &grace,
            &note("C5 4", ""),
        ]
        .concat(),
    );
    assert_eq!(sounding(&one("Horn in F", &music)), ["F4", "F4", "Bb4", "Bb4"]);
}

#[test]
fn letters_that_a_transposition_leaves_out_are_those_of_the_label() {
    let music = |chromatic: i32| {
        bar(
            1,
            &format!(
                "<attributes><transpose><chromatic>{chromatic}</chromatic></transpose></attributes>{}",
                note("C5 1", "")
            ),
        )
    };
    // C-sharp or D-flat: the label knows.
    let read = one("Horn in D♭", &music(-11));
    assert_eq!(sounding(&read), ["Db4"]);
    assert!(read.remarks.iter().any(|remark| remark.what == Oddity::NoLetters));
    assert_eq!(sounding(&one("Something", &music(-2))), ["Bb4"]);
}

#[test]
fn directions_stand_where_they_begin() {
    let direction = |inside: &str, more: &str| {
        format!("<direction><direction-type>{inside}</direction-type>{more}</direction>")
    };
    let music = bar(
        1,
        &[
            FOUR,
            &direction("<words>Solo &amp; dolce</words>", ""),
            &direction("<dynamics><p/></dynamics>", "<offset>2</offset>"),
            &direction("<wedge type=\"crescendo\"/>", ""),
            &direction("<metronome><beat-unit>half</beat-unit><beat-unit-dot/><per-minute>60</per-minute></metronome>", ""),
            &note("C5 4", ""),
            &direction("<wedge type=\"stop\"/>", "<sound tempo=\"72.5\" dacapo=\"yes\"/>"),
            &direction("<rehearsal>B</rehearsal>", ""),
            &direction("<octave-shift type=\"down\" size=\"8\"/>", ""),
        ]
        .concat(),
    );
    let read = one("Flute", &music);
    let all: Vec<String> =
        staff(&read).directions.iter().map(|told| format!("{} {:?}", told.at.time, told.direction)).collect();
    assert_eq!(
        all,
        [
            "0 Words(\"Solo & dolce\")",
            "0 Crescendo",
            "0 Tempo(180000)",
            "2 Dynamic(\"p\")",
            "4 HairpinEnds",
            "4 Tempo(72500)",
            "4 Rehearsal(\"B\")",
            "4 Ottava(1)",
        ]
    );
    assert_eq!(read.score.bars()[0].signs.jumps, [Jump::DaCapo]);
}

/// Of a mark of the metronome between brackets no bracket is left open; other brackets stay.
#[test]
fn the_brackets_round_a_metronome_are_no_words() {
    let words = |before: &str, after: &str| {
        let of = |words: &str| format!("<direction-type><words>{words}</words></direction-type>");
        let mark = "<direction-type><metronome><beat-unit>half</beat-unit><per-minute>66</per-minute></metronome></direction-type>";
        let music =
            format!("{FOUR}<direction>{}{mark}{}<sound tempo=\"132\"/></direction>", of(before), of(after));
        let read = one("Flute", &bar(1, &music));
        let words = |told: &TimedDirection| match &told.direction {
            Direction::Words(words) => Some(words.to_string()),
            _ => None,
        };
        staff(&read).directions.iter().filter_map(words).collect::<Vec<_>>()
    };
    assert_eq!(words("Presto. [", "]"), ["Presto."]);
    assert_eq!(words("Allegro (", ") con brio"), ["Allegro", "con brio"]);
    assert_eq!(words("Allegro (ma non troppo)", "[a 2]"), ["Allegro (ma non troppo)", "[a 2]"]);
}

#[test]
fn repeats_endings_and_bar_lines_are_the_bars_own() {
    let music = bar(1, "<barline location=\"left\"><repeat direction=\"forward\"/></barline>")
        + &bar(
            2,
            "<barline location=\"left\"><ending number=\"1, 2\" type=\"start\"/></barline><barline><repeat direction=\"backward\" times=\"3\"/><ending number=\"1, 2\" type=\"stop\"/></barline>",
        )
        + &bar(
            3,
            "<attributes><measure-style><multiple-rest>2</multiple-rest></measure-style></attributes><barline><bar-style>light-heavy</bar-style><segno/></barline>",
        )
        + &bar(
            4,
            "<attributes><measure-style><measure-repeat type=\"start\">1</measure-repeat></measure-style></attributes>",
        )
        + &bar(5, "")
        + &bar(6, "<attributes><measure-style><measure-repeat type=\"stop\"/></measure-style></attributes>");
    let read = one("Flute", &music);
    let signs: Vec<_> = read.score.bars().iter().map(|bar| &bar.signs).collect();
    assert!(signs[0].repeat_from && !signs[1].repeat_from);
    assert_eq!(
        (signs[1].ending.as_deref(), signs[1].ending_ends, signs[1].repeat_to),
        (Some("1, 2"), true, Some(3))
    );
    assert_eq!((signs[2].rests_together, signs[2].line), (2, BarLine::Final));
    assert_eq!(signs[2].jumps, [Jump::Segno]);
    assert_eq!([signs[3].like_before, signs[4].like_before, signs[5].like_before], [1, 1, 0]);
    // What is not written out does not sound, and that is said. W3C, MusicXML 4.0, `measure-repeat`: "The actual music being
    // repeated needs to be repeated within each measure of the MusicXML file."
    let told = read.remarks.iter().find(|remark| remark.what == Oddity::NotWrittenOut);
    assert_eq!(told.map(|remark| (remark.bar.as_ref(), remark.times)), Some(("4", 2)));
    let start = "<attributes><measure-style><measure-repeat type=\"start\">1</measure-repeat></measure-style></attributes>";
    let written_out = bar(1, &note("C5 1", "")) + &bar(2, &[start, &note("C5 1", "")].concat());
    assert_eq!(one("Flute", &written_out).remarks, []);
}

#[test]
fn places_to_jump_to_and_from_are_the_bars_own() {
    let sound = |inside: &str| format!("<sound {inside}=\"yes\"/>");
    let type_of =
        |inside: &str| format!("<direction><direction-type><{inside}/></direction-type></direction>");
    let bars = [
        type_of("segno") + &sound("segno"),
        sound("tocoda"),
        sound("fine"),
        sound("dalsegno"),
        type_of("coda"),
        sound("dacapo").replace("yes", "no"),
    ];
    let music: String = (1..).zip(&bars).map(|(number, inside)| bar(number, inside)).collect();
    let read = one("Flute", &music);
    let jumps: Vec<&[Jump]> = read.score.bars().iter().map(|bar| &bar.signs.jumps[..]).collect();
    assert_eq!(
        jumps,
        [&[Jump::Segno][..], &[Jump::ToCoda], &[Jump::Fine], &[Jump::DalSegno], &[Jump::Coda], &[]]
    );
}

#[test]
fn endings_and_hairpins_end_where_they_do() {
    let ending = |kind: &str| format!("<barline><ending number=\"2\" type=\"{kind}\"/></barline>");
    let wedge = |kind: &str| {
        format!("<direction><direction-type><wedge type=\"{kind}\"/></direction-type></direction>")
    };
    let music = bar(1, &[FOUR, &ending("start"), &wedge("diminuendo"), &note("C5 4", "")].concat())
        + &bar(2, &[note("C5 4", "").as_str(), &wedge("stop"), &ending("discontinue")].concat());
    let read = one("Flute", &music);
    let signs: Vec<_> =
        read.score.bars().iter().map(|bar| (bar.signs.ending.as_deref(), bar.signs.ending_ends)).collect();
    assert_eq!(signs, [(Some("2"), false), (None, true)]);
    let told: Vec<String> =
        staff(&read).directions.iter().map(|told| format!("{} {:?}", told.at.time, told.direction)).collect();
    assert_eq!(told, ["0 Diminuendo", "8 HairpinEnds"]);
}

#[test]
fn parts_are_grouped_and_named_as_they_are_shown() {
    let list = "<part-list><part-group number=\"1\" type=\"start\"><group-name>Brass</group-name><group-symbol>bracket</group-symbol></part-group>\
        <score-part id=\"A\"><part-name>x</part-name><part-name-display><display-text>Corni in E</display-text><accidental-text>flat</accidental-text><display-text> 1</display-text></part-name-display></score-part>\
        <score-part id=\"B\"><part-name>Trombe\nin B</part-name></score-part><part-group number=\"1\" type=\"stop\"/>\
        <score-part id=\"C\"><part-name/><score-instrument id=\"i\"><instrument-name>Viola</instrument-name></score-instrument></score-part></part-list>";
    let music =
        ["A", "C", "Z"].map(|id| format!("<part id=\"{id}\">{}</part>", bar(1, &note("C4 1", "")))).concat();
    let read = import_text(&format!("<!DOCTYPE score-partwise><score-partwise><work><work-title>Old<{WORK_ENDS}<movement-title>New</movement-title>{list}{music}</score-partwise>")).unwrap();
    let names: Vec<&str> = read.score.parts().iter().map(|part| part.name.as_ref()).collect();
    assert_eq!(names, ["Corni in E♭ 1", "Trombe in B", "Viola", ""]);
    assert_eq!(read.score.title.as_ref(), "Old – New");
    let group = &read.score.groups[0];
    assert_eq!((group.from, group.to, group.sign), (read.parts[0].id, read.parts[1].id, GroupSign::Bracket));
    let odd: Vec<(Option<usize>, &Oddity)> =
        read.remarks.iter().map(|remark| (remark.part, &remark.what)).collect();
    assert!(
        odd.contains(&(Some(1), &Oddity::NoMusic)) && odd.contains(&(Some(3), &Oddity::UnlistedPart)),
        "{odd:?}"
    );
}

#[test]
fn what_is_not_understood_is_counted() {
    let music = bar(
        1,
        &[&note("C4 1", ""), "<harmony><kind>major</kind></harmony><figured-bass/>", "<harmony/>"].concat(),
    );
    let read = one("Flute", &music);
    let times = |name: &str| {
        let what = Oddity::NotUnderstood(name.into());
        read.remarks.iter().find(|remark| remark.what == what).map_or(0, |remark| remark.times)
    };
    assert_eq!((times("harmony"), times("figured-bass")), (2, 1));
}

#[test]
fn notes_without_pitch_are_told_from_the_others() {
    let drum = "<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>1</duration></note>";
    let read = one("Triangle", &bar(1, &[drum, &note("r 1", "")].concat()));
    assert_eq!((read.parts[0].counts.unpitched, read.parts[0].counts.pitched), (1, 0));
    assert!(staff(&read).notes()[0].1.look.unpitched && sounding(&read).is_empty());
}

#[test]
fn microtones_are_read_to_the_nearer_semitone_and_said() {
    let odd = "<note><pitch><step>C</step><alter>0.5</alter><octave>4</octave></pitch><duration>1</duration></note>";
    let read = one("Flute", &bar(1, &odd.repeat(2)));
    assert_eq!(notes(&read), ["C#4 0-1", "C#4 1-2"]);
    assert_eq!(read.remarks[0].what, Oddity::Microtone);
}

#[test]
fn a_page_at_sounding_pitch_says_so() {
    let text = score(&[("Horn in F", &bar(1, &note("F4 1", "")))])
        .replace("<part-list>", "<defaults><concert-score/></defaults><part-list>");
    let read = import_text(&text).unwrap();
    assert!(staff(&read).settings.at_pitch);
    assert_eq!(sounding(&read), ["F4"]);
}

#[test]
fn a_label_that_disagrees_with_its_file_is_told_with_both_readings() {
    let music = |numbers: &str| {
        bar(1, &format!("<attributes><transpose>{numbers}</transpose></attributes>{}", note("C5 1", "")))
    };
    let agrees = one("Corni in F", &music("<diatonic>-4</diatonic><chromatic>-7</chromatic>"));
    assert_eq!((agrees.remarks.len(), staff(&agrees).choice), (0, None));
    let read = one("Corni in C basso", &music("<diatonic>0</diatonic><chromatic>0</chromatic>"));
    let Oddity::LabelDisagrees(told) = &read.remarks[0].what else { panic!("{:?}", read.remarks) };
    assert!(told.octaves_only, "{told:?}");
    assert_eq!(staff(&read).choice.map(|choice| choice.transposition.0.semitones), Some(0));
    // What the label leaves open is told where the file takes it in the less usual way.
    let remarks = |octave: &str| {
        one("Corni in B", &music(&format!("<diatonic>-1</diatonic><chromatic>-2</chromatic>{octave}")))
            .remarks
    };
    let both = [remarks(""), remarks("<octave-change>-1</octave-change>")];
    assert_eq!(both.iter().filter(|remarks| remarks.is_empty()).count(), 1, "{both:?}");
    for remark in both.iter().flatten() {
        assert!(matches!(&remark.what, Oddity::UnusualReading(told) if told.octaves_only), "{remark:?}");
    }
    // A key that only the file tells is no disagreement; a page that sounds as printed may be one at sounding pitch.
    assert_eq!(one("Tromba 1", &music("<diatonic>1</diatonic><chromatic>2</chromatic>")).remarks, []);
    let plain = one("Horn in F", &bar(1, &note("C5 1", "")));
    assert!(matches!(&plain.remarks[0].what, Oddity::PerhapsAtSoundingPitch(_)));
    assert!(part(&read).by_file().iter().all(|note| note.sounding.to_string() == "C5"));
    let changes = staff(&read).changes().iter().any(|change| matches!(change.to, ChangeTo::Label(_)));
    assert!(!changes);
}

#[test]
fn letters_of_any_usual_kind_are_read() {
    let text = score(&[("Hörner in F", &bar(1, &note("C4 1", "")))]);
    let names = |bytes: &[u8]| import(bytes).unwrap().score.parts()[0].name.as_ref().to_owned();
    assert_eq!(names(text.as_bytes()), "Hörner in F");
    let wide: Vec<u8> = [0xFEFF]
        .into_iter()
        .chain(text.replace('"', "'").encode_utf16())
        .flat_map(u16::to_le_bytes)
        .collect();
    assert_eq!(names(&wide), "Hörner in F");
    let narrow: Vec<u8> = text
        .replace("version=\"1.0\"", "version='1.0' encoding='ISO-8859-1'")
        .chars()
        .map(|letter| u8::try_from(u32::from(letter)).unwrap())
        .collect();
    assert_eq!(names(&narrow), "Hörner in F");
}

#[test]
fn changes_of_crook_are_found_in_words_and_held_against_the_file() {
    let transpose = |numbers: &str| format!("<attributes><transpose>{numbers}</transpose></attributes>");
    let words =
        |text: &str| format!("<direction><direction-type><words>{text}</words></direction-type></direction>");
    let in_e_flat = transpose("<diatonic>-5</diatonic><chromatic>-9</chromatic>");
    let in_d = transpose("<diatonic>-6</diatonic><chromatic>-10</chromatic>");
    let in_g = transpose("<diatonic>-3</diatonic><chromatic>-5</chromatic>");
    let bars = |change: &str, after: &str| {
        bar(1, &[FOUR, &in_e_flat, &note("C5 4", "")].concat())
            + &bar(2, &[change, &note("r 4", "")].concat())
            + &bar(3, &[after, &note("C5 4", "")].concat())
    };
    let labels = |read: &crookwise_musicxml::Import| -> Vec<String> {
        let changes = staff(read).changes().iter();
        changes
            .filter_map(|change| match &change.to {
                ChangeTo::Label(text) => Some(format!("{} {text}", change.at.time)),
                _ => None,
            })
            .collect()
    };
    // Words and file agree: the words are the label.
    let read = one("Corni in Es", &bars(&words("muta in D"), &in_d));
    assert_eq!((labels(&read), read.remarks.len()), (vec!["8 muta in D".to_owned()], 0));
    assert_eq!(sounding(&read), ["Eb4", "D4"]);
    // The file changes and no word says so: the name of the crook.
    let read = one("Corni in Es", &bars("", &in_g));
    assert_eq!(labels(&read), ["8 Horn in G"]);
    // The words change, and the file does not follow.
    let read = one("Corni in Es", &bars(&words("muta in D"), ""));
    assert_eq!(labels(&read), [""; 0]);
    assert!(
        matches!(&read.remarks[0].what, Oddity::WordsUnheeded(said) if said.as_ref() == "muta in D"),
        "{:?}",
        read.remarks
    );
    assert_eq!(read.remarks[0].bar.as_ref(), "2");
    // They say different things.
    let read = one("Corni in Es", &bars(&words("muta in D"), &in_g));
    assert_eq!(labels(&read), ["8 Horn in G"]);
    assert_eq!(read.remarks.len(), 1);
    // Other words are none.
    let read = one("Corni in Es", &bars(&words("in modo di marcia"), ""));
    assert_eq!(read.remarks, []);
}

#[test]
fn minor_is_told_from_major_where_the_file_does_not_say() {
    let key = "<attributes><divisions>1</divisions><key><fifths>-3</fifths></key></attributes>";
    let key_of = |notes: &[&str]| {
        let inside: String = notes.iter().map(|pitch| note(&format!("{pitch} 1"), "")).collect();
        one("Violoncello", &bar(1, &format!("{key}{inside}"))).score.movement.unwrap().to_string()
    };
    assert_eq!(key_of(&["C3", "Eb3", "G3", "B2", "C3"]), "C minor");
    assert_eq!(key_of(&["Eb3", "G3", "Bb3", "D3", "Eb3"]), "Eb major");
    assert_eq!(key_of(&["G3", "Bb3", "F3"]), "Eb major");
}

#[test]
fn names_with_the_prefix_of_a_namespace_are_read() {
    let text = score(&[("Flute", &bar(1, &note("C5 1", "")))]);
    let prefixed =
        text.replace("</", "</m:").replace('<', "<m:").replace("<m:/m:", "</m:").replace("<m:?", "<?");
    assert_eq!(import_text(&prefixed).unwrap().parts[0].counts.pitched, 1, "{prefixed}");
}

#[test]
fn a_score_is_named_by_work_and_movement() {
    let named = |work: &str, movement: &str| {
        let heading = format!("<work>{work}<{}{movement}", concat!("/", "work>"));
        let text = score(&[("Flute", &bar(1, &note("C5 1", "")))]);
        import_text(&text.replace("<part-list>", &format!("{heading}<part-list>"))).unwrap().score
    };
    let work = "<work-number>Op.67</work-number><work-title>Symphony No.5</work-title>";
    let movement = "<movement-number>4</movement-number><movement-title>Allegro</movement-title>";
    let creator = "<identification><creator type=\"arranger\">Nobody</creator><creator type=\"composer\">Somebody </creator></identification>";
    let whole = named(work, &format!("{movement}{creator}"));
    assert_eq!(whole.title.as_ref(), "Symphony No.5, Op.67 – 4. Allegro");
    assert_eq!(whole.composer.as_ref(), "Somebody");
    for (work, movement, title) in [
        (work, "", "Symphony No.5, Op.67"),
        ("", movement, "Allegro"),
        (work, "<movement-title>Symphony No.5</movement-title>", "Symphony No.5, Op.67"),
        ("<work-title>Duo</work-title>", "<movement-title>Duo in C</movement-title>", "Duo in C"),
        ("<work-number>Op.1</work-number>", "<movement-title>1. Lento</movement-title>", "Op.1 – 1. Lento"),
        ("", "", ""),
    ] {
        let score = named(work, movement);
        assert_eq!((score.title.as_ref(), score.composer.as_ref()), (title, ""));
    }
}

#[test]
fn what_is_odd_is_said_in_whole_sentences_without_abbreviations() {
    let moved = |diatonic: i32, chromatic: i32, octaves: i32| {
        format!(
            "<attributes><transpose><diatonic>{diatonic}</diatonic><chromatic>{chromatic}</chromatic><octave-change>{octaves}</octave-change></transpose></attributes>"
        )
    };
    let said = |name: &str, attributes: &str| {
        let read = import_text(&score(&[(name, &bar(1, &(attributes.to_owned() + &note("C5 1", ""))))]));
        read.unwrap().remarks.iter().map(ToString::to_string).collect::<Vec<_>>()
    };
    assert_eq!(
        said("Horn in D", &moved(1, 2, 0)),
        [
            "This part sounds an octave higher than its label says (Horn in D). What sounds is what the file has: to hear the \
          octave of the label, choose that under “Read as”"
        ]
    );
    let other = &said("Horn in D", &moved(-4, -7, 0))[0];
    assert!(
        other.contains(
            "Horn in D, which sounds a minor seventh lower; in the file the part sounds a perfect fifth"
        ),
        "{other}"
    );
    let pitch = &said("Horn in D", "")[0];
    assert!(
        pitch.contains("the part may be printed as it sounds. If it is printed for its player"),
        "{pitch}"
    );
    let unusual = &said("Horn in B-flat", &moved(-1, -2, 0));
    assert!(unusual.iter().all(|said| !said.contains("m2") && !said.contains("P8")), "{unusual:?}");
}
