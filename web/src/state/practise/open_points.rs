//! What the label of a staff that is asked about was decoded to, and what it leaves open.

use crate::state::decoding::decoded;
use crate::state::list_item::ListItem;
use crate::words::{self, Names};
use crookwise_practice::{Answer, AskedStaff};
use crookwise_score::{Choice, Passage, Place, ResolvedStaff};
use crookwise_theory::{BassNotation, Instrument, Scheme};

/// Something that a label leaves open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpenPoint {
    /// Which of its readings is meant.
    Reading,
    /// Old or new bass-clef notation.
    Bass,
    /// The system of notation.
    System,
}

impl OpenPoint {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Reading, Self::Bass, Self::System];

    /// What is chosen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Reading => words::exercise::READ_AS,
            Self::Bass => words::settings::BASS_CLEF_NOTATION,
            Self::System => words::settings::WRITTEN_IN_THE_SYSTEM,
        }
    }

    /// What can be chosen; nothing where the label leaves nothing open.
    #[must_use]
    pub fn items(self, staff: &AskedStaff, names: Names) -> Vec<ListItem> {
        let Some(place) = place(staff) else { return Vec::new() };
        match self {
            Self::Reading => readings(staff, names),
            Self::Bass if place.notation().bass.is_some() => vec![
                ListItem::new(BassNotation::Old.id(), words::settings::OLD_AN_OCTAVE_LOW),
                ListItem::new(BassNotation::New.id(), words::settings::NEW_AS_IN_TREBLE),
            ],
            Self::Bass => Vec::new(),
            Self::System => {
                let systems = Scheme::of(place.staff.instrument).iter();
                systems.map(|one| ListItem::new(one.id(), one.words())).collect()
            }
        }
    }

    /// What holds.
    #[must_use]
    pub fn value(self, staff: &AskedStaff) -> String {
        let Some(place) = place(staff) else { return String::new() };
        let notation = place.notation();
        match self {
            Self::Reading => id(Choice::of(&place.staff)),
            Self::Bass => notation.bass.map(BassNotation::id).unwrap_or_default().into(),
            Self::System => notation.scheme.map(Scheme::id).unwrap_or_default().into(),
        }
    }

    /// Chooses a value; any other changes nothing.
    pub fn choose(self, staff: &mut AskedStaff, value: &str) {
        match self {
            Self::Reading => {
                if let Ok(Answer::Label(choice)) = value.parse() {
                    let usual = decoded(&staff.label, None).staves.first().map(Choice::of);
                    staff.choice = Some(choice).filter(|choice| Some(*choice) != usual);
                }
            }
            Self::Bass => {
                let all = [BassNotation::Old, BassNotation::New];
                staff.settings.bass = all.into_iter().find(|one| one.id() == value).or(staff.settings.bass);
            }
            Self::System => staff.settings.scheme = value.parse().ok().or(staff.settings.scheme),
        }
    }
}

/// What the label says, in plain words, of each staff that it names; what is not understood of it where it says nothing.
#[must_use]
pub fn decoded_to(staff: &AskedStaff, names: Names) -> String {
    match place(staff) {
        Some(place) => {
            let named = decoded(&staff.label, None);
            let all = core::iter::once(&place.staff).chain(named.staves.iter().skip(1));
            let said: Vec<String> = all.map(|one| one.words_by(&|key| names.key_word(key))).collect();
            said.join("; ")
        }
        None => decoded(&staff.label, None).problem.as_ref().map(ToString::to_string).unwrap_or_default(),
    }
}

/// What the staff changes to, in plain words; nothing where it does not, or the words name nothing it can change to.
#[must_use]
pub fn changes_to(staff: &AskedStaff, names: Names) -> Option<String> {
    crookwise_practice::changes_to(staff).map(|to| to.words_by(&|key| names.key_word(key)))
}

/// How the staff is read at its beginning.
fn place(staff: &AskedStaff) -> Option<Place> {
    let mut page = Passage::of_staff(&staff.label);
    if let Some(own) = page.staff_mut(0) {
        own.choice = staff.choice;
        own.settings = staff.settings;
    }
    ResolvedStaff::with(&page, 0, &mut |label| decoded(label, None)).place_at(0, 0).cloned()
}

/// Every reading of the first staff a label names, the usual one first; nothing where there is one only.
fn readings(staff: &AskedStaff, names: Names) -> Vec<ListItem> {
    let decoded = decoded(&staff.label, None);
    let systems = decoded.staves.first().and_then(|usual| usual.instrument.systems);
    // By which system it is written is another question.
    let other_system = |row: &Instrument| systems.is_some() && row.systems == systems;
    let others = decoded.alternatives.iter().filter(|other| other.of == 0).map(|other| &other.staff);
    let others = others.filter(|other| !other_system(other.instrument));
    let mut items: Vec<ListItem> = Vec::new();
    for one in decoded.staves.iter().take(1).chain(others) {
        let item = ListItem::new(id(Choice::of(one)), one.words_by(&|key| names.key_word(key)));
        if !items.iter().any(|known| known.value == item.value) {
            items.push(item);
        }
    }
    if items.len() > 1 { items } else { Vec::new() }
}

fn id(choice: Choice) -> String {
    Answer::Label(choice).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::Exercise;
    use crookwise_theory::Clef;

    #[test]
    fn what_a_label_leaves_open_can_be_chosen() {
        let names = Names::default();
        let mut low = AskedStaff::of("Corni in B");
        low.settings.clef = Some(Clef::BASS);
        for (staff, open) in [
            (AskedStaff::of("Corni in Es"), vec![]),
            (AskedStaff::of("Corni in B"), vec![OpenPoint::Reading]),
            (low, vec![OpenPoint::Reading, OpenPoint::Bass]),
            (AskedStaff::of("Tenortuben in B"), vec![OpenPoint::System]),
        ] {
            let has: Vec<OpenPoint> =
                OpenPoint::ALL.into_iter().filter(|point| !point.items(&staff, names).is_empty()).collect();
            assert_eq!(has, open, "{}", staff.label);
            for point in open {
                for item in point.items(&staff, names) {
                    let mut staff = staff.clone();
                    point.choose(&mut staff, &item.value);
                    assert_eq!(point.value(&staff), item.value);
                    let exercise = Exercise { staves: vec![staff], ..Exercise::default() };
                    assert!(exercise.questions().is_ok());
                }
            }
        }
        assert_eq!(
            decoded_to(&AskedStaff::of("Corni in Es"), names),
            "Horn in E-flat — sounds a major sixth lower"
        );
        assert!(decoded_to(&AskedStaff::of("Xyzzyq"), names).contains("names no instrument"));
    }

    #[test]
    fn a_label_says_what_it_was_taken_for() {
        let said = |label: &str| decoded_to(&AskedStaff::of(label), Names::default());
        assert!(said("Corni in Es").starts_with("Horn in E-flat"), "{}", said("Corni in Es"));
        assert!(!said("xyz").is_empty());
        let both = said("Corno I in B alto, Corno II in G");
        let muta = |text: &str| {
            let staff = AskedStaff { muta: Some(text.into()), ..AskedStaff::of("Corni in Es") };
            changes_to(&staff, Names::default())
        };
        assert!(
            muta("muta in D").is_some_and(|said| said.starts_with("Horn in D")),
            "{:?}",
            muta("muta in D")
        );
        assert_eq!(
            (muta("muta in xyz"), changes_to(&AskedStaff::of("Corni"), Names::default())),
            (None, None)
        );
        assert!(both.contains("Horn in B-flat alto") && both.contains("; Horn in G"), "{both}");
        assert_ne!(said("Corni in B basso"), said("Corni in B alto"));
    }
}
