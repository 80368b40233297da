//! What a staff of a passage means: its labels decoded, its habits filled in, and for each player the places he comes
//! through, from change to change.

mod crooks;

use crate::cell::Event;
use crate::change::ChangeTo;
use crate::passage::Passage;
use crate::place::Place;
use crate::staff::{SignatureSource, Staff};
use crookwise_theory::label::{DecodeOptions, Decoded, StaffLabel, decode};
use crookwise_theory::order::in_order;
use crookwise_theory::{Habits, Key, Notation, Signature, Tonic};
use std::sync::Arc;

/// Reads a label, or remembers how it was read.
pub type Decoder<'a> = dyn FnMut(&str) -> Arc<Decoded> + 'a;

/// A staff whose labels have been decoded.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ResolvedStaff {
    /// All that its label says.
    pub decoded: Arc<Decoded>,
    players: Vec<Player>,
    /// Changes of label that name no staff, by column and player.
    misunderstood: Vec<(usize, Option<usize>)>,
}

/// One player of a staff.
#[derive(Clone, Debug, PartialEq)]
struct Player {
    number: u32,
    /// The staff he begins on.
    first: StaffLabel,
    /// The places he comes through, each with the column it begins in; rising, the first at 0.
    spans: Vec<(usize, Place)>,
}

impl ResolvedStaff {
    /// Decodes a staff of a passage; without a label where the passage has no such staff. The year of the music
    /// decides some habits.
    #[must_use]
    pub fn of(passage: &Passage, staff: usize, options: DecodeOptions) -> Self {
        Self::with(passage, staff, &mut |text| Arc::new(decode(text, options)))
    }

    /// The same, where who asks remembers labels that were read before.
    #[must_use]
    pub fn with(passage: &Passage, staff: usize, decoder: &mut Decoder<'_>) -> Self {
        let Some(staff) = passage.staves().get(staff) else { return Self::default() };
        let columns = passage.columns().iter().enumerate();
        let keys: Vec<(usize, Key)> =
            columns.filter_map(|(column, at)| at.movement.map(|key| (column, key))).collect();
        let course = Course { staff, letters: letters(staff), movement: passage.movement, keys: &keys };
        Self::in_course(&course, decoder)
    }

    /// A staff in its course.
    pub(crate) fn in_course(course: &Course<'_>, decoder: &mut Decoder<'_>) -> Self {
        let staff = course.staff;
        // Each label once, for however many players.
        let mut known: Vec<(String, Arc<Decoded>)> = Vec::new();
        let mut once = |text: &str| {
            if let Some((_, decoded)) = known.iter().find(|(label, _)| label == text) {
                return Arc::clone(decoded);
            }
            let decoded = decoder(text);
            known.push((text.to_owned(), Arc::clone(&decoded)));
            decoded
        };
        let decoded = once(&staff.label);
        let mut misunderstood = Vec::new();
        let players =
            crooks::at_start(staff, &decoded).into_iter().enumerate().map(|(player, (number, first))| {
                let labels = crooks::course(staff, (player, number), &first, &mut once);
                for (column, alone, _) in labels.iter().filter(|(.., to)| to.is_none()) {
                    let odd = (*column, alone.then_some(player));
                    if !misunderstood.contains(&odd) {
                        misunderstood.push(odd);
                    }
                }
                Player { number, spans: course.spans(&labels, &first), first }
            });
        Self { players: players.collect(), misunderstood, decoded }
    }

    /// All staves of a passage decoded.
    #[must_use]
    pub fn all(passage: &Passage, options: DecodeOptions) -> Vec<Self> {
        (0..passage.staves().len()).map(|staff| Self::of(passage, staff, options)).collect()
    }

    /// A player, counted from 0; the last one for those beyond.
    fn player(&self, player: usize) -> Option<&Player> {
        self.players.get(player).or(self.players.last())
    }

    /// The staff a player reads at its beginning; `None` where the label names none.
    #[must_use]
    pub fn staff(&self, player: usize) -> Option<&StaffLabel> {
        self.player(player).map(|player| &player.first)
    }

    /// The number of a player, as the label prints it or counted on from there, by [`Decoded::seats`]; where the label
    /// names no staff, counted from 1.
    #[must_use]
    pub fn number(&self, player: usize) -> u32 {
        let counted = u32::try_from(player).unwrap_or(u32::MAX).saturating_add(1);
        self.players.get(player).map_or(counted, |player| player.number)
    }

    /// The changes of label that are not understood and change nothing: column, and player or `None` for all.
    #[must_use]
    pub fn misunderstood(&self) -> &[(usize, Option<usize>)] {
        &self.misunderstood
    }

    /// What holds for a player in a column: the staff, its habits and its signature.
    #[must_use]
    pub fn place_at(&self, column: usize, player: usize) -> Option<&Place> {
        let spans = &self.player(player)?.spans;
        let after = spans.partition_point(|(from, _)| *from <= column);
        spans.get(after.saturating_sub(1)).map(|(_, place)| place)
    }

    /// The places a player comes through, each with the column it begins in; the first begins at 0.
    pub fn spans(&self, player: usize) -> impl Iterator<Item = (usize, &Place)> {
        self.player(player)
            .into_iter()
            .flat_map(|player| player.spans.iter().map(|(from, place)| (*from, place)))
    }

    /// Where a signature comes from unless told otherwise: none for natural brass and drums, else the movement.
    #[must_use]
    pub fn usual_signature(staff: &StaffLabel) -> SignatureSource {
        if staff.natural_family().is_some() || !staff.instrument.has_signature {
            SignatureSource::None
        } else {
            SignatureSource::Movement
        }
    }
}

/// A staff in its course: what is the same for all players. Its columns are those of a passage, or whatever moments its
/// changes are counted by.
pub(crate) struct Course<'a> {
    /// The staff, with its changes.
    pub staff: &'a Staff,
    /// The letters printed anywhere on it, each once, in order.
    pub letters: Arc<[Tonic]>,
    /// The movement's key at the beginning.
    pub movement: Option<Key>,
    /// From which columns on it is another.
    pub keys: &'a [(usize, Key)],
}

/// What holds for a player from a column on.
#[derive(Clone)]
struct Held<'a> {
    label: &'a StaffLabel,
    clef: Option<crookwise_theory::Clef>,
    source: Option<SignatureSource>,
    movement: Option<Key>,
}

impl Course<'_> {
    /// The columns in which something changes; 0 is always among them.
    fn turns(&self) -> Vec<usize> {
        let mut turns: Vec<usize> = self.staff.changes().iter().map(|change| change.column).collect();
        turns.extend(self.keys.iter().map(|(column, _)| *column).chain([0]));
        let mut turns = in_order(turns, |column| *column);
        turns.dedup();
        turns
    }

    /// The places a player comes through; what changes nothing for him makes no new place.
    fn spans(&self, labels: &[(usize, bool, Option<StaffLabel>)], first: &StaffLabel) -> Vec<(usize, Place)> {
        let settings = self.staff.settings;
        let mut held =
            Held { label: first, clef: settings.clef, source: settings.signature, movement: self.movement };
        let mut spans: Vec<(usize, Place)> = Vec::new();
        for column in self.turns() {
            self.turn(&mut held, column, labels);
            let place = self.place(&held);
            if spans.last().is_none_or(|(_, before)| *before != place) {
                spans.push((column, place));
            }
        }
        spans
    }

    /// What changes before a column, for a player who comes through these labels.
    fn turn<'b>(&self, held: &mut Held<'b>, column: usize, labels: &'b [(usize, bool, Option<StaffLabel>)]) {
        for change in self.staff.changes().iter().filter(|change| change.column == column) {
            match change.to {
                ChangeTo::Clef(clef) => held.clef = Some(clef),
                ChangeTo::Signature(source) => held.source = Some(source),
                ChangeTo::Label(_) => {}
            }
        }
        for (_, _, to) in labels.iter().filter(|(at, ..)| *at == column) {
            held.label = to.as_ref().unwrap_or(held.label);
        }
        let key = self.keys.iter().find(|(at, _)| *at == column).map(|(_, key)| *key);
        held.movement = key.or(held.movement);
    }

    fn place(&self, held: &Held<'_>) -> Place {
        let settings = self.staff.settings;
        let mut staff = held.label.clone();
        if let (Some(_), Some(told)) = (staff.mechanism, settings.mechanism) {
            staff.mechanism = Some(told);
        }
        let habits = Habits {
            clef: held.clef.unwrap_or(staff.instrument.clef),
            bass: settings.bass,
            scheme: settings.scheme,
            at_pitch: settings.at_pitch,
        };
        let signature = signature(&staff, habits, held.source, held.movement);
        let letters = if staff.drums.is_empty() { Arc::default() } else { Arc::clone(&self.letters) };
        Place { staff, habits, signature, movement: held.movement, letters }
    }
}

/// The letters printed anywhere on a staff, each once.
fn letters(staff: &Staff) -> Arc<[Tonic]> {
    let events = staff.cells().iter().flat_map(|cell| (0..staff.players()).map(|player| cell.of(player)));
    let mut letters: Vec<Tonic> = Vec::new();
    for event in events {
        if let Event::Note(printed) = event
            && !letters.contains(&printed.0.tonic())
        {
            letters.push(printed.0.tonic());
        }
    }
    in_its_order(letters)
}

/// Letters, each once, in the order of their keys.
pub(crate) fn in_its_order(letters: Vec<Tonic>) -> Arc<[Tonic]> {
    in_order(letters, |letter| *letter).into()
}

fn signature(
    staff: &StaffLabel,
    habits: Habits,
    source: Option<SignatureSource>,
    movement: Option<Key>,
) -> Signature {
    match (source.unwrap_or_else(|| ResolvedStaff::usual_signature(staff)), movement) {
        (SignatureSource::Typed(signature), _) => signature,
        (SignatureSource::Movement, Some(key)) => {
            let notation = Notation::of(staff, habits);
            key.signature().transposed(-notation.printed_to_sounding()).practical()
        }
        _ => Signature::NONE,
    }
}
