//! One system: the written staff over the sounding one, and between them how each note is made.

use crate::components::column_cell::column_cell;
use crate::components::live::{each, either, live, when};
use crate::components::written_staff::written_staff;
use crate::state::kept::Derived;
use crate::state::score_sheet::System;
use crate::state::session::Session;
use core::ops::Range;
use leptos::prelude::*;

/// A system by its number from the top.
pub fn system_view(at: usize) -> AnyView {
    let session = Session::get();
    let system = Derived::new(move || session.sheet.get().systems.get(at).cloned());
    let columns = Derived::new(move || match system.get().as_ref() {
        Some(system) => Range::clone(&system.columns),
        None => 0..0,
    });
    let sounding = live(move || {
        let system = system.get();
        let sounding = Option::as_ref(&system).and_then(|system| system.sounding.as_ref());
        sounding.map(|picture| picture.svg.clone()).unwrap_or_default()
    });
    let head = live(move || pixels(Option::as_ref(&system.get()).map_or(0.0, |system| system.head)));
    view! {
        <section class="system">
            {band(system)}
            <h2 class="staff-name">"Written"</h2>
            {written_staff(system)}
            <div class="strip">
                <div class="strip-names" style:width=head aria-hidden="true">{strip_names()}</div>
                {each(columns, move |column| column_cell(column, system))}
            </div>
            <h2 class="staff-name sea">"Sounding"</h2>
            <div class="picture sounding" role="img" aria-label="Sounding staff" inner_html=sounding></div>
        </section>
    }
    .into_any()
}

/// A length for the style sheet, to a tenth of a pixel.
pub(super) fn pixels(length: f64) -> String {
    let tenths = (length * 10.0).round() as i64;
    format!("{}.{}px", tenths / 10, tenths.unsigned_abs() % 10)
}

/// What the rows of the strip are called.
fn strip_names() -> AnyView {
    let session = Session::get();
    let natural = || {
        view! {
            <span class="row-name partial-name">"Partial"</span>
            <span class="row-name">"Drift"<br/>"(cents)"</span>
        }
        .into_any()
    };
    let other = || view! { <span class="row-name">"Sounds"</span> }.into_any();
    either(move || session.view.get().natural_family().is_some(), natural, other).into_any()
}

/// The band behind the selected column.
fn band(system: Derived<Option<System>>) -> AnyView {
    let session = Session::get();
    let place = Derived::new(move || {
        let selected = session.view.get().selected?;
        let system = system.get();
        let system = Option::as_ref(&system)?;
        Some((system.left(selected)?, system.column))
    });
    let part = move || {
        let left = live(move || pixels(place.get().map_or(0.0, |(left, _)| left)));
        let width = live(move || pixels(place.get().map_or(0.0, |(_, width)| width)));
        view! { <div class="band" style:left=left style:width=width></div> }.into_any()
    };
    when(move || place.get().is_some(), part).into_any()
}
