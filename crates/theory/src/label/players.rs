//! Numbers on a label: how many players, and which.

use super::drafts::Draft;
use super::items::{Numbers, What};
use super::walk::Walk;
use super::words::{Role, lemma};

impl Walk<'_> {
    /// Numbers in the label: of this staff, or of what follows.
    pub(super) fn numbers(&mut self, numbers: &Numbers, at: usize) {
        let key_next = matches!(self.what(at + 1), Some(What::Key(_)))
            || (self.what(at + 1) == Some(&What::Role(Role::In))
                && matches!(self.what(at + 2), Some(What::Key(_))));
        let taken =
            self.current.as_ref().is_some_and(|draft| !draft.players.is_empty() || draft.count.is_some());
        let keyed = self.current.as_ref().is_some_and(|draft| draft.key.is_some());
        let wait = self.current.is_none()
            || self.head_follows(at)
            || (keyed && (taken || (key_next && self.broken)));
        if wait {
            self.numbers = Some(numbers.clone());
        } else {
            self.give_numbers(numbers, false);
            self.broken = false;
        }
    }

    /// Gives the staff the numbers that stood before it.
    pub(super) fn take_numbers(&mut self) {
        if let Some(numbers) = self.numbers.take() {
            self.give_numbers(&numbers, true);
        }
    }

    /// Numbers count players or name them: a count stands before the noun, without a dot.
    fn give_numbers(&mut self, numbers: &Numbers, before: bool) {
        let counted = self.out.staves.last().is_some_and(|last| last.count.is_some());
        let Some(draft) = self.current.as_mut() else { return };
        let plain = !numbers.ordinal && !numbers.dotted;
        let strings =
            draft.head().is_some_and(|head| matches!(head, lemma::VIOLIN | lemma::VIOLA | lemma::CELLO));
        match numbers.values[..] {
            [one] if before && plain && (!draft.inherited || counted) => draft.count = Some(one),
            // "2. Corni", "Oboi 2": old ways to print a count.
            [many] if many > 1 && draft.plural && !numbers.ordinal && !strings && draft.count.is_none() => {
                draft.count = Some(many);
            }
            _ => draft.players.extend(&numbers.values),
        }
    }
}

/// "2 Corni in E e A" are one each, "4 Corni in Es/C" two; "Corno 1, 2 in E, A" are the first and the second.
pub(super) fn share_players(staves: &mut [Draft]) {
    let total = staves.len();
    let Some((first, rest)) = staves.split_first_mut() else { return };
    // "4 Hörner (1.2. in Es, 3.4. in C)": the count is of both staves.
    if !first.players.is_empty() && rest.iter().any(|draft| draft.inherited && !draft.players.is_empty()) {
        first.count = None;
    }
    if rest.is_empty()
        || !rest.iter().all(|draft| draft.inherited && draft.players.is_empty() && draft.count.is_none())
    {
        return;
    }
    // "2 Corni in E e A", "4 Corni in Es/C": the count is of all of them.
    if let Some(count) = first.count.filter(|count| usize::try_from(*count).is_ok_and(|count| count >= total))
    {
        let all = u32::try_from(total).unwrap_or(u32::MAX);
        for (draft, place) in core::iter::once(&mut *first).chain(rest.iter_mut()).zip(0_u32..) {
            draft.count = Some(count / all + u32::from(place < count % all));
        }
    }
    if first.players.len() >= total {
        let mut players = core::mem::take(&mut first.players);
        let (each, more) = (players.len() / total, players.len() % total);
        for (draft, place) in core::iter::once(first).chain(rest).zip(0..) {
            let later = players.split_off((each + usize::from(place < more)).min(players.len()));
            draft.players = core::mem::replace(&mut players, later);
        }
    }
}
