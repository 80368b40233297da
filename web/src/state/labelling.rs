//! What stands around the label field: the meaning in words, the other readings, the list of instruments.

use crate::state::view::View;
use crate::words;
use crookwise_score::{Choice, MOST_PLAYERS};
use crookwise_share::ReadPage;
use crookwise_theory::label::{Decoded, StaffLabel};
use crookwise_theory::{Tonic, label};

/// The label and what it means.
#[derive(Clone, Debug, PartialEq)]
pub struct Labelling {
    /// As typed.
    pub label: String,
    /// In words: "Horn in E-flat — sounds a major sixth lower".
    pub meaning: String,
    /// What is not understood.
    pub problem: Option<String>,
    /// What was taken for granted.
    pub assumed: Option<String>,
    /// Of that, what is about the reading: not whether the brass is natural.
    pub assumed_reading: Option<String>,
    /// That the label names more players than are told apart on a staff.
    pub crowded: Option<String>,
    /// The reading that holds, to be chosen as it is.
    pub here: Option<Other>,
    /// Readings that can be chosen instead.
    pub others: Vec<Other>,
}

/// A reading that can be chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct Other {
    /// Its name.
    pub name: String,
    /// When the trade means it.
    pub reason: String,
    /// What choosing it sets; `None` goes back to the usual reading.
    pub choice: Option<Choice>,
}

impl Other {
    /// By which a list knows it again.
    #[must_use]
    pub fn key(&self) -> (String, String) {
        (self.name.clone(), self.reason.clone())
    }
}

/// One instrument of the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ListedLabel {
    /// Its English name.
    pub name: String,
    /// A label that means it.
    pub label: String,
}

impl Labelling {
    /// The label of the staff in view.
    #[must_use]
    pub fn of(view: &View, page: &ReadPage) -> Self {
        let staff = page.passage.staves().get(page.staff);
        let decoded = &view.staff.decoded;
        let players = staff.map_or(1, crookwise_score::Staff::players);
        // Which of the staves that the label names the player in view reads.
        let seat = decoded.seats(players).get(view.player).map_or(0, |seat| seat.staff);
        let usual = decoded.staves.get(seat);
        let read_as = view.start().map(|place| &place.staff);
        let of_all = |staff: &crookwise_score::Staff| staff.choice.filter(|_| seat == 0);
        let chosen = staff.and_then(|staff| staff.crook(view.player).or_else(|| of_all(staff)));
        let key = |key: Tonic| view.names.key_word(key);
        let start = view.start();
        // What the notes do here; another instrument has a clef of its own.
        let in_words = |staff: &StaffLabel| match start.filter(|at| at.staff.instrument == staff.instrument) {
            Some(at) => at.read_by(staff).words_by(&key),
            None => staff.words_by(&key),
        };
        let mut meaning = read_as.map(in_words).unwrap_or_default();
        if chosen.is_none() {
            for (_, next) in decoded.staves.iter().enumerate().filter(|(at, _)| *at != seat) {
                meaning.push_str("; ");
                meaning.push_str(&in_words(next));
            }
        }
        for change in &decoded.changes {
            meaning.push_str(&words::staves::then(&in_words(change)));
        }
        let back = usual.filter(|_| chosen.is_some()).map(|usual| Other {
            name: usual.name_by(&key),
            reason: words::staves::USUAL_READING.into(),
            choice: None,
        });
        // Who sits on a crook of the label reads it anyway.
        let has_seat = |label: &&StaffLabel| {
            let own = |player| view.staff.staff(player).map(Choice::of);
            (0..players).any(|player| own(player) == Some(Choice::of(label)))
        };
        let named = decoded.staves.iter().skip(1).filter(|label| !has_seat(label)).map(|staff| Other {
            name: staff.name_by(&key),
            reason: words::staves::NAMED_BY_THE_SAME_LABEL.into(),
            choice: Some(Choice::of(staff)),
        });
        let changed = decoded.changes.iter().map(|staff| Other {
            name: staff.name_by(&key),
            reason: words::staves::AFTER_THE_CHANGE.into(),
            choice: Some(Choice::of(staff)),
        });
        let own = decoded.alternatives.iter().filter(|other| other.of == seat);
        let alternatives = own.map(|other| Other {
            name: other.staff.name_by(&key),
            reason: other.reason.clone(),
            choice: Some(Choice::of(&other.staff)),
        });
        let mut others: Vec<Other> = Vec::new();
        let held = read_as.map(Choice::of);
        // Who has confirmed the usual reading needs no way back to it.
        let is_here = |other: &Other| match other.choice {
            None => usual.map(Choice::of) == held,
            choice => choice == held,
        };
        for other in back.into_iter().chain(named).chain(changed).chain(alternatives) {
            let here = is_here(&other);
            if !here && !others.iter().any(|known| known.key() == other.key()) {
                others.push(other);
            }
        }
        let about_valves = decoded.about_valves.as_deref().unwrap_or_default();
        let assumed = decoded.assumed.clone().filter(|_| chosen.is_none());
        let reading = assumed.as_deref().map(|all| all.replace(about_valves, "").trim().to_owned());
        Self {
            label: staff.map(|staff| staff.label.clone()).unwrap_or_default(),
            meaning,
            problem: decoded
                .problem
                .as_ref()
                .filter(|_| chosen.is_none() || usual.is_some())
                .map(ToString::to_string),
            assumed,
            assumed_reading: reading.filter(|reading| !reading.is_empty()),
            crowded: crowded(decoded).map(|named| words::staves::crowded(named, MOST_PLAYERS)),
            here: read_as.map(|staff| Other {
                name: staff.name_by(&key),
                reason: String::new(),
                choice: Some(Choice::of(staff)),
            }),
            others,
        }
    }
}

impl Labelling {
    /// What is said quietly beside the meaning: what was taken for granted, and the other readings.
    #[must_use]
    pub fn aside(&self) -> String {
        let named = |other: &Other| {
            let same = self.here.as_ref().is_some_and(|here| here.name == other.name);
            words::chips::other(&other.name, &other.reason, same)
        };
        let others: Vec<String> = self.others.iter().map(named).collect();
        let [crowded, assumed] = [&self.crowded, &self.assumed].map(|said| said.clone().unwrap_or_default());
        let parts = [crowded, assumed, words::chips::also(&others)];
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
    }
}

/// How many players a label names, where that is more than are told apart on a staff; of drums one plays several.
#[must_use]
pub fn crowded(decoded: &Decoded) -> Option<usize> {
    decoded.staves.first().filter(|staff| staff.is_pitched() && staff.drums.is_empty())?;
    decoded.named_players().filter(|named| *named > MOST_PLAYERS)
}

/// The list of instruments by family.
#[must_use]
pub fn catalogue() -> Vec<(&'static str, Vec<ListedLabel>)> {
    label::catalogue()
        .into_iter()
        .map(|(family, entries)| {
            let entries = entries
                .into_iter()
                .map(|entry| ListedLabel { name: entry.name, label: entry.label })
                .collect();
            (family.name(), entries)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::document::Document;
    use crookwise_share::Link;

    fn labelling(link: &str) -> Labelling {
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        Labelling::of(&View::of(&page), &page)
    }

    #[test]
    fn more_players_than_a_staff_has_are_told() {
        let six = labelling("/read?staff=6+Corni+in+F&players=4&notes=C5");
        let said = six.crowded.clone().unwrap();
        assert!(said.contains("names 6 players") && said.contains("4 at most"), "{said}");
        assert!(six.aside().starts_with(&said));
        for label in ["4+Corni+in+F", "Corni+in+F", "6+Timpani+in+D%2C+A", "Gran+cassa", "Xyzzyq"] {
            assert_eq!(labelling(&format!("/read?staff={label}&notes=C5")).crowded, None, "{label}");
        }
    }

    #[test]
    fn the_meaning_is_said_in_words() {
        let es = labelling("/read?staff=Corni+in+Es");
        assert!(
            es.meaning.contains("Horn in E-flat") && es.meaning.contains("major sixth lower"),
            "{}",
            es.meaning
        );
        assert!(es.problem.is_none());
    }

    #[test]
    fn what_drums_do_follows_what_is_printed() {
        let drums = |rest: &str| labelling(&format!("/read?staff=Timpani+in+D,+A{rest}"));
        for (rest, meaning) in [
            // Where the label names other notes than C and G, these stand for them, all others for themselves.
            ("&notes=C3.G2", "Timpani in D and A — sounds a major second higher"),
            ("&notes=D3.A2", "Timpani in D and A — sounds as written"),
            ("&notes=C3.A2", "Timpani in D and A — sounds as written"),
            // Before anything is printed it may still be either.
            ("", "Timpani in D and A"),
            ("&notes=-", "Timpani in D and A"),
            ("&reads=timp_old_0_0", "Timpani in D and A — sounds as written"),
            ("&reads=timp_old_0_0&notes=C3.G2", "Timpani in D and A — sounds as written"),
        ] {
            assert_eq!(drums(rest).meaning, meaning, "{rest}");
        }
        let changed = labelling("/read?staff=Timpani+in+D,+A+muta+in+C,+F&notes=D3.A2").meaning;
        assert_eq!(changed.matches("sounds as written").count(), 2, "{changed}");
        assert_eq!(labelling("/read?staff=Timpani").meaning, "Timpani — sounds as written");
    }

    #[test]
    fn another_reading_of_the_same_name_is_told_by_its_reason() {
        let aside = labelling("/read?staff=Timpani+in+D,+A&notes=C3.G2").aside();
        assert!(aside.ends_with("also: Timpani in D and A (the notes are printed as they sound)"), "{aside}");
        let aside = labelling("/read?staff=Timpani+in+D,+A&notes=C3.G2&reads=timp_old_0_0").aside();
        assert!(aside.ends_with("also: Timpani in D and A (the usual reading of this label)"), "{aside}");
    }

    #[test]
    fn the_meaning_is_of_the_clef_and_the_system_that_hold() {
        let bass = |rest: &str| labelling(&format!("/read?staff=Clarinetto+basso+in+B{rest}")).meaning;
        assert!(bass("").ends_with("sounds a major ninth lower"), "{}", bass(""));
        assert!(bass("&clef=F4").ends_with("sounds a major second lower"), "{}", bass("&clef=F4"));
    }

    #[test]
    fn what_the_trade_leaves_open_is_one_tap_away_and_back() {
        let open = labelling("/read?staff=Corni+in+B");
        assert!(open.assumed.is_some());
        let other = open.others.first().unwrap();
        let choice = other.choice.unwrap();
        let link = format!(
            "/read?staff=Corni+in+B&reads=horn_{}_{}",
            choice.transposition.0.steps, choice.transposition.0.semitones
        );
        let chosen = labelling(&link);
        assert!(chosen.meaning.starts_with(&other.name), "{} / {}", chosen.meaning, other.name);
        assert!(chosen.others.iter().any(|other| other.choice.is_none()));
    }

    #[test]
    fn every_player_has_the_other_readings_of_his_own_crook() {
        let link = "/read?staff=Corno+I+in+B,+Corno+II+in+C&players=2&player=2";
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        let mut document = Document::new(*page);
        document.select_on(0, 1, None);
        let of = |document: &Document| Labelling::of(&View::of(document.page()), document.page());
        let second = of(&document);
        assert_eq!(second.meaning.matches("Horn in C").count(), 1, "{}", second.meaning);
        let alto = second.others.iter().find(|other| other.name.starts_with("Horn in C alto")).unwrap();
        document.choose_reading(alto.choice);
        let (first, chosen) = (document.page().passage.staves()[0].choice, of(&document));
        assert_eq!(first, None, "the first player keeps his crook");
        assert!(chosen.meaning.starts_with("Horn in C alto"), "{}", chosen.meaning);
        let back = chosen.others.iter().find(|other| other.choice.is_none()).unwrap();
        document.choose_reading(back.choice);
        assert_eq!(of(&document), second);
        document.select_on(0, 0, None);
        let first = of(&document);
        assert!(first.others.iter().any(|other| other.name.starts_with("Horn in B-flat alto")));
        assert!(!first.others.iter().any(|other| other.name.starts_with("Horn in C alto")));
    }

    #[test]
    fn a_crook_is_chosen_where_the_key_cannot_be_read() {
        let unread = labelling("/read?staff=Corni+in+Z");
        assert!(unread.problem.unwrap().contains("“Z” names no key"));
        assert_eq!(unread.meaning, "");
        assert!(unread.others.iter().any(|other| other.name == "Horn in E-flat"));
        let chosen = labelling("/read?staff=Corni+in+Z&players=2&reads=horn_-5_-9");
        assert!(chosen.meaning.starts_with("Horn in E-flat"), "{}", chosen.meaning);
        assert_eq!(chosen.problem, None);
    }

    #[test]
    fn the_label_is_that_of_the_selected_staff() {
        assert_eq!(labelling("/read?staff=Flauti&staff=Fagotti&on=2").label, "Fagotti");
    }

    #[test]
    fn a_label_not_understood_says_which_word() {
        let odd = labelling("/read?staff=Xyzzyq");
        assert!(odd.problem.unwrap().contains("Xyzzyq"));
    }
}
