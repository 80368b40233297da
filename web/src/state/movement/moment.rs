//! What the page makes at a moment of a movement: its harmony named, and who holds what of it.

use crate::state::movement::drawn::{MomentSpot, x_of};
use crate::state::together::{Holder, MemberLine};
use crate::words::{self, Names};
use crookwise_opened::{DrawnRow, HarmonyRow, HeardRow};
use crookwise_score::chord::Heard;
use crookwise_score::{Harmony, HarmonyKind};
use crookwise_theory::{Key, Pitch};

/// A moment in words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct MomentTold {
    /// Which bars it takes, in which key.
    pub place: String,
    /// The name of what sounds.
    pub name: String,
    /// Position and degree.
    pub remarks: String,
    /// Its members from the root on.
    pub members: Vec<MemberLine>,
    /// What drums add beside it; empty where they are silent.
    pub drums: String,
}

/// When a harmony begins, and when the next one does.
fn span(row: &HarmonyRow) -> (MomentSpot, MomentSpot) {
    let spot = |at: crookwise_opened::BarSpot| {
        let (over, under) = at.quarters;
        // Bars are far shorter than what a 32-bit number holds in hundredths.
        (at.bar, i32::try_from(over.saturating_mul(100) / under.max(1)).unwrap_or(i32::MAX))
    };
    (spot(row.from), spot(row.to))
}

/// The harmony that holds at a time; of none the last one before it.
#[must_use]
pub fn harmony_at(rows: &[HarmonyRow], at: MomentSpot) -> Option<usize> {
    rows.partition_point(|row| span(row).0 <= at).checked_sub(1)
}

/// The time of a harmony.
#[must_use]
pub fn begins(row: &HarmonyRow) -> MomentSpot {
    span(row).0
}

/// The stretch of a drawn system that a harmony takes.
#[must_use]
pub fn stretch(drawn: &DrawnRow, row: &HarmonyRow) -> Option<(i32, i32)> {
    let (from, to) = span(row);
    let (first, last) = (drawn.bars.first()?, drawn.bars.last()?);
    if to <= (first.0, 0) || from.0 > last.0 {
        return None;
    }
    // A head's width before its onset.
    let left = x_of(drawn, from, None).map_or(first.1, |x| x - 70);
    // A harmony that ends with a bar ends at its line.
    let end = match to {
        (bar, 0) => drawn.bars.iter().find(|(number, ..)| *number == bar).map(|(_, left, _)| *left),
        to => x_of(drawn, to, None).map(|x| x - 70),
    };
    Some((left, end.unwrap_or(last.2).max(left)))
}

/// What sounds of a harmony, in its key.
fn heard(row: &HarmonyRow) -> (Harmony, Vec<&HeardRow>, Option<Key>) {
    let pitches: Vec<(Heard, &HeardRow)> = row
        .heard
        .iter()
        .filter_map(|own| Some((Heard { pitch: own.pitch.parse().ok()?, spells: own.spells }, own)))
        .collect();
    let (heard, rows): (Vec<Heard>, Vec<&HeardRow>) = pitches.into_iter().unzip();
    let key: Option<Key> = row.key.as_ref().and_then(|key| key.parse().ok());
    (Harmony::of(&heard, key), rows, key)
}

/// The name of a harmony alone: "E♭ major".
#[must_use]
pub fn name_of(row: &HarmonyRow, names: Names) -> String {
    words::together::harmony(&heard(row).0, names).0
}

impl MomentTold {
    /// A harmony of a movement, with the labels of its staves and its bars as printed; of who holds it, the chosen staves are
    /// named first.
    #[must_use]
    pub fn of(
        row: &HarmonyRow,
        names: Names,
        chosen: &[u32],
        label: &dyn Fn(u32) -> String,
        printed: &dyn Fn(u32) -> String,
    ) -> Self {
        let (harmony, pitches, key) = heard(row);
        let (name, position) = words::together::harmony(&harmony, names);
        let degree = words::together::harmony_degree(&harmony);
        let remarks: Vec<String> =
            [Some(position), degree].into_iter().flatten().filter(|said| !said.is_empty()).collect();
        let member = |member: &crookwise_score::Member| MemberLine {
            role: member.role.words(),
            note: names.tonic(member.note),
            holders: holders(
                member.voices.iter().filter_map(|voice| pitches.get(*voice).copied()),
                chosen,
                label,
            ),
            octaves: String::new(),
        };
        let drums: Vec<String> = row
            .drums
            .iter()
            .filter_map(|drum| drum.parse::<Pitch>().ok())
            .map(|pitch| names.note(pitch))
            .collect();
        let last = if row.to.quarters.0 == 0 { row.to.bar.saturating_sub(1) } else { row.to.bar };
        Self {
            place: words::movement::in_bars_and_key(
                &printed(row.from.bar),
                &printed(last.max(row.from.bar)),
                key.map(|key| names.key(key)),
            ),
            name,
            remarks: remarks.join(", "),
            members: match harmony.kind {
                HarmonyKind::Silence => Vec::new(),
                _ => harmony.members.iter().map(member).collect(),
            },
            drums: words::movement::drums_beside(&drums),
        }
    }
}

/// So many parts beside the chosen ones are named, the others counted.
const OTHERS_NAMED: usize = 2;

/// Who holds a member: each staff once, the chosen ones first.
fn holders<'a>(
    heard: impl Iterator<Item = &'a HeardRow>,
    chosen: &[u32],
    label: &dyn Fn(u32) -> String,
) -> Vec<Holder> {
    let mut staves: Vec<(u32, Vec<String>)> = Vec::new();
    for row in heard {
        let made = row.made.map(words::movement::made).filter(|made| !made.is_empty());
        match staves.iter_mut().find(|(staff, _)| *staff == row.staff) {
            Some((_, all)) if made.as_ref().is_some_and(|made| all.contains(made)) => {}
            Some((_, all)) => all.extend(made),
            None => staves.push((row.staff, made.into_iter().collect())),
        }
    }
    let (first, others): (Vec<_>, Vec<_>) = staves.into_iter().partition(|(staff, _)| chosen.contains(staff));
    let left = others.len().saturating_sub(OTHERS_NAMED);
    // One that is left is named as shortly as it is counted.
    let named = if left > 1 { OTHERS_NAMED } else { others.len() };
    let holder = |(staff, made): (u32, Vec<String>)| Holder { name: label(staff), made: made.join("; ") };
    let mut all: Vec<Holder> = first.into_iter().chain(others.into_iter().take(named)).map(holder).collect();
    if left > 1 {
        all.push(Holder { name: words::movement::and_others(left), made: String::new() });
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::movement::drawn::drawn;
    use crookwise_opened::BarSpot;

    fn spot(bar: u32, quarters: i64) -> BarSpot {
        BarSpot { bar, quarters: (quarters, 1) }
    }

    fn heard(staff: u32, pitch: &str, made: Option<(Option<u8>, Option<i32>)>) -> HeardRow {
        HeardRow { staff, note: staff, pitch: pitch.into(), spells: made.is_none(), made }
    }

    /// E-flat major for a bar and two quarters, then its dominant to the end of the second bar.
    fn rows() -> Vec<HarmonyRow> {
        vec![
            HarmonyRow {
                from: spot(4, 0),
                to: spot(5, 2),
                key: Some("Eb major".into()),
                heard: vec![
                    heard(9, "Eb3", None),
                    heard(0, "Eb4", Some((Some(8), Some(0)))),
                    heard(1, "G3", Some((Some(5), Some(-14)))),
                    heard(7, "Bb4", None),
                ],
                drums: vec!["Eb3".into()],
            },
            HarmonyRow {
                from: spot(5, 2),
                to: spot(6, 0),
                key: Some("Eb major".into()),
                heard: vec![heard(9, "Bb2", None), heard(7, "D5", None), heard(8, "F4", None)],
                drums: Vec::new(),
            },
        ]
    }

    #[test]
    fn a_moment_names_its_harmony_and_who_holds_what() {
        let told = MomentTold::of(
            &rows()[0],
            Names::default(),
            &[0, 1],
            &|staff| format!("Staff {staff}"),
            &|bar| (bar + 1).to_string(),
        );
        assert_eq!(told.place, "Bars 5–6, in E♭ major");
        assert_eq!(
            (told.name.as_str(), told.remarks.as_str()),
            ("E♭ major", "on the first degree of the key")
        );
        let third = &told.members[1];
        assert_eq!((third.role, third.note.as_str()), ("third", "G"));
        assert_eq!(third.holders, [Holder { name: "Staff 1".into(), made: "5, −14".into() }]);
        assert_eq!(told.members[0].holders.len(), 2);
        assert_eq!(told.drums, "Drums beside it: E♭3");
    }

    #[test]
    fn the_chosen_parts_are_named_and_the_many_others_counted() {
        let rows: Vec<HeardRow> = (0..7).map(|staff| heard(staff, "C4", None)).collect();
        let names = |chosen: &[u32]| -> Vec<String> {
            let all = holders(rows.iter(), chosen, &|staff| staff.to_string());
            all.into_iter().map(|holder| holder.name).collect()
        };
        assert_eq!(names(&[5, 6]), ["5", "6", "0", "1", "and 3 others"]);
        assert_eq!(names(&[3, 4, 5, 6]), ["3", "4", "5", "6", "0", "1", "2"]);
    }

    #[test]
    fn a_harmony_is_found_by_its_time_and_takes_its_stretch() {
        assert_eq!(harmony_at(&rows(), (4, 0)), Some(0));
        assert_eq!(harmony_at(&rows(), (5, 199)), Some(0));
        assert_eq!(harmony_at(&rows(), (5, 200)), Some(1));
        assert_eq!(harmony_at(&rows(), (3, 0)), None);
        assert_eq!(stretch(&drawn(), &rows()[0]), Some((1_130, 4_530)));
        assert_eq!(stretch(&drawn(), &rows()[1]), Some((4_530, 6_000)));
    }
}
