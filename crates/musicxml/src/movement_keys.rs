//! The movement's keys, where no part can tell them. Natural horns and trumpets print no signature, and one that was written for
//! them would be printed by some programs and would take accidentals away in others. For what has no element of its own MusicXML
//! has `miscellaneous-field`, which those who do not know it pass over. The keys stand there, each behind the quarter notes that
//! lie before it: `0 G minor; 97/2 Bb major`.

use core::fmt::Write;
use crookwise_score::Score;
use crookwise_score::score::Quarters;
use crookwise_theory::Key;

/// The name of the field.
pub const NAME: &str = "movement-keys";

/// Keys of a movement at most; the longest have some dozens.
const MOST_KEYS: usize = 2_000;

/// The keys of a score; nothing where none is known.
pub fn text(score: &Score) -> String {
    let mut text = String::new();
    for (from, key) in score.keys() {
        let between = if text.is_empty() { "" } else { "; " };
        let over = match from.fraction() {
            (_, 1) => String::new(),
            (_, below) => format!("/{below}"),
        };
        // A text takes all that is written to it.
        let _ = write!(text, "{between}{}{over} {key}", from.fraction().0);
    }
    text
}

/// The keys that a field tells, with the time from which each holds; none where it is written otherwise.
pub fn read(text: &str) -> Vec<(Quarters, Key)> {
    let one = |word: &str| {
        let (from, key) = word.trim().split_once(' ')?;
        let (above, below) = from.split_once('/').unwrap_or((from, "1"));
        let from = Quarters::new(above.parse().ok()?, below.parse().ok().filter(|below: &i64| *below > 0)?)?;
        Some((from, key.parse().ok()?)).filter(|_| from >= Quarters::ZERO)
    };
    let all: Option<Vec<_>> = text.split(';').take(MOST_KEYS + 1).map(one).collect();
    all.filter(|all| all.len() <= MOST_KEYS).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_read_as_they_were_written() {
        let mut score = Score::default();
        assert_eq!((text(&score), read("")), (String::new(), Vec::new()));
        let keys = [(0, 1, "G minor"), (48, 1, "Bb major"), (97, 2, "F# minor")];
        let keys =
            keys.map(|(above, below, key)| (Quarters::new(above, below).unwrap(), key.parse().unwrap()));
        keys.iter().for_each(|(from, key)| score.set_key(*from, *key));
        assert_eq!(text(&score), "0 G minor; 48 Bb major; 97/2 F# minor");
        assert_eq!(read(&text(&score)), keys);
    }

    #[test]
    fn what_is_written_otherwise_tells_nothing() {
        for odd in [
            "G minor",
            "0 G",
            "0 G minor;",
            "-1 G minor",
            "1/0 G minor",
            "1/-2 G minor",
            "x G minor",
            "0 Q major",
        ] {
            assert_eq!(read(odd), [], "{odd}");
        }
        assert_eq!(read(&vec!["0 G minor"; MOST_KEYS + 1].join(";")), []);
    }
}
