//! What the page may ask of an opened score, and what it answers. Bars and staves are counted from 0; pitches are texts in
//! scientific notation; what is said to the reader comes as sentences.

use crate::following::{HarmonyRow, MovementRows, PlaceRow, PlayedRows, RoadSpot};
use crate::summary::Summary;
use serde::{Deserialize, Serialize};

/// A question. A file that is to be opened travels beside it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Ask {
    /// Open the file beside, with the corrections that were kept of it, as text.
    Open(String),
    /// Lay these corrections over it instead of those before, as text.
    Correct(String),
    /// Hold its brass against its crooks; that of valves too where said.
    Audit {
        /// Whether brass with valves is held against the series as well.
        valves_too: bool,
    },
    /// How much of a page these staves take in these bars.
    Fit {
        /// The staves.
        staves: Vec<u32>,
        /// The first and the last bar.
        bars: (u32, u32),
    },
    /// These staves in these bars as a page of Read.
    Page {
        /// The staves.
        staves: Vec<u32>,
        /// The first and the last bar.
        bars: (u32, u32),
    },
    /// A note of a staff as a page of Read, with the bars around it as far as they fit.
    Note {
        /// The staff.
        staff: u32,
        /// The note, by its number.
        note: u32,
    },
    /// What its horns and trumpets sound, to be planned in Crooks.
    Crooks {
        /// The first and the last bar; all of them where nothing is said.
        bars: Option<(u32, u32)>,
        /// What the movement is called there.
        title: String,
    },
    /// The parts of these staves as MusicXML.
    Out {
        /// The staves.
        staves: Vec<u32>,
        /// At which pitch.
        pitch: OutPitch,
    },
    /// The parts of these staves as MIDI.
    Midi {
        /// The staves.
        staves: Vec<u32>,
    },
    /// The movement seen from afar, and the road through it.
    Map,
    /// The places worth hearing on its map; they take longer than all the rest of it.
    Places,
    /// The harmonies in their course; they take long too.
    Harmonies,
    /// What these staves play between two times of the road.
    Play {
        /// The staves.
        staves: Vec<u32>,
        /// From when.
        from: RoadSpot,
        /// To when.
        to: RoadSpot,
    },
    /// Get these rows ready: a sheet of them is asked for as soon as its width is known.
    Print(Vec<RowWanted>),
    /// These rows as a sheet of this width; its systems are asked for one by one.
    Sheet {
        /// The rows from the top.
        rows: Vec<RowWanted>,
        /// Rows that are not shown now, for which there is room along the bars: nothing moves sideways when they are.
        unseen: Vec<RowWanted>,
        /// Whether the harmonies stand under them on a grand staff.
        together: TogetherShown,
        /// Its width in hundredths of a staff space.
        width: u32,
        /// The least size of letters in hundredths of a staff space.
        letters: u32,
        /// Whether the shapes of a picture share paths, for a page that is scrolled through.
        gathered: bool,
        /// Answer with only as many systems from the top as fill this height, in hundredths of a staff space.
        high: Option<u32>,
    },
    /// The systems of the sheet from this one on.
    Rest(u32),
    /// A system of the sheet, by its number.
    System(u32),
    /// The signs that systems are drawn with, once for a page.
    Signs,
    /// A part for paper, all of its systems drawn; the sheet on the screen stays as it is.
    Part {
        /// The part, as one row or as written and as it sounds.
        row: RowWanted,
        /// The first and the last bar; the last of the score where more are wanted.
        bars: (u32, u32),
        /// The width of a system in hundredths of a staff space.
        width: u32,
        /// The least size of letters in hundredths of a staff space.
        letters: u32,
    },
}

/// A row of a sheet that is wanted: a staff, or the two of a pair on one.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RowWanted {
    /// The staves, by their numbers.
    pub staves: Vec<u32>,
    /// Whether it is shown as written.
    pub written: bool,
    /// Whether it is shown as it sounds, beneath.
    pub sounding: bool,
    /// Whether written notes have their partials and drift beneath them.
    pub made: bool,
}

/// Whether the harmonies stand under the rows of a sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum TogetherShown {
    /// They do not.
    #[default]
    No,
    /// They have their room, and are not drawn: nothing moves when they are.
    Hidden,
    /// They do.
    Shown,
}

/// At which pitch parts go out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum OutPitch {
    /// As they sound.
    Sounding,
    /// As the file writes them.
    AsWritten,
    /// Written for the instrument or crook of this label.
    WrittenFor(String),
}

/// An answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Answer {
    /// The score is open, or corrected.
    Score(Box<Summary>),
    /// Its brass.
    Audit(Vec<AuditStaff>),
    /// A file that goes out.
    File(Vec<u8>),
    /// So many columns.
    Fits(u32),
    /// A page of Read, as the text that the device keeps of one.
    Page(String),
    /// What is to be planned in Crooks, as the text of a link to it.
    Crooks(String),
    /// The movement seen from afar.
    Map(Box<MovementRows>),
    /// Places worth hearing, kind by kind.
    Places(Vec<PlaceRow>),
    /// Harmonies, one after the other.
    Harmonies(Vec<HarmonyRow>),
    /// What is played.
    Play(PlayedRows),
    /// The rows are ready.
    Printed,
    /// The systems of a sheet.
    Sheet(Vec<SystemRow>),
    /// A system drawn.
    System(Box<DrawnRow>),
    /// Signs, as an SVG element without size.
    Signs(String),
    /// A part for paper.
    Part(PartRows),
    /// It cannot be done, and why.
    No(String),
}

/// How far the opening of a file is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Progress {
    /// The file is taken out of its archive.
    Unpacking,
    /// Its bars are read.
    Reading,
    /// Its parts are held against their labels.
    Listing,
}

/// A staff of brass held against its crooks.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct AuditStaff {
    /// The staff.
    pub staff: u32,
    /// The name of its part.
    pub name: String,
    /// Notes that are struck.
    pub attacks: u32,
    /// Of these, those on the series.
    pub on_series: u32,
    /// Its crooks in their course.
    pub crooks: Vec<AuditLineRow>,
    /// Its changes of crook.
    pub changes: Vec<ChangeRow>,
}

/// A crook in the course of a staff.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct AuditLineRow {
    /// In words.
    pub crook: String,
    /// Its first and its last bar.
    pub bars: (u32, u32),
    /// Notes that are struck.
    pub attacks: u32,
    /// Every kind of note, and where each stands.
    pub notes: Vec<NotesRow>,
    /// The lowest note written: which, its number, its bar.
    pub lowest: Option<(String, u32, u32)>,
    /// The highest.
    pub highest: Option<(String, u32, u32)>,
    /// The longest stretch above the partial that counts as high.
    pub high: Option<HighRow>,
}

/// Notes of one kind.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NotesRow {
    /// How they are made.
    pub how: MadeHow,
    /// Each by its number and its bar, in their course.
    pub notes: Vec<(u32, u32)>,
}

/// How notes of brass are made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum MadeHow {
    /// Open, on this partial.
    Open(u8),
    /// On this partial, corrected by hand or lip.
    Corrected(u8),
    /// Off the series: this note written, in this way.
    Made(String, String),
    /// This note written, not at all.
    OutOfReach(String),
}

/// A stretch of high notes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct HighRow {
    /// Its first note.
    pub note: u32,
    /// Its bar.
    pub bar: u32,
    /// How long it lasts, in quarter notes, as text.
    pub quarters: String,
    /// How many notes are struck.
    pub attacks: u32,
}

/// A change of crook.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ChangeRow {
    /// The crook before.
    pub from: String,
    /// The crook after.
    pub to: String,
    /// The first note after it.
    pub note: u32,
    /// Its bar.
    pub bar: u32,
    /// The rest before it, in quarter notes, as text.
    pub quarters: String,
}

/// A system of a sheet. Lengths are in hundredths of a staff space.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SystemRow {
    /// Its first and its last bar.
    pub bars: (u32, u32),
    /// Its height.
    pub height: i32,
    /// Each staff of the score that stands on it, with the upper and the lower end of all that is drawn of it.
    pub staves: Vec<(u32, i32, i32)>,
}

/// A part for paper.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartRows {
    /// The label of its crook, where another than at the beginning of the score holds in its first bar.
    pub crook: Option<String>,
    /// Its systems.
    pub systems: Vec<PartSystemRow>,
}

/// A system of a part for paper.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartSystemRow {
    /// Its first and its last bar.
    pub bars: (u32, u32),
    /// Its width and height in hundredths of a staff space.
    pub size: (i32, i32),
    /// Whether its last bars are a rest: time to turn the page.
    pub rests: bool,
    /// The picture.
    pub svg: String,
}

/// A system drawn. Lengths are in hundredths of a staff space, from the upper left corner of its picture.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct DrawnRow {
    /// Its pictures, which lie over each other; their unit is the staff space. Where they are gathered there are several of few
    /// elements each, else one, in which heads carry the numbers of their notes.
    pub pictures: Vec<String>,
    /// Its width and height.
    pub size: (i32, i32),
    /// The top line of each row.
    pub tops: Vec<i32>,
    /// The lower end of what is drawn of each row; the next begins under it.
    pub feet: Vec<i32>,
    /// Each of its bars with its left and its right end.
    pub bars: Vec<(u32, i32, i32)>,
    /// Each onset: its bar, hundredths of a quarter note from its beginning, its place.
    pub onsets: Vec<(u32, i32, i32)>,
    /// The middle of each head: its staff, its note, its place.
    pub heads: Vec<(u32, u32, (i32, i32))>,
}
