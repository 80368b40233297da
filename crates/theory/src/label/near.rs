//! One slip of the pen: a letter dropped, doubled, put in, replaced, or two neighbours changed over.

/// Shortest word in which a slip is forgiven. Below it only two neighbours changed over or a letter doubled are.
pub(super) const LONG_ENOUGH: usize = 5;

/// Whether the typed word is one slip away from the known one, and both are long enough to be sure.
pub(super) fn is_one_slip(typed: &[char], known: &[char]) -> bool {
    let Some(slip) = slip(typed, known) else { return false };
    match known.len() {
        LONG_ENOUGH.. => true,
        length => length + 1 == LONG_ENOUGH && matches!(slip, Slip::Swap | Slip::Doubling),
    }
}

/// The kinds of slip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Slip {
    Dropped,
    PutIn,
    Doubling,
    Replaced,
    Swap,
}

/// The one slip that makes the typed word of the known one.
fn slip(typed: &[char], known: &[char]) -> Option<Slip> {
    if typed.len().abs_diff(known.len()) > 1 {
        return None;
    }
    let same = typed.iter().zip(known).take_while(|(a, b)| a == b).count();
    let (typed_rest, known_rest) = (typed.get(same..)?, known.get(same..)?);
    match (typed_rest, known_rest) {
        ([_, rest @ ..], _) if typed.len() > known.len() => {
            let doubled = same > 0 && typed.get(same) == typed.get(same - 1);
            (rest == known_rest).then_some(if doubled { Slip::Doubling } else { Slip::PutIn })
        }
        (_, [_, rest @ ..]) if typed.len() < known.len() => (rest == typed_rest).then_some(Slip::Dropped),
        ([a, b, rest @ ..], [c, d, other @ ..]) if a == d && b == c && rest == other => Some(Slip::Swap),
        ([_, rest @ ..], [_, other @ ..]) => (rest == other).then_some(Slip::Replaced),
        _ => None,
    }
}

/// Letters of the longest word that is measured; longer ones are cut.
const LONGEST_WORD: usize = 40;

/// Letters put in, left out, replaced or changed over with their neighbour, if there are at most so many.
pub(super) fn distance_at_most(a: &[char], b: &[char], limit: usize) -> Option<usize> {
    if a.len().abs_diff(b.len()) > limit || a.len() > LONGEST_WORD || b.len() > LONGEST_WORD {
        return None;
    }
    let at =
        |row: &[usize; LONGEST_WORD + 1], place: usize| row.get(place).copied().unwrap_or(usize::MAX / 2);
    let mut before = [usize::MAX / 2; LONGEST_WORD + 1];
    let mut row: [usize; LONGEST_WORD + 1] = core::array::from_fn(|place| place);
    for (i, x) in a.iter().enumerate() {
        let mut next = [usize::MAX / 2; LONGEST_WORD + 1];
        next[0] = i + 1;
        let mut least = i + 1;
        let mut left = i + 1;
        for (j, y) in b.iter().enumerate() {
            let mut best = (at(&row, j + 1) + 1).min(left + 1).min(at(&row, j) + usize::from(x != y));
            let swapped = i > 0 && j > 0 && Some(x) == b.get(j - 1) && Some(y) == a.get(i - 1);
            if swapped && x != y {
                best = best.min(at(&before, j - 1) + 1);
            }
            if let Some(cell) = next.get_mut(j + 1) {
                *cell = best;
            }
            left = best;
            least = least.min(best);
        }
        if least > limit {
            return None;
        }
        before = core::mem::replace(&mut row, next);
    }
    Some(at(&row, b.len())).filter(|distance| *distance <= limit)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn slip(typed: &str, known: &str) -> bool {
        is_one_slip(&typed.chars().collect::<Vec<_>>(), &known.chars().collect::<Vec<_>>())
    }

    #[test]
    fn one_slip() {
        assert!(slip("trmba", "tromba") && slip("trrombe", "trombe") && slip("rtombe", "trombe"));
        assert!(
            slip("tronbe", "trombe")
                && slip("corn", "corni")
                && slip("hron", "horn")
                && slip("hoorn", "horn")
        );
        assert!(!slip("trombe", "trombe") && !slip("tronbi", "trombe"));
        // Short words are not forgiven anything that might be another word.
        assert!(!slip("born", "horn") && !slip("hor", "horn") && !slip("si", "es") && !slip("tuna", "tuba"));
    }

    #[test]
    fn distances() {
        let chars = |text: &str| text.chars().collect::<Vec<_>>();
        assert_eq!(distance_at_most(&chars("kitten"), &chars("sitting"), 3), Some(3));
        assert_eq!(distance_at_most(&chars("kitten"), &chars("sitting"), 2), None);
        assert_eq!(distance_at_most(&chars("ab"), &chars("ba"), 1), Some(1));
        assert_eq!(distance_at_most(&[], &chars("ab"), 2), Some(2));
    }
}
