//! Every construct of a file goes out as it came, but for what hangs on the pitch at which a part is written: small files of
//! our own, each written as it stands, at sounding pitch and for other crooks, and read back.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod kit;

use crookwise_musicxml::export::{ExportOptions, ExportPitch, export};
use crookwise_musicxml::{Import, import};
use crookwise_score::score::{Look, PartStaff, ScoreNote};
use kit::bare::bare;
use kit::constructs::{CONSTRUCTS, source};

fn out(text: &str, pitch: ExportPitch) -> String {
    String::from_utf8(export(text.as_bytes(), &ExportOptions { pitch, parts: None }).unwrap()).unwrap()
}

fn staves(read: &Import) -> impl Iterator<Item = &PartStaff> {
    read.score.parts().iter().flat_map(|part| &part.staves)
}

/// All that a score has but pitches and what hangs on them.
fn all_else(read: &Import) -> String {
    let note = |(_, note): &(_, ScoreNote)| {
        let look = Look { accidental: None, stem: None, ..note.look };
        format!("{:?}", ScoreNote { printed: note.printed.filter(|_| look.unpitched), look, ..*note })
    };
    let doubled = |staff: &PartStaff| {
        staff
            .notes()
            .iter()
            .map(|(_, note)| staff.told_at(note.start).is_some_and(|told| told.doubled_below))
            .collect::<Vec<_>>()
    };
    let staves: Vec<String> = staves(read)
        .map(|staff| {
            let notes: Vec<String> = staff.notes().iter().map(note).collect();
            format!(
                "{}\n{:?}\n{:?}\n{:?}",
                notes.join("\n"),
                staff.directions,
                doubled(staff),
                staff.settings.clef
            )
        })
        .collect();
    let bars: Vec<String> = read.score.bars().iter().map(|bar| format!("{bar:?}")).collect();
    format!("{}\n{}", staves.join("\n"), bars.join("\n"))
}

fn sounds(read: &Import) -> Vec<Vec<String>> {
    let parts = read.score.parts().iter();
    parts.map(|part| part.by_file().iter().map(|note| note.sounding.to_string()).collect()).collect()
}

#[test]
fn every_construct_goes_out_as_it_came() {
    for (name, construct) in CONSTRUCTS {
        let source = source(construct);
        let read = import(source.as_bytes()).unwrap();
        assert!(read.score.bars().len() > 1, "{name}");
        let declared = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>";
        assert_eq!(
            out(&source, ExportPitch::AsWritten),
            source.replace("<?xml version=\"1.0\"?>", declared),
            "{name}"
        );
        let written = ["Horn in F", "Corno in B basso", "Corno in C"]
            .map(|label| ExportPitch::WrittenFor(label.into()));
        // Where nothing changes, words for another crook go.
        let muta = "<direction><direction-type><words>muta in D</words></direction-type></direction>";
        let without = source.replace(muta, "");
        let rest = import(without.as_bytes()).unwrap();
        for pitch in written.into_iter().chain([ExportPitch::Sounding]) {
            let out = out(&source, pitch.clone());
            assert_eq!(bare(&out), bare(&without), "{name}, {pitch:?}");
            let back = import(out.as_bytes()).unwrap();
            assert_eq!(sounds(&back), sounds(&read), "{name}, {pitch:?}");
            let (before, after) = (all_else(&rest), all_else(&back));
            let differ = before.lines().zip(after.lines()).find(|(before, after)| before != after);
            assert!(before == after, "{name}, {pitch:?}: {differ:?}");
            let remarks = |read: &Import| {
                let mut names: Vec<_> = read.remarks.iter().map(|remark| remark.what.to_string()).collect();
                names.retain(|what| what.contains("not understood"));
                names
            };
            assert_eq!(remarks(&back), remarks(&read), "{name}, {pitch:?}");
        }
    }
}

/// What stands before the music: groups of parts, and that a page is written as it sounds.
#[test]
fn what_stands_before_the_music_goes_out_as_it_came() {
    let source = source("C5 8");
    let first = "<score-part id=\"P1\">";
    let group = "<part-group type=\"start\" number=\"1\"><group-name>Wind</group-name><group-symbol>bracket</group-symbol></part-group>";
    let grouped = source
        .replace(first, &[group, first].concat())
        .replace("</part-list>", "<part-group type=\"stop\" number=\"1\"/></part-list>");
    let sounding = source.replace("<part-list>", "<defaults><concert-score/></defaults><part-list>");
    for (name, source) in [("a group", grouped), ("as it sounds", sounding)] {
        let read = import(source.as_bytes()).unwrap();
        let all =
            [ExportPitch::AsWritten, ExportPitch::Sounding, ExportPitch::WrittenFor("Horn in F".into())];
        for pitch in all {
            let text = out(&source, pitch.clone());
            let back = import(text.as_bytes()).unwrap();
            assert_eq!(sounds(&back), sounds(&read), "{name}, {pitch:?}");
            assert_eq!(all_else(&back), all_else(&read), "{name}, {pitch:?}");
            let groups = |read: &Import| format!("{:?}", read.score.groups);
            assert_eq!(groups(&back), groups(&read), "{name}, {pitch:?}");
            if pitch == ExportPitch::AsWritten {
                let declared = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>";
                assert_eq!(text, source.replace("<?xml version=\"1.0\"?>", declared), "{name}");
            }
        }
    }
}
