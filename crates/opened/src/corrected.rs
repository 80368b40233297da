//! What the reader corrects: a label, its reading, changes of crook, old bass-clef notation. Laid over the score as its file
//! has it, so that it can be taken back.

use crookwise_score::score::{Moment, PartStaff, Score, StaffId, TimedChange};
use crookwise_score::{ChangeTo, Choice, Settings};
use crookwise_share::{choice, choice_text};
use crookwise_theory::BassNotation;
use crookwise_theory::label::LONGEST;
use form_urlencoded::Serializer;
use std::sync::Arc;

/// Corrections of one staff.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Correction {
    /// Its number among the staves of the score.
    pub staff: u32,
    /// Its label, where it is another than the file's.
    pub label: Option<String>,
    /// Which reading of the label holds.
    pub reads: Reads,
    /// Whether notes that seem to be in old bass-clef notation are read so.
    pub old_bass: bool,
    /// What it changes to, by bar.
    pub changes: Vec<CorrectedChange>,
}

/// A change of crook that the reader puts at the beginning of a bar. It takes the place of what the file changes in that bar,
/// and holds until the next change.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CorrectedChange {
    /// The bar, counted from 0.
    pub bar: u32,
    /// As print has it over the staff: "muta in D".
    pub to: String,
}

/// Which reading of a label holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Reads {
    /// As the file transposes; of a label that was corrected the usual one.
    #[default]
    AsGiven,
    /// The usual one, whatever the file says.
    Usual,
    /// This one.
    Chosen(Choice),
}

impl Correction {
    /// Whether it corrects nothing.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        !self.is_of_label() && !self.old_bass && self.changes.is_empty()
    }

    /// Whether it corrects the label or its reading.
    pub(crate) fn is_of_label(&self) -> bool {
        self.label.is_some() || self.reads != Reads::AsGiven
    }

    /// Lets the staff change its crook with a bar; where nothing is said it does there what its file does.
    pub fn change(&mut self, bar: u32, to: &str) {
        self.changes.retain(|old| old.bar != bar);
        let to = to.trim();
        if !to.is_empty() && to.chars().count() <= LONGEST {
            let at = self.changes.partition_point(|old| old.bar < bar);
            self.changes.insert(at, CorrectedChange { bar, to: to.to_owned() });
        }
    }

    /// Corrections as text: pairs as in a link, those of a staff behind its number.
    ///
    /// ```
    /// use crookwise_opened::{Correction, Reads};
    /// let label = Some("Corni in D".into());
    /// let mut one = Correction { staff: 3, label, reads: Reads::Usual, old_bass: true, ..Correction::default() };
    /// one.change(11, "muta in G");
    /// let text = Correction::write(&[one.clone()]);
    /// assert_eq!(text, "staff=3&label=Corni+in+D&reads=usual&bass=old&from=11&to=muta+in+G");
    /// assert_eq!(Correction::read(&text), [one]);
    /// ```
    #[must_use]
    pub fn write(all: &[Self]) -> String {
        let mut text = Serializer::new(String::new());
        for one in all.iter().filter(|one| !one.is_nothing()) {
            text.append_pair("staff", &one.staff.to_string());
            if let Some(label) = &one.label {
                text.append_pair("label", label);
            }
            match &one.reads {
                Reads::AsGiven => {}
                Reads::Usual => drop(text.append_pair("reads", "usual")),
                Reads::Chosen(chosen) => drop(text.append_pair("reads", &choice_text(*chosen))),
            }
            if one.old_bass {
                text.append_pair("bass", "old");
            }
            for CorrectedChange { bar, to } in &one.changes {
                text.append_pair("from", &bar.to_string()).append_pair("to", to);
            }
        }
        text.finish()
    }

    /// Corrections from their text; what is not understood of it corrects nothing.
    #[must_use]
    pub fn read(text: &str) -> Vec<Self> {
        let mut all: Vec<Self> = Vec::new();
        let mut from: Option<u32> = None;
        for (name, value) in form_urlencoded::parse(text.as_bytes()) {
            if name == "staff" {
                let Ok(staff) = value.parse() else { break };
                all.push(Self { staff, ..Self::default() });
                from = None;
            }
            let Some(one) = all.last_mut() else { continue };
            match name.as_ref() {
                "label" if value.chars().count() <= LONGEST => one.label = Some(value.into_owned()),
                "reads" if value == "usual" => one.reads = Reads::Usual,
                "reads" => one.reads = choice(&value).map_or(Reads::AsGiven, Reads::Chosen),
                "bass" => one.old_bass = value == "old",
                "from" => from = value.parse().ok(),
                "to" => from.take().into_iter().for_each(|bar| one.change(bar, &value)),
                _ => {}
            }
        }
        all
    }
}

/// A staff as its file has it.
#[derive(Clone, Debug)]
pub(crate) struct AsRead {
    pub id: StaffId,
    pub label: Arc<str>,
    pub choice: Option<Choice>,
    settings: Settings,
    changes: Vec<TimedChange>,
}

impl AsRead {
    /// Every staff of a score, in its order.
    pub fn all(score: &Score) -> Vec<Self> {
        let one = |staff: &PartStaff| Self {
            id: staff.id,
            label: Arc::clone(&staff.label),
            choice: staff.choice,
            settings: staff.settings,
            changes: staff.changes().to_vec(),
        };
        score.staves().map(one).collect()
    }
}

/// Lays corrections over a score instead of those before.
pub(crate) fn lay(score: &mut Score, as_read: &[AsRead], corrections: &[Correction]) {
    for (at, original) in (0..).zip(as_read) {
        let correction = corrections.iter().find(|one| one.staff == at);
        lay_changes(score, original, correction.map(|one| one.changes.as_slice()).unwrap_or_default());
        let Some(staff) = score.staff_mut(original.id) else { continue };
        staff.label = Arc::clone(&original.label);
        staff.choice = original.choice;
        staff.settings = original.settings;
        let Some(correction) = correction else { continue };
        if let Some(label) = correction.label.as_deref().filter(|label| *label != original.label.as_ref()) {
            staff.label = label.into();
            staff.choice = None;
            // They belong to what the file's label meant.
            staff.settings.scheme = None;
            staff.settings.mechanism = None;
        }
        match &correction.reads {
            Reads::AsGiven => {}
            Reads::Usual => staff.choice = None,
            Reads::Chosen(choice) => staff.choice = Some(*choice),
        }
        if correction.reads != Reads::AsGiven {
            // The mechanism was found with the reading of the file.
            staff.settings.mechanism = None;
        }
        if correction.old_bass {
            staff.settings.bass = Some(BassNotation::Old);
        }
    }
}

/// What a staff changes to, with what was corrected of it.
fn lay_changes(score: &mut Score, original: &AsRead, corrected: &[CorrectedChange]) {
    let start = |change: &CorrectedChange| {
        let bar = usize::try_from(change.bar).ok()?;
        // Grace notes at the beginning of the bar have the new crook too.
        score.bars().get(bar).map(|bar| Moment::without_length(bar.start, 0))
    };
    let own: Vec<TimedChange> = corrected
        .iter()
        .filter_map(|change| {
            let to = ChangeTo::Label(change.to.clone());
            Some(TimedChange { at: start(change)?, player: None, to })
        })
        .collect();
    let bar = |change: &TimedChange| score.bar_at(change.at.time);
    let gives_way = |change: &TimedChange| {
        matches!(change.to, ChangeTo::Label(_)) && own.iter().any(|other| bar(other) == bar(change))
    };
    let of_file: Vec<TimedChange> =
        original.changes.iter().filter(|change| !gives_way(change)).cloned().collect();
    // The staff is there, and what was read of it could be put there before.
    let _ = score.change_only(original.id, of_file.into_iter().chain(own));
}
