//! Places of movements in a course over weeks: pasted as links, named in words.

use crate::state::movement::ComesFrom;
use crate::state::movement::link::read;
use crate::words;
use crookwise_share::Link;

/// The pairs of the link to a place of a movement that was pasted; `None` where it is none.
#[must_use]
pub fn pasted(text: &str) -> Option<String> {
    let text = text.trim();
    let hash = text.split_once('#').map_or(text, |(_, hash)| hash);
    match Link::decode_readable(hash) {
        Ok(Some(Link::Score(pairs))) => read(&pairs).ok().flatten().map(|_| pairs),
        _ => None,
    }
}

/// What a place is called; `None` where a newer version made it.
#[must_use]
pub fn called(pairs: &str) -> Option<String> {
    let (source, place) = read(pairs).ok().flatten()?;
    let title = match source {
        ComesFrom::File(_) if place.title.is_empty() => words::weeks::A_SCORE,
        _ => &place.title,
    };
    Some(words::weeks::place(title, place.bars.as_ref(), place.along.is_some()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_link_to_a_place_is_taken_and_named_and_nothing_else() {
        let link = "https://www.example.org/crookwise/#/score?kept=1a2b&bars=24-31&along=5&title=Sinfonia";
        assert_eq!(pasted(link).as_deref(), Some("kept=1a2b&bars=24-31&along=5&title=Sinfonia"));
        assert_eq!(called(&pasted(link).unwrap()).as_deref(), Some("Read along in Sinfonia, bars 24 to 31"));
        let of = |pairs: &str| called(pairs).unwrap();
        assert_eq!(of("demo=1&bars=5"), "Look and listen in the demo movement, bar 5");
        assert_eq!(of("kept=1a2b"), "Look and listen in a score");
        for none in ["", "#/score", "#/read?staff=Corni", "/score?demo=7", "rubbish"] {
            assert_eq!(pasted(none), None, "{none}");
        }
        assert_eq!(called("later=1"), None);
    }
}
