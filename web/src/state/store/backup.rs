//! Everything as a file to keep elsewhere, and such a file taken in.
//!
//! The file is plain text: a first line that says what it is, then a line a page: its name, a tabulator, its link. What was
//! set aside stands among the pages, a line each, with its own lines marked; so do named exercises, courses over weeks and
//! what was done. Behind them stands the record of practice.

use super::aside::{Aside, SetAside};
use super::desk::opened;
use super::entry::{self, Unread, What};
use super::pages::{KeptPage, clean};

/// The first line of a file, before its version.
const HEAD: &str = "Crookwise pages";
const VERSION: u32 = 1;
/// The line of a file behind which the record of practice stands.
const RECORD: &str = "Crookwise practice";
/// What a line begins with that holds an exercise, a course or what was done.
const LISTED: &str = "Crookwise list";
/// What a line begins with that holds something that was set aside.
const ASIDE: &str = "Crookwise set aside";

/// What a file holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Backup {
    /// The pages that can be read.
    pub pages: Vec<KeptPage>,
    /// Exercises, courses and what was done, as entries.
    pub lists: Vec<(What, String)>,
    /// The record of practice, if there is one.
    pub record: Option<String>,
    /// What cannot be read, and what was set aside when the file was written.
    pub aside: Vec<(What, String)>,
    /// Why that cannot be read which was not set aside before.
    pub found: SetAside,
}

/// The file is none that Crookwise wrote.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Foreign;

impl Backup {
    /// Whether all of it can be read.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.aside.is_empty() && self.found.is_empty()
    }
}

/// A file with these pages and entries of lists, the record if there is one, and what was set aside.
#[must_use]
pub fn write(pages: &[KeptPage], lists: &[(What, String)], record: Option<&str>, aside: &[Aside]) -> String {
    let mut out = format!("{HEAD} {VERSION}\n");
    for page in pages {
        out.push_str(&format!("{}\t{}\n", clean(&page.name), page.link));
    }
    for (what, text) in lists {
        out.push_str(&format!("{LISTED}\t{}\t{}\n", what.word(), in_one_line(text)));
    }
    for one in aside {
        out.push_str(&format!("{ASIDE}\t{}\t{}\n", one.what.word(), in_one_line(&one.text)));
    }
    if let Some(record) = record {
        out.push_str(&format!("{RECORD}\n{record}"));
    }
    out
}

/// Reads a file; its pages are kept from `at` on, in milliseconds since 1970.
///
/// # Errors
/// Where it is none of ours.
pub fn read(text: &str, at: u64) -> Result<Backup, Foreign> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let head = text.lines().next().unwrap_or_default().trim();
    let Some(version) = head.strip_prefix(HEAD).map(|version| version.trim().parse::<u32>()) else {
        return read_entry(text);
    };
    let mut file = Backup::default();
    if version != Ok(VERSION) {
        let why =
            if version.is_ok_and(|version| version > VERSION) { Unread::Newer } else { Unread::Damaged };
        file.found.add(why);
        file.aside.push((What::Pages, text.to_owned()));
        return Ok(file);
    }
    let (pages, record) = parts(text);
    file.record = record.map(str::to_owned);
    let mut damaged = String::new();
    for line in pages.lines().skip(1).filter(|line| !line.trim().is_empty()) {
        if let Some(one) = marked(line, ASIDE) {
            file.aside.push(one);
            continue;
        }
        if let Some(one) = marked(line, LISTED) {
            file.lists.push(one);
            continue;
        }
        // One after the other, so that they stay in their order.
        match page(line, at + file.pages.len() as u64) {
            Ok(page) => file.pages.push(page),
            Err(why) => {
                damaged.push_str(&format!("{line}\n"));
                file.found.add(why);
            }
        }
    }
    if !damaged.is_empty() {
        file.aside.push((What::Pages, format!("{HEAD} {VERSION}\n{damaged}")));
    }
    Ok(file)
}

/// A file of one entry: what was set aside and saved by itself.
fn read_entry(text: &str) -> Result<Backup, Foreign> {
    let is = |what: &What| {
        let word = text.strip_prefix("crookwise ").and_then(|rest| rest.split_whitespace().next());
        word == Some(what.word())
    };
    let what = What::ALL.into_iter().find(is).ok_or(Foreign)?;
    let mut file = Backup::default();
    match what {
        What::Record => file.record = Some(text.to_owned()),
        // One of these is handed on as a file of its own.
        What::Named | What::Weeks | What::Done | What::Codes if entry::read(what, text).is_ok() => {
            file.lists.push((what, text.trim_end().to_owned()));
        }
        what => {
            if let Err(why) = entry::read(what, text) {
                file.found.add(why);
            }
            file.aside.push((what, text.to_owned()));
        }
    }
    Ok(file)
}

/// A file taken apart: its pages, and the record of practice if there is one.
fn parts(file: &str) -> (&str, Option<&str>) {
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

fn page(line: &str, at: u64) -> Result<KeptPage, Unread> {
    let (name, link) = line.split_once('\t').ok_or(Unread::Damaged)?;
    opened(link.trim())?;
    Ok(KeptPage { name: clean(name), link: link.trim().to_owned(), at })
}

/// What stands in a line that begins so.
fn marked(line: &str, mark: &str) -> Option<(What, String)> {
    let (word, text) = line.strip_prefix(mark)?.strip_prefix('\t')?.split_once('\t')?;
    Some((What::of_word(word)?, in_its_lines(text)))
}

fn in_one_line(text: &str) -> String {
    text.replace('\\', "\\\\").replace('\n', "\\n").replace('\r', "\\r")
}

fn in_its_lines(line: &str) -> String {
    let mut letters = line.chars();
    let mut text = String::new();
    while let Some(letter) = letters.next() {
        let marked = if letter == '\\' { letters.next() } else { None };
        text.push(match marked {
            Some('n') => '\n',
            Some('r') => '\r',
            Some(other) => other,
            None => letter,
        });
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(name: &str, link: &str, at: u64) -> KeptPage {
        KeptPage { name: name.into(), link: link.into(), at }
    }

    fn aside(what: What, text: &str) -> Aside {
        Aside { name: "aside/x 1".into(), what, text: text.into() }
    }

    #[test]
    fn everything_goes_into_a_file_and_back() {
        let pages = [page("Corni", "/read?staff=Corni+in+Es", 7), page("A b", "/read?staff=Oboi", 8)];
        let entry = "crookwise done 1\n77 1796000000 8 10";
        let odd = "crookwise page 2\r\n\\n is no line\n\ttab \u{202e}";
        let file = write(
            &pages,
            &[(What::Done, entry.to_owned())],
            Some("crookwise record 1\nx\n"),
            &[aside(What::Page, odd)],
        );
        let read_back = read(&file, 7).unwrap();
        assert_eq!(read_back.pages, pages);
        assert_eq!(read_back.record.as_deref(), Some("crookwise record 1\nx\n"));
        assert_eq!(read_back.aside, [(What::Page, odd.to_owned())]);
        assert_eq!(read_back.lists, [(What::Done, entry.to_owned())]);
        // One of these by itself is a file, too; a damaged one is handed on whole.
        assert_eq!(read(entry, 7).unwrap().lists, [(What::Done, entry.to_owned())]);
        let newer = "crookwise weeks 9\nx";
        assert_eq!(read(newer, 7).unwrap().aside, [(What::Weeks, newer.to_owned())]);
        assert!(read_back.found.is_empty());
        assert_eq!(read(&file.replace('\n', "\r\n"), 7).unwrap().pages, pages);
        assert!(read(&write(&pages, &[], None, &[]), 7).unwrap().is_whole());
    }

    #[test]
    fn a_file_of_the_first_version_opens() {
        let file = "Crookwise pages 1\nTwo oboes\t/read?v=1.c691&staff=Oboi&notes=C5.E5&at=2\nCrookwise practice\ncrookwise record 1\n";
        let read = read(file, 0).unwrap();
        assert_eq!((read.pages.len(), read.record.is_some(), read.is_whole()), (1, true, true));
    }

    #[test]
    fn what_cannot_be_read_is_handed_on_whole() {
        let bad = "Bad\t/read?v=1.0000&staff=Oboi";
        let later = "Later\t/read?v=9.0000&staff=Oboi";
        let file = format!("Crookwise pages 1\nGood\t/read?staff=Oboi\n{bad}\nno tab\n{later}\n");
        let read_back = read(&file, 7).unwrap();
        assert_eq!(read_back.pages, [page("Good", "/read?staff=Oboi", 7)]);
        assert_eq!(read_back.found, SetAside { damaged: 2, newer: 1 });
        let whole = format!("Crookwise pages 1\n{bad}\nno tab\n{later}\n");
        assert_eq!(read_back.aside, [(What::Pages, whole)]);
        let newer = "Crookwise pages 2\nanything";
        let read_back = read(newer, 7).unwrap();
        assert_eq!(read_back.found, SetAside { damaged: 0, newer: 1 });
        assert_eq!(read_back.aside, [(What::Pages, newer.to_owned())]);
    }

    #[test]
    fn what_was_saved_by_itself_is_taken_in_again() {
        let newer = "crookwise record 9\nx";
        assert_eq!(read(newer, 7).unwrap().record.as_deref(), Some(newer));
        let desk = "crookwise desk 2\nx";
        let read_back = read(desk, 7).unwrap();
        assert_eq!((read_back.aside, read_back.found.newer), (vec![(What::Desk, desk.to_owned())], 1));
        for foreign in ["", "rubbish \u{202e}", "crookwise", "crookwise other 1\n"] {
            assert_eq!(read(foreign, 7), Err(Foreign));
        }
    }
}
