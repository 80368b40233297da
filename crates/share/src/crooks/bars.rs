//! The bars of the notes that are wanted, where they are not all alike: `0_1_1_3-4.1_24_3` are an upbeat of one quarter in three
//! quarters, numbered 0, and 24 bars of three quarters from number 1 on. A length may be a fraction: `9-2`.

use super::MOST_BARS;
use crookwise_planner::Ticks;
use crookwise_planner::written::BarLaid;
use crookwise_score::BarNumber;
use crookwise_score::score::TimeSignature;

/// Between the halves of a fraction, and of a time signature.
const OVER: char = '-';
/// The longest bar, in quarter notes.
const LONGEST: f64 = 10_000.0;

pub(super) fn write(bars: &[BarLaid]) -> String {
    let runs = bars.chunk_by(goes_on).filter_map(|run| {
        let first = run.first()?;
        let length = fraction_word(first.length);
        let time = first.time.map(|time| format!("_{}{OVER}{}", time.beats, time.value)).unwrap_or_default();
        Some(format!("{}_{}_{length}{time}", first.number, run.len()))
    });
    runs.collect::<Vec<_>>().join(".")
}

/// Whether a bar follows from the one before it.
fn goes_on(before: &BarLaid, bar: &BarLaid) -> bool {
    let next = BarNumber::new(&before.number).map(BarNumber::next);
    bar.time.is_none()
        && bar.length == before.length
        && next.is_some_and(|next| next.as_str() == bar.number && next != BarNumber::NONE)
}

pub(super) fn read(value: &str) -> Option<Vec<BarLaid>> {
    let mut bars = Vec::new();
    for word in value.split('.') {
        run(word, &mut bars)?;
    }
    Some(bars)
}

fn run(word: &str, bars: &mut Vec<BarLaid>) -> Option<()> {
    let mut parts = word.splitn(4, '_');
    let mut number = BarNumber::new(parts.next()?)?;
    let many = parts.next()?.parse::<usize>().ok().filter(|many| *many > 0)?;
    let length = fraction(parts.next()?)?;
    let mut time = match parts.next() {
        None => None,
        Some(word) => Some(time(word)?),
    };
    let is_fine = length.0 > 0 && length.quarters() <= LONGEST && bars.len() + many <= MOST_BARS as usize;
    if !is_fine {
        return None;
    }
    for _ in 0..many {
        bars.push(BarLaid { number: number.to_string(), length, time: time.take() });
        number = number.next();
    }
    Some(())
}

/// `9-2`: so many quarter notes, a whole number without what is below the line.
pub(super) fn fraction(text: &str) -> Option<Ticks> {
    let (above, below) = text.split_once(OVER).unwrap_or((text, "1"));
    Ticks::of_fraction(above.parse().ok()?, below.parse().ok()?)
}

pub(super) fn fraction_word(time: Ticks) -> String {
    match time.fraction() {
        (above, 1) => above.to_string(),
        (above, below) => format!("{above}{OVER}{below}"),
    }
}

fn time(text: &str) -> Option<TimeSignature> {
    let (beats, value) = text.split_once(OVER)?;
    super::read::signature(beats, value)
}
