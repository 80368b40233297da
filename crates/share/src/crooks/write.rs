//! The setting as pairs. What is usual is left out.

use super::{CrooksLink, CrooksView, CrooksWanted, MOST_KEYS, MOST_PRINTED, bars, notes};
use crate::fields::Pairs;
use crate::read::decimal;
use crookwise_planner::of_keys::FixedCrook;
use crookwise_planner::printed::PrintedCrook;
use crookwise_planner::{CrookPlayer, NamedCrook, Ticks, Weights};
use crookwise_theory::{Crook, Key};
use data_encoding::BASE64URL_NOPAD;

/// All crooks of a family.
pub(super) const ALL: &str = "all";
/// In the place of a pair where there is none, and of a list with nothing in it.
pub(super) const NONE: &str = "-";
/// The pair that says what is looked at.
pub(super) const VIEW: &str = "view";
/// Behind a mended note that is to be had whatever else goes.
pub(super) const FIRM: &str = "firm";

pub(super) fn pairs(setting: &CrooksLink) -> Pairs {
    let usual = CrooksLink::default();
    let mut out = Pairs::new();
    let mut put = |name: &str, value: String| out.push((name.to_owned(), value));
    if let Some(view) = view_word(setting.view) {
        put(VIEW, view.to_owned());
    }
    match &setting.wanted {
        CrooksWanted::Keys(stretches) => {
            let words = stretches.iter().map(|one| format!("{}_{}", one.bars, key_word(one.key)));
            put("keys", words.collect::<Vec<_>>().join("."));
        }
        CrooksWanted::Notes(all) => put("wanted", BASE64URL_NOPAD.encode(&notes::pack(all))),
    }
    if setting.time != usual.time {
        put("time", format!("{}_{}", setting.time.beats, setting.time.value));
    }
    if !setting.bars.is_empty() {
        put("bars", bars::write(&setting.bars));
    }
    if let Some(keys) = movement_keys(&setting.keys) {
        put("key", keys);
    }
    if !setting.title.is_empty() {
        put("of", setting.title.clone());
    }
    if (1..=MOST_PRINTED).contains(&setting.printed.len()) {
        put("printed", printed(&setting.printed));
    }
    if setting.players != usual.players {
        for alike in setting.players.chunk_by(|one, other| one == other) {
            if let Some(player) = alike.first() {
                put(player.family.word(), group(player, alike.len()));
            }
        }
        if setting.players.is_empty() {
            put("horn", NONE.to_owned());
        }
    }
    if !setting.together {
        put("pairs", "apart".to_owned());
    }
    if setting.change_time != usual.change_time {
        put("change", quarters(setting.change_time));
    }
    weights(&setting.weights, &mut put);
    if !setting.mended.is_empty() {
        let words = setting.mended.iter().map(|one| {
            let whose = match (one.player, one.firm) {
                (Some(player), _) => format!("_{}", player + 1),
                (None, true) => format!("_{NONE}"),
                (None, false) => String::new(),
            };
            let firm = if one.firm { format!("_{FIRM}") } else { String::new() };
            format!("{}_{}{whose}{firm}", one.note + 1, one.sounding.0.to_string().replace('#', "s"))
        });
        put("mended", words.collect::<Vec<_>>().join("."));
    }
    if !setting.fixed.is_empty() {
        let word =
            |one: &FixedCrook| format!("{}_{}_{}", one.stretch + 1, one.player + 1, crook_word(one.crook));
        put("fixed", setting.fixed.iter().map(word).collect::<Vec<_>>().join("."));
    }
    if setting.plan > 0 {
        put("plan", (setting.plan + 1).to_string());
    }
    if setting.table != usual.table {
        put("table", key_word(setting.table));
    }
    if !setting.shown.is_empty() {
        put("crooks", list(&setting.shown));
    }
    if setting.mine != usual.mine {
        put("mine", list(&setting.mine));
    }
    if !setting.typed.is_empty() {
        put("typed", setting.typed.clone());
    }
    out
}

fn weights(weights: &Weights, put: &mut impl FnMut(&str, String)) {
    let usual = Weights::default();
    if weights.worth != usual.worth {
        put("worth", weights.worth.map(decimal::write).join("_"));
    }
    if weights.change_cost != usual.change_cost {
        put("cost", decimal::write(weights.change_cost));
    }
    if weights.highest != usual.highest {
        put("highest", weights.highest.to_string());
    }
}

pub(super) const fn view_word(view: CrooksView) -> Option<&'static str> {
    match view {
        CrooksView::Plans => None,
        CrooksView::Table => Some("table"),
        CrooksView::MayWrite => Some("write"),
    }
}

/// Players who are alike in everything: how many, their pair, their crooks.
fn group(player: &CrookPlayer, count: usize) -> String {
    let pair = player.pair.map_or_else(|| NONE.to_owned(), |pair| pair.to_string());
    let crooks = if player.crooks == NamedCrook::all(player.family) {
        ALL.to_owned()
    } else if player.crooks.is_empty() {
        NONE.to_owned()
    } else {
        player.crooks.iter().map(|named| crook_word(named.crook)).collect::<Vec<_>>().join(".")
    };
    format!("{count}_{pair}_{crooks}")
}

/// `1_G.1_96_Bb alto.2_G`: the crooks of the first player, from the beginning and from so many quarters, then of the second.
fn printed(all: &[PrintedCrook]) -> String {
    let word =
        |one: &PrintedCrook| format!("{}_{}{}", one.player + 1, from_word(one.from), crook_word(one.crook));
    all.iter().map(word).collect::<Vec<_>>().join(".")
}

/// `G minor.96_Bb major`: the movement's keys, from the beginning and from so many quarters. `None` where there are none, and
/// where one of them has more signs than a key that is read.
fn movement_keys(all: &[(Ticks, Key)]) -> Option<String> {
    let is_read = |(_, key): &(Ticks, Key)| key.signature().practical() == key.signature();
    if !(1..=MOST_KEYS).contains(&all.len()) || !all.iter().all(is_read) {
        return None;
    }
    let word = |(from, key): &(Ticks, Key)| format!("{}{}", from_word(*from), key_word(*key));
    Some(all.iter().map(word).collect::<Vec<_>>().join("."))
}

/// Before what holds from so many quarters on; nothing before what holds from the beginning.
fn from_word(from: Ticks) -> String {
    if from == Ticks::default() { String::new() } else { format!("{}_", bars::fraction_word(from)) }
}

fn list(crooks: &[&'static Crook]) -> String {
    if crooks.is_empty() {
        return NONE.to_owned();
    }
    let word = |crook: &&'static Crook| format!("{}_{}", crook.family.word(), crook_word(crook));
    crooks.iter().map(word).collect::<Vec<_>>().join(".")
}

/// A crook's name without the sign that addresses have for something else.
pub(super) fn crook_word(crook: &'static Crook) -> String {
    NamedCrook::of(crook).name.replace('#', "s")
}

fn key_word(key: Key) -> String {
    key.to_string().replace('#', "s")
}

fn quarters(time: Ticks) -> String {
    match time.fraction() {
        (above, 1) => above.to_string(),
        (above, below) => format!("{above}_{below}"),
    }
}
