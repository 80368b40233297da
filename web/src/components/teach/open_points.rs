//! Under the label of a staff that is asked about: what it was decoded to, and lists for what it leaves open.

use crate::components::choice::choice;
use crate::components::live::{live, when};
use crate::components::teach::editor::change;
use crate::state::kept::Derived;
use crate::state::practise::Practise;
use crate::state::practise::open_points::{OpenPoint, changes_to, decoded_to};
use crate::state::session::Session;
use crookwise_practice::AskedStaff;
use leptos::prelude::*;
use std::sync::Arc;

/// What the label was decoded to.
pub fn decoded(staff: Derived<AskedStaff>) -> AnyView {
    let Session { names, .. } = Session::get();
    view! { <p class="quiet decoded">{live(move || Some(decoded_to(&staff.read(), names.get())))}</p> }
        .into_any()
}

/// What it changes to.
pub fn changes_decoded(staff: Derived<AskedStaff>) -> AnyView {
    let Session { names, .. } = Session::get();
    let said = live(move || changes_to(&staff.read(), names.get()));
    let hidden = live(move || changes_to(&staff.read(), names.get()).is_none());
    view! { <p class="quiet decoded" hidden=hidden>{said}</p> }.into_any()
}

/// The lists of what it leaves open.
pub fn open_points(at: usize, staff: Derived<AskedStaff>) -> AnyView {
    OpenPoint::ALL.map(|point| when_open(at, staff, point)).collect_view().into_any()
}

fn when_open(at: usize, staff: Derived<AskedStaff>, point: OpenPoint) -> AnyView {
    let Session { names, .. } = Session::get();
    let practise = Practise::get();
    let open = move || !point.items(&staff.read(), names.get()).is_empty();
    let list = move || {
        choice(
            point.label(),
            Arc::new(move || point.items(&staff.read(), names.get())),
            Arc::new(move || point.value(&staff.read())),
            Box::new(move |value: String| {
                change(practise, |set| {
                    if let Some(staff) = set.staves.get_mut(at) {
                        point.choose(staff, &value);
                    }
                });
            }),
        )
    };
    view! { {when(open, list)} }.into_any()
}
