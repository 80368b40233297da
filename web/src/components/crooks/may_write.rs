//! What may be written for the crooks at hand: their notes on a staff, and a passage that is held against them while it is typed.

use crate::browser::{audio, field, measure};
use crate::components::crooks::crook_chips::crook_chips;
use crate::components::crooks::table::play;
use crate::components::live::{hear, live, press, when};
use crate::components::tones;
use crate::state::crook_table::may_write::{CrookNotes, MayWrite, WayOfMaking};
use crate::state::crook_table::note_systems::NoteRow;
use crate::state::crook_table::note_words;
use crate::state::crook_table::typed_notes::{TypedPassage, TypedRemedy, TypedWord};
use crate::state::crook_table::{CrookList, GivenKind};
use crate::state::kept::{Derived, Watched};
use crate::state::session::Session;
use crate::words::crook_table as words;
use crookwise_share::crooks::{CrooksLink, MOST_TYPED};
use crookwise_sound::{Act, SoundColumn, Touch, passage};
use crookwise_theory::Pitch;
use leptos::ev::Event;
use leptos::html::Div;
use leptos::prelude::*;

/// Seconds of a note of the passage.
const EACH: f64 = 0.6;

/// The card, over the setting of the place.
pub fn may_write(setting: Watched<CrooksLink>) -> AnyView {
    let names = Session::get().names;
    let room = NodeRef::<Div>::new();
    let width = Watched::new(0.0);
    measure::follow_size(room, move |wide, _| width.set(wide));
    let notes = Derived::new(move || MayWrite::of(&setting.read(), names.get(), width.get()));
    let typed = Derived::new(move || TypedPassage::of(&setting.read(), names.get(), width.get()));
    // What stays as it was is not drawn again: a button that has the focus keeps it.
    let words = Derived::new(move || typed.with(|typed| typed.words.clone()));
    let crooks = Derived::new(move || notes.with(|notes| notes.crooks.clone()));
    let nobody =
        live(move || setting.with(|setting| setting.mine.is_empty().then_some(words::NOBODY_AT_HAND)));
    view! {
        <section class="card may-write" aria-label=words::MAY_WRITE>
            <h2>{words::MAY_WRITE}</h2>
            <div class="row table-asked">{crook_chips(setting, CrookList::Mine)}</div>
            {field_of_notes(setting)}
            <p class="told" role="status">{live(move || typed.read().told())}</p>
            <div class="staff-lines" aria-hidden="true">{live(move || systems(&typed.read().systems))}</div>
            {when(move || audio::is_there() && !typed.read().heard.is_empty(), move || hear_it(typed))}
            <ul class="typed-words">
                {live(move || words.read().iter().map(|one| word(setting, one)).collect::<Vec<_>>())}
            </ul>
            <div class="staff-lines" aria-hidden="true" node_ref=room>
                {live(move || systems(&notes.read().systems))}
            </div>
            <p>{nobody}</p>
            {live(move || crooks.read().iter().map(crook).collect::<Vec<_>>())}
            <p class="quiet">{words::A_GUIDE}</p>
        </section>
    }
    .into_any()
}

fn systems(systems: &[Vec<NoteRow>]) -> Vec<AnyView> {
    let row = |row: &NoteRow| {
        let NoteRow { label, picture } = row.clone();
        view! { <small>{label}</small> <div class="picture" inner_html=picture></div> }.into_any()
    };
    let system = |rows: &Vec<NoteRow>| {
        view! { <div class="note-system">{rows.iter().map(row).collect::<Vec<_>>()}</div> }.into_any()
    };
    systems.iter().map(system).collect()
}

/// What a crook has, way by way.
fn crook(crook: &CrookNotes) -> AnyView {
    let ways: Vec<AnyView> = crook.ways.iter().map(way).collect();
    view! {
        <div role="group" aria-label=crook.who.clone()>
            <h3>{crook.who.clone()}</h3>
            <ul class="may-ways">{ways}</ul>
        </div>
    }
    .into_any()
}

/// Notes of one way, heard one after the other.
fn way(way: &WayOfMaking) -> AnyView {
    let class = match way.kind {
        GivenKind::Open => "open",
        GivenKind::Hand => "hand",
        _ => "lip",
    };
    let WayOfMaking { written, sounding, heard, .. } = way.clone();
    let hear = press(move || run(&heard));
    view! {
        <li class=class>
            <button on:click=hear>
                <span class="triangle" aria-hidden="true"></span>
                <span>{written}</span>
                " "
                <small>{sounding}</small>
            </button>
        </li>
    }
    .into_any()
}

fn field_of_notes(setting: Watched<CrooksLink>) -> AnyView {
    let names = Session::get().names;
    let typed = Watched::new(String::new());
    let text = live(move || {
        setting.with(|setting| note_words::standing(&typed.read(), &setting.typed, names.get()))
    });
    let write = hear(move |event: Event| {
        let text: String = field::text(&event).chars().take(MOST_TYPED).collect();
        setting.update(|setting| {
            setting.typed = note_words::in_link(&text, names.get_untracked().letters);
        });
        typed.set(text);
    });
    let help = live(move || words::passage_help(&note_words::in_field(words::SUCH_NOTES, names.get())));
    view! {
        <label class="field passage-field">
            <span>{words::A_PASSAGE}</span>
            <input
                type="text"
                aria-label=words::A_PASSAGE
                aria-describedby="passage-help"
                autocomplete="off"
                autocapitalize="off"
                spellcheck="false"
                maxlength=MOST_TYPED.to_string()
                prop:value=text
                on:input=write
            />
        </label>
        <p class="quiet" id="passage-help">{help}</p>
    }
    .into_any()
}

fn hear_it(typed: Derived<TypedPassage>) -> AnyView {
    let hear = press(move || run(&typed.read_untracked().heard));
    view! {
        <div class="row">
            <button on:click=hear><span class="triangle" aria-hidden="true"></span>{words::HEAR_THE_PASSAGE}</button>
        </div>
    }
    .into_any()
}

/// A word of the passage, whose note is heard by a tap; where nobody has it, with what can be done.
fn word(setting: Watched<CrooksLink>, word: &TypedWord) -> AnyView {
    let class = if word.is_had { "had" } else { "missing" };
    let remedies: Vec<AnyView> = word.remedies.iter().map(|one| remedy(setting, one)).collect();
    let said = word.said.clone();
    let said = match word.heard.filter(|_| audio::is_there()) {
        Some(pitch) => {
            let hear = press(move || play(&[pitch]));
            view! {
                <button class="said-note" on:click=hear>
                    <span class="triangle" aria-hidden="true"></span>{said}
                </button>
            }
            .into_any()
        }
        None => view! { <span>{said}</span> }.into_any(),
    };
    view! { <li class=class>{said} {remedies}</li> }.into_any()
}

fn remedy(setting: Watched<CrooksLink>, remedy: &TypedRemedy) -> AnyView {
    let TypedRemedy { said, deed } = remedy.clone();
    let act = press(move || setting.update(|setting| deed.act(setting)));
    view! { <button on:click=act>{said}</button> }.into_any()
}

/// Notes one after the other, in the tuning of the page in Read; one alone as a cell of the table.
fn run(pitches: &[Pitch]) {
    if let [_] = pitches {
        play(pitches);
        return;
    }
    let Session { desk, speaker, notices, .. } = Session::get();
    let tuning = desk.page.read_untracked().intonation.tuning;
    let columns = pitches.iter().map(|pitch| SoundColumn {
        seconds: EACH,
        acts: vec![Act::Note(tuning.frequency(*pitch), Touch::default())],
    });
    tones::play(speaker, notices, passage(&columns.collect::<Vec<_>>()));
}
