//! The desk of a window: the page that stands on it, and pages that made way for it and are not safe elsewhere yet.
//!
//! Both are one text that is written at once: either all of it is kept or all stays as it was. So a page never makes way
//! before it is safe, however often the device refuses.

use super::entry::{self, Unread, What};
use crookwise_share::{Link, ReadPage};
use crookwise_theory::order::in_order;
use crookwise_theory::ordered::Ordered;

/// Names of desks begin so.
pub const NAMES: &str = "crookwise.desk.";
/// Desks without a window that are kept as they are; the pages of older ones go among the reader's pages.
pub const MOST_LEFT: usize = 12;

/// What stands on a desk.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct KeptDesk {
    /// When it was last changed, in milliseconds since 1970.
    pub at: u64,
    /// The page, as a link of any length; nothing where the reader has not changed anything yet.
    pub page: Option<String>,
    /// Pages that made way for it and wait to be safe among the reader's pages.
    pub before: Vec<String>,
}

impl KeptDesk {
    /// The desk as an entry.
    #[must_use]
    pub fn write(&self) -> String {
        let lines = [self.at.to_string(), self.page.clone().unwrap_or_default()];
        let lines: Vec<String> = lines.into_iter().chain(self.before.iter().cloned()).collect();
        entry::write(What::Desk, &lines.join("\n"))
    }

    /// Reads an entry.
    ///
    /// # Errors
    /// Where one of its pages cannot be opened, or the entry is not one of this version.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let mut lines = entry::read(What::Desk, text)?.split('\n');
        let at = lines.next().and_then(|at| at.parse().ok()).ok_or(Unread::Damaged)?;
        let page = lines.next().ok_or(Unread::Damaged)?;
        let page = (!page.is_empty()).then(|| page.to_owned());
        let before: Vec<String> = lines.map(str::to_owned).collect();
        for link in page.iter().chain(&before) {
            opened(link)?;
        }
        Ok(Self { at, page, before })
    }

    /// The page on it.
    #[must_use]
    pub fn opened(&self) -> Option<ReadPage> {
        opened(self.page.as_deref()?).ok()
    }

    /// The desk after the reader changed the page to `now`; `began` is the page as it stood before the first change, where
    /// this is the first. A page that would be lost makes way.
    #[must_use]
    pub fn changed(&self, began: Option<&ReadPage>, now: &ReadPage, at: u64) -> Self {
        let page = Some(Link::Read(Box::new(now.clone())).encode());
        let mut before = self.before.clone();
        if let (Some(kept), Some(began)) = (&self.page, began)
            && would_be_lost(kept, began, now)
            && !before.contains(kept)
        {
            before.push(kept.clone());
        }
        Self { at, page, before }
    }

    /// The desk after these pages became safe elsewhere.
    #[must_use]
    pub fn without(&self, safe: &[String]) -> Self {
        let mut left = self.clone();
        left.before.retain(|link| !safe.contains(link));
        left
    }
}

/// Opens a page that was kept.
///
/// # Errors
/// Where it cannot be.
pub fn opened(link: &str) -> Result<ReadPage, Unread> {
    match Link::decode_kept(link)? {
        Some(Link::Read(page)) => Ok(*page),
        _ => Err(Unread::Damaged),
    }
}

/// Whether two pages are the same, wherever something is selected.
#[must_use]
pub fn same(one: &ReadPage, other: &ReadPage) -> bool {
    let bare = |page: &ReadPage| ReadPage { selected: None, staff: 0, player: 0, ..page.clone() };
    bare(one) == bare(other)
}

/// Whether a kept page is work of the reader's that would be lost if another took its place: it is neither the page that
/// was opened nor the one that stands there now.
fn would_be_lost(kept: &str, began: &ReadPage, now: &ReadPage) -> bool {
    opened(kept).is_ok_and(|kept| [began, now].iter().all(|page| !same(page, &kept)))
}

/// The names of desks in the order in which a new window wants them: the one that was left last first.
#[must_use]
pub fn wanted(desks: &Ordered<String, KeptDesk>) -> Vec<String> {
    let known = in_order(desks.iter(), |(name, desk)| (desk.at, *name));
    known.into_iter().rev().map(|(name, _)| name.clone()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const OBOES: &str = "/read?staff=Oboi&notes=C5";

    fn page(label: &str) -> ReadPage {
        ReadPage::of_label(label)
    }

    fn desk(link: &str) -> KeptDesk {
        KeptDesk { at: 5, page: Some(link.to_owned()), before: Vec::new() }
    }

    #[test]
    fn a_desk_goes_back_and_forth() {
        let whole = KeptDesk { before: vec![OBOES.into(), "/read?staff=Flauti".into()], ..desk(OBOES) };
        for desk in [whole, desk(OBOES), KeptDesk::default()] {
            assert_eq!(KeptDesk::read(&desk.write()), Ok(desk));
        }
    }

    #[test]
    fn a_damaged_desk_or_a_newer_one_is_not_read() {
        let text = desk(OBOES).write();
        for damaged in ["notes=C5\nrubbish", "notes=Q5", "notes=C5\n"] {
            assert_eq!(KeptDesk::read(&text.replace("notes=C5", damaged)), Err(Unread::Damaged), "{damaged}");
        }
        assert_eq!(KeptDesk::read(&text.replace("desk 1", "desk 2")), Err(Unread::Newer));
        assert_eq!(KeptDesk::read(&text.replace("?staff", "?v=9.0000&staff")), Err(Unread::Newer));
        assert_eq!(KeptDesk::read(""), Err(Unread::Damaged));
    }

    #[test]
    fn a_page_that_would_be_lost_makes_way() {
        let own = desk(OBOES);
        let changed = own.changed(Some(&page("Fagotti")), &page("Flauti"), 6);
        assert_eq!(changed.before, [OBOES]);
        assert_eq!(changed.opened(), Some(page("Flauti")));
        // The next change takes the place of the last; another page that was opened does not.
        let next = changed.changed(None, &page("Trombe"), 7);
        assert_eq!((next.before.len(), next.opened()), (1, Some(page("Trombe"))));
        let third = next.changed(Some(&page("Viole")), &page("Violini"), 8);
        assert_eq!(third.before.len(), 2);
        assert_eq!(third.without(&[OBOES.to_owned()]).before.len(), 1);
    }

    #[test]
    fn only_work_that_stands_nowhere_else_makes_way() {
        let kept = desk("/read?staff=Fagotti&notes=C3&at=1");
        let own = opened("/read?staff=Fagotti&notes=C3").unwrap();
        // The page that was opened, changed; and one that came back by an undo.
        assert!(kept.changed(Some(&own), &page("Flauti"), 1).before.is_empty());
        assert!(kept.changed(Some(&page("Oboi")), &own, 1).before.is_empty());
        assert!(KeptDesk::default().changed(Some(&page("Oboi")), &own, 1).before.is_empty());
    }

    #[test]
    fn the_desk_that_was_left_last_is_wanted_first() {
        let of = |(name, at): (&str, u64)| (name.to_owned(), KeptDesk { at, ..desk(OBOES) });
        let desks = [("a", 5), ("b", 9), ("d", 7)].map(of).into_iter().collect();
        assert_eq!(wanted(&desks), ["b", "d", "a"]);
    }
}
