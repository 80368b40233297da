//! Where players jump to and from, by signs and by words.

use super::fault::{RoadFault, RoadFaultKind};
use crate::score::{Direction, Jump, Score};

/// The jumps of a score.
#[derive(Debug)]
pub(super) struct Jumps {
    /// What stands at each bar.
    bars: Vec<Vec<Jump>>,
    /// The bars of codas.
    codas: Vec<usize>,
}

impl Jumps {
    pub fn of(score: &Score) -> Self {
        let signs = || score.bars().iter().flat_map(|bar| &bar.signs.jumps);
        let mut bars: Vec<Vec<Jump>> = score.bars().iter().map(|bar| bar.signs.jumps.clone()).collect();
        // A sign says it better than words that stand somewhere about it.
        let wanting = WORDS.map(|(_, jump)| !signs().any(|told| *told == jump));
        for (bar, which, jump) in of_words(score) {
            let is_wanting = wanting.get(which) == Some(&true);
            if let Some(own) = bars.get_mut(bar).filter(|own| is_wanting && !own.contains(&jump)) {
                own.push(jump);
            }
        }
        let with = |bars: &[Vec<Jump>], jump: Jump| -> Vec<usize> {
            bars.iter().enumerate().filter(|(_, own)| own.contains(&jump)).map(|(at, _)| at).collect()
        };
        let mut codas = with(&bars, Jump::Coda);
        // The sign of the coda also stands where players leave for it.
        let leaves = with(&bars, Jump::ToCoda);
        if leaves.is_empty()
            && let [first, _, ..] = *codas
            && let Some(own) = bars.get_mut(first)
        {
            own.push(Jump::ToCoda);
            codas.remove(0);
        } else if codas.iter().any(|coda| leaves.binary_search(coda).is_err()) {
            codas.retain(|coda| leaves.binary_search(coda).is_err());
        }
        Self { bars, codas }
    }

    fn has(&self, bar: usize, jump: Jump) -> bool {
        self.bars.get(bar).is_some_and(|own| own.contains(&jump))
    }

    /// Whether the road ends with a bar, once players have jumped back.
    pub fn ends_at(&self, bar: usize) -> bool {
        self.has(bar, Jump::Fine)
    }

    /// Whether players jump back at the end of a bar.
    pub fn goes_back(&self, bar: usize) -> bool {
        self.has(bar, Jump::DaCapo) || self.has(bar, Jump::DalSegno)
    }

    /// The bar players jump back to at the end of a bar.
    pub fn back_from(&self, bar: usize, faults: &mut Vec<RoadFault>) -> Option<usize> {
        if self.has(bar, Jump::DalSegno) {
            let segno = (0..=bar).rev().find(|at| self.has(*at, Jump::Segno));
            if segno.is_some() {
                return segno;
            }
            faults.push(RoadFault { bar, kind: RoadFaultKind::NoSegno });
        }
        self.has(bar, Jump::DaCapo).then_some(0)
    }

    /// The bar of the coda that players jump to at the end of a bar.
    pub fn coda_from(&self, bar: usize, faults: &mut Vec<RoadFault>) -> Option<usize> {
        if !self.has(bar, Jump::ToCoda) {
            return None;
        }
        let coda = self.codas.get(self.codas.partition_point(|coda| *coda <= bar)).copied();
        if coda.is_none() {
            faults.push(RoadFault { bar, kind: RoadFaultKind::NoCoda });
        }
        coda
    }
}

/// Words and the jump each means, by how a line begins. Common practice.
const WORDS: [(&str, Jump); 9] = [
    ("da capo", Jump::DaCapo),
    ("d.c.", Jump::DaCapo),
    ("d. c.", Jump::DaCapo),
    ("dal segno", Jump::DalSegno),
    ("d.s.", Jump::DalSegno),
    ("d. s.", Jump::DalSegno),
    ("to coda", Jump::ToCoda),
    ("al coda", Jump::ToCoda),
    ("fine", Jump::Fine),
];

/// Jumps that words name, with their bars and the place of the words in the list.
fn of_words(score: &Score) -> Vec<(usize, usize, Jump)> {
    let mut found = Vec::new();
    for told in score.staves().flat_map(|staff| &staff.directions) {
        let Direction::Words(words) = &told.direction else { continue };
        let begins = |with: &str| {
            words.get(..with.len()).is_some_and(|head| head.eq_ignore_ascii_case(with))
                // "Fine dell' atto" and "finement" are none.
                && (with != "fine" || words.get(with.len()..).is_some_and(|rest| rest.trim_end_matches('.').is_empty()))
        };
        let Some(which) = WORDS.iter().position(|(word, _)| begins(word)) else { continue };
        let Some((_, jump)) = WORDS.get(which) else { continue };
        found.push((score.bar_at(told.at.time), which, *jump));
    }
    found
}
