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
    pub told: Vec<(Option<u8>, Transposition)>,
    /// The octave that sounds with a staff, as its element, told for all or for one.
    doubled: Vec<(Option<u8>, String)>,
    /// The memories of each staff by its number in the file.
    memories: Vec<(u8, Memories)>,
    /// Whether the transposition of the target stands.
    pub transposed: bool,
}

impl State {
    /// What the file transposes a staff by.
    pub fn told_for(&self, staff: Option<u8>) -> Transposition {
        let own = self.told.iter().rev().find(|(other, _)| other.is_none() || *other == staff);
        own.map_or(Transposition::NONE, |(_, told)| *told)
    }

    /// An octave sounds with a staff from here on, or with all, or none does: whether that is new.
    pub fn doubles(&mut self, staff: Option<u8>, double: &str) -> bool {
        let own = self.doubled.iter().rev().find(|(other, _)| other.is_none() || *other == staff);
        let is_new = match staff {
            Some(_) => own.map_or("", |(_, own)| own.as_str()) != double,
            None => !double.is_empty() || self.doubled.iter().any(|(_, own)| !own.is_empty()),
        };
        self.doubled.retain(|(other, _)| staff.is_some() && *other != staff);
        self.doubled.push((staff, double.to_owned()));
        is_new
    }

    /// The memories of a staff.
    pub fn memories(&mut self, staff: u8) -> &mut Memories {
        let at = self.memories.iter().position(|(other, _)| *other == staff).unwrap_or_else(|| {
            let first = self.memories.first().map(|(_, first)| first.signatures()).unwrap_or_default();
            self.memories.push((staff, Memories::under(first)));
            self.memories.len() - 1
        });
        &mut self.memories[at].1
    }

    /// A bar begins.
    pub fn bar(&mut self) {
        for (_, memories) in &mut self.memories {
            memories.source.bar();
            memories.target.bar();
        }
    }

    /// A signature holds for a staff, or for all: that of the file, and that which is written.
    pub fn sign(&mut self, staff: Option<u8>, signatures: (Signature, Signature)) {
        self.memories(staff.unwrap_or(1)).sign(signatures);
        if staff.is_none() {
            self.memories.iter_mut().for_each(|(_, memories)| memories.sign(signatures));
        }
    }
}

/// Which accidentals hold on a staff: in the file, and in what is written.
#[derive(Default)]
pub struct Memories {
    pub source: Memory,
    pub target: Memory,
}

impl Memories {
    const fn under((source, target): (Signature, Signature)) -> Self {
        Self { source: Memory::new(source), target: Memory::new(target) }
    }

    const fn signatures(&self) -> (Signature, Signature) {
        (self.source.signature, self.target.signature)
    }

    const fn sign(&mut self, (source, target): (Signature, Signature)) {
        (self.source.signature, self.target.signature) = (source, target);
    }
}
