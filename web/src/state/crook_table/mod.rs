//! What crooks give of a key, as a table; and what may be written for those at hand.

pub mod may_write;
pub mod note_systems;
pub mod note_words;
pub mod typed_notes;

use crate::state::list_item::ListItem;
use crate::words::Names;
use crate::words::crook_table as words;
use crookwise_planner::NamedCrook;
use crookwise_planner::key_table::{Given, KeyChord, chords, degrees, given, given_together};
use crookwise_share::crooks::{CrooksLink, MOST_SHOWN};
use crookwise_theory::key::Mode;
use crookwise_theory::{Crook, CrookFamily, Key, Pitch, Production, Step, Tonic};

/// How well a note is had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GivenKind {
    /// Open.
    Open,
    /// With the hand in the bell.
    Hand,
    /// With the lip.
    Lip,
    /// Not at all.
    Missing,
}

/// The head of a column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableHead {
    /// The number of the degree or chord, as it is printed.
    pub number: String,
    /// The note, or what the chord is called.
    pub name: String,
    /// As it is read aloud.
    pub said: String,
}

/// A cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableCell {
    /// How well it is had.
    pub had: GivenKind,
    /// What is written, or how much of a chord there is.
    pub large: String,
    /// How it is made.
    pub small: String,
    /// As it is read aloud.
    pub said: String,
    /// What sounds.
    pub heard: Vec<Pitch>,
}

/// A row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableRow {
    /// Who plays.
    pub who: String,
    /// Whether these are several together.
    pub is_together: bool,
    /// The degrees, then the chords.
    pub cells: Vec<TableCell>,
}

/// The table of a key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyTable {
    /// What it is called.
    pub title: String,
    /// The heads of its columns; those of chords come last.
    pub heads: Vec<TableHead>,
    /// So many of them are degrees.
    pub degrees: usize,
    /// Its rows.
    pub rows: Vec<TableRow>,
}

impl KeyTable {
    /// The table that a setting asks for.
    #[must_use]
    pub fn of(setting: &CrooksLink, names: Names) -> Self {
        let key = setting.table;
        let degrees = degrees(key);
        let chords = chords(key);
        let notes: Vec<Tonic> = degrees.iter().map(|degree| degree.tonic).collect();
        let of_degree = degrees.iter().map(|degree| TableHead {
            number: format!("{}{}", if degree.is_raised { "♯" } else { "" }, degree.number),
            name: names.tonic(degree.tonic),
            said: format!(
                "{}, {}",
                names.tonic_spoken(degree.tonic),
                words::degree(degree.number, degree.is_raised)
            ),
        });
        let of_chord = chords.iter().map(|chord| chord_head(chord, &notes, names));
        let heads: Vec<TableHead> = of_degree.chain(of_chord).collect();
        let crooks = shown(setting);
        let given: Vec<Vec<Option<Given>>> =
            crooks.iter().map(|crook| given(crook, &notes, &setting.weights)).collect();
        let row = |who: String, is_together: bool, given: &[Option<Given>]| {
            let single = heads.iter().zip(given).map(|(head, given)| cell(&who, head, *given, names));
            let own = heads.iter().skip(degrees.len()).zip(&chords);
            let chord = own.map(|(head, chord)| chord_cell(&who, head, chord, given));
            TableRow { cells: single.chain(chord).collect(), who: who.clone(), is_together }
        };
        let single =
            crooks.iter().zip(&given).map(|(crook, given)| row(words::players(crook, names), false, given));
        let mut rows: Vec<TableRow> = single.collect();
        if let (Some((first, rest)), true) = (given.split_first(), given.len() > 1) {
            let all = rest.iter().fold(first.clone(), |all, other| given_together(&all, other));
            rows.push(row(words::together(given.len()).to_owned(), true, &all));
        }
        let title = words::table_of(key, names);
        Self { title, degrees: degrees.len(), heads, rows }
    }
}

fn chord_head(chord: &KeyChord, notes: &[Tonic], names: Names) -> TableHead {
    let members: Vec<Tonic> = chord.members.iter().filter_map(|at| notes.get(*at)).copied().collect();
    let name = |of: fn(Names, Tonic) -> String| -> Vec<String> {
        members.iter().map(|tonic| of(names, *tonic)).collect()
    };
    TableHead {
        number: words::chord_on(chord.root),
        name: name(Names::tonic).join(" "),
        said: name(Names::tonic_spoken).join(", "),
    }
}

fn cell(who: &str, head: &TableHead, given: Option<Given>, names: Names) -> TableCell {
    let way = given.map_or(Production::Unavailable, |given| given.making.production);
    let written = given.map(|given| names.note(given.making.written.0));
    let spoken = given.map(|given| names.note_spoken(given.making.written.0));
    TableCell {
        had: had(way),
        said: words::cell(who, &head.said, spoken.as_deref(), words::way(way)),
        large: written.unwrap_or_else(|| "–".to_owned()),
        small: words::way(way).to_owned(),
        heard: given.map(|given| given.sounding.0).into_iter().collect(),
    }
}

fn chord_cell(who: &str, head: &TableHead, chord: &KeyChord, given: &[Option<Given>]) -> TableCell {
    let members: Vec<Given> =
        chord.members.iter().filter_map(|at| given.get(*at).copied().flatten()).collect();
    let ways = || members.iter().map(|given| had(given.making.production));
    let open = ways().filter(|had| *had == GivenKind::Open).count();
    let small = words::members(members.len(), open);
    TableCell {
        had: match members.len() {
            3 if open == 3 => GivenKind::Open,
            3 => GivenKind::Hand,
            _ => GivenKind::Missing,
        },
        large: format!("{}/3", members.len()),
        said: words::cell(who, &head.said, None, &small),
        small,
        heard: members.iter().map(|given| given.sounding.0).collect(),
    }
}

/// How well a note is had that is made so.
#[must_use]
pub const fn had(production: Production) -> GivenKind {
    match production {
        Production::Open | Production::Chromatic => GivenKind::Open,
        Production::Lipped => GivenKind::Lip,
        Production::Unavailable => GivenKind::Missing,
        _ => GivenKind::Hand,
    }
}

/// The crooks that are shown: those chosen, else what movements in such a key have.
#[must_use]
pub fn shown(setting: &CrooksLink) -> Vec<&'static Crook> {
    if setting.shown.is_empty() { usual(setting.table) } else { setting.shown.clone() }
}

/// Horns in the key and, in minor, in its relative major; in major in the key of its fifth degree. Common practice for minor keys.
fn usual(key: Key) -> Vec<&'static Crook> {
    let all = degrees(key);
    let other = match key.mode {
        Mode::Minor => 2,
        Mode::Major => 4,
    };
    let notes = [Some(key.tonic), all.get(other).map(|degree| degree.tonic)];
    notes.into_iter().flatten().filter_map(|tonic| middle(CrookFamily::Horn, tonic)).collect()
}

/// Of the crooks of a key the one nearest in length to that of F: C basso, B-flat alto.
fn middle(family: CrookFamily, tonic: Tonic) -> Option<&'static Crook> {
    let f = family.in_key(Tonic::new(Step::F, 0)).first().map_or(0, |crook| crook.transposition.0.semitones);
    let far = |crook: &&'static Crook| (crook.transposition.0.semitones - f).abs();
    family.in_key(tonic).into_iter().min_by_key(far)
}

/// What a setting's lists of crooks are changed by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CrookList {
    /// Those in the table.
    Shown,
    /// Those at hand.
    Mine,
}

impl CrookList {
    /// Its crooks.
    #[must_use]
    pub fn of(self, setting: &CrooksLink) -> Vec<&'static Crook> {
        match self {
            Self::Shown => shown(setting),
            Self::Mine => setting.mine.clone(),
        }
    }

    /// Adds a crook by its name in the list, unless it is there or there is no room.
    pub fn add(self, setting: &mut CrooksLink, name: &str) {
        let mut all = self.of(setting);
        if let Some(crook) = every().find(|crook| id(crook) == name)
            && !all.contains(&crook)
            && all.len() < MOST_SHOWN
        {
            all.push(crook);
            self.set(setting, all);
        }
    }

    /// Takes a crook out. The last one of a table stays.
    pub fn remove(self, setting: &mut CrooksLink, crook: &Crook) {
        let mut all = self.of(setting);
        all.retain(|one| *one != crook);
        if self == Self::Mine || !all.is_empty() {
            self.set(setting, all);
        }
    }

    /// Those that may be added, by family.
    #[must_use]
    pub fn others(self, setting: &CrooksLink, names: Names) -> Vec<ListItem> {
        let own = self.of(setting);
        let others = every().filter(|crook| !own.contains(crook));
        let items = others.map(|crook| ListItem::new(id(crook), words::players(crook, names)));
        core::iter::once(ListItem::new("", words::CHOOSE)).chain(items).collect()
    }

    fn set(self, setting: &mut CrooksLink, all: Vec<&'static Crook>) {
        match self {
            Self::Shown => setting.shown = all,
            Self::Mine => setting.mine = all,
        }
    }
}

fn every() -> impl Iterator<Item = &'static Crook> {
    CrookFamily::Horn.crooks().iter().chain(CrookFamily::Trumpet.crooks())
}

fn id(crook: &'static Crook) -> String {
    format!("{} {}", crook.family.word(), NamedCrook::of(crook).name)
}

/// Every key with at most seven signs, from flats to sharps, major and minor beside each other.
#[must_use]
pub fn keys(names: Names) -> Vec<ListItem> {
    every_key().map(|key| ListItem::new(key.to_string(), names.key(key))).collect()
}

fn every_key() -> impl Iterator<Item = Key> {
    let of = |mode, fifths| Key { tonic: Tonic::from_fifths(fifths), mode };
    (-7..=7).flat_map(move |fifths| [of(Mode::Major, fifths), of(Mode::Minor, fifths + 3)])
}

/// Goes so many keys on in the list of keys, and stays at its ends.
pub fn step_key(setting: &mut CrooksLink, places: isize) {
    let all: Vec<Key> = every_key().collect();
    let at = all.iter().position(|key| *key == setting.table).unwrap_or_default();
    if let Some(key) = all.get(at.saturating_add_signed(places).min(all.len() - 1)) {
        setting.table = *key;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(key: &str) -> KeyTable {
        let setting = CrooksLink { table: key.parse().unwrap(), ..CrooksLink::default() };
        KeyTable::of(&setting, Names::default())
    }

    #[test]
    fn a_minor_key_shows_why_it_takes_two_crooks() {
        let table = table("G minor");
        let who: Vec<&str> = table.rows.iter().map(|row| row.who.as_str()).collect();
        assert_eq!(who, ["Horns in G", "Horns in B-flat alto", "Both together"]);
        assert_eq!(
            table.heads.iter().map(|head| head.number.as_str()).collect::<Vec<_>>(),
            ["1", "2", "3", "4", "5", "6", "7", "♯7", "on 1", "on 4", "on 5"]
        );
        let cell = |row: usize, column: usize| &table.rows[row].cells[column];
        assert_eq!((cell(0, 0).had, cell(0, 0).large.as_str()), (GivenKind::Open, "C5"));
        assert_ne!(cell(0, 2).had, GivenKind::Open);
        assert_eq!((cell(1, 2).had, cell(1, 2).large.as_str()), (GivenKind::Open, "C5"));
        // The chord of the key: neither has it open, both together do.
        assert_ne!(cell(0, 8).had, GivenKind::Open);
        assert_eq!((cell(2, 8).small.as_str(), cell(2, 8).heard.len()), ("all open", 3));
        assert_eq!(cell(0, 0).said, "G, first degree, Horns in G: written C5, open");
    }

    #[test]
    fn every_key_has_a_table() {
        for item in keys(Names::default()) {
            let table = table(&item.value);
            let heads = table.heads.len();
            assert!(table.rows.iter().all(|row| row.cells.len() == heads), "{item:?}");
        }
        assert_eq!(keys(Names::default()).len(), 30);
        assert_eq!(
            usual("C minor".parse().unwrap())[0].name,
            middle(CrookFamily::Horn, Tonic::new(Step::C, 0)).unwrap().name
        );
    }

    #[test]
    fn keys_are_stepped_through_to_both_ends() {
        let mut setting = CrooksLink::default();
        step_key(&mut setting, 1);
        assert_eq!(setting.table.to_string(), "F major");
        step_key(&mut setting, -99);
        assert_eq!(setting.table.to_string(), "Cb major");
        step_key(&mut setting, 99);
        assert_eq!(setting.table.to_string(), "A# minor");
    }

    #[test]
    fn crooks_come_and_go() {
        let mut setting = CrooksLink::default();
        let list = CrookList::Shown;
        list.add(&mut setting, "trumpet D");
        list.add(&mut setting, "trumpet D");
        list.add(&mut setting, "viola D");
        assert_eq!(setting.shown.len(), 3);
        let crooks = setting.shown.clone();
        for crook in &crooks {
            list.remove(&mut setting, crook);
        }
        assert_eq!(setting.shown, crooks[2..]);
        for crook in CrookFamily::Horn.crooks() {
            list.add(&mut setting, &id(crook));
        }
        assert_eq!(setting.shown.len(), MOST_SHOWN);
        let mine = CrookList::Mine;
        for crook in mine.of(&setting) {
            mine.remove(&mut setting, crook);
        }
        assert_eq!(setting.mine.len(), 0);
        assert!(mine.others(&setting, Names::default()).len() > 20);
    }
}
