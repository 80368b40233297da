//! Who plays on a staff of several players, by the words over it: "a 2", "1.", "2.".
//!
//! Such words hold until the next of them (common practice; the words by the trade's table of pairs). Where two parts are written
//! out they end: from there on notes and voices tell. What no word says stays open.

use crate::labels::Named;
use crookwise_score::score::{Direction, PartStaff, PlayedBy, Quarters, Score, ScoreNote, StaffId};

/// Lets the words over a staff say who plays what stands there in one line.
pub(crate) fn settle(score: &mut Score, staff: StaffId, named: &Named) {
    let Some(own) = score.staff(staff).filter(|own| own.players > 1) else { return };
    let words = words(own, &numbers(named, own.players));
    if words.is_empty() {
        return;
    }
    let by = by(own, &words);
    // One for each of its notes, of a player who is there.
    let _ = score.seat_notes(staff, &by);
}

/// The numbers of the players by their label, from the first on; where it has none, those of counting.
fn numbers(named: &Named, players: usize) -> Vec<usize> {
    let staves = named.decoded().staves.iter();
    let told: Vec<usize> =
        staves.flat_map(|staff| &staff.players).filter_map(|number| usize::try_from(*number).ok()).collect();
    if told.len() == players { told } else { (1..=players).collect() }
}

/// From when the words over a staff name whom; `None` where they end what was said before.
fn words(staff: &PartStaff, numbers: &[usize]) -> Vec<(Quarters, Option<PlayedBy>)> {
    let said = staff.directions.iter().filter_map(|told| match &told.direction {
        Direction::Words(text) => Some((told.at.time, named_by(text, numbers)?)),
        _ => None,
    });
    said.collect()
}

/// Who plays each note of a staff.
fn by(staff: &PartStaff, words: &[(Quarters, Option<PlayedBy>)]) -> Vec<PlayedBy> {
    let mut words = words.iter().peekable();
    let mut now: Option<PlayedBy> = None;
    // What sounds last of the notes so far, and until when.
    let mut before: Option<(&ScoreNote, PlayedBy)> = None;
    let notes = staff.notes();
    let mut all = Vec::with_capacity(notes.len());
    for (at, (_, note)) in notes.iter().enumerate() {
        while let Some((_, said)) = words.next_if(|(from, _)| *from <= note.start.time) {
            now = *said;
        }
        if note.printed.is_none() || note.grace || !note.is_played() {
            all.push(now.unwrap_or(PlayedBy::Voice));
            continue;
        }
        let later = notes.get(at + 1..).unwrap_or_default().iter().map(|(_, later)| later);
        let next = later.clone().find(|later| later.printed.is_some() && !later.grace && later.is_played());
        let is_beside = before.is_some_and(|(before, _)| before.end.time > note.start.time)
            || next.is_some_and(|next| next.start.time < note.end.time);
        if is_beside {
            now = None;
        }
        // Who holds a note holds it on, whatever is said over its end.
        let held = before.filter(|(before, _)| {
            note.tied && !is_beside && before.end.time == note.start.time && before.printed == note.printed
        });
        let own = held.map_or_else(|| now.unwrap_or(PlayedBy::Voice), |(_, by)| by);
        all.push(own);
        if before.is_none_or(|(before, _)| before.end.time <= note.end.time) {
            before = Some((note, own));
        }
    }
    all
}

/// Whom words name: one player, or all. `None` where they are of something else; nobody where they end what was said before.
fn named_by(text: &str, numbers: &[usize]) -> Option<Option<PlayedBy>> {
    let text = text.to_lowercase();
    let text = text.trim_matches(|letter: char| "[]() ".contains(letter));
    let all = |count: usize| Some(PlayedBy::All).filter(|_| count == numbers.len());
    match text {
        "unis." | "unis" | "unisono" | "unisoni" => return Some(Some(PlayedBy::All)),
        "a due" | "à deux" | "zu zweit" => return Some(all(2)),
        // One of them, and it is not said who; or each his own again.
        "solo" | "soli" | "tutti" | "div." | "divisi" => return Some(None),
        _ => {}
    }
    if let Some(count) = ["a", "à", "zu"].iter().find_map(|word| text.strip_prefix(word)) {
        let count = count.trim().trim_end_matches('.').parse::<usize>();
        return count.ok().filter(|count| (2..=9).contains(count)).map(all);
    }
    // "1.", "1º solo", "I. II.".
    let text = text.strip_suffix("solo").unwrap_or(text);
    let spaced = text.replace('.', ". ");
    let named: Option<Vec<usize>> = spaced.split_whitespace().map(ordinal).collect();
    let named = named.filter(|named| !named.is_empty())?;
    Some(match named.as_slice() {
        [one] => numbers.iter().position(|number| number == one).map(PlayedBy::One),
        several if several == numbers => Some(PlayedBy::All),
        _ => None,
    })
}

/// The number of a player as it stands over a staff: "1.", "1º", "i", "imo". A bare figure may be anything.
fn ordinal(word: &str) -> Option<usize> {
    const ROMAN: [&str; 4] = ["i", "ii", "iii", "iv"];
    let endings = [".", "º", "°", "mo", "do", "er", "o"];
    let ending = endings.iter().find(|ending| word.ends_with(**ending));
    let bare = ending.and_then(|ending| word.strip_suffix(ending)).unwrap_or(word);
    let roman = ROMAN.iter().position(|roman| *roman == bare).map(|at| at + 1);
    let figure = || bare.parse::<usize>().ok().filter(|number| ending.is_some() && (1..=9).contains(number));
    roman.or_else(figure)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_name_players_as_scores_have_them() {
        let of = |text: &str| named_by(text, &[1, 2]);
        for both in ["a 2", "à 2", "zu 2", "a2", "[a 2]", "a 2.", "a due", "unis.", "1. 2.", "I.II.", "I II"]
        {
            assert_eq!(of(both), Some(Some(PlayedBy::All)), "{both}");
        }
        for first in ["1.", "I.", "I", "1º", "1°", "1o", "1. Solo", "1º solo", "I. Solo", "Imo", "(1.)"] {
            assert_eq!(of(first), Some(Some(PlayedBy::One(0))), "{first}");
        }
        for second in ["2.", "II.", "2º", "2do", "II. Solo"] {
            assert_eq!(of(second), Some(Some(PlayedBy::One(1))), "{second}");
        }
        // Who is meant is not said, or is not here.
        for open in ["Solo", "div.", "a 3", "3.", "2. 1."] {
            assert_eq!(of(open), Some(None), "{open}");
        }
        for other in [
            "1",
            "2",
            "a tempo",
            "a",
            "a piacere",
            "ad lib.",
            "in 2",
            "1. volta",
            "cresc.",
            "",
            "zu",
            "Solo?",
            "dolce",
        ] {
            assert_eq!(of(other), None, "{other}");
        }
    }

    #[test]
    fn numbers_are_those_of_the_label() {
        let of = |label: &str, players: usize| numbers(&Named::of(label), players);
        assert_eq!(of("Corni III. IV. in F", 2), [3, 4]);
        assert_eq!(of("2 Corni in Es", 2), [1, 2]);
        assert_eq!(named_by("3.", &[3, 4]), Some(Some(PlayedBy::One(0))));
        assert_eq!(named_by("1.", &[3, 4]), Some(None));
        assert_eq!(named_by("a 2", &[1, 2, 3, 4]), Some(None));
    }
}
