//! The staves of a question.

use crate::browser::measure;
use crate::components::live::live;
use crate::components::system_view::pixels;
use crate::state::kept::{Derived, Watched};
use crate::state::practise::picture::QuestionPicture;
use crate::state::score_sheet::{Room, SheetSystem};
use crate::state::session::Session;
use crate::words;
use crookwise_practice::Question;
use leptos::html::Div;
use leptos::prelude::*;

/// The page of a question, as wide as there is room; `wall` for the back row.
pub fn question_page(question: Derived<Option<Question>>, wall: bool) -> AnyView {
    let Session { names, .. } = Session::get();
    let width = Watched::new((measure::window_width() - 90.0).min(900.0));
    let element = NodeRef::<Div>::new();
    measure::follow_room(element, move |now, _| width.set(now));
    let picture = Derived::new(move || {
        let room = Room { wall, ..Room::wide(width.get()) };
        question.map(|question| QuestionPicture::of(question, names.get(), room))
    });
    let name = live(move || {
        let names = names.get();
        question.map(|question| words::practise::page(question, names))
    });
    let systems = live(move || {
        let systems =
            picture.map(|picture| picture.sheet.systems.iter().map(|one| system(picture, one)).collect());
        systems.unwrap_or_else(Vec::new)
    });
    view! {
        <div class="question-page" role="img" aria-label=name node_ref=element>{systems}</div>
    }
    .into_any()
}

/// One system of a picture that only shows.
pub fn system(picture: &QuestionPicture, system: &SheetSystem) -> AnyView {
    let margin = picture.sheet.margin;
    let band = picture.asked.1.and_then(|column| system.left(column)).map(|left| {
        let (left, width) = (pixels(margin + left), pixels(system.column));
        view! { <div class="band" style:left=left style:width=width></div> }.into_any()
    });
    let player = |at: usize, over: bool| {
        let (number, _) =
            picture.player.as_ref().filter(|(_, up)| *up == over && picture.asked.0 == Some(at))?;
        let left = picture.asked.1.and_then(|column| system.left(column))?;
        let (left, width) = (pixels(left), pixels(system.column));
        Some(
            view! { <p class="player-mark" style:margin-left=left style:width=width>{number.clone()}</p> }
                .into_any(),
        )
    };
    let staff = |(at, written): (usize, &crate::state::score_sheet::StaffPicture)| {
        view! {
            <div class="staff-block">
                {label(picture, at)}
                <div>
                    {player(at, true)}
                    <div class="picture" inner_html=written.svg.to_string()></div>
                    {player(at, false)}
                </div>
            </div>
        }
        .into_any()
    };
    let staves: Vec<AnyView> = system.written.iter().enumerate().map(staff).collect();
    let class = if margin > 0.0 { "system several margined" } else { "system several" };
    view! { <div class=class style=("--margin", pixels(margin))>{band}{staves}</div> }.into_any()
}

/// The label of a staff, and what is said beside it.
pub fn label(picture: &QuestionPicture, at: usize) -> AnyView {
    let asked = picture.asked.0 == Some(at) && picture.labels.len() > 1;
    let class = if asked { "asked-label asked" } else { "asked-label" };
    let beside = picture
        .beside
        .get(at)
        .filter(|words| !words.is_empty())
        .map(|words| view! { <span class="beside-label">{words.clone()}</span> }.into_any());
    view! { <p class=class>{picture.labels.get(at).cloned()} " " {beside}</p> }.into_any()
}
