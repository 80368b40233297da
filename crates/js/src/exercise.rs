//! The calls for exercises: making one, asking its questions, marking answers.

use crate::problem::{Code, Problem, quoted};
use crate::request::{bass_notation, first_staff, parse, scheme};
use crate::value::{Fields, Value, wrong_type};
use crookwise_practice::exercise::MOST_QUESTIONS;
use crookwise_practice::{
    Answer, AskedStaff, Edition, Exercise, Helps, Kind, Marking, Material, NoteRange, QuestionSound, Spot,
    Time, Which,
};
use crookwise_score::{ChangeTo, Event, ResolvedStaff, SignatureSource};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Clef, Signature, Sounding};
use data_encoding::BASE64URL_NOPAD;
use serde::Serialize;

/// The fields a staff of an exercise may have.
pub const STAFF_FIELDS: [&str; 6] = ["label", "clef", "bassNotation", "scheme", "muta", "pair"];

/// A question as the caller gets it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Question {
    /// The kind.
    pub kind: &'static str,
    /// The staves it shows, from the top.
    pub staves: Vec<Staff>,
    /// The staff, column and player asked about, from 0.
    pub at: [usize; 3],
    /// The key of the movement there.
    pub movement_key: Option<String>,
    /// What shall sound, where it is asked what must be written.
    pub given: Option<String>,
    /// The instrument in hand.
    pub in_hand: Option<String>,
    /// What to choose from; empty for a free answer.
    pub choices: Vec<String>,
    /// The right answer.
    pub right: String,
    /// What is right as well.
    pub also: Vec<String>,
    /// What is to be heard, note by note.
    pub heard: Vec<HeardNote>,
    /// The whole question as text, equal on every machine.
    pub canonical: String,
}

/// A staff of a question.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Staff {
    /// As the score prints it.
    pub label: String,
    /// The words beside the label, where it leaves something open.
    pub shown: Vec<String>,
    /// Its clef.
    pub clef: String,
    /// The octave mark at the clef.
    pub clef_octave: i8,
    /// The sharps (positive) or flats (negative) of its signature.
    pub signature: i32,
    /// What changes in its course.
    pub changes: Vec<Change>,
    /// For each player what is printed in each column; null for a rest or a gap.
    pub notes: Vec<Vec<Option<String>>>,
}

/// What changes in the course of a staff.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Change {
    /// The column before which it stands.
    pub column: usize,
    /// The player it is for, from 0; null for all.
    pub player: Option<usize>,
    /// As it is printed: "muta in Es"; a clef or a signature by its name.
    pub text: String,
}

/// A note to be heard.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HeardNote {
    /// Its staff.
    pub staff: usize,
    /// Its column.
    pub column: usize,
    /// What sounds.
    pub sounding: String,
    /// Cents that it is heard above (positive) or below the tuning.
    pub cents: f64,
}

/// A mark.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Mark {
    /// Whether a musician would accept the answer.
    pub right: bool,
    /// The mistakes that explain a wrong one.
    pub mistakes: Vec<&'static str>,
}

/// Makes an exercise: the text is what a link carries.
///
/// # Errors
/// The first field that is missing, of a wrong type or not understood; [`Code::Exercise`] where it cannot be asked.
pub fn make(fields: &(impl Fields + ?Sized)) -> Result<String, Problem> {
    let kinds = fields.get("kinds").list("kinds")?;
    let kinds = kinds.into_iter().map(kind).collect::<Result<Vec<_>, _>>()?;
    let staves = fields.get("staves").list("staves")?;
    let staves = staves.into_iter().map(staff).collect::<Result<Vec<_>, _>>()?;
    let keys = fields.get("keys").list("keys")?.into_iter();
    let keys = keys
        .map(|key| parse(&key.required_text("keys")?, Code::MovementKey, "keys"))
        .collect::<Result<Vec<_>, _>>()?;
    let whole = |name, range, sentence: &str| fields.get(name).whole(name, Code::Exercise, range, sentence);
    let most = i32::from(MOST_QUESTIONS);
    let questions =
        whole("questions", (1, most), "questions must be a whole number from 1 to 60")?.unwrap_or(10);
    let seed = whole("seed", (0, i32::MAX), "seed must be a whole number from 0 to 2147483647")?.unwrap_or(1);
    let seconds = |name| whole(name, (1, 3600), "a time must be a whole number of seconds from 1 to 3600");
    let time = match (seconds("secondsEach")?, seconds("secondsAll")?) {
        (Some(each), _) => Time::Each(short(each)),
        (None, Some(all)) => Time::All(short(all)),
        (None, None) => Time::Free,
    };
    let partial = |name| whole(name, (2, 24), "a partial must be a whole number from 2 to 24");
    let range = match (partial("lowestPartial")?, partial("highestPartial")?) {
        (None, None) => NoteRange::Usual,
        (low, high) => NoteRange::Partials(byte(low.unwrap_or(2)), byte(high.unwrap_or(16))),
    };
    let exercise = Exercise {
        title: String::new(),
        edition: Edition::NOW,
        kinds: if kinds.is_empty() { vec![Kind::Sounds] } else { kinds },
        staves,
        material: if fields.get("phrases").flag("phrases")? {
            Material::Phrases(Vec::new())
        } else {
            Material::Notes
        },
        range,
        keys,
        in_hand: fields.get("inHand").text("inHand")?,
        helps: Helps::default(),
        choices: fields.get("choices").flag("choices")?,
        questions: byte(questions),
        time,
        marking: Marking {
            enharmonics: fields.get("enharmonics").flag("enharmonics")?,
            octave: !fields.get("anyOctave").flag("anyOctave")?,
        },
        seed: u32::try_from(seed).unwrap_or(1),
    };
    questions_of(&exercise)?;
    Ok(BASE64URL_NOPAD.encode(&exercise.pack()))
}

/// The questions of an exercise, the same everywhere.
///
/// # Errors
/// [`Code::Exercise`] where the text is none.
pub fn ask(text: Value) -> Result<Vec<Question>, Problem> {
    let exercise = unpacked(text)?;
    Ok(questions_of(&exercise)?.iter().map(Question::of).collect())
}

/// Marks an answer to a question, counted from 0.
///
/// # Errors
/// [`Code::Exercise`], [`Code::Question`] and [`Code::Answer`].
pub fn mark(text: Value, question: Value, answer: Value) -> Result<Mark, Problem> {
    let exercise = unpacked(text)?;
    let questions = questions_of(&exercise)?;
    let last = i32::try_from(questions.len().saturating_sub(1)).unwrap_or(0);
    let sentence = format!("question must be a whole number from 0 to {last}");
    let number = question.whole("question", Code::Question, (0, last), &sentence)?;
    let asked = number.and_then(|number| questions.get(usize::try_from(number).ok()?));
    let asked = asked.ok_or(Problem { code: Code::Question, field: "question", sentence })?;
    let given = answer.required_text("answer")?;
    let given: Answer = parse(&given, Code::Answer, "answer")?;
    let mark = asked.mark(&given, exercise.marking);
    Ok(Mark {
        right: mark.right,
        mistakes: mark.mistakes().into_iter().map(crookwise_practice::Mistake::id).collect(),
    })
}

fn kind(value: Value) -> Result<Kind, Problem> {
    let word = value.required_text("kinds")?;
    Kind::ALL.into_iter().find(|kind| kind.id() == word).ok_or_else(|| {
        let known: Vec<&str> = Kind::ALL.iter().map(|kind| kind.id()).collect();
        let sentence = format!("kinds are among {}, not {}", known.join(", "), quoted(&word));
        Problem { code: Code::Kinds, field: "kinds", sentence }
    })
}

fn staff(value: Value) -> Result<AskedStaff, Problem> {
    match value {
        Value::Text(label) => Ok(AskedStaff::of(&label)),
        Value::Object(fields) => {
            let get = |name: &'static str| {
                let found = fields.iter().find(|(known, _)| *known == name);
                found.map_or(Value::Missing, |(_, value)| value.clone())
            };
            let mut staff = AskedStaff::of(&get("label").required_text("label")?);
            staff.settings.clef = match get("clef").text("clef")? {
                Some(word) => Some(parse(&word, Code::Clef, "clef")?),
                None => None,
            };
            staff.settings.bass = bass_notation(get("bassNotation").text("bassNotation")?)?;
            staff.settings.scheme = match get("scheme").text("scheme")? {
                Some(word) => Some(scheme(&word, &first_staff(&staff.label, Code::Label, "label")?)?),
                None => None,
            };
            staff.muta = get("muta").text("muta")?;
            staff.pair = get("pair").flag("pair")?;
            Ok(staff)
        }
        other => Err(wrong_type("staves", "a string or an object", other.kind())),
    }
}

fn unpacked(text: Value) -> Result<Exercise, Problem> {
    let text = text.required_text("exercise")?;
    let bytes = BASE64URL_NOPAD.decode(text.as_bytes()).ok();
    let exercise = bytes.and_then(|bytes| Exercise::unpack(&bytes, None).ok());
    exercise.ok_or_else(|| Problem {
        code: Code::Exercise,
        field: "exercise",
        sentence: format!("exercise: {} is no exercise, or one about a passage", quoted(&text)),
    })
}

fn questions_of(exercise: &Exercise) -> Result<Vec<crookwise_practice::Question>, Problem> {
    exercise.questions().map_err(|error| Problem {
        code: Code::Exercise,
        field: "exercise",
        sentence: error.to_string(),
    })
}

fn short(number: i32) -> u16 {
    u16::try_from(number).unwrap_or(u16::MAX)
}

fn byte(number: i32) -> u8 {
    u8::try_from(number).unwrap_or(u8::MAX)
}

impl Question {
    fn of(question: &crookwise_practice::Question) -> Self {
        let page = &question.passage;
        Self {
            kind: question.kind.id(),
            staves: (0..page.staves().len()).filter_map(|at| Staff::of(question, at)).collect(),
            at: [question.at.staff, question.at.column, question.at.player],
            movement_key: page.movement_at(question.at.column).map(|key| key.to_string()),
            given: question.given.map(|given| given.to_string()),
            in_hand: question.in_hand.clone(),
            choices: question.choices.iter().map(ToString::to_string).collect(),
            right: question.right.to_string(),
            also: question.also.iter().map(ToString::to_string).collect(),
            heard: heard(question),
            canonical: question.canonical(),
        }
    }
}

impl Staff {
    fn of(question: &crookwise_practice::Question, at: usize) -> Option<Self> {
        let page = &question.passage;
        let staff = page.staves().get(at)?;
        let resolved = ResolvedStaff::of(page, at, DecodeOptions::default());
        let place = resolved.place_at(0, 0);
        let clef = place.map_or(Clef::TREBLE, |place| place.habits.clef);
        let notes = (0..staff.players()).map(|player| {
            let printed = |column| match page.event(at, column, player) {
                Some(Event::Note(printed)) => Some(printed.to_string()),
                _ => None,
            };
            (0..page.columns().len()).map(printed).collect()
        });
        Some(Self {
            label: staff.label.clone(),
            shown: question.shown(at).iter().map(ToString::to_string).collect(),
            clef: clef.to_string(),
            clef_octave: clef.octave(),
            signature: place.map_or(0, |place| place.signature.0),
            changes: staff.changes().iter().map(Change::of).collect(),
            notes: notes.collect(),
        })
    }
}

impl Change {
    fn of(change: &crookwise_score::Change) -> Self {
        let text = match &change.to {
            ChangeTo::Label(label) => label.clone(),
            ChangeTo::Clef(clef) => clef.to_string(),
            ChangeTo::Signature(SignatureSource::Typed(signature)) => signature.words(),
            ChangeTo::Signature(SignatureSource::None) => Signature::NONE.words(),
            ChangeTo::Signature(SignatureSource::Movement) => "signature of the movement".to_owned(),
        };
        Self { column: change.column, player: change.player, text }
    }
}

/// What is heard, note by note: a page, or one note twice.
fn heard(question: &crookwise_practice::Question) -> Vec<HeardNote> {
    let note = |at: Spot, sounding: Sounding, cents| HeardNote {
        staff: at.staff,
        column: at.column,
        sounding: sounding.to_string(),
        cents,
    };
    match &question.heard {
        Some(QuestionSound::Page(played)) => {
            played.iter().map(|one| note(one.at, one.sounding, 0.0)).collect()
        }
        Some(QuestionSound::Two { natural }) => {
            let Some(reading) = question.reading() else { return Vec::new() };
            let drift = reading.making.and_then(|making| making.drift).unwrap_or_default();
            let two = if *natural == Which::First { [drift, 0.0] } else { [0.0, drift] };
            two.map(|cents| note(question.at, reading.sounding, cents)).into()
        }
        None => Vec::new(),
    }
}
