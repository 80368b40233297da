//! The reader's own pages on the device: named, in a list, and as a file to keep elsewhere.
//!
//! A kept page is its link, so that it opens in every later version, as links do. The file is plain text: a first line
//! that says what it is, then a line a page: its name, a tabulator, its link.

use crate::words;
use crookwise_share::{Link, ReadPage};

/// Pages that are kept at most.
pub const MOST_PAGES: usize = 200;

/// The name of a page that was given none.
const UNTITLED: &str = words::pages::UNTITLED;

/// The first line of a file of pages.
const HEAD: &str = "Crookwise pages 1";

/// A page under its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptPage {
    /// As the reader called it.
    pub name: String,
    /// The link to it.
    pub link: String,
}

/// Why a file of pages cannot be taken in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PagesError {
    /// It does not begin as such a file.
    Foreign,
    /// Some of its pages could not be read and were left out: how many.
    Some(usize),
}

impl core::fmt::Display for PagesError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Foreign => f.write_str(words::pages::FOREIGN_FILE),
            Self::Some(1) => f.write_str(words::pages::ONE_DAMAGED_IN_FILE),
            Self::Some(count) => f.write_str(&words::pages::damaged_in_file(*count)),
        }
    }
}

impl PagesError {
    /// The same of what is kept on the device.
    #[must_use]
    pub fn on_device(&self) -> String {
        match self {
            Self::Foreign => words::pages::DEVICE_DAMAGED.to_owned(),
            Self::Some(1) => words::pages::ONE_DAMAGED_ON_DEVICE.to_owned(),
            Self::Some(count) => words::pages::damaged_on_device(*count),
        }
    }
}

/// The line of a file behind which the record of practice stands.
const RECORD: &str = "Crookwise practice";

/// A backup of everything: the pages, and the record of practice if there is one.
#[must_use]
pub fn backup(pages: &[KeptPage], record: Option<&str>) -> String {
    let mut out = write(pages);
    if let Some(record) = record {
        out.push_str(&format!("{RECORD}\n{record}"));
    }
    out
}

/// A file taken apart: its pages, and the record of practice if there is one.
#[must_use]
pub fn parts(file: &str) -> (&str, Option<&str>) {
    let mut at = 0;
    for line in file.split_inclusive('\n') {
        if line.trim_end() == RECORD {
            let (pages, rest) = file.split_at_checked(at).unwrap_or((file, ""));
            return (pages, rest.split_once('\n').map(|(_, record)| record));
        }
        at += line.len();
    }
    (file, None)
}

/// Reads kept pages; what cannot be read is left out and counted.
#[must_use]
pub fn read(text: &str) -> (Vec<KeptPage>, Option<PagesError>) {
    let mut lines = text.lines();
    if lines.next().map(str::trim) != Some(HEAD) {
        return (Vec::new(), Some(PagesError::Foreign));
    }
    let (mut pages, mut damaged) = (Vec::new(), 0);
    for line in lines.filter(|line| !line.trim().is_empty()) {
        match line.split_once('\t') {
            Some((name, link)) if pages.len() < MOST_PAGES && opens(link.trim()) => {
                pages.push(KeptPage { name: clean(name), link: link.trim().to_owned() });
            }
            _ => damaged += 1,
        }
    }
    (pages, (damaged > 0).then_some(PagesError::Some(damaged)))
}

/// Writes pages as a file.
#[must_use]
pub fn write(pages: &[KeptPage]) -> String {
    let mut out = format!("{HEAD}\n");
    for page in pages {
        out.push_str(&format!("{}\t{}\n", clean(&page.name), page.link));
    }
    out
}

/// Keeps a page under a name; one of the same name is replaced. One without a name gets a name that is free. False where
/// there are as many as may be.
#[must_use]
pub fn keep(pages: &mut Vec<KeptPage>, name: &str, page: &ReadPage) -> bool {
    let link = Link::Read(Box::new(page.clone())).encode();
    let name = clean(name);
    if name.is_empty() {
        return merge(pages, vec![KeptPage { name: UNTITLED.into(), link }]).is_empty();
    }
    if let Some(kept) = pages.iter_mut().find(|kept| kept.name == name) {
        kept.link = link;
    } else if pages.len() < MOST_PAGES {
        pages.push(KeptPage { name, link });
    } else {
        return false;
    }
    true
}

/// Takes more pages into the list; gives back those for which there is no room. One whose name is taken by another page
/// gets a number behind its name.
#[must_use]
pub fn merge(pages: &mut Vec<KeptPage>, more: Vec<KeptPage>) -> Vec<KeptPage> {
    let mut left = Vec::new();
    for mut page in more {
        if pages.contains(&page) {
            continue;
        }
        if pages.len() >= MOST_PAGES {
            left.push(page);
            continue;
        }
        page.name = free_name(pages, &page.name);
        pages.push(page);
    }
    left
}

/// The kept pages with the one on the screen, which gets a name of its own and replaces none.
#[must_use]
pub fn with_page(pages: &[KeptPage], name: &str, page: &ReadPage) -> Vec<KeptPage> {
    let mut all = pages.to_vec();
    let name = free_name(pages, name);
    all.push(KeptPage { name, link: Link::Read(Box::new(page.clone())).encode() });
    all
}

/// Takes in the pages that had to make way for a link before they had a name, a link a line; gives back what found no
/// room, as it came.
#[must_use]
pub fn take_in_set_aside(pages: &mut Vec<KeptPage>, text: &str, name: &str) -> String {
    let known: Vec<&str> = text.lines().filter(|link| opens(link)).collect();
    let new = known.into_iter().filter(|link| !pages.iter().any(|kept| kept.link == *link));
    let new = new.map(|link| KeptPage { name: name.to_owned(), link: link.to_owned() }).collect();
    merge(pages, new).into_iter().map(|left| left.link + "\n").collect()
}

/// A name that no page has: with a number behind it where it is taken.
fn free_name(pages: &[KeptPage], name: &str) -> String {
    let mut free = name.to_owned();
    let mut number = 2;
    while pages.iter().any(|kept| kept.name == free) {
        free = format!("{name} {number}");
        number += 1;
    }
    free
}

fn opens(link: &str) -> bool {
    matches!(Link::decode(link), Ok(Some(_)))
}

/// A name on one line, without control characters, of at most eighty letters.
fn clean(name: &str) -> String {
    name.chars().filter(|letter| !letter.is_control()).take(80).collect::<String>().trim().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_backup_has_the_record_behind_the_pages() {
        let mut pages = Vec::new();
        assert!(keep(&mut pages, "Corni", &ReadPage::of_label("Corni in Es")));
        let file = backup(&pages, Some("crookwise record 1\nx\n"));
        let (part, record) = parts(&file);
        assert_eq!(read(part), (pages.clone(), None));
        assert_eq!(record, Some("crookwise record 1\nx\n"));
        assert_eq!(parts(&file.replace('\n', "\r\n")).1, Some("crookwise record 1\r\nx\r\n"));
        assert_eq!(parts(&backup(&pages, None)).1, None);
    }

    #[test]
    fn pages_go_into_a_file_and_back() {
        let mut pages = Vec::new();
        assert!(keep(&mut pages, "Horns \t in two crooks\n", &ReadPage::of_label("Corni in Es")));
        assert!(keep(&mut pages, "", &ReadPage::of_label("Fagotti")));
        assert_eq!(pages[0].name, "Horns  in two crooks");
        let text = write(&pages);
        assert_eq!(read(&text), (pages.clone(), None));
        assert!(keep(&mut pages, "Untitled", &ReadPage::of_label("Oboi")));
        assert_eq!(pages.len(), 2);
        assert!(pages[1].link.contains("Oboi"));
    }

    #[test]
    fn damaged_pages_are_left_out_and_counted() {
        assert_eq!(read("rubbish"), (Vec::new(), Some(PagesError::Foreign)));
        let (pages, error) =
            read("Crookwise pages 1\nGood\t/read?staff=Oboi\nBad\t/read?v=1.0000&staff=Oboi\nno tab\n");
        assert_eq!((pages.len(), error), (1, Some(PagesError::Some(2))));
    }

    #[test]
    fn a_page_without_a_name_replaces_no_other() {
        let mut pages = Vec::new();
        assert!(keep(&mut pages, "", &ReadPage::of_label("Oboi")));
        assert!(keep(&mut pages, " ", &ReadPage::of_label("Fagotti")));
        let names: Vec<&str> = pages.iter().map(|page| page.name.as_str()).collect();
        assert_eq!(names, ["Untitled", "Untitled 2"]);
        assert!(pages[0].link.contains("Oboi") && pages[1].link.contains("Fagotti"));
    }

    #[test]
    fn a_backup_has_every_page_also_one_of_an_earlier_backup() {
        let mut pages = Vec::new();
        assert!(keep(&mut pages, "On the screen", &ReadPage::of_label("Oboi")));
        let all = with_page(&pages, "On the screen", &ReadPage::of_label("Fagotti"));
        assert_eq!(all.len(), 2);
        assert!(all[0].link.contains("Oboi") && all[1].link.contains("Fagotti"));
    }

    #[test]
    fn pages_that_made_way_are_taken_in_once() {
        let mut pages = vec![KeptPage { name: "Mine".into(), link: "/read?staff=Oboi".into() }];
        let text = "/read?staff=Fagotti\nrubbish\n/read?staff=Oboi\n/read?staff=Flauti\n";
        assert_eq!(take_in_set_aside(&mut pages, text, "Before"), "");
        let names: Vec<&str> = pages.iter().map(|page| page.name.as_str()).collect();
        assert_eq!(names, ["Mine", "Before", "Before 2"]);
    }

    #[test]
    fn where_there_is_no_room_it_is_said_and_nothing_goes() {
        let page = |at: usize| KeptPage {
            name: format!("{at}"),
            link: format!("/read?staff=Oboi&notes=C4&at={at}"),
        };
        let mut pages: Vec<KeptPage> = (0..MOST_PAGES).map(page).collect();
        let full = pages.clone();
        assert!(!keep(&mut pages, "One more", &ReadPage::of_label("Oboi")));
        assert!(!keep(&mut pages, "", &ReadPage::of_label("Oboi")));
        assert_eq!(take_in_set_aside(&mut pages, "/read?staff=Flauti\n", "Before"), "/read?staff=Flauti\n");
        assert_eq!(pages, full);
    }

    #[test]
    fn taking_in_a_file_replaces_nothing() {
        let mut pages = Vec::new();
        assert!(keep(&mut pages, "A", &ReadPage::of_label("Oboi")));
        let same = pages.clone();
        assert_eq!(merge(&mut pages, same), []);
        assert_eq!(pages.len(), 1);
        let other = vec![KeptPage { name: "A".into(), link: "/read?staff=Fagotti".into() }];
        assert_eq!(merge(&mut pages, other), []);
        assert_eq!(pages[1].name, "A 2");
    }
}
