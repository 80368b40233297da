//! The audit as rows, each of which leads to its notes.

use crate::holder::Opened;
use crate::protocol::{AuditLineRow, AuditStaff, ChangeRow, HighRow, MadeHow, NotesRow};
use crookwise_score::audit::{AuditLine, StaffAudit};
use crookwise_score::score::{NoteId, PartStaff};
use crookwise_theory::Written;
use std::collections::HashMap;

pub(crate) fn rows(opened: &Opened, audits: &[StaffAudit]) -> Vec<AuditStaff> {
    audits.iter().filter_map(|audit| of_staff(opened, audit)).collect()
}

fn of_staff(opened: &Opened, audit: &StaffAudit) -> Option<AuditStaff> {
    let score = &opened.import.score;
    let staff = score.staff(audit.staff)?;
    let part = score.part(audit.part)?;
    let places = Places::of_staff(staff);
    let changes = audit.changes.iter().map(|change| ChangeRow {
        from: change.from.clone(),
        to: change.to.clone(),
        note: change.first.number(),
        bar: small(change.bar),
        quarters: change.rest.to_string(),
    });
    Some(AuditStaff {
        staff: opened.number_of(audit.staff),
        name: part.name.as_ref().to_owned(),
        attacks: small(audit.attacks()),
        on_series: small(audit.on_series()),
        crooks: audit.lines.iter().map(|line| of_crook(&places, line)).collect(),
        changes: changes.collect(),
    })
}

fn of_crook(places: &Places, line: &AuditLine) -> AuditLineRow {
    let row = |how: MadeHow, notes: &[NoteId]| NotesRow { how, notes: places.of(notes) };
    let mut notes: Vec<NotesRow> = Vec::new();
    notes.extend(line.open.iter().map(|(partial, notes)| row(MadeHow::Open(*partial), notes)));
    notes.extend(line.corrected.iter().map(|(partial, notes)| row(MadeHow::Corrected(*partial), notes)));
    for (_, production, own) in &line.made {
        for (written, own) in line.by_written(own) {
            notes.push(row(MadeHow::Made(written.to_string(), production.words().to_owned()), &own));
        }
    }
    for (written, own) in line.by_written(&line.out_of_reach) {
        notes.push(row(MadeHow::OutOfReach(written.to_string()), &own));
    }
    let at = |(written, id): (Written, NoteId)| (written.to_string(), id.number(), places.bar(id));
    AuditLineRow {
        crook: line.crook.clone(),
        bars: (small(line.bars.0), small(line.bars.1)),
        attacks: small(line.attacks()),
        notes,
        lowest: line.lowest.map(at),
        highest: line.highest.map(at),
        high: line.longest_high.map(|stretch| HighRow {
            note: stretch.from.number(),
            bar: small(stretch.bar),
            quarters: stretch.length.to_string(),
            attacks: small(stretch.attacks),
        }),
    }
}

/// In which bar each note of a staff stands.
struct Places(HashMap<NoteId, u32>);

impl Places {
    fn of_staff(staff: &PartStaff) -> Self {
        Self(staff.notes().iter().map(|(id, note)| (*id, note.bar)).collect())
    }

    fn bar(&self, id: NoteId) -> u32 {
        self.0.get(&id).copied().unwrap_or(0)
    }

    fn of(&self, notes: &[NoteId]) -> Vec<(u32, u32)> {
        notes.iter().map(|id| (id.number(), self.bar(*id))).collect()
    }
}

fn small(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}
