//! Keys on a label, and changes to them: "in Es e C", "muta in C", "in F umstimmen".

use super::drafts::Draft;
use super::items::What;
use super::keys::KeyName;
use super::numbers::Numbers;
use super::walk::{Before, Gap, State, Walk};
use super::words::{Role, lemma};
use crate::pitch::Step;

impl Walk<'_> {
    /// A key.
    pub(super) fn key(&mut self, key: KeyName, at: usize) {
        let gap = core::mem::take(&mut self.gap);
        if gap == Gap::Not {
            self.restate(key, true);
            return;
        }
        self.out.known += 1;
        let after_in = self.before(at) == Some(&What::Role(Role::In));
        if self.awaits() && self.current().is_some() {
            self.change_to(key, after_in);
            return;
        }
        let full = |draft: &Draft| draft.key.is_some() || (gap.parts() && draft.head().is_some());
        if !after_in && self.head_follows(at) && self.current().is_none_or(full) {
            self.close();
            self.ahead.keys.push((key, after_in));
            return;
        }
        let in_brackets = self.in_brackets();
        let changing = matches!(self.state, State::Change(_));
        let octave = self.ahead.octave.take();
        let Some(draft) = self.current_mut() else {
            self.ahead.octave = octave;
            self.ahead.keys.push((key, after_in));
            return;
        };
        let same_step = draft.key.is_some_and(|known| known.tonic.step == key.tonic.step);
        if draft.nouns.contains(&lemma::TIMPANI) {
            draft.tune(key, after_in || !changing);
        } else if draft.head() == Some(lemma::CELLO) && key.bare_b && gap == Gap::And {
            // "Vc. e B.": the bass.
            draft.nouns.push(lemma::BASS);
        } else if draft.key.is_none() {
            draft.key = Some(key);
            draft.octave = octave.or(draft.octave);
            return;
        } else if in_brackets && same_step {
            self.restate(key, false);
        } else if changing {
            self.ahead.octave = octave;
            self.change_to(key, after_in);
            return;
        } else {
            let heir = Draft { key: Some(key), octave, ..draft.heir() };
            self.close();
            self.state = State::Staff(heir);
            self.take_numbers();
            return;
        }
        self.ahead.octave = octave;
    }

    /// "[NB: B natural]", "[sic, B not Bb]": the key once more, or what it is not.
    fn restate(&mut self, key: KeyName, not: bool) {
        if let Some(known) = self.current_mut().and_then(|draft| draft.key.as_mut())
            && known.bare_b
            && key.tonic.step == Step::B
            && !key.bare_b
        {
            known.bare_b = false;
            known.tonic.alter = match (not, key.tonic.alter) {
                (false, alter) => alter,
                (true, 0) => -1,
                (true, _) => 0,
            };
        }
    }

    /// A verb of change. Players numbered anew before it are those who change.
    pub(super) fn change(&mut self) {
        self.gap = Gap::None;
        self.state = State::Verb(match core::mem::take(&mut self.state) {
            State::Start => Before::Nothing,
            State::Verb(before) => before,
            State::Change(draft) => Before::Change(draft),
            State::Staff(draft) => match self.earlier(&draft) {
                Some(earlier) => Before::Again(Draft { players: draft.players, ..earlier }),
                None => Before::Staff(draft),
            },
        });
    }

    /// The staff some of whose players a draft names once more: "Corni in Es, Corno II muta in C".
    fn earlier(&self, draft: &Draft) -> Option<Draft> {
        let names_players = draft.key.is_none() && draft.drums.is_empty() && !draft.players.is_empty();
        let holds = |staff: &&Draft| {
            staff.nouns == draft.nouns
                && (staff.players.is_empty()
                    || draft.players.iter().all(|player| staff.players.contains(player)))
        };
        self.out.staves.iter().rev().filter(|_| names_players).find(holds).cloned()
    }

    /// A key after a verb of change.
    fn change_to(&mut self, key: KeyName, after_in: bool) {
        let Some(draft) = self.current() else { return };
        let mut heir = draft.heir();
        heir.players.clone_from(&draft.players);
        heir.count = draft.count;
        if heir.nouns.contains(&lemma::TIMPANI) {
            if let State::Change(draft) = &mut self.state {
                draft.tune(key, after_in);
                return;
            }
            heir.tune(key, after_in);
        } else {
            heir.key = Some(key);
        }
        heir.octave = self.ahead.octave.take();
        if let Some(Numbers { values, .. }) = self.ahead.numbers.take() {
            heir.players = values;
            heir.count = None;
        }
        self.close();
        self.state = State::Change(heir);
    }

    /// "in F umstimmen": the key just read is what they change to.
    pub(super) fn change_after(&mut self) {
        let State::Staff(draft) = &mut self.state else { return };
        let Some(key) = draft.key else { return };
        if draft.inherited {
            let mut draft = draft.clone();
            self.state = State::Start;
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
