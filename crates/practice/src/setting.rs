//! The staves of an exercise made ready: labels decoded once, keys chosen, notes that can be asked for.

use crate::edition::Edition;
use crate::error::ExerciseError;
use crate::exercise::{AskedStaff, Exercise, Material, NoteRange};
use crate::kind::Kind;
use crate::muta;
use crate::planted::Misreading;
use crate::usage::{brass_notes, scale_notes, usual_keys, written_range};
use crookwise_score::{Passage, Place, ResolvedStaff};
use crookwise_theory::label::{DecodeOptions, Decoded, StaffLabel, decode};
use crookwise_theory::{
    Clef, ClefSign, Grade, Key, Mode, Partial, Pitch, Reach, Signature, StaffPosition, Tonic,
};
use std::sync::Arc;

/// Where notes usually stand: from the second ledger line below to the third above.
const USUAL_PLACES: core::ops::RangeInclusive<i32> = -5..=14;

/// The same by clef: what would go further up or down stands in another one. Common practice.
fn usual_places(clef: Clef, edition: Edition) -> core::ops::RangeInclusive<i32> {
    match clef.sign {
        _ if !edition.has_third() => USUAL_PLACES,
        ClefSign::G => USUAL_PLACES,
        ClefSign::F => -5..=12,
        // Under the tenor clef begins what the bass clef has, under the alto clef there is the lowest string still.
        ClefSign::C if clef.line() > 3 => -2..=12,
        ClefSign::C => -3..=12,
    }
}

/// The highest note that is usually asked of a part with all semitones: the highest fourth of a wide range is for soloists.
/// A musician's estimate: common practice.
fn usual_top(staff: &StaffLabel, edition: Edition) -> Option<i32> {
    let (low, high) = written_range(staff).filter(|_| edition.has_third())?;
    (high.midi() - low.midi() > 24).then_some(high.midi() - 5)
}

/// One staff of an exercise made ready.
#[derive(Debug)]
pub(crate) struct Setting {
    pub(crate) asked: AskedStaff,
    /// The staff of the first player.
    pub(crate) staff: StaffLabel,
    /// The keys it is asked in.
    pub(crate) keys: Vec<Key>,
    /// What it changes to in the course of a question, and how that is printed.
    pub(crate) muta: Option<(StaffLabel, String)>,
    /// The rules of the exercise.
    pub(crate) edition: Edition,
    /// A passage of this staff without notes.
    page: Passage,
    decoded: Arc<Decoded>,
}

/// An exercise made ready.
#[derive(Debug)]
pub(crate) struct Workshop<'a> {
    pub(crate) exercise: &'a Exercise,
    pub(crate) settings: Vec<Setting>,
    pub(crate) hand: Option<StaffLabel>,
    pub(crate) misreading: Misreading,
}

impl<'a> Workshop<'a> {
    /// Decodes all labels.
    pub(crate) fn of(exercise: &'a Exercise) -> Result<Self, ExerciseError> {
        let mut settings = Vec::new();
        if !matches!(exercise.material, Material::Passage(_)) {
            for (staff, asked) in exercise.staves.iter().enumerate() {
                let setting = Setting::of(asked, exercise).ok_or(ExerciseError::Label { staff })?;
                if !setting.is_pitched() {
                    return Err(ExerciseError::NoPitch { staff });
                }
                settings.push(setting);
            }
        }
        let hand = match &exercise.in_hand {
            Some(label) => Some(named(label).filter(StaffLabel::is_pitched).ok_or(ExerciseError::Hand)?),
            None => None,
        };
        Ok(Self { exercise, settings, hand, misreading: Misreading::Throughout })
    }

    /// Who is to read the staff on his instrument, where a kind asks that; at first nobody asked what it can play.
    pub(crate) fn reader(&self, kind: Kind) -> Option<&StaffLabel> {
        let matters = matches!(kind, Kind::InHand | Kind::WrongNote) && !self.exercise.edition.is_first();
        self.hand.as_ref().filter(|_| matters)
    }

    /// The passage the columns come from, where the material is one.
    pub(crate) fn source(&self) -> Option<&'a Passage> {
        match &self.exercise.material {
            Material::Passage(passage) => Some(passage),
            _ => None,
        }
    }
}

/// The staff a label names first.
pub(crate) fn named(label: &str) -> Option<StaffLabel> {
    decode(label, DecodeOptions::default()).staves.into_iter().next()
}

impl Setting {
    fn of(asked: &AskedStaff, exercise: &Exercise) -> Option<Self> {
        let mut page = Passage::of_staff(&asked.label);
        dress(&mut page, 0, asked);
        let decoded = Arc::new(decode(&asked.label, DecodeOptions::default()));
        let resolved = ResolvedStaff::with(&page, 0, &mut |_| Arc::clone(&decoded));
        let staff = resolved.place_at(0, 0)?.staff.clone();
        let muta = match &asked.muta {
            Some(text) => Some(muta::read(&page, text)?),
            None => None,
        };
        let keys = Some(&exercise.keys).filter(|keys| !keys.is_empty()).cloned();
        let keys = keys.unwrap_or_else(|| usual_keys(&staff, exercise.edition));
        Some(Self { asked: asked.clone(), staff, keys, muta, edition: exercise.edition, page, decoded })
    }

    /// Whether all that is played on it has a pitch, after a change as well.
    fn is_pitched(&self) -> bool {
        self.staff.is_pitched() && self.muta.as_ref().is_none_or(|(to, _)| to.is_pitched())
    }

    /// A page of this staff in a key, without notes.
    pub(crate) fn page(&self, key: Key) -> Passage {
        let mut page = self.page.clone();
        page.movement = Some(key);
        page
    }

    /// The keys in which the degree of a note is asked. What natural brass plays in the key of its crook has the degree that it
    /// is written as: it is met in the key a fourth above, and in that of the sixth degree, as well. Common practice.
    pub(crate) fn keys_of_degrees(&self, exercise: &Exercise) -> Vec<Key> {
        let own = || self.keys.clone();
        let may =
            self.edition.has_third() && exercise.keys.is_empty() && self.staff.natural_family().is_some();
        let Some(home) = self.keys.first().filter(|home| may && home.mode == Mode::Major) else {
            return own();
        };
        let fifths = home.tonic.fifths();
        let fourth = Signature(fifths - 1).practical().0;
        let sixth = Tonic::from_fifths(Signature(fifths).practical().0 + 3);
        vec![*home, Key::new(Tonic::from_fifths(fourth), Mode::Major), Key::new(sixth, Mode::Minor)]
    }

    /// Players of the staff.
    pub(crate) fn players(&self) -> usize {
        if self.asked.pair { 2 } else { 1 }
    }

    /// How a player reads it in a key.
    pub(crate) fn place(&self, key: Key, player: usize) -> Option<Place> {
        let page = self.page(key);
        // The page has one label, which is decoded already.
        let resolved = ResolvedStaff::with(&page, 0, &mut |_| Arc::clone(&self.decoded));
        resolved.place_at(0, player).cloned()
    }

    /// Puts this staff at the bottom of a page.
    pub(crate) fn add_to(&self, page: &mut Passage) -> Option<usize> {
        let at = page.add_staff(&self.asked.label).ok()?;
        dress(page, at, &self.asked);
        Some(at)
    }
}

/// Gives a staff of a page what the exercise tells of it; the change of crook comes with the notes.
fn dress(page: &mut Passage, at: usize, asked: &AskedStaff) {
    if asked.pair {
        // Two players are within what a staff may have.
        let _ = page.set_players(at, 2);
    }
    if let Some(staff) = page.staff_mut(at) {
        staff.choice = asked.choice;
        staff.settings = asked.settings;
    }
}

/// What natural brass has in the bass clef, as written in the treble clef: from C3 to E4, where the third partial and the
/// fourth lie. Counted in scores: under a plain F clef Beethoven's horns have G2, C3 and C4.
pub(crate) const LOW_BRASS: core::ops::RangeInclusive<i32> = 48..=64;

/// Whether natural brass stands in the bass clef, which it does for its lowest notes only; at first it had all of them.
pub(crate) fn is_low_brass(place: &Place, edition: Edition) -> bool {
    !edition.is_first() && place.staff.natural_family().is_some() && place.habits.clef.sign == ClefSign::F
}

/// Written notes that may be asked for on a staff in a key, with how often parts use them.
pub(crate) fn stock(place: &Place, range: NoteRange, edition: Edition) -> Vec<(Pitch, u32)> {
    if !place.staff.drums.is_empty() {
        return Vec::new();
    }
    let family = place.staff.natural_family();
    let (lowest, highest) = (place.habits.clef.bottom_line(), place.habits.clef.pitch_at(StaffPosition(9)));
    let mut notes = match family {
        Some(family) => brass_notes(family),
        None => {
            let mode = place.movement.map_or(Mode::Major, |key| key.mode);
            scale_notes(&place.staff, place.signature, mode, (lowest, highest))
        }
    };
    match range {
        NoteRange::Usual => {
            let notation = place.notation();
            let usual = usual_places(place.habits.clef, edition);
            let top = usual_top(&place.staff, edition).filter(|_| family.is_none());
            notes.retain_mut(|(note, weight)| {
                let printed = notation.printed(crookwise_theory::Written(*note));
                let stands = place.habits.clef.position(printed.0).0;
                // Notes without ledger lines are the usual ones.
                if family.is_none() && (-1..=9).contains(&stands) {
                    *weight *= 2;
                }
                *weight > 0 && usual.contains(&stands) && top.is_none_or(|top| note.midi() <= top)
            });
            if is_low_brass(place, edition) {
                // What is muffled or hard to get is not played there.
                let good = |note: Pitch| {
                    let reach = family.and_then(|family| Reach::of(family, note));
                    reach.is_some_and(|reach| reach.grade <= Grade::B)
                };
                notes.retain(|(note, _)| LOW_BRASS.contains(&note.midi()) && good(*note));
            }
        }
        NoteRange::Partials(low, high) => notes.retain_mut(|(note, weight)| {
            *weight = (*weight).max(1);
            let partial = family.and_then(|family| Partial::of(family, *note)).map(Partial::number);
            partial.is_some_and(|number| (low..=high).contains(&number))
        }),
        NoteRange::Written(low, high) => notes.retain_mut(|(note, weight)| {
            *weight = weight.saturating_add(1);
            (i32::from(low)..=i32::from(high)).contains(&note.midi())
        }),
    }
    notes
}
