//! A plan as rows over the bars: the keys that are wanted, for each pair its crooks, and what is missing. Places are hundredths of
//! hundredths of the whole width.

use super::setting;
use super::wishes::{Fate, Wish};
use crookwise_planner::{LeftOut, Plan, Request, Stretch, Ticks};
use crookwise_share::crooks::{CrooksLink, CrooksWanted};
use crookwise_theory::{CrookFamily, Key, Pitch, Tonic};

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
    /// Its name as a label has it behind *in*.
    pub name: String,
    /// Its key.
    pub tonic: Tonic,
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

/// Notes that nobody can play.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// The row of whom they are wanted; `None` where anybody might have played them.
    pub row: Option<usize>,
    /// The stretch of the plan of keys; `None` where notes are wanted.
    pub stretch: Option<usize>,
    /// From the first bar to the last.
    pub bars: (u32, u32),
    /// What is missing, and how often.
    pub missing: Vec<(Tonic, usize)>,
    /// The notes of the request that are missing.
    pub notes: Vec<usize>,
    /// Its place.
    pub span: BarSpan,
}

/// The picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlanPicture {
    /// How many bars there are.
    pub bars: u32,
    /// The keys wanted.
    pub keys: Vec<KeyCell>,
    /// Numbers of bars, with their places.
    pub numbers: Vec<(u32, u32)>,
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
        let bar = setting::bar(asked);
        let last = request.notes.iter().map(|note| bars_of((note.from, note.to), bar).1).max().unwrap_or(1);
        let bars = keys.iter().map(|one| one.bars).sum::<u32>().max(last);
        let mut cells = Vec::new();
        let mut first = 1;
        for stretch in keys {
            let last = first + stretch.bars - 1;
            cells.push(KeyCell { key: stretch.key, bars: (first, last), span: span((first, last), bars) });
            first = last + 1;
        }
        let rows = rows(asked, plan, (bars, bar));
        let gaps = match &asked.wanted {
            CrooksWanted::Keys(_) => gaps_of_keys(&cells, wishes, (bars, bar)),
            CrooksWanted::Notes(_) => gaps_of_notes(&rows, request, wishes, (bars, bar)),
        };
        Self { bars, keys: cells, numbers: numbers(bars), rows, gaps }
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

fn span((first, last): (u32, u32), bars: u32) -> BarSpan {
    let place = |bar: u32| (u64::from(bar) * WHOLE / u64::from(bars.max(1))).min(WHOLE) as u32;
    let left = place(first.saturating_sub(1));
    BarSpan { left, width: place(last).saturating_sub(left) }
}

/// Bars between two numbers, so that some five to eight stand in the width.
fn numbers(bars: u32) -> Vec<(u32, u32)> {
    let steps = [1, 2, 4, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1_000, 2_000];
    let step = steps.into_iter().find(|step| bars <= step * 7).unwrap_or(2_500);
    let all = core::iter::once(1).chain((1..).map(|at| at * step).take_while(|bar| *bar <= bars));
    let mut numbers: Vec<u32> = all.collect();
    numbers.dedup();
    // The second would touch the first, the last the edge.
    numbers.retain(|bar| *bar == 1 || (*bar * 12 >= bars && *bar * 20 <= bars * 19));
    numbers.into_iter().map(|bar| (bar, span((bar, bar), bars).left)).collect()
}

/// The bars of a time, from 1.
fn bars_of((from, to): (Ticks, Ticks), bar: Ticks) -> (u32, u32) {
    let number = |ticks: i64| u32::try_from(ticks.max(0) / bar.0.max(1)).unwrap_or(u32::MAX);
    (number(from.0) + 1, number(to.0 - 1) + 1)
}

/// Pairs stand on one row while they have the same crooks; else each has his own.
fn rows(asked: &CrooksLink, plan: &Plan, bars: (u32, Ticks)) -> Vec<PlanRow> {
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

fn cells(plan: &Plan, player: usize, (bars, bar): (u32, Ticks)) -> Vec<CrookCell> {
    let cell = |stretch: &Stretch| {
        let own = bars_of((stretch.from, stretch.to), bar);
        CrookCell { name: stretch.name.clone(), tonic: stretch.crook.tonic, bars: own, span: span(own, bars) }
    };
    plan.stretches.iter().filter(|stretch| stretch.player == player).map(cell).collect()
}

/// What is missing, one gap for each key.
fn gaps_of_keys(keys: &[KeyCell], wishes: &[Wish], (bars, bar_ticks): (u32, Ticks)) -> Vec<Gap> {
    let mut gaps: Vec<Gap> = Vec::new();
    for wish in wishes.iter().filter(|wish| wish.fate == Fate::Left(LeftOut::Missing)) {
        let (bar, _) = bars_of(wish.time, bar_ticks);
        let Some(stretch) = keys.iter().position(|key| (key.bars.0..=key.bars.1).contains(&bar)) else {
            continue;
        };
        if gaps.last().is_none_or(|gap| gap.stretch != Some(stretch)) {
            gaps.push(Gap::at(None, Some(stretch), (bar, bar)));
        }
        if let Some(gap) = gaps.last_mut() {
            gap.add(wish, bar, bars);
        }
    }
    gaps
}

/// What is missing of notes: of each row what lies in bars that follow each other.
fn gaps_of_notes(
    rows: &[PlanRow],
    request: &Request,
    wishes: &[Wish],
    (bars, bar): (u32, Ticks),
) -> Vec<Gap> {
    let mut gaps: Vec<Gap> = Vec::new();
    for wish in wishes.iter().filter(|wish| wish.fate == Fate::Left(LeftOut::Missing)) {
        let note = wish.notes.first().and_then(|at| request.notes.get(*at));
        let player = note.and_then(|note| note.player);
        let row = player.and_then(|player| rows.iter().position(|row| row.players.contains(&player)));
        let (first, last) = bars_of(wish.time, bar);
        let found = gaps.iter_mut().find(|gap| gap.row == row && gap.bars.1 + 1 >= first);
        if let Some(gap) = found {
            gap.add(wish, last, bars);
        } else {
            let mut gap = Gap::at(row, None, (first, last));
            gap.add(wish, last, bars);
            gaps.push(gap);
        }
    }
    gaps
}

impl Gap {
    const fn at(row: Option<usize>, stretch: Option<usize>, bars: (u32, u32)) -> Self {
        Self {
            row,
            stretch,
            bars,
            missing: Vec::new(),
            notes: Vec::new(),
            span: BarSpan { left: 0, width: 0 },
        }
    }

    /// One more that is missing, up to a bar of so many.
    fn add(&mut self, wish: &Wish, last: u32, bars: u32) {
        self.bars.1 = self.bars.1.max(last);
        self.span = span(self.bars, bars);
        self.notes.extend(&wish.notes);
        match self.missing.iter_mut().find(|(tonic, _)| *tonic == wish.tonic) {
            Some((_, count)) => *count += 1,
            None => self.missing.push((wish.tonic, 1)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::setting::{first, key_request, set_crooks};
    use crate::state::crooks::wishes::wishes;
    use crookwise_planner::NamedCrook;

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
        assert_eq!(picture.numbers.first(), Some(&(1, 0)));
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
    fn names_are_as_long_as_there_is_room() {
        let names = ["in B♭ basso", "B♭ basso", "B♭"].map(str::to_owned);
        let at = |width| BarSpan { left: 0, width: 2_500 }.fitting(width, &names);
        assert_eq!([at(1_000), at(400), at(200), at(100)], ["in B♭ basso", "B♭ basso", "B♭", ""]);
    }

    #[test]
    fn few_bars_and_many_have_numbers() {
        for bars in [1, 2, 7, 8, 60, 999, 10_000] {
            let numbers = numbers(bars);
            assert!((1..=9).contains(&numbers.len()), "{bars}: {numbers:?}");
            assert!(numbers.windows(2).all(|two| two[0].1 < two[1].1), "{numbers:?}");
        }
    }
}
