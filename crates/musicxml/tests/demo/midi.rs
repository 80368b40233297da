//! What goes out as MIDI.

use crate::opened;
use crookwise_musicxml::export::by_file;
use crookwise_musicxml::midi::midi;
use midly::{MetaMessage, MidiMessage, Smf, TrackEventKind};

#[test]
fn it_goes_out_as_midi_with_every_note_that_is_struck() {
    let read = opened();
    let bytes = midi(&read, None, &by_file).unwrap();
    let file = Smf::parse(&bytes).unwrap();
    assert_eq!(file.tracks.len(), read.score.parts().len() + 1);
    let tempi = file.tracks[0]
        .iter()
        .filter(|event| matches!(event.kind, TrackEventKind::Meta(MetaMessage::Tempo(_))))
        .count();
    assert_eq!(tempi, 2);
    for (part, track) in read.score.parts().iter().zip(&file.tracks[1..]) {
        let notes = part.staves[0].notes().iter();
        let struck = notes.filter(|(_, note)| note.printed.is_some() && note.is_struck()).count();
        let on = track
            .iter()
            .filter(|event| {
                matches!(event.kind, TrackEventKind::Midi { message: MidiMessage::NoteOn { vel, .. }, .. } if vel > 0)
            })
            .count();
        assert_eq!(on, struck, "{}", part.name);
    }
}
