//! What the reader corrects: a label, its reading, old bass-clef notation. Laid over the score as its file has it, so that
//! it can be taken back.

use crookwise_score::score::{PartStaff, Score, StaffId};
use crookwise_score::{Choice, Settings};
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
        self.label.is_none() && self.reads == Reads::AsGiven && !self.old_bass
    }

    /// Corrections as text: pairs as in a link, those of a staff behind its number.
    ///
    /// ```
    /// use crookwise_opened::{Correction, Reads};
    /// let one = Correction { staff: 3, label: Some("Corni in D".into()), reads: Reads::Usual, old_bass: true };
    /// let text = Correction::write(&[one.clone()]);
    /// assert_eq!(text, "staff=3&label=Corni+in+D&reads=usual&bass=old");
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
        }
        text.finish()
    }

    /// Corrections from their text; what is not understood of it corrects nothing.
    #[must_use]
    pub fn read(text: &str) -> Vec<Self> {
        let mut all: Vec<Self> = Vec::new();
        for (name, value) in form_urlencoded::parse(text.as_bytes()) {
            if name == "staff" {
                let Ok(staff) = value.parse() else { break };
                all.push(Self { staff, ..Self::default() });
            }
            let Some(one) = all.last_mut() else { continue };
            match name.as_ref() {
                "label" if value.chars().count() <= LONGEST => one.label = Some(value.into_owned()),
                "reads" if value == "usual" => one.reads = Reads::Usual,
                "reads" => one.reads = choice(&value).map_or(Reads::AsGiven, Reads::Chosen),
                "bass" => one.old_bass = value == "old",
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
}

impl AsRead {
    /// Every staff of a score, in its order.
    pub fn all(score: &Score) -> Vec<Self> {
        let one = |staff: &PartStaff| Self {
            id: staff.id,
            label: Arc::clone(&staff.label),
            choice: staff.choice,
            settings: staff.settings,
        };
        score.staves().map(one).collect()
    }
}

/// Lays corrections over a score instead of those before.
pub(crate) fn lay(score: &mut Score, as_read: &[AsRead], corrections: &[Correction]) {
    for (at, original) in (0..).zip(as_read) {
        let correction = corrections.iter().find(|one| one.staff == at);
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
