//! What holds in a part that is written anew, at the place that has been reached.

use super::accidentals::Memory;
use crookwise_theory::{Signature, Transposition};

/// What holds in a part that is written anew.
#[derive(Default)]
pub(super) struct State {
    /// Elements of notes read so far.
    pub elements: usize,
    /// Pitched notes read so far.
    pub notes: usize,
    /// What the file transposes by, for each staff: told for all, or for one.
    pub told: Vec<(Option<String>, Transposition)>,
    /// The memory of each staff by its number in the file.
    pub memories: Vec<(String, Memory)>,
    /// Whether the transposition of the target stands.
    pub transposed: bool,
}

impl State {
    /// What the file transposes a staff by.
    pub fn told_for(&self, staff: Option<&str>) -> Transposition {
        let own = self.told.iter().rev().find(|(other, _)| other.is_none() || other.as_deref() == staff);
        own.map_or(Transposition::NONE, |(_, told)| *told)
    }

    /// The memory of a staff.
    pub fn memory(&mut self, staff: &str) -> &mut Memory {
        let at = self.memories.iter().position(|(other, _)| other == staff).unwrap_or_else(|| {
            let signature = self.memories.first().map(|(_, memory)| memory.signature).unwrap_or_default();
            self.memories.push((staff.to_owned(), Memory::new(signature)));
            self.memories.len() - 1
        });
        &mut self.memories[at].1
    }

    /// A signature holds for a staff, or for all.
    pub fn sign(&mut self, staff: Option<&str>, signature: Signature) {
        self.memory(staff.unwrap_or("1")).signature = signature;
        if staff.is_none() {
            self.memories.iter_mut().for_each(|(_, memory)| memory.signature = signature);
        }
    }
}
