//! What can be chosen for an exercise, and what the choice changes in it.

use crate::state::list_item::ListItem;
use crate::words::{self, Names};
use crookwise_practice::{AskedStaff, Exercise, Helps, Kind, Material, NoteRange, Style, Time};
use crookwise_theory::key::Mode;
use crookwise_theory::{Clef, Key};

/// Something that is on or off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Switch {
    /// A kind of question.
    Kind(Kind),
    /// A style of phrases.
    Style(Style),
    /// Something shown beside the question.
    Help(Help),
    /// Answers are chosen among a few.
    Choices,
    /// Another spelling is right too.
    Enharmonics,
    /// The octave must be right.
    Octave,
}

/// Something shown beside the question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Help {
    /// The label in plain words.
    Label,
    /// The interval.
    Interval,
    /// What written C sounds.
    SoundingC,
    /// The clef to imagine.
    Clef,
    /// The name of the printed note.
    Name,
    /// The series.
    Series,
}

impl Help {
    /// All of them.
    pub const ALL: [Self; 6] =
        [Self::Label, Self::Interval, Self::SoundingC, Self::Clef, Self::Name, Self::Series];

    const fn name(self) -> &'static str {
        match self {
            Self::Label => words::practise::HELP_LABEL,
            Self::Interval => words::practise::HELP_INTERVAL,
            Self::SoundingC => words::practise::HELP_SOUNDING_C,
            Self::Clef => words::practise::HELP_CLEF,
            Self::Name => words::practise::HELP_NAME,
            Self::Series => words::practise::HELP_SERIES,
        }
    }

    const fn of(self, helps: &mut Helps) -> &mut bool {
        match self {
            Self::Label => &mut helps.label,
            Self::Interval => &mut helps.interval,
            Self::SoundingC => &mut helps.sounding_c,
            Self::Clef => &mut helps.clef,
            Self::Name => &mut helps.name,
            Self::Series => &mut helps.series,
        }
    }
}

impl Switch {
    /// Whether it is on.
    #[must_use]
    pub fn is_on(self, exercise: &Exercise) -> bool {
        match self {
            Self::Kind(kind) => exercise.kinds.contains(&kind),
            Self::Style(style) => {
                matches!(&exercise.material, Material::Phrases(styles) if styles.contains(&style))
            }
            Self::Help(help) => *help.of(&mut exercise.helps.clone()),
            Self::Choices => exercise.choices,
            Self::Enharmonics => exercise.marking.enharmonics,
            Self::Octave => exercise.marking.octave,
        }
    }

    /// Turns it. The last kind of question stays.
    pub fn turn(self, exercise: &mut Exercise) {
        match self {
            Self::Kind(kind) => {
                let others: Vec<Kind> =
                    exercise.kinds.iter().copied().filter(|other| *other != kind).collect();
                if others.len() == exercise.kinds.len() {
                    exercise.kinds.push(kind);
                } else if !others.is_empty() {
                    exercise.kinds = others;
                }
            }
            Self::Style(style) => {
                if let Material::Phrases(styles) = &mut exercise.material {
                    match styles.iter().position(|other| *other == style) {
                        Some(at) => {
                            styles.remove(at);
                        }
                        None => styles.push(style),
                    }
                }
            }
            Self::Help(help) => {
                let on = help.of(&mut exercise.helps);
                *on = !*on;
            }
            Self::Choices => exercise.choices = !exercise.choices,
            Self::Enharmonics => exercise.marking.enharmonics = !exercise.marking.enharmonics,
            Self::Octave => exercise.marking.octave = !exercise.marking.octave,
        }
    }
}

/// A list to choose from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum List {
    /// Where the notes come from.
    Material,
    /// The key of the movement.
    Key,
    /// How long there is.
    Time,
    /// Which notes.
    Range,
}

impl List {
    /// What is chosen.
    #[must_use]
    pub fn value(self, exercise: &Exercise) -> String {
        match self {
            Self::Material => match exercise.material {
                Material::Notes => "notes",
                Material::Phrases(_) => "phrases",
                Material::Passage(_) => "passage",
            }
            .into(),
            Self::Key => exercise.keys.first().map(ToString::to_string).unwrap_or_default(),
            Self::Time => match exercise.time {
                Time::Free => String::new(),
                Time::Each(seconds) => format!("each {seconds}"),
                Time::All(seconds) => format!("all {seconds}"),
            },
            Self::Range => match exercise.range {
                NoteRange::Usual => "usual".into(),
                NoteRange::Partials(low, high) => format!("{low} {high}"),
                NoteRange::Written(low, high) => format!("written {low} {high}"),
            },
        }
    }

    /// What can be chosen, what is chosen among it.
    #[must_use]
    pub fn items(self, exercise: &Exercise, names: Names) -> Vec<ListItem> {
        let mut items: Vec<ListItem> = match self {
            Self::Material => vec![
                ListItem::new("notes", words::exercise::SINGLE_NOTES),
                ListItem::new("phrases", words::exercise::PHRASES_AS_PARTS_HAVE_THEM),
                ListItem::new("passage", words::exercise::THE_PAGE_THAT_STANDS_IN_READ),
            ],
            Self::Key => {
                let keys = [Mode::Major, Mode::Minor].into_iter().flat_map(Key::common);
                let keys = keys.map(|key| ListItem::new(key.to_string(), names.key(key)));
                core::iter::once(ListItem::new("", words::exercise::KEYS_USUAL_FOR_THE_STAFF))
                    .chain(keys)
                    .collect()
            }
            Self::Time => {
                let each = [5, 10, 15, 20, 30, 60]
                    .map(|seconds| (format!("each {seconds}"), words::exercise::seconds_each(seconds)));
                let all = [60, 120, 300, 600]
                    .map(|seconds| (format!("all {seconds}"), words::exercise::minutes_in_all(seconds / 60)));
                let all = each.into_iter().chain(all).map(|(value, text)| ListItem::new(value, text));
                core::iter::once(ListItem::new("", words::exercise::AS_LONG_AS_IT_TAKES)).chain(all).collect()
            }
            Self::Range => vec![
                ListItem::new("usual", words::exercise::AS_PARTS_USE_THEM),
                ListItem::new("4 8", words::exercise::PARTIALS_4_TO_8),
                ListItem::new("4 12", words::exercise::PARTIALS_4_TO_12),
                ListItem::new("8 16", words::exercise::PARTIALS_8_TO_16),
                ListItem::new("2 16", words::exercise::PARTIALS_2_TO_16),
            ],
        };
        // What a link brought and the list does not know stays as it is.
        let value = self.value(exercise);
        if !items.iter().any(|item| item.value == value) {
            items.push(ListItem::new(value.clone(), value));
        }
        items
    }

    /// Chooses a value; `page` is what stands in Read.
    pub fn choose(self, exercise: &mut Exercise, value: &str, page: &crookwise_score::Passage) {
        match self {
            Self::Material => {
                exercise.material = match value {
                    "phrases" => Material::Phrases(Vec::new()),
                    "passage" => Material::Passage(Box::new(page.clone())),
                    _ => Material::Notes,
                }
            }
            Self::Key => exercise.keys = value.parse().into_iter().collect(),
            Self::Time => {
                let seconds = |text: &str| text.parse().ok();
                exercise.time = match value.split_once(' ') {
                    Some(("each", text)) => seconds(text).map_or(Time::Free, Time::Each),
                    Some(("all", text)) => seconds(text).map_or(Time::Free, Time::All),
                    _ => Time::Free,
                }
            }
            Self::Range => {
                let ends = value
                    .split_once(' ')
                    .and_then(|(low, high)| Some((low.parse().ok()?, high.parse().ok()?)));
                exercise.range = ends.map_or(NoteRange::Usual, |(low, high)| NoteRange::Partials(low, high));
            }
        }
    }
}

/// The clefs a staff can be asked in; the first is the usual one of its instrument.
#[must_use]
pub fn clefs() -> Vec<ListItem> {
    let clefs = Clef::ALL.map(|clef| ListItem::new(clef.to_string(), words::exercise::clef(clef)));
    core::iter::once(ListItem::new("", words::exercise::USUAL_CLEF)).chain(clefs).collect()
}

/// An exercise to begin with.
#[must_use]
pub fn first(seed: u32) -> Exercise {
    Exercise { staves: vec![AskedStaff::of("Corni in Es")], seed, ..Exercise::default() }
}

/// The first questions of an exercise in words, or why it cannot be asked.
///
/// # Errors
/// A sentence.
pub fn preview(exercise: &Exercise, most: usize) -> Result<Vec<crookwise_practice::Question>, String> {
    let questions = exercise.questions().map_err(|error| error.to_string())?;
    Ok(questions.into_iter().take(most).collect())
}

/// What a switch is called.
#[must_use]
pub fn name(switch: Switch) -> &'static str {
    match switch {
        Switch::Kind(kind) => words::practise::kind(kind),
        Switch::Style(style) => words::practise::style(style),
        Switch::Help(help) => help.name(),
        Switch::Choices => words::exercise::ANSWERS_TO_CHOOSE_FROM,
        Switch::Enharmonics => words::exercise::ANOTHER_SPELLING_IS_RIGHT_TOO,
        Switch::Octave => words::exercise::THE_OCTAVE_MUST_BE_RIGHT,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_things_of_a_list_are_called_alike() {
        let exercise = first(1);
        for list in [
            clefs(),
            List::Time.items(&exercise, Names::default()),
            List::Range.items(&exercise, Names::default()),
        ] {
            let texts: std::collections::BTreeSet<_> = list.iter().map(|item| item.text.clone()).collect();
            assert_eq!(texts.len(), list.len(), "{texts:?}");
        }
        assert!(clefs().iter().any(|item| item.text == "baritone, F on line 3"));
        assert_eq!(words::exercise::minutes_in_all(1), "1 minute in all");
        assert_eq!(words::exercise::minutes_in_all(5), "5 minutes in all");
        assert_eq!(words::exercise::time_in_minutes(1), "Time: 1 minute");
    }

    #[test]
    fn every_switch_turns_and_turns_back() {
        let mut exercise = first(1);
        exercise.material = Material::Phrases(Vec::new());
        let kinds = Kind::ALL.map(Switch::Kind);
        let styles = Style::ALL.map(Switch::Style);
        let helps = Help::ALL.map(Switch::Help);
        let others = [Switch::Choices, Switch::Enharmonics, Switch::Octave];
        for switch in kinds.into_iter().skip(1).chain(styles).chain(helps).chain(others) {
            let before = switch.is_on(&exercise);
            switch.turn(&mut exercise);
            assert_ne!(switch.is_on(&exercise), before, "{switch:?}");
            switch.turn(&mut exercise);
            assert_eq!(switch.is_on(&exercise), before, "{switch:?}");
        }
        Switch::Kind(Kind::Sounds).turn(&mut exercise);
        assert_eq!(exercise.kinds, [Kind::Sounds]);
    }

    #[test]
    fn every_value_of_every_list_is_chosen() {
        let page = crookwise_score::Passage::of_staff("Corni in Es");
        for list in [List::Material, List::Key, List::Time, List::Range] {
            let mut exercise = first(1);
            for item in list.items(&exercise, Names::default()) {
                list.choose(&mut exercise, &item.value, &page);
                assert_eq!(list.value(&exercise), item.value);
            }
        }
    }
}
