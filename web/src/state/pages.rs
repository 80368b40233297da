//! The reader's own pages on the device: named, in a list, and as a file to keep elsewhere.
//!
//! A kept page is its link, so that it opens in every later version, as links do. The file is plain text: a first line
//! that says what it is, then a line a page: its name, a tabulator, its link.

use crookwise_share::{Link, ReadPage};

/// Pages that are kept at most.
pub const MOST_PAGES: usize = 200;

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
            Self::Foreign => f.write_str("This is not a file of pages written by Crookwise"),
            Self::Some(1) => f.write_str("One page of this file is damaged and was left out"),
            Self::Some(count) => write!(f, "{count} pages of this file are damaged and were left out"),
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

/// Keeps a page under a name; one of the same name is replaced.
pub fn keep(pages: &mut Vec<KeptPage>, name: &str, page: &ReadPage) {
    let link = Link::Read(Box::new(page.clone())).encode();
    let name = Some(clean(name)).filter(|name| !name.is_empty()).unwrap_or_else(|| "Untitled".into());
    if let Some(kept) = pages.iter_mut().find(|kept| kept.name == name) {
        kept.link = link;
    } else if pages.len() < MOST_PAGES {
        pages.push(KeptPage { name, link });
    }
}

/// Takes pages of a file into the list. One whose name is taken by another page gets a number behind its name.
pub fn merge(pages: &mut Vec<KeptPage>, more: Vec<KeptPage>) {
    for mut page in more {
        if pages.len() >= MOST_PAGES || pages.contains(&page) {
            continue;
        }
        let name = page.name.clone();
        let mut number = 2;
        while pages.iter().any(|kept| kept.name == page.name) {
            page.name = format!("{name} {number}");
            number += 1;
        }
        pages.push(page);
    }
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
        keep(&mut pages, "Corni", &ReadPage::of_label("Corni in Es"));
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
        keep(&mut pages, "Horns \t in two crooks\n", &ReadPage::of_label("Corni in Es"));
        keep(&mut pages, "", &ReadPage::of_label("Fagotti"));
        assert_eq!(pages[0].name, "Horns  in two crooks");
        let text = write(&pages);
        assert_eq!(read(&text), (pages.clone(), None));
        keep(&mut pages, "Untitled", &ReadPage::of_label("Oboi"));
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
    fn taking_in_a_file_replaces_nothing() {
        let mut pages = Vec::new();
        keep(&mut pages, "A", &ReadPage::of_label("Oboi"));
        let same = pages.clone();
        merge(&mut pages, same);
        assert_eq!(pages.len(), 1);
        let other = vec![KeptPage { name: "A".into(), link: "/read?staff=Fagotti".into() }];
        merge(&mut pages, other);
        assert_eq!(pages[1].name, "A 2");
    }
}
