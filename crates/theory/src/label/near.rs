//! One slip of the pen: a letter dropped, doubled, put in, replaced, or two neighbours changed over.

/// Shortest word in which a slip is forgiven. Below it only two neighbours changed over or a letter doubled are.
pub(super) const LONG_ENOUGH: usize = 5;

/// Whether the typed word is one slip away from the known one, and both are long enough to be sure.
pub(super) fn is_one_slip(typed: &[char], known: &[char]) -> bool {
    if known.len() >= LONG_ENOUGH {
        return typed.len() + 1 >= LONG_ENOUGH && distance_at_most(typed, known, 1) == Some(1);
    }
    known.len() + 1 == LONG_ENOUGH && (is_swap(typed, known) || is_doubling(typed, known))
}

fn is_swap(typed: &[char], known: &[char]) -> bool {
    if typed.len() != known.len() {
        return false;
    }
    let differing: Vec<usize> =
        typed.iter().zip(known).enumerate().filter(|(_, (a, b))| a != b).map(|(place, _)| place).collect();
    match differing[..] {
        [first, second] => {
            second == first + 1
                && typed.get(first) == known.get(second)
                && typed.get(second) == known.get(first)
        }
        _ => false,
    }
}

fn is_doubling(typed: &[char], known: &[char]) -> bool {
    typed.len() == known.len() + 1
        && (1..typed.len()).any(|place| {
            typed.get(place) == typed.get(place - 1)
                && typed.iter().enumerate().filter(|(at, _)| *at != place).map(|(_, ch)| ch).eq(known)
        })
}

/// Letters put in, left out, replaced or changed over with their neighbour, if there are at most so many.
pub(super) fn distance_at_most(a: &[char], b: &[char], limit: usize) -> Option<usize> {
    if a.len().abs_diff(b.len()) > limit {
        return None;
    }
    let mut before: Vec<usize> = Vec::new();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut next = vec![i + 1];
        for (j, y) in b.iter().enumerate() {
            let at = |cells: &[usize], place: usize| cells.get(place).copied().unwrap_or(usize::MAX / 2);
            let mut best = (at(&row, j + 1) + 1).min(at(&next, j) + 1).min(at(&row, j) + usize::from(x != y));
            let swapped = i > 0 && j > 0 && Some(x) == b.get(j - 1) && Some(y) == a.get(i - 1);
            if swapped && x != y {
                best = best.min(at(&before, j - 1) + 1);
            }
            next.push(best);
        }
        if next.iter().min().is_none_or(|least| *least > limit) {
            return None;
        }
        before = core::mem::replace(&mut row, next);
    }
    row.last().copied().filter(|distance| *distance <= limit)
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
