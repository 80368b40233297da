//! Changes of crook: the words of a score ("muta in D") held against the transposition that its file changes to.

use crate::labels::Named;
use crate::remark::{Oddity, Remarks};
use crookwise_score::score::{Direction, Moment, PartStaff, Quarters, Score, StaffId, TimedChange, Told};
use crookwise_score::{ChangeTo, Choice};
use crookwise_theory::Transposition;
use crookwise_theory::label::{DecodeOptions, StaffLabel, decode, sounds};
use std::sync::Arc;

/// Words that tell a player to change his crook, where the transposition of the file does not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unheeded {
    /// The staff they stand at.
    pub staff: StaffId,
    /// When they stand there.
    pub at: Moment,
    /// As they are printed.
    pub words: Arc<str>,
    /// What they change to.
    pub to: StaffLabel,
}

/// Puts the changes of a staff where its file has them, under the words of the score where they say the same; gives the words
/// that the file does not heed.
pub(crate) fn settle(
    score: &mut Score,
    staff: StaffId,
    named: &Named,
    part: usize,
    remarks: &mut Remarks,
) -> Vec<Unheeded> {
    let Some(own) = score.staff(staff) else { return Vec::new() };
    let words = muta(own);
    let mut told: Vec<Told> = own.told.clone();
    told.dedup_by_key(|told| told.transposition);
    let mut changes = Vec::new();
    let mut used = vec![false; words.len()];
    let mut last = Moment::measured(Quarters::ZERO);
    for told in told.iter().skip(1) {
        let at = Moment::measured(told.at.time);
        // Words stand where the player learns of it: after the last change, and not after the new crook sounds.
        let before = |word: &(usize, &Muta)| last < word.1.at || last.time == Quarters::ZERO;
        let word = words.iter().enumerate().filter(before).find(|(at_word, word)| {
            word.at <= at && word.to.transposition == told.transposition && used.get(*at_word) == Some(&false)
        });
        let label = match word {
            Some((at_word, word)) => {
                if let Some(used) = used.get_mut(at_word) {
                    *used = true;
                }
                Some(word.text.as_ref().to_owned())
            }
            None => name_of(named, told.transposition),
        };
        match label {
            Some(label) => changes.push(TimedChange { at, player: None, to: ChangeTo::Label(label) }),
            None => {
                let said = format!("From there on the part {} in the file", sounds(told.transposition.0));
                remarks.add(Oddity::ChangeDisagrees(said), Some(part), &bar_of(score, at));
            }
        }
        last = at;
    }
    let unused = words.iter().zip(&used).filter(|(_, used)| !**used).map(|(word, _)| word);
    let mut unheeded = Vec::new();
    // Words for a crook that holds already are no change.
    for word in unused {
        let own = score.staff(staff);
        let holds = own.and_then(|own| own.told_at(word.at)).map(|told| told.transposition);
        let later = told.iter().any(|told| told.at > word.at && told.transposition == word.to.transposition);
        if holds != Some(word.to.transposition) && !later {
            let what = Oddity::WordsUnheeded(Arc::clone(&word.text));
            remarks.add(what, Some(part), &bar_of(score, word.at));
            let (words, to) = (Arc::clone(&word.text), word.to.clone());
            unheeded.push(Unheeded { staff, at: word.at, words, to });
        }
    }
    for change in changes {
        // The staff is there, and the change is for all of its players.
        let _ = score.change(staff, change);
    }
    unheeded
}

/// Changes in words that are looked at on one staff; no movement has a tenth of them.
const MOST_WORDS: usize = 500;

/// A change of crook in words.
struct Muta {
    at: Moment,
    text: Arc<str>,
    to: StaffLabel,
}

/// Whether words may change a crook. Those for anything else are short too; only those with a sign of change are read.
fn may_change(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["muta", "mutano", "change", "changez", "wechsel", "nimmt", "cambia", "prende", "prenez"]
        .iter()
        .any(|word| lower.contains(word))
        || lower.starts_with("in ")
        || lower.starts_with("en ")
}

/// Whether words change the crook of a staff with this label.
pub(crate) fn changes_crook(label: &str, text: &str) -> bool {
    may_change(text) && !decode(&format!("{label}; {text}"), DecodeOptions::default()).changes.is_empty()
}

/// The words of a staff that change its crook: read behind its label.
fn muta(staff: &PartStaff) -> Vec<Muta> {
    let mut found = Vec::new();
    for told in &staff.directions {
        let Direction::Words(text) = &told.direction else { continue };
        if !may_change(text) {
            continue;
        }
        if found.len() == MOST_WORDS {
            break;
        }
        let decoded = decode(&format!("{}; {text}", staff.label), DecodeOptions::default());
        if let Some(to) = decoded.changes.last() {
            found.push(Muta { at: told.at, text: Arc::clone(text), to: to.clone() });
        }
    }
    found
}

/// The name of the staff's instrument with this transposition, where reading it gives that again.
fn name_of(named: &Named, transposition: Transposition) -> Option<String> {
    let instrument = named.staff()?.instrument;
    let staff = Choice { instrument, transposition }.among(named.decoded())?;
    let name = staff.name();
    let read = decode(&name, DecodeOptions::default());
    read.staves.first().is_some_and(|staff| staff.transposition == transposition).then_some(name)
}

fn bar_of(score: &Score, at: Moment) -> Arc<str> {
    score.bars().get(score.bar_at(at.time)).map_or_else(Arc::default, |bar| Arc::clone(&bar.number))
}
