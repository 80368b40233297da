//! Who is heard, and how it is tuned: the two small lists of playback.

use crate::components::live::{live, press, when};
use crate::components::movement::player::Player;
use crate::components::movement::ways::ways;
use crate::state::hearing::HeardAs;
use crate::state::kept::{Derived, Watched};
use crate::state::movement::map::MapState;
use crate::state::movement::playback::Playback;
use crate::state::movement::playback::ensemble::has_unpitched;
use crate::state::movement::playback::families::{HeardFamily, families};
use crate::state::settings_form::pitch_text;
use crate::words;
use crate::words::playback as said;
use crookwise_theory::Family;
use leptos::prelude::*;

/// All parts or those that are shown, and each of them, or a family, silent or alone.
pub fn heard_parts(player: Player) -> AnyView {
    let playback = player.playback;
    let map = MapState::get();
    let whose = [(false, said::ALL_PARTS), (true, said::PARTS_SHOWN)];
    let unpitched = move || map.rows.map(|rows| has_unpitched(rows)) == Some(true);
    let nobody = move || player.is_ready() && player.ensemble().staves.is_empty();
    let quiet = |text: &'static str| move || view! { <p class="quiet">{text}</p> }.into_any();
    let found = Derived::new(move || map.rows.map(|rows| families(rows)).unwrap_or_default());
    let all = live(move || found.get().into_iter().map(|own| family(player, own)).collect::<Vec<_>>());
    view! {
        {ways(said::WHO_IS_HEARD, whose, playback.only_shown)}
        <ul class="plain heard-parts">{all}</ul>
        {when(nobody, quiet(said::NOTHING_IS_HEARD))}
        {when(unpitched, quiet(said::NO_PITCH_NO_SOUND))}
        <p class="quiet">{said::HOW_IT_IS_PLAYED}</p>
    }
    .into_any()
}

/// A family, folded where none of it is shown; one of a single part is that part.
fn family(player: Player, HeardFamily { family, staves }: HeardFamily) -> AnyView {
    if let [staff] = staves.as_slice() {
        return part(player, *staff);
    }
    let name = family.map_or(said::OTHERS, Family::name);
    let is_shown =
        player.movement.chosen.with_untracked(|chosen| staves.iter().any(|staff| chosen.contains(staff)));
    let open = Watched::new(is_shown);
    let fold = press(move || open.set(!open.get_untracked()));
    let arrow = live(move || if open.get() { "▾" } else { "▸" });
    let turns = turns(player, move || name.to_owned(), &staves);
    let parts = move || {
        let all: Vec<AnyView> = staves.iter().map(|staff| part(player, *staff)).collect();
        view! { <ul class="plain">{all}</ul> }.into_any()
    };
    view! {
        <li>
            <div class="heard-part">
                <button
                    class="family"
                    aria-expanded=live(move || Some(open.get().to_string()))
                    on:click=fold
                >
                    <span aria-hidden="true">{arrow}</span>
                    {name}
                </button>
                {turns}
            </div>
            {when(move || open.get(), parts)}
        </li>
    }
    .into_any()
}

/// A part by itself.
fn part(player: Player, staff: u32) -> AnyView {
    let name = move || player.movement.name_of(staff);
    view! {
        <li class="heard-part">
            <span>{live(name)}</span>
            {turns(player, name, &[staff])}
        </li>
    }
    .into_any()
}

/// What silences staves, and what lets them be heard alone.
fn turns(player: Player, name: impl Fn() -> String + Copy + Send + 'static, staves: &[u32]) -> Vec<AnyView> {
    let playback = player.playback;
    let turn = |word: &'static str, list: Watched<Vec<u32>>, act: fn(Playback, &[u32])| {
        let (own, turned) = (staves.to_vec(), staves.to_vec());
        let is = move || {
            let all = list.read();
            let count = own.iter().filter(|staff| all.contains(staff)).count();
            let is = if count == own.len() {
                "true"
            } else if count == 0 {
                "false"
            } else {
                "mixed"
            };
            Some(is.to_owned())
        };
        let act = press(move || act(playback, &turned));
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
    vec![
        turn(said::MUTE, playback.muted, Playback::mute),
        turn(said::SOLO, playback.alone, Playback::single_out),
    ]
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
