//! What holds in a part that is written anew, at the place that has been reached.

use super::Rewrite;
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
    /// The signature that is printed; `None` before the first.
    pub printed: Option<Signature>,
    /// Bars that have begun.
    bars: usize,
    /// Whether a note of the bar has been met.
    pub within_bar: bool,
    /// By what each staff is transposed after what was corrected, and how often its file has said a transposition.
    corrected: Vec<(u8, Transposition, usize)>,
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

    /// The signature that the movement has here, as the target prints it.
    pub fn signature(&self, rewrite: &Rewrite) -> Option<Signature> {
        let (begins, ends) = rewrite.signatures.as_ref()?.get(self.bars.checked_sub(1)?)?;
        Some(if self.within_bar { *ends } else { *begins })
    }

    /// The signature that must be printed before anything else stands in a bar; `None` where it stands already.
    pub fn due(&self, rewrite: &Rewrite) -> Option<Signature> {
        let due = self.signature(rewrite).filter(|_| !self.within_bar)?;
        (due != self.printed.unwrap_or(Signature::NONE)).then_some(due)
    }

    /// A signature is printed that the file has not: it holds on all staves.
    pub fn sign_all(&mut self, signature: Signature) {
        self.printed = Some(signature);
        self.memories(1);
        self.memories.iter_mut().for_each(|(_, memories)| memories.target.signature = signature);
    }

    /// How often the file has said a transposition of a staff before; it says one now.
    pub fn met_transpositions(&mut self, staff: u8) -> usize {
        match self.corrected.iter_mut().find(|(other, ..)| *other == staff) {
            Some((.., met)) => {
                *met += 1;
                *met - 1
            }
            None => {
                self.corrected.push((staff, Transposition::NONE, 1));
                0
            }
        }
    }

    /// A staff is transposed by so much from here on.
    pub fn correct_by(&mut self, staff: u8, by: Transposition) {
        match self.corrected.iter_mut().find(|(other, ..)| *other == staff) {
            Some((_, old, _)) => *old = by,
            None => self.corrected.push((staff, by, 0)),
        }
    }

    /// By what a staff is transposed after what was corrected.
    pub fn corrected_by(&self, staff: u8) -> Transposition {
        let own = self.corrected.iter().find(|(other, ..)| *other == staff).or(self.corrected.last());
        own.map_or(Transposition::NONE, |(_, by, _)| *by)
    }

    /// The bar that has begun, counted from 0.
    pub const fn bar_at(&self) -> usize {
        self.bars.saturating_sub(1)
    }

    /// A bar begins.
    pub fn bar(&mut self) {
        self.bars += 1;
        self.within_bar = false;
        for (_, memories) in &mut self.memories {
            memories.source.bar();
            memories.target.bar();
        }
    }

    /// A signature holds for a staff, or for all: that of the file, and that which is written.
    pub fn sign(&mut self, staff: Option<u8>, signatures: (Signature, Signature)) {
        self.printed = Some(signatures.1);
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
