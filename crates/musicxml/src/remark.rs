//! What is odd in a file, or not understood: counted, with the first place it was met.

use std::collections::BTreeMap;
use std::sync::Arc;

/// Something odd in a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// What.
    pub what: Oddity,
    /// In which part, counted from 0 in the order of the file; `None` for the whole file.
    pub part: Option<usize>,
    /// The first bar in which it was met, as it is numbered; empty where it belongs to no bar.
    pub bar: Arc<str>,
    /// How often.
    pub times: u32,
}

/// What can be odd in a file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Oddity {
    /// An element that is not understood, by its name. It goes out again as it came.
    NotUnderstood(Arc<str>),
    /// A note without a length of its own; it has that of its printed value.
    NoDuration,
    /// A length that is no number above zero, or beyond all measure; the note has that of its printed value.
    OddDuration,
    /// A note without a pitch that could be read.
    OddPitch,
    /// An alteration between two semitones; the nearer one is read.
    Microtone,
    /// Time goes back before the beginning of the bar.
    BeforeBar,
    /// A transposition without the number of letters: those of the label, or the usual ones.
    NoLetters,
    /// A part of music that no list of parts names.
    UnlistedPart,
    /// A listed part without music.
    NoMusic,
    /// A clef that stands on no line, or an unknown one; the one before holds.
    OddClef,
    /// A time signature that is no number; bars are as long as what stands in them.
    OddTime,
    /// A key signature of single signs, or beyond seven; it is left out.
    OddKey,
    /// The number of divisions of a quarter note is none.
    OddDivisions,
    /// The file breaks off or is damaged there; what stands before is shown.
    BreaksOff(String),
    /// The label and the transposition of the file disagree: what each says, and what can be done.
    LabelDisagrees(LabelAgainstFile),
    /// The label is not understood; the transposition of the file holds.
    UnknownLabel,
    /// A change of crook in the words that the transposition of the file does not follow, or the other way round.
    ChangeDisagrees(String),
    /// The file reads the label in another way than the usual one, which the trade knows too: B-flat basso where alto is usual.
    UnusualReading(LabelAgainstFile),
    /// It may be printed as it sounds: its label transposes, and the file says nothing of it.
    PerhapsAtSoundingPitch(LabelAgainstFile),
}

/// What the label of a part says beside what its file says.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct LabelAgainstFile {
    /// What the label means, and by which interval it sounds: ("Horn in C basso", "down an octave").
    pub label: (String, String),
    /// The interval of the file.
    pub file: String,
    /// Whether only octaves differ.
    pub octaves_only: bool,
}

/// Gathers remarks while a file is read.
#[derive(Debug, Default)]
pub(crate) struct Remarks {
    seen: BTreeMap<(Option<usize>, Oddity), (Arc<str>, u32)>,
}

/// Kinds of remarks that are kept; a file that has more is odd enough.
const MOST: usize = 1000;

impl Remarks {
    /// Counts one.
    pub fn add(&mut self, what: Oddity, part: Option<usize>, bar: &Arc<str>) {
        if let Some((_, times)) = self.seen.get_mut(&(part, what.clone())) {
            *times = times.saturating_add(1);
        } else if self.seen.len() < MOST {
            self.seen.insert((part, what), (Arc::clone(bar), 1));
        }
    }

    /// All, by part.
    pub fn all(self) -> Vec<Remark> {
        let remark = |((part, what), (bar, times))| Remark { what, part, bar, times };
        self.seen.into_iter().map(remark).collect()
    }
}
