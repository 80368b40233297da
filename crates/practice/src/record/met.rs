//! Staves as they were met: a record speaks of "Corni in Es" where the score did, not of the crook's own name.

use super::item::StaffKey;
use super::log::Record;

/// Letters of the longest label that is kept.
const LONGEST_LABEL: usize = 60;

impl Record {
    /// Notes the label under which a staff was met at a time; the latest counts, and an empty one is none.
    pub fn meet(&mut self, staff: StaffKey, at: u64, label: &str) {
        let spaced = label.chars().map(|sign| if sign.is_control() { ' ' } else { sign });
        let label: String = spaced.take(LONGEST_LABEL).collect();
        let label = label.split_whitespace().collect::<Vec<_>>().join(" ");
        if label.is_empty() {
            return;
        }
        let now = (at, label);
        let known = self.met.entry(staff, || now.clone());
        if *known < now {
            *known = now;
        }
    }

    /// The same for all that another record has met.
    pub fn meet_all(&mut self, other: &Self) {
        for (staff, (at, label)) in other.met.iter() {
            self.meet(*staff, *at, label);
        }
    }

    /// The label under which a staff was met last; one that scores print for it where an earlier version did not note any.
    #[must_use]
    pub fn label_of(&self, staff: StaffKey) -> Option<String> {
        self.met.get(&staff).map(|(_, label)| label.clone()).or_else(|| staff.label())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kind::Kind;
    use crate::record::{Attempt, Item, Zone};
    use crookwise_theory::{Clef, Habits};

    fn staff(label: &str) -> StaffKey {
        let decoded = crookwise_theory::label::decode(label, Default::default());
        StaffKey::of(&decoded.staves[0], Habits::of(Clef::TREBLE)).unwrap()
    }

    #[test]
    fn a_staff_is_named_as_it_was_met_last() {
        let (horn, other) = (staff("Corni in Es"), staff("Corni in D"));
        let mut record = Record::default();
        assert_eq!(record.label_of(horn).as_deref(), Some("Corni in Mi bemolle"));
        record.meet(horn, 5, "Hörner in Es");
        record.meet(horn, 9, " 2 Corni\n in Es ");
        record.meet(horn, 7, "Cors en mi♭");
        record.meet(horn, 99, " ");
        assert_eq!(record.label_of(horn).as_deref(), Some("2 Corni in Es"));
        assert_eq!(record.label_of(other).as_deref(), Some("Corni in Re"));
    }

    #[test]
    fn labels_are_kept_and_joined() {
        let horn = staff("Corni in Es");
        let item = Item::about(Kind::Label, horn, None);
        let record = |at, label: &str| {
            let mut record = Record::default();
            record.add(at as u32, Attempt::new(at, item, true, &[], 10));
            record.meet(horn, at, label);
            record
        };
        let zone = Zone::ahead(120);
        let (one, two) = (record(90_000, "Hörner in Es"), record(99_000, "Corni in Mi♭"));
        assert_eq!(one.merged(&two), two.merged(&one));
        assert_eq!(one.merged(&two).label_of(horn).as_deref(), Some("Corni in Mi♭"));
        let text = one.to_text(zone);
        // As the third version writes it: to be read for ever.
        assert_eq!(
            text,
            "crookwise record 3\nt 0 horn -5 -9 G2 0 - - b072\nn 0 82800 Hörner in Es c312\ni 0 4 0 - 5eb8\na 90000 1 82800 0 1 0 0 10 f844\n"
        );
        let read = Record::from_text(&text, zone).unwrap();
        assert_eq!((read.record, read.damaged), (one.clone(), 0));
        let damaged = Record::from_text(&text.replace("Hörner", "Horner"), zone).unwrap();
        assert_eq!((damaged.damaged, damaged.record.attempts()), (1, one.attempts()));
    }
}
