//! Bars are chosen and taken: into Read, into an exercise, into files.

use crate::browser::field;
use crate::components::copy_button::copy_button;
use crate::components::live::{hear, live, press, when};
use crate::components::movement::deeds::Deeds;
use crate::components::movement::doubts::doubts;
use crate::components::movement::part_paper_deeds;
use crate::state::kept::Watched;
use crate::state::movement::music::Music;
use crate::state::movement::part_paper::PartPaper;
use crate::state::movement::{Movement, bars};
use crate::state::practise::Screen;
use crate::words;
use crookwise_opened::OutPitch;
use leptos::ev::{Event, KeyboardEvent};
use leptos::prelude::*;

/// Where bars that were tapped go, at the foot of the window.
pub(super) const PICKED: &str = "picked";

/// The bars, how much of a page they take, and where they go.
pub fn taking() -> AnyView {
    let movement = Movement::get();
    view! {
        <section class="card taking" aria-label=words::movement::BARS>
            <h2 class="prompt" id="bars-name" tabindex="-1">{words::movement::BARS}</h2>
            <div class="row">
                {bar(words::movement::FIRST_BAR, movement.from)}
                {bar(words::movement::LAST_BAR, movement.to)}
                {ways_on()}
            </div>
            {how_they_fit()}
            {doubts()}
            {place_link()}
            {when(move || movement.open.map(|open| !open.summary.letters.is_empty()) == Some(true), letters)}
            {files()}
            <div class="row">{to_paper()} {to_crooks()}</div>
        </section>
    }
    .into_any()
}

/// A link to these bars where they stand.
fn place_link() -> AnyView {
    let deeds = Deeds::get();
    let (button, said) = copy_button("", words::movement::LINK_TO_THIS_PLACE, move || deeds.place_link());
    view! {
        <div class="row">{button} {said}</div>
        <p class="quiet">{words::movement::PLACE_IS_WHERE_THE_SCORE_IS}</p>
    }
    .into_any()
}

/// The bars that were tapped in the music, and where they go: at the foot of the window, under the thumb.
pub fn picked() -> AnyView {
    let music = Music::get();
    let movement = Movement::get();
    let leave = press(move || music.leave(untrack(|| movement.typed_bars())));
    view! {
        <section class="moment picked" id=PICKED aria-label=words::movement::CHOSEN_BARS>
            <div class="moment-steps">
                <button class="step" aria-label=words::movement::LEAVE_THESE_BARS on:click=leave>
                    <span aria-hidden="true">"×"</span>
                </button>
            </div>
            <div>{how_they_fit()} {doubts()}</div>
            <div class="row">{ways_on()}</div>
        </section>
    }
    .into_any()
}

/// Where the chosen bars go: to Read, to an exercise, to paper, to a link.
fn ways_on() -> Vec<AnyView> {
    let (movement, deeds) = (Movement::get(), Deeds::get());
    let way = |class: &'static str, name: &'static str, act: fn(Deeds)| {
        let cannot = live(move || !matches!(*movement.fits.read(), Some(Ok(_))));
        let go = press(move || act(deeds));
        view! { <button class=class disabled=cannot on:click=go>{name}</button> }.into_any()
    };
    vec![
        way("strong", words::movement::OPEN_IN_READ, Deeds::to_read),
        way("", words::movement::MAKE_AN_EXERCISE, |deeds| deeds.to_practise(Screen::Set)),
        way("", words::movement::MAKE_A_HANDOUT, |deeds| deeds.to_practise(Screen::Paper)),
        way("", words::movement::SHARE_A_LINK, Deeds::share),
    ]
}

/// The way to a part on paper.
fn to_paper() -> AnyView {
    let paper = PartPaper::get();
    let open = press(move || part_paper_deeds::open(paper));
    view! { <button id=part_paper_deeds::OPENER on:click=open>{words::part_paper::PRINT_A_PART}</button> }
        .into_any()
}

/// The ways of its horns and trumpets to Crooks.
fn to_crooks() -> Vec<AnyView> {
    let deeds = Deeds::get();
    let way = |name: &'static str, whole: bool| {
        let go = press(move || deeds.to_crooks(whole));
        view! { <button on:click=go>{name}</button> }.into_any()
    };
    vec![way(words::movement::PLAN_ITS_CROOKS, true), way(words::movement::PLAN_CROOKS_OF_BARS, false)]
}

/// How much of a page the chosen bars take, or why they cannot go.
fn how_they_fit() -> AnyView {
    let movement = Movement::get();
    let fits = live(move || movement.fits.get().and_then(Result::ok).map(|columns| said(movement, columns)));
    let not = live(move || movement.fits.get().and_then(Result::err));
    view! {
        <p class="quiet" role="status">{fits}</p>
        <p class="problem" role="status">{not}</p>
    }
    .into_any()
}

fn said(movement: Movement, columns: u32) -> String {
    let bars: Vec<u32> = movement.bars().map(|(first, last)| (first..=last).collect()).unwrap_or_default();
    let staves = movement.chosen.with(Vec::len);
    words::movement::fits(staves, &words::movement::bar_list(&bars, &|bar| movement.printed(bar)), columns)
}

fn bar(name: &'static str, value: Watched<String>) -> AnyView {
    let movement = Movement::get();
    let deeds = Deeds::get();
    let typed = hear(move |event: Event| value.set(field::text(&event)));
    // Enter does what the card is for, unless what stands in it cannot be shown: that is said already.
    let key = hear(move |event: KeyboardEvent| {
        if event.key() == "Enter" && !matches!(*movement.fits.read_untracked(), Some(Err(_))) {
            deeds.to_read();
        }
    });
    view! {
        <label class="field bar-number">
            <span>{name}</span>
            <input
                aria-label=name
                prop:value=live(move || Some(value.get()))
                on:input=typed
                on:keydown=key
                autocomplete="off"
            />
        </label>
    }
    .into_any()
}

/// Rehearsal letters, each leading to its bar.
fn letters() -> AnyView {
    let movement = Movement::get();
    let all = live(move || {
        let letters = movement.open.map(|open| open.summary.letters.clone()).unwrap_or_default();
        let one = |(letter, bar): (String, u32)| {
            let said = words::movement::letter(&letter, &movement.printed(bar));
            let go = press(move || {
                let open = movement.open.read_untracked();
                if let Some(open) = &*open {
                    let (from, to) = bars::from_letter(&open.summary, &letter, bar);
                    movement.from.set(from);
                    movement.to.set(to);
                }
            });
            view! { <button class="leads" on:click=go>{said}</button> }.into_any()
        };
        letters.into_iter().map(one).collect::<Vec<_>>()
    });
    view! {
        <div class="letters" role="group" aria-label=words::movement::LETTERS>
            <p class="quiet">{words::movement::LETTERS}</p>
            <div class="kinds">{all}</div>
        </div>
    }
    .into_any()
}

fn files() -> AnyView {
    let movement = Movement::get();
    let deeds = Deeds::get();
    let pitch = Watched::new("sounding".to_owned());
    let label = Watched::new(String::new());
    let choose = hear(move |event: Event| {
        movement.file_problem.set(None);
        pitch.set(field::text(&event));
    });
    let typed = hear(move |event: Event| {
        movement.file_problem.set(None);
        label.set(field::text(&event));
    });
    let problem = live(move || movement.file_problem.get());
    let written_for = move || pitch.with(|pitch| pitch == "for");
    let save = press(move || {
        deeds.save_musicxml(match pitch.get_untracked().as_str() {
            "written" => OutPitch::AsWritten,
            "for" => OutPitch::WrittenFor(label.get_untracked()),
            _ => OutPitch::Sounding,
        });
    });
    let midi = press(move || deeds.save_midi());
    view! {
        <details>
            <summary>{words::movement::WRITE_FILES}</summary>
            <div class="row">
                <select aria-label=words::movement::WRITE_FILES on:change=choose>
                    <option value="sounding">{words::movement::AT_SOUNDING_PITCH}</option>
                    <option value="written">{words::movement::AS_IT_IS_WRITTEN}</option>
                    <option value="for">{words::movement::WRITTEN_FOR}</option>
                </select>
                <input
                    aria-label=words::movement::WRITTEN_FOR
                    placeholder=words::movement::SUCH_AS
                    hidden=live(move || !written_for())
                    on:input=typed
                    maxlength="200"
                />
                <button on:click=save>{words::movement::SAVE_MUSICXML}</button>
                <button on:click=midi>{words::movement::SAVE_MIDI}</button>
            </div>
            <p class="problem" role="alert">{problem}</p>
            <p class="quiet">{words::movement::FILES_ARE_WHOLE}</p>
        </details>
    }
    .into_any()
}

/// What could not be done and what was.
pub fn told() -> AnyView {
    let movement = Movement::get();
    let problem = live(move || movement.problem.get());
    let done = live(move || movement.said.get());
    let any = move || movement.problem.is_some() || movement.said.is_some();
    let part = move || {
        let act = press(move || {
            movement.problem.set(None);
            movement.said.set(None);
        });
        view! { <button on:click=act>{words::frame::ALL_RIGHT}</button> }.into_any()
    };
    view! {
        <div class="row told not-printed">
            <p class="problem" role="alert">{problem}</p>
            <p role="status">{done}</p>
            {when(any, part)}
        </div>
    }
    .into_any()
}
