//! The row of harmonies with the best sum.

use super::fit::{ROUNDING, TEMPLATES, at_most, fit};
use super::slices::{Slice, Strength};

/// Slices that are one harmony.
#[derive(Clone, Copy, Debug)]
pub(super) struct Segment {
    pub from: usize,
    pub to: usize,
    /// The keys of its chord, a bit each; all where it is none.
    keys: u16,
    /// The key of its seventh, where it is a dominant seventh that may have begun without it.
    seventh: Option<u8>,
}

/// What a change costs in beats, by where it stands.
const CHANGE: [f64; 4] = [1.6, 0.6, 0.35, 0.22];
/// The longest harmony that is tried at once, in beats; longer ones are joined.
const LONGEST: f64 = 12.0;
/// Slices of it, at most.
const MOST: usize = 48;
/// How well a line without chords fits itself: less than any chord that fits, more than one that does not.
const LINE: f64 = 0.55;

/// The best row, as far as it has been looked for.
#[derive(Debug)]
pub(super) struct Row {
    /// For each end the best sum up to it.
    sums: Vec<f64>,
    /// The segment it ends with: where that begins, and the keys of its chord.
    ends: Vec<Option<(usize, u16)>>,
    /// The slice from which it goes on.
    next: usize,
}

impl Row {
    /// Of so many slices.
    pub fn of(count: usize) -> Self {
        let mut sums = vec![f64::NEG_INFINITY; count + 1];
        if let Some(first) = sums.first_mut() {
            *first = 0.0;
        }
        Self { sums, ends: vec![None; count + 1], next: 0 }
    }

    /// Tries what may begin with the next so many slices; whether there are more.
    pub fn go_on(&mut self, slices: &[Slice], count: usize) -> bool {
        let end = slices.len().min(self.next.saturating_add(count));
        for from in self.next..end {
            self.try_from(slices, from);
        }
        self.next = end;
        end < slices.len()
    }

    /// Tries all that may begin with a slice.
    fn try_from(&mut self, slices: &[Slice], from: usize) {
        let Some(first) = slices.get(from) else { return };
        let before = self.sums.get(from).copied().unwrap_or(f64::NEG_INFINITY);
        if before == f64::NEG_INFINITY {
            return;
        }
        let mut weights = [0.0_f64; 12];
        let mut time = 0.0;
        let mut many = 0.0;
        let change = CHANGE.get(first.strength as usize).copied().unwrap_or(1.0);
        for to in from..slices.len().min(from + MOST) {
            let Some(slice) = slices.get(to) else { break };
            for (sum, weight) in weights.iter_mut().zip(slice.weights) {
                *sum += weight;
            }
            time += slice.length;
            if slice.classes > 1 {
                many += slice.length;
            }
            if time > LONGEST && to > from {
                break;
            }
            // Only where something can begin again a harmony ends.
            if slices.get(to + 1).is_some_and(|next| next.strength == Strength::Off && next.length < 0.2) {
                continue;
            }
            let (Some(best), Some(end)) = (self.sums.get_mut(to + 1), self.ends.get_mut(to + 1)) else {
                break;
            };
            // No harmony fits for longer than it lasts.
            if before + time - change + ROUNDING <= *best {
                continue;
            }
            let (keys, value) = chord(&weights, time, many);
            let sum = before + value - change;
            if sum > *best {
                (*best, *end) = (sum, Some((from, keys)));
            }
        }
    }

    /// Its segments, once there is no more to try.
    pub fn best(&self, slices: &[Slice]) -> Vec<Segment> {
        let mut row = Vec::new();
        let mut at = slices.len();
        while at > 0 {
            let (from, keys) = self.ends.get(at).copied().flatten().unwrap_or((at - 1, u16::MAX));
            row.push(Segment { from, to: at, keys, seventh: seventh(keys) });
            at = from;
        }
        row.reverse();
        row.into_iter().flat_map(|segment| segment.parted(slices)).collect()
    }
}

/// The chord that fits best, and how well.
fn chord(weights: &[f64; 12], time: f64, many: f64) -> (u16, f64) {
    let sum: f64 = weights.iter().sum();
    if sum <= 0.0 {
        return (u16::MAX, 0.0);
    }
    // A line in octaves is no chord, unless it spells one.
    let mut best = (u16::MAX, LINE * (time - many) - 0.2 * many);
    for template in TEMPLATES {
        for root in 0..12 {
            let keys = turned(template.keys, root);
            if at_most(weights, (sum, time), keys, template.rare) <= best.1 {
                continue;
            }
            if let Some(value) = fit(weights, time, root, template).filter(|value| *value > best.1) {
                best = (keys, value);
            }
        }
    }
    best
}

/// The keys of a chord on a root.
fn turned(keys: u16, root: usize) -> u16 {
    ((keys << root) | (keys >> (12 - root))) & 0x0FFF
}

/// The seventh of a dominant seventh.
fn seventh(keys: u16) -> Option<u8> {
    let dominant = TEMPLATES.get(2)?.keys;
    let root = (0..12).find(|root| turned(dominant, *root) == keys)?;
    u8::try_from((root + 10) % 12).ok()
}

impl Segment {
    /// A dominant whose seventh comes in later, on a beat, is a triad until then.
    fn parted(self, slices: &[Slice]) -> Vec<Self> {
        let Some(seventh) = self.seventh else { return vec![self] };
        let within = slices.get(self.from..self.to).unwrap_or_default();
        let sounds =
            |slice: &Slice| slice.weights.get(usize::from(seventh)).is_some_and(|weight| *weight > 0.0);
        let Some(first) = within.iter().position(sounds) else { return vec![self] };
        let time = |slices: &[Slice]| slices.iter().map(|slice| slice.length).sum::<f64>();
        let (before, after) = within.split_at(first);
        let on_a_beat = after.first().is_some_and(|slice| slice.strength >= Strength::Beat);
        if !on_a_beat || time(before) < 0.99 || time(after) < 0.99 {
            return vec![self];
        }
        let at = self.from + first;
        let triad = Self { to: at, keys: self.keys & !(1 << seventh), seventh: None, ..self };
        vec![triad, Self { from: at, ..self }]
    }

    /// Whether a key of the keyboard belongs to it.
    pub fn has(&self, class: i32) -> bool {
        self.keys >> class.rem_euclid(12) & 1 == 1
    }

    /// A bass that does not belong to the chord and lies under most of it.
    pub fn pedal(&self, within: &[Slice]) -> Option<i32> {
        let time: f64 = within.iter().filter(|slice| slice.bass.is_some()).map(|slice| slice.length).sum();
        let lowest = longest(within, |_| true)?;
        let class = lowest.0.rem_euclid(12);
        (!self.has(class) && lowest.1 > 0.7 * time).then_some(class)
    }

    /// The bass: of the notes of the chord that lie lowest, the one that does so longest.
    pub fn bass(&self, within: &[Slice]) -> Option<i32> {
        let pedal = self.pedal(within);
        longest(within, |bass| self.has(bass) || pedal == Some(bass.rem_euclid(12))).map(|(bass, _)| bass)
    }
}

/// The lowest sound that lies lowest longest, and how long.
fn longest(within: &[Slice], counts: impl Fn(i32) -> bool) -> Option<(i32, f64)> {
    let mut basses: Vec<(i32, f64)> = Vec::new();
    for slice in within {
        let Some(bass) = slice.bass.filter(|bass| counts(*bass)) else { continue };
        match basses.iter_mut().find(|(other, _)| *other == bass) {
            Some((_, time)) => *time += slice.length,
            None => basses.push((bass, slice.length)),
        }
    }
    let mut best: Option<(i32, f64)> = None;
    for (bass, time) in basses {
        if best.is_none_or(|(_, longest)| time > longest + 1e-9) {
            best = Some((bass, time));
        }
    }
    best
}
