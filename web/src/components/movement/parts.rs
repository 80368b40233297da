//! The parts of the movement: chosen, decoded, remarked on, corrected.

use crate::browser::{field, focus};
use crate::components::choice::choice;
use crate::components::key_action::go_back_by_keys;
use crate::components::live::{Live, each, hear, live, press, when};
use crate::components::movement::turns::{turning, turns_of};
use crate::state::kept::{Derived, Watched, follow};
use crate::state::movement::Movement;
use crate::state::movement::correcting::{as_by_file, by_label};
use crate::state::movement::readings::{self, meaning};
use crate::state::session::Session;
use crate::words;
use crookwise_opened::{PartRow, StaffRow};
use leptos::ev::{Event, KeyboardEvent};
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
    // Which list a staff stands in was settled when the score was opened: no row moves while it is corrected.
    let rows = move |standing_out: bool| {
        Derived::new(move || {
            let first = movement.first.read();
            movement.open.with(|open| {
                let parts = open.as_ref().map(|open| open.summary.parts.as_slice()).unwrap_or_default();
                rows_of(parts)
                    .into_iter()
                    .filter(|row| first.contains(&row.staff.staff) == standing_out)
                    .collect::<Vec<Row>>()
            })
        })
    };
    let (first, others) = (rows(true), rows(false));
    let unfolded = Watched::new(false);
    follow(move || {
        let staff = movement.corrects.get();
        if staff.is_some_and(|staff| others.read().iter().any(|row| row.staff.staff == staff)) {
            unfolded.set(true);
        }
    });
    let folded = move || {
        let name = live(move || {
            let others = others.read();
            let ticked = movement
                .chosen
                .with(|chosen| others.iter().filter(|row| chosen.contains(&row.staff.staff)).count());
            words::movement::other_parts(others.len(), ticked)
        });
        view! {
            <details open=live(move || unfolded.get())>
                <summary>{name}</summary>
                {ticks(others, words::movement::OTHER_PARTS)}
                {list(others, words::movement::OTHER_PARTS)}
            </details>
        }
        .into_any()
    };
    view! {
        <section class="card parts">
            <div class="row parts-head">
                <h2 class="prompt" id="parts-name" tabindex="-1">{words::movement::PARTS}</h2>
                {ticks(first, words::movement::PARTS)}
                {way_back()}
            </div>
            <div role="group" aria-labelledby="parts-name">
                {list(first, words::movement::PARTS)}
                {when(move || !others.read().is_empty(), folded)}
            </div>
        </section>
    }
    .into_any()
}

/// The way back through what was corrected and forth again, which the platform's keys take too; nothing where nothing was.
fn way_back() -> AnyView {
    let movement = Movement::get();
    go_back_by_keys(move || movement.undo(), move || movement.redo());
    let ways = Derived::new(move || movement.ways());
    let buttons = move || {
        let back = press(move || {
            movement.undo();
        });
        let forth = press(move || {
            movement.redo();
        });
        view! {
            <div class="row" role="group" aria-label=words::movement::CORRECTIONS>
                <button disabled=live(move || !ways.get().0) on:click=back>{words::movement::UNDO}</button>
                <button disabled=live(move || !ways.get().1) on:click=forth>{words::movement::REDO}</button>
            </div>
        }
        .into_any()
    };
    when(move || ways.get() != (false, false), buttons).into_any()
}

/// Ticks all of a list, or none of it.
fn ticks(rows: Derived<Vec<Row>>, of: &'static str) -> AnyView {
    let movement = Movement::get();
    let one = |name: &'static str, ticked: bool| {
        let act = press(move || {
            let staves: Vec<u32> = rows.read_untracked().iter().map(|row| row.staff.staff).collect();
            movement.tick(&staves, ticked);
        });
        view! { <button aria-label=words::kept::of(name, of) on:click=act>{name}</button> }.into_any()
    };
    view! { <div class="row">{one(words::movement::ALL, true)} {one(words::movement::NONE, false)}</div> }
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
    let crowded = live(move || row.and_then(|row| readings::crowded(&row.staff)));
    let much = live(move || row.map(|row| words::movement::notes(row.part.notes)));
    let remarks = live(move || {
        let said = row.map(|row| row.part.remarks.clone()).unwrap_or_default();
        said.into_iter().map(|said| view! { <li>{said}</li> }.into_any()).collect::<Vec<_>>()
    });
    let open = Watched::new(false);
    let correct_id = move || correct_id(number());
    let toggle = press(move || {
        if open.update(|open| {
            *open = !*open;
            *open
        }) {
            focus::to(label_id(untrack(number)));
        }
    });
    let shut = Arc::new(move || {
        open.set(false);
        focus::now(&untrack(correct_id));
    });
    let shut_too = Arc::clone(&shut);
    // Who wants it corrected elsewhere is led here.
    follow(move || {
        if movement.corrects.get() == Some(number()) {
            movement.corrects.set(None);
            open.set(true);
            focus::to(label_id(untrack(number)));
        }
    });
    let own = Derived::new(move || row.map(|row| row.staff.clone()).unwrap_or_default());
    let expanded = live(move || Some(open.get().to_string()));
    view! {
        <li class="part">
            <label class="part-name">
                <input type="checkbox" prop:checked=chosen on:change=choose />
                <span>
                    <b>{live(name)}</b>
                    " "
                    <span class="printed-label">{corrected}</span>
                </span>
            </label>
            <button
                class="correct"
                id=live(correct_id)
                aria-expanded=expanded
                aria-label=live(move || words::kept::of(words::movement::CORRECT, &name()))
                on:click=toggle
            >
                {words::movement::CORRECT}
            </button>
            <p class="quiet">{says} " · " {much}</p>
            <p class="quiet">{crowded}</p>
            <p class="quiet">{changes}</p>
            {when(move || row.map(|row| readings::is_corrected(&row.staff)) == Some(true), move || as_the_file_has_it(row))}
            {when(move || open.get(), move || correcting(row, Arc::clone(&shut) as Shut))}
            {when(move || open.get(), move || turning(own, Arc::clone(&shut_too) as Shut))}
            {turns_of(own, self::correct_id)}
            {old_bass(row)}
            <ul class="remarks">{remarks}</ul>
        </li>
    }
    .into_any()
}

/// Shuts what corrects a staff.
type Shut = Arc<dyn Fn() + Send + Sync>;

fn correct_id(staff: u32) -> String {
    format!("correct-{staff}")
}

fn label_id(staff: u32) -> String {
    format!("label-{staff}")
}

/// The way back from what was corrected.
fn as_the_file_has_it(row: Derived<Option<Row>>) -> AnyView {
    let movement = Movement::get();
    let said = live(move || row.map(|row| words::movement::back_to_file(&row.staff.label_by_file)));
    let back = press(move || {
        let staff = row.with_untracked(|row| row.as_ref().map(|row| row.staff.staff));
        if let Some(staff) = staff {
            movement.correct(staff, as_by_file);
            focus::to(correct_id(staff));
        }
    });
    view! { <button class="leads back-to-file" on:click=back>{said}</button> }.into_any()
}

fn changes(movement: Movement, staff: &StaffRow) -> String {
    let changes = staff.changes.iter();
    let of_file = changes.filter(|change| !change.is_corrected);
    let said =
        of_file.map(|change| words::movement::changes_to(&change.label, &movement.printed(change.bar)));
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
fn correcting(row: Derived<Option<Row>>, shut: Shut) -> AnyView {
    let Session { names, .. } = Session::get();
    let movement = Movement::get();
    let staff = move || row.map(|row| row.staff.clone()).unwrap_or_default();
    let label = live(move || Some(staff().label));
    let typed = hear(move |event: Event| {
        let (text, row) = (field::text(&event), untrack(staff));
        if text.trim().is_empty() {
            field::set(&event, &row.label_by_file);
        }
        movement.correct(row.staff, |one| by_label(one, &row, &text));
    });
    // Escape leaves all as it was.
    let key = hear(move |event: KeyboardEvent| {
        if event.key() == "Escape" {
            if field::is_text(&event) {
                field::set(event.as_ref(), &untrack(staff).label);
            }
            shut();
        }
    });
    // The list stays while the label changes: who goes on by the tabulator stands on it by then.
    let list = choice(
        words::movement::READ_AS,
        Arc::new(move || readings::readings(&staff(), names.get())),
        Arc::new(move || readings::value(&staff())),
        Box::new(move |value: String| {
            let row = untrack(staff);
            movement.correct(row.staff, |one| readings::choose(one, &row, &value));
        }),
    );
    let unknown = live(move || {
        let staff = staff();
        meaning(&staff, names.get()).is_none().then(|| words::movement::label_names_nothing(&staff.label))
    });
    view! {
        <div class="row correcting" on:keydown=key>
            <label class="field">
                <span>{words::movement::AS_PRINTED}</span>
                <input
                    id=live(move || label_id(staff().staff))
                    aria-label=words::movement::AS_PRINTED
                    prop:value=label
                    on:change=typed
                    maxlength="200"
                />
            </label>
            {list}
            <p class="problem" role="status">{unknown}</p>
        </div>
    }
    .into_any()
}
