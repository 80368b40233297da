//! The audit as a table that spreadsheets open: fields are quoted where they must be (RFC 4180), and what a spreadsheet would
//! take for a formula is not.

use super::{AuditLine, HIGH, StaffAudit};
use crate::score::{NoteId, Score};
use crookwise_theory::Written;

/// The table: for every crook a row for each kind of note, for the lowest, the highest and the longest stretch of high ones, and
/// for each change.
#[must_use]
pub fn csv(score: &Score, audits: &[StaffAudit]) -> String {
    let mut text =
        row(&["Part", "Crook", "Kind", "What", "Notes", "Share in hundredths", "First bar"]
            .map(str::to_owned));
    for audit in audits {
        let part = score.part(audit.part);
        let name = part.map_or("", |part| part.name.as_ref());
        for line in &audit.lines {
            for (kind, what, count, id) in extremes(line) {
                let bar = bar_of(score, audit, id);
                let crook = line.crook.clone();
                text += &row(&[name.to_owned(), crook, kind.to_owned(), what, count, String::new(), bar]);
            }
            for (kind, what, notes) in rows(line) {
                let share = notes.len() * 100 / line.attacks().max(1);
                let bar = notes.first().map_or_else(String::new, |id| bar_of(score, audit, *id));
                text += &row(&[
                    name.to_owned(),
                    line.crook.clone(),
                    kind.to_owned(),
                    what,
                    notes.len().to_string(),
                    share.to_string(),
                    bar,
                ]);
            }
        }
        for change in &audit.changes {
            let what =
                format!("from {} to {}, after {} quarter notes of rest", change.from, change.to, change.rest);
            let bar = bar_of(score, audit, change.first);
            text += &row(&[
                name.to_owned(),
                change.to.clone(),
                "change".to_owned(),
                what,
                String::new(),
                String::new(),
                bar,
            ]);
        }
    }
    text
}

/// The kinds of note of a crook, in words.
fn rows(line: &AuditLine) -> Vec<(&'static str, String, Vec<NoteId>)> {
    let mut rows: Vec<(&'static str, String, Vec<NoteId>)> = Vec::new();
    rows.extend(
        line.open.iter().map(|(partial, notes)| ("open", format!("partial {partial}"), notes.clone())),
    );
    let corrected = line.corrected.iter();
    rows.extend(corrected.map(|(partial, notes)| ("corrected", format!("partial {partial}"), notes.clone())));
    for (_, production, notes) in &line.made {
        let how = production.words();
        rows.extend(
            line.by_written(notes)
                .into_iter()
                .map(|(written, notes)| ("made", format!("{written}, {how}"), notes)),
        );
    }
    let beyond = line.by_written(&line.out_of_reach).into_iter();
    rows.extend(beyond.map(|(written, notes)| ("out of reach", written.to_string(), notes)));
    rows
}

/// The lowest and the highest note written, and the longest stretch of high ones with how many it has: kind, what, notes, where.
fn extremes(line: &AuditLine) -> Vec<(&'static str, String, String, NoteId)> {
    let note =
        |kind: &'static str, (written, id): (Written, NoteId)| (kind, written.to_string(), String::new(), id);
    let lowest = line.lowest.map(|lowest| note("lowest", lowest));
    let highest = line.highest.map(|highest| note("highest", highest));
    let high = line.longest_high.map(|high| {
        let what = format!("longest stretch above partial {HIGH}: {} quarter notes", high.length);
        ("high", what, high.attacks.to_string(), high.from)
    });
    lowest.into_iter().chain(highest).chain(high).collect()
}

/// The printed number of the bar a note stands in.
fn bar_of(score: &Score, audit: &StaffAudit, id: NoteId) -> String {
    let staff = score.staff(audit.staff);
    let note = staff.and_then(|staff| staff.notes().iter().find(|(other, _)| *other == id));
    let bar = note.and_then(|(_, note)| score.bars().get(usize::try_from(note.bar).ok()?));
    bar.map_or_else(String::new, |bar| bar.number.as_ref().to_owned())
}

fn row(fields: &[String]) -> String {
    let fields: Vec<String> = fields.iter().map(|field| quoted(field)).collect();
    fields.join(",") + "\r\n"
}

fn quoted(field: &str) -> String {
    let harmless =
        if field.starts_with(['=', '+', '-', '@', '\t']) { format!("'{field}") } else { field.to_owned() };
    if harmless.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", harmless.replace('"', "\"\""))
    } else {
        harmless
    }
}
