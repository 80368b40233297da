//! Numbers on a label: how many players, and which.

use super::drafts::Draft;
use super::items::What;
use super::numbers::Numbers;
use super::walk::{Gap, Walk};
use super::words::{Role, lemma};

impl Walk<'_> {
    /// Numbers in the label: of this staff, or of what follows.
    pub(super) fn numbers(&mut self, numbers: &Numbers, at: usize) {
        let key_next = matches!(self.what(at + 1), Some(What::Key(_)))
            || (self.what(at + 1) == Some(&What::Role(Role::In))
                && matches!(self.what(at + 2), Some(What::Key(_))));
        let change_next = self.what(at + 1) == Some(&What::Role(Role::Change));
        let numbered = |draft: &Draft| !draft.players.is_empty();
        let taken = |draft: &Draft| numbered(draft) || (draft.count.is_some() && !self.in_brackets());
        let parted = self.gap.parts();
        let of_next =
            |draft: &Draft| draft.key.is_some() && (taken(draft) || change_next || (key_next && parted));
        if self.head_follows(at) || self.current().is_none_or(of_next) {
            self.ahead.numbers = Some(numbers.clone());
        } else if let Some(draft) = self.current_mut().filter(|draft| draft.key.is_none() && key_next)
            && let ([part], Some(_), false) = (&numbers.values[..], draft.count, numbers.ordinal)
        {
            // "4 Corni: 2 in Es, 2 in C": the count of a part instead of all.
            draft.count = Some(*part);
        } else {
            self.give_numbers(numbers, false);
            self.gap = Gap::None;
        }
    }

    /// Gives the staff the numbers that stood before it.
    pub(super) fn take_numbers(&mut self) {
        if let Some(numbers) = self.ahead.numbers.take() {
            self.give_numbers(&numbers, true);
        }
    }

    /// Numbers count players or name them: a count stands before the noun, without a dot.
    fn give_numbers(&mut self, numbers: &Numbers, before: bool) {
        let last = self.out.staves.last();
        let counted = last.is_some_and(|last| last.count.is_some());
        let numbered = last.is_some_and(|last| !last.players.is_empty());
        let Some(draft) = self.current_mut() else { return };
        let plain = !numbers.ordinal && !numbers.dotted;
        let goes_on = draft.inherited && numbered;
        let strings =
            draft.head().is_some_and(|head| matches!(head, lemma::VIOLIN | lemma::VIOLA | lemma::CELLO));
        let may_count = draft.plural && !numbers.ordinal && !strings && !goes_on && draft.count.is_none();
        match numbers.values[..] {
            [one] if before && plain && (!draft.inherited || counted) => draft.count = Some(one),
            // "2. Corni", "Oboi 2": old ways to print a count.
            [many] if many > 1 && may_count => draft.count = Some(many),
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
