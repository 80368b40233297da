//! The audit as a table that spreadsheets open: fields are quoted where they must be (RFC 4180), and what a spreadsheet would
//! take for a formula is not.

use super::{AuditLine, StaffAudit};
use crate::score::{NoteId, Score};

/// The table: a row for every kind of note of every crook.
#[must_use]
pub fn csv(score: &Score, audits: &[StaffAudit]) -> String {
    let mut text =
        row(&["Part", "Crook", "Kind", "What", "Notes", "Share in hundredths", "First bar"]
            .map(str::to_owned));
    for audit in audits {
        let part = score.part(audit.part);
        let name = part.map_or("", |part| part.name.as_ref());
        for line in &audit.lines {
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
            let what = format!("from {} to {}", change.from, change.to);
            let rest = format!("{} quarter notes of rest", change.rest);
            let bar = bar_of(score, audit, change.first);
            text += &row(&[
                name.to_owned(),
                change.to.clone(),
                "change".to_owned(),
                what,
                rest,
                String::new(),
                bar,
            ]);
        }
    }
    text
}

/// The kinds of note of a crook, in words.
fn rows(line: &AuditLine) -> Vec<(&'static str, String, &[NoteId])> {
    let mut rows: Vec<(&'static str, String, &[NoteId])> = Vec::new();
    rows.extend(
        line.open.iter().map(|(partial, notes)| ("open", format!("partial {partial}"), notes.as_slice())),
    );
    let corrected = line.corrected.iter();
    rows.extend(
        corrected.map(|(partial, notes)| ("corrected", format!("partial {partial}"), notes.as_slice())),
    );
    for (letter, production, notes) in &line.made {
        rows.push(("made", format!("{letter}, {}", production.words()), notes.as_slice()));
    }
    if !line.out_of_reach.is_empty() {
        rows.push(("out of reach", String::new(), line.out_of_reach.as_slice()));
    }
    rows
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
