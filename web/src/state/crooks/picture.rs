//! A plan as rows over the bars: the keys that are wanted, for each pair its crooks, and what is missing. Places are hundredths of
//! hundredths of the whole width.

use super::gaps::{Gap, of_keys, of_notes};
use super::setting;
use super::wishes::Wish;
use crookwise_planner::written::{BarLaid, Grid};
use crookwise_planner::{Plan, Request, Stretch};
use crookwise_share::crooks::{CrooksLink, CrooksWanted};
use crookwise_theory::{Crook, CrookFamily, Key, Pitch, Tonic};

/// Where something lies in the whole width, in ten-thousandths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BarSpan {
    /// From the left.
    pub left: u32,
    /// How wide.
    pub width: u32,
}

/// The whole width.
const WHOLE: u64 = 10_000;

/// A key over its bars.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeyCell {
    /// The key.
    pub key: Key,
    /// Its bars, from 1.
    pub bars: (u32, u32),
    /// Its place.
    pub span: BarSpan,
}

/// A crook over the bars in which it is played.
#[derive(Clone, Debug, PartialEq)]
pub struct CrookCell {
    /// The crook.
    pub crook: &'static Crook,
    /// Its bars, from 1.
    pub bars: (u32, u32),
    /// Its place.
    pub span: BarSpan,
}

/// A pair, or a player alone.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanRow {
    /// Horn or trumpet.
    pub family: CrookFamily,
    /// Who of the family, from 1.
    pub numbers: Vec<usize>,
    /// The players, as indices into those of the request.
    pub players: Vec<usize>,
    /// The crooks.
    pub cells: Vec<CrookCell>,
}

/// The picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlanPicture {
    /// How many bars there are.
    pub bars: u32,
    /// What each is numbered in print.
    pub printed: Vec<String>,
    /// The keys wanted.
    pub keys: Vec<KeyCell>,
    /// Numbers of bars as printed, with their places.
    pub numbers: Vec<(String, u32)>,
    /// The pairs.
    pub rows: Vec<PlanRow>,
    /// What is missing.
    pub gaps: Vec<Gap>,
}

impl PlanPicture {
    /// A plan.
    #[must_use]
    pub fn of(asked: &CrooksLink, request: &Request, plan: &Plan, wishes: &[Wish]) -> Self {
        let keys = setting::keys(asked);
        let end = request.notes.iter().map(|note| note.to).max().unwrap_or_default();
        let layout = setting::layout(asked).reaching(end);
        let grid = Grid::of(&layout);
        // A bar that print does not number is counted.
        let number =
            |(at, bar): (u32, BarLaid)| if bar.number.is_empty() { at.to_string() } else { bar.number };
        let printed: Vec<String> = (1..).zip(layout.bars).map(number).collect();
        let bars = u32::try_from(printed.len()).unwrap_or(u32::MAX);
        let mut cells = Vec::new();
        let mut first = 1;
        for stretch in keys {
            let last = first + stretch.bars - 1;
            cells.push(KeyCell { key: stretch.key, bars: (first, last), span: span((first, last), bars) });
            first = last + 1;
        }
        let rows = rows(asked, plan, (bars, &grid));
        let gaps = match &asked.wanted {
            CrooksWanted::Keys(_) => of_keys(&cells, wishes, (bars, &grid)),
            CrooksWanted::Notes(_) => of_notes(&rows, request, wishes, (bars, &grid)),
        };
        Self { bars, keys: cells, numbers: numbers(&printed), printed, rows, gaps }
    }

    /// The first and the last of some bars, as print numbers them.
    #[must_use]
    pub fn printed(&self, (first, last): (u32, u32)) -> (&str, &str) {
        (self.number(first), self.number(last))
    }

    /// A bar, from 1, as print numbers it; empty where there is none.
    #[must_use]
    pub fn number(&self, bar: u32) -> &str {
        let at = usize::try_from(bar).unwrap_or(usize::MAX).saturating_sub(1);
        self.printed.get(at).map_or("", String::as_str)
    }
}

/// Letters of which so many pixels are one, with the room at both ends.
const LETTER: u32 = 10;
const ENDS: u32 = 14;

impl BarSpan {
    /// The first of several names, each shorter than the one before, that has room here; nothing where none has. The whole width
    /// is so many pixels.
    #[must_use]
    pub fn fitting(self, width: u32, names: &[String]) -> String {
        let room = u64::from(self.width) * u64::from(width) / WHOLE;
        let fits = |name: &&String| u64::from(ENDS) + name.chars().count() as u64 * u64::from(LETTER) <= room;
        names.iter().find(fits).cloned().unwrap_or_default()
    }
}

/// The colour of a crook: one of twelve, by its key.
#[must_use]
pub fn hue(tonic: Tonic) -> i32 {
    Pitch::new(tonic.step, tonic.alter, 4).midi().rem_euclid(12)
}

/// Where bars lie among so many.
pub(super) fn span((first, last): (u32, u32), bars: u32) -> BarSpan {
    let place = |bar: u32| (u64::from(bar) * WHOLE / u64::from(bars.max(1))).min(WHOLE) as u32;
    let left = place(first.saturating_sub(1));
    BarSpan { left, width: place(last).saturating_sub(left) }
}

/// Numbers of bars with their places, so that some five to eight stand in the width: of the first, and of those that print
/// numbers by whole fives, tens and so on.
fn numbers(printed: &[String]) -> Vec<(String, u32)> {
    let steps = [1, 2, 4, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1_000, 2_000];
    let bars = u32::try_from(printed.len()).unwrap_or(u32::MAX);
    let step = steps.into_iter().find(|step| bars <= step * 7).unwrap_or(2_500);
    let is_told = |number: &str| number.parse::<u32>().is_ok_and(|number| number > 0 && number % step == 0);
    let mut numbers: Vec<(String, u32)> = Vec::new();
    for (bar, number) in (1..).zip(printed) {
        let left = span((bar, bar), bars).left;
        let room = numbers.last().is_none_or(|(_, last)| u64::from(left - last) * 12 >= WHOLE);
        // At the edge it would be cut.
        if bar == 1 || (is_told(number) && room && bar.saturating_mul(20) <= bars.saturating_mul(19)) {
            numbers.push((number.clone(), left));
        }
    }
    numbers
}

/// Pairs stand on one row while they have the same crooks; else each has his own.
fn rows(asked: &CrooksLink, plan: &Plan, bars: (u32, &Grid)) -> Vec<PlanRow> {
    let mut rows: Vec<(Option<u32>, PlanRow)> = Vec::new();
    for family in [CrookFamily::Horn, CrookFamily::Trumpet] {
        let own = asked.players.iter().enumerate().filter(|(_, player)| player.family == family);
        for (number, (at, player)) in own.enumerate() {
            let cells = cells(plan, at, bars);
            let is_pair = |(pair, row): &&mut (Option<u32>, PlanRow)| {
                asked.together
                    && pair.is_some()
                    && *pair == player.pair
                    && row.family == family
                    && row.cells == cells
            };
            if let Some((_, row)) = rows.iter_mut().find(is_pair) {
                row.numbers.push(number + 1);
                row.players.push(at);
            } else {
                rows.push((
                    player.pair,
                    PlanRow { family, numbers: vec![number + 1], players: vec![at], cells },
                ));
            }
        }
    }
    rows.into_iter().map(|(_, row)| row).collect()
}

fn cells(plan: &Plan, player: usize, (bars, grid): (u32, &Grid)) -> Vec<CrookCell> {
    let cell = |stretch: &Stretch| {
        let own = grid.bars_of((stretch.from, stretch.to));
        CrookCell { crook: stretch.crook, bars: own, span: span(own, bars) }
    };
    plan.stretches.iter().filter(|stretch| stretch.player == player).map(cell).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::setting::{first, key_request, set_crooks};
    use crate::state::crooks::wishes::wishes;
    use crookwise_planner::{LeftOut, NamedCrook};

    fn picture(asked: &CrooksLink) -> PlanPicture {
        let found = key_request(asked).plan().unwrap();
        let plan = &found.outcome.plans[0];
        PlanPicture::of(asked, &found.request, plan, &wishes(&found.request, plan))
    }

    #[test]
    fn rows_fill_the_width_and_leave_room_for_changes() {
        let picture = picture(&first());
        assert_eq!(picture.keys.iter().map(|key| key.span.width).sum::<u32>(), 10_000);
        let pairs: Vec<_> = picture.rows.iter().map(|row| (row.family, row.numbers.clone())).collect();
        let horn = CrookFamily::Horn;
        assert_eq!(pairs, [(horn, vec![1, 2]), (horn, vec![3, 4]), (CrookFamily::Trumpet, vec![1, 2])]);
        for row in &picture.rows {
            assert!(row.cells.windows(2).all(|two| two[1].bars.0 == two[0].bars.1 + 5), "{row:?}");
            assert_eq!((row.cells[0].bars.0, row.cells.last().unwrap().bars.1), (1, 120));
        }
        assert_eq!(picture.numbers.first(), Some(&("1".to_owned(), 0)));
        assert!((4..9).contains(&picture.numbers.len()), "{:?}", picture.numbers);
    }

    #[test]
    fn what_nobody_has_is_a_gap_of_its_key() {
        let mut asked = first();
        for family in [CrookFamily::Horn, CrookFamily::Trumpet] {
            set_crooks(&mut asked, family, &[NamedCrook::named(family, "D").unwrap()]);
        }
        setting::set_hand(&mut asked, setting::HandAsked::None);
        let picture = picture(&asked);
        assert!(!picture.gaps.is_empty());
        for gap in &picture.gaps {
            let key = picture.keys[gap.stretch.unwrap()].bars;
            assert!(key.0 <= gap.bars.0 && gap.bars.1 <= key.1 && !gap.missing.is_empty(), "{gap:?}");
        }
        // B-flat is in G minor and no note of a crook in D.
        let missing = &picture.gaps[0].missing;
        assert!(missing.iter().any(|(tonic, _)| tonic.to_string() == "Bb"), "{missing:?}");
    }

    #[test]
    fn whatever_is_left_out_is_a_gap() {
        use crate::state::crooks::typed;
        use crate::state::crooks::wishes::WishTally;
        for text in ["C minor 1-40, E-flat major 41-70, C major 71-120", "A-sharp minor 1-32, B major 33-60"]
        {
            let mut asked = first();
            setting::set_keys(&mut asked, typed::read(text, crate::words::Letters::English).unwrap());
            let found = key_request(&asked).plan().unwrap();
            let mut reasons = 0;
            for plan in &found.outcome.plans {
                let wishes = wishes(&found.request, plan);
                let tally = WishTally::of(&wishes);
                let picture = PlanPicture::of(&asked, &found.request, plan, &wishes);
                for (why, many) in [
                    (LeftOut::Missing, tally.missing),
                    (LeftOut::Changing, tally.changing),
                    (LeftOut::Busy, tally.busy),
                ] {
                    let told = picture.gaps.iter().filter(|gap| gap.why == why);
                    let told: usize = told.flat_map(|gap| &gap.missing).map(|(_, many)| many).sum();
                    assert_eq!(told, many, "{text}: {why:?}");
                    reasons += usize::from(many > 0);
                }
            }
            assert!(reasons > 0, "{text}: nothing is left out");
        }
    }

    #[test]
    fn names_are_as_long_as_there_is_room() {
        let names = ["in B♭ basso", "B♭ basso", "B♭"].map(str::to_owned);
        let at = |width| BarSpan { left: 0, width: 2_500 }.fitting(width, &names);
        assert_eq!([at(1_000), at(400), at(200), at(100)], ["in B♭ basso", "B♭ basso", "B♭", ""]);
    }

    #[test]
    fn few_bars_and_many_have_numbers() {
        for bars in [1, 2, 7, 8, 60, 999, 10_000] {
            let printed: Vec<String> = (1..=bars).map(|bar: u32| bar.to_string()).collect();
            let numbers = numbers(&printed);
            assert!((1..=9).contains(&numbers.len()), "{bars}: {numbers:?}");
            assert!(numbers.windows(2).all(|two| two[0].1 < two[1].1), "{numbers:?}");
        }
        // An upbeat shifts the places and not the numbers; a trio counts anew.
        let printed: Vec<String> = (0..=30).chain(1..=20).map(|bar: u32| bar.to_string()).collect();
        let told: Vec<String> = numbers(&printed).into_iter().map(|(number, _)| number).collect();
        assert_eq!(told, ["0", "10", "20", "30", "10"]);
    }

    #[test]
    fn bars_go_by_what_print_numbers_them() {
        let link =
            "#/crooks?wanted=1P8KawgBZgIE-gGBAwYCZPgHBwwQAA&time=3_4&bars=0_1_1_3-4.1_9_3&horn=2_1_all";
        let asked = setting::of_link(link);
        let request = asked.request();
        let outcome = crookwise_planner::plan(&request).unwrap();
        let plan = &outcome.plans[0];
        let picture = PlanPicture::of(&asked, &request, plan, &wishes(&request, plan));
        assert_eq!((picture.bars, picture.printed((1, 10))), (10, ("0", "9")));
        assert_eq!(picture.printed((0, 11)), ("0", ""));
    }
}
