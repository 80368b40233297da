//! What the selected column makes together: its name, who holds which member, how two players beat.

use crate::components::live::{either, live, when};
use crate::state::kept::Derived;
use crate::state::reduced::column_pictures;
use crate::state::session::Session;
use crate::state::together::{Holder, MemberLine, Together};
use crate::words;
use leptos::prelude::*;

/// Pixels of one staff space in the reduction of the column.
const SPACE: f64 = 7.0;

/// The panel, where several play.
pub fn together_panel() -> AnyView {
    let Session { desk, .. } = Session::get();
    let shown = Derived::new(move || Together::of(&desk.whole.read(), &desk.page.read()));
    let part = move |part: fn(&Together) -> &str| {
        live(move || shown.map(|shown| part(shown).to_owned()).unwrap_or_default())
    };
    let panel = move || {
        let remarks = live(move || shown.map(|shown| shown.remarks.join(", ")).unwrap_or_default());
        let reduction = live(move || column_pictures(&desk.whole.read(), &desk.page.read(), SPACE).concat());
        let members = live(move || {
            shown.map(|shown| shown.members.iter().map(member).collect::<Vec<_>>()).unwrap_or_default()
        });
        view! {
            <section class="chord" aria-label=words::staves::THE_COLUMN_TOGETHER>
                <p class="quiet">{part(|shown| &shown.place)}</p>
                <h2 class="harmony">{part(|shown| &shown.name)}</h2>
                <p>{remarks}</p>
                <div class="reduction" aria-hidden="true" inner_html=reduction></div>
                <dl class="members">{members}</dl>
                {lines(shown, words::staves::SPELLED_OTHERWISE_IN_THE_CHORD, |shown| &shown.respelled)}
                {lines(shown, words::staves::BEATS, |shown| &shown.beats)}
            </section>
        }
        .into_any()
    };
    let none = move || {
        view! {
            <section class="chord" aria-label=words::staves::THE_COLUMN_TOGETHER>
                <p class="quiet">{words::staves::NO_COLUMN_YET}</p>
            </section>
        }
        .into_any()
    };
    either(move || shown.is_some(), panel, none).into_any()
}

/// A member of a chord and who holds it.
pub fn member(line: &MemberLine) -> AnyView {
    let last = line.holders.len().saturating_sub(1);
    let holder = |(at, holder): (usize, &Holder)| {
        let comma = if at < last { ", " } else { "" };
        let made = (!holder.made.is_empty()).then(|| {
            let made = holder.made.clone();
            view! { <small><span class="unseen">{words::together::PARTIAL}</span>" ("{made}")"</small> }
                .into_any()
        });
        view! { <span>{holder.name.clone()}{made}{comma}</span> }.into_any()
    };
    let octaves =
        (!line.octaves.is_empty()).then(|| view! { <small>{line.octaves.clone()}</small> }.into_any());
    view! {
        <div class="member">
            <dt>{line.role}</dt>
            <dd><b class="sea">{line.note.clone()}</b></dd>
            <dd>{line.holders.iter().enumerate().map(holder).collect::<Vec<_>>()}" "{octaves}</dd>
        </div>
    }
    .into_any()
}

/// A list under a fold, where there is something in it.
fn lines(
    shown: Derived<Option<Together>>,
    title: &'static str,
    of: fn(&Together) -> &Vec<String>,
) -> AnyView {
    let all = move || shown.map(|shown| of(shown).clone()).unwrap_or_default();
    let item = |line: String| view! { <li>{line}</li> }.into_any();
    let part = move || {
        let items = live(move || all().into_iter().map(item).collect::<Vec<_>>());
        view! {
            <details>
                <summary>{title}</summary>
                <ul class="plain">{items}</ul>
            </details>
        }
        .into_any()
    };
    when(move || !all().is_empty(), part).into_any()
}
