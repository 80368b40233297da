//! A change of crook, as a teacher names it ("muta in C", "in C", "C", "Corni in C") and as the score prints it over
//! the staff.

use crate::ask::resolved;
use crate::exercise::AskedStaff;
use crate::labels::says_octave;
use crookwise_score::{Change, ChangeTo, Choice, Passage};
use crookwise_theory::label::StaffLabel;

/// How scores announce a change, in the languages of labels. Common practice.
const ANNOUNCED: [&str; 8] =
    ["muta", "mutano", "cambia", "cambiano", "changez", "nimmt", "nehmen", "umstimmen"];

/// The staff that a staff which is asked about changes to; `None` where it does not, or its words name nothing it can.
///
/// ```
/// use crookwise_practice::{AskedStaff, changes_to};
///
/// let staff = AskedStaff { muta: Some("muta in D".into()), ..AskedStaff::of("Corni in Es") };
/// assert!(changes_to(&staff).is_some() && changes_to(&AskedStaff::of("Corni in Es")).is_none());
/// ```
#[must_use]
pub fn changes_to(staff: &AskedStaff) -> Option<StaffLabel> {
    read(&Passage::of_staff(&staff.label), staff.muta.as_deref()?).map(|(to, _)| to)
}

/// What a staff changes to, and how that is printed; `None` where the words name nothing its label can change to.
/// `page` is a page of this staff alone.
pub(crate) fn read(page: &Passage, text: &str) -> Option<(StaffLabel, String)> {
    let text = text.trim();
    let to = changed(page, text)?;
    let same = |text: &String| {
        changed(page, text)
            .is_some_and(|other| Choice::of(&other) == Choice::of(&to) && other.drums == to.drums)
    };
    let printed = Some(announced(text)).filter(same).unwrap_or_else(|| text.to_owned());
    // Where the key is built alto and basso, the word stands there.
    let built = to.crook_family().zip(to.key).map_or(0, |(family, key)| family.in_key(key).len());
    let word = to.octave.filter(|_| built > 1 && !says_octave(&printed));
    let full = word.map(|word| format!("{printed} {}", word.word())).filter(same);
    Some((to, full.unwrap_or(printed)))
}

/// "muta in C" for whatever names only a crook.
fn announced(text: &str) -> String {
    if text.split(' ').next().is_some_and(|first| ANNOUNCED.contains(&first.to_lowercase().as_str())) {
        return text.to_owned();
    }
    let joined = [" in ", " en "].into_iter().find_map(|word| text.rsplit_once(word));
    let key = joined.map_or(text, |(_, key)| key);
    format!("muta in {}", key.strip_prefix("in ").or(key.strip_prefix("en ")).unwrap_or(key))
}

/// The staff the first player reads after such a change.
fn changed(page: &Passage, text: &str) -> Option<StaffLabel> {
    let mut page = page.clone();
    for column in 0..2 {
        page.insert_column(column).ok()?;
    }
    let change = Change { column: 1, player: None, to: ChangeTo::Label(text.to_owned()) };
    page.set_change(0, change).ok()?;
    let staff = resolved(&page, 0)?;
    let understood = staff.misunderstood().is_empty();
    staff.place_at(1, 0).filter(|_| understood).map(|place| place.staff.clone())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn printed(label: &str, text: &str) -> Option<String> {
        read(&Passage::of_staff(label), text).map(|(to, printed)| format!("{printed}: {}", to.name()))
    }

    #[test]
    fn a_change_is_taken_as_it_is_written_and_printed_as_scores_have_it() {
        for text in ["muta in F", "in F", "F", "Corni in F", " Corno in F "] {
            assert_eq!(printed("Corni in Es", text).as_deref(), Some("muta in F: Horn in F"), "{text}");
        }
        for (label, text, expected) in [
            ("Corni in Es", "C", "muta in C basso: Horn in C basso"),
            ("Corni in Es", "Corni in C alto", "muta in C alto: Horn in C alto"),
            ("Corni in Es", "B", "muta in B basso: Horn in B-flat basso"),
            ("Hörner in Es", "tief H", "muta in tief H: Horn in B natural basso"),
            ("Cors en Mi♭", "changez en Fa", "changez en Fa: Horn in F"),
            ("Trombe in D", "Es", "muta in Es: Trumpet in E-flat"),
            ("Clarinetti in B", "A", "muta in A: Clarinet in A"),
            ("Clarinetti in B", "Clarinetti in A", "muta in A: Clarinet in A"),
        ] {
            assert_eq!(printed(label, text).as_deref(), Some(expected), "{label}, {text}");
        }
        for text in ["", "xyz", "muta", "muta in Q"] {
            assert_eq!(printed("Corni in Es", text), None, "{text}");
        }
    }
}
