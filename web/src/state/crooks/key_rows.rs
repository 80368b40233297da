//! The keys that are wanted as rows: each a key and its bars, changed, added and removed one by one.

use super::setting::{keys, set_keys};
use super::typed::{MOST_BARS, MOST_STRETCHES};
use crate::state::list_item::ListItem;
use crate::words::Names;
use crookwise_planner::key_plan::KeyStretch;
use crookwise_share::crooks::CrooksLink;
use crookwise_theory::{Key, Mode, Step, Tonic};

/// Bars of a key that is added.
const USUAL_BARS: u32 = 16;

/// Every key of at most seven signs, by its letter.
#[must_use]
pub fn offered(names: Names) -> Vec<ListItem> {
    let tonics = Step::ALL.into_iter().flat_map(|step| [0, -1, 1].map(|alter| Tonic::new(step, alter)));
    let keys = tonics.flat_map(|tonic| [Mode::Major, Mode::Minor].map(|mode| Key { tonic, mode }));
    let usual = keys.filter(|key| key.signature().0.abs() <= 7);
    usual.map(|key| ListItem::new(key.to_string(), names.key(key))).collect()
}

/// Wants another key in a row.
pub fn set_key(asked: &mut CrooksLink, at: usize, name: &str) {
    if let Ok(key) = name.parse() {
        change(asked, |all| {
            if let Some(one) = all.get_mut(at) {
                one.key = key;
            }
        });
    }
}

/// Gives a row so many bars, as far as there is room.
pub fn set_bars(asked: &mut CrooksLink, at: usize, bars: f64) {
    change(asked, |all| {
        let others: u32 =
            all.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, one)| one.bars).sum();
        if let Some(one) = all.get_mut(at) {
            one.bars = (bars.round().clamp(1.0, f64::from(MOST_BARS)) as u32)
                .min(MOST_BARS.saturating_sub(others).max(1));
        }
    });
}

/// Adds a row behind the last: the key of the first, as movements end in it.
pub fn add(asked: &mut CrooksLink) {
    change(asked, |all| {
        let bars: u32 = all.iter().map(|one| one.bars).sum();
        let room = MOST_BARS.saturating_sub(bars);
        if all.len() < MOST_STRETCHES && room > 0 {
            let key =
                all.first().map_or(Key { tonic: Tonic::new(Step::C, 0), mode: Mode::Major }, |one| one.key);
            all.push(KeyStretch { key, bars: USUAL_BARS.min(room) });
        }
    });
}

/// Takes a row out; the last one stays.
pub fn remove(asked: &mut CrooksLink, at: usize) {
    change(asked, |all| {
        if all.len() > 1 && at < all.len() {
            all.remove(at);
        }
    });
}

fn change(asked: &mut CrooksLink, change: impl FnOnce(&mut Vec<KeyStretch>)) {
    let mut all = keys(asked).to_vec();
    change(&mut all);
    if all != keys(asked) {
        set_keys(asked, all);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::setting::first;

    #[test]
    fn rows_are_changed_one_by_one() {
        let mut asked = first();
        set_key(&mut asked, 1, "F# minor");
        set_bars(&mut asked, 1, 7.4);
        assert_eq!(keys(&asked)[1], KeyStretch { key: "F# minor".parse().unwrap(), bars: 7 });
        add(&mut asked);
        assert_eq!((keys(&asked).len(), keys(&asked)[5].bars), (6, 16));
        remove(&mut asked, 0);
        assert_eq!(keys(&asked)[0].bars, 7);
        set_bars(&mut asked, 0, 1e9);
        let bars: u32 = keys(&asked).iter().map(|one| one.bars).sum();
        assert_eq!(bars, MOST_BARS);
        // Nothing has room any more.
        add(&mut asked);
        assert_eq!(keys(&asked).len(), 5);
        for _ in 0..9 {
            remove(&mut asked, 0);
        }
        assert_eq!(keys(&asked).len(), 1);
    }

    #[test]
    fn every_key_that_is_offered_is_taken() {
        let all = offered(Names::default());
        assert_eq!(all.len(), 30);
        for item in all {
            let mut asked = first();
            set_key(&mut asked, 0, &item.value);
            assert_eq!(keys(&asked)[0].key.to_string(), item.value);
        }
    }
}
