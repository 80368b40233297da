//! The notes that the crooks at hand have: what sounds and what is written for it, engraved and in words.

use super::note_systems::{NoteColumn, NoteRow, fitting, system};
use super::{GivenKind, had};
use crate::words::Names;
use crate::words::crook_table as words;
use crookwise_planner::may_write::{Had, had as had_on};
use crookwise_share::crooks::CrooksLink;
use crookwise_theory::{Clef, Crook, Pitch, Production, Sounding};

/// Notes of a crook that are made in one way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayOfMaking {
    /// How well they are had.
    pub kind: GivenKind,
    /// Its name and the notes as they are written, in words.
    pub written: String,
    /// The same notes as they sound.
    pub sounding: String,
    /// What sounds, from low to high.
    pub heard: Vec<Pitch>,
}

/// What may be written for a crook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CrookNotes {
    /// Whose it is.
    pub who: String,
    /// The ways, the best first.
    pub ways: Vec<WayOfMaking>,
}

/// What may be written.
#[derive(Clone, Debug, PartialEq)]
pub struct MayWrite {
    /// The systems.
    pub systems: Vec<Vec<NoteRow>>,
    /// For each crook its notes.
    pub crooks: Vec<CrookNotes>,
}

impl MayWrite {
    /// For the crooks at hand, on so many pixels.
    #[must_use]
    pub fn of(setting: &CrooksLink, names: Names, width: f64) -> Self {
        let of_crook = |crook: &&'static Crook| CrookNotes {
            who: words::players(crook, names),
            ways: ways(&had_on(crook, &setting.weights), names),
        };
        let columns: Vec<NoteColumn> =
            all(setting).into_iter().map(|sounding| NoteColumn::of(setting, sounding)).collect();
        // From the lower clef to the upper a new line begins.
        let (low, high) = columns.split_at(columns.partition_point(NoteColumn::is_low));
        let fit = fitting(width);
        let lines = low.chunks(fit).map(|line| (line, Clef::BASS));
        let lines = lines.chain(high.chunks(fit).map(|line| (line, Clef::TREBLE)));
        Self {
            systems: lines.map(|(line, clef)| system(setting, names, line, clef)).collect(),
            crooks: setting.mine.iter().map(of_crook).collect(),
        }
    }
}

/// Every note that one of the crooks has, once, spelled as the crook does that has it best; from low to high.
fn all(setting: &CrooksLink) -> Vec<Sounding> {
    let mut all: Vec<Had> = setting.mine.iter().flat_map(|crook| had_on(crook, &setting.weights)).collect();
    crookwise_theory::order::put_in_order(&mut all, |one| {
        (one.sounding.0.midi(), core::cmp::Reverse(hundredths(one.making.worth)))
    });
    all.dedup_by_key(|one| one.sounding.0.midi());
    all.into_iter().map(|one| one.sounding).collect()
}

fn hundredths(worth: f64) -> i64 {
    (worth * 100.0).round() as i64
}

fn ways(notes: &[Had], names: Names) -> Vec<WayOfMaking> {
    let way = |way: Production| {
        let own = || notes.iter().filter(move |one| one.making.production == way);
        let told = |pitch: fn(&Had) -> Pitch| own().map(|one| names.note(pitch(one))).collect::<Vec<_>>();
        let heard: Vec<Pitch> = own().map(|one| one.sounding.0).collect();
        (!heard.is_empty()).then(|| WayOfMaking {
            kind: had(way),
            written: words::written_in_a_way(words::way(way), &told(|one| one.printed().0)),
            sounding: words::sounding(&told(|one| one.sounding.0)),
            heard,
        })
    };
    Production::ALL.into_iter().filter_map(way).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn horns_and_trumpets_in_d_have_their_notes_as_they_sound_and_as_they_are_written() {
        let setting = CrooksLink::default();
        let all = MayWrite::of(&setting, Names::default(), 900.0);
        assert!(all.systems.iter().flatten().all(|row| row.picture.starts_with("<svg")));
        let rows = |at: usize| all.systems[at].iter().map(|row| row.label.as_str()).collect::<Vec<_>>();
        let both = ["what sounds", "written for horns in D", "written for trumpets in D"];
        assert_eq!((rows(0), rows(1)), (both.to_vec(), both.to_vec()));
        // On a telephone the trumpets have nothing of the lowest notes.
        let narrow = MayWrite::of(&setting, Names::default(), 300.0);
        assert_eq!(narrow.systems[0].iter().map(|row| row.label.as_str()).collect::<Vec<_>>(), both[..2]);
        let [horns, trumpets] = &all.crooks[..] else { panic!("{all:?}") };
        assert_eq!((horns.who.as_str(), trumpets.who.as_str()), ("Horns in D", "Trumpets in D"));
        let open = &trumpets.ways[0];
        assert!(open.written.starts_with("open: written G3, C4, E4, G4, C5"), "{open:?}");
        assert!(open.sounding.starts_with("sounding A3, D4, F♯4, A4, D5"), "{open:?}");
        assert!(horns.ways.iter().any(|way| way.kind == GivenKind::Hand));
        assert!(trumpets.ways.iter().all(|way| way.kind != GivenKind::Hand));
        let nobody = CrooksLink { mine: Vec::new(), ..CrooksLink::default() };
        let none = MayWrite::of(&nobody, Names::default(), 300.0);
        assert!(none.systems.is_empty() && none.crooks.is_empty());
    }

    #[test]
    fn every_note_stands_once_in_the_systems_however_many_have_it() {
        let notes = all(&CrooksLink::default());
        let mut heard: Vec<i32> = notes.iter().map(|one| one.0.midi()).collect();
        assert!(heard.is_sorted());
        heard.dedup();
        assert_eq!(heard.len(), notes.len());
    }
}
