//! What a caller asks about one note: every field checked, with a sentence for what is wrong.

use crate::problem::{Code, Problem, quoted};
use crate::value::{Fields, Value};
use core::fmt::Display;
use core::str::FromStr;
use crookwise_theory::label::{DecodeOptions, Mechanism, StaffLabel, decode};
use crookwise_theory::tables::TEMPERAMENTS;
use crookwise_theory::{
    BassNotation, Clef, Habits, Intonation, Key, Pitch, Scheme, Situation, Temperament, Tonic, TunedOn,
    Tuning,
};

/// A question about one note, checked and complete.
#[derive(Clone, Debug)]
pub struct Request {
    /// The staff, as its label names it; the mechanism as asked for.
    pub staff: StaffLabel,
    /// The instrument in the reader's hands.
    pub in_hand: Option<StaffLabel>,
    /// Clef, bass notation and system.
    pub habits: Habits,
    /// The key of the movement.
    pub movement: Option<Key>,
    /// Temperament, reference pitch, and where the brass tunes.
    pub intonation: Intonation,
    /// The printed or the sounding pitch.
    pub pitch: Pitch,
}

impl Request {
    /// Reads a request; `pitch` names the field with the note, "printed" or "sounding".
    ///
    /// # Errors
    /// The first field that is missing, of a wrong type or not understood.
    pub fn read(fields: &(impl Fields + ?Sized), pitch: &'static str) -> Result<Self, Problem> {
        let text = |name| fields.get(name).text(name);
        let label = fields.get("label").required_text("label")?;
        let mut staff = first_staff(&label, Code::Label, "label")?;
        let note = fields.get(pitch).required_text(pitch)?;
        let note = parse(&note, Code::Pitch, pitch)?;
        if let Some(word) = text("mechanism")? {
            staff.mechanism = Some(one_of(
                &word,
                &[Mechanism::Natural, Mechanism::Valves].map(|mechanism| (mechanism.id(), mechanism)),
                Code::Mechanism,
                "mechanism",
            )?);
        }
        let bass = bass_notation(text("bassNotation")?)?;
        let scheme = match text("scheme")? {
            Some(word) => Some(scheme(&word, &staff)?),
            None => None,
        };
        let movement = match text("movementKey")? {
            Some(word) => Some(parse(&word, Code::MovementKey, "movementKey")?),
            None => None,
        };
        let in_hand = match text("as")? {
            Some(label) => Some(first_staff(&label, Code::As, "as")?),
            None => None,
        };
        let clef = clef(fields, staff.instrument.clef)?;
        Ok(Self {
            habits: Habits { clef, bass, scheme, at_pitch: false },
            intonation: intonation(fields)?,
            pitch: note,
            staff,
            in_hand,
            movement,
        })
    }

    /// Everything around the note. The staff is taken without a signature.
    #[must_use]
    pub fn situation(&self) -> Situation<'_> {
        Situation {
            movement: self.movement,
            in_hand: self.in_hand.as_ref(),
            intonation: self.intonation,
            ..Situation::of(&self.staff, self.habits)
        }
    }
}

/// Old or new bass-clef notation, where it is named.
pub(crate) fn bass_notation(word: Option<String>) -> Result<Option<BassNotation>, Problem> {
    let known = [BassNotation::Old, BassNotation::New].map(|notation| (notation.id(), notation));
    word.map(|word| one_of(&word, &known, Code::BassNotation, "bassNotation")).transpose()
}

/// The options of `decodeLabel`.
///
/// # Errors
/// Where the year is no whole number from 1 to 9999.
pub fn decode_options(fields: &(impl Fields + ?Sized)) -> Result<DecodeOptions, Problem> {
    let sentence = "year must be a whole number from 1 to 9999, such as 1803";
    let year = fields.get("year").whole("year", Code::Year, (1, 9999), sentence)?;
    Ok(DecodeOptions { year })
}

/// The first or only staff a label names.
pub(crate) fn first_staff(label: &str, code: Code, field: &'static str) -> Result<StaffLabel, Problem> {
    let decoded = decode(label, DecodeOptions::default());
    let problem = decoded.problem;
    if let Some(staff) = decoded.staves.first().filter(|staff| !staff.is_pitched()) {
        let sentence = format!("{field}: {} has no pitch", quoted(&staff.name()));
        return Err(Problem { code, field, sentence });
    }
    decoded.staves.into_iter().next().ok_or_else(|| Problem {
        code,
        field,
        sentence: match problem {
            Some(problem) => format!("{field}: {problem}"),
            None => format!("{field}: {} names no staff", quoted(label)),
        },
    })
}

pub(crate) fn parse<T: FromStr<Err: Display>>(
    text: &str,
    code: Code,
    field: &'static str,
) -> Result<T, Problem> {
    text.parse().map_err(|error| Problem {
        code,
        field,
        sentence: format!("{field}: {} is not understood: {error}", quoted(text)),
    })
}

/// One word of a closed list.
fn one_of<T: Copy>(word: &str, known: &[(&str, T)], code: Code, field: &'static str) -> Result<T, Problem> {
    known.iter().find(|(id, _)| *id == word).map(|(_, value)| *value).ok_or_else(|| {
        let ids: Vec<String> = known.iter().map(|(id, _)| format!("“{id}”")).collect();
        let sentence = format!("{field} is one of {}, not {}", ids.join(", "), quoted(word));
        Problem { code, field, sentence }
    })
}

/// A system of notation, one of the instrument's own. An instrument with only one takes any that is known.
pub(crate) fn scheme(word: &str, staff: &StaffLabel) -> Result<Scheme, Problem> {
    let scheme: Scheme = parse(word, Code::Scheme, "scheme")?;
    let own = Scheme::of(staff.instrument);
    if own.is_empty() || own.contains(&scheme) {
        return Ok(scheme);
    }
    let ids: Vec<String> = own.iter().map(|scheme| format!("“{}”", scheme.id())).collect();
    let name = staff.instrument.english;
    let sentence = format!("scheme: the {name} is written by {}, not by {}", ids.join(", "), quoted(word));
    Err(Problem { code: Code::Scheme, field: "scheme", sentence })
}

fn clef(fields: &(impl Fields + ?Sized), usual: Clef) -> Result<Clef, Problem> {
    let plain = match fields.get("clef").text("clef")? {
        Some(word) => parse(&word, Code::Clef, "clef")?,
        None => usual,
    };
    let sentence = "clefOctave must be a whole number from -2 (two octaves lower) to 2 (two octaves higher)";
    let mark = fields.get("clefOctave").whole("clefOctave", Code::ClefOctave, (-2, 2), sentence)?;
    let octave = mark.and_then(|mark| i8::try_from(mark).ok()).unwrap_or(0);
    Clef::new(plain.sign, plain.line(), octave).map_err(|error| Problem {
        code: Code::ClefOctave,
        field: "clefOctave",
        sentence: format!("clefOctave: {error}"),
    })
}

fn intonation(fields: &(impl Fields + ?Sized)) -> Result<Intonation, Problem> {
    let usual = Tuning::default();
    let (low, high) = Tuning::A4_RANGE;
    let a4 = fields.get("a4").number("a4")?.unwrap_or(usual.a4);
    // NaN is in no range.
    if !(low..=high).contains(&a4) {
        let sentence = format!("a4 is the frequency of A4 in Hz, from {low} to {high}, not {a4}");
        return Err(Problem { code: Code::A4, field: "a4", sentence });
    }
    let temperament = match fields.get("temperament").text("temperament")? {
        Some(id) => Temperament::by_id(&id).ok_or_else(|| {
            let ids: Vec<String> = TEMPERAMENTS.iter().map(|known| format!("“{}”", known.id)).collect();
            let sentence = format!("temperament is one of {}, not {}", ids.join(", "), quoted(&id));
            Problem { code: Code::Temperament, field: "temperament", sentence }
        })?,
        None => usual.temperament,
    };
    let root = match fields.get("temperamentKey").text("temperamentKey")? {
        Some(word) => parse::<Tonic>(&word, Code::TemperamentKey, "temperamentKey")?,
        None => usual.root,
    };
    let tuned_on = match fields.get("tunedOn").text("tunedOn")? {
        Some(word) => one_of(&word, &[("C", TunedOn::C), ("G", TunedOn::G)], Code::TunedOn, "tunedOn")?,
        None => TunedOn::C,
    };
    Ok(Intonation { tuning: Tuning { temperament, root, a4 }, tuned_on, warmth: None })
}

/// Fields by name and value: what the tests and any native caller hand in.
impl Fields for [(&str, Value)] {
    fn get(&self, name: &'static str) -> Value {
        self.iter().find(|(known, _)| *known == name).map_or(Value::Missing, |(_, value)| value.clone())
    }
}
