//! The scores that are kept on the device: listed, kept, taken off, put back.

use crate::browser::given::FileBytes;
use crate::browser::{clock, focus};
use crate::components::movement::deeds::Deeds;
use crate::state::movement::OpenMovement;
use crate::state::store::scores::KeptScore;
use crate::store::scores::{self, Keeping};
use crate::words;
use leptos::task::spawn_local;

/// What puts a score back that was taken off.
#[must_use]
pub fn put_back_id(id: &str) -> String {
    format!("put-back-{id}")
}

/// What opens a score that is kept.
#[must_use]
pub fn open_id(id: &str) -> String {
    format!("kept-{id}")
}

impl Deeds {
    /// Lists them anew.
    pub fn list(self) {
        spawn_local(self.listed());
    }

    async fn listed(self) {
        self.movement.shelf.set(scores::list(self.store).await.ok());
    }

    /// Takes a kept score off the device.
    pub fn remove(self, one: KeptScore) {
        spawn_local(async move {
            if scores::remove(self.store, &one.id).await.is_ok() {
                let row = (one.id.clone(), one.name().to_owned());
                self.movement.removed.update(|removed| removed.push(row));
            }
            self.listed().await;
            focus::to(put_back_id(&one.id));
        });
    }

    /// Puts back one that was taken off.
    pub fn put_back(self, id: String) {
        spawn_local(async move {
            let kept = scores::put_back(self.store, &id).await;
            self.movement.removed.update(|removed| removed.retain(|(other, _)| *other != id));
            self.movement.said.set(kept.and_then(not_kept));
            self.listed().await;
            focus::to(open_id(&id));
        });
    }

    /// What is kept of a score, if it is.
    pub(super) async fn known(self, id: &str) -> Option<KeptScore> {
        let all = scores::list(self.store).await.ok()?;
        all.into_iter().find(|one| one.id == id)
    }

    /// Keeps a score with its file; whether it is kept.
    pub(super) async fn keep(self, open: &OpenMovement, corrections: &str, bytes: &FileBytes) -> bool {
        let one = KeptScore {
            id: open.summary.id.clone(),
            file: open.file.clone(),
            title: open.summary.title.clone(),
            size: u64::from(bytes.len()),
            at: clock::stamp(),
            corrections: corrections.to_owned(),
        };
        let keeping = scores::keep(self.store, one, bytes).await;
        self.movement.said.set(not_kept(keeping));
        keeping == Keeping::Kept
    }
}

/// Why a score is not kept, where it is not.
fn not_kept(keeping: Keeping) -> Option<String> {
    match keeping {
        Keeping::Kept => None,
        Keeping::NoRoom => Some(words::movement::NO_ROOM_FOR_SCORE.to_owned()),
        Keeping::Refused => Some(words::movement::NOT_KEPT_HERE.to_owned()),
    }
}
