//! The reader's own pages: named, each an entry of its own, so that two windows add to each other.
//!
//! A kept page is its link, so that it opens in every later version, as links do, at any size a page may have.

use super::Drawers;
use super::aside::{self, SetAside};
use super::backup;
use super::desk::{KeptDesk, opened, same};
use super::entry as entries;
use super::entry::{Unread, What};
use crate::words::PAGE_BEFORE;
use crate::words::pages::UNTITLED;
use crookwise_share::{Link, ReadPage};
use crookwise_theory::order::in_order;

/// The drawer.
pub const DRAWER: &str = "pages";
/// Pages that are kept at most.
pub const MOST_PAGES: usize = 200;

/// A page under its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptPage {
    /// As the reader called it. No two pages have the same.
    pub name: String,
    /// The link to it, of any length.
    pub link: String,
    /// When it was first kept, in milliseconds since 1970: the order of the list.
    pub at: u64,
}

/// There are as many pages as may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoRoom;

impl KeptPage {
    fn write(&self) -> String {
        entries::write(What::Page, &format!("{}\n{}\n{}", self.at, self.name, self.link))
    }

    fn read(text: &str) -> Result<Self, Unread> {
        let mut lines = entries::read(What::Page, text)?.split('\n');
        let at = lines.next().and_then(|at| at.parse().ok()).ok_or(Unread::Damaged)?;
        let (name, link) = (lines.next().ok_or(Unread::Damaged)?, lines.next().ok_or(Unread::Damaged)?);
        if lines.next().is_some() || name.is_empty() || name.trim() != name || name.contains(char::is_control)
        {
            return Err(Unread::Damaged);
        }
        opened(link)?;
        Ok(Self { name: name.to_owned(), link: link.to_owned(), at })
    }
}

/// All pages, the oldest first.
#[must_use]
pub fn list(kept: &Drawers) -> Vec<KeptPage> {
    let read =
        |(name, text): (&String, &String)| KeptPage::read(text).ok().filter(|page| *name == key(&page.name));
    // By name they stand already.
    in_order(kept.iter().filter_map(read), |page| page.at)
}

/// Sets aside what cannot be read, and takes in again what was set aside and now can be. Done before every change, so that
/// nothing is written over what is not understood.
pub fn sort_out(kept: &mut Drawers) -> SetAside {
    let of_drawer = |name: &&String| name.strip_prefix(DRAWER).is_some_and(|rest| rest.starts_with('/'));
    let names: Vec<String> = kept.keys().filter(of_drawer).cloned().collect();
    let own_name = |text: &str| KeptPage::read(text).map(|page| key(&page.name));
    let found = aside::sort_out(kept, What::Page, names, &own_name);
    for aside in aside::all(kept) {
        let pages = match aside.what {
            What::Page => KeptPage::read(&aside.text).ok().map(|page| vec![page]),
            What::Pages => backup::read(&aside.text, 0).ok().filter(backup::Backup::is_whole).map(|file| {
                // Exercises and courses have a drawer of their own, which takes them from here.
                for (what, text) in file.lists {
                    aside::put(kept, what, &text);
                }
                file.pages
            }),
            What::Desk => KeptDesk::read(&aside.text).ok().map(|desk| of_desk(&desk)),
            _ => None,
        };
        if let Some(pages) = pages
            && take_in(kept, pages).is_empty()
        {
            kept.remove(&aside.name);
        }
    }
    found
}

/// What stands on a desk, as pages.
#[must_use]
pub fn of_desk(desk: &KeptDesk) -> Vec<KeptPage> {
    let page = |link: &String| KeptPage { name: PAGE_BEFORE.to_owned(), link: link.clone(), at: desk.at };
    desk.page.iter().chain(&desk.before).map(page).collect()
}

/// Keeps a page under a name; one of the same name is replaced. One without a name gets a name that is free.
///
/// # Errors
/// Where there are as many as may be.
pub fn keep(kept: &mut Drawers, name: &str, page: &ReadPage, at: u64) -> Result<(), NoRoom> {
    let link = Link::Read(Box::new(page.clone())).encode();
    let name = clean(name);
    let before = list(kept);
    let same_name = before.iter().find(|page| page.name == name);
    if same_name.is_none() && before.len() >= MOST_PAGES {
        return Err(NoRoom);
    }
    let name = if name.is_empty() { free_name(kept, UNTITLED) } else { name };
    let at = same_name.map_or(at, |page| page.at);
    put(kept, &KeptPage { name, link, at });
    Ok(())
}

/// A page as an entry, in case it cannot be kept in its drawer before the window is closed.
#[must_use]
pub fn entry(name: &str, page: &ReadPage, at: u64) -> String {
    let name = clean(name);
    let name = if name.is_empty() { UNTITLED.to_owned() } else { name };
    KeptPage { name, link: Link::Read(Box::new(page.clone())).encode(), at }.write()
}

/// Removes a page as it was listed; one that has changed since stays.
pub fn remove(kept: &mut Drawers, page: &KeptPage) {
    if kept.get(&key(&page.name)) == Some(&page.write()) {
        kept.remove(&key(&page.name));
    }
}

/// Takes more pages in; gives back those for which there is no room. One whose name is taken by another page gets a number
/// behind its name; one that was kept in the same moment is the same page, whatever free name it got then.
#[must_use]
pub fn take_in(kept: &mut Drawers, more: Vec<KeptPage>) -> Vec<KeptPage> {
    let mut left = Vec::new();
    let mut pages = list(kept);
    for mut page in more {
        page.name = clean(&page.name);
        let is_known =
            |known: &KeptPage| known.link == page.link && (known.name == page.name || known.at == page.at);
        if pages.iter().any(is_known) {
            continue;
        }
        if pages.len() >= MOST_PAGES {
            left.push(page);
            continue;
        }
        let wanted = if page.name.is_empty() { UNTITLED } else { &page.name };
        page.name = free_name(kept, wanted);
        put(kept, &page);
        pages.push(page);
    }
    left
}

/// Takes in pages that made way for others; gives back the links that found no room. What stands among the pages already
/// is not taken in a second time.
#[must_use]
pub fn take_in_before(kept: &mut Drawers, links: &[String], at: u64) -> Vec<String> {
    let known: Vec<ReadPage> = list(kept).iter().filter_map(|page| opened(&page.link).ok()).collect();
    let is_new =
        |link: &&String| opened(link).is_ok_and(|page| !known.iter().any(|known| same(known, &page)));
    let new = links.iter().filter(is_new);
    let new = new.map(|link| KeptPage { name: PAGE_BEFORE.to_owned(), link: link.clone(), at }).collect();
    take_in(kept, new).into_iter().map(|left| left.link).collect()
}

/// The pages with the one on the screen, which gets a name of its own and replaces none.
#[must_use]
pub fn with_page(pages: &[KeptPage], name: &str, page: &ReadPage) -> Vec<KeptPage> {
    let mut all = pages.to_vec();
    let taken = |name: &str| pages.iter().any(|page| page.name == name);
    let link = Link::Read(Box::new(page.clone())).encode();
    all.push(KeptPage { name: first_free(name, taken), link, at: u64::MAX });
    all
}

fn put(kept: &mut Drawers, page: &KeptPage) {
    kept.insert(key(&page.name), page.write());
}

fn key(name: &str) -> String {
    format!("{DRAWER}/{name}")
}

/// A name that no page has: with a number behind it where it is taken.
fn free_name(kept: &Drawers, name: &str) -> String {
    first_free(name, |name| kept.contains_key(&key(name)))
}

fn first_free(name: &str, taken: impl Fn(&str) -> bool) -> String {
    let mut free = name.to_owned();
    let mut number = 2;
    while taken(&free) {
        free = format!("{name} {number}");
        number += 1;
    }
    free
}

/// A name on one line, without control characters, of at most eighty letters.
#[must_use]
pub fn clean(name: &str) -> String {
    name.chars().filter(|letter| !letter.is_control()).take(80).collect::<String>().trim().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(label: &str) -> ReadPage {
        ReadPage::of_label(label)
    }

    fn names(kept: &Drawers) -> Vec<String> {
        list(kept).into_iter().map(|page| page.name).collect()
    }

    #[test]
    fn pages_are_listed_as_they_were_kept() {
        let mut kept = Drawers::default();
        keep(&mut kept, "Horns \t in two crooks\n", &page("Corni in Es"), 1).unwrap();
        keep(&mut kept, "", &page("Fagotti"), 2).unwrap();
        keep(&mut kept, "Again", &page("Oboi"), 3).unwrap();
        assert_eq!(names(&kept), ["Horns  in two crooks", "Untitled", "Again"]);
        // Under a name that is there, a page takes the place of the other.
        keep(&mut kept, "Untitled", &page("Flauti"), 4).unwrap();
        assert_eq!(names(&kept), ["Horns  in two crooks", "Untitled", "Again"]);
        assert!(list(&kept)[1].link.contains("Flauti"));
        // One without a name takes nobody's.
        keep(&mut kept, " ", &page("Viole"), 5).unwrap();
        assert_eq!(names(&kept)[3], "Untitled 2");
        let first = list(&kept)[0].clone();
        remove(&mut kept, &first);
        assert_eq!(names(&kept), ["Untitled", "Again", "Untitled 2"]);
    }

    #[test]
    fn a_page_that_another_window_changed_is_not_removed() {
        let mut kept = Drawers::default();
        keep(&mut kept, "Mine", &page("Oboi"), 1).unwrap();
        let seen = list(&kept)[0].clone();
        keep(&mut kept, "Mine", &page("Flauti"), 2).unwrap();
        remove(&mut kept, &seen);
        assert_eq!(names(&kept), ["Mine"]);
    }

    #[test]
    fn what_cannot_be_read_is_set_aside_and_never_written_over() {
        let mut kept = Drawers::default();
        keep(&mut kept, "Good", &page("Oboi"), 1).unwrap();
        let newer = "crookwise page 2\nsomething of a later version".to_owned();
        kept.insert("pages/Newer".into(), newer.clone());
        kept.insert("pages/Damaged".into(), "crookwise page 1\n3\nDamaged\n/read?v=1.0000&staff=Oboi".into());
        kept.insert("pages/Elsewhere".into(), kept.get("pages/Good").unwrap().clone());
        assert_eq!(sort_out(&mut kept), SetAside { damaged: 2, newer: 1 });
        assert_eq!(sort_out(&mut kept), SetAside::default());
        keep(&mut kept, "Newer", &page("Flauti"), 2).unwrap();
        // The one under a wrong name could be read, and is there once.
        assert_eq!(names(&kept), ["Good", "Newer"]);
        let aside: Vec<String> = aside::all(&kept).into_iter().map(|aside| aside.text).collect();
        assert_eq!(aside.len(), 2);
        assert!(aside.contains(&newer));
    }

    #[test]
    fn what_was_set_aside_comes_back_when_it_can_be_read() {
        let mut kept = Drawers::default();
        keep(&mut kept, "Mine", &page("Oboi"), 1).unwrap();
        let text = kept.remove("pages/Mine").unwrap();
        aside::put(&mut kept, What::Page, &text);
        keep(&mut kept, "Mine", &page("Flauti"), 2).unwrap();
        assert_eq!(sort_out(&mut kept), SetAside::default());
        assert_eq!(names(&kept), ["Mine 2", "Mine"]);
        assert!(aside::all(&kept).is_empty());
    }

    #[test]
    fn the_largest_page_is_kept() {
        let mut large = page("Corni");
        for _ in 1..crookwise_score::MOST_STAVES {
            large.passage.duplicate_staff(0).unwrap();
        }
        for staff in 0..large.passage.staves().len() {
            large.passage.set_players(staff, 3).unwrap();
            for column in 0..crookwise_score::MOST_COLUMNS {
                let note = crookwise_score::Event::Note(crookwise_theory::Printed("C4".parse().unwrap()));
                (0..3).for_each(|player| large.passage.set(staff, column, player, note).unwrap());
            }
        }
        let mut kept = Drawers::default();
        keep(&mut kept, "Large", &large, 1).unwrap();
        assert!(list(&kept)[0].link.len() > crookwise_share::LONGEST);
        assert_eq!(sort_out(&mut kept), SetAside::default());
        assert_eq!(opened(&list(&kept)[0].link), Ok(large));
    }

    #[test]
    fn pages_that_made_way_are_taken_in_once() {
        let mut kept = Drawers::default();
        keep(&mut kept, "Mine", &page("Oboi"), 1).unwrap();
        let links = ["/read?staff=Fagotti", "/read?staff=Oboi&at=1", "/read?staff=Flauti"].map(String::from);
        assert!(take_in_before(&mut kept, &links, 2).is_empty());
        assert_eq!(names(&kept), ["Mine", "The page before", "The page before 2"]);
        assert!(take_in_before(&mut kept, &links, 3).is_empty());
        assert_eq!(names(&kept).len(), 3);
    }

    #[test]
    fn where_there_is_no_room_nothing_is_dropped() {
        let mut kept = Drawers::default();
        for number in 0..MOST_PAGES as u64 {
            keep(&mut kept, &format!("{number}"), &page("Oboi"), number).unwrap();
        }
        assert_eq!(keep(&mut kept, "one more", &page("Flauti"), 0), Err(NoRoom));
        keep(&mut kept, "7", &page("Flauti"), 0).unwrap();
        let links = ["/read?staff=Fagotti".to_owned()];
        assert_eq!(take_in_before(&mut kept, &links, 0), links);
        assert_eq!(list(&kept).len(), MOST_PAGES);
    }

    #[test]
    fn a_page_without_a_name_that_waits_beside_its_entry_is_there_once() {
        let mut kept = Drawers::default();
        keep(&mut kept, "", &page("Oboi"), 1).unwrap();
        // The window went when the second was kept, and before its waiting copy was removed.
        keep(&mut kept, "", &page("Fagotti"), 2).unwrap();
        let waiting = KeptPage::read(&entry("", &page("Fagotti"), 2)).unwrap();
        assert!(take_in(&mut kept, vec![waiting]).is_empty());
        assert_eq!(names(&kept), ["Untitled", "Untitled 2"]);
    }

    #[test]
    fn a_page_of_a_taken_name_gets_a_number() {
        let mut kept = Drawers::default();
        keep(&mut kept, "A", &page("Oboi"), 1).unwrap();
        let other = KeptPage { name: "A".into(), link: "/read?staff=Fagotti".into(), at: 2 };
        let first = list(&kept)[0].clone();
        assert!(take_in(&mut kept, vec![first, other]).is_empty());
        assert_eq!(names(&kept), ["A", "A 2"]);
        let all = with_page(&list(&kept), "A", &page("Viole"));
        assert_eq!((all.len(), all[2].name.as_str()), (3, "A 3"));
    }
}
