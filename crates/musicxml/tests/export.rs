//! What goes out: the same sounds, and of the source every byte that need not change.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod kit;

use crookwise_musicxml::export::{ExportError, ExportOptions, ExportPitch, export};
use crookwise_musicxml::import;
use kit::{bar, note, score};

const HORN: &str = "<attributes><divisions>1</divisions><key><fifths>0</fifths></key><clef><sign>G</sign><line>2</line></clef>\
    <transpose><diatonic>-5</diatonic><chromatic>-9</chromatic></transpose></attributes>";

fn horns_and_flute() -> String {
    let horn = bar(
        1,
        &[
            HORN,
            // In one piece the end of a root looks like a folder.
            concat!("<harmony><root><root-step>C</root-step></", "root><kind>major</kind>"),
            "<bass><bass-step>E</bass-step></bass></harmony>",
            "<direction><direction-type><words>dolce</words></direction-type></direction>",
            &note("C5 1", "<type>quarter</type><stem>down</stem><odd thing='1'/>"),
            &note("F#5 1", "<type>quarter</type><accidental>sharp</accidental>"),
            &note("F#5 1", "<type>quarter</type>"),
            &note("F5 1", "<type>quarter</type><accidental>natural</accidental>"),
        ]
        .concat(),
    );
    let flute =
        bar(1, &[&HORN[..HORN.find("<transpose>").unwrap()], "</attributes>", &note("G5 4", "")].concat());
    score(&[("Corni in Es", &horn), ("Flute", &flute)])
}

fn out(text: &str, pitch: ExportPitch, parts: Option<Vec<usize>>) -> String {
    String::from_utf8(export(text.as_bytes(), &ExportOptions { pitch, parts }).unwrap()).unwrap()
}

/// What each part sounds by its file.
fn sounding(text: &str) -> Vec<Vec<String>> {
    let read = import(text.as_bytes()).unwrap();
    let parts = read.score.parts().iter();
    parts.map(|part| part.by_file().iter().map(|note| note.sounding.to_string()).collect()).collect()
}

#[test]
fn at_sounding_pitch_every_note_is_written_as_it_sounds() {
    let source = horns_and_flute();
    let sounds = out(&source, ExportPitch::Sounding, None);
    assert_eq!(sounding(&sounds), sounding(&source));
    assert!(!sounds.contains("<transpose>"));
    assert_eq!(sounds.matches("<fifths>0</fifths>").count(), 2, "the horns have the flute's key: {sounds}");
    // E-flat, A, A, A-flat without a signature: a flat, none, none, a flat.
    let signs: Vec<&str> =
        sounds.split("<accidental>").skip(1).map(|rest| rest.split('<').next().unwrap()).collect();
    assert_eq!(signs, ["flat", "flat"]);
    assert!(
        !sounds.contains("<stem>")
            && sounds.contains("<odd thing='1'/>")
            && sounds.contains("<words>dolce</words>")
    );
    assert!(sounds.contains("<root-step>E</root-step><root-alter>-1</root-alter>"), "{sounds}");
    assert!(sounds.contains("<bass-step>G</bass-step>"));
}

#[test]
fn written_for_another_crook_it_sounds_the_same() {
    let source = horns_and_flute();
    let in_f = out(&source, ExportPitch::WrittenFor("Horn in F".to_owned()), Some(vec![0]));
    let read = import(in_f.as_bytes()).unwrap();
    assert_eq!((read.parts.len(), read.score.parts()[0].name.as_ref()), (1, "Horn in F"));
    assert_eq!(sounding(&in_f)[0], sounding(&source)[0]);
    assert_eq!(read.remarks.iter().filter(|remark| format!("{remark:?}").contains("Label")).count(), 0);
    let written: Vec<String> =
        read.score.parts()[0].by_file().iter().map(|note| note.written.to_string()).collect();
    assert_eq!(written, ["Bb4", "E5", "E5", "Eb5"]);
    let clarinet = out(&source, ExportPitch::WrittenFor("Clarinetto in A".to_owned()), Some(vec![1]));
    assert_eq!(sounding(&clarinet)[0], ["G5"]);
    assert!(clarinet.contains("<fifths>-3</fifths>") && clarinet.contains("<transpose>"));
}

#[test]
fn a_courtesy_stays_one() {
    // A sharp; in the next bar a natural that nobody needs, in brackets; then a note tied over with its sign once more.
    let sharp = "<type>half</type><accidental>sharp</accidental>";
    let courtesy = "<type>half</type><accidental parentheses=\"yes\">natural</accidental>";
    let tied = "<tie type=\"start\"/><type>half</type>";
    let over = "<tie type=\"stop\"/><type>whole</type><accidental cautionary=\"yes\">sharp</accidental>";
    let horn = bar(1, &[HORN, &note("F#5 2", sharp), &note("C5 2", "<type>half</type>")].concat())
        + &bar(
            2,
            &[note("F5 2", courtesy), note("G#5 2", &format!("<accidental>sharp</accidental>{tied}"))]
                .concat(),
        )
        + &bar(3, &note("G#5 4", over));
    let source = score(&[("Corno in Es", &horn)]);
    let signs = |text: &str| -> Vec<String> {
        text.split("<accidental").skip(1).map(|rest| rest.split("</").next().unwrap().to_owned()).collect()
    };
    let sounding = out(&source, ExportPitch::Sounding, None);
    assert_eq!(
        signs(&sounding),
        [">natural", " parentheses=\"yes\">flat", ">natural", " cautionary=\"yes\">natural"]
    );
    let in_f = out(&source, ExportPitch::WrittenFor("Horn in F".to_owned()), None);
    assert_eq!(in_f.matches("cautionary").count() + in_f.matches("parentheses").count(), 2);
}

#[test]
fn names_with_the_prefix_of_a_namespace_go_out_with_it() {
    let odd = horns_and_flute().replace("<accidental>natural", "<accidental odd=\"a>b\">natural");
    let prefix = |text: &str| {
        text.replace("</", "</m:").replace('<', "<m:").replace("<m:/m:", "</m:").replace("<m:?", "<?")
    };
    for pitch in [ExportPitch::Sounding, ExportPitch::WrittenFor("Horn in F".to_owned())] {
        let plain = out(&odd, pitch.clone(), None);
        assert!(plain.contains("<accidental odd=\"a>b\">") || pitch != ExportPitch::Sounding, "{plain}");
        assert_eq!(out(&prefix(&odd), pitch.clone(), None), prefix(&plain), "{pitch:?}");
        assert_eq!(sounding(&plain), sounding(&odd));
    }
}

#[test]
fn as_written_only_what_was_not_chosen_goes() {
    let source = horns_and_flute();
    let all = out(&source, ExportPitch::AsWritten, None);
    assert_eq!(all, source.replace("<?xml version=\"1.0\"?>", "<?xml version=\"1.0\" encoding=\"UTF-8\"?>"));
    let flute = out(&source, ExportPitch::AsWritten, Some(vec![1]));
    assert!(!flute.contains("Corni") && flute.contains("Flute"));
    assert_eq!(sounding(&flute), [["G5"]]);
}

#[test]
fn what_cannot_go_out_says_why() {
    let source = horns_and_flute();
    let error = |pitch, parts| export(source.as_bytes(), &ExportOptions { pitch, parts }).unwrap_err();
    assert_eq!(error(ExportPitch::Sounding, Some(vec![2])), ExportError::NoSuchPart(2, 2));
    assert_eq!(error(ExportPitch::Sounding, Some(vec![])), ExportError::NoPart);
    assert_eq!(error(ExportPitch::WrittenFor("Xyz".into()), None), ExportError::Label("Xyz".into()));
    assert!(matches!(
        export(b"MThd", &ExportOptions { pitch: ExportPitch::Sounding, parts: None }),
        Err(ExportError::File(_))
    ));
}

#[test]
fn what_stands_before_the_score_does_not_go_out() {
    let source = horns_and_flute();
    let wide: Vec<u8> =
        [0xFEFF, 0x2020].into_iter().chain(source.encode_utf16()).flat_map(u16::to_le_bytes).collect();
    if import(&wide).is_ok() {
        let out = export(&wide, &ExportOptions { pitch: ExportPitch::Sounding, parts: None }).unwrap();
        assert!(out.starts_with(b"<?xml"));
        assert!(import(&out).is_ok());
    }
}

#[test]
fn a_part_without_attributes_is_told_its_transposition() {
    let source = score(&[("Flute", &bar(1, &note("C5 1", "")))]);
    let out = out(&source, ExportPitch::WrittenFor("Horn in F".to_owned()), None);
    assert_eq!(sounding(&out), [["C5"]]);
}

#[test]
fn at_sounding_pitch_every_part_has_the_key_of_the_movement() {
    let key = |fifths: i32| format!("<key><fifths>{fifths}</fifths><mode>major</mode></key>");
    let clef = "<clef><sign>G</sign><line>2</line></clef>";
    let moved = |steps: i32, semitones: i32| {
        format!("<transpose><diatonic>{steps}</diatonic><chromatic>{semitones}</chromatic></transpose>")
    };
    let kind = "<type>whole</type>";
    let violin = bar(
        1,
        &format!("<attributes><divisions>1</divisions>{}{clef}</attributes>{}", key(2), note("F#5 4", kind)),
    ) + &bar(2, &note("D5 4", kind))
        + &bar(3, &format!("<attributes>{}</attributes>{}", key(-1), note("Bb4 4", kind)));
    // No signature, as the trade prints it; the second bar brings another crook, the third nothing.
    let horn =
        bar(
            1,
            &format!(
                "<attributes><divisions>1</divisions>{}{clef}{}</attributes>{}",
                key(0),
                moved(-4, -7),
                note("C#5 4", &format!("{kind}<accidental>sharp</accidental>"))
            ),
        ) + &bar(2, &format!("<attributes>{}{}</attributes>{}", key(0), moved(-3, -5), note("C5 4", kind)))
            + &bar(3, &note("F5 4", kind));
    // Drums that say no key at all.
    let drums =
        bar(1, &format!("<attributes><divisions>1</divisions>{clef}</attributes>{}", note("D5 4", kind)))
            + &bar(2, &note("A5 4", kind))
            + &bar(3, &note("F5 4", kind));
    let source = score(&[("Violino", &violin), ("Corno in F", &horn), ("Timpani", &drums)]);
    let sounds = out(&source, ExportPitch::Sounding, None);
    assert_eq!(sounding(&sounds), sounding(&source));
    let parts: Vec<&str> = sounds.split("<part id").skip(1).collect();
    for part in &parts {
        let keys: Vec<&str> =
            part.split("<fifths>").skip(1).map(|rest| rest.split('<').next().unwrap()).collect();
        assert_eq!(keys, ["2", "-1"], "{part}");
        assert!(part.find("number=\"3\"").unwrap() < part.rfind("<fifths>").unwrap(), "{part}");
    }
    // F-sharp, G, B-flat in D major, D major and F major.
    assert!(!parts[1].contains("<accidental>"), "{}", parts[1]);
    // What prints signatures has that of the movement when it takes the place of what has none.
    let clarinet = out(&source, ExportPitch::WrittenFor("Clarinetto in A".to_owned()), Some(vec![1]));
    assert!(
        clarinet.contains("<fifths>-1</fifths>") && clarinet.contains("<fifths>-4</fifths>"),
        "{clarinet}"
    );
    assert_eq!(sounding(&clarinet)[0], sounding(&source)[1]);
}

#[test]
fn words_for_another_crook_go_where_nothing_changes() {
    let words = |words: &str| {
        format!("<direction><direction-type><words>{words}</words></direction-type></direction>")
    };
    let horn = bar(1, &(HORN.to_owned() + &words("Solo") + &note("C5 4", "") + &words("muta in G")))
        + &bar(
            2,
            &format!(
                "<attributes><transpose><diatonic>-3</diatonic><chromatic>-5</chromatic></transpose></attributes>{}",
                note("C5 4", "")
            ),
        );
    let source = score(&[("Corno in Es", &horn)]);
    for pitch in [ExportPitch::Sounding, ExportPitch::WrittenFor("Corno in F".to_owned())] {
        let out = out(&source, pitch, None);
        assert!(!out.contains("muta") && out.contains("Solo"), "{out}");
        let read = import(out.as_bytes()).unwrap();
        assert!(!read.remarks.iter().any(|remark| remark.to_string().contains("muta")), "{:?}", read.remarks);
    }
    assert!(out(&source, ExportPitch::AsWritten, None).contains("muta in G"));
}

#[test]
fn drums_stay_and_parts_written_for_one_label_are_told_apart() {
    let horn = bar(1, &(HORN.to_owned() + &note("C5 4", "")));
    let drums = bar(1, &("<attributes><divisions>1</divisions></attributes>".to_owned() + &note("C3 4", "")));
    let source =
        score(&[("A Horn 1", &horn), ("A Horn 2", &horn), ("D Trumpet 1", &horn), ("Timpani", &drums)]);
    let in_f = out(&source, ExportPitch::WrittenFor("Corno in F".to_owned()), None);
    let read = import(in_f.as_bytes()).unwrap();
    let names: Vec<&str> = read.score.parts().iter().map(|part| part.name.as_ref()).collect();
    assert_eq!(names, ["Corno in F 1", "Corno in F 2", "Corno in F 3", "Timpani"]);
    assert_eq!(sounding(&in_f), sounding(&source));
    assert_eq!(read.score.parts()[3].by_file()[0].written.to_string(), "C3");
    assert_eq!(read.remarks, []);
    let options = ExportOptions { pitch: ExportPitch::WrittenFor("Corno in F".into()), parts: Some(vec![3]) };
    assert_eq!(export(source.as_bytes(), &options), Err(ExportError::OnlyDrums));
}
