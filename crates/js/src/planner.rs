//! The calls for crooks: the best plan for a passage, and what each crook gives of a key.

use crate::problem::{Code, Problem, quoted};
use crate::request::parse;
use crate::value::{Fields, Value, missing, wrong_type};
use crookwise_planner::key_table::{Given, chords, degrees, given, given_together};
use crookwise_planner::{
    CrookPlayer, MOST_NOTES, NamedCrook, Outcome, Plan, Request, Ticks, WantedNote, Weights, plan,
};
use crookwise_theory::{CrookFamily, Instrument, Key, Pitch, Production, Sounding, Tonic};
use serde::Serialize;

/// The fields of a note that is wanted.
const NOTE_FIELDS: &[&str] = &["onset", "duration", "sounding", "player", "weight"];
/// The fields of a player.
const PLAYER_FIELDS: &[&str] = &["family", "crooks", "pair"];
/// The ways of making a note that may be given a worth.
const WORTH_FIELDS: &[&str] =
    &["open", "handOut", "quarter", "half", "threeQuarter", "full", "lipped", "chromatic", "unavailable"];

/// What `planCrooks` gives.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plans {
    /// The best first.
    pub plans: Vec<CrookPlan>,
    /// Whether the first is proved to be the best.
    pub optimal: bool,
    /// No plan is worth more.
    pub bound: f64,
    /// Why there is none, in a sentence.
    pub problem: Option<String>,
}

/// A plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CrookPlan {
    /// What it is worth.
    pub total: f64,
    /// The stretches on one crook, by player, then by time.
    pub stretches: Vec<CrookStretch>,
    /// In the order asked.
    pub notes: Vec<PlanNote>,
}

/// So long a player stays on one crook; from and to in quarter notes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CrookStretch {
    /// From 0.
    pub player: usize,
    /// As the request names it.
    pub crook: String,
    /// Where its first note begins.
    pub from: f64,
    /// Where its last note ends.
    pub to: f64,
}

/// What becomes of a note.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlanNote {
    /// Who plays it, from 0; null where it is left out.
    pub player: Option<usize>,
    /// As it is written for him.
    pub written: Option<String>,
    /// How it is made.
    pub production: Option<&'static str>,
    /// What it is worth, its weight included.
    pub worth: f64,
}

/// What `crookTable` gives.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CrookTable {
    /// The degrees of the key.
    pub degrees: Vec<TableDegree>,
    /// Its triads on the first, fourth and fifth degrees.
    pub chords: Vec<TableChord>,
    /// Each crook.
    pub crooks: Vec<TableRow>,
    /// Each two of them.
    pub pairs: Vec<TableRow>,
}

/// A degree.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TableDegree {
    /// From 1 to 7.
    pub number: u8,
    /// The leading note of minor.
    pub raised: bool,
    /// Its note, without an octave.
    pub note: String,
}

/// A triad.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TableChord {
    /// The degree it stands on.
    pub root: u8,
    /// The places of its members among the degrees, from 0.
    pub members: [usize; 3],
}

/// What a crook or two of them give.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TableRow {
    /// As the request names them.
    pub crooks: Vec<String>,
    /// For each degree; null where it is missing.
    pub degrees: Vec<Option<TableNote>>,
    /// For each chord how many of its three members are open.
    pub open: Vec<usize>,
}

/// A degree as it is had best.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TableNote {
    /// As it sounds.
    pub sounding: String,
    /// As it is written.
    pub written: String,
    /// How it is made.
    pub production: &'static str,
    /// What that is worth.
    pub worth: f64,
}

/// Plans crooks. What no plan can be made of is told in `problem`, with no plans.
///
/// # Errors
/// [`Code::Missing`], [`Code::Type`], [`Code::Pitch`] and [`Code::Family`] for what is no request.
pub fn plan_crooks(fields: &(impl Fields + ?Sized)) -> Result<Plans, Problem> {
    let request = match request(fields)? {
        Ok(request) => request,
        Err(sentence) => return Ok(none(sentence)),
    };
    Ok(match plan(&request) {
        Ok(outcome) => plans(&outcome),
        Err(error) => none(error.to_string()),
    })
}

/// What each crook of a family, and each two of them, give of a key.
///
/// # Errors
/// [`Code::Missing`], [`Code::Type`], [`Code::Family`], [`Code::Key`] and [`Code::Crook`] for what is not understood.
pub fn crook_table(fields: &(impl Fields + ?Sized)) -> Result<CrookTable, Problem> {
    let family = family(fields.get("family"))?;
    let key: Key = parse(&fields.get("key").required_text("key")?, Code::Key, "key")?;
    let weights = weights(fields)?;
    let crooks = match fields.get_with("crooks", &[], MOST_CROOKS) {
        Value::Missing => NamedCrook::all(family),
        other => texts(other, "crooks")?
            .iter()
            .map(|name| crook(family, name))
            .collect::<Result<_, _>>()
            .map_err(|sentence| Problem { code: Code::Crook, field: "crooks", sentence })?,
    };
    let degrees = degrees(key);
    let notes: Vec<Tonic> = degrees.iter().map(|degree| degree.tonic).collect();
    let chords = chords(key);
    let rows: Vec<Vec<Option<Given>>> =
        crooks.iter().map(|named| given(named.crook, &notes, &weights)).collect();
    let row = |names: &[&NamedCrook], all: &[Option<Given>]| {
        let is_open = |at: &usize| {
            all.get(*at).copied().flatten().is_some_and(|given| given.making.production == Production::Open)
        };
        TableRow {
            crooks: names.iter().map(|named| named.name.clone()).collect(),
            degrees: all.iter().map(|given| given.map(table_note)).collect(),
            open: chords.iter().map(|chord| chord.members.iter().filter(|at| is_open(at)).count()).collect(),
        }
    };
    let pairs = (0..crooks.len()).flat_map(|one| (one + 1..crooks.len()).map(move |other| (one, other)));
    Ok(CrookTable {
        pairs: pairs
            .map(|(one, other)| {
                row(&[&crooks[one], &crooks[other]], &given_together(&rows[one], &rows[other]))
            })
            .collect(),
        crooks: crooks.iter().zip(&rows).map(|(named, all)| row(&[named], all)).collect(),
        degrees: degrees
            .iter()
            .map(|degree| TableDegree {
                number: degree.number,
                raised: degree.is_raised,
                note: degree.tonic.to_string(),
            })
            .collect(),
        chords: chords.iter().map(|chord| TableChord { root: chord.root, members: chord.members }).collect(),
    })
}

/// More crooks than are built, and more players than are planned for.
const MOST_CROOKS: usize = 64;

fn none(sentence: String) -> Plans {
    Plans { plans: Vec::new(), optimal: false, bound: 0.0, problem: Some(sentence) }
}

fn plans(outcome: &Outcome) -> Plans {
    Plans {
        plans: outcome.plans.iter().map(crook_plan).collect(),
        optimal: outcome.optimal,
        bound: outcome.bound,
        problem: None,
    }
}

fn crook_plan(plan: &Plan) -> CrookPlan {
    let stretches = plan.stretches.iter().map(|stretch| CrookStretch {
        player: stretch.player,
        crook: stretch.name.clone(),
        from: stretch.from.quarters(),
        to: stretch.to.quarters(),
    });
    let notes = plan.notes.iter().map(|note| match note {
        Some(note) => PlanNote {
            player: Some(note.player),
            written: Some(note.making.written.0.to_string()),
            production: Some(note.making.production.id()),
            worth: note.worth,
        },
        None => PlanNote { player: None, written: None, production: None, worth: 0.0 },
    });
    CrookPlan { total: plan.total, stretches: stretches.collect(), notes: notes.collect() }
}

fn table_note(given: Given) -> TableNote {
    TableNote {
        sounding: given.sounding.0.to_string(),
        written: given.making.written.0.to_string(),
        production: given.making.production.id(),
        worth: given.making.worth,
    }
}

/// A request, or the sentence that says why it can have no plan.
fn request(fields: &(impl Fields + ?Sized)) -> Result<Result<Request, String>, Problem> {
    let weights = weights(fields)?;
    let time =
        fields.get("changeTime").number("changeTime")?.ok_or_else(|| missing("changeTime", "a number"))?;
    let together = match fields.get("together") {
        Value::Missing => true,
        other => other.flag("together")?,
    };
    let players = records(fields, "players", PLAYER_FIELDS, MOST_CROOKS)?;
    let notes = records(fields, "notes", NOTE_FIELDS, MOST_NOTES + 1)?;
    let Some(change_time) = Ticks::of_quarters(time) else {
        return Ok(Err("The rest for a change of crook must be a number of quarter notes.".to_owned()));
    };
    let mut request = Request { notes: Vec::new(), players: Vec::new(), change_time, together, weights };
    for record in &players {
        match player(record)? {
            Ok(player) => request.players.push(player),
            Err(sentence) => return Ok(Err(sentence)),
        }
    }
    for (at, record) in notes.iter().enumerate() {
        match note(record, at)? {
            Ok(note) => request.notes.push(note),
            Err(sentence) => return Ok(Err(sentence)),
        }
    }
    Ok(Ok(request))
}

fn weights(fields: &(impl Fields + ?Sized)) -> Result<Weights, Problem> {
    let mut weights = Weights::default();
    if let Some(cost) = fields.get("changeCost").number("changeCost")? {
        weights.change_cost = cost;
    }
    if let Some(highest) = fields.get("highest").number("highest")? {
        // What is no such number is told as the highest there could be, which is none.
        weights.highest =
            if (0.0..=255.0).contains(&highest) && highest % 1.0 == 0.0 { highest as u8 } else { 255 };
    }
    match fields.get_with("worth", WORTH_FIELDS, 0) {
        Value::Missing => {}
        Value::Object(all) => {
            for (production, worth) in Production::ALL.iter().zip(&mut weights.worth) {
                let own = all.iter().find(|(name, _)| *name == production.id());
                let own = own.map(|(name, value)| value.clone().number(name)).transpose()?.flatten();
                *worth = own.unwrap_or(*worth);
            }
        }
        other => return Err(wrong_type("worth", "an object", other.kind())),
    }
    Ok(weights)
}

/// One of a list of objects.
type Record = Vec<(&'static str, Value)>;

fn records(
    fields: &(impl Fields + ?Sized),
    name: &'static str,
    of: &'static [&'static str],
    most: usize,
) -> Result<Vec<Record>, Problem> {
    let list = match fields.get_with(name, of, most) {
        Value::Missing => return Err(missing(name, "an array")),
        Value::List(list) => list,
        other => return Err(wrong_type(name, "an array", other.kind())),
    };
    let record = |value| match value {
        Value::Object(record) => Ok(record),
        other => Err(wrong_type(name, "an array of objects", other.kind())),
    };
    list.into_iter().map(record).collect()
}

fn of(record: &Record, name: &str) -> Value {
    record.iter().find(|(one, _)| *one == name).map_or(Value::Missing, |(_, value)| value.clone())
}

fn player(record: &Record) -> Result<Result<CrookPlayer, String>, Problem> {
    let family = family(of(record, "family"))?;
    let pair = of(record, "pair").number("pair")?;
    let Some(pair) = pair.map_or(Some(None), |pair| whole(pair).map(Some)) else {
        return Ok(Err("The number of a pair must be a whole number from 0 on.".to_owned()));
    };
    let names = match of(record, "crooks") {
        Value::Missing => return Err(missing("crooks", "an array")),
        other => texts(other, "crooks")?,
    };
    let crooks = names.iter().map(|name| crook(family, name)).collect::<Result<Vec<_>, _>>();
    Ok(crooks.map(|crooks| CrookPlayer { family, crooks, pair }))
}

fn note(record: &Record, at: usize) -> Result<Result<WantedNote, String>, Problem> {
    let number = |name: &'static str| of(record, name).number(name);
    let needed = |name| number(name)?.ok_or_else(|| missing(name, "a number"));
    let (onset, duration) = (needed("onset")?, needed("duration")?);
    let sounding: Pitch = parse(&of(record, "sounding").required_text("sounding")?, Code::Pitch, "sounding")?;
    let times = Ticks::of_quarters(onset).zip(Ticks::of_quarters(duration));
    let Some((from, length)) = times else {
        return Ok(Err(format!(
            "Note {} has no place in time: it lies beyond a million quarter notes.",
            at + 1
        )));
    };
    let player = number("player")?;
    let Some(player) = player.map_or(Some(None), |player| whole(player).map(Some)) else {
        return Ok(Err(format!("Note {} is given to a player who is not there.", at + 1)));
    };
    let weight = number("weight")?.unwrap_or(1.0);
    let player = player.map(|player| player as usize);
    Ok(Ok(WantedNote {
        from,
        to: from + length,
        sounding: Sounding(sounding),
        player,
        weight,
        any_octave: false,
    }))
}

fn crook(family: CrookFamily, name: &str) -> Result<NamedCrook, String> {
    NamedCrook::named(family, name)
        .ok_or_else(|| format!("There is no crook {} for the {}.", quoted(name), family.word()))
}

fn family(value: Value) -> Result<CrookFamily, Problem> {
    let word = value.required_text("family")?;
    Instrument::by_id(&word).and_then(|instrument| instrument.crooks).ok_or_else(|| Problem {
        code: Code::Family,
        field: "family",
        sentence: format!("family: {} is neither \"horn\" nor \"trumpet\"", quoted(&word)),
    })
}

fn texts(value: Value, field: &'static str) -> Result<Vec<String>, Problem> {
    value.list(field)?.into_iter().map(|one| one.required_text(field)).collect()
}

/// A whole number from 0 on that players and pairs may have.
fn whole(number: f64) -> Option<u32> {
    ((0.0..=1e9).contains(&number) && number % 1.0 == 0.0).then_some(number as u32)
}
