//! The parts of the movement: chosen, decoded, remarked on, corrected.

use crate::browser::field;
use crate::components::choice::choice;
use crate::components::live::{Live, each, hear, live, press, when};
use crate::state::kept::{Derived, Watched};
use crate::state::movement::readings::{self, meaning};
use crate::state::movement::{Movement, by_label};
use crate::state::session::Session;
use crate::words;
use crookwise_opened::{PartRow, StaffRow};
use leptos::ev::Event;
use leptos::prelude::*;
use std::sync::Arc;

/// A staff with the part it belongs to, and its place there from 1, where the part has several.
#[derive(Clone, Debug, PartialEq)]
struct Row {
    part: PartRow,
    staff: StaffRow,
    of_several: Option<usize>,
}

impl Row {
    fn name(&self) -> String {
        match self.of_several {
            Some(at) => words::movement::staff_of(&self.part.name, at),
            None => self.part.name.clone(),
        }
    }
}

/// The list: what stands out first, all others folded.
pub fn parts() -> AnyView {
    let movement = Movement::get();
    let rows = move |standing_out: bool| {
        Derived::new(move || {
            movement.open.with(|open| {
                let parts = open.as_ref().map(|open| open.summary.parts.as_slice()).unwrap_or_default();
                let any = parts.iter().flat_map(|part| &part.staves).any(|staff| staff.stands_out);
                rows_of(parts)
                    .into_iter()
                    .filter(|row| (row.staff.stands_out || !any) == standing_out)
                    .collect::<Vec<Row>>()
            })
        })
    };
    let (first, others) = (rows(true), rows(false));
    let folded = move || {
        let name = live(move || format!("{} ({})", words::movement::OTHER_PARTS, others.read().len()));
        view! {
            <details>
                <summary>{name}</summary>
                {list(others, words::movement::OTHER_PARTS)}
            </details>
        }
        .into_any()
    };
    view! {
        <section class="card parts">
            <h2 class="prompt" id="parts-name">{words::movement::PARTS}</h2>
            <div role="group" aria-labelledby="parts-name">
                {list(first, words::movement::PARTS)}
                {when(move || !others.read().is_empty(), folded)}
            </div>
        </section>
    }
    .into_any()
}

fn rows_of(parts: &[PartRow]) -> Vec<Row> {
    let rows = parts.iter().flat_map(|part| {
        part.staves.iter().enumerate().map(|(at, staff)| Row {
            part: part.clone(),
            staff: staff.clone(),
            of_several: (part.staves.len() > 1).then_some(at + 1),
        })
    });
    rows.collect()
}

fn list(rows: Derived<Vec<Row>>, name: &'static str) -> AnyView {
    let one = move |at: usize| staff(Derived::new(move || rows.read().get(at).cloned()));
    view! {
        <ul class="plain" aria-label=name>{each(Derived::new(move || 0..rows.read().len()), one)}</ul>
    }
    .into_any()
}

fn staff(row: Derived<Option<Row>>) -> AnyView {
    let Session { names, .. } = Session::get();
    let movement = Movement::get();
    let number = move || row.map(|row| row.staff.staff).unwrap_or(u32::MAX);
    let chosen: Live<bool> = Box::new(move || movement.chosen.with(|chosen| chosen.contains(&number())));
    let choose = hear(move |_: Event| movement.choose(untrack(number)));
    let name = move || row.map(Row::name).unwrap_or_default();
    let says = live(move || {
        row.map(|row| match meaning(&row.staff, names.get()) {
            Some(meaning) => meaning,
            None => words::movement::NAMES_NOTHING.to_owned(),
        })
    });
    let corrected = live(move || {
        let label =
            row.map(|row| (row.staff.label != row.staff.label_by_file).then(|| row.staff.label.clone()));
        label.flatten()
    });
    let changes = live(move || row.map(|row| changes(movement, &row.staff)));
    let much = live(move || row.map(|row| words::movement::notes(row.part.notes)));
    let remarks = live(move || {
        let said = row.map(|row| row.part.remarks.clone()).unwrap_or_default();
        said.into_iter().map(|said| view! { <li>{said}</li> }.into_any()).collect::<Vec<_>>()
    });
    let open = Watched::new(false);
    let toggle = press(move || open.update(|open| *open = !*open));
    let expanded = live(move || Some(open.get().to_string()));
    view! {
        <li class="part">
            <label class="part-name">
                <input type="checkbox" prop:checked=chosen on:change=choose />
                <b>{live(name)}</b>
                <span class="printed-label">{corrected}</span>
            </label>
            <button
                class="correct"
                aria-expanded=expanded
                aria-label=live(move || words::kept::of(words::movement::CORRECT, &name()))
                on:click=toggle
            >
                {words::movement::CORRECT}
            </button>
            <p class="quiet">{says} " · " {much}</p>
            <p class="quiet">{changes}</p>
            {old_bass(row)}
            <ul class="remarks">{remarks}</ul>
            {when(move || open.get(), move || correcting(row))}
        </li>
    }
    .into_any()
}

fn changes(movement: Movement, staff: &StaffRow) -> String {
    let changes = staff.changes.iter();
    let said = changes.map(|(label, bar)| words::movement::changes_to(label, &movement.printed(*bar)));
    said.collect::<Vec<_>>().join(", ")
}

fn old_bass(row: Derived<Option<Row>>) -> AnyView {
    let movement = Movement::get();
    let found = move || row.map(|row| row.staff.old_bass.is_some()) == Some(true);
    let part = move || {
        let said = live(move || {
            let old = row.map(|row| row.staff.old_bass.clone()).flatten()?;
            Some(words::movement::old_bass(
                old.notes,
                &words::movement::bar_list(&old.bars, &|bar| movement.printed(bar)),
            ))
        });
        let is_read: Live<bool> = Box::new(move || {
            row.map(|row| row.staff.old_bass.as_ref().is_some_and(|old| old.is_read)) == Some(true)
        });
        let read = hear(move |_: Event| {
            let staff = row.with_untracked(|row| row.as_ref().map(|row| row.staff.clone()));
            if let Some(staff) = staff {
                movement.correct(staff.staff, |one| one.old_bass = !one.old_bass);
            }
        });
        view! {
            <div class="remarks">
                <p>{said}</p>
                <label class="tick">
                    <input type="checkbox" prop:checked=is_read on:change=read />
                    <span>{words::movement::READ_AS_OLD}</span>
                </label>
            </div>
        }
        .into_any()
    };
    view! { {when(found, part)} }.into_any()
}

/// The label as print has it, and its readings.
fn correcting(row: Derived<Option<Row>>) -> AnyView {
    let Session { names, .. } = Session::get();
    let movement = Movement::get();
    let staff = move || row.map(|row| row.staff.clone()).unwrap_or_default();
    let label = live(move || Some(staff().label));
    let typed = hear(move |event: Event| {
        let (text, row) = (field::text(&event), untrack(staff));
        movement.correct(row.staff, |one| by_label(one, &row, &text));
    });
    let several = move || !readings::readings(&staff(), names.get()).is_empty();
    let list = move || {
        choice(
            words::movement::READ_AS,
            Arc::new(move || readings::readings(&staff(), names.get())),
            Arc::new(move || readings::value(&staff())),
            Box::new(move |value: String| {
                let row = untrack(staff);
                movement.correct(row.staff, |one| readings::choose(one, &row, &value));
            }),
        )
    };
    view! {
        <div class="row correcting">
            <label class="field">
                <span>{words::movement::AS_PRINTED}</span>
                <input aria-label=words::movement::AS_PRINTED prop:value=label on:change=typed maxlength="200" />
            </label>
            {when(several, list)}
        </div>
    }
    .into_any()
}
