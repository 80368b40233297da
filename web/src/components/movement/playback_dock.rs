//! The dock of playback at the foot of the window: back, play, loop, how fast, who is heard, how it is tuned.

use crate::browser::{field, measure, popover, shortcut};
use crate::components::icon::changing_icon;
use crate::components::live::{hear, live, press, when};
use crate::components::movement::heard_parts::{heard_parts, tuning};
use crate::components::movement::player::{PLAYBACK, Player};
use crate::components::sound_panel::caution;
use crate::state::kept::Watched;
use crate::state::movement::playback::{TEMPI, TEMPO_STEP};
use crate::state::speaker::Caution;
use crate::words::playback as words;
use leptos::ev::Event;
use leptos::html::Div;
use leptos::prelude::*;

/// The button that plays.
const PLAY: &str = "tool-play";
/// What is drawn on its buttons, to stand once in the page.
const SIGNS: &str = include_str!("signs.svg");

/// The dock.
pub fn playback_dock() -> AnyView {
    let player = Player::get();
    let speaker = player.session.speaker;
    shortcut::on_space(move || player.toggle());
    on_cleanup(move || player.pause());
    let body = NodeRef::<Div>::new();
    measure::keep_clear(body);
    let cautious = move || speaker.caution.get() == Caution::Said;
    view! {
        <div class="glyph-store" inner_html=SIGNS></div>
        <section class="playback" id=PLAYBACK role="region" aria-label=words::PLAYBACK>
            <div node_ref=body>
                {when(cautious, || caution(PLAY))}
                <div class="playback-tools">
                    {start(player)}
                    {play(player, Some(PLAY))}
                    {when(move || !player.along.is_on(), move || looped(player))}
                    {tempo(player)}
                    {opens("playback-parts", (words::WHO_IS_HEARD, words::WHO_FACE), "ways", heard_parts)}
                    {opens("playback-tuning", (words::HOW_IT_IS_TUNED, words::TUNED_FACE), "tuned", tuning)}
                    {place(player)}
                </div>
            </div>
        </section>
    }
    .into_any()
}

/// What stands on a button: a sign and a word.
fn face(
    sign: impl Fn() -> &'static str + Send + 'static,
    word: impl FnMut() -> &'static str + Send + 'static,
) -> AnyView {
    view! {
        {changing_icon(sign)}
        <span>{live(word)}</span>
    }
    .into_any()
}

fn start(player: Player) -> AnyView {
    let name = live(move || words::back_to(&player.movement.printed(player.start())));
    let act = press(move || player.further_back());
    view! {
        <button class="tool" aria-label=name on:click=act>{face(|| "start", || words::START)}</button>
    }
    .into_any()
}

/// The button that plays and pauses.
pub(super) fn play(player: Player, id: Option<&'static str>) -> AnyView {
    let is_on = player.playback.is_on;
    let name = live(move || if is_on.get() { words::PAUSE } else { words::PLAY });
    let ready = live(move || (!player.is_ready()).then_some("true"));
    let act = press(move || player.toggle());
    let sign = move || if is_on.get() { "pause" } else { "hear" };
    let word = move || if is_on.get() { words::PAUSE_FACE } else { words::PLAY_FACE };
    view! {
        <button class="tool sea play" id=id aria-label=name aria-disabled=ready on:click=act>
            {face(sign, word)}
        </button>
    }
    .into_any()
}

/// Over and over: the chosen bars, named on the button.
fn looped(player: Player) -> AnyView {
    let (loops, movement) = (player.playback.loops, player.movement);
    let name = live(move || match player.looped() {
        Some((first, last)) => words::loop_of(&movement.printed(first), &movement.printed(last)),
        None => words::LOOP.to_owned(),
    });
    let pressed = live(move || Some(loops.get().to_string()));
    let act = press(move || player.turn_loop());
    view! {
        <button class="tool" aria-label=name aria-pressed=pressed on:click=act>
            {face(|| "loop", || words::LOOP_FACE)}
        </button>
    }
    .into_any()
}

fn tempo(player: Player) -> AnyView {
    let tempo = player.playback.tempo;
    let set = hear(move |event: Event| {
        if let Some(wanted) = field::number(&event) {
            tempo.set(wanted.clamp(f64::from(TEMPI.0), f64::from(TEMPI.1)) as u8);
        }
    });
    let said = move || words::tempo(tempo.get());
    view! {
        <label class="tempo">
            <span class="quiet">{words::TEMPO_FACE} " " {live(said)}</span>
            <input
                type="range"
                aria-label=words::TEMPO
                aria-valuetext=live(said)
                min=TEMPI.0.to_string()
                max=TEMPI.1.to_string()
                step=TEMPO_STEP.to_string()
                prop:value=live(move || tempo.get().to_string())
                on:input=set
            />
        </label>
    }
    .into_any()
}

/// A button with a small list behind it.
fn opens(
    id: &'static str,
    (name, word): (&'static str, &'static str),
    sign: &'static str,
    list: fn(Player) -> AnyView,
) -> AnyView {
    let open = Watched::new(false);
    let toggled = hear(move |event: Event| open.set(popover::turned(&event)));
    let player = Player::get();
    view! {
        <button
            class="tool"
            popovertarget=id
            aria-label=name
            aria-expanded=live(move || Some(open.get().to_string()))
        >
            {face(move || sign, move || word)}
        </button>
        <div popover="auto" id=id class="list over-dock" on:toggle=toggled>
            <div class="over-dock-body">{when(move || open.get(), move || list(player))}</div>
            <div class="shut">
                <button popovertarget=id popovertargetaction="hide">{crate::words::pages::DONE}</button>
            </div>
        </div>
    }
    .into_any()
}

/// Where it stands, for who sees the page; who hears it hears the music.
fn place(player: Player) -> AnyView {
    let bar = live(move || {
        let bar = player.playback.bar.get().unwrap_or_else(|| player.start());
        words::at_bar(&player.movement.printed(bar))
    });
    view! { <p class="where quiet">{bar}</p> }.into_any()
}
