//! The link to Crooks: the whole setting of the place. It is carried as pairs, and read where it is shown, since the rest of the
//! app does without the crooks and their names.
//!
//! A plan of keys stays readable by eye: `#/crooks?keys=32_G+minor.26_Bb+major&horn=2_1_G.Bb+alto`. What is usual is left out.

mod bars;
mod notes;
mod number;
mod read;
mod write;

use crate::Link;
use crate::error::LinkError;
use crate::fields::Fields;
use crookwise_planner::key_plan::{self, KeyStretch};
use crookwise_planner::of_keys::FixedCrook;
use crookwise_planner::of_score::ScoreRequest;
use crookwise_planner::printed::PrintedCrook;
use crookwise_planner::written::BarLaid;
use crookwise_planner::{CrookPlayer, NamedCrook, Request, Ticks, WantedNote, Weights};
use crookwise_score::score::TimeSignature;
use crookwise_theory::{Crook, CrookFamily, Key, Mode, Sounding, Step, Tonic};

/// Stretches that a plan of keys in a link may have.
pub const MOST_STRETCHES: usize = 64;
/// Bars that a plan of keys in a link may have in all.
pub const MOST_BARS: u32 = 10_000;
/// Crooks that a table in a link may show, and that may be at hand where it is asked what may be written.
pub const MOST_SHOWN: usize = 12;
/// Keys of the movement whose notes are wanted.
pub const MOST_KEYS: usize = 500;
/// Letters of the title of what is wanted.
pub const MOST_TITLE: usize = 200;
/// Changes of printed crooks in a link, the first of each player among them.
pub const MOST_PRINTED: usize = 2_000;
/// Letters of a passage typed by names of notes.
pub const MOST_TYPED: usize = 2_000;

/// What is wanted of the players.
#[derive(Clone, Debug, PartialEq)]
pub enum CrooksWanted {
    /// Keys, one after the other.
    Keys(Vec<KeyStretch>),
    /// Notes in sound.
    Notes(Vec<WantedNote>),
}

/// A note that a remedy has changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MendedNote {
    /// Its place among the notes wanted, from 0.
    pub note: usize,
    /// What is to sound instead, in this octave.
    pub sounding: Sounding,
    /// Whose it is from now on, as an index into the players; `None` where any of them may play it.
    pub player: Option<usize>,
    /// Whether it is to be had whatever else goes: a crook is changed for it.
    pub firm: bool,
}

/// What a note counts that is to be had whatever else goes.
pub const FIRM: f64 = 1_000.0;

/// What of the place is looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum CrooksView {
    /// The plans.
    #[default]
    Plans,
    /// What crooks give of a key.
    Table,
    /// What may be written for the crooks at hand.
    MayWrite,
}

/// The whole setting of the place Crooks.
#[derive(Clone, Debug, PartialEq)]
pub struct CrooksLink {
    /// What is looked at.
    pub view: CrooksView,
    /// What is wanted.
    pub wanted: CrooksWanted,
    /// The time signature of what is wanted; a plan of keys is in four quarters.
    pub time: TimeSignature,
    /// The bars of notes that are wanted; none where they are all alike, as the time signature has them.
    pub bars: Vec<BarLaid>,
    /// The movement's keys about the notes that are wanted, by rising time; none where they are not known.
    pub keys: Vec<(Ticks, Key)>,
    /// The title of the movement whose notes are wanted; empty where it has none.
    pub title: String,
    /// The crooks that are printed where the notes were taken from, by player and then by time; none where that is not known.
    pub printed: Vec<PrintedCrook>,
    /// The players. Their crooks go by the names that [`NamedCrook::of`] has.
    pub players: Vec<CrookPlayer>,
    /// Whether the players of a pair share their crook.
    pub together: bool,
    /// The rest that a change of crook needs.
    pub change_time: Ticks,
    /// What counts how much, in hundredths.
    pub weights: Weights,
    /// What remedies have changed, by rising note.
    pub mended: Vec<MendedNote>,
    /// In a plan of keys the crooks that remedies have fixed.
    pub fixed: Vec<FixedCrook>,
    /// Which plan is looked at, from 0.
    pub plan: usize,
    /// The key of the table.
    pub table: Key,
    /// The crooks that the table shows; none where it is to choose them.
    pub shown: Vec<&'static Crook>,
    /// The crooks at hand where it is asked what may be written.
    pub mine: Vec<&'static Crook>,
    /// A passage typed by names of notes, as it was typed.
    pub typed: String,
}

impl Default for CrooksLink {
    /// Nothing is wanted yet, of two pairs of horns over all crooks; ten bars of rest for a change; the table of G minor;
    /// horns and trumpets in D.
    fn default() -> Self {
        let horn = |pair| CrookPlayer {
            family: CrookFamily::Horn,
            crooks: NamedCrook::all(CrookFamily::Horn),
            pair: Some(pair),
        };
        let in_d = |family: CrookFamily| family.in_key(Tonic::new(Step::D, 0)).into_iter().next();
        Self {
            view: CrooksView::default(),
            wanted: CrooksWanted::Keys(Vec::new()),
            time: TimeSignature { beats: 4, value: 4 },
            bars: Vec::new(),
            keys: Vec::new(),
            title: String::new(),
            printed: Vec::new(),
            players: vec![horn(1), horn(1), horn(2), horn(2)],
            together: true,
            change_time: Ticks::of_fraction(40, 1).unwrap_or_default(),
            weights: Weights::default(),
            mended: Vec::new(),
            fixed: Vec::new(),
            plan: 0,
            table: Key { tonic: Tonic::new(Step::G, 0), mode: Mode::Minor },
            shown: Vec::new(),
            mine: [CrookFamily::Horn, CrookFamily::Trumpet].into_iter().filter_map(in_d).collect(),
            typed: String::new(),
        }
    }
}

/// What a link to Crooks brings, not yet read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SentCrooks {
    pub(crate) fields: Fields,
}

impl SentCrooks {
    /// A setting to be sent.
    ///
    /// ```
    /// use crookwise_share::Link;
    /// use crookwise_share::crooks::{CrooksLink, SentCrooks};
    /// let link = Link::decode("#/crooks?keys=32_G+minor.26_Bb+major&horn=2_1_G.Bb+alto").unwrap().unwrap();
    /// let Link::Crooks(sent) = &link else { panic!("another place") };
    /// let setting = sent.open().unwrap();
    /// assert_eq!((setting.players.len(), setting.players[1].crooks.len()), (2, 2));
    /// assert!(SentCrooks::of(&setting).link().encode().ends_with("keys=32_G+minor.26_Bb+major&horn=2_1_G.Bb+alto"));
    /// ```
    #[must_use]
    pub fn of(setting: &CrooksLink) -> Self {
        Self { fields: Fields { pairs: write::pairs(setting), stamped: true } }
    }

    /// Whether the link brings nothing: then the place has what it had.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.fields.pairs.is_empty()
    }

    /// Whether the link says nothing but what is looked at: the place has what it had, and shows it so.
    #[must_use]
    pub fn is_only_a_view(&self) -> bool {
        self.fields.pairs.iter().all(|(name, _)| name == write::VIEW)
    }

    /// What the link looks at.
    #[must_use]
    pub fn view(&self) -> CrooksView {
        let word =
            self.fields.pairs.iter().find(|(name, _)| name == write::VIEW).map(|(_, word)| word.as_str());
        read::view(word).unwrap_or_default()
    }

    /// The same with something else looked at.
    ///
    /// ```
    /// use crookwise_share::crooks::{CrooksLink, CrooksView, SentCrooks};
    /// let table = CrooksLink { view: CrooksView::Table, ..CrooksLink::default() };
    /// assert_eq!(SentCrooks::of(&CrooksLink::default()).showing(CrooksView::Table), SentCrooks::of(&table));
    /// ```
    #[must_use]
    pub fn showing(mut self, view: CrooksView) -> Self {
        let pairs = &mut self.fields.pairs;
        pairs.retain(|(name, _)| name != write::VIEW);
        if let Some(word) = write::view_word(view) {
            pairs.insert(0, (write::VIEW.to_owned(), word.to_owned()));
        }
        self
    }

    /// The link with it.
    #[must_use]
    pub fn link(self) -> Link {
        Link::Crooks(self)
    }

    /// The setting that was sent.
    ///
    /// # Errors
    /// Where a part of it is not understood, or asks for more than the place takes.
    pub fn open(&self) -> Result<CrooksLink, LinkError> {
        read::setting(&self.fields)
    }
}

/// What horns and trumpets of a score or a page sound, as what is wanted of them; all else as it usually is.
impl From<ScoreRequest> for CrooksLink {
    fn from(found: ScoreRequest) -> Self {
        let ScoreRequest { request, layout, printed, .. } = found;
        let usual = Self::default();
        Self {
            wanted: CrooksWanted::Notes(request.notes),
            time: layout.bars.iter().find_map(|bar| bar.time).unwrap_or(usual.time),
            bars: layout.bars,
            keys: layout.keys,
            printed,
            players: request.players,
            ..usual
        }
    }
}

impl CrooksLink {
    /// The notes wanted, as remedies have left them.
    #[must_use]
    pub fn notes(&self) -> Vec<WantedNote> {
        let mut notes = match &self.wanted {
            CrooksWanted::Keys(stretches) => key_plan::wanted(stretches, 0),
            CrooksWanted::Notes(notes) => notes.clone(),
        };
        for mended in &self.mended {
            if let Some(note) = notes.get_mut(mended.note) {
                note.sounding = mended.sounding;
                note.player = mended.player;
                note.any_octave = false;
                if mended.firm {
                    note.weight = FIRM;
                }
            }
        }
        notes
    }

    /// What is asked of the planner.
    #[must_use]
    pub fn request(&self) -> Request {
        Request {
            notes: self.notes(),
            players: self.players.clone(),
            change_time: self.change_time,
            together: self.together,
            weights: self.weights.clone(),
        }
    }
}
