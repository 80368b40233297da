//! The app: makes the session, keeps address and storage in step, lays out the page.

use crate::browser::{address, measure, storage};
use crate::components::header::header;
use crate::components::later::{Fetched, later};
use crate::components::live::{live, when};
use crate::components::new_version::new_version;
use crate::components::notice::notice;
use crate::components::wall_bar::{follow_keys, wall_bar};
use crate::places::practise::practise;
use crate::places::read::read;
use crate::state::opening::{self, Opening};
use crate::state::place::Place;
use crate::state::preferences::Preferences;
use crate::state::score_sheet::Room;
use crate::state::session::Session;
use crate::words;
use crookwise_share::ReadPage;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;
use std::sync::Arc;

/// Where the reader's own page is kept.
const OWN_PAGE: &str = "crookwise.page";

/// Where the reader's preferences are kept.
const PREFERENCES: &str = "crookwise.preferences";

/// The whole page.
#[must_use]
pub fn app() -> AnyView {
    let Opening { page, notice: sentence } =
        opening::of(&address::hash(), storage::read(OWN_PAGE).as_deref());
    let preferences = Preferences::read(&storage::read(PREFERENCES).unwrap_or_default());
    let session = Session::new(
        page,
        preferences,
        sentence,
        Room { width: (measure::window_width() - 90.0).min(800.0), wall: false },
    );
    let Session { wall, place, .. } = session;
    provide_context(session);
    follow(session);
    follow_keys(session.desk, wall);
    view! {
        <div class="glyph-store" inner_html=crookwise_engraving::svg::glyph_defs()></div>
        <div class=live(move || wall.class())>
        {header()}
        {when(move || wall.is_on(), || later(|| Box::pin(fetched_wall_bar())))}
        <main>
            {notice()}
            {new_version()}
            {when(move || place.read().is_read(), read)}
            {when(move || !place.read().is_read(), || later(|| Box::pin(fetched_practise())))}
        </main>
        <footer>
            <p>{words::frame::FACTS_CARRY_SOURCES}</p>
            <p><a href="licences.txt">{words::frame::LICENCES_OF_FONTS_AND_LIBRARIES}</a></p>
        </footer>
        </div>
    }
    .into_any()
}

#[wasm_split(practise, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_practise() -> Fetched {
    Ok(practise())
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_wall_bar() -> Fetched {
    Ok(wall_bar())
}

/// Keeps the address, the storage and the session in step.
fn follow(session: Session) {
    let Session { desk, notices, place, .. } = session;
    place.set(Place::of(&address::hash()));
    address::on_hash_change(move |hash| {
        let named = Place::of(&hash);
        let read = named.is_read();
        place.set(named);
        if read && hash != untrack(|| desk.link()) {
            desk.open_link(&hash);
        }
    });
    Effect::new(move |first: Option<()>| {
        let preferences = session.preferences();
        if first.is_some() {
            storage::write(PREFERENCES, &preferences.write());
        }
    });
    // Only what the reader did is kept: a link that was merely looked at leaves the kept page alone.
    let mut opened = None;
    let mut refused = false;
    Effect::new(move |_| {
        if !place.read().is_read() {
            return;
        }
        let document = desk.document();
        if document.changes() == 0 {
            opened = Some(Arc::clone(document.page()));
            return;
        }
        let link = desk.link();
        address::replace_hash(&link);
        let safe = opened.take().is_none_or(|opened| set_aside(&opened, document.page()));
        let kept = safe && storage::write(OWN_PAGE, &link);
        if !kept && !refused {
            notices.say(words::NOT_KEPT);
        }
        refused = !kept;
    });
}

/// Before the first change of a page that was opened is kept: the reader's page that was kept before makes way, and goes
/// among the named pages when they are next looked at. False where the device refuses.
fn set_aside(opened: &ReadPage, now: &ReadPage) -> bool {
    let Some(kept) = storage::read(OWN_PAGE) else { return true };
    if !opening::would_be_lost(&kept, opened, now) {
        return true;
    }
    let before = storage::read(storage::SET_ASIDE).unwrap_or_default();
    storage::write(storage::SET_ASIDE, &(before + &kept + "\n"))
}
