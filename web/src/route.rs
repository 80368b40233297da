//! The address and where the reader is, kept in step: what the reader does is written into the address, what he puts there
//! is opened. The window is named after it. Places and screens are steps of the browser's history; what is made there is none.

use crate::browser::address;
use crate::components::later::{self, Deed, Doing};
use crate::state::kept;
use crate::state::opening::Brought;
use crate::state::place::{AppPlace, CameBy};
use crate::state::session::Session;
use crate::store::{Store, drawers};
use crate::words;
use crookwise_share::crooks::CrooksView;
use crookwise_share::{Link, LinkError};
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::{SplitLoaderError, wasm_split};

/// Where a step of the history leads: the place with its screen, in Score whether a part is on paper, in Crooks what is looked
/// at.
type Step = (AppPlace, bool, CrooksView);

/// What the address says now: the step, and the text as it would be written here.
type Stands = (Step, String);

/// A link as far as it can be opened.
type Opened = Result<Option<Link>, LinkError>;

/// What the address brings when the app is started. Only a packed link waits for code of its own.
pub async fn brought(hash: &str) -> Brought {
    let opened = if Link::is_packed(hash) {
        fetched_link(hash.to_owned()).await.map_err(|_| words::PART_MISSING.to_owned())?
    } else {
        Link::decode_readable(hash)
    };
    opened.map_err(|error| error.to_string())
}

/// Goes where the address leads, now and from now on, and writes there where the reader is.
pub fn follow(session: Session, store: Store, hash: &str, brought: &Brought) {
    match brought {
        Ok(Some(Link::Practise(link))) => {
            session.whereabouts.open(link.clone(), &session.desk.page.read_untracked().passage);
        }
        Ok(Some(Link::Kept(name))) => fetch(session, store, name.clone()),
        Ok(Some(Link::Score(pairs))) => session.whereabouts.open_score(pairs.clone()),
        Ok(Some(Link::Crooks(sent))) => session.whereabouts.open_crooks(sent.clone(), CameBy::Link),
        // The page of Read lies on the desk already.
        _ => {}
    }
    let stands = StoredValue::new((untrack(|| step(session)), meaning(hash, brought)));
    address::stay();
    address::on_change(move |text| {
        let came = if address::was_here() { CameBy::Step } else { CameBy::Link };
        address::stay();
        if Link::is_packed(&text) {
            let opening =
                move || -> Doing { Box::pin(fetched_opening(session, store, stands, text.clone())) };
            later::act(session.notices, Box::new(opening));
        } else {
            open(session, store, stands, (&text, came), Link::decode_readable(&text));
        }
    });
    kept::follow(move || {
        write(session, stands);
        address::entitle(&session.title());
    });
}

#[wasm_split(packed, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_link(text: String) -> Result<Opened, SplitLoaderError> {
    Ok(Link::decode(&text))
}

#[wasm_split(packed, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_opening(session: Session, store: Store, stands: StoredValue<Stands>, text: String) -> Deed {
    // Unless the reader has gone elsewhere meanwhile.
    if address::hash() == text {
        // Crooks, which alone asks how one came, is never packed.
        open(session, store, stands, (&text, CameBy::Link), Link::decode(&text));
    }
    Ok(())
}

/// Goes where an address leads.
fn open(
    session: Session,
    store: Store,
    stands: StoredValue<Stands>,
    (text, came): (&str, CameBy),
    link: Opened,
) {
    let meaning = meaning(text, &link);
    let opened = session.open(link, came);
    stands.set_value((untrack(|| step(session)), meaning));
    match opened {
        Ok(None) => untrack(|| write(session, stands)),
        Ok(Some(name)) => fetch(session, store, name),
        Err(_) => {}
    }
}

/// Puts the page of a name on the desk.
fn fetch(session: Session, store: Store, name: String) {
    later::act(session.notices, Box::new(move || Box::pin(fetched_page(session, store, name.clone()))));
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_page(session: Session, store: Store, name: String) -> Deed {
    spawn_local(async move {
        // Where the browser refuses, the store has said so.
        if let Ok(found) = drawers::page_named(store, &name).await {
            session.show_kept(&name, found);
        }
    });
    Ok(())
}

/// The address as it would be written here. One that cannot be opened stands for itself, so that it stays until something
/// is done.
fn meaning<E>(text: &str, link: &Result<Option<Link>, E>) -> String {
    match link {
        Ok(Some(link)) => link.encode(),
        Ok(None) => Link::READ.to_owned(),
        Err(_) => text.to_owned(),
    }
}

fn step(session: Session) -> Step {
    let place = session.place();
    let view = if place == AppPlace::Crooks { session.whereabouts.crooks_view() } else { CrooksView::Plans };
    (place, session.whereabouts.is_on_paper(), view)
}

fn write(session: Session, stands: StoredValue<Stands>) {
    let (step, text) = (step(session), session.address());
    let (step_before, before) = stands.get_value();
    // Nobody has made anything yet: the address stays bare.
    let bare = before == Link::READ && step.0.is_read() && session.desk.is_bare();
    if text == before || (bare && step_before == step) {
        return;
    }
    if step == step_before {
        address::replace(&text);
    } else {
        address::push(&text);
    }
    stands.set_value((step, text));
}
