//! What crooks give of a key: rows of crooks, columns of degrees and chords, each cell heard by a tap; and the same on the wall.

use crate::browser::{focus, screen};
use crate::components::choice::choice;
use crate::components::crooks::crook_chips::crook_chips;
use crate::components::live::{live, press, when};
use crate::components::tones;
use crate::state::crook_table::{
    CrookList, GivenKind, KeyTable, TableCell, TableHead, TableRow, keys, shown, step_key,
};
use crate::state::kept::{Derived, Watched};
use crate::state::session::Session;
use crate::words::crook_table as words;
use crate::words::frame;
use crookwise_share::crooks::CrooksLink;
use crookwise_sound::{Touch, note};
use crookwise_theory::Pitch;
use leptos::prelude::*;
use std::sync::Arc;

/// Seconds of a cell that is heard.
const HEARD: f64 = 1.6;
/// What leads to the wall, and what has the focus there.
const OPENER: &str = "table-wall";
const BAR: &str = "table-wall-bar";

/// The card, over the setting of the place.
pub fn crook_table(setting: Watched<CrooksLink>) -> AnyView {
    let names = Session::get().names;
    let is_on_wall = Watched::new(false);
    let table = Derived::new(move || KeyTable::of(&setting.read(), names.get()));
    let choose_key = move |key: String| {
        if let Ok(key) = key.parse() {
            setting.update(|setting| setting.table = key);
        }
    };
    // On a telephone they stand in the way of the table.
    let unfolded = Watched::new(false);
    let fold = press(move || unfolded.update(|unfolded| *unfolded = !*unfolded));
    let controls = live(move || if unfolded.get() { "row table-asked" } else { "row table-asked folded" });
    let asked =
        live(move || setting.with(|setting| words::asked(setting.table, &shown(setting), names.get())));
    let class = live(move || if is_on_wall.get() { "card crook-table on-wall" } else { "card crook-table" });
    let enter = press(move || {
        is_on_wall.set(true);
        screen::fill();
    });
    view! {
        <section class=class aria-label=words::TABLE>
            {when(move || is_on_wall.get(), move || wall_bar(setting, is_on_wall))}
            <div class="row table-head">
                <h2>{words::TABLE}</h2>
                <button id=OPENER on:click=enter>{frame::ON_THE_WALL}</button>
            </div>
            <button class="fold" aria-expanded=live(move || Some(unfolded.get().to_string())) on:click=fold>
                <small>{words::CHANGE_IT}</small>
                " "
                <span>{asked}</span>
            </button>
            <div class=controls>
                {choice(
                    words::TABLE_KEY,
                    Arc::new(move || keys(names.get())),
                    Arc::new(move || setting.with(|setting| setting.table.to_string())),
                    Box::new(choose_key),
                )}
                {crook_chips(setting, CrookList::Shown)}
            </div>
            <p class="quiet sideways">{words::SCROLLS_SIDEWAYS}</p>
            <div class="table-room" tabindex="0" role="group" aria-label=words::TABLE>
                {live(move || drawn(&table.read()))}
            </div>
            <p class="quiet">{words::HEARD_BY_A_TAP} " " {words::A_GUIDE}</p>
        </section>
    }
    .into_any()
}

/// On a telephone its rows stand as columns beside each other, which takes from a table what it is: so its parts say it themselves.
fn drawn(table: &KeyTable) -> AnyView {
    let heads: Vec<AnyView> =
        table.heads.iter().enumerate().map(|(at, one)| head(one, at >= table.degrees)).collect();
    let rows: Vec<AnyView> = table.rows.iter().map(|one| row(one, table.degrees)).collect();
    view! {
        <table class="given" role="table">
            <caption class="unseen">{table.title.clone()}</caption>
            <thead role="rowgroup">
                <tr role="row"><th role="columnheader" scope="col"><span class="unseen">{words::WHO}</span></th>{heads}</tr>
            </thead>
            <tbody role="rowgroup">{rows}</tbody>
        </table>
    }
    .into_any()
}

fn head(head: &TableHead, is_chord: bool) -> AnyView {
    let class = if is_chord { "of-chord" } else { "" };
    let TableHead { number, name, said } = head.clone();
    view! {
        <th role="columnheader" scope="col" class=class>
            <span class="unseen">{said}</span>
            <span aria-hidden="true"><b>{name}</b><small>{number}</small></span>
        </th>
    }
    .into_any()
}

fn row(row: &TableRow, degrees: usize) -> AnyView {
    let class = if row.is_together { "together" } else { "" };
    let cells: Vec<AnyView> =
        row.cells.iter().enumerate().map(|(at, one)| cell(one, at >= degrees)).collect();
    view! { <tr role="row" class=class><th role="rowheader" scope="row">{row.who.clone()}</th>{cells}</tr> }
        .into_any()
}

fn cell(cell: &TableCell, is_chord: bool) -> AnyView {
    let class = match (cell.had, is_chord) {
        (GivenKind::Open, false) => "open",
        (GivenKind::Open, true) => "open of-chord",
        (GivenKind::Hand, false) => "hand",
        (GivenKind::Hand, true) => "hand of-chord",
        (GivenKind::Lip, _) => "lip",
        (GivenKind::Missing, false) => "none",
        (GivenKind::Missing, true) => "none of-chord",
    };
    let TableCell { large, small, said, heard, .. } = cell.clone();
    let is_silent = heard.is_empty().then_some("true");
    let hear = press(move || play(&heard));
    view! {
        <td role="cell" class=class>
            <button aria-disabled=is_silent on:click=hear>
                <span class="unseen">{said}</span>
                <span aria-hidden="true"><b>{large}</b><small>{small}</small></span>
            </button>
        </td>
    }
    .into_any()
}

/// What sounds, in the tuning of the page in Read.
pub(super) fn play(pitches: &[Pitch]) {
    if pitches.is_empty() {
        return;
    }
    let Session { desk, speaker, notices, .. } = Session::get();
    let tuning = desk.page.read_untracked().intonation.tuning;
    let all = pitches.iter().map(|pitch| note(tuning.frequency(*pitch), HEARD, Touch::default()));
    tones::play(speaker, notices, all.collect());
}

/// Buttons to go from key to key and to leave.
fn wall_bar(setting: Watched<CrooksLink>, is_on_wall: Watched<bool>) -> AnyView {
    let names = Session::get().names;
    let step = move |places: isize| setting.update(|setting| step_key(setting, places));
    let leave = move || {
        is_on_wall.set(false);
        screen::give_back();
        focus::to(OPENER.to_owned());
    };
    screen::on_wall_keys(step, leave);
    // The browser's way back leads from here too.
    on_cleanup(screen::give_back);
    // The button that was pressed is gone.
    focus::to(BAR.to_owned());
    let key = live(move || setting.with(|setting| names.get().key(setting.table)));
    view! {
        <div class="table-wall-bar" id=BAR tabindex="-1" role="group" aria-label=frame::ON_THE_WALL>
            <h1>{key}</h1>
            <button aria-label=words::KEY_BEFORE on:click=press(move || step(-1))>"←"</button>
            <button aria-label=words::NEXT_KEY on:click=press(move || step(1))>"→"</button>
            <button on:click=press(leave)>{frame::LEAVE_THE_WALL}</button>
        </div>
    }
    .into_any()
}
