//! Two players of one crook on one staff, as print has them: in unison "a 2", in one rhythm on one stem, else in two voices;
//! where one is silent, who plays is told.

use super::PrintedEvent;
use core::fmt;

/// Who plays of a pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Players {
    /// Both, the same.
    Both,
    /// The first alone.
    First,
    /// The second alone.
    Second,
    /// Each his own: nothing is told.
    Each,
}

impl fmt::Display for Players {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Both => "a 2",
            Self::First => "1.",
            Self::Second => "2.",
            Self::Each => "",
        })
    }
}

/// Joins the voices that two players have in a bar; who plays, where that must be told.
pub(super) fn join(
    first: Vec<Vec<PrintedEvent>>,
    second: Vec<Vec<PrintedEvent>>,
) -> (Vec<Vec<PrintedEvent>>, Option<Players>) {
    let silent = |voices: &[Vec<PrintedEvent>]| voices.iter().flatten().all(PrintedEvent::is_rest);
    match (silent(&first), silent(&second)) {
        (true, true) => return (first, None),
        (false, true) => return (first, Some(Players::First)),
        (true, false) => return (second, Some(Players::Second)),
        (false, false) => {}
    }
    if let ([one], [two]) = (first.as_slice(), second.as_slice())
        && same_rhythm(one, two)
    {
        let unison = one.iter().zip(two).all(|(one, two)| same_pitches(one, two));
        let players = if unison { Players::Both } else { Players::Each };
        let joined =
            one.iter().zip(two).map(|(one, two)| if unison { one.clone() } else { on_one_stem(one, two) });
        return (vec![joined.collect()], Some(players));
    }
    (first.into_iter().chain(second).collect(), Some(Players::Each))
}

fn same_rhythm(one: &[PrintedEvent], two: &[PrintedEvent]) -> bool {
    let same = |one: &PrintedEvent, two: &PrintedEvent| {
        (one.at, one.length, one.value, one.dots, one.tuplet)
            == (two.at, two.length, two.value, two.dots, two.tuplet)
            && one.is_rest() == two.is_rest()
            && (one.tremolo, one.slurs_begin, one.slurs_end, one.cue)
                == (two.tremolo, two.slurs_begin, two.slurs_end, two.cue)
            && one.graces.len() == two.graces.len()
            && one.graces.iter().zip(&two.graces).all(|(one, two)| same_pitches(one, two))
    };
    one.len() == two.len() && one.iter().zip(two).all(|(one, two)| same(one, two))
}

fn same_pitches(one: &PrintedEvent, two: &PrintedEvent) -> bool {
    let same = one
        .notes
        .iter()
        .zip(&two.notes)
        .all(|(one, two)| (one.pitch, one.tied, one.tied_on) == (two.pitch, two.tied, two.tied_on));
    one.notes.len() == two.notes.len() && same
}

/// Both on one stem; a note that both have stands once.
fn on_one_stem(one: &PrintedEvent, two: &PrintedEvent) -> PrintedEvent {
    let mut joined = one.clone();
    for note in &two.notes {
        let at = joined.notes.partition_point(|other| {
            (other.pitch.diatonic(), other.pitch.alter) < (note.pitch.diatonic(), note.pitch.alter)
        });
        match joined.notes.get_mut(at) {
            Some(there) if there.pitch == note.pitch => {
                there.tied |= note.tied;
                there.tied_on |= note.tied_on;
            }
            _ => joined.notes.insert(at, note.clone()),
        }
    }
    joined.stem = None;
    joined.marks = joined.marks.and(two.marks);
    joined
}
