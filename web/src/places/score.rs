//! Score: a whole movement is opened, its parts listed, its brass audited, bars of it taken elsewhere.

use crate::browser::given;
use crate::browser::{audio, focus, sight, style};
use crate::components::lasting::once;
use crate::components::later::{Fetched, later};
use crate::components::live::{either, live, press};
use crate::components::movement::along_deeds::ReadAlong;
use crate::components::movement::audit_table::audit_table;
use crate::components::movement::deeds::{Deeds, TITLE};
use crate::components::movement::map::map;
use crate::components::movement::music::music;
use crate::components::movement::on_wall::to_the_wall;
use crate::components::movement::opener::opener;
use crate::components::movement::part_paper::part_paper;
use crate::components::movement::part_paper_deeds::{OPENER, follow_part_paper};
use crate::components::movement::parts::parts;
use crate::components::movement::playback_dock::playback_dock;
use crate::components::movement::player::Player;
use crate::components::movement::taking::{taking, told};
use crate::state::movement::Movement;
use crate::state::movement::along::Along;
use crate::state::movement::map::MapState;
use crate::state::movement::music::Music;
use crate::state::movement::on_wall::OnTheWall;
use crate::state::movement::part_paper::PartPaper;
use crate::state::movement::playback::Playback;
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The page.
pub fn score() -> AnyView {
    for sheet in [&style::PANELS, &style::SCORE, &style::PLAYBACK] {
        sheet.wear();
    }
    let movement = once(Movement::new);
    let _ = once(Music::new);
    let map_state = once(MapState::new);
    let _ = once(|| Playback::new(map_state));
    let paper = once(|| PartPaper::new(Session::get().whereabouts.score));
    let _ = once(Along::new);
    let _ = once(|| {
        let deeds = Deeds::get();
        deeds.follow_all();
        Player::get().follow_all();
        follow_part_paper(paper);
        ReadAlong::get().follow_all();
        Followed
    });
    let deeds = Deeds::get();
    given::on_offered(move |offered| deeds.open_offered(offered));
    let on_paper = || later(|| Box::pin(fetched_part_paper()));
    let is_on_paper = move || paper.wishes.is_some();
    view! {
        {told()}
        {either(move || movement.open.is_some(), move || view! { {either(is_on_paper, on_paper, opened)} }.into_any(), opener)}
    }
    .into_any()
}

/// A part for paper, which few who open a score want.
#[wasm_split(on_paper, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_part_paper() -> Fetched {
    Ok(part_paper())
}

/// What the reader does is followed already.
#[derive(Clone, Copy)]
struct Followed;

fn opened() -> AnyView {
    let movement = Movement::get();
    let deeds = Deeds::get();
    let title = live(move || {
        movement.open.map(|open| words::movement::title(&open.summary.title, &open.file).to_owned())
    });
    let large = live(move || {
        movement.open.map(|open| {
            let own = &open.summary;
            words::movement::about(&own.composer, own.bars.len(), own.parts.len())
        })
    });
    let remarks = live(move || {
        let said = movement.open.map(|open| open.summary.remarks.clone()).unwrap_or_default();
        said.into_iter().map(|said| view! { <li>{said}</li> }.into_any()).collect::<Vec<_>>()
    });
    let wall = Music::get().wall;
    let followed = live(move || wall.get().map_or("followed", OnTheWall::class));
    let back = press(move || deeds.close());
    // Who comes back stands where he was; the focus is on what is new.
    sight::go_down(movement.depth.get_untracked());
    let was_on_paper = PartPaper::get().was_shown.update(core::mem::take);
    focus::if_lost(if was_on_paper { OPENER } else { TITLE });
    view! {
        <div class="whole-movement">
        <div class="row movement-head">
            <h2 class="movement-title" id=TITLE tabindex="-1">{title}</h2>
            <p class="quiet">{large}</p>
            {[("bars-name", words::movement::BARS), ("audit-name", words::movement::AUDIT)].map(jump).into_iter().collect::<Vec<_>>()}
            {to_the_wall()}
            <button on:click=back>{words::movement::ANOTHER_SCORE}</button>
        </div>
        <ul class="remarks">{remarks}</ul>
        <div class=followed>
            {map()}
            {music()}
        </div>
        {audio::is_there().then(playback_dock)}
        <div class="movement">
            {parts()}
            {taking()}
            {audit_table()}
        </div>
        </div>
    }
    .into_any()
}

/// Leads to a card that is out of sight on a narrow window.
fn jump((place, name): (&'static str, &'static str)) -> AnyView {
    let player = Player::get();
    let go = press(move || {
        // The bars under the music begin at the one that is heard.
        player.offer_bars();
        focus::now(place);
    });
    let of = words::kept::of(words::movement::GO_TO, name);
    view! { <button class="jump" aria-label=of on:click=go>{name}</button> }.into_any()
}
