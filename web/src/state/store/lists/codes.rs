//! Codes of a class that a teacher has pasted: one entry an exercise, with its link where it is known, so that its questions
//! stay known when another one is set.

use super::{ListFull, key, texts};
use crate::state::store::Drawers;
use crate::state::store::entry::{self, Unread, What};
use crookwise_practice::results::Fingerprint;
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_theory::order::in_order;

/// Exercises of which codes are kept at most.
pub const MOST_CLASSES: usize = 300;
/// Codes that are kept of one exercise at most.
pub const MOST_CODES: usize = 2_000;

/// The codes of one exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptCodes {
    /// Which exercise.
    pub exercise: Fingerprint,
    /// When the first of them came, in milliseconds since 1970: the order of a term.
    pub at: u64,
    /// The exercise, where it is known.
    pub sent: Option<SentExercise>,
    /// The codes, in the order in which they came.
    pub codes: Vec<String>,
}

impl KeptCodes {
    /// As an entry.
    #[must_use]
    pub fn write(&self) -> String {
        let link = |sent: &SentExercise| Link::from(PractiseLink::Do(Some(sent.clone()))).encode();
        let link = self.sent.as_ref().map(link).unwrap_or_default();
        let (number, codes) = (self.exercise.number(), self.codes.join("\n"));
        entry::write(What::Codes, &format!("{number} {}\n{link}\n{codes}", self.at))
    }

    pub(super) fn read(text: &str) -> Result<Self, Unread> {
        let mut lines = entry::read(What::Codes, text)?.split('\n');
        let mut line = || lines.next().ok_or(Unread::Damaged);
        let (number, at) = line()?.split_once(' ').ok_or(Unread::Damaged)?;
        let number = number.parse().ok().and_then(Fingerprint::from_number);
        let sent = match line()? {
            "" => None,
            link => match Link::decode_kept(link)? {
                Some(Link::Practise(PractiseLink::Do(Some(exercise)))) => Some(exercise),
                _ => return Err(Unread::Damaged),
            },
        };
        Ok(Self {
            exercise: number.ok_or(Unread::Damaged)?,
            at: at.parse().map_err(|_| Unread::Damaged)?,
            sent,
            codes: lines.filter(|code| !code.is_empty()).map(str::to_owned).collect(),
        })
    }

    /// Both together: what came first stays first.
    fn and(mut self, other: Self) -> Self {
        for code in other.codes {
            if self.codes.len() < MOST_CODES && !self.codes.contains(&code) {
                self.codes.push(code);
            }
        }
        Self { at: self.at.min(other.at), sent: self.sent.or(other.sent), ..self }
    }
}

/// All of them, the oldest first.
#[must_use]
pub fn list(kept: &Drawers) -> Vec<KeptCodes> {
    in_order(texts(kept, What::Codes).filter_map(|(_, text)| KeptCodes::read(text).ok()), |one| one.at)
}

fn name(exercise: Fingerprint) -> String {
    key(What::Codes, &exercise.number().to_string())
}

/// Adds codes to those of the same exercise.
///
/// # Errors
/// Where there are as many exercises as may be.
pub fn join(kept: &mut Drawers, codes: KeptCodes) -> Result<(), ListFull> {
    let name = name(codes.exercise);
    let here = kept.get(&name).and_then(|text| KeptCodes::read(text).ok());
    if here.is_none() && texts(kept, What::Codes).count() >= MOST_CLASSES {
        return Err(ListFull);
    }
    kept.insert(name, here.map_or(codes.clone(), |here| here.and(codes)).write());
    Ok(())
}

/// Takes away those of an exercise; gives them back as they were.
pub fn remove(kept: &mut Drawers, exercise: Fingerprint) -> Option<KeptCodes> {
    let text = kept.remove(&name(exercise))?;
    KeptCodes::read(&text).ok()
}

/// The name that an entry must have.
pub(super) fn wanted(text: &str) -> Result<String, Unread> {
    KeptCodes::read(text).map(|one| name(one.exercise))
}

#[cfg(test)]
mod tests {
    use super::super::tests::sent;
    use super::*;

    fn codes(number: u32, at: u64, codes: &[&str]) -> KeptCodes {
        let exercise = Fingerprint::from_number(number).unwrap();
        KeptCodes { exercise, at, sent: None, codes: codes.iter().map(|&code| code.to_owned()).collect() }
    }

    #[test]
    fn codes_of_an_exercise_come_together_and_go_together() {
        let mut kept = Drawers::default();
        join(&mut kept, codes(7, 5, &["A", "B"])).unwrap();
        join(&mut kept, codes(8, 2, &["C"])).unwrap();
        let known = KeptCodes { sent: Some(sent("First", 1)), ..codes(7, 9, &["B", "D"]) };
        join(&mut kept, known.clone()).unwrap();
        let seven = KeptCodes { sent: known.sent, ..codes(7, 5, &["A", "B", "D"]) };
        assert_eq!(list(&kept), [codes(8, 2, &["C"]), seven.clone()]);
        let before = kept.clone();
        assert_eq!(remove(&mut kept, seven.exercise), Some(seven.clone()));
        assert_eq!((list(&kept).len(), remove(&mut kept, seven.exercise)), (1, None));
        // What has come meanwhile stays when they come back.
        join(&mut kept, codes(7, 20, &["E"])).unwrap();
        join(&mut kept, seven).unwrap();
        let back: Vec<Vec<String>> = list(&kept).into_iter().map(|one| one.codes).collect();
        assert_eq!(back, [vec!["C"], vec!["E", "A", "B", "D"]]);
        assert_ne!(before, kept);
        for number in 100..100 + MOST_CLASSES as u32 {
            let _ = join(&mut kept, codes(number, 1, &["X"]));
        }
        assert_eq!(join(&mut kept, codes(999, 1, &["X"])), Err(ListFull));
        assert_eq!(join(&mut kept, codes(8, 1, &["X"])), Ok(()));
    }

    #[test]
    fn damaged_entries_are_known() {
        for body in ["", "7", "7 5", "x 5\n\nA", "7 x\n\nA", "7 5\nno link\nA", "99999999 5\n\nA"] {
            let text = entry::write(What::Codes, body);
            assert_eq!(KeptCodes::read(&text), Err(Unread::Damaged), "{body}");
        }
    }
}
