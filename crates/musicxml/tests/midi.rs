//! What goes out as MIDI, read back by the library that writes it.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod kit;

use crookwise_musicxml::export::by_file;
use crookwise_musicxml::midi::{MidiError, midi};
use crookwise_musicxml::{Import, import_text};
use kit::{bar, note, score};
use midly::{MetaMessage, MidiMessage, Smf, TrackEventKind};

/// Notes of each track as (key, from, to), in ticks of a quarter note's hundredth.
fn notes(bytes: &[u8]) -> Vec<Vec<(u8, u32, u32)>> {
    let file = Smf::parse(bytes).unwrap();
    let of_track = |track: &Vec<midly::TrackEvent<'_>>| {
        let (mut now, mut on, mut all) = (0_u32, Vec::new(), Vec::new());
        for event in track {
            now += event.delta.as_int();
            let at = now * 100 / 10_080;
            match event.kind {
                TrackEventKind::Midi { message: MidiMessage::NoteOn { key, .. }, .. } => {
                    on.push((key.as_int(), at));
                }
                TrackEventKind::Midi { message: MidiMessage::NoteOff { key, .. }, .. } => {
                    let begun = on.iter().position(|(other, _)| *other == key.as_int()).unwrap();
                    let (key, from) = on.remove(begun);
                    all.push((key, from, at));
                }
                _ => {}
            }
        }
        assert!(on.is_empty(), "every note ends");
        all.sort_unstable_by_key(|(key, from, _)| (*from, *key));
        all
    };
    file.tracks.iter().map(of_track).collect()
}

fn horns() -> Import {
    let third =
        "<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>";
    let music = bar(
        1,
        &[
            "<attributes><divisions>6</divisions><time><beats>3</beats><beat-type>4</beat-type></time><key><fifths>-3</fifths></key>\
             <transpose><diatonic>-5</diatonic><chromatic>-9</chromatic></transpose></attributes><sound tempo=\"90\"/>",
            &note("C5 6", "<tie type=\"start\"/>"),
            &note("C5 6", "<tie type=\"stop\"/>"),
            &note("D5 2", third),
            &note("E5 2", third),
            &note("E5 2", third),
        ]
        .concat(),
    );
    import_text(&score(&[("Corni in Es", &music), ("Flute", &bar(1, &note("C6 3", "")))])).unwrap()
}

#[test]
fn notes_sound_when_and_as_long_as_they_do_in_the_score() {
    let bytes = midi(&horns(), None, &by_file).unwrap();
    let tracks = notes(&bytes);
    assert_eq!(tracks[1], [(63, 0, 200), (65, 200, 233), (67, 233, 266), (67, 266, 300)]);
    assert_eq!(tracks[2], [(84, 0, 300)]);
    let file = Smf::parse(&bytes).unwrap();
    let metas: Vec<MetaMessage<'_>> = file.tracks[0]
        .iter()
        .filter_map(|event| match event.kind {
            TrackEventKind::Meta(meta) => Some(meta),
            _ => None,
        })
        .collect();
    assert!(metas.contains(&MetaMessage::TimeSignature(3, 2, 24, 8)), "{metas:?}");
    assert!(metas.contains(&MetaMessage::Tempo(666_666.into())), "{metas:?}");
    assert!(matches!(file.tracks[1][0].kind, TrackEventKind::Meta(MetaMessage::TrackName(b"Corni in Es"))));
}

#[test]
fn parts_are_chosen_by_their_place() {
    assert_eq!(notes(&midi(&horns(), Some(&[1]), &by_file).unwrap()).len(), 2);
    assert_eq!(midi(&horns(), Some(&[2]), &by_file), Err(MidiError::NoPart));
    assert_eq!(midi(&horns(), Some(&[]), &by_file), Err(MidiError::NoPart));
}
