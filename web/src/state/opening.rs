//! What stands on the screen when the app is opened: the link's page, else the reader's own, else the start page.

use crate::state::place::Place;
use crate::state::start;
use crookwise_share::{Link, ReadPage};

/// The page to begin with, and what must be said about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// The page.
    pub page: ReadPage,
    /// A sentence where the link or the kept page could not be opened.
    pub notice: Option<String>,
}

/// Decides between the part of the address behind `#` and what the device keeps.
#[must_use]
pub fn of(hash: &str, kept: Option<&str>) -> Opening {
    // Other places read the address themselves.
    let hash = if Place::of(hash).is_read() { hash } else { "" };
    match Link::decode(hash) {
        Ok(Some(Link::Read(page))) => Opening { page: *page, notice: None },
        Ok(_) => match kept.map(Link::decode) {
            Some(Ok(Some(Link::Read(page)))) => Opening { page: *page, notice: None },
            // What is kept and cannot be read is left where it is until the reader makes something new.
            _ => Opening { page: start::page(), notice: None },
        },
        Err(error) => Opening { page: start::page(), notice: Some(error.to_string()) },
    }
}

/// Whether a page kept on the device is work of the reader's that would be lost if another took its place: it is
/// neither the page that was opened nor the one that stands there now, wherever something is selected.
#[must_use]
pub fn would_be_lost(kept: &str, opened: &ReadPage, now: &ReadPage) -> bool {
    let bare = |page: &ReadPage| ReadPage { selected: None, staff: 0, player: 0, ..page.clone() };
    match Link::decode(kept) {
        Ok(Some(Link::Read(kept))) => [opened, now].iter().all(|page| bare(page) != bare(&kept)),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_work_that_stands_nowhere_else_would_be_lost() {
        let page = ReadPage::of_label;
        let kept = "/read?staff=Fagotti&notes=C3&at=1";
        assert!(would_be_lost(kept, &page("Oboi"), &page("Flauti")));
        let Ok(Some(Link::Read(own))) = Link::decode("/read?staff=Fagotti&notes=C3") else { panic!() };
        // The page that was opened, changed; and one that came back by an undo.
        assert!(!would_be_lost(kept, &own, &page("Flauti")));
        assert!(!would_be_lost(kept, &page("Oboi"), &own));
        assert!(!would_be_lost("rubbish", &page("Oboi"), &page("Flauti")));
    }

    const LINK: &str = "/read?staff=Trombe+in+D&notes=C5";

    #[test]
    fn a_link_goes_before_what_is_kept() {
        assert_eq!(of(LINK, Some("/read?staff=Fagotti")).page.passage.staves()[0].label, "Trombe in D");
        assert_eq!(of("", Some(LINK)).page.passage.staves()[0].label, "Trombe in D");
        assert_eq!(of("", None).page, start::page());
        assert_eq!(of("/practise?x=1", Some(LINK)).page.passage.staves()[0].label, "Trombe in D");
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
