//! The movement on the wall: from entry to entry by keys or a clicker, played, what sounds and what it makes together revealed.

use crate::browser::{audio, focus, screen};
use crate::components::live::{live, press, when};
use crate::components::movement::along_deeds::ReadAlong;
use crate::components::movement::map::MapShown;
use crate::components::movement::playback_dock::play;
use crate::components::movement::player::Player;
use crate::components::sound_panel::caution;
use crate::state::kept::Watched;
use crate::state::movement::music::Music;
use crate::state::movement::on_wall::OnTheWall;
use crate::state::session::Session;
use crate::state::speaker::Caution;
use crate::words;
use leptos::prelude::*;

/// The bar of the wall.
pub(super) const WALL_BAR: &str = "score-wall-bar";
/// The button that plays there.
const PLAY: &str = "wall-play";
/// What leads to the wall.
const OPENER: &str = "score-wall";

/// The button that puts the movement on the wall.
pub fn to_the_wall() -> AnyView {
    let music = Music::get();
    let enter = press(move || {
        music.wall.set(Some(OnTheWall::default()));
        screen::fill();
    });
    view! { <button id=OPENER on:click=enter>{words::frame::ON_THE_WALL}</button> }.into_any()
}

/// Buttons to step, to play, to reveal and to leave.
pub fn wall_bar(map: MapShown) -> AnyView {
    let music = Music::get();
    let reader = ReadAlong::get();
    let is_read = move || reader.player.along.is_on();
    // From entry to entry; of what is read along each is asked, and told, first.
    let step = move |back: bool| match (untrack(is_read), back) {
        (false, _) => map.step(back),
        (true, true) => reader.back(),
        (true, false) => reader.forward(),
    };
    screen::on_wall_keys(move |places| step(places < 0), move || leave(music.wall));
    // The button that was pressed is gone.
    focus::to(WALL_BAR.to_owned());
    let reveal = move |name: &'static str, of: fn(&mut OnTheWall) -> &mut bool| {
        let is = live(move || {
            let mut wall = music.wall.get()?;
            Some(of(&mut wall).to_string())
        });
        let turn = press(move || {
            music.wall.update(|wall| {
                if let Some(wall) = wall {
                    let shown = of(wall);
                    *shown = !*shown;
                }
            });
        });
        view! { <button aria-pressed=is on:click=turn>{name}</button> }.into_any()
    };
    let speaker = Session::get().speaker;
    let cautious = move || speaker.caution.get() == Caution::Said;
    let before = press(move || step(true));
    let next = press(move || step(false));
    let next_name =
        live(move || if is_read() { words::along::REVEAL_OR_GO_ON } else { words::map::NEXT_ENTRY });
    let reveals = move || {
        let sounding = reveal(words::movement::WHAT_SOUNDS, |wall| &mut wall.sounding);
        view! { {sounding} {reveal(words::movement::TOGETHER, |wall| &mut wall.chords)} }.into_any()
    };
    let leave = press(move || leave(music.wall));
    view! {
        <div class="score-wall-bar" id=WALL_BAR tabindex="-1" role="group" aria-label=words::frame::ON_THE_WALL>
            <h1 class="unseen">{words::frame::ON_THE_WALL}</h1>
            {when(cautious, || caution(PLAY))}
            <button aria-label=words::map::ENTRY_BEFORE on:click=before>"←"</button>
            {audio::is_there().then(|| play(Player::get(), Some(PLAY)))}
            <button aria-label=next_name on:click=next>"→"</button>
            {when(move || !is_read(), reveals)}
            <button on:click=leave>{words::frame::LEAVE_THE_WALL}</button>
        </div>
    }
    .into_any()
}

fn leave(wall: Watched<Option<OnTheWall>>) {
    wall.set(None);
    screen::give_back();
    focus::to(OPENER.to_owned());
}
