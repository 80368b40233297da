//! Sentences of Practise: what is asked, what was wrong, what is right.

use super::names::{Names, alteration_sign, tenths};
use super::{by_clef, interval_with_direction, octaves_further};
use crookwise_practice::course::Source;
use crookwise_practice::{Answer, Helps, Kind, Naming, Question, Shown, Style, Which, shown_of};
use crookwise_score::Passage;
use crookwise_score::chord::Chord;
use crookwise_theory::label::{DecodeOptions, StaffLabel, decode};
use crookwise_theory::{Key, Pitch, Production, Step, Tonic};

/// The name of a kind of question in lists.
#[must_use]
pub const fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Sounds => "What sounds",
        Kind::Writes => "What must be written",
        Kind::InHand => "Read it on another instrument",
        Kind::Label => "What the label says",
        Kind::Partial => "Which partial",
        Kind::Made => "How it is made",
        Kind::Degree => "Which degree of the key",
        Kind::Clef => "Which clef to imagine",
        Kind::Chord => "The chord of several staves",
        Kind::WrongNote => "Find the wrong note in a copy",
        Kind::WrongStaff => "Hear which staff is wrong",
        Kind::Natural => "Hear which is the natural partial",
        Kind::Players => "What two players sound",
    }
}

/// What is asked, in one sentence.
#[must_use]
pub fn prompt(question: &Question, names: Names) -> String {
    match question.kind {
        Kind::Sounds => "What sounds here?".into(),
        Kind::Writes => match question.given {
            Some(sounding) => format!("What must be written, so that {} sounds?", names.note(sounding.0)),
            None => "What must be written?".into(),
        },
        Kind::InHand => {
            let hand = question.in_hand.as_deref().map(|label| instrument(label, names));
            format!("You play {}. Which note do you read?", hand.unwrap_or_default())
        }
        Kind::Label => "What does this label say?".into(),
        Kind::Partial => "Which partial is it?".into(),
        Kind::Made => "How is it made?".into(),
        Kind::Degree => match question.passage.movement_at(question.at.column) {
            Some(key) => format!("Which degree of {} sounds?", names.key(key)),
            None => "Which degree of the key sounds?".into(),
        },
        Kind::Clef => "Which clef do you imagine, and with which signature?".into(),
        Kind::Chord => "Which chord do these staves make?".into(),
        Kind::WrongNote => "The lower staff copies the upper one. Which note is wrong?".into(),
        Kind::WrongStaff => "Listen. Which staff is played wrong?".into(),
        Kind::Natural => "Listen to both. Which is the natural partial, uncorrected?".into(),
        Kind::Players => "What do the players of this staff sound?".into(),
    }
}

/// What stands beside the label of a staff, where it leaves something open; empty where it does not.
#[must_use]
pub fn beside_label(question: &Question, staff: usize, names: Names) -> String {
    said_beside(&question.shown(staff), names)
}

/// What the labels of a page leave open, where nothing is asked: of one staff as it is, of several each by its label.
#[must_use]
pub fn beside_labels(passage: &Passage, names: Names) -> String {
    let several = passage.staves().len() > 1;
    let of = |(at, staff): (usize, &crookwise_score::Staff)| {
        let words = said_beside(&shown_of(passage, at), names);
        let named = if several { format!("{}: {words}", staff.label) } else { words.clone() };
        (!words.is_empty()).then_some(named)
    };
    passage.staves().iter().enumerate().filter_map(of).collect::<Vec<_>>().join("; ")
}

/// The same, as it was found.
#[must_use]
pub fn said_beside(shown: &[Shown], names: Names) -> String {
    let (tonic, key, note) =
        (|key: Tonic| names.key_word(key), |key: Key| names.key(key), |note: Pitch| names.note(note));
    let naming = Naming { tonic: &tonic, key: &key, note: &note };
    shown.iter().map(|one| one.words_by(naming)).collect::<Vec<_>>().join(", ")
}

/// The number of a player at his note, as scores print it.
#[must_use]
pub fn player_mark(number: u32) -> String {
    format!("{}.", crate::words::changes::roman(number))
}

/// What is shown beside the question, as the exercise wishes.
#[must_use]
pub fn helps(question: &Question, helps: Helps, names: Names) -> Vec<String> {
    let mut lines = Vec::new();
    let staff = question.passage.staves().get(question.at.staff);
    let decoded = staff.map(|staff| decode(&staff.label, DecodeOptions::default()));
    let Some(label) = decoded.as_ref().and_then(|decoded| decoded.staves.first()) else { return lines };
    if helps.label && question.kind != Kind::Label {
        lines.push(label.words_by(&|key| names.key_word(key)));
    }
    if helps.interval {
        lines.push(format!("Sounds {}.", interval_with_direction(label.transposition.0)));
    }
    if helps.sounding_c {
        // Of a C it is the answer itself: then G tells as much.
        let is_c = question.reading().is_some_and(|reading| reading.written.0.step == Step::C);
        let written = if is_c { Pitch::natural(Step::G, 4) } else { Pitch::natural(Step::C, 5) };
        let sounds = written + label.transposition.0;
        lines.push(format!("Written {} sounds {}.", names.note(written), names.note(sounds)));
    }
    if let Some(reading) = question.reading().filter(|_| question.given.is_none()) {
        if helps.name {
            lines.push(format!("The printed note is {}.", names.note(reading.printed.0)));
        }
        if helps.clef && question.kind != Kind::Clef {
            lines.push(by_clef(&reading));
        }
        if helps.series && reading.making.is_some() && !matches!(question.kind, Kind::Partial | Kind::Natural)
        {
            let series = "Partials 2 to 16: C3 G3 C4 E4 G4 B♭4 C5 D5 E5 F5 G5 A5 B♭5 B5 C6 (written).";
            lines.push(series.into());
        }
    }
    lines
}

/// Under the button that begins an exercise.
pub const NOTHING_IS_SENT: &str =
    "Nothing is sent anywhere. At the end there is a short code, which you may give to a teacher.";

/// Over the code at the end.
pub const CODE: &str = "The code says which questions were right and which mistakes were made. It is no proof of anything: \
    anybody can write one. It goes nowhere unless you send it.";

/// "7 of 10 right, 2 left out, 4.2 seconds each as a rule"; of one that was stopped, "5 of 10 asked, 3 right, 1 not answered, 5 not reached".
#[must_use]
pub fn score(counts: HowItWent, usual_ms: Option<u32>) -> String {
    let HowItWent { right, done, asked, all, left_out } = counts;
    let head = if asked < all {
        format!("{asked} of {all} asked, {right} right")
    } else {
        format!("{right} of {all} right")
    };
    let some = |count: usize, what: &str| if count > 0 { format!(", {count} {what}") } else { String::new() };
    let time = usual_ms
        .map(|ms| format!(", {} seconds each as a rule", tenths(f64::from(ms) / 1000.0)))
        .unwrap_or_default();
    let (left_out, open) = (some(left_out, "left out"), some(asked.saturating_sub(done), "not answered"));
    let not_reached = some(all.saturating_sub(asked), "not reached");
    format!("{head}{left_out}{open}{not_reached}{time}")
}

/// What an exercise is told by.
#[derive(Clone, Copy, Debug)]
pub struct HowItWent {
    /// How many were right.
    pub right: usize,
    /// How many were answered or left out.
    pub done: usize,
    /// How many were asked.
    pub asked: usize,
    /// How many there are.
    pub all: usize,
    /// How many the reader left out.
    pub left_out: usize,
}

/// An instrument by its label, with its article: "a horn in F".
pub(super) fn instrument(label: &str, names: Names) -> String {
    let decoded = decode(label, DecodeOptions::default());
    let name = decoded
        .staves
        .first()
        .map_or_else(|| label.to_owned(), |staff| staff.name_by(&|key| names.key_word(key)));
    let mut letters = name.chars();
    let small: String =
        letters.next().map(|first| first.to_ascii_lowercase()).into_iter().chain(letters).collect();
    let article = if small.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {small}")
}

/// The same staff with alto or basso said where its key is built in both.
fn with_octave(mut staff: StaffLabel) -> StaffLabel {
    let built =
        staff.crook_family().zip(staff.key).map(|(family, key)| family.in_key(key)).unwrap_or_default();
    if built.len() > 1 {
        let own = built.iter().find(|crook| crook.transposition == staff.transposition);
        staff.octave = staff.octave.or(own.and_then(|crook| crook.octave));
    }
    staff
}

/// An answer as a sentence has it: "degree 5".
#[must_use]
pub fn answer_in_sentence(given: &Answer, question: &Question, names: Names) -> String {
    let said = answer(given, question, names);
    if matches!(given, Answer::Degree(_)) { format!("degree {said}") } else { said }
}

/// An answer, to be chosen or shown.
#[must_use]
pub fn answer(answer: &Answer, question: &Question, names: Names) -> String {
    match answer {
        Answer::Note(note) => names.note(*note),
        Answer::Name(note) => names.tonic(*note),
        Answer::Key(key) => format!("key {key}"),
        Answer::Notes(notes) => notes.iter().map(|note| names.note(*note)).collect::<Vec<_>>().join(" and "),
        Answer::Label(choice) => {
            let label =
                question.passage.staves().first().map(|staff| staff.label.as_str()).unwrap_or_default();
            let decoded = decode(label, DecodeOptions::default());
            match choice.among(&decoded) {
                Some(staff) => with_octave(staff).words_by(&|key| names.key_word(key)),
                None => choice.instrument.id.to_owned(),
            }
        }
        Answer::Partial(Some(number)) => format!("partial {number}"),
        Answer::Partial(None) => "not on the series".into(),
        Answer::Made(production) => made(*production).into(),
        Answer::Degree(degree) => format!("{}{}", alteration_sign(degree.alter), degree.number),
        Answer::Clef { clef, octaves, fifths } => {
            let octaves = octaves_further(*octaves);
            let signature = match fifths {
                0 => "same signature".to_owned(),
                sharps @ 1.. => format!("{sharps}♯ more"),
                flats => format!("{}♭ more", flats.unsigned_abs()),
            };
            format!("{}{octaves}, {signature}", clef.name())
        }
        Answer::Chord(chord) => {
            let chord = Chord { root: chord.root, quality: chord.quality, missing: None, bass: chord.bass };
            chord.name_by(&|note| names.tonic(note))
        }
        Answer::Column(column) => format!("note {}", column + 1),
        Answer::Staff(staff) => question
            .passage
            .staves()
            .get(usize::from(*staff))
            .map_or_else(|| format!("staff {}", staff + 1), |staff| staff.label.clone()),
        Answer::Which(Which::First) => "the first".into(),
        Answer::Which(Which::Second) => "the second".into(),
    }
}

/// How a note is made, as a choice.
#[must_use]
pub fn made(production: Production) -> &'static str {
    production.words()
}

/// The title of a worksheet before anybody has given it one.
pub const WORKSHEET: &str = "Reading transposing parts";

/// A style of phrases.
#[must_use]
pub const fn style(style: Style) -> &'static str {
    match style {
        Style::Fanfare => "Fanfares",
        Style::HornFifths => "Horn fifths",
        Style::Dominant => "Dominant",
        Style::Pedal => "Pedals",
        Style::Octaves => "Octaves of a pair",
        Style::Melody => "High melody",
        Style::Hand => "With the hand",
    }
}

/// Help beside the question: what the label means.
pub const HELP_LABEL: &str = "The label in plain words";
/// Help: how far the sound lies from what is written.
pub const HELP_INTERVAL: &str = "The interval";
/// Help: the key of the instrument.
pub const HELP_SOUNDING_C: &str = "What written C sounds";
/// Help: reading in another clef.
pub const HELP_CLEF: &str = "The clef to imagine";
/// Help: what the printed note is called.
pub const HELP_NAME: &str = "The name of the note";
/// Help: the partials.
pub const HELP_SERIES: &str = "The series";

/// Where a MIDI keyboard is not allowed.
pub const MIDI_REFUSED: &str = "This browser or this device does not let the page hear a MIDI keyboard.";
/// Where there is none.
pub const NO_KEYBOARD: &str = "No MIDI keyboard is connected: connect one, it answers at once.";
/// Where there is one.
pub const KEYBOARD_LISTENS: &str = "Your keyboard answers now.";

/// Over the steps of the course.
pub const COURSE: &str = "Thirteen steps, each with a short lesson, notes to touch and hear, exercises, and scores to look into. \
    Go in order or where you like: what you miss comes back by itself.";
/// Where a fact of a lesson comes from.
#[must_use]
pub fn source(source: &Source) -> String {
    match source {
        Source::CommonPractice => "common practice".into(),
        Source::Memory => "from memory".into(),
        Source::Counted => "counted in open scores".into(),
        Source::Published(name) => name.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::spoken::page;
    use crookwise_practice::course::CourseStep;
    use crookwise_practice::{AskedStaff, Exercise, Marking};
    use std::collections::BTreeMap;

    /// What a question says to who cannot see it.
    fn aloud(question: &Question) -> String {
        let names = Names::default();
        format!("{} {} {:?}", prompt(question, names), page(question, names), question.heard)
    }

    #[test]
    fn choices_say_alto_or_basso_where_a_key_is_built_in_both() {
        let exercise = Exercise {
            kinds: vec![Kind::Label],
            staves: vec![AskedStaff::of("Corni in B")],
            questions: 1,
            ..Exercise::default()
        };
        let question = &exercise.questions().unwrap()[0];
        for (choice, said) in [
            ("label horn 0 0", "Horn in C alto — sounds as written"),
            ("label horn -7 -12", "Horn in C basso — sounds an octave lower"),
            ("label horn -8 -14", "Horn in B-flat basso — sounds a major ninth lower"),
            ("label horn -1 -2", "Horn in B-flat alto — sounds a major second lower"),
            ("label horn -4 -7", "Horn in F — sounds a perfect fifth lower"),
        ] {
            assert_eq!(answer(&choice.parse().unwrap(), question, Names::default()), said);
        }
    }

    #[test]
    fn a_hand_taken_out_for_nothing_is_said_to_be_so() {
        let exercise = Exercise {
            kinds: vec![Kind::Made],
            staves: vec![AskedStaff::of("Corni in Es")],
            questions: 20,
            ..Exercise::default()
        };
        let questions = exercise.questions().unwrap();
        let open = questions.iter().find(|one| one.right == Answer::Made(Production::Open)).unwrap();
        let given = Answer::Made(Production::HandOut);
        let off = open.mark(&given, Marking::default());
        let said = crate::words::mistakes::said(open, &given, &off).unwrap();
        assert_eq!(said, "The hand need not come out: the note is open as the hand lies.");
    }

    #[test]
    fn a_help_is_not_the_answer() {
        let helps = Helps { sounding_c: true, ..Helps::default() };
        let staves = vec![AskedStaff::of("Corni in Es")];
        let exercise = Exercise { staves, questions: 20, ..Exercise::default() };
        let mut met = [false; 2];
        for question in exercise.questions().unwrap() {
            let asked = question.reading().unwrap().printed.0.step;
            let said = super::helps(&question, helps, Names::default());
            let wanted =
                if asked == Step::C { "Written G4 sounds B♭3." } else { "Written C5 sounds E♭4." };
            assert_eq!(said, [wanted]);
            met[usize::from(asked == Step::C)] = true;
        }
        assert_eq!(met, [true, true]);
    }

    #[test]
    fn what_reads_alike_aloud_has_the_same_answers() {
        let mut said: BTreeMap<String, Question> = BTreeMap::new();
        let mut again = 0;
        for exercise in CourseStep::ALL.iter().flat_map(CourseStep::exercises) {
            for seed in core::iter::once(exercise.seed).chain(1..=8) {
                for question in (Exercise { seed, ..exercise.clone() }).questions().unwrap() {
                    let Some(other) = said.get(&aloud(&question)) else {
                        said.insert(aloud(&question), question);
                        continue;
                    };
                    again += 1;
                    for (one, two) in [(other, &question), (&question, other)] {
                        let mut all = core::iter::once(&two.right).chain(&two.also);
                        let same = all.all(|answer| one.is_right(answer, Marking::default()));
                        assert!(same, "{}\n{}\n{}", aloud(one), one.right, two.right);
                    }
                }
            }
        }
        assert!(again > 500, "{again}");
    }

    #[test]
    fn a_page_says_its_changes_its_players_and_what_its_labels_leave_open() {
        let page_of = |staff: AskedStaff, seed: u32| {
            let exercise = Exercise { staves: vec![staff], questions: 1, seed, ..Exercise::default() };
            page(&exercise.questions().unwrap()[0], Names::default())
        };
        let muta = AskedStaff { muta: Some("Corni in Es".into()), ..AskedStaff::of("Corni in C basso") };
        assert!(page_of(muta, 1).contains("(muta in Es), "));
        let pair = AskedStaff { pair: true, ..AskedStaff::of("Corno III in B alto, Corno IV in G") };
        let asked = page_of(pair, 1);
        assert!(asked.contains("(player 3, asked)") || asked.contains("(player 4, asked)"), "{asked}");
        assert!(page_of(AskedStaff::of("Corni in B"), 1).starts_with("Corni in B, basso, treble clef: "));
    }
}
