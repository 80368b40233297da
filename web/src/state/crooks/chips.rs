//! The line of what may be asked: on each chip what holds, behind it the lists and numbers that change it.

use super::setting::{self, HandAsked, MOST_OF_A_FAMILY};
use crate::state::list_item::ListItem;
use crate::words::crooks as words;
use crookwise_planner::{NamedCrook, Weights};
use crookwise_share::crooks::CrooksLink;
use crookwise_theory::{CrookFamily, Production};

/// A chip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AskedChip {
    /// How many players, and whether pairs share.
    Players,
    /// The crooks owned.
    Owned,
    /// How far the hand may go.
    Hand,
    /// The highest partial.
    Top,
    /// The rest for a change.
    Rest,
    /// What counts how much.
    Weights,
}

/// A list behind a chip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AskedList {
    /// How many of a family.
    Many(CrookFamily),
    /// Whether the two of a pair share their crook.
    Together,
    /// How far the hand may go.
    Hand,
    /// The highest partial.
    Top,
}

/// A number behind a chip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AskedNumber {
    /// Bars of rest for a change.
    Rest,
    /// What a way of making a note is worth, in hundredths.
    Worth(Production),
    /// What a change costs each player, in hundredths of a note.
    Change,
}

const HORN: CrookFamily = CrookFamily::Horn;
const TRUMPET: CrookFamily = CrookFamily::Trumpet;

/// Partials that are offered as the highest.
const TOPS: [u8; 5] = [8, 10, 12, 13, 16];

impl AskedChip {
    /// All of them.
    pub const ALL: [Self; 6] = [Self::Players, Self::Owned, Self::Hand, Self::Top, Self::Rest, Self::Weights];

    /// The element of its list.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Players => "asked-players",
            Self::Owned => "asked-crooks",
            Self::Hand => "asked-hand",
            Self::Top => "asked-top",
            Self::Rest => "asked-rest",
            Self::Weights => "asked-weights",
        }
    }

    /// The small word on it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Players => words::PLAYERS,
            Self::Owned => words::CROOKS_OWNED,
            Self::Hand => words::HAND,
            Self::Top => words::TOP,
            Self::Rest => words::REST_FOR_A_CHANGE,
            Self::Weights => words::WEIGHTS,
        }
    }

    /// What holds.
    #[must_use]
    pub fn value(self, asked: &CrooksLink) -> String {
        let many = |family| setting::many(asked, family);
        match self {
            Self::Players => words::players(many(HORN), many(TRUMPET)),
            Self::Owned => {
                let families = [HORN, TRUMPET];
                let there = || families.into_iter().filter(|family| many(*family) > 0);
                let is = |crooks: fn(CrookFamily) -> Vec<NamedCrook>| {
                    there().all(|one| setting::crooks(asked, one) == crooks(one))
                };
                let count = there().map(|family| setting::crooks(asked, family).len()).sum();
                words::owned(is(NamedCrook::classical), is(NamedCrook::all), count)
            }
            Self::Hand => {
                let hand = setting::hand(asked);
                let place = hand.and_then(|hand| HandAsked::ALL.iter().position(|one| *one == hand));
                words::hand(place).to_owned()
            }
            Self::Top => words::partial(asked.weights.highest),
            Self::Rest => words::bars(setting::rest(asked)),
            Self::Weights => {
                // The hand and the top have chips of their own.
                let Weights { highest, worth, .. } = asked.weights;
                let usual = Weights { highest, ..Weights::default() };
                let usual = if setting::hand(asked).is_some() { Weights { worth, ..usual } } else { usual };
                words::weights(asked.weights == usual).to_owned()
            }
        }
    }

    /// Its lists.
    #[must_use]
    pub const fn lists(self) -> &'static [AskedList] {
        match self {
            Self::Players => &[AskedList::Many(HORN), AskedList::Many(TRUMPET), AskedList::Together],
            Self::Hand => &[AskedList::Hand],
            Self::Top => &[AskedList::Top],
            Self::Owned | Self::Rest | Self::Weights => &[],
        }
    }

    /// Families whose crooks are ticked one by one.
    #[must_use]
    pub const fn ticked(self) -> &'static [CrookFamily] {
        match self {
            Self::Owned => &[HORN, TRUMPET],
            _ => &[],
        }
    }

    /// What its numbers mean, where their names do not say it.
    #[must_use]
    pub const fn unit(self) -> Option<&'static str> {
        match self {
            Self::Weights => Some(words::WHAT_COUNTS),
            _ => None,
        }
    }

    /// Its numbers.
    #[must_use]
    pub const fn numbers(self) -> &'static [AskedNumber] {
        match self {
            Self::Rest => &[AskedNumber::Rest],
            Self::Weights => &[
                AskedNumber::Worth(Production::Open),
                AskedNumber::Worth(Production::HandOut),
                AskedNumber::Worth(Production::Lipped),
                AskedNumber::Worth(Production::Quarter),
                AskedNumber::Worth(Production::Half),
                AskedNumber::Worth(Production::ThreeQuarter),
                AskedNumber::Worth(Production::Full),
                AskedNumber::Change,
            ],
            Self::Players | Self::Owned | Self::Hand | Self::Top => &[],
        }
    }
}

/// Crooks of a family that are owned at one tap, before single ones are ticked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OwnedSet {
    /// None of them.
    None,
    /// Those that horns and trumpets of the classical orchestra usually have.
    Usual,
    /// All that are built.
    All,
}

impl OwnedSet {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::None, Self::Usual, Self::All];

    /// Its name.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::None => words::NONE_OF_THEM,
            Self::Usual => words::THE_USUAL_ONES,
            Self::All => words::ALL_BUILT,
        }
    }

    /// Whether the players of a family own just these.
    #[must_use]
    pub fn holds(self, asked: &CrooksLink, family: CrookFamily) -> bool {
        setting::crooks(asked, family) == self.crooks(family)
    }

    /// Gives them to the players of a family.
    pub fn give(self, asked: &mut CrooksLink, family: CrookFamily) {
        setting::set_crooks(asked, family, &self.crooks(family));
    }

    fn crooks(self, family: CrookFamily) -> Vec<NamedCrook> {
        match self {
            Self::None => Vec::new(),
            Self::Usual => NamedCrook::classical(family),
            Self::All => NamedCrook::all(family),
        }
    }
}

/// That pairs share, as the page hands it back.
const SHARE: &str = "share";

impl AskedList {
    /// What is chosen.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Many(CrookFamily::Horn) => words::HORNS,
            Self::Many(CrookFamily::Trumpet) => words::TRUMPETS,
            Self::Together => words::PAIRS,
            Self::Hand => words::HOW_FAR_THE_HAND,
            Self::Top => words::HIGHEST_PARTIAL,
        }
    }

    /// The values.
    #[must_use]
    pub fn items(self) -> Vec<ListItem> {
        match self {
            Self::Many(_) => {
                (0..=MOST_OF_A_FAMILY).map(|many| ListItem::new(many.to_string(), many.to_string())).collect()
            }
            Self::Together => {
                vec![ListItem::new(SHARE, words::PAIRS_SHARE), ListItem::new("", words::PAIRS_DIFFER)]
            }
            Self::Hand => {
                HandAsked::ALL.iter().zip(words::HANDS).map(|(_, name)| ListItem::new(name, name)).collect()
            }
            Self::Top => {
                TOPS.iter().map(|top| ListItem::new(top.to_string(), words::partial(*top))).collect()
            }
        }
    }

    /// The one that holds.
    #[must_use]
    pub fn value(self, asked: &CrooksLink) -> String {
        match self {
            Self::Many(family) => setting::many(asked, family).to_string(),
            Self::Together => if asked.together { SHARE } else { "" }.to_owned(),
            Self::Hand => {
                let all = HandAsked::ALL.iter().zip(words::HANDS);
                let mut own = all.filter(|(hand, _)| setting::hand(asked) == Some(**hand));
                own.next().map(|(_, name)| name.to_owned()).unwrap_or_default()
            }
            Self::Top => asked.weights.highest.to_string(),
        }
    }

    /// Chooses one.
    pub fn choose(self, asked: &mut CrooksLink, value: &str) {
        match self {
            Self::Many(family) => {
                if let Ok(many) = value.parse() {
                    setting::set_many(asked, family, many);
                }
            }
            Self::Together => asked.together = value == SHARE,
            Self::Hand => {
                let all = HandAsked::ALL.iter().zip(words::HANDS);
                for (hand, _) in all.filter(|(_, name)| *name == value) {
                    setting::set_hand(asked, *hand);
                }
            }
            Self::Top => {
                if let Some(top) = TOPS.into_iter().find(|top| top.to_string() == value) {
                    asked.weights.highest = top;
                }
            }
        }
    }
}

impl AskedNumber {
    /// What it is.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Rest => words::BARS_OF_REST,
            Self::Worth(production) => production.words(),
            Self::Change => words::A_CHANGE_COSTS,
        }
    }

    /// The least and the most.
    #[must_use]
    pub const fn range(self) -> (u32, u32) {
        match self {
            Self::Rest => (0, 99),
            Self::Worth(_) => (0, 100),
            Self::Change => (0, 9_999),
        }
    }

    /// How much it is.
    #[must_use]
    pub fn value(self, asked: &CrooksLink) -> u32 {
        let hundredths = |worth: f64| (worth * 100.0).round().clamp(0.0, 1e6) as u32;
        match self {
            Self::Rest => setting::rest(asked),
            Self::Worth(production) => hundredths(asked.weights.of(production)),
            Self::Change => hundredths(asked.weights.change_cost),
        }
    }

    /// Sets it, within its range.
    pub fn set(self, asked: &mut CrooksLink, number: f64) {
        let (least, most) = self.range();
        let number = number.round().clamp(f64::from(least), f64::from(most)) as u32;
        match self {
            Self::Rest => asked.change_time = setting::bars_of_rest(number),
            Self::Worth(production) => {
                setting::set_worth(asked, production, u8::try_from(number).unwrap_or(100));
            }
            Self::Change => asked.weights.change_cost = f64::from(number) / 100.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::setting::first;

    #[test]
    fn every_value_of_every_list_can_be_chosen() {
        for list in AskedChip::ALL.iter().flat_map(|chip| chip.lists()) {
            for item in list.items() {
                let mut asked = first();
                list.choose(&mut asked, &item.value);
                assert_eq!(list.value(&asked), item.value, "{list:?}");
            }
        }
    }

    #[test]
    fn few_crooks_are_owned_in_few_taps() {
        let mut asked = first();
        for set in OwnedSet::ALL {
            set.give(&mut asked, HORN);
            assert!(set.holds(&asked, HORN) && OwnedSet::Usual.holds(&asked, TRUMPET), "{set:?}");
        }
        OwnedSet::None.give(&mut asked, HORN);
        assert_eq!(setting::without_crooks(&asked), Some(HORN));
        for name in ["D", "G"] {
            setting::turn_crook(&mut asked, HORN, &NamedCrook::named(HORN, name).unwrap());
        }
        let owned: Vec<_> = setting::crooks(&asked, HORN).into_iter().map(|one| one.name).collect();
        assert_eq!((owned, setting::without_crooks(&asked)), (vec!["G".to_owned(), "D".to_owned()], None));
        assert!(OwnedSet::ALL.iter().all(|set| !set.holds(&asked, HORN)));
        // Who is not there needs none.
        setting::set_many(&mut asked, TRUMPET, 0);
        OwnedSet::None.give(&mut asked, TRUMPET);
        assert_eq!(setting::without_crooks(&asked), None);
    }

    #[test]
    fn numbers_stay_in_their_range() {
        for number in AskedChip::ALL.iter().flat_map(|chip| chip.numbers()) {
            let (least, most) = number.range();
            for (typed, expected) in [(-5.0, least), (f64::from(most), most), (1e12, most), (7.2, 7)] {
                let mut asked = first();
                number.set(&mut asked, typed);
                assert_eq!(number.value(&asked), expected, "{number:?}");
            }
        }
    }

    #[test]
    fn chips_say_what_holds() {
        let said: Vec<String> = AskedChip::ALL.iter().map(|chip| chip.value(&first())).collect();
        assert_eq!(said, ["4 horns, 2 trumpets", "usual", "all ways", "partial 12", "4 bars", "usual"]);
    }
}
