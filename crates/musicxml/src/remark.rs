//! What is odd in a file, or not understood: counted, with the first place it was met.

use core::fmt;
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
    /// A bar is to be played like one before it, and the file has no notes in it. The standard wants them written out in each
    /// (W3C, MusicXML 4.0, the element `measure-repeat`: it "specifies a notation style" alone).
    NotWrittenOut,
    /// A transposition without the number of letters: those of the label, or the usual ones.
    NoLetters,
    /// A part of music that no list of parts names.
    UnlistedPart,
    /// A listed part without music.
    NoMusic,
    /// A listed part before whose music the file breaks off.
    NotReached,
    /// A clef that stands on no line, or an unknown one; the one before holds.
    OddClef,
    /// A time signature that is no number; bars are as long as what stands in them.
    OddTime,
    /// A key signature of single signs, or beyond seven; it is left out.
    OddKey,
    /// The number of divisions of a quarter note is none.
    OddDivisions,
    /// More changes of clef, key and transposition than any part has; those beyond are left out.
    TooManyChanges,
    /// The file breaks off or is damaged there; what stands before is shown.
    BreaksOff(String),
    /// The label and the transposition of the file disagree: what each says, and what can be done.
    LabelDisagrees(LabelAgainstFile),
    /// The label is not understood; the transposition of the file holds.
    UnknownLabel,
    /// The transposition of the file changes to one that no crook of the part has: what the part sounds from there on.
    ChangeDisagrees(String),
    /// These words change the crook, and the transposition of the file does not follow.
    WordsUnheeded(Arc<str>),
    /// The file reads the label in another way than the usual one, which the trade knows too: B-flat basso where alto is usual.
    UnusualReading(LabelAgainstFile),
    /// It may be printed as it sounds: its label transposes, and the file says nothing of it.
    PerhapsAtSoundingPitch(LabelAgainstFile),
}

/// What the label of a part says beside what its file says.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct LabelAgainstFile {
    /// What the label means: "Horn in C basso".
    pub label: String,
    /// What that does: "sounds an octave lower".
    pub sounds: String,
    /// What the file does: "sounds as written".
    pub file: String,
    /// What the file does beside what the label says: "sounds an octave higher".
    pub apart: String,
    /// Whether only octaves differ.
    pub octaves_only: bool,
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.what.fmt(f)?;
        match (self.bar.is_empty(), self.times) {
            (true, 0 | 1) => Ok(()),
            (true, times) => write!(f, " ({times} times)"),
            (false, 0 | 1) => write!(f, " (bar {})", self.bar),
            (false, times) => write!(f, " ({times} times, first in bar {})", self.bar),
        }
    }
}

impl fmt::Display for Oddity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotUnderstood(name) => write!(f, "“{name}” is not understood here; it goes out again as it came"),
            Self::NoDuration => f.write_str("A note says no length; it has that of its printed value"),
            Self::OddDuration => f.write_str("A length is no length; what stands there has that of its printed value"),
            Self::OddPitch => f.write_str("A note has no pitch that can be read; it is left out"),
            Self::Microtone => f.write_str("A pitch lies between two semitones; the nearer one is read"),
            Self::BeforeBar => f.write_str("The file goes back to before the beginning of a bar; it stands at its beginning"),
            Self::NotWrittenOut => f.write_str(
                "A bar is to be played like the one before, but the file has no notes in it, as the standard wants; it is silent here: write it out where it is to be heard",
            ),
            Self::NoLetters => f.write_str(
                "A transposition tells semitones alone; the letters are those of the label, or the usual ones",
            ),
            Self::UnlistedPart => f.write_str("This part stands in no list of parts and has no name"),
            Self::NoMusic => f.write_str("There is no music in this part"),
            Self::NotReached => f.write_str("The file breaks off before the music of this part"),
            Self::OddClef => f.write_str("A clef is none that is read; the one before it holds"),
            Self::OddTime => f.write_str("A time signature cannot be read; bars are as long as what stands in them"),
            Self::OddKey => f.write_str("A key signature cannot be read; the one before it holds"),
            Self::OddDivisions => f.write_str("The parts of a quarter note are no number; those before hold"),
            Self::TooManyChanges => f.write_str(
                "There are more changes of clef, key and transposition than are read; those beyond are left out",
            ),
            Self::BreaksOff(how) => write!(f, "{how}; what stands before is shown"),
            Self::LabelDisagrees(told) if told.octaves_only => write!(
                f,
                "This part {} than its label says ({}). What sounds is what the file has: to hear the octave of the label, \
                 choose that under “Read as”",
                told.apart, told.label
            ),
            Self::LabelDisagrees(told) => write!(
                f,
                "The label means {}, which {}; in the file the part {}. What sounds is what the file has: if the label is \
                 right, choose its own reading under “Read as”, and if it is wrong, correct it",
                told.label, told.sounds, told.file
            ),
            Self::UnusualReading(told) => write!(
                f,
                "This part {} than {} as a rule does; its label may be read so too. What sounds is what the file has: to hear \
                 the usual octave, choose that under “Read as”",
                told.apart, told.label
            ),
            Self::PerhapsAtSoundingPitch(told) => write!(
                f,
                "The label means {}, which {}, and the file does not transpose: the part may be printed as it sounds. If it \
                 is printed for its player, choose the reading of the label under “Read as”",
                told.label, told.sounds
            ),
            Self::UnknownLabel => f.write_str(
                "The name of this part names no instrument that is known; it sounds as the file has it. Write a label of your own \
                 to say what it is",
            ),
            Self::ChangeDisagrees(said) => write!(f, "{said}. What sounds is what the file has"),
            Self::WordsUnheeded(words) => write!(
                f,
                "“{words}” stands there, and in the file nothing changes. What sounds is what the file has"
            ),
        }
    }
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
