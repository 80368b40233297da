//! Horn and trumpet: which crook a label means, where the trade leaves open how long it is, and natural or valves.

use super::staff::Mechanism;
use crate::crook::{Crook, CrookFamily, OctaveWord};
use crate::pitch::{Step, Tonic};

/// From this year on valves are taken for granted. Common practice: valve horns enter scores from the 1830s.
pub(super) const VALVES_FROM: i32 = 1840;

/// A crook, why it is taken, and the others with their reasons.
pub(super) struct Choice {
    /// The crook taken.
    pub crook: &'static Crook,
    /// Why, where the label leaves it open.
    pub reason: Option<String>,
    /// Other crooks the label may mean.
    pub others: Vec<(&'static Crook, String)>,
}

/// Alto or basso of a crook among those of its key: a bare name is the other one of a pair.
fn effective(crook: &Crook, pair: &[&'static Crook]) -> Option<OctaveWord> {
    crook.octave.or_else(|| {
        let other = pair.iter().find(|other| other.transposition != crook.transposition)?;
        match other.octave? {
            OctaveWord::Alto => Some(OctaveWord::Basso),
            OctaveWord::Basso => Some(OctaveWord::Alto),
        }
    })
}

/// The crook of a key by the word, or by habit where no word is printed.
pub(super) fn in_key(
    family: CrookFamily,
    key: Tonic,
    word: Option<OctaveWord>,
    year: Option<i32>,
    old_wording: bool,
) -> Option<Choice> {
    let crooks = family.in_key(key);
    let (first, rest) = crooks.split_first()?;
    if rest.is_empty() {
        let reason = word.map(|word| {
            format!("The {} in this key has one length, so “{}” changes nothing.", family.word(), word.word())
        });
        return Some(Choice { crook: first, reason, others: Vec::new() });
    }
    let of =
        |wanted: OctaveWord| crooks.iter().find(|crook| effective(crook, &crooks) == Some(wanted)).copied();
    if let Some(word) = word {
        return Some(Choice { crook: of(word)?, reason: None, others: Vec::new() });
    }
    let (taken, why, other) = habit(family, key, year, old_wording);
    let against = match taken {
        OctaveWord::Alto => OctaveWord::Basso,
        OctaveWord::Basso => OctaveWord::Alto,
    };
    let reason = match family {
        CrookFamily::Horn => format!("No octave word is printed: taken as {}, {why}.", taken.word()),
        CrookFamily::Trumpet => format!("No octave word is printed: {why}."),
    };
    Some(Choice { crook: of(taken)?, reason: Some(reason), others: vec![(of(against)?, other.to_owned())] })
}

/// Which octave a bare key means, why, and when the other is meant. Sources: Landon 1956 on Haydn's B-flat horns,
/// Bryan on Mozart's, Del Mar 2023 on C alto; the rest common practice.
fn habit(
    family: CrookFamily,
    key: Tonic,
    year: Option<i32>,
    old_wording: bool,
) -> (OctaveWord, &'static str, &'static str) {
    use OctaveWord::{Alto, Basso};
    match (family, key.step, key.alter) {
        (CrookFamily::Horn, Step::C, _) => {
            (Basso, "the usual horn in C", "Haydn at Eszterháza has C alto, then usually marked so")
        }
        (CrookFamily::Horn, Step::B, 0) => (Basso, "as Brahms has it", "the shorter horn in this key"),
        (CrookFamily::Horn, Step::B, _) => match year {
            Some(year) if year < 1800 => (
                Alto,
                "the habit before 1800 (Haydn up to the Paris symphonies, most of Mozart)",
                "with trumpets and drums in B-flat, as in Haydn's London symphonies, basso is meant",
            ),
            None if old_wording => (
                Alto,
                "since the wording is of the 18th century (Haydn up to the Paris symphonies, most of Mozart)",
                "with trumpets and drums in B-flat, as in Haydn's London symphonies, basso is meant",
            ),
            Some(_) => (Basso, "the habit after 1800", "before 1800 alto was the habit"),
            None => (Basso, "the habit of the 19th century", "before 1800 alto was the habit"),
        },
        (CrookFamily::Horn, ..) => {
            (Alto, "the usual length in this key", "Italian opera from about 1820 to 1880 often means basso")
        }
        (CrookFamily::Trumpet, Step::G, _) => {
            (Alto, "the trumpet in G sounds a fifth higher", "the low trumpet in G, rare")
        }
        (CrookFamily::Trumpet, ..) => {
            (Basso, "the usual trumpet in this key is the low one", "the high trumpet in this key, rare")
        }
    }
}

/// The crook taken where no key is printed, and the other common ones. The trade leaves it open.
pub(super) fn without_key(family: CrookFamily) -> Option<Choice> {
    let (taken, why, others): (_, _, &[&str]) = match family {
        CrookFamily::Horn => (
            "F",
            "No key is printed: taken as a horn in F, today's usual one. Look for the key at the first system or the first entry.",
            &["Eb", "D", "C", "Bb", "G", "E", "A"],
        ),
        CrookFamily::Trumpet => (
            "C",
            "No key is printed: taken as sounding as written. Look for the key at the first system or the first entry.",
            &["D", "Bb", "Eb", "F", "E", "A"],
        ),
    };
    let crook = |name: &str| {
        let key: Tonic = name.parse().ok()?;
        in_key(family, key, None, None, false)
    };
    let mut list = Vec::new();
    for choice in others.iter().filter_map(|name| crook(name)) {
        list.push((choice.crook, "a usual key".to_owned()));
        if family == CrookFamily::Horn {
            list.extend(
                choice
                    .others
                    .into_iter()
                    .take(1)
                    .map(|(crook, _)| (crook, "a usual key in its day".to_owned())),
            );
        }
    }
    Some(Choice { crook: crook(taken)?.crook, reason: Some(why.to_owned()), others: list })
}

/// Crooks that sound the same key under another name: C-sharp is built as D-flat.
pub(super) fn same_sound(family: CrookFamily, key: Tonic) -> Vec<&'static Crook> {
    family.crooks().iter().filter(|crook| crook.tonic.pitch_class() == key.pitch_class()).collect()
}

/// Natural or valves: a word decides, else the year, else whether a crook is named.
pub(super) fn mechanism(
    word: Option<Mechanism>,
    year: Option<i32>,
    key_named: bool,
    family: CrookFamily,
) -> (Mechanism, Option<String>) {
    let noun = family.word();
    match (word, year) {
        (Some(word), _) => (word, None),
        (None, Some(year)) if year < VALVES_FROM => (
            Mechanism::Natural,
            Some(format!("Taken as a natural {noun}: in {year} valves were not yet usual.")),
        ),
        (None, Some(_)) => (
            Mechanism::Valves,
            Some(format!("Taken as a {noun} with valves: usual from about {VALVES_FROM} on.")),
        ),
        (None, None) if key_named => {
            (Mechanism::Natural, Some(format!("Taken as a natural {noun}, since the label names its crook.")))
        }
        (None, None) => (
            Mechanism::Valves,
            Some(format!("Taken as a {noun} with valves, since the label names no crook.")),
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_rule_for_every_key() {
        for family in [CrookFamily::Horn, CrookFamily::Trumpet] {
            for crook in family.crooks() {
                for year in [None, Some(1780), Some(1850)] {
                    let choice = in_key(family, crook.tonic, None, year, false).unwrap();
                    let pair = family.in_key(crook.tonic);
                    assert_eq!(choice.reason.is_some(), pair.len() == 2, "{}", crook.name);
                    assert_eq!(choice.others.len() + 1, pair.len(), "{}", crook.name);
                }
                for word in [OctaveWord::Alto, OctaveWord::Basso] {
                    let choice = in_key(family, crook.tonic, Some(word), None, false).unwrap();
                    let expected = crook.octave.unwrap_or(word);
                    assert!(choice.crook.octave.is_none_or(|octave| octave == word || octave == expected));
                }
            }
        }
    }
}
