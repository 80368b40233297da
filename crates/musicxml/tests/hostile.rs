//! Broken and hostile files: a sentence and the place, within bounds of time and memory; never a panic.
#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "what a test needs and does not find is its failure"
)]

mod kit;

use crookwise_musicxml::export::{ExportOptions, ExportPitch, export};
use crookwise_musicxml::{FileError, How, Oddity, import, import_text};
use crookwise_theory::label::{DecodeOptions, decode};
use kit::{bar, note, score};
use proptest::prelude::*;
use std::io::{Cursor, Write as _};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

fn small() -> String {
    let bars: String = (1..=4).map(|number| bar(number, &note("C4 4", "<type>whole</type>"))).collect();
    score(&[("Corni in Es", &bars), ("Flute", &bars)])
}

/// An archive of these files.
fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, inside) in files {
        zip.start_file(*name, SimpleFileOptions::default().compression_method(CompressionMethod::Deflated))
            .unwrap();
        zip.write_all(inside).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

const CONTAINER: &str = "<container><rootfiles><rootfile full-path=\"scores/a.xml\" media-type=\"application/vnd.recordare.musicxml+xml\"/></rootfiles></container>";

#[test]
fn the_score_of_an_archive_is_the_one_its_container_names() {
    let text = small();
    // The container need not be the first, and other files may be there.
    let bytes = archive(&[
        ("aaa.xml", b"<other/>"),
        ("scores/a.xml", text.as_bytes()),
        ("META-INF/container.xml", CONTAINER.as_bytes()),
    ]);
    assert_eq!(import(&bytes).unwrap().parts.len(), 2);
    assert_eq!(import(&archive(&[("score.musicxml", text.as_bytes())])).unwrap().parts.len(), 2);
    assert_eq!(import(&archive(&[("picture.png", b"x")])).unwrap_err(), FileError::NoScoreInside);
    let mut cut = bytes.clone();
    cut.truncate(bytes.len() / 2);
    assert_eq!(import(&cut).unwrap_err(), FileError::Archive);
}

#[test]
fn what_is_no_score_is_called_what_it_is() {
    let error = |bytes: &[u8]| import(bytes).unwrap_err();
    assert_eq!(error(b""), FileError::Empty);
    assert_eq!(error(b"MThd\0\0\0\x06"), FileError::Midi);
    assert_eq!(error(b"\x89PNG\r\n\x1a\n"), FileError::NotAScore);
    assert_eq!(error(b"PK\x03\x04 picture called .mxl"), FileError::Archive);
    assert_eq!(error(b"<score-timewise version='3.0'/>"), FileError::Timewise);
    assert_eq!(error(b"<html><body/></html>"), FileError::OtherXml("html".into()));
    assert_eq!(error(b"<score-partwise><part-list/></score-partwise>"), FileError::NoMusic);
    assert_eq!(error(b"<?xml version='1.0' encoding='KOI8-R'?><a/>"), FileError::Letters("KOI8-R".into()));
    for sentence in [error(b""), error(b"MThd"), error(b"<a/>")] {
        assert!(sentence.to_string().chars().next().unwrap().is_uppercase());
    }
}

#[test]
fn an_archive_that_unfolds_without_end_is_refused() {
    // 300 million letters in some hundred thousand bytes.
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    zip.start_file("a.xml", SimpleFileOptions::default()).unwrap();
    let block = vec![b' '; 1 << 20];
    zip.write_all(b"<score-partwise>").unwrap();
    for _ in 0..300 {
        zip.write_all(&block).unwrap();
    }
    let bytes = zip.finish().unwrap().into_inner();
    assert!(bytes.len() < 1 << 20);
    assert_eq!(import(&bytes).unwrap_err(), FileError::TooLarge(200));
}

#[test]
fn entities_are_not_unfolded() {
    let bomb = "<!DOCTYPE score-partwise [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;\"><!ENTITY c \"&b;&b;&b;&b;\">]>";
    let text = small()
        .replace("<score-partwise", &format!("{bomb}<score-partwise"))
        .replace("Corni in Es", "&c;Corni &#x69;n Es &lt;1&gt;");
    let read = import_text(&text).unwrap();
    assert_eq!(read.score.parts()[0].name.as_ref(), "\u{FFFD}Corni in Es <1>");
}

#[test]
fn elements_without_end_are_refused_in_little_time() {
    let deep = |name: &str| format!("<score-partwise>{}", format!("<{name}>").repeat(1_000_000));
    for name in ["part", "note", "x"] {
        let error = import_text(&deep(name)).unwrap_err();
        assert!(
            matches!(&error, FileError::Broken(broken) if broken.how != How::Malformed),
            "{name}: {error}"
        );
    }
    let within = format!("<score-partwise><part id=\"P\"><measure><note>{}", "<pitch>".repeat(1_000_000));
    assert!(import_text(&within).is_err());
}

#[test]
fn a_file_that_breaks_off_shows_what_stands_before() {
    let text = small();
    let end = text.find("number=\"4\"").unwrap() + 40;
    let read = import_text(&text[..end]).unwrap();
    assert_eq!(read.parts[0].bars, 4);
    let Some(Oddity::BreaksOff(where_it_is)) =
        read.remarks.iter().map(|remark| &remark.what).find(|what| matches!(what, Oddity::BreaksOff(_)))
    else {
        panic!("{:?}", read.remarks)
    };
    assert!(where_it_is.contains("breaks off in line 1"), "{where_it_is}");
    assert!(read.remarks.iter().any(|remark| remark.part == Some(1) && remark.what == Oddity::NotReached));
    // Before the second bar there is nothing worth showing.
    let end = text.find("number=\"1\"").unwrap() + 40;
    let error = import_text(&text[..end]).unwrap_err();
    assert!(matches!(&error, FileError::Broken(broken) if broken.how == How::CutOff), "{error:?}");
    let error = import_text(&text.replace("</note>", "</noet>")).unwrap_err();
    assert!(matches!(&error, FileError::Broken(broken) if broken.how == How::Malformed), "{error:?}");
}

#[test]
fn absurd_numbers_are_said_and_bounded() {
    let huge = "9".repeat(400);
    let music = [
        format!("<attributes><divisions>{huge}</divisions><staves>{huge}</staves><key><fifths>{huge}</fifths></key></attributes>"),
        "<attributes><divisions>0</divisions><time><beats>0</beats><beat-type>3</beat-type></time></attributes>".to_owned(),
        format!("<attributes><transpose><chromatic>{huge}</chromatic><octave-change>{huge}</octave-change></transpose></attributes>"),
        note(&format!("C4 {huge}"), ""),
        format!("<backup><duration>{huge}</duration></backup><backup><duration>5</duration></backup><forward><duration>-5</duration></forward>"),
        note("C4 1", "").replace("<octave>4<", &format!("<octave>{huge}<")),
        note("C4 1", "").replace("<alter>0<", &format!("<alter>{huge}<")),
        note("D4 1", ""),
    ]
    .concat();
    let read = import_text(&score(&[("Corni in F", &bar(1, &music))])).unwrap();
    assert!(read.remarks.len() >= 6, "{:?}", read.remarks);
    assert_eq!(read.score.parts()[0].staves.len(), 1);
}

#[test]
fn very_much_of_one_thing_takes_little_time() {
    let clef = |line: u32| format!("<attributes><clef><sign>C</sign><line>{line}</line></clef></attributes>");
    let transpose =
        |by: i32| format!("<attributes><transpose><chromatic>{by}</chromatic></transpose></attributes>");
    let key = |fifths: i32| format!("<attributes><key><fifths>{fifths}</fifths></key></attributes>");
    let double = |staff: u32| {
        format!(
            "<attributes><transpose number=\"s{staff}\"><chromatic>0</chromatic><double/></transpose></attributes>"
        )
    };
    let words = "<direction><direction-type><words>muta in D</words></direction-type></direction>";
    let each =
        |things: &[String]| things.iter().map(|thing| thing.clone() + &note("C4 1", "")).collect::<String>();
    let back = "<backup><duration>1</duration></backup>";
    let floods = [
        ("clefs", each(&[clef(3), clef(4)]).repeat(30_000)),
        ("transpositions", each(&[transpose(-9), transpose(-10)]).repeat(30_000)),
        ("keys", each(&[key(1), key(2)]).repeat(30_000)),
        ("words", (words.to_owned() + &note("C4 1", "")).repeat(60_000)),
        (
            "voices",
            ["<forward><duration>2</duration></forward>", &note("C4 1", ""), back, back, &note("D4 1", "")]
                .concat()
                .repeat(60_000),
        ),
        ("graces", format!("<note><grace/>{}</note>", kit::written("C4")).repeat(60_000)),
        ("staves", (0..60_000).map(|name| note("C4 1", &format!("<staff>{name}</staff>"))).collect()),
        ("doubles", (0..60_000).map(double).collect()),
    ];
    for (name, inside) in floods {
        let text = score(&[("Corni in Es", &bar(1, &inside))]);
        let begun = std::time::Instant::now();
        let read = import_text(&text).unwrap();
        let mut decoder = |text: &str| std::sync::Arc::new(decode(text, DecodeOptions::default()));
        let _ = read.score.old_bass(&mut decoder);
        export(text.as_bytes(), &ExportOptions { pitch: ExportPitch::Sounding, parts: None }).unwrap();
        let took = begun.elapsed();
        assert!(took.as_secs() < 10, "{name}: {took:?} for {} letters", text.len());
        println!("{name}: {took:?}");
    }
    // As many bars, each with its own signature.
    let bars: String = (1..=30_000)
        .map(|number| bar(number, &(key(i32::try_from(number % 7).unwrap()) + &note("C4 4", ""))))
        .collect();
    let begun = std::time::Instant::now();
    import_text(&score(&[("Flute", &bars)])).unwrap();
    assert!(begun.elapsed().as_secs() < 10, "bars: {:?}", begun.elapsed());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_bytes_are_read_or_refused(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = import(&bytes);
        let _ = import(&[&b"PK\x03\x04"[..], &bytes].concat());
        let _ = import(&[&b"<score-partwise>"[..], &bytes].concat());
    }

    #[test]
    fn a_score_with_letters_changed_is_read_or_refused(changes in proptest::collection::vec((any::<proptest::sample::Index>(), any::<u8>()), 1..20)) {
        let mut bytes = small().into_bytes();
        for (at, to) in changes {
            let at = at.index(bytes.len());
            bytes[at] = to;
        }
        if let Err(error) = import(&bytes) {
            prop_assert!(!error.to_string().is_empty());
        }
    }
}

#[test]
fn a_part_that_the_file_does_not_reach_says_so_and_nothing_of_its_label() {
    let horn = "<attributes><transpose><diatonic>0</diatonic><chromatic>0</chromatic><octave-change>-1</octave-change></transpose></attributes>";
    let horn = bar(1, &(horn.to_owned() + &note("C5 1", "")));
    let flute: String = (1..5).map(|number| bar(number, &note("C5 1", ""))).collect();
    let text = score(&[("Flute", &flute), ("C Horn", &horn)]);
    assert_eq!(import_text(&text).unwrap().remarks, []);
    let read = import_text(&text[..text.find("number=\"4\"").unwrap()]).unwrap();
    let of_horn: Vec<_> =
        read.remarks.iter().filter(|remark| remark.part == Some(1)).map(|remark| &remark.what).collect();
    assert_eq!(of_horn, [&Oddity::NotReached]);
    assert_eq!(read.score.parts()[1].staves[0].choice, None);
}
