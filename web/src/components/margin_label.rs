//! The label of a staff in the margin of the page.

use crate::browser::focus;
use crate::components::live::{live, press};
use crate::components::staff_sheet::SHEET;
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::words;
use core::ops::Range;
use leptos::prelude::*;

/// The columns of a system.
pub(super) type Columns = Derived<Range<usize>>;

/// The field of the selected staff's label.
pub const LABEL: &str = "margin-label";

/// As the score prints it.
pub(super) fn label(staff: usize) -> impl Fn() -> String + Copy {
    let Session { desk, .. } = Session::get();
    move || desk.whole.read().staves.get(staff).map(|staff| staff.label.clone()).unwrap_or_default()
}

/// What stands at the head of a system: the label, or what holds where the crook has changed before.
fn holds(staff: usize, columns: Columns) -> impl Fn() -> String + Copy {
    let Session { desk, .. } = Session::get();
    let label = label(staff);
    move || {
        let whole = desk.whole.read();
        let before = whole.staves.get(staff).map(|staff| staff.directions.as_slice()).unwrap_or_default();
        let last = before.iter().take(columns.read().start).flatten().last();
        last.map_or_else(label, |last| words::changes::held(last).to_owned())
    }
}

/// What it means at the beginning of a system, in few words.
pub(super) fn meaning(staff: usize, columns: Columns) -> AnyView {
    let Session { desk, .. } = Session::get();
    let words = live(move || {
        let whole = desk.whole.read();
        let place = whole.voice(staff, 0).and_then(|view| view.place_at(columns.read().start));
        place.filter(|place| place.transposition().is_some()).map(|place| {
            let interval = place.notation().printed_to_sounding();
            words::sounds_shortly(place.staff.is_pitched().then_some(interval))
        })
    });
    view! { <small>{words}</small> }.into_any()
}

/// A button that selects the staff; its notes get the keyboard.
pub fn label_button(staff: usize, columns: Columns) -> AnyView {
    let Session { desk, .. } = Session::get();
    let chosen = live(move || (desk.whole.read().staff == staff).then(|| "true".to_owned()));
    let select = move || {
        desk.act(|document| document.select_on(staff, 0, None));
        focus::to_inside(SHEET, desk.selected_element());
    };
    view! {
        <button class="staff-label" aria-current=chosen on:click=press(select)>
            <span>{live(holds(staff, columns))}</span>
            {meaning(staff, columns)}
        </button>
    }
    .into_any()
}
