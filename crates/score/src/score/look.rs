//! How a note looks in print beside its pitch and its time. Lengths and times never come from here: a file whose values and
//! lengths disagree is played by its lengths.

/// The value a note or rest is printed with, dots excluded; the names of common practice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum NoteValue {
    /// The 1024th of a whole note.
    N1024,
    /// The 512th.
    N512,
    /// The 256th.
    N256,
    /// The 128th.
    N128,
    /// The 64th.
    N64,
    /// The 32nd.
    N32,
    /// The 16th.
    N16,
    /// An eighth.
    Eighth,
    /// A quarter.
    Quarter,
    /// A half.
    Half,
    /// A whole note.
    Whole,
    /// Two whole notes.
    Breve,
    /// Four whole notes.
    Long,
    /// Eight whole notes.
    Maxima,
}

impl NoteValue {
    /// All, the shortest first, each of twice the length of the one before it.
    pub const ALL: [Self; 14] = [
        Self::N1024,
        Self::N512,
        Self::N256,
        Self::N128,
        Self::N64,
        Self::N32,
        Self::N16,
        Self::Eighth,
        Self::Quarter,
        Self::Half,
        Self::Whole,
        Self::Breve,
        Self::Long,
        Self::Maxima,
    ];

    /// How many quarter notes it lasts without dots, as a fraction.
    #[must_use]
    pub const fn quarters(self) -> (i64, i64) {
        match self as u32 {
            short @ 0..=7 => (1, 1 << (8 - short)),
            long => (1 << (long - 8), 1),
        }
    }
}

/// Which way a stem goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stem {
    /// Up from the head.
    Up,
    /// Down from the head.
    Down,
    /// Both ways.
    Double,
    /// None is printed.
    None,
}

/// What the beams of a note do, a bit for each beam: bit 0 is the one of the eighth note.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Beams {
    /// Beams that begin with it.
    pub begin: u8,
    /// Beams that go on through it.
    pub through: u8,
    /// Beams that end with it.
    pub end: u8,
    /// Beams of its own that reach to the right.
    pub hook_right: u8,
    /// Beams of its own that reach to the left.
    pub hook_left: u8,
}

/// A sign that stands at a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[repr(u8)]
pub enum Mark {
    /// A dot.
    Staccato,
    /// A wedge.
    Staccatissimo,
    /// A line.
    Tenuto,
    /// A line with a dot.
    DetachedLegato,
    /// An accent.
    Accent,
    /// An upright accent.
    StrongAccent,
    /// The stress mark of the hand-stopped horn: `+`.
    Stopped,
    /// The open horn again: `o`.
    Open,
    /// Half stopped.
    HalfStopped,
    /// A fermata.
    Fermata,
    /// A trill.
    Trill,
    /// A turn.
    Turn,
    /// A turn upside down.
    InvertedTurn,
    /// A mordent.
    Mordent,
    /// A short trill, as the inverted mordent.
    ShortTrill,
    /// A bow upwards.
    UpBow,
    /// A bow downwards.
    DownBow,
    /// A harmonic of a string.
    Harmonic,
    /// Double tonguing.
    DoubleTongue,
    /// Triple tonguing.
    TripleTongue,
    /// A breath before the next.
    Breath,
    /// A break before the next.
    Caesura,
    /// The notes of a stem one after the other.
    Arpeggio,
    /// A bright, brassy sound.
    Brassy,
    /// Stress, as of a long syllable.
    Stress,
    /// The want of it.
    Unstress,
    /// A string plucked with force, and other signs of the left hand.
    Pizzicato,
}

/// The signs at a note, as a set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Marks(u32);

impl Marks {
    /// With one more.
    #[must_use]
    pub const fn with(self, mark: Mark) -> Self {
        Self(self.0 | 1 << mark as u32)
    }

    /// Whether it holds a sign.
    #[must_use]
    pub const fn has(self, mark: Mark) -> bool {
        self.0 & 1 << mark as u32 != 0
    }

    /// All of both.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }
}

/// Strokes through a stem.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tremolo {
    /// How many, 1 to 8.
    pub strokes: u8,
    /// What they mean.
    pub kind: TremoloKind,
}

/// What the strokes of a tremolo mean.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TremoloKind {
    /// The note repeated.
    Repeated,
    /// To and fro with the next note: this one begins.
    Begins,
    /// To and fro with the note before: this one ends.
    Ends,
    /// As fast as can be, without a measure.
    Unmeasured,
}

/// How a note or rest looks in print.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Look {
    /// Its value; `None` where it fills its bar, or the score does not say.
    pub value: Option<NoteValue>,
    /// Its dots.
    pub dots: u8,
    /// Its stem, where the score says.
    pub stem: Option<Stem>,
    /// Its beams.
    pub beams: Beams,
    /// The accidental printed before it, as semitones.
    pub accidental: Option<i8>,
    /// Strokes through its stem.
    pub tremolo: Option<Tremolo>,
    /// Signs at it.
    pub marks: Marks,
    /// Slurs that begin at it.
    pub slurs_begin: u8,
    /// Slurs that end at it.
    pub slurs_end: u8,
    /// Whether it is tied to the same note after it.
    pub tied_on: bool,
    /// Whether a grace note is struck through.
    pub slash: bool,
    /// Whether it is printed small, as what another part plays.
    pub cue: bool,
    /// Whether it shares the stem of the note before it.
    pub on_stem: bool,
    /// Whether it stands on a line of drums without a pitch of its own; its pitch says where.
    pub unpitched: bool,
    /// Whether a rest fills its bar.
    pub whole_bar: bool,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_double() {
        for pair in NoteValue::ALL.windows(2) {
            let [(a, b), (c, d)] = [pair[0].quarters(), pair[1].quarters()];
            assert_eq!(a * 2 * d, c * b, "{pair:?}");
        }
        assert_eq!(NoteValue::Quarter.quarters(), (1, 1));
        assert_eq!((NoteValue::N16.quarters(), NoteValue::Breve.quarters()), ((1, 4), (8, 1)));
    }

    #[test]
    fn every_mark_has_its_own_place() {
        let two = Marks::default().with(Mark::Stopped).with(Mark::Pizzicato);
        assert!(two.has(Mark::Stopped) && two.has(Mark::Pizzicato) && !two.has(Mark::Open));
    }
}
