//! Opened scores on the device: what is said of them in one drawer, their files in another. They never crowd out pages and
//! record: see [`crate::state::store::scores`].

use super::drawers::change;
use super::{Store, set_aside};
use crate::browser::given::FileBytes;
use crate::browser::store::database::{Refusal, SCORES};
use crate::browser::store::{files, local, persist};
use crate::state::store::aside;
use crate::state::store::entry::What;
use crate::state::store::left::{LEFT, LeftScores};
use crate::state::store::scores::{self, KeptScore};
use std::cell::RefCell;

thread_local! {
    /// The scores that were taken off, the last one last.
    static REMOVED: RefCell<Vec<(KeptScore, FileBytes)>> = const { RefCell::new(Vec::new()) };
}

const SCORES_AND_ASIDE: [&str; 2] = [SCORES, aside::DRAWER];

/// What became of a score that was to be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// It is kept.
    Kept,
    /// There is no room for it beside what else is kept.
    NoRoom,
    /// The browser keeps no files.
    Refused,
}

/// The scores that are kept, the last opened first.
///
/// # Errors
/// Where the browser refuses.
pub async fn list(store: Store) -> Result<Vec<KeptScore>, Refusal> {
    change(store, &SCORES_AND_ASIDE, None, |kept| scores::list(kept)).await
}

/// Keeps a score with its file.
pub async fn keep(store: Store, one: KeptScore, bytes: &FileBytes) -> Keeping {
    let known = files::read(&one.id).await.is_ok_and(|file| file.is_some());
    if !known {
        if !scores::has_room(f64::from(bytes.len()), persist::room().await) {
            return Keeping::NoRoom;
        }
        match files::keep(&one.id, bytes).await {
            Ok(()) => {}
            Err(Refusal::Full) => return Keeping::NoRoom,
            Err(Refusal::Other) => return Keeping::Refused,
        }
    }
    match change(store, &SCORES_AND_ASIDE, None, |kept| scores::keep(kept, &one)).await {
        Ok(()) => Keeping::Kept,
        Err(_) => Keeping::Refused,
    }
}

/// The file of a score; `None` where it is not here.
pub async fn file(id: &str) -> Option<FileBytes> {
    files::read(id).await.ok().flatten()
}

/// Keeps other corrections of a score, where it is kept.
///
/// # Errors
/// Where the browser refuses.
pub async fn correct(store: Store, id: String, corrections: String) -> Result<(), Refusal> {
    change(store, &SCORES_AND_ASIDE, None, |kept| {
        let one = scores::list(kept).into_iter().find(|one| one.id == id);
        if let Some(one) = one {
            scores::keep(kept, &KeptScore { corrections, ..one });
        }
    })
    .await
}

/// Takes a score off the device; until the page is left it can be put back.
///
/// # Errors
/// Where the browser refuses.
pub async fn remove(store: Store, id: &str) -> Result<(), Refusal> {
    let file = files::read(id).await?;
    let one = change(store, &SCORES_AND_ASIDE, None, |kept| scores::remove(kept, id)).await?;
    REMOVED.with_borrow_mut(|removed| removed.extend(one.zip(file)));
    files::remove(id).await
}

/// Puts back a score that was taken off.
pub async fn put_back(store: Store, id: &str) -> Option<Keeping> {
    let (one, file) = REMOVED.with_borrow_mut(|removed| {
        let at = removed.iter().position(|(one, _)| one.id == id)?;
        Some(removed.remove(at))
    })?;
    Some(keep(store, one, &file).await)
}

/// How scores were left.
#[must_use]
pub fn left() -> LeftScores {
    local::read(LEFT).and_then(|text| LeftScores::read(&text).ok()).unwrap_or_default()
}

/// Keeps at once how scores are left, unless what stands there cannot be read and the device refuses to set it aside.
pub fn leave(change: impl FnOnce(&mut LeftScores)) {
    let unread = |text: String| LeftScores::read(&text).is_err();
    if !local::read(LEFT).is_some_and(unread) || set_aside(What::Left, LEFT) {
        let mut left = left();
        change(&mut left);
        local::write(LEFT, &left.write());
    }
}
