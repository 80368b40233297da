//! What was corrected stands in the file that goes out, also as it is written: small files of our own.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod going_out;
mod kit;

use crookwise_musicxml::import;
use crookwise_opened::{Answer, Ask, Correction, OutPitch};
use going_out::{out, sounding};

fn note(step: &str, octave: i32) -> String {
    format!(
        "<note><pitch><step>{step}</step><octave>{octave}</octave></pitch><duration>4</duration><type>whole</type></note>"
    )
}

/// A horn in A: a note in the treble clef, one under the bass clef an octave too low for a horn, one in the treble clef.
fn horn() -> String {
    let clef = |sign: &str, line: u8| format!("<clef><sign>{sign}</sign><line>{line}</line></clef>");
    let begins = format!(
        "<divisions>1</divisions><key><fifths>0</fifths></key>{}<transpose><diatonic>-2</diatonic><chromatic>-3</chromatic></transpose>",
        clef("G", 2)
    );
    let bars = [
        format!("<attributes>{begins}</attributes>{}", note("C", 5)),
        format!("<attributes>{}</attributes>{}{}", clef("F", 4), note("G", 2), note("C", 2)),
        format!("<attributes>{}</attributes>{}", clef("G", 2), note("E", 5)),
    ];
    let bars: String = (1..)
        .zip(bars)
        .map(|(number, bar)| format!("<measure number=\"{number}\">{bar}</measure>"))
        .collect();
    format!(
        "<?xml version=\"1.0\"?><score-partwise version=\"4.0\"><part-list><score-part id=\"P1\"><part-name>A Horn 1</part-name></score-part></part-list><part id=\"P1\">{bars}</part></score-partwise>"
    )
}

#[test]
fn a_corrected_label_goes_out_as_it_is_written() {
    let in_e = Correction { label: Some("Horn in E".into()), ..Correction::default() };
    let (text, read) = out(&horn(), in_e.clone(), OutPitch::AsWritten);
    let (_, sounds) = out(&horn(), in_e, OutPitch::Sounding);
    assert_eq!(read.score.parts()[0].name.as_ref(), "Horn in E");
    assert!(!text.contains("A Horn 1"), "{text}");
    assert!(text.contains("<diatonic>-5</diatonic><chromatic>-8</chromatic>"), "{text}");
    assert!(text.contains("<step>C</step><octave>5</octave>"), "what is written stays: {text}");
    assert_eq!(sounding(&read), sounding(&sounds));
    assert_eq!(sounding(&read)[0], "E4");
    assert_eq!(read.remarks, []);
}

#[test]
fn old_bass_notation_goes_out_as_it_is_written() {
    let old = Correction { old_bass: true, ..Correction::default() };
    let (text, read) = out(&horn(), old.clone(), OutPitch::AsWritten);
    let (_, sounds) = out(&horn(), old, OutPitch::Sounding);
    assert_eq!(sounding(&read), ["A4", "E3", "A2", "C#5"]);
    assert_eq!(sounding(&read), sounding(&sounds));
    // On the paper it stands where it stood: the clef says the octave.
    assert!(
        text.contains("<sign>F</sign><line>4</line><clef-octave-change>1</clef-octave-change>"),
        "{text}"
    );
    assert_eq!(text.matches("clef-octave-change>1").count(), 1);
    assert!(text.contains("<part-name>A Horn 1</part-name>"));
    assert!(
        read.score
            .clone()
            .old_bass(&mut |text| {
                std::sync::Arc::new(crookwise_theory::label::decode(text, Default::default()))
            })
            .is_empty()
    );
}

#[test]
fn what_was_not_corrected_goes_out_as_it_came() {
    let (text, _) = out(&horn(), Correction::default(), OutPitch::AsWritten);
    let declared = horn().replace("<?xml version=\"1.0\"?>", "<?xml version=\"1.0\" encoding=\"UTF-8\"?>");
    assert_eq!(text, declared);
}

#[test]
fn horns_of_the_demo_movement_at_sounding_pitch_have_its_key_and_no_words_for_a_crook() {
    let (mut holder, summary) = kit::opened("");
    let horns = summary.parts.iter().filter(|part| part.name.starts_with("Corno"));
    let staves: Vec<u32> = horns.flat_map(|part| part.staves.iter().map(|staff| staff.staff)).collect();
    assert_eq!(staves.len(), 4);
    let out = holder.answer(Ask::Out { staves, pitch: OutPitch::Sounding }, Vec::new(), &mut |_| {});
    let Answer::File(file) = out else { panic!("{out:?}") };
    let text = String::from_utf8(file.clone()).unwrap();
    let keys: Vec<&str> =
        text.split("<fifths>").skip(1).map(|rest| rest.split('<').next().unwrap()).collect();
    // D minor, then D major.
    assert_eq!(keys, ["-1", "2"].repeat(4));
    assert!(!text.contains("muta"));
    let remarks = import(&file).unwrap().remarks;
    assert!(!remarks.iter().any(|remark| remark.to_string().contains("in G")), "{remarks:?}");
}
