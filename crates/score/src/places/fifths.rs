//! Horn fifths: two horns or two trumpets of one crook through sixth, fifth and third, in either direction.

use super::staves::{Line, Staves, Tone};
use super::{PlaceKind, ScorePlace, join};
use crookwise_theory::Step;
use crookwise_theory::order::put_in_order;

/// Pairs in succession, each different from the one before, at least.
pub const FIFTHS_PAIRS: usize = 3;
/// Different core pairs among them, at least.
pub const FIFTHS_CORE_PAIRS: usize = 2;

/// The written pairs, the lower note first: the core figure in the order of the scale, then its neighbours.
const CORE: [(Step, Step); 3] = [(Step::E, Step::C), (Step::G, Step::D), (Step::C, Step::E)];
const NEIGHBOURS: [(Step, Step); 3] = [(Step::C, Step::G), (Step::D, Step::F), (Step::E, Step::G)];

/// A pair that sounds together.
struct Pair {
    first: Tone,
    last_bar: usize,
    /// Its place in the core figure, or none for a neighbour.
    core: Option<usize>,
    /// Its place among all pairs.
    which: usize,
    octave: i32,
}

/// Two pairs of horns in unison make one place.
pub(super) fn find(staves: &Staves<'_>) -> Vec<ScorePlace> {
    let mut found = Vec::new();
    for (at, upper) in staves.brass.iter().enumerate() {
        for lower in staves.brass.iter().skip(at + 1) {
            if upper.family.is_none() || upper.family != lower.family {
                continue;
            }
            for (bars, first) in of_pair(staves, upper, lower) {
                let staves = vec![upper.staff, lower.staff];
                join(&mut found, ScorePlace { kind: PlaceKind::HornFifths, staves, bars, first: first.id });
            }
        }
    }
    found
}

fn of_pair(staves: &Staves<'_>, upper: &Line, lower: &Line) -> Vec<((usize, usize), Tone)> {
    let mut found = Vec::new();
    let mut run: Vec<Pair> = Vec::new();
    let mut passed = 0;
    let mut close = |run: &mut Vec<Pair>| {
        if let Some(place) = place_of(run) {
            found.push(place);
        }
        run.clear();
    };
    for high in &upper.notes {
        let Some(low) = lower.at(high.start) else {
            // The rest of one part for a moment is passed over once.
            passed += 1;
            if passed > 1 {
                close(&mut run);
            }
            continue;
        };
        let Some(pair) = pair(high, low) else {
            passed += 1;
            if passed > 1 {
                close(&mut run);
            }
            continue;
        };
        let gap = run.last().map_or(0.0, |last| super::staves::rest(&last.first, high));
        let bar = staves.score.bars().get(high.bar).map_or(4.0, |bar| bar.length.decimal());
        if gap > bar || run.last().is_some_and(|last| last.octave != pair.octave) {
            close(&mut run);
        }
        // E4–C5 and C5–E5 never stand next to one another.
        let leap = run
            .last()
            .and_then(|last| last.core)
            .zip(pair.core)
            .is_some_and(|(last, now)| last.abs_diff(now) > 1);
        if leap {
            close(&mut run);
        }
        passed = 0;
        match run.last_mut() {
            Some(last) if last.which == pair.which => {
                last.last_bar = pair.last_bar;
                last.first.end = pair.first.end;
            }
            _ => run.push(pair),
        }
    }
    close(&mut run);
    found
}

/// The pair that two notes make, the one of the upper staff above the other in whichever staff.
fn pair(high: &Tone, low: &Tone) -> Option<Pair> {
    let (above, below) =
        if high.written.semitones() >= low.written.semitones() { (high, low) } else { (low, high) };
    if above.written.alter != 0 || below.written.alter != 0 {
        return None;
    }
    let steps = above.written.diatonic() - below.written.diatonic();
    let letters = (below.written.step, above.written.step);
    let core = CORE.iter().position(|pair| *pair == letters);
    let which = core.or_else(|| NEIGHBOURS.iter().position(|pair| *pair == letters).map(|at| at + 3))?;
    // Within the octave: sixth, fifth, third; fifth, third, third.
    if steps != [5, 4, 2, 4, 2, 2].get(which).copied()? {
        return None;
    }
    // The octave of the figure: that of its upper C, D, E; the G of C and G lies below them.
    let octave = above.written.octave + i32::from(which == 3);
    Some(Pair { first: *high, last_bar: high.last_bar, core, which, octave })
}

fn place_of(run: &[Pair]) -> Option<((usize, usize), Tone)> {
    let mut cores: Vec<usize> = run.iter().filter_map(|pair| pair.core).collect();
    let has_middle = cores.contains(&1);
    put_in_order(&mut cores, |core| *core);
    cores.dedup();
    let (first, last) = (run.first()?, run.last()?);
    let holds = run.len() >= FIFTHS_PAIRS && cores.len() >= FIFTHS_CORE_PAIRS && has_middle;
    holds.then_some(((first.first.bar, last.last_bar), first.first))
}
