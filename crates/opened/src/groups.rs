//! Which rows of a sheet are joined at the left: the staves of one instrument, and the families that the score brackets.

use crookwise_engraving::measured::SheetGroup;
use crookwise_score::score::{GroupSign, PartId, Score, StaffId};

/// Groups of rows, each row told by its staves; those of one staff stand beside each other.
pub(crate) fn groups(score: &Score, rows: &[Vec<StaffId>]) -> Vec<SheetGroup> {
    let parts: Vec<Option<usize>> = rows.iter().map(|staves| part_of(score, staves)).collect();
    let mut groups: Vec<SheetGroup> = Vec::new();
    for (number, _) in score.parts().iter().enumerate().filter(|(_, part)| part.staves.len() > 1) {
        let of_part = |own: Option<usize>| own == Some(number);
        add(&mut groups, rows, stretch(&parts, of_part), GroupSign::Brace);
    }
    // Of groups within each other the largest is shown.
    let number = |id: PartId| score.parts().iter().position(|part| part.id == id);
    let mut families: Vec<(usize, usize, GroupSign)> = score
        .groups
        .iter()
        .filter_map(|group| Some((number(group.from)?, number(group.to)?, group.sign)))
        .filter(|(.., sign)| *sign != GroupSign::None)
        .collect();
    crookwise_theory::order::put_in_order(&mut families, |(from, to, _)| {
        core::cmp::Reverse(to.abs_diff(*from))
    });
    for (from, to, sign) in families {
        let within = |own: Option<usize>| own.is_some_and(|own| (from..=to).contains(&own));
        add(&mut groups, rows, stretch(&parts, within), sign);
    }
    groups
}

/// The part of the first staff of a row.
fn part_of(score: &Score, staves: &[StaffId]) -> Option<usize> {
    let first = staves.first()?;
    score.parts().iter().position(|part| part.staves.iter().any(|staff| staff.id == *first))
}

/// The first and the last of the rows of some parts, where no others stand between.
fn stretch(parts: &[Option<usize>], belongs: impl Fn(Option<usize>) -> bool) -> Option<(usize, usize)> {
    let first = parts.iter().position(|part| belongs(*part))?;
    let last = parts.iter().rposition(|part| belongs(*part))?;
    let whole = parts.get(first..=last)?.iter().all(|part| belongs(*part));
    whole.then_some((first, last))
}

/// Adds a group of several staves that lies over no other.
fn add(
    groups: &mut Vec<SheetGroup>,
    rows: &[Vec<StaffId>],
    stretch: Option<(usize, usize)>,
    sign: GroupSign,
) {
    let Some((first, last)) = stretch else { return };
    let several = rows.get(first) != rows.get(last);
    let apart = |other: &SheetGroup| other.last < first || last < other.first;
    if several && groups.iter().all(apart) {
        groups.push(SheetGroup { first, last, sign });
    }
}
