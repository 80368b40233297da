//! Who is heard, and how it is tuned: the two small lists of playback.

use crate::components::live::{each, live, press, when};
use crate::components::movement::player::Player;
use crate::components::movement::ways::ways;
use crate::state::hearing::HeardAs;
use crate::state::kept::{Derived, Watched};
use crate::state::movement::map::MapState;
use crate::state::movement::playback::Playback;
use crate::state::movement::playback::ensemble::has_unpitched;
use crate::state::settings_form::pitch_text;
use crate::words;
use crate::words::playback as said;
use leptos::prelude::*;

/// All parts or those that are shown, and each of these silent or alone.
pub fn heard_parts(player: Player) -> AnyView {
    let (playback, movement) = (player.playback, player.movement);
    let map = MapState::get();
    let whose = [(false, said::ALL_PARTS), (true, said::PARTS_SHOWN)];
    let unpitched = move || map.rows.map(|rows| has_unpitched(rows)) == Some(true);
    let nobody = move || player.is_ready() && player.ensemble().staves.is_empty();
    let quiet = |text: &'static str| move || view! { <p class="quiet">{text}</p> }.into_any();
    view! {
        {ways(said::WHO_IS_HEARD, whose, playback.only_shown)}
        <ul class="plain heard-parts">
            {each(Derived::new(move || 0..movement.chosen.read().len()), move |at| part(player, at))}
        </ul>
        {when(nobody, quiet(said::NOTHING_IS_HEARD))}
        {when(unpitched, quiet(said::NO_PITCH_NO_SOUND))}
        <p class="quiet">{said::HOW_IT_IS_PLAYED}</p>
    }
    .into_any()
}

/// A part that is shown.
fn part(player: Player, at: usize) -> AnyView {
    let (playback, movement) = (player.playback, player.movement);
    let staff = Derived::new(move || movement.chosen.read().get(at).copied());
    let name = move || staff.map(|staff| movement.name_of(*staff)).unwrap_or_default();
    let turn = move |word: &'static str, list: Watched<Vec<u32>>, act: fn(Playback, u32)| {
        let is = move || Some((staff.map(|staff| list.read().contains(staff)) == Some(true)).to_string());
        let act = press(move || {
            if let Some(staff) = staff.get_untracked() {
                act(playback, staff);
            }
        });
        view! {
            <button
                class="turn"
                aria-label=live(move || words::kept::of(word, &name()))
                aria-pressed=live(is)
                on:click=act
            >
                {word}
            </button>
        }
        .into_any()
    };
    view! {
        <li class="row">
            <span>{live(name)}</span>
            {turn(said::MUTE, playback.muted, Playback::mute)}
            {turn(said::SOLO, playback.alone, Playback::single_out)}
        </li>
    }
    .into_any()
}

/// Natural brass as its tube gives it or in tune, and the tuning of the others.
pub fn tuning(player: Player) -> AnyView {
    let (way, desk) = (player.session.speaker.way, player.session.desk);
    let one = |name: &'static str, as_tube: bool| {
        let is = move || (way.get() == HeardAs::Instrument) == as_tube;
        let choose = press(move || way.set(if as_tube { HeardAs::Instrument } else { HeardAs::Tuning }));
        view! {
            <button class="option" aria-pressed=live(move || Some(is().to_string())) on:click=choose>{name}</button>
        }
        .into_any()
    };
    let others = live(move || {
        let tuning = desk.page.with(|page| page.intonation.tuning);
        Some(said::tuning(&words::temperament(tuning.temperament), &pitch_text(tuning.a4)))
    });
    view! {
        <div class="options" role="group" aria-label=said::NATURAL_BRASS>
            <p class="quiet" aria-hidden="true">{said::NATURAL_BRASS}</p>
            {one(said::PARTIALS_OF_THE_CROOK, true)}
            {one(said::IN_TUNE, false)}
        </div>
        <p class="quiet">{others}</p>
    }
    .into_any()
}
