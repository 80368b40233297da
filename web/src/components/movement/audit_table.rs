//! The audit: a row for every crook of every staff of brass, each kind of note leading to its bars, each bar to Read.

use crate::components::live::{Live, each, hear, live, press, when};
use crate::components::movement::deeds::Deeds;
use crate::state::kept::Derived;
use crate::state::movement::Movement;
use crate::state::movement::audited::{self, AskedNotes};
use crate::state::session::Session;
use crate::words;
use crookwise_opened::{AuditLineRow, AuditStaff};
use leptos::ev::Event;
use leptos::prelude::*;

/// A crook of a staff, each by its place in the audit.
type Place = (usize, usize);

/// The table, and how it goes out.
pub fn audit_table() -> AnyView {
    let movement = Movement::get();
    let deeds = Deeds::get();
    let places: Derived<Vec<Place>> = Derived::new(move || {
        movement.audit.with(|audit| {
            let staves = audit.as_deref().unwrap_or_default().iter().enumerate();
            staves.flat_map(|(at, staff)| (0..staff.crooks.len()).map(move |crook| (at, crook))).collect()
        })
    });
    let row =
        move |at: usize| crook_row(Derived::new(move || places.read().get(at).copied().unwrap_or_default()));
    let Session { names, .. } = Session::get();
    let csv = press(move || deeds.save_csv(names.get_untracked()));
    let table = move || {
        view! {
            <table class="audit" aria-label=words::movement::AUDIT>
                <thead>
                    <tr>
                        <th scope="col">{words::movement::PART_AND_CROOK}</th>
                        <th scope="col">{words::movement::ON_THE_SERIES}</th>
                        <th scope="col">{words::movement::LOWEST}</th>
                        <th scope="col">{words::movement::HIGHEST}</th>
                        <th scope="col">{words::movement::ABOVE_THE_TWELFTH}</th>
                    </tr>
                </thead>
                {each(Derived::new(move || 0..places.read().len()), row)}
            </table>
        }
        .into_any()
    };
    let is_made = move || movement.audit.is_some();
    let some = move || !places.read().is_empty();
    let none = || view! { <p>{words::movement::NO_NATURAL_BRASS}</p> }.into_any();
    let waits = || view! { <p role="status">{words::movement::IS_BEING_AUDITED}</p> }.into_any();
    let too: Live<bool> = Box::new(move || movement.valves_too.get());
    let valves = hear(move |_: Event| movement.valves_too.update(|too| *too = !*too));
    view! {
        <section class="card audited">
            <h2 class="prompt" id="audit-name" tabindex="-1">{words::movement::AUDIT}</h2>
            <p class="quiet">{words::movement::AUDIT_IS_A_GUIDE}</p>
            {when(move || !is_made(), waits)}
            {when(move || is_made() && !some(), none)}
            {when(some, table)}
            {changes()}
            <div class="row">
                <label class="tick">
                    <input type="checkbox" prop:checked=too on:change=valves />
                    <span>{words::movement::VALVES_TOO}</span>
                </label>
                <button disabled=live(move || !some()) on:click=csv>{words::movement::SAVE_CSV}</button>
            </div>
        </section>
    }
    .into_any()
}

/// Looks at a crook, where it is still there.
fn looked<T>(
    movement: Movement,
    place: Place,
    look: impl FnOnce(&AuditStaff, &AuditLineRow) -> T,
) -> Option<T> {
    movement.audit.with(|audit| {
        let staff = audit.as_deref()?.get(place.0)?;
        Some(look(staff, staff.crooks.get(place.1)?))
    })
}

fn crook_row(place: Derived<Place>) -> AnyView {
    let Session { names, .. } = Session::get();
    let movement = Movement::get();
    let name = live(move || looked(movement, place.get(), |staff, _| staff.name.clone()));
    let crook = live(move || looked(movement, place.get(), |_, line| line.crook.clone()));
    let on = live(move || {
        looked(movement, place.get(), |_, line| {
            words::movement::so_many_of(audited::on_series(line), line.attacks)
        })
    });
    let kinds = Derived::new(move || {
        looked(movement, place.get(), |_, line| audited::kinds(line)).unwrap_or_default()
    });
    let kind =
        move |at: usize| kind_button(place, Derived::new(move || kinds.read().get(at).copied().unwrap_or(0)));
    let here = move || movement.shown.map(|shown| (shown.staff, shown.crook)) == Some(place.get());
    let high = move || {
        looked(movement, place.get(), |staff, line| {
            let high = line.high.as_ref()?;
            let said = words::movement::high(high.attacks, &high.quarters, &movement.printed(high.bar));
            Some((staff.staff, high.note, said))
        })
        .flatten()
    };
    let extreme = move |highest: bool| {
        looked(movement, place.get(), |staff, line| {
            let (written, note, _) = if highest { line.highest.as_ref() } else { line.lowest.as_ref() }?;
            Some((staff.staff, *note, words::movement::written(written, names.get())))
        })
        .flatten()
    };
    view! {
        <tbody>
            <tr>
                <th scope="row">{name} <small>{crook}</small></th>
                <td data-name=words::movement::ON_THE_SERIES>{on}</td>
                <td data-name=words::movement::LOWEST>{leads(move || extreme(false))}</td>
                <td data-name=words::movement::HIGHEST>{leads(move || extreme(true))}</td>
                <td data-name=words::movement::ABOVE_THE_TWELFTH>{leads(high)}</td>
            </tr>
            <tr class="kinds-row">
                <td colspan="5">
                    <div class="kinds" role="group" aria-label=words::movement::KINDS_OF_NOTES>
                        {each(Derived::new(move || 0..kinds.read().len()), kind)}
                    </div>
                    {when(here, bars)}
                </td>
            </tr>
        </tbody>
    }
    .into_any()
}

/// A note that leads to its place: its staff, its number, what it says.
fn leads(to: impl Fn() -> Option<(u32, u32, String)> + Copy + Send + Sync + 'static) -> AnyView {
    let deeds = Deeds::get();
    let there = move || to().is_some();
    let link = move || {
        let go = press(move || {
            if let Some((staff, note, _)) = untrack(to) {
                deeds.show_note(staff, note);
            }
        });
        view! { <button class="leads" on:click=go>{live(move || to().map(|(.., said)| said))}</button> }
            .into_any()
    };
    view! { {when(there, link)} }.into_any()
}

fn kind_button(place: Derived<Place>, kind: Derived<usize>) -> AnyView {
    let movement = Movement::get();
    let it = move || AskedNotes { staff: place.get().0, crook: place.get().1, kind: kind.get() };
    let Session { names, .. } = Session::get();
    let row = Derived::new(move || {
        looked(movement, place.get(), |_, line| line.notes.get(kind.get()).cloned()).flatten()
    });
    let name = live(move || row.map(|row| words::movement::kind(&row.how, names.get())));
    let many = live(move || row.map(|row| row.notes.len().to_string()));
    let class = live(move || {
        let off = row.map(audited::is_off) == Some(true);
        if off { "kind off" } else { "kind" }
    });
    let expanded = live(move || Some((movement.shown.get() == Some(it())).to_string()));
    let act = press(move || {
        let it = untrack(it);
        let now = movement.shown.get_untracked();
        movement.shown.set((now != Some(it)).then_some(it));
    });
    view! { <button class=class aria-expanded=expanded on:click=act>{name} " " <b>{many}</b></button> }
        .into_any()
}

/// The bars of the notes that were asked for.
fn bars() -> AnyView {
    let movement = Movement::get();
    let deeds = Deeds::get();
    let found = move || {
        movement.shown.get().and_then(|shown| {
            movement.audit.with(|audit| {
                audited::shown(audit.as_deref()?, shown).map(|(staff, row)| (staff.staff, audited::bars(row)))
            })
        })
    };
    let links = live(move || {
        let Some((staff, (bars, more))) = found() else { return Vec::new() };
        let link = |one: audited::BarOfNotes| {
            let said = words::movement::bar_of_notes(&movement.printed(one.bar), one.notes);
            let go = press(move || deeds.show_note(staff, one.note));
            view! { <button class="leads" on:click=go>{said}</button> }.into_any()
        };
        let mut views: Vec<AnyView> = bars.into_iter().map(link).collect();
        if more > 0 {
            views.push(view! { <span>{words::movement::and_more(more)}</span> }.into_any());
        }
        views
    });
    view! { <div class="kinds bars">{links}</div> }.into_any()
}

/// The changes of crook, each leading to the note after it.
fn changes() -> AnyView {
    let movement = Movement::get();
    let deeds = Deeds::get();
    let all = move || {
        movement.audit.with(|audit| {
            let staves = audit.as_deref().unwrap_or_default().iter();
            let of_staff = |staff: &AuditStaff| {
                let rows: Vec<(u32, u32, String)> = staff
                    .changes
                    .iter()
                    .map(|change| {
                        let bar = movement.printed(change.bar);
                        let said = words::movement::change(&bar, &change.from, &change.to, &change.quarters);
                        (staff.staff, change.note, words::kept::of(&staff.name, &said))
                    })
                    .collect();
                rows
            };
            staves.flat_map(of_staff).collect::<Vec<_>>()
        })
    };
    let list = move || {
        let rows = live(move || {
            let row = |(staff, note, said): (u32, u32, String)| {
                let go = press(move || deeds.show_note(staff, note));
                view! { <li><button class="leads" on:click=go>{said}</button></li> }.into_any()
            };
            all().into_iter().map(row).collect::<Vec<_>>()
        });
        view! {
            <h2>{words::movement::CHANGES_OF_CROOK}</h2>
            <ul class="plain">{rows}</ul>
        }
        .into_any()
    };
    view! { {when(move || !all().is_empty(), list)} }.into_any()
}
