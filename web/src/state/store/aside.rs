//! What cannot be read is set aside whole: it stays as it was found until a version can read it or the reader removes it.

use super::Drawers;
use super::entry::{Unread, What};

/// The drawer.
pub const DRAWER: &str = "aside";
/// Names that are kept at once begin so, until the drawer has what they hold.
pub const AT_ONCE: &str = "crookwise.aside.";

/// Something that was set aside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Aside {
    /// Its name in the drawer.
    pub name: String,
    /// What it was to be.
    pub what: What,
    /// Exactly as it was found.
    pub text: String,
}

/// What became of something that was to be read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SetAside {
    /// How many were set aside because they are damaged.
    pub damaged: usize,
    /// How many because a newer version wrote them.
    pub newer: usize,
}

impl SetAside {
    /// One more.
    pub fn add(&mut self, why: Unread) {
        match why {
            Unread::Damaged => self.damaged += 1,
            Unread::Newer => self.newer += 1,
        }
    }

    /// Whether nothing was.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.damaged + self.newer == 0
    }

    /// Both together.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self { damaged: self.damaged + other.damaged, newer: self.newer + other.newer }
    }
}

/// Puts a text into the drawer as it is; false where the same is there already.
pub fn put(kept: &mut Drawers, what: What, text: &str) -> bool {
    let start = format!("{DRAWER}/{} ", what.word());
    if kept.iter().any(|(name, known)| name.starts_with(&start) && known == text) {
        return false;
    }
    let mut number = 1;
    while kept.contains_key(&format!("{start}{number}")) {
        number += 1;
    }
    kept.insert(format!("{start}{number}"), text.to_owned());
    true
}

/// Sets aside the entries of these names that cannot be read or stand under another name than their own, which `own_name` says.
pub fn sort_out(
    kept: &mut Drawers,
    what: What,
    names: Vec<String>,
    own_name: &dyn Fn(&str) -> Result<String, Unread>,
) -> SetAside {
    let mut found = SetAside::default();
    for name in names {
        let Some(text) = kept.get(&name).cloned() else { continue };
        let why = match own_name(&text) {
            Ok(own) if own == name => continue,
            Ok(_) => Unread::Damaged,
            Err(why) => why,
        };
        put(kept, what, &text);
        kept.remove(&name);
        found.add(why);
    }
    found
}

/// Everything in the drawer.
#[must_use]
pub fn all(kept: &Drawers) -> Vec<Aside> {
    let of = |(name, text): (&String, &String)| {
        let rest = name.strip_prefix(DRAWER)?.strip_prefix('/')?;
        let what = What::of_word(rest.split_once(' ')?.0)?;
        Some(Aside { name: name.clone(), what, text: text.clone() })
    };
    kept.iter().filter_map(of).collect()
}

/// The same of one kind.
#[must_use]
pub fn of_kind(kept: &Drawers, what: What) -> Vec<Aside> {
    let mut all = all(kept);
    all.retain(|aside| aside.what == what);
    all
}

/// What is kept at once of something that was set aside before there was a drawer.
#[must_use]
pub fn at_once(what: What, text: &str) -> String {
    format!("{}\n{text}", what.word())
}

/// Takes that into the drawer; false where it is no such text.
pub fn take_in(kept: &mut Drawers, text: &str) -> bool {
    let Some((word, text)) = text.split_once('\n') else { return false };
    let Some(what) = What::of_word(word) else { return false };
    put(kept, what, text);
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_set_aside_stays_as_it_was_and_once() {
        let mut kept = Drawers::default();
        assert!(put(&mut kept, What::Page, "rubbish \u{0} 1"));
        assert!(put(&mut kept, What::Page, "rubbish 2"));
        assert!(put(&mut kept, What::Pages, "rubbish 2"));
        assert!(!put(&mut kept, What::Page, "rubbish 2"));
        assert!(take_in(&mut kept, &at_once(What::Desk, "a\nb")));
        assert!(!take_in(&mut kept, "nothing"));
        let found: Vec<(What, String)> = all(&kept).into_iter().map(|one| (one.what, one.text)).collect();
        let wanted = [
            (What::Desk, "a\nb"),
            (What::Page, "rubbish \u{0} 1"),
            (What::Page, "rubbish 2"),
            (What::Pages, "rubbish 2"),
        ];
        assert_eq!(found, wanted.map(|(what, text)| (what, text.to_owned())));
        assert_eq!(of_kind(&kept, What::Page).len(), 2);
    }
}
