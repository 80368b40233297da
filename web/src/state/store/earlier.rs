//! What waits among the texts that are kept at once: what earlier versions kept there, and what could not yet go into the
//! drawers. It goes from there only when it is safe in its new place.

use super::Drawers;
use super::aside::{self, SetAside};
use super::backup;
use super::desk::{self, KeptDesk, opened};
use super::entry::{Unread, What};
use super::lists;
use super::pages::{self, KeptPage, of_desk};
use super::record;
use crate::words::PAGE_BEFORE;
use crookwise_theory::ordered::Ordered;

/// All names of ours begin so.
pub const OURS: &str = "crookwise.";
/// The page on the screen, one for all windows.
pub const PAGE: &str = "crookwise.page";
/// Pages that had made way for a link, a line each.
const BEFORE: &str = "crookwise.before";
/// The list of pages.
const PAGES: &str = "crookwise.pages";
/// The record of practice, one that came in a file, and the number under which this device wrote.
const RECORD: &str = "crookwise.record";
const RECORD_TAKEN_IN: &str = "crookwise.record.taken-in";
const SOURCE: &str = "crookwise.source";
/// What stands in place of the database where the browser refuses it.
pub const IN_PLACE: &str = "crookwise.in/";
/// The record there.
const RECORD_IN_PLACE: &str = "crookwise.in/record/record";
/// And the number under which this device wrote into it.
pub const SOURCE_IN_PLACE: &str = "crookwise.in/record/source";

/// Whether something waits under this name.
#[must_use]
pub fn waits(name: &str) -> bool {
    let starts = [aside::AT_ONCE, record::ANSWERS, IN_PLACE];
    [BEFORE, PAGES, RECORD, RECORD_TAKEN_IN, SOURCE].contains(&name)
        || starts.iter().any(|start| name.starts_with(start))
}

/// Whether what waits there goes into the record: [`record::take_over`] takes it.
#[must_use]
pub fn waits_for_record(name: &str) -> bool {
    [RECORD, RECORD_TAKEN_IN, RECORD_IN_PLACE, SOURCE_IN_PLACE].contains(&name)
        || name.starts_with(record::ANSWERS)
}

/// Takes what else waits into the drawers of pages and of what is set aside; `at` in milliseconds since 1970.
pub fn take_over(kept: &mut Drawers, waiting: &Ordered<String, String>, at: u64) -> SetAside {
    let mut found = SetAside::default();
    for (name, text) in waiting.iter() {
        found = found.and(match name.as_str() {
            BEFORE => take_links(kept, text, at),
            PAGES => take_file(kept, text, at),
            // A new one is taken: an old window may still write under that number.
            SOURCE => SetAside::default(),
            name if name.starts_with(aside::AT_ONCE) => {
                if !aside::take_in(kept, text) {
                    aside::put(kept, What::Desk, text);
                }
                SetAside::default()
            }
            name => match name.strip_prefix(IN_PLACE).and_then(|rest| rest.split_once('/')) {
                Some((pages::DRAWER, _)) => {
                    aside::put(kept, What::Page, text);
                    pages::sort_out(kept)
                }
                Some((lists::DRAWER, rest)) => {
                    let what = rest.split_once('/').and_then(|(word, _)| What::of_word(word));
                    aside::put(kept, what.unwrap_or(What::Page), text);
                    lists::sort_out(kept)
                }
                Some((aside::DRAWER, rest)) => {
                    let what = rest.split_once(' ').and_then(|(word, _)| What::of_word(word));
                    aside::put(kept, what.unwrap_or(What::Page), text);
                    SetAside::default()
                }
                _ => SetAside::default(),
            },
        });
    }
    found
}

/// Takes a page of the earlier version as a desk; why not, where it cannot be read.
///
/// # Errors
/// Where the page cannot be opened.
pub fn desk_of_page(link: &str, at: u64) -> Result<KeptDesk, Unread> {
    opened(link).map(|_| KeptDesk { at, page: Some(link.to_owned()), before: Vec::new() })
}

/// Takes the pages of a desk that nobody has used for long.
pub fn take_desk(kept: &mut Drawers, desk: &KeptDesk) {
    let links: Vec<String> = of_desk(desk).into_iter().map(|page| page.link).collect();
    let left = pages::take_in_before(kept, &links, desk.at);
    keep_for_later(kept, &left);
}

fn take_links(kept: &mut Drawers, text: &str, at: u64) -> SetAside {
    let mut found = SetAside::default();
    let lines = text.lines().filter(|line| !line.trim().is_empty()).map(str::to_owned);
    let (good, bad): (Vec<String>, Vec<String>) = lines.partition(|link| opened(link).is_ok());
    for link in &bad {
        found.add(opened(link).err().unwrap_or(Unread::Damaged));
    }
    let left = pages::take_in_before(kept, &good, at);
    keep_for_later(kept, &[left, bad].concat());
    found
}

fn take_file(kept: &mut Drawers, text: &str, at: u64) -> SetAside {
    let mut found = SetAside::default();
    let Ok(file) = backup::read(text, at) else {
        aside::put(kept, What::Pages, text);
        found.add(Unread::Damaged);
        return found;
    };
    let left = pages::take_in(kept, file.pages);
    if !left.is_empty() {
        aside::put(kept, What::Pages, &backup::write(&left, &[], None, &[]));
    }
    for (what, text) in file.aside {
        aside::put(kept, what, &text);
    }
    file.found
}

/// Links for which there is no room, or that cannot be opened, wait aside.
fn keep_for_later(kept: &mut Drawers, links: &[String]) {
    if !links.is_empty() {
        let page = |link: &String| KeptPage { name: PAGE_BEFORE.into(), link: link.clone(), at: 0 };
        let pages: Vec<KeptPage> = links.iter().map(page).collect();
        aside::put(kept, What::Pages, &backup::write(&pages, &[], None, &[]));
    }
}

/// Of the desks that nobody has, by name, those whose pages go among the reader's: all but the last left.
#[must_use]
pub fn long_left(desks: &Ordered<String, KeptDesk>) -> Vec<(String, KeptDesk)> {
    let wanted = desk::wanted(desks).into_iter().skip(desk::MOST_LEFT);
    wanted.filter_map(|name| desks.get(&name).cloned().map(|desk| (name, desk))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::record::Zone;

    /// What the versions before this store kept, as they wrote it. These must be taken over for ever: add to them, never
    /// change them.
    const SAMPLES: [(&str, &str); 5] = [
        (
            "crookwise.before",
            "/read?v=1.7bfc&staff=2+Corni+in+Es&players=2&notes=C5.D5&notes2=E4.G4&key=Eb+major&at=1\n",
        ),
        (
            "crookwise.pages",
            "Crookwise pages 1\nTwo oboes\t/read?v=1.c691&staff=Oboi&notes=C5.E5&at=2\nUntitled\t/read?staff=Fagotti&notes=C3\n",
        ),
        (
            "crookwise.record",
            "crookwise record 1\nt 0 horn -5 -9 G2 0 - - b072\ni 0 1 0 0 b388\na 2871640993 1 1790000040 0 1 0 0 2000 9419\ni 1 1 0 2 0f4f\na 2871640993 2 1790000080 1 0 0 0 2900 d433\n",
        ),
        (
            "crookwise.record.taken-in",
            "crookwise record 1\nt 0 horn -5 -9 G2 0 - - b072\ni 0 1 0 0 b388\na 2871640993 1 1790000040 0 1 0 0 2000 9419\ni 1 1 0 2 0f4f\na 2871640993 2 1790000080 1 0 0 0 2900 d433\ni 2 1 0 4 c217\na 2871640993 3 1790000120 2 1 0 0 3800 72d0\n",
        ),
        ("crookwise.source", "2871640993"),
    ];

    fn waiting(pairs: &[(&str, &str)]) -> Ordered<String, String> {
        pairs.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
    }

    fn over(kept: &mut Drawers, pairs: &[(&str, &str)]) -> SetAside {
        assert!(pairs.iter().all(|(name, _)| waits(name)));
        let (of_record, others): (Vec<_>, Vec<_>) =
            pairs.iter().partition(|(name, _)| waits_for_record(name));
        let found = take_over(kept, &waiting(&others), 9);
        found.and(record::take_over(kept, &waiting(&of_record), 77, Zone::default()))
    }

    fn names(kept: &Drawers) -> Vec<String> {
        pages::list(kept).into_iter().map(|page| page.name).collect()
    }

    #[test]
    fn what_earlier_versions_kept_is_taken_over() {
        let mut kept = Drawers::default();
        assert_eq!(over(&mut kept, &SAMPLES), SetAside::default());
        assert_eq!(names(&kept), ["The page before", "Two oboes", "Untitled"]);
        assert_eq!(record::read(&kept, Zone::default()).attempts().len(), 3);
        // A second time, after the window was closed before it could be forgotten: nothing twice.
        assert_eq!(over(&mut kept, &SAMPLES), SetAside::default());
        assert_eq!((names(&kept).len(), aside::all(&kept).len()), (3, 0));
        // This device never writes under the old number again.
        let one = record::read(&kept, Zone::default()).attempts()[0];
        let mut answered = crookwise_practice::record::Record::default();
        answered.add(0, crookwise_practice::record::Attempt { at: 5, ..one });
        record::add(&mut kept, &answered, 2_871_640_993, Zone::default());
        assert_eq!(record::read(&kept, Zone::default()).attempts().len(), 4);
        assert!(!record::text(&kept).unwrap().contains("a 2871640993 4"));
    }

    #[test]
    fn what_waits_for_the_record_is_left_alone_by_all_else() {
        for (name, text) in SAMPLES {
            let mut kept = Drawers::default();
            take_over(&mut kept, &waiting(&[(name, text)]), 9);
            assert!(record::text(&kept).is_none(), "{name}");
            assert_eq!(waits_for_record(name), name.starts_with(RECORD), "{name}");
        }
        let answers = format!("{}1a2b", record::ANSWERS);
        assert!(
            waits(&answers) && waits_for_record(&answers) && !waits_for_record(&format!("{IN_PLACE}pages/A"))
        );
    }

    #[test]
    fn what_cannot_be_read_of_it_is_set_aside() {
        let mut kept = Drawers::default();
        let rubbish = "\u{0}\u{202e} rubbish -1 99999999999999999999";
        let all = SAMPLES.map(|(name, _)| (name, rubbish));
        assert_eq!(over(&mut kept, &all), SetAside { damaged: 4, newer: 0 });
        assert!(names(&kept).is_empty());
        let texts: Vec<String> = aside::all(&kept).into_iter().map(|aside| aside.text).collect();
        assert!(texts.iter().all(|text| text.contains(rubbish)) && texts.len() == 3, "{texts:?}");
        let list = "Crookwise pages 1\nGood\t/read?staff=Oboi\nBad\t/read?v=1.0000&staff=Oboi\n";
        assert_eq!(over(&mut kept, &[("crookwise.pages", list)]).damaged, 1);
        assert_eq!((names(&kept), aside::all(&kept).len()), (vec!["Good".to_owned()], 4));
    }

    #[test]
    fn what_waited_for_the_database_goes_into_it() {
        let mut place = Drawers::default();
        pages::keep(&mut place, "Mine", &opened("/read?staff=Oboi").unwrap(), 3).unwrap();
        aside::put(&mut place, What::Record, "crookwise record 9\nx");
        let mut pairs: Vec<(String, String)> =
            place.iter().map(|(name, text)| (format!("{IN_PLACE}{name}"), text.clone())).collect();
        pairs.push((format!("{}1", aside::AT_ONCE), aside::at_once(What::Desk, "broken")));
        let pairs: Vec<(&str, &str)> =
            pairs.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        let mut kept = Drawers::default();
        assert_eq!(over(&mut kept, &pairs), SetAside::default());
        assert_eq!((names(&kept), aside::all(&kept).len()), (vec!["Mine".to_owned()], 2));
        // The record and answers with it; the number under which they were written is not taken.
        let (_, record) = SAMPLES[2];
        let place = [(RECORD_IN_PLACE, record), (SOURCE_IN_PLACE, "2871640993")];
        assert_eq!(over(&mut kept, &place), SetAside::default());
        assert_eq!(record::read(&kept, Zone::default()).attempts().len(), 2);
        assert!(!kept.contains_key("record/source"));
    }

    #[test]
    fn desks_that_nobody_uses_become_pages() {
        let page = |at: u64| Some(format!("/read?staff=Oboi&year={}", 1700 + at));
        let of = |at: u64| (format!("{at:02}"), KeptDesk { at, page: page(at), before: vec![] });
        let desks = (0..20).map(of).collect();
        let left = long_left(&desks);
        let names_of_left: Vec<&str> = left.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names_of_left, ["07", "06", "05", "04", "03", "02", "01", "00"]);
        let mut kept = Drawers::default();
        left.iter().for_each(|(_, desk)| take_desk(&mut kept, desk));
        assert_eq!(names(&kept).len(), 8);
        assert!(long_left(&Ordered::default()).is_empty());
    }

    #[test]
    fn where_there_is_no_room_it_waits_aside() {
        let mut kept = Drawers::default();
        let page = opened("/read?staff=Oboi").unwrap();
        (0..pages::MOST_PAGES)
            .for_each(|number| pages::keep(&mut kept, &format!("{number}"), &page, 1).unwrap());
        over(&mut kept, &SAMPLES[..2]);
        assert_eq!((names(&kept).len(), aside::all(&kept).len()), (pages::MOST_PAGES, 2));
        for page in pages::list(&kept).iter().take(3) {
            pages::remove(&mut kept, page);
        }
        assert!(pages::sort_out(&mut kept).is_empty());
        assert_eq!((names(&kept).len(), aside::all(&kept).len()), (pages::MOST_PAGES, 0));
    }
}
