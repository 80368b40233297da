//! What stands on the screen when the app is opened: the link's page, else the reader's own, else the start page.

use crate::state::start;
use crate::state::store::desk;
use crookwise_share::{Link, ReadPage};

/// The page to begin with, and what must be said about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// The page.
    pub page: ReadPage,
    /// A sentence where the link or the kept page could not be opened.
    pub notice: Option<String>,
}

/// What the address brings, or the sentence that says why it cannot be opened.
pub type Brought = Result<Option<Link>, String>;

/// Decides between the part of the address behind `#`, what it brings, and what stands on the desk of this window.
#[must_use]
pub fn of(hash: &str, brought: &Brought, kept: Option<&str>) -> Opening {
    let own = || kept.and_then(|kept| desk::opened(kept).ok());
    // A desk may hold more than a link: loaded again, its own address leads to it.
    let brought = if kept == Some(hash) { &Ok(None) } else { brought };
    match brought {
        Ok(Some(Link::Read(page))) => Opening { page: ReadPage::clone(page), notice: None },
        Ok(_) => Opening { page: own().unwrap_or_else(start::page), notice: None },
        Err(why) => Opening { page: start::page(), notice: Some(why.clone()) },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LINK: &str = "/read?staff=Trombe+in+D&notes=C5";

    fn of(hash: &str, kept: Option<&str>) -> Opening {
        super::of(hash, &Link::decode(hash).map_err(|error| error.to_string()), kept)
    }

    #[test]
    fn a_link_goes_before_what_is_kept() {
        assert_eq!(of(LINK, Some("/read?staff=Fagotti")).page.passage.staves()[0].label, "Trombe in D");
        assert_eq!(of("", Some(LINK)).page.passage.staves()[0].label, "Trombe in D");
        assert_eq!(of("", None).page, start::page());
        assert_eq!(of("/practise?step=2", Some(LINK)).page.passage.staves()[0].label, "Trombe in D");
    }

    #[test]
    fn a_desk_beyond_the_length_of_a_link_survives_a_reload() {
        let mut large = start::page();
        for _ in 1..crookwise_score::MOST_STAVES {
            large.passage.duplicate_staff(0).unwrap();
        }
        for staff in 0..crookwise_score::MOST_STAVES {
            large.passage.set_players(staff, 3).unwrap();
            for (column, player) in
                (0..crookwise_score::MOST_COLUMNS).flat_map(|at| (0..3).map(move |one| (at, one)))
            {
                let note = crookwise_score::Event::Note(crookwise_theory::Printed("C4".parse().unwrap()));
                large.passage.set(staff, column, player, note).unwrap();
            }
        }
        let kept = Link::Read(Box::new(large.clone())).encode();
        assert!(kept.len() > crookwise_share::LONGEST);
        for hash in [kept.as_str(), "", "/practise"] {
            assert_eq!(of(hash, Some(&kept)), Opening { page: large.clone(), notice: None });
        }
        assert!(of(&kept, None).notice.is_some());
    }

    #[test]
    fn a_damaged_link_shows_a_sentence_and_an_untouched_start_page() {
        let opening = of("/read?v=1.0000&staff=Corni", Some(LINK));
        assert_eq!(opening.page, start::page());
        assert!(opening.notice.unwrap().contains("damaged"));
        let opening = of("", Some("rubbish \u{202e}"));
        assert_eq!(opening, Opening { page: start::page(), notice: None });
    }
}
