//! The app: makes the session, keeps what is made, lays out the page.

use crate::browser::{address, clock, field, measure, popover};
use crate::components::dock::dock;
use crate::components::header::header;
use crate::components::icon::SIGNS;
use crate::components::lasting;
use crate::components::later::{Deed, Fetched, later};
use crate::components::live::{live, when};
use crate::components::new_version::new_version;
use crate::components::notice::notice;
use crate::components::wall_bar::wall_bar;
use crate::places::crooks::crooks;
use crate::places::practise::practise;
use crate::places::read::read;
use crate::places::score::score;
use crate::route;
use crate::state::kept::{Derived, follow};
use crate::state::opening::{self, Brought, Opening};
use crate::state::score_sheet::Room;
use crate::state::session::Session;
use crate::store::{Begun, Store, drawers};
use crate::words;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::wasm_split;
use std::sync::Arc;

/// The address, and what it brings.
pub async fn arrival() -> (String, Brought) {
    let hash = address::hash();
    let brought = route::brought(&hash).await;
    (hash, brought)
}

/// The whole page, in a window that has begun, at an address and what that brings.
#[must_use]
pub fn app(begun: Begun, hash: &str, brought: &Brought) -> AnyView {
    lasting::provide_owner();
    let Opening { page, notice: sentence } = opening::of(hash, brought, begun.desk.page.as_deref());
    let said = sentence.or_else(|| words::kept::set_aside(begun.found.damaged, begun.found.newer));
    let session = Session::new(
        page,
        begun.preferences,
        said,
        Room::wide((measure::window_width() - 90.0).min(800.0)),
        clock::chance(),
    );
    let wall = session.wall;
    let store = Store::new(begun, session.notices);
    provide_context(session);
    provide_context(store);
    route::follow(session, store, hash, brought);
    keep(session, store);
    popover::tell_places();
    field::leave_when_pressed();
    // Made anew for another place, not for another screen of one.
    let place = Derived::new(move || session.place().name());
    let elsewhere = live(move || match place.get() {
        words::frame::PRACTISE => Some(later(|| Box::pin(fetched_practise()))),
        words::frame::SCORE => Some(later(|| Box::pin(fetched_score()))),
        words::frame::CROOKS => Some(later(|| Box::pin(fetched_crooks()))),
        _ => None,
    });
    view! {
        <div class="glyph-store" inner_html=crookwise_engraving::svg::glyph_defs() + SIGNS></div>
        <div class=live(move || wall.class())>
        {header()}
        {when(move || wall.is_on(), || later(|| Box::pin(fetched_wall_bar())))}
        <main>
            {notice()}
            {new_version()}
            {when(move || session.place().is_read(), read)}
            {elsewhere}
        </main>
        <footer>
            <p>{words::frame::FACTS_CARRY_SOURCES}</p>
            <p><a href="licences.txt">{words::frame::LICENCES_OF_FONTS_AND_LIBRARIES}</a></p>
        </footer>
        {when(move || session.place().is_read() && !wall.is_on(), dock)}
        </div>
    }
    .into_any()
}

#[wasm_split(practise, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_practise() -> Fetched {
    Ok(practise())
}

#[wasm_split(score, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_score() -> Fetched {
    Ok(score())
}

#[wasm_split(crooks, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_crooks() -> Fetched {
    Ok(crooks())
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_wall_bar() -> Fetched {
    Ok(wall_bar())
}

/// Keeps what the reader makes and wishes.
fn keep(session: Session, store: Store) {
    let desk = session.desk;
    let mut first = true;
    follow(move || {
        let preferences = session.preferences();
        if !core::mem::take(&mut first) {
            store.keep_preferences(preferences);
        }
    });
    if store.something_waits() {
        tidy(store);
    }
    // Only what the reader did is kept: a link that was merely looked at leaves the desk alone.
    let mut began = None;
    follow(move || {
        let document = desk.document();
        if document.changes() == 0 {
            began = Some(Arc::clone(document.page()));
            return;
        }
        if store.keep_desk(began.as_deref(), document.page()) {
            began = None;
            if store.has_before() {
                tidy(store);
            }
        }
    });
}

/// Takes what waits into the drawers. Their code is fetched first; where it cannot be, it waits on.
fn tidy(store: Store) {
    spawn_local(async move { drop(fetched_tidy(store).await) });
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_tidy(store: Store) -> Deed {
    spawn_local(drawers::tidy(store));
    Ok(())
}
