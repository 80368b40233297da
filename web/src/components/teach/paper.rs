//! A worksheet for paper and its key: what is printed looks like an examination paper, the rest stays on the screen.

use crate::browser::{field, screen};
use crate::components::choice::choice;
use crate::components::live::{LiveText, hear, live, press};
use crate::components::practise::doing::mended_note;
use crate::components::teach::paper_page::{key_page, page};
use crate::state::kept::{Derived, Watched};
use crate::state::list_item::ListItem;
use crate::state::practise::Practise;
use crate::state::practise::paper::{self, AnswerClef, PaperSize, PaperWishes, Space};
use crate::state::practise::paper_pages::{UnbrokenSheet, Worksheet};
use crate::state::session::Session;
use crate::words;
use crookwise_practice::Time;
use leptos::ev::Event;
use leptos::prelude::*;
use std::sync::Arc;

/// Points that a question may have.
const MOST_POINTS: u32 = 5;

/// The worksheet as it will be printed, with what can be chosen over it.
pub fn paper() -> AnyView {
    let practise = Practise::get();
    let Session { names, .. } = Session::get();
    let own = practise.exercise.with_untracked(|one| one.own_title().map(str::to_owned));
    let title = Watched::new(own.unwrap_or_else(|| words::practise::WORKSHEET.to_owned()));
    let wishes = Watched::new(PaperWishes::default());
    let made = Derived::new(move || practise.exercise.read().questions().map_err(|error| error.to_string()));
    let problem = live(move || made.get().err().unwrap_or_default());
    let sections =
        Derived::new(move || paper::sections(made.read().as_deref().unwrap_or_default(), names.get()));
    let under_title = Derived::new(move || {
        let time = match practise.exercise.read().time {
            Time::All(seconds) => words::exercise::time_in_minutes(seconds.div_ceil(60).into()),
            _ => String::new(),
        };
        let count: usize = sections.read().iter().map(|one| one.items.len()).sum();
        let most = wishes.read().points * u32::try_from(count).unwrap_or(u32::MAX);
        let points = if most > 0 { words::exercise::points_of(most) } else { String::new() };
        Some((time, points)).filter(|(time, points)| !(time.is_empty() && points.is_empty()))
    });
    let laid = Derived::new(move || UnbrokenSheet::of(&sections.read(), wishes.get(), names.get()));
    let sheet = Derived::new(move || laid.read().under(&title.read(), under_title.is_some()));
    let pages = live(move || {
        let sheet = sheet.read();
        let Worksheet { pages, key } = &*sheet;
        let (title, under) = (title.read(), under_title.read());
        let points = wishes.read().points;
        let all = pages.len();
        let questions = pages.iter().enumerate().map(|(at, one)| {
            let head = (at == 0).then_some((title.as_str(), Option::as_ref(&under)));
            page(one, head, points, (at + 1, all))
        });
        let of_key = key.iter().enumerate().map(|(at, one)| key_page(one, &title, (at + 1, key.len())));
        questions.chain(of_key).collect::<Vec<_>>()
    });
    view! {
        {wished(title, wishes, problem)}
        <article
            class=live(move || format!("paper {}", wishes.read().size.id()))
            aria-label=words::exercise::WORKSHEET_AS_PRINTED
        >
            {pages}
        </article>
    }
    .into_any()
}

/// What can be chosen.
fn wished(title: Watched<String>, wishes: Watched<PaperWishes>, problem: LiveText) -> AnyView {
    let practise = Practise::get();
    let set = move |change: fn(&mut PaperWishes, &str)| {
        Box::new(move |value: String| {
            let mut now = wishes.get_untracked();
            change(&mut now, &value);
            wishes.set(now);
        })
    };
    let sizes = || PaperSize::ALL.map(|one| ListItem::new(one.id(), one.name())).into();
    let spaces = || Space::ALL.map(|one| ListItem::new(one.id(), one.name())).into();
    let clefs = || AnswerClef::ALL.map(|one| ListItem::new(one.id(), one.name())).into();
    let all_points = || {
        let one = |each: u32| ListItem::new(each.to_string(), words::exercise::points_each(each));
        (0..=MOST_POINTS).map(one).collect()
    };
    view! {
        <section class="card settings not-printed" aria-label=words::exercise::WORKSHEET>
            <label class="field">
                <span>{words::exercise::TITLE}</span>
                <input
                    aria-label=words::exercise::TITLE
                    type="text"
                    maxlength="120"
                    prop:value=live(move || title.read().to_string())
                    on:input=hear(move |event: Event| title.set(field::text(&event)))
                />
            </label>
            {choice(
                words::exercise::PAPER,
                Arc::new(sizes),
                Arc::new(move || wishes.read().size.id().to_owned()),
                set(|wishes, value| wishes.size = PaperSize::ALL.into_iter().find(|one| one.id() == value).unwrap_or(wishes.size)),
            )}
            {choice(
                words::exercise::FOR_THE_ANSWERS,
                Arc::new(spaces),
                Arc::new(move || wishes.read().space.id().to_owned()),
                set(|wishes, value| wishes.space = Space::ALL.into_iter().find(|one| one.id() == value).unwrap_or(wishes.space)),
            )}
            {choice(
                words::paper::CLEF_OF_THE_ANSWERS,
                Arc::new(clefs),
                Arc::new(move || wishes.read().clef.id().to_owned()),
                set(|wishes, value| wishes.clef = AnswerClef::ALL.into_iter().find(|one| one.id() == value).unwrap_or(wishes.clef)),
            )}
            {choice(
                words::exercise::POINTS,
                Arc::new(all_points),
                Arc::new(move || wishes.read().points.to_string()),
                set(|wishes, value| wishes.points = value.parse().unwrap_or_default()),
            )}
            <button class="strong" on:click=press(screen::print)>{words::exercise::PRINT}</button>
            <p class="problem" role="status">{problem}</p>
            {mended_note(practise, "")}
        </section>
    }
    .into_any()
}
