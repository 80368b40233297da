//! Files changed at random, for as long as `CROOKWISE_FUZZ_SECONDS` says (two seconds by default): reading one must never panic,
//! take long or much memory; what is read goes out again and comes back with the same sounds; what is not read says why.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a test may panic and say what it did")]

mod kit;

use crookwise_musicxml::export::{ExportOptions, ExportPitch, by_file, export};
use crookwise_musicxml::midi::midi;
use crookwise_musicxml::{Import, import};
use crookwise_score::audit::{AuditOptions, audit};
use crookwise_score::harmony::harmonies;
use crookwise_score::places::places;
use crookwise_score::score::StaffId;
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use kit::constructs::{CONSTRUCTS, source};
use kit::{bar, note, score};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// Pieces that files are made of, and pieces that they are not.
const PIECES: [&str; 52] = [
    "<",
    ">",
    "/>",
    "</",
    "&",
    "&amp;",
    "&x;",
    "&#0;",
    "<!--",
    "-->",
    "<![CDATA[",
    "]]>",
    "<?",
    "?>",
    "\"",
    "'",
    "\0",
    "<note>",
    "</note>",
    "<chord/>",
    "<rest/>",
    "<grace/>",
    "<cue/>",
    "<backup>",
    "<forward>",
    "<duration>",
    "</duration>",
    "-1",
    "0",
    "99999999999999999999",
    "0.333333333",
    "1e9",
    "NaN",
    "<measure>",
    "</measure>",
    "<part id=\"P1\">",
    "<attributes>",
    "<transpose><chromatic>7</chromatic></transpose>",
    "<staff>9</staff>",
    "<voice>300</voice>",
    "<divisions>0</divisions>",
    "<double/>",
    "\u{FEFF}",
    "<tie type=\"stop\"/>",
    "<part-list>",
    "</part>",
    "<part-group type=\"start\"/>",
    // In one piece the end of a root looks like a folder.
    concat!("<harmony><root><root-step>B</root-step></", "root></harmony>"),
    "<key><fifths>-9</fifths></key>",
    "<clef><sign>F</sign></clef>",
    "<transpose number=\"2\"><chromatic>1</chromatic><double/></transpose>",
    "<measure-repeat type=\"start\">4</measure-repeat>",
];

/// A chance that is the same every time (xorshift).
struct Chance(u64);

impl Chance {
    fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 8) as usize % limit.max(1)
    }
}

/// Files to begin with.
fn corpus() -> Vec<Vec<u8>> {
    let horn = bar(
        1,
        &[
            "<attributes><divisions>2</divisions><key><fifths>0</fifths></key><time><beats>3</beats><beat-type>4</beat-type></time>\
             <staves>1</staves><clef><sign>F</sign><line>4</line></clef><transpose><diatonic>-5</diatonic><chromatic>-9</chromatic></transpose></attributes>",
            &note("C3 3", "<type>quarter</type><dot/><notations><technical><stopped/></technical></notations>"),
            &note("G3 3", "<time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>"),
        ]
        .concat(),
    ) + &bar(2, "<direction><direction-type><words>muta in D</words></direction-type></direction>")
        + &bar(3, &["<attributes><transpose><chromatic>-10</chromatic></transpose></attributes>", &note("C5 6", "")].concat());
    let piano = bar(
        1,
        &[
            "<attributes><staves>2</staves></attributes>",
            &note("E5 4", "<staff>1</staff>"),
            "<backup><duration>4</duration></backup>",
            &note("C3 4", "<staff>2</staff><voice>5</voice>"),
            "<harmony><kind>major</kind></harmony><barline><repeat direction=\"backward\"/></barline>",
        ]
        .concat(),
    );
    let text = score(&[("Corni in Es", &horn), ("Piano", &piano)]);
    let constructs = CONSTRUCTS.iter().map(|(_, construct)| source(construct).into_bytes());
    let wide = [0xFEFF].into_iter().chain(text.encode_utf16()).flat_map(u16::to_le_bytes).collect();
    let prefixed = text.replace('<', "<m:").replace("<m:/", "</m:").replace("<m:?", "<?");
    let indented = text.replace("><", ">\n  <");
    constructs.chain([text, indented, prefixed].map(String::into_bytes)).chain([wide]).collect()
}

fn changed(chance: &mut Chance, corpus: &[Vec<u8>]) -> Vec<u8> {
    let mut bytes = corpus[chance.below(corpus.len())].clone();
    for _ in 0..=chance.below(6) {
        let at = chance.below(bytes.len() + 1);
        match chance.below(5) {
            0 => {
                let piece = PIECES[chance.below(PIECES.len())];
                bytes.splice(at..at, piece.bytes());
            }
            1 => bytes.truncate(at),
            2 => {
                let end = (at + chance.below(60)).min(bytes.len());
                bytes.drain(at..end);
            }
            3 => {
                let end = (at + chance.below(400)).min(bytes.len());
                let copy = bytes[at..end].to_vec();
                let to = chance.below(bytes.len() + 1);
                bytes.splice(to..to, copy);
            }
            _ => {
                if let Some(byte) = bytes.get_mut(at) {
                    *byte = u8::try_from(chance.below(256)).unwrap();
                }
            }
        }
    }
    bytes
}

fn sounding(read: &Import) -> Vec<String> {
    let notes = read.score.parts().iter().flat_map(crookwise_score::score::Part::by_file);
    notes.map(|note| note.sounding.to_string()).collect()
}

/// What is said of all that sounds, and what is seen of every staff.
fn heard(read: &Import, decoder: &mut dyn FnMut(&str) -> Arc<Decoded>) {
    let sounded = read.score.sounded(decoder);
    let _ = places(&read.score, &sounded, &harmonies(&read.score, &sounded));
    let staves: Vec<StaffId> = read.score.staves().map(|staff| staff.id).collect();
    for bar in 0..read.score.bars().len().min(4) {
        if let Ok(window) = read.score.window(&staves, bar..bar + 1) {
            assert!(window.passage.columns().iter().all(|column| column.length.is_some()));
        }
    }
}

/// Whether a file is read; what was read goes out and comes back.
fn is_read(bytes: &[u8]) -> bool {
    let read = match import(bytes) {
        Ok(read) => read,
        Err(error) => {
            assert!(!error.to_string().is_empty());
            return false;
        }
    };
    let mut decoder = |text: &str| -> Arc<Decoded> { Arc::new(decode(text, DecodeOptions::default())) };
    let _ = audit(&read.score, AuditOptions { valves_too: true }, &mut decoder);
    let _ = read.score.old_bass(&mut decoder);
    heard(&read, &mut decoder);
    let _ = midi(&read, None, &by_file);
    // A transposition beyond all sense gives notes with more signs, or in more octaves, than are read.
    let notes = read.score.parts().iter().flat_map(crookwise_score::score::Part::by_file);
    let sane = |pitch: crookwise_theory::Pitch| pitch.alter.abs() <= 5 && (0..=9).contains(&pitch.octave);
    if notes.into_iter().any(|note| !sane(note.sounding.0)) {
        return true;
    }
    // A file that breaks off does not go out, since its text does not end.
    let horn = ExportPitch::WrittenFor("Horn in F".to_owned());
    for pitch in [ExportPitch::Sounding, ExportPitch::AsWritten, horn] {
        if let Ok(out) = export(bytes, &ExportOptions { pitch, parts: None }) {
            let back =
                import(&out).unwrap_or_else(|error| panic!("{error}: {}", String::from_utf8_lossy(bytes)));
            assert_eq!(sounding(&back), sounding(&read), "{}", String::from_utf8_lossy(bytes));
        }
    }
    true
}

/// How long a file takes. One that takes long is tried again, since on a busy machine anybody has to wait at times.
fn timed(bytes: &[u8]) -> (bool, Duration) {
    let once = || {
        let begun = Instant::now();
        (is_read(bytes), begun.elapsed())
    };
    let (read, took) = once();
    let took = if took > LONG { took.min(once().1) } else { took };
    (read, took)
}

/// Longer than any file should take.
const LONG: Duration = Duration::from_millis(100);

#[test]
fn no_file_is_too_odd() {
    let seconds =
        std::env::var("CROOKWISE_FUZZ_SECONDS").ok().and_then(|text| text.parse().ok()).unwrap_or(2);
    let end = Instant::now() + Duration::from_secs(seconds);
    let corpus = corpus();
    let mut chance = Chance(0x9E37_79B9_7F4A_7C15);
    let (mut tried, mut opened, mut slowest) = (0_u64, 0_u64, Duration::ZERO);
    while Instant::now() < end {
        let bytes = changed(&mut chance, &corpus);
        let (read, took) = timed(&bytes);
        tried += 1;
        opened += u64::from(read);
        slowest = slowest.max(took);
    }
    assert!(slowest < Duration::from_secs(5), "the slowest file took {slowest:?}");
    println!("{tried} files, {opened} of them read, the slowest {slowest:?}");
    let memory = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    if let Some(peak) = memory.lines().find(|line| line.starts_with("VmHWM")) {
        println!("memory at most: {}", peak.trim_start_matches("VmHWM:").trim());
    }
}
