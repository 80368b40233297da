//! Changes on a label: "muta in C", "in F umstimmen".

use super::drafts::Draft;
use super::keys::KeyName;
use super::walk::Walk;
use super::words::lemma;

impl Walk<'_> {
    /// A key after a verb of change.
    pub(super) fn change_to(&mut self, key: KeyName) {
        let Some(draft) = self.current.as_ref() else { return };
        let mut heir = draft.heir();
        if heir.nouns.contains(&lemma::TIMPANI) {
            if self.changing && !self.awaiting {
                if let Some(draft) = self.current.as_mut() {
                    draft.drums.push(key);
                }
                return;
            }
            heir.drums.push(key);
        } else {
            heir.key = Some(key);
        }
        heir.octave = self.octave.take();
        heir.players.clone_from(&draft.players);
        heir.count = draft.count;
        self.close();
        self.changing = true;
        self.awaiting = false;
        self.broken = false;
        self.current = Some(heir);
    }

    /// "in F umstimmen": the key just read is what they change to.
    pub(super) fn change_after(&mut self) {
        let Some(draft) = self.current.as_mut().filter(|_| !self.changing) else { return };
        let Some(key) = draft.key else { return };
        if draft.inherited {
            let mut draft = draft.clone();
            self.current = None;
            if let Some(first) = self.out.staves.last() {
                draft.players.clone_from(&first.players);
                draft.count = first.count;
            }
            self.out.changes.push(draft);
        } else {
            let heir = Draft {
                key: Some(key),
                octave: draft.octave.take(),
                players: draft.players.clone(),
                count: draft.count,
                ..draft.heir()
            };
            draft.key = None;
            self.out.changes.push(heir);
        }
    }
}
