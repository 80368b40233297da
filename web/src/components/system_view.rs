//! One system: the written staves, under each how its notes are made, and what sounds.

use crate::components::column_cell::column_cell;
use crate::components::later::{Fetched, later};
use crate::components::live::{each, either, live, when};
use crate::components::margin_field::label_field;
use crate::components::margin_label::{Columns, label_button};
use crate::components::touched_staff::touched_staff;
use crate::state::gesture::Target;
use crate::state::kept::Derived;
use crate::state::score_sheet::SheetSystem;
use crate::state::session::Session;
use crate::words;
use core::ops::Range;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// A system by its number from the top.
pub fn system_view(at: usize) -> AnyView {
    let Session { desk, stand, .. } = Session::get();
    let system = Derived::new(move || stand.sheet.read().systems.get(at).cloned());
    let columns = Derived::new(move || system.map(|system| system.columns.clone()).unwrap_or_default());
    let staves = Derived::new(move || 0..desk.whole.read().staves.len());
    let sounding = Derived::new(move || 0..system.map(|system| system.sounding.len()).unwrap_or_default());
    let class = live(move || match (desk.whole.read().is_alone(), stand.sheet.read().margin > 0.0) {
        (true, _) => "system",
        (false, false) => "system several",
        (false, true) => "system several margined close",
    });
    let margin = live(move || pixels(stand.sheet.read().margin));
    let width = live(move || {
        let runs = stand.sheet.with(|sheet| sheet.runs);
        pixels(system.map(SheetSystem::width).filter(|_| runs).unwrap_or_default())
    });
    view! {
        <section class=class style=("--margin", margin) style=("--width", width)>
            {band(system)}
            {each(staves, move |staff| staff_block(staff, system, columns))}
            <div class="staff-block sounding">
                <h2 class="staff-name sea">{words::staves::SOUNDING}</h2>
                <div>{each(sounding, move |at| touched_staff(system, Target::Sounding(at)))}</div>
            </div>
        </section>
    }
    .into_any()
}

/// A written staff with its name over it and its players' notes under it.
fn staff_block(
    staff: usize,
    system: Derived<Option<SheetSystem>>,
    columns: Derived<Range<usize>>,
) -> AnyView {
    let Session { desk, stand, .. } = Session::get();
    let players =
        Derived::new(move || 0..desk.whole.read().staves.get(staff).map_or(0, |staff| staff.players.len()));
    let class =
        live(move || match (desk.whole.read().staff == staff, players.with(|players| players.len() > 1)) {
            (false, _) if !stand.sheet.with(|sheet| sheet.near.contains(&staff)) => "staff-block far",
            (false, _) => "staff-block",
            (true, false) => "staff-block chosen",
            (true, true) => "staff-block chosen players",
        });
    let number = live(move || players.with(ExactSizeIterator::len).to_string());
    view! {
        <div class=class style=("--players", number)>
            {staff_head(staff, columns)}
            <div>
                {touched_staff(system, Target::Written(staff))}
                {each(players, move |player| strip((staff, player), system, columns))}
            </div>
        </div>
    }
    .into_any()
}

/// The notes of one player.
fn strip(
    on: (usize, usize),
    system: Derived<Option<SheetSystem>>,
    columns: Derived<Range<usize>>,
) -> AnyView {
    let Session { desk, .. } = Session::get();
    let head = live(move || pixels(system.map(|system| system.head).unwrap_or_default()));
    let name = live(move || {
        let whole = desk.whole.read();
        whole.staves.get(on.0).and_then(|staff| staff.names.get(on.1)).cloned().unwrap_or_default()
    });
    view! {
        <div class="strip" role="group" aria-label=name style=("--player", on.1.to_string())>
            <div class="strip-names" style:width=head aria-hidden="true">{strip_names(on)}</div>
            {each(columns, move |column| column_cell(on, column, system))}
        </div>
    }
    .into_any()
}

/// What stands over a staff: "Written" for a single one, on the wall what the score prints, where no field shows it; else
/// its label, which selects it, and is edited in place where it stands beside the selected staff.
fn staff_head(staff: usize, columns: Columns) -> AnyView {
    let Session { desk, stand, wall, .. } = Session::get();
    let single = move || {
        let name = live(move || {
            let printed = desk.whole.read().staves.first().map(|staff| staff.label.clone());
            printed
                .filter(|label| wall.is_on() && !label.is_empty())
                .unwrap_or_else(|| words::staves::WRITTEN.into())
        });
        view! { <h2 class="staff-name">{name}</h2> }.into_any()
    };
    let edited = move || {
        let here = desk.whole.with(|whole| whole.staff == staff);
        // Later systems say what holds there.
        here && columns.read().start == 0
            && stand.sheet.with(|sheet| sheet.margin > 0.0)
            && !wall.is_on()
            && !desk.shows_setup()
    };
    let field = move || later(move || Box::pin(fetched_field(staff, columns)));
    let several = move || either(edited, field, move || label_button(staff, columns)).into_any();
    either(move || desk.whole.read().staves.len() > 1, several, single).into_any()
}

#[wasm_split(beside, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_field(staff: usize, columns: Columns) -> Fetched {
    Ok(label_field(staff, columns))
}

/// A length for the style sheet, to a tenth of a pixel.
pub(super) fn pixels(length: f64) -> String {
    let tenths = (length * 10.0).round() as i64;
    format!("{}.{}px", tenths / 10, tenths.unsigned_abs() % 10)
}

/// What the rows of the strip are called; where a staff has several players, which of them it is.
fn strip_names((staff, player): (usize, usize)) -> AnyView {
    let Session { desk, .. } = Session::get();
    let named = live(move || {
        let whole = desk.whole.read();
        let natural = whole.voice(staff, player).is_some_and(|view| view.natural_family().is_some());
        let name = |class: &'static str, text: String| view! { <span class=class>{text}</span> }.into_any();
        match (whole.is_alone(), natural) {
            (true, true) => vec![
                name("row-name partial-name", words::staves::PARTIAL.into()),
                name("row-name", words::staves::DRIFT_CENTS.into()),
            ],
            (true, false) => vec![name("row-name", words::staves::SOUNDS.into())],
            (false, _) => {
                let players = whole.staves.get(staff).map_or(1, |staff| staff.players.len());
                let text = if players > 1 { (player + 1).to_string() } else { String::new() };
                vec![name("row-name player-name", text)]
            }
        }
    });
    view! { {named} }.into_any()
}

/// The band behind the selected column.
fn band(system: Derived<Option<SheetSystem>>) -> AnyView {
    let Session { stand, .. } = Session::get();
    let place = Derived::new(move || {
        let margin = stand.sheet.read().margin;
        let (left, width) = system.and_then(|system| stand.selected_in(system))?;
        Some((margin + left, width))
    });
    let part = move || {
        let left = live(move || pixels(place.read().map_or(0.0, |(left, _)| left)));
        let width = live(move || pixels(place.read().map_or(0.0, |(_, width)| width)));
        view! { <div class="band" style:left=left style:width=width></div> }.into_any()
    };
    when(move || place.is_some(), part).into_any()
}
