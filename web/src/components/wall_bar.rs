//! The bar on the wall: reveal, step, leave.

use crate::browser::{audio, clock, focus, pointer, screen, sight, style};
use crate::components::live::{live, press, when};
use crate::components::sound_panel::hear_button;
use crate::state::desk::Desk;
use crate::state::document::Document;
use crate::state::hearing::HeardPart;
use crate::state::kept::follow;
use crate::state::session::Session;
use crate::state::wall::{Hidden, Wall};
use crate::words;
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

/// Buttons to reveal, to step and to leave.
pub fn wall_bar() -> AnyView {
    let session = Session::get();
    let Session { desk, wall, .. } = session;
    let reveal = move |what: Hidden| {
        let shown = live(move || Some(wall.shows(what).to_string()));
        let turn = press(move || wall.turn(what));
        view! { <button aria-pressed=shown on:click=turn>{what.name()}</button> }.into_any()
    };
    // Made once: a button that has the focus keeps it when the column changes.
    let revealed =
        move |what: Hidden| when(move || what.is_there(desk.whole.read().is_alone()), move || reveal(what));
    let step = move |name: &'static str, face: &'static str, places: isize| {
        let act = press(move || desk.act(|document| document.select_by(places)));
        view! { <button aria-label=name on:click=act>{face}</button> }.into_any()
    };
    let class = live(move || if wall.alone.get() { "wall-bar alone" } else { "wall-bar" });
    style::WALL.wear();
    leave_alone(wall);
    follow_keys(desk, wall);
    // Stepping never leads out of the window.
    follow(move || {
        let _ = desk.view.read();
        sight::bring(SELECTED);
    });
    // The bar at the head is gone with the button that was pressed.
    focus::to("wall-bar".to_owned());
    view! {
        <header>
        <h1 class="unseen">{words::frame::ON_THE_WALL}</h1>
        <div class=class id="wall-bar" tabindex="-1" role="group" aria-label=words::frame::ON_THE_WALL>
            {step(words::frame::STEP_BACK, "◀", -1)}
            {step(words::frame::STEP_ON, "▶", 1)}
            {Hidden::ALL.map(revealed).into_iter().collect::<Vec<_>>()}
            {audio::is_there().then(|| hear_button(session, HeardPart::Column))}
            <button on:click=press(move || leave(wall))>{words::frame::LEAVE_THE_WALL}</button>
        </div>
        </header>
    }
    .into_any()
}

/// What is brought into the window: the band of the selected column, and the staff that is selected.
const SELECTED: &[&str] = &[".band", ".staff-label[aria-current]"];

/// Lets the controls leave when nobody uses them, until something is touched or moved.
fn leave_alone(wall: Wall) {
    let used = StoredValue::new(clock::now());
    pointer::on_use(move || used.set_value(clock::now()));
    clock::tick(move || wall.rests(clock::now() - used.get_value()));
}

/// Goes to the wall: everything hidden, the first column selected.
pub fn enter(desk: Desk, wall: Wall) {
    wall.enter();
    if desk.view.read_untracked().selected.is_none() {
        desk.act(|document| document.select(Some(0)));
    }
    screen::fill();
}

fn leave(wall: Wall) {
    wall.leave();
    screen::give_back();
    focus::to("wall".to_owned());
}

/// Arrows and a clicker step through the columns, arrows from staff to staff, and Escape leaves.
fn follow_keys(desk: Desk, wall: Wall) {
    screen::on_wall_keys(
        move |places| desk.act(|document: &mut Document| document.select_by(places)),
        move || leave(wall),
    );
    screen::on_key(move |event: KeyboardEvent| {
        if event.default_prevented() {
            return;
        }
        match event.key().as_str() {
            "ArrowUp" => desk.select_staff_by(-1),
            "ArrowDown" => desk.select_staff_by(1),
            _ => return,
        }
        event.prevent_default();
    });
}
