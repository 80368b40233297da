//! What goes out of a file that was corrected, read again.

use crookwise_musicxml::{Import, import};
use crookwise_opened::{Answer, Ask, Correction, OutPitch, ScoreHolder};

/// The first staff of a file with this corrected, as the device kept it: the text that goes out, and what is read in it.
pub fn out(file: &str, correction: Correction, pitch: OutPitch) -> (String, Import) {
    let mut holder = ScoreHolder::default();
    let open = Ask::Open(Correction::write(&[correction]));
    let opened = holder.answer(open, file.as_bytes().to_vec(), &mut |_| {});
    assert!(matches!(opened, Answer::Score(_)), "{opened:?}");
    let out = holder.answer(Ask::Out { staves: vec![0], pitch }, Vec::new(), &mut |_| {});
    let Answer::File(file) = out else { panic!("{out:?}") };
    let read = import(&file).unwrap();
    (String::from_utf8(file).unwrap(), read)
}

/// What the first part of it sounds, note by note.
pub fn sounding(read: &Import) -> Vec<String> {
    read.score.parts()[0].by_file().iter().map(|note| note.sounding.to_string()).collect()
}
