//! What a plan of crooks misses, and how it is mended.

use super::Names;
use super::crooks::{bars as bars_in, crook as crook_in, from_to, plural};
use crookwise_planner::LeftOut;
use crookwise_theory::{Crook, Key, Pitch, Production, Tonic};

/// A gap: where, what is left out there, and why.
#[must_use]
pub fn gap(why: LeftOut, key: Option<&str>, bars: (&str, &str), notes: &[String]) -> String {
    let key = key.map(|key| format!(", {key}")).unwrap_or_default();
    let (where_it_is, notes) = (super::capital(&from_to(bars)), notes.join(", "));
    match why {
        LeftOut::Changing => format!("{where_it_is}{key}: {notes} left out while a crook is changed"),
        LeftOut::Busy => format!("{where_it_is}{key}: {notes} left out, all who have it are busy"),
        LeftOut::Missing | LeftOut::HeldElsewhere => format!("{where_it_is}{key}: nobody has {notes}"),
    }
}

/// The plan, counted from 0, that has all that is missing at a gap.
#[must_use]
pub fn another_plan_has_it(at: usize) -> String {
    format!("Plan {} leaves nothing out here: look at it", at + 1)
}

/// In how many bars a note is missing.
#[must_use]
pub fn missing_in(tonic: Tonic, bars: usize, names: Names) -> String {
    format!("{} in {}", names.tonic(tonic), bars_in(u32::try_from(bars).unwrap_or(u32::MAX)))
}

/// A note that is missing, whose it is, and how often.
#[must_use]
pub fn missing_note(note: &str, who: &str, times: usize) -> String {
    let times = if times == 1 { "once".to_owned() } else { format!("{times} times") };
    if who.is_empty() { format!("{note}, {times}") } else { format!("{note} for {who}, {times}") }
}

/// Somebody else plays it.
#[must_use]
pub fn other_player(who: &str, made: Production) -> String {
    format!("{who} plays it: {}", made.words())
}

/// It is played in another octave.
#[must_use]
pub fn other_octave(note: &str, made: Production) -> String {
    format!("In another octave: {note}, {}", made.words())
}

/// Another member of the chord is played.
#[must_use]
pub fn other_member(note: &str, made: Production) -> String {
    format!("{note} of the chord instead: {}", made.words())
}

/// It would be had on another crook.
#[must_use]
pub fn other_crook(who: &str, crook: &Crook, made: Production, names: Names) -> String {
    let crook = crook_in(crook, names);
    format!("{who} {crook} would have it, {}: make a rest for the change.", made.words())
}

/// Another crook is taken where the rests for its changes are there.
#[must_use]
pub fn crook_between(who: &str, crook: &Crook, bars: (&str, &str), made: Production, names: Names) -> String {
    let bars = super::capital(&from_to(bars));
    let crook = crook_in(crook, names);
    format!("{who} {crook}: {}. {bars}, with rest enough for the change.", made.words())
}

/// What the crook before has there and the other one has not.
#[must_use]
pub fn lost_there(lost: usize, played: usize) -> String {
    match lost {
        0 => "It has all that is played there.".to_owned(),
        lost => format!("Of {} played there it lacks {lost}.", plural(played, "note")),
    }
}

/// A remedy in a plan of keys: who takes which crook, and how the note is made there.
#[must_use]
pub fn remedy(who: &str, crook: &Crook, written: Pitch, made: Production, names: Names) -> String {
    format!("{who} {}: written {}, {}", crook_in(crook, names), names.note(written), made.words())
}

/// What else follows where a way of making notes is asked for.
#[must_use]
pub fn asked_for_everywhere(made: Production) -> String {
    format!("Asks for notes {} in the whole plan, as far as the players have them.", made.words())
}

/// What a way of making notes gains over all.
#[must_use]
pub fn gains_by_asking(notes: i64, made: Production) -> String {
    format!("{}. {}", gains(notes), asked_for_everywhere(made))
}

/// What a remedy gains or loses over all.
#[must_use]
pub fn gains(notes: i64) -> String {
    let count = plural(usize::try_from(notes.unsigned_abs()).unwrap_or(usize::MAX), "note");
    match notes {
        0 => "as many notes as now".to_owned(),
        1.. => format!("{count} more over all"),
        _ => format!("{count} fewer over all"),
    }
}

/// Bars that have no key of their own, from the first to the last, and the key they are planned in; nothing of none.
#[must_use]
pub fn bars_filled(filled: &[((u32, u32), Key)], names: Names) -> Option<String> {
    let one = |((first, last), key): &((u32, u32), Key)| {
        format!("{} in {}", from_to((&first.to_string(), &last.to_string())), names.key(*key))
    };
    let all: Vec<String> = filled.iter().map(one).collect();
    (!all.is_empty()).then(|| format!("Without a key of their own: {}.", all.join(", ")))
}
