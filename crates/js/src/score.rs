//! The calls for scores: what a file holds, what it sounds, the audit of its brass, and files out.

use crate::contract::decoded;
use crate::problem::{Code, Problem, quoted};
use crate::reply::Transposition;
use crate::score_reply::{
    ChangeAudit, CrookAudit, HighAudit, MadeAudit, PartAudit, PartSummary, ScoreSummary, SoundingNote,
    ToldTransposition, fraction,
};
use crate::value::{Fields, Value};
use crookwise_musicxml::export::{
    Corrected, ExportError, ExportOptions, ExportPitch, by_file, export_as, export_corrected,
};
use crookwise_musicxml::midi::midi;
use crookwise_musicxml::{Import, import};
use crookwise_score::audit::{AuditLine, AuditOptions, StaffAudit, audit};
use crookwise_score::score::{NoteId, Part, PartStaff, Score, StaffCourse};
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use crookwise_theory::{Interval, Intonation, Partial, Printed, Production, Sounding, Written};
use std::collections::HashSet;
use std::sync::Arc;

/// What a file holds.
///
/// # Errors
/// [`Code::File`] where it cannot be read.
pub fn summary(file: &[u8]) -> Result<ScoreSummary, Problem> {
    let read = read(file)?;
    let said = |part: Option<usize>| {
        let own = read.remarks.iter().filter(|remark| remark.part == part);
        own.map(ToString::to_string).collect::<Vec<_>>()
    };
    let parts = read.parts.iter().enumerate().filter_map(|(at, own)| {
        let part = part_at(&read, at)?;
        Some(PartSummary {
            name: part.name.as_ref().to_owned(),
            label: decoded(decode(&part.name, DecodeOptions::default())),
            notes: own.counts.pitched,
            rests: own.counts.rests,
            transpositions: transpositions(&read.score, part),
            remarks: said(Some(at)),
        })
    });
    Ok(ScoreSummary {
        title: read.score.title.as_ref().to_owned(),
        measures: read.score.bars().len(),
        parts: parts.collect(),
        remarks: said(None),
    })
}

/// Every pitched note of a part in the order of the file, and what it sounds by the file's own transposition.
///
/// # Errors
/// [`Code::File`], [`Code::Part`] where there is no such part, [`Code::Missing`], [`Code::Type`].
pub fn sounding_notes(
    file: &[u8],
    part: Value,
    options: &(impl Fields + ?Sized),
) -> Result<Vec<SoundingNote>, Problem> {
    let repair = options.get("repair").flag("repair")?;
    let sentence = "part must be the number of a part, counted from 0";
    let at = part.whole("part", Code::Part, (0, 10_000), sentence)?.ok_or_else(|| Problem {
        code: Code::Missing,
        field: "part",
        sentence: format!("part is missing: {sentence}"),
    })?;
    let read = read(file)?;
    let parts = read.parts.len();
    let part = usize::try_from(at).ok().and_then(|at| part_at(&read, at)).ok_or_else(|| Problem {
        code: Code::Part,
        field: "part",
        sentence: format!("There is no part of number {at}: this score has {parts}, counted from 0"),
    })?;
    let old = if repair { old_notes(&read) } else { HashSet::new() };
    let courses: Vec<(&PartStaff, StaffCourse)> =
        part.staves.iter().map(|staff| (staff, StaffCourse::of(&read.score, staff, &mut decoder))).collect();
    let notes = part.by_file().into_iter().map(|note| {
        let staff = courses.iter().position(|(staff, _)| staff.id == note.staff).unwrap_or(0);
        let up = if old.contains(&note.id) { Interval::OCTAVE } else { Interval::UNISON };
        let written = Written(note.written.0 + up);
        // The label says on what it is played; the pitch read is the file's.
        let place = courses.get(staff).and_then(|(_, course)| course.place_of(note.note));
        let reading = place.map(|place| place.read(Printed(written.0), Intonation::default(), None));
        let making = reading.and_then(|reading| reading.making);
        let bar = usize::try_from(note.note.bar).ok().and_then(|bar| read.score.bars().get(bar));
        let onset = bar.and_then(|bar| note.note.start.time.minus(bar.start));
        SoundingNote {
            measure: bar.map_or_else(String::new, |bar| bar.number.as_ref().to_owned()),
            measure_index: note.note.bar,
            staff: staff + 1,
            voice: note.note.voice,
            onset: onset.map_or((0, 1), fraction),
            duration: note.note.length().map_or((0, 1), fraction),
            tied: note.note.tied,
            written: written.to_string(),
            sounding: Sounding(note.sounding.0 + up).to_string(),
            partial: making.and_then(|making| making.partial).map(Partial::number),
            production: making.map_or(Production::Chromatic, |making| making.production).id(),
        }
    });
    Ok(notes.collect())
}

/// The brass of a score against its crooks.
///
/// # Errors
/// [`Code::File`], [`Code::Type`].
pub fn audit_score(file: &[u8], options: &(impl Fields + ?Sized)) -> Result<Vec<PartAudit>, Problem> {
    let repair = options.get("repair").flag("repair")?;
    let valves_too = options.get("valvesToo").flag("valvesToo")?;
    let mut read = read(file)?;
    if repair {
        for old in read.score.old_bass(&mut decoder) {
            read.score.read_old_bass(old.staff);
        }
    }
    let audits = audit(&read.score, AuditOptions { valves_too }, &mut decoder);
    Ok(audits.iter().map(|staff| part_audit(&read, staff)).collect())
}

/// A score written anew as MusicXML.
///
/// # Errors
/// [`Code::File`], [`Code::Pitch`], [`Code::Parts`], [`Code::Label`], [`Code::Missing`], [`Code::Type`].
pub fn export_score(file: &[u8], options: &(impl Fields + ?Sized)) -> Result<Vec<u8>, Problem> {
    let pitch = options.get("pitch").required_text("pitch")?;
    let label = options.get("label").text("label")?;
    let pitch = match (pitch.as_str(), label) {
        ("sounding", _) => ExportPitch::Sounding,
        ("written", None) => ExportPitch::AsWritten,
        ("written", Some(label)) => ExportPitch::WrittenFor(label),
        (other, _) => {
            let sentence = format!("pitch must be \"sounding\" or \"written\", not {}", quoted(other));
            return Err(Problem { code: Code::Pitch, field: "pitch", sentence });
        }
    };
    let parts = parts(options)?;
    let repair = options.get("repair").flag("repair")?;
    let options = ExportOptions { pitch, parts };
    let file = if repair && options.pitch == ExportPitch::AsWritten {
        export_corrected(file, &options, &repaired)
    } else {
        export_as(file, &options, &|read| sounds(read, repair))
    };
    file.map_err(|error| {
        let (code, field) = match &error {
            ExportError::File(_) => (Code::File, "bytes"),
            ExportError::NoSuchPart(..) | ExportError::NoPart => (Code::Parts, "parts"),
            ExportError::Label(_) | ExportError::OnlyDrums => (Code::Label, "label"),
        };
        Problem { code, field, sentence: error.to_string() }
    })
}

/// A score as MIDI.
///
/// # Errors
/// [`Code::File`], [`Code::Parts`], [`Code::Type`].
pub fn export_midi(file: &[u8], options: &(impl Fields + ?Sized)) -> Result<Vec<u8>, Problem> {
    let repair = options.get("repair").flag("repair")?;
    let parts = parts(options)?;
    let read = read(file)?;
    midi(&read, parts.as_deref(), &|read| sounds(read, repair)).map_err(|error| Problem {
        code: Code::Parts,
        field: "parts",
        sentence: error.to_string(),
    })
}

fn read(file: &[u8]) -> Result<Import, Problem> {
    import(file).map_err(|error| Problem { code: Code::File, field: "bytes", sentence: error.to_string() })
}

fn part_at(read: &Import, at: usize) -> Option<&Part> {
    read.score.part(read.parts.get(at)?.id)
}

fn decoder(text: &str) -> Arc<Decoded> {
    Arc::new(decode(text, DecodeOptions::default()))
}

/// Notes in old bass-clef notation that their file has as new.
fn old_notes(read: &Import) -> HashSet<NoteId> {
    read.score.old_bass(&mut decoder).into_iter().flat_map(|old| old.notes).collect()
}

/// The score with its old bass-clef notation repaired.
fn repaired(read: &Import) -> Option<Corrected> {
    let mut score = read.score.clone();
    let staves: Vec<_> = score.old_bass(&mut decoder).into_iter().map(|old| old.staff).collect();
    staves.iter().for_each(|staff| score.read_old_bass(*staff));
    (!staves.is_empty()).then_some(Corrected { score, staves })
}

/// What a score sounds by its file, old bass-clef notation repaired where that is asked for.
fn sounds(read: &Import, repair: bool) -> Vec<Vec<Sounding>> {
    if !repair {
        return by_file(read);
    }
    let old = old_notes(read);
    let up = |id: &NoteId| if old.contains(id) { Interval::OCTAVE } else { Interval::UNISON };
    let of_part =
        |part: &Part| part.by_file().iter().map(|note| Sounding(note.sounding.0 + up(&note.id))).collect();
    (0..read.parts.len()).map(|at| part_at(read, at).map_or_else(Vec::new, of_part)).collect()
}

fn parts(options: &(impl Fields + ?Sized)) -> Result<Option<Vec<usize>>, Problem> {
    let given = options.get("parts");
    if given == Value::Missing {
        return Ok(None);
    }
    let sentence = "parts must be numbers of parts, counted from 0";
    let number = |value: Value| {
        let number = value.whole("parts", Code::Parts, (0, 10_000), sentence)?;
        let number = number.and_then(|number| usize::try_from(number).ok());
        number.ok_or_else(|| Problem { code: Code::Parts, field: "parts", sentence: sentence.to_owned() })
    };
    given.list("parts")?.into_iter().map(number).collect::<Result<Vec<_>, _>>().map(Some)
}

fn transpositions(score: &Score, part: &Part) -> Vec<ToldTransposition> {
    let mut all = Vec::new();
    for (staff, own) in (1..).zip(&part.staves) {
        for told in &own.told {
            let numbers = Transposition {
                diatonic: told.numbers.diatonic,
                chromatic: told.numbers.chromatic,
                octave_change: told.numbers.octave_change,
            };
            all.push(ToldTransposition {
                measure: bar_number(score, score.bar_at(told.at.time)),
                staff,
                numbers,
            });
        }
    }
    all
}

fn bar_number(score: &Score, bar: usize) -> String {
    score.bars().get(bar).map_or_else(String::new, |bar| bar.number.as_ref().to_owned())
}

fn part_audit(read: &Import, staff: &StaffAudit) -> PartAudit {
    let at = read.parts.iter().position(|part| part.id == staff.part).unwrap_or(0);
    let part = part_at(read, at);
    let number = part.and_then(|part| part.staves.iter().position(|own| own.id == staff.staff)).unwrap_or(0);
    PartAudit {
        part: at,
        name: part.map_or_else(String::new, |part| part.name.as_ref().to_owned()),
        staff: number + 1,
        family: staff.family.word(),
        attacks: staff.attacks(),
        on_series: staff.on_series(),
        crooks: staff.lines.iter().map(|line| crook_audit(&read.score, line)).collect(),
        changes: staff
            .changes
            .iter()
            .map(|change| ChangeAudit {
                from: change.from.clone(),
                to: change.to.clone(),
                measure: bar_number(&read.score, change.bar),
                rest: fraction(change.rest),
            })
            .collect(),
    }
}

fn crook_audit(score: &Score, line: &AuditLine) -> CrookAudit {
    let counted =
        |list: &[(u8, Vec<NoteId>)]| list.iter().map(|(partial, notes)| (*partial, notes.len())).collect();
    CrookAudit {
        crook: line.crook.clone(),
        measures: (bar_number(score, line.bars.0), bar_number(score, line.bars.1)),
        attacks: line.attacks(),
        open: counted(&line.open),
        corrected: counted(&line.corrected),
        made: line
            .made
            .iter()
            .map(|(note, production, notes)| MadeAudit {
                note: note.to_string(),
                production: production.id(),
                notes: notes.len(),
            })
            .collect(),
        out_of_reach: line.out_of_reach.len(),
        lowest: line.lowest.map(|(written, _)| written.to_string()),
        highest: line.highest.map(|(written, _)| written.to_string()),
        longest_high: line.longest_high.map(|stretch| HighAudit {
            measure: bar_number(score, stretch.bar),
            duration: fraction(stretch.length),
            attacks: stretch.attacks,
        }),
    }
}
