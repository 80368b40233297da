//! Staves as they were met: a record speaks of "Corni in Es" where the score did, not of the crook's own name.

use super::item::StaffKey;
use super::log::Record;

/// Letters of the longest label that is kept.
const LONGEST_LABEL: usize = 60;

/// Labels kept for one staff: the latest that scores and exercises printed over it.
const MOST_LABELS: usize = 3;

impl Record {
    /// Notes the label under which a staff was met at a time. Of many the latest are kept, and an empty one is none.
    pub fn meet(&mut self, staff: StaffKey, at: u64, label: &str) {
        let spaced = label.chars().map(|sign| if sign.is_control() { ' ' } else { sign });
        let label: String = spaced.take(LONGEST_LABEL).collect();
        let label = label.split_whitespace().collect::<Vec<_>>().join(" ");
        if label.is_empty() {
            return;
        }
        let known = self.met.entry(staff, Vec::new);
        let before = known.iter().position(|(_, other)| *other == label).map(|place| known.remove(place));
        let now = (before.map_or(at, |(before, _)| before.max(at)), label);
        let place = known.partition_point(|other| *other > now);
        known.insert(place, now);
        known.truncate(MOST_LABELS);
    }

    /// The same for all that another record has met.
    pub fn meet_all(&mut self, other: &Self) {
        for (staff, labels) in other.met.iter() {
            for (at, label) in labels {
                self.meet(*staff, *at, label);
            }
        }
    }

    /// The labels under which a staff was met, the latest first; one that scores print for it where an earlier version did not
    /// note any, and none where nothing is printed for it.
    #[must_use]
    pub fn labels_of(&self, staff: StaffKey) -> Vec<String> {
        let met = self.met.get(&staff).map(|labels| labels.iter().map(|(_, label)| label.clone()));
        met.map_or_else(|| staff.label().into_iter().collect(), Iterator::collect)
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
    fn a_staff_is_named_as_it_was_met_the_latest_first() {
        let (horn, other) = (staff("Corni in Es"), staff("Corni in D"));
        let mut record = Record::default();
        assert_eq!(record.labels_of(horn), ["Corni in Mi bemolle"]);
        record.meet(horn, 5, "Hörner in Es");
        record.meet(horn, 9, " 2 Corni\n in Es ");
        record.meet(horn, 7, "Cors en mi♭");
        record.meet(horn, 99, " ");
        assert_eq!(record.labels_of(horn), ["2 Corni in Es", "Cors en mi♭", "Hörner in Es"]);
        // One that comes again is the latest; the oldest goes where there are many.
        record.meet(horn, 11, "Cors en mi♭");
        record.meet(horn, 10, "E♭ Horns");
        assert_eq!(record.labels_of(horn), ["Cors en mi♭", "E♭ Horns", "2 Corni in Es"]);
        assert_eq!(record.labels_of(other), ["Corni in Re"]);
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
        let both = one.merged(&two);
        assert_eq!(both, two.merged(&one));
        assert_eq!(both.labels_of(horn), ["Corni in Mi♭", "Hörner in Es"]);
        assert_eq!(Record::from_text(&both.to_text(zone), zone).unwrap().record, both);
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
