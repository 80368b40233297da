//! The setting of Crooks (`CrooksLink`), its beginning, and what the reader changes in it. All else follows from it.

use super::typed;
use crate::words::crooks as words;
use crate::words::{Letters, Names};
use crookwise_planner::key_plan::KeyStretch;
use crookwise_planner::of_keys::KeyRequest;
use crookwise_planner::of_passage;
use crookwise_planner::written::Layout;
use crookwise_planner::{CrookPlayer, NamedCrook, Ticks, Weights, number_in_family};
use crookwise_score::Passage;
use crookwise_score::resolve::Decoder;
use crookwise_share::crooks::{CrooksLink, CrooksView, CrooksWanted};
use crookwise_theory::order::put_in_order;
use crookwise_theory::{CrookFamily, Production};

/// The first pair of trumpets.
const FIRST_TRUMPETS: u32 = 101;
/// So many players of a family are offered at most.
pub const MOST_OF_A_FAMILY: usize = 4;
/// Quarter notes of a bar of a plan of keys.
const BAR: i64 = 4;

/// Two pairs of horns and two trumpets with classical crooks, in a movement in G minor.
#[must_use]
pub fn first() -> CrooksLink {
    let classical = |family, many| (many, NamedCrook::classical(family));
    CrooksLink {
        wanted: CrooksWanted::Keys(typed::read(words::FIRST_KEYS, Letters::English).unwrap_or_default()),
        players: players(classical(CrookFamily::Horn, 4), classical(CrookFamily::Trumpet, 2)),
        change_time: bars_of_rest(4),
        ..CrooksLink::default()
    }
}

/// The time of so many bars.
#[must_use]
pub fn bars_of_rest(bars: u32) -> Ticks {
    Ticks::of_fraction(i64::from(bars) * BAR, 1).unwrap_or_default()
}

/// Players of both families in pairs, each with the same crooks.
fn players(horns: (usize, Vec<NamedCrook>), trumpets: (usize, Vec<NamedCrook>)) -> Vec<CrookPlayer> {
    let of = |family, (many, crooks): (usize, Vec<NamedCrook>), first: u32| {
        (0..many).map(move |at| CrookPlayer {
            family,
            crooks: crooks.clone(),
            pair: Some(first + at as u32 / 2),
        })
    };
    of(CrookFamily::Horn, horns, 1).chain(of(CrookFamily::Trumpet, trumpets, FIRST_TRUMPETS)).collect()
}

/// Which ways of the hand may be asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandAsked {
    /// All that the tables have.
    All,
    /// Half stopped at most.
    Half,
    /// None: open notes and the lip.
    None,
}

impl HandAsked {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::All, Self::Half, Self::None];

    /// What of the hand is not asked for.
    const fn without(self) -> &'static [Production] {
        match self {
            Self::All => &[],
            Self::Half => &[Production::ThreeQuarter, Production::Full],
            Self::None => &[
                Production::HandOut,
                Production::Quarter,
                Production::Half,
                Production::ThreeQuarter,
                Production::Full,
            ],
        }
    }

    /// What each way of making a note is worth then.
    fn worth(self) -> [f64; Production::ALL.len()] {
        let usual = Weights::default();
        Production::ALL.map(|one| if self.without().contains(&one) { 0.0 } else { usual.of(one) })
    }
}

/// The keys that are wanted; none where notes are.
#[must_use]
pub fn keys(setting: &CrooksLink) -> &[KeyStretch] {
    match &setting.wanted {
        CrooksWanted::Keys(keys) => keys,
        CrooksWanted::Notes(_) => &[],
    }
}

/// The bars of what is wanted; there may be fewer of them than it reaches to.
#[must_use]
pub fn layout(setting: &CrooksLink) -> Layout {
    match &setting.wanted {
        CrooksWanted::Keys(keys) => Layout::of_keys(keys),
        CrooksWanted::Notes(_) => {
            let alike = || Layout::alike(setting.time, Ticks::default()).bars;
            let bars = if setting.bars.is_empty() { alike() } else { setting.bars.clone() };
            Layout { bars, keys: setting.keys.clone() }
        }
    }
}

/// What is planned, in words; nothing where there is no name for it.
#[must_use]
pub fn movement(setting: &CrooksLink, names: Names) -> Option<String> {
    if let Some(first) = keys(setting).first() {
        return Some(words::movement_in(first.key, names));
    }
    let ends = setting.bars.first().zip(setting.bars.last());
    let (first, last) = ends.filter(|_| !setting.title.is_empty())?;
    Some(words::movement_called(&setting.title, (&first.number, &last.number)))
}

/// Wants the notes of a page of Read, of its horns and trumpets; whether it has any.
pub fn take_page(setting: &mut CrooksLink, passage: &Passage, decoder: &mut Decoder<'_>) -> bool {
    let found = of_passage::request(passage, setting.change_time, decoder);
    let has_any = found.is_some();
    if let Some(found) = found {
        take(setting, found.into());
    }
    has_any
}

/// Wants what was brought, of its players; each has the crooks that his family owns here.
pub fn take(setting: &mut CrooksLink, brought: CrooksLink) {
    let (horns, trumpets) = (crooks(setting, CrookFamily::Horn), crooks(setting, CrookFamily::Trumpet));
    setting.players = brought.players;
    for player in &mut setting.players {
        player.crooks = if player.family == CrookFamily::Horn { horns.clone() } else { trumpets.clone() };
    }
    setting.view = CrooksView::Plans;
    setting.wanted = brought.wanted;
    setting.time = brought.time;
    setting.bars = brought.bars;
    setting.keys = brought.keys;
    setting.title = brought.title;
    setting.printed = brought.printed;
    begin_anew(setting);
}

/// Bars of rest for a change.
#[must_use]
pub fn rest(setting: &CrooksLink) -> u32 {
    (setting.change_time.quarters() / BAR as f64).ceil().clamp(0.0, 1e6) as u32
}

/// What is asked of the planner where keys are wanted.
#[must_use]
pub fn key_request(setting: &CrooksLink) -> KeyRequest {
    KeyRequest {
        stretches: keys(setting).to_vec(),
        players: setting.players.clone(),
        rest: rest(setting),
        together: setting.together,
        weights: setting.weights.clone(),
        fixed: setting.fixed.clone(),
    }
}

/// How many players of a family there are.
#[must_use]
pub fn many(setting: &CrooksLink, family: CrookFamily) -> usize {
    setting.players.iter().filter(|player| player.family == family).count()
}

/// The crooks of a family; the usual ones where nobody is there.
#[must_use]
pub fn crooks(setting: &CrooksLink, family: CrookFamily) -> Vec<NamedCrook> {
    let first = setting.players.iter().find(|player| player.family == family);
    first.map_or_else(|| NamedCrook::classical(family), |player| player.crooks.clone())
}

/// Has so many players of a family.
pub fn set_many(setting: &mut CrooksLink, family: CrookFamily, wanted: usize) {
    let wanted = wanted.min(MOST_OF_A_FAMILY);
    let of =
        |one: CrookFamily| (if one == family { wanted } else { many(setting, one) }, crooks(setting, one));
    let now = players(of(CrookFamily::Horn), of(CrookFamily::Trumpet));
    let before = core::mem::replace(&mut setting.players, now);
    seat_anew(setting, &before);
    begin_anew(setting);
}

/// What was for one of the players before is for him wherever he is now; where he is gone his notes are anybody's.
fn seat_anew(setting: &mut CrooksLink, before: &[CrookPlayer]) {
    let seat =
        |players: &[CrookPlayer], at: usize| Some((players.get(at)?.family, number_in_family(players, at)));
    let now: Vec<Option<usize>> = (0..before.len())
        .map(|old| (0..setting.players.len()).find(|at| seat(&setting.players, *at) == seat(before, old)))
        .collect();
    let new = |old: usize| now.get(old).copied().flatten();
    if let CrooksWanted::Notes(notes) = &mut setting.wanted {
        for note in notes {
            note.player = note.player.and_then(new);
        }
    }
    setting.printed.retain_mut(|one| {
        let player = new(one.player);
        one.player = player.unwrap_or(one.player);
        player.is_some()
    });
    put_in_order(&mut setting.printed, |one| (one.player, one.from));
}

/// Gives every player of a family these crooks.
pub fn set_crooks(setting: &mut CrooksLink, family: CrookFamily, crooks: &[NamedCrook]) {
    for player in setting.players.iter_mut().filter(|player| player.family == family) {
        player.crooks = crooks.to_vec();
    }
    begin_anew(setting);
}

/// Whether the players of a family have a crook, by whatever name.
#[must_use]
pub fn has_crook(setting: &CrooksLink, family: CrookFamily, crook: &NamedCrook) -> bool {
    crooks(setting, family).iter().any(|own| own.crook == crook.crook)
}

/// Gives a crook to every player of a family, or takes it from them.
pub fn turn_crook(setting: &mut CrooksLink, family: CrookFamily, crook: &NamedCrook) {
    let mut now: Vec<NamedCrook> = NamedCrook::all(family);
    now.retain(|one| has_crook(setting, family, one) != (one.crook == crook.crook));
    set_crooks(setting, family, &now);
}

/// The first family with a player who has no crook.
#[must_use]
pub fn without_crooks(setting: &CrooksLink) -> Option<CrookFamily> {
    setting.players.iter().find(|player| player.crooks.is_empty()).map(|player| player.family)
}

/// Wants other keys.
pub fn set_keys(setting: &mut CrooksLink, keys: Vec<KeyStretch>) {
    setting.wanted = CrooksWanted::Keys(keys);
    begin_anew(setting);
}

/// Wants keys again, those of the beginning, of the players that are there.
pub fn want_keys(setting: &mut CrooksLink) {
    let first = first();
    setting.wanted = first.wanted;
    setting.time = first.time;
    setting.bars.clear();
    setting.keys.clear();
    setting.title.clear();
    setting.printed.clear();
    let of = |family| (many(setting, family).min(MOST_OF_A_FAMILY), crooks(setting, family));
    setting.players = players(of(CrookFamily::Horn), of(CrookFamily::Trumpet));
    begin_anew(setting);
}

/// What remedies did was for another question.
fn begin_anew(setting: &mut CrooksLink) {
    setting.fixed.clear();
    setting.mended.clear();
    setting.plan = 0;
}

/// Which ways of the hand are asked for; `None` where the weights are none of them.
#[must_use]
pub fn hand(setting: &CrooksLink) -> Option<HandAsked> {
    HandAsked::ALL.into_iter().find(|hand| setting.weights.worth == hand.worth())
}

/// Asks for these ways of the hand.
pub fn set_hand(setting: &mut CrooksLink, hand: HandAsked) {
    setting.weights.worth = hand.worth();
    setting.plan = 0;
}

/// What a way of making a note counts, in hundredths.
pub fn set_worth(setting: &mut CrooksLink, production: Production, hundredths: u8) {
    setting.weights = setting.weights.clone().with(production, f64::from(hundredths) / 100.0);
    setting.plan = 0;
}

/// The setting in a link.
#[cfg(test)]
pub fn of_link(link: &str) -> CrooksLink {
    match crookwise_share::Link::decode(link) {
        Ok(Some(crookwise_share::Link::Crooks(sent))) => sent.open().unwrap(),
        other => panic!("{other:?}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_setting_is_answered() {
        let first = first();
        assert_eq!((keys(&first).len(), first.players.len(), rest(&first)), (5, 6, 4));
        assert!(key_request(&first).plan().unwrap().outcome.optimal);
    }

    #[test]
    fn the_notes_of_a_page_are_taken_with_their_bars_and_players() {
        let link = "/read?key=G+minor&staff=2+Corni+in+G&players=2&notes=C5.D5.E5.G5&notes2=C5.G4.C5.E5&bars=1_2.3&staff=Violino&notes=G4.G4.G4.G4";
        let Ok(Some(crookwise_share::Link::Read(page))) = crookwise_share::Link::decode(link) else {
            panic!("{link}")
        };
        let mut setting = first();
        let mut decoder = |label: &str| crate::state::decoding::decoded(label, None);
        assert!(take_page(&mut setting, &page.passage, &mut decoder));
        let CrooksWanted::Notes(notes) = &setting.wanted else { panic!("keys") };
        assert_eq!((notes.len(), setting.players.len()), (8, 2));
        let numbers: Vec<_> = setting.bars.iter().map(|bar| bar.number.as_str()).collect();
        assert_eq!(numbers, ["2", "3"]);
        // What is written of their plan stands in the movement's key.
        assert_eq!(layout(&setting).keys, [(Ticks::default(), "G minor".parse().unwrap())]);
        assert_eq!(setting.players[0].crooks, NamedCrook::classical(CrookFamily::Horn));
        let Ok(Some(crookwise_share::Link::Read(none))) =
            crookwise_share::Link::decode("/read?staff=Violino&notes=G4")
        else {
            panic!()
        };
        let before = setting.clone();
        assert!(!take_page(&mut setting, &none.passage, &mut decoder));
        assert_eq!(setting, before);
    }

    #[test]
    fn what_is_brought_is_wanted_of_its_players_with_the_crooks_owned_here() {
        let mut setting = first();
        turn_crook(&mut setting, CrookFamily::Horn, &NamedCrook::named(CrookFamily::Horn, "G").unwrap());
        let owned = crooks(&setting, CrookFamily::Horn);
        let link = "#/crooks?wanted=1P8KawgBZgIE-gGBAwYCZPgHBwwQAA&time=3_4&bars=0_1_1_3-4.1_9_3&key=D+minor&of=Sinfonia&horn=2_1_all";
        let brought = of_link(link);
        setting.view = CrooksView::Table;
        take(&mut setting, brought.clone());
        assert_eq!(
            (setting.view, &setting.wanted, &setting.bars),
            (CrooksView::Plans, &brought.wanted, &brought.bars)
        );
        assert_eq!((setting.title.as_str(), setting.players.len()), ("Sinfonia", 2));
        assert_eq!(setting.players[1].crooks, owned);
        assert_eq!((layout(&setting).bars[0].number.as_str(), layout(&setting).keys), ("0", brought.keys));
        assert_eq!(movement(&setting, Names::default()).unwrap(), "“Sinfonia”, bars 0 to 9");
        want_keys(&mut setting);
        assert_eq!((setting.title.as_str(), setting.bars.len(), setting.keys.len()), ("", 0, 0));
        assert_eq!(keys(&setting).len(), 5);
    }

    #[test]
    fn players_stay_pairs_and_keep_their_crooks() {
        let mut setting = first();
        let few = vec![NamedCrook::named(CrookFamily::Horn, "G").unwrap()];
        set_crooks(&mut setting, CrookFamily::Horn, &few);
        set_many(&mut setting, CrookFamily::Horn, 2);
        set_many(&mut setting, CrookFamily::Trumpet, 0);
        let pairs: Vec<_> = setting.players.iter().map(|player| player.pair).collect();
        assert_eq!(pairs, [Some(1), Some(1)]);
        assert_eq!(crooks(&setting, CrookFamily::Horn), few);
        set_many(&mut setting, CrookFamily::Horn, 99);
        assert_eq!(setting.players.len(), MOST_OF_A_FAMILY);
    }

    #[test]
    fn notes_stay_with_their_players_when_others_come_or_go() {
        let link =
            "#/crooks?wanted=1P8KawgBZgIE-gGBAwYCZPgHBwwQAA&printed=1_G.2_D&horn=1_1_all&trumpet=1_101_all";
        let mut setting = of_link(link);
        let own = |setting: &CrooksLink| -> Vec<Option<(CrookFamily, usize)>> {
            let CrooksWanted::Notes(notes) = &setting.wanted else { panic!("keys") };
            let who = |at: usize| (setting.players[at].family, number_in_family(&setting.players, at));
            notes.iter().map(|note| note.player.map(who)).collect()
        };
        let before = own(&setting);
        assert!(before.contains(&Some((CrookFamily::Trumpet, 1))), "{before:?}");
        set_many(&mut setting, CrookFamily::Horn, 3);
        assert_eq!((own(&setting), setting.printed[1].player), (before.clone(), 3));
        // Whose player is gone is anybody's.
        set_many(&mut setting, CrookFamily::Trumpet, 0);
        assert!(own(&setting).contains(&None) && setting.printed.len() == 1);
        let again = crookwise_share::crooks::SentCrooks::of(&setting).open().unwrap();
        assert_eq!(again, setting);
    }

    #[test]
    fn crooks_are_given_and_taken_one_by_one() {
        let mut setting = first();
        // A crook may be named shorter than the list has it: "A" is "A alto".
        let named = |name| NamedCrook::named(CrookFamily::Horn, name).unwrap();
        let has = |setting: &CrooksLink| -> Vec<String> {
            crooks(setting, CrookFamily::Horn).iter().map(|own| own.name.clone()).collect()
        };
        set_crooks(&mut setting, CrookFamily::Horn, &[named("G")]);
        turn_crook(&mut setting, CrookFamily::Horn, &named("D"));
        // In the order of their lengths.
        turn_crook(&mut setting, CrookFamily::Horn, &named("A"));
        assert_eq!(has(&setting), ["A alto", "G", "D"]);
        turn_crook(&mut setting, CrookFamily::Horn, &named("G"));
        turn_crook(&mut setting, CrookFamily::Horn, &named("A"));
        assert_eq!(has(&setting), ["D"]);
        assert_eq!(crooks(&setting, CrookFamily::Trumpet), NamedCrook::classical(CrookFamily::Trumpet));
    }

    #[test]
    fn the_hand_is_asked_for_in_three_ways() {
        let mut setting = first();
        for one in HandAsked::ALL {
            set_hand(&mut setting, one);
            assert_eq!(hand(&setting), Some(one));
        }
        set_worth(&mut setting, Production::Half, 55);
        assert_eq!(hand(&setting), None);
    }
}
