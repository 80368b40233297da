//! Where JavaScript comes in and goes out: values into [`Value`], replies into objects, problems into `Error`s.

use crate::contract;
use crate::exercise::{self, STAFF_FIELDS};
use crate::planner;
use crate::problem::Problem;
use crate::score;
use crate::value::{Fields, Value, missing, wrong_type};
use js_sys::{Array, ArrayBuffer, Error, JsString, Reflect, Uint8Array};
use serde::Serialize;
use serde_wasm_bindgen::Serializer;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &'static str = include_str!("types.d.ts");

/// Entries of a list that are looked at: more than any field takes, so that a longer one stays wrong. A score has up to 500
/// parts.
const MOST: usize = 501;

/// UTF-16 units of a string that are looked at: more than any field can mean, so that a longer one stays wrong.
const LONGEST: u32 = 2000;

/// What a label at the head of a staff says.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = decodeLabel, skip_typescript)]
pub fn decode_label(text: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let options = object(options, "options", true);
    reply(options.and_then(|options| contract::decode_label(value(text), &options)))
}

/// From paper to sound.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = readNote, skip_typescript)]
pub fn read_note(request: &JsValue) -> Result<JsValue, JsValue> {
    reply(object(request, "request", false).and_then(|request| contract::read_note(&request)))
}

/// From sound to paper.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = writeNote, skip_typescript)]
pub fn write_note(request: &JsValue) -> Result<JsValue, JsValue> {
    reply(object(request, "request", false).and_then(|request| contract::write_note(&request)))
}

/// An exercise as text.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = makeExercise, skip_typescript)]
pub fn make_exercise(options: &JsValue) -> Result<JsValue, JsValue> {
    reply(object(options, "options", false).and_then(|options| exercise::make(&options)))
}

/// The questions of an exercise.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = askExercise, skip_typescript)]
pub fn ask_exercise(text: &JsValue) -> Result<JsValue, JsValue> {
    reply(exercise::ask(value(text)))
}

/// The mark of an answer.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = markAnswer, skip_typescript)]
pub fn mark_answer(text: &JsValue, question: &JsValue, answer: &JsValue) -> Result<JsValue, JsValue> {
    reply(exercise::mark(value(text), value(question), value(answer)))
}

/// What a file of a score holds.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = importScore, skip_typescript)]
pub fn import_score(file: &JsValue, _name: &JsValue) -> Result<JsValue, JsValue> {
    reply(bytes(file).and_then(|file| score::summary(&file)))
}

/// The notes of a part and what they sound.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = soundingNotes, skip_typescript)]
pub fn sounding_notes(file: &JsValue, part: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let options = object(options, "options", true);
    reply(options.and_then(|options| score::sounding_notes(&bytes(file)?, value(part), &options)))
}

/// The brass of a score against its crooks.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = auditScore, skip_typescript)]
pub fn audit_score(file: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let options = object(options, "options", true);
    reply(options.and_then(|options| score::audit_score(&bytes(file)?, &options)))
}

/// A score written anew as MusicXML.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = exportScore, skip_typescript)]
pub fn export_score(file: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let options = object(options, "options", false);
    out(options.and_then(|options| score::export_score(&bytes(file)?, &options)))
}

/// A score as MIDI.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = exportMidi, skip_typescript)]
pub fn export_midi(file: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let options = object(options, "options", true);
    out(options.and_then(|options| score::export_midi(&bytes(file)?, &options)))
}

/// Crooks for a passage in sound.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = planCrooks, skip_typescript)]
pub fn plan_crooks(request: &JsValue) -> Result<JsValue, JsValue> {
    reply(object(request, "request", false).and_then(|request| planner::plan_crooks(&request)))
}

/// What crooks give of a key.
///
/// # Errors
/// An `Error` with `code`.
#[wasm_bindgen(js_name = crookTable, skip_typescript)]
pub fn crook_table(request: &JsValue) -> Result<JsValue, JsValue> {
    reply(object(request, "request", false).and_then(|request| planner::crook_table(&request)))
}

/// The bytes of a file.
fn bytes(found: &JsValue) -> Result<Vec<u8>, Problem> {
    if let Some(bytes) = found.dyn_ref::<Uint8Array>() {
        return Ok(bytes.to_vec());
    }
    if let Some(buffer) = found.dyn_ref::<ArrayBuffer>() {
        return Ok(Uint8Array::new(buffer).to_vec());
    }
    Err(match value(found) {
        Value::Missing => missing("bytes", "a Uint8Array"),
        other => wrong_type("bytes", "a Uint8Array", other.kind()),
    })
}

fn out(outcome: Result<Vec<u8>, Problem>) -> Result<JsValue, JsValue> {
    match outcome {
        Ok(bytes) => Ok(Uint8Array::from(bytes.as_slice()).into()),
        Err(problem) => Err(thrown(&problem)),
    }
}

/// An object of the caller's, or nothing where nothing need be.
struct Object(Option<JsValue>);

impl Fields for Object {
    fn get(&self, name: &'static str) -> Value {
        let Some(object) = &self.0 else { return Value::Missing };
        read_field(object, name, &USUAL, DEEPEST)
    }

    fn get_with(&self, name: &'static str, fields: &'static [&'static str], most: usize) -> Value {
        let Some(object) = &self.0 else { return Value::Missing };
        // The lists within its objects are looked at as well.
        read_field(object, name, &Looked { fields, most }, DEEPEST + 1)
    }
}

/// What is looked at: these fields of objects, so many entries of lists.
struct Looked {
    fields: &'static [&'static str],
    most: usize,
}

const USUAL: Looked = Looked { fields: &STAFF_FIELDS, most: MOST };

fn object(found: &JsValue, field: &'static str, optional: bool) -> Result<Object, Problem> {
    if found.is_object() {
        return Ok(Object(Some(found.clone())));
    }
    match value(found) {
        Value::Missing if optional => Ok(Object(None)),
        Value::Missing => Err(missing(field, "an object")),
        other => Err(wrong_type(field, "an object", other.kind())),
    }
}

/// Lists and objects within one another that are looked at: more than any field takes. What lies deeper, or contains
/// itself, is no value of any field.
const DEEPEST: u8 = 2;

fn value(found: &JsValue) -> Value {
    value_within(found, &USUAL, DEEPEST)
}

fn value_within(found: &JsValue, looked: &Looked, deeper: u8) -> Value {
    if found.is_undefined() {
        return Value::Missing;
    }
    if let Some(text) = found.dyn_ref::<JsString>() {
        return Value::Text(text.slice(0, LONGEST).into());
    }
    if found.js_typeof() == "number" {
        return found.as_f64().map_or(Value::Other("a strange number"), Value::Number);
    }
    if let Some(flag) = found.as_bool() {
        return Value::Flag(flag);
    }
    if found.is_object() && !found.is_function() {
        let Some(deeper) = deeper.checked_sub(1) else {
            return Value::Other("something nested too deeply");
        };
        return if found.is_array() { list(found, looked, deeper) } else { fields(found, looked, deeper) };
    }
    Value::Other(if found.is_null() {
        "null"
    } else if found.is_function() {
        "a function"
    } else if found.is_symbol() {
        "a symbol"
    } else if found.is_bigint() {
        "a bigint"
    } else {
        "something strange"
    })
}

/// A list, as far as it is looked at.
fn list(found: &JsValue, looked: &Looked, deeper: u8) -> Value {
    let array: &Array = found.unchecked_ref();
    Value::List(array.iter().take(looked.most).map(|one| value_within(&one, looked, deeper)).collect())
}

/// The fields that mean something in any object of a list.
fn fields(found: &JsValue, looked: &Looked, deeper: u8) -> Value {
    let get = |name| read_field(found, name, looked, deeper);
    Value::Object(looked.fields.iter().map(|name| (*name, get(name))).collect())
}

fn read_field(object: &JsValue, name: &str, looked: &Looked, deeper: u8) -> Value {
    match Reflect::get(object, &JsValue::from_str(name)) {
        Ok(found) => value_within(&found, looked, deeper),
        Err(_) => Value::Other("something that throws when it is read"),
    }
}

fn reply<T: Serialize>(outcome: Result<T, Problem>) -> Result<JsValue, JsValue> {
    match outcome {
        Ok(reply) => Ok(reply.serialize(&Serializer::json_compatible())?),
        Err(problem) => Err(thrown(&problem)),
    }
}

fn thrown(problem: &Problem) -> JsValue {
    let error = Error::new(&problem.sentence);
    for (name, text) in [("code", problem.code.id()), ("field", problem.field)] {
        // Setting a field of an object just made cannot fail, and the sentence stands without it.
        let _ = Reflect::set(&error, &JsValue::from_str(name), &JsValue::from_str(text));
    }
    error.into()
}
